// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Where frame and layers are bored so that the tube gets in and out.

#include <vector>

#include "core/layout/layout.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::checks {

/// Added to the tube's outside diameter: room to push the tube through and for its growth.
/// Common practice, no source.
inline constexpr Length kHoleClearance = millimetres(2.0);

/// The holes of one panel, run by run, feed before return. A tail through the frame bores its rail (along x) or stile
/// (along y) at the height of the tube in the depth budget, a crossing by its rise higher; one through the back bores
/// plate, insulation and backing, as far as the box has them.
/// Assumption: tubes leave at right angles to the timber, and at the height at which they lie on the plate.
std::vector<results::Hole> holes(const model::Document& document, const layout::LaidPanel& laid);
/// Less material than the hole is wide stays beside it: bore it before the piece is cut to length, or move the tube.
/// Assumption: one diameter, common practice in timber, no source.
bool isNearAnEdge(const results::Hole& hole);

}  // namespace sunspool::checks
