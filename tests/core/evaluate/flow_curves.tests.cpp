// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/flow_curves.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <random>

#include "core/checks/measures.h"
#include "core/evaluate/evaluate.h"
#include "core/evaluate/moved_by.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::evaluate {
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;

double headAt(const std::vector<SystemPoint>& system, double flow_m3_s, double SystemPoint::*member) {
  const auto after =
      std::find_if(system.begin(), system.end(), [&](const SystemPoint& p) { return p.flow_m3_s >= flow_m3_s; });
  REQUIRE(after != system.end());
  REQUIRE(after != system.begin());
  const SystemPoint &a = *(after - 1), &b = *after;
  const double share = (flow_m3_s - a.flow_m3_s) / (b.flow_m3_s - a.flow_m3_s);
  return a.*member + share * (b.*member - a.*member);
}
double labelHead_m(const model::Pump& pump, double flow_m3_s) {
  const double share = flow_m3_s / pump.labelFlow.value.si();
  return pump.labelHead.value.si() * (1.0 - share * share);
}

TEST_CASE("Pump and system curve meet in the working point", "[evaluate][flow][analytic]") {
  model::Document four = *model::withStarts(model::firstPanel(), 4);
  model::Document two = *model::withStarts(model::firstPanel(), 2);
  two.panelsAlike = 3;
  for (const model::Document& document : {model::firstPanel(), four, two}) {
    const Result<FlowCurves> curves = flowCurves(document);
    REQUIRE(curves.has_value());
    const results::Results results = evaluate(document, {.depth = Depth::Heat, .ranges = false});
    CHECK_THAT(curves->workFlow_m3_s, WithinRel(results.flow->flow.value.si(), 1e-9));
    CHECK(curves->starts);
    CHECK_FALSE(curves->measured);
    // Straight lines between 48 points of a curve that is nearly a parabola.
    const double tolerance = 1e-3 * curves->shutOffHead_m;
    CHECK_THAT(headAt(curves->system, curves->workFlow_m3_s, &SystemPoint::head_m),
               WithinAbs(curves->workHead_m, tolerance));
    CHECK_THAT(labelHead_m(document.plumbing.pump, curves->workFlow_m3_s), WithinAbs(curves->workHead_m, tolerance));
    CHECK(headAt(curves->system, results.flow->network.lowFlow_m3_s, &SystemPoint::high_m) >=
          headAt(curves->system, results.flow->network.lowFlow_m3_s, &SystemPoint::low_m));
  }
}

TEST_CASE("Curves run from no flow on, the pump's falls and the way's rises", "[evaluate][flow][property]") {
  const Result<FlowCurves> curves = flowCurves(model::firstPanel());
  REQUIRE(curves.has_value());
  CHECK(curves->pump.front().flow_m3_s == 0.0);
  CHECK_THAT(curves->pump.front().head_m, WithinRel(curves->shutOffHead_m, 1e-12));
  CHECK(curves->pump.back().head_m == 0.0);
  for (std::size_t i = 1; i < curves->pump.size(); ++i) CHECK(curves->pump[i].head_m < curves->pump[i - 1].head_m);
  CHECK(curves->system.front().flow_m3_s == 0.0);
  CHECK(curves->system.front().head_m == 0.0);  // the return ends under water
  for (std::size_t i = 1; i < curves->system.size(); ++i) {
    const SystemPoint& point = curves->system[i];
    CHECK(point.head_m > curves->system[i - 1].head_m);
    CHECK(point.low_m <= point.head_m);
    CHECK(point.high_m >= point.head_m);
  }
}

