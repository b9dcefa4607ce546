// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/profile.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/materials/tube.h"
#include "core/materials/water.h"

using namespace sunspool;
using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

FlowPath path(double length_m, double bore_m, double k) {
  FlowPath one;
  one.insideDiameter_m = bore_m;
  one.lossCoefficientSum = k;
  one.stretches = {{0.4 * length_m, 0.0, 298.15}, {0.2 * length_m, 0.2, 298.15}, {0.4 * length_m, 0.0, 298.15}};
  return one;
}

Network overTheRoof() {
  Network network;
  network.feed = path(6, 0.020, 2.0);
  network.runs = {path(40, 0.016, 3.0), path(44, 0.016, 3.0)};
  network.returning = path(6, 0.020, 3.0);
  network.highestPoint_m = 4.0;
  return network;
}

const double kWeight_Pa_m = materials::waterAt(celsius(25))->density.si() * kStandardGravity_m_s2;

}  // namespace

TEST_CASE("The water line falls from the pump's head to the pool", "[hydraulics][profile][property]") {
  const Network network = overTheRoof();
  const auto flow = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(6)));
  REQUIRE(flow);
  WayHeights heights;
  heights.feed = {{0, 0}, {3, 2}, {6, 3}};
  for (int n = 0; n <= 40; ++n) heights.run.push_back({1.0 * n, 3.0 + 0.02 * n});
  heights.returning = {{0, 3.8}, {3, 2}, {6, -0.3}};
  const auto way = pressureAlong(network, *flow, 0, heights);
  REQUIRE(way);
  double before = flow->head_m + 1e-12;
  for (const auto* leg : {&way->feed, &way->run, &way->returning}) {
    for (const PressurePoint& point : *leg) {
      CHECK(point.waterLine_m < before);
      before = point.waterLine_m;
    }
  }
  // The end of the return lies half its fittings before still water; under water it has the static pressure there.
  const double area = 0.25 * 3.14159265358979 * 0.020 * 0.020;
  const double velocity = flow->flow_m3_s / area;
  const double half_m = 0.5 * 3.0 * velocity * velocity / (2.0 * kStandardGravity_m_s2);
  CHECK_THAT(way->returning.back().waterLine_m, WithinAbs(half_m, 1e-6));
  CHECK_THAT(way->returning.back().gauge_Pa, WithinAbs(kWeight_Pa_m * (half_m + 0.3), 0.1));
}

TEST_CASE("A return without fittings ends under water at the static pressure", "[hydraulics][profile][analytic]") {
  Network network = overTheRoof();
  network.returning->lossCoefficientSum = 0.0;
  const auto flow = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(6)));
  REQUIRE(flow);
  const auto way = pressureAlong(network, *flow, 1, {{}, {}, {{6.0, -0.5}}});
  REQUIRE(way);
  CHECK_THAT(way->returning[0].gauge_Pa, WithinRel(0.5 * kWeight_Pa_m, 1e-7));
  // An outlet in the air has none.
  network.staticHead_m = 0.7;
  const auto open = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(6)));
  const auto inAir = pressureAlong(network, *open, 1, {{}, {}, {{6.0, 0.7}}});
  CHECK_THAT(inAir->returning[0].gauge_Pa, WithinAbs(0.0, 1e-3));
}

TEST_CASE("Both runs leave the water line where the return begins", "[hydraulics][profile][property]") {
  Network network = overTheRoof();
  for (auto& run : network.runs) run.lossCoefficientSum = 0.0;
  const auto flow = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(6)));
  REQUIRE(flow);
  const std::vector<HeightAt> first = {{0, 3}, {40, 3}};
  const std::vector<HeightAt> second = {{0, 3}, {44, 3}};
  const auto a = pressureAlongRun(network, *flow, 0, first);
  const auto b = pressureAlongRun(network, *flow, 1, second);
  REQUIRE(a);
  REQUIRE(b);
  CHECK_THAT(a->front().waterLine_m, WithinAbs(b->front().waterLine_m, 1e-12));
  CHECK_THAT(a->back().waterLine_m, WithinAbs(b->back().waterLine_m, 1e-8));
}

