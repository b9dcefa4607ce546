// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/spiral.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/clearance.h"
#include "core/layout/approach.h"
#include "core/layout/ramp.h"
#include "core/layout/strand.h"

namespace sunspool::layout::detail {
namespace {

using geometry::Arc;
using geometry::Line;
using geometry::Piece;
using geometry::Point;

constexpr double kQuarter = std::numbers::pi / 2.0;
constexpr double kNever = std::numeric_limits<double>::infinity();

int firstSide(const SpiralRule& rule, int run) {
  switch (rule.entries) {
    case model::Entries::Spread:
      return 4 * run / rule.starts;
    case model::Entries::SideBySide:
      return 0;
  }
  return 0;
}
int sideOf(const SpiralRule& rule, int run, long leg) { return static_cast<int>((firstSide(rule, run) + leg) % 4); }
long depthOf(const SpiralRule& rule, int run, long leg) {
  switch (rule.entries) {
    case model::Entries::Spread:
      return leg * rule.starts / 4;
    case model::Entries::SideBySide:
      return rule.starts * (leg / 4) + run;
  }
  return 0;
}
/// Turns that the last of `sides` legs meets when it goes straight on.
long turnsAhead(const SpiralRule& rule, long sides) {
  switch (rule.entries) {
    case model::Entries::Spread:
      return sides * rule.starts / 4;
    case model::Entries::SideBySide:
      return rule.starts * (sides / 4);
  }
  return 0;
}

/// Length of a leg between its nominal corners; the first leg starts at the border of the region.
double legLength(const SpiralRule& rule, int run, long leg) {
  const long before = leg == 0 ? 0 : depthOf(rule, run, leg - 1);
  const double taken = static_cast<double>(before + depthOf(rule, run, leg + 1));
  return dimensionAlong(rule.field, sideOf(rule, run, leg)) - taken * rule.field.pitch_m;
}

bool legFits(const SpiralRule& rule, long leg) {
  const double tangents = leg == 0 ? rule.field.bendRadius_m : 2.0 * rule.field.bendRadius_m;
  const double needed = leg == 0 ? tangents : std::max(tangents, rule.field.pitch_m);
  for (int run = 0; run < rule.starts; ++run) {
    if (legLength(rule, run, leg) < needed - kFitTolerance_m) return false;
  }
  return true;
}

/// Innermost legs that face each other across the bare core keep the pitch; legs that face none lie in the field.
bool coreIsOpen(const SpiralRule& rule, long sides) {
  const LaidDepths depths = laidDepths(rule, sides);
  for (int side = 0; side < 2; ++side) {
    const long here = depths.bySide[side];
    const long across = depths.bySide[side + 2];
    const bool facing = here >= 0 && across >= 0;
    const double taken = static_cast<double>(std::max(here, 0L) + std::max(across, 0L)) * rule.field.pitch_m;
    const double needed = facing ? rule.field.pitch_m : 0.0;
    if (dimensionAlong(rule.field, side + 1) - taken < needed - kFitTolerance_m) return false;
  }
  return true;
}

// Legs of one direction only get shorter, so the last one of each direction speaks for all.
bool sidesFit(const SpiralRule& rule, long sides) {
  return legFits(rule, 0) && legFits(rule, sides - 1) && (sides < 2 || legFits(rule, sides - 2)) &&
         coreIsOpen(rule, sides);
}

/// Corners nested inside the one between legs `leg` and `leg + 1` when `sides` legs are laid.
long furtherIn(const SpiralRule& rule, long sides, int run, long leg) {
  const long legs = std::max(0L, sides - 2 - leg);
  switch (rule.entries) {
    case model::Entries::Spread:
      return legs * rule.starts / 4;
    case model::Entries::SideBySide:
      return rule.starts * (legs / 4) + rule.starts - 1 - run;
  }
  return 0;
}

double cornerRadius(const SpiralRule& rule, long sides, int run, long leg) {
  const double bend = rule.field.bendRadius_m;
  switch (rule.corners) {
    case model::CornerRule::ConstantRadius:
      return bend;
    case model::CornerRule::ConcentricRadii:
      return bend + static_cast<double>(furtherIn(rule, sides, run, leg)) * rule.field.pitch_m;
  }
  return bend;
}

bool tangentsFit(const SpiralRule& rule, long sides) {
  for (long leg = 0; leg < sides; ++leg) {
    for (int run = 0; run < rule.starts; ++run) {
      const double before = leg == 0 ? 0.0 : cornerRadius(rule, sides, run, leg - 1);
      const double after = cornerRadius(rule, sides, run, leg);
      if (legLength(rule, run, leg) < before + after - kFitTolerance_m) return false;
    }
  }
  return true;
}

/// A run while it is laid: up to the start of its last straight.
struct OpenRun : Strand {
  double turnsFrom_m = 0.0;
  int lastSide = 0;          ///< on which side of the frame the last leg lies
  double toBorder_m = 0.0;   ///< from the cursor to the border of the region, straight on
  double toNominal_m = 0.0;  ///< from the cursor to the nominal end of the last leg
};

double distanceToBorder(const SpiralRule& rule, int side, Point p) {
  const double ahead[4] = {rule.field.width_m - p.x, rule.field.height_m - p.y, p.x, p.y};
  return ahead[side];
}

/// Plan length of an S that moves a line sideways by two arcs of the bend radius, with a straight between them when
/// right angles are not enough.
struct SideStep {
  double angle = 0.0;
  double between_m = 0.0;
  double runOut_m = 0.0;
};
SideStep sideStep(double shift_m, double radius_m) {
  if (shift_m >= 2.0 * radius_m) return {kQuarter, shift_m - 2.0 * radius_m, 2.0 * radius_m};
  const double sine = std::sqrt(shift_m * (4.0 * radius_m - shift_m)) / (2.0 * radius_m);
  return {std::atan2(sine, 1.0 - shift_m / (2.0 * radius_m)), 0.0, 2.0 * radius_m * sine};
}

/// Walks the S: `turn` +1 steps to the left, -1 to the right.
void addSideStep(OpenRun& run, int side, double turn, const SideStep& step, double radius_m, long leg) {
  const double heading = side * kQuarter;
  const Point left = inward(side) * turn;
  run.add(Arc{run.cursor + left * radius_m, radius_m, heading - turn * kQuarter, turn * step.angle}, leg);
  if (step.between_m > 0.0) run.addLine(run.cursor + left * step.between_m, leg);
  const Point u{std::cos(heading + turn * step.angle), std::sin(heading + turn * step.angle)};
  const Point right = Point{u.y, -u.x} * turn;
  const double startAngle = heading + turn * step.angle + turn * kQuarter;
  run.add(Arc{run.cursor + right * radius_m, radius_m, startAngle, -turn * step.angle}, leg);
}

Error noPlace(const char* where, std::vector<Fact> facts) {
  return {ErrorCode::CrossingHasNoPlace, where, "", std::move(facts)};
}

/// From the inside face to the first corner's tangent, entry shifted along the rail when asked.
Result<OpenRun> enter(const SpiralRule& rule, int run, double lineEnd_m) {
  const int side = firstSide(rule, run);
  const Point border = cornerOf(rule.field, (side + 3) % 4, 0, depthOf(rule, run, 0));
  OpenRun open;
  open.turnsFrom_m = rule.field.faceGap_m;
  open.cursor = border - along(side) * rule.field.faceGap_m;
  const double shift = rule.feedShift_m;
  if (shift == 0.0) return open;
  const double room = rule.field.faceGap_m + lineEnd_m;
  const SideStep step = sideStep(std::abs(shift), rule.field.bendRadius_m);
  if (shift < 0.0 || shift > dimensionAlong(rule.field, side + 1) || step.runOut_m > room + kFitTolerance_m) {
    return noPlace("feed", {lengthFact("shift", shift), lengthFact("room", room), lengthFact("needed", step.runOut_m)});
  }
  open.cursor = open.cursor + inward(side) * shift;
  addSideStep(open, side, -1.0, step, rule.field.bendRadius_m, 0);
  // The S ends on the first line up to rounding; from here on the line counts.
  open.cursor = border + along(side) * (step.runOut_m - rule.field.faceGap_m);
  open.turnsFrom_m = open.length_m + std::max(0.0, rule.field.faceGap_m - step.runOut_m);
  return open;
}

Result<OpenRun> turnsOf(const SpiralRule& rule, int run, int sides) {
  const int start = firstSide(rule, run);
  const double firstLine = legLength(rule, run, 0) - (sides > 1 ? cornerRadius(rule, sides, run, 0) : 0.0);
  Result<OpenRun> entered = enter(rule, run, firstLine);
  if (!entered) return entered;
  OpenRun& open = *entered;
  open.pieces.reserve(2 * static_cast<std::size_t>(sides) + 6);
  open.sideOf.reserve(2 * static_cast<std::size_t>(sides) + 6);
  for (int leg = 0; leg + 1 < sides; ++leg) {
    const int side = (start + leg) % 4;
    const double radius = cornerRadius(rule, sides, run, leg);
    const Point corner = cornerOf(rule.field, side, depthOf(rule, run, leg), depthOf(rule, run, leg + 1));
    open.addLine(corner - along(side) * radius, leg);
    open.addCorner(side, radius, leg + 1);
  }
  open.lastSide = (start + sides - 1) % 4;
  open.toBorder_m = distanceToBorder(rule, open.lastSide, open.cursor);
  open.toNominal_m = open.toBorder_m - static_cast<double>(depthOf(rule, run, sides)) * rule.field.pitch_m;
  return entered;
}

/// Everything a run's last straight has to keep the pitch from: all other runs and its own turns but the nearest
/// (Schur: they cannot come closer than the bend radius allows).
template <class Visit>
void forEachObstacle(const std::vector<OpenRun>& runs, std::size_t self, int ownUpToLeg, Visit visit) {
  for (std::size_t other = 0; other < runs.size(); ++other) {
    const OpenRun& run = runs[other];
    for (std::size_t i = 0; i < run.pieces.size(); ++i) {
      if (other == self && run.sideOf[i] > ownUpToLeg) break;
      visit(run.pieces[i]);
    }
    if (other != self) visit(Piece{Line{run.cursor, run.cursor + along(run.lastSide) * run.toNominal_m}});
  }
}

bool keepsPitch(const SpiralRule& rule, const Piece& piece, const std::vector<OpenRun>& runs, std::size_t self,
                int ownUpToLeg) {
  bool keeps = true;
  forEachObstacle(runs, self, ownUpToLeg, [&](const Piece& obstacle) {
    keeps = keeps && geometry::distanceBetween(piece, obstacle).distance_m >= rule.field.pitch_m - kFitTolerance_m;
  });
  return keeps;
}

Result<std::vector<OpenRun>> allTurns(const SpiralRule& rule, int sides) {
  std::vector<OpenRun> runs;
  for (int run = 0; run < rule.starts; ++run) {
    Result<OpenRun> open = turnsOf(rule, run, sides);
    if (!open) return open.error();
    runs.push_back(std::move(*open));
  }
  return runs;
}

/// The S of a shifted entry, which lies before the first line, against the turns it could meet.
bool entriesKeepPitch(const SpiralRule& rule, const std::vector<OpenRun>& runs) {
  for (std::size_t self = 0; self < runs.size(); ++self) {
    for (std::size_t i = 0; i < runs[self].pieces.size() && runs[self].sideOf[i] == 0; ++i) {
      const Piece& piece = runs[self].pieces[i];
      if (!keepsPitch(rule, piece, runs, self, -1)) return false;
      for (std::size_t own = i; own < runs[self].pieces.size(); ++own) {
        if (runs[self].sideOf[own] < 2) continue;
        const double apart = geometry::distanceBetween(piece, runs[self].pieces[own]).distance_m;
        if (apart < rule.field.pitch_m - kFitTolerance_m) return false;
      }
    }
  }
  return true;
}

/// Straight before the S of a shifted return: past the border for a run of one leg, and so far from the leg before that
/// the S, which turns back along it, keeps the pitch from it.
double leadOf(const SpiralRule& rule, const OpenRun& run) {
  const double toRegion = run.toBorder_m - dimensionAlong(rule.field, run.lastSide);
  return std::max({0.0, toRegion, rule.field.pitch_m - 2.0 * rule.field.bendRadius_m});
}

/// Steps the last straight of every run into the bare core. Whether the S keeps the pitch shows when all is laid.
Result<Done> shiftReturns(const SpiralRule& rule, std::vector<OpenRun>& runs, int sides) {
  const double shift = rule.returnShift_m;
  const SideStep step = sideStep(std::abs(shift), rule.field.bendRadius_m);
  for (OpenRun& run : runs) {
    const double lead = leadOf(rule, run);
    const double needed = lead + step.runOut_m;
    const double across = distanceToBorder(rule, (run.lastSide + 1) % 4, run.cursor);
    if (shift < 0.0 || shift > across || needed > run.toBorder_m) {
      return noPlace("return",
                     {lengthFact("shift", shift), lengthFact("room", run.toBorder_m), lengthFact("needed", needed)});
    }
    const Point end = run.cursor + along(run.lastSide) * needed + inward(run.lastSide) * shift;
    run.addLine(run.cursor + along(run.lastSide) * lead, sides - 1);
    addSideStep(run, run.lastSide, 1.0, step, rule.field.bendRadius_m, sides - 1);
    run.cursor = end;
    run.toBorder_m -= needed;
    run.toNominal_m = std::max(0.0, run.toNominal_m - needed);
  }
  return Done{};
}

/// How the last straight of a run is used, in lengths from its start.
struct LastStraight {
  double free_m = 0.0;      ///< up to here the tube keeps the pitch from all turns
  double turnsEnd_m = 0.0;  ///< the ramp begins here, or the hole lies here
};

double freeLength(const SpiralRule& rule, const std::vector<OpenRun>& runs, std::size_t self, int sides) {
  const OpenRun& run = runs[self];
  double free = run.toBorder_m;
  forEachObstacle(runs, self, sides - 3, [&](const Piece& obstacle) {
    free = std::min(free, firstApproach(run.cursor, along(run.lastSide), obstacle, rule.field.pitch_m));
  });
  return free;
}

// Pinwheel runs differ by their last partial turn: the longer ones end earlier on their last straight.
void evenOut(const std::vector<OpenRun>& runs, std::vector<LastStraight>& straights) {
  double shortest = kNever;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    shortest = std::min(shortest, runs[i].length_m + straights[i].turnsEnd_m - runs[i].turnsFrom_m);
  }
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const double over = runs[i].length_m + straights[i].turnsEnd_m - runs[i].turnsFrom_m - shortest;
    straights[i].turnsEnd_m -= std::min(over, straights[i].turnsEnd_m);
  }
}

