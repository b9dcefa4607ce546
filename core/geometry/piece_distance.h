// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The kernel behind distanceBetween and ClearanceChecker: pieces prepared once, then compared without
// trigonometry. Internal to the geometry module.

#include "core/geometry/clearance.h"

namespace sunspool::geometry::detail {

/// A piece with what the comparison needs. Lines have radius 0.
struct Shape {
  Point start;
  Point end;
  Point unit;               ///< line: its direction; arc: from the centre to the middle of the arc
  Point centre;             ///< arcs only
  double radius = 0.0;      ///< [m]
  double length = 0.0;      ///< [m]
  double cosHalf = 0.0;     ///< cosine of half the sweep
  double startAngle = 0.0;  ///< [rad]
  double sweep = 0.0;       ///< [rad], signed
  bool isArc() const { return radius > 0.0; }
};
Shape prepared(const Piece& piece);

/// The nearest two places of two pieces.
PieceDistance nearestPlaces(const Shape& a, const Shape& b);

/// The nearest two places among those at least `leastSpan_m` of tube apart, when a starts `offset_m` of tube
/// before b on the same path. Infinity when no local minimum of the distance is that far along.
PieceDistance nearestPlacesApart(const Shape& a, const Shape& b, double offset_m, double leastSpan_m);

}  // namespace sunspool::geometry::detail
