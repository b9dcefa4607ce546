// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Steady heat of one panel: every run marched from feed to return (Hottel-Whillier form), and the
// stopped pump. Left out here: conduction in the plate, heat stored, neighbour-to-neighbour exchange, the sun held by
// the glazing, long-wave through the glazing, shade of the frame.
//
// Sun. c = OD L / A is the share of the inside area A that L metres of tube cover (at most 1: tube lying over tube
// shades it). What passes the glazing at the angles of beam, sky and ground meets tube (c) and plate (1 - c); light
// thrown back meets the glazing's underside (cover.h). Of the heat on bare plate the share k, given by the builder,
// reaches the tube.
// Loss. One U_L on the whole inside area, from the mean absorber temperature: top through air gap, glazing, wind and
// sky (loss.h), back through insulation and backing, edges through the frame; outside of back and edges a film of
// wind and radiation. The loss is shared to the tube by length, W = A / L of area per metre.
// Water. Per metre q = F' [S - U_L W (T - T_surroundings)], F' = 1/(1 + U_L W R), R of wall and film.
//
// Assumption: the share 1 - k of the heat on bare plate is lost at once, to top, back and edges as their coefficients
// stand. It warms neither gap nor glazing in the balance of the tube; k covers that when it is fitted.
// Assumption: without a plate the sun between the tubes is not used, and the tube's surface that exchanges with the
// glazing, or with air and sky, is half its circumference (pi/2 OD L, at most A); the same again at the back.
// Assumption: wind by Watmuff (2.8 + 3.0 V, convection alone) for open panels, glazing, back, edges and tails: the
// engine adds radiation itself. A tail is thinner than the plates measured there and loses more in wind.
// Assumption: the surroundings seen by the panel's face are sky over (1 + cos tilt)/2 of the half space and ground at
// air temperature for the rest; sides lie at absorber temperature (an upper bound).

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
  /// Tube inside the frame, for stopped() (steady() counts its runs). 0 = not known: the larger absorptance and the
  /// smaller emittance of tube and plate then stand for the whole absorber.
  double tubeInside_m = 0.0;
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
  double gained_W = 0.0;       ///< mass flow x specific heat x rise to 1e-6
  double massFlow_kg_s = 0.0;  ///< volume flow x density at the inlet
  /// At the mean of inlet and outlet temperature, for the whole run: within 1e-5 of the enthalpy rise up to 5 K, 1e-3
  /// up to 50 K.
  double specificHeat_J_kgK = 0.0;
};
/// Where the sun that falls on the panel's inside area goes; adds up to it. toWater is the gain inside the box;
/// reflected holds all that tube and plate do not absorb. Losses are negative where the surroundings are warmer.
struct SunShares {
  double falling_W = 0.0, toWater_W = 0.0, reflected_W = 0.0, top_W = 0.0, back_W = 0.0, edge_W = 0.0;
};
struct SteadyHeat {
  std::vector<RunHeat> runs;
  double toWater_W = 0.0;         ///< sum over the runs, tails outside the box included
  double efficiencyInside = 0.0;  ///< to water / (irradiance x inside area); 0 without sun
  double efficiencyGross = 0.0;
  double tauAlpha = 0.0;  ///< effective, weighted by beam, sky and ground
  /// Per inside area. Back and edge on absorber - air; top on absorber - its surroundings (air and sky weighted by
  /// their coefficients, topSurroundings_K), so that it stays finite when absorber and air are equally warm.
  double topLoss_W_m2K = 0.0, backLoss_W_m2K = 0.0, edgeLoss_W_m2K = 0.0;
  double efficiencyFactor = 0.0;  ///< F', mean along the runs
  double opticalShare = 0.0;      ///< c + (1-c) k
  double meanAbsorber_K = 0.0;
  double glazing_K = 0.0;  ///< its inner face; 0 for an open panel
  SunShares shares;
  int iterations = 0;
  double residual_W = 0.0;  ///< sun kept - heat to water - losses at the final temperatures, absolute value
  double topSurroundings_K = 0.0;
  double tails_W = 0.0;    ///< gained by tube outside the box; part of toWater_W, not of the shares
  double tubeShare = 0.0;  ///< c
  double tubeInside_m = 0.0;
  double hottestAbsorber_K = 0.0;  ///< of the hottest cell inside the box
};
/// @param inlet_K water at station 0 of every run, above freezing and below boiling.
/// Cells: at most 0.25 m, never across stretches; exact within a cell for its own F', second order in the cell size.
/// Errors: NoFlow when a run's flow is not above 0 (ask stopped() then) or there is no run; OutOfRange with detail the
/// name of the input, or "water_boils" / "water_freezes" when the water would leave the liquid range at the air's
/// pressure (facts "value", "lowest", "highest" and "flow" of the run); NotConverged (fact "residual"), NotFinite.
/// Accuracy: the mean absorber temperature is iterated to 1e-9 relative, the shares add up to falling_W to 1e-12.
Result<SteadyHeat> steady(const PanelHeat& panel, const Sky& sky, std::span<const HeatRun> runs, double inlet_K);

