// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/snags/snag_slip.h"

#include <QLineEdit>
#include <QPushButton>
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/checks/snag_keys.h"
#include "tests/app/desktop/shown.h"

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
  CHECK(shown.slip().geometry().bottom() <= shown.bench.tape().geometry().top());
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

}  // namespace
}  // namespace sunspool::snags
