// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/path.h"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

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
