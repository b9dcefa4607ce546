// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <limits>

#include "core/materials/water.h"
#include "core/thermal/convection.h"
#include "core/thermal/fin.h"
#include "support.h"

using namespace sunspool;
using namespace sunspool::thermal;
using namespace sunspool::thermal::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

SteadyHeat solved(const PanelHeat& panel, const Sky& sky, const std::vector<HeatRun>& runs, double inlet_C) {
  const auto heat = steady(panel, sky, runs, celsius(inlet_C).inKelvin());
  REQUIRE(heat);
  return *heat;
}
double rise_K(const SteadyHeat& heat, double inlet_C) {
  return heat.runs.front().outlet_K - celsius(inlet_C).inKelvin();
}
double loss_W_m2K(const SteadyHeat& heat) { return heat.topLoss_W_m2K + heat.backLoss_W_m2K + heat.edgeLoss_W_m2K; }

PanelHeat openPanel() {
  PanelHeat panel = firstPanel();
  panel.box.glazing.reset();
  return panel;
}
HeatRun withTails(HeatRun run, double each_m) {
  run.stretches.insert(run.stretches.begin(), {each_m, 0.0, false});
  run.stretches.push_back({each_m, 0.0, false});
  return run;
}
Result<SteadyHeat> tried(const PanelHeat& panel, const Sky& sky, const HeatRun& run, double inlet_K) {
  return steady(panel, sky, std::vector<HeatRun>{run}, inlet_K);
}

}  // namespace

TEST_CASE("The first panel at noon delivers about what the hand calculation says", "[thermal][steady][reference]") {
  // Hand: eta0 = F (tau alpha) [c + (1 - c) k] = 0.51, U 6.5, mean water 6 K over air, 850 W/m2: 1.09 kW (0.9 to 1.4),
  // rise 2.6 K at 6 L/min. Glazing 0.70 to 0.78 at the normal, thin, so that the loss is a single cover's.
  PanelHeat panel = firstPanel();
  panel.box.glazing->transmittance.value = GENERATE(0.70, 0.74, 0.78);
  Sky sky = brightNoon();
  sky.air_K = celsius(20).inKelvin();
  const double inlet_C = 24.7;
  const SteadyHeat heat = solved(panel, sky, {spiralRun(78.0, 6.0)}, inlet_C);
  CAPTURE(panel.box.glazing->transmittance.value, heat.toWater_W, rise_K(heat, inlet_C), heat.topLoss_W_m2K,
          heat.backLoss_W_m2K, heat.edgeLoss_W_m2K, heat.tauAlpha, heat.efficiencyFactor);
  CHECK(heat.toWater_W > 900.0);
  CHECK(heat.toWater_W < 1400.0);
  CHECK_THAT(rise_K(heat, inlet_C), WithinAbs(2.6, 0.5));
  CHECK_THAT(heat.tubeShare, WithinAbs(0.565, 1e-3));
  CHECK_THAT(heat.opticalShare, WithinAbs(0.739, 1e-3));
  CHECK_THAT(loss_W_m2K(heat), WithinAbs(6.5, 1.5));
}

TEST_CASE("An open panel in the desert comes near its hand calculation", "[thermal][steady][reference]") {
  // Hand, two panels of 46.5 x 94.5 in: eta0 0.63 with c 0.44 and k 0.5 at 950 W/m2, 84 F water, 88 F air: about
  // 12 200 BTU/h for both (9 500 to 14 500).
  PanelHeat panel = openPanel();
  panel.area_m2 = 46.5 * 94.5 * 0.0254 * 0.0254;
  panel.perimeter_m = 2.0 * (46.5 + 94.5) * 0.0254;
  panel.tube.outsideDiameter.value = Length::fromSi(0.7 * 0.0254);
  panel.tube.insideDiameter.value = Length::fromSi(0.6 * 0.0254);
  panel.box.plateContactShare.value = 0.5;
  panel.tilt_rad = 0.0;
  Sky sky = brightNoon();
  sky.air_K = celsius(31.1).inKelvin();
  sky.sky_K = celsius(15).inKelvin();
  sky.beam_W_m2 = 830;
  sky.ground_W_m2 = 0;
  const SteadyHeat heat = solved(panel, sky, {spiralRun(230.9 * 0.3048, 1.5 * 3.785411784)}, 28.9);
  const double both_btu_h = 2.0 * watts(heat.toWater_W).in(btuPerHour);
  CAPTURE(both_btu_h, heat.topLoss_W_m2K, heat.tubeShare);
  CHECK(both_btu_h > 9500.0);
  CHECK(both_btu_h < 14500.0);
}

