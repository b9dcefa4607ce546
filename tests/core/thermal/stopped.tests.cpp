// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <limits>

#include "core/materials/water.h"
#include "support.h"

using namespace sunspool;
using namespace sunspool::thermal;
using namespace sunspool::thermal::test;
using Catch::Matchers::WithinAbs;

namespace {

const StoppedLayer& part(const StoppedHeat& heat, const std::string& name) {
  const auto found = std::find_if(heat.layers.begin(), heat.layers.end(),
                                  [&](const StoppedLayer& layer) { return layer.part == name; });
  REQUIRE(found != heat.layers.end());
  return *found;
}
StoppedHeat solved(const PanelHeat& panel, const Sky& sky, double column_Pa = 0.0) {
  const auto heat = stopped(panel, sky, column_Pa);
  REQUIRE(heat);
  return *heat;
}
double dryTube_C(const PanelHeat& panel, const Sky& sky) { return part(solved(panel, sky), "tube").dry_K - 273.15; }

/// A flat absorber of one absorptance and emittance, without edges, with this resistance behind it.
PanelHeat bareAbsorber(double absorptance, double emittance, double behind_m2K_W) {
  PanelHeat panel = firstPanel();
  panel.perimeter_m = 0.0;
  panel.tilt_rad = 0.0;
  panel.box.backing.reset();
  panel.box.insulation = sheet(behind_m2K_W * 1e-3, 1e-3);
  panel.box.plate->absorptance.value = panel.tube.absorptance.value = absorptance;
  panel.box.plate->emittance.value = panel.tube.emittance.value = emittance;
  return panel;
}

/// Tucson: 46.5 x 94.5 in inside, tube 0.700/0.600 in, flat on the roof, 105 F air, 1050 W/m2.
PanelHeat desertPanel() {
  PanelHeat panel = firstPanel();
  panel.area_m2 = 46.5 * 94.5 * 0.0254 * 0.0254;
  panel.perimeter_m = 2.0 * (46.5 + 94.5) * 0.0254;
  panel.tube.outsideDiameter.value = Length::fromSi(0.7 * 0.0254);
  panel.tube.insideDiameter.value = Length::fromSi(0.6 * 0.0254);
  panel.tubeInside_m = 230.9 * 0.3048;
  panel.box.plateContactShare.value = 0.5;
  panel.box.glazing->transmittance.value = 0.86;
  panel.airGap_m = 0.02;
  panel.tilt_rad = 0.0;
  return panel;
}
Sky desertNoon(double wind_m_s) {
  Sky sky;
  sky.air_K = celsius(40.56).inKelvin();
  sky.sky_K = celsius(22).inKelvin();
  sky.wind_m_s = wind_m_s;
  sky.beam_W_m2 = 940;
  sky.sky_W_m2 = 110;
  sky.incidence_rad = 0.15;
  sky.airPressure_Pa = 93000;
  return sky;
}

}  // namespace

TEST_CASE("An open absorber stops at its balance of sun, wind and sky", "[thermal][stopped][reference]") {
  // Evaluated from the heat balance: alpha = eps = 0.95, 950 W/m2, air 30 C, sky 14 C, h_w 5.8 (1 m/s): 89.0 C.
  PanelHeat panel = bareAbsorber(0.95, 0.95, 1e4);
  panel.box.glazing.reset();
  Sky sky;
  sky.air_K = 303.15;
  sky.sky_K = 287.15;
  sky.wind_m_s = 1.0;
  sky.beam_W_m2 = 950;
  CHECK_THAT(dryTube_C(panel, sky), WithinAbs(89.0, 0.06));
}

TEST_CASE("A covered absorber stops where Klein's equation says", "[thermal][stopped][reference]") {
  // Evaluated with Klein's equation: (tau alpha) 0.80, 1000 W/m2, air and sky 30 C, h_w 10 (2.4 m/s), eps 0.95 and
  // 0.88, tilt 25, back 1.0: 123.7 C. Klein's 0.3 W/m2K of 8.5 is 3.3 K.
  PanelHeat panel = bareAbsorber(1.0, 0.95, 0.94);  // and about 0.06 of outer film behind it
  panel.tilt_rad = 25.0 * std::numbers::pi / 180.0;
  panel.airGap_m = 0.025;
  panel.box.glazing->sheet.thickness = metres(0);
  panel.box.glazing->transmittance.value = 0.80;
  Sky sky;
  sky.air_K = sky.sky_K = 303.15;
  sky.wind_m_s = 2.4;
  sky.beam_W_m2 = 1000;
  CHECK_THAT(dryTube_C(panel, sky), WithinAbs(123.7, 3.3));
}

TEST_CASE("The dead pump in the desert, glazed", "[thermal][stopped][reference]") {
  // Hand calculation with T_air + S/U: about 145 C with U 8, full balances 117 to 148 C, accepted 115 to 155 C.
  const StoppedHeat heat = solved(desertPanel(), desertNoon(1.5), 3000.0);
  const double dry_C = part(heat, "tube").dry_K - 273.15;
  CAPTURE(dry_C, heat.lossCoefficient_W_m2K);
  CHECK(dry_C > 115.0);
  CHECK(dry_C < 155.0);
  CHECK(heat.waterBoils);
  CHECK(part(heat, "tube").wet_K == heat.boiling_K);
  CHECK(part(heat, "plate").wet_K < part(heat, "plate").dry_K);
  CHECK(part(heat, "plate").wet_K > heat.boiling_K);
}

