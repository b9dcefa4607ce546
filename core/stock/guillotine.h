// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What one sheet can hold when every cut goes from edge to edge. Sizes are whole micrometres with the kerf added to
// pieces and sheets alike, so that no cut takes anything.

#include <optional>
#include <span>
#include <vector>

#include "core/stock/bounds.h"

namespace sunspool::stock {

/// Pieces of one size.
struct RectangleKind {
  Size width = 0, height = 0;
  int count = 0;
};
struct Blank {
  Size width = 0, height = 0;
  bool canTurn = true;  ///< pieces may be turned by a right angle
};
struct Placement {
  std::size_t kind = 0;
  Size x = 0, y = 0;  ///< lower left corner
  bool turned = false;
};
/// One way to cut a sheet.
struct SheetFilling {
  std::vector<int> counts;  ///< per kind
  std::vector<Placement> pieces;
};
struct SheetFillings {
  std::vector<SheetFilling> all;  ///< none is another one with fewer pieces
  bool exact = true;              ///< none is missing
};
/// All undominated fillings. Steps are taken off stepsLeft; when they run out nothing is returned and exact is false.
SheetFillings undominatedFillings(std::span<const RectangleKind> kinds, const Blank& blank, long& stepsLeft);
/// One good filling, quickly: largest first into the free rectangle that it fits closest.
SheetFilling quickFilling(std::span<const RectangleKind> kinds, const Blank& blank);

/// A rectangle on a sheet.
struct Spot {
  Size x = 0, y = 0, width = 0, height = 0;
};
/// Largest rectangle left over in one piece when the given ones are cut out edge to edge; nullopt when they overlap,
/// stick out or cannot be cut out so. Exact up to 3000 parts of the sheet looked at, then good enough.
std::optional<Spot> largestLeft(std::span<const Spot> pieces, const Blank& blank);

}  // namespace sunspool::stock
