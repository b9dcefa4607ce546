// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <cmath>

#include "app/gestures/exit_shift.h"
#include "app/gestures/frame_edge.h"
#include "app/gestures/inner_end.h"
#include "app/gestures/margin.h"
#include "app/gestures/pitch.h"
#include "app/gestures/roll_drop.h"
#include "app/gestures/typed_number.h"
#include "core/model/defaults.h"

using namespace sunspool;
using namespace sunspool::gestures;
using geometry::Point;

namespace {

Design designOf(model::Document document) {
  Design design;
  Result<layout::LaidPanel> panel = layout::lay(document);
  design.document = std::make_shared<const model::Document>(std::move(document));
  if (panel) design.panel = std::make_shared<const layout::LaidPanel>(std::move(*panel));
  return design;
}
Design firstDesign() { return designOf(model::firstPanel()); }

model::Document applied(const Gesture& gesture, const Design& design, double value) {
  const Result<model::Document> edited = gesture.edit(value)(*design.document);
  REQUIRE(edited);
  return *edited;
}

Point handleOf(const Gesture& gesture, const Design& design) {
  const auto handle = gesture.handle(design);
  REQUIRE(handle);
  return handle->at;
}

}  // namespace

TEST_CASE("The right edge follows the hand and clicks to 5 mm", "[gestures][analytic]") {
  const Design design = firstDesign();
  FrameEdge edge(FrameEdge::Edge::Right);
  const Point at = handleOf(edge, design);
  REQUIRE(edge.hold(design, at));
  const auto value = edge.drag(at + Point{0.0223, 0.3});
  REQUIRE(value);
  CHECK_THAT(*value, Catch::WithinAbs(2.36, 1e-12));
  CHECK_THAT(applied(edge, design, *value).frame.insideWidth.si(), Catch::WithinAbs(2.36, 1e-12));
  CHECK(applied(edge, design, *value).frame.insideHeight == design.document->frame.insideHeight);
}

TEST_CASE("The top edge follows the hand upwards and leaves the width alone", "[gestures][analytic]") {
  const Design design = firstDesign();
  FrameEdge edge(FrameEdge::Edge::Top);
  const Point at = handleOf(edge, design);
  REQUIRE(edge.hold(design, at));
  const auto value = edge.drag(at + Point{-0.4, -0.031});
  REQUIRE(value);
  CHECK_THAT(applied(edge, design, *value).frame.insideHeight.si(), Catch::WithinAbs(1.15, 1e-12));
  CHECK(applied(edge, design, *value).frame.insideWidth == design.document->frame.insideWidth);
}

TEST_CASE("A frame edge clicks to the sizes of the Shed within the hand's reach, unless it is freed",
          "[gestures][stock]") {
  model::Document document = model::firstPanel();
  document.stock.timbers.clear();
  document.stock.sheets = {{"Plywood", model::SheetUse::Backing, metres(1.2), metres(2.44), 1, {}}};
  const Design design = designOf(document);
  FrameEdge edge(FrameEdge::Edge::Top);  // 1.18 m inside
  const Point at = handleOf(edge, design);
  edge.setReach(metres(0.006));
  REQUIRE(edge.hold(design, at));
  CHECK(edge.clickedTo() == nullptr);
  REQUIRE(edge.drag(at + Point{0.0, 0.016}) == std::optional(1.2));
  REQUIRE(edge.clickedTo() != nullptr);
  CHECK(stockSizeInWords(*edge.clickedTo()) == QStringLiteral("a whole side of Plywood"));
  CHECK_FALSE(edge.drag(at + Point{0.0, 0.0245}));
  CHECK_THAT(edge.drag(at + Point{0.0, 0.0285}).value(), Catch::WithinAbs(1.21, 1e-12));
  CHECK(edge.clickedTo() == nullptr);
  edge.setClicks(FrameEdge::Clicks::Free);
  CHECK_THAT(edge.drag(at + Point{0.0, 0.014}).value(), Catch::WithinAbs(1.195, 1e-12));
  edge.setClicks(FrameEdge::Clicks::ToStock);
  CHECK(edge.drag(at).value() == design.document->frame.insideHeight.si());
  // half of 2.44 less a saw cut
  CHECK_THAT(edge.drag(at + Point{0.0, 0.04}).value(), Catch::WithinAbs(1.2185, 1e-12));
  CHECK(stockSizeInWords(*edge.clickedTo()) == QStringLiteral("half of Plywood"));
}

