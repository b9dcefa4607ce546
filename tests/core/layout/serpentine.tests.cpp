// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/serpentine.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "tests/core/layout/panels.h"

using namespace sunspool;
using namespace sunspool::layout;
using namespace sunspool::layout::test;
using Catch::Matchers::WithinAbs;

namespace {

model::Document plain(model::Document document, double pitch_m) {
  document.laying.recipe = model::Recipe::PlainSerpentine;
  document.laying.pitch = metres(pitch_m);
  return document;
}

}  // namespace

TEST_CASE("Ten passes of 1.8 m at 0.3 m are 22.241 m of tube", "[layout][serpentine][analytic]") {
  // N s + (N - 1) pi p / 2, evaluated from the equation; here the first and the last pass also reach on to the border.
  const detail::SerpentineRule rule{{2.1, 2.7, 0.04, 0.3, 0.15}};
  REQUIRE(detail::mostTurns(rule) == 10);
  const auto runs = detail::layRuns(rule, 10);
  REQUIRE(runs.has_value());
  const double turns = runs->front().turnsTo_m - runs->front().turnsFrom_m;
  CHECK_THAT(turns - 2.0 * 0.15, WithinAbs(22.24115, 5e-6));
  CHECK_THAT(turns, WithinAbs(detail::turnsLength(rule, 10), 1e-12));
}

TEST_CASE("Tube of 160 mm radius at 26 mm pitch is refused as a plain serpentine, naming 320 mm",
          "[layout][serpentine][refusal]") {
  const auto laid = lay(plain(firstPanel(), 0.026));
  REQUIRE_FALSE(laid.has_value());
  const Error& error = laid.error();
  CHECK(error.code == ErrorCode::CannotBendPlain);
  CHECK_THAT(fact(error, "pitch"), WithinAbs(0.026, 1e-15));
  CHECK_THAT(fact(error, "plain_pitch"), WithinAbs(0.320, 1e-15));
  CHECK_THAT(fact(error, "bulb_pitch"), WithinAbs(0.173, 1e-15));

  const auto serpentine = lay(plain(firstPanel(), 0.320));
  REQUIRE(serpentine.has_value());
  CHECK_THAT(fact(error, "serpentine_length"), WithinAbs(turnsLength(serpentine->runs.front()), 1e-12));
  model::Document asSpiral = firstPanel();
  asSpiral.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  const auto spiral = lay(asSpiral);
  REQUIRE(spiral.has_value());
  // The end of a spiral is a grazing approach: the last bit of the pitch moves it by far more than itself.
  CHECK_THAT(fact(error, "spiral_length"), WithinAbs(turnsLength(spiral->runs.front()), 1e-6));
}

TEST_CASE("A spiral of the class panel holds about five times the tube of its hairpins",
          "[layout][serpentine][reference]") {
  // Hand figures: 3 passes of 0.58 m with two half circles of 110 mm, 2.43 m, or 2.65 m with free ends to the margin;
  // 13.2 m as a spiral; 5.0 to 5.5 times the hairpins.
  const auto refused = lay(plain(classPanel(), 0.022));
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().code == ErrorCode::CannotBendPlain);
  CHECK_THAT(fact(refused.error(), "plain_pitch"), WithinAbs(0.220, 1e-15));
  const double hairpins = 3.0 * 0.58 + 2.0 * std::numbers::pi * 0.11;
  CHECK_THAT(fact(refused.error(), "serpentine_length"), WithinAbs(hairpins + 2.0 * 0.11, 1e-12));
  CHECK_THAT(fact(refused.error(), "spiral_length"), WithinAbs(13.2, 0.1));
  CHECK(fact(refused.error(), "spiral_length") > 5.0 * hairpins);
  CHECK(fact(refused.error(), "spiral_length") < 5.5 * hairpins);
}

