// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/demand.h"

#include "core/checks/measures.h"

namespace sunspool::evaluate {

std::vector<stock::WantedPiece> wantedTube(const layout::LaidPanel& laid, int panelsAlike) {
  std::vector<stock::WantedPiece> wanted;
  for (const layout::LaidRun& run : laid.runs)
    wanted.push_back({std::string(1, run.letter), metres(run.cutLength_m), panelsAlike});
  return wanted;
}

std::vector<stock::WantedPiece> wantedTimber(const model::Document& document) {
  const model::Frame& frame = document.frame;
  const Length rail = frame.railsThrough ? checks::outerWidth(document) : frame.insideWidth;
  const Length stile = frame.railsThrough ? frame.insideHeight : checks::outerHeight(document);
  return {{"rail", rail, 2 * document.panelsAlike}, {"stile", stile, 2 * document.panelsAlike}};
}

std::vector<stock::StockLength> tubeStock(const model::Document& document) {
  std::vector<stock::StockLength> lengths;
  const auto isOfThisTube = [&](const model::Roll& roll) {
    return roll.outsideDiameter.value_or(document.tube.outsideDiameter.value) == document.tube.outsideDiameter.value &&
           roll.insideDiameter.value_or(document.tube.insideDiameter.value) == document.tube.insideDiameter.value;
  };
  for (const model::Roll& roll : document.stock.rolls) {
    if (!isOfThisTube(roll)) continue;
    lengths.push_back({roll.name, roll.length, roll.owned, true, roll.price});
  }
  return lengths;
}

std::vector<stock::StockLength> timberStock(const model::Document& document) {
  std::vector<stock::StockLength> lengths;
  for (const model::TimberStock& timber : document.stock.timbers) {
    lengths.push_back({timber.name, timber.length, timber.owned, true, timber.price});
  }
  return lengths;
}

stock::CutRule tubeRule() { return {}; }
stock::CutRule timberRule(const model::Document& document) {
  return {document.stock.kerf, document.stock.squaringAllowance};
}

}  // namespace sunspool::evaluate
