// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Plain serpentine: straight passes along the region's width, joined by half circles of half the pitch.
// Internal to the layout module.

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

struct SerpentineRule {
  Field field;  ///< width >= height, pitch >= 2 bendRadius
};

/// Most passes that fit; at least 1, bounded by a billion.
long mostTurns(const SerpentineRule& rule);
/// Length within the region, exact. [m]
double turnsLength(const SerpentineRule& rule, long passes);
Result<std::vector<InnerRun>> layRuns(const SerpentineRule& rule, int passes);

}  // namespace sunspool::layout::detail
