// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Tube while it is laid along the four sides of the field. Internal to the layout module.
//
// Sides are numbered 0 bottom, 1 right, 2 top, 3 left; a strand on one of them runs so that the field is on its left.

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

geometry::Point along(int side);   ///< unit vector of a strand on this side
geometry::Point inward(int side);  ///< unit vector to its left
double dimensionAlong(const Field& field, int side);
/// Where `side` at one depth meets the next side at another; depths in pitches.
geometry::Point cornerOf(const Field& field, int side, long depth, long nextDepth);

struct Strand {
  std::vector<geometry::Piece> pieces;
  std::vector<int> sideOf;  ///< for each piece the leg it came with
  geometry::Point cursor;
  double length_m = 0.0;

  void add(const geometry::Piece& piece, long leg);
  /// Legs that are all tangent shrink to rounding errors, which are left out.
  void addLine(geometry::Point to, long leg);
  /// Turns by a right angle to the left from `side` to the next one.
  void addCorner(int side, double radius_m, long nextLeg);
};

}  // namespace sunspool::layout::detail
