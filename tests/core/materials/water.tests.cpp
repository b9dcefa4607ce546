// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/water.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <thread>
#include <vector>

using namespace sunspool;
using namespace sunspool::materials;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("Liquid water agrees with the verification table of IF97 region 1", "[materials][water][reference]") {
  // IAPWS R7-97(2012), table 5; nine digits are printed.
  struct Row {
    double t_K, p_MPa, v_m3_kg, h_kJ_kg, s_kJ_kgK, cp_kJ_kgK, w_m_s;
  };
  const Row row = GENERATE(Row{300, 3, 0.100215168e-2, 0.115331273e3, 0.392294792, 0.417301218e1, 0.150773921e4},
                           Row{300, 80, 0.971180894e-3, 0.184142828e3, 0.368563852, 0.401008987e1, 0.163469054e4},
                           Row{500, 3, 0.120241800e-2, 0.975542239e3, 0.258041912e1, 0.465580682e1, 0.124071337e4});
  const auto state = liquidStateAt(Temperature::fromKelvin(row.t_K), pascals(row.p_MPa * 1e6));
  REQUIRE(state);
  const double digits = 1e-8;
  CHECK_THAT(1.0 / state->density.si(), WithinRel(row.v_m3_kg, digits));
  CHECK_THAT(state->enthalpy_J_kg * 1e-3, WithinRel(row.h_kJ_kg, digits));
  CHECK_THAT(state->entropy_J_kgK * 1e-3, WithinRel(row.s_kJ_kgK, digits));
  CHECK_THAT(state->specificHeat.si() * 1e-3, WithinRel(row.cp_kJ_kgK, digits));
  CHECK_THAT(state->soundSpeed_m_s, WithinRel(row.w_m_s, digits));
}

TEST_CASE("Saturation pressure agrees with the verification tables of IF97 region 4", "[materials][water][reference]") {
  // IAPWS R7-97(2012), table 35 (pressure) and table 36 (temperature); nine digits.
  CHECK_THAT(saturationPressure(Temperature::fromKelvin(300))->si(), WithinRel(0.353658941e-2 * 1e6, 1e-8));
  CHECK_THAT(saturationPressure(Temperature::fromKelvin(500))->si(), WithinRel(0.263889776e1 * 1e6, 1e-8));
  CHECK_THAT(saturationPressure(Temperature::fromKelvin(600))->si(), WithinRel(0.123443146e2 * 1e6, 1e-8));
  CHECK_THAT(boilingTemperature(pascals(0.1e6))->inKelvin(), WithinRel(0.372755919e3, 1e-8));
  CHECK_THAT(boilingTemperature(pascals(1e6))->inKelvin(), WithinRel(0.453035632e3, 1e-8));
  CHECK_THAT(boilingTemperature(pascals(10e6))->inKelvin(), WithinRel(0.584149488e3, 1e-8));
}

TEST_CASE("Boiling temperature is the inverse of saturation pressure", "[materials][water][property]") {
  for (double t_K = 273.15; t_K <= 640.0; t_K += 1.37) {
    const auto pressure = saturationPressure(Temperature::fromKelvin(t_K));
    REQUIRE(pressure);
    const auto back = boilingTemperature(*pressure);
    REQUIRE(back);
    // Both equations are roots of one bi-quadratic; rounding is amplified towards the cold end.
    CHECK_THAT(back->inKelvin(), WithinAbs(t_K, 1e-8));
  }
}

TEST_CASE("Viscosity agrees with the verification table of R12-08", "[materials][water][reference]") {
  // IAPWS R12-08, table 4: no critical term; microPa s.
  CHECK_THAT(viscosityAt(Temperature::fromKelvin(298.15), kilogramsPerCubicMetre(998))->si() * 1e6,
             WithinRel(889.735100, 1e-8));
  CHECK_THAT(viscosityAt(Temperature::fromKelvin(373.15), kilogramsPerCubicMetre(1000))->si() * 1e6,
             WithinRel(307.883622, 1e-8));
}

TEST_CASE("Conductivity agrees with the verification table of R15-11", "[materials][water][reference]") {
  // IAPWS R15-11, table 4: no critical term; mW/(m K).
  CHECK_THAT(conductivityAt(Temperature::fromKelvin(298.15), kilogramsPerCubicMetre(998))->si() * 1e3,
             WithinRel(607.712868, 1e-8));
}

