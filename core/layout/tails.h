// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Tube outside the frame. Internal to the layout module.

#include <vector>

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

/// A tail as it leaves the outer face of a rail or stile, in panel coordinates.
struct Tail {
  geometry::Point atFace;
  Side side = Side::Left;
  double length_m = 0.0;
  std::vector<geometry::Piece> pieces;  ///< drawn from the face outwards
};

/// What the tails must stay clear of and how they bend.
struct TailRule {
  double insideWidth_m = 0.0;
  double bendRadius_m = 0.0;
  double pitch_m = 0.0;
};

/// Draws every tail at its cut length: straight out, then one bend downhill where it leaves a stile, sideways to the
/// nearer stile where it leaves the top rail, none where it leaves the bottom rail. On one side each tail turns
/// farther out than those it would cross; one too short to bend lies straight.
void drawTails(const TailRule& rule, std::vector<Tail>& tails);

}  // namespace sunspool::layout::detail
