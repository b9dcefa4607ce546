// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/tails.h"

#include <catch2/catch.hpp>

#include "tests/core/layout/panels.h"

using namespace sunspool;
using namespace sunspool::layout;
using namespace sunspool::layout::test;
using Catch::Matchers::WithinAbs;

TEST_CASE("The feed tail is cut as asked from the outer face of the frame", "[layout][tails]") {
  const auto laid = lay(firstPanel());
  REQUIRE(laid.has_value());
  const LaidRun& run = laid->runs.front();
  CHECK_THAT(run.insideFrom_m, WithinAbs(1.4 + 0.035, 1e-12));
  CHECK_THAT(run.path.pointAt(1.4).x, WithinAbs(-0.035, 1e-12));
  CHECK_THAT(run.path.pointAt(run.insideFrom_m).x, WithinAbs(0.0, 1e-12));
  const geometry::Point end = run.path.pointAt(0.0);
  CHECK(end.x < -0.035);
  CHECK(end.y < 0.0);
  CHECK_THAT(run.path.tangentAt(0.0).y, WithinAbs(1.0, 1e-12));
}

TEST_CASE("The return tail counts from the inner end, crossing, ramp and timber included", "[layout][tails]") {
  for (const double tail : {1.4, 3.0}) {
    model::Document document = firstPanel();
    document.laying.returnTail = metres(tail);
    const auto laid = lay(document);
    REQUIRE(laid.has_value());
    const LaidRun& run = laid->runs.front();
    CHECK(run.tailShortBy_m == 0.0);
    CHECK_THAT(run.cutLength_m, WithinAbs(run.turnsTo_m + tail, 1e-12));
  }
}

TEST_CASE("A return tail too short for the way out is drawn to the outer face and said to be short",
          "[layout][tails]") {
  model::Document document = firstPanel();
  document.laying.returnTail = metres(0.3);
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  const LaidRun& run = laid->runs.front();
  REQUIRE(run.crossing.has_value());
  const double way = run.insideTo_m - run.turnsTo_m + run.crossing->extraLength_m + 0.035;
  CHECK_THAT(run.tailShortBy_m, WithinAbs(way - 0.3, 1e-12));
  CHECK_THAT(run.path.length().si(), WithinAbs(run.insideTo_m + 0.035, 1e-12));
  CHECK_THAT(run.cutLength_m, WithinAbs(run.turnsTo_m + way, 1e-12));
}

TEST_CASE("Through the back the path ends at the hole and the tail is cut all the same", "[layout][tails]") {
  model::Document document = firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  const LaidRun& run = laid->runs.front();
  CHECK(run.returning.throughBack);
  CHECK_FALSE(run.crossing.has_value());
  CHECK_THAT(run.path.length().si(), WithinAbs(run.insideTo_m, 1e-12));
  CHECK_THAT(run.cutLength_m, WithinAbs(run.path.length().si() + 1.4, 1e-12));
  CHECK(run.tailBehind_m == 1.4);
  CHECK(geometry::distance(run.returning.at, run.path.pointAt(run.path.length().si())) < 1e-12);
}

TEST_CASE("Tails without length end at the outer faces", "[layout][tails]") {
  model::Document document = firstPanel();
  document.laying.feedTail = metres(0.0);
  document.laying.returnTail = metres(0.0);
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  CHECK_THAT(laid->runs.front().path.pointAt(0.0).x, WithinAbs(-0.035, 1e-12));
  CHECK_THAT(laid->runs.front().insideFrom_m, WithinAbs(0.035, 1e-12));
}

TEST_CASE("A tail too short to bend lies straight", "[layout][tails]") {
  model::Document document = firstPanel();
  document.laying.feedTail = millimetres(300.0);
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  CHECK_THAT(laid->runs.front().path.pointAt(0.0).x, WithinAbs(-0.335, 1e-12));
  CHECK_THAT(laid->runs.front().path.pointAt(0.0).y, WithinAbs(0.040, 1e-12));
}

TEST_CASE("On one stile the upper tail turns down farther out than the lower one", "[layout][tails]") {
  std::vector<detail::Tail> tails{{{-0.035, 0.04}, Side::Left, 2.0, {}}, {{-0.035, 0.75}, Side::Left, 2.0, {}}};
  detail::drawTails({2.34, 0.16, 0.026}, tails);
  const geometry::Path lower(tails[0].pieces);
  const geometry::Path upper(tails[1].pieces);
  CHECK_THAT(lower.length().si(), WithinAbs(2.0, 1e-12));
  CHECK_THAT(upper.length().si(), WithinAbs(2.0, 1e-12));
  CHECK_THAT(lower.pointAt(2.0).x, WithinAbs(-0.035 - 0.15 - 0.16, 1e-12));
  CHECK_THAT(lower.pointAt(2.0).x - upper.pointAt(2.0).x, WithinAbs(0.16 + 2.0 * 0.026, 1e-12));
}

TEST_CASE("Through the bottom rail a tail hangs straight down, through the top rail it turns to the nearer side",
          "[layout][tails]") {
  std::vector<detail::Tail> tails{
      {{1.0, -0.035}, Side::Bottom, 1.0, {}}, {{0.3, 1.215}, Side::Top, 1.0, {}}, {{2.0, 1.215}, Side::Top, 1.0, {}}};
  detail::drawTails({2.34, 0.16, 0.026}, tails);
  CHECK(geometry::distance(geometry::Path(tails[0].pieces).pointAt(1.0), {1.0, -1.035}) < 1e-12);
  CHECK_THAT(geometry::Path(tails[1].pieces).tangentAt(1.0).x, WithinAbs(-1.0, 1e-12));
  CHECK_THAT(geometry::Path(tails[2].pieces).tangentAt(1.0).x, WithinAbs(1.0, 1e-12));
}
