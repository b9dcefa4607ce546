// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/widgets/quantity_edit.h"

#include <QAccessible>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <catch2/catch.hpp>
#include <vector>

using namespace sunspool;
using namespace sunspool::widgets;

namespace {

QuantityKind pitchKind(const render::Look& look) {
  QuantityKind kind;
  kind.dimension = Dimension::Length;
  kind.bareUnit = "mm";
  kind.text = [&look](double si) {
    return format::number(metres(si), format::LengthScale::Drawing, look.preferences());
  };
  kind.step_si = 0.0005;
  return kind;
}

struct Field {
  render::Look look;
  QuantityEdit edit{look, pitchKind(look)};
  std::vector<double> taken;
  bool accepts = true;
  QLineEdit& line() { return *edit.findChild<QLineEdit*>(); }

  Field() {
    edit.setName(QStringLiteral("Pitch"));
    edit.setCommit([this](double si) {
      if (accepts) taken.push_back(si);
      return accepts;
    });
    edit.setValue(0.026);
    edit.show();
    edit.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&edit));
    edit.editNow();
  }
  void type(const char* text) {
    line().selectAll();
    QTest::keyClicks(&line(), QString::fromUtf8(text));
  }
};

}  // namespace

TEST_CASE("A typed number with Return is committed once, in SI", "[widgets][ui]") {
  Field field;
  field.type("2.4 cm");
  QTest::keyClick(&field.line(), Qt::Key_Return);
  REQUIRE(field.taken.size() == 1);
  CHECK_THAT(field.taken[0], Catch::WithinAbs(0.024, 1e-15));
  CHECK(field.edit.text() == QStringLiteral("24 mm"));
  field.line().clearFocus();
  CHECK(field.taken.size() == 1);
}

TEST_CASE("A bare number is in the field's own unit", "[widgets][ui]") {
  Field field;
  field.type("30");
  QTest::keyClick(&field.line(), Qt::Key_Return);
  REQUIRE(field.taken.size() == 1);
  CHECK_THAT(field.taken[0], Catch::WithinAbs(0.030, 1e-15));
}

TEST_CASE("Leaving the field commits what was typed, and nothing when nothing was", "[widgets][ui]") {
  Field field;
  field.line().clearFocus();
  CHECK(field.taken.empty());
  field.edit.editNow();
  field.type("28");
  field.line().clearFocus();
  CHECK(field.taken == std::vector<double>{0.028});
}

TEST_CASE("Bad text stays as typed and is answered in a sentence", "[widgets][ui]") {
  Field field;
  field.type("wide");
  QTest::keyClick(&field.line(), Qt::Key_Return);
  CHECK(field.taken.empty());
  CHECK(field.edit.text() == QStringLiteral("wide"));
  CHECK(field.edit.hasBadText());
  CHECK(field.edit.message().contains(QStringLiteral("wide")));
  CHECK(field.line().toolTip() == field.edit.message());
  QTest::keyClick(&field.line(), Qt::Key_Escape);
  CHECK_FALSE(field.edit.hasBadText());
  CHECK(field.edit.text() == QStringLiteral("26 mm"));
}

TEST_CASE("A refused number stays as typed and the value does not move", "[widgets][ui]") {
  Field field;
  field.accepts = false;
  field.type("3");
  QTest::keyClick(&field.line(), Qt::Key_Return);
  CHECK(field.edit.text() == QStringLiteral("3"));
  CHECK(field.edit.hasBadText());
  CHECK(field.edit.value() == 0.026);
}

TEST_CASE("Up and Down step, with Shift tenfold", "[widgets][ui]") {
  Field field;
  QTest::keyClick(&field.line(), Qt::Key_Up);
  QTest::keyClick(&field.line(), Qt::Key_Down, Qt::ShiftModifier);
  REQUIRE(field.taken.size() == 2);
  CHECK_THAT(field.taken[0], Catch::WithinAbs(0.0265, 1e-12));
  CHECK_THAT(field.taken[1], Catch::WithinAbs(0.0215, 1e-12));
}

TEST_CASE("Escape puts the old number back without a commit", "[widgets][ui]") {
  Field field;
  QSignalSpy cancelled(&field.edit, &QuantityEdit::cancelled);
  field.type("99");
  QTest::keyClick(&field.line(), Qt::Key_Escape);
  CHECK(cancelled.count() == 1);
  CHECK(field.taken.empty());
  CHECK(field.edit.text() == QStringLiteral("26 mm"));
}

TEST_CASE("A value that arrives while the builder types does not wipe the text", "[widgets][ui]") {
  Field field;
  field.type("31");
  field.edit.setValue(0.025);
  CHECK(field.edit.text() == QStringLiteral("31"));
}

TEST_CASE("A screen reader hears name, number and how it is known", "[widgets][ui]") {
  Field field;
  field.edit.setValue(0.016, Sureness::Label);
  QAccessibleInterface* reader = QAccessible::queryAccessibleInterface(&field.line());
  REQUIRE(reader != nullptr);
  CHECK(reader->text(QAccessible::Name) == QStringLiteral("Pitch"));
  CHECK(reader->text(QAccessible::Description) == QStringLiteral("16 mm, from the label"));
}

TEST_CASE("A number of thousands can be typed back as it is shown", "[widgets][ui]") {
  Field field;
  field.edit.setValue(2.340);
  CHECK(field.edit.text() == QStringLiteral("2340 mm"));
}

TEST_CASE("A number that may be missing shows a word, and an emptied field takes it away", "[widgets][ui]") {
  Field field;
  int emptied = 0;
  field.edit.setMayBeEmpty(QStringLiteral("ask"), [&] {
    ++emptied;
    return true;
  });
  field.type("");
  QTest::keyClick(&field.line(), Qt::Key_Backspace);
  QTest::keyClick(&field.line(), Qt::Key_Return);
  CHECK(emptied == 1);
  CHECK(field.edit.isEmpty());
  CHECK(field.line().accessibleDescription() == QStringLiteral("ask"));
  field.type("ask");
  QTest::keyClick(&field.line(), Qt::Key_Return);
  CHECK(emptied == 2);
  field.type("25");
  QTest::keyClick(&field.line(), Qt::Key_Return);
  CHECK_FALSE(field.edit.isEmpty());
  CHECK(field.taken == std::vector<double>{0.025});
}
