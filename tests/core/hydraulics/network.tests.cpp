// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/network.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "core/hydraulics/friction.h"
#include "core/materials/water.h"
#include "random_networks.h"

using namespace sunspool;
using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

FlowPath straightPath(double length_m, double bore_m, double t_C, double roughness_m = 0.0) {
  FlowPath path;
  path.insideDiameter_m = bore_m;
  path.roughness_m = roughness_m;
  path.stretches = {{length_m, 0.0, t_C + 273.15}};
  return path;
}

FlowPath coil(double length_m, double bore_m, double radius_m, double t_C) {
  FlowPath path = straightPath(length_m, bore_m, t_C);
  path.stretches[0].bendRadius_m = radius_m;
  return path;
}

/// A filleted rectangular spiral as one run: quarter circles of one radius between straights.
FlowPath spiral(double length_m, int corners, double radius_m, double bore_m, double roughness_m, double t_C) {
  FlowPath path;
  path.insideDiameter_m = bore_m;
  path.roughness_m = roughness_m;
  const double arc_m = 0.5 * std::numbers::pi * radius_m;
  const double straight_m = (length_m - corners * arc_m) / (corners + 1);
  for (int n = 0; n < corners; ++n) {
    path.stretches.push_back({straight_m, 0.0, t_C + 273.15});
    path.stretches.push_back({arc_m, radius_m, t_C + 273.15});
  }
  path.stretches.push_back({straight_m, 0.0, t_C + 273.15});
  return path;
}

double headOf(const PathLoss& loss, double t_C) {
  return loss.loss_Pa / (materials::waterAt(celsius(t_C))->density.si() * kStandardGravity_m_s2);
}

}  // namespace

TEST_CASE("Worked pressure drops of straight smooth tube", "[hydraulics][path][reference]") {
  // Evaluated from Colebrook with water of IF97 and R12-08; 0.5 % for the rounding of properties.
  struct Row {
    double l_min, bore_m, length_m, t_C, velocity, reynolds, loss_Pa, head_m;
  };
  const Row row = GENERATE(Row{6, 0.013, 50, 30, 0.75340, 12231.9, 31839, 3.2609},
                           Row{2, 0.013, 50, 30, 0.25113, 4077.3, 4791.8, 0.4908},
                           Row{12, 0.019, 100, 20, 0.70540, 13357.1, 37434, 3.8241});
  const auto loss = pathLoss(straightPath(row.length_m, row.bore_m, row.t_C), litresPerMinute(row.l_min));
  REQUIRE(loss);
  CHECK_THAT(loss->velocity_m_s, WithinRel(row.velocity, 1e-4));
  CHECK_THAT(loss->reynolds, WithinRel(row.reynolds, 1e-4));
  CHECK_THAT(loss->loss_Pa, WithinRel(row.loss_Pa, 0.005));
  CHECK_THAT(headOf(*loss, row.t_C), WithinRel(row.head_m, 0.005));
  CHECK(loss->mostly == Regime::Turbulent);
  CHECK(loss->low_Pa == loss->loss_Pa);
  CHECK(loss->high_Pa == loss->loss_Pa);
}

TEST_CASE("A whole coil loses an eighth more than the same tube laid straight", "[hydraulics][path][coil][reference]") {
  // Evaluated: a quarter of 20 L/min at 30 C through 44.67 m of 13 mm tube, mean coil diameter 0.65 m: Re 10193,
  // critical number 5720, straight 20718 Pa, with Ito 23165 Pa. 1 %.
  const auto flow = litresPerMinute(5);
  const auto straight = pathLoss(straightPath(44.67, 0.013, 30), flow);
  const auto coiled = pathLoss(coil(44.67, 0.013, 0.325, 30), flow);
  REQUIRE(straight);
  REQUIRE(coiled);
  CHECK_THAT(coiled->reynolds, WithinRel(10193.0, 1e-3));
  CHECK_THAT(itoCriticalReynolds(0.013 / 0.65), WithinAbs(5720.0, 1.0));
  CHECK_THAT(straight->loss_Pa, WithinRel(20718.0, 0.01));
  CHECK_THAT(coiled->loss_Pa, WithinRel(23165.0, 0.01));
  CHECK_THAT(coiled->loss_Pa / straight->loss_Pa, WithinAbs(1.118, 0.01));
}

