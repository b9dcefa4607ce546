// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/edits.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <random>

#include "core/model/defaults.h"
#include "core/model/uncertain_inputs.h"
#include "core/model/validate.h"

using namespace sunspool;
using model::Document;

namespace {

unsigned seed() {
  const char* const set = std::getenv("SUNSPOOL_TEST_SEED");
  return set != nullptr ? static_cast<unsigned>(std::strtoul(set, nullptr, 10)) : 20250614U;
}

model::KeepOut block(std::string id, double x) {
  return {std::move(id), "centre block", {{{x, 0.5}, {x + 0.1, 0.5}, {x + 0.1, 0.6}, {x, 0.6}}}, metres(0.01)};
}

/// An edit and the same change made by assignment.
struct Twin {
  const char* name;
  std::function<Result<Document>(Document)> edit;
  std::function<void(Document&)> assignment;
};

const std::vector<Twin>& twins() {
  static const std::vector<Twin> all{
      {"name", [](Document d) { return withName(d, "Büro 屋根"); },
       [](Document& d) { d.name = std::string("Büro 屋根"); }},
      {"note", [](Document d) { return withNote(d, "n"); }, [](Document& d) { d.note = std::string("n"); }},
      {"width", [](Document d) { return withInsideWidth(d, metres(2.0)); },
       [](Document& d) { d.frame.insideWidth = metres(2.0); }},
      {"height", [](Document d) { return withInsideHeight(d, metres(1.0)); },
       [](Document& d) { d.frame.insideHeight = metres(1.0); }},
      {"margin", [](Document d) { return withMargin(d, metres(0.05)); },
       [](Document& d) { d.laying.margin = metres(0.05); }},
      {"pitch", [](Document d) { return withPitch(d, metres(0.03)); },
       [](Document& d) { d.laying.pitch = metres(0.03); }},
      {"radius", [](Document d) { return withBendRadius(d, metres(0.2)); },
       [](Document& d) { d.laying.bendRadius = metres(0.2); }},
      {"turns", [](Document d) { return withQuarterTurns(d, 12); }, [](Document& d) { d.laying.quarterTurns = 12; }},
      {"starts", [](Document d) { return withStarts(d, 4); }, [](Document& d) { d.laying.starts = 4; }},
      {"recipe", [](Document d) { return withRecipe(d, model::Recipe::PlainSerpentine); },
       [](Document& d) { d.laying.recipe = model::Recipe::PlainSerpentine; }},
      {"corner rule", [](Document d) { return withCornerRule(d, model::CornerRule::ConcentricRadii); },
       [](Document& d) { d.laying.cornerRule = model::CornerRule::ConcentricRadii; }},
      {"inner end", [](Document d) { return withInnerEnd(d, model::InnerEnd::ThroughTheBack); },
       [](Document& d) { d.laying.innerEnd = model::InnerEnd::ThroughTheBack; }},
      {"entries", [](Document d) { return withEntries(d, model::Entries::SideBySide); },
       [](Document& d) { d.laying.entries = model::Entries::SideBySide; }},
      {"start corner", [](Document d) { return withStartCorner(d, model::StartCorner::UpperRight); },
       [](Document& d) { d.laying.startCorner = model::StartCorner::UpperRight; }},
      {"feed shift", [](Document d) { return withFeedShift(d, metres(0.1)); },
       [](Document& d) { d.laying.feedShift = metres(0.1); }},
      {"return shift", [](Document d) { return withReturnShift(d, metres(-0.1)); },
       [](Document& d) { d.laying.returnShift = metres(-0.1); }},
      {"feed tail", [](Document d) { return withFeedTail(d, metres(2.0)); },
       [](Document& d) { d.laying.feedTail = metres(2.0); }},
      {"return tail", [](Document d) { return withReturnTail(d, metres(0.5)); },
       [](Document& d) { d.laying.returnTail = metres(0.5); }},
      {"tilt", [](Document d) { return withTilt(d, degrees(45.0)); },
       [](Document& d) { d.siting.tilt = degrees(45.0); }},
      {"azimuth", [](Document d) { return withAzimuth(d, degrees(90.0)); },
       [](Document& d) { d.siting.azimuth = degrees(90.0); }},
      {"clock", [](Document d) { return withClock(d, 9.25); }, [](Document& d) { d.moment.clock_h = 9.25; }},
      {"date", [](Document d) { return withDate(d, 2024, 2, 29); },
       [](Document& d) {
         d.moment = {2024, 2, 29, 13.5};
       }},
      {"open panel", [](Document d) { return withGlazing(d, std::nullopt); },
       [](Document& d) { d.box.glazing.reset(); }},
      {"bend test",
       [](Document d) {
         return withBendTest(d, Uncertain<Length>{metres(0.09), metres(0.005)});
       },
       [](Document& d) {
         d.tube.bendTestCollapseRadius = {metres(0.09), metres(0.005)};
       }},
      {"pump label", [](Document d) { return withPumpLabel(d, litresPerMinute(30.0), metres(3.0)); },
       [](Document& d) {
         d.plumbing.pump.labelFlow.value = litresPerMinute(30.0);
         d.plumbing.pump.labelHead.value = metres(3.0);
       }},
      {"keep-out", [](Document d) { return withKeepOut(d, block("b", 1.0)); },
       [](Document& d) { d.keepOuts.push_back(block("b", 1.0)); }},
      {"left snag", [](Document d) { return withSnagLeft(d, "bend_close/A", "tried on an offcut"); },
       [](Document& d) {
         d.leftSnags.push_back({"bend_close/A", "tried on an offcut"});
       }},
  };
  return all;
}

}  // namespace