TEST_CASE("A roll says what it leaves, for how many panels, and tells its number to the panel", "[gestures][stock]") {
  model::Document document = model::firstPanel();
  document.stock.rolls[0].length = metres(40.0);
  document.panelsAlike = 2;
  CHECK(rollOf(rollBytes(3)) == std::optional<std::size_t>(3));
  CHECK_FALSE(rollOf("three"));
  const auto drop = rollDrop(document, 0, {});
  REQUIRE(drop);
  CHECK(drop->remains.contains(QStringLiteral("if the hand wobbles")));
  CHECK(drop->remains.contains(QStringLiteral("Each of the 2 panels")));
  CHECK(drop->step.startsWith(QStringLiteral("Lay the roll LDPE 20/16, 100 m roll until")));
}

TEST_CASE("A hand that comes back to where it took hold proposes the number held", "[gestures][property]") {
  model::Document document = model::firstPanel();
  document.frame.insideWidth = metres(2.3417);  // off the grid
  const Design design = designOf(document);
  FrameEdge edge(FrameEdge::Edge::Right);
  const Point at = handleOf(edge, design);
  REQUIRE(edge.hold(design, at));
  CHECK_FALSE(edge.drag(at + Point{0.001, 0.0}));
  REQUIRE(edge.drag(at + Point{0.1, 0.0}));
  const auto back = edge.drag(at);
  REQUIRE(back);
  CHECK(*back == 2.3417);
}

TEST_CASE("The gap held by the pitch handle stays under the hand", "[gestures][property]") {
  const Design design = firstDesign();
  Pitch pitch;
  const Point at = handleOf(pitch, design);
  REQUIRE(pitch.hold(design, at));
  for (const double up : {0.05, -0.02, 0.013}) {
    const Point hand = at + Point{0.0, up};
    const double value = pitch.drag(hand).value_or(pitch.proposed());
    CHECK_THAT(std::remainder(value, 0.0005), Catch::WithinAbs(0.0, 1e-12));
    const Design pulled = designOf(applied(pitch, design, value));
    const TurnRow before = turnRow(design), after = turnRow(pulled);
    const std::size_t gap = (before.offsets_m.size() - 1) / 2;
    REQUIRE(after.offsets_m.size() > gap + 1);
    const double middle = (after.offsets_m[gap] + after.offsets_m[gap + 1]) / 2.0;
    // Half a click of pitch at this gap.
    CHECK_THAT(middle, Catch::WithinAbs(hand.y, 0.00025 * (static_cast<double>(gap) + 0.5) + 1e-9));
  }
}

TEST_CASE("The pitch handle lies between two neighbouring turns", "[gestures][property]") {
  const Design design = firstDesign();
  const Point at = handleOf(Pitch(), design);
  const geometry::Path::Nearest nearest = design.panel->runs[0].path.nearest(at);
  CHECK_THAT(nearest.distance_m, Catch::WithinAbs(design.document->laying.pitch.si() / 2.0, 1e-9));
}

TEST_CASE("The inner end goes to the turn whose end is nearest to the hand", "[gestures][property]") {
  model::Document document = model::firstPanel();
  document.laying.quarterTurns = 40;
  const Design design = designOf(document);
  REQUIRE(design.panel);
  InnerEnd end;
  const Point at = handleOf(end, design);
  for (const int wanted : {36, 38, 44}) {
    model::Document other = document;
    other.laying.quarterTurns = wanted;
    const Design target = designOf(other);
    REQUIRE(target.panel);
    const Point there = handleOf(end, target);
    REQUIRE(end.hold(design, at));
    CHECK(end.drag(there + Point{0.002, -0.002}).value_or(40.0) == wanted);
    CHECK(applied(end, design, wanted).laying.quarterTurns == wanted);
    end.letGo();
  }
}

