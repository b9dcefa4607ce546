// SPDX-License-Identifier: GPL-3.0-or-later

#include "core/evaluate/evaluate.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/evaluate/flow_and_heat.h"
#include "core/io/project_file.h"
#include "core/materials/water.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"
#include "core/model/uncertain_inputs.h"

using namespace sunspool;

namespace {

const evaluate::Options kPlain{.depth = evaluate::Depth::Everything, .ranges = false};

model::Document withPumpFlow(model::Document document, double litres_min) {
  auto& pump = document.plumbing.pump;
  pump.points = {{litresPerMinute(litres_min), metres(40.0)}, {litresPerMinute(litres_min * 1.0005), metres(0.01)}};
  pump.electricalPower = watts(500.0);
  return document;
}

double heatAt(const model::Document& document) {
  const auto results = evaluate::evaluate(document, {.depth = evaluate::Depth::Heat, .ranges = false});
  REQUIRE(results.heat.has_value());
  return results.heat->toPool.value.si();
}

}  // namespace

TEST_CASE("Everything about the first panel can be reckoned and closes", "[evaluate][property]") {
  const results::Results r = evaluate::evaluate(model::firstPanel(), {});
  REQUIRE(r.layout.has_value());
  REQUIRE(r.flow.has_value());
  REQUIRE(r.heat.has_value());
  REQUIRE(r.stopped.has_value());
  REQUIRE(r.tubeCuts.has_value());
  REQUIRE(r.timberCuts.has_value());
  REQUIRE(r.profiles.size() == 1);
  CHECK(r.profiles.front().points.size() > 100);
  CHECK_FALSE(r.influences.empty());
  CHECK_FALSE(r.buying.rows.empty());
}

TEST_CASE("The gains along the Tape sum to mass flow times specific heat times rise within 1e-6",
          "[evaluate][property]") {
  const results::Results r = evaluate::evaluate(model::firstPanel(), kPlain);
  REQUIRE(r.heat.has_value());
  const auto& run = r.heat->steady.runs.front();
  double sum = 0.0;
  for (std::size_t i = 1; i < run.profile.size(); ++i) sum += run.profile[i].gained_W - run.profile[i - 1].gained_W;
  const double in_K = run.profile.front().water_K, out_K = run.profile.back().water_K;
  CHECK(sum == Approx(run.massFlow_kg_s * run.specificHeat_J_kgK * (out_K - in_K)).epsilon(1e-6));
  // Independent of the march: the heat capacity of IF97 integrated over the rise by Simpson's rule, mass flow from the
  // network's volume flow. One specific heat for the whole rise is good to 1e-5.
  const auto cp = [](double kelvin_) {
    return materials::waterAt(Temperature::fromKelvin(kelvin_))->specificHeat.si();
  };
  const double meanCp = (cp(in_K) + 4.0 * cp(0.5 * (in_K + out_K)) + cp(out_K)) / 6.0;
  const double massFlow =
      r.flow->network.runs.front().flow_m3_s * materials::waterAt(Temperature::fromKelvin(in_K))->density.si();
  CHECK(sum == Approx(massFlow * meanCp * (out_K - in_K)).epsilon(1e-5));
  CHECK(sum == Approx(run.gained_W).epsilon(1e-9));
}

TEST_CASE("Halving the flow raises the rise 1.6 to 2 times and lowers the heat", "[evaluate][property]") {
  const auto full = evaluate::evaluate(withPumpFlow(model::firstPanel(), 6.0), kPlain);
  const auto half = evaluate::evaluate(withPumpFlow(model::firstPanel(), 3.0), kPlain);
  REQUIRE(full.heat.has_value());
  REQUIRE(half.heat.has_value());
  const double ratio = half.heat->rise.value / full.heat->rise.value;
  CHECK(ratio > 1.6);
  CHECK(ratio < 2.0);
  CHECK(half.heat->toPool.value < full.heat->toPool.value);
}

