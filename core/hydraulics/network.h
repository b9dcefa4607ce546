// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Pump, feed pipe, parallel runs, return pipe: the working point. One path from pump to pool.
// Losses: Darcy-Weisbach stretch by stretch with the law of tube_law.h; fittings as K on V^2/2.
// Left out: thermosiphon (warm return, cold feed: some millimetres of head), the spread of flow by manifold momentum,
// the pipe on the suction side of the pump. Volume flow is taken as the same all along (expansion 0.3 % over 10 K).

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
  double low_Pa = 0.0;              ///< lesser branch where the band is open, see tube_law.h
  double high_Pa = 0.0;             ///< greater branch where the band is open
  double slope_Pa_s_m3 = 0.0;       ///< derivative of loss with volume flow
  double transitionLength_m = 0.0;  ///< tube that lies between the regimes
  Regime mostly = Regime::Turbulent;
  double reynolds = 0.0;  ///< of the first stretch
  double velocity_m_s = 0.0;
};
/// @param path  bore > 0, roughness 0 to 5 % of the bore, K >= 0, at least one stretch; lengths >= 0, bend radius 0 or
///              above half the bore, water 0 to 150 C
/// @param flow  >= 0; zero gives exactly zero loss and the slope of creeping flow
/// @return OutOfRange with the offending value; also when Re > 1e8, the end of Colebrook's formula (fact: reynolds).
/// Accuracy: the derivative is analytic; the laws themselves are good to about 5 % outside the band.
/// Source: tube_law.h and friction.h.
Result<PathLoss> pathLoss(const FlowPath& path, VolumeFlow flow);
/// Loss from the beginning of the path to the end of each stretch. [Pa] Fittings count half at each end of the path.
/// The last entry is the loss of pathLoss. Errors of pathLoss.
Result<std::vector<double>> lossUpTo(const FlowPath& path, VolumeFlow flow);

/// Head of a pump against flow: falls monotonically, 0 beyond its largest flow.
/// From labels: H = H0 (1 - (Q/Qmax)^2), because the label flow holds without lift and the label head without flow.
/// Assumption: the parabola; small pumps stay within about 10 % of it, so measure two points where it matters.
/// From points: monotone cubic through them (Fritsch and Carlson 1980, Butland's slopes), extended in straight lines by
/// its end slopes to no flow and to no head. Speed scales flow by n and head by n^2 (affinity laws).
class PumpCurve {
 public:
  /// PumpLabelImpossible (facts: flow, head, speed of the offending pair) for values that are not positive (a point may
  /// have no flow or no head); PumpCurveRises (facts: flow_a, head_a, flow_b, head_b) when of two neighbouring points
  /// the second has not more flow or not less head; OutOfRange (fact: points) for a single point.
  static Result<PumpCurve> from(const model::Pump& pump);
  /// The same from label numbers.
  static Result<PumpCurve> fromLabels(VolumeFlow labelFlow, Length labelHead);
  /// Shut-off head at or below no flow.
  double head_m(double flow_m3_s) const;
  double slope_s_m2(double flow_m3_s) const;  ///< d head / d flow, <= 0; 0 outside the curve
  double shutOffHead_m() const { return m_shutOff_m; }
  double largestFlow_m3_s() const { return m_largest_m3_s; }
  bool measured() const { return m_measured; }  ///< from points rather than labels

 private:
  std::vector<double> m_flow_m3_s, m_head_m, m_slope;  ///< knots from no flow to no head; empty for labels
  double m_shutOff_m = 0.0, m_largest_m3_s = 0.0;
  bool m_measured = false;
};

/// What lies between pump and pool. Heights over the pool's water level; static head >= 0.
struct Network {
  std::optional<FlowPath> feed;
  std::vector<FlowPath> runs;  ///< parallel
  int alike = 1;               ///< panels like this one beside it: each run stands for so many
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
  double flow_m3_s = 0.0;  ///< through the pump, all panels together
  double head_m = 0.0;     ///< of the pump at the working point
  PathLoss feed, returning;
  std::vector<RunFlow> runs;
  double startingLift_m = 0.0;  ///< to fill the way up to the highest point the first time
  bool starts = true;           ///< shut-off head above the starting lift; false leaves every flow 0
  int iterations = 0;
  double residual_m = 0.0;     ///< of head, at the solution
  double lowFlow_m3_s = 0.0;   ///< working point with the high branch everywhere
  double highFlow_m3_s = 0.0;  ///< ... with the low branch
};
/// Solves pump head = static head + losses of feed, runs and return, with one loss common to all runs.
/// Each step replaces every path by the power law that touches it and solves that network exactly (Newton with the
/// arrow eliminated to one unknown); should that not settle, nested bracketing finishes, which cannot fail for rising
/// losses. The first fill needs the pump to reach the highest point (siphon not yet formed); a pump that cannot gives
/// starts = false and zero flow, not an Error.
/// @return OutOfRange for no runs, less than one panel, a run without length, a negative static head, and the errors of
/// pathLoss;
///         NotConverged (facts: residual, iterations) else.
/// Accuracy: head balance within 1e-10 of the shut-off head, flows of the runs add up exactly.
/// Heads are metres of water at the temperature where the runs begin.
Result<NetworkFlow> solve(const Network& network, const PumpCurve& pump);

/// One point of the way with its gauge pressure (0 = the air's); made by profile.h.
struct PressurePoint {
  double station_m = 0.0;  ///< along its path
  double gauge_Pa = 0.0;
  double waterLine_m = 0.0;  ///< height of the water line over the pool
};

}  // namespace sunspool::hydraulics
