// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/answers.h"

#include <QRegularExpression>
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "core/evaluate/evaluate.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::questions {
namespace {

using render::EdgeState;

model::Document steep() {  // the lower edge on a roof that the pump never reaches
  model::Document document = model::firstPanel();
  document.siting.lowerEdgeAbovePool = metres(30.0);
  document.plumbing.highestPointAbovePool = metres(33.0);
  return document;
}
model::Document refused() {
  model::Document document = model::firstPanel();
  document.laying.pitch = millimetres(12.0);
  return document;
}
model::Document openPanel() { return *model::withGlazing(model::firstPanel(), std::nullopt); }
model::Document unpriced() {
  model::Document document = model::firstPanel();
  for (model::Roll& roll : document.stock.rolls) roll.price.reset();
  for (model::TimberStock& timber : document.stock.timbers) timber.price.reset();
  document.stock.fittingPrice.reset();
  document.stock.glazingPricePerSquareMetre.reset();
  return document;
}
model::Document shortRoll() {
  model::Document document = model::firstPanel();
  for (model::Roll& roll : document.stock.rolls) roll.length = metres(50.0);
  return document;
}
model::Document fourRuns() { return *model::withStarts(model::firstPanel(), 4); }
model::Document night() {
  model::Document document = model::firstPanel();
  document.moment.clock_h = 1.0;
  return document;
}
/// A reckoned design with everything an answer is made from.
struct Reckoned {
  model::Document document;
  results::Results results;
  Result<evaluate::Day> day;
  format::Preferences preferences;
  store::SheetNumbers numbers;
  const store::Kept* before = nullptr;

