// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "core/thermal/collector.h"

namespace sunspool::thermal::test {

/// Settable by SUNSPOOL_TEST_SEED; tests print it with INFO.
inline unsigned seed() {
  const char* text = std::getenv("SUNSPOOL_TEST_SEED");
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250621u;
}

inline double uniform(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}
/// Uniform in the logarithm, so that tiny and huge cases both appear.
inline double logUniform(std::mt19937& random, double low, double high) {
  return std::exp(uniform(random, std::log(low), std::log(high)));
}

template <class T>
void checkRefused(const Result<T>& result, const std::string& detail) {
  REQUIRE_FALSE(result.has_value());
  CHECK(result.error().code == ErrorCode::OutOfRange);
  CHECK(result.error().detail == detail);
}

inline model::Sheet sheet(double thickness_m, double conductivity_W_mK) {
  model::Sheet result;
  result.thickness = metres(thickness_m);
  result.conductivity.value = wattsPerMetreKelvin(conductivity_W_mK);
  return result;
}

/// The first panel: 1180 x 2340 mm inside, 20/16 tube over a steel sheet, one cover, foam and board behind.
/// The cover is thin on purpose, so that its loss is the one of the hand calculations; a twin wall halves it.
inline PanelHeat firstPanel() {
  PanelHeat panel;
  panel.area_m2 = 1.18 * 2.34;
  panel.grossArea_m2 = 1.25 * 2.41;
  panel.perimeter_m = 2.0 * (1.18 + 2.34);
  panel.depth_m = 0.07;
  panel.tilt_rad = 30.0 * std::numbers::pi / 180.0;
  panel.airGap_m = 0.015;
  panel.tubeInside_m = 78.0;
  panel.box.backing = sheet(0.006, 0.13);
  panel.box.insulation = sheet(0.03, 0.035);
  model::Plate plate;
  plate.sheet = sheet(0.0005, 50.0);
  plate.absorptance.value = 0.94;
  plate.emittance.value = 0.90;
  panel.box.plate = plate;
  panel.box.plateContactShare.value = 0.4;
  model::Glazing glazing;
  glazing.sheet = sheet(0.001, 0.2);
  glazing.transmittance.value = 0.78;
  glazing.refractiveIndex = 1.59;
  glazing.emittance.value = 0.88;
  panel.box.glazing = glazing;
  panel.tube.insideDiameter.value = millimetres(16);
  panel.tube.outsideDiameter.value = millimetres(20);
  panel.tube.conductivity.value = wattsPerMetreKelvin(0.33);
  panel.tube.absorptance.value = 0.94;
  panel.tube.emittance.value = 0.92;
  panel.tube.limit = celsius(50);
  panel.tube.limitSource = "table";
  return panel;
}

/// 850 W/m2 on the plane, nearly square on; air 24 C, sky 12 C, a light wind.
inline Sky brightNoon() {
  Sky sky;
  sky.air_K = 297.15;
  sky.sky_K = 285.15;
  sky.wind_m_s = 1.5;
  sky.beam_W_m2 = 720.0;
  sky.sky_W_m2 = 120.0;
  sky.ground_W_m2 = 10.0;
  sky.incidence_rad = 0.25;
  return sky;
}
/// The same air without sun.
inline Sky darkNight() {
  Sky sky = brightNoon();
  sky.beam_W_m2 = sky.sky_W_m2 = sky.ground_W_m2 = 0.0;
  return sky;
}

/// One run of `length_m` inside the box: straights and quarter bends of 160 mm, as a spiral has.
inline HeatRun spiralRun(double length_m, double flow_L_min) {
  constexpr double kBend_m = 0.25133;
  constexpr int kBends = 64;
  HeatRun run;
  run.flow_m3_s = flow_L_min * 1e-3 / 60.0;
  for (int n = 0; n < kBends; ++n) {
    run.stretches.push_back({length_m / kBends - kBend_m, 0.0, true});
    run.stretches.push_back({kBend_m, 0.16, true});
  }
  return run;
}

/// A run of one straight, cut into stretches of this length.
inline HeatRun straightRun(double length_m, double piece_m, double flow_L_min) {
  HeatRun run;
  run.flow_m3_s = flow_L_min * 1e-3 / 60.0;
  const int pieces = static_cast<int>(std::lround(length_m / piece_m));
  for (int n = 0; n < pieces; ++n) run.stretches.push_back({length_m / pieces, 0.0, true});
  return run;
}

inline double sharesSum_W(const SunShares& shares) {
  return shares.toWater_W + shares.reflected_W + shares.top_W + shares.back_W + shares.edge_W;
}

}  // namespace sunspool::thermal::test