TEST_CASE("Laminar loss by hand", "[hydraulics][path][analytic]") {
  // Hagen-Poiseuille: 128 viscosity L Q/(pi d^4).
  const auto water = materials::waterAt(celsius(20));
  const double d = 0.016, q = 1e-5, length = 30.0;
  const auto loss = pathLoss(straightPath(length, d, 20), cubicMetresPerSecond(q));
  REQUIRE(loss);
  const double expected = 128.0 * water->viscosity.si() * length * q / (std::numbers::pi * d * d * d * d);
  CHECK_THAT(loss->loss_Pa, WithinRel(expected, 1e-12));
  CHECK_THAT(loss->slope_Pa_s_m3, WithinRel(expected / q, 1e-12));
  CHECK(loss->mostly == Regime::Laminar);
  const auto still = pathLoss(straightPath(length, d, 20), cubicMetresPerSecond(0));
  REQUIRE(still);
  CHECK(still->loss_Pa == 0.0);
  CHECK_THAT(still->slope_Pa_s_m3, WithinRel(expected / q, 1e-12));
}

TEST_CASE("Between the regimes the answer is a band", "[hydraulics][path][analytic]") {
  const auto flow = litresPerMinute(1.45);  // Re about 2950 in 13 mm at 30 C
  const auto straight = pathLoss(straightPath(50, 0.013, 30), flow);
  REQUIRE(straight);
  CHECK(straight->mostly == Regime::Transition);
  CHECK(straight->transitionLength_m == 50.0);
  CHECK(straight->low_Pa < straight->loss_Pa);
  CHECK(straight->loss_Pa < straight->high_Pa);
  CHECK_THAT(straight->high_Pa / straight->low_Pa,
             WithinRel(colebrookFriction(straight->reynolds, 0) * straight->reynolds / 64.0, 1e-9));
  // Mixed: at Re 5000 the straights are turbulent, the arcs undecided.
  const auto mixed = pathLoss(spiral(50, 40, 0.15, 0.013, 0.0, 30), litresPerMinute(2.45));
  REQUIRE(mixed);
  CHECK(mixed->reynolds > 4000.0);
  CHECK_THAT(mixed->transitionLength_m, WithinRel(40 * 0.5 * std::numbers::pi * 0.15, 1e-9));
  CHECK(mixed->low_Pa < mixed->high_Pa);
  CHECK(mixed->mostly == Regime::Turbulent);
}

TEST_CASE("Splitting one run into two in parallel cuts friction about six and a half times",
          "[hydraulics][path][reference]") {
  // A rectangular spiral of 81 m of 16 mm tube, 160 mm corners, 6 L/min at 25 C, by hand: one run 1.9 to 2.6 m, two of
  // 40.5 m 0.28 to 0.42 m.
  const auto one = pathLoss(spiral(81.0, 64, 0.160, 0.016, 7e-6, 25), litresPerMinute(6));
  const auto half = pathLoss(spiral(40.5, 32, 0.160, 0.016, 7e-6, 25), litresPerMinute(3));
  REQUIRE(one);
  REQUIRE(half);
  CHECK(headOf(*one, 25) > 1.9);
  CHECK(headOf(*one, 25) < 2.6);
  CHECK(headOf(*half, 25) > 0.28);
  CHECK(headOf(*half, 25) < 0.42);
  CHECK_THAT(one->loss_Pa / half->loss_Pa, WithinAbs(6.5, 0.7));
}

TEST_CASE("Corners of a filleted spiral add little, a round spiral more", "[hydraulics][path][property]") {
  const auto flow = litresPerMinute(6);
  const auto straight = pathLoss(straightPath(81, 0.016, 25), flow);
  const auto corners = pathLoss(spiral(81.0, 64, 0.160, 0.016, 0.0, 25), flow);
  const auto round = pathLoss(coil(81, 0.016, 0.30, 25), flow);
  CHECK(corners->loss_Pa > 1.01 * straight->loss_Pa);
  CHECK(corners->loss_Pa < 1.08 * straight->loss_Pa);
  CHECK(round->loss_Pa > 1.10 * straight->loss_Pa);
  CHECK(round->loss_Pa < 1.20 * straight->loss_Pa);
}

