// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/buying.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/model/defaults.h"

using namespace sunspool;
using namespace sunspool::stock;
using Catch::Matchers::WithinAbs;

namespace {

const BuyingList::Row& rowOf(const BuyingList& list, const std::string& item) {
  const auto row = std::find_if(list.rows.begin(), list.rows.end(), [&](const auto& r) { return r.item == item; });
  REQUIRE(row != list.rows.end());
  return *row;
}

bool has(const BuyingList& list, const std::string& item) {
  return std::any_of(list.rows.begin(), list.rows.end(), [&](const auto& r) { return r.item == item; });
}

CutPlan planned(const std::vector<WantedPiece>& wanted, const std::vector<StockLength>& stock, const CutRule& rule) {
  Result<CutPlan> plan = planCuts(wanted, stock, rule);
  REQUIRE(plan);
  return *std::move(plan);
}

/// A panel of 2 x 1 m inside with round prices.
model::Document smallPanel() {
  model::Document document = model::firstPanel();
  document.frame.insideWidth = metres(2.0);
  document.frame.insideHeight = metres(1.0);
  document.box.plate->sheet.pricePerSquareMetre = 12.0;
  document.box.insulation->pricePerSquareMetre = 5.0;
  document.box.backing->pricePerSquareMetre = 14.0;
  document.box.glazing->overlap = millimetres(25.0);
  document.box.glazing->sheet.pricePerSquareMetre = std::nullopt;
  document.stock.glazingPricePerSquareMetre = 30.0;
  document.stock.fittingPrice = 1.5;
  document.plumbing.runFittings = {{model::FittingKind::BarbConnector, 2, {}, {}}};
  document.plumbing.feed.fittings = {{model::FittingKind::PipeEntrance, 1, {}, {}},
                                     {model::FittingKind::TeeThrough, 1, {}, {}},
                                     {model::FittingKind::Valve, 1, {}, {}}};
  document.plumbing.returning.fittings = {{model::FittingKind::TeeBranch, 1, {}, {}},
                                          {model::FittingKind::PipeExit, 1, {}, {}}};
  return document;
}

const std::vector<StockLength> kRolls{{"roll 100", metres(100.0), 1, true, 60.0}};
const std::vector<StockLength> kTimber{{"4.8 m", metres(4.8), 0, true, 11.0}};

CutPlan tube() { return planned({{"A", metres(40.0), 1}, {"B", metres(61.0), 1}}, kRolls, {}); }
CutPlan timber() {
  return planned({{"rail", metres(2.07), 2}, {"stile", metres(1.0), 2}}, kTimber, {millimetres(3.0), Length{}});
}

}  // namespace

TEST_CASE("The material list counts whole stock, takes off what is owned and adds up", "[stock][analytic]") {
  const model::Document document = smallPanel();
  const CutPlan tubeCuts = tube();
  const CutPlan timberCuts = timber();
  const BuyingList list = buyingList(document, &tubeCuts, &timberCuts, 2);

  const auto& roll = rowOf(list, "tube");
  CHECK(roll.stockUnits == 2.0);  // 101 m do not come off one roll of 100
  CHECK(roll.owned == 1.0);
  CHECK_THAT(roll.amount, WithinAbs(101.0, 1e-9));
  CHECK(roll.price == model::Price(60.0));
  const auto& boards = rowOf(list, "timber");
  CHECK(boards.stockUnits == 2.0);  // 6.14 m of pieces
  CHECK(boards.price == model::Price(22.0));
  CHECK(rowOf(list, "plate").stockUnits == 2.0);  // exactly 2 m2: not 3
  CHECK(rowOf(list, "plate").price == model::Price(24.0));
  CHECK(rowOf(list, "insulation").price == model::Price(10.0));
  CHECK(rowOf(list, "backing").price == model::Price(28.0));
  const auto& glazing = rowOf(list, "glazing");
  CHECK_THAT(glazing.amount, WithinAbs(2.05 * 1.05, 1e-12));
  CHECK(glazing.stockUnits == 3.0);
  CHECK(glazing.price == model::Price(90.0));
  CHECK(rowOf(list, "barb_connector").amount == 4.0);
  CHECK(rowOf(list, "tee").amount == 2.0);
  CHECK(rowOf(list, "valve").amount == 1.0);
  CHECK_FALSE(has(list, "elbow_90"));
  CHECK(rowOf(list, "pump").note == "not_priced");
  CHECK(rowOf(list, "pump").price == std::nullopt);
  CHECK(list.unknownPrices == 0);
  CHECK_THAT(list.knownTotal, WithinAbs(60.0 + 22.0 + 24.0 + 10.0 + 28.0 + 90.0 + 7 * 1.5, 1e-9));
}

TEST_CASE("An unknown price is asked for and never counted as nothing", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.box.plate->sheet.pricePerSquareMetre = std::nullopt;
  document.stock.fittingPrice = std::nullopt;
  const CutPlan tubeCuts = planned({{"A", metres(40.0), 1}}, {{"roll", metres(50.0), 0, true, std::nullopt}}, {});
  const CutPlan timberCuts = timber();
  const BuyingList list = buyingList(document, &tubeCuts, &timberCuts, 1);
  CHECK(rowOf(list, "tube").price == std::nullopt);
  CHECK(rowOf(list, "plate").price == std::nullopt);
  // Tube, plate, connectors, tees and valve.
  CHECK(list.unknownPrices == 5);
  CHECK_THAT(list.knownTotal, WithinAbs(22.0 + 10.0 + 28.0 + 90.0, 1e-9));
}

TEST_CASE("What is owned costs nothing even when nobody knows its price", "[stock][analytic]") {
  const CutPlan tubeCuts = planned({{"A", metres(40.0), 1}}, {{"roll", metres(50.0), 1, true, std::nullopt}}, {});
  const CutPlan timberCuts = timber();
  const BuyingList list = buyingList(smallPanel(), &tubeCuts, &timberCuts, 1);
  CHECK(rowOf(list, "tube").price == model::Price(0.0));
  CHECK(list.unknownPrices == 0);
}

TEST_CASE("A list without cut plans and without box parts says what is not planned", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.box.plate.reset();
  document.box.insulation.reset();
  document.box.backing.reset();
  document.box.glazing.reset();
  const BuyingList list = buyingList(document, nullptr, nullptr, 0);
  CHECK(rowOf(list, "tube").note == "not_planned");
  CHECK(rowOf(list, "timber").note == "not_planned");
  CHECK_FALSE(has(list, "plate"));
  CHECK_FALSE(has(list, "glazing"));
  CHECK_FALSE(has(list, "barb_connector"));
  CHECK(list.unknownPrices == 2);
}
