// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/lists.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/model/defaults.h"
#include "core/sheet/cutting_diagram.h"
#include "tests/core/sheet/support.h"

using namespace sunspool;
using namespace sunspool::sheet;
using namespace sunspool::sheet_test;

namespace {

/// Four panels' worth of runs and timber (8 runs, 8 rails, 8 stiles) on the sample document.
struct Job {
  model::Document document = model::firstPanel();
  results::Results results;

  Job() {
    std::vector<stock::WantedPiece> runs;
    for (char letter = 'A'; letter < 'I'; ++letter) runs.push_back({std::string(1, letter), metres(34.2), 1});
    results.tubeCuts = stock::planCuts(
        runs, std::vector<stock::StockLength>{{"LDPE 16/13.6", metres(100.0), 1, true, 60.0}}, stock::CutRule{});
    results.timberCuts = stock::planCuts(
        std::vector<stock::WantedPiece>{{"rail", metres(1.970), 8}, {"stile", metres(0.940), 8}},
        std::vector<stock::StockLength>{{"35 x 85", metres(4.8), 0, true, std::nullopt}}, {millimetres(3.0), Length{}});
    stock::BuyingPlans plans;
    plans.tube = &*results.tubeCuts;
    plans.timber = &*results.timberCuts;
    plans.runsPerPanel = 8;
    results.buying = stock::buyingList(document, plans);
    results.masses.wet = kilograms(42.0);
  }
};

bool cautions(const std::vector<Caution>& list, TextKey key) {
  return std::any_of(list.begin(), list.end(), [&](const Caution& c) { return c.key == key; });
}

std::size_t columnOf(const Table& table, const std::string& name) {
  const auto at = std::find(table.columns.begin(), table.columns.end(), name);
  REQUIRE(at != table.columns.end());
  return static_cast<std::size_t>(at - table.columns.begin());
}

}  // namespace

TEST_CASE("The cut list shows every length with its pieces, the proof and what fits only just", "[sheet][analytic]") {
  const Job job;
  const std::vector<Sheet> pages = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  for (char letter = 'A'; letter < 'I'; ++letter) {
    CHECK(countContaining(pages, std::string(1, letter) + " 34.2") == 1);
  }
  CHECK(countContaining(pages, "LDPE 16/13.6 " + keyText(TextKey::FromTheShed)) == 1);
  CHECK(countContaining(pages, keyText(TextKey::ProvenFewest) + "(lengths=4)") == 1);
  CHECK(countContaining(pages, keyText(TextKey::ProvenFewest) + "(lengths=6)") == 1);
  CHECK(countContaining(pages, keyText(TextKey::KerfAndSquaring) + "(kerf=0.003)(squaring=0)") == 1);
  int tight = 0;
  for (const stock::CutPattern& pattern : job.results.timberCuts->patterns) tight += pattern.noSquaringAllowance;
  CHECK(countContaining(pages, keyText(TextKey::NoSquaringAllowance) + "(number=") == tight);
  CHECK(countContaining(pages, keyText(TextKey::CautionLocalCodes)) == 1);
  // Eight rails in all, single or as "2 x rail".
  int rails = 0;
  for (const Sheet& page : pages) {
    for (const Text& text : textsOf(page)) {
      for (std::size_t at = text.text.find("rail 1.97"); at != std::string::npos;
           at = text.text.find("rail 1.97", at + 1)) {
        const bool doubled = at >= 5 && text.text.compare(at - 5, 5, "2 \u00D7 ") == 0;
        rails += doubled ? 2 : 1;
      }
    }
  }
  CHECK(rails == 8);
}

TEST_CASE("A plan that failed is told in the app's sentence, and an unproven one with its gap", "[sheet][analytic]") {
  Job job;
  job.results.tubeCuts = Error{ErrorCode::PieceLongerThanStock, "/stock", "A", {}};
  stock::CutPlan open = *job.results.timberCuts;
  open.proven = false;
  open.lowerBound = 5;
  job.results.timberCuts = open;
  const std::vector<Sheet> pages = cutListSheets(job.document, job.results, Paper::Letter, plainTexts());
  CHECK(countContaining(pages, "error:A") == 1);
  CHECK(countContaining(pages, keyText(TextKey::NotProven) + "(lengths=6)(at_least=5)") == 1);
  CHECK(countContaining(pages, keyText(TextKey::ProvenFewest)) == 0);
}

