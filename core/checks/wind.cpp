// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/wind.h"

#include <algorithm>
#include <cmath>

#include "core/checks/measures.h"

namespace sunspool::checks {
namespace {

constexpr Density kAir = kilogramsPerCubicMetre(1.226);

}  // namespace

Pressure velocityPressure(Velocity speed, Density air) {
  return Pressure::fromSi(0.5 * air.si() * speed.si() * speed.si());
}

Force windForce(Pressure pressure, double coefficient, Area area) { return pressure * area * coefficient; }

std::optional<results::Wind> wind(const model::Document& document, const results::Masses& masses) {
  const model::Siting& siting = document.siting;
  if (!siting.gust) return std::nullopt;
  const Area area = outerWidth(document) * outerHeight(document);
  const Velocity gust = siting.gust->value;
  const double coefficient = siting.upliftCoefficient.value;

  results::Wind wind;
  wind.gustPressure = velocityPressure(gust, kAir);
  const Force uplift = windForce(wind.gustPressure, coefficient, area);
  const Force byGust = windForce(velocityPressure(gust + siting.gust->spread, kAir), coefficient, area) - uplift;
  const Force byCoefficient = windForce(wind.gustPressure, siting.upliftCoefficient.spread, area);
  const Force half = Force::fromSi(std::hypot(byGust.si(), byCoefficient.si()));
  wind.uplift = {uplift, std::max(Force{}, uplift - half), uplift + half};

  wind.ownWeight = Force::fromSi(masses.dry.si() * kStandardGravity_m_s2);
  const double pressing_N = wind.ownWeight.si() * std::cos(siting.tilt.radians());  // at right angles to the panel
  const auto held = [&](Force force) {
    return kilograms(std::max(0.0, force.si() - pressing_N) / kStandardGravity_m_s2);
  };
  wind.holdDownMass = {held(wind.uplift.value), held(wind.uplift.low), held(wind.uplift.high)};
  if (pressing_N > 1e-6 * wind.ownWeight.si()) wind.overturning = uplift.si() / pressing_N;
  return wind;
}

}  // namespace sunspool::checks