TEST_CASE("Raising the panel by 1 m adds 1 m of starting lift and leaves the running flow", "[evaluate][property]") {
  const model::Document low = model::firstPanel();
  model::Document high = low;
  high.siting.lowerEdgeAbovePool += metres(1.0);
  const auto a = evaluate::evaluate(low, kPlain), b = evaluate::evaluate(high, kPlain);
  REQUIRE(a.flow.has_value());
  REQUIRE(b.flow.has_value());
  REQUIRE(low.plumbing.returnEndsUnderWater);
  CHECK(b.flow->network.startingLift_m - a.flow->network.startingLift_m == Approx(1.0).margin(1e-9));
  CHECK(b.flow->network.flow_m3_s == Approx(a.flow->network.flow_m3_s).epsilon(1e-9));
}

TEST_CASE("A pump that cannot lift to the top never starts, and says so", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  document.siting.lowerEdgeAbovePool = metres(3.0);
  const auto r = evaluate::evaluate(document, kPlain);
  REQUIRE(r.flow.has_value());
  CHECK_FALSE(r.flow->network.starts);
  CHECK(r.flow->network.flow_m3_s == 0.0);
  REQUIRE_FALSE(r.heat.has_value());
  CHECK(r.heat.error().code == ErrorCode::PumpNeverStarts);
  const bool said =
      std::any_of(r.snags.begin(), r.snags.end(), [](const Snag& s) { return s.code == SnagCode::PumpNeverStarts; });
  CHECK(said);
}

TEST_CASE("All spreads zero give ranges without width", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  for (const auto& input : model::uncertainInputs(document)) {
    auto changed = model::withSpread(document, input.pointer, 0.0);
    REQUIRE(changed.has_value());
    document = *changed;
  }
  const auto r = evaluate::evaluate(document, {});
  REQUIRE(r.heat.has_value());
  CHECK(r.tubeLength.low == r.tubeLength.high);
  CHECK(r.water.low == r.water.high);
  CHECK(r.heat->toPool.low == r.heat->toPool.high);
  CHECK(r.heat->outlet.low == r.heat->outlet.high);
  if (r.flow->network.runs.front().loss.transitionLength_m == 0.0) CHECK(r.flow->flow.low == r.flow->flow.high);
  CHECK(r.influences.empty());
}

TEST_CASE("A range holds its value and widens with every spread", "[evaluate][property]") {
  const auto r = evaluate::evaluate(model::firstPanel(), {});
  REQUIRE(r.heat.has_value());
  CHECK(r.heat->toPool.low < r.heat->toPool.value);
  CHECK(r.heat->toPool.value < r.heat->toPool.high);
  const auto wider = model::withSpread(model::firstPanel(), "/box/plate_contact_share", 0.3);
  REQUIRE(wider.has_value());
  const auto w = evaluate::evaluate(*wider, {});
  CHECK((w.heat->toPool.high - w.heat->toPool.low) > (r.heat->toPool.high - r.heat->toPool.low));
}

TEST_CASE("A panel facing east peaks before solar noon", "[evaluate][property]") {
  auto east = model::withAzimuth(model::firstPanel(), degrees(90.0));
  REQUIRE(east.has_value());
  const auto day = evaluate::day(*east);
  REQUIRE(day.has_value());
  const auto peak = std::max_element(day->quarters.begin(), day->quarters.end(),
                                     [](const auto& a, const auto& b) { return a.toPool_W < b.toPool_W; });
  const auto r = evaluate::evaluate(*east, kPlain);
  REQUIRE(r.sun.has_value());
  CHECK(peak->clock_h < r.sun->day.noon_h - 1.0);
}

TEST_CASE("At 33 degrees south June gives less than December", "[evaluate][property]") {
  model::Document south = model::firstPanel();
  south.place.latitude = degrees(-33.0);
  south.place.longitude = degrees(-68.8);
  south.place.utcOffset_h = -3.0;
  south.siting.azimuth = degrees(0.0);
  south.moment.month = 6;
  const auto june = evaluate::day(south);
  south.moment.month = 12;
  const auto december = evaluate::day(south);
  REQUIRE(june.has_value());
  REQUIRE(december.has_value());
  CHECK(june->toPool.si() < december->toPool.si());
}