TEST_CASE("What is left on purpose is printed with its reason", "[sheet][analytic]") {
  Job job;
  CHECK(countContaining(cutListSheets(job.document, job.results, Paper::A4, plainTexts()),
                        keyText(TextKey::LeftOnPurposeHeading)) == 0);
  Snag open;
  open.code = SnagCode::BendClose;
  Snag left;
  left.code = SnagCode::TubesTouch;
  left.leftBecause = "tied down by hand";
  job.results.snags = {open, left};
  const std::vector<Sheet> pages = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(pages, keyText(TextKey::LeftOnPurposeHeading)) == 1);
  CHECK(countContaining(pages, "tied down by hand") == 1);
  CHECK(countContaining(pages, "snag" + std::to_string(static_cast<int>(SnagCode::BendClose)) + " ") == 0);
}

TEST_CASE("The material list carries every row once, asks for unknown prices and states the total",
          "[sheet][analytic]") {
  const Job job;
  const std::vector<Sheet> pages = materialListSheets(job.document, job.results, Paper::A4, plainTexts());
  for (const stock::BuyingList::Row& row : job.results.buying.rows) {
    int found = 0;
    for (const Sheet& page : pages) {
      for (const Text& text : textsOf(page)) found += text.text == row.item ? 1 : 0;
    }
    INFO(row.item);
    CHECK(found == 1);
  }
  CHECK(job.results.buying.unknownPrices == 3);  // timber, plate, glazing
  CHECK(countContaining(pages, keyText(TextKey::PricesToAsk) + "(count=3)") == 1);
  CHECK(countContaining(pages, keyText(TextKey::KnownTotal) + "(total=") == 1);
  CHECK(countContaining(pages, "180 EUR") == 1);  // three rolls bought, one from the Shed
}

TEST_CASE("A project's name too long for the running head is printed once in full", "[sheet][analytic]") {
  Job job;
  const std::vector<Sheet> plain = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(plain, job.document.name) == static_cast<int>(plain.size()));  // the heads alone
  job.document.name.assign(120, 'n');
  const std::vector<Sheet> pages = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  std::size_t printed = 0;
  for (const Text& text : textsOf(pages.front())) {
    printed += text.text.find_first_not_of('n') == std::string::npos ? text.text.size() : 0;
  }
  CHECK(printed == 120);
  CHECK(countContaining(pages, "n\u2026") == static_cast<int>(pages.size()));
}

TEST_CASE("A hundred rolls still print completely, on both papers", "[sheet][property]") {
  Job job;
  std::vector<stock::WantedPiece> runs;
  for (int i = 0; i < 100; ++i) runs.push_back({"run" + std::to_string(i), metres(60.0 + 0.1 * i), 1});
  job.results.tubeCuts =
      stock::planCuts(runs, std::vector<stock::StockLength>{{"roll", metres(100.0), 0, true, 60.0}}, stock::CutRule{});
  REQUIRE(job.results.tubeCuts);
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    const std::vector<Sheet> pages = cutListSheets(job.document, job.results, paper, plainTexts());
    CHECK(pages.size() > 2);
    for (int i = 0; i < 100; ++i) CHECK(countContaining(pages, "run" + std::to_string(i) + " ") == 1);
  }
}

TEST_CASE("The cut table gives each piece its place on its length, to the micrometre", "[sheet][analytic]") {
  Job job;
  job.results.timberCuts =
      stock::planCuts(std::vector<stock::WantedPiece>{{"rail", metres(1.970), 1}, {"stile", metres(0.940), 2}},
                      std::vector<stock::StockLength>{{"35 x 85", metres(4.8), 0, true, std::nullopt}},
                      {millimetres(3.0), millimetres(5.0)});
  const Table table = cutListTable(job.results);
  const std::size_t kind = columnOf(table, "kind");
  const std::size_t start = columnOf(table, "start_m");
  const std::size_t length = columnOf(table, "length_m");
  std::vector<std::vector<Cell>> timber;
  for (const auto& row : table.rows) {
    REQUIRE(row.size() == table.columns.size());
    if (row[0] == Cell(std::string("timber"))) timber.push_back(row);
  }
  REQUIRE(timber.size() == 4);
  const double starts[] = {0.005, 1.978, 2.921, 3.864};
  const double lengths[] = {1.97, 0.94, 0.94, 0.936};
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(timber[i][start] == Cell(starts[i]));
    CHECK(timber[i][length] == Cell(lengths[i]));
    CHECK(timber[i][kind] == Cell(std::string(i < 3 ? "piece" : "left")));
  }
  // Pieces and remainders of the tube add up to the rolls they come from.
  double sum_m = 0.0;
  for (const auto& row : table.rows) {
    if (row[0] == Cell(std::string("tube"))) sum_m += std::get<double>(row[length]);
  }
  CHECK(sum_m == Approx(400.0).epsilon(1e-12));
}

