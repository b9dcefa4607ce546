// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/panel_view.h"

#include <QAccessible>
#include <QApplication>
#include <QDragEnterEvent>
#include <QDragLeaveEvent>
#include <QDropEvent>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QMimeData>
#include <QSignalSpy>
#include <QTest>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <ctime>

#include "app/gestures/roll_drop.h"
#include "app/panelview/handle_mark.h"
#include "app/panelview/scene_units.h"
#include "app/render/style.h"
#include "app/widgets/quantity_edit.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

using namespace sunspool;
using namespace sunspool::panelview;

namespace {

/// A window with the first panel, settled and laid out.
struct Bench {
  store::DocumentStore store;
  store::Hub hub;
  render::Look look;
  PanelView view{store, hub, look};

  explicit Bench(model::Document document = model::firstPanel(), QSize size = {1280, 720})
      : store(std::move(document)) {
    view.resize(size);
    view.show();
    view.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&view));
    store.waitUntilSettled();
    settle();
    view.setFocus();
    hub.setHere(0, 23.4);
    QApplication::processEvents();
  }
  /// Positions are only asked for once the view stands still.
  void settle() {
    int same = 0;
    QTransform last;
    while (same < 5) {
      QTest::qWait(10);
      same = view.viewportTransform() == last ? same + 1 : 0;
      last = view.viewportTransform();
    }
    view.grab();  // arranges what is drawn over the scene
  }
  std::string bytes() const { return io::writeDocument(store.document()); }
  HandleMark& handle(const char* key) {
    HandleMark* mark = view.handle(QLatin1String(key));
    REQUIRE(mark != nullptr);
    REQUIRE(mark->isThere());
    return *mark;
  }
  void press(QPointF at) { QTest::mousePress(view.viewport(), Qt::LeftButton, {}, at.toPoint()); }
  void move(QPointF from, QPointF to) {
    for (int i = 1; i <= 10; ++i) QTest::mouseMove(view.viewport(), (from + (to - from) * (i / 10.0)).toPoint(), 1);
  }
  void release(QPointF at) {
    QTest::mouseRelease(view.viewport(), Qt::LeftButton, {}, at.toPoint());
    QApplication::processEvents();
  }
  void drag(QPointF from, QPointF to) {
    press(from);
    move(from, to);
    release(to);
  }
  void key(int key, Qt::KeyboardModifiers modifiers = {}) { QTest::keyClick(&view, Qt::Key(key), modifiers); }
  void focusHandle(const char* name) {
    view.setFocus();
    for (int i = 0; i < 30; ++i) {
      const HandleMark* focused = view.focusedHandle();
      if (focused != nullptr && focused->gesture().key() == QLatin1String(name)) return;
      QTest::keyClick(&view, Qt::Key_Tab);
    }
    FAIL("Tab does not reach " << name);
  }
};

/// Centre of everything painted in the bead's own colours, from the picture alone.
QPointF violetRingCentre(const QImage& image, const QColor& violet, QPointF near, double radius) {
  double x = 0.0, y = 0.0;
  int count = 0;
  int left = image.width(), right = 0, top = image.height(), bottom = 0;
  for (int py = int(near.y() - radius); py <= int(near.y() + radius); ++py) {
    for (int px = int(near.x() - radius); px <= int(near.x() + radius); ++px) {
      if (!image.rect().contains(px, py) || image.pixel(px, py) != violet.rgb()) continue;
      if (std::hypot(px - near.x(), py - near.y()) > radius) continue;
      left = std::min(left, px);
      right = std::max(right, px);
      top = std::min(top, py);
      bottom = std::max(bottom, py);
      ++count;
    }
  }
  REQUIRE(count > 30);
  x = (left + right + 1) / 2.0;
  y = (top + bottom + 1) / 2.0;
  return {x, y};
}

}  // namespace

TEST_CASE("The bead typed to 20.00 m stands on the centre line at 20 m within a pixel", "[panelview][ui]") {
  Bench bench;
  QTest::keyClicks(&bench.view, QStringLiteral("20"));
  bench.key(Qt::Key_Return);
  CHECK(bench.hub.station_m() == 20.0);
  const geometry::Point there = bench.store.results()->layout->runs[0].path.pointAt(20.0);
  const QPointF wanted = bench.view.viewportTransform().map(toScene(there));
  CHECK(bench.view.widgetPointAt(0, 20.0) == wanted);
  QApplication::processEvents();
  const QImage picture = bench.view.grab().toImage();
  const QPointF drawn = violetRingCentre(picture, bench.look.tokens().violet, wanted, 13.5);
  CHECK(std::abs(drawn.x() - wanted.x()) <= 1.0);
  CHECK(std::abs(drawn.y() - wanted.y()) <= 1.0);
}

