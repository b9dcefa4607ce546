// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/tube.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sunspool;
using namespace sunspool::materials;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("The handbook bend multiple takes the row of the tube or the next worse one",
          "[materials][tube][reference]") {
  // Plastics Pipe Institute, Handbook of Polyethylene Pipe, 2nd ed., installation chapter, minimum cold bend radius.
  struct Row {
    double ratio, multiple;
  };
  const Row row =
      GENERATE(Row{7, 20}, Row{7.3, 20}, Row{9, 20}, Row{9.01, 25}, Row{11, 25}, Row{13.5, 25}, Row{14.67, 27},
               Row{17, 27}, Row{21, 27}, Row{22, 34}, Row{26, 34}, Row{32.5, 42}, Row{41, 52});
  const auto multiple = handbookBendMultiple(row.ratio);
  REQUIRE(multiple);
  CHECK(*multiple == row.multiple);
  CHECK_FALSE(handbookBendMultiple(41.1));
  CHECK_FALSE(handbookBendMultiple(2.0));
  CHECK_FALSE(handbookBendMultiple(std::nan("")));
}

TEST_CASE("Bending strain at the handbook radii", "[materials][tube][reference]") {
  // Evaluated from OD/(2R).
  CHECK_THAT(bendingStrain(millimetres(16), millimetres(20 * 16)), WithinRel(0.025, 1e-12));
  CHECK_THAT(bendingStrain(millimetres(16), millimetres(27 * 16)), WithinAbs(0.0185, 5e-5));
}

TEST_CASE("Brazier's collapse radius, moment and flattening", "[materials][tube][reference]") {
  // Evaluated from Brazier, Proc. R. Soc. A 116 (1927) 104, constants from memory; Poisson's ratio 0.45.
  const Length collapse16 = brazierCollapseRadius(millimetres(16), millimetres(1.5), 0.45);
  const Length collapse22 = brazierCollapseRadius(millimetres(22), millimetres(1.5), 0.45);
  CHECK_THAT(collapse16.in(millimetre), WithinAbs(66.38, 0.005));
  CHECK_THAT(collapse22.in(millimetre), WithinAbs(132.69, 0.005));
  CHECK_THAT(bendingStrain(millimetres(16), collapse16), WithinAbs(0.121, 5e-4));
  CHECK_THAT(ovality(bendIndex(collapse22, millimetres(300))), WithinAbs(0.0435, 5e-5));
  CHECK_THAT(brazierCollapseMoment_N_m(millimetres(16), millimetres(1.5), 0.45, pascals(200e6)),
             WithinAbs(3.607, 5e-4));
  // A panel builder's 20/16 mm tube: 77 mm.
  CHECK_THAT(brazierCollapseRadius(millimetres(20), millimetres(2), 0.45).in(millimetre), WithinAbs(77.0, 0.5));
}

TEST_CASE("Flattening at collapse is two ninths and follows curvature squared", "[materials][tube][analytic]") {
  CHECK_THAT(ovality(1.0), WithinRel(2.0 / 9.0, 1e-15));
  CHECK_THAT(ovality(0.5) / ovality(1.0), WithinRel(0.25, 1e-15));
  // zeta = kappa^2 r^4 (1 - nu^2)/t^2 written out for one tube.
  const double r = 9e-3, t = 2e-3, nu = 0.45, kappa = 1.0 / 0.160;
  const double zeta = kappa * kappa * r * r * r * r * (1 - nu * nu) / (t * t);
  const Length collapse = brazierCollapseRadius(millimetres(20), millimetres(2), nu);
  CHECK_THAT(ovality(bendIndex(collapse, millimetres(160))), WithinRel(zeta, 1e-12));
}

TEST_CASE("Apparent modulus falls with the duration of the load", "[materials][tube][reference]") {
  // Plastics Pipe Institute, Handbook of Polyethylene Pipe, 2nd ed., ch. 3, table B.1.1.
  const double year_h = 8766.0;
  const struct {
    double hours, pe2, pe3;
  } rows[] = {{0.5, 428, 538}, {2, 393, 490},      {12, 331, 414},
              {100, 290, 359}, {year_h, 207, 262}, {50 * year_h, 152, 193}};
  for (const auto& row : rows) {
    const auto duration = seconds(row.hours * 3600.0);
    CHECK_THAT(apparentModulus(PolyethyleneClass::Pe2xxx, duration)->in(megapascal), WithinRel(row.pe2, 1e-9));
    CHECK_THAT(apparentModulus(PolyethyleneClass::Pe3xxx, duration)->in(megapascal), WithinRel(row.pe3, 1e-9));
  }
  CHECK_THAT(apparentModulus(PolyethyleneClass::Pe2xxx, seconds(3600.0))->in(megapascal),
             WithinRel((428.0 + 393.0) / 2.0, 1e-9));  // 1 h is the middle of 0.5 and 2 h in the logarithm
  CHECK_FALSE(apparentModulus(PolyethyleneClass::Pe2xxx, seconds(60)));
}

