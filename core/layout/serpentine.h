// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Serpentines: straight passes along the region's width, joined by turns. Internal to the layout module.
//
// Plain turns are half circles of half the pitch. A bulb turn of the bend radius R swings out by an angle a, goes round
// by pi + 2 a and swings back, for passes that lie s < 2R apart:
//   cos a = (1 + s/(2R))/2,  depth = 2 R sin a + R,  length = R (pi + 4 a)
// It is 2R wide, R - s/2 more than its passes on either side, and its neighbour lies 2 s further.

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

enum class Turn { Plain, Bulb };

struct SerpentineRule {
  Field field;  ///< width >= height; pitch >= 2 bendRadius for plain turns, less for bulbs
  Turn turn = Turn::Plain;
};

struct Bulb {
  double swing = 0.0;     ///< angle a [rad]
  double depth_m = 0.0;   ///< beyond the ends of its passes
  double length_m = 0.0;  ///< of tube
};
/// @param apart_m distance of the two passes, 0 < apart <= 2 R; at 2 R a half circle.
Bulb bulbOf(double apart_m, double radius_m);

/// Most passes that fit; at least 1, bounded by a billion.
long mostTurns(const SerpentineRule& rule);
/// Length within the region, exact. [m]
double turnsLength(const SerpentineRule& rule, long passes);
Result<std::vector<InnerRun>> layRuns(const SerpentineRule& rule, int passes);

}  // namespace sunspool::layout::detail
