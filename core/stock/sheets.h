// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Guillotine cutting of rectangles from sheets: which pieces from which sheet, with proof of the fewest or the gap.
//
// Every cut goes from edge to edge of what lies on the saw, and takes the kerf. The edges of a new sheet are taken as
// straight and square: nothing is cut off them first. Lengths are compared in whole micrometres.

#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::stock {

/// A rectangle of one layer. What is larger than every sheet is made of several, butted or lapped.
struct WantedRectangle {
  std::string name;
  Length width, height;  ///< > 0
  int count = 1;         ///< >= 0
};
struct SheetRule {
  Length kerf;  ///< lost at every cut
  Length lap;   ///< how far two pieces of one rectangle lie over one another; 0 = butted
  /// Room left for growth, the same whatever the size: once in the wanted width and once in the height, and between
  /// butted pieces.
  Length expansionGap;
  /// Room left for growth as a share of the size (expansion x temperature range), taken off width and height; 0 to 0.2.
  double growth = 0.0;
};
/// A piece on a sheet, from the sheet's lower left corner.
struct PlacedPiece {
  std::size_t wanted = 0;  ///< index into the wanted given
  int part = 0;            ///< which of the pieces of that rectangle, row by row from the lower left, 0 for the first
  Length x, y;
  Length width, height;  ///< as it lies on the sheet
  bool turned = false;   ///< its height lies along the sheet's width
};
/// One sheet and what is cut from it, in an order in which it can be cut.
struct SheetPattern {
  std::size_t stock = 0;  ///< index into the stock given
  bool owned = false;
  std::vector<PlacedPiece> pieces;
  /// Largest rectangle left over in one piece after all cuts; 0 when nothing is, or from sheets of more than 24 pieces.
  Length freeWidth, freeHeight;
};
/// How one wanted rectangle is divided; 1 x 1: whole.
struct Division {
  int columns = 1, rows = 1;
  bool isWhole() const { return columns == 1 && rows == 1; }
  bool operator==(const Division&) const = default;
};
struct SheetPlan {
  std::vector<SheetPattern> patterns;  ///< owned ones first, then in the order of the stock given, fullest first
  int sheetsUsed = 0;
  int lowerBound = 0;   ///< proven for the pieces as divided: no plan uses fewer sheets, owned and bought together
  bool proven = false;  ///< nothing cheaper can be bought for the pieces as divided
  std::string proof;    ///< "area bound", "search"
  int bought = 0;
  model::Price price;  ///< of what is bought; nullopt when one price is unknown, 0 when nothing is bought
  double waste = 0.0;  ///< share of the used sheets' area that is not in the panel
  int joints = 0;      ///< seams in all rectangles together
  std::vector<WantedRectangle> wanted = {};   ///< as given, growth taken off
  std::vector<Division> divisions = {};       ///< one for each wanted
  std::vector<model::StockSheet> stock = {};  ///< as given
  SheetRule rule = {};
};

/// A strip cut beside whole sheets is at least this wide. Assumption: narrower ones break or do not lie flat.
inline constexpr Length kNarrowestStrip = millimetres(30.0);
/// Most pieces one rectangle is made of.
inline constexpr int kMostParts = 36;

/// Cuts the wanted rectangles from the sheets; owned ones cost nothing and are used first. Every sheet can be bought,
/// at its price or at one to be asked for; 0 is a price: free. Among all plans it takes the one that
///   buys at the least price when every price is known, else buys the fewest sheets;
///   then the fewest, then the least area bought; then touches the fewest, smallest owned sheets.
///
/// A rectangle that a sheet holds stays whole. One that no sheet holds is divided into the fewest pieces that some
/// sheet holds: strips along the longer side, along the shorter one where that takes fewer, a grid where both sides
/// are too long; all alike, or as wide as the sheet allows with one narrower, whichever is cheaper (alike when equal).
/// Copies of one rectangle are divided alike.
///
/// Exact: all undominated guillotine fillings of each kind of sheet on the sums of piece sizes (no pattern is lost by
/// that: pieces can be pushed down and to the left until they touch), then a search over what remains to be cut.
/// The few kinds of pieces that layers of like panels give are done within a fraction of a millisecond; hard cases
/// end after a fixed number of steps (no clock) with the best plan found and the bound of the areas.
/// @return NoStock when there is no sheet; PieceLongerThanStock when a rectangle would take more than kMostParts pieces
///         (facts "piece", "longest"); SheetSmallerThanLap when the lap eats a whole strip (facts "sheet", "lap");
///         OutOfRange (facts "found", "lowest", "highest") for a size that is not positive, a negative kerf, lap, gap,
///         count, number owned or price, growth outside its range, a gap that leaves nothing, or more than 2000
///         pieces; NotFinite. `where` is the rectangle's or the sheet's name, or the rule's field.
Result<SheetPlan> planSheets(std::span<const WantedRectangle> wanted, std::span<const model::StockSheet> sheets,
                             const SheetRule& rule);

}  // namespace sunspool::stock
