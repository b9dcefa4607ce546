// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From a frame and a laying rule to tube as it lies. Bounds and reasons: DEVELOPERS.md, "What can be laid".

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/geometry/outline.h"
#include "core/geometry/path.h"
#include "core/model/document.h"

namespace sunspool::layout {

enum class Side { Bottom, Right, Top, Left };

/// Where a run passes the frame.
struct Port {
  geometry::Point at;  ///< on the inside face of the rail or stile; for a way through the back: the hole
  Side side = Side::Left;
  bool throughBack = false;
  double station_m = 0.0;  ///< station of the run at this port
  bool operator==(const Port&) const = default;
};

/// A stretch of the run that lies over other turns.
struct Crossing {
  double from_m = 0.0;         ///< station where the ramp up begins
  double to_m = 0.0;           ///< station where it is down again or leaves the frame
  double rise_m = 0.0;         ///< height of its centre line over that of the turns
  double rampLength_m = 0.0;   ///< plan length of one ramp at the bend radius
  double extraLength_m = 0.0;  ///< tube the ramps take beyond the plan length
  int turnsCrossed = 0;
  bool operator==(const Crossing&) const = default;
};

/// One water path from feed to return, tails included, as the tube is cut.
struct LaidRun {
  char letter = 'A';
  geometry::Path path;        ///< plan view; station 0 at the pump end of the feed tail
  double cutLength_m = 0.0;   ///< path length plus crossing extra: what is cut from the roll
  double insideFrom_m = 0.0;  ///< stations between which the tube lies inside the frame
  double insideTo_m = 0.0;
  double turnsFrom_m = 0.0;  ///< stations of the turns alone (no tail, no crossing)
  double turnsTo_m = 0.0;
  int quarterTurns = 0;
  Port feed;
  Port returning;
  std::optional<Crossing> crossing;
  double smallestRadius_m = 0.0;
};

struct LaidPanel {
  std::vector<LaidRun> runs;
  geometry::Region region;               ///< where centre lines may lie
  Area netArea;                          ///< inside of the frame less keep-outs
  Length tubeInside;                     ///< sum over runs of tube inside the frame
  Length totalCut;                       ///< sum of cutLength
  double coverage = 0.0;                 ///< outside diameter x turns length / net area
  int mostQuarterTurns = 0;              ///< how many sides each run could lay at most
  geometry::Point coreLower, coreUpper;  ///< bare box left in the middle
  /// For a spiral: smallest distance between centre lines (all levels apart) and where.
  double smallestSpacing_m = 0.0;
};

/// Lays the document's panel.
/// Errors: PitchBelowDiameter, RegionTooNarrow (facts "width", "needed"), CannotBendPlain (facts "pitch",
/// "plain_pitch" = 2R, "bulb_pitch" = R + pitch/2, "spiral_length" = what a spiral of this box and pitch holds,
/// "serpentine_length" = what the serpentine at plain_pitch holds), NoRunFits, KeepOutInTheWay, TurnsDoNotFit
/// (facts "asked", "most"), TooMuchTube, CrossingHasNoPlace.
Result<LaidPanel> lay(const model::Document& document);

}  // namespace sunspool::layout
