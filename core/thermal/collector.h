// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Steady heat of one panel: every run marched from feed to return (Hottel-Whillier form), and the
// stopped pump. Left out here: conduction in the plate, heat stored, neighbour-to-neighbour exchange.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::thermal {

struct Sky {
  double air_K = 293.15, sky_K = 283.15, wind_m_s = 0.0;
  double beam_W_m2 = 0.0, sky_W_m2 = 0.0, ground_W_m2 = 0.0;  ///< on the plane
  double incidence_rad = 0.0;                                 ///< of the beam
  double airPressure_Pa = 101325.0;
};

/// The box as heat sees it, made from the document and the laid panel.
struct PanelHeat {
  double area_m2 = 0.0;  ///< inside of the frame: absorbs, and names the efficiency
  double grossArea_m2 = 0.0;
  double perimeter_m = 0.0;
  double depth_m = 0.0;  ///< of the frame, for edge loss
  double tilt_rad = 0.0;
  double airGap_m = 0.0;  ///< tube or plate to glazing
  model::Box box;
  model::Tube tube;
  double edgeConductivity_W_mK = 0.13;  ///< of the frame timber
  double edgeThickness_m = 0.035;
};

/// A stretch of a run for marching, in flow order.
struct HeatStretch {
  double length_m = 0.0;
  double bendRadius_m = 0.0;  ///< 0 = straight
  bool insideBox = true;      ///< false: tail outside, bare in sun and wind
};
struct HeatRun {
  std::vector<HeatStretch> stretches;
  double flow_m3_s = 0.0;  ///< > 0
};

struct TemperaturePoint {
  double station_m = 0.0;
  double water_K = 0.0;
  double gained_W = 0.0;  ///< from station 0 to here
};
struct RunHeat {
  std::vector<TemperaturePoint> profile;  ///< first at station 0, last at the end
  double outlet_K = 0.0;
  double gained_W = 0.0;  ///< mass flow x specific heat x rise to 1e-6
};
/// Where the sun that falls on the panel's inside area goes; adds up to it.
struct SunShares {
  double falling_W = 0.0, toWater_W = 0.0, reflected_W = 0.0, top_W = 0.0, back_W = 0.0, edge_W = 0.0;
};
struct SteadyHeat {
  std::vector<RunHeat> runs;
  double toWater_W = 0.0;
  double efficiencyInside = 0.0;  ///< to water / (irradiance x inside area)
  double efficiencyGross = 0.0;
  double tauAlpha = 0.0;  ///< effective, weighted by beam, sky and ground
  double topLoss_W_m2K = 0.0, backLoss_W_m2K = 0.0, edgeLoss_W_m2K = 0.0;  ///< per inside area
  double efficiencyFactor = 0.0;                                           ///< F', mean along the runs
  double opticalShare = 0.0;                                               ///< c + (1-c) k
  double meanAbsorber_K = 0.0, glazing_K = 0.0;
  SunShares shares;
  int iterations = 0;
  double residual_W = 0.0;
};
/// @param inlet_K water at station 0 of every run.
/// NotConverged, NotFinite; NoFlow when a run's flow is not above 0 (ask stopped() then).
Result<SteadyHeat> steady(const PanelHeat& panel, const Sky& sky, std::span<const HeatRun> runs, double inlet_K);

/// A layer at its hottest with the pump off.
struct StoppedLayer {
  std::string part;               ///< "glazing", "tube", "plate", "insulation", "backing"
  double dry_K = 0.0;             ///< no water in the tube
  double wet_K = 0.0;             ///< water standing in the tube, capped at boiling
  std::optional<double> limit_K;  ///< nullopt = no limit known
  std::string limitSource;
};
struct StoppedHeat {
  std::vector<StoppedLayer> layers;
  double boiling_K = 373.15;  ///< at the site's air pressure plus the water column
  bool waterBoils = false;
  double lossCoefficient_W_m2K = 0.0;  ///< at the dry stagnation
};
/// @param waterColumn_Pa gauge pressure of the standing water at the panel's lower edge.
Result<StoppedHeat> stopped(const PanelHeat& panel, const Sky& sky, double waterColumn_Pa);

}  // namespace sunspool::thermal