TEST_CASE("More flow never loses less and the derivative is right", "[hydraulics][path][property]") {
  const std::uint32_t seed = test::testSeed(3);
  INFO("seed " << seed << ", set with SUNSPOOL_TEST_SEED");
  test::Draw draw(seed);
  for (int round = 0; round < 300; ++round) {
    const FlowPath path = test::randomPath(draw, draw.logUniform(1, 200), draw.uniform(0.008, 0.03));
    PathLoss before;
    for (double q = 1e-8; q < 1e-2; q *= 1.21) {
      const auto now = pathLoss(path, cubicMetresPerSecond(q));
      REQUIRE(now);
      REQUIRE(now->loss_Pa > before.loss_Pa);
      REQUIRE(now->low_Pa >= before.low_Pa);
      REQUIRE(now->high_Pa >= before.high_Pa);
      REQUIRE(now->low_Pa <= now->loss_Pa);
      REQUIRE(now->loss_Pa <= now->high_Pa);
      const double h = 1e-6 * q;
      const double differences = (pathLoss(path, cubicMetresPerSecond(q + h))->loss_Pa -
                                  pathLoss(path, cubicMetresPerSecond(q - h))->loss_Pa) /
                                 (2.0 * h);
      REQUIRE_THAT(now->slope_Pa_s_m3, WithinRel(differences, 1e-5));
      before = *now;
    }
  }
}

TEST_CASE("Doubling length doubles straight loss", "[hydraulics][path][property]") {
  for (double l_min = 0.1; l_min < 40.0; l_min *= 1.3) {
    const auto once = pathLoss(straightPath(37, 0.016, 28, 7e-6), litresPerMinute(l_min));
    const auto twice = pathLoss(straightPath(74, 0.016, 28, 7e-6), litresPerMinute(l_min));
    CHECK_THAT(twice->loss_Pa, WithinRel(2.0 * once->loss_Pa, 1e-14));
  }
}

TEST_CASE("Fittings add K times the velocity pressure", "[hydraulics][path][analytic]") {
  FlowPath path = straightPath(10, 0.016, 25);
  const auto without = pathLoss(path, litresPerMinute(6));
  path.lossCoefficientSum = 4.0;
  const auto with = pathLoss(path, litresPerMinute(6));
  const double density = materials::waterAt(celsius(25))->density.si();
  CHECK_THAT(with->loss_Pa - without->loss_Pa,
             WithinRel(4.0 * 0.5 * density * with->velocity_m_s * with->velocity_m_s, 1e-9));
}

TEST_CASE("Warm water loses less than cold", "[hydraulics][path][property]") {
  double before = 1e9;
  for (const double t_C : {10.0, 15.0, 25.0, 35.0, 45.0}) {
    const auto loss = pathLoss(straightPath(50, 0.016, t_C), litresPerMinute(8));
    CHECK(loss->loss_Pa < before);
    before = loss->loss_Pa;
  }
}

TEST_CASE("Losses up to each stretch end at the loss of the path", "[hydraulics][path][property]") {
  test::Draw draw(test::testSeed(9));
  for (int round = 0; round < 50; ++round) {
    const FlowPath path = test::randomPath(draw, 60, 0.016);
    const auto flow = cubicMetresPerSecond(draw.logUniform(1e-6, 1e-3));
    const auto sums = lossUpTo(path, flow);
    const auto whole = pathLoss(path, flow);
    REQUIRE(sums);
    REQUIRE(whole);
    REQUIRE(sums->size() == path.stretches.size());
    CHECK(std::is_sorted(sums->begin(), sums->end()));
    CHECK_THAT(sums->back(), WithinRel(whole->loss_Pa, 1e-12));
  }
}

TEST_CASE("Impossible paths and flows are refused with the number", "[hydraulics][path][analytic]") {
  const auto refusedWith = [](FlowPath path, double flow, const char* fact) {
    const auto loss = pathLoss(path, cubicMetresPerSecond(flow));
    REQUIRE_FALSE(loss);
    CHECK(loss.error().code == ErrorCode::OutOfRange);
    CHECK(loss.error().facts.at(0).name == fact);
  };
  const FlowPath good = straightPath(10, 0.016, 25);
  FlowPath bad = good;
  bad.insideDiameter_m = 0.0;
  refusedWith(bad, 1e-4, "inside_diameter");
  bad = good;
  bad.roughness_m = 0.01;
  refusedWith(bad, 1e-4, "roughness");
  bad = good;
  bad.lossCoefficientSum = std::nan("");
  refusedWith(bad, 1e-4, "loss_coefficient");
  bad = good;
  bad.stretches[0].bendRadius_m = 0.008;
  refusedWith(bad, 1e-4, "bend_radius");
  bad = good;
  bad.stretches[0].length_m = -1.0;
  refusedWith(bad, 1e-4, "length");
  bad = good;
  bad.stretches.clear();
  refusedWith(bad, 1e-4, "length");
  bad = good;
  bad.stretches[0].waterTemperature_K = 500.0;
  refusedWith(bad, 1e-4, "temperature");
  refusedWith(good, -1e-4, "flow");
  refusedWith(good, std::nan(""), "flow");
  refusedWith(good, 1e3, "reynolds");
}