TEST_CASE("The dead pump in the desert, open", "[thermal][stopped][reference]") {
  // Hand calculation: about 89 C with U 20 in a light wind, accepted 73 to 106 C.
  PanelHeat open = desertPanel();
  open.box.glazing.reset();
  const double wind_m_s = GENERATE(1.0, 2.0, 3.0);
  const double dry_C = dryTube_C(open, desertNoon(wind_m_s));
  CAPTURE(wind_m_s, dry_C);
  CHECK(dry_C > 73.0);
  CHECK(dry_C < 106.0);
}

TEST_CASE("Water boils at the pressure of the air and the column over it", "[thermal][stopped][analytic]") {
  const StoppedHeat heat = solved(desertPanel(), desertNoon(1.0), 20000.0);
  CHECK_THAT(heat.boiling_K, WithinAbs(materials::boilingTemperature(pascals(113000))->inKelvin(), 1e-9));
  CHECK(solved(desertPanel(), desertNoon(1.0), 0.0).boiling_K < heat.boiling_K);
}

TEST_CASE("The dry absorber gives off exactly the sun it keeps", "[thermal][stopped][analytic]") {
  // Open and flat, so that the balance can be written down here: wind and sky, next to nothing behind.
  PanelHeat panel = bareAbsorber(0.9, 0.9, 1e4);
  panel.box.glazing.reset();
  const Sky sky = brightNoon();
  const double t = dryTube_C(panel, sky) + 273.15;
  const double off_W_m2 = (2.8 + 3.0 * sky.wind_m_s) * (t - sky.air_K) +
                          0.9 * kStefanBoltzmann_W_m2K4 * (std::pow(t, 4) - std::pow(sky.sky_K, 4));
  CHECK_THAT(off_W_m2, WithinAbs(0.9 * 850.0, 1e-2));  // 1e-4 W/m2K times some 50 K goes out behind
}

TEST_CASE("Below boiling, wet and dry end alike", "[thermal][stopped][analytic]") {
  PanelHeat panel = firstPanel();
  panel.box.glazing.reset();
  const StoppedHeat heat = solved(panel, brightNoon());
  CHECK_FALSE(heat.waterBoils);
  for (const StoppedLayer& layer : heat.layers) CHECK(layer.dry_K == layer.wet_K);
}

TEST_CASE("A plate in full contact boils along with its tube, one without contact stays dry-hot",
          "[thermal][stopped][analytic]") {
  PanelHeat panel = desertPanel();
  panel.box.plateContactShare.value = 1.0;
  const StoppedHeat bonded = solved(panel, desertNoon(1.0));
  CHECK(part(bonded, "plate").wet_K == bonded.boiling_K);
  panel.box.plateContactShare.value = 0.0;
  const StoppedHeat loose = solved(panel, desertNoon(1.0));
  CHECK_THAT(part(loose, "plate").wet_K, WithinAbs(part(loose, "plate").dry_K, 1e-6));
  CHECK(part(loose, "tube").wet_K == loose.boiling_K);
}

TEST_CASE("Layers come from the front and carry the limits and sources of the document",
          "[thermal][stopped][analytic]") {
  PanelHeat panel = firstPanel();
  panel.box.insulation->limit = celsius(75);
  panel.box.insulation->limitSource = "maker's sheet";
  const StoppedHeat heat = solved(panel, brightNoon());
  std::vector<std::string> order;
  for (const StoppedLayer& layer : heat.layers) order.push_back(layer.part);
  CHECK(order == std::vector<std::string>{"glazing", "tube", "plate", "insulation", "backing"});
  CHECK(part(heat, "tube").limit_K.value() == celsius(50).inKelvin());
  CHECK(part(heat, "tube").limitSource == "table");
  CHECK(part(heat, "insulation").limit_K.value() == celsius(75).inKelvin());
  CHECK(part(heat, "insulation").limitSource == "maker's sheet");
  CHECK_FALSE(part(heat, "plate").limit_K.has_value());
}

TEST_CASE("Backing and glazing stay cooler than what they enclose", "[thermal][stopped][property]") {
  const StoppedHeat heat = solved(firstPanel(), brightNoon());
  CHECK(part(heat, "backing").dry_K < part(heat, "insulation").dry_K);
  CHECK(part(heat, "backing").dry_K > brightNoon().air_K);
  CHECK(part(heat, "glazing").dry_K < part(heat, "tube").dry_K);
  CHECK(part(heat, "glazing").dry_K > brightNoon().air_K);
}