TEST_CASE("One straight tube follows the exponential of Hottel and Whillier", "[thermal][steady][analytic]") {
  // Rebuilt from the reported coefficients with the outlet equation, Duffie & Beckman, 4th ed., eq. 6.6.4, and F' from
  // wall and film at the mean water temperature. What is left is the film's change along the run.
  PanelHeat panel = firstPanel();
  panel.box.plateContactShare.value = 1.0;
  const Sky sky = brightNoon();
  const double flow_L_min = GENERATE(0.5, 2.0, 12.0);
  const double inlet_C = 20.0, inlet_K = celsius(inlet_C).inKelvin();
  const SteadyHeat heat = solved(panel, sky, {straightRun(78.0, 78.0, flow_L_min)}, inlet_C);
  const RunHeat& run = heat.runs.front();
  const double loss = loss_W_m2K(heat);
  const double surroundings_K =
      (heat.topLoss_W_m2K * heat.topSurroundings_K + (loss - heat.topLoss_W_m2K) * sky.air_K) / loss;
  const auto outlet =
      outletTemperature(celsius(inlet_C), Temperature::fromKelvin(surroundings_K),
                        Irradiance::fromSi(heat.tauAlpha * 850.0), wattsPerSquareMetreKelvin(loss),
                        heat.efficiencyFactor, squareMetres(panel.area_m2), run.massFlow_kg_s * run.specificHeat_J_kgK);
  REQUIRE(outlet);
  CAPTURE(flow_L_min);
  CHECK_THAT(run.outlet_K - inlet_K, WithinRel(outlet->inKelvin() - inlet_K, 2e-4));
  const auto water = *materials::waterAt(Temperature::fromKelvin(0.5 * (run.outlet_K + inlet_K)));
  const double reynolds = 4.0 * run.massFlow_kg_s / (std::numbers::pi * 0.016 * water.viscosity.si());
  const auto film = filmCoefficient(reynolds, water.prandtl, millimetres(16), metres(0), water.conductivity);
  const auto factor = matEfficiencyFactor(wattsPerSquareMetreKelvin(loss), metres(panel.area_m2 / 78.0),
                                          millimetres(20), millimetres(16), wattsPerMetreKelvin(0.33),
                                          wattsPerSquareMetreKelvin(film->coefficient_W_m2K));
  CAPTURE(reynolds);
  CHECK_THAT(heat.efficiencyFactor, WithinRel(*factor, 2e-3));
}

TEST_CASE("Halving the cells at least quarters the error of the outlet", "[thermal][steady][analytic]") {
  // Slow water, so that the film changes along the run; the loss is the same to the iteration's 1e-9.
  const auto outlet_K = [](double piece_m) {
    return solved(firstPanel(), brightNoon(), {straightRun(80.0, piece_m, 1.0)}, 15.0).runs.front().outlet_K;
  };
  const double exact_K = outlet_K(0.01);
  const double coarse_K = std::abs(outlet_K(0.25) - exact_K), fine_K = std::abs(outlet_K(0.125) - exact_K);
  CAPTURE(coarse_K, fine_K);
  CHECK(fine_K < 0.3 * coarse_K + 2e-9);
  CHECK(coarse_K < 1e-4);
}

