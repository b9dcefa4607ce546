// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/path.h"

#include <array>
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
}

TEST_CASE("A half circle of radius r has length pi r", "[geometry][path][analytic]") {
  const Piece half = Arc{{0.3, -0.2}, 0.16, 0.4, kPi};
  CHECK_THAT(length(half), WithinRel(kPi * 0.16, 1e-15));
  CHECK_THAT(distance(startPoint(half), endPoint(half)), WithinRel(0.32, 1e-15));
}

TEST_CASE("A right-angled path rounded at its corner has its legs less the tangents plus a quarter circle",
          "[geometry][path][analytic]") {
  const std::array<Corner, 3> corners{Corner{{0, 0}, 0}, Corner{{1, 0}, 0.2}, Corner{{1, 2}, 0}};
  const auto path = filleted(corners);
  REQUIRE(path);
  CHECK_THAT(path->length().si(), WithinRel(3.0 - 0.4 + kPi * 0.1, 1e-15));
  CHECK(path->pieces().size() == 3);
  CHECK(path->largestGap() < 1e-15);
  CHECK(path->largestTangentError() < 1e-15);
  CHECK(path->pointAt(99.0) == Point{1, 2});
  CHECK_THAT(path->curvatureAt(0.9), WithinRel(5.0, 1e-15));
}

TEST_CASE("Roundings longer than their leg are refused with the corner and both lengths",
          "[geometry][path][analytic]") {
  const std::array<Corner, 4> corners{Corner{{0, 0}, 0}, Corner{{1, 0}, 0.2}, Corner{{1, 0.3}, 0.2},
                                      Corner{{0, 0.3}, 0}};
  const auto path = filleted(corners);
  REQUIRE_FALSE(path);
  CHECK(path.error().code == ErrorCode::TurnsDoNotFit);
  REQUIRE(path.error().facts.size() == 3);
  CHECK(path.error().facts[0] == Fact{"corner", 1.0, Dimension::Count});
  CHECK_THAT(path.error().facts[1].value_si, WithinRel(0.4, 1e-14));
  CHECK_THAT(path.error().facts[2].value_si, WithinRel(0.3, 1e-14));
}

TEST_CASE("The long side of a 3-4-5 triangle is 5", "[geometry][path][analytic]") {
  const Path path({Line{{0, 0}, {3, 0}}, Line{{3, 0}, {3, 4}}, Line{{3, 4}, {0, 0}}});
  CHECK_THAT(path.length().si(), WithinRel(12.0, 1e-15));
  CHECK_THAT(length(path.pieces()[2]), WithinRel(5.0, 1e-15));
}

TEST_CASE("A rounded rectangle has its perimeter less eight radii plus one circle", "[geometry][path][analytic]") {
  const double width = 1.8;
  const double height = 0.8;
  const double radius = 0.1;
  const std::array<Corner, 6> corners{
      Corner{{0.9, 0}, 0},         Corner{{width, 0}, radius}, Corner{{width, height}, radius},
      Corner{{0, height}, radius}, Corner{{0, 0}, radius},     Corner{{0.9, 0}, 0}};
  const auto path = filleted(corners);
  REQUIRE(path);
  CHECK_THAT(path->length().si(), WithinRel(2.0 * (width + height) - 8.0 * radius + 2.0 * kPi * radius, 1e-15));
  CHECK_THAT(distance(path->bounds().lower, {0, 0}), WithinAbs(0.0, 1e-15));
  CHECK_THAT(distance(path->bounds().upper, {width, height}), WithinAbs(0.0, 1e-15));
  CHECK(path->smallestRadius() == radius);
}

TEST_CASE("Ten straight passes of 1.8 m at 300 mm pitch make a serpentine of 22.24115 m",
          "[geometry][path][analytic]") {
  // L = N s + (N - 1) pi p / 2, evaluated from the equation.
  const int passes = 10;
  const double straight = 1.8;
  const double pitch = 0.3;
  std::vector<Corner> corners{{{0, 0}, 0}};
  for (int i = 0; i + 1 < passes; ++i) {
    const double x = i % 2 == 0 ? straight + pitch / 2 : -pitch / 2;
    corners.push_back({{x, i * pitch}, pitch / 2});
    corners.push_back({{x, (i + 1) * pitch}, pitch / 2});
  }
  corners.push_back({{passes % 2 == 0 ? 0.0 : straight, (passes - 1) * pitch}, 0});
  const auto path = filleted(corners);
  REQUIRE(path);
  CHECK_THAT(path->length().si(), WithinRel(passes * straight + (passes - 1) * kPi * pitch / 2, 1e-14));
  CHECK_THAT(path->length().si(), WithinAbs(22.24115, 0.5e-5));
  CHECK(path->largestGap() < 1e-12);
  CHECK(path->largestTangentError() < 1e-9);
}

