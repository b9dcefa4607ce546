// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace sunspool::layout {

/// An S in the vertical plane: two equal arcs that lift the centre line.
struct Ramp {
  double plan_m = 0.0;  ///< length seen from above
  double tube_m = 0.0;  ///< length of tube, >= plan
};

/// Ramp of two arcs of angle theta that lifts a centre line by `rise` without bending tighter than `bendRadius`.
///
///   R (1 - cos theta) = rise / 2,   plan = 2 R sin theta = sqrt(rise (4 R - rise)),   tube = 2 R theta
///
/// @param rise_m       [m], 0 <= rise <= 2 bendRadius (each arc turns by at most a right angle)
/// @param bendRadius_m [m], > 0
/// Zero rise gives exactly 0 and 0.
Ramp rampOver(double rise_m, double bendRadius_m);

}  // namespace sunspool::layout
