// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Exact one-dimensional cutting: which pieces from which stock length, with proof of the optimum or the gap.
//
// Each stock length loses the squaring once and a kerf between pieces. The last piece may lie flush with the far end:
// then no last cut is needed, and the plan says so (noSquaringAllowance). Lengths are compared in whole micrometres.

#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::stock {

struct WantedPiece {
  std::string name;
  Length length;  ///< > 0
  int count = 1;  ///< >= 0
};
struct StockLength {
  std::string name;
  Length length;
  int owned = 0;  ///< used first
  bool canBuy = true;
  model::Price price;
};
struct CutRule {
  Length kerf;      ///< lost at every cut
  Length squaring;  ///< lost once at the start of each stock length
};
/// One stock length and what is cut from it.
struct CutPattern {
  std::size_t stock = 0;  ///< index into the stock given
  bool owned = false;
  std::vector<std::size_t> pieces;  ///< index into the wanted given, one entry a piece, longest first
  Length used;                      ///< squaring, pieces and kerfs; the whole length when the last kerf eats the rest
  Length left;                      ///< usable remainder
  /// Fits only because nothing is squared off: the room beside pieces and the kerfs between them is under one kerf,
  /// or under 3 mm with no squaring allowed for.
  bool noSquaringAllowance = false;
  Length spare{};  ///< that room: by how much the pattern fits
};
/// Room below which a length without squaring allowance is reported as only just fitting: common practice, no source.
inline constexpr Length kJustFits = millimetres(3.0);

/// A wanted piece made of two with a connector between them.
struct Join {
  std::size_t wanted = 0;             ///< index of the piece as wanted
  std::size_t first = 0, second = 0;  ///< indices of its parts in CutPlan::wanted
  Length at;                          ///< length of the first part: where the join lies, from the piece's beginning
};

struct CutPlan {
  std::vector<CutPattern> patterns;  ///< owned ones first, then in the order of the stock given, fullest first
  int lengthsUsed = 0;               ///< owned and bought
  int lowerBound = 0;                ///< proven: no plan uses fewer lengths, owned and bought together
  bool proven = false;               ///< nothing cheaper can be bought: a bound meets the plan, or the search ended
  std::string proof;                 ///< "volume bound", "dual bound", "search" : how the bound was found
  Length totalLeft;
  model::Price price;  ///< of what is bought; nullopt when one price is unknown, 0 when nothing is bought
  int bought = 0;
  int boughtLowerBound = 0;           ///< proven: no plan buys fewer lengths; equals bought when that is the optimum
  model::Price priceLowerBound = {};  ///< proven: no plan is cheaper; nullopt when a price is unknown
  Length boughtLength{};
  std::vector<WantedPiece> wanted = {};  ///< as given: what CutPattern::pieces count
  std::vector<StockLength> stock = {};   ///< as given: what CutPattern::stock counts
  CutRule rule = {};                     ///< as given
  std::vector<Join> joins = {};          ///< see planCutsWithJoins
};
/// Cuts the wanted pieces from the stock. Owned lengths cost nothing. Among all plans it takes the one that
///   buys at the least price when every price of stock on sale is known, else buys the fewest lengths;
///   then the fewest, then the least total length bought; then touches the fewest, shortest owned lengths.
/// Prices are compared to 1e-4 of the currency. The last wish (owned lengths) is met where the search can tell, and
/// "proven" does not speak of it.
///
/// A best-first search over what to buy, each set of lengths decided by a packing search; bounds: volume and the dual
/// of the fractional problem. At most 64 pieces are solved exactly; hard or larger cases end after a fixed number of
/// steps (no clock) with the best plan found, proven false and the bounds.
///
/// @return PieceLongerThanStock (detail: the piece; facts "piece", "longest" = longest usable stock length),
///         NoStock when nothing is on sale and what is owned does not hold the pieces (facts "wanted", "owned"),
///         OutOfRange (facts "found", "lowest", "highest") for a length that is not positive, a negative kerf,
///         squaring, count, number owned or price, or more than 5000 pieces; NotFinite.
Result<CutPlan> planCuts(std::span<const WantedPiece> wanted, std::span<const StockLength> stock, const CutRule& rule);

/// Pieces that would lie on one length only because nothing is squared off (see CutPattern::noSquaringAllowance).
struct JustFitting {
  std::size_t stock = 0;
  std::vector<int> counts;  ///< per wanted
  Length spare;
};
/// Such fillings that the pieces of this plan allow and the plan does not use; the tightest first, at most four.
/// Of plans with at most six different pieces.
std::vector<JustFitting> justFittingAvoided(const CutPlan& plan);

}  // namespace sunspool::stock
