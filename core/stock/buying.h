// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What has to be bought for one panel, in the units it is sold in, with prices or "ask".

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"
#include "core/stock/cutting.h"

namespace sunspool::stock {

struct BuyingList {
  struct Row {
    /// "tube", "timber", "plate", "insulation", "backing", "glazing", "barb_connector" and the other kinds of fitting,
    /// "feed_pipe", "return_pipe", "pump"
    std::string item;
    std::string name;  ///< as the builder named it; empty for fittings
    /// Needed: length taken off the stock with kerf and squaring, area, or number. SI.
    double amount = 0.0;
    Dimension dimension = Dimension::Count;
    double stockUnits = 0.0;  ///< whole rolls, lengths, square metres or pieces, owned ones included
    double owned = 0.0;       ///< of these, already in the Shed; cost nothing
    model::Price unitPrice;   ///< of one stock unit
    model::Price price;       ///< of what must be bought; nullopt: ask
    std::string note;         ///< key of a printed remark: "not_planned", "not_priced" or empty
  };
  std::vector<Row> rows;
  double knownTotal = 0.0;  ///< sum of the prices that are known
  int unknownPrices = 0;    ///< rows whose price is to be asked for; "not_priced" rows do not count
};

/// Material list of the document's panel.
///
/// Rolls and timber come from the cut plans, one row per kind of stock used. A plan that could not be made gives one
/// row with note "not_planned", no amount and an unknown price. Plate, insulation and backing cover the inside of the
/// frame, the glazing lies over it by its overlap all round; all four are counted in whole square metres, because
/// sheet sizes are not part of the document. Assumption: one price for every kind of fitting; pipe entrances and exits
/// are losses, not parts, and are left out. Pump and pipes are listed with note "not_priced" and stand in no total.
/// @param tubeCuts, timberCuts  nullptr when there is no plan
/// @param runs                  number of parallel runs, each with the fittings of document.plumbing.runFittings
BuyingList buyingList(const model::Document& document, const CutPlan* tubeCuts, const CutPlan* timberCuts, int runs);

}  // namespace sunspool::stock
