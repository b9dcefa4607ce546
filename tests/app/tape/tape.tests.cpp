// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/tape.h"

#include <QAccessible>
#include <QApplication>
#include <QSignalSpy>
#include <QTest>
#include <catch2/catch.hpp>
#include <random>

#include "app/tape/corner.h"
#include "core/evaluate/evaluate.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"
#include "core/results/run_profile.h"

namespace sunspool::tape {
namespace {

model::Document withStarts(int starts) {
  model::Document document = model::firstPanel();
  document.laying.starts = starts;
  return document;
}

/// A Tape of a settled design, shown and laid out.
struct Bench {
  store::DocumentStore store;
  store::Hub hub;
  render::Look look;
  Tape tape;

  explicit Bench(model::Document document = model::firstPanel())
      : store(std::move(document)), tape(settled(store), hub, look) {
    tape.resize(1920, 318);
    tape.show();
    REQUIRE(QTest::qWaitForWindowExposed(&tape));
    tape.setFocus();
  }
  static store::DocumentStore& settled(store::DocumentStore& store) {
    store.waitUntilSettled();
    return store;
  }
  QPoint onBody(double station_m) const {
    return QPointF(tape.placement().x(station_m), tape.placement().body.center().y()).toPoint();
  }
  void keys(const char* text) {
    for (const char* c = text; *c != 0; ++c) QTest::keyClick(&tape, *c);
  }
};

TEST_CASE("The chips say what core knows at the bead, in the reader's unit", "[tape][analytic]") {
  Bench bench;
  const results::Results known = evaluate::evaluate(model::firstPanel(), {});
  REQUIRE_FALSE(known.profiles.empty());
  for (const auto units : {format::UnitSystem::Metric, format::UnitSystem::UsCustomary}) {
    const format::Preferences preferences{units};
    bench.look.setPreferences(preferences);
    for (const double station : {0.0, 3.33, 23.4, 51.07, bench.tape.end_m()}) {
      bench.hub.setHere(0, station);
      const results::RunProfile::Point point = results::at(known.profiles[0], station);
      const QString water = format::number(Temperature::fromKelvin(point.water_K), preferences).joined();
      const QString gauge = format::number(pascals(point.gauge_Pa), preferences).joined();
      CHECK(bench.tape.reading(Strip::Water) == water);
      CHECK(bench.tape.reading(Strip::WaterLine) == (point.gauge_Pa > 0.0 ? QLatin1Char('+') + gauge : gauge));
    }
  }
}

TEST_CASE("In a bend the chip gives its margin and its ovality, on a straight the word", "[tape][analytic]") {
  Bench bench;
  const results::Bend& bend = bench.store.results()->bends->all.at(5);
  bench.hub.setHere(bend.run, bend.station_m);
  const format::Preferences& preferences = bench.look.preferences();
  const QString times = format::number(Fact{"times", 1.0 / bend.index, Dimension::None}, preferences).joined();
  const QString oval = format::number(Fact{"oval", bend.ovality, Dimension::Percent}, preferences).joined();
  CHECK(bench.tape.reading(Strip::Bend) == times + QStringLiteral(", oval ") + oval);
  const results::Bend& next = bench.store.results()->bends->all.at(6);
  bench.hub.setHere(0, (bend.to_m + next.from_m) / 2.0);
  CHECK(bench.tape.reading(Strip::Bend) == QStringLiteral("straight"));
}

TEST_CASE("Dragging on the Tape takes the bead along, to the ends of the run and no further", "[tape][window]") {
  Bench bench;
  QTest::mousePress(&bench.tape, Qt::LeftButton, {}, bench.onBody(10.0));
  CHECK(bench.hub.station_m() == Approx(10.0).margin(0.1));
  for (double station = 11.0; station <= 40.0; station += 1.0) {
    QTest::mouseMove(&bench.tape, bench.onBody(station), 1);
    CHECK(bench.hub.station_m() == Approx(station).margin(0.1));
  }
  QTest::mouseMove(&bench.tape, QPoint(1915, 20), 1);
  CHECK(bench.hub.station_m() == bench.tape.end_m());
  QTest::mouseMove(&bench.tape, QPoint(5, 20), 1);
  CHECK(bench.hub.station_m() == 0.0);
  QTest::mouseRelease(&bench.tape, Qt::LeftButton, {}, QPoint(5, 20));
  QTest::mouseMove(&bench.tape, bench.onBody(30.0), 1);
  CHECK(bench.hub.station_m() == 0.0);
  QTest::mouseClick(&bench.tape, Qt::LeftButton, {}, QPoint(60, 150));
  CHECK(bench.hub.station_m() == 0.0);
}

TEST_CASE("Keys move the bead by a tenth of a metre, ten times that with Shift, and to the ends", "[tape][window]") {
  Bench bench;
  bench.hub.setHere(0, 20.0);
  QTest::keyClick(&bench.tape, Qt::Key_Right);
  CHECK(bench.hub.station_m() == 20.1);
  QTest::keyClick(&bench.tape, Qt::Key_Left);
  QTest::keyClick(&bench.tape, Qt::Key_Left);
  CHECK(bench.hub.station_m() == 19.9);
  QTest::keyClick(&bench.tape, Qt::Key_Right, Qt::ShiftModifier);
  CHECK(bench.hub.station_m() == 20.9);
  QTest::keyClick(&bench.tape, Qt::Key_End);
  CHECK(bench.hub.station_m() == bench.tape.end_m());
  QTest::keyClick(&bench.tape, Qt::Key_Right);
  CHECK(bench.hub.station_m() == bench.tape.end_m());
  QTest::keyClick(&bench.tape, Qt::Key_Home);
  CHECK(bench.hub.station_m() == 0.0);
}

TEST_CASE("A typed metre and Enter go there; one beyond the run is refused in words", "[tape][window]") {
  Bench bench;
  bench.keys("20");
  CHECK(bench.hub.station_m() == 0.0);
  QTest::keyClick(&bench.tape, Qt::Key_Return);
  CHECK(bench.hub.station_m() == 20.0);
  bench.keys("35");
  QTest::keyClick(&bench.tape, Qt::Key_Escape);
  QTest::keyClick(&bench.tape, Qt::Key_Return);
  CHECK(bench.hub.station_m() == 20.0);
  bench.keys("900");
  QTest::keyClick(&bench.tape, Qt::Key_Return);
  CHECK(bench.hub.station_m() == 20.0);
  CHECK(bench.tape.typedRefusal().contains(QStringLiteral("0 to")));
  QTest::keyClick(&bench.tape, Qt::Key_Backspace);
  CHECK(bench.tape.typedRefusal().isEmpty());
  QTest::keyClick(&bench.tape, Qt::Key_Backspace);
  QTest::keyClick(&bench.tape, Qt::Key_Return);
  CHECK(bench.hub.station_m() == 9.0);
  bench.look.setPreferences({format::UnitSystem::UsCustomary});
  bench.keys("100");
  QTest::keyClick(&bench.tape, Qt::Key_Return);
  CHECK(bench.hub.station_m() == Approx(30.48).epsilon(1e-12));
}

TEST_CASE("With several runs up, down and the letters choose the run", "[tape][window]") {
  Bench bench(withStarts(4));
  REQUIRE(bench.store.results()->layout->runs.size() == 4);
  bench.hub.setHere(0, 5.0);
  QTest::keyClick(&bench.tape, Qt::Key_Down);
  CHECK(bench.hub.run() == 1);
  CHECK(bench.tape.run() == 1);
  CHECK(bench.hub.station_m() == 5.0);
  QTest::keyClick(&bench.tape, Qt::Key_Up);
  QTest::keyClick(&bench.tape, Qt::Key_Up);
  CHECK(bench.hub.run() == 0);
  const std::vector<QRectF> targets = runTargets(bench.look.tokens(), bench.tape.placement(), 4);
  REQUIRE(targets.size() == 4);
  QTest::mouseClick(&bench.tape, Qt::LeftButton, {}, targets[2].center().toPoint());
  CHECK(bench.hub.run() == 2);
  CHECK(bench.tape.accessibleName().contains(QStringLiteral("run C")));
}

TEST_CASE("The Tape speaks metre, run, water and pressure", "[tape][window]") {
  Bench bench;
  bench.hub.setHere(0, 23.4);
  const results::RunProfile::Point point = results::at(bench.store.results()->profiles[0], 23.4);
  const QString water = format::number(Temperature::fromKelvin(point.water_K), {}).number;
  CHECK(bench.tape.accessibleName() ==
        QStringLiteral("at 23.4 metres of run A, %1 degrees, %2").arg(water, bench.tape.reading(Strip::WaterLine)));
  QAccessibleInterface* speaker = QAccessible::queryAccessibleInterface(&bench.tape);
  REQUIRE(speaker != nullptr);
  CHECK(speaker->role() == QAccessible::Slider);
  CHECK(speaker->text(QAccessible::Name) == bench.tape.accessibleName());
  REQUIRE(speaker->valueInterface() != nullptr);
  CHECK(speaker->valueInterface()->currentValue().toDouble() == 23.4);
  speaker->valueInterface()->setCurrentValue(12.5);
  CHECK(bench.hub.station_m() == 12.5);
  bench.look.setPreferences({format::UnitSystem::UsCustomary});
  CHECK(bench.tape.accessibleName().startsWith(QStringLiteral("at 41.0 feet of run A, ")));
}

TEST_CASE("When nothing can be laid the Tape says why, and takes no bead", "[tape][window]") {
  model::Document document = model::firstPanel();
  document.laying.pitch = millimetres(12.0);
  const Error error = evaluate::evaluate(document, {}).layout.error();
  Bench bench(document);
  CHECK(bench.tape.refusal() == format::sentence(error, {}));
  CHECK(bench.tape.accessibleName() == bench.tape.refusal());
  for (const Strip strip : {Strip::Bend, Strip::Water, Strip::WaterLine}) CHECK(bench.tape.reading(strip).isEmpty());
  QTest::mouseClick(&bench.tape, Qt::LeftButton, {}, QPoint(900, 200));
  QTest::keyClick(&bench.tape, Qt::Key_Right);
  CHECK(bench.hub.station_m() == 0.0);
  CHECK_FALSE(bench.tape.grab().isNull());
}

TEST_CASE("Numbers of an older design are never shown without the word settling", "[tape][window]") {
  Bench bench;
  bench.hub.setHere(0, 23.4);
  const QString before = bench.tape.reading(Strip::Water);
  REQUIRE(bench.store.apply([](model::Document d) { return model::withPitch(std::move(d), millimetres(36.0)); },
                            QStringLiteral("Move pitch")));
  REQUIRE_FALSE(bench.store.isSettled());
  CHECK(bench.tape.reading(Strip::Water) == before + QStringLiteral(" settling"));
  CHECK(bench.tape.accessibleName().endsWith(QStringLiteral("settling")));
  CHECK_FALSE(bench.tape.reading(Strip::Bend).contains(QStringLiteral("settling")));
  bench.store.waitUntilSettled();
  CHECK_FALSE(bench.tape.reading(Strip::Water).contains(QStringLiteral("settling")));
}

TEST_CASE("A bead beyond a run that became shorter is shown at its end", "[tape][window]") {
  Bench bench;
  bench.hub.setHere(0, bench.tape.end_m());
  const double before = bench.tape.end_m();
  REQUIRE(bench.store.apply([](model::Document d) { return model::withPitch(std::move(d), millimetres(45.0)); },
                            QStringLiteral("Move pitch")));
  bench.store.waitUntilSettled();
  CHECK(bench.tape.end_m() < before);
  CHECK(bench.tape.station_m() == bench.tape.end_m());
}

TEST_CASE("Every metre of any Tape has its place between pump and edge of the window", "[tape][property]") {
  const auto seed = Catch::rngSeed();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> tube(0.5, 500.0), rest(0.0, 500.0), scale(0.8, 3.0);
  std::uniform_int_distribution<int> width(900, 3840), height(96, 640);
  for (int i = 0; i < 500; ++i) {
    const Wanted wanted{{width(random), height(random)}, 286.0, tube(random), rest(random), 190.0};
    const Placement place = placementFor(wanted, render::tokensFor(render::Theme::Light, scale(random)));
    REQUIRE(place.perMetre > 0.0);
    REQUIRE(place.left >= place.side);
    REQUIRE(place.x(wanted.tube_m) == Approx(place.end));
    REQUIRE(place.rollEnd <= place.right + 1e-6);
    REQUIRE(place.station(place.x(0.3)) == Approx(0.3));
    REQUIRE(place.body.height() > 0.0);
  }
}

TEST_CASE("Heads of the strips and the pump's flow open, by a click and by the keyboard", "[tape][ui][accessibility]") {
  Bench bench;
  const store::NumberKey keys[] = {store::NumberKey::TightestBend, store::NumberKey::Outlet,
                                   store::NumberKey::LowestPressure, store::NumberKey::Flow};
  std::vector<store::NumberKey> asked;
  QObject::connect(&bench.hub, &store::Hub::numberAsked, [&](store::NumberKey key) { asked.push_back(key); });
  for (const QSize size : {QSize(1920, 318), QSize(1280, 262)}) {
    bench.tape.setSideWidth(size.width() < 1600 ? 286 : 372);
    bench.tape.resize(size);
    for (int i = 0; i < 4; ++i) {
      CAPTURE(size.width(), i);
      auto* number = bench.tape.findChild<widgets::NumberTarget*>(QStringLiteral("tape.number.%1").arg(i));
      REQUIRE(number != nullptr);
      REQUIRE(number->isVisible());
      CHECK(number->geometry().right() < bench.tape.placement().left);
      CHECK_FALSE(number->accessibleName().isEmpty());
      QTest::mouseClick(number, Qt::LeftButton);
      number->setFocus(Qt::TabFocusReason);
      QTest::keyClick(number, Qt::Key_Return);
      CHECK(asked == std::vector<store::NumberKey>(2, keys[i]));
      asked.clear();
    }
  }
}

TEST_CASE("A press on the plug pulls it and another pushes it in", "[tape][ui]") {
  Bench bench;
  for (const QSize size : {QSize(1920, 318), QSize(1280, 262)}) {
    bench.tape.resize(size);
    bench.tape.setSideWidth(size.width() >= 1600 ? 372 : 286);
    QApplication::processEvents();
    const QRectF plug = plugRect(bench.look.tokens(), bench.tape.placement());
    REQUIRE(plug.width() >= 36.0);
    REQUIRE(plug.height() >= 36.0);
    const QPoint there = plug.center().toPoint();
    const double station = bench.tape.station_m();
    const QImage in = bench.tape.grab().toImage();
    QTest::mouseClick(&bench.tape, Qt::LeftButton, {}, there);
    CHECK(bench.hub.isPlugPulled());
    CHECK(bench.tape.grab().toImage() != in);
    CHECK(bench.tape.station_m() == station);
    QTest::mouseClick(&bench.tape, Qt::LeftButton, {}, there);
    CHECK_FALSE(bench.hub.isPlugPulled());
    CHECK(bench.tape.grab().toImage() == in);
  }
}

}  // namespace
}  // namespace sunspool::tape