TEST_CASE("A spiral r = a theta of fine chords has the length of the closed form", "[geometry][path][analytic]") {
  // L = a/2 (theta sqrt(1 + theta^2) + asinh theta) between both ends, evaluated from the equation: 44.67105 m.
  const double pitch = 0.016;
  const double a = pitch / (2.0 * kPi);
  const double from = 0.15 / a;
  const double to = 0.50 / a;
  const auto upTo = [a](double t) { return 0.5 * a * (t * std::sqrt(1.0 + t * t) + std::asinh(t)); };
  const int chords = 200000;
  const auto at = [&](int i) {
    const double t = from + (to - from) * i / chords;
    return Point{a * t * std::cos(t), a * t * std::sin(t)};
  };
  std::vector<Piece> pieces;
  for (int i = 0; i < chords; ++i) pieces.push_back(Line{at(i), at(i + 1)});
  const Path path(std::move(pieces));
  // Chords of 0.7 mrad are short by the square of that over 24.
  CHECK_THAT(path.length().si(), WithinAbs(upTo(to) - upTo(from), 2e-6));
  CHECK_THAT(path.length().si(), WithinAbs(44.67105, 1e-5));
}

TEST_CASE("Pieces of no length are dropped and repeated corners count once", "[geometry][path][analytic]") {
  CHECK(Path({Line{{1, 1}, {1, 1}}}).empty());
  CHECK(Path({Arc{{0, 0}, 1.0, 0.0, 0.0}}).length().si() == 0.0);
  const std::array<Corner, 4> corners{Corner{{0, 0}, 0}, Corner{{1, 0}, 0.1}, Corner{{1, 0}, 0.2}, Corner{{1, 1}, 0}};
  const auto path = filleted(corners);
  REQUIRE(path);
  CHECK(path->smallestRadius() == 0.2);
  CHECK(path->pieces().size() == 3);
}

TEST_CASE("Numbers that are none and negative radii are refused with the corner", "[geometry][path][analytic]") {
  const double none = std::numeric_limits<double>::quiet_NaN();
  const std::array<Corner, 3> undefined{Corner{{0, 0}, 0}, Corner{{none, 0}, 0.1}, Corner{{1, 1}, 0}};
  const std::array<Corner, 3> negative{Corner{{0, 0}, 0}, Corner{{1, 0}, -0.1}, Corner{{1, 1}, 0}};
  REQUIRE_FALSE(filleted(undefined));
  CHECK(filleted(undefined).error().code == ErrorCode::NotFinite);
  REQUIRE_FALSE(filleted(negative));
  CHECK(filleted(negative).error().code == ErrorCode::OutOfRange);
  CHECK(filleted(negative).error().facts.front().value_si == 1.0);
}

TEST_CASE("A fold back on itself cannot be rounded", "[geometry][path][analytic]") {
  const std::array<Corner, 3> fold{Corner{{0, 0}, 0}, Corner{{1, 0}, 0.1}, Corner{{0, 0}, 0}};
  REQUIRE_FALSE(filleted(fold));
  CHECK(filleted(fold).error().code == ErrorCode::TurnsDoNotFit);
}

TEST_CASE("An excess of tangents below a nanometre shrinks the radius and keeps the path closed",
          "[geometry][path][analytic]") {
  const double radius = 0.1 + 2e-10;
  const std::array<Corner, 4> corners{Corner{{0, 0}, 0}, Corner{{1, 0}, radius}, Corner{{1, 0.2}, radius},
                                      Corner{{0, 0.2}, 0}};
  const auto path = filleted(corners);
  REQUIRE(path);
  CHECK(path->largestGap() < 1e-12);
  CHECK_THAT(path->smallestRadius(), WithinAbs(0.1, 1e-15));
}

TEST_CASE("The nearest place of a path is exact on lines and arcs", "[geometry][path][analytic]") {
  const Path path({Line{{0, 0}, {1, 0}}, Arc{{1, 0.5}, 0.5, -kPi / 2, kPi}});
  const auto onLine = path.nearest({0.25, -0.3});
  CHECK_THAT(onLine.station_m, WithinAbs(0.25, 1e-15));
  CHECK_THAT(onLine.distance_m, WithinAbs(0.3, 1e-15));
  const auto onArc = path.nearest({1.9, 0.5});
  CHECK_THAT(onArc.station_m, WithinAbs(1.0 + kPi / 4, 1e-14));
  CHECK_THAT(onArc.distance_m, WithinAbs(0.4, 1e-15));
  const auto atEnd = path.nearest({0.9, 1.3});
  CHECK_THAT(atEnd.station_m, WithinAbs(path.length().si(), 1e-14));
  CHECK_THAT(atEnd.distance_m, WithinAbs(std::hypot(0.1, 0.3), 1e-15));
  CHECK(std::isinf(Path().nearest({0, 0}).distance_m));
}

