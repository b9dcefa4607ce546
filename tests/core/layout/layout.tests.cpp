// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/layout.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/layout/ramp.h"
#include "tests/core/layout/panels.h"

using namespace sunspool;
using namespace sunspool::layout;
using namespace sunspool::layout::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

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

/// How many pieces of tube on the plate the crossing of a run meets.
int piecesMet(const LaidPanel& panel, const LaidRun& run) {
  const geometry::Piece stretch =
      geometry::Line{run.path.pointAt(run.crossing->from_m), run.path.pointAt(run.crossing->to_m)};
  int count = 0;
  for (const LaidRun& other : panel.runs) {
    // Short of the crossing itself, whose line begins on the last leg.
    const double end = &other == &run ? run.crossing->from_m - 0.01 : other.turnsTo_m;
    const geometry::Path low = other.path.slice(other.insideFrom_m, end);
    for (const geometry::Piece& piece : low.pieces()) {
      if (geometry::distanceBetween(stretch, piece).distance_m < 1e-9) ++count;
    }
  }
  return count;
}

}  // namespace

TEST_CASE("The first panel lays 63 quarter turns and 80 to 82 m of tube", "[layout][spiral][reference]") {
  const LaidPanel panel = laidPanel(firstPanel());
  REQUIRE(panel.runs.size() == 1);
  const LaidRun& run = panel.runs.front();
  CHECK(run.quarterTurns == 63);
  CHECK(panel.mostQuarterTurns == 63);
  CHECK(panel.totalCut.in(metre) > 80.0);
  CHECK(panel.totalCut.in(metre) < 82.0);
  CHECK(run.smallestRadius_m == 0.160);
  CHECK_THAT(panel.smallestSpacing_m, WithinAbs(0.026, 2e-6));
  CHECK_THAT(panel.netArea.si(), WithinAbs(2.34 * 1.18, 1e-12));
  CHECK_THAT(panel.coverage, WithinRel(0.020 * turnsLength(run) / (2.34 * 1.18), 1e-12));
  // Hand figure for sixteen closed loops: 78.2 m. The drawn spiral steps inwards once a loop and ends early.
  CHECK_THAT(turnsLength(run), WithinRel(78.2, 0.01));
}

TEST_CASE("The first panel's spiral has the length of its arithmetic series", "[layout][spiral][analytic]") {
  // Loops j = 0 to 15: bottom legs W - (2 j - 1) p but W for the first, right H - 2 j p, top W - 2 j p, and fifteen
  // left legs H - (2 j + 1) p; 62 corners save (2 - pi/2) R each; the end stops R - p before its nominal corner.
  model::Document document = firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  const double w = 2.26, h = 1.10, p = 0.026, r = 0.160;
  const double expected =
      32.0 * w + 31.0 * h - (225.0 + 240.0 + 240.0 + 225.0) * p - 62.0 * (2.0 - std::numbers::pi / 2.0) * r - (r - p);
  // The end runs up to a grazing approach, which rounding moves by less than a micrometre.
  CHECK_THAT(turnsLength(laidPanel(document).runs.front()), WithinAbs(expected, 1e-6));
  // Over the turns the ramp is the beginning of the tail.
  CHECK_THAT(turnsLength(laidPanel(firstPanel()).runs.front()), WithinAbs(expected - rampOver(0.020, r).plan_m, 1e-6));
}

TEST_CASE("A spiral's length is the area between border and core over the pitch", "[layout][spiral][analytic]") {
  // Core: innermost loop with round corners. Half a loop more or less: 1 %.
  const double core = 1.48 * 0.32 - (4.0 - std::numbers::pi) * 0.16 * 0.16;
  CHECK_THAT(turnsLength(laidPanel(firstPanel()).runs.front()), WithinRel((2.26 * 1.10 - core) / 0.026, 0.01));
}