TEST_CASE("The material table says ask for an unknown price and leaves blank what it does not carry",
          "[sheet][analytic]") {
  const Job job;
  const Table table = materialListTable(job.document, job.results);
  const std::size_t price = columnOf(table, "price");
  bool sawTimber = false;
  bool sawPump = false;
  for (const auto& row : table.rows) {
    REQUIRE(row.size() == table.columns.size());
    if (row[0] == Cell(std::string("timber"))) {
      sawTimber = true;
      CHECK(row[price] == Cell(std::string("ask")));
    }
    if (row[0] == Cell(std::string("pump"))) {
      sawPump = true;
      CHECK(row[price] == Cell());
    }
  }
  CHECK((sawTimber && sawPump));
  const std::string csv = csvText(table);
  CHECK(csv.find("timber,35 x 85,23.328,,,6,0,ask,ask,EUR,,piece\r\n") != std::string::npos);
  // 3 m2 at 5.2: 15.600000000000001 in binary, 15.6 on paper.
  CHECK(csv.find("insulation,Extruded polystyrene board,,2.7612,,3,0,5.2,15.6,EUR,,m2\r\n") != std::string::npos);
  CHECK(table.rows.size() == job.results.buying.rows.size());
}

TEST_CASE("Cautions follow what the panel would reach with the pump stopped, and the lasting ones always stand",
          "[sheet][analytic]") {
  Job job;
  const std::vector<Caution> unknown = cautionsFor(job.document, job.results);
  CHECK(cautions(unknown, TextKey::CautionStoppedNotKnown));
  CHECK(cautions(unknown, TextKey::CautionSteam));
  CHECK(cautions(unknown, TextKey::CautionScaldingFirstWater));

  thermal::StoppedHeat stopped;
  stopped.layers = {{"glazing", 350.0, 345.0, 393.15, "label"},
                    {"tube", 380.0, 373.0, 323.15, "table"},
                    {"insulation", 370.0, 365.0, std::nullopt, ""}};
  stopped.waterBoils = true;
  job.results.stopped = stopped;
  const std::vector<Caution> hot = cautionsFor(job.document, job.results);
  CHECK(cautions(hot, TextKey::CautionSteam));
  CHECK(cautions(hot, TextKey::CautionTubeOverLimit));
  CHECK_FALSE(cautions(hot, TextKey::CautionGlazingOverLimit));
  CHECK_FALSE(cautions(hot, TextKey::CautionInsulationOverLimit));  // no limit known: nothing is claimed either way
  CHECK_FALSE(cautions(hot, TextKey::CautionStoppedNotKnown));

  stopped.layers = {{"tube", 310.0, 308.0, 323.15, "table"}};
  stopped.waterBoils = false;
  job.results.stopped = stopped;
  const std::vector<Caution> mild = cautionsFor(job.document, job.results);
  CHECK_FALSE(cautions(mild, TextKey::CautionScaldingFirstWater));
  CHECK_FALSE(cautions(mild, TextKey::CautionSteam));
  CHECK_FALSE(cautions(mild, TextKey::CautionTubeOverLimit));

  CHECK_FALSE(cautions(mild, TextKey::CautionRoof));
  job.document.siting.lowerEdgeAbovePool = metres(3.0);
  CHECK(cautions(cautionsFor(job.document, job.results), TextKey::CautionRoof));
  for (const TextKey key :
       {TextKey::CautionMains, TextKey::CautionElectricalParts, TextKey::CautionWind, TextKey::CautionSuction,
        TextKey::CautionPoolWater, TextKey::CautionNotForDrinking, TextKey::CautionPressureAndFreezing,
        TextKey::CautionStandingWater, TextKey::CautionLocalCodes}) {
    CHECK(cautions(mild, key));
  }
}

