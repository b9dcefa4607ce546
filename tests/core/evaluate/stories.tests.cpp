// SPDX-License-Identifier: GPL-3.0-or-later

// The first panel against a hand calculation. The hand figures are approximate: rounded-rectangle turns
// 2(w+h) - (8-2 pi)R shrinking by twice the pitch each way, water 0.7854 ID^2, Darcy friction of straight smooth tube
// at 25 C, heat per area eta0 G - U(Tm-Ta) with eta0 = F' tau-alpha [c + (1-c)k]. Common practice, no source; each
// range says what it allows for.

#include <catch2/catch.hpp>

#include "core/evaluate/evaluate.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

using namespace sunspool;

namespace {

results::Results reckoned(const model::Document& document, evaluate::Options options = {}) {
  return evaluate::evaluate(document, options);
}

/// The first panel with a pump that gives very nearly this flow whatever the tube does.
model::Document withFlow(model::Document document, double litresPerMinute_) {
  auto& pump = document.plumbing.pump;
  pump.points = {{litresPerMinute(litresPerMinute_), metres(40.0)},
                 {litresPerMinute(litresPerMinute_ * 1.0005), metres(0.01)}};
  pump.electricalPower = watts(500.0);
  return document;
}

}  // namespace

TEST_CASE("The first panel holds 80 to 82 m of tube in 63 quarter turns, tails included", "[evaluate][reference]") {
  // Hand: 16 turns of 1100..320 by 2260..1480 mm at R 160 give 78.2 m, 81.0 m with two tails of 1.4 m. The margin of
  // the hand calculation, 40 mm, is frame to centre line: 30 mm to the outside of a 20 mm tube.
  const results::Results r = reckoned(model::firstPanel());
  REQUIRE(r.layout.has_value());
  CHECK(r.layout->runs.size() == 1);
  CHECK(r.layout->runs.front().quarterTurns == 63);
  CHECK(r.tubeLength.value.in(metre) > 80.0);
  CHECK(r.tubeLength.value.in(metre) < 82.0);
  CHECK(r.water.value.in(litre) > 15.8);  // hand 16.3 L
  CHECK(r.water.value.in(litre) < 16.8);
}

TEST_CASE("With 40 mm of margin to the outside of the tube the count drops to 15 turns and about 75.4 m",
          "[evaluate][reference]") {
  const auto document = model::withMargin(model::firstPanel(), millimetres(40.0));
  REQUIRE(document.has_value());
  const results::Results r = reckoned(*document);
  REQUIRE(r.layout.has_value());
  CHECK((r.layout->runs.front().quarterTurns + 1) / 4 == 15);
  const double turns = r.layout->runs.front().turnsTo_m - r.layout->runs.front().turnsFrom_m;
  // Hand 75.4 m with tails is 72.6 m of closed loops; a drawn spiral ends a side short and steps inwards within a turn.
  CHECK(turns > 70.5);
  CHECK(turns < 75.5);
}

TEST_CASE("One run at 6 L/min loses 1.9 to 2.6 m, two runs at 3 L/min each 0.28 to 0.42 m", "[evaluate][reference]") {
  model::Document one = withFlow(model::firstPanel(), 6.0);
  one.plumbing.runFittings.clear();
  one.laying.starts = 1;
  const results::Results single = reckoned(one, {.depth = evaluate::Depth::Flow, .ranges = false});
  REQUIRE(single.flow.has_value());
  const double rhoG = 9777.0;  // 25 C
  CHECK(single.flow->panelLoss.value.si() / rhoG > 1.9);
  CHECK(single.flow->panelLoss.value.si() / rhoG < 2.6);

  model::Document two = one;
  two.laying.starts = 2;
  const results::Results pair = reckoned(two, {.depth = evaluate::Depth::Flow, .ranges = false});
  REQUIRE(pair.flow.has_value());
  REQUIRE(pair.layout->runs.size() == 2);
  CHECK(pair.flow->panelLoss.value.si() / rhoG > 0.28);
  CHECK(pair.flow->panelLoss.value.si() / rhoG < 0.42);
  const double ratio = single.flow->panelLoss.value / pair.flow->panelLoss.value;
  CHECK(ratio > 5.0);  // hand 6.5 on straight-tube friction; bends and the regime move it
  CHECK(ratio < 8.0);
}