TEST_CASE("An edit changes what it says and nothing else", "[model][edits]") {
  for (const Twin& twin : twins()) {
    INFO(twin.name);
    Document expected = model::firstPanel();
    twin.assignment(expected);
    const Result<Document> edited = twin.edit(model::firstPanel());
    REQUIRE(edited);
    CHECK(*edited == expected);
    CHECK_FALSE(*edited == model::firstPanel());
  }
}

TEST_CASE("An edit made twice is the edit made once", "[model][edits][property]") {
  for (const Twin& twin : twins()) {
    INFO(twin.name);
    const Result<Document> once = twin.edit(model::firstPanel());
    REQUIRE(once);
    CHECK(twin.edit(*once).value() == *once);
  }
}

TEST_CASE("A chain of random edits keeps the document valid, whatever is refused", "[model][edits][property]") {
  const unsigned used = seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937 random(used);
  std::uniform_real_distribution<double> exponent(-4.0, 3.0);
  const auto size = [&] { return (random() % 8 == 0 ? -1.0 : 1.0) * std::pow(10.0, exponent(random)); };
  Document document = model::firstPanel();
  const auto inputs = model::uncertainInputs(document);
  int refused = 0;
  for (int i = 0; i < 3000; ++i) {
    const double x = size();
    const std::string pointer = inputs[random() % inputs.size()].pointer;
    const std::vector<std::function<Result<Document>()>> edits{
        [&] { return withInsideSize(document, metres(x), metres(size())); },
        [&] { return withPitch(document, metres(x)); },
        [&] { return withBendRadius(document, metres(x)); },
        [&] { return withMargin(document, metres(x)); },
        [&] { return withTilt(document, degrees(x)); },
        [&] { return withAzimuth(document, degrees(x * 100.0)); },
        [&] { return withStarts(document, static_cast<int>(x)); },
        [&] { return withQuarterTurns(document, static_cast<int>(x)); },
        [&] { return withClock(document, x); },
        [&] { return withDate(document, 2025, static_cast<int>(random() % 14), static_cast<int>(random() % 33)); },
        [&] { return withPumpLabel(document, litresPerMinute(x), metres(size())); },
        [&] { return withUncertainValue(document, pointer, x); },
        [&] { return withSpread(document, pointer, x); },
        [&] { return withSureness(document, pointer, Sureness::Measured); },
        [&] { return withFeedTail(document, metres(x)); },
    };
    const Result<Document> edited = edits[random() % edits.size()]();
    if (!edited) {
      ++refused;
      CHECK_FALSE(edited.error().where.empty());
      continue;
    }
    document = *edited;
    const Result<Done> valid = model::validate(document);
    if (!valid) FAIL(valid.error().where);
  }
  CHECK(refused > 100);  // both ways were taken
  CHECK(refused < 2900);
}

