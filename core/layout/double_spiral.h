// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Rectangular double spiral: one run in from the start corner and out again beside it. Internal to the layout module.
//
// Two arms on the sides of strand.h. Both enter at the start corner; leg i of either lies on side i mod 4, of the
// arm going in at depth 2 floor(i/4) pitches, of the arm coming out (counted from its port) one pitch deeper. Of
// `sides` legs going in the last one faces the last of sides - 2 coming out across the core; a left turn and an equal
// right turn of the bend radius join the two:
//
// Two circles of that radius R lie in opposite corners of the core, or touch in its middle, whichever lays more tube;
// the tube runs round both and along the tangent between them. With the lines of the facing legs w apart and the core E
// long this needs w + p >= 2R and, for circles that touch, 2 sqrt(R^2 - (w/2 - R)^2) + 2R <= E.

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

/// Whole turns of the tube keep the pitch from themselves when the radius is at least this share of it.
inline constexpr double kTurnShareOfPitch = 0.6;

struct DoubleSpiralRule {
  Field field;  ///< bend radius at least kTurnShareOfPitch of the pitch
  model::CornerRule corners = model::CornerRule::ConstantRadius;
};

/// Fewer sides make no double spiral.
inline constexpr int kLeastDoubleSides = 3;

/// Most sides of the arm going in; 0 when not even kLeastDoubleSides fit, bounded by a billion.
long mostTurns(const DoubleSpiralRule& rule);
/// Estimate from the area, for refusals. [m]
double turnsLength(const DoubleSpiralRule& rule, long sides);
/// One run. Error TurnsDoNotFit (facts "asked", "most", "least").
Result<std::vector<InnerRun>> layRuns(const DoubleSpiralRule& rule, int sides);

}  // namespace sunspool::layout::detail
