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

BuyingPlans plansOf(const CutPlan* tubeCuts, const CutPlan* timberCuts, int runsPerPanel) {
  BuyingPlans plans;
  plans.tube = tubeCuts;
  plans.timber = timberCuts;
  plans.runsPerPanel = runsPerPanel;
  return plans;
}

CutPlan tube() { return planned({{"A", metres(40.0), 1}, {"B", metres(61.0), 1}}, kRolls, {}); }
CutPlan timber() {
  return planned({{"rail", metres(2.07), 2}, {"stile", metres(1.0), 2}}, kTimber, {millimetres(3.0), Length{}});
}

}  // namespace

TEST_CASE("The material list counts whole stock, takes off what is owned and adds up", "[stock][analytic]") {
  const model::Document document = smallPanel();
  const CutPlan tubeCuts = tube();
  const CutPlan timberCuts = timber();
  const BuyingList list = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));

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
  CHECK(rowOf(list, "tee").amount == 4.0);  // one in each pipe, and one where each pipe splits into two runs
  CHECK(rowOf(list, "tee").note == "manifold");
  CHECK(list.manifoldTees == 2);
  CHECK(rowOf(list, "valve").amount == 1.0);
  CHECK_FALSE(has(list, "elbow_90"));
  CHECK(rowOf(list, "pump").note == "not_priced");
  CHECK(rowOf(list, "pump").price == std::nullopt);
  CHECK(list.unknownPrices == 0);
  CHECK_THAT(list.knownTotal, WithinAbs(60.0 + 22.0 + 24.0 + 10.0 + 28.0 + 90.0 + 9 * 1.5, 1e-9));
  CHECK(list.knownLow == list.knownTotal);
  CHECK(list.knownHigh == list.knownTotal);
}

TEST_CASE("An unknown price is asked for and never counted as nothing", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.box.plate->sheet.pricePerSquareMetre = std::nullopt;
  document.stock.fittingPrice = std::nullopt;
  const CutPlan tubeCuts = planned({{"A", metres(40.0), 1}}, {{"roll", metres(50.0), 0, true, std::nullopt}}, {});
  const CutPlan timberCuts = timber();
  const BuyingList list = buyingList(document, plansOf(&tubeCuts, &timberCuts, 1));
  CHECK(rowOf(list, "tube").price == std::nullopt);
  CHECK(rowOf(list, "plate").price == std::nullopt);
  // Tube, plate, connectors, tees and valve.
  CHECK(list.unknownPrices == 5);
  CHECK_THAT(list.knownTotal, WithinAbs(22.0 + 10.0 + 28.0 + 90.0, 1e-9));
}

TEST_CASE("What is owned costs nothing even when nobody knows its price", "[stock][analytic]") {
  const CutPlan tubeCuts = planned({{"A", metres(40.0), 1}}, {{"roll", metres(50.0), 1, true, std::nullopt}}, {});
  const CutPlan timberCuts = timber();
  const BuyingList list = buyingList(smallPanel(), plansOf(&tubeCuts, &timberCuts, 1));
  CHECK(rowOf(list, "tube").price == model::Price(0.0));
  CHECK(list.unknownPrices == 0);
}

TEST_CASE("A list without cut plans and without box parts says what is not planned", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.box.plate.reset();
  document.box.insulation.reset();
  document.box.backing.reset();
  document.box.glazing.reset();
  const BuyingList list = buyingList(document, {});
  CHECK(rowOf(list, "tube").note == "not_planned");
  CHECK(rowOf(list, "timber").note == "not_planned");
  CHECK_FALSE(has(list, "plate"));
  CHECK_FALSE(has(list, "glazing"));
  CHECK_FALSE(has(list, "barb_connector"));
  CHECK(list.unknownPrices == 2);
}

TEST_CASE("Panels alike take their layers, fittings and tees together; each pump its own pipes", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.panelsAlike = 3;
  document.plumbing.feed.fittings = {{model::FittingKind::Valve, 1, {}, {}}};
  document.plumbing.returning.fittings.clear();
  const CutPlan tubeCuts = tube();
  const CutPlan timberCuts = timber();
  const BuyingList together = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  CHECK(rowOf(together, "plate").stockUnits == 6.0);
  CHECK(rowOf(together, "plate").units == Dimension::Area);
  CHECK_THAT(rowOf(together, "glazing").amount, WithinAbs(3 * 2.05 * 1.05, 1e-12));
  CHECK(rowOf(together, "barb_connector").amount == 12.0);
  CHECK(rowOf(together, "tee").amount == 10.0);  // six runs: five tees before them and five behind
  CHECK(rowOf(together, "valve").amount == 1.0);
  CHECK(rowOf(together, "pump").amount == 1.0);

  document.panelsSharePump = false;
  const BuyingList apart = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  CHECK(rowOf(apart, "tee").amount == 6.0);  // three times two runs
  CHECK(rowOf(apart, "valve").amount == 3.0);
  CHECK(rowOf(apart, "pump").amount == 3.0);
  CHECK(rowOf(apart, "feed_pipe").amount == Approx(3.0 * document.plumbing.feed.length.si()));

  // Tees that stand in the runs' own fittings are those of the manifold.
  document.plumbing.runFittings.push_back({model::FittingKind::TeeBranch, 2, {}, {}});
  const BuyingList counted = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  CHECK(counted.manifoldTees == 0);
  CHECK(rowOf(counted, "tee").amount == 12.0);
  CHECK(rowOf(counted, "tee").note.empty());
}

