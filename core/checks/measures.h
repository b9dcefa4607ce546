// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What is measured on a laid panel before it is judged: bends, depth of the box, masses.

#include "core/layout/layout.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::checks {

/// Every bend of every run with collapse index, ovality and strain, and the verdict on the worst of them.
///
/// One table (the collapse radius is Brazier's on the minimum wall, or the builder's own offcut bend test):
///   R >= handbook multiple x OD  within handbook       [PPI]
///   else index I = collapse radius / R:  I < 0.6 tighter than handbook, < 0.8 close, < 1 likely to flatten, else
///   collapses
/// Assumption: the steps 0.6, 0.8 and 1 (ovality 8, 14 and 22 %) are a judgement; Brazier's value is elastic and
/// leaves creep out, so it is a lower bound of the collapse radius and never an allowance.
/// Source: [Brazier1927], [PPI]
results::Bends measureBends(const model::Document& document, const layout::LaidPanel& laid);
/// Radius at which this tube collapses: the bend test's, else Brazier's on the thinnest wall.
Length collapseRadius(const model::Tube& tube);
/// Handbook multiple of the outside diameter by dimension ratio; the largest double where the table ends.
Length handbookRadius(const model::Tube& tube);
Length thinnestWall(const model::Tube& tube);
results::BendVerdict verdictOn(double radius_m, double collapseRadius_m, double handbookRadius_m);

/// Layers of the box from the back against the depth of the frame timber. Without glazing nothing limits the
/// crossing, so crossingSpare equals spare then. A crossing over the turns comes on top of them; one under them takes
/// its depth out of the stand-off, which the layout asks to be as thick as the tube, and needs none of its own.
results::DepthBudget depthBudget(const model::Document& document, const layout::LaidPanel* laid);

/// Masses of the parts, dry and filled with water of the pool's temperature.
/// Assumption: frame timber 480 kg/m3 (softwood, air dry; common practice, no source).
results::Masses masses(const model::Document& document, const layout::LaidPanel* laid);

/// Outer width and height of the frame.
Length outerWidth(const model::Document& document);
Length outerHeight(const model::Document& document);

}  // namespace sunspool::checks
