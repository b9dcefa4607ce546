// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/approach.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "core/geometry/clearance.h"

using namespace sunspool::geometry;
using Catch::Matchers::WithinAbs;
using sunspool::layout::detail::firstApproach;

TEST_CASE("A straight stops short of a line across its way", "[layout][approach][analytic]") {
  const Piece across = Line{{1.0, -1.0}, {1.0, 1.0}};
  CHECK_THAT(firstApproach({0.0, 0.0}, {1.0, 0.0}, across, 0.1), WithinAbs(0.9, 1e-11));
  CHECK(std::isinf(firstApproach({0.0, 0.0}, {-1.0, 0.0}, across, 0.1)));
}

TEST_CASE("A straight stops short of a circle from inside and from outside", "[layout][approach][analytic]") {
  const Piece circle = Arc{{0.0, 0.0}, 1.0, 0.0, 2.0 * std::numbers::pi};
  CHECK_THAT(firstApproach({0.0, 0.0}, {0.6, 0.8}, circle, 0.1), WithinAbs(0.9, 1e-11));
  CHECK_THAT(firstApproach({-3.0, 0.0}, {1.0, 0.0}, circle, 0.1), WithinAbs(1.9, 1e-11));
}

TEST_CASE("A parallel line at exactly the pitch is no hit", "[layout][approach][analytic]") {
  CHECK(std::isinf(firstApproach({0.0, 0.026}, {1.0, 0.0}, Line{{-1.0, 0.0}, {5.0, 0.0}}, 0.026)));
}

TEST_CASE("Up to the approach a straight keeps its distance, just beyond it does not", "[layout][approach][property]") {
  const unsigned seed = 20250614;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(-1.0, 1.0);
  int hits = 0;
  for (int draw = 0; draw < 5000; ++draw) {
    const Point from{unit(random), unit(random)};
    const double angle = std::numbers::pi * unit(random);
    const Point along{std::cos(angle), std::sin(angle)};
    const Piece line = Line{{unit(random), unit(random)}, {unit(random), unit(random)}};
    const Piece arc =
        Arc{{unit(random), unit(random)}, 0.3 + 0.25 * unit(random), 3.0 * unit(random), 3.0 * unit(random)};
    const Piece& piece = draw % 2 == 0 ? line : arc;
    const double keep = 0.02 + 0.015 * unit(random);
    if (distanceBetween(Line{from, from}, piece).distance_m < keep) continue;
    const double t = firstApproach(from, along, piece, keep);
    const double walked = std::isinf(t) ? 10.0 : t;
    INFO("draw " << draw << " walked " << walked);
    // Exact up to rounding; 1e-11 leaves room for the grazing allowance.
    REQUIRE(distanceBetween(Line{from, from + along * walked}, piece).distance_m >= keep - 1e-11);
    if (std::isinf(t)) continue;
    ++hits;
    REQUIRE(distanceBetween(Line{from, from + along * (walked + 1e-4)}, piece).distance_m < keep);
  }
  CHECK(hits > 500);
}
