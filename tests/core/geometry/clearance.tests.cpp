// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/clearance.h"

#include <algorithm>
#include <array>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "tests/core/geometry/shapes.h"

using namespace sunspool;
using namespace sunspool::geometry;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

ClearanceChecker checkerOf(const Path& path, double exemptRadius_m) {
  const std::array<CheckedPath, 1> all{CheckedPath{&path, 0.0, path.length().si()}};
  return ClearanceChecker(all, exemptRadius_m);
}

Path spiralOf(int sides) {
  auto path = filleted(testing::spiralCorners(2.4, 1.6, 0.016, 0.1, sides));
  REQUIRE(path);
  return *path;
}

}  // namespace

TEST_CASE("Parallel lines are as far apart as their perpendicular", "[geometry][clearance][analytic]") {
  const auto found = distanceBetween(Line{{0, 0}, {2, 0}}, Line{{3, 0.016}, {1, 0.016}});
  CHECK_THAT(found.distance_m, WithinRel(0.016, 1e-15));
  CHECK(found.onFirst_m >= 1.0);
  CHECK_THAT(found.onFirst_m + found.onSecond_m, WithinAbs(3.0, 1e-15));
}

TEST_CASE("Lines that cross or touch are exactly 0 apart", "[geometry][clearance][analytic]") {
  const auto crossing = distanceBetween(Line{{0, 0}, {2, 0}}, Line{{0.5, -1}, {0.5, 3}});
  CHECK(crossing.distance_m == 0.0);
  CHECK_THAT(crossing.onFirst_m, WithinAbs(0.5, 1e-15));
  CHECK_THAT(crossing.onSecond_m, WithinAbs(1.0, 1e-15));
  CHECK(distanceBetween(Line{{0, 0}, {3, 1}}, Line{{1.5, 0.5}, {0, 4}}).distance_m == 0.0);
  CHECK(distanceBetween(Line{{0, 0}, {3, 1}}, Line{{3, 1}, {6, 2}}).distance_m == 0.0);
}

TEST_CASE("A line passes a circle at the distance of the centre less the radius", "[geometry][clearance][analytic]") {
  const Arc half{{0, 0}, 0.5, 0.0, kPi};
  const auto outside = distanceBetween(Line{{-2, 0.8}, {2, 0.8}}, half);
  CHECK_THAT(outside.distance_m, WithinAbs(0.3, 1e-15));
  CHECK_THAT(outside.onFirst_m, WithinAbs(2.0, 1e-15));
  CHECK_THAT(outside.onSecond_m, WithinAbs(0.25 * kPi, 1e-15));
  // Below the half circle only its ends count.
  CHECK_THAT(distanceBetween(Line{{-2, -0.8}, {2, -0.8}}, half).distance_m, WithinAbs(0.8, 1e-15));
  // Inside, short of the arc.
  CHECK_THAT(distanceBetween(Line{{-0.1, 0.3}, {0.1, 0.3}}, half).distance_m,
             WithinAbs(0.5 - std::hypot(0.1, 0.3), 1e-15));
  CHECK(distanceBetween(Line{{-2, 0.3}, {2, 0.3}}, half).distance_m == 0.0);
  CHECK(distanceBetween(Line{{-2, 0.5}, {2, 0.5}}, half).distance_m == 0.0);
}

TEST_CASE("Arcs beside, inside, around and across one another", "[geometry][clearance][analytic]") {
  const Arc circle{{0, 0}, 0.5, 1.0, 2.0 * kPi};
  CHECK_THAT(distanceBetween(circle, Arc{{2, 0}, 0.7, 2.0, 2.0}).distance_m, WithinAbs(0.8, 1e-15));
  CHECK_THAT(distanceBetween(circle, Arc{{0.1, 0}, 0.2, 0.0, -2.0 * kPi}).distance_m, WithinAbs(0.2, 1e-15));
  CHECK_THAT(distanceBetween(Arc{{0.1, 0}, 0.2, -1.0, 2.0}, circle).distance_m, WithinAbs(0.2, 1e-15));
  CHECK_THAT(distanceBetween(circle, Arc{{0, 0}, 0.516, 3.0, 0.2}).distance_m, WithinAbs(0.016, 1e-15));
  CHECK(distanceBetween(circle, Arc{{0.6, 0}, 0.3, 0.0, 2.0 * kPi}).distance_m == 0.0);
  CHECK(distanceBetween(circle, Arc{{1.0, 0}, 0.5, 2.0, 2.0}).distance_m == 0.0);
  // Back to back quarter arcs: the ends decide.
  CHECK_THAT(distanceBetween(Arc{{0, 0}, 1, kPi / 2, kPi / 2}, Arc{{1, 0}, 1, 0, kPi / 2}).distance_m,
             WithinAbs(1.0, 1e-15));
}

