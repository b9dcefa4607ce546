// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Whether given pieces fit into given stock lengths, decided by search.

#include <span>
#include <vector>

#include "core/stock/bounds.h"

namespace sunspool::stock {

/// What one stock length holds.
struct Bin {
  std::size_t capacity = 0;  ///< index
  std::vector<int> counts;   ///< per piece kind
};

enum class Packed { Yes, No, NotDecided };
struct Packing {
  Packed answer = Packed::NotDecided;
  std::vector<Bin> bins;  ///< when Yes
};

/// Fills stock lengths one after another, each with the largest piece left and every completion that is not dominated
/// (a completion is dominated when a piece left over would still fit, or fits in the place of a smaller one).
/// States that failed are remembered. Deterministic: counts steps, never looks at a clock.
/// @param kinds      by falling size, at most kMostKinds (else NotDecided)
/// @param available  stock lengths per capacity
/// @param stepsLeft  reduced by the steps taken; NotDecided when it runs out
Packing pack(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::span<const int> available,
             std::span<const Cut> cuts, long& stepsLeft);

}  // namespace sunspool::stock
