// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Runs made of two pieces with a connector between them, where a roll ends before the run does.

#include <span>

#include "core/stock/cutting.h"

namespace sunspool::stock {

/// A shorter piece is not worth a connector. Assumption, no source.
inline constexpr Length kShortestJoined = metres(1.0);

/// Cuts pieces that may be joined: as planCuts, or with joins where that buys less (or is possible at all).
///
/// Where joins may help, rolls are used up one after another, the owned ones first and the longest first, then one
/// kind on sale after the other: whole pieces as long as one fits, then the longest piece whose rest fits the next
/// roll begins on what is left. A piece is joined once at most, its parts are at least kShortestJoined long. What
/// comes of that is cut exactly by planCuts. So every plan is sound and its price true; that no other set of joins
/// buys less is only said ("proven") where the length alone says so.
/// The wanted given keep their places in CutPlan::wanted; the parts of joined ones stand behind them as "A1" and "A2",
/// further joined ones of the same name as "A3" and "A4". CutPlan::joins tells where.
/// @return as planCuts; its error when joins do not help either.
Result<CutPlan> planCutsWithJoins(std::span<const WantedPiece> wanted, std::span<const StockLength> stock,
                                  const CutRule& rule);

}  // namespace sunspool::stock
