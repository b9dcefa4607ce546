// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <cmath>

#include "core/hydraulics/network.h"
#include "random_networks.h"

using namespace sunspool;
using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {
model::Pump pumpWith(std::vector<model::PumpPoint> points) {
  model::Pump pump;
  pump.points = std::move(points);
  return pump;
}
model::Pump labelled(VolumeFlow flow, Length head) {
  model::Pump pump;
  pump.labelFlow.value = flow;
  pump.labelHead.value = head;
  return pump;
}
}  // namespace

TEST_CASE("Label flow has no head and label head has no flow", "[hydraulics][pump][analytic]") {
  const auto curve = PumpCurve::from(labelled(litresPerMinute(40), metres(4)));
  REQUIRE(curve);
  CHECK_FALSE(curve->measured());
  CHECK(curve->shutOffHead_m() == 4.0);
  CHECK(curve->head_m(0.0) == 4.0);
  CHECK(curve->head_m(litresPerMinute(40).si()) == 0.0);
  CHECK(curve->head_m(litresPerMinute(80).si()) == 0.0);
  CHECK_THAT(curve->head_m(litresPerMinute(20).si()), WithinRel(3.0, 1e-14));
  CHECK_THAT(curve->slope_s_m2(litresPerMinute(20).si()), WithinRel(-4.0 / litresPerMinute(40).si(), 1e-12));
}

TEST_CASE("A curve from points passes through them and falls everywhere", "[hydraulics][pump][property]") {
  const std::uint32_t seed = test::testSeed(71);
  INFO("seed " << seed << ", set with SUNSPOOL_TEST_SEED");
  test::Draw draw(seed);
  for (int round = 0; round < 500; ++round) {
    std::vector<model::PumpPoint> points;
    double flow = draw.chance(0.5) ? 0.0 : draw.logUniform(1e-6, 1e-3);
    double head = draw.logUniform(0.5, 20.0);
    const int count = draw.whole(2, 7);
    for (int n = 0; n < count; ++n) {
      points.push_back({cubicMetresPerSecond(flow), metres(head)});
      flow += draw.logUniform(1e-6, 1e-3);
      head *= draw.uniform(0.1, 0.99);
    }
    const auto curve = PumpCurve::from(pumpWith(points));
    REQUIRE(curve);
    CHECK(curve->measured());
    for (const auto& point : points) {
      CHECK_THAT(curve->head_m(point.flow.si()), WithinRel(point.head.si(), 1e-12));
    }
    CHECK_THAT(curve->head_m(curve->largestFlow_m3_s()), WithinAbs(0.0, 1e-12));
    CHECK(curve->shutOffHead_m() >= points.front().head.si());
    double before = curve->shutOffHead_m();
    for (int n = 1; n <= 300; ++n) {
      const double q = curve->largestFlow_m3_s() * n / 300.0;
      const double now = curve->head_m(q);
      REQUIRE(now <= before);
      REQUIRE(curve->slope_s_m2(q) <= 0.0);
      before = now;
    }
  }
}

TEST_CASE("The slope of a curve from points is its derivative", "[hydraulics][pump][property]") {
  const auto curve = PumpCurve::from(pumpWith(
      {{litresPerMinute(5), metres(3.5)}, {litresPerMinute(15), metres(3.0)}, {litresPerMinute(30), metres(1)}}));
  REQUIRE(curve);
  for (double l_min = 0.5; l_min < 40.0; l_min += 0.73) {
    const double q = litresPerMinute(l_min).si();
    if (q + 1e-9 > curve->largestFlow_m3_s()) break;
    const double differences = (curve->head_m(q + 1e-9) - curve->head_m(q - 1e-9)) / 2e-9;
    CHECK_THAT(curve->slope_s_m2(q), WithinRel(differences, 1e-4));
  }
}

TEST_CASE("Two points make a straight line to no flow and to no head", "[hydraulics][pump][analytic]") {
  const auto curve = PumpCurve::from(pumpWith({{litresPerMinute(10), metres(3)}, {litresPerMinute(20), metres(2)}}));
  REQUIRE(curve);
  CHECK_THAT(curve->shutOffHead_m(), WithinRel(4.0, 1e-12));
  CHECK_THAT(curve->largestFlow_m3_s(), WithinRel(litresPerMinute(40).si(), 1e-12));
  CHECK_THAT(curve->head_m(litresPerMinute(30).si()), WithinRel(1.0, 1e-12));
}

TEST_CASE("Speed scales flow by n and head by its square", "[hydraulics][pump][analytic]") {
  for (auto pump : {labelled(litresPerMinute(40), metres(4)), pumpWith({{litresPerMinute(0), metres(4)},
                                                                        {litresPerMinute(20), metres(3)},
                                                                        {litresPerMinute(40), metres(0)}})}) {
    const auto full = PumpCurve::from(pump);
    pump.speed = 0.8;
    const auto slow = PumpCurve::from(pump);
    REQUIRE(full);
    REQUIRE(slow);
    for (const double l_min : {0.0, 7.0, 20.0, 31.0}) {
      const double q = litresPerMinute(l_min).si();
      CHECK_THAT(slow->head_m(0.8 * q), WithinAbs(0.64 * full->head_m(q), 1e-12));
    }
  }
}

TEST_CASE("Impossible pumps are refused with their numbers", "[hydraulics][pump][analytic]") {
  for (const auto& [flow, head] : {std::pair{0.0, 4.0}, {-1e-3, 4.0}, {1e-3, 0.0}, {1e-3, std::nan("")}}) {
    const auto curve = PumpCurve::from(labelled(cubicMetresPerSecond(flow), metres(head)));
    REQUIRE_FALSE(curve);
    CHECK(curve.error().code == ErrorCode::PumpLabelImpossible);
    CHECK(curve.error().facts.at(0).name == "flow");
    CHECK(curve.error().facts.at(1).name == "head");
  }
  auto stopped = labelled(litresPerMinute(40), metres(4));
  stopped.speed = 0.0;
  CHECK(PumpCurve::from(stopped).error().code == ErrorCode::PumpLabelImpossible);

  const auto rising = PumpCurve::from(pumpWith(
      {{litresPerMinute(0), metres(4)}, {litresPerMinute(10), metres(3)}, {litresPerMinute(20), metres(3.2)}}));
  REQUIRE_FALSE(rising);
  CHECK(rising.error().code == ErrorCode::PumpCurveRises);
  CHECK(rising.error().facts.at(1).value_si == 3.0);
  CHECK(rising.error().facts.at(3).value_si == 3.2);
  const auto sameFlow = PumpCurve::from(pumpWith({{litresPerMinute(10), metres(4)}, {litresPerMinute(10), metres(3)}}));
  CHECK(sameFlow.error().code == ErrorCode::PumpCurveRises);
  CHECK(PumpCurve::from(pumpWith({{litresPerMinute(10), metres(4)}})).error().code == ErrorCode::OutOfRange);
  CHECK(PumpCurve::from(pumpWith({{litresPerMinute(0), metres(1)}, {litresPerMinute(10), metres(-1)}})).error().code ==
        ErrorCode::PumpLabelImpossible);
}
