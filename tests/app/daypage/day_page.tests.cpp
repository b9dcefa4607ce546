// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/day_page.h"

#include <QAccessible>
#include <QApplication>
#include <QTest>
#include <catch2/catch.hpp>

#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::daypage {
namespace {

/// The page of a settled design and its day.
struct Page {
  store::DocumentStore store;
  render::Look look;
  store::DayRunner days{nullptr, store};
  DayPage page{store, look, days};

  explicit Page(model::Document document = model::firstPanel()) : store(std::move(document)) {
    page.resize(286, 480);
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
};

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
  CHECK(page.page.accessibleDescription().isEmpty());
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

}  // namespace
}  // namespace sunspool::daypage
