// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Keep-outs against tube. Internal to the layout module.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/geometry/outline.h"
#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

/// A keep-out made ready for comparing.
struct Obstacle {
  std::string id;
  geometry::Region region;
  std::vector<geometry::Piece> edges;
  geometry::Box box;     ///< of the outline grown by reach
  double reach_m = 0.0;  ///< what a centre line has to keep from it: clearance + OD/2
};
Result<std::vector<Obstacle>> obstaclesOf(const std::vector<model::KeepOut>& keepOuts, double outsideDiameter_m);

/// The keep-out over this point of the frame, or nullptr.
const Obstacle* over(std::span<const Obstacle> obstacles, geometry::Point p);

/// The outermost side of a run that a keep-out stands in the way of.
struct Hit {
  const Obstacle* obstacle = nullptr;
  int side = 0;
};
std::optional<Hit> outermostHit(std::span<const Obstacle> obstacles, std::span<const geometry::Piece> pieces,
                                std::span<const int> sideOf);

/// The box of centre lines less the keep-outs, each grown by its reach.
Result<geometry::Region> regionOfCentreLines(const geometry::Outline& box, std::span<const Obstacle> obstacles);

}  // namespace sunspool::layout::detail