TEST_CASE("Arrow keys move the bead by 0.1 m, with Shift by 1 m, Home and End to the ends", "[panelview][ui]") {
  Bench bench;
  bench.hub.setHere(0, 10.0);
  bench.key(Qt::Key_Right);
  CHECK_THAT(bench.hub.station_m(), Catch::WithinAbs(10.1, 1e-9));
  bench.key(Qt::Key_Left, Qt::ShiftModifier);
  CHECK_THAT(bench.hub.station_m(), Catch::WithinAbs(9.1, 1e-9));
  bench.key(Qt::Key_Home);
  CHECK(bench.hub.station_m() == 0.0);
  bench.key(Qt::Key_Left);
  CHECK(bench.hub.station_m() == 0.0);
  bench.key(Qt::Key_End);
  CHECK(bench.hub.station_m() == bench.store.results()->layout->runs[0].path.length().si());
}

TEST_CASE("A metre beyond the end of the run is answered and the bead stays", "[panelview][ui]") {
  Bench bench;
  QTest::keyClicks(&bench.view, QStringLiteral("900"));
  bench.key(Qt::Key_Return);
  CHECK(bench.hub.station_m() == 23.4);
  bench.key(Qt::Key_Escape);
  QTest::keyClicks(&bench.view, QStringLiteral("7,5"));
  bench.key(Qt::Key_Return);
  CHECK(bench.hub.station_m() == 7.5);
}

TEST_CASE("A click on the tube puts the bead there, and a drag takes it along the same turn", "[panelview][ui]") {
  Bench bench;
  const QPointF at = bench.view.widgetPointAt(0, 31.0);
  bench.press(at);
  CHECK_THAT(bench.hub.station_m(), Catch::WithinAbs(31.0, 2.0 / bench.view.pixelsPerMetre()));
  for (int i = 1; i <= 20; ++i)
    QTest::mouseMove(bench.view.viewport(), bench.view.widgetPointAt(0, 31.0 + 0.1 * i).toPoint(), 1);
  bench.release(bench.view.widgetPointAt(0, 33.0));
  CHECK_THAT(bench.hub.station_m(), Catch::WithinAbs(33.0, 2.0 / bench.view.pixelsPerMetre()));
  CHECK(bench.store.undoStack()->count() == 0);
}

TEST_CASE("Each handle pulled by mouse changes its number in one undo step", "[panelview][ui]") {
  struct Pull {
    const char* key;
    QPointF by_mm;  // panel directions
    double (*read)(const model::Document&);
    double wanted, within;
  };
  const model::Document first = model::firstPanel();
  const Pull pulls[] = {
      {"inside_width", {-100.0, 0.0}, [](const model::Document& d) { return d.frame.insideWidth.si(); }, 2.24, 0.0051},
      {"inside_height", {0.0, 80.0}, [](const model::Document& d) { return d.frame.insideHeight.si(); }, 1.26, 0.0051},
      {"margin", {0.0, -20.0}, [](const model::Document& d) { return d.laying.margin.si(); }, 0.050, 0.0031},
      {"feed_shift", {0.0, 60.0}, [](const model::Document& d) { return d.laying.feedShift.si(); }, 0.06, 0.0051},
  };
  for (const Pull& pull : pulls) {
    CAPTURE(pull.key);
    Bench bench;
    const std::string before = bench.bytes();
    const QPointF at = bench.handle(pull.key).centre();
    const double px = bench.view.pixelsPerMetre() / 1000.0;
    bench.drag(at, at + QPointF(pull.by_mm.x() * px, -pull.by_mm.y() * px));
    CHECK_THAT(pull.read(bench.store.document()), Catch::WithinAbs(pull.wanted, pull.within));
    CHECK_FALSE(bench.store.isPreviewing());
    CHECK(bench.store.undoStack()->count() == 1);
    bench.store.undoStack()->undo();
    CHECK(bench.bytes() == before);
  }
}

