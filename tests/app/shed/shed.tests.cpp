// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/shed.h"
#include "app/store/tube_catalogue.h"

#include <QApplication>
#include <QCheckBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <catch2/catch.hpp>

#include "core/io/project_file.h"
#include "core/model/defaults.h"

using namespace sunspool;
using namespace sunspool::shed;

namespace {

struct Drawer {
  QTemporaryDir folder;
  store::DocumentStore store{model::firstPanel()};
  render::Look look;
  std::unique_ptr<Shed> shed;
  QStringList said;

  explicit Drawer(QSize size = {468, 700}) {
    shed = std::make_unique<Shed>(store, look, store::OwnShed(ownPath()));
    QObject::connect(shed.get(), &Shed::said, shed.get(), [this](const QString& sentence) { said << sentence; });
    shed->resize(size);
    shed->show();
    shed->activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(shed.get()));
    settle();
  }
  void settle() {
    store.waitUntilSettled();
    QApplication::processEvents();
  }
  QString ownPath() const { return folder.filePath(QStringLiteral("data/shed.json")); }
  std::string bytes() const { return io::writeDocument(store.document()); }
  template <class W = QWidget>
  W& child(const char* name) {
    W* found = shed->findChild<W*>(QLatin1String(name));
    INFO(name);
    REQUIRE(found != nullptr);
    return *found;
  }
  widgets::QuantityEdit& field(const char* name) { return child<widgets::QuantityEdit>(name); }
  /// By keys, as a hand would.
  void type(const char* name, const char* text) {
    widgets::QuantityEdit& edit = field(name);
    edit.editNow();
    auto* line = edit.findChild<QLineEdit*>();
    QTest::keyClick(line, Qt::Key_Backspace);
    QTest::keyClicks(line, QString::fromUtf8(text));
    QTest::keyClick(line, Qt::Key_Return);
    settle();
  }
  void press(const char* name) {
    QTest::mouseClick(&child(name), Qt::LeftButton);
    settle();
  }
  int steps() { return store.undoStack()->index(); }
};

}  // namespace

TEST_CASE("The drawer shows every thing of the project's Shed", "[shed][ui]") {
  Drawer drawer;
  CHECK(drawer.child("shed.roll.0").isVisible());
  CHECK(drawer.child("shed.timber.0").isVisible());
  CHECK(drawer.child("shed.timber.1").isVisible());
  CHECK(drawer.child("shed.roll.0").accessibleName().contains(QStringLiteral("100.0 m")));
  CHECK(drawer.child("shed.roll.0").accessibleDescription().contains(QStringLiteral("taken")));
}

TEST_CASE("A price is typed with a comma, zero is free, an emptied one is to be asked", "[shed][ui]") {
  Drawer drawer;
  drawer.type("shed.roll.0.price", "58,50");
  CHECK(drawer.store.document().stock.rolls[0].price == model::Price(58.5));
  drawer.type("shed.roll.0.price", "0");
  CHECK(drawer.store.document().stock.rolls[0].price == model::Price(0.0));
  drawer.type("shed.roll.0.price", "");
  CHECK(drawer.store.document().stock.rolls[0].price == model::Price());
  CHECK(drawer.field("shed.roll.0.price").isEmpty());
  drawer.type("shed.roll.0.price", "free");
  CHECK(drawer.store.document().stock.rolls[0].price == model::Price(0.0));
  CHECK(drawer.steps() == 4);
  drawer.type("shed.roll.0.price", "dear");
  CHECK(drawer.field("shed.roll.0.price").hasBadText());
  CHECK(drawer.steps() == 4);
}