TEST_CASE("A refused edit names what was refused", "[model][edits]") {
  const auto error = [](const Result<Document>& result) {
    REQUIRE_FALSE(result);
    return result.error();
  };
  const Document d = model::firstPanel();
  CHECK(error(withPitch(d, metres(0.0))).where == "/laying/pitch_m");
  CHECK(error(withInsideWidth(d, metres(-1.0))).where == "/frame/inside_width_m");
  CHECK(error(withUncertainValue(d, "/tube/inside_diameter", 0.02)).code == ErrorCode::InsideNotBelowOutside);
  CHECK(error(withPumpLabel(d, litresPerMinute(25.0), metres(0.0))).code == ErrorCode::PumpLabelImpossible);
  CHECK(error(withDate(d, 2025, 2, 30)).code == ErrorCode::DateImpossible);
  CHECK(error(withClock(d, 24.0)).where == "/moment/clock_h");
  CHECK(error(withStarts(d, 3)).where == "/laying/starts");
  CHECK(error(withSpread(d, "/nowhere", 1.0)).code == ErrorCode::MissingKey);
  CHECK(error(withSnagLeft(d, "bend_close/A", " \n")).detail == "reason");
  CHECK(error(withSnagTakenUp(d, "bend_close/A")).code == ErrorCode::MissingKey);
  CHECK(error(withoutKeepOut(d, "a")).code == ErrorCode::MissingKey);
}

TEST_CASE("Facing turns full circle", "[model][edits]") {
  const Document d = model::firstPanel();
  const auto facing = [&d](double azimuth_deg) {
    return withAzimuth(d, degrees(azimuth_deg)).value().siting.azimuth.degrees();
  };
  const auto near = [](double expected) { return Catch::Matchers::WithinAbs(expected, 1e-9); };
  CHECK_THAT(facing(-10.0), near(350.0));
  CHECK_THAT(facing(370.0), near(10.0));
  CHECK_THAT(facing(360.0), near(360.0));
  CHECK_THAT(facing(0.0), near(0.0));
}

TEST_CASE("Changing a value of a catalogue tube makes it one's own, judging it anew does not", "[model][edits]") {
  const Document d = model::firstPanel();
  CHECK(withUncertainValue(d, "/tube/inside_diameter", 0.0158).value().tube.catalogueId.empty());
  CHECK(withUncertainValue(d, "/tube/inside_diameter", 0.016).value().tube.catalogueId == "ldpe-20-16");
  CHECK(withUncertainValue(d, "/conditions/wind", 3.0).value().tube.catalogueId == "ldpe-20-16");
  CHECK(withBendTest(d, Uncertain<Length>{metres(0.09), metres(0.0)}).value().tube.catalogueId == "ldpe-20-16");
}

TEST_CASE("Left snags come and go by their key", "[model][edits]") {
  Document d = withSnagLeft(model::firstPanel(), "a", "first").value();
  d = withSnagLeft(d, "b", "second").value();
  d = withSnagLeft(d, "a", "better reason").value();
  CHECK(d.leftSnags == std::vector<model::LeftSnag>{{"a", "better reason"}, {"b", "second"}});
  d = withSnagTakenUp(d, "a").value();
  CHECK(d.leftSnags == std::vector<model::LeftSnag>{{"b", "second"}});
}

TEST_CASE("Unknown keys stay with their item when one before it goes", "[model][edits]") {
  Document d = model::firstPanel();
  for (const char* id : {"a", "b", "c"}) d = withKeepOut(d, block(id, 1.0)).value();
  d.unknownKeys = {{"/keep_outs/0", "colour", "1"},
                   {"/keep_outs/1", "colour", "2"},
                   {"/keep_outs/2", "colour", "3"},
                   {"/keep_outs/2/corners/0", "mark", "true"},
                   {"/frame", "colour", "4"}};
  d = withoutKeepOut(d, "b").value();
  CHECK(d.unknownKeys == std::vector<model::UnknownKey>{{"/keep_outs/0", "colour", "1"},
                                                        {"/keep_outs/1", "colour", "3"},
                                                        {"/keep_outs/1/corners/0", "mark", "true"},
                                                        {"/frame", "colour", "4"}});
}