/// A layer at its hottest with the pump off.
struct StoppedLayer {
  std::string part;               ///< "glazing", "tube", "plate", "insulation", "backing"
  double dry_K = 0.0;             ///< no water in the tube
  double wet_K = 0.0;             ///< water standing in the tube, capped at boiling
  std::optional<double> limit_K;  ///< nullopt = no limit known
  std::string limitSource;
  /// From the stop until the layer is at its limit, water standing in the tube; nullopt: no limit known, not reached in
  /// this model, or not asked for.
  std::optional<double> minutesToLimit{};
};
/// What the panel would reach if the sun stood still: an upper bound for a power cut at noon.
struct StoppedHeat {
  std::vector<StoppedLayer> layers;
  double boiling_K = 373.15;  ///< at the site's air pressure plus the water column
  bool waterBoils = false;
  double lossCoefficient_W_m2K = 0.0;  ///< at the dry stagnation
};
/// Dry: the whole absorber (tube and plate alike) at the temperature where its losses equal the absorbed sun.
/// Wet: the same below boiling; above it the tube stays at boiling while water is left, and the plate settles between
/// its own stagnation and the boiling tube.
/// Assumption: the plate's coupling to the tube is the one that makes k of its heat reach a tube at the temperature of
/// the surroundings, U_L k/(1 - k).
/// Layers in order from the front, as far as the box has them: "glazing" (inner face), "tube", "plate", "insulation"
/// (hot face), "backing" (hot face).
/// @param waterColumn_Pa gauge pressure of the standing water at the panel's lower edge, >= 0.
/// Errors: OutOfRange, also when a layer would pass 250 C (detail "absorber"); NotConverged, NotFinite.
Result<StoppedHeat> stopped(const PanelHeat& panel, const Sky& sky, double waterColumn_Pa);
/// The same with the minutes to each layer's limit, for the layers whose wet_K passes it.
///   C dT/dt = A [S - loss(T)], C of tube inside the box, the water standing in it, and plate
/// Tube, plate and the face of the insulation are at T; glazing and backing follow it as in the steady balance.
/// Assumption: the sun stands still. Tube, water and plate warm together; in truth the loosely coupled plate runs ahead
/// of the tube. Insulation, glazing, frame and the heat of boiling store nothing, which makes the time shorter.
/// Assumption: heat capacity of a plate by its density, 450 J/(kg K) over 5000 kg/m3 (steel, copper), 900 from 2000
/// (aluminium, slate), 1400 below (wood, plastics); common practice, no source.
/// Accuracy: about a third of the time, an estimate that was not measured; the integration itself 1e-3.
/// @param start_K mean temperature of tube and plate when the pump stops; a layer already over its limit gets 0.
/// Errors: as above; OutOfRange with detail "start", or "tube_inside" when the panel's tube is not known.
Result<StoppedHeat> stopped(const PanelHeat& panel, const Sky& sky, double waterColumn_Pa, double start_K);

}  // namespace sunspool::thermal