TEST_CASE("The first panel's run enters at the lower left and leaves over the left side", "[layout][spiral]") {
  const LaidPanel panel = laidPanel(firstPanel());
  const LaidRun& run = panel.runs.front();
  CHECK(run.feed.side == Side::Left);
  CHECK_THAT(run.feed.at.x, WithinAbs(0.0, 1e-12));
  CHECK_THAT(run.feed.at.y, WithinAbs(0.040, 1e-12));
  CHECK(run.returning.side == Side::Left);
  CHECK_THAT(run.returning.at.y, WithinAbs(1.18 - 0.040 - 15.0 * 0.026, 1e-12));
  CHECK_THAT(run.path.pointAt(run.returning.station_m).x, WithinAbs(0.0, 1e-12));
  REQUIRE(run.crossing.has_value());
  const Crossing& crossing = *run.crossing;
  CHECK(crossing.turnsCrossed == 15);
  CHECK(crossing.rise_m == 0.020);
  CHECK_THAT(crossing.from_m, WithinAbs(run.turnsTo_m, 1e-12));
  CHECK_THAT(crossing.to_m, WithinAbs(run.insideTo_m, 1e-12));
  const Ramp ramp = rampOver(0.020, 0.160);
  CHECK_THAT(crossing.rampLength_m, WithinAbs(ramp.plan_m, 1e-12));
  CHECK_THAT(crossing.extraLength_m, WithinAbs(ramp.tube_m - ramp.plan_m, 1e-12));
  CHECK(piecesMet(panel, run) == 15);
  CHECK_THAT(run.cutLength_m, WithinAbs(run.path.length().si() + crossing.extraLength_m, 1e-12));
  CHECK_THAT(panel.tubeInside.si(), WithinAbs(run.insideTo_m - run.insideFrom_m + crossing.extraLength_m, 1e-12));
}

TEST_CASE("The bare core is the box inside the innermost tube", "[layout][spiral]") {
  const LaidPanel panel = laidPanel(firstPanel());
  CHECK_THAT(panel.coreLower.x, WithinAbs(0.040 + 14.0 * 0.026 + 0.010, 1e-12));
  CHECK_THAT(panel.coreLower.y, WithinAbs(0.040 + 15.0 * 0.026 + 0.010, 1e-12));
  CHECK_THAT(panel.coreUpper.x, WithinAbs(2.300 - 15.0 * 0.026 - 0.010, 1e-12));
  CHECK_THAT(panel.coreUpper.y, WithinAbs(1.140 - 15.0 * 0.026 - 0.010, 1e-12));
}

TEST_CASE("With 40 mm to the outside of the tube the first panel loses a loop", "[layout][spiral][reference]") {
  // Hand figure 75.4 m for fifteen closed loops. The drawn spiral steps inwards once a loop and ends early.
  model::Document document = firstPanel();
  document.laying.margin = millimetres(40.0);
  const LaidPanel panel = laidPanel(document);
  const LaidRun& run = panel.runs.front();
  CHECK(run.quarterTurns < 63);
  CHECK_THAT(turnsLength(run), WithinRel(75.4, 0.01));
}

TEST_CASE("An explicit number of sides is laid exactly, or refused with the most that fit", "[layout][spiral]") {
  model::Document document = firstPanel();
  for (const int sides : {1, 2, 3, 4, 5, 6, 7, 8, 17, 59, 63}) {
    INFO("sides " << sides);
    document.laying.quarterTurns = sides;
    const LaidPanel panel = laidPanel(document);
    const LaidRun& run = panel.runs.front();
    CHECK(run.quarterTurns == sides);
    REQUIRE(run.crossing.has_value() == (sides >= 4));
    if (!run.crossing) continue;
    CHECK(run.crossing->turnsCrossed == sides / 4);
    CHECK(piecesMet(panel, run) == sides / 4);
  }
  document.laying.quarterTurns = 64;
  const Error refused = refusal(document);
  CHECK(refused.code == ErrorCode::TurnsDoNotFit);
  CHECK(fact(refused, "asked") == 64.0);
  CHECK(fact(refused, "most") == 63.0);
}

TEST_CASE("One more side is always more tube", "[layout][spiral][property]") {
  model::Document document = firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  double before = 0.0;
  for (int sides = 1; sides <= 63; ++sides) {
    document.laying.quarterTurns = sides;
    const double length = turnsLength(laidPanel(document).runs.front());
    INFO("sides " << sides);
    CHECK(length > before);
    before = length;
  }
}

