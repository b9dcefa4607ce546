// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What a recipe hands over: runs inside the frame, in recipe coordinates. Internal to the layout module.
//
// Recipe coordinates: origin in the lower left corner of the region of centre lines, first leg along +x from the
// origin, turning left. The panel's corner and direction come in by FrameMap, see frame_map.h.

#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "core/geometry/path.h"
#include "core/layout/layout.h"

namespace sunspool::layout::detail {

/// A fit of lengths is granted up to this excess. [m]
inline constexpr double kFitTolerance_m = 1e-9;
/// More sides than this in all runs together are not laid; such a panel holds kilometres of tube.
inline constexpr long kMostSidesInAll = 20000;

/// One run between the inside faces of the frame. Stations count from the inside face at the feed.
struct InnerRun {
  std::vector<geometry::Piece> pieces;
  std::vector<int> sideOf;  ///< for each piece the side (spiral) or pass (serpentine) it came with
  double turnsFrom_m = 0.0;
  double turnsTo_m = 0.0;
  double length_m = 0.0;
  Side feedSide = Side::Left;
  Side returnSide = Side::Right;
  bool throughBack = false;
  bool returnStays = false;  ///< the return port is the same for every number of sides
  std::optional<Crossing> crossing;
};

/// What every recipe works in.
struct Field {
  double width_m = 0.0;    ///< of the region of centre lines
  double height_m = 0.0;   ///< of the region of centre lines
  double faceGap_m = 0.0;  ///< from the region's border to the inside face: margin + OD/2
  double pitch_m = 0.0;
  double bendRadius_m = 0.0;
};

inline Fact lengthFact(const char* name, double value_m) { return {name, value_m, Dimension::Length}; }
inline Fact countFact(const char* name, double value) { return {name, value, Dimension::Count}; }

}  // namespace sunspool::layout::detail