TEST_CASE("Sizes, number owned and sureness are changed in the row", "[shed][ui]") {
  Drawer drawer;
  drawer.type("shed.roll.0.length", "41,3");
  CHECK_THAT(drawer.store.document().stock.rolls[0].length.si(), Catch::WithinAbs(41.3, 1e-12));
  drawer.type("shed.roll.0.owned", "2");
  CHECK(drawer.store.document().stock.rolls[0].owned == 2);
  drawer.child<WordChoice>("shed.roll.0.sureness").choose(2);
  CHECK(drawer.store.document().stock.rolls[0].sureness == Sureness::Measured);
  drawer.type("shed.roll.0.length", "-3");
  CHECK(drawer.field("shed.roll.0.length").hasBadText());
  CHECK(drawer.field("shed.roll.0.length").message().contains(QStringLiteral("must lie between")));
  CHECK(drawer.steps() == 3);
}

TEST_CASE("A thing is added and taken out in one undo step each", "[shed][ui]") {
  Drawer drawer;
  const std::string before = drawer.bytes();
  for (const model::StockList list : kAllLists) {
    drawer.shed->stock().add(list);
    drawer.settle();
  }
  CHECK(drawer.steps() == 6);
  CHECK(drawer.store.document().stock.rolls.size() == 2);
  CHECK(drawer.child("shed.roll.1").isVisible());
  CHECK(drawer.child("shed.thermometer.0").hasFocus());
  QTest::keyClick(&drawer.child("shed.thermometer.0"), Qt::Key_Delete);
  drawer.settle();
  CHECK(drawer.store.document().stock.thermometers.empty());
  CHECK(drawer.steps() == 7);
  for (int i = 0; i < 7; ++i) drawer.store.undoStack()->undo();
  drawer.settle();
  CHECK(drawer.bytes() == before);
  CHECK(drawer.shed->findChild<QWidget*>(QStringLiteral("shed.roll.1")) == nullptr);
}

TEST_CASE("A roll is laid by Enter until it is empty, and what stays is said", "[shed][ui]") {
  Drawer drawer;
  drawer.type("shed.roll.0.length", "40");
  const std::string before = drawer.bytes();
  QWidget& row = drawer.child("shed.roll.0");
  row.setFocus();
  QTest::keyClick(&row, Qt::Key_Return);
  drawer.settle();
  REQUIRE(drawer.store.results()->layout);
  CHECK(drawer.store.results()->layout->totalCut <= metres(40.0));
  CHECK(drawer.store.results()->layout->totalCut > metres(35.0));
  REQUIRE(drawer.said.size() == 1);
  CHECK(drawer.said[0].contains(QStringLiteral("stay on the roll")));
  CHECK(drawer.store.undoStack()->undoText().contains(QStringLiteral("until")));
  drawer.store.undoStack()->undo();
  CHECK(drawer.bytes() == before);
}

TEST_CASE("A roll too short for one turn is refused in words, by the button too", "[shed][ui]") {
  Drawer drawer;
  drawer.type("shed.roll.0.length", "5");
  const std::string before = drawer.bytes();
  drawer.child("shed.roll.0").setFocus();
  drawer.press("shed.roll.0.lay");
  CHECK(drawer.bytes() == before);
  REQUIRE(drawer.said.size() == 1);
  CHECK(drawer.said[0].contains(QStringLiteral("too short for one turn")));
}

TEST_CASE("Two label numbers that cannot belong to one pump are answered at the number", "[shed][ui]") {
  Drawer drawer;
  drawer.shed->stock().add(model::StockList::Pumps);
  drawer.settle();
  drawer.type("shed.pump.0.head", "90");
  CHECK(drawer.field("shed.pump.0.head").hasBadText());
  CHECK(drawer.field("shed.pump.0.head").message().contains(QStringLiteral("label")));
}

