// SPDX-License-Identifier: GPL-3.0-or-later

// g++ 12 inlines the overlay of Boost.Geometry so far that it takes a point for uninitialized.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

#include "core/geometry/outline.h"

#include <algorithm>
#include <array>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
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
const Outline kEll{{{0, 0}, {1.8, 0}, {1.8, 0.4}, {1.0, 0.4}, {1.0, 0.9}, {0, 0.9}}};

double toSide(Point p, Point from, Point to) {
  const Point side = to - from;
  const double part = std::clamp(dot(p - from, side) / dot(side, side), 0.0, 1.0);
  return distance(p, from + side * part);
}

double toBorder(const Outline& outline, Point p) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outline.corners.size(); ++i) {
    least = std::min(least, toSide(p, outline.corners[i], outline.corners[(i + 1) % outline.corners.size()]));
  }
  return least;
}

double toBorder(const Region& region, Point p) {
  double least = std::numeric_limits<double>::infinity();
  for (const RegionPart& part : region.parts) {
    least = std::min(least, toBorder(part.outer, p));
    for (const Outline& hole : part.holes) least = std::min(least, toBorder(hole, p));
  }
  return least;
}

// Star-shaped about the centre, so it never crosses itself.
Outline star(testing::Dice& dice, Point centre, int corners, double least, double most) {
  Outline outline;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2.0 * kPi * (i + dice.between(0.0, 0.8)) / corners;
    outline.corners.push_back(centre + Point{std::cos(angle), std::sin(angle)} * dice.between(least, most));
  }
  return outline;
}

}  // namespace

TEST_CASE("An L-shaped outline less two overlapping keep-outs has its net area", "[geometry][outline][analytic]") {
  const std::array<Outline, 2> keepOuts{rectangle({0.2, 0.1}, {0.5, 0.3}), rectangle({0.4, 0.2}, {0.8, 0.35})};
  const auto region = regionOf(kEll, keepOuts);
  REQUIRE(region);
  const double ell = 1.8 * 0.9 - 0.8 * 0.5;
  const double taken = 0.3 * 0.2 + 0.4 * 0.15 - 0.1 * 0.1;
  CHECK_THAT(area(*region).si(), WithinAbs(ell - taken, 1e-9));
  CHECK_THAT(area(kEll).si(), WithinAbs(ell, 1e-15));
  REQUIRE(region->parts.size() == 1);
  CHECK(region->parts[0].holes.size() == 1);
}

TEST_CASE("Keep-outs may hang over the border, split the outline or take it all", "[geometry][outline][analytic]") {
  const Outline frame = rectangle({0, 0}, {2, 1});
  const std::array<Outline, 1> strap{rectangle({0.9, -1}, {1.0, 2})};
  const auto cells = regionOf(frame, strap);
  REQUIRE(cells);
  CHECK(cells->parts.size() == 2);
  CHECK_THAT(area(*cells).si(), WithinAbs(1.9, 1e-12));
  const std::array<Outline, 1> lid{rectangle({-1, -1}, {3, 3})};
  const auto nothing = regionOf(frame, lid);
  REQUIRE(nothing);
  CHECK(nothing->parts.empty());
  CHECK(area(*nothing).si() == 0.0);
  const auto whole = regionOf(frame, {});
  REQUIRE(whole);
  CHECK_THAT(area(*whole).si(), WithinAbs(2.0, 1e-15));
}

TEST_CASE("A bow tie is refused with its crossing point", "[geometry][outline][analytic]") {
  const Outline tie{{{0, 0}, {2, 1}, {2, 0}, {0, 1}}};
  const auto verdict = checked(tie);
  REQUIRE_FALSE(verdict);
  CHECK(verdict.error().code == ErrorCode::OutlineCrossesItself);
  REQUIRE(verdict.error().facts.size() == 2);
  CHECK(verdict.error().facts[0].name == "x");
  CHECK_THAT(verdict.error().facts[0].value_si, WithinAbs(1.0, 1e-15));
  CHECK_THAT(verdict.error().facts[1].value_si, WithinAbs(0.5, 1e-15));
}