TEST_CASE("Two label numbers never give a flow above the curve between them", "[evaluate][flow][property]") {
  const char* given = std::getenv("SUNSPOOL_SEED");
  const unsigned seed = given != nullptr ? static_cast<unsigned>(std::strtoul(given, nullptr, 10)) : 20261125U;
  CAPTURE(seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> flow_L_min(1.0, 80.0), head_m(0.05, 12.0), lift_m(-1.0, 6.0);
  int never = 0, flows = 0;
  for (int i = 0; i < 60; ++i) {
    model::Document document = model::firstPanel();
    document.plumbing.pump.labelFlow.value = VolumeFlow::fromSi(flow_L_min(random) / 60000.0);
    document.plumbing.pump.labelHead.value = metres(head_m(random));
    document.siting.lowerEdgeAbovePool = metres(lift_m(random));
    CAPTURE(document.plumbing.pump.labelFlow.value.si(), document.plumbing.pump.labelHead.value.si());
    const results::Results results = evaluate(document, {.depth = Depth::Flow, .ranges = false});
    REQUIRE(results.flow.has_value());
    const Result<FlowCurves> curves = flowCurves(document);
    if (!curves.has_value()) continue;  // the water would boil at the few drops that come
    CHECK(curves->starts == results.flow->network.starts);
    if (curves->shutOffHead_m < curves->startingLift_m) {
      ++never;
      CHECK_FALSE(curves->starts);
      CHECK(curves->workFlow_m3_s == 0.0);
      CHECK(results.flow->flow.value.si() == 0.0);
      continue;
    }
    ++flows;
    const double found = results.flow->flow.value.si();
    CHECK(found < document.plumbing.pump.labelFlow.value.si());
    CHECK(results.flow->head.value.si() < document.plumbing.pump.labelHead.value.si());
    CHECK(results.flow->head.value.si() <= labelHead_m(document.plumbing.pump, found) * (1.0 + 1e-9));
  }
  CHECK(never > 5);
  CHECK(flows > 5);
}

TEST_CASE("A shut-off head below the top of the panel never starts", "[evaluate][flow][analytic]") {
  model::Document document = model::firstPanel();
  document.siting.lowerEdgeAbovePool = document.plumbing.pump.labelHead.value + metres(0.2);
  const Result<FlowCurves> curves = flowCurves(document);
  REQUIRE(curves.has_value());
  CHECK_FALSE(curves->starts);
  CHECK(curves->shutOffHead_m < curves->startingLift_m);
  CHECK(curves->system.size() > 10);  // the way is drawn all the same
}

TEST_CASE("What moves the collapse radius are wall and diameters, and a bend test alone after it",
          "[evaluate][analytic]") {
  const model::Document document = model::firstPanel();
  const std::vector<MovedBy> moved = movedBy(document, MovedNumber::CollapseRadius);
  REQUIRE_FALSE(moved.empty());
  for (std::size_t i = 0; i < moved.size(); ++i) {
    CHECK(moved[i].input.starts_with("/tube/"));
    if (i > 0) CHECK(moved[i].half_si <= moved[i - 1].half_si);
  }
  model::Document thinner = document;
  thinner.tube.minimumWallShare.value -= document.tube.minimumWallShare.spread;
  model::Document thicker = document;
  thicker.tube.minimumWallShare.value += document.tube.minimumWallShare.spread;
  const double half =
      0.5 * std::abs(checks::collapseRadius(thinner.tube).si() - checks::collapseRadius(thicker.tube).si());
  const auto wall =
      std::find_if(moved.begin(), moved.end(), [](const MovedBy& m) { return m.input == "/tube/minimum_wall_share"; });
  if (document.tube.minimumWallShare.value + document.tube.minimumWallShare.spread <= 1.0) {
    REQUIRE(wall != moved.end());
    CHECK_THAT(wall->half_si, WithinRel(half, 1e-12));
  }
  const auto tested = model::withBendTest(document, Uncertain<Length>{millimetres(70), millimetres(5), {}});
  REQUIRE(tested.has_value());
  const std::vector<MovedBy> after = movedBy(*tested, MovedNumber::CollapseRadius);
  REQUIRE(after.size() == 1);
  CHECK(after.front().input == "/tube/bend_test_collapse_radius");
  CHECK_THAT(after.front().half_si, WithinRel(0.005, 1e-9));
}

TEST_CASE("A number that cannot be reckoned is moved by nothing", "[evaluate][analytic]") {
  model::Document refused = model::firstPanel();
  refused.laying.pitch = millimetres(12.0);
  CHECK(movedBy(refused, MovedNumber::StoppedTube).empty());
  CHECK(movedBy(refused, MovedNumber::Water).empty());
  CHECK(movedBy(model::firstPanel(), MovedNumber::Uplift).empty());  // no gust was entered
  CHECK_FALSE(movedBy(model::firstPanel(), MovedNumber::StoppedTube).empty());
}

}  // namespace
}  // namespace sunspool::evaluate