TEST_CASE("The pitch handle pulled by mouse changes the pitch by the half millimetre", "[panelview][ui]") {
  Bench bench;
  const QPointF at = bench.handle("pitch").centre();
  bench.drag(at, at + QPointF(0.0, -20.0));
  const double pitch_mm = bench.store.document().laying.pitch.in(millimetre);
  CHECK(pitch_mm > 26.4);
  CHECK_THAT(std::remainder(pitch_mm, 0.5), Catch::WithinAbs(0.0, 1e-9));
  REQUIRE(bench.store.undoStack()->count() == 1);
  CHECK(bench.store.undoStack()->undoText() == QStringLiteral("Change pitch to %1 mm").arg(qRound(pitch_mm)));
}

TEST_CASE("The inner end pulled back along the tube takes turns away", "[panelview][ui]") {
  Bench bench;
  const auto& run = bench.store.results()->layout->runs[0];
  const int before = run.quarterTurns;
  model::Document shorter = bench.store.document();
  shorter.laying.quarterTurns = before - 2;
  const Result<layout::LaidPanel> target = layout::lay(shorter);
  REQUIRE(target);
  const QPointF from = bench.handle("inner_end").centre();
  const QPointF to =
      bench.view.viewportTransform().map(toScene(target->runs[0].path.pointAt(target->runs[0].turnsTo_m)));
  bench.drag(from, to);
  CHECK(bench.store.document().laying.quarterTurns == before - 2);
  CHECK(bench.store.undoStack()->count() == 1);
}

TEST_CASE("Escape in the middle of a drag restores the document byte for byte", "[panelview][ui]") {
  for (const char* key : {"inside_width", "inside_height", "margin", "pitch", "inner_end", "feed_shift"}) {
    CAPTURE(key);
    Bench bench;
    const std::string before = bench.bytes();
    const QPointF at = bench.handle(key).centre();
    const QPointF to = at + QPointF(30.0, -25.0);
    bench.press(at);
    bench.move(at, to);
    bench.key(Qt::Key_Escape);
    CHECK(bench.bytes() == before);
    QTest::mouseMove(bench.view.viewport(), (to + QPointF(40.0, 40.0)).toPoint(), 1);
    bench.release(to);
    CHECK(bench.bytes() == before);
    CHECK(bench.store.undoStack()->count() == 0);
    CHECK_FALSE(bench.view.slip());
  }
}

TEST_CASE("A press and release without a move makes no step", "[panelview][ui]") {
  Bench bench;
  const QPointF at = bench.handle("inside_width").centre();
  bench.press(at);
  bench.release(at);
  CHECK(bench.store.undoStack()->count() == 0);
  CHECK(bench.view.focusedHandle() == &bench.handle("inside_width"));
}

TEST_CASE("A number typed during a drag is the number taken", "[panelview][ui]") {
  Bench bench;
  const QPointF at = bench.handle("inside_width").centre();
  bench.press(at);
  bench.move(at, at + QPointF(-30.0, 0.0));
  QTest::keyClicks(&bench.view, QStringLiteral("2200"));
  bench.move(at + QPointF(-30.0, 0.0), at + QPointF(-80.0, 0.0));
  bench.release(at + QPointF(-80.0, 0.0));
  CHECK_THAT(bench.store.document().frame.insideWidth.si(), Catch::WithinAbs(2.2, 1e-12));
  CHECK(bench.store.undoStack()->count() == 1);
}

TEST_CASE("While a handle is pulled the slip says what it costs", "[panelview][ui]") {
  Bench bench;
  const QPointF at = bench.handle("inside_width").centre();
  bench.press(at);
  bench.move(at, at + QPointF(-60.0, 0.0));
  REQUIRE(bench.view.slip());
  const auto& columns = bench.view.slip()->columns;
  const auto has = [&](const QString& unit) {
    return std::any_of(columns.begin(), columns.end(), [&](const SlipColumn& c) { return c.head.unit == unit; });
  };
  CHECK(has(QStringLiteral("mm")));
  CHECK(has(QStringLiteral("m")));
  bench.store.waitUntilSettled();
  QApplication::processEvents();
  REQUIRE(bench.view.slip());
  const auto settled = bench.view.slip()->columns;
  CHECK(std::any_of(settled.begin(), settled.end(), [](const SlipColumn& c) {
    return (c.head.unit == QStringLiteral("W") || c.head.unit == QStringLiteral("kW")) &&
           c.head.number.startsWith(QChar(0x2212));
  }));
  CHECK(std::none_of(settled.begin(), settled.end(), [](const SlipColumn& c) { return c.settling; }));
  bench.key(Qt::Key_Escape);
  bench.release(at);
}

