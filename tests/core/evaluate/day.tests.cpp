// SPDX-License-Identifier: GPL-3.0-or-later

// The hours of a day: where its sun goes, what shade and a dull sky take, what the pump's stop makes of it.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <random>

#include "core/evaluate/evaluate.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/materials/water.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

using namespace sunspool;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

evaluate::Day dayOf(const model::Document& document) {
  const auto day = evaluate::day(document);
  REQUIRE(day.has_value());
  return *day;
}

model::Obstacle block(double from_deg, double to_deg, double height_deg) {
  return {"block", degrees(from_deg), degrees(to_deg), degrees(height_deg)};
}

void checkParts(const evaluate::DayEnergies& sums) {
  const double parts = (sums.toPool + sums.lost + sums.reflected + sums.waiting).si();
  CHECK_THAT(parts, WithinRel(sums.falling.si(), 1e-9));
}

unsigned seed() {
  const char* text = std::getenv("SUNSPOOL_TEST_SEED");
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250621u;
}

}  // namespace

TEST_CASE("Every quarter hour's parts add up to what falls on the panel", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  document.panelsAlike = 2;
  document.obstacles = {block(230.0, 280.0, 30.0)};
  for (const auto sky : {model::SkyKind::Clear, model::SkyKind::Dull}) {
    document.conditions.sky = sky;
    const evaluate::Day day = dayOf(document);
    REQUIRE(day.quarters.size() > 40);
    for (const auto& bar : day.quarters) {
      CAPTURE(bar.clock_h);
      const double parts = bar.toPool_W + bar.lost_W + bar.reflected_W + bar.waiting_W;
      CHECK_THAT(parts, WithinAbs(bar.falling_W, 1e-9 * std::max(1.0, bar.falling_W)));
      CHECK(bar.toPool_W >= 0.0);
      CHECK(bar.reflected_W >= 0.0);
      CHECK(bar.waiting_W >= 0.0);
      CHECK(bar.shade_W >= 0.0);
      CHECK((bar.toPool_W > 0.0) == (bar.waiting_W == 0.0));
      CHECK((bar.toPool_W > 0.0) == (bar.outlet_K > 0.0));
      if (bar.toPool_W > 0.0) CHECK(bar.hottest_K > bar.outlet_K);
      CHECK(bar.hottest_K > 273.15);
    }
    checkParts(day);
  }
}

TEST_CASE("Morning and evening of a clear day wait for the pump, noon does not", "[evaluate][property]") {
  const evaluate::Day day = dayOf(model::firstPanel());
  CHECK(day.quarters.front().waiting_W > 0.0);
  CHECK(day.quarters.back().waiting_W > 0.0);
  CHECK(day.quarters[day.quarters.size() / 2].waiting_W == 0.0);
  CHECK(day.waiting < day.falling * 0.2);
  CHECK(day.shade.si() == 0.0);
}

TEST_CASE("A pump that never starts waits all day", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  document.plumbing.highestPointAbovePool = metres(50.0);
  const evaluate::Day day = dayOf(document);
  CHECK(day.toPool.si() == 0.0);
  CHECK(day.lost.si() == 0.0);
  CHECK(day.waiting > day.falling * 0.4);
  checkParts(day);
}

TEST_CASE("A dull day leaves its share of the global and little beam", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  const auto clear = evaluate::sunNow(document);
  document.conditions.sky = model::SkyKind::Dull;
  const auto dull = evaluate::sunNow(document);
  REQUIRE(clear.has_value());
  REQUIRE(dull.has_value());
  CHECK_THAT(dull->sky.global_W_m2, WithinRel(document.conditions.dullShare.value * clear->sky.global_W_m2, 1e-12));
  CHECK(dull->sky.diffuse_W_m2 > 0.9 * dull->sky.global_W_m2);
  CHECK(dayOf(document).toPool < dayOf(model::firstPanel()).toPool * 0.4);
  document.conditions.dullShare.value = 0.0;
  CHECK(evaluate::sunNow(document)->plane.total_W_m2 == 0.0);
  CHECK(dayOf(document).quarters.empty());
}