TEST_CASE("Halving the flow nearly doubles the rise and lowers the heat", "[thermal][steady][property]") {
  const PanelHeat panel = GENERATE(0, 1) == 0 ? firstPanel() : openPanel();
  const double flow_L_min = GENERATE(4.0, 6.0, 10.0);
  const SteadyHeat full = solved(panel, brightNoon(), {spiralRun(78.0, flow_L_min)}, 24.0);
  const SteadyHeat half = solved(panel, brightNoon(), {spiralRun(78.0, flow_L_min / 2.0)}, 24.0);
  const double ratio = rise_K(half, 24.0) / rise_K(full, 24.0);
  CAPTURE(flow_L_min, ratio);
  CHECK(ratio > 1.6);
  CHECK(ratio < 2.0);
  CHECK(half.toWater_W < full.toWater_W);
}

TEST_CASE("Warmer water takes less heat", "[thermal][steady][property]") {
  const PanelHeat panel = GENERATE(0, 1) == 0 ? firstPanel() : openPanel();
  double last_W = std::numeric_limits<double>::infinity();
  for (double inlet_C = 2.0; inlet_C < 80.0; inlet_C += 6.0) {
    const double now_W = solved(panel, brightNoon(), {spiralRun(78.0, 6.0)}, inlet_C).toWater_W;
    CAPTURE(inlet_C);
    CHECK(now_W < last_W);
    last_W = now_W;
  }
}

TEST_CASE("Without sun and with everything equally warm nothing flows", "[thermal][steady][analytic]") {
  const PanelHeat panel = GENERATE(0, 1) == 0 ? firstPanel() : openPanel();
  Sky dark = darkNight();
  dark.sky_K = dark.air_K;
  const auto heat = tried(panel, dark, withTails(spiralRun(78.0, 6.0), 2.0), dark.air_K);
  REQUIRE(heat);
  CHECK_THAT(heat->toWater_W, WithinAbs(0.0, 1e-6));
  CHECK(heat->efficiencyInside == 0.0);
  CHECK(heat->tauAlpha == 0.0);
  CHECK_THAT(heat->runs.front().outlet_K, WithinAbs(dark.air_K, 1e-8));
}

TEST_CASE("At night warm water cools towards air and sky", "[thermal][steady][property]") {
  const SteadyHeat heat = solved(firstPanel(), darkNight(), {spiralRun(78.0, 6.0)}, 28.0);
  CHECK(heat.toWater_W < 0.0);
  CHECK(heat.shares.top_W > 0.0);
  CHECK_THAT(sharesSum_W(heat.shares), WithinAbs(0.0, 1e-6));
}

TEST_CASE("The sum along the run is flow times specific heat times rise", "[thermal][steady][property]") {
  const double flow_L_min = GENERATE(0.6, 2.0, 6.0, 20.0);
  const HeatRun run = withTails(spiralRun(78.0, flow_L_min), 1.4);
  const SteadyHeat heat = solved(firstPanel(), brightNoon(), {run}, 22.0);
  const RunHeat& along = heat.runs.front();
  const double inlet_K = celsius(22.0).inKelvin();
  REQUIRE(along.profile.size() > 300);
  CHECK(along.profile.front().station_m == 0.0);
  CHECK(along.profile.front().gained_W == 0.0);
  CHECK(along.profile.front().water_K == inlet_K);
  CHECK_THAT(along.profile.back().station_m, WithinRel(80.8, 1e-12));
  CHECK(along.profile.back().water_K == along.outlet_K);
  CHECK(along.profile.back().gained_W == along.gained_W);
  for (std::size_t n = 1; n < along.profile.size(); ++n) {
    const TemperaturePoint& point = along.profile[n];
    const double carried_W = along.massFlow_kg_s * along.specificHeat_J_kgK * (point.water_K - inlet_K);
    CHECK_THAT(point.gained_W, WithinAbs(carried_W, 1e-6 * std::abs(along.gained_W)));
    const double cell_m = point.station_m - along.profile[n - 1].station_m;
    CHECK(cell_m > 0.0);
    CHECK(cell_m < 0.25 + 1e-9);
  }
  CHECK_THAT(heat.toWater_W, WithinRel(along.gained_W, 1e-12));
  // The same with the table of water, at the inlet and at the mean temperature.
  const auto atInlet = *materials::waterAt(celsius(22.0));
  const auto atMean = *materials::waterAt(Temperature::fromKelvin(0.5 * (inlet_K + along.outlet_K)));
  CHECK_THAT(run.flow_m3_s * atInlet.density.si() * atMean.specificHeat.si() * rise_K(heat, 22.0),
             WithinRel(along.gained_W, 1e-6));
}