TEST_CASE("Passes run along the longer side and the ports lie in line with the first and the last",
          "[layout][serpentine]") {
  const auto laid = lay(plain(classPanel(), 0.220));
  REQUIRE(laid.has_value());
  REQUIRE(laid->runs.size() == 1);
  const LaidRun& run = laid->runs.front();
  CHECK(run.quarterTurns == 3);
  CHECK(laid->mostQuarterTurns == 3);
  CHECK(run.feed.side == Side::Bottom);
  CHECK_THAT(run.feed.at.x, WithinAbs(0.030, 1e-12));
  CHECK(run.returning.side == Side::Top);
  CHECK_THAT(run.returning.at.x, WithinAbs(0.470, 1e-12));
  CHECK_THAT(laid->smallestSpacing_m, WithinAbs(0.220, 1e-9));
  CHECK(laid->coreLower == laid->coreUpper);
}

TEST_CASE("A serpentine takes the passes it is asked for and refuses more than fit", "[layout][serpentine]") {
  model::Document document = plain(firstPanel(), 0.320);
  document.laying.quarterTurns = 2;
  const auto two = lay(document);
  REQUIRE(two.has_value());
  CHECK(two->runs.front().quarterTurns == 2);
  CHECK(two->runs.front().returning.side == Side::Left);
  document.laying.quarterTurns = 5;
  const auto five = lay(document);
  REQUIRE_FALSE(five.has_value());
  CHECK(five.error().code == ErrorCode::TurnsDoNotFit);
  CHECK(fact(five.error(), "asked") == 5.0);
  CHECK(fact(five.error(), "most") == 4.0);
}

TEST_CASE("A serpentine has one start and no shifts", "[layout][serpentine][refusal]") {
  model::Document document = plain(firstPanel(), 0.320);
  document.laying.starts = 2;
  CHECK(lay(document).error().code == ErrorCode::NoRunFits);
  document.laying.starts = 1;
  document.laying.feedShift = millimetres(10.0);
  CHECK(lay(document).error().code == ErrorCode::CrossingHasNoPlace);
}

namespace {

model::Document bulbs(double pitch_m) {
  model::Document document = firstPanel();
  document.laying.recipe = model::Recipe::BulbSerpentine;
  document.laying.pitch = metres(pitch_m);
  return document;
}

}  // namespace

TEST_CASE("A bulb turn of 160 mm between passes 173 mm apart is 364 mm deep and 945 mm long",
          "[layout][serpentine][bulb][analytic]") {
  // cos a = (1 + s/(2R))/2, depth 2 R sin a + R, length R (pi + 4a); evaluated from the equations.
  const detail::Bulb bulb = detail::bulbOf(0.173, 0.160);
  CHECK_THAT(std::cos(bulb.swing), WithinAbs(0.7703125, 1e-12));
  CHECK_THAT(bulb.depth_m, WithinAbs(0.36405, 1e-5));
  CHECK_THAT(bulb.length_m, WithinAbs(0.94519, 1e-5));
  // At twice the radius nothing swings.
  const detail::Bulb half = detail::bulbOf(0.320, 0.160);
  CHECK_THAT(half.swing, WithinAbs(0.0, 1e-7));
  CHECK_THAT(half.length_m, WithinAbs(0.160 * std::numbers::pi, 1e-7));
}

TEST_CASE("Passes with bulb turns keep radius, joints and the distance of their bulbs", "[layout][serpentine][bulb]") {
  const auto laid = lay(bulbs(0.173));
  REQUIRE(laid.has_value());
  const LaidRun& run = laid->runs.front();
  // Height of centre lines 1.100 m less what the outer bulbs swing out, 2 (R - s/2): 5 steps of 173 mm.
  CHECK(run.quarterTurns == 6);
  CHECK(run.smallestRadius_m == 0.160);
  CHECK(run.path.largestGap() < 1e-12);
  CHECK(run.path.largestTangentError() < 1e-9);
  CHECK_THAT(laid->smallestSpacing_m, WithinAbs(2.0 * 0.173 - 2.0 * 0.160, 1e-9));
  const detail::SerpentineRule rule{{2.260, 1.100, 0.040, 0.173, 0.160}, detail::Turn::Bulb};
  CHECK_THAT(turnsLength(run), WithinAbs(detail::turnsLength(rule, 6), 1e-12));
  CHECK_THAT(turnsLength(run), WithinAbs(6.0 * 2.260 + 5.0 * (0.94519 - 2.0 * 0.36405), 2e-4));
  const geometry::Box box = run.path.slice(run.turnsFrom_m, run.turnsTo_m).bounds();
  CHECK_THAT(box.lower.y, WithinAbs(0.040, 1e-9));
  CHECK(box.upper.x <= 2.340 - 0.040 + 1e-9);
}

