// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/run_profile.h"

#include <catch2/catch.hpp>
#include <random>

namespace sunspool::results {
namespace {

/// Water 20 C at 0 m rising by 2 K/m, gauge +6 kPa falling by 2 kPa/m, all straight.
RunProfile straight(std::vector<double> stations) {
  RunProfile profile;
  for (const double s : stations)
    profile.points.push_back({s, 293.15 + 2.0 * s, 6e3 - 2e3 * s, 0.5 * s, 1.0 + 0.25 * s});
  return profile;
}

TEST_CASE("Between two points of a profile every value is on the straight", "[results][analytic]") {
  const RunProfile profile = straight({0.0, 1.0, 4.0, 4.5});
  for (const double s : {0.0, 0.25, 1.0, 2.5, 4.0, 4.3, 4.5}) {
    const RunProfile::Point point = at(profile, s);
    CHECK(point.station_m == s);
    CHECK(point.water_K == Approx(293.15 + 2.0 * s).epsilon(1e-14));
    CHECK(point.gauge_Pa == Approx(6e3 - 2e3 * s).epsilon(1e-12).margin(1e-9));
    CHECK(point.height_m == Approx(0.5 * s).epsilon(1e-14));
    CHECK(point.waterLine_m == Approx(1.0 + 0.25 * s).epsilon(1e-14));
  }
}

TEST_CASE("Beyond its ends a profile gives the point of that end", "[results][analytic]") {
  const RunProfile profile = straight({0.5, 3.0});
  CHECK(at(profile, -1.0).station_m == 0.5);
  CHECK(at(profile, 9.0).station_m == 3.0);
  CHECK(at(profile, 9.0).water_K == profile.points.back().water_K);
}

TEST_CASE("Where points share a station the first one counts and nothing is divided by zero", "[results][analytic]") {
  RunProfile profile = straight({0.0, 2.0, 2.0});
  profile.points.back().gauge_Pa = -5e3;
  CHECK(at(profile, 2.0).gauge_Pa == Approx(2e3));
  CHECK(at(profile, 1.0).gauge_Pa == Approx(4e3));
}

TEST_CASE("A read value never leaves the interval of its two neighbours", "[results][property]") {
  const auto seed = Catch::rngSeed();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> value(-1e4, 1e4), step(0.01, 0.5), share(0.0, 1.0);
  RunProfile profile;
  double station = 0.0;
  for (int i = 0; i < 200; ++i) profile.points.push_back({station += step(random), 300.0, value(random), 0.0, 0.0});
  for (std::size_t i = 1; i < profile.points.size(); ++i) {
    const auto& a = profile.points[i - 1];
    const auto& b = profile.points[i];
    const double gauge = at(profile, a.station_m + share(random) * (b.station_m - a.station_m)).gauge_Pa;
    CHECK(gauge >= std::min(a.gauge_Pa, b.gauge_Pa) - 1e-9);
    CHECK(gauge <= std::max(a.gauge_Pa, b.gauge_Pa) + 1e-9);
  }
}

TEST_CASE("Below the air's pressure begins where the gauge pressure is zero", "[results][analytic]") {
  const RunProfile falling = straight({0.0, 2.0, 2.5, 4.0, 5.0});
  const std::vector<Extent> below = belowAir(falling);
  REQUIRE(below.size() == 1);
  CHECK(below[0].from_m == Approx(3.0).epsilon(1e-14));
  CHECK(below[0].to_m == 5.0);
  CHECK(belowAir(straight({0.0, 1.0, 2.9})).empty());

  RunProfile twice;
  for (const auto& [s, gauge] : {std::pair{0.0, 1e3}, {1.0, -1e3}, {2.0, 1e3}, {3.0, 1e3}, {4.0, -3e3}})
    twice.points.push_back({s, 300.0, gauge, 0.0, 0.0});
  const std::vector<Extent> two = belowAir(twice);
  REQUIRE(two.size() == 2);
  CHECK(two[0].from_m == Approx(0.5));
  CHECK(two[0].to_m == Approx(1.5));
  CHECK(two[1].from_m == Approx(3.25));
  CHECK(two[1].to_m == 4.0);
}

TEST_CASE("The range of the water opens from nothing to the outlet's", "[results][analytic]") {
  const RunProfile profile = straight({0.0, 2.0, 4.0});
  const Ranged<Temperature> outlet{celsius(28.0), celsius(27.0), celsius(30.0)};
  const Ranged<Temperature> first = waterRange(profile, outlet, 0.0);
  CHECK(first.low == first.value);
  CHECK(first.high == first.value);
  const Ranged<Temperature> middle = waterRange(profile, outlet, 2.0);
  CHECK((middle.value - middle.low).si() == Approx(0.5));
  CHECK((middle.high - middle.value).si() == Approx(1.0));
  const Ranged<Temperature> last = waterRange(profile, outlet, 4.0);
  CHECK(last.low.inCelsius() == Approx(27.0));
  CHECK(last.high.inCelsius() == Approx(30.0));
}

TEST_CASE("A station finds the bend of its own run", "[results][analytic]") {
  Bends bends;
  bends.all.push_back({0, 1.1, 1.0, 1.2, 0.16, 0.5, 0.0, 0.0});
  bends.all.push_back({1, 2.1, 2.0, 2.2, 0.10, 0.8, 0.0, 0.0});
  REQUIRE(bendAt(bends, 0, 1.05) == &bends.all[0]);
  CHECK(bendAt(bends, 0, 1.3) == nullptr);
  CHECK(bendAt(bends, 0, 2.1) == nullptr);
  REQUIRE(bendAt(bends, 1, 2.2) == &bends.all[1]);
  CHECK(timesKinkRadius(bends.all[0]) == Approx(2.0));
  CHECK(timesKinkRadius(bends.all[1]) == Approx(1.25));
}

}  // namespace
}  // namespace sunspool::results