TEST_CASE("Lines of one direction with a gap between are as far apart as the gap", "[geometry][clearance][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 20000; ++round) {
    const double angle = dice.between(-4.0, 4.0);
    const Point ahead{std::cos(angle), std::sin(angle)};
    const Point from{dice.between(-2, 2), dice.between(-2, 2)};
    const double gap = dice.logBetween(1e-6, 1.0);
    const Line a{from, from + ahead * 0.3};
    const Line b{from + ahead * (0.3 + gap), from + ahead * (0.7 + gap)};
    REQUIRE_THAT(distanceBetween(a, b).distance_m, WithinAbs(gap, 1e-14));
    // A hair's turn that does cross is found as such.
    const double slant = dice.logBetween(1e-9, 0.1);
    const Point aside{-ahead.y, ahead.x};
    const Line across{from - aside * (slant * 0.1), from + ahead * 0.3 + aside * (slant * 0.2)};
    REQUIRE(distanceBetween(a, across).distance_m == 0.0);
  }
}

TEST_CASE("The reported places lie as far apart as reported", "[geometry][clearance][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 10000; ++round) {
    const double size = dice.logBetween(1e-3, 50.0);
    const Piece a = testing::randomPiece(dice, size);
    const Piece b = testing::randomPiece(dice, size);
    const PieceDistance found = distanceBetween(a, b);
    const PieceDistance turned = distanceBetween(b, a);
    REQUIRE_THAT(distance(pointOn(a, found.onFirst_m), pointOn(b, found.onSecond_m)),
                 WithinAbs(found.distance_m, 1e-12 * (1.0 + size)));
    REQUIRE_THAT(turned.distance_m, WithinAbs(found.distance_m, 1e-13 * (1.0 + size)));
  }
}

TEST_CASE("No sampled pair of points is nearer than the exact distance, and dense sampling finds it",
          "[geometry][clearance][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  constexpr int kSamples = 100;
  for (int round = 0; round < 10000; ++round) {
    const double size = dice.logBetween(1e-3, 50.0);
    const Piece a = testing::randomPiece(dice, size);
    const Piece b = testing::randomPiece(dice, size);
    const Path onto({b});
    double sampled = kInfinity;
    for (int i = 0; i <= kSamples; ++i) {
      sampled = std::min(sampled, onto.nearest(pointOn(a, length(a) * i / kSamples)).distance_m);
    }
    const double exact = distanceBetween(a, b).distance_m;
    REQUIRE(exact <= sampled + 1e-13 * (1.0 + size));
    // The nearest place of a is at most half a step from a sample, and distances change no faster than we walk.
    REQUIRE(sampled <= exact + 0.5 * length(a) / kSamples + 1e-13 * (1.0 + size));
  }
}

TEST_CASE("Pieces flattened to fine chords are as far apart as Boost.Geometry says",
          "[geometry][clearance][reference]") {
  // Independent reference: boost::geometry::distance of line strings whose chords stay within 1e-6 of the piece.
  using LineString = boost::geometry::model::linestring<boost::geometry::model::d2::point_xy<double>>;
  const auto flattened = [](const Piece& piece) {
    const auto* arc = std::get_if<Arc>(&piece);
    const int chords = arc == nullptr ? 1 : 1 + static_cast<int>(std::abs(arc->sweep) / std::sqrt(8e-6 / arc->radius));
    LineString string;
    for (int i = 0; i <= chords; ++i) {
      const Point p = pointOn(piece, length(piece) * i / chords);
      string.emplace_back(p.x, p.y);
    }
    return string;
  };
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 300; ++round) {
    const Piece a = testing::randomPiece(dice, 1.0);
    const Piece b = testing::randomPiece(dice, 1.0);
    REQUIRE_THAT(distanceBetween(a, b).distance_m,
                 WithinAbs(boost::geometry::distance(flattened(a), flattened(b)), 2.1e-6));
  }
}