TEST_CASE("Water at 25 C and 0.1 MPa agrees with the compact equations of SR6-08", "[materials][water][reference]") {
  // IAPWS SR6-08(2011), table of check values at 298.15 K: another set of equations fitted to the scientific
  // formulation. Tolerances are the stated agreement of IF97 with it in the liquid.
  const auto state = liquidStateAt(celsius(25), pascals(0.1e6));
  REQUIRE(state);
  CHECK_THAT(state->density.si(), WithinRel(997.047013, 2e-5));
  CHECK_THAT(state->specificHeat.si(), WithinRel(4181.44618, 5e-4));
  CHECK_THAT(state->soundSpeed_m_s, WithinRel(1496.69922, 1e-3));
  const auto water = waterAt(celsius(25));
  REQUIRE(water);
  CHECK_THAT(water->viscosity.si(), WithinRel(889.996774e-6, 2e-4));
  CHECK_THAT(water->conductivity.si(), WithinRel(0.606502308, 2e-3));  // its critical term is left out here
}

TEST_CASE("Water from 10 to 100 C has the tabulated properties", "[materials][water][reference]") {
  // Evaluated from IF97, R12-08 and R15-11 at max(0.101325 MPa, saturation); tolerance is half the last digit.
  struct Row {
    double t_C, density, cp, viscosity_uPa_s, conductivity, prandtl, expansion_1e6, saturation_kPa;
  };
  const Row row = GENERATE(Row{10, 999.702, 4195.45, 1305.90, 0.57878, 9.466, 88.1, 1.22818},
                           Row{20, 998.206, 4184.79, 1001.60, 0.59801, 7.009, 206.6, 2.33921},
                           Row{30, 995.652, 4180.02, 797.22, 0.61440, 5.424, 302.9, 4.24669},
                           Row{40, 992.224, 4178.55, 652.73, 0.62850, 4.340, 385.0, 7.38443},
                           Row{60, 983.211, 4182.76, 466.04, 0.65102, 2.994, 523.1, 19.9458},
                           Row{80, 971.803, 4195.52, 354.06, 0.66701, 2.227, 641.7, 47.4147},
                           Row{100, 958.354, 4216.65, 281.59, 0.67722, 1.753, 751.0, 101.418});
  const auto water = waterAt(celsius(row.t_C));
  REQUIRE(water);
  CHECK_THAT(water->density.si(), WithinAbs(row.density, 6e-4));
  CHECK_THAT(water->specificHeat.si(), WithinAbs(row.cp, 6e-3));
  CHECK_THAT(water->viscosity.si() * 1e6, WithinAbs(row.viscosity_uPa_s, 6e-3));
  CHECK_THAT(water->conductivity.si(), WithinAbs(row.conductivity, 6e-6));
  CHECK_THAT(water->prandtl, WithinAbs(row.prandtl, 6e-4));
  CHECK_THAT(water->expansion_1_K * 1e6, WithinAbs(row.expansion_1e6, 6e-2));
  CHECK_THAT(saturationPressure(celsius(row.t_C))->in(kilopascal), WithinRel(row.saturation_kPa, 5e-6));
}

TEST_CASE("Water agrees with an independent table of the saturated liquid", "[materials][water][reference]") {
  // NIST data in Perry's Chemical Engineers' Handbook, 9th ed., table 2-135, converted with 18.015268 g/mol.
  // Its conductivity predates R15-11, hence 0.7 %.
  struct Row {
    double t_K, density, viscosity_uPa_s, conductivity_mW_mK, saturation_kPa;
  };
  const Row row = GENERATE(Row{280, 999.87, 1433.7, 574.04, 0.992}, Row{300, 996.51, 853.84, 610.28, 3.537},
                           Row{320, 989.38, 577.02, 639.71, 10.546}, Row{360, 967.38, 326.10, 673.76, 62.194});
  const auto water = waterAt(Temperature::fromKelvin(row.t_K));
  REQUIRE(water);
  const auto saturation = saturationPressure(Temperature::fromKelvin(row.t_K));
  REQUIRE(saturation);
  const auto liquid = liquidStateAt(Temperature::fromKelvin(row.t_K), *saturation);
  REQUIRE(liquid);
  CHECK_THAT(liquid->density.si(), WithinAbs(row.density, 0.02));
  CHECK_THAT(water->viscosity.si() * 1e6, WithinRel(row.viscosity_uPa_s, 1e-3));
  CHECK_THAT(water->conductivity.si() * 1e3, WithinRel(row.conductivity_mW_mK, 7e-3));
  CHECK_THAT(saturation->in(kilopascal), WithinRel(row.saturation_kPa, 6e-4));  // three digits at 280 K
}

