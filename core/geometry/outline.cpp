// SPDX-License-Identifier: GPL-3.0-or-later

// g++ 12 inlines the overlay of Boost.Geometry so far that it takes a point for uninitialized.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

#include "core/geometry/outline.h"

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>
#include <exception>
#include <numbers>
#include <string>
#include <utility>

#include "core/base/assert.h"

namespace sunspool::geometry {
namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<BoostPoint>;
using Polygons = bg::model::multi_polygon<Polygon>;
using Ring = Polygon::ring_type;

// Curved borders become chords that stay this near to the curve. [m]
constexpr double kChordError_m = 2e-5;
// Corners nearer than this are one corner, borders nearer than this touch. [m]
constexpr double kSame_m = 1e-12;
// Parts smaller than this are rounding of the overlay, not room for anything. [m2]
constexpr double kNoArea_m2 = 1e-12;

std::vector<Point> distinctCorners(const Outline& outline) {
  std::vector<Point> corners;
  for (const Point corner : outline.corners) {
    if (corners.empty() || distance(corners.back(), corner) > kSame_m) corners.push_back(corner);
  }
  while (corners.size() > 1 && distance(corners.back(), corners.front()) <= kSame_m) corners.pop_back();
  return corners;
}

Ring ringOf(const Outline& outline) {
  Ring ring;
  for (const Point corner : distinctCorners(outline)) ring.emplace_back(corner.x, corner.y);
  return ring;
}

Polygon polygonOf(const RegionPart& part) {
  Polygon polygon;
  polygon.outer() = ringOf(part.outer);
  for (const Outline& hole : part.holes) polygon.inners().push_back(ringOf(hole));
  bg::correct(polygon);
  return polygon;
}

Polygons polygonsOf(const Region& region) {
  Polygons polygons;
  for (const RegionPart& part : region.parts) polygons.push_back(polygonOf(part));
  return polygons;
}

Outline outlineOf(const Ring& ring) {
  Outline outline;
  for (const BoostPoint& corner : ring) outline.corners.push_back({corner.x(), corner.y()});
  outline.corners = distinctCorners(outline);
  return outline;
}

Region regionOf(const Polygons& polygons) {
  Region region;
  for (const Polygon& polygon : polygons) {
    if (std::abs(bg::area(polygon)) < kNoArea_m2) continue;
    RegionPart part{outlineOf(polygon.outer()), {}};
    for (const Ring& hole : polygon.inners()) part.holes.push_back(outlineOf(hole));
    region.parts.push_back(std::move(part));
  }
  return region;
}

// A point two sides have in common, if any. Touching counts.
std::optional<Point> meeting(Point a, Point b, Point c, Point d) {
  const Point ab = b - a;
  const Point cd = d - c;
  const double slant = cross(ab, cd);
  if (std::abs(slant) > 1e-14 * norm(ab) * norm(cd)) {
    const double alongAb = cross(c - a, cd) / slant;
    const double alongCd = cross(c - a, ab) / slant;
    const double slackAb = kSame_m / norm(ab);
    const double slackCd = kSame_m / norm(cd);
    if (alongAb < -slackAb || alongAb > 1.0 + slackAb || alongCd < -slackCd || alongCd > 1.0 + slackCd) return {};
    return a + ab * alongAb;
  }
  const auto onSide = [](Point p, Point from, Point to) {
    const Point side = to - from;
    const double part = std::clamp(dot(p - from, side) / dot(side, side), 0.0, 1.0);
    return distance(p, from + side * part) <= kSame_m;
  };
  for (const Point p : {c, d}) {
    if (onSide(p, a, b)) return p;
  }
  for (const Point p : {a, b}) {
    if (onSide(p, c, d)) return p;
  }
  return {};
}

// Two neighbouring sides share their corner; they go wrong only by running back over each other.
bool runsBack(Point before, Point corner, Point after) {
  const Point in = corner - before;
  const Point out = after - corner;
  return dot(in, out) < 0.0 && std::abs(cross(in, out)) <= kSame_m * std::max(norm(in), norm(out));
}

std::optional<Point> crossingPoint(const std::vector<Point>& corners) {
  const std::size_t n = corners.size();
  const auto at = [&](std::size_t i) { return corners[i % n]; };
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;
      if (const auto found = meeting(at(i), at(i + 1), at(j), at(j + 1))) return found;
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    if (runsBack(at(i), at(i + 1), at(i + 2))) return at(i + 1);
  }
  return {};
}

