// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/question_view.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <catch2/catch.hpp>

#include "app/questions/sureness_choice.h"
#include "tests/app/desktop/shown.h"

namespace sunspool::questions {
namespace {

struct Shown : desktop::ShownBench {
  using desktop::ShownBench::ShownBench;
  ShelfPiece& piece(Question question) { return *bench.shelf().piece(question); }
  QuestionView& sheet() { return child<QuestionView>("questionSheet"); }
  void click(Question question) { QTest::mouseClick(&piece(question), Qt::LeftButton); }
  widgets::QuantityEdit& field(const char* name) {
    widgets::QuantityEdit* found = sheet().field(QLatin1String(name));
    REQUIRE(found != nullptr);
    return *found;
  }
  void type(widgets::QuantityEdit& field, const char* text) {
    field.editNow();
    auto& line = *field.findChild<QLineEdit*>();
    line.selectAll();
    QTest::keyClick(&line, Qt::Key_Delete);
    QTest::keyClicks(&line, QString::fromUtf8(text));
    QTest::keyClick(&line, Qt::Key_Return);
  }
};

TEST_CASE("A click on a question opens its sheet, a second click closes it", "[questions][ui]") {
  Shown shown;
  CHECK_FALSE(shown.sheet().isVisible());
  for (const Question question : kQuestions) {
    INFO(title(question).toStdString());
    shown.click(question);
    CHECK(shown.sheet().isVisible());
    CHECK(shown.sheet().accessibleName() == shown.bench.shelf().sheetOf(question).headline);
    // The paper may lie over the strips, never over the tube itself; only its shadow falls there.
    const double tube = shown.bench.tape().y() + shown.bench.tape().placement().body.top();
    CHECK(shown.sheet().geometry().bottom() < tube);
    shown.click(question);
    CHECK_FALSE(shown.sheet().isVisible());
  }
  CHECK(shown.store.undoStack()->count() == 0);
}

TEST_CASE("Return opens a question, Escape closes it, another question takes its place", "[questions][ui]") {
  Shown shown;
  shown.piece(Question::Flows).setFocus();
  QTest::keyClick(&shown.piece(Question::Flows), Qt::Key_Space);
  REQUIRE(shown.sheet().isVisible());
  shown.click(Question::Warms);
  REQUIRE(shown.sheet().isVisible());
  CHECK(shown.sheet().accessibleName() == shown.bench.shelf().sheetOf(Question::Warms).headline);
  QTest::keyClick(&shown.sheet(), Qt::Key_Escape);
  CHECK_FALSE(shown.sheet().isVisible());
  CHECK(shown.bench.panel().hasFocus());
}

TEST_CASE("Each piece of the shelf speaks question, answer, reason and state", "[questions][ui][accessibility]") {
  Shown shown;
  for (const Question question : kQuestions) {
    const Answer& answer = shown.piece(question).answer();
    const QString spoken = shown.piece(question).accessibleName();
    CHECK(spoken.startsWith(QStringLiteral("%1 %2. %3. ").arg(answer.question, answer.answer, answer.second)));
    CHECK_FALSE(shown.piece(question).toolTip().isEmpty());
  }
  CHECK(shown.piece(Question::AsPredicted).accessibleName().endsWith(QStringLiteral("not known")));
}

TEST_CASE("A number typed into a row changes the document in one undo step", "[questions][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  shown.click(Question::Flows);
  shown.type(shown.field("inside diameter of the tube"), "15.5");
  CHECK_THAT(shown.store.document().tube.insideDiameter.value.in(millimetre), Catch::WithinAbs(15.5, 1e-12));
  REQUIRE(shown.store.undoStack()->count() == 1);
  CHECK(shown.store.undoStack()->undoText() == QStringLiteral("Change inside diameter of the tube"));
  CHECK_FALSE(shown.field("inside diameter of the tube").hasBadText());
  shown.settle();
  CHECK(shown.sheet().accessibleName() == shown.bench.shelf().sheetOf(Question::Flows).headline);
  shown.store.undoStack()->undo();
  CHECK(shown.bytes() == before);
  shown.settle();
  CHECK_THAT(shown.field("inside diameter of the tube").value(), Catch::WithinAbs(0.016, 1e-12));
}

TEST_CASE("The field typed into stays the same field when its row moves up or down", "[questions][ui]") {
  Shown shown;
  shown.click(Question::Flows);
  widgets::QuantityEdit& before = shown.field("inside diameter of the tube");
  shown.type(before, "13");
  shown.settle();
  CHECK(&shown.field("inside diameter of the tube") == &before);
  CHECK(before.findChild<QLineEdit*>()->hasFocus());
}

TEST_CASE("Text that is no number stays as typed, is marked, and answered in a sentence", "[questions][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  shown.click(Question::Flows);
  widgets::QuantityEdit& field = shown.field("inside diameter of the tube");
  for (const char* bad : {"sixteen", "16 kg", "", "12 mm 5"}) {
    CAPTURE(bad);
    shown.type(field, bad);
    CHECK(field.text() == QString::fromUtf8(bad));
    CHECK(field.hasBadText());
    CHECK(field.message().endsWith(QLatin1Char('.')));
    CHECK(shown.bytes() == before);
  }
  QApplication::processEvents();
  const auto* sentence = field.findChild<QLabel*>();
  REQUIRE(sentence->isVisible());
  CHECK(sentence->height() >= sentence->heightForWidth(sentence->width()));  // all of it can be read
  shown.store.waitUntilSettled();
  CHECK(field.hasBadText());
  QTest::keyClick(field.findChild<QLineEdit*>(), Qt::Key_Escape);
  CHECK_FALSE(field.hasBadText());
  CHECK(shown.store.undoStack()->count() == 0);
}

TEST_CASE("A number the design cannot have is refused with the reason beside it", "[questions][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  shown.click(Question::Flows);
  widgets::QuantityEdit& field = shown.field("inside diameter of the tube");
  shown.type(field, "25");  // above the outside diameter
  CHECK(shown.bytes() == before);
  CHECK(field.hasBadText());
  CHECK(field.text() == QStringLiteral("25"));
  CHECK(field.message().contains(QStringLiteral("bore")));
  CHECK(shown.store.undoStack()->count() == 0);
}

TEST_CASE("What was typed and refused on one sheet does not wait on another", "[questions][ui]") {
  Shown shown;
  shown.click(Question::Flows);
  shown.type(shown.field("inside diameter of the tube"), "25");
  shown.click(Question::Bends);
  CHECK_FALSE(shown.field("inside diameter of the tube").hasBadText());
}

TEST_CASE("In US units a bare number is in inches, also when the units change under an open sheet", "[questions][ui]") {
  Shown shown;
  shown.click(Question::Fits);
  shown.look.setPreferences({format::UnitSystem::UsCustomary});
  CHECK(shown.sheet().accessibleName() == shown.bench.shelf().sheetOf(Question::Fits).headline);
  widgets::QuantityEdit& pitch = shown.field("pitch");
  CHECK(pitch.text().contains(QStringLiteral("in")));
  shown.type(pitch, "1 1/4");
  CHECK_THAT(shown.store.document().laying.pitch.in(millimetre), Catch::WithinAbs(31.75, 1e-9));
  shown.type(pitch, "30 mm");
  CHECK_THAT(shown.store.document().laying.pitch.in(millimetre), Catch::WithinAbs(30.0, 1e-9));
  shown.settle();
  CHECK(shown.piece(Question::Fits).answer().answer.contains(QStringLiteral("in")));
}

TEST_CASE("A click on the word behind a number changes its sureness in one undo step", "[questions][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  shown.click(Question::Flows);
  const QString bore = QStringLiteral("inside diameter of the tube");
  REQUIRE(shown.sheet().sureness(bore) != nullptr);
  QTest::mouseClick(shown.sheet().sureness(bore), Qt::LeftButton);
  auto& choice = shown.child<SurenessChoice>("surenessChoice");
  REQUIRE(choice.isVisible());
  CHECK(choice.sureness() == Sureness::Label);
  QTest::mouseClick(&choice, Qt::LeftButton, {}, choice.segment(Sureness::Measured).center().toPoint());
  CHECK(shown.store.document().tube.insideDiameter.sureness == Sureness::Measured);
  REQUIRE(shown.store.undoStack()->count() == 1);
  CHECK(shown.store.undoStack()->undoText() == QStringLiteral("Say measured of inside diameter of the tube"));
  shown.settle();
  CHECK(choice.isVisible());
  CHECK(choice.sureness() == Sureness::Measured);
  CHECK(shown.sheet().sureness(bore)->text() == QStringLiteral("measured"));
  shown.store.undoStack()->undo();
  CHECK(shown.bytes() == before);
}

TEST_CASE("Sureness and spread can be changed with the keyboard alone", "[questions][ui][accessibility]") {
  Shown shown;
  shown.click(Question::Flows);
  const QString bore = QStringLiteral("inside diameter of the tube");
  SurenessWord& word = *shown.sheet().sureness(bore);
  word.setFocus(Qt::TabFocusReason);
  QTest::keyClick(&word, Qt::Key_Space);
  auto& choice = shown.child<SurenessChoice>("surenessChoice");
  CHECK(choice.hasFocus());
  CHECK_FALSE(choice.accessibleName().isEmpty());
  QTest::keyClick(&choice, Qt::Key_Right);
  CHECK(shown.store.document().tube.insideDiameter.sureness == Sureness::Measured);
  QTest::keyClick(&choice, Qt::Key_Left);
  QTest::keyClick(&choice, Qt::Key_Left);
  CHECK(shown.store.document().tube.insideDiameter.sureness == Sureness::Guess);
  CHECK(shown.store.undoStack()->count() == 3);
  auto& spread = shown.child<widgets::QuantityEdit>("input.spread of inside diameter of the tube");
  shown.type(spread, "0.4");
  CHECK_THAT(shown.store.document().tube.insideDiameter.spread.in(millimetre), Catch::WithinAbs(0.4, 1e-12));
  CHECK(shown.store.undoStack()->count() == 4);
  choice.setFocus();
  QTest::keyClick(&choice, Qt::Key_Escape);
  CHECK_FALSE(choice.isVisible());
  CHECK(shown.sheet().isVisible());
  QTest::keyClick(&shown.sheet(), Qt::Key_Escape);
  CHECK_FALSE(shown.sheet().isVisible());
}

TEST_CASE("A number that is asked about opens its sheet, and Escape gives the focus back", "[questions][ui]") {
  Shown shown;
  shown.bench.tape().setFocus();
  shown.hub.askAbout(store::NumberKey::Heat);
  REQUIRE(shown.sheet().isVisible());
  CHECK(shown.sheet().sheet().headline == shown.bench.shelf().numberSheetOf(store::NumberKey::Heat).headline);
  CHECK(shown.sheet().accessibleName() == shown.sheet().sheet().headline);
  shown.hub.askAbout(store::NumberKey::Water);
  CHECK(shown.sheet().sheet().headline == shown.bench.shelf().numberSheetOf(store::NumberKey::Water).headline);
  QTest::keyClick(&shown.sheet(), Qt::Key_Escape);
  CHECK_FALSE(shown.sheet().isVisible());
  CHECK(shown.bench.tape().hasFocus());
  // A question takes the place of a number and the other way round.
  shown.hub.askAbout(store::NumberKey::Heat);
  shown.click(Question::Bends);
  CHECK(shown.sheet().accessibleName() == shown.bench.shelf().sheetOf(Question::Bends).headline);
  shown.hub.askAbout(store::NumberKey::Flow);
  REQUIRE(shown.sheet().isVisible());
  CHECK(shown.store.undoStack()->count() == 0);
}

TEST_CASE("The curves of pump and tube arrive while the sheet is open", "[questions][ui]") {
  Shown shown;
  shown.click(Question::Flows);
  shown.bench.shelf().sheetNumbers().waitUntilSettled();
  QApplication::processEvents();
  REQUIRE(shown.sheet().sheet().picture != nullptr);
  CHECK(shown.sheet().accessibleDescription().contains(shown.sheet().sheet().picture->spoken()));
  model::Document high = shown.store.document();
  high.siting.lowerEdgeAbovePool = metres(3.0);
  shown.store.apply([high](model::Document) { return Result<model::Document>(high); }, QStringLiteral("lift it"));
  shown.settle();
  shown.bench.shelf().sheetNumbers().waitUntilSettled();
  QApplication::processEvents();
  CHECK(shown.sheet().sheet().picture->spoken().contains(QStringLiteral("never starts")));
  CHECK(shown.piece(Question::Flows).answer().answer == QStringLiteral("Never starts"));
}

TEST_CASE("The shadow of a sheet takes no clicks", "[questions][ui]") {
  Shown shown;
  shown.click(Question::Bends);
  const QRect paper = shown.sheet().geometry();
  const QPoint below(paper.center().x(), paper.bottom() + 12), beside(paper.right() + 12, paper.center().y());
  for (const QPoint at : {below, beside}) {
    QWidget* found = shown.bench.childAt(at);
    REQUIRE(found != nullptr);
    CHECK(found != &shown.sheet());
    CHECK_FALSE(shown.sheet().isAncestorOf(found));
    CHECK_FALSE(found->testAttribute(Qt::WA_TransparentForMouseEvents));
  }
  CHECK(shown.bench.childAt(below) == &shown.bench.tape());
}

TEST_CASE("An offcut's radius is entered on the sheet and forgotten by its button", "[questions][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  shown.click(Question::Bends);
  shown.type(shown.field("radius at which an offcut flattened"), "70");
  REQUIRE(shown.store.document().tube.bendTestCollapseRadius.has_value());
  CHECK_THAT(shown.store.document().tube.bendTestCollapseRadius->value.in(millimetre), Catch::WithinAbs(70.0, 1e-9));
  CHECK(shown.store.undoStack()->count() == 1);
  shown.settle();
  QTest::mouseClick(&shown.child<QPushButton>("deed.0"), Qt::LeftButton);
  CHECK_FALSE(shown.store.document().tube.bendTestCollapseRadius.has_value());
  CHECK(shown.store.undoStack()->count() == 2);
  CHECK(shown.bytes() == before);
}

}  // namespace
}  // namespace sunspool::questions
