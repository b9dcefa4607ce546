// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What stands between panel and sky: blocks on the horizon, and the cloud of a dull day.

#include <span>

#include "core/climate/irradiance.h"
#include "core/climate/position.h"
#include "core/model/document.h"

namespace sunspool::climate {

/// Whether the block's azimuths, from..to clockwise over north if need be, hold this one; both edges belong to it.
/// From 0 to 360 degrees is all round; from and to alike is one direction alone.
bool holdsAzimuth(const model::Obstacle& block, Angle azimuth);
/// Whether the centre of the sun, above the horizon, stands inside a block or on its edge.
bool isHidden(std::span<const model::Obstacle> blocks, const SunPosition& sun);

/// Share of the sky's light on a plane that the blocks hide, 0 to 1. Blocks that overlap count once.
/// The half space in front of the plane that lies above the horizon is weighted by the cosine of the incidence:
///   level plane: (width / 360 degrees) sin^2(height) for a single block.
/// Assumption: the sky is equally bright everywhere and the blocks are black; a bright wall or the brightening round a
/// sun behind the block is left out.
/// Accuracy: 1e-4 (steps of half a degree of azimuth, heights exact).
/// @param tilt 0 to 90 degrees. Source: evaluated from the definition of the view factor.
double hiddenSkyShare(std::span<const model::Obstacle> blocks, Angle tilt, Angle azimuth);

/// A dull sky: this share of the clear sky's global on the level, split anew into beam and diffuse by the clearness
/// that is left (global over extraterrestrial on the level). The sun below the horizon: unchanged.
/// @param share 0 to 1. A share of 1 is the clear sky's global with the mean split of its clearness, not the clear sky.
/// Accuracy: the split scatters by about 0.15 of the global for single hours (order of magnitude, from memory); the
/// share itself is the main unknown. Source: [Erbs1982].
ClearSky dulled(const ClearSky& clear, Angle zenith, double share);

}  // namespace sunspool::climate