TEST_CASE("A pull into what cannot be laid is answered in a sentence and put back", "[panelview][ui]") {
  Bench bench;
  const std::string before = bench.bytes();
  const QPointF at = bench.handle("pitch").centre();
  bench.press(at);
  QTest::keyClicks(&bench.view, QStringLiteral("5"));
  REQUIRE(bench.view.slip());
  CHECK_FALSE(bench.view.slip()->title.isEmpty());
  CHECK(bench.view.slip()->state == render::EdgeState::TwoTeeth);
  bench.release(at);
  CHECK(bench.bytes() == before);
  CHECK(bench.store.undoStack()->count() == 0);
  REQUIRE(bench.view.slip());  // the reason stays in sight
}

TEST_CASE("Tab walks bead, handles and tags, and leaves at the end", "[panelview][ui][accessibility]") {
  Bench bench;
  int handles = 0;
  for (int i = 0; i < 6; ++i) {
    bench.key(Qt::Key_Tab);
    handles += bench.view.focusedHandle() != nullptr ? 1 : 0;
  }
  CHECK(handles == 6);
  bench.key(Qt::Key_Backtab);
  CHECK(bench.view.focusedHandle() != nullptr);
}

TEST_CASE("Arrow keys on a handle make one undo step together, and Escape puts it back", "[panelview][ui]") {
  Bench bench;
  const std::string before = bench.bytes();
  bench.focusHandle("inside_width");
  bench.key(Qt::Key_Left);
  bench.key(Qt::Key_Left);
  bench.key(Qt::Key_Left, Qt::ShiftModifier);
  CHECK_THAT(bench.store.document().frame.insideWidth.si(), Catch::WithinAbs(2.34 - 0.06, 1e-12));
  CHECK(bench.store.undoStack()->count() == 1);
  bench.key(Qt::Key_Escape);
  CHECK(bench.bytes() == before);
}

TEST_CASE("Arrow keys on the inner end add and take quarter turns", "[panelview][ui]") {
  Bench bench;
  const int before = bench.store.results()->layout->runs[0].quarterTurns;
  bench.focusHandle("inner_end");
  bench.key(Qt::Key_Left);
  const int fewer = bench.store.results()->layout->runs[0].quarterTurns;
  CHECK(fewer < before);
  CHECK(bench.store.document().laying.quarterTurns == fewer);
  bench.key(Qt::Key_Right);
  CHECK(bench.store.results()->layout->runs[0].quarterTurns == before);
}

TEST_CASE("Quarters of a turn can be typed", "[panelview][ui]") {
  Bench bench;
  bench.focusHandle("inner_end");
  QTest::keyClicks(&bench.view, QStringLiteral("14.75"));
  bench.key(Qt::Key_Return);
  CHECK(bench.store.document().laying.quarterTurns == 59);
  bench.key(Qt::Key_Return);
  auto* field = bench.view.findChild<widgets::QuantityEdit*>();
  REQUIRE(field != nullptr);
  CHECK(field->text() == QStringLiteral("14.75"));
}

TEST_CASE("A key does not walk a handle into a panel that cannot be laid", "[panelview][ui]") {
  Bench bench;
  bench.focusHandle("pitch");
  for (int i = 0; i < 4; ++i) bench.key(Qt::Key_Down, Qt::ShiftModifier);
  CHECK(bench.store.results()->layout.has_value());
  CHECK(bench.store.document().laying.pitch.si() >= 0.020);
  REQUIRE(bench.view.slip());
  CHECK_FALSE(bench.view.slip()->title.isEmpty());
}

