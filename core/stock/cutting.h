// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Exact one-dimensional cutting: which pieces from which stock length, with proof of the optimum or the gap.

#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::stock {

struct WantedPiece {
  std::string name;
  Length length;
  int count = 1;
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
  std::vector<std::size_t> pieces;   ///< index into the wanted given, one entry a piece, longest first
  Length used;                       ///< squaring, pieces and kerfs
  Length left;                       ///< usable remainder
  bool noSquaringAllowance = false;  ///< fits only because the remainder is under the last kerf or squaring was 0
};
struct CutPlan {
  std::vector<CutPattern> patterns;
  int lengthsUsed = 0;
  int lowerBound = 0;   ///< proven: no plan uses fewer
  bool proven = false;  ///< lengthsUsed == lowerBound, or the search ended
  std::string proof;    ///< "volume bound", "dual bound", "search" : how the bound was found
  Length totalLeft;
  model::Price price;  ///< nullopt when one price is unknown
};
/// Minimises bought lengths (by price when all prices are known, else by number, then by total length bought).
/// PieceLongerThanStock (facts "piece", "longest"), NoStock. At most 64 pieces are solved exactly.
Result<CutPlan> planCuts(std::span<const WantedPiece> wanted, std::span<const StockLength> stock, const CutRule& rule);

}  // namespace sunspool::stock
