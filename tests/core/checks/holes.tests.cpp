// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/holes.h"

#include <catch2/catch.hpp>

#include "core/checks/measures.h"
#include "core/model/defaults.h"

using namespace sunspool;
using Catch::Matchers::WithinAbs;

TEST_CASE("The first panel is bored for its feed low and for its return over the turns", "[checks][analytic]") {
  const model::Document document = model::firstPanel();
  const Result<layout::LaidPanel> laid = layout::lay(document);
  REQUIRE(laid);
  const std::vector<results::Hole> holes = checks::holes(document, *laid);
  REQUIRE(holes.size() == 2);
  const layout::LaidRun& run = laid->runs[0];
  const results::Hole& feed = holes[0];
  const results::Hole& returning = holes[1];
  CHECK(feed.feed);
  CHECK_FALSE(returning.feed);
  CHECK(feed.part == "stile");
  CHECK_THAT(feed.diameter_m, WithinAbs(0.022, 1e-12));
  // Backing 12, insulation 20, plate 1, half a tube of 20; the return one tube higher.
  CHECK_THAT(feed.fromBack_m, WithinAbs(0.012 + 0.020 + 0.001 + 0.010, 1e-12));
  CHECK_THAT(returning.fromBack_m, WithinAbs(feed.fromBack_m + run.crossing->rise_m, 1e-12));
  // Rails go through, so a stile begins at the inside corner.
  CHECK_THAT(feed.along_m, WithinAbs(run.feed.at.y, 1e-12));
  CHECK_THAT(feed.y_m, WithinAbs(run.feed.at.y + 0.035, 1e-12));
  CHECK((feed.x_m == Approx(0.0175) || feed.x_m == Approx(2.34 + 1.5 * 0.035)));
  CHECK(feed.left_m == Approx(std::min({run.feed.at.y, 1.18 - run.feed.at.y, feed.fromBack_m}) - 0.011));
}

TEST_CASE("Stiles that go through begin at the outer corner, and rails then at the inner one", "[checks][analytic]") {
  model::Document document = model::firstPanel();
  document.frame.railsThrough = false;
  const Result<layout::LaidPanel> laid = layout::lay(document);
  REQUIRE(laid);
  const std::vector<results::Hole> holes = checks::holes(document, *laid);
  for (const results::Hole& hole : holes) {
    const bool stile = hole.part == "stile";
    CHECK_THAT(hole.along_m, WithinAbs(stile ? hole.y_m : hole.x_m - 0.035, 1e-12));
  }
}

TEST_CASE("A way through the back bores every layer the box has at the same place", "[checks][analytic]") {
  model::Document document = model::firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  const Result<layout::LaidPanel> laid = layout::lay(document);
  REQUIRE(laid);
  std::vector<results::Hole> holes = checks::holes(document, *laid);
  REQUIRE(holes.size() == 4);
  const char* parts[] = {"plate", "insulation", "backing"};
  for (std::size_t i = 0; i < 3; ++i) {
    const results::Hole& hole = holes[i + 1];
    CHECK(hole.part == parts[i]);
    CHECK_THAT(hole.x_m, WithinAbs(laid->runs[0].returning.at.x + 0.035, 1e-12));
    CHECK_THAT(hole.y_m, WithinAbs(laid->runs[0].returning.at.y + 0.035, 1e-12));
    CHECK(hole.fromBack_m == 0.0);
    CHECK_FALSE(checks::isNearAnEdge(hole));
  }
  document.box.insulation.reset();
  CHECK(checks::holes(document, *laid).size() == 3);
}

TEST_CASE("A hole with less timber beside it than it is wide is near an edge", "[checks][analytic]") {
  results::Hole hole;
  hole.diameter_m = 0.022;
  hole.left_m = 0.021;
  CHECK(checks::isNearAnEdge(hole));
  hole.left_m = 0.0221;
  CHECK_FALSE(checks::isNearAnEdge(hole));
}