/// What the inner end needs of the last straight.
struct InnerEndRule {
  bool throughFrame = false;
  bool crosses = false;
  CrossingLevel level = CrossingLevel::Over;
  Ramp ramp;
};

Result<InnerEndRule> innerEndOf(const SpiralRule& rule, int sides) {
  const double rise = rule.outsideDiameter_m;
  InnerEndRule end;
  end.throughFrame = rule.innerEnd != model::InnerEnd::ThroughTheBack;
  end.crosses = end.throughFrame && turnsAhead(rule, sides) > 0;
  if (!end.crosses) return end;
  if (rule.innerEnd == model::InnerEnd::UnderTheTurns) {
    end.level = CrossingLevel::Under;
    if (rule.standOff_m < rise - kFitTolerance_m) {
      return noPlace("return", {lengthFact("stand_off", rule.standOff_m), lengthFact("needed", rise)});
    }
  }
  if (rise > 2.0 * rule.field.bendRadius_m) {
    return noPlace("return", {lengthFact("rise", rise), lengthFact("radius", rule.field.bendRadius_m)});
  }
  end.ramp = rampOver(rise, rule.field.bendRadius_m);
  return end;
}

Result<std::vector<LastStraight>> lastStraights(const SpiralRule& rule, const std::vector<OpenRun>& runs,
                                                const InnerEndRule& end, int sides) {
  std::vector<LastStraight> straights;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const double free = freeLength(rule, runs, i, sides);
    if (free < end.ramp.plan_m) {
      return noPlace("return", {lengthFact("room", free), lengthFact("needed", end.ramp.plan_m)});
    }
    straights.push_back({free, free - end.ramp.plan_m});
  }
  if (rule.starts == 4 && rule.entries == model::Entries::Spread) evenOut(runs, straights);
  return straights;
}

