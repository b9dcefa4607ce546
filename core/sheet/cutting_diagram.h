// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A sheet drawn small with the pieces that are cut from it.

#include "core/sheet/page_flow.h"
#include "core/sheet/texts.h"
#include "core/stock/sheets.h"

namespace sunspool::sheet {

/// Highest diagram, with its caption.
inline constexpr double kHighestDiagram_mm = 66.0;

/// To scale, its lower left corner as the sheet's; pieces carry their number in the order of the cuts and, where there
/// is room, their size. The sheet's own size stands below it.
Drawing cuttingDiagram(const stock::SheetPlan& plan, const stock::SheetPattern& pattern, const Texts& texts);

}  // namespace sunspool::sheet
