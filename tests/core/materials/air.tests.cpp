// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/air.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sunspool;
using namespace sunspool::materials;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("Dry air agrees with tables of its properties at one atmosphere", "[materials][air][reference]") {
  // Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, table A.4 (from memory).
  struct Row {
    double t_K, density, cp, viscosity, conductivity, prandtl;
  };
  const Row row =
      GENERATE(Row{300, 1.1614, 1007, 184.6e-7, 26.3e-3, 0.707}, Row{350, 0.9950, 1009, 208.2e-7, 30.0e-3, 0.700},
               Row{400, 0.8711, 1014, 230.1e-7, 33.8e-3, 0.690});
  const auto air = airAt(Temperature::fromKelvin(row.t_K), pascals(101325));
  REQUIRE(air);
  CHECK_THAT(air->density.si(), WithinRel(row.density, 0.015));  // the table divides by its own, larger R
  CHECK_THAT(air->specificHeat.si(), WithinRel(row.cp, 0.003));
  CHECK_THAT(air->viscosity.si(), WithinRel(row.viscosity, 0.01));
  CHECK_THAT(air->conductivity.si(), WithinRel(row.conductivity, 0.01));
  CHECK_THAT(air->prandtl, WithinRel(row.prandtl, 0.015));
}

TEST_CASE("Dry air at 60 C has the properties used in a published air-gap example", "[materials][air][reference]") {
  // Duffie and Beckman, Solar Engineering of Thermal Processes, 4th ed., Ex. 3.11.1: k 0.029, nu 1.88e-5,
  // alpha 2.69e-5; tolerance from the printed digits.
  const auto air = airAt(celsius(60), pascals(101325));
  REQUIRE(air);
  CHECK_THAT(air->conductivity.si(), WithinAbs(0.029, 6e-4));
  CHECK_THAT(air->kinematicViscosity_m2_s, WithinRel(1.88e-5, 0.015));
  CHECK_THAT(air->diffusivity_m2_s, WithinRel(2.69e-5, 0.015));
}

TEST_CASE("Dry air obeys the ideal gas and its own definitions", "[materials][air][analytic]") {
  const auto low = airAt(celsius(20), pascals(80000));
  const auto high = airAt(celsius(20), pascals(160000));
  REQUIRE(low);
  REQUIRE(high);
  CHECK_THAT(high->density / low->density, WithinRel(2.0, 1e-14));
  CHECK(high->viscosity == low->viscosity);
  CHECK_THAT(low->kinematicViscosity_m2_s / low->diffusivity_m2_s, WithinRel(low->prandtl, 1e-14));
  CHECK_THAT(low->expansion_1_K * 293.15, WithinRel(1.0, 1e-14));
}

TEST_CASE("The Magnus form gives the vapour pressure and its inverse the dew point", "[materials][air][reference]") {
  // Alduchov and Eskridge 1996, evaluated from the equation with constants from memory.
  CHECK_THAT(vapourPressureMagnus(celsius(25))->in(kilopascal), WithinAbs(3.16174, 6e-6));
  CHECK_THAT(dewPoint(celsius(25), 0.50)->inCelsius(), WithinAbs(13.86, 0.02));
  for (double t_C = -40.0; t_C < 50.0; t_C += 7.3) {
    CHECK_THAT(dewPoint(celsius(t_C), 1.0)->inCelsius(), WithinAbs(t_C, 1e-9));
  }
}

TEST_CASE("Air outside its range is refused", "[materials][air][analytic]") {
  CHECK(airAt(celsius(-100), pascals(101325)).error().code == ErrorCode::OutOfRange);
  CHECK_FALSE(airAt(celsius(20), pascals(0)));
  CHECK_FALSE(airAt(celsius(std::nan("")), pascals(101325)));
  CHECK_FALSE(dewPoint(celsius(25), 0.0));
  CHECK_FALSE(dewPoint(celsius(25), 1.01));
  CHECK_FALSE(vapourPressureMagnus(celsius(60)));
}
