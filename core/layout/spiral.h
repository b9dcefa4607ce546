// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Rectangular spiral of one, two or four starts. Internal to the layout module.
//
// Run k of N starts on side 4k/N (strand.h numbers them); its i-th leg lies on side
// (4k/N + i) mod 4 at depth floor(i N/4) pitches inside the outer rectangle. So every corner lies one pitch
// (in both directions) inside the corner of the ring around it. Runs side by side all start on side 0, the i-th leg of
// run k at depth N floor(i/4) + k.

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

struct SpiralRule {
  Field field;
  double outsideDiameter_m = 0.0;
  int starts = 1;
  model::CornerRule corners = model::CornerRule::ConstantRadius;
  model::InnerEnd innerEnd = model::InnerEnd::OverTheTurns;
  double feedShift_m = 0.0;
  double returnShift_m = 0.0;
  model::Entries entries = model::Entries::Spread;
  double standOff_m = 0.0;
};

/// Most sides that every run can lay; bounded by a billion.
long mostTurns(const SpiralRule& rule);
/// Length of the turns of all runs up to the nominal end of the last leg; exact up to kMostSidesInAll sides, above
/// that the area of the region over the pitch. [m]
double turnsLength(const SpiralRule& rule, long sides);
/// The runs, each of `sides` legs, 1 <= sides <= mostTurns(). Error CrossingHasNoPlace.
Result<std::vector<InnerRun>> layRuns(const SpiralRule& rule, int sides);
/// Innermost depth laid on each of the four sides, -1 for none.
struct LaidDepths {
  long bySide[4] = {-1, -1, -1, -1};
};
LaidDepths laidDepths(const SpiralRule& rule, long sides);

}  // namespace sunspool::layout::detail
