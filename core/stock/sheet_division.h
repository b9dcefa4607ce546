// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a rectangle that no sheet holds is made of several pieces.

#include <span>
#include <vector>

#include "core/stock/bounds.h"
#include "core/stock/sheets.h"

namespace sunspool::stock {

/// The pieces of one rectangle. Together they reach over its whole width and height: widths less the laps (or plus the
/// gaps) between them.
struct DividedRectangle {
  std::vector<Size> widths, heights;  ///< of the columns from the left and of the rows from below, in micrometres
  Division division() const { return {static_cast<int>(widths.size()), static_cast<int>(heights.size())}; }
  int pieces() const { return static_cast<int>(widths.size() * heights.size()); }
};

/// The ways with the fewest pieces that fit some sheet, pieces all alike first. Whole when a sheet holds it.
/// @param wanted  growth taken off already
/// @return PieceLongerThanStock, SheetSmallerThanLap as planSheets
Result<std::vector<DividedRectangle>> divisionsOf(const WantedRectangle& wanted,
                                                  std::span<const model::StockSheet> sheets, const SheetRule& rule);

}  // namespace sunspool::stock
