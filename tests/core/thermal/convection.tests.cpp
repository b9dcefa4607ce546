// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/convection.h"

#include <algorithm>
#include <limits>

#include "support.h"

using namespace sunspool;
using namespace sunspool::thermal;
using namespace sunspool::thermal::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// A 13 mm bore on a coil of 400 mm centre-line diameter, water at 30 C.
constexpr double kRatio = 13.0 / 400.0;
constexpr double kPrandtl = 5.42;

Film film16(double reynolds, double prandtl, double radius_m) {
  const auto film = filmCoefficient(reynolds, prandtl, millimetres(16), metres(radius_m), wattsPerMetreKelvin(0.6));
  REQUIRE(film);
  return *film;
}

}  // namespace

TEST_CASE("Hausen's laminar entry", "[thermal][convection][reference]") {
  // Unit tests of the open-source library ht (C. Bell), eight digits (a test of the formula: this is no laminar flow).
  CHECK_THAT(*nusseltHausen(1e5, 1.1, 0.5 / 5.0), WithinRel(39.013524, 2e-8));
  // Evaluated from the equation: Re 1000, Pr 5.42, 13 mm, 2 m; five digits.
  CHECK_THAT(*nusseltHausen(1000.0, kPrandtl, 0.013 / 2.0), WithinAbs(5.3059, 5e-5));
}

TEST_CASE("Sieder and Tate's laminar entry", "[thermal][convection][reference]") {
  // Unit tests of the open-source library ht (C. Bell), eight digits.
  CHECK_THAT(*nusseltSiederTate(1e5, 1.1, 0.5 / 5.0, 1.0), WithinRel(41.366030, 2e-8));
}

TEST_CASE("Gnielinski's turbulent tube", "[thermal][convection][reference]") {
  // Unit tests of the open-source library ht (C. Bell), nine digits.
  CHECK_THAT(*nusseltGnielinski(1e5, 1.2, 0.0185), WithinRel(254.626827, 3e-9));
  // Evaluated from the equations with Petukhov's friction factor; five digits.
  CHECK_THAT(*frictionFactorSmooth(1e4), WithinAbs(0.031480, 5e-7));
  CHECK_THAT(*nusseltGnielinski(1e4, kPrandtl, *frictionFactorSmooth(1e4)), WithinAbs(72.121, 5e-4));
}

TEST_CASE("Dittus and Boelter's turbulent tube, heating", "[thermal][convection][reference]") {
  // Unit tests of the open-source library ht (C. Bell), nine digits.
  CHECK_THAT(*nusseltDittusBoelter(1e5, 1.2), WithinRel(247.400364, 3e-9));
}

TEST_CASE("Manlapaz and Churchill's laminar coil", "[thermal][convection][reference]") {
  // Evaluated from the equations of the paper (uniform wall temperature from memory): Re 1000, De 180.28; five digits.
  CHECK_THAT(*nusseltCoilLaminar(1000.0, kPrandtl, kRatio, WallCondition::UniformFlux), WithinAbs(15.882, 5e-4));
  CHECK_THAT(*nusseltCoilLaminar(1000.0, kPrandtl, kRatio, WallCondition::UniformTemperature), WithinAbs(14.379, 5e-4));
}

TEST_CASE("Schmidt's turbulent coil and its critical Reynolds number", "[thermal][convection][reference]") {
  // Unit tests of the open-source library ht (C. Bell), six digits.
  CHECK_THAT(*nusseltCoilTurbulent(2e5, 0.7, 0.05), WithinRel(466.257, 2e-6));
  // Evaluated from the equation; four digits.
  CHECK_THAT(*nusseltCoilTurbulent(1e4, kPrandtl, kRatio), WithinAbs(89.29, 5e-3));
  // Unit tests of the open-source library fluids (C. Bell): Schmidt's critical number, six digits and more.
  CHECK_THAT(*criticalReynoldsCoil(1.0 / 7.0), WithinRel(10540.09, 1e-6));
  CHECK_THAT(*criticalReynoldsCoil(0.02 / 0.5), WithinRel(6946.79, 1e-6));
}

TEST_CASE("A straight tube in slow flow has the laminar number of uniform flux", "[thermal][convection][analytic]") {
  CHECK(nusseltLaminar(WallCondition::UniformFlux) == 4.364);
  CHECK(nusseltLaminar(WallCondition::UniformTemperature) == 3.66);
  const Film film = film16(1500.0, 6.0, 0.0);
  CHECK(film.regime == FilmRegime::Laminar);
  CHECK_THAT(film.coefficient_W_m2K, WithinRel(4.364 * 0.6 / 0.016, 1e-12));
  // A very wide bend is a straight: Dean number 0.2 at 400 km.
  CHECK_THAT(film16(1500.0, 6.0, 4e5).nusselt, WithinRel(4.364, 1e-3));
}