TEST_CASE("The modulus multiplier follows its table of temperatures", "[materials][tube][reference]") {
  // Same handbook, table B.1.2, from memory.
  const struct {
    double t_C, multiplier;
  } rows[] = {{4, 1.49},  {10, 1.32}, {16, 1.18}, {23, 1.00}, {27, 0.93}, {32, 0.82},
              {38, 0.73}, {43, 0.64}, {49, 0.58}, {54, 0.50}, {60, 0.43}};
  for (const auto& row : rows) {
    CHECK_THAT(*modulusTemperatureMultiplier(celsius(row.t_C)), WithinAbs(row.multiplier, 1e-9));
  }
  CHECK_FALSE(modulusTemperatureMultiplier(celsius(3)));
  CHECK_FALSE(modulusTemperatureMultiplier(celsius(61)));
}

TEST_CASE("Soft tube keeps half its pressure rating at 43 C and claims none above 50 C",
          "[materials][tube][reference]") {
  // Judgement after Utah State University, Sprinkle and Trickle Irrigation, lecture 21.
  CHECK(*softTubePressureShare(celsius(5)) == 1.0);
  CHECK(*softTubePressureShare(celsius(23)) == 1.0);
  CHECK_THAT(*softTubePressureShare(celsius(33)), WithinAbs(0.75, 1e-12));
  CHECK_THAT(*softTubePressureShare(celsius(43)), WithinAbs(0.50, 1e-12));
  CHECK_THAT(softTubePressureRating(kilopascals(400), celsius(43))->in(kilopascal), WithinAbs(200.0, 1e-9));
  const auto refused = softTubePressureRating(kilopascals(400), celsius(50.5));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::OutOfRange);
  CHECK_FALSE(softTubePressureShare(celsius(std::nan(""))));
}

TEST_CASE("PE100 pressure pipe is re-rated by its table", "[materials][tube][reference]") {
  // AS/NZS 4130 as reproduced by a maker; 40 C is printed as 0.84 to 0.85.
  CHECK(*pe100PressureShare(celsius(20)) == 1.0);
  CHECK_THAT(*pe100PressureShare(celsius(30)), WithinAbs(0.94, 1e-9));
  CHECK_THAT(*pe100PressureShare(celsius(40)), WithinAbs(0.845, 5e-3));
  CHECK_THAT(*pe100PressureShare(celsius(60)), WithinAbs(0.68, 1e-9));
  CHECK_FALSE(pe100PressureShare(celsius(61)));
}

TEST_CASE("Hoop stress, collapse under suction, wall resistance and growth", "[materials][tube][reference]") {
  // Each evaluated from its equation.
  const double ratio = dimensionRatio(millimetres(22), millimetres(1.5));
  CHECK_THAT(hoopPressure(pascals(4e6), ratio).in(megapascal), WithinAbs(0.58537, 5e-6));
  CHECK_THAT(hoopStress(hoopPressure(pascals(4e6), ratio), ratio).si(), WithinRel(4e6, 1e-14));
  CHECK_THAT(collapsePressure(pascals(152e6), 0.45, 11.6).in(kilopascal), WithinAbs(320.1, 0.05));
  CHECK_THAT(collapsePressure(pascals(152e6), 0.45, 15.0).in(kilopascal), WithinAbs(138.9, 0.05));
  const auto k = wattsPerMetreKelvin(0.33);
  CHECK_THAT(wallResistance_mK_W(millimetres(16), millimetres(13), k), WithinAbs(0.10014, 5e-6));
  CHECK_THAT(wallResistance_mK_W(millimetres(22), millimetres(19), k), WithinAbs(0.07071, 5e-6));
  CHECK_THAT(thermalGrowth(metres(50), ThermalExpansion::fromSi(1.8e-4), kelvins(40)).in(millimetre),
             WithinAbs(360.0, 1e-9));
  CHECK_THAT(thermalGrowth(metres(25), ThermalExpansion::fromSi(1.62e-4), kelvins(50)).in(millimetre),
             WithinAbs(202.5, 1e-9));
}

TEST_CASE("A bore that is not smaller than the outside is refused with both numbers", "[materials][tube][analytic]") {
  CHECK_THAT(wallOf(millimetres(20), millimetres(16))->in(millimetre), WithinRel(2.0, 1e-12));
  const auto swapped = wallOf(millimetres(13), millimetres(16));
  REQUIRE_FALSE(swapped);
  CHECK(swapped.error().code == ErrorCode::InsideNotBelowOutside);
  REQUIRE(swapped.error().facts.size() == 2);
  CHECK_THAT(swapped.error().facts[0].value_si, WithinRel(16e-3, 1e-12));
  CHECK_THAT(swapped.error().facts[1].value_si, WithinRel(13e-3, 1e-12));
  CHECK_FALSE(wallOf(millimetres(16), millimetres(16)));
  CHECK_FALSE(wallOf(millimetres(16), millimetres(0)));
}
