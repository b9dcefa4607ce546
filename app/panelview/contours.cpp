// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/contours.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sunspool::panelview {

namespace {

constexpr int kMostContours = 7;

struct Degree {
  double size_K, zero_K;
};
Degree degreeOf(format::UnitSystem units) {
  switch (units) {
    case format::UnitSystem::Metric:
      return {1.0, 273.15};
    case format::UnitSystem::UsCustomary:
      return {5.0 / 9.0, 273.15 - 160.0 / 9.0};
  }
  return {1.0, 273.15};
}

}  // namespace

RampScale rampScaleOf(std::span<const results::RunProfile> profiles, format::UnitSystem units) {
  double least = std::numeric_limits<double>::infinity(), most = -least;
  for (const results::RunProfile& profile : profiles) {
    for (const auto& point : profile.points) {
      least = std::min(least, point.water_K);
      most = std::max(most, point.water_K);
    }
  }
  if (!(most > least) || !std::isfinite(least) || !std::isfinite(most)) return {};
  const Degree degree = degreeOf(units);
  for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
    const double step_K = step * degree.size_K;
    const double from = std::floor((least - degree.zero_K) / step_K), to = std::ceil((most - degree.zero_K) / step_K);
    if (to - from - 1.0 > kMostContours) continue;
    return {degree.zero_K + from * step_K, degree.zero_K + to * step_K, step_K};
  }
  return {};
}

std::vector<Contour> contoursOf(std::span<const results::RunProfile> profiles, const RampScale& scale) {
  std::vector<Contour> contours;
  if (!scale.known()) return contours;
  for (std::size_t run = 0; run < profiles.size(); ++run) {
    const auto& points = profiles[run].points;
    for (double level = scale.low_K + scale.step_K; level < scale.high_K - 0.5 * scale.step_K; level += scale.step_K) {
      for (std::size_t i = 1; i < points.size(); ++i) {
        const double a = points[i - 1].water_K, b = points[i].water_K;
        if (a == b || (a - level) * (b - level) > 0.0) continue;
        const double share = (level - a) / (b - a);
        const double station = points[i - 1].station_m + share * (points[i].station_m - points[i - 1].station_m);
        contours.push_back({static_cast<int>(run), station, level});
        break;
      }
    }
  }
  std::stable_sort(contours.begin(), contours.end(),
                   [](const Contour& a, const Contour& b) { return a.station_m < b.station_m; });
  return contours;
}

}  // namespace sunspool::panelview
