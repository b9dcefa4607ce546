// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/keep_outs.h"

#include <catch2/catch.hpp>
#include <numbers>

#include "tests/core/layout/panels.h"

using namespace sunspool;
using namespace sunspool::layout;
using namespace sunspool::layout::test;
using Catch::Matchers::WithinAbs;

TEST_CASE("A keep-out in the bare core costs no turn, only net area", "[layout][keep_outs]") {
  model::Document document = firstPanel();
  const auto without = lay(document);
  document.keepOuts = {block("post", 1.0, 0.50, 1.4, 0.68)};
  const auto with = lay(document);
  REQUIRE(without.has_value());
  REQUIRE(with.has_value());
  CHECK(with->runs.front().path == without->runs.front().path);
  CHECK_THAT(with->netArea.si(), WithinAbs(2.34 * 1.18 - 0.4 * 0.18, 1e-9));
  // The keep-out grows by 5 mm of clearance and 10 mm of tube; its round corners are chords.
  const double grown = 0.4 * 0.18 + 2.0 * 0.58 * 0.015 + std::numbers::pi * 0.015 * 0.015;
  CHECK_THAT(geometry::area(with->region).si(), WithinAbs(2.26 * 1.10 - grown, 1e-5));
}

TEST_CASE("A keep-out between border and core takes turns away", "[layout][keep_outs]") {
  model::Document document = firstPanel();
  document.keepOuts = {block("bracket", 1.0, 0.30, 1.4, 0.60)};
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  CHECK(laid->mostQuarterTurns == 63);
  // Bottom legs lie at 40 + 26 j mm and have to keep 15 mm from 300 mm: j = 9 at 274 mm is the last. The left leg
  // before the tenth bottom leg is the last side of all, the 40th.
  CHECK(laid->runs.front().quarterTurns == 40);

  document.laying.quarterTurns = 63;
  const auto asked = lay(document);
  REQUIRE_FALSE(asked.has_value());
  CHECK(asked.error().code == ErrorCode::KeepOutInTheWay);
  CHECK(asked.error().where == "bracket");
}

TEST_CASE("A keep-out on the outermost turn is in the way", "[layout][keep_outs][refusal]") {
  model::Document document = firstPanel();
  document.keepOuts = {block("strap", 1.0, -0.01, 1.05, 1.2)};
  const auto laid = lay(document);
  REQUIRE_FALSE(laid.has_value());
  CHECK(laid.error().code == ErrorCode::KeepOutInTheWay);
  CHECK(laid.error().where == "strap");
}

TEST_CASE("A keep-out over an exit says so", "[layout][keep_outs][refusal]") {
  model::Document document = firstPanel();
  document.keepOuts = {block("over the feed", -0.01, 0.02, 0.02, 0.06)};
  CHECK(lay(document).error().code == ErrorCode::KeepOutOverExit);
  CHECK(lay(document).error().where == "over the feed");

  document.keepOuts = {block("over the return", 0.0, 0.74, 0.01, 0.76)};
  document.laying.quarterTurns = 63;
  const auto laid = lay(document);
  REQUIRE_FALSE(laid.has_value());
  CHECK(laid.error().code == ErrorCode::KeepOutOverExit);
  CHECK(laid.error().where == "over the return");
}

TEST_CASE("A keep-out wholly outside the laid band is no matter", "[layout][keep_outs]") {
  model::Document document = firstPanel();
  document.keepOuts = {block("beside", 3.0, 0.0, 3.2, 1.0), block("in the margin", 1.0, 0.0, 1.2, 0.02)};
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  CHECK(laid->runs.front().quarterTurns == 63);
  CHECK_THAT(laid->netArea.si(), WithinAbs(2.34 * 1.18 - 0.2 * 0.02, 1e-9));
}

TEST_CASE("A keep-out that crosses itself is refused by its id", "[layout][keep_outs][refusal]") {
  model::Document document = firstPanel();
  model::KeepOut bowTie = block("bow tie", 0.0, 0.0, 1.0, 1.0);
  bowTie.outline.corners = {{1.0, 0.5}, {1.2, 0.6}, {1.2, 0.5}, {1.0, 0.6}};
  document.keepOuts = {bowTie};
  const auto laid = lay(document);
  REQUIRE_FALSE(laid.has_value());
  CHECK(laid.error().code == ErrorCode::OutlineCrossesItself);
  CHECK(laid.error().where == "bow tie");
}

TEST_CASE("A serpentine lays the passes before a keep-out", "[layout][keep_outs]") {
  model::Document document = firstPanel();
  document.laying.recipe = model::Recipe::PlainSerpentine;
  document.laying.pitch = millimetres(320.0);
  document.keepOuts = {block("top", 1.0, 0.98, 1.2, 1.1)};
  const auto laid = lay(document);
  REQUIRE(laid.has_value());
  CHECK(laid->runs.front().quarterTurns == 3);
  CHECK(laid->mostQuarterTurns == 4);
}
