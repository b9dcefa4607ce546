// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Pump, feed pipe, parallel runs, return pipe: the working point. One path from pump to pool.

#include <optional>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::hydraulics {

/// A stretch of tube with one curvature, in flow order.
struct Stretch {
  double length_m = 0.0;
  double bendRadius_m = 0.0;  ///< of the centre line; 0 = straight
  double waterTemperature_K = 293.15;
};

/// One way through tube of one bore, with fittings.
struct FlowPath {
  std::vector<Stretch> stretches;
  double insideDiameter_m = 0.0;
  double roughness_m = 0.0;
  double lossCoefficientSum = 0.0;  ///< K on the velocity in this bore
};

enum class Regime { Laminar, Transition, Turbulent };

/// Loss along a path at a flow, with the band that the transition leaves open.
struct PathLoss {
  double loss_Pa = 0.0;             ///< best value
  double low_Pa = 0.0;              ///< laminar branch where the band is open
  double high_Pa = 0.0;             ///< turbulent branch where the band is open
  double slope_Pa_s_m3 = 0.0;       ///< derivative of loss with volume flow
  double transitionLength_m = 0.0;  ///< tube that lies between the regimes
  Regime mostly = Regime::Turbulent;
  double reynolds = 0.0;  ///< of the first stretch
  double velocity_m_s = 0.0;
};
Result<PathLoss> pathLoss(const FlowPath& path, VolumeFlow flow);

/// Head of a pump against flow: falls monotonically, 0 beyond its largest flow.
/// From labels: H = H0 (1 - (Q/Qmax)^2) (U-1 form); from points: monotone cubic through them, extended by its end
/// slopes.
class PumpCurve {
 public:
  static Result<PumpCurve> from(const model::Pump& pump);
  double head_m(double flow_m3_s) const;
  double slope_s_m2(double flow_m3_s) const;  ///< d head / d flow, <= 0
  double shutOffHead_m() const;
  double largestFlow_m3_s() const;
  bool measured() const;  ///< from points rather than labels

 private:
  std::vector<double> m_flow_m3_s, m_head_m, m_slope;
  double m_shutOff_m = 0.0, m_largest_m3_s = 0.0;
  bool m_measured = false;
};

/// What lies between pump and pool. Heights over the pool's water level.
struct Network {
  std::optional<FlowPath> feed;
  std::vector<FlowPath> runs;  ///< parallel
  std::optional<FlowPath> returning;
  double highestPoint_m = 0.0;  ///< of the whole way
  double staticHead_m =
      0.0;  ///< left when running: 0 for a return under water, else the outlet's height (siphon broken there)
  double airPressure_Pa = 101325.0;
};

struct RunFlow {
  double flow_m3_s = 0.0;
  PathLoss loss;
};
struct NetworkFlow {
  double flow_m3_s = 0.0;  ///< through the pump
  double head_m = 0.0;     ///< of the pump at the working point
  PathLoss feed, returning;
  std::vector<RunFlow> runs;
  double startingLift_m = 0.0;  ///< to fill the way up to the highest point the first time
  bool starts = true;           ///< shut-off head above the starting lift
  int iterations = 0;
  double residual_m = 0.0;     ///< of head, at the solution
  double lowFlow_m3_s = 0.0;   ///< working point with the high branch everywhere
  double highFlow_m3_s = 0.0;  ///< ... with the low branch
};
/// Solves pump = losses by Newton with safeguard. NotConverged names the last residual.
/// A pump that cannot reach the starting lift gives starts = false and zero flow, not an Error.
Result<NetworkFlow> solve(const Network& network, const PumpCurve& pump);

/// Gauge pressure along the way (0 = the air's), and the lowest one.
struct PressurePoint {
  double station_m = 0.0;  ///< along the run
  double gauge_Pa = 0.0;
  double waterLine_m = 0.0;  ///< height of the water line over the pool
};

}  // namespace sunspool::hydraulics
