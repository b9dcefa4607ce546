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
/// The document with the sweep's variable set to x; pitch and radius in metres, turns in quarters.
model::Document swept(model::Document document, Sweep variable, double x);
std::vector<SweepPoint> sweep(const model::Document& document, Sweep variable, std::span<const double> at);

/// One quarter hour of the document's day: the steady model at its middle, air and wind as they stand in the document.
struct DayQuarter {
  double clock_h = 0.0;    ///< start of the quarter
  double falling_W = 0.0;  ///< sun on the inside area
  double toPool_W = 0.0;   ///< 0 while the panel would cool the pool: the pump is taken to stand still then
  double outlet_K = 0.0;   ///< 0 while the pump stands still
};
struct Day {
  std::vector<DayQuarter> quarters;  ///< those with sun on the panel
  Energy falling, toPool;
  TemperatureDifference poolRise;  ///< of the whole pool by that heat, its own losses left out
};
/// The whole day as clear as the document's moment (an irradiance typed in is left aside).
/// Errors of the layout, the pump or the sun; a polar night gives no quarters.
Result<Day> day(const model::Document& document);

}  // namespace sunspool::evaluate