TEST_CASE("Outlines that are none say why and which", "[geometry][outline][analytic]") {
  const auto codeOf = [](const Outline& outline) { return checked(outline).error().code; };
  CHECK(codeOf({}) == ErrorCode::OutlineTooFewCorners);
  CHECK(codeOf({{{0, 0}, {1, 0}, {1, 0}, {0, 0}}}) == ErrorCode::OutlineTooFewCorners);
  CHECK(codeOf({{{0, 0}, {1, 0}, {2, 0}}}) == ErrorCode::OutlineNoArea);
  CHECK(codeOf({{{0, 0}, {1, 0}, {std::numeric_limits<double>::infinity(), 1}}}) == ErrorCode::NotFinite);
  // A thorn that runs out and back, a corner on another side, a side on another side.
  CHECK(codeOf({{{0, 0}, {1, 0}, {1, 1}, {1, 2}, {1, 1}, {0, 1}}}) == ErrorCode::OutlineCrossesItself);
  CHECK(codeOf({{{0, 0}, {2, 0}, {2, 1}, {1, 0}, {0, 1}}}) == ErrorCode::OutlineCrossesItself);
  CHECK(codeOf({{{0, 0}, {3, 0}, {3, 1}, {2, 1}, {2, 0}, {1, 0}, {1, 1}, {0, 1}}}) == ErrorCode::OutlineCrossesItself);
  const std::array<Outline, 2> keepOuts{rectangle({0, 0}, {1, 1}), Outline{{{0, 0}, {2, 1}, {2, 0}, {0, 1}}}};
  const auto region = regionOf(kEll, keepOuts);
  REQUIRE_FALSE(region);
  CHECK(region.error().where == "keep_out/1");
  CHECK(regionOf(keepOuts[1], {}).error().where == "outline");
}

TEST_CASE("Either way round and repeated corners make no difference", "[geometry][outline][analytic]") {
  Outline back = kEll;
  std::reverse(back.corners.begin(), back.corners.end());
  back.corners.push_back(back.corners.front());
  REQUIRE(checked(back));
  CHECK(area(back) == area(kEll));
}

TEST_CASE("The verdict on random outlines is that of Boost.Geometry", "[geometry][outline][reference]") {
  // Independent reference: boost::geometry::is_valid.
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  int good = 0;
  for (int round = 0; round < 4000; ++round) {
    Outline outline;
    boost::geometry::model::polygon<boost::geometry::model::d2::point_xy<double>> polygon;
    const int corners = 3 + dice.below(5);
    for (int i = 0; i < corners; ++i) {
      outline.corners.push_back({dice.between(0, 2), dice.between(0, 2)});
      polygon.outer().emplace_back(outline.corners.back().x, outline.corners.back().y);
    }
    boost::geometry::correct(polygon);
    const auto verdict = checked(outline);
    REQUIRE(verdict.has_value() == boost::geometry::is_valid(polygon));
    if (verdict) {
      ++good;
      continue;
    }
    // The named point lies on two sides.
    const Point at{verdict.error().facts[0].value_si, verdict.error().facts[1].value_si};
    int sides = 0;
    for (int i = 0; i < corners; ++i) {
      if (toSide(at, outline.corners[i], outline.corners[(i + 1) % corners]) < 1e-9) ++sides;
    }
    REQUIRE(sides >= 2);
  }
  REQUIRE(good > 200);
}

TEST_CASE("The border belongs to a region, its holes do not", "[geometry][outline][analytic]") {
  const std::array<Outline, 1> hole{rectangle({0.2, 0.1}, {0.5, 0.3})};
  const auto region = regionOf(kEll, hole);
  REQUIRE(region);
  CHECK(contains(*region, {0, 0}));
  CHECK(contains(*region, {1.8, 0.2}));
  CHECK(contains(*region, {0.1, 0.8}));
  CHECK(contains(*region, {0.2, 0.2}));
  CHECK_FALSE(contains(*region, {0.3, 0.2}));
  CHECK_FALSE(contains(*region, {1.4, 0.6}));
  CHECK_FALSE(contains(*region, {-1e-9, 0.2}));
  CHECK_FALSE(contains(Region{}, {0, 0}));
}

