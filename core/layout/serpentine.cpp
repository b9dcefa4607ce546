// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/serpentine.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunspool::layout::detail {
namespace {

using geometry::Arc;
using geometry::Line;
using geometry::Piece;
using geometry::Point;
using std::numbers::pi;

/// What the turns take of the field.
struct Room {
  double depth_m = 0.0;   ///< at an end with turns, along the passes
  double beside_m = 0.0;  ///< outside the first and the last pass
  double turn_m = 0.0;    ///< tube of one turn
};
Room roomOf(const SerpentineRule& rule) {
  const double pitch = rule.field.pitch_m;
  const double radius = rule.field.bendRadius_m;
  switch (rule.turn) {
    case Turn::Plain:
      return {pitch / 2.0, 0.0, pi * pitch / 2.0};
    case Turn::Bulb: {
      const Bulb bulb = bulbOf(pitch, radius);
      return {bulb.depth_m, radius - pitch / 2.0, bulb.length_m};
    }
  }
  return {};
}

/// The turn at the right end from a pass at `start` to the one a pitch above it.
std::vector<Arc> turnAt(const SerpentineRule& rule, Point start) {
  const double pitch = rule.field.pitch_m;
  const double radius = rule.field.bendRadius_m;
  switch (rule.turn) {
    case Turn::Plain:
      return {{{start.x, start.y + pitch / 2.0}, pitch / 2.0, -pi / 2.0, pi}};
    case Turn::Bulb: {
      const double swing = bulbOf(pitch, radius).swing;
      return {{{start.x, start.y - radius}, radius, pi / 2.0, -swing},
              {{start.x + 2.0 * radius * std::sin(swing), start.y + pitch / 2.0},
               radius,
               -pi / 2.0 - swing,
               pi + 2.0 * swing},
              {{start.x, start.y + pitch + radius}, radius, -pi / 2.0 + swing, -swing}};
    }
  }
  return {};
}

Arc mirrored(Arc arc, double width_m) {
  arc.centre.x = width_m - arc.centre.x;
  arc.startAngle = pi - arc.startAngle;
  arc.sweep = -arc.sweep;
  return arc;
}

}  // namespace

Bulb bulbOf(double apart_m, double radius_m) {
  const double swing = std::acos(std::min(1.0, (1.0 + apart_m / (2.0 * radius_m)) / 2.0));
  return {swing, 2.0 * radius_m * std::sin(swing) + radius_m, radius_m * (pi + 4.0 * swing)};
}

long mostTurns(const SerpentineRule& rule) {
  constexpr double kBillion = 1e9;
  const Room room = roomOf(rule);
  if (rule.field.width_m < room.depth_m - kFitTolerance_m) return 1;
  const double height = rule.field.height_m - 2.0 * room.beside_m;
  const long passes =
      1 + static_cast<long>(std::clamp(std::floor((height + kFitTolerance_m) / rule.field.pitch_m), 0.0, kBillion));
  // Three passes have turns at both ends.
  return rule.field.width_m < 2.0 * room.depth_m - kFitTolerance_m ? std::min(passes, 2L) : passes;
}

double turnsLength(const SerpentineRule& rule, long passes) {
  const Room room = roomOf(rule);
  // Each turn stands for the two pass ends it takes the place of.
  return static_cast<double>(passes) * rule.field.width_m +
         static_cast<double>(passes - 1) * (room.turn_m - 2.0 * room.depth_m);
}

Result<std::vector<InnerRun>> layRuns(const SerpentineRule& rule, int passes) {
  const Room room = roomOf(rule);
  const double width = rule.field.width_m;
  const double gap = rule.field.faceGap_m;
  InnerRun run;
  Point cursor{-gap, room.beside_m};
  const auto add = [&](const Piece& piece, int pass) {
    run.length_m += geometry::length(piece);
    run.pieces.push_back(piece);
    run.sideOf.push_back(pass);
  };
  for (int pass = 0; pass < passes; ++pass) {
    const bool rightward = pass % 2 == 0;
    const bool last = pass + 1 == passes;
    const double inset = last ? -gap : room.depth_m;
    const Point end{rightward ? width - inset : inset, cursor.y};
    // Turns at both ends may meet in the middle, up to rounding.
    if ((end.x - cursor.x) * (rightward ? 1.0 : -1.0) > geometry::kNoLength_m) add(Line{cursor, end}, pass);
    if (last) break;
    for (const Arc& arc : turnAt(rule, {width - room.depth_m, cursor.y})) {
      add(rightward ? arc : mirrored(arc, width), pass + 1);
    }
    cursor = {end.x, room.beside_m + (pass + 1) * rule.field.pitch_m};
  }
  run.turnsFrom_m = gap;
  run.turnsTo_m = run.length_m - gap;
  run.feedSide = Side::Left;
  run.returnSide = passes % 2 == 1 ? Side::Right : Side::Left;
  return std::vector<InnerRun>{std::move(run)};
}

}  // namespace sunspool::layout::detail
