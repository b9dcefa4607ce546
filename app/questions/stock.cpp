// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/questions/parts.h"
#include "core/model/edits.h"

namespace sunspool::questions {

using format::LengthScale;
using render::EdgeState;

namespace {

QString runLength(Length value, const Known& known) { return len(value, LengthScale::Run, known); }
QString money(double amount, const Known& known) {
  return format::money(amount, known.document.stock.currency).joined();
}

}  // namespace

Answer stockAnswer(const Known& known) {
  if (!known.results.tubeCuts.has_value()) {
    return refused(Question::EnoughStock, tr("Not from these rolls"), known.results.tubeCuts.error(), known);
  }
  const stock::CutPlan& plan = *known.results.tubeCuts;
  Answer a{title(Question::EnoughStock), {}, {}, {}, EdgeState::Smooth};
  a.answer = tr("%1 left over").arg(runLength(plan.totalLeft, known));
  const QString roll =
      plan.patterns.empty() ? QString() : runLength(plan.stock[plan.patterns.front().stock].length, known);
  a.second = plan.lengthsUsed == 1 ? tr("of one roll of %1").arg(roll) : tr("of %1 rolls").arg(plan.lengthsUsed);
  a.shortSecond = plan.lengthsUsed == 1 ? tr("of one %1 roll").arg(roll) : a.second;
  a.state = stateOf(
      known, {SnagCode::RunNeedsJoin, SnagCode::TubeShort, SnagCode::TimberShort, SnagCode::NoSquaringAllowance});
  if (known.before != nullptr && known.before->results->tubeCuts.has_value()) {
    sayDifference(
        a, signedLength((plan.totalLeft - known.before->results->tubeCuts->totalLeft).si(), LengthScale::Run, known));
  }
  return a;
}

namespace {

bool isSameCut(const stock::CutPattern& a, const stock::CutPattern& b) {
  return a.stock == b.stock && a.owned == b.owned && a.pieces == b.pieces;
}

void addBars(const stock::CutPlan& plan, bool isRoll, StockModel& model, const Known& known) {
  const stock::CutPattern* last = nullptr;
  for (const stock::CutPattern& pattern : plan.patterns) {
    if (last != nullptr && isSameCut(*last, pattern)) {
      ++model.bars.back().times;
      continue;
    }
    last = &pattern;
    const stock::StockLength& from = plan.stock[pattern.stock];
    StockBar bar;
    bar.name = QString::fromStdString(from.name);
    bar.isRoll = isRoll;
    bar.owned = pattern.owned;
    bar.length_m = from.length.si();
    bar.left_m = pattern.left.si();
    bar.right = tr("%1 left").arg(runLength(pattern.left, known));
    for (const std::size_t piece : pattern.pieces) {
      const stock::WantedPiece& wanted = plan.wanted[piece];
      bar.pieces.push_back(
          {QStringLiteral("%1 %2").arg(QString::fromStdString(wanted.name), runLength(wanted.length, known)),
           wanted.length.si()});
    }
    model.bars.push_back(std::move(bar));
  }
}

void addSheets(const results::SheetCut& cut, StockModel& model) {
  if (!cut.plan.has_value()) return;
  for (const stock::SheetPattern& pattern : cut.plan->patterns) {
    const model::StockSheet& from = cut.plan->stock[pattern.stock];
    StockSheetDrawn sheet{format::partInWords(cut.part), from.width.si(), from.height.si(), {}};
    for (const stock::PlacedPiece& piece : pattern.pieces) {
      sheet.pieces.emplace_back(piece.x.si(), piece.y.si(), piece.width.si(), piece.height.si());
    }
    model.sheets.push_back(std::move(sheet));
  }
}

QString planWords(const QString& name, const Result<stock::CutPlan>& plan, const Known& known) {
  if (!plan.has_value()) return QStringLiteral("%1: %2").arg(name, format::sentence(plan.error(), known.preferences));
  return plan->proven ? tr("%1: %2, fewer cannot do").arg(name).arg(plan->lengthsUsed)
                      : tr("%1: %2, at least %3").arg(name).arg(plan->lengthsUsed).arg(plan->lowerBound);
}

InputRow rollRow(std::size_t index, const Known& known) {
  const model::Roll& roll = known.document.stock.rolls[index];
  const QString name =
      known.document.stock.rolls.size() == 1 ? tr("length on the roll") : tr("length on roll %1").arg(index + 1);
  InputRow row = sizeRow(name, roll.length, [index](model::Document d, Length length) {
    model::Stock stock = d.stock;
    if (index < stock.rolls.size()) stock.rolls[index].length = length;
    return model::withStock(std::move(d), std::move(stock));
  });
  row.sureness = roll.sureness;
  return row;
}

/// Price of what must be bought, part by part; what nobody knows is asked for.
std::vector<QString> priceLines(const Known& known) {
  std::vector<QString> lines;
  int asked = 0;
  for (const auto& row : known.results.buying.rows) {
    if (!row.note.empty()) continue;
    if (!row.price) {
      ++asked;
    } else if (*row.price > 0.0) {
      lines.push_back(tr("%1: %2").arg(format::partInWords(row.item), money(*row.price, known)));
    }
  }
  if (asked > 0) lines.push_back(asked == 1 ? tr("one price: ask") : tr("%1 prices: ask").arg(asked));
  return lines;
}

}  // namespace

void stockSheet(const Known& known, QuestionSheet& sheet) {
  const auto& tube = known.results.tubeCuts;
  sheet.headline = tube.has_value() ? tr("%1 of tube stay on the roll.").arg(runLength(tube->totalLeft, known))
                                    : tr("The rolls do not hold this run.");
  sheet.body = tr("Pieces are cut so that the fewest lengths are bought; what is in the Shed is used first.");
  StockModel model;
  if (tube.has_value()) addBars(*tube, true, model, known);
  if (known.results.timberCuts.has_value()) addBars(*known.results.timberCuts, false, model, known);
  for (const results::SheetCut& cut : known.results.sheetCuts) addSheets(cut, model);
  if (!model.bars.empty() || !model.sheets.empty()) sheet.picture = stockPicture(std::move(model));
  for (std::size_t i = 0; i < std::min<std::size_t>(known.document.stock.rolls.size(), 4); ++i) {
    sheet.inputs.push_back(rollRow(i, known));
  }
  sheet.inputs.push_back(sizeRow(tr("feed tail"), known.document.laying.feedTail, model::withFeedTail));
  sheet.inputs.push_back(
      sizeRow(tr("return tail, crossing included"), known.document.laying.returnTail, model::withReturnTail));
  sheet.formulaHead = tr("How it is known, and what it costs");
  sheet.formula = {planWords(tr("rolls of tube"), tube, known),
                   planWords(tr("boards"), known.results.timberCuts, known)};
  for (QString& line : priceLines(known)) sheet.formula.push_back(std::move(line));
  sheet.formula.push_back(tr("known prices %1").arg(money(known.results.buying.knownTotal, known)));
  const int unknown = known.results.buying.unknownPrices;
  sheet.remark = unknown == 0   ? QString()
                 : unknown == 1 ? tr("One price is not known: ask. The total leaves it out.")
                                : tr("%1 prices are not known: ask. The total leaves them out.").arg(unknown);
  sheet.sources = {tr("Gilmore and Gomory 1961 for the proof that fewer cannot do; prices as they were entered.")};
}

}  // namespace sunspool::questions
