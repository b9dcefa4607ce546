// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/closed_forms.h"

#include <catch2/catch.hpp>
#include <limits>
#include <numbers>

using namespace sunspool;
using namespace sunspool::geometry;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("A spiral is as long as its closed form says", "[geometry][reference]") {
  // Evaluated from the equation for these two spirals, five decimals printed.
  const auto tight = archimedeanSpiral(metres(0.15), metres(0.50), metres(0.016));
  CHECK_THAT(tight->length.si(), WithinAbs(44.67105, 1e-5));
  CHECK_THAT(tight->turns, WithinRel(21.875, 1e-12));
  const auto wide = archimedeanSpiral(metres(0.20), metres(0.60), metres(0.025));
  CHECK_THAT(wide->length.si(), WithinAbs(40.21457, 1e-5));
  CHECK_THAT(wide->turns, WithinRel(16.0, 1e-12));
}

TEST_CASE("A spiral agrees with a polygon along it", "[geometry][analytic]") {
  const double pitch = 0.05, a = pitch / (2.0 * std::numbers::pi), from = 0.03 / a, to = 0.4 / a;
  constexpr int kChords = 200000;
  double sum = 0.0, x = from * a * std::cos(from), y = from * a * std::sin(from);
  for (int i = 1; i <= kChords; ++i) {
    const double theta = from + (to - from) * i / kChords;
    const double nextX = a * theta * std::cos(theta), nextY = a * theta * std::sin(theta);
    sum += std::hypot(nextX - x, nextY - y);
    x = nextX, y = nextY;
  }
  // A chord of 2.5e-4 rad is shorter than its arc by 2.5e-9 of its length.
  CHECK_THAT(archimedeanSpiral(metres(0.03), metres(0.4), metres(pitch))->length.si(), WithinRel(sum, 1e-8));
}

TEST_CASE("Spirals that follow one another add up, and one without width has no length", "[geometry][property]") {
  const auto length = [](double from, double to) {
    return archimedeanSpiral(metres(from), metres(to), metres(0.02))->length.si();
  };
  CHECK_THAT(length(0.1, 0.3) + length(0.3, 0.7), WithinRel(length(0.1, 0.7), 1e-13));
  CHECK(length(0.3, 0.3) == 0.0);
}

TEST_CASE("A serpentine is its straights and half circles", "[geometry][reference]") {
  // Ten passes of 1.8 m at 0.30 m: 18 m and nine half circles of 0.15 m radius; evaluated, five decimals.
  CHECK_THAT(serpentineLength(10, metres(1.8), metres(0.30))->si(), WithinAbs(22.24115, 1e-5));
  CHECK(serpentineLength(1, metres(1.8), metres(0.30))->si() == 1.8);
}

TEST_CASE("The water in a tube fills its bore", "[geometry][reference]") {
  // Evaluated: 13 mm by 50 m and 19 mm by 100 m, in litres.
  CHECK_THAT(containedWater(millimetres(13), metres(50))->in(litre), WithinAbs(6.6366, 5e-5));
  CHECK_THAT(containedWater(millimetres(19), metres(100))->in(litre), WithinAbs(28.3529, 5e-5));
  CHECK(containedWater(millimetres(13), metres(0))->si() == 0.0);
}

TEST_CASE("Shapes that cannot be are refused with the size at fault", "[geometry][fault]") {
  const auto refused = [](const auto& result, const char* input) {
    REQUIRE_FALSE(result.has_value());
    CHECK(result.error().code == ErrorCode::OutOfRange);
    CHECK(result.error().detail == input);
  };
  refused(archimedeanSpiral(metres(-0.1), metres(0.5), metres(0.02)), "inner_radius");
  refused(archimedeanSpiral(metres(0.5), metres(0.4), metres(0.02)), "outer_radius");
  refused(archimedeanSpiral(metres(0.1), metres(0.4), metres(0.0)), "pitch");
  refused(serpentineLength(0, metres(1), metres(0.1)), "passes");
  refused(serpentineLength(2, metres(-1), metres(0.1)), "straight");
  refused(containedWater(metres(0), metres(1)), "inside_diameter");
  refused(containedWater(metres(0.01), metres(-1)), "length");
  const double none = std::numeric_limits<double>::quiet_NaN();
  CHECK(containedWater(metres(none), metres(1)).error().code == ErrorCode::NotFinite);
  CHECK(archimedeanSpiral(metres(0), metres(1e300), metres(1e-300)).error().code == ErrorCode::NotFinite);
}
