// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/keep_outs.h"

#include <algorithm>

#include "core/geometry/clearance.h"

namespace sunspool::layout::detail {
namespace {

using geometry::Box;
using geometry::Outline;
using geometry::Piece;
using geometry::Point;

Box grown(Box box, double by) { return {{box.lower.x - by, box.lower.y - by}, {box.upper.x + by, box.upper.y + by}}; }
bool overlap(const Box& a, const Box& b) {
  return a.lower.x <= b.upper.x && b.lower.x <= a.upper.x && a.lower.y <= b.upper.y && b.lower.y <= a.upper.y;
}

Box boundsOf(const Outline& outline) {
  Box box{outline.corners.front(), outline.corners.front()};
  for (const Point& p : outline.corners) {
    box.lower = {std::min(box.lower.x, p.x), std::min(box.lower.y, p.y)};
    box.upper = {std::max(box.upper.x, p.x), std::max(box.upper.y, p.y)};
  }
  return box;
}

Error inKeepOut(Error error, const std::string& id) {
  error.where = id;
  return error;
}

Result<Obstacle> obstacleOf(const model::KeepOut& keepOut, double outsideDiameter_m) {
  Obstacle obstacle;
  obstacle.id = keepOut.id;
  obstacle.reach_m = keepOut.clearance.si() + outsideDiameter_m / 2.0;
  Result<geometry::Region> region = geometry::regionOf(keepOut.outline, {});
  if (!region) return inKeepOut(region.error(), keepOut.id);
  obstacle.region = std::move(*region);
  const std::vector<Point>& corners = keepOut.outline.corners;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    obstacle.edges.push_back(geometry::Line{corners[i], corners[(i + 1) % corners.size()]});
  }
  obstacle.box = grown(boundsOf(keepOut.outline), obstacle.reach_m);
  return obstacle;
}

bool touches(const Obstacle& obstacle, const Piece& piece) {
  if (!overlap(obstacle.box, geometry::bounds(piece))) return false;
  return std::any_of(obstacle.edges.begin(), obstacle.edges.end(), [&](const Piece& edge) {
    return geometry::distanceBetween(piece, edge).distance_m < obstacle.reach_m - kFitTolerance_m;
  });
}

/// Outlines around the keep-out at its reach: the holes it leaves in a plate much larger than itself.
std::vector<Outline> grownOutlines(const Obstacle& obstacle) {
  const Box around = grown(obstacle.box, 1.0 + obstacle.reach_m);
  const Outline& outline = obstacle.region.parts.front().outer;
  const Result<geometry::Region> plate =
      geometry::regionOf(geometry::rectangle(around.lower, around.upper), std::span<const Outline>(&outline, 1));
  if (!plate) return {};
  std::vector<Outline> outlines;
  for (const geometry::RegionPart& part : geometry::eroded(*plate, Length::fromSi(obstacle.reach_m)).parts) {
    outlines.insert(outlines.end(), part.holes.begin(), part.holes.end());
  }
  return outlines;
}

}  // namespace

Result<std::vector<Obstacle>> obstaclesOf(const std::vector<model::KeepOut>& keepOuts, double outsideDiameter_m) {
  std::vector<Obstacle> obstacles;
  for (const model::KeepOut& keepOut : keepOuts) {
    Result<Obstacle> obstacle = obstacleOf(keepOut, outsideDiameter_m);
    if (!obstacle) return obstacle.error();
    obstacles.push_back(std::move(*obstacle));
  }
  return obstacles;
}

const Obstacle* over(std::span<const Obstacle> obstacles, Point p) {
  const Piece point{geometry::Line{p, p}};
  const auto found = std::find_if(obstacles.begin(), obstacles.end(), [&](const Obstacle& obstacle) {
    return geometry::contains(obstacle.region, p) || touches(obstacle, point);
  });
  return found == obstacles.end() ? nullptr : &*found;
}

std::optional<Hit> outermostHit(std::span<const Obstacle> obstacles, std::span<const Piece> pieces,
                                std::span<const int> sideOf) {
  std::optional<Hit> outermost;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (outermost && outermost->side <= sideOf[i]) continue;
    for (const Obstacle& obstacle : obstacles) {
      if (!touches(obstacle, pieces[i])) continue;
      outermost = Hit{&obstacle, sideOf[i]};
      break;
    }
  }
  return outermost;
}

Result<geometry::Region> regionOfCentreLines(const Outline& box, std::span<const Obstacle> obstacles) {
  if (obstacles.empty()) return geometry::Region{{{box, {}}}};
  std::vector<Outline> holes;
  for (const Obstacle& obstacle : obstacles) {
    const std::vector<Outline> outlines = grownOutlines(obstacle);
    holes.insert(holes.end(), outlines.begin(), outlines.end());
  }
  return geometry::regionOf(box, holes);
}

}  // namespace sunspool::layout::detail
