// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/sky.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunspool::climate {
namespace {

constexpr double kMagnusPressure_Pa = 610.94;
constexpr double kMagnusSlope = 17.625;
constexpr double kMagnusTemperature_C = 243.04;

constexpr double kEmissivityLinear = 0.0056;
constexpr double kEmissivityQuadratic = 0.000073;
constexpr double kLowestDewPoint_C = -kEmissivityLinear / (2.0 * kEmissivityQuadratic);

}  // namespace

Pressure magnusSaturationPressure(Temperature air) {
  const double t = air.inCelsius();
  return pascals(kMagnusPressure_Pa * std::exp(kMagnusSlope * t / (t + kMagnusTemperature_C)));
}

Temperature dewPoint(Temperature air, double relativeHumidity) {
  if (!(relativeHumidity > 0.0)) return celsius(-kMagnusTemperature_C);
  const double t = air.inCelsius();
  const double exponent = std::log(relativeHumidity) + kMagnusSlope * t / (t + kMagnusTemperature_C);
  return celsius(kMagnusTemperature_C * exponent / (kMagnusSlope - exponent));
}

double skyEmissivity(Temperature dewPoint, double hour) {
  const double t = std::max(dewPoint.inCelsius(), kLowestDewPoint_C);
  return 0.711 + t * (kEmissivityLinear + t * kEmissivityQuadratic) +
         0.013 * std::cos(2.0 * std::numbers::pi * hour / 24.0);
}

Temperature skyTemperature(Temperature air, Temperature dewPoint, double hour) {
  return Temperature::fromKelvin(air.inKelvin() * std::pow(skyEmissivity(dewPoint, hour), 0.25));
}

Temperature swinbankSkyTemperature(Temperature air) {
  return Temperature::fromKelvin(0.0552 * std::pow(air.inKelvin(), 1.5));
}

}  // namespace sunspool::climate
