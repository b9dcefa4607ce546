// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/warming.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "support.h"

using namespace sunspool;
using namespace sunspool::thermal;
using namespace sunspool::thermal::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

PanelHeat weighedPanel() {
  PanelHeat panel = firstPanel();
  panel.tube.density = kilogramsPerCubicMetre(922.0);
  panel.tube.specificHeat = joulesPerKilogramKelvin(2200.0);
  panel.box.plate->sheet.density = kilogramsPerCubicMetre(7850.0);
  return panel;
}

double minutesOfTube(const PanelHeat& panel, const Sky& sky, double start_K) {
  const auto heat = stopped(panel, sky, 0.0, start_K);
  REQUIRE(heat);
  const auto tube =
      std::find_if(heat->layers.begin(), heat->layers.end(), [](const auto& layer) { return layer.part == "tube"; });
  REQUIRE(tube->minutesToLimit);
  return *tube->minutesToLimit;
}

}  // namespace

TEST_CASE("What the first panel stores is tube, water and plate", "[thermal][analytic]") {
  // 78 m: 8.82 kg of tube x 2200, 15.65 kg of water x 4180, 10.84 kg of steel x 450 J/(kg K), by hand.
  const auto stored = storedHeat_J_K(weighedPanel(), 298.15);
  REQUIRE(stored);
  const double tube = 0.7853982 * (0.02 * 0.02 - 0.016 * 0.016) * 78.0 * 922.0 * 2200.0;
  const double water = 0.7853982 * 0.016 * 0.016 * 78.0 * 997.05 * 4181.0;
  const double plate = 1.18 * 2.34 * 0.0005 * 7850.0 * 450.0;
  CHECK_THAT(*stored, WithinRel(tube + water + plate, 1e-3));
  PanelHeat panel = weighedPanel();
  panel.box.plate.reset();
  CHECK_THAT(*storedHeat_J_K(panel, 298.15), WithinRel(tube + water, 1e-3));
}

TEST_CASE("Against a loss in proportion the minutes are those of the exponential", "[thermal][analytic]") {
  // No glazing, sky as warm as air and next to no long-wave: the loss is the wind's alone, 2.8 + 3 V per kelvin.
  PanelHeat panel = weighedPanel();
  panel.box.glazing.reset();
  panel.perimeter_m = 0.0;
  panel.box.insulation = sheet(10.0, 1e-4);
  panel.box.plate->emittance.value = panel.tube.emittance.value = 1e-3;
  panel.tilt_rad = 0.0;
  Sky sky = brightNoon();
  sky.sky_K = sky.air_K;
  const double start_K = 300.0;
  const auto heat = stopped(panel, sky, 0.0, start_K);
  REQUIRE(heat);
  const double rest_K = heat->layers.front().dry_K;
  panel.tube.limit = Temperature::fromKelvin(start_K + 0.6 * (rest_K - start_K));
  const double loss = 2.8 + 3.0 * sky.wind_m_s;
  const double byHand = *storedHeat_J_K(panel, start_K) / (loss * panel.area_m2) * -std::log(0.4) / 60.0;
  CHECK_THAT(minutesOfTube(panel, sky, start_K), WithinRel(byHand, 2e-3));  // the long-wave left is under 1e-3
}

TEST_CASE("Just after the stop the panel warms by absorbed sun over stored heat", "[thermal][analytic]") {
  // Starting at the air's temperature nothing is lost yet but to the sky; half a kelvin on.
  PanelHeat panel = weighedPanel();
  Sky sky = brightNoon();
  sky.sky_K = sky.air_K;
  panel.tube.limit = Temperature::fromKelvin(sky.air_K + 0.5);
  const auto balance = PanelBalance::from(panel, sky, panel.tubeInside_m);
  REQUIRE(balance);
  const double kept_W = (balance->sun().onTube_W_m2 + balance->sun().onPlate_W_m2) * panel.area_m2;
  const double byHand = *storedHeat_J_K(panel, sky.air_K) * 0.5 / kept_W / 60.0;
  CHECK_THAT(minutesOfTube(panel, sky, sky.air_K), WithinRel(byHand, 0.01));
}

TEST_CASE("Minutes grow with the water that stands in the tube and shrink with the sun", "[thermal][property]") {
  const double before = minutesOfTube(weighedPanel(), brightNoon(), 300.0);
  CHECK(before > 1.0);
  CHECK(before < 120.0);
  Sky sky = brightNoon();
  sky.beam_W_m2 += 100.0;
  CHECK(minutesOfTube(weighedPanel(), sky, 300.0) < before);
  CHECK(minutesOfTube(weighedPanel(), brightNoon(), 290.0) > before);
  PanelHeat panel = weighedPanel();
  panel.tube.insideDiameter.value = millimetres(18);
  CHECK(minutesOfTube(panel, brightNoon(), 300.0) > before);
  CHECK(minutesOfTube(weighedPanel(), brightNoon(), 330.0) == 0.0);  // over its 50 degrees already
}

TEST_CASE("Layers get minutes when their wet temperature passes a known limit, and only then", "[thermal][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  int timed = 0;
  for (int n = 0; n < 300; ++n) {
    CAPTURE(n);
    PanelHeat panel = weighedPanel();
    panel.tube.limit = celsius(uniform(random, 30.0, 140.0));
    panel.box.plate->sheet.limit = celsius(uniform(random, 30.0, 140.0));
    panel.box.glazing->sheet.limit = celsius(uniform(random, 20.0, 90.0));
    panel.box.backing->limit = celsius(uniform(random, 20.0, 60.0));
    Sky sky = brightNoon();
    sky.beam_W_m2 = uniform(random, 0.0, 1100.0);
    const double start_K = uniform(random, 275.0, 330.0);
    const auto heat = stopped(panel, sky, 0.0, start_K);
    REQUIRE(heat);
    double tube_min = -1.0, plate_min = -1.0;
    for (const auto& layer : heat->layers) {
      CAPTURE(layer.part);
      REQUIRE(layer.minutesToLimit.has_value() == (layer.limit_K && layer.wet_K > *layer.limit_K));
      if (!layer.minutesToLimit) continue;
      ++timed;
      CHECK(std::isfinite(*layer.minutesToLimit));
      CHECK(*layer.minutesToLimit >= 0.0);
      if (layer.part == "tube") tube_min = *layer.minutesToLimit;
      if (layer.part == "plate") plate_min = *layer.minutesToLimit;
    }
    // One body: the lower limit is passed first.
    if (tube_min > 0.0 && plate_min > 0.0) {
      CHECK((tube_min < plate_min) == (panel.tube.limit < *panel.box.plate->sheet.limit));
    }
  }
  CHECK(timed > 200);
}

TEST_CASE("A stop that was not asked for minutes has none, and an impossible start is refused", "[thermal][analytic]") {
  const auto plain = stopped(weighedPanel(), brightNoon(), 0.0);
  REQUIRE(plain);
  for (const auto& layer : plain->layers) CHECK_FALSE(layer.minutesToLimit);
  checkRefused(stopped(weighedPanel(), brightNoon(), 0.0, std::numeric_limits<double>::quiet_NaN()), "start");
  PanelHeat panel = weighedPanel();
  panel.tubeInside_m = 0.0;
  checkRefused(stopped(panel, brightNoon(), 0.0, 300.0), "tube_inside");
  panel = weighedPanel();
  panel.tube.density = kilogramsPerCubicMetre(0.0);
  checkRefused(stopped(panel, brightNoon(), 0.0, 300.0), "density");
}