namespace {

/// Four glazings from two sheets cut alike, one plate in two halves, and two holes.
Job jobWithSheets() {
  Job job;
  job.document.panelsAlike = 4;
  model::StockSheet sheet;
  sheet.name = "Twin-wall";
  sheet.width = metres(1.05);
  sheet.height = metres(4.0);
  const Result<stock::SheetPlan> glazing =
      stock::planSheets(std::vector<stock::WantedRectangle>{{"glazing", metres(1.01), metres(1.97), 4}},
                        std::vector{sheet}, {millimetres(3.0), {}, {}, 0.0039});
  sheet.name = "Steel";
  sheet.width = metres(1.2);
  sheet.height = metres(1.2);
  const Result<stock::SheetPlan> plate =
      stock::planSheets(std::vector<stock::WantedRectangle>{{"plate", metres(2.0), metres(1.0), 1}}, std::vector{sheet},
                        {millimetres(3.0), {}, millimetres(3.0), 0.0});
  REQUIRE((glazing && plate));
  job.results.sheetCuts = {{"plate", *plate},
                           {"insulation", Error{ErrorCode::NoStock, "sheets", {}, {}}},
                           {"backing", Error{ErrorCode::PieceLongerThanStock, "backing", "B", {}}},
                           {"glazing", *glazing}};
  results::Hole feed;
  feed.part = "stile";
  feed.side = layout::Side::Right;
  feed.feed = true;
  feed.along_m = 0.456;
  feed.fromBack_m = 0.043;
  feed.diameter_m = 0.022;
  results::Hole back;
  back.part = "plate";
  back.x_m = 1.234;
  back.y_m = 0.567;
  back.diameter_m = 0.022;
  back.left_m = 0.009;
  back.nearEdge = true;
  job.results.holes = {feed, back};
  return job;
}

int rectsOn(const std::vector<Sheet>& pages) {
  int count = 0;
  for (const Sheet& page : pages) {
    for (const Item& item : page.items) count += std::holds_alternative<Rect>(item) ? 1 : 0;
  }
  return count;
}

}  // namespace

TEST_CASE("Each kind of cut sheet is drawn once, and every layer is told or its failure is", "[sheet][analytic]") {
  const Job job = jobWithSheets();
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    const std::vector<Sheet> pages = cutListSheets(job.document, job.results, paper, plainTexts());
    // Two glazing sheets cut alike: one drawing of 2 pieces. Two plate sheets of a half each, cut alike: one of 1.
    CHECK(rectsOn(pages) == (1 + 2) + (1 + 1));
    CHECK(countContaining(pages, "(number=1)(alike=2)") == 2);
    CHECK(countContaining(pages, keyText(TextKey::ForPanelsAlike) + "(count=4)") == 1);
    CHECK(countContaining(pages, keyText(TextKey::BySquareMetre)) == 1);
    CHECK(countContaining(pages, "error:B") == 1);
    CHECK(countContaining(pages, keyText(TextKey::MadeOfButted) + "(pieces=2)(gap=0.003)") == 1);
    CHECK(countContaining(pages, keyText(TextKey::SheetsProven) + "(sheets=2)") == 2);
    CHECK(countContaining(pages, keyText(TextKey::RoomToGrow)) == 2);
    // Nothing is drawn beyond the page's margins.
    for (const Sheet& page : pages) {
      for (const Item& item : page.items) {
        if (const auto* rect = std::get_if<Rect>(&item)) {
          CHECK(rect->upperLeft.x_mm >= 17.9);
          CHECK(rect->upperLeft.y_mm >= 17.9);
          CHECK(rect->upperLeft.x_mm + rect->width_mm <= page.width_mm - 17.9);
          CHECK(rect->upperLeft.y_mm + rect->height_mm <= page.height_mm - 17.9);
        }
      }
    }
  }
}

TEST_CASE("A cutting diagram is to scale and numbers its pieces", "[sheet][analytic]") {
  const Job job = jobWithSheets();
  const stock::SheetPlan& plan = *job.results.sheetCuts[3].plan;
  const Drawing drawing = cuttingDiagram(plan, plan.patterns[0], plainTexts());
  std::vector<Rect> rects;
  std::vector<std::string> said;
  for (const Item& item : drawing.items) {
    if (const auto* rect = std::get_if<Rect>(&item)) rects.push_back(*rect);
    if (const auto* text = std::get_if<Text>(&item)) said.push_back(text->text);
  }
  REQUIRE(rects.size() == 3);
  const Rect& whole = rects.back();
  CHECK(whole.height_mm / whole.width_mm == Approx(4.0 / 1.05));
  CHECK(rects[0].height_mm / rects[0].width_mm == Approx(1.97 / 1.01).epsilon(1e-5));
  CHECK(rects[0].upperLeft.y_mm + rects[0].height_mm == Approx(whole.height_mm));  // the first lies at the bottom
  CHECK(std::count(said.begin(), said.end(), "1") == 1);
  CHECK(std::count(said.begin(), said.end(), "2") == 1);
}