TEST_CASE("Shade never adds: every quarter falls and shade together are the open day", "[evaluate][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  const auto uniform = [&](double low, double high) {
    return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
  };
  const model::Document open = model::firstPanel();
  const evaluate::Day without = dayOf(open);
  for (int n = 0; n < 8; ++n) {
    model::Document shaded = open;
    for (int b = 0; b < 2; ++b) {
      shaded.obstacles.push_back(block(uniform(0.0, 360.0), uniform(0.0, 360.0), uniform(0.0, 60.0)));
    }
    CAPTURE(n);
    const evaluate::Day with = dayOf(shaded);
    REQUIRE(with.quarters.size() == without.quarters.size());
    for (std::size_t i = 0; i < with.quarters.size(); ++i) {
      CHECK_THAT(with.quarters[i].falling_W + with.quarters[i].shade_W,
                 WithinAbs(without.quarters[i].falling_W, 1e-9 * without.quarters[i].falling_W));
      CHECK(with.quarters[i].toPool_W <= without.quarters[i].toPool_W + 1e-6);
    }
    checkParts(with);
  }
}

TEST_CASE("An irradiance typed in says nothing of shade and stays what it is", "[evaluate][analytic]") {
  model::Document document = model::firstPanel();
  document.obstacles = {block(0.0, 360.0, 80.0)};
  document.conditions.onPanel = Uncertain<Irradiance>{wattsPerSquareMetre(700.0), {}, Sureness::Measured};
  const auto sun = evaluate::sunNow(document);
  REQUIRE(sun.has_value());
  CHECK(sun->inShade);
  CHECK(sun->shadedBeam_W_m2 == 0.0);
  CHECK_THAT(sun->plane.beam_W_m2 + sun->plane.sky_W_m2 + sun->plane.ground_W_m2, WithinAbs(700.0, 1e-9));
}

TEST_CASE("Neither cloud nor shade makes the stopped panel any cooler", "[evaluate][property]") {
  const model::Document open = model::firstPanel();
  model::Document document = open;
  document.conditions.sky = model::SkyKind::Dull;
  document.obstacles = {block(0.0, 360.0, 80.0)};
  CHECK(evaluate::stoppedSky(document)->beam_W_m2 == evaluate::stoppedSky(open)->beam_W_m2);
  CHECK(evaluate::stoppedSky(document)->sky_W_m2 == evaluate::stoppedSky(open)->sky_W_m2);
}

TEST_CASE("The polar night has no quarters and the polar day has all of them", "[evaluate][analytic]") {
  model::Document north = model::firstPanel();
  north.place.latitude = degrees(70.0);
  north.moment = {2025, 12, 21, 12.0};
  north.obstacles = {block(300.0, 60.0, 10.0)};
  CHECK(dayOf(north).quarters.empty());
  CHECK(dayOf(north).falling.si() == 0.0);
  CHECK(evaluate::stoppedDay(north)->quarters.empty());
  north.moment.month = 6;
  const evaluate::Day summer = dayOf(north);
  CHECK(summer.quarters.size() == 96);
  // The midnight sun stands in the north at 3.4 degrees: behind the block, seen by nothing of a south panel anyway.
  CHECK(summer.quarters.front().falling_W > 0.0);
  checkParts(summer);
}

TEST_CASE("South of the equator a tower in the north takes the noon", "[evaluate][property]") {
  model::Document south = model::firstPanel();
  south.place.latitude = degrees(-33.0);
  south.siting.azimuth = degrees(0.0);
  south.moment = {2025, 6, 21, 12.0};
  const auto noon = evaluate::sunNow(south);
  REQUIRE(noon.has_value());
  south.moment.clock_h = noon->day.noon_h;
  const double open = dayOf(south).toPool.si();
  south.obstacles = {block(335.0, 25.0, 60.0)};
  const auto shaded = evaluate::sunNow(south);
  CHECK(shaded->inShade);
  CHECK(shaded->shadedBeam_W_m2 > 300.0);
  CHECK(shaded->plane.beam_W_m2 == 0.0);
  CHECK(dayOf(south).toPool.si() < 0.8 * open);
  south.obstacles = {block(155.0, 205.0, 60.0)};  // behind it
  CHECK_FALSE(evaluate::sunNow(south)->inShade);
  CHECK(dayOf(south).toPool.si() > 0.95 * open);
}

