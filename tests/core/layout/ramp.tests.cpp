// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/ramp.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace sunspool::layout;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("A ramp of two quarter circles is two radii long and half a circle of tube", "[layout][ramp][analytic]") {
  const Ramp ramp = rampOver(0.2, 0.1);
  CHECK_THAT(ramp.plan_m, WithinRel(0.2, 1e-14));
  CHECK_THAT(ramp.tube_m, WithinRel(0.1 * std::numbers::pi, 1e-14));
}

TEST_CASE("A ramp's lengths follow from rise and bend radius", "[layout][ramp][analytic]") {
  // 2 R sin theta and 2 R theta with cos theta = 1 - rise / 2R = 0.9375, evaluated from the equations.
  const Ramp ramp = rampOver(0.020, 0.160);
  CHECK_THAT(ramp.plan_m, WithinAbs(0.32 * std::sin(std::acos(0.9375)), 1e-14));
  CHECK_THAT(ramp.tube_m, WithinAbs(0.32 * std::acos(0.9375), 1e-14));
}

TEST_CASE("No rise needs no ramp", "[layout][ramp][analytic]") {
  CHECK(rampOver(0.0, 0.16).plan_m == 0.0);
  CHECK(rampOver(0.0, 0.16).tube_m == 0.0);
}

TEST_CASE("A shallow ramp takes a third of the cube of its angle in extra tube", "[layout][ramp][property]") {
  // Series for a small rise: tube - plan = R theta^3 / 3 with theta^2 = rise / R, relative error of order theta^2.
  for (const double radius : {0.05, 0.16, 0.8}) {
    const double rise = 1e-5 * radius;
    const Ramp ramp = rampOver(rise, radius);
    const double theta = std::sqrt(rise / radius);
    CHECK_THAT(ramp.tube_m - ramp.plan_m, WithinRel(radius * theta * theta * theta / 3.0, 1e-3));
  }
}