TEST_CASE("Specific heat at the mean temperature stands for the enthalpy between inlet and outlet",
          "[thermal][steady][reference]") {
  // IAPWS R7-97(2012): enthalpy of liquid water at the two ends. Stated in collector.h: 1e-5 up to 5 K, 1e-3 to 50 K.
  const double flow_L_min = GENERATE(6.0, 0.6);
  const SteadyHeat heat = solved(firstPanel(), brightNoon(), {spiralRun(78.0, flow_L_min)}, 25.0);
  const RunHeat& run = heat.runs.front();
  const double from = materials::liquidStateAt(celsius(25.0), pascals(101325))->enthalpy_J_kg;
  const double to = materials::liquidStateAt(Temperature::fromKelvin(run.outlet_K), pascals(101325))->enthalpy_J_kg;
  CAPTURE(flow_L_min, rise_K(heat, 25.0));
  CHECK_THAT(run.massFlow_kg_s * (to - from), WithinRel(run.gained_W, flow_L_min > 5.0 ? 1e-5 : 1e-3));
}

TEST_CASE("Where the sun goes adds up to what falls in", "[thermal][steady][property]") {
  const int kind = GENERATE(0, 1, 2, 3, 4, 5);
  PanelHeat panel = firstPanel();
  if (kind % 2 == 1) panel.box.glazing.reset();
  if (kind >= 2) panel.box.plate.reset();
  if (kind >= 4) {
    panel.box.insulation.reset();
    panel.box.backing.reset();
  }
  const SteadyHeat heat = solved(panel, brightNoon(), {withTails(spiralRun(78.0, 5.0), 1.4)}, 24.0);
  CAPTURE(kind);
  CHECK_THAT(heat.shares.falling_W, WithinRel(850.0 * panel.area_m2, 1e-12));
  CHECK_THAT(sharesSum_W(heat.shares), WithinRel(heat.shares.falling_W, 1e-9));
  CHECK(heat.residual_W < 1e-9 * heat.shares.falling_W);
  CHECK_THAT(heat.shares.toWater_W + heat.tails_W, WithinRel(heat.toWater_W, 1e-12));
  CHECK_THAT(heat.efficiencyInside, WithinRel(heat.toWater_W / heat.shares.falling_W, 1e-12));
  CHECK_THAT(heat.efficiencyGross * panel.grossArea_m2, WithinRel(heat.efficiencyInside * panel.area_m2, 1e-12));
  CHECK(heat.shares.reflected_W > 0.0);
  CHECK(heat.toWater_W > 0.0);
  if (kind >= 2) CHECK(heat.opticalShare == heat.tubeShare);
}

TEST_CASE("More insulation never lowers the heat", "[thermal][steady][property]") {
  PanelHeat panel = GENERATE(0, 1) == 0 ? firstPanel() : openPanel();
  const double inlet_C = GENERATE(27.0, 45.0);
  double last_W = -std::numeric_limits<double>::infinity();
  for (const double thickness_m : {0.0, 0.005, 0.02, 0.05, 0.15}) {
    panel.box.insulation->thickness = metres(thickness_m);
    const double now_W = solved(panel, brightNoon(), {spiralRun(78.0, 6.0)}, inlet_C).toWater_W;
    CAPTURE(inlet_C, thickness_m);
    CHECK(now_W > last_W);
    last_W = now_W;
  }
}

