// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The cutting problem in whole numbers, as the searches see it.

#include <array>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "core/stock/bounds.h"

namespace sunspool::stock {

/// Compared term by term: price (when known), number, length.
using Cost = std::array<std::int64_t, 3>;
inline constexpr Cost kUnlimitedCost{std::numeric_limits<std::int64_t>::max(), 0, 0};

inline Cost operator+(Cost a, const Cost& b) {
  for (std::size_t q = 0; q < a.size(); ++q) a[q] += b[q];
  return a;
}

/// A kind of stock length that may be taken.
struct Offer {
  std::size_t capacity = 0;
  std::size_t stock = 0;  ///< index into the stock given
  int limit = 0;
  Cost cost{};
};

struct Problem {
  std::vector<PieceKind> kinds;                    ///< by falling size, kerf added
  std::vector<std::vector<std::size_t>> wantedOf;  ///< per kind, one entry a piece
  std::vector<Size> capacities;                    ///< distinct, by falling size, kerf added
  std::vector<Offer> forSale;
  std::vector<Offer> owned;
  std::vector<Cut> cuts;
  bool byPrice = false;
  int pieces = 0;
};

/// How many of each offer.
using Supply = std::vector<int>;

inline Cost costOf(std::span<const Offer> offers, const Supply& supply) {
  Cost total{};
  for (std::size_t k = 0; k < offers.size(); ++k) {
    for (std::size_t q = 0; q < total.size(); ++q) total[q] += supply[k] * offers[k].cost[q];
  }
  return total;
}

}  // namespace sunspool::stock
