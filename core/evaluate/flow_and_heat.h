// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Flow and heat of a laid panel, iterated together: the viscosity follows the temperature along the run, the
// temperature follows the flow.

#include <vector>

#include "core/base/result.h"
#include "core/hydraulics/network.h"
#include "core/layout/layout.h"
#include "core/model/document.h"
#include "core/results/results.h"
#include "core/thermal/collector.h"

namespace sunspool::evaluate {

/// The moment's sun on the panel: clear or dull sky, Perez on the slope, less what the obstacles take: the beam while
/// the sun stands behind one, and the share of the sky's light they hide. An irradiance typed in scales what is left to
/// it and says nothing of shade. Assumption: the ground before the panel is not shaded.
Result<results::SunNow> sunNow(const model::Document& document);
/// Air, clear-sky temperature and sun of the moment. Assumption: the long-wave sky of a dull day is as cold as a clear
/// one, which reads the losses high.
thermal::Sky skyOver(const model::Document& document, const results::SunNow& sun);
/// What the panel is judged at with the pump off, whatever hour is looked at: the standard stagnation condition of
/// collector testing (1000 W/m2 on the panel, 30 C, still air; EN 12975 / ISO 9806, from memory), or the day's own
/// strongest clear sun without any shade, the irradiance typed in and the air of the document where those are
/// harder.
/// Assumption: 85 % beam at normal incidence; "still" is 1 m/s, or the document's wind when that is less. A shade cloth
/// takes the same share off beam and sky; its own warmth is left out.
Result<thermal::Sky> stoppedSky(const model::Document& document);
thermal::PanelHeat panelHeat(const model::Document& document, const layout::LaidPanel& laid);
/// Mean temperature of tube and plate when the pump stops under stoppedSky(), the cloth not drawn yet; the pool's when
/// the panel is no warmer or no water flows, whatever hour is looked at.
/// @param flow     nullptr: not known
/// @param stopped  stoppedSky() of this document
Result<double> atTheStop_K(const model::Document& document, const layout::LaidPanel& laid,
                           const hydraulics::NetworkFlow* flow, const thermal::Sky& stopped);
/// Gauge pressure of the water standing over the panel's lower edge when the pump stops and the way stays full.
double standingColumn_Pa(const model::Document& document);

struct Coupled {
  hydraulics::Network network;
  hydraulics::NetworkFlow flow;
  Result<thermal::SteadyHeat> heat = Error{};  ///< NoFlow when the pump never starts
  int iterations = 0;
  double shutOffHead_m = 0.0;
};

/// Iterates until no run's flow changes by more than 1e-6 of itself (the design asks for 1e-3), at most 30 times.
/// @param sun nullptr: flow alone, at the pool's temperature.
/// @return Errors of the pump curve, the network or the heat; NotConverged with fact "change".
Result<Coupled> flowAndHeat(const model::Document& document, const layout::LaidPanel& laid, const results::SunNow* sun);

/// Water of all runs together where they meet.
double mixedOutlet_K(const thermal::SteadyHeat& heat, const hydraulics::NetworkFlow& flow);

/// The same total flow, shared by the runs in proportion to their lengths: what unequal runs are measured against.
Result<thermal::SteadyHeat> heatWithFairShares(const model::Document& document, const layout::LaidPanel& laid,
                                               const results::SunNow& sun, const Coupled& coupled);

/// Height of a point of the panel's plane over the pool's water level.
double heightOverPool_m(const model::Document& document, geometry::Point point);

/// Pressure, height and temperature along each run.
Result<std::vector<results::RunProfile>> profiles(const model::Document& document, const layout::LaidPanel& laid,
                                                  const Coupled& coupled);

}  // namespace sunspool::evaluate
