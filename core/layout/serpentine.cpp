// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/serpentine.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunspool::layout::detail {

using geometry::Arc;
using geometry::Line;
using geometry::Point;

long mostTurns(const SerpentineRule& rule) {
  constexpr double kBillion = 1e9;
  const double steps = std::floor((rule.field.height_m + kFitTolerance_m) / rule.field.pitch_m);
  return 1 + static_cast<long>(std::min(kBillion, steps));
}

double turnsLength(const SerpentineRule& rule, long passes) {
  const double turns = static_cast<double>(passes - 1);
  const double radius = rule.field.pitch_m / 2.0;
  // Each half circle stands for the two pass ends it takes the place of.
  return static_cast<double>(passes) * rule.field.width_m + turns * (std::numbers::pi - 2.0) * radius;
}

Result<std::vector<InnerRun>> layRuns(const SerpentineRule& rule, int passes) {
  const double radius = rule.field.pitch_m / 2.0;
  const double width = rule.field.width_m;
  const double gap = rule.field.faceGap_m;
  InnerRun run;
  Point cursor{-gap, 0.0};
  const auto add = [&](const geometry::Piece& piece, int pass) {
    run.length_m += geometry::length(piece);
    run.pieces.push_back(piece);
    run.sideOf.push_back(pass);
  };
  for (int pass = 0; pass < passes; ++pass) {
    const bool rightward = pass % 2 == 0;
    const bool last = pass + 1 == passes;
    const double inset = last ? -gap : radius;
    const Point end{rightward ? width - inset : inset, cursor.y};
    if (geometry::distance(cursor, end) > 0.0) add(Line{cursor, end}, pass);
    if (last) break;
    const double turn = rightward ? std::numbers::pi : -std::numbers::pi;
    const double startAngle = -std::numbers::pi / 2.0;
    const double next = (pass + 1) * rule.field.pitch_m;
    add(Arc{{end.x, end.y + radius}, radius, startAngle, turn}, pass + 1);
    cursor = {end.x, next};
  }
  run.turnsFrom_m = gap;
  run.turnsTo_m = run.length_m - gap;
  run.feedSide = Side::Left;
  run.returnSide = passes % 2 == 1 ? Side::Right : Side::Left;
  return std::vector<InnerRun>{std::move(run)};
}

}  // namespace sunspool::layout::detail