TEST_CASE("Neighbouring turns of a spiral are one pitch apart", "[geometry][clearance][analytic]") {
  const Path path = spiralOf(40);
  const auto report = checkerOf(path, 0.1).check(0.016);
  CHECK_THAT(report.smallest_m, WithinAbs(0.016, 1e-12));
  CHECK(report.closer.empty());
  const auto wider = checkerOf(path, 0.1).check(0.017);
  REQUIRE(!wider.closer.empty());
  CHECK(wider.closer.size() <= 200);
  CHECK(std::is_sorted(wider.closer.begin(), wider.closer.end(),
                       [](const ClosePlace& a, const ClosePlace& b) { return a.distance_m < b.distance_m; }));
  for (const ClosePlace& place : wider.closer) {
    REQUIRE_THAT(distance(path.pointAt(place.firstStation_m), path.pointAt(place.secondStation_m)),
                 WithinAbs(place.distance_m, 1e-12));
    REQUIRE(place.firstStation_m < place.secondStation_m);
  }
}

TEST_CASE("A straight and a single corner have nothing to compare", "[geometry][clearance][analytic]") {
  const Path corner({Line{{0, 0}, {1, 0}}, Arc{{1, 0.1}, 0.1, -kPi / 2, kPi / 2}, Line{{1.1, 0.1}, {1.1, 2}}});
  CHECK(std::isinf(checkerOf(corner, 0.1).check(0.016).smallest_m));
  CHECK(std::isinf(checkerOf(Path(), 0.1).check(0.016).smallest_m));
  CHECK(checkerOf(corner, 0.1).pieceCount() == 3);
}

TEST_CASE("A half turn lays its legs two radii apart", "[geometry][clearance][analytic]") {
  const Path bend({Line{{0, 0}, {1, 0}}, Arc{{1, 0.1}, 0.1, -kPi / 2, kPi}, Line{{1, 0.2}, {0, 0.2}}});
  CHECK_THAT(checkerOf(bend, 0.1).check(0.25).smallest_m, WithinAbs(0.2, 1e-15));
}

TEST_CASE("Long pieces that meet again across a short gap of tube are found", "[geometry][clearance][analytic]") {
  // Three thirds of a circle: between first and last lies less tube than the exempt span, yet their ends meet.
  const double third = 2.0 * kPi / 3.0;
  const Path circle({Arc{{0, 0}, 0.1, 0, third}, Arc{{0, 0}, 0.1, third, third}, Arc{{0, 0}, 0.1, 2 * third, third}});
  CHECK_THAT(checkerOf(circle, 0.1).check(0.01).smallest_m, WithinAbs(0.0, 1e-15));
  const Path whole({Arc{{0, 0}, 0.1, 0, 2.0 * kPi}});
  CHECK_THAT(checkerOf(whole, 0.1).check(0.01).smallest_m, WithinAbs(0.0, 1e-15));
  // Two half circles with a short straight between and half the way back.
  const Path link({Arc{{0, 0}, 0.1, -kPi / 2, kPi}, Line{{0, 0.1}, {-0.05, 0.1}}, Arc{{-0.05, 0}, 0.1, kPi / 2, kPi}});
  CHECK_THAT(checkerOf(link, 0.1).check(0.06).smallest_m, WithinAbs(0.05, 1e-12));
}

TEST_CASE("Places of different paths are never exempt", "[geometry][clearance][analytic]") {
  const Path first({Line{{0, 0}, {1, 0}}});
  const Path second({Line{{1, 0.01}, {2, 0.01}}});
  const std::array<CheckedPath, 2> both{CheckedPath{&first, 0.0, 1.0}, CheckedPath{&second, 0.0, 1.0}};
  const auto report = ClearanceChecker(both, 0.1).check(0.016);
  CHECK_THAT(report.smallest_m, WithinAbs(0.01, 1e-15));
  REQUIRE(report.closer.size() == 1);
  CHECK(report.closer[0].firstPath == 0);
  CHECK(report.closer[0].secondPath == 1);
  // Two stretches of one path count as one path.
  const std::array<CheckedPath, 2> cut{CheckedPath{&first, 0.0, 0.5}, CheckedPath{&first, 0.5, 1.0}};
  CHECK(std::isinf(ClearanceChecker(cut, 0.1).check(0.016).smallest_m));
}