TEST_CASE("A plain serpentine at the pitch of a spiral is refused and 320 mm is named", "[evaluate][property]") {
  const auto serpentine = model::withRecipe(model::firstPanel(), model::Recipe::PlainSerpentine);
  REQUIRE(serpentine.has_value());
  const auto r = evaluate::evaluate(*serpentine, {});
  REQUIRE_FALSE(r.layout.has_value());
  CHECK(r.layout.error().code == ErrorCode::CannotBendPlain);
  const auto fact = [&](const char* name) {
    for (const Fact& f : r.layout.error().facts) {
      if (f.name == name) return f.value_si;
    }
    return -1.0;
  };
  CHECK(fact("plain_pitch") == Approx(0.320).margin(1e-12));
  CHECK(fact("spiral_length") > 5.0 * fact("serpentine_length"));
  // What does not depend on the run is still answered.
  CHECK(r.sun.has_value());
  CHECK(r.timberCuts.has_value());
  CHECK_FALSE(r.flow.has_value());
}

TEST_CASE("A sweep over the pitch passes through the design itself", "[evaluate][property]") {
  const model::Document document = model::firstPanel();
  const double at[] = {0.024, document.laying.pitch.si(), 0.030};
  const auto points = evaluate::sweep(document, evaluate::Sweep::Pitch, at);
  const auto r = evaluate::evaluate(document, kPlain);
  REQUIRE(points.size() == 3);
  REQUIRE(points[1].legal);
  CHECK(points[1].tubeLength_m == r.tubeLength.value.si());
  CHECK(points[1].heat_W == r.heat->toPool.value.si());
  CHECK(points[0].tubeLength_m > points[1].tubeLength_m);
  CHECK(points[1].tubeLength_m > points[2].tubeLength_m);
}

TEST_CASE("Open panels, panels without a plate and back exits are reckoned too", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  document.box.glazing.reset();
  CHECK(heatAt(document) > 100.0);
  document.box.plate.reset();
  CHECK(std::isfinite(heatAt(document)));
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  CHECK(std::isfinite(heatAt(document)));
  document.laying.starts = 4;
  const auto r = evaluate::evaluate(document, kPlain);
  REQUIRE(r.layout.has_value());
  CHECK(r.layout->runs.size() == 4);
  REQUIRE(r.flow.has_value());
  CHECK(r.flow->imbalance < 0.1);
}

TEST_CASE("The same document gives the same results twice", "[evaluate][property]") {
  const auto a = evaluate::evaluate(model::firstPanel(), {});
  const auto b = evaluate::evaluate(model::firstPanel(), {});
  CHECK(a.heat->toPool == b.heat->toPool);
  CHECK(a.snags == b.snags);
}

TEST_CASE("What the stopped pump does to the panel does not hang on the hour that is looked at",
          "[evaluate][property]") {
  const auto noon = evaluate::evaluate(model::firstPanel(), kPlain);
  const auto dawn = model::withClock(model::firstPanel(), 5.0);
  REQUIRE(dawn.has_value());
  const auto early = evaluate::evaluate(*dawn, kPlain);
  REQUIRE(noon.stopped.has_value());
  REQUIRE(early.stopped.has_value());
  for (std::size_t i = 0; i < noon.stopped->layers.size(); ++i) {
    CHECK(early.stopped->layers[i].dry_K == noon.stopped->layers[i].dry_K);
  }
  // And in winter it is judged at the standard condition of collector testing, 1000 W/m2 and 30 C.
  model::Document winter = model::firstPanel();
  winter.moment.month = 12;
  const auto cold = evaluate::evaluate(winter, kPlain);
  CHECK(cold.stoppedSky.beam_W_m2 + cold.stoppedSky.sky_W_m2 == Approx(1000.0));
  CHECK(cold.stoppedSky.air_K == Approx(303.15));
}

TEST_CASE("When the flow cannot be reckoned the tube is still as long as it is laid", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  document.plumbing.pump.labelFlow.value = litresPerMinute(0.0);
  const auto r = evaluate::evaluate(document, kPlain);
  REQUIRE(r.layout.has_value());
  REQUIRE_FALSE(r.flow.has_value());
  CHECK(r.tubeLength.value.si() == Approx(r.layout->totalCut.si()).epsilon(1e-9));
}