TEST_CASE("Cutting a run into shorter stretches changes nothing", "[thermal][steady][property]") {
  const SteadyHeat whole = solved(firstPanel(), brightNoon(), {straightRun(78.0, 78.0, 6.0)}, 24.0);
  const SteadyHeat cut = solved(firstPanel(), brightNoon(), {straightRun(78.0, 0.4, 6.0)}, 24.0);
  CHECK_THAT(cut.toWater_W, WithinRel(whole.toWater_W, 1e-7));
  CHECK_THAT(sharesSum_W(cut.shares), WithinRel(cut.shares.falling_W, 1e-9));
}

TEST_CASE("Two equal runs side by side share the heat", "[thermal][steady][property]") {
  const SteadyHeat one = solved(firstPanel(), brightNoon(), {straightRun(78.0, 78.0, 12.0)}, 24.0);
  const HeatRun half = straightRun(39.0, 39.0, 6.0);
  const SteadyHeat two = solved(firstPanel(), brightNoon(), {half, half}, 24.0);
  CHECK(two.runs[0].gained_W == two.runs[1].gained_W);
  CHECK_THAT(two.runs[0].gained_W + two.runs[1].gained_W, WithinRel(two.toWater_W, 1e-12));
  // Half the flow in half the length keeps the rise; only the film is worse.
  CHECK_THAT(two.toWater_W, WithinRel(one.toWater_W, 0.01));
  CHECK(two.toWater_W < one.toWater_W);
}

TEST_CASE("The run with less water gets warmer and carries less", "[thermal][steady][property]") {
  const SteadyHeat heat =
      solved(firstPanel(), brightNoon(), {straightRun(39.0, 39.0, 4.0), straightRun(39.0, 39.0, 2.0)}, 24.0);
  CHECK(heat.runs[1].outlet_K > heat.runs[0].outlet_K);
  CHECK(heat.runs[1].gained_W < heat.runs[0].gained_W);
}

TEST_CASE("The more heat bare plate hands on, the more the water gets", "[thermal][steady][property]") {
  PanelHeat panel = firstPanel();
  double last_W = 0.0;
  for (const double k : {0.0, 0.2, 0.4, 0.7, 1.0}) {
    panel.box.plateContactShare.value = k;
    const SteadyHeat heat = solved(panel, brightNoon(), {spiralRun(78.0, 6.0)}, 24.0);
    CHECK(heat.toWater_W > last_W);
    CHECK_THAT(heat.opticalShare, WithinRel(heat.tubeShare + (1.0 - heat.tubeShare) * k, 1e-12));
    last_W = heat.toWater_W;
  }
}

TEST_CASE("Tube that lies over tube never covers more than the panel", "[thermal][steady][analytic]") {
  // 200 m of 20 mm are 4 m2 over 2.76 m2.
  const SteadyHeat heat = solved(firstPanel(), brightNoon(), {straightRun(200.0, 200.0, 6.0)}, 24.0);
  CHECK(heat.tubeShare == 1.0);
  CHECK_THAT(sharesSum_W(heat.shares), WithinRel(heat.shares.falling_W, 1e-9));
}

TEST_CASE("A bare tail gains in the sun and loses at night", "[thermal][steady][analytic]") {
  HeatRun run = spiralRun(78.0, 6.0);
  run.stretches.push_back({3.0, 0.0, false});
  const Sky sky = brightNoon();
  CHECK(solved(firstPanel(), darkNight(), {run}, 40.0).tails_W < 0.0);
  // By hand at one temperature: sun on the diameter, loss from the circumference.
  const SteadyHeat heat = solved(firstPanel(), sky, {run}, 24.0);
  const double water_K = heat.runs.front().outlet_K, od_m = 0.02,
               skyView = 0.5 * (1.0 + std::cos(firstPanel().tilt_rad));
  const double radiant_K4 = skyView * std::pow(sky.sky_K, 4) + (1.0 - skyView) * std::pow(sky.air_K, 4);
  const double loss_W_m = std::numbers::pi * od_m *
                          ((2.8 + 3.0 * sky.wind_m_s) * (water_K - sky.air_K) +
                           0.92 * kStefanBoltzmann_W_m2K4 * (std::pow(water_K, 4) - radiant_K4));
  const double hand_W = 3.0 * (0.94 * 850.0 * od_m - loss_W_m);
  // The wall takes about a tenth off, for the surface is warmer than the water.
  CHECK(heat.tails_W < hand_W);
  CHECK_THAT(heat.tails_W, WithinRel(hand_W, 0.15));
}

