// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/charts/linked_charts.h"

#include <QAbstractButton>
#include <QApplication>
#include <QMouseEvent>
#include <QTest>
#include <catch2/catch.hpp>
#include <cmath>

#include "app/format/axis.h"
#include "core/checks/measures.h"
#include "core/evaluate/evaluate.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::charts {
namespace {

/// A small panel, so that its curves are quickly there; bends, pitch and tube are those of the first one.
model::Document small() {
  model::Document document = model::firstPanel();
  document.frame.insideWidth = millimetres(600.0);
  document.frame.insideHeight = millimetres(700.0);
  return document;
}

/// The four curves of a settled design, shown and standing still.
struct Charts {
  store::DocumentStore store;
  store::Hub hub;
  render::Look look;
  store::SweepRunner sweeps{nullptr, store, hub};
  LinkedCharts charts{store, hub, look, sweeps};

  explicit Charts(model::Document document = small()) : store(std::move(document)) {
    charts.resize(372, 640);
    charts.show();
    charts.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&charts));
    settle();
  }
  void settle() {
    store.waitUntilSettled();
    sweeps.waitUntilSettled();
    QPointF last;
    for (int same = 0; same < 5;) {
      QTest::qWait(5);
      const QPointF now = markOf(3);
      same = now == last ? same + 1 : 0;
      last = now;
    }
  }
  std::string bytes() const { return io::writeDocument(store.document()); }
  double pitch_mm() const { return store.document().laying.pitch.in(millimetre); }
  QWidget* paper(int index) { return charts.curve(index).viewport(); }
  QPointF markOf(int index) {
    const auto present = charts.curve(index).model().present;
    return present ? charts.curve(index).widgetPointAt(present->x(), present->y()) : QPointF();
  }
  QPoint at(int index, double x) {
    return QPointF(charts.curve(index).widgetPointAt(x, 0.0).x(), markOf(index).y()).toPoint();
  }
  void pressMark(int index) { QTest::mousePress(paper(index), Qt::LeftButton, {}, markOf(index).toPoint()); }
  void pullTo(int index, QPoint to) {
    const QPoint from = markOf(index).toPoint();
    for (int i = 1; i <= 8; ++i) QTest::mouseMove(paper(index), from + (to - from) * i / 8);
  }
  void release(int index, QPoint where) { QTest::mouseRelease(paper(index), Qt::LeftButton, {}, where); }
  /// A pointer over the paper without a button; the real one stays where it is.
  void hover(int index, QPoint where) {
    QMouseEvent move(QEvent::MouseMove, where, paper(index)->mapToGlobal(where), Qt::NoButton, Qt::NoButton, {});
    QApplication::sendEvent(paper(index), &move);
  }
  void choose(const char* button) {
    auto* found = charts.findChild<QAbstractButton*>(QLatin1String(button));
    REQUIRE(found != nullptr);
    QTest::mouseClick(found, Qt::LeftButton);
    settle();
  }
};

TEST_CASE("Dragging the mark of any curve to another pitch makes one named undo step", "[charts][ui]") {
  Charts charts;
  const std::string before = charts.bytes();
  for (int index = 0; index < 4; ++index) {
    CAPTURE(index);
    const QPoint to = charts.at(index, 40.0);
    charts.pressMark(index);
    CHECK(charts.bytes() == before);  // taken hold of, not yet moved
    charts.pullTo(index, to);
    CHECK(charts.store.isPreviewing());
    CHECK(charts.store.undoStack()->count() == 0);
    CHECK_THAT(charts.pitch_mm(),
               Catch::WithinAbs(40.0, 0.5001));  // a pixel is less than the grid of half a millimetre
    charts.release(index, to);
    CHECK_FALSE(charts.store.isPreviewing());
    CHECK_THAT(std::remainder(charts.pitch_mm(), 0.5), Catch::WithinAbs(0.0, 1e-9));
    REQUIRE(charts.store.undoStack()->count() == 1);
    const QString shown =
        format::number(charts.store.document().laying.pitch, format::LengthScale::Drawing, {}).joined();
    CHECK(charts.store.undoStack()->undoText() == QStringLiteral("Change the pitch to %1").arg(shown));
    charts.store.undoStack()->undo();
    CHECK(charts.bytes() == before);
    charts.store.undoStack()->clear();
    charts.settle();
  }
}

