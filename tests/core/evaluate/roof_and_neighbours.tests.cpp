// SPDX-License-Identifier: GPL-3.0-or-later

// Two more samples against hand calculations, as in stories.tests.cpp: a pair of open panels on a flat roof in US
// customary units, and four identical panels of two runs each. Common practice, no source; each range says what it
// allows for.

#include <catch2/catch.hpp>

#include "core/evaluate/evaluate.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

using namespace sunspool;

namespace {

constexpr double kFoot_m = 0.3048, kInch_m = 0.0254, kGallon_L = 3.785411784, kBtuPerHour_W = 0.29307107;

model::Document sample(const char* name) {
  const auto text = io::readFile(std::string(SUNSPOOL_SAMPLES) + "/" + name + ".sunspool");
  return io::readDocument(text.value()).value().document;
}
model::Document roof() { return sample("flat-roof-pair"); }
model::Document neighbours() { return sample("four-for-neighbours"); }

/// A pump that gives very nearly this flow whatever the tube does.
model::Document withFlow(model::Document document, VolumeFlow flow) {
  document.plumbing.pump.points = {{flow, metres(60.0)}, {flow * 1.0005, metres(0.01)}};
  document.plumbing.pump.electricalPower = watts(500.0);
  return document;
}
double turns_m(const layout::LaidRun& run) { return run.turnsTo_m - run.turnsFrom_m; }

const thermal::StoppedLayer& tubeOf(const results::Results& r) {
  for (const auto& layer : r.stopped->layers) {
    if (layer.part == "tube") return layer;
  }
  FAIL("no tube");
  return r.stopped->layers.front();
}

}  // namespace

TEST_CASE("At 1 3/16 in a run of the roof panel is cut from one 250 ft coil with about 7 ft to spare",
          "[evaluate][reference]") {
  // Hand: 230.9 ft of closed loops and 12 ft of tails, 242.9 ft; a drawn spiral lays started quarter turns (up to 6
  // ft).
  const results::Results r = evaluate::evaluate(roof(), {});
  REQUIRE(r.layout.has_value());
  CHECK(r.tubeLength.value.si() / kFoot_m == Approx(242.9).margin(6.0));
  CHECK((r.layout->runs.front().quarterTurns + 1) / 4 == 14);
  REQUIRE(r.tubeCuts.has_value());
  CHECK(r.tubeCuts->lengthsUsed == 2);  // two panels, a coil each
  CHECK(r.tubeCuts->totalLeft.si() / 2.0 / kFoot_m > 3.0);
  CHECK(r.tubeCuts->totalLeft.si() / 2.0 / kFoot_m < 12.0);
  CHECK(r.water.value.in(litre) / kGallon_L == Approx(3.57).margin(0.12));  // hand 0.01469 gal/ft
}

TEST_CASE("At 1 in and at 1 1/8 in the run of the roof panel is longer than its coil", "[evaluate][reference]") {
  // Hand: 16 turns of 3195 in, 266 ft, at 1 in; 15 turns of 245.9 ft and 12 ft of tails, 258 ft, at 1 1/8 in.
  for (const auto& [pitch_in, turns_ft] : {std::pair{1.0, 266.0}, {1.125, 245.9}}) {
    INFO("pitch " << pitch_in << " in");
    model::Document document = roof();
    document.laying.pitch = metres(pitch_in * kInch_m);
    const results::Results r = evaluate::evaluate(document, {.ranges = false});
    REQUIRE(r.layout.has_value());
    CHECK(turns_m(r.layout->runs.front()) / kFoot_m == Approx(turns_ft).margin(8.0));
    REQUIRE_FALSE(r.tubeCuts.has_value());
    CHECK(r.tubeCuts.error().code == ErrorCode::PieceLongerThanStock);
  }
}

