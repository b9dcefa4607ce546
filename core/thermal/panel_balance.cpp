// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/panel_balance.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "core/thermal/checked.h"
#include "core/thermal/cover.h"
#include "core/thermal/root.h"

namespace sunspool::thermal {
namespace {

/// Long-wave emittance of painted or plain timber, boards and the rest of the outside. Assumption: 0.9, as most
/// non-metals have.
constexpr double kOutsideEmittance = 0.9;
constexpr double kRightAngle_rad = std::numbers::pi / 2.0;

std::optional<Error> checkedSky(const Sky& sky) {
  constexpr double kMostSun_W_m2 = 5000.0;
  return outside("heat/sky", {{"air", sky.air_K, kernel::kColdestAir_K, 373.15, Dimension::Temperature},
                              {"sky", sky.sky_K, 150.0, 373.15, Dimension::Temperature},
                              {"wind", sky.wind_m_s, 0.0, 60.0, Dimension::Velocity},
                              {"beam", sky.beam_W_m2, 0.0, kMostSun_W_m2, Dimension::Irradiance},
                              {"sky_radiation", sky.sky_W_m2, 0.0, kMostSun_W_m2, Dimension::Irradiance},
                              {"ground_radiation", sky.ground_W_m2, 0.0, kMostSun_W_m2, Dimension::Irradiance},
                              {"incidence", sky.incidence_rad, 0.0, std::numbers::pi + 1e-9, Dimension::Angle},
                              {"air_pressure", sky.airPressure_Pa, 1e4, 2e5, Dimension::Pressure}});
}

std::optional<Error> checkedSheet(const char* where, const model::Sheet& sheet) {
  return outside(where, {{"thickness", sheet.thickness.si(), 0.0, 10.0, Dimension::Length},
                         {"conductivity", sheet.conductivity.value.si(), 1e-4, 1e4, Dimension::ThermalConductivity}});
}

std::optional<Error> checkedTube(const model::Tube& tube) {
  const double od_m = tube.outsideDiameter.value.si();
  return outside("heat/tube",
                 {{"outside_diameter", od_m, 1e-5, 10.0, Dimension::Length},
                  {"inside_diameter", tube.insideDiameter.value.si(), 1e-6, od_m * (1.0 - 1e-9), Dimension::Length},
                  {"conductivity", tube.conductivity.value.si(), 1e-4, 1e4, Dimension::ThermalConductivity},
                  {"absorptance", tube.absorptance.value, 0.0, 1.0},
                  {"emittance", tube.emittance.value, 1e-3, 1.0}});
}

std::optional<Error> checkedBox(const PanelHeat& panel) {
  const model::Box& box = panel.box;
  if (box.backing) {
    if (auto error = checkedSheet("heat/backing", *box.backing)) return error;
  }
  if (box.insulation) {
    if (auto error = checkedSheet("heat/insulation", *box.insulation)) return error;
  }
  if (box.plate) {
    if (auto error = outside("heat/plate", {{"absorptance", box.plate->absorptance.value, 0.0, 1.0},
                                            {"emittance", box.plate->emittance.value, 1e-3, 1.0},
                                            {"contact_share", box.plateContactShare.value, 0.0, 1.0}})) {
      return error;
    }
  }
  if (!box.glazing) return std::nullopt;
  if (auto error = checkedSheet("heat/glazing", box.glazing->sheet)) return error;
  return outside("heat/glazing", {{"emittance", box.glazing->emittance.value, 1e-3, 1.0},
                                  {"air_gap", panel.airGap_m, 1e-4, 10.0, Dimension::Length}});
}

std::optional<Error> checkedPanel(const PanelHeat& panel, double tubeInside_m) {
  if (auto error = outside(
          "heat/panel", {{"area", panel.area_m2, 1e-6, 1e6, Dimension::Area},
                         {"gross_area", panel.grossArea_m2, 0.0, 1e6, Dimension::Area},
                         {"perimeter", panel.perimeter_m, 0.0, 1e6, Dimension::Length},
                         {"depth", panel.depth_m, 0.0, 100.0, Dimension::Length},
                         {"tilt", panel.tilt_rad, 0.0, kRightAngle_rad + 1e-9, Dimension::Angle},
                         {"edge_conductivity", panel.edgeConductivity_W_mK, 1e-4, 1e4, Dimension::ThermalConductivity},
                         {"edge_thickness", panel.edgeThickness_m, 1e-5, 10.0, Dimension::Length},
                         {"tube_inside", tubeInside_m, 0.0, 1e7, Dimension::Length}})) {
    return error;
  }
  if (auto error = checkedTube(panel.tube)) return error;
  return checkedBox(panel);
}

double resistance_m2K_W(const std::optional<model::Sheet>& sheet) {
  return sheet ? sheet->thickness.si() / sheet->conductivity.value.si() : 0.0;
}

/// A sun behind the panel's plane shines on its back and does not count.
double beamInFront_W_m2(const Sky& sky) { return sky.incidence_rad < kRightAngle_rad ? sky.beam_W_m2 : 0.0; }

struct Passing {
  double sun_W_m2 = 0.0;  ///< through the glazing
  double diffuseReflectance = 0.0;
};
/// Inputs are checked: the formulas of cover.h cannot refuse.
Passing passing(const PanelHeat& panel, const Sky& sky) {
  const double beam_W_m2 = beamInFront_W_m2(sky);
  if (!panel.box.glazing) return {beam_W_m2 + sky.sky_W_m2 + sky.ground_W_m2, 0.0};
  const model::Glazing& glazing = *panel.box.glazing;
  const GlazingOptics optics = *glazingOptics(glazing.transmittance.value, glazing.refractiveIndex);
  const EffectiveAngles angles = *effectiveAngles(radians(std::min(panel.tilt_rad, kRightAngle_rad)));
  const auto through = [&optics](Angle angle) { return *glazingTransmittance(optics, angle); };
  const double beamPassing = beam_W_m2 > 0.0 ? beam_W_m2 * through(radians(sky.incidence_rad)) : 0.0;
  return {beamPassing + sky.sky_W_m2 * through(angles.sky) + sky.ground_W_m2 * through(angles.ground),
          optics.diffuseReflectance};
}

AbsorbedSun absorbedSun(const PanelHeat& panel, const Sky& sky, double tubeInside_m) {
  const model::Tube& tube = panel.tube;
  const std::optional<model::Plate>& plate = panel.box.plate;
  AbsorbedSun sun;
  sun.falling_W_m2 = beamInFront_W_m2(sky) + sky.sky_W_m2 + sky.ground_W_m2;
  double tubeAbsorptance = tube.absorptance.value, tubeEmittance = tube.emittance.value;
  double plateAbsorptance = plate ? plate->absorptance.value : 0.0;
  if (tubeInside_m > 0.0) {
    sun.tubeShare = std::min(1.0, tube.outsideDiameter.value.si() * tubeInside_m / panel.area_m2);
  } else {
    sun.tubeShare = 1.0;
    if (plate) {
      tubeAbsorptance = std::max(tubeAbsorptance, plateAbsorptance);
      tubeEmittance = std::min(tubeEmittance, plate->emittance.value);
    }
  }
  const double c = sun.tubeShare;
  sun.contactShare = plate ? panel.box.plateContactShare.value : 0.0;
  sun.optical = c + (1.0 - c) * sun.contactShare;
  sun.emittance = plate ? c * tubeEmittance + (1.0 - c) * plate->emittance.value : tubeEmittance;
  sun.surface = plate ? 1.0 : std::min(1.0, 0.5 * std::numbers::pi * c);
  const Passing passed = passing(panel, sky);
  // Light thrown back by tube and plate together meets the glazing from below, and part of it returns. Gaps without a
  // plate throw nothing back.
  const double thrownBack = c * (1.0 - tubeAbsorptance) + (plate ? (1.0 - c) * (1.0 - plateAbsorptance) : 0.0);
  const double meeting_W_m2 = passed.sun_W_m2 / (1.0 - thrownBack * passed.diffuseReflectance);
  sun.onTube_W_m2 = meeting_W_m2 * c * tubeAbsorptance;
  sun.onPlate_W_m2 = meeting_W_m2 * (1.0 - c) * plateAbsorptance;
  sun.tauAlpha = sun.falling_W_m2 > 0.0 ? (sun.onTube_W_m2 + sun.onPlate_W_m2) / sun.falling_W_m2 : 0.0;
  return sun;
}

}  // namespace

Result<PanelBalance> PanelBalance::from(const PanelHeat& panel, const Sky& sky, double tubeInside_m) {
  if (auto error = checkedSky(sky)) return *error;
  if (auto error = checkedPanel(panel, tubeInside_m)) return *error;
  if (panel.box.glazing) {
    const auto optics = glazingOptics(panel.box.glazing->transmittance.value, panel.box.glazing->refractiveIndex);
    if (!optics) return optics.error();
  }
  PanelBalance balance;
  balance.m_sun = absorbedSun(panel, sky, tubeInside_m);
  balance.m_air_K = sky.air_K;
  balance.m_wind_W_m2K = kernel::windCoefficient_W_m2K(sky.wind_m_s);
  const double skyView = 0.5 * (1.0 + std::cos(panel.tilt_rad));
  balance.m_radiant_K = std::pow(skyView * std::pow(sky.sky_K, 4) + (1.0 - skyView) * std::pow(sky.air_K, 4), 0.25);
  balance.m_glazed = panel.box.glazing.has_value();
  if (balance.m_glazed) {
    const model::Glazing& glazing = *panel.box.glazing;
    balance.m_cover.air_K = sky.air_K;
    balance.m_cover.sky_K = balance.m_radiant_K;
    balance.m_cover.wind_W_m2K = balance.m_wind_W_m2K;
    balance.m_cover.gapExchange = 1.0 / (1.0 / balance.m_sun.emittance + 1.0 / glazing.emittance.value - 1.0);
    balance.m_cover.coverEmittance = glazing.emittance.value;
    balance.m_cover.coverResistance_m2K_W = resistance_m2K_W(glazing.sheet);
    balance.m_cover.gap_m = panel.airGap_m;
    balance.m_cover.tilt_rad = panel.tilt_rad;
    balance.m_cover.airPressure_Pa = sky.airPressure_Pa;
    balance.m_cover.absorberArea = balance.m_sun.surface;
  }
  balance.setBack(panel);
  return balance;
}

void PanelBalance::setBack(const PanelHeat& panel) {
  m_insulation_m2K_W = resistance_m2K_W(panel.box.insulation);
  m_backing_m2K_W = resistance_m2K_W(panel.box.backing);
  const bool closed = panel.box.plate || panel.box.insulation || panel.box.backing;
  m_backSurface = closed ? 1.0 : m_sun.surface;
  m_side_m2K_W = panel.edgeThickness_m / panel.edgeConductivity_W_mK;
  m_sideArea = panel.perimeter_m * panel.depth_m / panel.area_m2;
}

namespace {

/// Coefficient of a wall with a film of wind and radiation to surroundings at air temperature outside.
double wallCoefficient_W_m2K(double inside_K, double air_K, double wall_m2K_W, double wind_W_m2K) {
  const auto film = [&](double face_K) {
    return wind_W_m2K + kernel::radiationCoefficient_W_m2K(face_K, air_K, kOutsideEmittance);
  };
  if (wall_m2K_W <= 0.0) return film(inside_K);
  const auto surplus = [&](double face_K) {
    return film(face_K) * (face_K - air_K) - (inside_K - face_K) / wall_m2K_W;
  };
  const double low_K = std::min(inside_K, air_K), high_K = std::max(inside_K, air_K);
  const Root root = high_K - low_K < 1e-9 ? Root{low_K, 0.0, 0, true} : findRoot(surplus, low_K, high_K, 1e-9);
  return 1.0 / (wall_m2K_W + 1.0 / film(root.x));
}

}  // namespace

PanelLoss PanelBalance::lossAt(double absorber_K) const {
  PanelLoss loss;
  if (m_glazed) {
    kernel::CoverInputs in = m_cover;
    in.absorber_K = absorber_K;
    const kernel::Cover cover = kernel::coverBalance(in);
    loss.top_W_m2K = cover.coefficient_W_m2K;
    loss.topSurroundings_K = cover.surroundings_K;
    loss.glazing_K = cover.inside_K;
    loss.found = cover.found;
  } else {
    const double radiation_W_m2K = kernel::radiationCoefficient_W_m2K(absorber_K, m_radiant_K, m_sun.emittance);
    const double film_W_m2K = m_wind_W_m2K + radiation_W_m2K;
    loss.top_W_m2K = m_sun.surface * film_W_m2K;
    loss.topSurroundings_K = (m_wind_W_m2K * m_air_K + radiation_W_m2K * m_radiant_K) / film_W_m2K;
  }
  loss.back_W_m2K =
      m_backSurface * wallCoefficient_W_m2K(absorber_K, m_air_K, m_insulation_m2K_W + m_backing_m2K_W, m_wind_W_m2K);
  loss.edge_W_m2K =
      m_sideArea > 0.0 ? m_sideArea * wallCoefficient_W_m2K(absorber_K, m_air_K, m_side_m2K_W, m_wind_W_m2K) : 0.0;
  loss.backingFace_K = absorber_K - loss.back_W_m2K / m_backSurface * (absorber_K - m_air_K) * m_insulation_m2K_W;
  loss.found = loss.found && std::isfinite(loss.total_W_m2K());
  return loss;
}

}  // namespace sunspool::thermal
