// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/ramp.h"

#include <cmath>

namespace sunspool::layout {

Ramp rampOver(double rise_m, double bendRadius_m) {
  const double plan = std::sqrt(rise_m * (4.0 * bendRadius_m - rise_m));
  // The angle from its sine and cosine: acos alone loses digits when the rise is small.
  const double theta = std::atan2(plan / (2.0 * bendRadius_m), 1.0 - rise_m / (2.0 * bendRadius_m));
  return {plan, 2.0 * bendRadius_m * theta};
}

}  // namespace sunspool::layout