  explicit Reckoned(const model::Document& d)
      : document(d), results(evaluate::evaluate(document, {})), day(evaluate::day(document)) {
    numbers.flow = evaluate::flowCurves(document);
    numbers.collapseRadius = evaluate::movedBy(document, evaluate::MovedNumber::CollapseRadius);
    numbers.tubeLength = evaluate::movedBy(document, evaluate::MovedNumber::TubeLength);
    numbers.water = evaluate::movedBy(document, evaluate::MovedNumber::Water);
    numbers.stoppedTube = evaluate::movedBy(document, evaluate::MovedNumber::StoppedTube);
  }
  Known known() const { return {document, results, day.has_value() ? &*day : nullptr, preferences, &numbers, before}; }
  Answer answer(Question question) const { return questions::answer(question, known()); }
  QuestionSheet sheet(Question question) const { return questions::sheet(question, known()); }
  QuestionSheet sheet(NumberKey number) const { return numberSheet(number, known()); }
};

struct Design {
  const char* name;
  Reckoned reckoned;
};
/// One of each kind of trouble, reckoned once.
const std::vector<Design>& designs() {
  static const std::vector<Design> all{{"first panel", Reckoned(model::firstPanel())},
                                       {"refused", Reckoned(refused())},
                                       {"steep", Reckoned(steep())},
                                       {"open", Reckoned(openPanel())},
                                       {"unpriced", Reckoned(unpriced())},
                                       {"short roll", Reckoned(shortRoll())},
                                       {"four runs", Reckoned(fourRuns())},
                                       {"night", Reckoned(night())}};
  return all;
}

QStringList wordsOf(const QuestionSheet& sheet) {
  QStringList words{sheet.headline, sheet.body, sheet.remark, sheet.narrow, sheet.moves, sheet.formulaHead};
  if (sheet.picture != nullptr) words << sheet.picture->spoken();
  for (const InputRow& row : sheet.inputs) words << row.name << row.moves << row.whenNone;
  for (const Deed& deed : sheet.deeds) words << deed.text;
  for (const auto* list : {&sheet.formula, &sheet.sources, &sheet.cautions}) {
    for (const QString& line : *list) words << line;
  }
  return words;
}

TEST_CASE("Every answer is short, finished and free of words that judge or scold", "[questions][property]") {
  static const QRegularExpression banned(
      QStringLiteral("\\b(safe|safely|optimal|optimum|error|invalid|please|oops|nan|inf)\\b|!"),
      QRegularExpression::CaseInsensitiveOption);
  for (const auto units : {format::UnitSystem::Metric, format::UnitSystem::UsCustomary}) {
    for (const Design& design : designs()) {
      Reckoned reckoned = design.reckoned;
      reckoned.preferences = {units};
      for (const Question question : kQuestions) {
        const Answer answer = reckoned.answer(question);
        INFO(design.name << ": " << answer.question.toStdString() << ' ' << answer.answer.toStdString() << " / "
                         << answer.second.toStdString());
        CHECK(answer.question.endsWith(QLatin1Char('?')));
        CHECK_FALSE(answer.answer.isEmpty());
        CHECK(answer.answer.size() <= 20);
        CHECK_FALSE(answer.second.isEmpty());
        CHECK_FALSE(answer.shortSecond.isEmpty());
        const QuestionSheet sheet = reckoned.sheet(question);
        CHECK_FALSE(sheet.headline.isEmpty());
        QStringList words = wordsOf(sheet);
        words << answer.question << answer.answer << answer.second << answer.shortSecond;
        for (const QString& text : words) {
          INFO(text.toStdString());
          CHECK_FALSE(text.contains(banned));
          CHECK_FALSE(text.contains(QRegularExpression(QStringLiteral("%\\d"))));  // a place nobody filled
        }
      }
    }
  }
}

constexpr NumberKey kNumbers[] = {
    NumberKey::TubeLength, NumberKey::Water,   NumberKey::PressureDrop,   NumberKey::Heat,         NumberKey::Flow,
    NumberKey::Rise,       NumberKey::Outlet,  NumberKey::LowestPressure, NumberKey::TightestBend, NumberKey::DayHeat,
    NumberKey::PoolRise,   NumberKey::WetMass, NumberKey::Stopped,        NumberKey::Cost};

TEST_CASE("Headline and body of every sheet are sentences, of questions and of numbers", "[questions][property]") {
  static const QRegularExpression banned(QStringLiteral("\\b(safe|safely|optimal|error|invalid|please|nan|inf)\\b|!"),
                                         QRegularExpression::CaseInsensitiveOption);
  const auto check = [&](const QuestionSheet& sheet) {
    INFO(sheet.headline.toStdString());
    CHECK(sheet.headline.endsWith(QLatin1Char('.')));
    CHECK((sheet.body.isEmpty() || sheet.body.endsWith(QLatin1Char('.'))));
    CHECK((sheet.narrow.isEmpty() || sheet.narrow.endsWith(QLatin1Char('.'))));
    CHECK((sheet.picture == nullptr || sheet.picture->spoken().endsWith(QLatin1Char('.')) ||
           !sheet.picture->spoken().isEmpty()));
    for (const QString& text : wordsOf(sheet)) {
      INFO(text.toStdString());
      CHECK_FALSE(text.contains(banned));
      CHECK_FALSE(text.contains(QRegularExpression(QStringLiteral("%\\d"))));
    }
  };
  for (const auto units : {format::UnitSystem::Metric, format::UnitSystem::UsCustomary}) {
    for (const Design& design : designs()) {
      INFO(design.name);
      Reckoned reckoned = design.reckoned;
      reckoned.preferences = {units};
      for (const Question question : kQuestions) check(reckoned.sheet(question));
      for (const NumberKey number : kNumbers) check(reckoned.sheet(number));
    }
  }
}

TEST_CASE("A number opens with its value, its formula and the inputs that move it", "[questions][analytic]") {
  const Reckoned panel(model::firstPanel());
  const auto text = [&](auto value) { return format::number(value, panel.preferences).joined(); };
  CHECK(panel.sheet(NumberKey::Heat).headline.contains(text(panel.results.heat->toPool.value)));
  CHECK(panel.sheet(NumberKey::PressureDrop).headline.contains(text(panel.results.flow->panelLoss.value)));
  CHECK(panel.sheet(NumberKey::Water).headline.contains(text(panel.results.water.value)));
  CHECK(panel.sheet(NumberKey::Outlet).headline.contains(text(panel.results.heat->outlet.value)));
  CHECK(panel.sheet(NumberKey::LowestPressure).headline.contains(text(panel.results.flow->lowest)));
  CHECK(panel.sheet(NumberKey::WetMass).headline.contains(text(panel.results.masses.wet)));
  CHECK(panel.sheet(NumberKey::PoolRise).headline.contains(text(panel.day->poolRise)));
  for (const NumberKey number : kNumbers) {
    const QuestionSheet sheet = panel.sheet(number);
    INFO(sheet.headline.toStdString());
    CHECK_FALSE(sheet.formula.empty());
  }
  // The bore moves the water most; a wobble of the hand the length.
  CHECK(panel.sheet(NumberKey::Water).inputs.front().pointer == "/tube/inside_diameter");
  CHECK(panel.sheet(NumberKey::TubeLength).inputs.front().pointer == "/laying/wobble");
}

TEST_CASE("Flows says never starts on shelf, sheet and picture when the pump cannot lift so high",
          "[questions][analytic]") {
  model::Document high = model::firstPanel();
  high.siting.lowerEdgeAbovePool = high.plumbing.pump.labelHead.value;
  const Reckoned panel(high);
  REQUIRE(panel.results.flow.has_value());
  CHECK(panel.answer(Question::Flows).answer == QStringLiteral("Never starts"));
  const QuestionSheet sheet = panel.sheet(Question::Flows);
  CHECK(sheet.headline.contains(QStringLiteral("never starts")));
  REQUIRE(sheet.picture != nullptr);
  CHECK(sheet.picture->spoken().contains(QStringLiteral("never starts")));
}

TEST_CASE("Shares of the sun are whole percents that add up to a hundred", "[questions][analytic]") {
  for (const Design& design : designs()) {
    const QuestionSheet sheet = design.reckoned.sheet(Question::Warms);
    if (sheet.picture == nullptr) continue;
    int sum = 0, count = 0;
    static const QRegularExpression percent(QStringLiteral("(-?\\d+) %"));
    for (auto match = percent.globalMatch(sheet.picture->spoken()); match.hasNext(); ++count) {
      sum += match.next().captured(1).toInt();
    }
    INFO(design.name << ": " << sheet.picture->spoken().toStdString());
    CHECK(count == 5);
    CHECK(sum == 100);
  }
}

TEST_CASE("What is not reached is said of the model only, and a material without a limit says so",
          "[questions][analytic]") {
  const Reckoned panel(model::firstPanel());
  const QuestionSheet sheet = panel.sheet(Question::Survives);
  CHECK(sheet.remark.contains(QStringLiteral("of this model only")));
  REQUIRE(sheet.picture != nullptr);
  CHECK(sheet.picture->spoken().contains(QStringLiteral("no limit known")));
  CHECK(sheet.cautions.size() >= 3);
  const auto slug = std::find_if(sheet.formula.begin(), sheet.formula.end(),
                                 [](const QString& line) { return line.contains(QStringLiteral("First slug")); });
  REQUIRE(slug != sheet.formula.end());
  CHECK(slug->contains(format::number(panel.results.water.value, {}).joined()));
}

TEST_CASE("An offcut's radius is taken as measured, moves the answer and can be forgotten", "[questions][analytic]") {
  const Reckoned panel(model::firstPanel());
  const auto rowOf = [](const QuestionSheet& sheet) {
    const auto row = std::find_if(sheet.inputs.begin(), sheet.inputs.end(),
                                  [](const InputRow& r) { return r.name.contains(QStringLiteral("offcut")); });
    REQUIRE(row != sheet.inputs.end());
    return *row;
  };
  const InputRow empty = rowOf(panel.sheet(Question::Bends));
  CHECK_FALSE(empty.whenNone.isEmpty());
  CHECK(panel.sheet(Question::Bends).deeds.empty());
  const Result<model::Document> tested = empty.edit(panel.document, 0.07);
  REQUIRE(tested.has_value());
  CHECK(tested->tube.bendTestCollapseRadius->sureness == Sureness::Measured);
  const Reckoned after(*tested);
  CHECK(after.answer(Question::Bends).answer == QStringLiteral("2.3 × the limit"));  // 160 over 70
  const QuestionSheet sheet = after.sheet(Question::Bends);
  CHECK(rowOf(sheet).whenNone.isEmpty());
  CHECK_FALSE(rowOf(sheet).pointer.empty());
  REQUIRE(sheet.deeds.size() == 1);
  const Result<model::Document> forgotten = sheet.deeds.front().edit(*tested);
  REQUIRE(forgotten.has_value());
  CHECK(*forgotten == panel.document);
}

TEST_CASE("While a design is kept the shelf says signed differences", "[questions][analytic]") {
  const Reckoned panel(model::firstPanel());
  store::Kept same{std::make_shared<const model::Document>(panel.document),
                   std::make_shared<const results::Results>(panel.results)};
  model::Document wider = panel.document;
  wider.laying.pitch = millimetres(31.0);
  Reckoned changed(wider);
  changed.before = &same;
  const double less = changed.results.heat->toPool.value.si() - panel.results.heat->toPool.value.si();
  REQUIRE(less < 0.0);
  CHECK(changed.answer(Question::Warms).second ==
        QString(QChar(0x2212)) + format::number(watts(-less), {}).joined() + QStringLiteral(" against before"));
  CHECK(changed.answer(Question::EnoughStock).second.startsWith(QLatin1Char('+')));  // less tube, more left
  CHECK(changed.answer(Question::Flows).second.startsWith(QLatin1Char('+')));
  Reckoned unchanged(panel.document);
  unchanged.before = &same;
  for (const Question question :
       {Question::Fits, Question::Bends, Question::Flows, Question::Warms, Question::Survives, Question::EnoughStock}) {
    CHECK(unchanged.answer(question).second == QStringLiteral("as before"));
  }
}

TEST_CASE("The first panel's answers are picked from its results", "[questions][analytic]") {
  const Reckoned panel(model::firstPanel());
  const auto text = [&](auto value) { return format::number(value, panel.preferences).joined(); };
  CHECK(panel.answer(Question::WorthIt).answer == QStringLiteral("+%1 a day").arg(text(panel.day->poolRise)));
  CHECK(panel.answer(Question::WorthIt).state == EdgeState::Dashed);
  CHECK(panel.answer(Question::Flows).answer == text(panel.results.flow->flow.value));
  CHECK(panel.answer(Question::Warms).answer == text(panel.results.heat->toPool.value));
  CHECK(panel.answer(Question::Warms).state == EdgeState::Smooth);
  const double times = 160.0 / panel.results.bends->collapseRadius.in(millimetre);
  CHECK(panel.answer(Question::Bends).answer == QStringLiteral("%1 × the limit").arg(times, 0, 'f', 1));
  CHECK(panel.answer(Question::EnoughStock).answer ==
        QStringLiteral("%1 left over")
            .arg(format::number(panel.results.tubeCuts->totalLeft, format::LengthScale::Run, {}).joined()));
  CHECK(panel.answer(Question::EnoughStock).second == QStringLiteral("of one roll of 100.0 m"));
  CHECK(panel.answer(Question::Fits).answer.startsWith(QStringLiteral("Fits by ")));
  CHECK(panel.answer(Question::AsPredicted).state == EdgeState::Dashed);
  CHECK(panel.answer(Question::AsPredicted).second == QStringLiteral("needs one bucket"));
}

TEST_CASE("A question's edge is the worst finding that stands in its matter", "[questions][property]") {
  // Independent of the answers: which codes belong to which question.
  const std::vector<std::pair<Question, std::vector<SnagCode>>> matters{
      {Question::Bends,
       {SnagCode::BendClose, SnagCode::BendLikelyToFlatten, SnagCode::BendCollapses, SnagCode::BendStrainHigh}},
      {Question::EnoughStock,
       {SnagCode::RunNeedsJoin, SnagCode::TubeShort, SnagCode::TimberShort, SnagCode::NoSquaringAllowance}}};
  model::Document tight = model::firstPanel();
  tight.laying.bendRadius = millimetres(85.0);
  model::Document collapsing = model::firstPanel();
  collapsing.laying.bendRadius = millimetres(60.0);
  std::set<EdgeState> seen;
  for (const model::Document& document : {model::firstPanel(), tight, collapsing}) {
    const Reckoned reckoned(document);
    for (const auto& [question, codes] : matters) {
      if (question == Question::EnoughStock && !reckoned.results.tubeCuts.has_value()) continue;
      EdgeState worst = EdgeState::Smooth;
      for (const Snag& snag : reckoned.results.snags) {
        if (std::find(codes.begin(), codes.end(), snag.code) != codes.end())
          worst = render::worse(worst, render::edgeOf(snag.state));
      }
      const Answer answer = reckoned.answer(question);
      INFO(answer.question.toStdString());
      CHECK(answer.state == worst);
      if (question == Question::Bends) seen.insert(answer.state);
    }
  }
  CHECK(seen.size() >= 2);
}

TEST_CASE("A layout that is refused says why at Fits, and the rest waits for it", "[questions][analytic]") {
  const Reckoned panel(refused());
  REQUIRE_FALSE(panel.results.layout.has_value());
  const Answer fits = panel.answer(Question::Fits);
  CHECK(fits.answer == QStringLiteral("Cannot be laid"));
  CHECK(fits.second == format::sentence(panel.results.layout.error(), {}));
  CHECK(fits.state == EdgeState::TwoTeeth);
  for (const Question question : {Question::WorthIt, Question::Bends, Question::ReadyToCut}) {
    CHECK(panel.answer(question).answer == QStringLiteral("Not yet"));
    CHECK(panel.answer(question).state == EdgeState::Dashed);
  }
  CHECK(panel.sheet(Question::Fits).headline == fits.second);
}

TEST_CASE("A pump that never starts says what it must lift and what it lifts", "[questions][analytic]") {
  const Reckoned panel(steep());
  const Answer flows = panel.answer(Question::Flows);
  CHECK(flows.state == EdgeState::TwoTeeth);
  if (panel.results.flow.has_value()) {
    CHECK(flows.answer == QStringLiteral("Never starts"));
    CHECK(flows.second.contains(
        format::number(panel.results.flow->shutOffHead, format::LengthScale::Height, {}).joined()));
  } else {
    CHECK(flows.second == format::sentence(panel.results.flow.error(), {}));
  }
  CHECK_FALSE(panel.results.heat.has_value());
  CHECK(panel.answer(Question::Warms).answer == QStringLiteral("No heat"));
  CHECK(panel.answer(Question::Warms).state == EdgeState::TwoTeeth);
}

TEST_CASE("A price that is not known is asked for and never taken as nothing", "[questions][analytic]") {
  const Reckoned panel(unpriced());
  CHECK(panel.results.buying.unknownPrices > 0);
  CHECK(panel.sheet(Question::EnoughStock).remark.contains(QStringLiteral("ask")));
}

TEST_CASE("A finding that is left no longer stands against cutting", "[questions][property]") {
  model::Document tight = model::firstPanel();
  tight.laying.bendRadius = millimetres(60.0);
  const Reckoned before(tight);
  const Answer blocked = before.answer(Question::ReadyToCut);
  CHECK(blocked.answer.startsWith(QStringLiteral("After ")));
  CHECK(blocked.state == EdgeState::OneTooth);
  Reckoned after(tight);
  for (Snag& snag : after.results.snags) snag.leftBecause = "my own test bend";
  CHECK(after.answer(Question::ReadyToCut).answer == QStringLiteral("Ready"));
  CHECK(after.answer(Question::Bends).state == EdgeState::Smooth);
}

TEST_CASE("Every input row of every sheet holds the document's value and can be edited", "[questions][property]") {
  for (const Design& design : designs()) {
    const Reckoned& reckoned = design.reckoned;
    for (const Question question : kQuestions) {
      std::set<QString> names;
      for (const InputRow& row : reckoned.sheet(question).inputs) {
        INFO(design.name << ": " << title(question).toStdString() << ' ' << row.name.toStdString());
        CHECK_FALSE(row.name.isEmpty());
        CHECK(names.insert(row.name).second);
        CHECK(row.share >= 0.0);
        CHECK(row.share <= 1.0);
        REQUIRE(row.edit);
        if (!row.whenNone.isEmpty()) continue;  // not entered yet: there is no value to hold
        const Result<model::Document> same = row.edit(reckoned.document, row.value_si);
        REQUIRE(same.has_value());
        const double other = row.value_si == 0.0 ? 0.01 : row.value_si * 1.01;
        const Result<model::Document> changed = row.edit(reckoned.document, other);
        if (changed.has_value()) CHECK_FALSE(*changed == reckoned.document);
      }
    }
  }
}

}  // namespace
}  // namespace sunspool::questions
