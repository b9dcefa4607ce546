// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::evaluate {

/// How far to go. Answers come in the order they are cheap.
enum class Depth { Layout, Flow, Heat, Everything };
struct Options {
  Depth depth = Depth::Everything;
  bool ranges = true;  ///< first-order propagation of every stored spread
};

/// The one door: a document in, everything known about it out. Pure; safe to call from any thread.
results::Results evaluate(const model::Document& document, const Options& options);

/// The four numbers of the linked charts over one design variable.
enum class Sweep { Pitch, QuarterTurns, BendRadius };
struct SweepPoint {
  double x = 0.0;  ///< [m], or quarter turns
  bool legal = false;
  double tubeLength_m = 0.0, water_m3 = 0.0, loss_Pa = 0.0, heat_W = 0.0;
};
std::vector<SweepPoint> sweep(const model::Document& document, Sweep variable, std::span<const double> at);

}  // namespace sunspool::evaluate