InnerRun closed(const SpiralRule& rule, const OpenRun& open, const InnerEndRule& end, const LastStraight& straight,
                int run, int sides) {
  InnerRun inner;
  inner.pieces = open.pieces;
  inner.sideOf = open.sideOf;
  inner.turnsFrom_m = open.turnsFrom_m;
  inner.turnsTo_m = open.length_m + straight.turnsEnd_m;
  inner.feedSide = static_cast<Side>((firstSide(rule, run) + 3) % 4);
  inner.returnSide = static_cast<Side>((open.lastSide + 1) % 4);
  inner.throughBack = !end.throughFrame;
  const double last = end.throughFrame ? open.toBorder_m + rule.field.faceGap_m : straight.turnsEnd_m;
  inner.length_m = open.length_m + last;
  if (last > 0.0) {
    inner.pieces.push_back(Line{open.cursor, open.cursor + along(open.lastSide) * last});
    inner.sideOf.push_back(sides - 1);
  }
  if (end.crosses) {
    inner.crossing = Crossing{inner.turnsTo_m,
                              inner.length_m,
                              rule.outsideDiameter_m,
                              end.ramp.plan_m,
                              end.ramp.tube_m - end.ramp.plan_m,
                              static_cast<int>(turnsAhead(rule, sides)),
                              end.level};
  }
  return inner;
}

