// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/layout/layout.h"
#include "core/model/document.h"
#include "core/stock/cutting.h"

namespace sunspool::evaluate {

/// What must be cut for all panels alike: one piece of tube a run, rails and stiles of the frame.
std::vector<stock::WantedPiece> wantedTube(const layout::LaidPanel& laid, int panelsAlike);
std::vector<stock::WantedPiece> wantedTimber(const model::Document& document);
/// Rolls of the design's own tube.
std::vector<stock::StockLength> tubeStock(const model::Document& document);
std::vector<stock::StockLength> timberStock(const model::Document& document);
/// Tube is cut square with a knife: no kerf, nothing squared off.
stock::CutRule tubeRule();
stock::CutRule timberRule(const model::Document& document);

}  // namespace sunspool::evaluate
