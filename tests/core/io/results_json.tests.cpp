// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/results_json.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <set>

#include "core/base/number_text.h"
#include "core/io/json_tree.h"
#include "tests/core/io/support.h"

using namespace sunspool;
using io::JsonKind;
using io::JsonNode;

namespace {

layout::LaidPanel laid() {
  layout::LaidPanel panel;
  for (const char letter : {'A', 'B'}) {
    layout::LaidRun run;
    run.letter = letter;
    run.path = geometry::Path({geometry::Line{{0.0, 0.0}, {3.0, 0.0}}});
    run.cutLength_m = 3.1;
    run.quarterTurns = 5;
    run.feed.side = layout::Side::Bottom;
    run.returning.throughBack = true;
    panel.runs.push_back(run);
  }
  panel.runs[0].crossing = layout::Crossing{1.0, 2.0, 0.02, 0.1, 0.003, 7};
  panel.totalCut = metres(6.2);
  return panel;
}

/// Results with something in every part.
results::Results everything() {
  results::Results results;
  results.layout = laid();
  results.tubeLength = {metres(6.2), metres(6.1), metres(6.3)};
  results.water = exactly(litres(1.25));
  results::Bends bends;
  bends.worst = results::Bend{1, 2.5, 2.4, 2.6, 0.16, 0.48, 0.05, 0.0625};
  bends.all = {*bends.worst};
  bends.verdict = results::BendVerdict::LikelyToFlatten;
  results.bends = bends;
  results.depth.layers = {{"backing", metres(0.012)}};
  results.sun = results::SunNow{};
  results::Flow flow;
  flow.flow = {litresPerMinute(6.0), litresPerMinute(5.0), litresPerMinute(7.0)};
  flow.network.runs.resize(2);
  results.flow = flow;
  results::Heat heat;
  heat.toPool = {watts(1090.0), watts(900.0), watts(1400.0)};
  heat.outlet = exactly(celsius(26.5));
  heat.steady.runs.resize(2);
  results.heat = heat;
  thermal::StoppedHeat stopped;
  stopped.layers = {{"glazing", 380.0, 360.0, 393.15, "a source"}, {"plate", 400.0, 375.0, std::nullopt, ""}};
  results.stopped = stopped;
  results.profiles = {{{{0.1, 297.15, 2000.0, 0.3, 0.5}, {20.0, 300.25, -1500.5, 0.9, 0.75}}, -1500.5, 20.0}, {}};
  stock::CutPlan plan;
  plan.wanted = {{"run A", metres(3.1), 2}};
  plan.stock = {{"roll", metres(100.0), 1, true, 62.0}};
  plan.patterns.resize(1);
  plan.patterns[0].pieces = {0, 0};
  plan.patterns[0].left = metres(93.8);
  plan.proof = "search";
  results.tubeCuts = plan;
  results.timberCuts = Error{ErrorCode::NoStock, "/stock/timbers", {}, {}};
  results.buying.rows = {{"tube", "roll", 100.0, Dimension::Length, 1.0, 0.0, 62.0, 62.0, ""},
                         {"glazing", "sheet", 2.5, Dimension::Area, 3.0, 0.0, std::nullopt, std::nullopt, ""}};
  stock::SheetPlan sheets;
  sheets.wanted = {{"glazing", metres(1.0), metres(2.0), 2}};
  sheets.divisions = {{1, 2}};
  sheets.stock = {{"sheet", model::SheetUse::Glazing, metres(1.05), metres(4.0), 0, 12.0, Sureness::Label, true}};
  sheets.patterns = {{0, false, {{0, 1, metres(0.5), Length{}, metres(1.0), metres(0.98), true}}, {}, {}}};
  results.sheetCuts = {{"glazing", sheets}, {"plate", Error{ErrorCode::NoStock, "sheets", {}, {}}}};
  results.holes = {{"stile", layout::Side::Left, 'B', true, 0.02, 0.5, 0.043, 0.022, 0.465, 0.03}};
  results.buying.tightRolls = {{0, metres(0.4)}};
  results.buying.rollsHigh = -1;
  results.influences = {{"/box/plate_contact_share", Sureness::Guess, 0.0, 180.0, 0.0}};
  Snag snag;
  snag.code = SnagCode::BendClose;
  snag.state = SnagState::Close;
  snag.places = {{1, 2.5, {}}, {-1, 0.0, "glazing"}};
  snag.measured = {"index", 0.7, Dimension::None};
  snag.limit = {"limit", celsius(50.0).inKelvin(), Dimension::Temperature};
  snag.why = {{"radius", 0.16, Dimension::Length}};
  snag.leftBecause = "tried \"on\" an offcut";
  results.snags = {snag};
  return results;
}

JsonNode written(const results::Results& results) {
  return io::parseJson(io::writeResults(model::firstPanel(), results)).value();
}

/// The node at a path of keys and indices.
const JsonNode& at(const JsonNode& root, std::initializer_list<std::string> path) {
  const JsonNode* node = &root;
  for (const std::string& step : path) {
    node = node->kind == JsonKind::List ? &node->items.at(std::stoul(step)) : node->find(step);
    INFO(step);
    REQUIRE(node != nullptr);
  }
  return *node;
}
double number(const JsonNode& root, std::initializer_list<std::string> path) {
  return parseNumber(at(root, path).text).value();
}

}  // namespace