TEST_CASE("At 850 W/m2 with the water 6 K over the air the first panel gives 0.9 to 1.4 kW", "[evaluate][reference]") {
  // Hand: 2.76 m2 x (0.51 x 850 - 6.5 x 6) = 1.09 kW, rise 2.6 K at 6 L/min; the contact share rules the band.
  model::Document document = withFlow(model::firstPanel(), 6.0);
  document.conditions.onPanel = Uncertain<Irradiance>{wattsPerSquareMetre(850.0), {}, Sureness::Measured};
  document.conditions.air.value = celsius(19.3);
  const results::Results r = reckoned(document);
  REQUIRE(r.heat.has_value());
  const double mean = 0.5 * (r.heat->outlet.value.inCelsius() + 24.0);
  CHECK(mean - 19.3 == Approx(6.0).margin(0.4));
  CHECK(r.heat->toPool.value.in(kilowatt) > 0.9);
  CHECK(r.heat->toPool.value.in(kilowatt) < 1.4);
  CHECK(r.heat->rise.value.si() > 2.1);
  CHECK(r.heat->rise.value.si() < 3.4);
}

TEST_CASE("A clear June day warms the first panel's pool by 0.5 to 0.9 K before losses", "[evaluate][reference]") {
  // Hand: 6.5 kWh/m2 x 2.76 x 0.40 = 7.2 kWh into 10.7 kWh/K = 0.67 K.
  const auto day = evaluate::day(model::firstPanel());
  REQUIRE(day.has_value());
  CHECK(day->poolRise.si() > 0.5);
  CHECK(day->poolRise.si() < 0.9);
}

TEST_CASE("One 100 m roll is enough for the first panel and about 19 m stay on it", "[evaluate][reference]") {
  const results::Results r = reckoned(model::firstPanel());
  REQUIRE(r.tubeCuts.has_value());
  CHECK(r.tubeCuts->lengthsUsed == 1);
  CHECK(r.tubeCuts->proven);
  CHECK(r.tubeCuts->totalLeft.in(metre) > 18.0);
  CHECK(r.tubeCuts->totalLeft.in(metre) < 20.0);
}

TEST_CASE("The bend of the first panel is twice its nominal collapse radius", "[evaluate][reference]") {
  // Hand: collapse radius 77 mm on the nominal wall, margin 160/77 = 2.1; on the minimum wall about 13 % more.
  model::Document document = model::firstPanel();
  document.tube.minimumWallShare.value = 1.0;
  const results::Results nominal = reckoned(document, {.depth = evaluate::Depth::Layout, .ranges = false});
  REQUIRE(nominal.bends);
  CHECK(nominal.bends->collapseRadius.in(millimetre) == Approx(77.0).margin(1.0));
  document.tube.minimumWallShare.value = 0.9;
  const results::Results thin = reckoned(document, {.depth = evaluate::Depth::Layout, .ranges = false});
  CHECK(thin.bends->collapseRadius / nominal.bends->collapseRadius == Approx(1.13).margin(0.02));
  CHECK(thin.bends->verdict == results::BendVerdict::TighterThanHandbook);
}

TEST_CASE("A tower in Osaka takes 1.9 h and 23 to 33 per cent of a clear October day's beam", "[evaluate][reference]") {
  // Hand calculation: 34.7 N, declination -9, noon altitude 46.3 under the tower's 50 degrees; azimuth 150 to 190 is
  // from 1.4 h before to 0.47 h after noon; 1.6 of 5.7 kWh/m2 of beam on 35 degrees of tilt.
  model::Document document = model::firstPanel();
  document.place = {"Osaka", degrees(34.7), degrees(135.5), metres(10.0), 9.0};
  document.moment = {2025, 10, 16, 12.0};
  document.siting.tilt = degrees(35.0);
  document.siting.azimuth = degrees(180.0);
  document.obstacles = {{"tower", degrees(150.0), degrees(190.0), degrees(50.0)}};
  double shaded_h = 0.0, taken = 0.0, left = 0.0, first_h = 24.0, last_h = 0.0, noon_h = 12.0;
  constexpr double kMinute_h = 1.0 / 60.0;
  for (int minute = 0; minute < 24 * 60; ++minute) {
    document.moment.clock_h = minute * kMinute_h;
    const auto sun = evaluate::sunNow(document);
    REQUIRE(sun.has_value());
    taken += sun->shadedBeam_W_m2;
    left += sun->plane.beam_W_m2;
    noon_h = sun->day.noon_h;
    if (!sun->inShade) continue;
    shaded_h += kMinute_h;
    first_h = std::min(first_h, document.moment.clock_h);
    last_h = std::max(last_h, document.moment.clock_h);
  }
  CHECK(shaded_h == Approx(1.9).margin(0.1));
  CHECK(noon_h - first_h == Approx(1.4).margin(0.1));  // an azimuth of 150 is 1.48 h before noon
  CHECK(last_h - noon_h == Approx(0.47).margin(0.06));
  CHECK(taken / (taken + left) > 0.23);
  CHECK(taken / (taken + left) < 0.33);
  CHECK((taken + left) / 60.0 / 1000.0 == Approx(5.7).margin(0.9));  // clear skies of the two models differ
}
