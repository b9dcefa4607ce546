// SPDX-License-Identifier: GPL-3.0-or-later

// g++ 12 inlines the overlay of Boost.Geometry so far that it takes a point for uninitialized.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

#include <array>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "core/geometry/outline.h"
#include "tests/core/geometry/shapes.h"

using namespace sunspool;
using namespace sunspool::geometry;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kPi = std::numbers::pi;

Region box(Point lower, Point upper) { return *regionOf(rectangle(lower, upper), {}); }
const Region kPlain = box({-10, -10}, {10, 10});

}  // namespace

TEST_CASE("A straight band covers its length times its width, cut off square", "[geometry][band][analytic]") {
  const Path path({Line{{0, 0}, {3, 4}}});
  CHECK_THAT(bandArea(path, metres(0.016), kPlain).si(), WithinRel(5.0 * 0.016, 1e-13));
  CHECK(bandArea(Path(), metres(0.016), kPlain).si() == 0.0);
  CHECK(bandArea(path, metres(0.0), kPlain).si() == 0.0);
  CHECK(bandArea(path, metres(0.016), Region{}).si() == 0.0);
}

TEST_CASE("Where two bands cross the square is counted once", "[geometry][band][analytic]") {
  const double w = 0.1;
  // Up, over to the right outside the region, and back across: the region sees a cross.
  const Path path({Line{{0, -1}, {0, 1}}, Line{{0, 1}, {5, 1}}, Line{{5, 1}, {5, 0}}, Line{{5, 0}, {-1, 0}}});
  CHECK_THAT(bandArea(path, metres(w), box({-0.5, -0.5}, {0.5, 0.5})).si(), WithinAbs(2 * w - w * w, 1e-14));
  // At 30 degrees the shared rhombus is w^2 / sin 30.
  const double slope = std::tan(kPi / 6);
  const Path slanted({Line{{-1, 0}, {3, 0}}, Line{{3, 0}, {3, 3 * slope}}, Line{{3, 3 * slope}, {-1, -slope}}});
  const Region middle = box({-0.5, -2}, {0.5, 2});
  CHECK_THAT(bandArea(slanted, metres(w), middle).si(), WithinAbs(w + w / std::cos(kPi / 6) - 2 * w * w, 1e-13));
}

TEST_CASE("A band laid twice over itself covers no more", "[geometry][band][analytic]") {
  const Path once({Arc{{0, 0}, 0.3, 0, 2 * kPi}});
  const Path twice({Arc{{0, 0}, 0.3, 0, 2 * kPi}, Arc{{0, 0}, 0.3, 0, 2 * kPi}});
  const double ring = 2 * kPi * 0.3 * 0.016;
  CHECK_THAT(bandArea(once, metres(0.016), kPlain).si(), WithinRel(ring, 1e-12));
  CHECK_THAT(bandArea(twice, metres(0.016), kPlain).si(), WithinRel(ring, 1e-9));
}

TEST_CASE("A sharp joint is filled by a round corner", "[geometry][band][analytic]") {
  const double w = 0.1;
  const Path path({Line{{0, 0}, {1, 0}}, Line{{1, 0}, {1, 1}}});
  // The two strips share a quarter of the square about the corner; the round corner fills a quarter disc.
  const double expected = 2 * w - w * w / 4 + kPi * w * w / 16;
  CHECK_THAT(bandArea(path, metres(w), kPlain).si(), WithinAbs(expected, 2e-5 * kPi * w / 4));
}

TEST_CASE("The turns of a spiral that do not touch cover length times diameter", "[geometry][band][analytic]") {
  const auto path = filleted(testing::spiralCorners(1.8, 0.8, 0.020, 0.1, 36));
  REQUIRE(path);
  REQUIRE(path->length().si() > 30.0);
  CHECK_THAT(bandArea(*path, metres(0.016), kPlain).si(), WithinRel(path->length().si() * 0.016, 1e-9));
  // Two halves of the plane share it out.
  const double left = bandArea(*path, metres(0.016), box({-10, -10}, {0.777, 10})).si();
  const double right = bandArea(*path, metres(0.016), box({0.777, -10}, {10, 10})).si();
  CHECK_THAT(left + right, WithinRel(path->length().si() * 0.016, 1e-9));
}

TEST_CASE("Holes and parts of a region count as they should", "[geometry][band][analytic]") {
  const std::array<Outline, 2> holes{rectangle({0.4, -0.5}, {0.6, 0.5}), rectangle({0.7, -9}, {0.8, 9})};
  const Path path({Line{{-1, 0}, {2, 0}}});
  const auto region = regionOf(rectangle({0, -1}, {1, 1}), holes);
  CHECK_THAT(bandArea(path, metres(0.016), *region).si(), WithinAbs(0.7 * 0.016, 1e-14));
}

TEST_CASE("The area of wandering bands is that of the union of swept pieces", "[geometry][band][reference]") {
  // Independent reference: boost::geometry::union_ of the pieces swept by fine chords. Its overlay loses polygons
  // that only abut (seen with 1.81), so each piece reaches 0.01 mm into its neighbours.
  using Polygon = boost::geometry::model::polygon<boost::geometry::model::d2::point_xy<double>>;
  using Polygons = boost::geometry::model::multi_polygon<Polygon>;
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  const double half = 0.02;
  for (int round = 0; round < 30; ++round) {
    const Path path = testing::wanderingPath(dice, 8, 0.1);
    Polygons swept;
    for (const Piece& piece : path.pieces()) {
      Polygon polygon;
      const int chords = std::holds_alternative<Line>(piece) ? 1 : 200;
      const auto put = [&](int i, double side) {
        const double s = length(piece) * i / chords;
        const Point ahead = tangentOn(piece, s);
        const double reach = i == 0 ? -1e-5 : (i == chords ? 1e-5 : 0.0);
        const Point p = pointOn(piece, s) + Point{-ahead.y, ahead.x} * side + ahead * reach;
        polygon.outer().emplace_back(p.x, p.y);
      };
      for (int i = 0; i <= chords; ++i) put(i, half);
      for (int i = chords; i >= 0; --i) put(i, -half);
      boost::geometry::correct(polygon);
      Polygons united;
      boost::geometry::union_(swept, polygon, united);
      swept = united;
    }
    CAPTURE(round);
    REQUIRE_THAT(bandArea(path, metres(2 * half), box({-50, -50}, {50, 50})).si(),
                 WithinRel(boost::geometry::area(swept), 3e-4));
  }
}
