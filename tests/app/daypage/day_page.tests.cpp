// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/day_page.h"

#include <QAbstractButton>
#include <QAccessible>
#include <QApplication>
#include <QSignalSpy>
#include <QTest>
#include <algorithm>
#include <catch2/catch.hpp>

#include "app/daypage/stopped_curve.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::daypage {
namespace {

/// The page of a settled design and its day.
struct Page {
  store::DocumentStore store;
  store::Hub hub;
  render::Look look;
  store::DayRunner days{nullptr, store};
  DayPage page{store, hub, look, days};

  explicit Page(model::Document document = model::firstPanel()) : store(std::move(document)) {
    page.resize(286, 480);
    page.orderTabs();
    page.show();
    page.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&page));
    settle();
    page.setFocus();
  }
  void settle() {
    store.waitUntilSettled();
    days.waitUntilSettled();
    QApplication::processEvents();
  }
  std::string bytes() const { return io::writeDocument(store.document()); }
  double clock() const { return store.document().moment.clock_h; }
  QPoint at(double clock_h) const { return QPoint(40, qRound(page.yOf(clock_h))); }
  void dragTo(double clock_h) {
    const QPoint from = at(clock()), to = at(clock_h);
    QTest::mousePress(&page, Qt::LeftButton, {}, from);
    for (int i = 1; i <= 8; ++i) QTest::mouseMove(&page, from + (to - from) * i / 8);
  }
  void release(double clock_h) { QTest::mouseRelease(&page, Qt::LeftButton, {}, at(clock_h)); }
  void key(Qt::Key key, Qt::KeyboardModifiers modifiers = {}) { QTest::keyClick(&page, key, modifiers); }
  QAbstractButton& word(const char* name) {
    auto* button = page.findChild<QAbstractButton*>(QLatin1String(name));
    REQUIRE(button != nullptr);
    return *button;
  }
  void press(const char* name) {
    QTest::mouseClick(&word(name), Qt::LeftButton);
    settle();
  }
  std::vector<Part> named() const {
    std::vector<Part> parts;
    for (const PartLabel& label : page.labels()) parts.push_back(label.part);
    return parts;
  }
};

