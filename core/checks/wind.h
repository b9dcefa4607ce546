// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "core/base/quantity.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::checks {

/// Velocity pressure of a gust, q = rho V^2 / 2. A screening figure: design speeds and coefficients come from the
/// local standard and a qualified person.
/// @param speed gust at the panel, >= 0   @param air density; 1.25 kg/m3 gives 0.625 V^2, 1.226 gives 0.613 V^2
/// Source: the equation is Bernoulli's; the two factors are those of EN 1991-1-4 and ASCE 7.
Pressure velocityPressure(Velocity speed, Density air);
/// Force on a flat panel, F = q C A.
Force windForce(Pressure velocityPressure, double coefficient, Area area);

/// What the gust that was entered does to one panel: uplift at right angles on the outer area, against the weight of
/// the dry panel, for a drained panel is the one that flies. nullopt without a gust.
/// holdDownMass: what must hold it down beside its own weight; 0 where that is enough. overturning: moment of the
/// uplift about the lower edge over that of the weight, both acting in the middle. Ranges: spreads of gust and
/// coefficient, each alone, added as squares; never below 0. Assumption: air of 1.226 kg/m3 whatever the altitude (the
/// strict side), the coefficient of the document (default 1.4 +- 0.4: the pressure on the edges and that under an open
/// panel counted together; common practice, no source). A screening figure: the local wind standard and a qualified
/// person decide.
std::optional<results::Wind> wind(const model::Document& document, const results::Masses& masses);

}  // namespace sunspool::checks