TEST_CASE("Stepping the inner end skips lengths that have no way out", "[gestures][property]") {
  const Design design = firstDesign();
  InnerEnd end;
  REQUIRE(end.hold(design, handleOf(end, design)));
  double last = end.heldValue();
  for (int i = 0; i < 8; ++i) {
    const double next = end.stepBy(-1);
    CHECK(next < last);
    CHECK(layout::lay(applied(end, design, next)).has_value());
    last = next;
  }
  // Past the most that fits the next one is proposed, so that its reason can be read.
  end.letGo();
  REQUIRE(end.hold(design, handleOf(end, design)));
  const double most = design.panel->mostQuarterTurns;
  for (int i = 0; i < 20 && end.proposed() <= most; ++i) end.stepBy(1);
  CHECK(end.proposed() == most + 1.0);
}

TEST_CASE("Turns are typed as turns and kept as quarter turns", "[gestures][analytic]") {
  const InnerEnd end;
  CHECK(end.fromTyped(16.25) == 65.0);
  CHECK(end.toTyped(65.0) == 16.25);
  CHECK(turnsInWords(65.0) == QStringLiteral("16¼"));
  CHECK(turnsInWords(2.0) == QStringLiteral("½"));
  CHECK(turnsInWords(0.0) == QStringLiteral("0"));
  CHECK(turnsInWords(-4.0) == QString(QChar(0x2212)) + QStringLiteral("1"));
}

TEST_CASE("An absurd number of turns is refused, not wrapped round", "[gestures][fault]") {
  const InnerEnd end;
  const Result<model::Document> edited = end.edit(1e30)(model::firstPanel());
  REQUIRE_FALSE(edited);
  CHECK(edited.error().code == ErrorCode::OutOfRange);
}

TEST_CASE("The feed slides away from the start corner whichever corner that is", "[gestures][property]") {
  for (const auto corner : {model::StartCorner::LowerLeft, model::StartCorner::LowerRight,
                            model::StartCorner::UpperRight, model::StartCorner::UpperLeft}) {
    model::Document document = model::firstPanel();
    document.laying.startCorner = corner;
    const Design design = designOf(document);
    REQUIRE(design.panel);
    ExitShift shift;
    const Point at = handleOf(shift, design);
    const Point along = shift.handle(design)->along;
    REQUIRE(shift.hold(design, at));
    const auto value = shift.drag(at + along * 0.061);
    REQUIRE(value);
    CHECK_THAT(*value, Catch::WithinAbs(0.06, 1e-12));
    const Design slid = designOf(applied(shift, design, *value));
    CAPTURE(static_cast<int>(corner));
    REQUIRE(slid.panel);
    const Point moved = slid.panel->runs[0].feed.at - design.panel->runs[0].feed.at;
    CHECK_THAT(geometry::dot(moved, along), Catch::WithinAbs(0.06, 1e-9));
  }
}

TEST_CASE("Pulling the margin handle down widens the margin by as much", "[gestures][analytic]") {
  const Design design = firstDesign();
  Margin margin;
  const Point at = handleOf(margin, design);
  REQUIRE(margin.hold(design, at));
  const auto value = margin.drag(at + Point{0.0, -0.0121});
  REQUIRE(value);
  CHECK_THAT(*value, Catch::WithinAbs(0.042, 1e-12));
}

TEST_CASE("A typed number holds while the hand moves on, until it is taken back", "[gestures]") {
  const Design design = firstDesign();
  FrameEdge edge(FrameEdge::Edge::Right);
  const Point at = handleOf(edge, design);
  REQUIRE(edge.hold(design, at));
  CHECK(edge.type(2.0) == 2.0);
  CHECK_FALSE(edge.drag(at + Point{0.5, 0.0}));
  CHECK(edge.proposed() == 2.0);
  edge.untype();
  const auto value = edge.drag(at + Point{0.5, 0.0});
  REQUIRE(value);
  CHECK_THAT(*value, Catch::WithinAbs(2.84, 1e-12));
}

