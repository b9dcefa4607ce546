// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Findings about a legal design. Numbers and places only; the sentences stand in app/format.

#include <string>
#include <vector>

#include "core/base/result.h"

namespace sunspool {

enum class SnagState { Close, Snag, NotKnown };

/// Named after the fault found. The stable text key of each stands in checks/snag_keys.h.
enum class SnagCode {
  // bends
  BendCollapses,
  BendLikelyToFlatten,
  BendClose,
  BendStrainHigh,
  // room
  TubesTouch,
  TubesTooClose,
  CrossingTouchesGlazing,
  TubeUnsupportedDepth,
  TailTooShort,
  // flow
  PumpNeverStarts,
  PumpBarelyStarts,
  NearVapourPressure,
  HoseCollapsesWhenHot,
  PressureBelowAir,
  FlowInTransition,
  VelocityHigh,
  VelocityLowForAir,
  RunsUnequal,
  // stopped pump
  WaterBoilsWhenStopped,
  FirstSlugScalds,
  TubeOverLimitWhenStopped,
  GlazingOverLimitWhenStopped,
  PlateOverLimitWhenStopped,
  InsulationOverLimitWhenStopped,
  BackingOverLimitWhenStopped,
  MaterialLimitNotKnown,
  // stock
  TubeShort,
  RunNeedsJoin,
  TimberShort,
  NoSquaringAllowance,
  SheetShort,
  RollEndsInTurn,
  // wind
  WindLiftsPanel,
  GustNotEntered,
  PriceNotKnown
};

/// A place on the drawing: run index and station, or a named part; -1 = the whole design.
struct SnagPlace {
  int run = -1;
  double station_m = 0.0;
  std::string part;  ///< "glazing", "feed", "rail", ...; empty when run >= 0
  bool operator==(const SnagPlace&) const = default;
};

struct Snag {
  SnagState state = SnagState::Snag;
  SnagCode code{};
  std::vector<SnagPlace> places;  ///< worst first
  Fact measured;
  Fact limit;
  std::vector<Fact> why;    ///< the numbers of the formula behind it
  std::string source;       ///< key in the bibliography of DEVELOPERS.md, or "assumption"
  Fact cost;                ///< what ignoring it may cost, Money or Power or None
  std::string leftBecause;  ///< reason given by the builder for leaving it; empty = open
  bool operator==(const Snag&) const = default;
};

}  // namespace sunspool
