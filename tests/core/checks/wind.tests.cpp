// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/wind.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/checks/measures.h"
#include "core/model/defaults.h"

using namespace sunspool;
using Catch::Matchers::WithinRel;

namespace {

/// A light box of 0.9 x 1.8 m outside, tilted, with a gust.
model::Document tubPanel(double gust_m_s) {
  model::Document document = model::firstPanel();
  document.frame.insideWidth = metres(1.8) - 2.0 * document.frame.timberWidth;
  document.frame.insideHeight = metres(0.9) - 2.0 * document.frame.timberWidth;
  document.siting.tilt = degrees(35.0);
  document.siting.gust = Uncertain<Velocity>{metresPerSecond(gust_m_s), {}, Sureness::Guess};
  return document;
}
results::Masses dry(double kg) {
  results::Masses masses;
  masses.dry = kilograms(kg);
  return masses;
}

}  // namespace

TEST_CASE("A gust of 33 m/s presses with 667.6 Pa and lifts 2 m2 at 1.5 with 2003 N", "[checks][wind][analytic]") {
  // q = 0.613 V^2, F = q C A, evaluated from the equation.
  const Pressure q = checks::velocityPressure(metresPerSecond(33.0), kilogramsPerCubicMetre(1.226));
  CHECK_THAT(q.si(), WithinRel(667.6, 1e-4));
  CHECK_THAT(checks::windForce(q, 1.5, metres(1.0) * metres(2.0)).si(), WithinRel(2003.0, 1e-3));
}

TEST_CASE("A typhoon of 45 m/s lifts a panel of 0.9 by 1.8 m with about 2.8 kN, a hundred times its weight's share",
          "[checks][wind][reference]") {
  // Hand calculation: q = 1.24 kPa, x 1.4 x 1.62 m2 = 2.8 kN, about 287 kg.
  const auto wind = checks::wind(tubPanel(45.0), dry(28.0));
  REQUIRE(wind);
  CHECK_THAT(wind->gustPressure.si(), WithinRel(1241.0, 1e-3));
  CHECK(wind->uplift.value.si() > 2300.0);
  CHECK(wind->uplift.value.si() < 3400.0);
  CHECK(wind->holdDownMass.value.si() == Approx(287.0 - 28.0 * std::cos(degrees(35.0).radians())).margin(2.0));
  CHECK(*wind->overturning > 10.0);
  CHECK(wind->uplift.low < wind->uplift.value);
  CHECK(wind->uplift.high > wind->uplift.value);
}

TEST_CASE("Without a gust nothing is said, and a still day needs nothing to hold the panel", "[checks][wind]") {
  model::Document document = tubPanel(0.0);
  const auto still = checks::wind(document, dry(20.0));
  REQUIRE(still);
  CHECK(still->holdDownMass.high.si() == 0.0);
  CHECK(*still->overturning == 0.0);
  document.siting.gust.reset();
  CHECK_FALSE(checks::wind(document, dry(20.0)));
}

TEST_CASE("More gust never lifts less, and twice the gust lifts four times as much", "[checks][wind][property]") {
  double before = -1.0;
  for (double gust = 0.0; gust <= 60.0; gust += 2.5) {
    const auto wind = checks::wind(tubPanel(gust), dry(20.0));
    CHECK(wind->uplift.value.si() >= before);
    CHECK(wind->uplift.low <= wind->uplift.value);
    CHECK(wind->uplift.value <= wind->uplift.high);
    before = wind->uplift.value.si();
  }
  const double one = checks::wind(tubPanel(10.0), dry(20.0))->uplift.value.si();
  CHECK_THAT(checks::wind(tubPanel(20.0), dry(20.0))->uplift.value.si(), WithinRel(4.0 * one, 1e-12));
}
