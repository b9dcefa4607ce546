// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/questions/parts.h"

namespace sunspool::questions {

using render::EdgeState;

namespace {

bool standsAgainstCutting(const Snag& snag) { return snag.leftBecause.empty() && snag.state == SnagState::Snag; }

}  // namespace

Answer readyAnswer(const Known& known) {
  if (!known.results.layout.has_value()) return unanswered(Question::ReadyToCut, tr("needs a run that is laid"));
  const auto tags = std::count_if(known.results.snags.begin(), known.results.snags.end(), standsAgainstCutting);
  const auto unsure = std::count_if(known.results.influences.begin(), known.results.influences.end(),
                                    [](const auto& influence) { return influence.sureness == Sureness::Guess; });
  Answer a{title(Question::ReadyToCut), {}, {}, {}, EdgeState::Smooth};
  if (tags > 0) {
    a.answer = tags == 1 ? tr("After one tag") : tr("After %1 tags").arg(tags);
    a.state = EdgeState::OneTooth;
  } else {
    a.answer = tr("Ready");
  }
  a.second = unsure == 0   ? tr("nothing is guessed")
             : unsure == 1 ? tr("and one guess")
                           : tr("and %1 guesses").arg(unsure);
  a.shortSecond = a.second;
  return a;
}

void readySheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.layout.has_value()) {
    sheet.headline = tr("Not yet: this needs a run that is laid.");
    sheet.body = format::sentence(known.results.layout.error(), known.preferences);
    return;
  }
  const auto& snags = known.results.snags;
  const auto tags = std::count_if(snags.begin(), snags.end(), standsAgainstCutting);
  sheet.headline = tags == 0   ? tr("The tube can be cut: no tag stands against it.")
                   : tags == 1 ? tr("One tag stands before the first cut.")
                               : tr("%1 tags stand before the first cut.").arg(tags);
  sheet.body =
      tr("What is missing, in the order of what it costs to ignore. Each tag can be opened here, on the drawing, or by "
         "F8; a tag left with a reason no longer stands against cutting, and its reason is printed.");
  sheet.formulaHead = tr("What was found, the dearest first");
  sheet.lastIsResult = false;
  constexpr std::size_t kOpenable = 3;
  for (std::size_t i = 0; i < snags.size(); ++i) {
    QString line = tr("%1  %2").arg(i + 1).arg(format::snagText(snags[i], known.document, known.preferences).title);
    if (!snags[i].leftBecause.empty())
      line += tr(" Left because: %1").arg(QString::fromStdString(snags[i].leftBecause));
    sheet.formula.push_back(line);
    if (standsAgainstCutting(snags[i]) && sheet.deeds.size() < kOpenable) {
      sheet.deeds.push_back({tr("Open tag %1").arg(i + 1), {}, static_cast<int>(i), false});
    }
  }
  if (snags.empty()) sheet.formula.push_back(tr("Nothing was found."));
  if (known.results.buying.unknownPrices > 0) {
    sheet.remark = known.results.buying.unknownPrices == 1
                       ? tr("One price is not known yet: ask for it before the list is carried to the shop.")
                       : tr("%1 prices are not known yet: ask for them before the list is carried to the shop.")
                             .arg(known.results.buying.unknownPrices);
  }
  addInfluences(sheet, Moves::Heat, {}, known);
  std::erase_if(sheet.inputs, [](const InputRow& row) { return row.sureness != Sureness::Guess; });
  sheet.moves = tr("moves the heat");
  sheet.deeds.push_back({tr("Write the lists"), {}, {}, true});
}

}  // namespace sunspool::questions