bool has(const std::vector<Part>& parts, Part part) {
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

/// The first panel with a tree in the west.
model::Document besideATree() {
  model::Document document = model::firstPanel();
  document.obstacles = {{"tree", degrees(240.0), degrees(285.0), degrees(35.0)}};
  return document;
}

constexpr double kFiveMinutes_h = 5.0 / 60.0;

TEST_CASE("Dragging the sun mark changes the hour in one undo step", "[daypage][ui]") {
  Page page;
  const std::string before = page.bytes();
  page.dragTo(15.5);
  CHECK(page.store.isPreviewing());
  CHECK(page.store.undoStack()->count() == 0);
  page.release(15.5);
  CHECK_FALSE(page.store.isPreviewing());
  // A pixel is 2 minutes here, the grid of the hand 5.
  CHECK_THAT(page.clock(), Catch::WithinAbs(15.5, kFiveMinutes_h + 1e-9));
  CHECK_THAT(std::remainder(page.clock() * 12.0, 1.0), Catch::WithinAbs(0.0, 1e-9));
  CHECK(page.store.undoStack()->count() == 1);
  CHECK(page.store.undoStack()->undoText() == QStringLiteral("Look at another hour"));
  page.store.undoStack()->undo();
  CHECK(page.bytes() == before);
}

TEST_CASE("Escape in the middle of a drag of the sun leaves no trace", "[daypage][ui]") {
  Page page;
  const std::string before = page.bytes();
  page.dragTo(9.0);
  REQUIRE(page.bytes() != before);
  page.key(Qt::Key_Escape);
  CHECK(page.bytes() == before);
  page.release(9.0);
  QTest::mouseMove(&page.page, page.at(8.0));
  CHECK(page.bytes() == before);
  CHECK(page.store.undoStack()->count() == 0);
}

TEST_CASE("A drag beyond the page stops at the day's own first and last minute", "[daypage][ui]") {
  Page page;
  QTest::mousePress(&page.page, Qt::LeftButton, {}, page.at(page.clock()));
  QTest::mouseMove(&page.page, QPoint(40, 6000));
  QTest::mouseRelease(&page.page, Qt::LeftButton, {}, QPoint(40, 6000));
  CHECK_THAT(page.clock(), Catch::WithinAbs(24.0 - 1.0 / 60.0, 1e-9));
  QTest::mousePress(&page.page, Qt::LeftButton, {}, page.at(page.clock()));
  QTest::mouseMove(&page.page, QPoint(40, -6000));
  QTest::mouseRelease(&page.page, Qt::LeftButton, {}, QPoint(40, -6000));
  CHECK(page.clock() == 0.0);
}

TEST_CASE("Arrow keys move the sun by a quarter hour, with Shift by an hour, as one step", "[daypage][ui]") {
  model::Document noon = model::firstPanel();
  noon.moment.clock_h = 12.0;
  Page page(noon);
  page.key(Qt::Key_Down);
  CHECK(page.clock() == 12.25);
  page.key(Qt::Key_Down, Qt::ShiftModifier);
  CHECK(page.clock() == 13.25);
  page.key(Qt::Key_Up);
  page.key(Qt::Key_Up, Qt::ShiftModifier);
  page.key(Qt::Key_Up);
  CHECK(page.clock() == 11.75);
  CHECK(page.store.undoStack()->count() == 1);
  page.store.undoStack()->undo();
  CHECK(page.clock() == 12.0);
}

TEST_CASE("Home and End go to the hours before the first and after the last sun", "[daypage][ui]") {
  Page page;
  const auto day = page.days.day();
  REQUIRE(day);
  REQUIRE_FALSE(day->quarters.empty());
  page.key(Qt::Key_Home);
  CHECK(page.clock() <= day->quarters.front().clock_h);
  CHECK(page.clock() > day->quarters.front().clock_h - 2.0);
  page.key(Qt::Key_End);
  CHECK(page.clock() >= day->quarters.back().clock_h);
  CHECK(page.clock() < day->quarters.back().clock_h + 2.0);
}

TEST_CASE("Another hour asks for no new day", "[daypage][property]") {
  Page page;
  const auto day = page.days.day();
  page.key(Qt::Key_Down);
  page.settle();
  CHECK(page.days.day() == day);
}

TEST_CASE("The page speaks the hour and the heat", "[daypage][ui][accessibility]") {
  Page page;
  const auto heat = format::number(page.store.results()->heat->toPool.value, {}).joined();
  CHECK(page.page.accessibleName() ==
        QStringLiteral("Day page, %1, %2 to the pool").arg(format::clock(page.clock()), heat));
  CHECK(page.page.accessibleDescription().contains(QStringLiteral("to the pool ")));
  CHECK(page.page.accessibleDescription().contains(QStringLiteral("never heat ")));
  CHECK(page.page.accessibleDescription().contains(page.page.footText()));
  const QString before = page.page.accessibleName();
  page.key(Qt::Key_Up);
  page.settle();
  CHECK(page.page.accessibleName() != before);
  page.look.setPreferences({format::UnitSystem::UsCustomary});
  CHECK(page.page.accessibleName().contains(QStringLiteral("BTU")));
  QAccessibleInterface* speaker = QAccessible::queryAccessibleInterface(&page.page);
  REQUIRE(speaker != nullptr);
  CHECK(speaker->text(QAccessible::Name) == page.page.accessibleName());
}

TEST_CASE("In the polar night the page says that the sun does not rise", "[daypage][ui]") {
  model::Document north = model::firstPanel();
  north.place.latitude = degrees(70.0);
  north.moment.month = 12;
  Page page(north);
  const QString sentence = format::sentence(Error{ErrorCode::SunNeverRises, {}, {}, {}}, {});
  CHECK(page.page.noBars() == sentence);
  CHECK(page.page.accessibleDescription() == sentence);
  CHECK_FALSE(page.page.grab().isNull());
  page.key(Qt::Key_Down);
  page.key(Qt::Key_Home);
  page.key(Qt::Key_End);
  CHECK(page.store.undoStack()->count() == 1);
  REQUIRE(page.store.apply([](model::Document d) { return model::withDate(std::move(d), 2025, 6, 21); },
                           QStringLiteral("Look at another month")));
  page.settle();
  CHECK(page.page.noBars().isEmpty());
  REQUIRE(page.days.day());
  CHECK(page.days.day()->quarters.size() > 80);  // the sun does not set
}

TEST_CASE("A panel that faces away from a low sun all day says so instead of settling for ever", "[daypage][ui]") {
  model::Document away = model::firstPanel();
  away.place.latitude = degrees(60.0);
  away.moment.month = 12;
  away.siting.tilt = degrees(90.0);
  away.siting.azimuth = degrees(0.0);
  Page page(away);
  CHECK(page.page.noBars() != QStringLiteral("settling"));
}

TEST_CASE("When the design cannot be laid the page says why", "[daypage][ui]") {
  model::Document document = model::firstPanel();
  document.laying.pitch = millimetres(12.0);
  Page page(document);
  REQUIRE(page.days.refusal());
  CHECK(page.page.noBars() == format::sentence(*page.days.refusal(), {}));
}

TEST_CASE("A dull day is one press and one undo step", "[daypage][ui]") {
  Page page;
  const std::string before = page.bytes();
  const double clear = page.days.day()->toPool.si();
  CHECK(page.word("day.clear").isChecked());
  page.press("day.dull");
  CHECK(page.store.document().conditions.sky == model::SkyKind::Dull);
  CHECK(page.store.undoStack()->count() == 1);
  CHECK(page.days.day()->toPool.si() < 0.5 * clear);
  CHECK_FALSE(page.word("day.clear").isChecked());
  page.press("day.dull");
  CHECK(page.store.undoStack()->count() == 1);
  page.store.undoStack()->undo();
  page.settle();
  CHECK(page.bytes() == before);
  CHECK(page.word("day.clear").isChecked());
}

TEST_CASE("The words of the page are reached and pressed by keys", "[daypage][ui][accessibility]") {
  Page page;
  page.key(Qt::Key_Tab);
  CHECK(QApplication::focusWidget() == &page.word("day.clear"));
  QTest::keyClick(QApplication::focusWidget(), Qt::Key_Right);
  CHECK(QApplication::focusWidget() == &page.word("day.dull"));
  QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
  CHECK(page.store.document().conditions.sky == model::SkyKind::Dull);
  QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
  CHECK(QApplication::focusWidget() == &page.word("day.fold"));
  QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
  CHECK(page.page.view() == DayPage::View::Months);
}

TEST_CASE("Every part of the day is named where nothing else stands", "[daypage][ui]") {
  Page page(besideATree());
  for (const QSize size : {QSize(286, 424), QSize(372, 630)}) {
    page.page.resize(size);
    page.settle();
    for (const double clock : {8.0, 12.5, 16.0}) {
      page.store.apply([clock](model::Document d) { return model::withClock(std::move(d), clock); }, QString());
      const std::vector<PartLabel> labels = page.page.labels();
      const std::vector<Part> named = page.named();
      std::string places;
      for (const PartLabel& label : labels)
        places += label.name.toStdString() + " at " + std::to_string(label.rect.top()) + " ";
      CAPTURE(size.width(), clock, places);
      CHECK(has(named, Part::ToPool));
      CHECK(has(named, Part::ToAir));
      CHECK(has(named, Part::NeverHeat));
      CHECK(has(named, Part::Shade));
      CHECK(has(named, Part::Waiting));
      for (std::size_t i = 0; i < labels.size(); ++i) {
        CHECK(QRectF(page.page.rect()).contains(labels[i].rect));
        for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(labels[i].rect.intersects(labels[j].rect));
      }
    }
  }
}

TEST_CASE("The page folds to the months, where a click or an arrow is another month", "[daypage][ui]") {
  Page page;
  page.press("day.fold");
  REQUIRE(page.page.view() == DayPage::View::Months);
  REQUIRE(page.days.months());
  CHECK(page.days.months()->size() == 12);
  CHECK(page.page.noBars().isEmpty());
  const auto months = page.days.months();
  const std::string before = page.bytes();
  QTest::mouseClick(&page.page, Qt::LeftButton, {}, QPoint(120, qRound(page.page.yOfMonth(9))));
  CHECK(page.store.document().moment.month == 9);
  CHECK(page.store.document().moment.day == 15);
  page.key(Qt::Key_Down);
  CHECK(page.store.document().moment.month == 10);
  page.key(Qt::Key_End);
  page.key(Qt::Key_Down);
  CHECK(page.store.document().moment.month == 12);
  page.key(Qt::Key_Home);
  CHECK(page.store.document().moment.month == 1);
  page.settle();
  CHECK(page.days.months() == months);  // another month asks for no new year
  CHECK(page.page.accessibleName().contains(QStringLiteral("January")));
  CHECK(page.days.day()->toPool == months->front().toPool);
  CHECK(page.store.undoStack()->count() == 1);
  page.store.undoStack()->undo();
  CHECK(page.bytes() == before);
  CHECK_FALSE(page.page.grab().isNull());
  page.key(Qt::Key_Escape);
  CHECK(page.page.view() == DayPage::View::Hours);
  CHECK(page.word("day.fold").text() == QStringLiteral("Months"));
}

TEST_CASE("Months are asked for only while they are shown", "[daypage][property]") {
  Page page;
  CHECK_FALSE(page.days.months());
  page.press("day.fold");
  const auto months = page.days.months();
  REQUIRE(months);
  page.press("day.fold");
  REQUIRE(page.store.apply([](model::Document d) { return model::withTilt(std::move(d), degrees(50.0)); }, QString()));
  page.settle();
  CHECK(page.days.months() == months);
  page.press("day.fold");
  CHECK(page.days.months() != months);
}

TEST_CASE("A design kept as before stands as a ghost and the total says the difference", "[daypage][ui]") {
  Page page;
  const double before = page.days.day()->toPool.si();
  CHECK_FALSE(page.days.dayBefore());
  page.store.keepAsBefore();
  page.settle();
  CHECK_FALSE(page.days.dayBefore());  // nothing to compare yet
  REQUIRE(page.store.apply([](model::Document d) { return model::withTilt(std::move(d), degrees(70.0)); }, QString()));
  page.settle();
  REQUIRE(page.days.dayBefore());
  CHECK(page.days.dayBefore()->toPool.si() == before);
  const double change = page.days.day()->toPool.si() - before;
  REQUIRE(change < 0.0);
  CHECK(page.page.footText() == QStringLiteral("%1 against before").arg(signedEnergyText(change)));
  CHECK(page.page.footText().startsWith(QStringLiteral("−")));
  // Another day and sky is the same for both.
  page.press("day.dull");
  REQUIRE(page.days.dayBefore());
  CHECK(page.days.dayBefore()->toPool.si() < 0.5 * before);
  CHECK_FALSE(page.page.grab().isNull());
  page.store.forgetBefore();
  page.settle();
  CHECK_FALSE(page.days.dayBefore());
}

TEST_CASE("With the plug pulled the page tells what the tube comes to", "[daypage][ui]") {
  Page page;
  page.hub.setPlugPulled(true);
  page.settle();
  REQUIRE(page.page.view() == DayPage::View::PlugOut);
  REQUIRE(page.days.stopped());
  CHECK(page.page.noBars().isEmpty());
  CHECK(page.page.footText() == stoppedSentence(*page.days.stopped(), page.clock(), {}));
  CHECK(page.page.footText().contains(QStringLiteral("is past its limit of 50\u00a0°C after about")));
  CHECK(page.page.accessibleDescription().contains(page.page.footText()));
  CHECK_FALSE(page.page.grab().isNull());
  const QString noon = page.page.footText();
  page.dragTo(18.5);
  page.release(18.5);
  CHECK(page.page.footText() != noon);
  page.key(Qt::Key_Home);
  page.settle();
  CHECK(page.page.footText() == QStringLiteral("No sun falls on the panel at %1.").arg(format::clock(page.clock())));
  page.press("day.fold");
  CHECK_FALSE(page.hub.isPlugPulled());
  CHECK(page.page.view() == DayPage::View::Hours);
}

TEST_CASE("A stopped tube under its limit says by how much, and that it is not so when drained",
          "[daypage][analytic]") {
  evaluate::StoppedDay day;
  day.tubeLimit_K = 333.15;
  day.quarters = {{9.0, 300.0, 320.05, 320.05, std::nullopt},
                  {9.25, 500.0, 340.15, 328.15, std::nullopt},
                  {9.5, 800.0, 380.15, 350.15, 21.4}};
  CHECK(stoppedSentence(day, 9.1, {}) ==
        QStringLiteral("Power fails at 09:06: full, the tube comes to 47\u00a0°C, 13.1\u00a0K under its limit."));
  CHECK(
      stoppedSentence(day, 9.25, {}) ==
      QStringLiteral("Power fails at 09:15: full, the tube comes to 55\u00a0°C, 5.0\u00a0K under its limit. Drained it "
                     "comes to 67\u00a0°C, over it."));
  CHECK(
      stoppedSentence(day, 9.6, {}) ==
      QStringLiteral("Power fails at 09:36: the tube is past its limit of 60\u00a0°C after about 21\u00a0min. Full it "
                     "comes to 77\u00a0°C, drained to 107\u00a0°C."));
  CHECK(quarterAt(day, 9.75) == nullptr);
}

}  // namespace
}  // namespace sunspool::daypage
