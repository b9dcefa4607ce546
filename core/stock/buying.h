// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What has to be bought for all panels alike, in the units it is sold in, with prices or "ask".

#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"
#include "core/stock/cutting.h"
#include "core/stock/sheets.h"

namespace sunspool::stock {

struct BuyingList {
  struct Row {
    /// "tube", "timber", "plate", "insulation", "backing", "glazing", "barb_connector" and the other kinds of fitting,
    /// "feed_pipe", "return_pipe", "pump", "thermometer"
    std::string item;
    std::string name;  ///< as the builder named it; empty for fittings
    /// Needed: length taken off the stock with kerf and squaring, area in the panel, or number. SI.
    double amount = 0.0;
    Dimension dimension = Dimension::Count;
    double stockUnits = 0.0;  ///< whole rolls, lengths, sheets, square metres or pieces, owned ones included
    double owned = 0.0;       ///< of these, already in the Shed; cost nothing
    model::Price unitPrice;   ///< of one stock unit
    model::Price price;       ///< of what must be bought; nullopt: ask
    /// Key of a printed remark: "not_planned", "not_priced", "manifold" (see manifoldTees), or empty.
    std::string note;
    /// What stockUnits count: Area for square metres, else Count.
    Dimension units = Dimension::Count;
  };
  /// A roll that may turn out too short for what is planned from it.
  struct TightRoll {
    std::size_t pattern = 0;  ///< index into the tube's CutPlan::patterns
    Length shortBy;           ///< at the short end of the roll's length and the long end of hand laying
  };
  std::vector<Row> rows;
  double knownTotal = 0.0;  ///< sum of the prices that are known, everything as planned
  int unknownPrices = 0;    ///< rows whose price is to be asked for; "not_priced" rows do not count
  /// Range of the known prices: fewer or more rolls, should the rolls be longer or shorter than believed and the runs
  /// come out shorter or longer when laid by hand. An unknown price leaves both open: "at least".
  double knownLow = 0.0;
  double knownHigh = 0.0;
  /// Rolls to buy at the low end, as planned and at the high end. The high end is -1 when a run might fit no roll.
  int rollsLow = 0, rolls = 0, rollsHigh = 0;
  std::vector<TightRoll> tightRolls;
  int manifoldTees = 0;  ///< of the tees, those that join parallel runs
};

/// The plans a list is made of; nullptr: could not be made.
struct BuyingPlans {
  const CutPlan* tube = nullptr;
  const CutPlan* timber = nullptr;
  /// The tube planned once more with rolls at the long end of their length and runs at the short end of hand laying,
  /// and the other way round. Without them the range of rolls is what is planned.
  const CutPlan* tubeAtBest = nullptr;
  const CutPlan* tubeAtWorst = nullptr;
  bool worstWasTried = false;  ///< tubeAtWorst is missing because it could not be made
  /// A layer of the box that is cut from sheets; `plan` nullptr: could not be made.
  struct Layer {
    std::string part;
    const SheetPlan* plan = nullptr;
  };
  std::vector<Layer> layers;
  int runsPerPanel = 0;
  std::vector<BuyingList::TightRoll> tightRolls;
};

/// Material list of the document's panels.
///
/// Rolls and timber come from the cut plans, one row per kind of stock used. A plan that could not be made gives one
/// row with note "not_planned", no amount and an unknown price.
/// Plate, insulation, backing and glazing that are cut from sheets give one row per kind of sheet used. The others are
/// counted in whole square metres of all panels together: the inside of the frame, the glazing with its overlap all
/// round.
/// Fittings: those of the runs for every run, those of feed and return pipe for every pump; one row per kind of part.
/// Price: the cheapest known one of that kind in the Shed, else the price of any fitting; those in the Shed come off.
/// Assumption: a tee is one part, passed straight or into its branch; pipe entrances and exits are losses, not parts.
/// Manifold: M runs on one pump need M - 1 tees on the feed and M - 1 on the return; tees that stand in the runs'
/// fittings count as such, the missing ones are added (note "manifold").
/// Joins: one straight connector each, counted with the barb connectors.
/// Pump: one a panel, or one for all; from the Shed's pumps by its name, else with note "not_priced", as are the pipes.
/// Thermometers in the Shed are listed as owned; none is bought.
/// Range: the price of the rolls at both ends takes the place of that of the rolls as planned. An end whose plan could
/// not be made or has no price stays as planned (high: the dearest known roll is added).
BuyingList buyingList(const model::Document& document, const BuyingPlans& plans);

}  // namespace sunspool::stock