TEST_CASE("Holes are told with their places, and those near an edge once more", "[sheet][analytic]") {
  const Job job = jobWithSheets();
  const std::vector<Sheet> pages = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(pages, "stile_right") == 1);
  CHECK(countContaining(pages, "0.456") == 1);
  CHECK(countContaining(pages, "1.234") == 1);
  CHECK(countContaining(pages, "0.567") == 1);
  CHECK(countContaining(pages, keyText(TextKey::HoleNearEdge) + "(number=2)(left=0.009)") == 1);
  const Table table = cutListTable(job.results);
  const std::size_t kind = columnOf(table, "kind");
  const std::size_t diameter = columnOf(table, "diameter_m");
  int holes = 0;
  int glazings = 0;
  for (const auto& row : table.rows) {
    REQUIRE(row.size() == table.columns.size());
    glazings += row[0] == Cell(std::string("glazing")) && row[kind] == Cell(std::string("piece")) ? 1 : 0;
    if (row[kind] != Cell(std::string("hole"))) continue;
    ++holes;
    CHECK(row[diameter] == Cell(0.022));
  }
  CHECK(holes == 2);
  CHECK(glazings == 4);
}

TEST_CASE("The sum of lengths is told where it would promise too little", "[sheet][analytic]") {
  const Job job;
  const std::vector<Sheet> pages = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  // 23.28 m of timber would lie on five boards; the pieces need six.
  CHECK(countContaining(pages, keyText(TextKey::MoreThanByLength) + "(lengths=6)(by_length=5)") == 1);
}

TEST_CASE("The full cautions stand on the cut list, those about buying on the material list", "[sheet][analytic]") {
  Job job;
  const std::vector<Sheet> cut = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  const std::vector<Sheet> bought = materialListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(cut, keyText(TextKey::CautionSuction)) == 1);
  CHECK(countContaining(bought, keyText(TextKey::CautionSuction)) == 0);
  CHECK(countContaining(bought, keyText(TextKey::CautionElectricalParts)) == 1);
  CHECK(countContaining(bought, keyText(TextKey::CautionsElsewhere)) == 1);
  CHECK(countContaining(cut, keyText(TextKey::WindNotScreened)) == 1);
  CHECK(countContaining(bought, keyText(TextKey::WindNotScreened)) == 1);
  job.results.wind = results::Wind{pascals(1240.0), exactly(Force::fromSi(980.665)), Force::fromSi(196.133),
                                   exactly(kilograms(80.0)), 2.0};
  const std::vector<Sheet> screened = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(screened, keyText(TextKey::WindScreened) + "(low=100)(high=100)(weight=20)") == 1);
  CHECK(countContaining(screened, keyText(TextKey::WindNotScreened)) == 0);
}

TEST_CASE("Joins, rolls that may be short and the range of the total are told", "[sheet][analytic]") {
  Job job;
  job.results.tubeCuts->joins = {{0, 1, 2, metres(12.5)}};
  job.results.buying.tightRolls = {{2, metres(0.8)}};
  job.results.buying.rollsLow = job.results.buying.rolls = 3;
  job.results.buying.rollsHigh = 4;
  job.results.buying.knownHigh = job.results.buying.knownLow + 60.0;
  job.results.buying.manifoldTees = 14;
  const std::vector<Sheet> cut = cutListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(cut, "A = B + C: " + keyText(TextKey::JoinedAt) + "(tube=12.5)") == 1);
  CHECK(countContaining(cut, keyText(TextKey::RollMayBeShort) + "(number=3)(short_by=0.8)") == 1);
  const std::vector<Sheet> bought = materialListSheets(job.document, job.results, Paper::A4, plainTexts());
  CHECK(countContaining(bought, keyText(TextKey::RollsRange) + "(low=3)(planned=3)(high=4)") == 1);
  CHECK(countContaining(bought, keyText(TextKey::KnownRange)) == 1);
  CHECK(countContaining(bought, keyText(TextKey::ManifoldTees) + "(count=14)") == 1);
  job.results.buying.rollsHigh = -1;
  CHECK(countContaining(materialListSheets(job.document, job.results, Paper::A4, plainTexts()),
                        keyText(TextKey::RunMayFitNoRoll)) == 1);
}
