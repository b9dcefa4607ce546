// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Part of propose: bend radius and pitch for one number of runs, so that the rolls suffice.

#include <vector>

#include "core/propose/starting.h"

namespace sunspool::propose {

/// Bend radii worth trying, the widest first: the handbook's where it fits, the tightest proposed, one between.
std::vector<double> radiiFor(const Starting& start);
/// The tightest that is still only "close"; 0 when that is no tighter than those.
double lastResortRadius(const Starting& start);

struct Laid {
  model::Document design;
  Binds binds = Binds::Sheet;
};
/// The design laid with this many runs and this radius at the smallest pitch that the rolls suffice for.
/// Errors of lay(), PieceLongerThanStock as proposals().
Result<Laid> fitted(const Starting& start, int runs, double radius_m);

}  // namespace sunspool::propose
