// SPDX-License-Identifier: GPL-3.0-or-later

// The first minute as a person lives it: keys and mouse on the window, by object name.

#include "app/desktop/first_minute.h"

#include <QAccessible>
#include <QAction>
#include <QLineEdit>
#include <QListWidget>
#include <QMenu>
#include <QSettings>
#include <QTemporaryDir>
#include <catch2/catch.hpp>
#include <memory>

#include "app/desktop/finder.h"
#include "app/desktop/main_window.h"
#include "app/desktop/proposal_picture.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/io/files.h"
#include "tests/app/desktop/shown.h"

namespace sunspool::desktop {
namespace {

/// The window as it opens without a file.
struct Opened {
  QTemporaryDir folder;
  store::DocumentStore store{panelAtNoon()};
  store::Hub hub;
  render::Look look;
  std::unique_ptr<MainWindow> window;

  Opened() {
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.filePath(QStringLiteral("settings")));
    window = std::make_unique<MainWindow>(store, hub, look);
    window->begin();
    showAndSettle(*window, {1280, 800});
    settle();
  }
  void settle() {
    store.waitUntilSettled();
    QApplication::processEvents();
  }
  template <class W = QWidget>
  W& child(const char* name) {
    W* found = window->findChild<W*>(QLatin1String(name));
    INFO(name);
    REQUIRE(found != nullptr);
    return *found;
  }
  FirstMinute& minute() { return window->bench().firstMinute(); }
  QLineEdit& line() { return child<QLineEdit>("firstMinute.line"); }
  void type(const char* text) { QTest::keyClicks(&line(), QLatin1String(text)); }
  void ask(const char* text) {
    line().clear();
    type(text);
    QTest::keyClick(&line(), Qt::Key_Return);
    minute().waitForProposals();
    QApplication::processEvents();
  }
  ProposalPicture& picture(int number) {
    return child<ProposalPicture>(QStringLiteral("proposal.%1").arg(number).toLatin1().constData());
  }
  QString said() { return saidBy(*window); }
  std::string bytes() const { return io::writeDocument(store.document()); }
};

TEST_CASE("Without a file the window shows a finished panel at noon and one line", "[desktop][first]") {
  Opened opened;
  CHECK(opened.minute().isVisible());
  CHECK(opened.line().hasFocus());
  CHECK_FALSE(opened.line().accessibleName().isEmpty());
  CHECK_FALSE(opened.store.isModified());
  CHECK_FALSE(opened.child("whatIHave").isVisible());
  const auto sun = evaluate::sunNow(opened.store.document());
  REQUIRE(sun.has_value());
  CHECK(opened.store.document().moment.clock_h == Approx(sun->day.noon_h).margin(0.01));
}

TEST_CASE("What is typed becomes up to three pictures, and a number takes one as one step", "[desktop][first]") {
  Opened opened;
  const std::string before = opened.bytes();
  opened.ask("sheet 1.2 x 2.4 m, roll 100 m of 20/16");
  for (int number = 1; number <= 3; ++number) {
    INFO(number);
    CHECK(opened.picture(number).isVisible());
    CHECK(opened.picture(number).accessibleName().contains(QStringLiteral("left on the roll")));
  }
  CHECK(opened.picture(1).hasFocus());
  REQUIRE(opened.hub.ghostDesign() != nullptr);
  CHECK(opened.hub.ghostDesign()->frame.insideWidth == metres(2.4));
  CHECK(opened.bytes() == before);

  QTest::keyClick(&opened.picture(1), Qt::Key_2);
  opened.settle();
  CHECK(opened.store.document().frame.insideWidth == metres(2.4));
  CHECK(opened.store.undoStack()->count() == 1);
  CHECK(opened.hub.ghostDesign() == nullptr);
  CHECK_FALSE(opened.minute().isVisible());
  CHECK(opened.child("whatIHave").isVisible());
  CHECK(opened.window->bench().panel().hasFocus());
  opened.store.undoStack()->undo();
  CHECK(opened.bytes() == before);
}

TEST_CASE("A picture is looked at with the pointer and taken with a click", "[desktop][first]") {
  Opened opened;
  opened.ask("sheet 1.2 x 2.4 m, roll 100 m of 20/16");
  ProposalPicture& third = opened.picture(3);
  QTest::mouseMove(&third, third.rect().center());
  QApplication::processEvents();
  QTest::mouseClick(&third, Qt::LeftButton);
  CHECK(opened.store.document().laying.starts == third.proposal()->design.laying.starts);
  CHECK(opened.store.document() == third.proposal()->design);
}

TEST_CASE("Esc goes back: from the pictures to the line, from the line to the panel", "[desktop][first]") {
  Opened opened;
  opened.ask("sheet 1.2 x 2.4 m, roll 100 m of 20/16");
  QTest::keyClick(&opened.picture(1), Qt::Key_Right);
  CHECK(opened.picture(2).hasFocus());
  QTest::keyClick(&opened.picture(2), Qt::Key_Escape);
  CHECK_FALSE(opened.picture(1).isVisible());
  CHECK(opened.line().hasFocus());
  CHECK(opened.hub.ghostDesign() == nullptr);
  CHECK(opened.line().text() == QStringLiteral("sheet 1.2 x 2.4 m, roll 100 m of 20/16"));
  QTest::keyClick(&opened.line(), Qt::Key_Escape);
  CHECK_FALSE(opened.minute().isVisible());
  CHECK(opened.window->bench().panel().hasFocus());
}

TEST_CASE("What is not understood stays in the line, marked and answered", "[desktop][first]") {
  Opened opened;
  opened.ask("sheet 1.2 x 2.4");
  CHECK(opened.line().selectedText() == QStringLiteral("1.2 x 2.4"));
  CHECK(opened.line().accessibleDescription().contains(QStringLiteral("lacks its unit")));
  CHECK_FALSE(opened.picture(1).isVisible());
  opened.ask("sheet 20 x 30 cm, roll 100 m of 20/16");
  CHECK(opened.line().accessibleDescription().contains(QStringLiteral("too narrow")));
  opened.ask("pool 2400 gal");
  CHECK(opened.line().accessibleDescription().contains(QStringLiteral("imperial")));
}

TEST_CASE("Editing folds the line away, looking at another hour does not; a word brings it back", "[desktop][first]") {
  Opened opened;
  opened.store.apply([](model::Document d) { return model::withClock(std::move(d), 10.0); }, QStringLiteral("Hour"));
  CHECK(opened.minute().isVisible());
  opened.type("roll 50");
  opened.store.apply([](model::Document d) { return model::withPitch(std::move(d), millimetres(30.0)); },
                     QStringLiteral("Pitch"));
  CHECK_FALSE(opened.minute().isVisible());
  QTest::mouseClick(&opened.child("whatIHave"), Qt::LeftButton);
  CHECK(opened.minute().isVisible());
  CHECK(opened.line().hasFocus());
  CHECK(opened.line().text() == QStringLiteral("roll 50"));
}

TEST_CASE("The line stands above the panel and covers none of it", "[desktop][first]") {
  Opened opened;
  opened.ask("sheet 1.2 x 2.4 m, roll 100 m of 20/16");
  const QRect line = opened.minute().geometry(), panel = opened.window->bench().panel().geometry();
  CHECK_FALSE(line.intersects(panel));
  CHECK(panel.height() > 150);
  for (int number = 1; number <= 3; ++number) CHECK(opened.minute().rect().contains(opened.picture(number).geometry()));
  opened.look.setTextScale(2.0);
  QApplication::processEvents();
  for (int number = 1; number <= 3; ++number) CHECK(opened.minute().rect().contains(opened.picture(number).geometry()));
}

TEST_CASE("The words fit a finding by beginnings, middles and letters in order", "[desktop][finder]") {
  const Findable larger{QStringLiteral("Text larger"), QStringLiteral("View"), {}, {}};
  CHECK(fitOf(QStringLiteral("text"), larger) == 0);
  CHECK(fitOf(QStringLiteral("lar"), larger) == 1);
  CHECK(fitOf(QStringLiteral("arg"), larger) == 2);
  CHECK(fitOf(QStringLiteral("larger text"), larger) == 1);
  CHECK(fitOf(QStringLiteral("view"), larger) == 3);
  CHECK(fitOf(QStringLiteral("tlg"), larger) == 20);
  CHECK_FALSE(fitOf(QStringLiteral("smaller"), larger).has_value());
  CHECK(fitOf({}, larger) == 0);
}

struct Finding : Opened {
  Finding() {
    minute().fold();
    window->findChild<QAction*>(QStringLiteral("edit.find"))->trigger();
    QApplication::processEvents();
  }
  QLineEdit& words() { return child<QLineEdit>("finder.line"); }
  QListWidget& list() { return child<QListWidget>("finder.list"); }
};

TEST_CASE("The finder lists every action that can be done, with its key", "[desktop][finder]") {
  Finding finding;
  CHECK(finding.words().hasFocus());
  CHECK(finding.list().count() > 40);
  QTest::keyClicks(&finding.words(), QStringLiteral("turns fit"));
  REQUIRE(finding.list().count() >= 1);
  CHECK(finding.list().currentItem()->text() == QStringLiteral("As many turns as fit, Panel"));
  CHECK(finding.list().currentItem()->data(Qt::AccessibleDescriptionRole).toString() == QStringLiteral("Ctrl+T"));
}

TEST_CASE("Return does what was found, and the keyboard goes back", "[desktop][finder]") {
  Finding finding;
  QTest::keyClicks(&finding.words(), QStringLiteral("two parallel"));
  REQUIRE(finding.list().count() >= 1);
  QTest::keyClick(&finding.words(), Qt::Key_Return);
  CHECK(finding.store.document().laying.starts == 2);
  CHECK_FALSE(finding.child("finder").isVisible());
  CHECK(finding.window->bench().panel().hasFocus());
}

TEST_CASE("Arrows walk the finder, Esc leaves it without doing anything", "[desktop][finder]") {
  Finding finding;
  const std::string before = finding.bytes();
  QTest::keyClick(&finding.words(), Qt::Key_Down);
  QTest::keyClick(&finding.words(), Qt::Key_Down);
  CHECK(finding.list().currentRow() == 2);
  QTest::keyClick(&finding.words(), Qt::Key_Up);
  CHECK(finding.list().currentRow() == 1);
  QTest::keyClick(&finding.words(), Qt::Key_Escape);
  CHECK_FALSE(finding.child("finder").isVisible());
  CHECK(finding.bytes() == before);
}

TEST_CASE("Questions, findings and numbers are found too", "[desktop][finder]") {
  Finding finding;
  QTest::keyClicks(&finding.words(), QStringLiteral("bends?"));
  REQUIRE(finding.list().count() >= 1);
  QTest::keyClick(&finding.words(), Qt::Key_Return);
  CHECK(finding.child("questionSheet").isVisible());
  finding.window->bench().openQuestion(std::nullopt);

  std::optional<store::NumberKey> asked;
  QObject::connect(&finding.hub, &store::Hub::numberAsked, &finding.hub, [&](store::NumberKey key) { asked = key; });
  finding.window->findChild<QAction*>(QStringLiteral("edit.find"))->trigger();
  QTest::keyClicks(&finding.words(), QStringLiteral("water in the tube"));
  QTest::keyClick(&finding.words(), Qt::Key_Return);
  CHECK(asked == store::NumberKey::Water);

  finding.window->findChild<QAction*>(QStringLiteral("edit.find"))->trigger();
  QTest::keyClicks(&finding.words(), QStringLiteral("nothing is called like this"));
  CHECK(finding.list().count() == 0);
  QTest::keyClick(&finding.words(), Qt::Key_Return);
  CHECK(finding.child("finder").isVisible());
}

TEST_CASE("Opened and saved projects stand under recent; one that is gone says so and goes", "[desktop][files]") {
  Opened opened;
  const QString path = opened.folder.filePath(QStringLiteral("mine.sunspool"));
  REQUIRE(opened.window->saveTo(path));
  auto* recent = opened.window->findChild<QAction*>(QStringLiteral("file.recent.0"));
  REQUIRE(recent != nullptr);
  CHECK(recent->text() == QStringLiteral("mine"));
  CHECK(opened.window->windowTitle().contains(QStringLiteral("mine.sunspool")));
  opened.store.reset(model::firstPanel());
  recent->trigger();
  CHECK(opened.store.filePath() == path);
  opened.store.reset(model::firstPanel());
  REQUIRE(QFile::remove(path));
  opened.window->findChild<QMenu*>(QStringLiteral("menu.file.recent"))->aboutToShow();
  recent = opened.window->findChild<QAction*>(QStringLiteral("file.recent.0"));
  REQUIRE(recent != nullptr);
  CHECK(recent->text().contains(QStringLiteral("is gone")));
  recent->trigger();
  CHECK(opened.said().contains(QStringLiteral("taken off the list")));
  CHECK(store::Settings().recentFiles().isEmpty());
}

TEST_CASE("A second window on one project reads it, says who holds it, and writes under another name",
          "[desktop][files]") {
  Opened first;
  const QString path = first.folder.filePath(QStringLiteral("shared.sunspool"));
  REQUIRE(first.window->saveTo(path));
  Opened second;
  REQUIRE(second.window->openFile(path));
  CHECK(second.window->windowTitle().contains(QStringLiteral("read only")));
  CHECK(second.said().contains(QStringLiteral("held by")));
  CHECK_FALSE(second.window->saveTo(path));
  CHECK(second.window->saveTo(second.folder.filePath(QStringLiteral("copy.sunspool"))));
  CHECK_FALSE(second.window->windowTitle().contains(QStringLiteral("read only")));
}

}  // namespace
}  // namespace sunspool::desktop
