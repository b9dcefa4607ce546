// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Exact guillotine cutting of rectangles from sheets: which pieces from which sheet, with proof of the fewest or the
// gap.

#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::stock {

/// A rectangle of one layer. What is larger than every sheet is made of several, butted or lapped.
struct WantedRectangle {
  std::string name;
  Length width, height;
  int count = 1;
};
struct SheetRule {
  Length kerf;  ///< lost at every cut
  Length lap;   ///< how far two pieces of one rectangle lie over one another; 0 = butted
  /// Room left between the pieces of one rectangle, and to the frame, for growth; taken off the wanted size.
  Length expansionGap;
};
/// A piece on a sheet, from the sheet's lower left corner.
struct PlacedPiece {
  std::size_t wanted = 0;  ///< index into the wanted given
  int part = 0;            ///< which of the pieces of that rectangle, 0 for the first
  Length x, y, width, height;
  bool turned = false;
};
/// One sheet and what is cut from it, in the order of the cuts.
struct SheetPattern {
  std::size_t stock = 0;  ///< index into the stock given
  bool owned = false;
  std::vector<PlacedPiece> pieces;
  Length freeWidth, freeHeight;  ///< largest rectangle left over
};
struct SheetPlan {
  std::vector<SheetPattern> patterns;
  int sheetsUsed = 0;
  int lowerBound = 0;   ///< proven: no plan uses fewer
  bool proven = false;  ///< nothing cheaper can be bought
  std::string proof;    ///< "area bound", "search"
  int bought = 0;
  model::Price price;  ///< of what is bought; nullopt when one price is unknown, 0 when nothing is bought
  double waste = 0.0;  ///< share of the used sheets' area that is not in the panel
  int joints = 0;      ///< seams in all rectangles together
  std::vector<WantedRectangle> wanted = {};   ///< as given, growth taken off
  std::vector<model::StockSheet> stock = {};  ///< as given
  SheetRule rule = {};
};

/// Cuts the wanted rectangles from the sheets; owned ones first, which cost nothing. Every cut goes from edge to edge.
/// A rectangle no sheet holds is divided along its longer side into the fewest strips that fit.
/// @return NoStock when there is no sheet, or what is owned does not do and nothing is on sale;
///         PieceLongerThanStock when not even strips fit (facts "piece", "longest"), SheetSmallerThanLap when the lap
///         eats a whole strip (facts "sheet", "lap"); OutOfRange for sizes that are not positive.
Result<SheetPlan> planSheets(std::span<const WantedRectangle> wanted, std::span<const model::StockSheet> sheets,
                             const SheetRule& rule);

}  // namespace sunspool::stock
