// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The two lists one goes to the shop and the saw with, as pages and as tables.

#include <vector>

#include "core/model/document.h"
#include "core/results/results.h"
#include "core/sheet/csv.h"
#include "core/sheet/display_list.h"
#include "core/sheet/texts.h"

namespace sunspool::sheet {

/// Cut list: tube runs from rolls, frame pieces from timber, each stock length with its pieces and what is left of it;
/// kerf and squaring; proof of the fewest lengths, or the gap; what fits only just; where runs are joined and which
/// roll may turn out too short; each layer with its sheets drawn and their pieces in the order of the cuts; the holes
/// for the tube; the findings left on purpose with their reasons; weight and wind; all cautions that apply. A plan that
/// failed is said in the app's own sentence for its error.
std::vector<Sheet> cutListSheets(const model::Document& document, const results::Results& results, Paper paper,
                                 const Texts& texts);
/// Material list: what to buy in stock units, with prices or "ask", the known total with its range and how many prices
/// are missing; of the cautions those about buying, and where the others stand.
std::vector<Sheet> materialListSheets(const model::Document& document, const results::Results& results, Paper paper,
                                      const Texts& texts);

/// One row a piece, one a remainder and one a hole:
/// material (tube, timber; plate, insulation, backing, glazing; for a hole rail_bottom ... stile_left or the layer),
/// stock_number (1 ...), stock_name, stock_length_m, owned (yes, no), kind (piece, left, hole), name (of a hole: run
/// and "feed" or "return"), start_m (from the squared end; of a hole from the left or lower end of the timber),
/// length_m, spare_m (room beside the pieces of this stock length; of a hole what stays beside it), note
/// ("no_squaring_allowance", "turned", "near_edge"), lengths_used, lengths_at_least, proven (yes, no) of the whole
/// plan, sheets counted as lengths are; x_m, y_m, width_m, height_m on the sheet (of a hole x and y from the frame's
/// outer lower left corner), from_back_m, diameter_m.
Table cutListTable(const results::Results& results);
/// item, name, amount_m, amount_m2, amount_count (one of them filled), stock_units, owned, unit_price, price ("ask"
/// when not known, empty when not carried), currency, note, unit ("m2" or "piece": what stock_units count).
Table materialListTable(const model::Document& document, const results::Results& results);

/// A caution and the numbers in it.
struct Caution {
  TextKey key{};
  std::vector<Fact> facts;
};
/// The cautions that apply to this panel, the worst first.
/// Assumption: roof work is cautioned from a lower edge 1 m above the pool's water on.
std::vector<Caution> cautionsFor(const model::Document& document, const results::Results& results);

}  // namespace sunspool::sheet
