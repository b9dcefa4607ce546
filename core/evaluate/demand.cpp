// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/demand.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/checks/measures.h"
#include "core/stock/joining.h"

namespace sunspool::evaluate {
namespace {

bool isOfThisTube(const model::Document& document, const model::Roll& roll) {
  return roll.outsideDiameter.value_or(document.tube.outsideDiameter.value) == document.tube.outsideDiameter.value &&
         roll.insideDiameter.value_or(document.tube.insideDiameter.value) == document.tube.insideDiameter.value;
}

/// Half-width of a run's length by hand laying: of its turns, for tails are cut to length.
Length wobbleOf(const model::Document& document, const layout::LaidRun& run) {
  return metres((run.turnsTo_m - run.turnsFrom_m) * document.laying.wobble.spread);
}

Result<stock::CutPlan> tubePlanOf(const model::Document& document, const std::vector<stock::WantedPiece>& wanted,
                                  const std::vector<stock::StockLength>& rolls) {
  return document.stock.joinsAllowed ? stock::planCutsWithJoins(wanted, rolls, tubeRule())
                                     : stock::planCuts(wanted, rolls, tubeRule());
}

void addLayer(std::vector<WantedLayer>& layers, const model::Document& document, const char* part,
              model::SheetUse use) {
  WantedLayer layer;
  layer.part = part;
  layer.rectangle = {part, document.frame.insideWidth, document.frame.insideHeight, document.panelsAlike};
  layer.rule.kerf = document.stock.kerf;
  if (use == model::SheetUse::Glazing) {
    const model::Glazing& glazing = *document.box.glazing;
    layer.rectangle.width += 2.0 * glazing.overlap;
    layer.rectangle.height += 2.0 * glazing.overlap;
    layer.rule.lap = glazing.lap;
    layer.rule.growth = glazing.expansion * kGrowthRange;
  } else {
    layer.rule.expansionGap = kLayerGap;
  }
  std::copy_if(document.stock.sheets.begin(), document.stock.sheets.end(), std::back_inserter(layer.sheets),
               [use](const model::StockSheet& sheet) { return sheet.use == use; });
  layers.push_back(std::move(layer));
}

}  // namespace

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
  for (const model::Roll& roll : document.stock.rolls) {
    if (!isOfThisTube(document, roll)) continue;
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

std::vector<WantedLayer> wantedSheets(const model::Document& document) {
  std::vector<WantedLayer> layers;
  if (document.box.plate) addLayer(layers, document, "plate", model::SheetUse::Plate);
  if (document.box.insulation) addLayer(layers, document, "insulation", model::SheetUse::Insulation);
  if (document.box.backing) addLayer(layers, document, "backing", model::SheetUse::Backing);
  if (document.box.glazing) addLayer(layers, document, "glazing", model::SheetUse::Glazing);
  return layers;
}

Result<stock::CutPlan> tubePlan(const model::Document& document, const layout::LaidPanel& laid) {
  return tubePlanOf(document, wantedTube(laid, document.panelsAlike), tubeStock(document));
}

Result<stock::CutPlan> tubePlanAt(End end, const model::Document& document, const layout::LaidPanel& laid) {
  const double sign = end == End::Worst ? 1.0 : -1.0;
  std::vector<stock::WantedPiece> wanted = wantedTube(laid, document.panelsAlike);
  for (std::size_t run = 0; run < wanted.size(); ++run) {
    wanted[run].length += sign * wobbleOf(document, laid.runs[run]);
  }
  std::vector<stock::StockLength> rolls = tubeStock(document);
  std::size_t at = 0;
  for (const model::Roll& roll : document.stock.rolls) {
    if (!isOfThisTube(document, roll)) continue;
    rolls[at++].length -= sign * roll.spread;
  }
  // A roll that may be all but nothing is no roll at that end.
  std::erase_if(rolls, [](const stock::StockLength& roll) { return !(roll.length > Length{}); });
  return tubePlanOf(document, wanted, rolls);
}

std::vector<stock::BuyingList::TightRoll> tightRolls(const model::Document& document, const layout::LaidPanel& laid,
                                                     const stock::CutPlan& plan) {
  std::vector<Length> spreads;  // of the rolls in the order of the plan's stock
  for (const model::Roll& roll : document.stock.rolls) {
    if (isOfThisTube(document, roll)) spreads.push_back(roll.spread);
  }
  std::vector<double> wobbleShare(plan.wanted.size(), 0.0);  // of a piece's length
  for (std::size_t run = 0; run < laid.runs.size(); ++run) {
    wobbleShare[run] = wobbleOf(document, laid.runs[run]).si() / laid.runs[run].cutLength_m;
  }
  for (const stock::Join& join : plan.joins) {
    wobbleShare[join.first] = wobbleShare[join.second] = wobbleShare[join.wanted];
  }
  std::vector<stock::BuyingList::TightRoll> tight;
  for (std::size_t p = 0; p < plan.patterns.size(); ++p) {
    double wobble_m = 0.0;
    for (const std::size_t piece : plan.patterns[p].pieces)
      wobble_m += wobbleShare[piece] * plan.wanted[piece].length.si();
    const double half_m = std::hypot(wobble_m, spreads[plan.patterns[p].stock].si());
    const Length shortBy = metres(half_m) - plan.patterns[p].left;
    if (shortBy > Length{}) tight.push_back({p, shortBy});
  }
  return tight;
}

}  // namespace sunspool::evaluate