TEST_CASE("The form of Hyland and Wexler agrees with IF97 within 0.03 percent", "[materials][water][reference]") {
  // Evaluated from the equation with coefficients from memory.
  CHECK_THAT(saturationPressureHylandWexler(celsius(20))->in(kilopascal), WithinAbs(2.33880, 1e-5));
  CHECK_THAT(saturationPressureHylandWexler(celsius(30))->in(kilopascal), WithinAbs(4.24603, 1e-5));
  for (double t_C = 1.0; t_C < 100.0; t_C += 7.0) {
    CHECK_THAT(saturationPressureHylandWexler(celsius(t_C))->si(),
               WithinRel(saturationPressure(celsius(t_C))->si(), 3e-4));
  }
}

TEST_CASE("The table of water stays within a millionth of its equations", "[materials][water][property]") {
  double worst = 0.0;
  for (double t_C = 0.0; t_C <= 150.0; t_C += 0.0371) {
    const auto fast = waterAt(celsius(t_C));
    const auto exact = waterFromEquations(celsius(t_C));
    REQUIRE(fast);
    REQUIRE(exact);
    worst = std::max({worst, std::abs(fast->density.si() / exact->density.si() - 1.0),
                      std::abs(fast->specificHeat.si() / exact->specificHeat.si() - 1.0),
                      std::abs(fast->viscosity.si() / exact->viscosity.si() - 1.0),
                      std::abs(fast->conductivity.si() / exact->conductivity.si() - 1.0),
                      std::abs(fast->expansion_1_K - exact->expansion_1_K) * 1e3});
  }
  INFO("worst relative error " << worst);
  CHECK(worst < 1e-6);
}

TEST_CASE("Water answers the same from several threads at once", "[materials][water][property]") {
  std::vector<double> density(8, 0.0);
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < density.size(); ++i) {
    threads.emplace_back([&density, i] { density[i] = waterAt(celsius(42.42))->density.si(); });
  }
  for (auto& thread : threads) thread.join();
  for (const double value : density) CHECK(value == density.front());
}

TEST_CASE("Water outside its range is refused with the temperature", "[materials][water][analytic]") {
  for (const double t_C : {-0.01, 150.01, std::nan("")}) {
    const auto water = waterAt(celsius(t_C));
    REQUIRE_FALSE(water);
    CHECK(water.error().code == ErrorCode::OutOfRange);
    CHECK(water.error().facts.at(0).name == "temperature");
  }
  CHECK(waterAt(celsius(0.0)));
  CHECK(waterAt(celsius(150.0)));
  CHECK_FALSE(liquidStateAt(celsius(120), pascals(101325)));  // would be steam
  CHECK_FALSE(boilingTemperature(pascals(100)));
  CHECK_FALSE(saturationPressure(celsius(400)));
  CHECK_FALSE(viscosityAt(celsius(20), kilogramsPerCubicMetre(0)));
  CHECK_FALSE(conductivityAt(celsius(20), kilogramsPerCubicMetre(-1)));
}

TEST_CASE("The standard atmosphere falls with altitude as ISO 2533 says", "[materials][air][reference]") {
  // ISO 2533:1975, table of the standard atmosphere, geopotential altitude; digits as printed there.
  CHECK_THAT(airPressure(metres(0)).si(), WithinAbs(101325.0, 1e-9));
  CHECK_THAT(airPressure(metres(1000)).si(), WithinAbs(89874.6, 0.1));
  CHECK_THAT(airPressure(metres(2000)).si(), WithinAbs(79495.2, 0.1));
  CHECK_THAT(airPressure(metres(5000)).si(), WithinAbs(54019.9, 0.1));
  CHECK_THAT(airPressure(metres(11000)).si(), WithinAbs(22632.1, 0.1));
  CHECK_THAT(airPressure(metres(20000)).si(), WithinAbs(5474.89, 0.1));
  CHECK(airPressure(metres(60000)).si() > 0.0);
}
