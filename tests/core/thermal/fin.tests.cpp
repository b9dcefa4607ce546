// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/fin.h"

#include <limits>

#include "support.h"

using namespace sunspool;
using namespace sunspool::thermal;
using namespace sunspool::thermal::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// Duffie & Beckman, 4th ed., Ex. 6.5.1.
FinnedTube bookFin() {
  FinnedTube tube;
  tube.loss = wattsPerSquareMetreKelvin(8);
  tube.plateConductivity = wattsPerMetreKelvin(385);
  tube.plateThickness = millimetres(0.5);
  tube.pitch = millimetres(150);
  tube.outsideDiameter = tube.insideDiameter = millimetres(10);
  tube.film = wattsPerSquareMetreKelvin(300);
  return tube;
}

OpenAbsorber openAbsorber() {
  OpenAbsorber open;
  open.absorptance = open.emittance = 0.95;
  open.irradiance = Irradiance::fromSi(950);
  open.air = celsius(30);
  open.sky = celsius(14);
  open.wind = wattsPerSquareMetreKelvin(5.8);
  return open;
}
GlazedAbsorber glazedAbsorber() {
  GlazedAbsorber glazed;
  glazed.transmittanceAbsorptance = 0.80;
  glazed.irradiance = Irradiance::fromSi(1000);
  glazed.air = celsius(30);
  glazed.wind = wattsPerSquareMetreKelvin(10);
  glazed.other = wattsPerSquareMetreKelvin(1);
  glazed.tilt = degrees(25);
  return glazed;
}

}  // namespace

TEST_CASE("Fin efficiency and F' of the book's plate", "[thermal][fin][reference]") {
  // Duffie & Beckman, 4th ed., Ex. 6.5.1: 0.937 and 0.841 (from memory), evaluated to four digits.
  const auto fin = finnedTube(bookFin());
  REQUIRE(fin);
  CHECK_THAT(fin->parameter_1_m, WithinAbs(6.4466, 6e-5));
  CHECK_THAT(fin->finEfficiency, WithinAbs(0.9372, 6e-5));
  CHECK_THAT(fin->efficiencyFactor, WithinAbs(0.8406, 6e-5));
}

TEST_CASE("F' of a close-packed mat, and the wall of a tube", "[thermal][fin][reference]") {
  // Evaluated from Duffie & Beckman, 4th ed., section 6.5 without fin and with the wall; five digits.
  const auto mat = matEfficiencyFactor(wattsPerSquareMetreKelvin(20), millimetres(16), millimetres(16), millimetres(13),
                                       wattsPerMetreKelvin(0.33), wattsPerSquareMetreKelvin(3000));
  CHECK_THAT(*mat, WithinAbs(0.96650, 5e-6));
  const auto k = wattsPerMetreKelvin(0.33);
  CHECK_THAT(*wallResistance_mK_W(millimetres(16), millimetres(13), k), WithinAbs(0.10014, 5e-6));
  CHECK_THAT(*wallResistance_mK_W(millimetres(22), millimetres(19), k), WithinAbs(0.07071, 5e-6));
}

TEST_CASE("A finned tube without fin and bond is the mat without wall", "[thermal][fin][analytic]") {
  FinnedTube tube = bookFin();
  tube.pitch = tube.outsideDiameter;
  const auto fin = finnedTube(tube);
  REQUIRE(fin);
  CHECK(fin->finEfficiency == 1.0);
  const auto mat = matEfficiencyFactor(tube.loss, tube.pitch, tube.outsideDiameter, tube.insideDiameter,
                                       wattsPerMetreKelvin(1.0), tube.film);
  CHECK_THAT(fin->efficiencyFactor, WithinRel(*mat, 1e-12));
  tube.bondConductance_W_mK = 5.0;
  CHECK(finnedTube(tube)->efficiencyFactor < fin->efficiencyFactor);
}

TEST_CASE("Heat removal factor", "[thermal][fin][reference]") {
  // In the style of Duffie & Beckman, 4th ed., Ex. 6.7.1: 0.948, 0.797 (from memory), evaluated to four digits.
  const auto removal = heatRemoval(0.03 * 4190.0, squareMetres(2), wattsPerSquareMetreKelvin(8), 0.84065);
  REQUIRE(removal);
  CHECK_THAT(removal->capacityRatio, WithinAbs(9.345, 6e-4));
  CHECK_THAT(removal->flowFactor, WithinAbs(0.9484, 6e-5));
  CHECK_THAT(removal->removalFactor, WithinAbs(0.7972, 6e-5));
}

