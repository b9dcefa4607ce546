// SPDX-License-Identifier: GPL-3.0-or-later

#include "core/checks/checks.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/checks/measures.h"
#include "core/checks/snag_keys.h"
#include "core/checks/wind.h"
#include "core/evaluate/evaluate.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

using namespace sunspool;

namespace {

const Snag* find(const results::Results& results, SnagCode code) {
  for (const Snag& snag : results.snags) {
    if (snag.code == code) return &snag;
  }
  return nullptr;
}
results::Results reckoned(const model::Document& document) { return evaluate::evaluate(document, {.ranges = false}); }

}  // namespace

TEST_CASE("A bend is judged by one table", "[checks][analytic]") {
  using checks::verdictOn;
  using results::BendVerdict;
  const double collapse = 0.1, handbook = 0.5;
  CHECK(verdictOn(0.5, collapse, handbook) == BendVerdict::WithinHandbook);
  CHECK(verdictOn(0.499, collapse, handbook) == BendVerdict::TighterThanHandbook);
  CHECK(verdictOn(0.1 / 0.59, collapse, handbook) == BendVerdict::TighterThanHandbook);
  CHECK(verdictOn(0.1 / 0.61, collapse, handbook) == BendVerdict::Close);
  CHECK(verdictOn(0.1 / 0.81, collapse, handbook) == BendVerdict::LikelyToFlatten);
  CHECK(verdictOn(0.1, collapse, handbook) == BendVerdict::Collapses);
}

TEST_CASE("Wind pressure of a gust of 33 m/s is 668 Pa by the one factor and 681 Pa by the other",
          "[checks][reference]") {
  // q = rho V^2/2: 0.613 V^2 as ASCE 7 writes it, 0.625 V^2 (1.25 kg/m3) as EN 1991-1-4; evaluated from the equation.
  const Pressure us = checks::velocityPressure(metresPerSecond(33.0), kilogramsPerCubicMetre(2.0 * 0.613));
  const Pressure eu = checks::velocityPressure(metresPerSecond(33.0), kilogramsPerCubicMetre(1.25));
  CHECK(us.si() == Approx(667.6).margin(0.05));
  CHECK(eu.si() == Approx(680.6).margin(0.05));
  CHECK(checks::windForce(us, 1.5, squareMetres(2.0)).si() == Approx(2003.0).margin(0.5));
}

TEST_CASE("A tighter radius turns the verdict and says where", "[checks][property]") {
  const auto tight = model::withBendRadius(model::firstPanel(), millimetres(100.0));
  REQUIRE(tight.has_value());
  const auto r = reckoned(*tight);
  REQUIRE(r.layout.has_value());
  const Snag* snag = find(r, SnagCode::BendLikelyToFlatten);
  REQUIRE(snag != nullptr);
  CHECK(snag->state == SnagState::Snag);
  CHECK(snag->places.size() > 1);
  CHECK(snag->measured.value_si == Approx(0.1).margin(1e-9));
  CHECK(snag->why.size() >= 5);
}

TEST_CASE("An offcut bend test replaces the computed collapse radius", "[checks][property]") {
  const auto tested = model::withBendTest(model::firstPanel(),
                                          Uncertain<Length>{millimetres(170.0), millimetres(5.0), Sureness::Measured});
  REQUIRE(tested.has_value());
  const auto r = reckoned(*tested);
  REQUIRE(r.bends);
  CHECK(r.bends->fromBendTest);
  CHECK(find(r, SnagCode::BendCollapses) != nullptr);
}

TEST_CASE("Tubes that touch are a snag, a gap of a millimetre and a half is close", "[checks][property]") {
  auto document = model::withPitch(model::firstPanel(), millimetres(20.0));
  REQUIRE(document.has_value());
  CHECK(find(reckoned(*document), SnagCode::TubesTouch) != nullptr);
  document = model::withPitch(model::firstPanel(), millimetres(21.5));
  REQUIRE(document.has_value());
  const auto r = reckoned(*document);
  CHECK(find(r, SnagCode::TubesTouch) == nullptr);
  CHECK(find(r, SnagCode::TubesTooClose) != nullptr);
}