/// Last legs of different runs: those on the plate keep the pitch from each other, and so do those lifted over it.
bool innerEndsKeepPitch(const SpiralRule& rule, const std::vector<OpenRun>& runs,
                        const std::vector<LastStraight>& straights, const InnerEndRule& end, int sides) {
  const auto line = [&](std::size_t i, double from, double to) {
    const Point u = along(runs[i].lastSide);
    return Piece{Line{runs[i].cursor + u * from, runs[i].cursor + u * to}};
  };
  const auto low = [&](std::size_t i) { return line(i, 0.0, straights[i].turnsEnd_m + end.ramp.plan_m); };
  const auto high = [&](std::size_t i) {
    return line(i, straights[i].turnsEnd_m, runs[i].toBorder_m + rule.field.faceGap_m);
  };
  const double wanted = rule.field.pitch_m - kFitTolerance_m;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (std::size_t j = i + 1; j < runs.size(); ++j) {
      if (geometry::distanceBetween(low(i), low(j)).distance_m < wanted) return false;
      if (end.crosses && geometry::distanceBetween(high(i), high(j)).distance_m < wanted) return false;
    }
    for (std::size_t piece = 0; piece < runs[i].pieces.size(); ++piece) {
      if (runs[i].sideOf[piece] != sides - 1) continue;
      for (std::size_t j = 0; j < runs.size(); ++j) {
        if (j != i && geometry::distanceBetween(runs[i].pieces[piece], low(j)).distance_m < wanted) return false;
      }
    }
  }
  return true;
}

}  // namespace

