// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/double_spiral.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include "core/geometry/clearance.h"
#include "core/layout/strand.h"

namespace sunspool::layout::detail {
namespace {

using geometry::Arc;
using geometry::Line;
using geometry::Point;

constexpr double kQuarter = std::numbers::pi / 2.0;

enum class Arm { In, Out };

long depthOf(Arm arm, long leg) { return 2 * (leg / 4) + (arm == Arm::Out ? 1 : 0); }
long legsOf(Arm arm, long sides) { return arm == Arm::In ? sides : sides - 2; }

Point cornerAfter(const DoubleSpiralRule& rule, Arm arm, long leg) {
  return cornerOf(rule.field, static_cast<int>(leg % 4), depthOf(arm, leg), depthOf(arm, leg + 1));
}

/// Radius of the corner after `leg`: with concentric radii one pitch more for every corner nested inside it.
double cornerRadius(const DoubleSpiralRule& rule, long sides, Arm arm, long leg) {
  const double bend = rule.field.bendRadius_m;
  switch (rule.corners) {
    case model::CornerRule::ConstantRadius:
      return bend;
    case model::CornerRule::ConcentricRadii: {
      const auto further = [leg](long last) { return last < leg ? 0 : (last - leg) / 4; };
      const long lastIn = sides - 2;
      const long lastOut = sides - 4;
      const long besideIt = arm == Arm::In && lastOut >= leg ? 1 : 0;
      return bend + static_cast<double>(further(lastIn) + further(lastOut) + besideIt) * rule.field.pitch_m;
    }
  }
  return bend;
}

/// Nominal length of a leg that ends in corners, or at the border for the first one.
double legLength(const DoubleSpiralRule& rule, Arm arm, long leg) {
  const long before = leg == 0 ? 0 : depthOf(arm, leg - 1);
  return dimensionAlong(rule.field, static_cast<int>(leg % 4)) -
         static_cast<double>(before + depthOf(arm, leg + 1)) * rule.field.pitch_m;
}

/// All legs of both arms but the last, which end in the core.
bool legFits(const DoubleSpiralRule& rule, long sides, Arm arm, long leg) {
  if (leg < 0 || leg + 1 >= legsOf(arm, sides)) return true;
  const double before = leg == 0 ? 0.0 : cornerRadius(rule, sides, arm, leg - 1);
  const double needed = std::max(before + cornerRadius(rule, sides, arm, leg), leg == 0 ? 0.0 : rule.field.pitch_m);
  return legLength(rule, arm, leg) >= needed - kFitTolerance_m;
}

// Legs of one direction only get shorter, so the last ones speak for all when the radius is constant.
bool lastLegsFit(const DoubleSpiralRule& rule, long sides) {
  for (const Arm arm : {Arm::In, Arm::Out}) {
    for (long back = 2; back <= 5; ++back) {
      if (!legFits(rule, sides, arm, legsOf(arm, sides) - back)) return false;
    }
  }
  return true;
}
bool allLegsFit(const DoubleSpiralRule& rule, long sides) {
  for (long leg = 0; leg + 1 < sides; ++leg) {
    if (!legFits(rule, sides, Arm::In, leg) || !legFits(rule, sides, Arm::Out, leg)) return false;
  }
  return true;
}

/// The core as the last leg going in sees it: lengths along it from the border behind, heights to its left.
struct Core {
  int side = 0;
  double behind_m = 0.0;  ///< of the leg before
  double ahead_m = 0.0;   ///< of the leg that comes after the last one coming out, as it is laid from its port
  double lower_m = 0.0;   ///< of the last leg going in
  double upper_m = 0.0;   ///< of the last leg coming out
  double endsBy_m = 0.0;  ///< where the S has to be done at the latest
};
Core coreOf(const DoubleSpiralRule& rule, long sides) {
  const long last = sides - 1;
  const double pitch = rule.field.pitch_m;
  Core core;
  core.side = static_cast<int>(last % 4);
  const double length = dimensionAlong(rule.field, core.side);
  const double across = dimensionAlong(rule.field, core.side + 1);
  // The arm coming out of three sides has a single leg, which leaves through the frame ahead.
  const bool straightOut = last < 3;
  const double depthAhead = straightOut ? -1.0 : static_cast<double>(depthOf(Arm::Out, last - 3));
  core.behind_m = static_cast<double>(depthOf(Arm::In, last - 1)) * pitch;
  core.ahead_m = length - depthAhead * pitch;
  core.lower_m = static_cast<double>(depthOf(Arm::In, last)) * pitch;
  core.upper_m = across - static_cast<double>(depthOf(Arm::Out, last - 2)) * pitch;
  core.endsBy_m = straightOut ? length : core.ahead_m - cornerRadius(rule, sides, Arm::Out, last - 3);
  return core;
}

/// Left round one circle, along the tangent, right round the other; the circles' centres mirrored in the core's middle.
struct Join {
  Point first;  ///< centre of the left turn in the core's lengths and heights
  Point second;
  double radius_m = 0.0;
  double angle = 0.0;
  double tangent_m = 0.0;
  /// Of what depends on where the circles lie.
  double tube_m() const { return 2.0 * radius_m * angle + tangent_m + first.x - second.x; }
};

std::optional<Join> joinAt(const Core& core, double radius_m, double ahead_m) {
  const Point middle{(core.behind_m + core.ahead_m) / 2.0, (core.lower_m + core.upper_m) / 2.0};
  const Point arm{ahead_m, core.lower_m + radius_m - middle.y};
  const double apart = 2.0 * geometry::norm(arm);
  // Circles that touch do so up to rounding.
  if (!(apart >= 2.0 * radius_m - kFitTolerance_m) || apart == 0.0) return std::nullopt;
  Join join;
  join.radius_m = radius_m;
  join.first = middle + arm;
  join.second = middle - arm;
  const double sine = std::min(1.0, 2.0 * radius_m / apart);
  // A shorter straight is rounding and would have no direction.
  constexpr double kNoTangent_m = 1e-7;
  const double tangent = std::sqrt(std::max(0.0, apart * apart - 4.0 * radius_m * radius_m));
  join.tangent_m = tangent < kNoTangent_m ? 0.0 : tangent;
  const double towards = std::atan2(-arm.y, -arm.x);
  join.angle = towards + std::atan2(sine, join.tangent_m / apart);
  if (!(join.angle > 0.0)) return std::nullopt;
  return join;
}

/// Both arms from leg `from` on, joined.
Strand strandOf(const DoubleSpiralRule& rule, long sides, long from, const Core& core, const Join& join) {
  const Field& field = rule.field;
  const double radius = join.radius_m;
  const auto laid = [&](Arm arm, double lastLength_m) {
    Strand strand;
    const long legs = legsOf(arm, sides);
    const long first = std::min(from, legs - 1);
    const Point border = cornerOf(field, static_cast<int>((first + 3) % 4), 0, depthOf(arm, first));
    strand.cursor = first == 0 ? border - along(0) * field.faceGap_m : cornerAfter(rule, arm, first - 1);
    if (first > 0)
      strand.cursor = strand.cursor + along(static_cast<int>(first % 4)) * cornerRadius(rule, sides, arm, first - 1);
    for (long leg = first; leg + 1 < legs; ++leg) {
      const int side = static_cast<int>(leg % 4);
      const double corner = cornerRadius(rule, sides, arm, leg);
      strand.addLine(cornerAfter(rule, arm, leg) - along(side) * corner, leg);
      strand.addCorner(side, corner, leg + 1);
    }
    const int side = static_cast<int>((legs - 1) % 4);
    const Point start = cornerOf(field, (side + 3) % 4, 0, depthOf(arm, legs - 1));
    strand.addLine(start + along(side) * lastLength_m, legs - 1);
    return strand;
  };
  Strand run = laid(Arm::In, join.first.x);
  const double heading = core.side * kQuarter;
  const Point start = run.cursor;
  const Point left = inward(core.side);
  run.add(Arc{start + left * radius, radius, heading - kQuarter, join.angle}, sides - 1);
  const Point on{std::cos(heading + join.angle), std::sin(heading + join.angle)};
  if (join.tangent_m > 0.0) run.addLine(run.cursor + on * join.tangent_m, sides - 1);
  const Strand out = laid(Arm::Out, dimensionAlong(field, core.side) - join.second.x);
  run.add(Arc{out.cursor - left * radius, radius, heading + join.angle + kQuarter, -join.angle}, sides - 1);
  for (std::size_t i = out.pieces.size(); i-- > 0;) run.add(geometry::reversed(out.pieces[i]), out.sideOf[i] + 2);
  return run;
}

bool keepsPitch(const DoubleSpiralRule& rule, long sides, const Core& core, const Join& join) {
  constexpr long kNearLegs = 8;
  const geometry::Path middle(strandOf(rule, sides, std::max(0L, sides - kNearLegs), core, join).pieces);
  const geometry::CheckedPath checked{&middle, 0.0, middle.length().si()};
  const geometry::ClearanceChecker checker(std::span(&checked, 1), rule.field.bendRadius_m);
  return checker.check(0.0).smallest_m >= rule.field.pitch_m - kFitTolerance_m;
}

/// The join that lays more tube of those that keep the pitch.
std::optional<Join> joinOf(const DoubleSpiralRule& rule, long sides, const Core& core) {
  const double radius = rule.field.bendRadius_m;
  const double half = (core.ahead_m - core.behind_m) / 2.0;
  const double lift = (core.upper_m - core.lower_m) / 2.0 - radius;
  const double touching = std::sqrt(std::max(0.0, radius * radius - lift * lift));
  std::optional<Join> best;
  for (const double ahead : {half - rule.field.pitch_m - radius, -touching}) {
    const std::optional<Join> join = joinAt(core, radius, ahead);
    if (!join || (best && best->tube_m() >= join->tube_m())) continue;
    const double startsAfter = core.behind_m + cornerRadius(rule, sides, Arm::In, sides - 2);
    const bool inReach =
        join->first.x >= startsAfter - kFitTolerance_m && join->second.x <= core.endsBy_m + kFitTolerance_m;
    if (inReach && keepsPitch(rule, sides, core, *join)) best = join;
  }
  return best;
}

std::optional<Join> joinOf(const DoubleSpiralRule& rule, long sides) {
  const Core core = coreOf(rule, sides);
  const bool open = core.upper_m - core.lower_m >= 0.0 && core.ahead_m >= core.behind_m;
  return open ? joinOf(rule, sides, core) : std::nullopt;
}

}  // namespace

long mostTurns(const DoubleSpiralRule& rule) {
  constexpr double kBillion = 1e9;
  const double longest = std::max(rule.field.width_m, rule.field.height_m);
  long tooMany = static_cast<long>(std::min(kBillion, 4.0 * std::ceil(longest / rule.field.pitch_m) + 8.0));
  long most = 0;
  while (tooMany - most > 1) {
    const long middle = most + (tooMany - most) / 2;
    (lastLegsFit(rule, middle) ? most : tooMany) = middle;
  }
  if (2 * most > kMostSidesInAll) return most;
  const auto fits = [&](long sides) {
    const bool concentric = rule.corners == model::CornerRule::ConcentricRadii;
    return (!concentric || allLegsFit(rule, sides)) && joinOf(rule, sides).has_value();
  };
  while (most >= kLeastDoubleSides && !fits(most)) --most;
  return most < kLeastDoubleSides ? 0 : most;
}

double turnsLength(const DoubleSpiralRule& rule, long) {
  return rule.field.width_m * rule.field.height_m / rule.field.pitch_m;
}

Result<std::vector<InnerRun>> layRuns(const DoubleSpiralRule& rule, int sides) {
  const std::optional<Join> join = sides >= kLeastDoubleSides ? joinOf(rule, sides) : std::nullopt;
  if (!join) {
    return Error{ErrorCode::TurnsDoNotFit,
                 "/laying/quarter_turns",
                 "",
                 {countFact("asked", sides), countFact("most", static_cast<double>(mostTurns(rule))),
                  countFact("least", kLeastDoubleSides)}};
  }
  Strand strand = strandOf(rule, sides, 0, coreOf(rule, sides), *join);
  InnerRun run;
  run.pieces = std::move(strand.pieces);
  run.sideOf = std::move(strand.sideOf);
  run.length_m = strand.length_m;
  run.turnsFrom_m = rule.field.faceGap_m;
  run.turnsTo_m = run.length_m - rule.field.faceGap_m;
  run.feedSide = run.returnSide = Side::Left;
  run.returnStays = true;
  return std::vector<InnerRun>{std::move(run)};
}

}  // namespace sunspool::layout::detail
