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
