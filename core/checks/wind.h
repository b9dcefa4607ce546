// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"

namespace sunspool::checks {

/// Velocity pressure of a gust, q = rho V^2 / 2. A screening figure: design speeds and coefficients come from the
/// local standard and a qualified person.
/// @param speed gust at the panel, >= 0   @param air density; 1.25 kg/m3 gives 0.625 V^2, 1.226 gives 0.613 V^2
/// Source: the equation is Bernoulli's; the two factors are those of EN 1991-1-4 and ASCE 7.
Pressure velocityPressure(Velocity speed, Density air);
/// Force on a flat panel, F = q C A.
Force windForce(Pressure velocityPressure, double coefficient, Area area);

}  // namespace sunspool::checks