TEST_CASE("Outlet temperature", "[thermal][fin][reference]") {
  // Evaluated from Duffie & Beckman, 4th ed., eq. 6.6.4; six digits.
  const auto outlet = outletTemperature(celsius(26), celsius(25), Irradiance::fromSi(750), wattsPerSquareMetreKelvin(8),
                                        0.95, squareMetres(2), 0.1 * 4180.0);
  CHECK_THAT(outlet->inCelsius(), WithinAbs(29.3121, 6e-5));
}

TEST_CASE("The heat carried away is the removal factor times the gain at inlet temperature",
          "[thermal][fin][analytic]") {
  const double flow_W_K = 55.0, s = 640.0, u = 7.0, factor = 0.9, area = 1.7;
  const auto outlet = outletTemperature(celsius(31), celsius(18), Irradiance::fromSi(s), wattsPerSquareMetreKelvin(u),
                                        factor, squareMetres(area), flow_W_K);
  const auto removal = heatRemoval(flow_W_K, squareMetres(area), wattsPerSquareMetreKelvin(u), factor);
  CHECK_THAT(flow_W_K * (outlet->inCelsius() - 31.0), WithinRel(area * removal->removalFactor * (s - u * 13.0), 1e-12));
}

TEST_CASE("Stagnation of an open absorber and of one under a cover", "[thermal][fin][reference]") {
  // Evaluated from the heat balance: alpha = eps = 0.95, 950 W/m2, air 30 C, sky 14 C, h_w 5.8: 89.0 C.
  CHECK_THAT(stagnationOpen(openAbsorber())->inCelsius(), WithinAbs(89.0, 0.06));
  // Evaluated with Klein's equation: (tau alpha) 0.80, 1000 W/m2, air 30 C, h_w 10, tilt 25, back and edge 1.0:
  // 123.7 C with U_L 8.54.
  const auto hot = stagnationGlazed(glazedAbsorber());
  REQUIRE(hot);
  CHECK_THAT(hot->absorber.inCelsius(), WithinAbs(123.7, 0.06));
  CHECK_THAT(hot->lossCoefficient_W_m2K, WithinAbs(8.54, 0.006));
}

TEST_CASE("Without sun an absorber is as warm as what it sees", "[thermal][fin][analytic]") {
  OpenAbsorber open = openAbsorber();
  open.irradiance = {};
  open.sky = open.air = celsius(12);
  CHECK_THAT(stagnationOpen(open)->inCelsius(), WithinAbs(12.0, 1e-8));
  GlazedAbsorber glazed = glazedAbsorber();
  glazed.irradiance = {};
  CHECK_THAT(stagnationGlazed(glazed)->absorber.inCelsius(), WithinAbs(30.0, 1e-12));
}

TEST_CASE("Warm-up of a lump", "[thermal][fin][reference]") {
  // Evaluated from T(t) = T_inf - (T_inf - T_0) exp(-t/tau): C 15 kJ/m2K, U 8, S 700, air 25 C.
  const auto lump = warmUp(15e3, wattsPerSquareMetreKelvin(8), Irradiance::fromSi(700), celsius(25));
  REQUIRE(lump);
  CHECK_THAT(lump->final.inCelsius(), WithinAbs(112.5, 1e-9));
  CHECK_THAT(lump->timeConstant.si(), WithinAbs(1875.0, 1e-9));
  CHECK_THAT(timeToReach(*lump, celsius(25), celsius(35))->si(), WithinAbs(227.6, 0.06));
  checkRefused(timeToReach(*lump, celsius(25), celsius(113)), "wanted");
  checkRefused(timeToReach(*lump, celsius(25), celsius(20)), "wanted");
}

TEST_CASE("Impossible fins and absorbers are refused by name", "[thermal][fin][analytic]") {
  FinnedTube tube = bookFin();
  tube.pitch = millimetres(5);
  checkRefused(finnedTube(tube), "pitch");
  tube = bookFin();
  tube.insideDiameter = millimetres(11);
  checkRefused(finnedTube(tube), "inside_diameter");
  const auto u = wattsPerSquareMetreKelvin(5), film = wattsPerSquareMetreKelvin(100);
  checkRefused(
      matEfficiencyFactor(u, millimetres(16), millimetres(13), millimetres(16), wattsPerMetreKelvin(0.3), film),
      "inside_diameter");
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  checkRefused(heatRemoval(0.0, squareMetres(1), u, 0.9), "heat_capacity_flow");
  checkRefused(heatRemoval(10.0, squareMetres(1), u, nothing), "efficiency_factor");
  OpenAbsorber open = openAbsorber();
  open.wind = {};
  checkRefused(stagnationOpen(open), "wind_coefficient");
  checkRefused(warmUp(0.0, u, Irradiance::fromSi(700), celsius(20)), "capacity");
}