LaidDepths laidDepths(const SpiralRule& rule, long sides) {
  LaidDepths depths;
  for (int run = 0; run < rule.starts; ++run) {
    for (long leg = std::max(0L, sides - 4); leg < sides; ++leg) {
      long& depth = depths.bySide[sideOf(rule, run, leg)];
      depth = std::max(depth, depthOf(rule, run, leg));
    }
  }
  return depths;
}

long mostTurns(const SpiralRule& rule) {
  constexpr double kBillion = 1e9;
  const double longest = std::max(rule.field.width_m, rule.field.height_m);
  long tooMany = static_cast<long>(std::min(kBillion, 4.0 * std::ceil(longest / rule.field.pitch_m) + 8.0));
  long most = 0;
  while (tooMany - most > 1) {
    const long middle = most + (tooMany - most) / 2;
    (sidesFit(rule, middle) ? most : tooMany) = middle;
  }
  if (rule.corners == model::CornerRule::ConcentricRadii && most * rule.starts <= kMostSidesInAll) {
    while (most > 0 && !tangentsFit(rule, most)) --most;
  }
  return most;
}

double turnsLength(const SpiralRule& rule, long sides) {
  if (sides * rule.starts > kMostSidesInAll) return rule.field.width_m * rule.field.height_m / rule.field.pitch_m;
  double length = 0.0;
  for (int run = 0; run < rule.starts; ++run) {
    for (long leg = 0; leg < sides; ++leg) {
      length += legLength(rule, run, leg);
      if (leg + 1 < sides) length -= (2.0 - kQuarter) * cornerRadius(rule, sides, run, leg);
    }
  }
  return length;
}

Result<std::vector<InnerRun>> layRuns(const SpiralRule& rule, int sides) {
  Result<std::vector<OpenRun>> turns = allTurns(rule, sides);
  if (!turns) return turns.error();
  std::vector<OpenRun>& runs = *turns;
  if (rule.feedShift_m != 0.0 && !entriesKeepPitch(rule, runs)) {
    return noPlace("feed", {lengthFact("shift", rule.feedShift_m), lengthFact("pitch", rule.field.pitch_m)});
  }
  const Result<InnerEndRule> end = innerEndOf(rule, sides);
  if (!end) return end.error();
  if (end->throughFrame && rule.returnShift_m != 0.0) {
    if (const Result<Done> shifted = shiftReturns(rule, runs, sides); !shifted) return shifted.error();
  }
  const Result<std::vector<LastStraight>> straights = lastStraights(rule, runs, *end, sides);
  if (!straights) return straights.error();
  if (runs.size() > 1 && !innerEndsKeepPitch(rule, runs, *straights, *end, sides)) {
    return noPlace("return", {lengthFact("pitch", rule.field.pitch_m), countFact("starts", rule.starts)});
  }
  std::vector<InnerRun> laid;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    laid.push_back(closed(rule, runs[i], *end, (*straights)[i], static_cast<int>(i), sides));
  }
  return laid;
}

}  // namespace sunspool::layout::detail