bool onOneLine(const std::vector<Point>& corners) {
  const auto far = std::max_element(corners.begin(), corners.end(), [&](Point a, Point b) {
    return distance(a, corners.front()) < distance(b, corners.front());
  });
  const Point along = *far - corners.front();
  return std::all_of(corners.begin(), corners.end(),
                     [&](Point p) { return std::abs(cross(along, p - corners.front())) <= kSame_m * norm(along); });
}

Error named(Error error, std::string where) {
  error.where = std::move(where);
  return error;
}

// Points of a whole turn that keep chords within the error.
std::size_t pointsPerTurn(double radius_m) {
  const double half = std::acos(1.0 - std::min(1.0, kChordError_m / radius_m));
  return static_cast<std::size_t>(std::clamp(std::ceil(std::numbers::pi / half), 16.0, 4096.0));
}

std::optional<Polygons> tryBuffer(const Polygons& polygons, double distance_m) {
  const std::size_t points = pointsPerTurn(std::abs(distance_m));
  try {
    Polygons result;
    bg::buffer(polygons, result, bg::strategy::buffer::distance_symmetric<double>(distance_m),
               bg::strategy::buffer::side_straight(), bg::strategy::buffer::join_round(points),
               bg::strategy::buffer::end_round(points), bg::strategy::buffer::point_circle(points));
    if (bg::is_valid(result)) return result;
  } catch (const std::exception&) {
    // Falls through to the next try.
  }
  return {};
}

// Corners of the offset border that fall upon one another can defeat the overlay inside Boost's buffer. A distance
// changed by some nanometres parts them, far below the error of the chords.
Polygons buffered(const Polygons& polygons, double distance_m) {
  for (int step = 0; step < 8; ++step) {
    if (auto result = tryBuffer(polygons, distance_m + step * 3e-9)) return *std::move(result);
  }
  SUNSPOOL_ASSERT(false, "no valid offset of a valid region");
}

}  // namespace

Outline rectangle(Point lower, Point upper) { return {{lower, {upper.x, lower.y}, upper, {lower.x, upper.y}}}; }

Result<Done> checked(const Outline& outline) {
  const auto finite = [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); };
  if (!std::all_of(outline.corners.begin(), outline.corners.end(), finite)) {
    return Error{ErrorCode::NotFinite, "outline", {}, {}};
  }
  const std::vector<Point> corners = distinctCorners(outline);
  if (corners.size() < 3) {
    return Error{ErrorCode::OutlineTooFewCorners,
                 "outline",
                 {},
                 {{"corners", static_cast<double>(corners.size()), Dimension::Count}}};
  }
  if (onOneLine(corners)) return Error{ErrorCode::OutlineNoArea, "outline", {}, {}};
  if (const auto place = crossingPoint(corners)) {
    return Error{ErrorCode::OutlineCrossesItself,
                 "outline",
                 {},
                 {{"x", place->x, Dimension::Length}, {"y", place->y, Dimension::Length}}};
  }
  return Done{};
}

Result<Region> regionOf(const Outline& outline, std::span<const Outline> keepOuts) {
  if (const auto good = checked(outline); !good) return named(good.error(), "outline");
  for (std::size_t i = 0; i < keepOuts.size(); ++i) {
    if (const auto good = checked(keepOuts[i]); !good) return named(good.error(), "keep_out/" + std::to_string(i));
  }
  try {
    Polygons taken;
    for (const Outline& keepOut : keepOuts) {
      Polygons united;
      bg::union_(taken, polygonOf({keepOut, {}}), united);
      taken = std::move(united);
    }
    Polygons left;
    bg::difference(polygonOf({outline, {}}), taken, left);
    return regionOf(left);
  } catch (const std::exception& failure) {
    return Error{ErrorCode::NotConverged, "outline", failure.what(), {}};
  }
}

Area area(const Region& region) { return Area::fromSi(bg::area(polygonsOf(region))); }

Area area(const Outline& outline) { return Area::fromSi(std::abs(bg::area(polygonOf({outline, {}})))); }

bool contains(const Region& region, Point p) { return bg::covered_by(BoostPoint(p.x, p.y), polygonsOf(region)); }

Region eroded(const Region& region, Length distance) {
  SUNSPOOL_ASSERT(distance.si() >= 0.0, "an erosion is not negative");
  if (distance.si() <= 0.0) return region;
  return regionOf(buffered(polygonsOf(region), -distance.si()));
}

Region openedBy(const Region& region, Length radius) {
  SUNSPOOL_ASSERT(radius.si() >= 0.0, "a radius is not negative");
  if (radius.si() <= 0.0) return region;
  return regionOf(buffered(polygonsOf(eroded(region, radius)), radius.si()));
}

}  // namespace sunspool::geometry
