// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From what somebody has to a legal panel.

#include <optional>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::propose {

/// What lies in somebody's shed, as far as it was said. At least a sheet or a roll.
struct Have {
  struct Sheet {
    std::optional<model::SheetUse> use;  ///< nullopt: not said; the plate then
    Length width, height;
    int count = 1;
    std::optional<Length> thickness = {};  ///< nullopt: as the layer has it
    bool operator==(const Sheet&) const = default;
  };
  struct Roll {
    Length length;
    std::optional<Length> outsideDiameter, insideDiameter;  ///< both or none; none: the design's tube
    int count = 1;
    bool operator==(const Roll&) const = default;
  };
  struct Board {
    Length length;
    std::optional<Length> width, depth;  ///< of the section, either way round; both or none: as the frame's
    int count = 1;
    bool operator==(const Board&) const = default;
  };
  std::vector<Sheet> sheets;
  std::vector<Roll> rolls;
  std::vector<Board> boards;
  std::optional<model::Pump> pump;
  std::optional<Volume> pool;
  bool operator==(const Have&) const = default;
};

/// What keeps a panel from giving more.
enum class Binds {
  Sheet,  ///< the frame is full of tube at the smallest pitch
  Roll,   ///< the roll ends before the frame is full
  Boards  ///< the frame had to be made smaller than the sheet for want of longer timber
};

/// One way to make a panel of it.
struct Proposal {
  model::Document design;    ///< legal; what is had stands in its Shed as owned
  results::Results results;  ///< with Depth::Everything, without ranges
  Length tubeLeft;           ///< on the owned rolls of this tube after cutting; 0 when none is owned
  Binds limitedBy = Binds::Sheet;
};

/// Free between neighbouring tubes at the smallest pitch proposed: common practice, no source (a strap goes through,
/// a hand can lay it, growth does not close it).
inline constexpr Length kTubeGap = millimetres(4.0);

/// Up to three proposals, the warmest first, that differ in panels, runs or tube, each with the
/// least of the plate left without tube, then the widest bends, of those that warm alike within 1 %.
///
/// The frame's inside is the sheet (a plate, insulation or backing lies inside the frame) or the sheet less the
/// glazing's overlaps; of several layers the tightest; with the longer side along x. Several sheets make panels alike,
/// or one panel where that is warmer. Without a sheet the frame of `base` grows or shrinks until it uses up the roll.
/// The tube is the roll's: the design's or a known one of these diameters, else one of the diameters given with the
/// values of firstPanel()'s tube as guesses. The bend radius is as wide as the handbook asks where the frame has room
/// for it, and never tighter than an index of 0.6 and 8 % strain (0.8 when nothing else fits). The pitch, from the
/// diameter and kTubeGap on, is what the rolls said suffice for with the spread of hand laying; each run is one piece.
/// Inner ends go over the turns where the box is deep enough, else through the back; insulation gives way before the
/// tube does. 1, 2 and 4 runs are tried. Keep-outs and reasons for leaving findings are those of another panel and are
/// dropped; place, day, siting, pool and pump stay unless said.
///
/// None has an open Snag of bends, room or stock (tube, timber); none has one of the flow if that is possible.
/// Pure; about 0.1 to 0.3 s: call it off the window's thread.
///
/// @param knownTubes  tubes whose values are known, e.g. of the catalogue
/// Errors: NotUnderstood (fact "expected_sheet_or_roll") when neither is had, (fact "expected_diameters") for one
/// diameter alone; InsideNotBelowOutside; SheetSmallerThanLap (facts "sheet", "lap") for glazing smaller than its
/// overlaps; PieceLongerThanStock (`detail` "A"; facts "piece", "longest") when no roll holds the shortest run of one
/// full turn,
/// (`where` "rail") when no board holds a rail; OutOfRange (`where` "/frame/timber_depth_m") when tube and layers are
/// deeper than the boards; RegionTooNarrow (facts "width", "needed") when the tube cannot bend in the frame; else the
/// errors of validate() and lay() for what was said.
Result<std::vector<Proposal>> proposals(const Have& have, const model::Document& base,
                                        std::span<const model::Tube> knownTubes = {});

}  // namespace sunspool::propose
