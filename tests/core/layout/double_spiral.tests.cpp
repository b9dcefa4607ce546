// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "tests/core/layout/panels.h"

using namespace sunspool;
using namespace sunspool::layout;
using namespace sunspool::layout::test;
using Catch::Matchers::WithinAbs;
using std::numbers::pi;

namespace {

model::Document doubleSpiral() {
  model::Document document = firstPanel();
  document.laying.recipe = model::Recipe::DoubleSpiral;
  return document;
}

LaidPanel laidPanel(const model::Document& document) {
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  return *laid;
}

Error refusal(const model::Document& document) {
  const auto laid = lay(document);
  REQUIRE_FALSE(laid.has_value());
  return laid.error();
}

/// Box whose centre lines may take width x height, both in millimetres.
model::Document boxed(double width_mm, double height_mm, double tube_mm, double pitch_mm, double radius_mm) {
  model::Document document = doubleSpiral();
  document.tube.outsideDiameter.value = millimetres(tube_mm);
  document.frame.insideWidth = millimetres(width_mm + tube_mm);
  document.frame.insideHeight = millimetres(height_mm + tube_mm);
  document.laying.margin = metres(0.0);
  document.laying.pitch = millimetres(pitch_mm);
  document.laying.bendRadius = millimetres(radius_mm);
  return document;
}

double tangentTurned(const LaidRun& run, double sign) {
  double turned = 0.0;
  const geometry::Path inside = run.path.slice(run.insideFrom_m, run.insideTo_m);
  for (const geometry::Piece& piece : inside.pieces()) {
    const auto* arc = std::get_if<geometry::Arc>(&piece);
    if (arc && arc->sweep * sign > 0.0) turned += std::abs(arc->sweep);
  }
  return turned;
}

}  // namespace

TEST_CASE("A double spiral of three sides is a hairpin with an S of two half turns",
          "[layout][double_spiral][analytic]") {
  // Bottom, right and top, back along the bottom: facing lines 4R apart, so that both turns are half circles of R.
  const double radius = 0.1, pitch = 0.02;
  model::Document document = boxed(1500.0, 420.0, 16.0, 20.0, 100.0);
  document.laying.quarterTurns = 3;
  const LaidPanel panel = laidPanel(document);
  REQUIRE(panel.runs.size() == 1);
  const LaidRun& run = panel.runs.front();
  // Circles in opposite corners of the core: x from the left border and from the right leg less a pitch.
  const double apart = std::hypot(1.5 - pitch - 2.0 * radius, 0.4 - 2.0 * radius);
  const double tangent = std::sqrt(apart * apart - 4.0 * radius * radius);
  const double angle = pi - std::atan2(0.2, 1.5 - pitch - 2.0 * radius) + std::asin(2.0 * radius / apart);
  const double around =
      1.5 - radius + pi / 2.0 * radius + (0.42 - 2.0 * radius) + pi / 2.0 * radius + 1.5 - 2.0 * radius;
  const double back = 1.5 - pitch - radius;
  CHECK_THAT(turnsLength(run), WithinAbs(around + back + 2.0 * radius * angle + tangent, 1e-9));
  CHECK(run.smallestRadius_m == radius);
  CHECK(panel.smallestSpacing_m >= pitch - 1e-9);
}

TEST_CASE("Both ends of a double spiral lie side by side at the start corner", "[layout][double_spiral]") {
  model::Document document = doubleSpiral();
  for (const auto corner : {model::StartCorner::LowerLeft, model::StartCorner::LowerRight,
                            model::StartCorner::UpperRight, model::StartCorner::UpperLeft}) {
    document.laying.startCorner = corner;
    const LaidPanel panel = laidPanel(document);
    const LaidRun& run = panel.runs.front();
    CHECK(run.feed.side == run.returning.side);
    CHECK_THAT(geometry::distance(run.feed.at, run.returning.at), WithinAbs(0.026, 1e-12));
    CHECK_FALSE(run.crossing.has_value());
    CHECK_FALSE(run.returning.throughBack);
    CHECK(run.smallestRadius_m == 0.160);
    CHECK(panel.smallestSpacing_m >= 0.026 - 2e-6);
    CHECK(run.path.largestGap() < 1e-12);
    CHECK(run.path.largestTangentError() < 1e-9);
  }
}

TEST_CASE("A double spiral turns two sides more going in than coming out", "[layout][double_spiral][property]") {
  model::Document document = doubleSpiral();
  const int most = laidPanel(document).mostQuarterTurns;
  double before = 0.0;
  for (int sides = 3; sides <= most; ++sides) {
    INFO("sides " << sides << " of " << most);
    document.laying.quarterTurns = sides;
    const LaidPanel panel = laidPanel(document);
    const LaidRun& run = panel.runs.front();
    const double join = tangentTurned(run, 1.0) - (sides - 1) * pi / 2.0;
    CHECK_THAT(tangentTurned(run, -1.0), WithinAbs((sides - 3) * pi / 2.0 + join, 1e-9));
    CHECK(join > 0.0);
    CHECK(turnsLength(run) > before - 0.1);
    before = turnsLength(run);
  }
  CHECK(most == 33);
}

