// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Lengths and volumes of shapes that need no drawing: a first estimate, and a check on the drawn ones.
// Symbols: r radius of the centre line, p pitch between neighbouring centre lines, theta turning angle.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::geometry {

struct SpiralMeasures {
  Length length;
  double turns = 0.0;  ///< (r1 - r0)/p
};
/// Archimedean spiral r = a theta, a = p/(2 pi), between two radii of the centre line:
///   L = a/2 [theta sqrt(1 + theta^2) + asinh theta] from theta0 = r0/a to theta1 = r1/a
/// A ring of that area over the pitch, pi (r1^2 - r0^2)/p, is about as long.
/// @param innerRadius >= 0, outerRadius >= innerRadius, pitch > 0
/// @return OutOfRange (detail: the input; facts "value", "lowest"), NotFinite for sizes beyond a double.
/// Accuracy: 1e-15 of the length of a spiral that begins at the centre. Equal radii give 0.
/// Source: arc length of the curve.
Result<SpiralMeasures> archimedeanSpiral(Length innerRadius, Length outerRadius, Length pitch);

/// Straight passes joined by half circles of half the pitch: L = N s + (N - 1) pi p/2.
/// Whether a tube bends that tightly is not asked here.
/// @param passes N >= 1, straight s >= 0 (length of one pass), pitch p > 0. Errors as above.
/// Source: sum of straights and half circles.
Result<Length> serpentineLength(int passes, Length straight, Length pitch);

/// Water inside a full round tube, pi d^2 L/4.
/// @param insideDiameter > 0, length >= 0. Errors as above.  Source: volume of a cylinder.
Result<Volume> containedWater(Length insideDiameter, Length length);

}  // namespace sunspool::geometry