TEST_CASE("With nothing but tube in the frame the pump can still stop", "[thermal][stopped][property]") {
  PanelHeat panel = firstPanel();
  panel.box.plate.reset();
  panel.box.insulation.reset();
  panel.box.backing.reset();
  const StoppedHeat glazed = solved(panel, brightNoon());
  CHECK(glazed.layers.size() == 2);
  panel.box.glazing.reset();
  const StoppedHeat open = solved(panel, brightNoon());
  CHECK(open.layers.size() == 1);
  CHECK(part(open, "tube").dry_K < part(glazed, "tube").dry_K);
  CHECK(part(open, "tube").dry_K > brightNoon().air_K);
}

TEST_CASE("An unknown length of tube is judged on the hot side", "[thermal][stopped][property]") {
  PanelHeat panel = firstPanel();
  panel.tube.absorptance.value = 0.85;
  panel.tube.emittance.value = 0.95;
  panel.box.plate->absorptance.value = 0.95;
  panel.box.plate->emittance.value = 0.5;
  const double known_C = dryTube_C(panel, brightNoon());
  panel.tubeInside_m = 0.0;
  CHECK(dryTube_C(panel, brightNoon()) > known_C);
}

TEST_CASE("At night the stopped panel lies between sky and air", "[thermal][stopped][property]") {
  Sky night = darkNight();
  const double cooled_K = dryTube_C(firstPanel(), night) + 273.15;
  CHECK(cooled_K < night.air_K);
  CHECK(cooled_K > night.sky_K);
  night.sky_K = night.air_K;
  CHECK_THAT(dryTube_C(firstPanel(), night) + 273.15, WithinAbs(night.air_K, 1e-6));
}

TEST_CASE("More sun, less wind or more insulation heats a stopped panel", "[thermal][stopped][property]") {
  const double before_C = dryTube_C(firstPanel(), brightNoon());
  Sky sky = brightNoon();
  sky.beam_W_m2 += 100;
  CHECK(dryTube_C(firstPanel(), sky) > before_C);
  sky = brightNoon();
  sky.wind_m_s = 0.0;
  CHECK(dryTube_C(firstPanel(), sky) > before_C);
  PanelHeat panel = firstPanel();
  panel.box.insulation->thickness = metres(0.06);
  CHECK(dryTube_C(panel, brightNoon()) > before_C);
}

TEST_CASE("A thousand random stopped panels: numbers below saturation, or a named refusal",
          "[thermal][stopped][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  int answered = 0;
  for (int n = 0; n < 1000; ++n) {
    PanelHeat panel = firstPanel();
    panel.area_m2 = logUniform(random, 0.1, 100.0);
    panel.tubeInside_m = logUniform(random, 1.0, 1000.0);
    panel.airGap_m = logUniform(random, 1e-3, 0.2);
    panel.tilt_rad = uniform(random, 0.0, 1.57);
    panel.box.plateContactShare.value = n % 7 == 0 ? 1.0 : uniform(random, 0.0, 1.0);
    if (n % 2 == 0) panel.box.glazing.reset();
    if (n % 3 == 0) panel.box.plate.reset();
    if (n % 5 == 0) panel.box.insulation.reset();
    Sky sky = brightNoon();
    sky.beam_W_m2 = uniform(random, 0.0, 1400.0);
    sky.incidence_rad = uniform(random, 0.0, 1.7);
    sky.wind_m_s = uniform(random, 0.0, 15.0);
    sky.air_K = uniform(random, 253.0, 320.0);
    sky.sky_K = sky.air_K - uniform(random, 0.0, 40.0);
    sky.airPressure_Pa = uniform(random, 5e4, 1.05e5);
    const double column_Pa = logUniform(random, 1.0, 1e5);
    const auto heat = stopped(panel, sky, column_Pa);
    CAPTURE(n);
    if (!heat) {
      checkRefused(heat, "absorber");
      continue;
    }
    ++answered;
    const double saturation_K = materials::boilingTemperature(pascals(sky.airPressure_Pa + column_Pa))->inKelvin();
    CHECK(part(*heat, "tube").wet_K <= saturation_K);
    for (const StoppedLayer& layer : heat->layers) {
      CAPTURE(layer.part);
      CHECK(std::isfinite(layer.dry_K));
      CHECK(layer.wet_K <= layer.dry_K + 1e-6);
      CHECK(layer.dry_K > sky.sky_K - 1.0);
    }
  }
  CHECK(answered > 900);
}

TEST_CASE("A stopped panel with impossible numbers is refused by name", "[thermal][stopped][analytic]") {
  checkRefused(stopped(firstPanel(), brightNoon(), -1.0), "water_column");
  checkRefused(stopped(firstPanel(), brightNoon(), std::numeric_limits<double>::quiet_NaN()), "water_column");
  PanelHeat panel = firstPanel();
  panel.airGap_m = 0.0;
  checkRefused(stopped(panel, brightNoon(), 0.0), "air_gap");
  panel = firstPanel();
  panel.tube.insideDiameter = panel.tube.outsideDiameter;
  checkRefused(stopped(panel, brightNoon(), 0.0), "inside_diameter");
  Sky burning = brightNoon();
  burning.beam_W_m2 = 5000;
  checkRefused(stopped(firstPanel(), burning, 0.0), "absorber");
}
