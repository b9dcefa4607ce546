// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Random pieces and ready-made paths for the geometry tests. The seed is Catch's: --rng-seed N.

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "core/geometry/path.h"

namespace sunspool::geometry::testing {

class Dice {
 public:
  explicit Dice(unsigned seed) : m_engine(seed) {}
  double between(double low, double high) { return low + (high - low) * unit(); }
  double logBetween(double low, double high) { return low * std::pow(high / low, unit()); }
  int below(int count) { return static_cast<int>(unit() * count); }

 private:
  // Not std::uniform_real_distribution: the same numbers on every machine.
  double unit() { return static_cast<double>(m_engine() >> 11) * 0x1.0p-53; }
  std::mt19937_64 m_engine;
};

inline Piece randomPiece(Dice& dice, double size) {
  const Point at{dice.between(-size, size), dice.between(-size, size)};
  if (dice.below(2) == 0) return Line{at, {dice.between(-size, size), dice.between(-size, size)}};
  const double sweep = dice.logBetween(1e-3, 2.0 * std::numbers::pi) * (dice.below(2) == 0 ? 1.0 : -1.0);
  return Arc{at, size * dice.logBetween(1e-3, 3.0), dice.between(-7.0, 7.0), sweep};
}

/// Rectangular spiral from the outside in: sides of a box, each pass one pitch further in, rounded corners.
inline std::vector<Corner> spiralCorners(double width, double height, double pitch, double radius, int sides) {
  std::vector<Corner> corners{{{0.0, 0.0}, 0.0}};
  for (int i = 0; i < sides; ++i) {
    const double in = pitch * (i / 4);
    Point at = corners.back().at;
    if (i % 4 == 0) at.x = width - in;
    if (i % 4 == 1) at.y = height - in;
    if (i % 4 == 2) at.x = in;
    if (i % 4 == 3) at.y = in + pitch;
    corners.push_back({at, radius});
  }
  // Ended at the corner itself it would run into the rounding of the turn outside it.
  const Point last = corners[corners.size() - 2].at - corners.back().at;
  corners.back().at = corners.back().at + last * (radius / norm(last));
  return corners;
}

/// A smooth wandering path: lines and arcs of at least this radius, each going on where the last one ended.
inline Path wanderingPath(Dice& dice, int pieces, double leastRadius) {
  std::vector<Piece> chain;
  Point at{0.0, 0.0};
  double heading = dice.between(-3.0, 3.0);
  for (int i = 0; i < pieces; ++i) {
    const Point ahead{std::cos(heading), std::sin(heading)};
    if (dice.below(3) == 0) {
      const Point end = at + ahead * dice.logBetween(0.01, 1.0);
      chain.push_back(Line{at, end});
      at = end;
      continue;
    }
    const double sign = dice.below(2) == 0 ? 1.0 : -1.0;
    const double radius = leastRadius * dice.logBetween(1.0, 4.0);
    const double sweep = sign * dice.logBetween(0.05, 5.0);
    const Point toCentre = Point{-ahead.y, ahead.x} * sign;
    const Arc arc{at + toCentre * radius, radius, std::atan2(-toCentre.y, -toCentre.x), sweep};
    chain.push_back(arc);
    at = endPoint(arc);
    heading += sweep;
  }
  return Path(std::move(chain));
}

inline Point moved(Point p, double angle, Point by) {
  return Point{p.x * std::cos(angle) - p.y * std::sin(angle), p.x * std::sin(angle) + p.y * std::cos(angle)} + by;
}
inline Piece moved(const Piece& piece, double angle, Point by) {
  if (const auto* line = std::get_if<Line>(&piece)) {
    return Line{moved(line->start, angle, by), moved(line->end, angle, by)};
  }
  const Arc& arc = std::get<Arc>(piece);
  return Arc{moved(arc.centre, angle, by), arc.radius, arc.startAngle + angle, arc.sweep};
}

}  // namespace sunspool::geometry::testing
