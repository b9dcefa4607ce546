// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Sizes of the frame at which a thing of the Shed is used up: a sheet's side, a half or a third of it; a timber's
// length, a half or a third of it.

#include <string>
#include <vector>

#include "core/base/quantity.h"
#include "core/model/document.h"

namespace sunspool::stock {

enum class FrameSide { Width, Height };

struct StockSize {
  enum class Part { Sheet, Rail, Stile };
  Length inside;  ///< of the frame
  Part part = Part::Sheet;
  std::string name;                              ///< of the sheet or timber
  model::SheetUse use = model::SheetUse::Plate;  ///< of a sheet
  int shares = 1;                                ///< pieces the side or the length gives: 1, 2 or 3
  bool operator==(const StockSize&) const = default;
};

/// All of them for one side of the frame, smallest first; of two within 0.1 mm the one of fewer shares, a sheet before
/// timber. Between pieces a kerf is lost, at the end of a timber the squaring allowance; an uncut side loses nothing.
/// A layer covers the inside of the frame; glazing lies over it by its overlap on both sides. A rail is as long as
/// the outside when rails go through, else as the inside; a stile the other way round. A sheet that must not be turned
/// counts with its width along the width. Sheets of a layer this box does not have, and sizes under 100 mm, are left
/// out.
std::vector<StockSize> stockSizes(const model::Document& document, FrameSide side);

}  // namespace sunspool::stock
