// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/obstacle_edits.h"

#include <catch2/catch.hpp>

#include "core/model/defaults.h"

using namespace sunspool;
using namespace sunspool::model;

TEST_CASE("Obstacles are added, replaced and taken away by their place in the list", "[model][analytic]") {
  const Obstacle tree{"tree", degrees(240.0), degrees(270.0), degrees(25.0)};
  const Obstacle tower{"tower", degrees(150.0), degrees(190.0), degrees(50.0)};
  const auto one = withObstacle(firstPanel(), 0, tree);
  REQUIRE(one);
  const auto two = withObstacle(*one, 1, tower);
  REQUIRE(two);
  CHECK(two->obstacles == std::vector<Obstacle>{tree, tower});
  const auto replaced = withObstacle(*two, 0, tower);
  REQUIRE(replaced);
  CHECK(replaced->obstacles == std::vector<Obstacle>{tower, tower});
  const auto without = withoutObstacle(*two, 0);
  REQUIRE(without);
  CHECK(without->obstacles == std::vector<Obstacle>{tower});
  CHECK(*withoutObstacle(*one, 0) == firstPanel());
}

TEST_CASE("An obstacle that cannot be, or is not there, is refused", "[model][analytic]") {
  CHECK(withObstacle(firstPanel(), 1, {}).error().code == ErrorCode::MissingKey);
  CHECK(withoutObstacle(firstPanel(), 0).error().code == ErrorCode::MissingKey);
  const auto high = withObstacle(firstPanel(), 0, {"cliff", degrees(0.0), degrees(90.0), degrees(91.0)});
  REQUIRE_FALSE(high);
  CHECK(high.error().code == ErrorCode::OutOfRange);
}