TEST_CASE("Bulb turns hold more than plain ones and far less than a spiral", "[layout][serpentine][bulb][reference]") {
  // Shares of 1.8 x 0.8 m at pitch 16, radius 100: plain p/(2R) = 0.08, with bulbs 0.11 to 0.16 counting the turns, a
  // spiral 0.80 (formulas and own evaluation).
  model::Document document = firstPanel();
  document.tube.outsideDiameter.value = millimetres(16.0);
  document.frame.insideWidth = millimetres(1800.0);
  document.frame.insideHeight = millimetres(800.0);
  document.laying.margin = metres(0.0);
  document.laying.bendRadius = millimetres(100.0);
  document.laying.recipe = model::Recipe::BulbSerpentine;
  document.laying.pitch = millimetres(108.0);
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  const double fill = 0.016 * turnsLength(laid->runs.front()) / (1.8 * 0.8);
  INFO("fill " << fill);
  CHECK(fill > 0.11);
  CHECK(fill < 0.18);
}

TEST_CASE("Bulbs that would overlap are refused with the pitch at which they touch",
          "[layout][serpentine][bulb][refusal]") {
  const auto laid = lay(bulbs(0.026));
  REQUIRE_FALSE(laid.has_value());
  CHECK(laid.error().code == ErrorCode::CannotBendBulbs);
  CHECK_THAT(fact(laid.error(), "least_pitch"), WithinAbs(0.170, 1e-12));
  CHECK_THAT(fact(laid.error(), "bulb_pitch"), WithinAbs(0.173, 1e-12));
  const auto there = lay(bulbs(0.173));
  REQUIRE(there.has_value());
  CHECK_THAT(fact(laid.error(), "serpentine_length"), WithinAbs(turnsLength(there->runs.front()), 1e-9));
  CHECK(fact(laid.error(), "spiral_length") > 5.0 * fact(laid.error(), "serpentine_length"));
  const auto touching = lay(bulbs(0.170));
  REQUIRE(touching.has_value());
  CHECK_THAT(touching->smallestSpacing_m, WithinAbs(0.020, 1e-9));
  CHECK_FALSE(lay(bulbs(0.1699)).has_value());
  model::Document two = bulbs(0.173);
  two.laying.starts = 2;
  REQUIRE_FALSE(lay(two).has_value());
  CHECK(lay(two).error().code == ErrorCode::NoRunFits);
}

TEST_CASE("From twice the radius on a serpentine with bulbs is the plain one", "[layout][serpentine][bulb]") {
  const auto wide = lay(bulbs(0.320));
  const auto same = lay(plain(firstPanel(), 0.320));
  REQUIRE(wide.has_value());
  REQUIRE(same.has_value());
  CHECK(wide->runs.front().path == same->runs.front().path);
}

TEST_CASE("A field too short for two bulbs has one turn, too short for one a single pass",
          "[layout][serpentine][bulb][analytic]") {
  const double depth = detail::bulbOf(0.173, 0.160).depth_m;
  detail::SerpentineRule rule{{2.0 * depth, 0.7, 0.04, 0.173, 0.160}, detail::Turn::Bulb};
  CHECK(detail::mostTurns(rule) == 4);
  rule.field.width_m = 2.0 * depth - 1e-6;
  CHECK(detail::mostTurns(rule) == 2);
  rule.field.width_m = depth - 1e-6;
  CHECK(detail::mostTurns(rule) == 1);
}