TEST_CASE("A crossing higher than the frame is named with every layer", "[checks][property]") {
  model::Document document = model::firstPanel();
  document.frame.timberDepth = millimetres(60.0);
  const auto r = reckoned(document);
  const Snag* snag = find(r, SnagCode::CrossingTouchesGlazing);
  REQUIRE(snag != nullptr);
  double sum = 0.0;
  for (const Fact& layer : snag->why) sum += layer.value_si;
  CHECK(sum == Approx(snag->measured.value_si).margin(1e-12));
  CHECK(snag->measured.value_si > snag->limit.value_si);
  document.box.glazing.reset();
  CHECK(find(reckoned(document), SnagCode::CrossingTouchesGlazing) == nullptr);
}

TEST_CASE("A glazed panel with a stopped pump in June passes the tube's limit, and its water never passes boiling",
          "[checks][property]") {
  const auto r = reckoned(model::firstPanel());
  CHECK(find(r, SnagCode::TubeOverLimitWhenStopped) != nullptr);
  CHECK(find(r, SnagCode::FirstSlugScalds) != nullptr);
  REQUIRE(r.stopped.has_value());
  for (const auto& layer : r.stopped->layers) {
    if (layer.part == "tube") CHECK(layer.wet_K <= r.stopped->boiling_K + 1e-9);
  }
}

TEST_CASE("A finding left with a reason goes to the end of the list and keeps its words", "[checks][property]") {
  const auto before = reckoned(model::firstPanel());
  REQUIRE_FALSE(before.snags.empty());
  const std::string key = checks::snagKey(before.snags.front());
  const auto left = model::withSnagLeft(model::firstPanel(), key, "shade cloth hangs ready");
  REQUIRE(left.has_value());
  const auto after = reckoned(*left);
  CHECK(after.snags.size() == before.snags.size());
  CHECK(after.snags.back().leftBecause == "shade cloth hangs ready");
  CHECK(checks::snagKey(after.snags.back()) == key);
}

TEST_CASE("Findings are sorted by the cost of ignoring them", "[checks][property]") {
  const auto r = reckoned(model::firstPanel());
  const auto rank = [](const Snag& s) { return s.state == SnagState::Snag ? 0 : s.state == SnagState::Close ? 1 : 2; };
  CHECK(
      std::is_sorted(r.snags.begin(), r.snags.end(), [&](const Snag& a, const Snag& b) { return rank(a) < rank(b); }));
}

TEST_CASE("Masses add up and the water is what the tube holds", "[checks][property]") {
  const auto r = reckoned(model::firstPanel());
  const auto& m = r.masses;
  CHECK(m.wet.si() == Approx((m.dry + m.water).si()).epsilon(1e-12));
  CHECK(m.water.si() == Approx(r.water.value.si() * 997.3).epsilon(1e-3));  // density at 24 C
  CHECK(m.dry.si() > m.tube.si());
}

TEST_CASE("A crossing under the turns takes its depth out of their stand-off", "[checks][analytic]") {
  model::Document document = model::firstPanel();
  document.laying.innerEnd = model::InnerEnd::UnderTheTurns;
  document.box.standOff = document.tube.outsideDiameter.value + metres(0.004);
  const auto laid = layout::lay(document);
  REQUIRE(laid.has_value());
  REQUIRE(laid->runs.front().crossing.has_value());
  const results::DepthBudget under = checks::depthBudget(document, &*laid);
  const results::DepthBudget bare = checks::depthBudget(document, nullptr);
  CHECK(under.needed.si() == bare.needed.si());
  CHECK(under.crossingSpare.si() == under.spare.si());
  double layers = 0.0;
  for (const auto& layer : under.layers) layers += layer.thickness.si();
  CHECK(std::abs(layers - under.needed.si()) < 1e-12);
  REQUIRE(under.layers.size() == bare.layers.size() + 1);
  const std::size_t top = under.layers.size() - 1;
  CHECK(under.layers[top - 1].part == "crossing");
  CHECK(under.layers[top - 1].thickness.si() == document.tube.outsideDiameter.value.si());
  CHECK(under.layers[top - 2].part == "stand_off");
  CHECK(std::abs(under.layers[top - 2].thickness.si() - 0.004) < 1e-12);
}
