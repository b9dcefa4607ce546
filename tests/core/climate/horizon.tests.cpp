// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/horizon.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <vector>

#include "tests/core/climate/support.h"

using namespace sunspool;
using namespace sunspool::climate;
using namespace sunspool::climate_test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kPi = std::numbers::pi;

model::Obstacle block(double from_deg, double to_deg, double height_deg) {
  return {"block", degrees(from_deg), degrees(to_deg), degrees(height_deg)};
}

SunPosition sunAt(double elevation_deg, double azimuth_deg) {
  SunPosition sun;
  sun.zenith = degrees(90.0 - elevation_deg);
  sun.azimuth = degrees(azimuth_deg);
  return sun;
}

bool hidden(const model::Obstacle& one, double elevation_deg, double azimuth_deg) {
  const std::vector<model::Obstacle> blocks{one};
  return isHidden(blocks, sunAt(elevation_deg, azimuth_deg));
}

double share(std::vector<model::Obstacle> blocks, double tilt_deg, double azimuth_deg = 180.0) {
  return hiddenSkyShare(blocks, degrees(tilt_deg), degrees(azimuth_deg));
}

constexpr double kQuadrature = 1e-4;  // half-degree steps of azimuth

}  // namespace

TEST_CASE("A block takes the sun away between its edges and up to its height, edges included", "[climate][analytic]") {
  const model::Obstacle tower = block(150.0, 190.0, 50.0);
  CHECK(hidden(tower, 30.0, 170.0));
  CHECK(hidden(tower, 30.0, 150.0));
  CHECK(hidden(tower, 30.0, 190.0));
  CHECK(hidden(tower, 50.0, 170.0));
  CHECK_FALSE(hidden(tower, 50.01, 170.0));
  CHECK_FALSE(hidden(tower, 30.0, 149.99));
  CHECK_FALSE(hidden(tower, 30.0, 190.01));
  CHECK_FALSE(hidden(tower, -1.0, 170.0));  // the sun is down: nothing is taken
}

TEST_CASE("A block over north wraps", "[climate][analytic]") {
  const model::Obstacle hill = block(340.0, 20.0, 20.0);
  for (const double azimuth : {340.0, 350.0, 0.0, 360.0, 10.0, 20.0}) {
    CAPTURE(azimuth);
    CHECK(hidden(hill, 5.0, azimuth));
  }
  for (const double azimuth : {339.0, 21.0, 180.0}) {
    CAPTURE(azimuth);
    CHECK_FALSE(hidden(hill, 5.0, azimuth));
  }
  CHECK(hidden(block(0.0, 360.0, 20.0), 5.0, 123.0));
  CHECK(hidden(block(90.0, 90.0, 20.0), 5.0, 90.0));
  CHECK_FALSE(hidden(block(90.0, 90.0, 20.0), 5.0, 91.0));
  // The same block said from another north hides as much of the sky.
  CHECK_THAT(share({hill}, 30.0, 0.0), WithinAbs(share({block(80.0, 120.0, 20.0)}, 30.0, 100.0), 1e-9));
}

TEST_CASE("A level plane loses a block's width times the squared sine of its height", "[climate][analytic]") {
  for (const double height : {0.0, 10.0, 45.0, 90.0}) {
    for (const double width : {1.0, 40.0, 200.0, 360.0}) {
      CAPTURE(height, width);
      const double sine = std::sin(height * kPi / 180.0);
      const double to = width == 360.0 ? 360.0 : std::fmod(300.0 + width, 360.0);
      CHECK_THAT(share({block(width == 360.0 ? 0.0 : 300.0, to, height)}, 0.0),
                 WithinAbs(width / 360.0 * sine * sine, 1e-12));
    }
  }
}

TEST_CASE("Blocks all round up to the zenith hide the whole sky of any plane", "[climate][analytic]") {
  for (const double tilt : {0.0, 35.0, 60.0, 90.0}) {
    CAPTURE(tilt);
    CHECK_THAT(share({block(0.0, 360.0, 90.0)}, tilt), WithinAbs(1.0, kQuadrature));
  }
}