TEST_CASE("A sun behind the panel's plane counts for nothing", "[thermal][steady][analytic]") {
  Sky behind = brightNoon(), without = brightNoon();
  behind.incidence_rad = 1.8;
  without.beam_W_m2 = 0.0;
  const SteadyHeat a = solved(firstPanel(), behind, {spiralRun(78.0, 6.0)}, 20.0);
  const SteadyHeat b = solved(firstPanel(), without, {spiralRun(78.0, 6.0)}, 20.0);
  CHECK_THAT(a.toWater_W, WithinRel(b.toWater_W, 1e-12));
  CHECK_THAT(a.shares.falling_W, WithinRel(b.shares.falling_W, 1e-12));
}

TEST_CASE("No flow is an answer of its own", "[thermal][steady][analytic]") {
  HeatRun run = spiralRun(78.0, 6.0);
  run.flow_m3_s = GENERATE(0.0, -1e-4, std::numeric_limits<double>::quiet_NaN());
  const auto heat = tried(firstPanel(), brightNoon(), run, 295.0);
  REQUIRE_FALSE(heat);
  CHECK(heat.error().code == ErrorCode::NoFlow);
  CHECK(heat.error().where == "heat/runs/0");
  const auto none = steady(firstPanel(), brightNoon(), {}, 295.0);
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::NoFlow);
}

TEST_CASE("Water that would boil or freeze on its way is said, not clamped", "[thermal][steady][analytic]") {
  PanelHeat bonded = firstPanel();
  bonded.box.plateContactShare.value = 1.0;
  checkRefused(tried(bonded, brightNoon(), spiralRun(78.0, 0.02), 298.15), "water_boils");
  Sky frost = darkNight();
  frost.air_K = 263.15;
  frost.sky_K = 245.15;
  checkRefused(tried(firstPanel(), frost, spiralRun(78.0, 0.2), 275.15), "water_freezes");
}

TEST_CASE("Impossible panels are refused by name", "[thermal][steady][analytic]") {
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  const HeatRun run = spiralRun(78.0, 6.0);
  PanelHeat panel = firstPanel();
  panel.area_m2 = nothing;
  checkRefused(tried(panel, brightNoon(), run, 295), "area");
  panel = firstPanel();
  panel.airGap_m = -0.004;
  checkRefused(tried(panel, brightNoon(), run, 295), "air_gap");
  panel = firstPanel();
  panel.tube.conductivity.value = wattsPerMetreKelvin(0);
  checkRefused(tried(panel, brightNoon(), run, 295), "conductivity");
  panel = firstPanel();
  panel.box.plateContactShare.value = 1.2;
  checkRefused(tried(panel, brightNoon(), run, 295), "contact_share");
  panel = firstPanel();
  panel.box.glazing->transmittance.value = 0.0;
  checkRefused(tried(panel, brightNoon(), run, 295), "transmittance");
  Sky sky = brightNoon();
  sky.wind_m_s = -1.0;
  checkRefused(tried(firstPanel(), sky, run, 295), "wind");
  checkRefused(tried(firstPanel(), brightNoon(), run, 270), "inlet");
  checkRefused(tried(firstPanel(), brightNoon(), run, nothing), "inlet");
  HeatRun sharp = run;
  sharp.stretches[1].bendRadius_m = 0.01;
  checkRefused(tried(firstPanel(), brightNoon(), sharp, 295), "bend_radius");
  HeatRun empty;
  empty.flow_m3_s = 1e-4;
  checkRefused(tried(firstPanel(), brightNoon(), empty, 295), "tube_inside");
}

