// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/profile.h"

#include <algorithm>
#include <cmath>

#include "core/hydraulics/path_kernel.h"
#include "core/materials/water.h"

namespace sunspool::hydraulics {
namespace {

constexpr double kRounding_m = 1e-6;

/// Loss from the beginning of a path to any station of it, in metres of water.
class LossAlong {
 public:
  static Result<LossAlong> from(const FlowPath& path, double flow_m3_s, double weight_Pa_m) {
    const auto kernel = PathKernel::from(path);
    if (!kernel) return kernel.error();
    LossAlong along;
    const double half_m = 0.5 * kernel->fittingLoss_Pa(flow_m3_s) / weight_Pa_m;
    along.m_stations_m.push_back(0.0);
    along.m_losses_m.push_back(half_m);
    const std::vector<double> upTo_Pa = kernel->lossUpTo_Pa(flow_m3_s);
    for (std::size_t n = 0; n < upTo_Pa.size(); ++n) {
      along.m_stations_m.push_back(along.m_stations_m.back() + path.stretches[n].length_m);
      along.m_losses_m.push_back(upTo_Pa[n] / weight_Pa_m);
    }
    along.m_whole_m = along.m_losses_m.back();
    along.m_losses_m.back() -= half_m;
    return along;
  }
  double length_m() const { return m_stations_m.back(); }
  double whole_m() const { return m_whole_m; }
  double at(double station_m) const {
    const double s = std::clamp(station_m, 0.0, length_m());
    const auto after = std::upper_bound(m_stations_m.begin() + 1, m_stations_m.end() - 1, s);
    const auto n = static_cast<std::size_t>(after - m_stations_m.begin());
    const double span = m_stations_m[n] - m_stations_m[n - 1];
    const double share = span > 0.0 ? (s - m_stations_m[n - 1]) / span : 1.0;
    return m_losses_m[n - 1] + share * (m_losses_m[n] - m_losses_m[n - 1]);
  }

 private:
  std::vector<double> m_stations_m;
  std::vector<double> m_losses_m;  // inside the path: without the fittings at its end
  double m_whole_m = 0.0;
};

Result<std::vector<PressurePoint>> pointsOn(const LossAlong& along, double waterLineAtStart_m, double weight_Pa_m,
                                            std::span<const HeightAt> heights) {
  std::vector<PressurePoint> points;
  points.reserve(heights.size());
  for (const auto& [station_m, height_m] : heights) {
    if (!(station_m >= -kRounding_m && station_m <= along.length_m() + kRounding_m)) {
      return Error{ErrorCode::OutOfRange, "profile/station", {}, {{"station", station_m, Dimension::Length}}};
    }
    if (!std::isfinite(height_m)) return Error{ErrorCode::NotFinite, "profile/height", {}, {}};
    const double waterLine_m = waterLineAtStart_m - along.at(station_m);
    points.push_back({station_m, weight_Pa_m * (waterLine_m - height_m), waterLine_m});
  }
  return points;
}

Result<Done> checkWay(const Network& network, const NetworkFlow& flow, std::size_t run) {
  if (!flow.starts) return Error{ErrorCode::NoFlow, "profile", {}, {}};
  if (run >= network.runs.size() || run >= flow.runs.size()) {
    return Error{ErrorCode::OutOfRange, "profile/run", {}, {{"run", static_cast<double>(run), Dimension::Count}}};
  }
  return Done{};
}

/// Points of one path and the water line that it leaves at its end.
struct LegPressure {
  std::vector<PressurePoint> points;
  double waterLineAtEnd_m = 0.0;
};

Result<LegPressure> legPressure(const FlowPath* path, double flow_m3_s, double waterLineAtStart_m, double weight_Pa_m,
                                std::span<const HeightAt> heights) {
  if (path == nullptr) {
    if (heights.empty()) return LegPressure{{}, waterLineAtStart_m};
    return Error{ErrorCode::OutOfRange, "profile/pipe", {}, {}};
  }
  const auto along = LossAlong::from(*path, flow_m3_s, weight_Pa_m);
  if (!along) return along.error();
  auto points = pointsOn(*along, waterLineAtStart_m, weight_Pa_m, heights);
  if (!points) return points.error();
  return LegPressure{std::move(*points), waterLineAtStart_m - along->whole_m()};
}

const FlowPath* pointerTo(const std::optional<FlowPath>& path) { return path ? &*path : nullptr; }

void keepLowest(WayPressure& way) {
  bool any = false;
  for (const Leg leg : {Leg::Feed, Leg::Run, Leg::Returning}) {
    const auto& points = leg == Leg::Feed ? way.feed : leg == Leg::Run ? way.run : way.returning;
    for (const PressurePoint& point : points) {
      if (any && point.gauge_Pa >= way.lowest.gauge_Pa) continue;
      way.lowest = point;
      way.lowestLeg = leg;
      any = true;
    }
  }
}

}  // namespace

Result<WayPressure> pressureAlong(const Network& network, const NetworkFlow& flow, std::size_t run,
                                  const WayHeights& heights) {
  if (const auto checked = checkWay(network, flow, run); !checked) return checked.error();
  const auto water = materials::waterAt(Temperature::fromKelvin(
      network.runs.front().stretches.empty() ? 0.0  // refused by waterAt like any impossible temperature
                                             : network.runs.front().stretches.front().waterTemperature_K));
  if (!water) return water.error();
  const double weight_Pa_m = water->density.si() * kStandardGravity_m_s2;
  WayPressure way;
  auto feed = legPressure(pointerTo(network.feed), flow.flow_m3_s, flow.head_m, weight_Pa_m, heights.feed);
  if (!feed) return feed.error();
  auto middle =
      legPressure(&network.runs[run], flow.runs[run].flow_m3_s, feed->waterLineAtEnd_m, weight_Pa_m, heights.run);
  if (!middle) return middle.error();
  auto returning = legPressure(pointerTo(network.returning), flow.flow_m3_s, middle->waterLineAtEnd_m, weight_Pa_m,
                               heights.returning);
  if (!returning) return returning.error();
  way.feed = std::move(feed->points);
  way.run = std::move(middle->points);
  way.returning = std::move(returning->points);
  keepLowest(way);
  return way;
}

Result<std::vector<PressurePoint>> pressureAlongRun(const Network& network, const NetworkFlow& flow, std::size_t run,
                                                    std::span<const HeightAt> heights) {
  return pressureAlong(network, flow, run, {{}, {heights.begin(), heights.end()}, {}})
      .transform([](const WayPressure& way) { return way.run; });
}

Result<Pressure> restingPressure(Pressure air, Temperature water, Length heightAbovePool) {
  return materials::waterAt(water).transform([&](const materials::Water& properties) {
    return air - pascals(properties.density.si() * kStandardGravity_m_s2 * heightAbovePool.si());
  });
}

Result<Pressure> vapourMargin(Pressure gauge, Pressure air, Temperature water) {
  return materials::saturationPressure(water).transform([&](Pressure saturation) { return gauge + air - saturation; });
}

Result<Length> columnBreakHeight(Pressure air, Temperature water) {
  return suctionHeadAvailable(air, water, metres(0.0), metres(0.0));
}

Result<Length> suctionHeadAvailable(Pressure air, Temperature water, Length suctionLift, Length suctionLoss) {
  const auto properties = materials::waterAt(water);
  if (!properties) return properties.error();
  const auto saturation = materials::saturationPressure(water);
  if (!saturation) return saturation.error();
  return metres((air - *saturation).si() / (properties->density.si() * kStandardGravity_m_s2)) - suctionLift -
         suctionLoss;
}

}  // namespace sunspool::hydraulics