TEST_CASE("A rectangle erodes to a rectangle", "[geometry][outline][analytic]") {
  const auto region = regionOf(rectangle({0, 0}, {1.8, 0.8}), {});
  const Region inside = eroded(*region, metres(0.05));
  REQUIRE(inside.parts.size() == 1);
  REQUIRE(inside.parts[0].outer.corners.size() == 4);
  CHECK_THAT(area(inside).si(), WithinAbs(1.7 * 0.7, 1e-12));
  for (const Point corner : inside.parts[0].outer.corners) {
    CHECK((std::abs(corner.x - 0.05) < 1e-12 || std::abs(corner.x - 1.75) < 1e-12));
    CHECK((std::abs(corner.y - 0.05) < 1e-12 || std::abs(corner.y - 0.75) < 1e-12));
  }
  CHECK(eroded(*region, metres(0.4)).parts.empty());
  CHECK(eroded(*region, metres(5.0)).parts.empty());
  CHECK(area(eroded(*region, metres(0.0))) == area(*region));
}

TEST_CASE("Erosion rounds inward corners and corners of holes", "[geometry][outline][analytic]") {
  const double d = 0.05;
  const auto ell = regionOf(kEll, {});
  // The notch of the L grows by d on both sides, less what a rounded corner leaves.
  const double expected = (1.8 - 2 * d) * (0.9 - 2 * d) - (0.8 * 0.5 - (1.0 - kPi / 4) * d * d);
  // Chords within 0.02 mm over a quarter circle.
  CHECK_THAT(area(eroded(*ell, metres(d))).si(), WithinAbs(expected, 2e-5 * d * kPi / 2));
  const std::array<Outline, 1> hole{rectangle({0.8, 0.3}, {1.0, 0.5})};
  const auto holed = regionOf(rectangle({0, 0}, {1.8, 0.8}), hole);
  const Region inside = eroded(*holed, metres(d));
  REQUIRE(inside.parts.size() == 1);
  REQUIRE(inside.parts[0].holes.size() == 1);
  CHECK_THAT(area(inside).si(), WithinAbs(1.7 * 0.7 - (0.2 * 0.2 + 4 * 0.2 * d + kPi * d * d), 2e-5 * d * kPi * 2));
}

TEST_CASE("A neck narrower than twice the distance splits the region", "[geometry][outline][analytic]") {
  const std::array<Outline, 2> posts{rectangle({0.9, -1}, {1.0, 0.35}), rectangle({0.9, 0.45}, {1.0, 2})};
  const auto dumbbell = regionOf(rectangle({0, 0}, {1.9, 0.8}), posts);
  REQUIRE(dumbbell->parts.size() == 1);
  CHECK(eroded(*dumbbell, metres(0.04)).parts.size() == 1);
  CHECK(eroded(*dumbbell, metres(0.06)).parts.size() == 2);
  CHECK(openedBy(*dumbbell, metres(0.06)).parts.size() == 2);
}

TEST_CASE("Opening a rectangle rounds its four corners", "[geometry][outline][analytic]") {
  const double radius = 0.1;
  const auto region = regionOf(rectangle({0, 0}, {1.8, 0.8}), {});
  CHECK_THAT(area(openedBy(*region, metres(radius))).si(),
             WithinAbs(1.8 * 0.8 - (4.0 - kPi) * radius * radius, 2e-5 * 2 * kPi * radius));
  CHECK(openedBy(*region, metres(0.41)).parts.empty());
}