TEST_CASE("A press beside the mark brings the mark there", "[charts][ui]") {
  Charts charts;
  const QPoint to = charts.at(1, 60.0);
  QTest::mousePress(charts.paper(1), Qt::LeftButton, {}, to);
  CHECK(charts.store.isPreviewing());
  charts.release(1, to);
  CHECK_THAT(charts.pitch_mm(), Catch::WithinAbs(60.0, 0.5001));
  CHECK(charts.store.undoStack()->count() == 1);
}

TEST_CASE("A drag beyond the axis stops at its end", "[charts][ui]") {
  Charts charts;
  charts.pressMark(0);
  const QPoint far(charts.paper(0)->width() + 400, 20);
  charts.pullTo(0, far);
  charts.release(0, far);
  CHECK(charts.pitch_mm() == Approx(charts.charts.curve(0).model().to).margin(0.25));
}

TEST_CASE("Escape in the middle of a drag on a curve leaves no trace", "[charts][ui]") {
  Charts charts;
  const std::string before = charts.bytes();
  for (int index = 0; index < 4; ++index) {
    CAPTURE(index);
    const QPoint to = charts.at(index, 52.0);
    charts.pressMark(index);
    charts.pullTo(index, to);
    REQUIRE(charts.bytes() != before);
    QTest::keyClick(&charts.charts.curve(index), Qt::Key_Escape);
    CHECK(charts.bytes() == before);
    CHECK_FALSE(charts.store.isPreviewing());
    charts.release(index, to);
    CHECK(charts.bytes() == before);
    CHECK(charts.store.undoStack()->count() == 0);
    CHECK_FALSE(charts.store.isModified());
    charts.settle();
  }
}

TEST_CASE("Arrow keys step the pitch by half a millimetre and merge into one step", "[charts][ui]") {
  Charts charts;
  const std::string before = charts.bytes();
  DesignCurve& curve = charts.charts.curve(2);
  curve.setFocus();
  for (int i = 0; i < 3; ++i) QTest::keyClick(&curve, Qt::Key_Right);
  QTest::keyClick(&curve, Qt::Key_Left);
  QTest::keyClick(&curve, Qt::Key_Right, Qt::ShiftModifier);
  CHECK_THAT(charts.pitch_mm(), Catch::WithinAbs(26.0 + 1.5 - 0.5 + 5.0, 1e-9));
  CHECK(charts.store.undoStack()->count() == 1);
  charts.store.undoStack()->undo();
  CHECK(charts.bytes() == before);
}

TEST_CASE("Arrow keys over the pitch and then over the radius are two steps", "[charts][ui]") {
  Charts charts;
  QTest::keyClick(&charts.charts.curve(0), Qt::Key_Right);
  charts.choose("curves.over.2");
  QTest::keyClick(&charts.charts.curve(0), Qt::Key_Right);
  CHECK_THAT(charts.store.document().laying.bendRadius.in(millimetre), Catch::WithinAbs(161.0, 1e-9));
  CHECK(charts.store.undoStack()->count() == 2);
}

