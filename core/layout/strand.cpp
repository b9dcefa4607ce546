// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/strand.h"

#include <numbers>

namespace sunspool::layout::detail {

using geometry::Arc;
using geometry::Line;
using geometry::Point;

Point along(int side) {
  constexpr Point kAlong[4] = {{1.0, 0.0}, {0.0, 1.0}, {-1.0, 0.0}, {0.0, -1.0}};
  return kAlong[side];
}

Point inward(int side) { return along((side + 1) % 4); }

double dimensionAlong(const Field& field, int side) { return side % 2 == 0 ? field.width_m : field.height_m; }

Point cornerOf(const Field& field, int side, long depth, long nextDepth) {
  const double a = static_cast<double>(depth) * field.pitch_m;
  const double b = static_cast<double>(nextDepth) * field.pitch_m;
  const double width = field.width_m;
  const double height = field.height_m;
  const Point corners[4] = {{width - b, a}, {width - a, height - b}, {b, height - a}, {a, b}};
  return corners[side];
}

void Strand::add(const geometry::Piece& piece, long leg) {
  pieces.push_back(piece);
  sideOf.push_back(static_cast<int>(leg));
  length_m += geometry::length(piece);
  cursor = geometry::endPoint(piece);
}

void Strand::addLine(Point to, long leg) {
  constexpr double kNoLength_m = 1e-12;
  if (geometry::distance(cursor, to) > kNoLength_m) add(Line{cursor, to}, leg);
}

void Strand::addCorner(int side, double radius_m, long nextLeg) {
  constexpr double kQuarter = std::numbers::pi / 2.0;
  add(Arc{cursor + inward(side) * radius_m, radius_m, (side - 1) * kQuarter, kQuarter}, nextLeg);
}

}  // namespace sunspool::layout::detail