TEST_CASE("Enter on a handle opens its number in place and Return takes it", "[panelview][ui]") {
  Bench bench;
  bench.focusHandle("pitch");
  bench.key(Qt::Key_Return);
  auto* field = bench.view.findChild<widgets::QuantityEdit*>();
  REQUIRE(field != nullptr);
  auto* line = field->findChild<QLineEdit*>();
  CHECK(line->accessibleName() == QStringLiteral("Pitch"));
  line->selectAll();
  QTest::keyClicks(line, QStringLiteral("28"));
  QTest::keyClick(line, Qt::Key_Return);
  CHECK_THAT(bench.store.document().laying.pitch.si(), Catch::WithinAbs(0.028, 1e-12));
  QTest::qWait(1);
  CHECK(bench.view.findChild<widgets::QuantityEdit*>() == nullptr);
}

TEST_CASE("A click on a dimension types the outside size over", "[panelview][ui]") {
  Bench bench;
  REQUIRE(bench.view.overlay().dimensions().size() == 2);
  const QPointF at = bench.view.overlay().dimensions()[0].text.center();
  bench.press(at);
  bench.release(at);
  auto* field = bench.view.findChild<widgets::QuantityEdit*>();
  REQUIRE(field != nullptr);
  CHECK_THAT(field->value(), Catch::WithinAbs(2.41, 1e-12));
  auto* line = field->findChild<QLineEdit*>();
  line->selectAll();
  QTest::keyClicks(line, QStringLiteral("2.5 m"));
  QTest::keyClick(line, Qt::Key_Return);
  CHECK_THAT(bench.store.document().frame.insideWidth.si(), Catch::WithinAbs(2.43, 1e-12));
  CHECK(bench.store.undoStack()->count() == 1);
}

TEST_CASE("The wheel zooms about the pointer and 0 fits again", "[panelview][ui]") {
  Bench bench;
  const QTransform fitted = bench.view.viewportTransform();
  const QPointF at(400.0, 300.0);
  const QPointF under = fitted.inverted().map(at);
  QWheelEvent wheel(at, bench.view.mapToGlobal(at), {}, {0, 240}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase,
                    false);
  QApplication::sendEvent(bench.view.viewport(), &wheel);
  CHECK(bench.view.viewportTransform().m11() > fitted.m11());
  const QPointF after = bench.view.viewportTransform().map(under);
  CHECK(std::abs(after.x() - at.x()) <= 1.0);
  CHECK(std::abs(after.y() - at.y()) <= 1.0);
  bench.key(Qt::Key_0);
  CHECK(bench.view.viewportTransform() == fitted);
}

TEST_CASE("The middle button pans", "[panelview][ui]") {
  Bench bench;
  const QPointF before = bench.view.widgetPointAt(0, 30.0);
  QTest::mousePress(bench.view.viewport(), Qt::MiddleButton, {}, {600, 300});
  QMouseEvent move(QEvent::MouseMove, QPointF(650, 330), bench.view.viewport()->mapToGlobal(QPointF(650, 330)),
                   Qt::NoButton, Qt::MiddleButton, {});
  QApplication::sendEvent(bench.view.viewport(), &move);
  QTest::mouseRelease(bench.view.viewport(), Qt::MiddleButton, {}, {650, 330});
  const QPointF moved = bench.view.widgetPointAt(0, 30.0) - before;
  CHECK(moved == QPointF(50.0, 30.0));
}

TEST_CASE("A hovered design is shown as a ghost and goes when the chart is left", "[panelview][ui]") {
  Bench bench;
  CHECK_FALSE(bench.view.hasGhost());
  const std::string before = bench.bytes();
  bench.hub.setGhost(0.040);
  CHECK(bench.view.hasGhost());
  CHECK(bench.bytes() == before);
  bench.hub.setGhost(std::nullopt);
  CHECK_FALSE(bench.view.hasGhost());
}

TEST_CASE("Here and now is one sentence with the metre, the place and the clock", "[panelview][ui]") {
  Bench bench;
  const QString sentence = bench.view.hereAndNow();
  INFO(sentence.toStdString());
  CHECK(sentence.contains(QStringLiteral("23.4 m")));
  CHECK(sentence.contains(QStringLiteral("turn")));
  CHECK(sentence.contains(QStringLiteral("13:30")));
  CHECK(sentence.contains(QStringLiteral("°C")));
}