TEST_CASE("Results are JSON with a fixed order of parts", "[io][results]") {
  const JsonNode root = written(everything());
  std::vector<std::string> keys;
  for (const auto& member : root.members) keys.push_back(member.key);
  CHECK(keys == std::vector<std::string>{"format",  "version",  "project",    "layout",      "tube_length", "water",
                                         "bends",   "depth",    "masses",     "sun",         "flow",        "heat",
                                         "stopped", "profiles", "tube_cuts",  "timber_cuts", "sheet_cuts",  "holes",
                                         "wind",    "buying",   "influences", "snags"});
  CHECK(at(root, {"format"}).text == "sunspool-results");
  CHECK(io::writeResults(model::firstPanel(), everything()) == io::writeResults(model::firstPanel(), everything()));
}

TEST_CASE("A value with a range carries its unit three times", "[io][results]") {
  const JsonNode root = written(everything());
  CHECK(number(root, {"tube_length", "value_m"}) == 6.2);
  CHECK(number(root, {"tube_length", "low_m"}) == 6.1);
  CHECK(number(root, {"tube_length", "high_m"}) == 6.3);
  CHECK(number(root, {"flow", "flow", "value_m3_s"}) == litresPerMinute(6.0).si());
  CHECK(number(root, {"heat", "to_pool", "high_W"}) == 1400.0);
  CHECK_THAT(number(root, {"heat", "outlet", "value_C"}), Catch::Matchers::WithinAbs(26.5, 1e-12));
}

TEST_CASE("Every point of a run's profile is written to the last digit", "[io][results]") {
  const JsonNode root = written(everything());
  const JsonNode& points = at(root, {"profiles", "0", "points"});
  REQUIRE(points.items.size() == 2);
  CHECK(number(points, {"1", "station_m"}) == 20.0);
  CHECK(number(points, {"1", "gauge_Pa"}) == -1500.5);
  CHECK(number(points, {"1", "water_C"}) == 300.25 - 273.15);
  CHECK(number(points, {"1", "height_m"}) == 0.9);
  CHECK(number(points, {"1", "water_line_m"}) == 0.75);
  CHECK(at(root, {"profiles", "1", "run"}).text == "B");
}

TEST_CASE("A part that failed is its error, with the facts", "[io][results]") {
  results::Results results = everything();
  results.flow = Error{ErrorCode::PumpNeverStarts,
                       "/plumbing/pump",
                       "d",
                       {{"lift", 3.0, Dimension::Head}, {"turn", 0.5, Dimension::None}}};
  const JsonNode root = written(results);
  CHECK(at(root, {"flow", "error"}).text == "pump_never_starts");
  CHECK(at(root, {"flow", "where"}).text == "/plumbing/pump");
  CHECK(at(root, {"flow", "facts", "0", "name"}).text == "lift");
  CHECK(number(root, {"flow", "facts", "0", "value_m"}) == 3.0);
  CHECK(number(root, {"flow", "facts", "1", "value"}) == 0.5);
  CHECK(at(root, {"timber_cuts", "error"}).text == "no_stock");
  results.layout = Error{ErrorCode::RegionTooNarrow, {}, {}, {}};
  results.bends.reset();
  CHECK(at(written(results), {"layout", "error"}).text == "region_too_narrow");
  CHECK(at(written(results), {"bends"}).kind == JsonKind::Null);
}

TEST_CASE("What is not known is null, never nought", "[io][results]") {
  const JsonNode root = written(everything());
  CHECK(at(root, {"buying", "rows", "1", "price"}).kind == JsonKind::Null);
  CHECK(number(root, {"buying", "rows", "0", "price"}) == 62.0);
  CHECK(number(root, {"buying", "rows", "1", "amount_m2"}) == 2.5);
  CHECK(at(root, {"stopped", "layers", "1", "limit_C"}).kind == JsonKind::Null);
  CHECK(number(root, {"stopped", "layers", "0", "limit_C"}) == 120.0);
  CHECK(at(root, {"tube_cuts", "price"}).kind == JsonKind::Null);
  CHECK(at(root, {"layout", "runs", "1", "crossing"}).kind == JsonKind::Null);
  results::Results results = everything();
  results.masses.wet = Mass::fromSi(std::nan(""));
  CHECK(at(written(results), {"masses", "wet_kg"}).kind == JsonKind::Null);
}