TEST_CASE("Parallel branches share the flow by their lengths", "[hydraulics][network][reference]") {
  // Blasius: Q1/Q2 = (L2/L1)^(1/1.75) = 1.2607 for 40 and 60 m, evaluated; Colebrook's exponent is about 1.78, so 1 %.
  Network network;
  network.runs = {straightPath(40, 0.016, 25), straightPath(60, 0.016, 25)};
  const auto pump = PumpCurve::fromLabels(litresPerMinute(60), metres(8));
  const auto flow = solve(network, *pump);
  REQUIRE(flow);
  CHECK(flow->runs[1].loss.reynolds > 4000.0);
  CHECK_THAT(flow->runs[0].flow_m3_s / flow->runs[1].flow_m3_s, WithinRel(1.2607, 0.01));
}

TEST_CASE("Imbalance of flow is a little more than half the imbalance of length", "[hydraulics][network][reference]") {
  // Own study with straight tube: 70/72/75/80 m runs share as 0.0736/0.0724/0.0707/0.0681, about 0.57 of the lengths.
  Network network;
  for (const double length : {70.0, 72.0, 75.0, 80.0}) network.runs.push_back(straightPath(length, 0.016, 25));
  const auto flow = solve(network, *PumpCurve::fromLabels(litresPerMinute(60), metres(8)));
  REQUIRE(flow);
  const double flowSpread = std::log(flow->runs[0].flow_m3_s / flow->runs[3].flow_m3_s);
  CHECK_THAT(flowSpread / std::log(80.0 / 70.0), WithinAbs(0.57, 0.02));
}

TEST_CASE("A laminar network with a parabola pump is solved as by hand", "[hydraulics][network][analytic]") {
  // One run with loss a Q and pump H0 (1 - (Q/Qm)^2): a quadratic.
  const double d = 0.02, length = 40.0, h0 = 0.02, qm = 1e-4;
  Network network;
  network.runs = {straightPath(length, d, 20)};
  const auto water = materials::waterAt(celsius(20));
  const double a = 128.0 * water->viscosity.si() * length / (std::numbers::pi * d * d * d * d) /
                   (water->density.si() * kStandardGravity_m_s2);
  const double k = h0 / (qm * qm);
  const double expected = (-a + std::sqrt(a * a + 4.0 * k * h0)) / (2.0 * k);
  const auto flow = solve(network, *PumpCurve::fromLabels(cubicMetresPerSecond(qm), metres(h0)));
  REQUIRE(flow);
  CHECK(flow->runs[0].loss.mostly == Regime::Laminar);
  CHECK_THAT(flow->flow_m3_s, WithinRel(expected, 1e-9));
}

TEST_CASE("Raising the panel adds starting lift and leaves the running flow", "[hydraulics][network][analytic]") {
  Network network;
  network.feed = straightPath(6, 0.025, 25);
  network.runs = {spiral(40.5, 32, 0.160, 0.016, 7e-6, 25), spiral(40.5, 32, 0.160, 0.016, 7e-6, 25)};
  network.returning = straightPath(6, 0.025, 28);
  network.highestPoint_m = 2.0;
  const auto pump = PumpCurve::fromLabels(litresPerMinute(30), metres(5));
  const auto low = solve(network, *pump);
  network.highestPoint_m = 3.0;
  const auto high = solve(network, *pump);
  REQUIRE(low);
  REQUIRE(high);
  CHECK(low->starts);
  CHECK(high->starts);
  CHECK(high->startingLift_m - low->startingLift_m == 1.0);
  CHECK(high->flow_m3_s == low->flow_m3_s);
  CHECK_THAT(low->runs[0].flow_m3_s, WithinRel(low->runs[1].flow_m3_s, 1e-12));
  // A return that ends in the air keeps its outlet's height as lift.
  network.staticHead_m = 1.0;
  CHECK(solve(network, *pump)->flow_m3_s < low->flow_m3_s);
}

