// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/root.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace sunspool::thermal;
using Catch::Matchers::WithinAbs;

TEST_CASE("A root is found to the width asked for, however bent the function is", "[thermal][root][analytic]") {
  const Root gentle = findRoot([](double x) { return x * x * x - 2.0; }, 0.0, 4.0, 1e-12);
  REQUIRE(gentle.found);
  CHECK_THAT(gentle.x, WithinAbs(std::cbrt(2.0), 1e-11));
  const Root hard = findRoot([](double x) { return std::expm1(40.0 * (x - 0.3)); }, 0.0, 1.0, 1e-12);
  REQUIRE(hard.found);
  CHECK_THAT(hard.x, WithinAbs(0.3, 1e-11));
  CHECK(hard.iterations < 60);
}

TEST_CASE("Without a change of sign, and with a function that is no number, no root is claimed",
          "[thermal][root][analytic]") {
  CHECK_FALSE(findRoot([](double x) { return x * x + 1.0; }, -1.0, 1.0, 1e-9).found);
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  CHECK_FALSE(findRoot([nothing](double) { return nothing; }, -1.0, 1.0, 1e-9).found);
  const auto hole = [nothing](double x) { return x == -1.0 || x == 1.0 ? x : nothing; };
  CHECK_FALSE(findRoot(hole, -1.0, 1.0, 1e-9).found);
}

TEST_CASE("A root at an end is taken as it is", "[thermal][root][analytic]") {
  const Root low = findRoot([](double x) { return x; }, 0.0, 1.0, 1e-9);
  CHECK(low.found);
  CHECK(low.x == 0.0);
  const Root high = findRoot([](double x) { return x - 1.0; }, 0.0, 1.0, 1e-9);
  CHECK(high.found);
  CHECK(high.x == 1.0);
}
