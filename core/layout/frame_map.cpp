// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/frame_map.h"

#include <numbers>

namespace sunspool::layout::detail {
namespace {

Side transposedSide(Side side) {
  switch (side) {
    case Side::Bottom:
      return Side::Left;
    case Side::Left:
      return Side::Bottom;
    case Side::Right:
      return Side::Top;
    case Side::Top:
      return Side::Right;
  }
  return side;
}
Side opposite(Side side) {
  switch (side) {
    case Side::Bottom:
      return Side::Top;
    case Side::Left:
      return Side::Right;
    case Side::Right:
      return Side::Left;
    case Side::Top:
      return Side::Bottom;
  }
  return side;
}
bool isStile(Side side) { return side == Side::Left || side == Side::Right; }

}  // namespace

geometry::Point FrameMap::point(geometry::Point p) const {
  geometry::Point q{p.x + faceGap_m, p.y + faceGap_m};
  if (transposed) q = {q.y, q.x};
  return {fromRight ? insideWidth_m - q.x : q.x, fromTop ? insideHeight_m - q.y : q.y};
}

geometry::Piece FrameMap::piece(const geometry::Piece& piece) const {
  if (const auto* line = std::get_if<geometry::Line>(&piece)) {
    return geometry::Line{point(line->start), point(line->end)};
  }
  geometry::Arc arc = std::get<geometry::Arc>(piece);
  arc.centre = point(arc.centre);
  const auto reflect = [&arc](double aboutTwice) {
    arc.startAngle = aboutTwice - arc.startAngle;
    arc.sweep = -arc.sweep;
  };
  if (transposed) reflect(std::numbers::pi / 2.0);
  if (fromRight) reflect(std::numbers::pi);
  if (fromTop) reflect(0.0);
  return arc;
}

Side FrameMap::side(Side side) const {
  const Side turned = transposed ? transposedSide(side) : side;
  const bool mirrored = isStile(turned) ? fromRight : fromTop;
  return mirrored ? opposite(turned) : turned;
}

}  // namespace sunspool::layout::detail