TEST_CASE("A shade cloth takes its share off the sun of the stopped pump and of nothing else", "[evaluate][property]") {
  const model::Document bare = model::firstPanel();
  model::Document covered = bare;
  covered.box.shadeCloth = Uncertain<double>{0.1, 0.05, Sureness::Label};
  const auto open = evaluate::stoppedSky(bare), shaded = evaluate::stoppedSky(covered);
  REQUIRE(open.has_value());
  REQUIRE(shaded.has_value());
  CHECK(shaded->beam_W_m2 + shaded->sky_W_m2 == Approx(0.1 * (open->beam_W_m2 + open->sky_W_m2)).epsilon(1e-12));
  CHECK(shaded->air_K == open->air_K);
  CHECK(heatAt(covered) == heatAt(bare));
  const results::Results hot = evaluate::evaluate(bare, kPlain), cool = evaluate::evaluate(covered, kPlain);
  REQUIRE(hot.stopped.has_value());
  REQUIRE(cool.stopped.has_value());
  for (std::size_t i = 0; i < hot.stopped->layers.size(); ++i) {
    CHECK(cool.stopped->layers[i].dry_K < hot.stopped->layers[i].dry_K);
  }
}

TEST_CASE("Unequal runs cost some watts, equal ones none", "[evaluate][property]") {
  model::Document document = model::firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  for (const int starts : {2, 4}) {
    INFO(starts << " runs");
    document.laying.starts = starts;
    document.laying.entries = model::Entries::Spread;
    const auto equal = evaluate::evaluate(document, kPlain);
    REQUIRE(equal.flow.has_value());
    CHECK(equal.flow->imbalanceCost.value_or(watts(0.0)).si() == 0.0);
    document.laying.entries = model::Entries::SideBySide;
    const auto unequal = evaluate::evaluate(document, kPlain);
    REQUIRE(unequal.flow.has_value());
    REQUIRE(unequal.heat.has_value());
    CHECK(unequal.flow->imbalance > equal.flow->imbalance);
    REQUIRE(unequal.flow->imbalanceCost.has_value());
    INFO(unequal.flow->imbalanceCost->si()
         << " W of " << unequal.heat->toPool.value.si() << " W at an imbalance of " << unequal.flow->imbalance);
    CHECK(unequal.flow->imbalanceCost->si() > 0.0);
    CHECK(unequal.flow->imbalanceCost->si() < 0.02 * unequal.heat->toPool.value.si());
  }
}

TEST_CASE("Every way of laying is reckoned from end to end", "[evaluate][property]") {
  model::Document crossing = model::firstPanel();
  crossing.box.standOff = crossing.tube.outsideDiameter.value;
  crossing.laying.innerEnd = model::InnerEnd::UnderTheTurns;
  model::Document doubled = model::firstPanel();
  doubled.laying.recipe = model::Recipe::DoubleSpiral;
  model::Document bulbs = model::firstPanel();
  bulbs.laying.recipe = model::Recipe::BulbSerpentine;
  bulbs.laying.pitch = millimetres(173.0);
  for (const model::Document& document : {crossing, doubled, bulbs}) {
    INFO("recipe " << static_cast<int>(document.laying.recipe));
    const auto r = evaluate::evaluate(document, kPlain);
    REQUIRE(r.layout.has_value());
    const layout::LaidRun& run = r.layout->runs.front();
    REQUIRE(r.profiles.size() == 1);
    REQUIRE_FALSE(r.profiles.front().points.empty());
    CHECK(r.profiles.front().points.back().station_m == Approx(run.path.length().si()).margin(0.2));
    REQUIRE(r.heat.has_value());
    CHECK(r.heat->toPool.value.si() > 50.0);
    REQUIRE(r.bends.has_value());
    CHECK_FALSE(r.bends->all.empty());
    CHECK(r.bends->worst->radius_m == Approx(document.laying.bendRadius.si()));
    CHECK(r.depth.crossingSpare.si() == r.depth.spare.si());
    CHECK(r.tubeCuts.has_value());
  }
}