TEST_CASE("An upright plane loses a ring of horizon by its own integral and nothing behind it", "[climate][analytic]") {
  // 2 (h/2 + sin 2h/4)/pi of the half it sees, evaluated by hand.
  const double h = 30.0 * kPi / 180.0;
  const double ring = 4.0 * (0.5 * h + 0.25 * std::sin(2.0 * h)) / kPi;
  CHECK_THAT(share({block(0.0, 360.0, 30.0)}, 90.0), WithinAbs(ring, kQuadrature));
  CHECK_THAT(share({block(90.0, 270.0, 30.0)}, 90.0), WithinAbs(ring, kQuadrature));
  CHECK(share({block(271.0, 89.0, 80.0)}, 90.0) < 1e-6);
}

TEST_CASE("Blocks that overlap count once, blocks side by side add up", "[climate][analytic]") {
  const model::Obstacle low = block(100.0, 200.0, 20.0), high = block(150.0, 170.0, 40.0);
  CHECK_THAT(share({low, low}, 35.0), WithinAbs(share({low}, 35.0), 1e-12));
  CHECK(share({low, high}, 35.0) < share({low}, 35.0) + share({high}, 35.0));
  CHECK(share({low, high}, 35.0) > share({high}, 35.0));
  const double halves = share({block(100.0, 150.0, 20.0)}, 35.0) + share({block(150.0, 200.0, 20.0)}, 35.0);
  CHECK_THAT(share({low}, 35.0), WithinAbs(halves, kQuadrature));
  CHECK(share({}, 35.0) == 0.0);
}

TEST_CASE("Random skylines hide between nothing and all, and more when one more block stands", "[climate][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  for (int n = 0; n < 300; ++n) {
    CAPTURE(n);
    std::vector<model::Obstacle> blocks;
    const double tilt = uniform(random, 0.0, 90.0), azimuth = uniform(random, 0.0, 360.0);
    double before = 0.0;
    for (int b = 0; b < 4; ++b) {
      blocks.push_back(block(uniform(random, 0.0, 360.0), uniform(random, 0.0, 360.0), uniform(random, 0.0, 90.0)));
      const double now = hiddenSkyShare(blocks, degrees(tilt), degrees(azimuth));
      CHECK(now >= before - kQuadrature);
      CHECK(now <= 1.0);
      before = now;
    }
  }
}

TEST_CASE("A dull sky is split anew as Erbs splits its clearness", "[climate][reference]") {
  // As in the tests of pvlib-python for Erbs: global 1000, zenith 10, day 1, Spencer with 1366.1. Here as half of 2000.
  ClearSky clear;
  clear.global_W_m2 = 2000.0;
  clear.extraterrestrialNormal_W_m2 = extraterrestrialNormalSpencer_W_m2(1, 1366.1);
  const ClearSky sky = dulled(clear, degrees(10.0), 0.5);
  CHECK(sky.global_W_m2 == 1000.0);
  CHECK_THAT(sky.diffuse_W_m2, WithinAbs(217.860117, 1e-5));
  CHECK_THAT(sky.beamNormal_W_m2, WithinAbs(794.205651, 1e-5));
  // Erbs, Klein & Duffie (1982), evaluated from the equation: 0.83999 of a clearness of 0.4.
  clear.global_W_m2 = clear.extraterrestrialNormal_W_m2 * std::cos(degrees(60.0).radians());
  CHECK_THAT(dulled(clear, degrees(60.0), 0.4).diffuse_W_m2, WithinRel(0.83999 * 0.4 * clear.global_W_m2, 1e-5));
}

TEST_CASE("A dull sky keeps its share of the global and never shines with less than nothing", "[climate][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  for (int n = 0; n < 500; ++n) {
    CAPTURE(n);
    SunPosition sun = sunAt(uniform(random, -5.0, 90.0), 180.0);
    const ClearSky clear = clearSky(sun, metres(uniform(random, 0.0, 2500.0)), uniform(random, 2.0, 6.0));
    const double left = uniform(random, 0.0, 1.0);
    const ClearSky sky = dulled(clear, sun.zenith, left);
    CHECK_THAT(sky.global_W_m2, WithinAbs(left * clear.global_W_m2, 1e-9));
    CHECK(sky.diffuse_W_m2 >= 0.0);
    CHECK(sky.beamNormal_W_m2 >= 0.0);
    CHECK_THAT(sky.diffuse_W_m2 + sky.beamNormal_W_m2 * std::cos(sun.zenith.radians()),
               WithinAbs(sky.global_W_m2, 1e-9));
  }
}