TEST_CASE("Two starts are one run and the same turned by half a circle", "[layout][spiral][property]") {
  model::Document document = firstPanel();
  document.laying.starts = 2;
  const LaidPanel panel = laidPanel(document);
  REQUIRE(panel.runs.size() == 2);
  const LaidRun& a = panel.runs[0];
  const LaidRun& b = panel.runs[1];
  CHECK(a.letter == 'A');
  CHECK(b.letter == 'B');
  CHECK_THAT(a.cutLength_m, WithinAbs(b.cutLength_m, 1e-9));
  CHECK_THAT(turnsLength(a), WithinAbs(turnsLength(b), 1e-9));
  for (double t = 0.0; t <= turnsLength(a); t += 0.37) {
    const geometry::Point p = a.path.pointAt(a.turnsFrom_m + t);
    const geometry::Point q = b.path.pointAt(b.turnsFrom_m + t);
    REQUIRE_THAT(p.x + q.x, WithinAbs(2.34, 1e-9));
    REQUIRE_THAT(p.y + q.y, WithinAbs(1.18, 1e-9));
  }
  CHECK_THAT(panel.totalCut.si(), WithinAbs(a.cutLength_m + b.cutLength_m, 1e-12));
}

TEST_CASE("Four starts are evened out to equal lengths", "[layout][spiral]") {
  model::Document document = firstPanel();
  document.laying.starts = 4;
  for (const auto end : {model::InnerEnd::OverTheTurns, model::InnerEnd::ThroughTheBack}) {
    document.laying.innerEnd = end;
    const LaidPanel panel = laidPanel(document);
    REQUIRE(panel.runs.size() == 4);
    for (const LaidRun& run : panel.runs) {
      CHECK_THAT(run.cutLength_m, WithinAbs(panel.runs.front().cutLength_m, 1e-9));
      CHECK_THAT(turnsLength(run), WithinAbs(turnsLength(panel.runs.front()), 1e-9));
    }
  }
}

TEST_CASE("Concentric corners hold less tube than corners of constant radius", "[layout][spiral]") {
  model::Document document = firstPanel();
  const LaidPanel constant = laidPanel(document);
  document.laying.cornerRule = model::CornerRule::ConcentricRadii;
  const LaidPanel concentric = laidPanel(document);
  CHECK(concentric.runs.front().quarterTurns == 63);
  CHECK(turnsLength(concentric.runs.front()) < turnsLength(constant.runs.front()));
  CHECK(concentric.runs.front().smallestRadius_m == 0.160);
  CHECK_THAT(concentric.smallestSpacing_m, WithinAbs(0.026, 1e-9));
  // Outermost corner at the lower right: fifteen loops lie further in.
  const LaidRun& run = concentric.runs.front();
  double widest = 0.0;
  const geometry::Path outer = run.path.slice(run.insideFrom_m, run.insideFrom_m + 6.0);
  for (const geometry::Piece& piece : outer.pieces()) {
    if (const auto* arc = std::get_if<geometry::Arc>(&piece)) widest = std::max(widest, arc->radius);
  }
  CHECK_THAT(widest, WithinAbs(0.160 + 15.0 * 0.026, 1e-12));
}

namespace {

void checkMirrored(const LaidPanel& base, const LaidPanel& other, model::StartCorner corner) {
  const bool right = corner != model::StartCorner::UpperLeft;
  const bool top = corner != model::StartCorner::LowerRight;
  for (std::size_t i = 0; i < base.runs.size(); ++i) {
    REQUIRE_THAT(other.runs[i].cutLength_m, WithinAbs(base.runs[i].cutLength_m, 1e-9));
    for (double s = base.runs[i].insideFrom_m; s < base.runs[i].insideTo_m; s += 0.53) {
      const geometry::Point p = base.runs[i].path.pointAt(s);
      const geometry::Point q = other.runs[i].path.pointAt(s);
      REQUIRE_THAT(q.x, WithinAbs(right ? 2.34 - p.x : p.x, 1e-9));
      REQUIRE_THAT(q.y, WithinAbs(top ? 1.18 - p.y : p.y, 1e-9));
    }
  }
}

}  // namespace

TEST_CASE("Mirrored start corners give mirrored runs of equal length", "[layout][spiral][property]") {
  using model::StartCorner;
  for (const int starts : {1, 2, 4}) {
    for (const auto rule : {model::CornerRule::ConstantRadius, model::CornerRule::ConcentricRadii}) {
      model::Document document = firstPanel();
      document.laying.starts = starts;
      document.laying.cornerRule = rule;
      const LaidPanel base = laidPanel(document);
      for (const auto corner : {StartCorner::LowerRight, StartCorner::UpperLeft, StartCorner::UpperRight}) {
        document.laying.startCorner = corner;
        checkMirrored(base, laidPanel(document), corner);
      }
    }
  }
}

