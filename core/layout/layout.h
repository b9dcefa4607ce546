// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From a frame and a laying rule to tube as it lies. Bounds and reasons: DEVELOPERS.md, "What can be laid".

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/geometry/clearance.h"
#include "core/geometry/outline.h"
#include "core/geometry/path.h"
#include "core/model/document.h"

namespace sunspool::layout {

enum class Side { Bottom, Right, Top, Left };

/// Where a run passes the frame.
struct Port {
  geometry::Point at;      ///< on the inside face of the rail or stile; for a way through the back: the hole
  Side side = Side::Left;  ///< for a way through the back: the side the run points at
  bool throughBack = false;
  double station_m = 0.0;  ///< station of the run at this port
  bool operator==(const Port&) const = default;
};

/// Under: between the plate and the turns.
enum class CrossingLevel { Over, Under };

/// A stretch of the run that lies over or under other turns. The ramp is made on the last leg, before the first turn
/// that is crossed comes nearer than the pitch; from there the tube keeps its height until it leaves the frame.
struct Crossing {
  double from_m = 0.0;         ///< station where the ramp begins
  double to_m = 0.0;           ///< station of the inside face of the frame, where it leaves
  double rise_m = 0.0;         ///< between its centre line and that of the turns: the outside diameter
  double rampLength_m = 0.0;   ///< plan length of the ramp at the bend radius, see ramp.h
  double extraLength_m = 0.0;  ///< tube the ramp takes beyond the plan length
  int turnsCrossed = 0;
  CrossingLevel level = CrossingLevel::Over;
  bool operator==(const Crossing&) const = default;
};

/// One water path from feed to return, tails included, as the tube is cut.
struct LaidRun {
  char letter = 'A';
  geometry::Path path;        ///< plan view; station 0 at the pump end of the feed tail
  double cutLength_m = 0.0;   ///< path length, crossing extra and tail behind: what is cut from the roll
  double insideFrom_m = 0.0;  ///< stations between which the tube lies inside the frame
  double insideTo_m = 0.0;
  /// Stations of the turns alone: from the border of the region to the inner end, which is the beginning of the ramp,
  /// the hole, or, where nothing is crossed, the border again.
  double turnsFrom_m = 0.0;
  double turnsTo_m = 0.0;
  int quarterTurns = 0;  ///< sides of a spiral, passes of a serpentine
  Port feed;
  Port returning;
  std::optional<Crossing> crossing;
  double smallestRadius_m = 0.0;  ///< infinity for a straight tube
  double tailBehind_m = 0.0;      ///< return tail behind the back, not part of the path
  /// By how much the return tail asked for is shorter than the way from the inner end to the outer face of the frame;
  /// the way is then drawn and cut all the same. 0 when the tail is long enough.
  double tailShortBy_m = 0.0;
};

struct LaidPanel {
  std::vector<LaidRun> runs;
  geometry::Region region;  ///< where centre lines may lie
  Area netArea;             ///< inside of the frame less keep-outs
  Length tubeInside;        ///< sum over runs of tube inside the frame
  Length totalCut;          ///< sum of cutLength
  double coverage = 0.0;    ///< outside diameter x turns length / net area
  /// How many sides (passes) each run could lay at most, the ones that can be bent; a keep-out or a crossing without
  /// room for its ramp may leave fewer.
  int mostQuarterTurns = 0;
  geometry::Point coreLower, coreUpper;  ///< box free of tube in the middle; no size where there is none
  /// Smallest distance between centre lines of the turns, ramps included, and where; infinity when nothing can come
  /// close.
  double smallestSpacing_m = 0.0;
  geometry::ClosePlace smallestSpacingPlace;
};

/// More tube than this is not laid on one panel. [m]
inline constexpr double kMostTube_m = 500.0;

/// Lays the document's panel.
///
/// Rectangular spiral: run k of N starts in the k-th of N corners (entries Spread) or beside the others at the start
/// corner (SideBySide: nested, unequal, ends side by side too), the first leg along the bottom rail from the start
/// corner (feed port on the stile in line with it; for four starts also on the rails), turning inwards. As many sides
/// as can be bent when quarterTurns is not set; fewer when a keep-out lies in the way or the crossing's ramp has no
/// room (at most 64 sides are given up for that). The last leg goes straight on over or under the turns and out, or
/// ends at a hole in the bare core; under needs turns that stand off the plate by the outside diameter. Its end keeps
/// the pitch from every other centre line. feedShift > 0 moves the entry away from the start corner by an S of the bend
/// radius before the first leg; returnShift > 0 moves the crossing into the bare core by an S on the last leg (only
/// over the turns). Double spiral: in from the start corner with quarterTurns sides and out again beside it with two
/// less; a left and an equal right turn in the middle join the two arms. At least 3 sides; one start; shifts have to be
/// 0; innerEnd is not used. Bends are no tighter than 0.6 pitches. Serpentines: passes along the longer inside
/// dimension, first pass at the start corner; quarterTurns counts passes; one start; shifts have to be 0; innerEnd is
/// not used. Bulb turns (of pitches below 2R) swing out of their two passes by R - pitch/2 on either side; neighbouring
/// bulbs lie 2 pitch - 2R apart, less than the pitch. Feed tail: from the outer face of the frame. Return tail: from
/// the end of the turns, the crossing with its ramp and the timber included. Outside the frame both are drawn as they
/// would lie, at their cut length.
///
/// Errors, in this order: NotFinite and OutOfRange (`where` = JSON pointer) for numbers that mean nothing;
/// PitchBelowDiameter (facts "pitch", "diameter"); RegionTooNarrow (facts "width", "needed"); NoRunFits;
/// CannotBendPlain (facts "pitch", "plain_pitch" = 2R, "bulb_pitch" = R + pitch/2, "spiral_length" = what a spiral of
/// this box and pitch holds, "serpentine_length" = what the serpentine at plain_pitch holds, both the turns alone);
/// CannotBendBulbs (facts "pitch", "least_pitch" = R + diameter/2, where bulbs touch, "bulb_pitch", "spiral_length",
/// "serpentine_length" = with bulbs at bulb_pitch);
/// errors of a keep-out's outline; TurnsDoNotFit (facts "asked", "most", for a
/// double spiral "least"); KeepOutOverExit, KeepOutInTheWay
/// (`where` = its id); CrossingHasNoPlace (`where` = "feed" or "return"; facts "room" and "needed", or "shift", or
/// "rise" and "radius", or "stand_off" and "needed"); TooMuchTube (facts "length", "limit": more than kMostTube_m, or,
/// with the length estimated from the area, more than 20000 sides). Accuracy: exact lines and arcs; joints within 1e-12
/// m.
Result<LaidPanel> lay(const model::Document& document);

}  // namespace sunspool::layout