TEST_CASE("A point is in the eroded region exactly when it is far enough from the border",
          "[geometry][outline][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 150; ++round) {
    const Outline outline = star(dice, {0, 0}, 3 + dice.below(9), 0.3, 1.0);
    const std::array<Outline, 2> keepOuts{
        star(dice, {dice.between(-0.5, 0.5), dice.between(-0.5, 0.5)}, 3 + dice.below(4), 0.02, 0.2),
        star(dice, {dice.between(-0.5, 0.5), dice.between(-0.5, 0.5)}, 3 + dice.below(4), 0.02, 0.2)};
    const auto region = regionOf(outline, keepOuts);
    REQUIRE(region);
    const double d = dice.logBetween(0.003, 0.15);
    const Region inside = eroded(*region, metres(d));
    const Region opened = openedBy(*region, metres(d));
    CAPTURE(round, d);
    REQUIRE(area(inside) <= area(opened));
    REQUIRE(area(opened).si() <= area(*region).si() + 1e-9);
    for (int i = 0; i < 100; ++i) {
      const Point p{dice.between(-1, 1), dice.between(-1, 1)};
      const double depth = contains(*region, p) ? toBorder(*region, p) : -1.0;
      CAPTURE(p.x, p.y, depth);
      if (depth > d + 1e-7) REQUIRE(contains(inside, p));
      if (depth < d - 2.1e-5) REQUIRE_FALSE(contains(inside, p));
      if (depth > d + 1e-7) REQUIRE(contains(opened, p));
      if (depth < -2.1e-5) REQUIRE_FALSE(contains(opened, p));
    }
  }
}

TEST_CASE("Keep-outs on one grid, sharing sides and corners, leave what counting squares leaves",
          "[geometry][outline][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  constexpr int kSquares = 10;
  for (int round = 0; round < 200; ++round) {
    std::array<std::array<bool, kSquares>, kSquares> taken{};
    std::vector<Outline> keepOuts;
    for (int i = 0; i < 8; ++i) {
      const int left = dice.below(kSquares);
      const int bottom = dice.below(kSquares);
      const int right = std::min(kSquares, left + 1 + dice.below(3));
      const int top = std::min(kSquares, bottom + 1 + dice.below(3));
      keepOuts.push_back(rectangle({left / 10.0, bottom / 10.0}, {right / 10.0, top / 10.0}));
      for (int x = left; x < right; ++x) {
        for (int y = bottom; y < top; ++y) taken[x][y] = true;
      }
    }
    int left = 0;
    for (const auto& column : taken) left += static_cast<int>(std::count(column.begin(), column.end(), false));
    const auto region = regionOf(rectangle({0, 0}, {1, 1}), keepOuts);
    CAPTURE(round);
    REQUIRE(region);
    REQUIRE_THAT(area(*region).si(), WithinAbs(left * 0.01, 1e-9));
    // Offsets of half a square and of whole squares make borders fall upon one another.
    const double d = 0.025 * (1 + dice.below(4));
    const Region inside = eroded(*region, metres(d));
    REQUIRE(area(openedBy(*region, metres(d))).si() <= area(*region).si() + 1e-9);
    for (int i = 0; i < 100; ++i) {
      const Point p{dice.between(0, 1), dice.between(0, 1)};
      const double depth = contains(*region, p) ? toBorder(*region, p) : -1.0;
      CAPTURE(d, p.x, p.y, depth);
      if (depth > d + 1e-7) REQUIRE(contains(inside, p));
      if (depth < d - 2.1e-5) REQUIRE_FALSE(contains(inside, p));
    }
  }
}

TEST_CASE("Turning and moving an outline changes no area", "[geometry][outline][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 200; ++round) {
    const double angle = dice.between(-7, 7);
    const Point by{dice.between(-5, 5), dice.between(-5, 5)};
    std::vector<Outline> outlines{kEll, rectangle({0.2, 0.1}, {0.5, 0.3}), rectangle({0.4, 0.2}, {0.8, 0.35})};
    for (Outline& outline : outlines) {
      for (Point& corner : outline.corners) corner = testing::moved(corner, angle, by);
    }
    const auto region = regionOf(outlines[0], std::span(outlines).subspan(1));
    REQUIRE(region);
    REQUIRE_THAT(area(*region).si(), WithinAbs(1.22 - 0.11, 1e-9));
  }
}
