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

  explicit Reckoned(const model::Document& d)
      : document(d), results(evaluate::evaluate(document, {})), day(evaluate::day(document)) {}
  Known known() const { return {document, results, day.has_value() ? &*day : nullptr, preferences}; }
  Answer answer(Question question) const { return questions::answer(question, known()); }
  QuestionSheet sheet(Question question) const { return questions::sheet(question, known()); }
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
  QStringList words{sheet.headline, sheet.body, sheet.remark};
  for (const InputRow& row : sheet.inputs) words << row.name << row.moves;
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