TEST_CASE("Arrow keys step from the number proposed last", "[gestures]") {
  const Design design = firstDesign();
  Pitch pitch;
  REQUIRE(pitch.hold(design, handleOf(pitch, design)));
  CHECK_THAT(pitch.stepBy(1), Catch::WithinAbs(0.0265, 1e-12));
  CHECK_THAT(pitch.stepBy(-10), Catch::WithinAbs(0.0215, 1e-12));
  CHECK(pitch.heldValue() == design.document->laying.pitch.si());
}

TEST_CASE("A gesture is held or idle, and idle after letting go", "[gestures]") {
  const Design design = firstDesign();
  Pitch pitch;
  CHECK(pitch.state() == Gesture::State::Idle);
  CHECK_FALSE(pitch.drag({0.0, 0.0}));
  REQUIRE(pitch.hold(design, handleOf(pitch, design)));
  CHECK(pitch.state() == Gesture::State::Held);
  pitch.letGo();
  CHECK(pitch.state() == Gesture::State::Idle);
}

TEST_CASE("A panel that cannot be laid keeps its frame and margin handles only", "[gestures]") {
  model::Document document = model::firstPanel();
  document.laying.pitch = metres(0.001);
  const Design design = designOf(document);
  REQUIRE_FALSE(design.panel);
  CHECK(FrameEdge(FrameEdge::Edge::Right).handle(design));
  CHECK(Margin().handle(design));
  CHECK_FALSE(Pitch().handle(design));
  CHECK_FALSE(InnerEnd().handle(design));
  CHECK_FALSE(ExitShift().handle(design));
  Pitch pitch;
  CHECK_FALSE(pitch.hold(design, {0.0, 0.0}));
}

TEST_CASE("Keys typed without a field read as a number with its unit", "[gestures]") {
  TypedNumber typed;
  CHECK_FALSE(typed.take(QStringLiteral("m")));
  for (const char16_t c : u"2,4 cm") CHECK((c == 0 || typed.take(QString(QChar(c)))));
  const Result<double> value = typed.read(Dimension::Length, "mm");
  REQUIRE(value);
  CHECK_THAT(*value, Catch::WithinAbs(0.024, 1e-15));
  CHECK(typed.backspace());
  CHECK(typed.text() == QStringLiteral("2,4 c"));
  typed.clear();
  CHECK_FALSE(typed.backspace());
}

TEST_CASE("A step is named with the deed and the number", "[gestures]") {
  const format::Preferences metric;
  CHECK(Pitch().stepText(0.024, metric) == QStringLiteral("Change pitch to 24 mm"));
  CHECK(InnerEnd().stepText(64.0, metric) == QStringLiteral("Lay 16 turns"));
}

TEST_CASE("Recipes without an inner end or an entry to slide offer no handle for them", "[gestures]") {
  for (const auto recipe :
       {model::Recipe::DoubleSpiral, model::Recipe::BulbSerpentine, model::Recipe::PlainSerpentine}) {
    model::Document document = model::firstPanel();
    document.laying.recipe = recipe;
    if (recipe == model::Recipe::BulbSerpentine) document.laying.pitch = millimetres(173.0);
    if (recipe == model::Recipe::PlainSerpentine) document.laying.pitch = millimetres(320.0);
    const Design design = designOf(document);
    REQUIRE(design.panel);
    CHECK_FALSE(InnerEnd().handle(design));
    CHECK_FALSE(ExitShift().handle(design));
    const auto pitch = Pitch().handle(design);
    REQUIRE(pitch);
    CHECK(std::abs(pitch->along.x) + std::abs(pitch->along.y) == 1.0);
  }
}