TEST_CASE("A screen reader finds the panel and every handle by name and number", "[panelview][ui][accessibility]") {
  Bench bench;
  QAccessibleInterface* panel = QAccessible::queryAccessibleInterface(&bench.view);
  REQUIRE(panel != nullptr);
  CHECK(panel->text(QAccessible::Name) == QStringLiteral("Panel"));
  CHECK(panel->text(QAccessible::Description) == bench.view.hereAndNow());
  REQUIRE(panel->childCount() == 6);
  for (int i = 0; i < panel->childCount(); ++i) {
    QAccessibleInterface* handle = panel->child(i);
    REQUIRE(handle != nullptr);
    CHECK(handle->role() == QAccessible::Slider);
    CHECK_FALSE(handle->text(QAccessible::Name).isEmpty());
    CHECK_FALSE(handle->text(QAccessible::Value).isEmpty());
    CHECK(handle->state().focusable);
    CHECK(bench.view.rect().contains(bench.view.mapFromGlobal(handle->rect().center())));
    CHECK(panel->indexOfChild(handle) == i);
  }
}

TEST_CASE("A panel that cannot be laid says why on its plate", "[panelview][ui]") {
  model::Document document = model::firstPanel();
  document.laying.recipe = model::Recipe::PlainSerpentine;
  Bench bench(document);
  REQUIRE_FALSE(bench.store.results()->layout.has_value());
  CHECK(bench.view.hereAndNow() == format::sentence(bench.store.results()->layout.error(), bench.look.preferences()));
  CHECK_FALSE(bench.view.grab().isNull());
}

TEST_CASE("Absurd frames are drawn without harm", "[panelview][fault]") {
  for (const double size : {0.001, 500.0}) {
    model::Document document = model::firstPanel();
    document.frame.insideWidth = metres(size);
    document.frame.insideHeight = metres(size);
    Bench bench(document, {640, 400});
    CHECK_FALSE(bench.view.grab().isNull());
  }
}

// Pictures for people: tests_app_panelview "[pictures]" with SUNSPOOL_PICTURES set to a folder.
TEST_CASE("Pictures of the panel in every theme", "[.][pictures]") {
  const QString folder = qEnvironmentVariable("SUNSPOOL_PICTURES", QStringLiteral("."));
  const std::pair<render::Theme, const char*> themes[] = {{render::Theme::Light, "light"},
                                                          {render::Theme::Dark, "dark"},
                                                          {render::Theme::ContrastOnWhite, "white"},
                                                          {render::Theme::ContrastOnBlack, "black"}};
  for (const QSize size : {QSize(994, 424), QSize(1548, 630)}) {
    Bench bench(model::firstPanel(), size);
    render::Style::install(bench.look);
    for (const auto& [theme, name] : themes) {
      bench.look.setTheme(theme);
      bench.settle();
      const QString base = QStringLiteral("%1/panel-%2-%3").arg(folder, QLatin1String(name)).arg(size.width());
      QApplication::processEvents();
      bench.view.grab().save(base + QStringLiteral(".png"));
      if (theme == render::Theme::ContrastOnWhite || theme == render::Theme::ContrastOnBlack) continue;
      for (int i = 0; i < 3; ++i) bench.view.zoomIn();
      bench.settle();
      const QPointF from = bench.handle("inner_end").centre();
      bench.press(from);
      bench.move(from, from + QPointF(-260.0, -40.0));
      bench.store.waitUntilSettled();
      QApplication::processEvents();
      bench.view.grab().save(base + QStringLiteral("-pull.png"));
      bench.key(Qt::Key_Escape);
      bench.release(from);
      bench.view.fit();
      bench.store.apply([](model::Document d) { return model::withQuarterTurns(std::move(d), 51); }, QString());
      bench.store.waitUntilSettled();
      bench.settle();
      const QPointF end = bench.handle("inner_end").centre();
      bench.press(end);
      QTest::keyClicks(&bench.view, QStringLiteral("14.75"));
      bench.store.waitUntilSettled();
      QApplication::processEvents();
      bench.view.grab().save(base + QStringLiteral("-more.png"));
      bench.key(Qt::Key_Escape);
      bench.release(end);
      bench.store.undoStack()->undo();
      bench.settle();
      bench.hub.setGhost(0.040);
      bench.focusHandle("pitch");
      bench.settle();
      bench.view.grab().save(base + QStringLiteral("-ghost.png"));
      bench.hub.setGhost(std::nullopt);
      bench.key(Qt::Key_Up);
      bench.store.waitUntilSettled();
      QApplication::processEvents();
      bench.view.grab().save(base + QStringLiteral("-keys.png"));
      bench.key(Qt::Key_Escape);
      bench.store.waitUntilSettled();
      bench.view.fit();
      bench.settle();
      QTest::mouseMove(bench.view.viewport(), bench.view.widgetPointAt(0, 44.0).toPoint());
      bench.focusHandle("inside_width");
      bench.key(Qt::Key_Return);
      QApplication::processEvents();
      bench.view.grab().save(base + QStringLiteral("-number.png"));
      bench.key(Qt::Key_Escape);
      QTest::keyClick(bench.view.findChild<QLineEdit*>(), Qt::Key_Escape);
      QTest::qWait(5);
      const QPointF pitch = bench.handle("pitch").centre();
      bench.press(pitch);
      QTest::keyClicks(&bench.view, QStringLiteral("12"));
      QApplication::processEvents();
      bench.view.grab().save(base + QStringLiteral("-refused.png"));
      bench.key(Qt::Key_Escape);
      bench.release(pitch);
      for (const int starts : {2, 4}) {
        bench.store.apply([&](model::Document d) { return model::withStarts(std::move(d), starts); }, QString());
        bench.store.waitUntilSettled();
        QApplication::processEvents();
        bench.settle();
        bench.view.grab().save(base + QStringLiteral("-starts%1.png").arg(starts));
      }
      bench.store.apply([&](model::Document d) { return model::withPitch(std::move(d), metres(0.5)); }, QString());
      bench.settle();
      bench.view.grab().save(base + QStringLiteral("-cannot.png"));
      bench.store.reset(model::firstPanel());
      bench.store.waitUntilSettled();
    }
    bench.look.setTheme(render::Theme::Light);
    bench.look.setTextScale(2.0);
    bench.settle();
    bench.view.grab().save(QStringLiteral("%1/panel-large-%2.png").arg(folder).arg(size.width()));
    bench.press(bench.handle("inside_width").centre());
    bench.move(bench.handle("inside_width").centre(), bench.handle("inside_width").centre() - QPointF(40.0, 0.0));
    QApplication::processEvents();
    bench.view.grab().save(QStringLiteral("%1/panel-large-%2-pull.png").arg(folder).arg(size.width()));
    bench.key(Qt::Key_Escape);
    QApplication::setStyle(QStringLiteral("Fusion"));
  }
}

