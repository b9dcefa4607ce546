// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Reading a run between the points it was computed at: what the strips of the Tape and the bead say.

#include <algorithm>
#include <iterator>
#include <vector>

#include "core/base/assert.h"
#include "core/results/results.h"

namespace sunspool::results {

/// State of the run at a station, straight between the two computed points around it.
/// @param profile    at least one point (asserted), stations not falling
/// @param station_m  beyond an end of the profile the end's own point is returned, with the end's station
/// At a station that several points share (tube behind the panel has no length in plan) the first one counts.
/// Accuracy: exact at the points; between them second order in their distance.
inline RunProfile::Point at(const RunProfile& profile, double station_m) {
  SUNSPOOL_ASSERT(!profile.points.empty(), "a profile without points was read");
  const auto after =
      std::lower_bound(profile.points.begin(), profile.points.end(), station_m,
                       [](const RunProfile::Point& point, double station) { return point.station_m < station; });
  if (after == profile.points.begin()) return profile.points.front();
  if (after == profile.points.end()) return profile.points.back();
  const RunProfile::Point& a = *std::prev(after);
  const RunProfile::Point& b = *after;
  const double share = (station_m - a.station_m) / (b.station_m - a.station_m);
  const auto between = [share](double from, double to) { return from + share * (to - from); };
  return {station_m, between(a.water_K, b.water_K), between(a.gauge_Pa, b.gauge_Pa), between(a.height_m, b.height_m),
          between(a.waterLine_m, b.waterLine_m)};
}

/// A stretch of the run between two stations, from < to. [m]
struct Extent {
  double from_m = 0.0, to_m = 0.0;
  bool operator==(const Extent&) const = default;
};
/// Where the water stands below the pressure of the air, in order; the ends are where the gauge pressure, straight
/// between the points, is 0. Empty when it never does.
inline std::vector<Extent> belowAir(const RunProfile& profile) {
  std::vector<Extent> extents;
  for (std::size_t i = 1; i < profile.points.size(); ++i) {
    const RunProfile::Point& a = profile.points[i - 1];
    const RunProfile::Point& b = profile.points[i];
    if ((a.gauge_Pa >= 0.0 && b.gauge_Pa >= 0.0) || a.station_m == b.station_m) continue;
    const auto crossing = [&] {
      return a.station_m + (b.station_m - a.station_m) * a.gauge_Pa / (a.gauge_Pa - b.gauge_Pa);
    };
    const double from = a.gauge_Pa > 0.0 ? crossing() : a.station_m;
    const double to = b.gauge_Pa > 0.0 ? crossing() : b.station_m;
    if (!extents.empty() && extents.back().to_m == from)
      extents.back().to_m = to;
    else
      extents.push_back({from, to});
  }
  return extents;
}

/// Interval of the water's temperature at a station.
/// Assumption: the outlet's interval opens evenly with the metres, from nothing at the beginning of the run, because
/// every uncertain input of the heat acts along the whole run. The spread of the pool's own temperature, which would
/// shift all metres alike, is therefore shown too small at the feed.
inline Ranged<Temperature> waterRange(const RunProfile& profile, const Ranged<Temperature>& outlet, double station_m) {
  const Temperature water = Temperature::fromKelvin(at(profile, station_m).water_K);
  const double first = profile.points.front().station_m, last = profile.points.back().station_m;
  const double share = last > first ? std::clamp((station_m - first) / (last - first), 0.0, 1.0) : 1.0;
  return {water, water - share * (outlet.value - outlet.low), water + share * (outlet.high - outlet.value)};
}

/// The bend a station lies in, or nullptr on a straight. [run, m]
inline const Bend* bendAt(const Bends& bends, int run, double station_m) {
  const auto bend = std::find_if(bends.all.begin(), bends.all.end(), [&](const Bend& b) {
    return b.run == run && b.from_m <= station_m && station_m <= b.to_m;
  });
  return bend == bends.all.end() ? nullptr : &*bend;
}
/// Radius of the bend over the radius at which the tube kinks: 1 kinks, 2 is twice that radius.
inline double timesKinkRadius(const Bend& bend) { return 1.0 / bend.index; }

}  // namespace sunspool::results