TEST_CASE("A drawn spiral of a panel in inches lies just above its closed loops", "[layout][spiral][reference]") {
  // Hand sums of closed loops for 46.5 x 94.5 in inside, 1.5 in to the centre line, tube 0.700 in, radius 6 in: 266 ft
  // at 1 in, 234.4 ft just above 1 1/8 in; the drawn spiral also lays the quarter turns begun, about 6 ft.
  model::Document document = firstPanel();
  document.frame.insideWidth = Length::fromSi(94.5 * 0.0254);
  document.frame.insideHeight = Length::fromSi(46.5 * 0.0254);
  document.tube.outsideDiameter.value = Length::fromSi(0.7 * 0.0254);
  document.laying.margin = Length::fromSi(1.15 * 0.0254);
  document.laying.bendRadius = Length::fromSi(6.0 * 0.0254);
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  for (const auto& [pitch_in, loops_ft] : {std::pair{1.0, 266.0}, std::pair{1.13, 234.4}}) {
    document.laying.pitch = Length::fromSi(pitch_in * 0.0254);
    const double drawn_ft = turnsLength(laidPanel(document).runs.front()) / 0.3048;
    INFO("pitch " << pitch_in << " in, drawn " << drawn_ft << " ft");
    CHECK_THAT(drawn_ft, WithinAbs(loops_ft + 6.0, 2.0));
  }
}

TEST_CASE("Two runs through the back share the tube of an upright panel", "[layout][spiral][reference]") {
  // 940 x 1900 mm inside, 35 mm to the centre line, tube 16, radius 130: a drawn spiral that lays every legal side has
  // 63.3 m at 20.6 mm (hand figure for both runs); here both ends stop R - p, 109 mm, before their nominal corners.
  model::Document document = firstPanel();
  document.frame.insideWidth = millimetres(940.0);
  document.frame.insideHeight = millimetres(1900.0);
  document.tube.outsideDiameter.value = millimetres(16.0);
  document.laying.margin = millimetres(27.0);
  document.laying.bendRadius = millimetres(130.0);
  document.laying.pitch = millimetres(20.6);
  document.laying.starts = 2;
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  const LaidPanel panel = laidPanel(document);
  CHECK_THAT(turnsLength(panel.runs[0]) + turnsLength(panel.runs[1]) + 2.0 * 0.1094, WithinAbs(63.3, 0.3));
}

TEST_CASE("The crossing can be moved into the bare core while there is room", "[layout][spiral][crossing]") {
  model::Document document = firstPanel();
  document.laying.quarterTurns = 63;
  document.laying.returnShift = millimetres(100.0);
  const LaidPanel panel = laidPanel(document);
  const LaidRun& run = panel.runs.front();
  CHECK_THAT(run.returning.at.y, WithinAbs(1.18 - 0.040 - 15.0 * 0.026 - 0.100, 1e-12));
  CHECK_THAT(run.smallestRadius_m, WithinAbs(0.160, 1e-15));
  CHECK(panel.smallestSpacing_m > 0.026 - 2e-6);
  CHECK(piecesMet(panel, run) == 15);
  document.laying.returnShift = millimetres(310.0);
  CHECK(refusal(document).code == ErrorCode::CrossingHasNoPlace);
  document.laying.returnShift = millimetres(-1.0);
  CHECK(refusal(document).code == ErrorCode::CrossingHasNoPlace);
}

TEST_CASE("The entry can be moved along its stile as far as the first leg allows", "[layout][spiral][crossing]") {
  model::Document document = firstPanel();
  document.laying.feedShift = millimetres(10.0);
  const LaidPanel panel = laidPanel(document);
  const LaidRun& run = panel.runs.front();
  CHECK_THAT(run.feed.at.y, WithinAbs(0.050, 1e-12));
  CHECK(run.path.largestGap() < 1e-12);
  CHECK(panel.smallestSpacing_m > 0.026 - 2e-6);
  document.laying.feedShift = millimetres(200.0);
  CHECK(refusal(document).code == ErrorCode::CrossingHasNoPlace);
  CHECK(refusal(document).where == "feed");
}