TEST_CASE("The months hold the day of their middle and turn with the hemisphere", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  const auto north = evaluate::months(document);
  REQUIRE(north.has_value());
  REQUIRE(north->size() == 12);
  for (const auto& month : *north) checkParts(month);
  document.moment = {document.moment.year, 4, 15, 9.0};
  const evaluate::Day april = dayOf(document);
  CHECK((*north)[3].toPool == april.toPool);
  CHECK((*north)[3].waiting == april.waiting);
  CHECK((*north)[5].toPool > (*north)[11].toPool);
  document.place.latitude = -document.place.latitude;
  document.siting.azimuth = degrees(0.0);
  const auto south = evaluate::months(document);
  CHECK((*south)[5].toPool < (*south)[11].toPool);
}

TEST_CASE("A stopped day is hottest when its sun is strongest, and minutes shrink with it", "[evaluate][property]") {
  const auto day = evaluate::stoppedDay(model::firstPanel());
  REQUIRE(day.has_value());
  REQUIRE(day->quarters.size() > 40);
  const evaluate::StoppedQuarter* hottest = &day->quarters.front();
  for (const auto& quarter : day->quarters) {
    CHECK(quarter.wetTube_K <= quarter.dryTube_K + 1e-6);
    CHECK(quarter.wetTube_K <= day->boiling_K);
    CHECK(quarter.minutesToLimit.has_value() == (quarter.wetTube_K > day->tubeLimit_K));
    if (quarter.dryTube_K > hottest->dryTube_K) hottest = &quarter;
  }
  double strongest = 0.0;
  for (const auto& quarter : day->quarters) strongest = std::max(strongest, quarter.sun_W_m2);
  CHECK(hottest->sun_W_m2 > 0.98 * strongest);
  REQUIRE(hottest->minutesToLimit);
  for (const auto& quarter : day->quarters) {
    if (quarter.minutesToLimit) CHECK(*quarter.minutesToLimit > 0.9 * *hottest->minutesToLimit);
  }
}

TEST_CASE("A shade cloth cools the stopped day and leaves the running one", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  const auto bare = evaluate::stoppedDay(document);
  const evaluate::Day running = dayOf(document);
  document.box.shadeCloth = Uncertain<double>{0.3, 0.1, Sureness::Guess};
  const auto under = evaluate::stoppedDay(document);
  REQUIRE(bare.has_value());
  REQUIRE(under.has_value());
  const std::size_t noon = bare->quarters.size() / 2;
  CHECK_THAT(under->quarters[noon].sun_W_m2, WithinRel(0.3 * bare->quarters[noon].sun_W_m2, 1e-12));
  CHECK(under->quarters[noon].dryTube_K < bare->quarters[noon].dryTube_K - 20.0);
  CHECK(dayOf(document).toPool == running.toPool);
}

TEST_CASE("The minutes to a limit do not hang on the hour that is looked at", "[evaluate][property]") {
  const auto minutesAt = [](double clock_h) {
    model::Document document = model::firstPanel();
    document.moment.clock_h = clock_h;
    const auto results = evaluate::evaluate(document, {.depth = evaluate::Depth::Everything, .ranges = false});
    REQUIRE(results.stopped.has_value());
    std::vector<double> minutes;
    for (const auto& layer : results.stopped->layers) minutes.push_back(layer.minutesToLimit.value_or(-1.0));
    return minutes;
  };
  const std::vector<double> noon = minutesAt(13.5), night = minutesAt(2.0);
  REQUIRE(noon.size() == night.size());
  for (std::size_t i = 0; i < noon.size(); ++i) CHECK(noon[i] == Approx(night[i]).epsilon(0.002));  // the flow differs
  CHECK(*std::max_element(noon.begin(), noon.end()) > 0.0);
}