TEST_CASE("A pump that cannot reach the highest point never starts", "[hydraulics][network][analytic]") {
  Network network;
  network.runs = {straightPath(40, 0.016, 25)};
  network.highestPoint_m = 4.0;
  const auto weak = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(4)));
  REQUIRE(weak);
  CHECK_FALSE(weak->starts);
  CHECK(weak->flow_m3_s == 0.0);
  CHECK(weak->startingLift_m == 4.0);
  REQUIRE(weak->runs.size() == 1);
  CHECK(weak->runs[0].flow_m3_s == 0.0);
  CHECK(weak->runs[0].loss.loss_Pa == 0.0);
  const auto strong = solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(4.1)));
  REQUIRE(strong);
  CHECK(strong->starts);
  CHECK(strong->flow_m3_s > 0.0);
  network.highestPoint_m = -2.0;
  CHECK(solve(network, *PumpCurve::fromLabels(litresPerMinute(30), metres(4)))->startingLift_m == 0.0);
}

TEST_CASE("Networks that cannot be are refused", "[hydraulics][network][analytic]") {
  const auto pump = PumpCurve::fromLabels(litresPerMinute(30), metres(4));
  CHECK(solve(Network{}, *pump).error().where == "network/runs");
  Network network;
  network.runs = {straightPath(0, 0.016, 25)};
  CHECK(solve(network, *pump).error().where == "path/length");
  network.runs = {straightPath(10, 0.016, 25)};
  network.staticHead_m = -1.0;
  CHECK(solve(network, *pump).error().where == "network/static_head");
  network.staticHead_m = 0.0;
  network.highestPoint_m = std::nan("");
  CHECK(solve(network, *pump).error().code == ErrorCode::NotFinite);
}

TEST_CASE("Every random network is solved, balanced and on its pump curve", "[hydraulics][network][property]") {
  const std::uint32_t seed = test::testSeed(2024);
  test::Draw draw(seed);
  int most = 0;
  int open = 0;
  for (int round = 0; round < 20000; ++round) {
    const Network network = test::randomNetwork(draw);
    const PumpCurve pump = test::randomPump(draw, network.highestPoint_m);
    const auto flow = solve(network, pump);
    INFO("seed " << seed << " (SUNSPOOL_TEST_SEED), network " << round);
    REQUIRE(flow);
    REQUIRE(flow->starts);
    REQUIRE(flow->residual_m <= 1e-9 * pump.shutOffHead_m());
    REQUIRE(flow->flow_m3_s > 0.0);
    REQUIRE(flow->flow_m3_s < pump.largestFlow_m3_s());
    REQUIRE(flow->head_m == pump.head_m(flow->flow_m3_s));
    double sum = 0.0;
    for (const RunFlow& run : flow->runs) {
      REQUIRE(run.flow_m3_s > 0.0);
      sum += run.flow_m3_s;
      REQUIRE_THAT(run.loss.loss_Pa, WithinRel(flow->runs[0].loss.loss_Pa, 1e-5) ||
                                         WithinAbs(flow->runs[0].loss.loss_Pa, 1e-4 * pump.shutOffHead_m()));
    }
    REQUIRE_THAT(sum, WithinRel(flow->flow_m3_s, 1e-14));
    REQUIRE(flow->lowFlow_m3_s <= flow->flow_m3_s);
    REQUIRE(flow->flow_m3_s <= flow->highFlow_m3_s);
    if (flow->lowFlow_m3_s < flow->highFlow_m3_s) ++open;
    most = std::max(most, flow->iterations);
  }
  CHECK(most <= 30);
  CHECK(open > 1000);
  CHECK(open < 19000);
}

TEST_CASE("A stronger pump moves more and a longer run less", "[hydraulics][network][property]") {
  const std::uint32_t seed = test::testSeed(5);
  INFO("seed " << seed << ", set with SUNSPOOL_TEST_SEED");
  test::Draw draw(seed);
  for (int round = 0; round < 300; ++round) {
    Network network = test::randomNetwork(draw);
    const double head_m = network.highestPoint_m + draw.logUniform(0.1, 10.0);
    const auto label = litresPerMinute(draw.logUniform(2, 100));
    const auto flow = solve(network, *PumpCurve::fromLabels(label, metres(head_m)));
    const auto stronger = solve(network, *PumpCurve::fromLabels(label, metres(1.2 * head_m)));
    REQUIRE(flow);
    REQUIRE(stronger);
    CHECK(stronger->flow_m3_s > flow->flow_m3_s);
    for (auto& stretch : network.runs[0].stretches) stretch.length_m *= 1.3;
    const auto longer = solve(network, *PumpCurve::fromLabels(label, metres(head_m)));
    REQUIRE(longer);
    CHECK(longer->runs[0].flow_m3_s < flow->runs[0].flow_m3_s);
    CHECK(longer->flow_m3_s < flow->flow_m3_s);
  }
}
