// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/quantity.h"

#include <catch2/catch.hpp>
#include <type_traits>

using namespace sunspool;
using Catch::Matchers::WithinRel;

namespace {
constexpr double kRounding = 4e-16;  // a few last digits of a double: one multiplication each way
}

TEST_CASE("Products and quotients carry the dimension that results", "[quantity][analytic]") {
  static_assert(std::is_same_v<decltype(metres(2.0) * metres(3.0)), Area>);
  static_assert(std::is_same_v<decltype(cubicMetres(1.0) / seconds(2.0)), VolumeFlow>);
  static_assert(std::is_same_v<decltype(metres(1.0) / metres(2.0)), double>);
  CHECK((metres(2.0) * metres(3.0)).si() == 6.0);
  CHECK(metres(1.0) / metres(2.0) == 0.5);
}

TEST_CASE("Named units convert both ways", "[quantity][reference]") {
  // Definitions: inch 25.4 mm, foot 0.3048 m, US gallon 231 cubic inches (NIST SP 811, 2008, appendix B.8).
  CHECK_THAT(metres(0.0254).in(inch), WithinRel(1.0, kRounding));
  CHECK_THAT(metres(0.3048).in(foot), WithinRel(1.0, kRounding));
  CHECK_THAT(usGallon.si_per_unit, WithinRel(231.0 * 0.0254 * 0.0254 * 0.0254, kRounding));
  // 1 Btu(IT)/h = 0.293 071 07 W, 1 psi = 6894.757 Pa, same place.
  CHECK_THAT(btuPerHour.si_per_unit, WithinRel(0.29307107, 5e-9));
  CHECK_THAT(psi.si_per_unit, WithinRel(6894.757, 5e-8));
  CHECK_THAT(litresPerMinute(6.0).in(litrePerHour), WithinRel(360.0, kRounding));
}

TEST_CASE("Temperatures and their differences do not mix", "[quantity][analytic]") {
  static_assert(std::is_same_v<decltype(celsius(30.0) - celsius(20.0)), TemperatureDifference>);
  CHECK_THAT((celsius(30.0) - celsius(20.0)).si(), WithinRel(10.0, 1e-14));
  CHECK_THAT((celsius(20.0) + kelvins(5.0)).inCelsius(), WithinRel(25.0, 1e-14));
  CHECK_THAT(celsius(100.0).inFahrenheit(), WithinRel(212.0, 1e-14));
  CHECK_THAT(kelvins(5.0).in(fahrenheitDegree), WithinRel(9.0, kRounding));
}

TEST_CASE("Degrees and radians convert both ways", "[quantity][analytic]") {
  CHECK_THAT(degrees(180.0).radians(), WithinRel(std::numbers::pi, kRounding));
  CHECK_THAT(radians(std::numbers::pi / 6.0).degrees(), WithinRel(30.0, kRounding));
}