// How long pictures take: all made anew, as after each move of a drag, and with the tube as it was, as when the bead
// moves. Printed, never asserted.
TEST_CASE("Repainting 200 m of tube", "[.][timing]") {
  model::Document document = model::firstPanel();
  document.frame.insideWidth = metres(3.6);
  document.frame.insideHeight = metres(1.9);
  for (const QSize size : {QSize(1280, 800), QSize(1920, 1080), QSize(3840, 2160)}) {
    Bench bench(document, size);
    const auto measure = [&](const char* what, const auto& change) {
      std::vector<double> times_ms;
      const std::clock_t before = std::clock();
      for (int i = 0; i < 200; ++i) {
        QElapsedTimer timer;
        timer.start();
        change(i);
        bench.view.viewport()->repaint();
        times_ms.push_back(double(timer.nsecsElapsed()) * 1e-6);
      }
      const double cpu_ms = 1e3 * double(std::clock() - before) / CLOCKS_PER_SEC / 200.0;
      std::sort(times_ms.begin(), times_ms.end());
      std::printf("%d x %d, %.1f m of tube, %s: p50 %.2f ms, p95 %.2f ms, processor %.2f ms each\n", size.width(),
                  size.height(), bench.store.results()->tubeLength.value.si(), what, times_ms[100], times_ms[190],
                  cpu_ms);
    };
    measure("nothing but the bead moves", [&](int i) { bench.hub.setHere(0, 20.0 + 0.1 * i); });
    measure("colours made anew",
            [&](int i) { bench.look.setTheme(i % 2 == 0 ? render::Theme::Dark : render::Theme::Light); });
    measure("a drag: laid and painted anew", [&](int i) {
      bench.store.preview([i](model::Document d) { return model::withPitch(d, metres(0.026 + 0.0001 * (i % 20))); });
    });
    bench.store.cancelPreview();
  }
}

