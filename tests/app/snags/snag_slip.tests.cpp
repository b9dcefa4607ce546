// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/snags/snag_slip.h"

#include <QLineEdit>
#include <QPushButton>
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/checks/snag_keys.h"
#include "tests/app/desktop/shown.h"
#include "tests/core/remedies/shown_snags.h"

namespace sunspool::snags {
namespace {

/// Bends that collapse: a finding of this panel's own.
model::Document tight() {
  model::Document document = model::firstPanel();
  document.laying.bendRadius = millimetres(60.0);
  return document;
}

struct Shown : desktop::ShownBench {
  explicit Shown(model::Document document = tight()) : desktop::ShownBench(std::move(document)) {
    REQUIRE(snags().size() >= 2);
  }
  const std::vector<Snag>& snags() const { return store.results()->snags; }
  SnagSlip& slip() { return child<SnagSlip>("snagSlip"); }
  QLineEdit& reason() { return child<QLineEdit>("snagReason"); }
  QPushButton& button() { return child<QPushButton>("snagLeave"); }
  QString titleOf(int index) const {
    return format::snagText(snags().at(static_cast<std::size_t>(index)), store.document(), {}).title;
  }
  int indexOf(SnagCode code) const {
    const auto found = std::find_if(snags().begin(), snags().end(), [code](const Snag& s) { return s.code == code; });
    return found == snags().end() ? -1 : static_cast<int>(found - snags().begin());
  }
};

TEST_CASE("A click on a tag of the panel opens the slip of that finding", "[snags][ui]") {
  Shown shown;
  shown.bench.panel().grab();  // arranges what is drawn over the scene
  const auto& tags = shown.bench.panel().overlay().tags();
  REQUIRE_FALSE(tags.empty());
  const int snag = tags.front().snag;
  QTest::mouseClick(shown.bench.panel().viewport(), Qt::LeftButton, {}, tags.front().box().center().toPoint());
  REQUIRE(shown.slip().isVisible());
  CHECK(shown.slip().openIndex() == snag);
  CHECK(shown.slip().accessibleName() == shown.titleOf(snag));
  CHECK_FALSE(shown.slip().accessibleDescription().isEmpty());
  CHECK(shown.slip().geometry().bottom() <= shown.bench.tape().geometry().bottom() - 60);  // the Tape's own row
  QTest::keyClick(&shown.slip(), Qt::Key_Escape);
  CHECK_FALSE(shown.slip().isVisible());
  CHECK(shown.store.undoStack()->count() == 0);
}

TEST_CASE("Page Down and Page Up walk all findings round", "[snags][ui]") {
  Shown shown;
  const int count = static_cast<int>(shown.snags().size());
  shown.bench.openSnag(0);
  for (int i = 1; i <= count; ++i) {
    QTest::keyClick(&shown.slip(), Qt::Key_PageDown);
    CHECK(shown.slip().openIndex() == i % count);
    CHECK(shown.slip().accessibleName() == shown.titleOf(i % count));
  }
  QTest::keyClick(&shown.slip(), Qt::Key_PageUp);
  CHECK(shown.slip().openIndex() == count - 1);
  QTest::keyClick(&shown.reason(), Qt::Key_PageUp);  // from the field as well
  CHECK(shown.slip().openIndex() == (2 * count - 2) % count);
}

TEST_CASE("A finding is left with a reason in one undo step, and taken up again in another", "[snags][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  const int index = shown.indexOf(SnagCode::BendCollapses);
  REQUIRE(index >= 0);
  const std::string key = checks::snagKey(shown.snags()[static_cast<std::size_t>(index)]);
  shown.bench.openSnag(index);
  CHECK(shown.button().text() == QStringLiteral("Leave it"));
  QTest::keyClicks(&shown.reason(), QStringLiteral("bent an offcut, it holds"));
  QTest::mouseClick(&shown.button(), Qt::LeftButton);
  REQUIRE(shown.store.document().leftSnags.size() == 1);
  CHECK(shown.store.document().leftSnags[0] == model::LeftSnag{key, "bent an offcut, it holds"});
  REQUIRE(shown.store.undoStack()->count() == 1);
  CHECK(shown.store.undoStack()->undoText() == QStringLiteral("Leave a finding"));
  shown.settle();
  REQUIRE(shown.slip().isVisible());
  CHECK(shown.slip().accessibleName() == shown.titleOf(*shown.slip().openIndex()));
  CHECK(shown.button().text() == QStringLiteral("Take it up again"));
  QTest::mouseClick(&shown.button(), Qt::LeftButton);
  CHECK(shown.store.document().leftSnags.empty());
  CHECK(shown.store.undoStack()->count() == 2);
  CHECK(shown.bytes() == before);
  shown.settle();
  CHECK(shown.button().text() == QStringLiteral("Leave it"));
  CHECK(shown.reason().text().isEmpty());
  shown.store.undoStack()->undo();
  CHECK(shown.store.document().leftSnags.size() == 1);
}

TEST_CASE("Return in the field leaves the finding, and another reason replaces the first", "[snags][ui]") {
  Shown shown;
  shown.bench.openSnag(0);
  QTest::keyClicks(&shown.reason(), QStringLiteral("first"));
  QTest::keyClick(&shown.reason(), Qt::Key_Return);
  REQUIRE(shown.store.document().leftSnags.size() == 1);
  shown.settle();
  QTest::keyClick(&shown.reason(), Qt::Key_Return);  // nothing new
  CHECK(shown.store.undoStack()->count() == 1);
  shown.reason().selectAll();
  QTest::keyClicks(&shown.reason(), QStringLiteral("second"));
  CHECK(shown.button().text() == QStringLiteral("Leave it"));
  QTest::keyClick(&shown.reason(), Qt::Key_Return);
  REQUIRE(shown.store.document().leftSnags.size() == 1);
  CHECK(shown.store.document().leftSnags[0].reason == "second");
}

TEST_CASE("Without a reason nothing is left and a sentence asks for it", "[snags][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  shown.bench.openSnag(0);
  QTest::keyClicks(&shown.reason(), QStringLiteral("   "));
  QTest::mouseClick(&shown.button(), Qt::LeftButton);
  CHECK(shown.bytes() == before);
  CHECK(shown.said().contains(QStringLiteral("reason")));
  CHECK(shown.slip().isVisible());
}

TEST_CASE("The slip closes itself when its finding is gone, and stays while it is only late", "[snags][ui]") {
  Shown shown;
  const int index = shown.indexOf(SnagCode::BendCollapses);
  REQUIRE(index >= 0);
  shown.bench.openSnag(index);
  REQUIRE(shown.store.apply([](model::Document d) { return model::withBendRadius(std::move(d), millimetres(160.0)); },
                            QStringLiteral("Change the bend radius")));
  CHECK(shown.slip().isVisible());
  shown.settle();
  CHECK_FALSE(shown.slip().isVisible());
  CHECK_FALSE(shown.slip().openIndex());
}

TEST_CASE("The slip follows its finding to another number", "[snags][ui]") {
  Shown shown;
  const int last = static_cast<int>(shown.snags().size()) - 1;
  shown.bench.openSnag(last);
  const std::string key = checks::snagKey(shown.snags().back());
  REQUIRE(shown.store.apply([](model::Document d) { return model::withBendRadius(std::move(d), millimetres(160.0)); },
                            QStringLiteral("Change the bend radius")));
  shown.settle();
  const auto stands = std::find_if(shown.snags().begin(), shown.snags().end(),
                                   [&](const Snag& s) { return checks::snagKey(s) == key; });
  CHECK(shown.slip().isVisible() == (stands != shown.snags().end()));
  if (stands != shown.snags().end())
    CHECK(shown.slip().openIndex() == static_cast<int>(stands - shown.snags().begin()));
}

TEST_CASE("The slip speaks the reader's units", "[snags][ui]") {
  Shown shown;
  shown.bench.openSnag(shown.indexOf(SnagCode::BendCollapses));
  const QString metric = shown.slip().accessibleDescription();
  shown.look.setPreferences({format::UnitSystem::UsCustomary});
  CHECK(shown.slip().accessibleDescription() != metric);
  CHECK(shown.slip().accessibleDescription().contains(QStringLiteral("in")));
}

TEST_CASE("A question and a slip never lie over each other", "[snags][ui]") {
  Shown shown;
  shown.bench.openSnag(0);
  shown.bench.openQuestion(questions::Question::Flows);
  CHECK_FALSE(shown.slip().isVisible());
  shown.bench.openSnag(0);
  CHECK(shown.slip().isVisible());
  CHECK_FALSE(shown.child("questionSheet").isVisible());
}

TEST_CASE("The first remedy of every finding is taken through the slip in one step, and one undo restores the bytes",
          "[snags][ui]") {
  for (const tests::ShownSnag& one : tests::shownSnags()) {
    INFO(checks::codeKey(one.code));
    Shown shown(one.document);
    const std::string before = shown.bytes();
    const int index = shown.indexOf(one.code);
    REQUIRE(index >= 0);
    const std::string key = checks::snagKey(shown.snags()[static_cast<std::size_t>(index)]);
    shown.bench.openSnag(index);
    shown.slip().waitForRemedies();
    REQUIRE(shown.slip().remedies().remedies() != nullptr);
    const auto& all = shown.slip().remedies().remedies()->all;
    REQUIRE_FALSE(all.empty());
    if (all.front().asks) {
      auto* field = shown.child<RemedyRow>("remedy1").field();
      REQUIRE(field != nullptr);
      QTest::keyClick(&shown.slip(), Qt::Key_1);  // puts the cursor into the field
      auto* line = field->findChild<QLineEdit*>();
      REQUIRE(line != nullptr);
      CHECK(line->hasFocus());
      QTest::keyClicks(line, QStringLiteral("5"));
      QTest::keyClick(line, Qt::Key_Return);
    } else {
      QTest::mouseClick(&shown.child<QPushButton>("remedyTake"), Qt::LeftButton);
    }
    REQUIRE(shown.store.undoStack()->count() == 1);
    CHECK(shown.bytes() != before);
    shown.settle();
    CHECK(std::none_of(shown.snags().begin(), shown.snags().end(),
                       [&](const Snag& snag) { return checks::snagKey(snag) == key; }));
    CHECK_FALSE(shown.slip().isVisible());
    shown.store.undoStack()->undo();
    CHECK(shown.bytes() == before);
  }
}

TEST_CASE("The chosen remedy stands as a named ghost on the panel until the slip closes", "[snags][ui]") {
  model::Document document = tight();
  document.laying.bendRadius = millimetres(120.0);
  Shown shown(document);
  shown.bench.openSnag(shown.indexOf(SnagCode::BendClose));
  shown.slip().waitForRemedies();
  REQUIRE(shown.slip().remedies().remedies() != nullptr);
  CHECK(shown.hub.ghostDesign() != nullptr);
  CHECK(shown.hub.ghostName().contains(QStringLiteral("remedy 1")));
  CHECK(shown.bench.panel().hasGhost());
  CHECK(*shown.hub.ghostDesign() != shown.store.document());
  CHECK(shown.store.undoStack()->count() == 0);
  QTest::keyClick(&shown.slip(), Qt::Key_Escape);
  CHECK(shown.hub.ghostDesign() == nullptr);
  CHECK_FALSE(shown.bench.panel().hasGhost());
}

TEST_CASE("Hovering or focusing another row chooses it, and its number takes it", "[snags][ui]") {
  model::Document document = tight();
  document.laying.bendRadius = millimetres(160.0);
  document.frame.timberDepth = millimetres(65.0);
  Shown shown(document);
  shown.bench.openSnag(shown.indexOf(SnagCode::CrossingTouchesGlazing));
  shown.slip().waitForRemedies();
  const auto* known = shown.slip().remedies().remedies();
  REQUIRE(known != nullptr);
  REQUIRE(known->all.size() >= 2);
  auto& second = shown.child<RemedyRow>("remedy2");
  second.setFocus();
  CHECK(shown.slip().chosenRemedy() == 1);
  CHECK(second.isChosen());
  CHECK(shown.child<QPushButton>("remedyTake").text() == QStringLiteral("Take remedy 2"));
  CHECK(shown.hub.ghostDesign() == known->after[1]);
  const model::Document wanted = *known->after[1];
  QTest::keyClick(&shown.slip(), Qt::Key_2);
  CHECK(shown.store.document() == wanted);
  CHECK(shown.store.undoStack()->undoText().startsWith(QStringLiteral("Take a remedy")));
}

TEST_CASE("A remedy of a design that has changed since says so and changes nothing", "[snags][ui][fault]") {
  Shown shown;
  shown.bench.openSnag(shown.indexOf(SnagCode::BendCollapses));
  shown.slip().waitForRemedies();
  REQUIRE(shown.slip().remedies().remedies() != nullptr);
  REQUIRE(shown.store.apply([](model::Document d) { return model::withMargin(std::move(d), millimetres(31.0)); },
                            QStringLiteral("Change the margin")));
  const std::string changed = shown.bytes();
  QTest::keyClick(&shown.slip(), Qt::Key_1);
  CHECK(shown.bytes() == changed);
  CHECK(shown.store.undoStack()->count() == 1);
  CHECK(shown.said().contains(QStringLiteral("no longer applies")));
}

TEST_CASE("A number that cannot be stays in its field with the reason", "[snags][ui][fault]") {
  model::Document document = tests::withEverythingPriced();
  document.stock.rolls.front().price.reset();
  Shown shown(document);
  const std::string before = shown.bytes();
  shown.bench.openSnag(shown.indexOf(SnagCode::PriceNotKnown));
  shown.slip().waitForRemedies();
  QTest::keyClick(&shown.slip(), Qt::Key_1);
  auto* field = shown.child<RemedyRow>("remedy1").field();
  REQUIRE(field != nullptr);
  auto* line = field->findChild<QLineEdit*>();
  REQUIRE(line != nullptr);
  QTest::keyClicks(line, QStringLiteral("-3"));
  QTest::keyClick(line, Qt::Key_Return);
  CHECK(shown.bytes() == before);
  CHECK(field->hasBadText());
  line->selectAll();
  QTest::keyClicks(line, QStringLiteral("free"));
  QTest::keyClick(line, Qt::Key_Return);
  CHECK(shown.store.document().stock.rolls.front().price == model::Price(0.0));
}

}  // namespace
}  // namespace sunspool::snags