TEST_CASE("Sheets and holes are written with their places, and an open end of a range is null", "[io][results]") {
  results::Results results = everything();
  const JsonNode root = written(results);
  CHECK(number(root, {"sheet_cuts", "glazing", "patterns", "0", "pieces", "0", "x_m"}) == 0.5);
  CHECK(number(root, {"sheet_cuts", "glazing", "wanted", "0", "rows"}) == 2.0);
  CHECK(at(root, {"sheet_cuts", "plate", "error"}).text == "no_stock");
  CHECK(at(root, {"holes", "0", "for"}).text == "feed");
  CHECK(number(root, {"holes", "0", "from_back_m"}) == 0.043);
  CHECK(number(root, {"buying", "tight_rolls", "0", "short_by_m"}) == 0.4);
  CHECK(at(root, {"buying", "rolls_high"}).kind == JsonKind::Null);
  CHECK(at(root, {"wind"}).kind == JsonKind::Null);
  results.wind = results::Wind{pascals(1240.0), exactly(Force::fromSi(2800.0)), Force::fromSi(270.0),
                               exactly(kilograms(258.0)), std::nullopt};
  CHECK(number(written(results), {"wind", "uplift", "high_N"}) == 2800.0);
  CHECK(number(written(results), {"wind", "hold_down_mass", "value_kg"}) == 258.0);
}

TEST_CASE("A cut plan names its pieces and its stock", "[io][results]") {
  const JsonNode root = written(everything());
  CHECK(oneLine(at(root, {"tube_cuts", "patterns", "0", "pieces"})) == "[0, 0]");
  CHECK(number(root, {"tube_cuts", "patterns", "0", "left_m"}) == 93.8);
  CHECK(at(root, {"tube_cuts", "wanted", "0", "name"}).text == "run A");
  CHECK(number(root, {"tube_cuts", "stock", "0", "length_m"}) == 100.0);
}

TEST_CASE("Snags name key, state, places, and both numbers", "[io][results]") {
  const JsonNode root = io::parseJson(io::writeSnags(model::firstPanel(), everything())).value();
  CHECK(at(root, {"format"}).text == "sunspool-snags");
  CHECK(at(root, {"project"}).text == "Porto, first panel");
  CHECK(at(root, {"snags", "0", "code"}).text == "bend_close");
  CHECK(at(root, {"snags", "0", "state"}).text == "close");
  CHECK(at(root, {"snags", "0", "left_because"}).text == "tried \"on\" an offcut");
  CHECK(at(root, {"snags", "0", "places", "0", "run"}).text == "B");
  CHECK(at(root, {"snags", "0", "places", "1", "part"}).text == "glazing");
  CHECK_THAT(number(root, {"snags", "0", "limit", "value_C"}), Catch::Matchers::WithinAbs(50.0, 1e-12));
  CHECK(at(root, {"snags", "0", "cost"}).kind == JsonKind::Null);
  CHECK(oneLine(at(root, {"snags", "0"})) == oneLine(at(written(everything()), {"snags", "0"})));
}

TEST_CASE("Every number in the results names its unit, or is known to have none", "[io][results][property]") {
  const std::set<std::string> units{"m", "m2", "m3",    "m3_s", "kg", "kg_m2", "kg_s",  "Pa",  "W",  "W_m2",
                                    "C", "K",  "W_m2K", "deg",  "h",  "min",   "J_kgK", "m_s", "AU", "share"};
  const std::set<std::string> none{"version",
                                   "value",
                                   "low",
                                   "high",
                                   "most_quarter_turns",
                                   "quarter_turns",
                                   "turns_crossed",
                                   "index",
                                   "ovality",
                                   "strain",
                                   "air_mass",
                                   "reynolds",
                                   "iterations",
                                   "coupling_iterations",
                                   "tau_alpha",
                                   "efficiency_factor",
                                   "bought",
                                   "bought_lower_bound",
                                   "price_lower_bound",
                                   "count",
                                   "lengths_used",
                                   "lower_bound",
                                   "stock",
                                   "price",
                                   "known_total",
                                   "unknown_prices",
                                   "stock_units",
                                   "owned",
                                   "unit_price",
                                   "sheets_used",
                                   "joints",
                                   "columns",
                                   "rows",
                                   "wanted",
                                   "part",
                                   "known_low",
                                   "known_high",
                                   "rolls_low",
                                   "rolls",
                                   "manifold_tees",
                                   "pattern"};
  const auto hasUnit = [&units](const std::string& key) {
    for (std::size_t bar = key.find('_'); bar != std::string::npos; bar = key.find('_', bar + 1)) {
      if (units.count(key.substr(bar + 1)) > 0) return true;
    }
    return false;
  };
  int numbers = 0;
  const std::function<void(const JsonNode&)> walk = [&](const JsonNode& node) {
    for (const auto& member : node.members) {
      if (member.value.kind == JsonKind::Number) {
        ++numbers;
        INFO(member.key);
        CHECK((hasUnit(member.key) || none.count(member.key) > 0));
      }
      walk(member.value);
    }
    for (const JsonNode& item : node.items) walk(item);
  };
  walk(written(everything()));
  CHECK(numbers > 100);
}