TEST_CASE("Rows of the Shed are added, changed and taken out, each list for itself", "[model][edits][stock]") {
  const Document d = model::firstPanel();
  const Document added = withStockRowAdded(d, model::Roll{"offcut", metres(11.4), 1, {}, Sureness::Measured}).value();
  REQUIRE(added.stock.rolls.size() == 2);
  CHECK(added.stock.rolls[1].name == "offcut");
  model::Roll priced = added.stock.rolls[1];
  priced.price = 0.0;  // free, which is not the same as to be asked for
  const Document free = withStockRow(added, 1, priced).value();
  CHECK(free.stock.rolls[1].price == model::Price(0.0));
  CHECK(withoutStockRow(free, model::StockList::Rolls, 1).value() == d);

  Document all = withStockRowAdded(d, model::TimberStock{"board", metres(3.0), 1, {}}).value();
  all = withStockRowAdded(all, model::StockSheet{"ply", model::SheetUse::Backing, metres(1.2), metres(2.4), 1, {}})
            .value();
  all = withStockRowAdded(all, model::StockPump{d.plumbing.pump, 1, {}}).value();
  all = withStockRowAdded(all, model::StockFitting{model::FittingKind::Elbow90, 2, 1.1}).value();
  all = withStockRowAdded(all, model::Thermometer{"two of a set", kelvins(0.5), 2, {}}).value();
  CHECK(all.stock.sheets.size() == 1);
  for (const auto list :
       {model::StockList::Sheets, model::StockList::Pumps, model::StockList::Fittings, model::StockList::Thermometers})
    all = withoutStockRow(all, list, 0).value();
  CHECK(withoutStockRow(all, model::StockList::Timbers, 2).value() == d);

  const auto error = [](const Result<Document>& refused) { return refused.error(); };
  CHECK(error(withoutStockRow(d, model::StockList::Sheets, 0)).code == ErrorCode::MissingKey);
  CHECK(error(withStockRow(d, 1, model::Roll{})).where == "/stock/rolls");
  CHECK(error(withStockRowAdded(d, model::Roll{"nothing on it", metres(0.0), 1, {}})).where ==
        "/stock/rolls/1/length_m");
  CHECK(error(withCurrency(d, " ")).detail == "currency");
}

TEST_CASE("Two label numbers that cannot belong to one pump are refused in the Shed too", "[model][edits][stock]") {
  const Document d = model::firstPanel();
  model::StockPump pump{d.plumbing.pump, 1, {}};
  pump.pump.labelHead.value = metres(40.0);
  const Error refused = withStockRowAdded(d, pump).error();
  CHECK(refused.code == ErrorCode::PumpLabelImpossible);
  CHECK(refused.where == "/stock/pumps/0/pump/electrical_power_W");
}

TEST_CASE("Unknown keys of the Shed move up with their rows", "[model][edits][stock]") {
  Document d = withStockRowAdded(model::firstPanel(), model::Roll{"second", metres(20.0), 1, {}}).value();
  d.unknownKeys = {{"/stock/rolls/0", "colour", "1"}, {"/stock/rolls/1", "colour", "2"}};
  CHECK(withoutStockRow(d, model::StockList::Rolls, 0).value().unknownKeys ==
        std::vector<model::UnknownKey>{{"/stock/rolls/0", "colour", "2"}});
}

TEST_CASE("Other diameters make the tube one's own and forget the offcut", "[model][edits]") {
  Document d = model::firstPanel();
  d.tube.bendTestCollapseRadius = {metres(0.09), metres(0.005), Sureness::Measured};
  const Document same = withTubeDiameters(d, d.tube.insideDiameter, d.tube.outsideDiameter).value();
  CHECK(same == d);
  Uncertain<Length> inside = d.tube.insideDiameter;
  inside.value = metres(0.0155);
  const Document other = withTubeDiameters(d, inside, d.tube.outsideDiameter).value();
  CHECK(other.tube.catalogueId.empty());
  CHECK_FALSE(other.tube.bendTestCollapseRadius);
  inside.value = metres(0.021);
  CHECK(withTubeDiameters(d, inside, d.tube.outsideDiameter).error().code == ErrorCode::InsideNotBelowOutside);
}
