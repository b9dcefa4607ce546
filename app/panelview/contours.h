// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The scale of the temperature ramp, fitted to the runs and rounded out to a whole step, and the places where a
// run passes a whole step.

#include <span>
#include <vector>

#include "app/format/format.h"
#include "core/results/results.h"

namespace sunspool::panelview {

struct RampScale {
  double low_K = 0.0, high_K = 0.0;  ///< low < high, or both 0 when nothing is known
  double step_K = 0.0;
  bool known() const { return high_K > low_K; }
};
/// Steps of 0.5, 1, 2, 5 or 10 degrees of the reader's unit (then 20, 50, 100), at most seven contours.
RampScale rampScaleOf(std::span<const results::RunProfile> profiles, format::UnitSystem units);

struct Contour {
  int run = 0;
  double station_m = 0.0;
  double water_K = 0.0;
};
/// First place of every run where its water passes each whole step, in order of stations.
std::vector<Contour> contoursOf(std::span<const results::RunProfile> profiles, const RampScale& scale);

}  // namespace sunspool::panelview