TEST_CASE("What is kept in one's own Shed comes back into another project", "[shed][ui]") {
  Drawer drawer;
  drawer.type("shed.roll.0.length", "41.3");
  const model::Roll kept = drawer.store.document().stock.rolls[0];
  drawer.child("shed.roll.0").setFocus();
  drawer.press("shed.roll.0.keep");
  REQUIRE(QFile::exists(drawer.ownPath()));
  drawer.press("shed.roll.0.keep");
  CHECK(drawer.said.last().contains(QStringLiteral("already")));

  drawer.store.reset(model::firstPanel());
  drawer.settle();
  drawer.child("shed.add").setFocus();
  drawer.shed->setPage(Shed::Page::Own);
  CHECK(drawer.shed->hasFocus());
  drawer.press("shed.own.bring");
  CHECK(drawer.said.last().contains(QStringLiteral("ticked")));
  drawer.child<QCheckBox>("shed.own.0").setChecked(true);
  drawer.press("shed.own.bring");
  CHECK(drawer.shed->page() == Shed::Page::Stock);
  REQUIRE(drawer.store.document().stock.rolls.size() == 2);
  CHECK(drawer.store.document().stock.rolls[1] == kept);
  CHECK(drawer.steps() == 1);

  drawer.shed->setPage(Shed::Page::Own);
  drawer.child<QCheckBox>("shed.own.0").setChecked(true);
  drawer.press("shed.own.forget");
  CHECK(store::OwnShed(drawer.ownPath()).read()->stock.rolls.empty());
}

TEST_CASE("A damaged Shed of one's own is named, left as it is, and blocks nothing", "[shed][ui]") {
  Drawer drawer;
  drawer.child("shed.roll.0").setFocus();
  drawer.press("shed.roll.0.keep");
  const QByteArray damage = "{\"format\": \"sunspool-shed\", \"version\": 1, \"rolls\": [";
  QFile file(drawer.ownPath());
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(damage);
  file.close();
  drawer.press("shed.roll.0.keep");
  CHECK(drawer.said.last().contains(drawer.ownPath()));
  drawer.shed->setPage(Shed::Page::Own);
  drawer.settle();
  CHECK(drawer.child<QLabel>("shed.own.trouble").text().contains(drawer.ownPath()));
  drawer.press("shed.own.back");
  CHECK(drawer.shed->page() == Shed::Page::Stock);
  REQUIRE(file.open(QIODevice::ReadOnly));
  CHECK(file.readAll() == damage);
}

TEST_CASE("Escape in the drawer closes it, after it put a number back", "[shed][ui]") {
  Drawer drawer;
  QSignalSpy closed(drawer.shed.get(), &Shed::closed);
  auto& field = drawer.field("shed.roll.0.length");
  field.editNow();
  QTest::keyClicks(field.findChild<QLineEdit*>(), QStringLiteral("7"));
  QTest::keyClick(field.findChild<QLineEdit*>(), Qt::Key_Escape);
  CHECK(closed.count() == 0);
  CHECK(drawer.steps() == 0);
  REQUIRE(drawer.child("shed.roll.0").hasFocus());
  QTest::keyClick(&drawer.child("shed.roll.0"), Qt::Key_Escape);
  CHECK(closed.count() == 1);
}

TEST_CASE("The design's place, pool, tube and pump are typed over in their sentences", "[shed][ui]") {
  Drawer drawer;
  drawer.press("shed.tab.design");
  drawer.type("shed.design.pool_volume", "12,5");
  drawer.type("shed.design.latitude", "-33.9");
  drawer.type("shed.design.utc_offset", "5.5");
  drawer.type("shed.design.panels", "2");
  drawer.type("shed.design.tilt", "20");
  drawer.type("shed.design.azimuth", "0");
  drawer.type("shed.design.gust", "33");
  drawer.type("shed.design.label_flow", "30");
  drawer.type("shed.design.feed_length", "6");
  const model::Document d = drawer.store.document();
  const auto near = [](double expected) { return Catch::Matchers::WithinAbs(expected, 1e-9); };
  CHECK_THAT(d.pool.volume.si(), near(12.5));
  CHECK_THAT(d.place.latitude.degrees(), near(-33.9));
  CHECK_THAT(d.place.utcOffset_h, near(5.5));
  CHECK(d.panelsAlike == 2);
  CHECK_THAT(d.siting.tilt.degrees(), near(20.0));
  CHECK_THAT(d.siting.azimuth.degrees(), near(0.0));
  REQUIRE(d.siting.gust);
  CHECK_THAT(d.siting.gust->value.si(), near(33.0));
  CHECK_THAT(d.plumbing.pump.labelFlow.value.si(), near(30.0 / 60000.0));
  CHECK_THAT(d.plumbing.feed.length.si(), near(6.0));
  CHECK(drawer.steps() == 9);
  drawer.type("shed.design.gust", "");
  CHECK_FALSE(drawer.store.document().siting.gust);
  drawer.child<WordChoice>("shed.design.label_flow.sureness").choose(0);
  CHECK(drawer.store.document().plumbing.pump.labelFlow.sureness == Sureness::Guess);
}

