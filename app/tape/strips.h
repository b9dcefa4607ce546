// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The strips over the Tape. All share its metres; painted over plain paper.

#include "app/tape/canvas.h"

namespace sunspool::tape {

void drawBendStrip(const Canvas& canvas);
void drawWaterStrip(const Canvas& canvas);
void drawWaterLineStrip(const Canvas& canvas);
/// Why there are no water strips, across their place.
void drawNoProfile(const Canvas& canvas);

/// Where the sentence about the siphon stands; empty when there is none.
QRectF siphonTextRect(const Canvas& canvas);
/// Height at which the water's ribbon passes a station; the middle of the strip without a profile.
double waterRibbonY(const Canvas& canvas, double station_m);

}  // namespace sunspool::tape
