// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/horizon.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace sunspool::climate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kTurn = 2.0 * kPi;
constexpr double kStep_rad = kPi / 360.0;
constexpr double kSameDirection_rad = 1e-12;  // rounding of degrees to radians

/// Turned into 0 to below a full turn.
double wrapped(double angle_rad) {
  const double turned = std::fmod(angle_rad, kTurn);
  return turned < 0.0 ? turned + kTurn : turned;
}

/// Width of a block, 0 to a full turn.
double width_rad(const model::Obstacle& block) {
  const double across = block.azimuthTo.radians() - block.azimuthFrom.radians();
  return across < 0.0 ? across + kTurn : across;
}

/// Height of the highest block in this direction, 0 for none.
double skyline_rad(std::span<const model::Obstacle> blocks, double azimuth_rad) {
  double height = 0.0;
  for (const model::Obstacle& block : blocks) {
    if (holdsAzimuth(block, radians(azimuth_rad))) height = std::max(height, block.height.radians());
  }
  return height;
}

/// Light from the horizon up to a height on a plane, per radian of azimuth and unit of radiance.
/// @param across cosine of the direction's azimuth against the plane's
double lightBelow(double height_rad, double across, double tilt_rad) {
  const double level = std::cos(tilt_rad), upright = std::sin(tilt_rad) * across;
  // Below this height the direction lies behind the plane.
  const double from = std::clamp(std::atan2(-upright, level), 0.0, 0.5 * kPi);
  if (height_rad <= from) return 0.0;
  const auto integral = [&](double a) {
    const double sine = std::sin(a);
    return 0.5 * level * sine * sine + upright * (0.5 * a + 0.25 * std::sin(2.0 * a));
  };
  return std::max(0.0, integral(height_rad) - integral(from));
}

/// Where the skyline jumps, once round from the first edge.
std::vector<double> edges_rad(std::span<const model::Obstacle> blocks) {
  std::vector<double> edges{0.0, kTurn};
  for (const model::Obstacle& block : blocks) {
    edges.push_back(wrapped(block.azimuthFrom.radians()));
    edges.push_back(wrapped(block.azimuthTo.radians()));
  }
  std::sort(edges.begin(), edges.end());
  return edges;
}

}  // namespace

bool holdsAzimuth(const model::Obstacle& block, Angle azimuth) {
  const double within = wrapped(azimuth.radians() - block.azimuthFrom.radians());
  return within <= width_rad(block) + kSameDirection_rad || within >= kTurn - kSameDirection_rad;
}

bool isHidden(std::span<const model::Obstacle> blocks, const SunPosition& sun) {
  const double height_rad = 0.5 * kPi - sun.zenith.radians();
  if (height_rad <= 0.0) return false;
  return std::any_of(blocks.begin(), blocks.end(), [&](const model::Obstacle& block) {
    return height_rad <= block.height.radians() + kSameDirection_rad && holdsAzimuth(block, sun.azimuth);
  });
}

double hiddenSkyShare(std::span<const model::Obstacle> blocks, Angle tilt, Angle azimuth) {
  if (blocks.empty()) return 0.0;
  const std::vector<double> edges = edges_rad(blocks);
  double light = 0.0;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    const double from = edges[i], across = edges[i + 1] - from;
    if (across <= kSameDirection_rad) continue;
    const double height = skyline_rad(blocks, from + 0.5 * across);
    if (height <= 0.0) continue;
    const int steps = static_cast<int>(std::ceil(across / kStep_rad));
    for (int n = 0; n < steps; ++n) {
      const double at = from + across * (n + 0.5) / steps;
      light += across / steps * lightBelow(height, std::cos(at - azimuth.radians()), tilt.radians());
    }
  }
  const double whole = 0.5 * kPi * (1.0 + std::cos(tilt.radians()));
  return std::min(1.0, light / whole);  // the midpoints of a ring add up to 1 within rounding
}

ClearSky dulled(const ClearSky& clear, Angle zenith, double share) {
  const double cosZenith = std::cos(zenith.radians());
  if (!(cosZenith > 0.0) || !(clear.global_W_m2 > 0.0)) return clear;
  ClearSky sky = clear;
  sky.global_W_m2 = share * clear.global_W_m2;
  const double clearness = sky.global_W_m2 / (clear.extraterrestrialNormal_W_m2 * cosZenith);
  const Result<double> fraction = erbsDiffuseFraction(clearness);
  sky.diffuse_W_m2 = sky.global_W_m2 * (fraction ? *fraction : 1.0);
  sky.beamNormal_W_m2 = (sky.global_W_m2 - sky.diffuse_W_m2) / cosZenith;
  return sky;
}

}  // namespace sunspool::climate