TEST_CASE("Layers cut from sheets are bought by the sheet, owned ones first", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.panelsAlike = 3;
  model::StockSheet offcut;
  offcut.name = "from the barn";
  offcut.width = metres(2.1);
  offcut.height = metres(1.1);
  offcut.owned = 1;
  model::StockSheet whole = offcut;
  whole.name = "2.5 x 1.25";
  whole.width = metres(2.5);
  whole.height = metres(1.25);
  whole.owned = 0;
  whole.price = 25.0;
  offcut.price = 100.0;
  const Result<SheetPlan> plan =
      planSheets(std::vector<WantedRectangle>{{"plate", metres(2.0), metres(1.0), 3}}, std::vector{offcut, whole}, {});
  REQUIRE(plan);
  BuyingPlans plans;
  plans.layers = {{"plate", &*plan}, {"glazing", nullptr}};
  const BuyingList list = buyingList(document, plans);
  std::vector<BuyingList::Row> plates;
  for (const auto& row : list.rows) {
    if (row.item == "plate") plates.push_back(row);
  }
  REQUIRE(plates.size() == 2);
  CHECK(plates[0].name == "from the barn");
  CHECK(plates[0].stockUnits == 1.0);
  CHECK(plates[0].owned == 1.0);
  CHECK(plates[0].price == model::Price(0.0));
  CHECK(plates[1].stockUnits == 2.0);
  CHECK(plates[1].price == model::Price(50.0));
  CHECK(plates[1].units == Dimension::Count);
  CHECK_THAT(plates[1].amount, WithinAbs(4.0, 1e-9));
  CHECK(rowOf(list, "glazing").note == "not_planned");
  CHECK(rowOf(list, "glazing").price == std::nullopt);
  CHECK(rowOf(list, "insulation").stockUnits == 6.0);  // no sheet in the Shed: square metres
}

TEST_CASE("What the Shed holds of fittings, pumps and thermometers comes off", "[stock][analytic]") {
  model::Document document = smallPanel();
  document.plumbing.feed.fittings.clear();
  document.plumbing.returning.fittings.clear();
  document.stock.fittings = {{model::FittingKind::BarbConnector, 3, 0.9}, {model::FittingKind::BarbConnector, 0, 0.7}};
  document.stock.pumps = {{document.plumbing.pump, 0, 45.0}};
  model::Thermometer thermometer;
  thermometer.name = "pool thermometer";
  thermometer.owned = 2;
  document.stock.thermometers = {thermometer, {"another", {}, 0, 12.0, Sureness::Label}};
  const CutPlan tubeCuts = tube();
  const CutPlan timberCuts = timber();
  BuyingList list = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  const auto& barbs = rowOf(list, "barb_connector");
  CHECK(barbs.stockUnits == 4.0);
  CHECK(barbs.owned == 3.0);
  CHECK(barbs.unitPrice == model::Price(0.7));
  CHECK_THAT(*barbs.price, WithinAbs(0.7, 1e-12));
  CHECK(rowOf(list, "tee").unitPrice == model::Price(1.5));  // not in the Shed: the price of any fitting
  CHECK(rowOf(list, "pump").price == model::Price(45.0));
  CHECK(rowOf(list, "pump").note.empty());
  CHECK(rowOf(list, "thermometer").owned == 2.0);
  CHECK(rowOf(list, "thermometer").price == model::Price(0.0));
  CHECK(std::count_if(list.rows.begin(), list.rows.end(), [](const auto& r) { return r.item == "thermometer"; }) == 1);
  document.stock.pumps[0].owned = 1;
  list = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  CHECK(rowOf(list, "pump").price == model::Price(0.0));
  document.stock.pumps[0].pump.name = "some other pump";
  list = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  CHECK(rowOf(list, "pump").note == "not_priced");
  // Free is a price: it is counted, not asked for.
  document.stock.fittingPrice = 0.0;
  list = buyingList(document, plansOf(&tubeCuts, &timberCuts, 2));
  CHECK(rowOf(list, "tee").price == model::Price(0.0));
  CHECK(list.unknownPrices == 0);
}

TEST_CASE("The total has a range where a roll may be shorter or longer than believed", "[stock][analytic]") {
  const model::Document document = smallPanel();
  const CutPlan timberCuts = timber();
  const auto with = [](double roll_m) {
    return planned({{"A", metres(40.0), 2}}, {{"roll", metres(roll_m), 0, true, 50.0}}, {});
  };
  const CutPlan asPlanned = with(79.0), best = with(81.0), worst = with(77.0);
  BuyingPlans plans = plansOf(&asPlanned, &timberCuts, 1);
  plans.tubeAtBest = &best;
  plans.tubeAtWorst = &worst;
  plans.worstWasTried = true;
  const BuyingList list = buyingList(document, plans);
  CHECK(list.rollsLow == 1);
  CHECK(list.rolls == 2);
  CHECK(list.rollsHigh == 2);
  CHECK_THAT(list.knownTotal - list.knownLow, WithinAbs(50.0, 1e-9));
  CHECK(list.knownHigh == list.knownTotal);
  plans.tubeAtWorst = nullptr;  // a run might fit no roll
  const BuyingList open = buyingList(document, plans);
  CHECK(open.rollsHigh == -1);
  CHECK_THAT(open.knownHigh - open.knownTotal, WithinAbs(50.0, 1e-9));
}

TEST_CASE("Every join takes one connector more", "[stock][analytic]") {
  CutPlan tubeCuts = tube();
  tubeCuts.joins = {{0, 1, 2, metres(20.0)}};
  const BuyingList list = buyingList(smallPanel(), plansOf(&tubeCuts, nullptr, 1));
  CHECK(rowOf(list, "barb_connector").amount == 3.0);
}