TEST_CASE("The roof panel's coil loses 6.5 to 8.5 ft of head at 1.5 gal/min", "[evaluate][reference]") {
  // Hand: 2.15 m = 7.1 ft on straight tube; bends add to it.
  model::Document document = withFlow(roof(), litresPerMinute(3.0 * kGallon_L));
  document.plumbing.runFittings.clear();
  const results::Results r = evaluate::evaluate(document, {.depth = evaluate::Depth::Flow, .ranges = false});
  REQUIRE(r.flow.has_value());
  REQUIRE(r.flow->network.runs.size() == 1);
  CHECK(r.flow->network.runs.front().flow_m3_s * 60e3 == Approx(1.5 * kGallon_L).epsilon(1e-3));
  CHECK(r.flow->flow.value.in(litrePerMinute) == Approx(3.0 * kGallon_L).epsilon(1e-3));  // both panels
  const double head_ft = r.flow->panelLoss.value.si() / 9764.0 / kFoot_m;                 // at 29 C
  CHECK(head_ft > 6.5);
  CHECK(head_ft < 8.5);
}

TEST_CASE("The roof panel's tube collapses at 4.0 in on its nominal wall", "[evaluate][reference]") {
  model::Document document = roof();
  document.tube.minimumWallShare.value = 1.0;
  const results::Results r = evaluate::evaluate(document, {.depth = evaluate::Depth::Layout, .ranges = false});
  REQUIRE(r.bends);
  CHECK(r.bends->collapseRadius.si() / kInch_m == Approx(4.0).margin(0.1));
  CHECK(r.bends->worst->radius_m / r.bends->collapseRadius.si() == Approx(1.5).margin(0.05));
}

TEST_CASE("Two open panels with 84 F water under 950 W/m2 give 9500 to 14500 BTU/h and about 8 F of rise",
          "[evaluate][reference]") {
  // Hand: optical share 0.44 + 0.56 x 0.5, eta0 0.63, about 630 W/m2 on 61 ft2: 12 200 BTU/h.
  model::Document document = withFlow(roof(), litresPerMinute(3.0 * kGallon_L));
  document.conditions.onPanel = Uncertain<Irradiance>{wattsPerSquareMetre(950.0), {}, Sureness::Measured};
  const results::Results r = evaluate::evaluate(document, {.depth = evaluate::Depth::Heat, .ranges = false});
  REQUIRE(r.heat.has_value());
  const double btu_h = r.heat->toPool.value.si() / kBtuPerHour_W;
  CHECK(btu_h > 9500.0);
  CHECK(btu_h < 14500.0);
  CHECK(r.heat->rise.value.si() * 1.8 > 6.0);
  CHECK(r.heat->rise.value.si() * 1.8 < 10.0);
}

TEST_CASE("With a dead pump at 105 F the glazed roof panel passes boiling and the open one scalds",
          "[evaluate][reference]") {
  // Hand: glazed Ta + 0.80 x 1050 / 8, about 145 C (full balance 117 to 148); open in light wind Ta + 0.92 x 1050 / 20,
  // about 89 C (73 to 106).
  model::Document open = roof();
  open.conditions.air.value = celsius(40.6);
  open.conditions.onPanel = Uncertain<Irradiance>{wattsPerSquareMetre(1050.0), {}, Sureness::Measured};
  const results::Results bare = evaluate::evaluate(open, {.ranges = false});
  REQUIRE(bare.stopped.has_value());
  CHECK(tubeOf(bare).dry_K - 273.15 > 73.0);
  CHECK(tubeOf(bare).dry_K - 273.15 < 106.0);

  model::Document glazed = open;
  glazed.box.glazing = model::twinWallPolycarbonate();
  // The hand's cover is a single one: 0.80 of the sun, U 8.
  glazed.box.glazing->sheet.thickness = millimetres(3.0);
  glazed.box.glazing->sheet.conductivity.value = wattsPerMetreKelvin(0.2);
  glazed.box.glazing->transmittance.value = 0.85;
  // ... and its U of 8 is that of an insulated back; bare plywood alone loses 5 more and stays at 108 C.
  glazed.box.insulation = model::firstPanel().box.insulation;
  const results::Results hot = evaluate::evaluate(glazed, {.ranges = false});
  REQUIRE(hot.stopped.has_value());
  CHECK(tubeOf(hot).dry_K - 273.15 > 115.0);
  CHECK(tubeOf(hot).dry_K - 273.15 < 155.0);
  CHECK(hot.stopped->waterBoils);
  for (const auto& layer : hot.stopped->layers) {
    if (layer.part == "tube") CHECK(layer.wet_K <= hot.stopped->boiling_K);  // no water above boiling
  }
}