namespace {

/// A roll of the Shed, dragged over the panel.
struct DraggedRoll {
  QMimeData mime;
  Bench& bench;
  DraggedRoll(Bench& over, std::size_t roll) : bench(over) {
    mime.setData(gestures::rollMime(), gestures::rollBytes(roll));
  }
  void enter() {
    QDragEnterEvent event({400, 300}, Qt::CopyAction, &mime, Qt::LeftButton, {});
    QApplication::sendEvent(bench.view.viewport(), &event);
    CHECK(event.isAccepted());
    QDragMoveEvent move({420, 310}, Qt::CopyAction, &mime, Qt::LeftButton, {});
    QApplication::sendEvent(bench.view.viewport(), &move);
    bench.store.waitUntilSettled();
  }
  void leave() {
    QDragLeaveEvent event;
    QApplication::sendEvent(bench.view.viewport(), &event);
  }
  void drop() {
    QDropEvent event({420, 310}, Qt::CopyAction, &mime, Qt::LeftButton, {});
    QApplication::sendEvent(bench.view.viewport(), &event);
    bench.store.waitUntilSettled();
  }
};

model::Document withRoll(double length_m) {
  model::Document document = model::firstPanel();
  document.stock.rolls[0].length = metres(length_m);
  return document;
}

}  // namespace

TEST_CASE("A roll held over the panel shows what it would lay, and is put back by leaving", "[panelview][ui][shed]") {
  Bench bench(withRoll(40.0));
  const std::string before = bench.bytes();
  DraggedRoll roll(bench, 0);
  roll.enter();
  REQUIRE(bench.view.slip());
  CHECK(bench.view.slip()->title.contains(QStringLiteral("stay on the roll")));
  CHECK(bench.store.isPreviewing());
  CHECK(bench.store.results()->layout->totalCut < metres(40.0));
  roll.leave();
  CHECK_FALSE(bench.view.slip());
  CHECK(bench.bytes() == before);
  CHECK(bench.store.undoStack()->count() == 0);
}

TEST_CASE("A dropped roll is laid until it is empty, in one undo step", "[panelview][ui][shed]") {
  Bench bench(withRoll(40.0));
  const std::string before = bench.bytes();
  QSignalSpy said(&bench.view, &PanelView::said);
  DraggedRoll roll(bench, 0);
  roll.enter();
  roll.drop();
  CHECK_FALSE(bench.store.isPreviewing());
  CHECK(bench.store.undoStack()->count() == 1);
  CHECK(bench.store.undoStack()->undoText().contains(QStringLiteral("until")));
  CHECK(bench.store.document().laying.quarterTurns.has_value());
  CHECK(said.count() == 1);
  bench.store.undoStack()->undo();
  CHECK(bench.bytes() == before);
}

TEST_CASE("A roll too short for one turn is refused at the hand, and dropping it changes nothing",
          "[panelview][ui][shed]") {
  Bench bench(withRoll(4.0));
  const std::string before = bench.bytes();
  DraggedRoll roll(bench, 0);
  roll.enter();
  REQUIRE(bench.view.slip());
  CHECK(bench.view.slip()->text.contains(QStringLiteral("too short for one turn")));
  roll.drop();
  CHECK(bench.bytes() == before);
  bench.press({200.0, 650.0});
  CHECK_FALSE(bench.view.slip());
}

TEST_CASE("A frame edge pulled near the side of a sheet clicks to it", "[panelview][ui][shed]") {
  model::Document document = model::firstPanel();
  document.stock.timbers = {{"Board", metres(6.0), 0, 20.0}};
  document.stock.sheets = {{"Plywood", model::SheetUse::Backing, metres(1.2), metres(2.6), 1, {}}};
  Bench bench(document);
  HandleMark& top = bench.handle("inside_height");
  const QPointF from = top.centre();
  const double scale = bench.view.pixelsPerMetre();
  bench.drag(from, from - QPointF(0.0, 0.02 * scale + 4.0));  // 4 px past 1.2 m
  CHECK(bench.store.document().frame.insideHeight == metres(1.2));
  bench.store.undoStack()->undo();
  bench.settle();
  bench.drag(from, from - QPointF(0.0, 0.02 * scale + 40.0));
  CHECK(bench.store.document().frame.insideHeight > metres(1.2));
}
