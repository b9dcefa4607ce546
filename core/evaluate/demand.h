// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/layout/layout.h"
#include "core/model/document.h"
#include "core/results/results.h"
#include "core/stock/buying.h"
#include "core/stock/cutting.h"
#include "core/stock/sheets.h"

namespace sunspool::evaluate {

/// What must be cut for all panels alike: one piece of tube a run, rails and stiles of the frame.
std::vector<stock::WantedPiece> wantedTube(const layout::LaidPanel& laid, int panelsAlike);
std::vector<stock::WantedPiece> wantedTimber(const model::Document& document);
/// Rolls of the design's own tube.
std::vector<stock::StockLength> tubeStock(const model::Document& document);
std::vector<stock::StockLength> timberStock(const model::Document& document);
/// Tube is cut square with a knife: no kerf, nothing squared off.
stock::CutRule tubeRule();
stock::CutRule timberRule(const model::Document& document);

/// From cutting to the hottest the glazing gets. Assumption: cut at 20 C, 80 C under the sun with the pump stopped.
inline constexpr TemperatureDifference kGrowthRange = kelvins(60.0);
/// By how much plate, insulation and backing are smaller than the inside of the frame, and apart where they are butted.
/// Assumption: 2 m of aluminium (2.4e-5 1/K, the most of usual plates) grow by 2.9 mm over 60 K; common practice for
/// timber frames, no source.
inline constexpr Length kLayerGap = millimetres(3.0);

/// The rectangles of one layer, for all panels alike, and what they are cut from.
struct WantedLayer {
  std::string part;  ///< "plate", "insulation", "backing", "glazing"
  stock::WantedRectangle rectangle;
  stock::SheetRule rule;
  std::vector<model::StockSheet> sheets;  ///< none of this use in the Shed: empty
};
/// Plate, insulation and backing fill the inside of the frame but for kLayerGap; the glazing lies over it by its
/// overlap all round and is smaller by its growth over kGrowthRange. The kerf is the Shed's saw's.
std::vector<WantedLayer> wantedSheets(const model::Document& document);

/// Rolls of the design's own tube and its runs at one end of what is believed: every roll at the far end of its length,
/// every run at the far end of hand laying. All of them at once: further than 95 % together.
enum class End { Best, Worst };
Result<stock::CutPlan> tubePlanAt(End end, const model::Document& document, const layout::LaidPanel& laid);
/// The rolls of the plan that may turn out too short: their length and hand laying, each at 95 %, added as squares
/// (the runs of one roll are laid by the same hand and add up straight).
std::vector<stock::BuyingList::TightRoll> tightRolls(const model::Document& document, const layout::LaidPanel& laid,
                                                     const stock::CutPlan& plan);
/// Tube as planned, with joins where the Shed allows them.
Result<stock::CutPlan> tubePlan(const model::Document& document, const layout::LaidPanel& laid);

}  // namespace sunspool::evaluate