namespace {

PanelHeat randomPanel(std::mt19937& random, int n) {
  PanelHeat panel = firstPanel();
  panel.area_m2 = logUniform(random, 0.05, 60.0);
  panel.perimeter_m = 4.0 * std::sqrt(panel.area_m2);
  panel.airGap_m = logUniform(random, 1e-3, 0.2);
  panel.tilt_rad = uniform(random, 0.0, 1.57);
  panel.box.plateContactShare.value = uniform(random, 0.0, 1.0);
  panel.box.glazing->transmittance.value = uniform(random, 0.05, 1.0);
  panel.tube.outsideDiameter.value = Length::fromSi(logUniform(random, 0.004, 0.05));
  panel.tube.insideDiameter.value = panel.tube.outsideDiameter.value * uniform(random, 0.5, 0.95);
  panel.tube.conductivity.value = wattsPerMetreKelvin(logUniform(random, 0.1, 400.0));
  panel.tube.absorptance.value = uniform(random, 0.05, 1.0);
  panel.tube.emittance.value = uniform(random, 0.05, 1.0);
  if (n % 2 == 0) panel.box.glazing.reset();
  if (n % 3 == 0) panel.box.plate.reset();
  if (n % 5 == 0) panel.box.insulation.reset();
  if (n % 7 == 0) panel.box.backing.reset();
  return panel;
}
Sky randomSky(std::mt19937& random) {
  Sky sky = brightNoon();
  sky.beam_W_m2 = uniform(random, 0.0, 1300.0);
  sky.sky_W_m2 = uniform(random, 0.0, 300.0);
  sky.incidence_rad = uniform(random, 0.0, 1.9);
  sky.wind_m_s = uniform(random, 0.0, 20.0);
  sky.air_K = uniform(random, 255.0, 318.0);
  sky.sky_K = sky.air_K - uniform(random, 0.0, 35.0);
  return sky;
}

}  // namespace

TEST_CASE("Two thousand random panels: numbers that balance, or a named refusal", "[thermal][steady][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  int answered = 0, mostIterations = 0;
  for (int n = 0; n < 2000; ++n) {
    const PanelHeat panel = randomPanel(random, n);
    const Sky sky = randomSky(random);
    const double bend_m = panel.tube.insideDiameter.value.si() * logUniform(random, 1.0, 100.0);
    std::vector<HeatRun> runs(static_cast<std::size_t>(1 + n % 3));
    for (HeatRun& run : runs) {
      run.flow_m3_s = logUniform(random, 1e-7, 1e-3);
      run.stretches = {{uniform(random, 0.0, 2.0), 0.0, false},
                       {logUniform(random, 0.01, 80.0), 0.0, true},
                       {logUniform(random, 0.01, 5.0), bend_m, true}};
    }
    const auto heat = steady(panel, sky, runs, uniform(random, 273.5, 340.0));
    CAPTURE(n);
    if (!heat) {
      CHECK(heat.error().code == ErrorCode::OutOfRange);
      CHECK((heat.error().detail == "water_boils" || heat.error().detail == "water_freezes"));
      continue;
    }
    ++answered;
    mostIterations = std::max(mostIterations, heat->iterations);
    const double scale_W = heat->shares.falling_W + std::abs(heat->shares.toWater_W) + std::abs(heat->shares.top_W);
    CHECK_THAT(sharesSum_W(heat->shares), WithinAbs(heat->shares.falling_W, 1e-9 * scale_W));
    CHECK(heat->residual_W <= 1e-7 * scale_W);
    CHECK(heat->efficiencyFactor > 0.0);
    CHECK(heat->efficiencyFactor <= 1.0);
    CHECK(heat->tauAlpha <= 1.0);
    CHECK(std::all_of(heat->runs.begin(), heat->runs.end(),
                      [](const RunHeat& run) { return run.outlet_K >= 273.15 && run.outlet_K <= 373.2; }));
  }
  CAPTURE(answered, mostIterations);
  CHECK(answered > 1000);
  CHECK(mostIterations < 30);
}
