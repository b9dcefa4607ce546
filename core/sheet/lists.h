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
/// kerf and squaring; proof of the fewest lengths, or the gap; what fits only just; the findings left on purpose with
/// their reasons; the cautions that apply. A plan that failed is said in the app's own sentence for its error.
std::vector<Sheet> cutListSheets(const model::Document& document, const results::Results& results, Paper paper,
                                 const Texts& texts);
/// Material list: what to buy in stock units, with prices or "ask", the known total and how many prices are missing;
/// the cautions that apply.
std::vector<Sheet> materialListSheets(const model::Document& document, const results::Results& results, Paper paper,
                                      const Texts& texts);

/// One row a piece and one a remainder:
/// material (tube, timber), stock_number (1 ...), stock_name, stock_length_m, owned (yes, no), kind (piece, left),
/// name, start_m (from the squared end), length_m, spare_m (room beside the pieces of this stock length), note
/// ("no_squaring_allowance"), lengths_used, lengths_at_least, proven (yes, no) of the whole plan.
/// Empty when neither plan could be made.
Table cutListTable(const results::Results& results);
/// item, name, amount_m, amount_m2, amount_count (one of them filled), stock_units, owned, unit_price, price ("ask"
/// when not known, empty when not carried), currency, note.
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