TEST_CASE("Hovering a curve shows that design as a ghost, leaving clears it, and the document never changes",
          "[charts][ui]") {
  Charts charts;
  const std::string before = charts.bytes();
  for (int index = 0; index < 4; ++index) {
    CAPTURE(index);
    CHECK(charts.paper(index)->hasMouseTracking());
    charts.hover(index, charts.at(index, 47.0));
    REQUIRE(charts.hub.ghost());
    CHECK_THAT(*charts.hub.ghost(), Catch::WithinAbs(0.047, 0.0005001));
    QEvent leave(QEvent::Leave);
    QApplication::sendEvent(&charts.charts.curve(index), &leave);
    CHECK_FALSE(charts.hub.ghost());
  }
  charts.hover(0, charts.at(0, 47.0));
  charts.hover(0, QPoint(charts.at(0, 47.0).x(), 3));  // on its header
  CHECK_FALSE(charts.hub.ghost());
  CHECK(charts.bytes() == before);
  CHECK(charts.store.undoStack()->count() == 0);
}

TEST_CASE("The three buttons put the curves over pitch, turns or radius", "[charts][ui]") {
  Charts charts;
  const auto over = [&](const char* button, evaluate::Sweep variable, double present) {
    charts.choose(button);
    CHECK(charts.hub.sweepVariable() == variable);
    for (int index = 0; index < 4; ++index) {
      const CurveModel& model = charts.charts.curve(index).model();
      REQUIRE(model.present);
      CHECK_THAT(model.present->x(), Catch::WithinAbs(present, 1e-9));
      CHECK_FALSE(model.lines.empty());
      CHECK(model.from <= present);
      CHECK(model.to >= present);
    }
  };
  const auto& laid = charts.store.results()->layout->runs.at(0);
  over("curves.over.1", evaluate::Sweep::QuarterTurns, laid.quarterTurns / 4.0);
  over("curves.over.2", evaluate::Sweep::BendRadius, 160.0);
  over("curves.over.0", evaluate::Sweep::Pitch, 26.0);
}

TEST_CASE("Dragging over the turns lays whole quarters, dragging over the radius whole millimetres", "[charts][ui]") {
  Charts charts;
  charts.choose("curves.over.1");
  QPoint to = charts.at(0, 3.0);
  charts.pressMark(0);
  charts.pullTo(0, to);
  charts.release(0, to);
  REQUIRE(charts.store.document().laying.quarterTurns);
  CHECK(std::abs(*charts.store.document().laying.quarterTurns - 12) <= 1);
  charts.settle();
  const int turns = *charts.store.document().laying.quarterTurns;
  CHECK(charts.store.undoStack()->undoText() == QStringLiteral("Lay %1 turns").arg(turns / 4.0));
  CHECK(charts.store.results()->layout->runs.at(0).quarterTurns == turns);
  QTest::keyClick(&charts.charts.curve(0), Qt::Key_Left);
  CHECK(charts.store.document().laying.quarterTurns == turns - 1);
  charts.choose("curves.over.2");
  to = charts.at(0, 200.0);
  charts.pressMark(0);
  charts.pullTo(0, to);
  charts.release(0, to);
  const double radius_mm = charts.store.document().laying.bendRadius.in(millimetre);
  CHECK_THAT(radius_mm, Catch::WithinAbs(200.0, 3.0));  // a pixel is 2 mm here
  CHECK_THAT(std::remainder(radius_mm, 1.0), Catch::WithinAbs(0.0, 1e-9));
}

TEST_CASE("Each curve speaks its name, value and range", "[charts][ui][accessibility]") {
  Charts charts;
  for (const auto units : {format::UnitSystem::Metric, format::UnitSystem::UsCustomary}) {
    const format::Preferences preferences{units};
    charts.look.setPreferences(preferences);
    const auto results = charts.store.results();
    const auto spoken = [&](int index) { return charts.charts.curve(index).accessibleName(); };
    const auto wanted = [](const char* name, const QString& value, const QString& range) {
      return QStringLiteral("%1: %2, range %3").arg(QLatin1String(name), value, range);
    };
    CHECK(spoken(0) == wanted("tube length",
                              format::number(results->tubeLength.value, format::LengthScale::Run, preferences).joined(),
                              format::rangeOf(results->tubeLength, format::LengthScale::Run, preferences)));
    CHECK(spoken(1) == wanted("water volume", format::number(results->water.value, preferences).joined(),
                              format::range(results->water, preferences)));
    CHECK(spoken(2) == wanted("pressure drop", format::number(results->flow->panelLoss.value, preferences).joined(),
                              format::range(results->flow->panelLoss, preferences)));
    CHECK(spoken(3) == wanted("heat output", format::number(results->heat->toPool.value, preferences).joined(),
                              format::range(results->heat->toPool, preferences)));
    for (int index = 0; index < 4; ++index) CHECK_FALSE(charts.charts.curve(index).model().range.isEmpty());
  }
}

