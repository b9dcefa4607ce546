// SPDX-License-Identifier: GPL-3.0-or-later

// What four panels for neighbours take, from the document to the list: hand figures where they are given.

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/evaluate/demand.h"
#include "core/evaluate/evaluate.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"

using namespace sunspool;
using Catch::Matchers::WithinAbs;

namespace {

model::Document neighbours() {
  const auto text = io::readFile(std::string(SUNSPOOL_SAMPLES) + "/four-for-neighbours.sunspool");
  return io::readDocument(text.value()).value().document;
}

const Result<stock::SheetPlan>& cutsOf(const results::Results& results, const std::string& part) {
  const auto cut = std::find_if(results.sheetCuts.begin(), results.sheetCuts.end(),
                                [&](const auto& sheetCut) { return sheetCut.part == part; });
  REQUIRE(cut != results.sheetCuts.end());
  return cut->plan;
}

const stock::BuyingList::Row& rowOf(const results::Results& results, const std::string& item) {
  const auto row = std::find_if(results.buying.rows.begin(), results.buying.rows.end(),
                                [&](const auto& r) { return r.item == item; });
  REQUIRE(row != results.buying.rows.end());
  return *row;
}

}  // namespace

TEST_CASE("Eight rails of 1970 and eight stiles of 940 take six boards of 4.8 m, and one pattern fits by 1 mm",
          "[evaluate][reference]") {
  // Hand: 23.28 m would lie on five; two rails leave 860 < 940, so five boards with eight rails carry six stiles only.
  // 1970 + 3 x 940 + 3 x 3 = 4799.
  const results::Results r = evaluate::evaluate(neighbours(), {});
  REQUIRE(r.timberCuts.has_value());
  CHECK(r.timberCuts->lengthsUsed == 6);
  CHECK(r.timberCuts->proven);
  CHECK(r.timberCuts->proof != "volume bound");
  // The plan lays the stiles in fives and threes and gets round the tight pattern, which is told all the same.
  const std::vector<stock::JustFitting> avoided = stock::justFittingAvoided(*r.timberCuts);
  REQUIRE(avoided.size() == 1);
  CHECK(avoided[0].counts == std::vector<int>{1, 3});
  CHECK_THAT(avoided[0].spare.in(millimetre), WithinAbs(1.0, 1e-6));
}

TEST_CASE("Four glazings of 1010 x 1970 with their room to grow come off two sheets of 1050 x 4000",
          "[evaluate][reference]") {
  const results::Results r = evaluate::evaluate(neighbours(), {});
  const Result<stock::SheetPlan>& glazing = cutsOf(r, "glazing");
  REQUIRE(glazing);
  CHECK(glazing->sheetsUsed == 2);
  CHECK(glazing->proven);
  CHECK(glazing->joints == 0);
  // 6.5e-5 1/K x 60 K x 1970 mm = 7.7 mm and 3.9 mm.
  const double longSide_mm = std::max(glazing->wanted[0].width, glazing->wanted[0].height).in(millimetre);
  CHECK_THAT(longSide_mm, WithinAbs(1970.0 * (1.0 - 6.5e-5 * 60.0), 1e-6));
  CHECK(rowOf(r, "glazing").stockUnits == 2.0);
  CHECK(rowOf(r, "glazing").units == Dimension::Count);
  // One a sheet for what is 940 x 1900 from 1000 x 2000, 1220 x 2440 and 1200 x 2500.
  for (const char* part : {"plate", "insulation", "backing"}) {
    const Result<stock::SheetPlan>& plan = cutsOf(r, part);
    REQUIRE(plan);
    CHECK(plan->sheetsUsed == 4);
    CHECK(plan->proven);
  }
}

TEST_CASE("Panels on one pump share a manifold; neighbours each have their own", "[evaluate][analytic]") {
  model::Document document = neighbours();
  CHECK(evaluate::evaluate(document, {}).buying.manifoldTees == 8);  // four times two runs
  document.panelsSharePump = true;
  CHECK(evaluate::evaluate(document, {}).buying.manifoldTees == 14);  // eight runs: 2 x 7
}

TEST_CASE("A roll of unsure length widens the total and is named", "[evaluate][analytic]") {
  model::Document document = model::firstPanel();
  document.stock.rolls[0].length = metres(81.3);
  document.stock.rolls[0].price = 60.0;
  results::Results r = evaluate::evaluate(document, {});
  REQUIRE(r.tubeCuts.has_value());
  const double cut_m = r.layout->runs[0].cutLength_m;
  document.stock.rolls[0].length = metres(cut_m + 0.05);
  document.stock.rolls[0].spread = metres(2.0);
  r = evaluate::evaluate(document, {});
  REQUIRE(r.tubeCuts.has_value());
  CHECK(r.buying.rollsHigh == -1);  // at the short end the run lies on no roll of this kind
  CHECK_THAT(r.buying.knownHigh - r.buying.knownTotal, WithinAbs(60.0, 1e-9));
  REQUIRE(r.buying.tightRolls.size() == 1);
  // Roll and hand at 95 %, added as squares, less what is left.
  const double wobble_m = (r.layout->runs[0].turnsTo_m - r.layout->runs[0].turnsFrom_m) * 0.004;
  CHECK_THAT(r.buying.tightRolls[0].shortBy.si(), WithinAbs(std::hypot(2.0, wobble_m) - 0.05, 1e-6));
  document.stock.joinsAllowed = true;
  r = evaluate::evaluate(document, {});
  CHECK(r.buying.rollsHigh == 2);
}

TEST_CASE("Where joins are allowed a run longer than the roll is made of two with a connector",
          "[evaluate][analytic]") {
  model::Document document = model::firstPanel();
  document.stock.rolls[0].length = metres(50.0);
  results::Results r = evaluate::evaluate(document, {});
  CHECK_FALSE(r.tubeCuts.has_value());
  CHECK(rowOf(r, "barb_connector").amount == 2.0);
  document.stock.joinsAllowed = true;
  r = evaluate::evaluate(document, {});
  REQUIRE(r.tubeCuts.has_value());
  CHECK(r.tubeCuts->joins.size() == 1);
  CHECK(r.tubeCuts->bought == 2);
  CHECK(rowOf(r, "barb_connector").amount == 3.0);
}

TEST_CASE("Bad sheets are refused layer by layer, the others still planned", "[evaluate][analytic]") {
  model::Document document = neighbours();
  document.box.glazing->lap = metres(1.2);  // wider than the sheet
  document.stock.sheets[0].width = metres(0.9);
  document.stock.sheets[0].height = metres(1.0);
  const results::Results r = evaluate::evaluate(document, {});
  REQUIRE_FALSE(cutsOf(r, "glazing"));
  CHECK(cutsOf(r, "glazing").error().code == ErrorCode::SheetSmallerThanLap);
  CHECK(cutsOf(r, "glazing").error().where == "glazing");
  CHECK(rowOf(r, "glazing").note == "not_planned");
  CHECK(cutsOf(r, "plate"));
}

TEST_CASE("Cuts, sheets and holes are left out of quick answers", "[evaluate][analytic]") {
  const results::Results r = evaluate::evaluate(neighbours(), {.depth = evaluate::Depth::Heat, .ranges = false});
  CHECK(r.sheetCuts.empty());
  CHECK(r.holes.empty());
}