TEST_CASE("The tube is taken from the catalogue or measured by oneself", "[shed][ui]") {
  Drawer drawer;
  REQUIRE_FALSE(store::catalogueTubes().empty());
  drawer.press("shed.tab.design");
  auto& choice = drawer.child<WordChoice>("shed.design.tube");
  const auto& tubes = store::catalogueTubes();
  CHECK(tubes[static_cast<std::size_t>(choice.index())].catalogueId == "ldpe-20-16");
  choice.choose(0);
  CHECK(drawer.store.document().tube == tubes[0]);
  drawer.type("shed.design.inside", "12,8");
  CHECK(drawer.store.document().tube.catalogueId.empty());
  CHECK(choice.index() == static_cast<int>(tubes.size()));
}

TEST_CASE("The drawer speaks US units and grows with the text", "[shed][ui]") {
  Drawer drawer;
  drawer.look.setPreferences({format::UnitSystem::UsCustomary});
  drawer.settle();
  drawer.type("shed.roll.0.length", "100");
  CHECK_THAT(drawer.store.document().stock.rolls[0].length.si(), Catch::WithinAbs(30.48, 1e-9));
  drawer.look.setTextScale(1.5);
  drawer.settle();
  CHECK(drawer.shed->wantedWidth() == 702);
}

TEST_CASE("What stands before the sun is added, typed over and taken away, a step each", "[shed][ui]") {
  Drawer drawer;
  drawer.shed->setPage(Shed::Page::Design);
  drawer.settle();
  const std::string before = drawer.bytes();
  drawer.press("shed.obstacle.add");
  REQUIRE(drawer.store.document().obstacles.size() == 1);
  CHECK(drawer.steps() == 1);
  drawer.type("shed.obstacle.0.from", "150");
  drawer.type("shed.obstacle.0.to", "190");
  drawer.type("shed.obstacle.0.height", "50");
  const model::Obstacle& tower = drawer.store.document().obstacles.front();
  CHECK(tower.azimuthFrom.degrees() == Approx(150.0));
  CHECK(tower.azimuthTo.degrees() == Approx(190.0));
  CHECK(tower.height.degrees() == Approx(50.0));
  CHECK(drawer.steps() == 4);
  drawer.type("shed.obstacle.0.height", "95");
  CHECK(drawer.steps() == 4);
  CHECK(drawer.field("shed.obstacle.0.height").hasBadText());
  drawer.press("shed.obstacle.add");
  CHECK(drawer.store.document().obstacles.size() == 2);
  drawer.press("shed.obstacle.0.remove");
  REQUIRE(drawer.store.document().obstacles.size() == 1);
  CHECK(drawer.store.document().obstacles.front().azimuthFrom.degrees() == Approx(240.0));
  while (drawer.store.undoStack()->canUndo()) drawer.store.undoStack()->undo();
  drawer.settle();
  CHECK(drawer.bytes() == before);
  CHECK(drawer.shed->findChild<QWidget*>(QStringLiteral("shed.obstacle.0.from")) == nullptr);
}