TEST_CASE("The mark stands at the numbers of the results, in the unit of its axis", "[charts][analytic]") {
  for (const auto units : {format::UnitSystem::Metric, format::UnitSystem::UsCustomary}) {
    Charts charts;
    charts.look.setPreferences({units});
    const results::Results known = evaluate::evaluate(small(), {});
    const double values[] = {known.tubeLength.value.si(), known.water.value.si(), known.flow->panelLoss.value.si(),
                             known.heat->toPool.value.si()};
    const Dimension dimensions[] = {Dimension::Length, Dimension::Volume, Dimension::Pressure, Dimension::Power};
    for (int index = 0; index < 4; ++index) {
      CAPTURE(index);
      const CurveModel& model = charts.charts.curve(index).model();
      const format::AxisUnit unit = format::axisOf(dimensions[index], 0.0, {units});
      CHECK(model.unit == unit.unit);
      REQUIRE(model.present);
      CHECK_THAT(model.present->y(), Catch::WithinRel(unit.of(values[index]), 1e-12));
      CHECK(model.settled);
    }
    const double outside = model::firstPanel().tube.outsideDiameter.value.si();
    REQUIRE(charts.charts.curve(0).model().designLimits.size() == 1);
    CHECK(charts.charts.curve(0).model().designLimits[0].at ==
          Approx(format::axisOf(format::LengthScale::Drawing, {units}).of(outside)));
    REQUIRE(charts.charts.curve(0).model().valueLimits.size() == model::firstPanel().stock.rolls.size());
  }
}

/// The legal stretches of a sweep, as the line of heat or tube would be broken.
std::vector<std::vector<double>> stretches(const std::vector<evaluate::SweepPoint>& points) {
  std::vector<std::vector<double>> found;
  bool open = false;
  for (const auto& point : points) {
    if (point.legal) {
      if (!open) found.emplace_back();
      found.back().push_back(point.x);
    }
    open = point.legal;
  }
  return found;
}

TEST_CASE("A curve is drawn where a design can be laid and broken where it cannot", "[charts][property]") {
  model::Document hairpins = small();
  hairpins.laying.recipe = model::Recipe::PlainSerpentine;
  hairpins.laying.pitch = hairpins.laying.bendRadius * 2.1;
  model::Document narrow = small();
  narrow.frame.insideHeight = millimetres(400.0);
  narrow.frame.insideWidth = millimetres(500.0);
  narrow.laying.bendRadius = millimetres(90.0);
  int broken = 0;
  for (const model::Document& document : {small(), hairpins, narrow}) {
    Charts charts(document);
    for (const char* button : {"curves.over.0", "curves.over.1", "curves.over.2"}) {
      CAPTURE(button);
      charts.choose(button);
      const auto& points = charts.sweeps.points();
      const auto wanted = stretches(points);
      std::size_t legal = 0;
      for (int index = 0; index < 4; ++index) {
        const auto& lines = charts.charts.curve(index).model().lines;
        REQUIRE(lines.size() == wanted.size());
        legal = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
          CHECK(static_cast<std::size_t>(lines[i].size()) == wanted[i].size());
          legal += wanted[i].size();
        }
      }
      broken += legal < points.size() ? 1 : 0;
    }
  }
  CHECK(broken > 0);
}

