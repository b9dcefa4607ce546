// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string>
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
/// All panels alike together. To the pool + lost + reflected + waiting = falling; shade comes on top.
struct DayQuarter {
  double clock_h = 0.0;    ///< start of the quarter
  double falling_W = 0.0;  ///< sun on the inside area, behind the obstacles
  double toPool_W = 0.0;   ///< 0 while the panel would cool the pool: the pump is taken to stand still then
  double outlet_K = 0.0;   ///< 0 while the pump stands still
  double shade_W = 0.0;    ///< beam and sky's light that the obstacles take before it falls
  /// Taken up and given back to the air, pump running: top, back, edge and tails. Below 0 where the air warms the panel
  /// (or sun on the tails outweighs the losses).
  double lost_W = 0.0;
  double reflected_W =
      0.0;                 ///< never became heat: thrown back by, or held in, the glazing, thrown back by the absorber
  double waiting_W = 0.0;  ///< taken up while the pump stands still, because it would cool the pool or does not start
  /// Hottest place of the absorber: pump running, the hottest cell of tube; else the hottest layer of the stopped
  /// panel, water standing in it.
  double hottest_K = 0.0;
};
/// Where the sun of one day goes.
struct DayEnergies {
  Energy falling, toPool;
  Energy shade, lost, reflected, waiting;
};
struct Day : DayEnergies {
  std::vector<DayQuarter> quarters;  ///< those with sun on the panel or taken from it
  TemperatureDifference poolRise;    ///< of the whole pool by the heat to it, its own losses left out
};
/// The whole day as clear or dull as the document's moment (an irradiance typed in is left aside).
/// Errors of the layout, the pump, the sun or the heat (a pump that never starts waits all day); a polar night gives no
/// quarters.
Result<Day> day(const model::Document& document);

/// The same for the 15th of each month, January first, with the air, wind and pool of the document: what the sun alone
/// does over the year. Takes as long as twelve days.
Result<std::vector<DayEnergies>> months(const model::Document& document);

/// A quarter hour of the document's day in which the pump has stopped, at that hour's own sun and air.
struct StoppedQuarter {
  double clock_h = 0.0;
  double sun_W_m2 = 0.0;  ///< on the panel, under the shade cloth if there is one
  double dryTube_K = 0.0, wetTube_K = 0.0;
  /// From the stop, out of running with the pump (thermal::stopped); nullopt: not reached in this model.
  std::optional<double> minutesToLimit;
};
struct StoppedDay {
  std::vector<StoppedQuarter> quarters;  ///< those with sun on the panel
  double tubeLimit_K = 0.0;
  std::string limitSource;
  double boiling_K = 373.15;  ///< standing in the panel
};
/// What the tube would come to if the pump stopped in each quarter hour and the sun then stood still: an upper bound.
/// Errors as day(), and of the stopped panel.
Result<StoppedDay> stoppedDay(const model::Document& document);

}  // namespace sunspool::evaluate
