// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The two curves behind "Flows?": what the pump gives and what the way takes, head over flow.

#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::evaluate {

/// Flow through the pump, all panels alike together, and head in metres of water as it enters the panel.
struct PumpPointOnCurve {
  double flow_m3_s = 0.0;
  double head_m = 0.0;
};
/// What the way takes at a flow: static head and losses of feed, panel and return, with the band that the transition
/// between laminar and turbulent flow leaves open (low = head = high where it is closed).
struct SystemPoint {
  double flow_m3_s = 0.0;
  double head_m = 0.0;
  double low_m = 0.0, high_m = 0.0;
};
struct FlowCurves {
  std::vector<PumpPointOnCurve> pump;  ///< from no flow to no head, flow rising
  std::vector<SystemPoint> system;     ///< from no flow on, flow rising; ends above the shut-off head or the flow
  bool measured = false;               ///< the pump curve goes through measured points, not through two label numbers
  double shutOffHead_m = 0.0;
  double largestFlow_m3_s = 0.0;                 ///< of the pump, at no head
  double startingLift_m = 0.0;                   ///< to fill the way the first time
  bool starts = true;                            ///< the shut-off head lies above that lift
  double workFlow_m3_s = 0.0, workHead_m = 0.0;  ///< where the curves meet; 0 when it never starts
};

/// Curves of the document's pump and way, the water as warm all along as it is at the working point (at the pool's
/// temperature when the pump never starts).
///
/// Runs of unequal length share each flow by their one common loss, as at the working point.
/// Assumption: the band's ends keep the split of the best value.
/// Accuracy: the working point lies on both curves to 1e-6 of the head; between the points (at most 1/48 of the drawn
/// flow apart) straight lines stay within 0.1 % of the shut-off head.
/// @return errors of the layout, the pump curve, the network and the heat coupled to it.
Result<FlowCurves> flowCurves(const model::Document& document);

}  // namespace sunspool::evaluate