TEST_CASE("A design that cannot be laid has no mark and says so", "[charts][ui]") {
  model::Document document = small();
  document.laying.pitch = millimetres(12.0);
  Charts charts(document);
  for (int index = 0; index < 4; ++index) {
    const CurveModel& model = charts.charts.curve(index).model();
    CHECK_FALSE(model.present);
    CHECK(model.value == QStringLiteral("not laid"));
    QTest::mouseClick(charts.paper(index), Qt::LeftButton, {}, QPoint(120, 60));
  }
  CHECK(charts.store.undoStack()->count() == 0);
  CHECK_FALSE(charts.charts.grab().isNull());
  QTest::keyClick(&charts.charts.curve(0), Qt::Key_Right, Qt::ShiftModifier);
  QTest::keyClick(&charts.charts.curve(0), Qt::Key_Right, Qt::ShiftModifier);
  charts.settle();
  CHECK(charts.charts.curve(0).model().present);  // 22 mm can be laid again
}

TEST_CASE("Each of the four numbers opens by a click and by the keyboard", "[charts][ui][accessibility]") {
  Charts charts;
  const store::NumberKey keys[] = {store::NumberKey::TubeLength, store::NumberKey::Water,
                                   store::NumberKey::PressureDrop, store::NumberKey::Heat};
  std::vector<store::NumberKey> asked;
  QObject::connect(&charts.hub, &store::Hub::numberAsked, [&](store::NumberKey key) { asked.push_back(key); });
  for (int index = 0; index < 4; ++index) {
    CAPTURE(index);
    auto* number = charts.charts.curve(index).findChild<widgets::NumberTarget*>(QStringLiteral("number"));
    REQUIRE(number != nullptr);
    REQUIRE(number->isVisible());
    CHECK(number->cursor().shape() == Qt::PointingHandCursor);
    CHECK(number->accessibleName().contains(charts.charts.curve(index).model().value));
    QTest::mouseClick(number, Qt::LeftButton);
    number->setFocus(Qt::TabFocusReason);
    QTest::keyClick(number, Qt::Key_Return);
    QTest::keyClick(number, Qt::Key_Space);
    CHECK(asked == std::vector<store::NumberKey>(3, keys[index]));
    asked.clear();
  }
  CHECK(charts.store.undoStack()->count() == 0);
}

TEST_CASE("A kept design stays as dotted lines with signed differences beside the numbers", "[charts][ui]") {
  Charts charts;
  for (int index = 0; index < 4; ++index) CHECK(charts.charts.curve(index).model().beforeLines.empty());
  const double length = charts.store.results()->tubeLength.value.si();
  charts.store.keepAsBefore();
  charts.settle();
  for (int index = 0; index < 4; ++index) {
    CAPTURE(index);
    CHECK(charts.charts.curve(index).model().difference == QStringLiteral("as before"));
    CHECK(charts.charts.curve(index).model().beforeLines == charts.charts.curve(index).model().lines);
  }
  charts.store.apply([](model::Document d) { return model::withInsideWidth(std::move(d), millimetres(700)); },
                     QStringLiteral("Widen"));
  charts.settle();
  const double more = charts.store.results()->tubeLength.value.si() - length;
  REQUIRE(more > 0.0);
  CHECK(charts.charts.curve(0).model().difference ==
        QStringLiteral("+%1").arg(format::number(metres(more), format::LengthScale::Run, {}).joined()));
  CHECK(charts.charts.curve(0).accessibleName().contains(QStringLiteral("against before")));
  CHECK(charts.charts.curve(0).model().beforeLines != charts.charts.curve(0).model().lines);
  charts.store.forgetBefore();
  CHECK(charts.charts.curve(0).model().difference.isEmpty());
  CHECK(charts.charts.curve(0).model().beforeLines.empty());
}

}  // namespace
}  // namespace sunspool::charts