TEST_CASE("Only the stretch asked for takes part", "[geometry][clearance][analytic]") {
  const Path first({Line{{0, 0}, {2, 0}}});
  const Path second({Line{{0, 0.01}, {2, 0.5}}});
  const std::array<CheckedPath, 2> both{CheckedPath{&first, 1.0, 1.5}, CheckedPath{&second, 0.0, second.length().si()}};
  const auto report = ClearanceChecker(both, 0.1).check(0.016);
  const auto alone = distanceBetween(Line{{1, 0}, {1.5, 0}}, Line{{0, 0.01}, {2, 0.5}});
  CHECK_THAT(report.smallest_m, WithinAbs(alone.distance_m, 1e-15));
  CHECK_THAT(report.smallestPlace.firstStation_m, WithinAbs(1.0, 1e-15));
}

TEST_CASE("The check of a wandering path agrees with points sampled along it", "[geometry][clearance][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  constexpr double kRadius = 0.1;
  constexpr double kExempt = 0.9 * kPi * kRadius;
  int compared = 0;
  for (int round = 0; round < 600; ++round) {
    const Path path = testing::wanderingPath(dice, 2 + dice.below(10), kRadius);
    const double total = path.length().si();
    const int samples = 600;
    const double step = total / samples;
    std::vector<Point> points;
    for (int i = 0; i <= samples; ++i) points.push_back(path.pointAt(step * i));
    double sampled = kInfinity;
    for (int i = 0; i <= samples; ++i) {
      for (int j = i + 1 + static_cast<int>(kExempt / step); j <= samples; ++j) {
        sampled = std::min(sampled, distance(points[i], points[j]));
      }
    }
    const double exact = checkerOf(path, kRadius).check(kRadius).smallest_m;
    CAPTURE(round, total);
    // Above 1.97 radii the check may stay silent; below, both ends are within half a step of a sample.
    if (sampled < 1.9 * kRadius || exact < 1.9 * kRadius) {
      ++compared;
      REQUIRE(exact <= sampled + 1e-12);
      REQUIRE(sampled <= exact + step);
    }
  }
  REQUIRE(compared > 50);
}

TEST_CASE("One piece against all others says what the whole check says of it", "[geometry][clearance][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 20; ++round) {
    const Path first = testing::wanderingPath(dice, 20, 0.1);
    const Path second = testing::wanderingPath(dice, 20, 0.1);
    const std::array<CheckedPath, 2> both{CheckedPath{&first, 0.3, first.length().si()},
                                          CheckedPath{&second, 0.0, second.length().si() - 0.1}};
    const ClearanceChecker checker(both, 0.1);
    const auto all = checker.check(0.05);
    double smallest = kInfinity;
    std::size_t closer = 0;
    for (std::size_t path = 0; path < 2; ++path) {
      const Path& own = path == 0 ? first : second;
      for (std::size_t piece = 0; piece < own.pieces().size(); ++piece) {
        const auto one = checker.checkOne(path, piece, 0.05);
        smallest = std::min(smallest, one.smallest_m);
        closer += one.closer.size();
        for (const ClosePlace& place : one.closer) {
          const double firstStation = place.firstPath == path ? place.firstStation_m : place.secondStation_m;
          const bool mine =
              own.stationOf(piece) <= firstStation + 1e-9 && firstStation <= own.stationOf(piece + 1) + 1e-9;
          const bool mineToo = place.secondPath == path && own.stationOf(piece) <= place.secondStation_m + 1e-9 &&
                               place.secondStation_m <= own.stationOf(piece + 1) + 1e-9;
          REQUIRE((mine || mineToo));
        }
        const auto same = checker.checkInstead(path, piece, own.pieces()[piece], 0.05);
        if (own.stationOf(piece) > 0.3 && own.stationOf(piece + 1) < own.length().si() - 0.1) {
          REQUIRE(same.smallest_m == one.smallest_m);
        }
      }
    }
    REQUIRE(smallest == all.smallest_m);
    if (all.closer.size() < 200) REQUIRE(closer <= 2 * all.closer.size());
    if (all.closer.size() < 200) REQUIRE(closer >= all.closer.size());
  }
}

TEST_CASE("A piece outside the stretch or the path is compared with nothing", "[geometry][clearance][analytic]") {
  const Path path = spiralOf(12);
  const std::array<CheckedPath, 1> inner{CheckedPath{&path, 8.0, path.length().si()}};
  const ClearanceChecker checker(inner, 0.1);
  CHECK(std::isinf(checker.checkOne(0, 0, 0.02).smallest_m));
  CHECK(std::isinf(checker.checkOne(0, 10000, 0.02).smallest_m));
  CHECK(std::isinf(checker.checkOne(3, 0, 0.02).smallest_m));
}