TEST_CASE("The film picks Gnielinski when straight and turbulent, Schmidt in a bend",
          "[thermal][convection][analytic]") {
  const Film straight = film16(9000.0, 6.0, 0.0);
  CHECK(straight.regime == FilmRegime::Turbulent);
  CHECK_THAT(straight.nusselt, WithinRel(*nusseltGnielinski(9000.0, 6.0, *frictionFactorSmooth(9000.0)), 1e-12));
  // d/D = 0.05: critical number 7437, turbulent from 12 934 on.
  const Film bend = film16(15000.0, 6.0, 0.16);
  CHECK(bend.regime == FilmRegime::Turbulent);
  CHECK_THAT(bend.nusselt, WithinRel(*nusseltCoilTurbulent(15000.0, 6.0, 0.05), 1e-12));
  CHECK_THAT(bend.laminarBelow, WithinRel(*criticalReynoldsCoil(0.05), 1e-12));
  CHECK(film16(10000.0, 6.0, 0.16).regime == FilmRegime::Blended);
  // At Re 3000 the bend is still laminar, and there better than a straight laminar tube by far.
  const Film slow = film16(3000.0, 6.0, 0.16);
  CHECK(slow.regime == FilmRegime::Laminar);
  CHECK(slow.nusselt > 4.0 * 4.364);
}

TEST_CASE("The film has no jump anywhere", "[thermal][convection][property]") {
  const double radius_m = GENERATE(0.0, 0.02, 0.16, 3.0, 500.0);
  const double prandtl = GENERATE(1.8, 6.0, 13.0);
  // The steepest honest slope is that of the blend in a straight tube: at Prandtl 13 from 4.4 to about 55 between Re
  // 2300 and 4000, ln Nu against ln Re 16. A jump of 1e-4 would still stand out.
  constexpr double kStep = 2e-6, kSteepest = 20.0;
  int jumps = 0;
  double worst = 0.0;
  const double seams[] = {2300.0, 4000.0, 20000.0, 22000.0, 24000.0};
  const double critical = *criticalReynoldsCoil(radius_m > 0.0 ? 0.016 / (2.0 * radius_m) : 0.0);
  std::vector<double> places(std::begin(seams), std::end(seams));
  places.push_back(critical);
  places.push_back(critical * 4000.0 / 2300.0);
  for (double reynolds = 10.0; reynolds < 2e5; reynolds *= 1.01) places.push_back(reynolds);
  for (const double place : places) {
    const double before = film16(place * (1.0 - kStep), prandtl, radius_m).nusselt;
    const double after = film16(place * (1.0 + kStep), prandtl, radius_m).nusselt;
    const double change = std::abs(after / before - 1.0);
    worst = std::max(worst, change);
    if (change > 2.0 * kStep * kSteepest) ++jumps;
  }
  CAPTURE(radius_m, prandtl, worst);
  CHECK(jumps == 0);
}

TEST_CASE("More flow never worsens the film beyond the seam of Schmidt's two branches",
          "[thermal][convection][property]") {
  const double radius_m = GENERATE(0.0, 0.05, 0.16, 1.0);
  double best = 0.0, worstShare = 1.0;
  for (double reynolds = 10.0; reynolds < 2e5; reynolds *= 1.003) {
    const double now = film16(reynolds, 6.0, radius_m).nusselt;
    worstShare = std::min(worstShare, now / std::max(best, 1e-300));
    best = std::max(best, now);
  }
  // The branches differ by a few per cent where they meet; between them the film may stand still, not fall.
  CAPTURE(radius_m, worstShare);
  CHECK(worstShare > 0.995);
}

TEST_CASE("What leaves the range of a correlation is refused by name", "[thermal][convection][analytic]") {
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  checkRefused(nusseltGnielinski(2999.0, 5.0, 0.03), "reynolds");
  checkRefused(nusseltGnielinski(1e4, 0.4, 0.03), "prandtl");
  checkRefused(nusseltDittusBoelter(9000.0, 5.0), "reynolds");
  checkRefused(nusseltHausen(nothing, 5.0, 0.01), "reynolds");
  checkRefused(nusseltSiederTate(100.0, 5.0, 0.0, 1.0), "diameter_over_length");
  checkRefused(nusseltCoilLaminar(100.0, 5.0, 0.6, WallCondition::UniformFlux), "diameter_ratio");
  checkRefused(nusseltCoilTurbulent(1e4, 5.0, 0.0), "diameter_ratio");
  checkRefused(criticalReynoldsCoil(-0.1), "diameter_ratio");
  const auto water = wattsPerMetreKelvin(0.6);
  checkRefused(filmCoefficient(1e4, 5.0, millimetres(16), millimetres(15), water), "diameter_ratio");
  checkRefused(filmCoefficient(1e4, 5.0, millimetres(16), millimetres(-5), water), "bend_radius");
  checkRefused(filmCoefficient(0.0, 5.0, millimetres(16), metres(0), water), "reynolds");
}