TEST_CASE("Four panels of two runs each take four rolls with about 126 m over", "[evaluate][reference]") {
  // Hand: 16 turns of 63.6 m, each run 31.8 + 2.4 = 34.2 m; eight runs 273.8 m, two from a roll.
  const results::Results r = evaluate::evaluate(neighbours(), {});
  REQUIRE(r.layout.has_value());
  REQUIRE(r.layout->runs.size() == 2);
  for (const auto& run : r.layout->runs) CHECK(run.cutLength_m == Approx(34.2).margin(0.6));
  CHECK(r.layout->runs[0].cutLength_m == Approx(r.layout->runs[1].cutLength_m).epsilon(1e-9));
  REQUIRE(r.tubeCuts.has_value());
  CHECK(r.tubeCuts->lengthsUsed == 4);
  CHECK(r.tubeCuts->proven);
  CHECK(r.tubeCuts->totalLeft.in(metre) == Approx(126.0).margin(5.0));
}

TEST_CASE("Eight rails and eight stiles need six boards though their lengths add up to five", "[evaluate][reference]") {
  // Hand: 8 x 1970 + 8 x 940 = 23.28 m, 5 boards by volume; but two rails leave 860 < 940, and five boards with eight
  // rails carry at most six stiles. 1970 + 3 x 940 + 3 kerfs = 4799: fits by 1 mm.
  const results::Results r = evaluate::evaluate(neighbours(), {.ranges = false});
  REQUIRE(r.timberCuts.has_value());
  CHECK(r.timberCuts->lengthsUsed == 6);
  CHECK(r.timberCuts->lowerBound == 6);
  CHECK(r.timberCuts->proven);
  CHECK_FALSE(r.timberCuts->proof.empty());
}

TEST_CASE("The neighbours' tube collapses at 86 mm on its nominal wall", "[evaluate][reference]") {
  model::Document document = neighbours();
  document.tube.minimumWallShare.value = 1.0;
  const results::Results r = evaluate::evaluate(document, {.depth = evaluate::Depth::Layout, .ranges = false});
  REQUIRE(r.bends);
  CHECK(r.bends->collapseRadius.in(millimetre) == Approx(86.0).margin(1.5));
}

TEST_CASE("Panels on one pump share its flow, panels of their own do not", "[evaluate][property]") {
  model::Document document = neighbours();
  const auto flowOf = [&](int panels, bool share) {
    document.panelsAlike = panels;
    document.panelsSharePump = share;
    return evaluate::evaluate(document, {.depth = evaluate::Depth::Heat, .ranges = false});
  };
  const results::Results alone = flowOf(1, true), own = flowOf(4, false), shared = flowOf(4, true);
  CHECK(own.flow->flow.value == alone.flow->flow.value);
  CHECK(own.heat->toPool.value == alone.heat->toPool.value);
  CHECK(shared.flow->flow.value > alone.flow->flow.value);
  CHECK(shared.flow->network.runs.front().flow_m3_s < alone.flow->network.runs.front().flow_m3_s);
  // What goes through the pump is what goes through all runs.
  double sum = 0.0;
  for (const auto& run : shared.flow->network.runs) sum += 4.0 * run.flow_m3_s;
  CHECK(shared.flow->flow.value.si() == Approx(sum).epsilon(1e-12));
}
