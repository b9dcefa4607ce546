// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/parts.h"

namespace sunspool::questions {

using render::EdgeState;

Answer worthItAnswer(const Known& known) {
  if (known.day == nullptr) return unanswered(Question::WorthIt, tr("needs the heat of a day"));
  Answer a{title(Question::WorthIt), {}, {}, {}, EdgeState::Dashed};
  a.answer = tr("+%1 a day").arg(num(known.day->poolRise, known));
  a.second = tr("clear day, before losses; a season lacks");
  if (known.document.conditions.sky == model::SkyKind::Dull) a.second = tr("dull day, before losses; a season lacks");
  a.shortSecond = tr("before losses");
  return a;
}

void worthItSheet(const Known& known, QuestionSheet& sheet) {
  if (known.day == nullptr) {
    sheet.headline = tr("Not yet: this needs the heat of a day.");
  } else {
    const bool dull = known.document.conditions.sky == model::SkyKind::Dull;
    sheet.headline = (dull ? tr("A dull day like this one warms the pool by %1, before losses.")
                           : tr("A clear day like this one warms the pool by %1, before losses."))
                         .arg(num(known.day->poolRise, known));
    sheet.formula = {
        tr("rise = heat of the day / (pool · ρ · c)"),
        tr("%1 of sun on the panel, %2 into the pool of %3")
            .arg(format::number(Fact{{}, known.day->falling.si(), Dimension::Energy}, known.preferences).joined(),
                 format::number(Fact{{}, known.day->toPool.si(), Dimension::Energy}, known.preferences).joined(),
                 num(known.document.pool.volume, known)),
        tr("rise = %1 in a day").arg(num(known.day->poolRise, known))};
  }
  sheet.body = tr("Whether it is worth it needs a season with the pool's own losses, which are not reckoned yet.");
  addInfluences(sheet, Moves::Heat, {}, known);
  sheet.moves = tr("moves the heat at this hour");
}

}  // namespace sunspool::questions