TEST_CASE("A crossing without room for its ramp is refused with the two lengths", "[layout][spiral][crossing]") {
  // The 62nd side of the first panel is all bend: a single pitch of it is straight.
  model::Document document = firstPanel();
  document.laying.quarterTurns = 62;
  const Error refused = refusal(document);
  CHECK(refused.code == ErrorCode::CrossingHasNoPlace);
  CHECK(refused.where == "return");
  CHECK_THAT(fact(refused, "needed"), WithinAbs(rampOver(0.020, 0.160).plan_m, 1e-12));
  CHECK_THAT(fact(refused, "room"), WithinAbs(0.026, 1e-6));
}

TEST_CASE("A square spiral over the turns stops where its ramp still has room", "[layout][spiral][crossing]") {
  model::Document document = firstPanel();
  document.frame.insideWidth = millimetres(1180.0);
  const LaidPanel panel = laidPanel(document);
  CHECK(panel.runs.front().quarterTurns < panel.mostQuarterTurns);
  CHECK(panel.runs.front().crossing.has_value());
  document.laying.quarterTurns = panel.runs.front().quarterTurns + 1;
  CHECK(refusal(document).code == ErrorCode::CrossingHasNoPlace);
}

TEST_CASE("What cannot be laid is refused by name", "[layout][refusal]") {
  model::Document document = firstPanel();
  document.laying.pitch = millimetres(19.9);
  CHECK(refusal(document).code == ErrorCode::PitchBelowDiameter);
  document = firstPanel();
  document.frame.insideHeight = millimetres(399.0);
  const Error narrow = refusal(document);
  CHECK(narrow.code == ErrorCode::RegionTooNarrow);
  CHECK_THAT(fact(narrow, "width"), WithinAbs(0.319, 1e-12));
  CHECK_THAT(fact(narrow, "needed"), WithinAbs(0.320, 1e-12));
  document.frame.insideHeight = millimetres(1.0);
  CHECK(refusal(document).code == ErrorCode::RegionTooNarrow);
}

TEST_CASE("More tube than anybody lays is refused with its length", "[layout][refusal]") {
  model::Document document = firstPanel();
  document.frame.insideWidth = metres(20.0);
  document.frame.insideHeight = metres(10.0);
  const Error much = refusal(document);
  CHECK(much.code == ErrorCode::TooMuchTube);
  CHECK_THAT(fact(much, "length"), WithinRel(20.0 * 10.0 / 0.026, 0.05));
  CHECK(fact(much, "limit") == 500.0);
  document.tube.outsideDiameter.value = Length::fromSi(1e-6);
  document.laying.pitch = Length::fromSi(1e-6);
  CHECK(refusal(document).code == ErrorCode::TooMuchTube);
  document = firstPanel();
  document.laying.feedTail = metres(600.0);
  CHECK(refusal(document).code == ErrorCode::TooMuchTube);
}

TEST_CASE("Numbers that mean nothing are refused with their place in the file", "[layout][refusal]") {
  model::Document document = firstPanel();
  for (const int starts : {-1, 0, 3, 5}) {
    document.laying.starts = starts;
    CHECK(refusal(document).code == ErrorCode::OutOfRange);
    CHECK(refusal(document).where == "/laying/starts");
  }
  document = firstPanel();
  document.laying.quarterTurns = 0;
  CHECK(refusal(document).code == ErrorCode::OutOfRange);
  CHECK(refusal(document).where == "/laying/quarter_turns");
  document = firstPanel();
  document.laying.pitch = Length::fromSi(std::numeric_limits<double>::quiet_NaN());
  CHECK(refusal(document).code == ErrorCode::NotFinite);
  CHECK(refusal(document).where == "/laying/pitch_m");
  document = firstPanel();
  document.laying.margin = millimetres(-1.0);
  CHECK(refusal(document).code == ErrorCode::OutOfRange);
  CHECK(refusal(document).where == "/laying/margin_m");
  document = firstPanel();
  document.frame.insideWidth = Length::fromSi(std::numeric_limits<double>::infinity());
  CHECK(refusal(document).code == ErrorCode::NotFinite);
}
