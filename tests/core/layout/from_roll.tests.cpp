// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/from_roll.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/model/defaults.h"
#include "core/model/edits.h"

using namespace sunspool;
using layout::layFromRoll;

namespace {

model::Document withRoll(double length_m, double spread_m = 0.0) {
  model::Document document = model::firstPanel();
  document.stock.rolls = {{"left over", metres(length_m), 1, {}, Sureness::Measured, metres(spread_m)}};
  return document;
}

double cut_m(const model::Document& document, int quarterTurns) {
  const auto panel = layout::lay(model::withQuarterTurns(document, quarterTurns).value());
  return panel ? panel->totalCut.si() : INFINITY;
}

}  // namespace

TEST_CASE("A roll is laid to its last quarter turn, wobble and its own spread kept back", "[layout][analytic]") {
  const double spread_m = GENERATE(0.0, 0.5);
  const double length_m = GENERATE(20.0, 41.3, 60.0);
  const model::Document document = withRoll(length_m, spread_m);
  const auto laid = layFromRoll(document, 0);
  REQUIRE(laid);
  CHECK_FALSE(laid->panelFull);
  CHECK_FALSE(laid->tubeChanged);
  CHECK(laid->document.laying.quarterTurns == laid->quarterTurns);
  const auto taken = [&](double drawn_m) { return drawn_m + std::hypot(0.004 * drawn_m, spread_m); };
  CHECK_THAT(laid->cut.si(), Catch::WithinAbs(cut_m(document, laid->quarterTurns), 1e-9));
  CHECK(taken(laid->cut.si()) <= length_m);
  CHECK(taken(cut_m(document, laid->quarterTurns + 1)) > length_m);
  CHECK_THAT(laid->left.si(), Catch::WithinAbs(length_m - laid->cut.si(), 1e-9));
  CHECK_THAT(laid->leftAtLeast.si(), Catch::WithinAbs(length_m - taken(laid->cut.si()), 1e-9));
  CHECK(layout::lay(laid->document).has_value());
}

TEST_CASE("A long roll fills the panel and says that more would be on it", "[layout]") {
  const auto laid = layFromRoll(withRoll(200.0), 0);
  REQUIRE(laid);
  CHECK(laid->panelFull);
  CHECK(laid->left > metres(50.0));
}

TEST_CASE("A roll too short for one turn is refused with what a turn takes", "[layout]") {
  const auto laid = layFromRoll(withRoll(6.0), 0);
  REQUIRE_FALSE(laid);
  CHECK(laid.error().code == ErrorCode::RollTooShort);
  CHECK(laid.error().detail == "left over");
  REQUIRE(laid.error().facts.size() == 2);
  CHECK(laid.error().facts[0].value_si > 6.0);
  CHECK_THAT(laid.error().facts[1].value_si, Catch::WithinAbs(6.0, 1e-12));
  CHECK(layFromRoll(withRoll(6.0), 1).error().code == ErrorCode::MissingKey);
}

TEST_CASE("A roll of another tube brings its diameters, and an offcut's bend test no longer counts", "[layout]") {
  model::Document document = withRoll(40.0);
  document.tube.bendTestCollapseRadius = {metres(0.09), metres(0.005), Sureness::Measured};
  document.stock.rolls[0].outsideDiameter = metres(0.016);
  document.stock.rolls[0].insideDiameter = metres(0.0136);
  const auto laid = layFromRoll(document, 0);
  REQUIRE(laid);
  CHECK(laid->tubeChanged);
  CHECK(laid->document.tube.outsideDiameter.value == metres(0.016));
  CHECK(laid->document.tube.insideDiameter.value == metres(0.0136));
  CHECK(laid->document.tube.catalogueId.empty());
  CHECK_FALSE(laid->document.tube.bendTestCollapseRadius);
  document.stock.rolls[0].outsideDiameter = metres(0.032);
  CHECK(layFromRoll(document, 0).error().code == ErrorCode::PitchBelowDiameter);
}

TEST_CASE("Several runs of one panel share the roll", "[layout]") {
  model::Document document = withRoll(60.0);
  document.laying.starts = 2;
  const auto laid = layFromRoll(document, 0);
  REQUIRE(laid);
  CHECK(laid->cut <= metres(60.0));
  CHECK(laid->cut > metres(45.0));
}
