// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Lower bounds for cutting: weights on the pieces that no stock length can hold more of than a known value.
// All sizes are whole micrometres and a kerf is already added to every piece and every capacity, so that a set of
// pieces fits a capacity exactly when its sizes add up to no more.

#include <cstdint>
#include <span>
#include <vector>

namespace sunspool::stock {

using Size = std::int64_t;

/// More sizes than this are not searched and have the volume bound alone: the work grows with their square.
inline constexpr std::size_t kMostKinds = 128;

/// Pieces of one size.
struct PieceKind {
  Size size = 0;
  int count = 0;
};

/// Weights per piece kind and, per capacity, the most weight that fits it. Any plan obeys
///   sum(count * weight) <= sum over the stock lengths used of mostIn(capacity).
struct Cut {
  std::vector<std::int64_t> weights;
  std::vector<std::int64_t> mostIn;
  std::int64_t wanted = 0;  ///< sum(count * weight)
  bool isVolume = false;
};

struct Filling {
  std::int64_t value = 0;  ///< most weight that fits; an upper bound of it when not exact
  bool exact = true;
  std::vector<int> counts;  ///< the filling that reaches it (the best found when not exact)
};
/// Bounded knapsack over undominated fillings, of which at most 200 000 are kept. weights >= 0, sizes > 0.
Filling bestFilling(std::span<const PieceKind> kinds, std::span<const std::int64_t> weights, Size capacity);

/// The volume itself as weights.
Cut volumeCut(std::span<const PieceKind> kinds, std::span<const Size> capacities);
/// Dual weights of the fractional cutting problem with a cost per capacity, by column generation [GilmoreGomory1961].
/// Valid even when the generation ends early: mostIn is computed afterwards from the rounded weights.
Cut dualCut(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::span<const double> costs);

/// A pattern of the fractional plan and how often it is cut.
struct FractionalPattern {
  std::size_t capacity = 0;
  std::vector<int> counts;
  double times = 0.0;
};
/// The fractional plan itself; its patterns together hold at least every piece. Every kind fits the largest capacity.
/// @param pool  patterns known already (times unused), tried before new ones are sought; new ones are added to it
std::vector<FractionalPattern> fractionalPlan(std::span<const PieceKind> kinds, std::span<const Size> capacities,
                                              std::span<const double> costs, std::vector<FractionalPattern>& pool);

}  // namespace sunspool::stock
