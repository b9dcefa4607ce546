// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/approach.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace sunspool::layout::detail {
namespace {

using geometry::Arc;
using geometry::Line;
using geometry::Point;

constexpr double kNever = std::numeric_limits<double>::infinity();
// Neighbouring legs run at exactly the pitch: rounding must not turn that into a hit. [m]
constexpr double kGraze_m = 1e-12;

struct Ray {
  Point from;
  Point along;
};
struct Roots {
  double entering = kNever;
  double leaving = -kNever;
};

Roots withCircle(const Ray& ray, Point centre, double radius) {
  const Point toCentre = centre - ray.from;
  const double middle = geometry::dot(toCentre, ray.along);
  const double offset = geometry::cross(toCentre, ray.along);
  const double square = radius * radius - offset * offset;
  if (radius <= 0.0 || square <= 0.0) return {};
  const double half = std::sqrt(square);
  return {middle - half, middle + half};
}

double enteringDisc(const Ray& ray, Point centre, double radius) {
  const double entering = withCircle(ray, centre, radius).entering;
  return entering >= 0.0 ? entering : kNever;
}

bool spans(const Arc& arc, Point p) {
  constexpr double kTwoPi = 2.0 * std::numbers::pi;
  const Point v = p - arc.centre;
  const double sign = arc.sweep < 0.0 ? -1.0 : 1.0;
  double turn = std::fmod((std::atan2(v.y, v.x) - arc.startAngle) * sign, kTwoPi);
  if (turn < 0.0) turn += kTwoPi;
  return turn <= std::abs(arc.sweep);
}

double approach(const Ray& ray, const Line& line, double keep_m) {
  const Point chord = line.end - line.start;
  const double length = geometry::norm(chord);
  double nearest = std::min(enteringDisc(ray, line.start, keep_m), enteringDisc(ray, line.end, keep_m));
  if (length == 0.0) return nearest;
  const Point unit = chord * (1.0 / length);
  const double closing = geometry::cross(unit, ray.along);
  if (closing == 0.0) return nearest;
  const double height = geometry::cross(unit, ray.from - line.start);
  const double t = ((height > 0.0 ? keep_m : -keep_m) - height) / closing;
  const double foot = geometry::dot(unit, ray.from + ray.along * t - line.start);
  if (t >= 0.0 && foot >= 0.0 && foot <= length) nearest = std::min(nearest, t);
  return nearest;
}

double approach(const Ray& ray, const Arc& arc, double keep_m) {
  const geometry::Piece piece{arc};
  double nearest = std::min(enteringDisc(ray, geometry::startPoint(piece), keep_m),
                            enteringDisc(ray, geometry::endPoint(piece), keep_m));
  const auto consider = [&](double t) {
    if (t >= 0.0 && t < nearest && spans(arc, ray.from + ray.along * t)) nearest = t;
  };
  consider(withCircle(ray, arc.centre, arc.radius + keep_m).entering);
  consider(withCircle(ray, arc.centre, arc.radius - keep_m).leaving);
  return nearest;
}

}  // namespace

double firstApproach(Point from, Point along, const geometry::Piece& piece, double keep_m) {
  const double keep = keep_m - kGraze_m;
  const Ray ray{from, along};
  return std::visit([&](const auto& shape) { return approach(ray, shape, keep); }, piece);
}

}  // namespace sunspool::layout::detail