TEST_CASE("The S in the middle limits a double spiral, not its spacing", "[layout][double_spiral][analytic]") {
  // Three sides in a square of side c: touching circles lie (c - p)/2 - R apart across and (c + p)/2 - R along from the
  // middle, which is R away: 60 mm, 80 mm and 100 mm for c = 340 mm.
  model::Document document = boxed(340.0, 340.0, 16.0, 20.0, 100.0);
  CHECK(laidPanel(document).runs.front().quarterTurns == 3);
  document = boxed(339.99, 339.99, 16.0, 20.0, 100.0);
  const Error narrow = refusal(document);
  CHECK(narrow.code == ErrorCode::NoRunFits);
  CHECK(fact(narrow, "most") == 0.0);
}

TEST_CASE("A double spiral of more or fewer sides than can be joined is refused", "[layout][double_spiral][refusal]") {
  model::Document document = doubleSpiral();
  document.laying.quarterTurns = 34;
  const Error many = refusal(document);
  CHECK(many.code == ErrorCode::TurnsDoNotFit);
  CHECK(fact(many, "asked") == 34.0);
  CHECK(fact(many, "most") == 33.0);
  document.laying.quarterTurns = 2;
  const Error few = refusal(document);
  CHECK(few.code == ErrorCode::TurnsDoNotFit);
  CHECK(fact(few, "least") == 3.0);
}

TEST_CASE("Parallel runs and moved ends are refused for a double spiral", "[layout][double_spiral][refusal]") {
  model::Document document = doubleSpiral();
  document.laying.starts = 2;
  CHECK(refusal(document).code == ErrorCode::NoRunFits);
  CHECK(refusal(document).where == "/laying/starts");
  document = doubleSpiral();
  document.laying.feedShift = millimetres(20.0);
  CHECK(refusal(document).code == ErrorCode::CrossingHasNoPlace);
  CHECK(refusal(document).where == "feed");
  document = doubleSpiral();
  document.laying.returnShift = millimetres(20.0);
  CHECK(refusal(document).where == "return");
}

TEST_CASE("Concentric corners keep the pitch in a double spiral and hold less", "[layout][double_spiral]") {
  model::Document document = doubleSpiral();
  const LaidPanel constant = laidPanel(document);
  document.laying.cornerRule = model::CornerRule::ConcentricRadii;
  const LaidPanel concentric = laidPanel(document);
  CHECK(turnsLength(concentric.runs.front()) < turnsLength(constant.runs.front()));
  CHECK(concentric.runs.front().smallestRadius_m == 0.160);
  CHECK_THAT(concentric.smallestSpacing_m, WithinAbs(0.026, 1e-9));
}

TEST_CASE("A keep-out costs a double spiral the sides that would meet it", "[layout][double_spiral][keep_out]") {
  model::Document document = doubleSpiral();
  document.keepOuts = {block("vent", 0.5, 0.75, 0.6, 0.8)};
  const LaidPanel panel = laidPanel(document);
  CHECK(panel.runs.front().quarterTurns < panel.mostQuarterTurns);
  CHECK(panel.runs.front().quarterTurns > 15);
  document.keepOuts = {block("post", 0.0, 0.0, 0.1, 0.1)};
  CHECK(refusal(document).code == ErrorCode::KeepOutOverExit);
}

TEST_CASE("Fills of a double spiral reach those of an earlier study", "[layout][double_spiral][reference]") {
  // Share of the box that bands one pitch wide cover. The study's figures (own evaluation of another program, exact
  // clearances, one run with both ends outside) are the best of up to 80 layouts a panel, cells included, which this
  // recipe does not lay.
  struct Row {
    double width_mm, height_mm, tube_mm, pitch_mm, radius_mm, study;
  };
  constexpr Row kRows[] = {
      {1800, 800, 16, 16, 100, 0.806},  {1800, 800, 16, 18, 115, 0.764},  {1800, 800, 16, 20, 130, 0.733},
      {1800, 800, 25, 25, 200, 0.591},  {1500, 1100, 16, 16, 100, 0.885}, {1500, 1100, 16, 18, 115, 0.868},
      {1500, 1100, 16, 20, 130, 0.853}, {1500, 1100, 25, 25, 200, 0.748}, {2400, 1200, 16, 16, 100, 0.894},
      {2400, 1200, 16, 18, 115, 0.872}, {2400, 1200, 25, 25, 200, 0.746}, {1000, 1000, 16, 16, 100, 0.835},
      {1000, 1000, 16, 18, 115, 0.793}, {1000, 1000, 16, 20, 130, 0.765}, {1000, 1000, 25, 25, 200, 0.491}};
  for (const Row& row : kRows) {
    const LaidPanel panel = laidPanel(
        boxed(row.width_mm - row.pitch_mm, row.height_mm - row.pitch_mm, row.tube_mm, row.pitch_mm, row.radius_mm));
    const double fill = turnsLength(panel.runs.front()) * row.pitch_mm * 1e3 / (row.width_mm * row.height_mm);
    INFO(row.width_mm << " x " << row.height_mm << ", tube " << row.tube_mm << ", pitch " << row.pitch_mm << ", radius "
                      << row.radius_mm << ": fill " << fill << ", study " << row.study);
    CHECK(fill > 0.95 * row.study);
    CHECK(fill < 1.05 * row.study);
    CHECK(panel.smallestSpacing_m >= row.pitch_mm * 1e-3 - 2e-6);
  }
}