TEST_CASE("Stations, slices and reversals of a wandering path agree", "[geometry][path][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 300; ++round) {
    const Path path = testing::wanderingPath(dice, 12, 0.1);
    const double total = path.length().si();
    const double s = dice.between(0.0, total);
    const double t = dice.between(s, total);
    const Path part = path.slice(s, t);
    const Path back = path.reversed();
    REQUIRE_THAT(part.length().si(), WithinAbs(t - s, 1e-12));
    REQUIRE_THAT(distance(part.pointAt(0.0), path.pointAt(s)), WithinAbs(0.0, 1e-12));
    REQUIRE_THAT(distance(part.pointAt(part.length().si()), path.pointAt(t)), WithinAbs(0.0, 1e-12));
    REQUIRE_THAT(back.length().si(), WithinRel(total, 1e-14));
    REQUIRE_THAT(distance(back.pointAt(total - s), path.pointAt(s)), WithinAbs(0.0, 1e-12));
    REQUIRE_THAT(dot(back.tangentAt(total - s), path.tangentAt(s)), WithinAbs(-1.0, 1e-9));
    REQUIRE_THAT(path.nearest(path.pointAt(s)).distance_m, WithinAbs(0.0, 1e-12));
    REQUIRE(path.stationOf(path.pieceAt(s)) <= s);
    const Point ahead = path.pointAt(std::min(total, s + 1e-6)) - path.pointAt(std::max(0.0, s - 1e-6));
    REQUIRE_THAT(dot(ahead, path.tangentAt(s)) / norm(ahead), WithinAbs(1.0, 1e-6));
  }
}

TEST_CASE("Every point of a path lies in its bounds and some touch each side", "[geometry][path][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 2000; ++round) {
    const Piece piece = testing::randomPiece(dice, dice.logBetween(1e-3, 10.0));
    const Box box = bounds(piece);
    const double size = length(piece);
    Box seen{startPoint(piece), startPoint(piece)};
    for (int i = 0; i <= 400; ++i) {
      const Point p = pointOn(piece, size * i / 400);
      seen.lower = {std::min(seen.lower.x, p.x), std::min(seen.lower.y, p.y)};
      seen.upper = {std::max(seen.upper.x, p.x), std::max(seen.upper.y, p.y)};
    }
    const double slack = 1e-12 * (1.0 + size);
    // Between samples a curve of radius r rises by at most step^2 / (8 r).
    const double step = size / 400;
    const double rise = std::holds_alternative<Arc>(piece) ? step * step / (8.0 * std::get<Arc>(piece).radius) : 0.0;
    REQUIRE(distance(box.lower, seen.lower) <= 2.0 * (slack + rise));
    REQUIRE(distance(box.upper, seen.upper) <= 2.0 * (slack + rise));
    REQUIRE(seen.lower.x >= box.lower.x - slack);
    REQUIRE(seen.lower.y >= box.lower.y - slack);
    REQUIRE(seen.upper.x <= box.upper.x + slack);
    REQUIRE(seen.upper.y <= box.upper.y + slack);
  }
}

TEST_CASE("Rounded polylines are closed, smooth, keep their radii and are no longer than the polyline",
          "[geometry][path][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  int laid = 0;
  for (int round = 0; round < 3000; ++round) {
    const double size = dice.logBetween(0.05, 20.0);
    std::vector<Corner> corners;
    double sharp = 0.0;
    for (int i = 0; i < 6; ++i) {
      corners.push_back({{dice.between(0, size), dice.between(0, size)}, size * dice.logBetween(1e-3, 0.3)});
      if (i > 0) sharp += distance(corners[corners.size() - 2].at, corners.back().at);
    }
    const auto path = filleted(corners);
    if (!path) {
      REQUIRE(path.error().code == ErrorCode::TurnsDoNotFit);
      REQUIRE(path.error().facts[1].value_si > path.error().facts[2].value_si);
      continue;
    }
    ++laid;
    REQUIRE(path->largestGap() < 1e-12);
    REQUIRE(path->largestTangentError() < 1e-9);
    REQUIRE(path->length().si() <= sharp);
    double least = corners[1].radius;
    for (std::size_t i = 1; i + 1 < corners.size(); ++i) least = std::min(least, corners[i].radius);
    REQUIRE(path->smallestRadius() == least);
  }
  REQUIRE(laid > 100);
}

TEST_CASE("Turning and moving a drawing changes no length", "[geometry][path][property]") {
  const unsigned seed = Catch::rngSeed();
  CAPTURE(seed);
  testing::Dice dice(seed);
  for (int round = 0; round < 200; ++round) {
    const double angle = dice.between(-7, 7);
    const Point by{dice.between(-5, 5), dice.between(-5, 5)};
    std::vector<Corner> corners = testing::spiralCorners(1.8, 0.8, 0.016, 0.1, 24);
    const auto before = filleted(corners);
    for (Corner& corner : corners) corner.at = testing::moved(corner.at, angle, by);
    const auto after = filleted(corners);
    REQUIRE(before);
    REQUIRE(after);
    REQUIRE_THAT(after->length().si(), WithinRel(before->length().si(), 1e-14));
  }
}
