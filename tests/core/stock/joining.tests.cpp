// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/joining.h"

#include <catch2/catch.hpp>
#include <map>

using namespace sunspool;
using namespace sunspool::stock;
using Catch::Matchers::WithinAbs;

namespace {

double sumOf(const CutPlan& plan) {
  double sum_m = 0.0;
  for (const CutPattern& pattern : plan.patterns) {
    for (const std::size_t piece : pattern.pieces) sum_m += plan.wanted[piece].length.si();
  }
  return sum_m;
}

}  // namespace

TEST_CASE("A run longer than every roll is made of two, with one connector", "[stock][analytic]") {
  const std::vector<WantedPiece> wanted{{"A", metres(80.0), 1}};
  const std::vector<StockLength> rolls{{"roll 50", metres(50.0), 0, true, 30.0}};
  REQUIRE_FALSE(planCuts(wanted, rolls, {}));
  const Result<CutPlan> plan = planCutsWithJoins(wanted, rolls, {});
  REQUIRE(plan);
  CHECK(plan->bought == 2);
  CHECK(plan->proven);  // 80 m do not lie on one roll of 50
  REQUIRE(plan->joins.size() == 1);
  CHECK(plan->wanted[0].count == 0);
  CHECK(plan->wanted[plan->joins[0].first].name == "A1");
  CHECK(plan->wanted[plan->joins[0].second].name == "A2");
  CHECK_THAT(plan->joins[0].at.si(), WithinAbs(50.0, 1e-9));
  CHECK_THAT(sumOf(*plan), WithinAbs(80.0, 1e-9));
}

TEST_CASE("Joins are taken only where they save something", "[stock][analytic]") {
  // Eight runs of 34.2 m: two a roll of 100 without joins, four rolls; 273.6 m lie on three with two joins.
  const std::vector<WantedPiece> wanted{{"A", metres(34.2), 4}, {"B", metres(34.2), 4}};
  const std::vector<StockLength> rolls{{"roll 100", metres(100.0), 0, true, 60.0}};
  REQUIRE(planCuts(wanted, rolls, {})->bought == 4);
  const Result<CutPlan> plan = planCutsWithJoins(wanted, rolls, {});
  REQUIRE(plan);
  CHECK(plan->bought == 3);
  CHECK(plan->price == model::Price(180.0));
  CHECK(plan->joins.size() == 2);
  CHECK(plan->proven);
  CHECK_THAT(sumOf(*plan), WithinAbs(273.6, 1e-9));
  // Six of them lie on three rolls without any.
  const Result<CutPlan> six = planCutsWithJoins(std::vector<WantedPiece>{{"A", metres(34.2), 6}}, rolls, {});
  REQUIRE(six);
  CHECK(six->joins.empty());
  CHECK(six->bought == 3);
}

TEST_CASE("Ends in the Shed are used up to the last metre worth a connector", "[stock][analytic]") {
  const std::vector<StockLength> rolls{{"rest", metres(30.0), 1, false, std::nullopt},
                                       {"roll 50", metres(50.0), 0, true, 30.0}};
  const Result<CutPlan> plan = planCutsWithJoins(std::vector<WantedPiece>{{"A", metres(60.0), 1}}, rolls, {});
  REQUIRE(plan);
  CHECK(plan->bought == 1);
  CHECK_THAT(sumOf(*plan), WithinAbs(60.0, 1e-9));
  // A run that would need two joins is refused in planCuts' own words.
  const Result<CutPlan> refused = planCutsWithJoins(std::vector<WantedPiece>{{"A", metres(140.0), 1}}, rolls, {});
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::PieceLongerThanStock);
  // What is left over is more than no metre: a part of less than a metre is not made.
  const Result<CutPlan> nearly = planCutsWithJoins(std::vector<WantedPiece>{{"A", metres(50.4), 1}},
                                                   std::vector<StockLength>{{"r", metres(50.0), 0, true, 30.0}}, {});
  REQUIRE(nearly);
  REQUIRE(nearly->joins.size() == 1);
  CHECK(nearly->wanted[nearly->joins[0].second].length >= kShortestJoined - metres(1e-9));
}