TEST_CASE("A siphon shows suction at its top and the lowest point is found", "[hydraulics][profile][analytic]") {
  const Network network = overTheRoof();
  const auto flow = solve(network, *PumpCurve::fromLabels(litresPerMinute(12), metres(4.2)));
  REQUIRE(flow);
  WayHeights heights;
  heights.feed = {{0, 0}, {6, 3.5}};
  heights.run = {{0, 3.5}, {20, 4.0}, {40, 3.5}};
  heights.returning = {{0, 3.5}, {6, -0.3}};
  const auto way = pressureAlong(network, *flow, 0, heights);
  REQUIRE(way);
  CHECK(way->lowest.gauge_Pa < 0.0);
  double least = 0.0;
  for (const auto* leg : {&way->feed, &way->run, &way->returning}) {
    for (const auto& point : *leg) least = std::min(least, point.gauge_Pa);
  }
  CHECK(way->lowest.gauge_Pa == least);
  // Raising everything by one metre takes exactly one metre of water from every pressure.
  WayHeights raised = heights;
  for (auto* leg : {&raised.feed, &raised.run, &raised.returning}) {
    for (auto& place : *leg) place.height_m += 1.0;
  }
  const auto higher = pressureAlong(network, *flow, 0, raised);
  CHECK_THAT(higher->lowest.gauge_Pa - way->lowest.gauge_Pa, WithinRel(-kWeight_Pa_m, 1e-9));
}

TEST_CASE("Pressure cannot be asked where there is no way", "[hydraulics][profile][analytic]") {
  Network network = overTheRoof();
  const auto flow = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(6)));
  CHECK(pressureAlong(network, *flow, 2, {}).error().code == ErrorCode::OutOfRange);
  CHECK(pressureAlong(network, *flow, 0, {{}, {{40.1, 0}}, {}}).error().facts.at(0).name == "station");
  CHECK(pressureAlong(network, *flow, 0, {{}, {{1.0, std::nan("")}}, {}}).error().code == ErrorCode::NotFinite);
  network.feed.reset();
  CHECK(pressureAlong(network, *flow, 0, {{{0, 0}}, {}, {}}).error().where == "profile/pipe");
  network.highestPoint_m = 10.0;
  const auto never = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(6)));
  CHECK(pressureAlong(network, *never, 0, {}).error().code == ErrorCode::NoFlow);
}

TEST_CASE("Suction head, breaking column and resting pressure", "[hydraulics][profile][reference]") {
  // Each evaluated with IF97: NPSH at 25 C, 1 m lift, 0.5 m loss; column at 30 C; top of a sealed way at 25 C.
  const Pressure air = pascals(101325);
  CHECK_THAT(suctionHeadAvailable(air, celsius(25), metres(1), metres(0.5))->si(), WithinAbs(8.5387, 5e-4));
  CHECK_THAT(columnBreakHeight(air, celsius(30))->si(), WithinAbs(9.94, 5e-3));
  CHECK_THAT(restingPressure(air, celsius(25), metres(3))->in(kilopascal), WithinAbs(71.99, 5e-3));
  CHECK_THAT(restingPressure(air, celsius(25), metres(4))->in(kilopascal), WithinAbs(62.21, 5e-3));
  CHECK(kPracticalSiphonHeight_m < columnBreakHeight(air, celsius(30))->si());
}

TEST_CASE("At the height where the column breaks nothing is left over boiling", "[hydraulics][profile][analytic]") {
  const Pressure air = pascals(90000);
  for (const double t_C : {5.0, 30.0, 60.0}) {
    const auto top = columnBreakHeight(air, celsius(t_C));
    REQUIRE(top);
    const auto resting = restingPressure(air, celsius(t_C), *top);
    CHECK_THAT(vapourMargin(*resting - air, air, celsius(t_C))->si(), WithinAbs(0.0, 1e-6));
  }
}

TEST_CASE("A roof-top siphon leaves cold tube a wide margin against being pressed flat",
          "[hydraulics][profile][reference]") {
  // Evaluated: suction of 4 m of water, 39.1 kPa, against 320.1 kPa of a DR 11.6 tube at 50-year modulus 152 MPa.
  const double suction_kPa = 101.325 - restingPressure(pascals(101325), celsius(25), metres(4))->in(kilopascal);
  const double collapse_kPa = materials::collapsePressure(pascals(152e6), 0.45, 11.6).in(kilopascal);
  CHECK_THAT(collapse_kPa / suction_kPa, WithinAbs(320.1 / 39.115, 0.01));
}
