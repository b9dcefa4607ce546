// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/air.h"

#include <cmath>

namespace sunspool::materials {
namespace {

constexpr double kMagnusFactor = 17.625;
constexpr double kMagnusOffset_K = 243.04;
constexpr double kMagnusAtZero_Pa = 610.94;

bool magnusRange(Temperature temperature) { return temperature >= celsius(-40.0) && temperature <= celsius(50.0); }

Error outOfRange(const char* where, Temperature temperature) {
  return {ErrorCode::OutOfRange, where, {}, {{"temperature", temperature.inKelvin(), Dimension::Temperature}}};
}

}  // namespace

Result<Air> airAt(Temperature temperature, Pressure absolute) {
  constexpr double kGasConstant_J_kgK = 287.05287;
  if (!(temperature >= celsius(-60.0) && temperature <= celsius(250.0) && absolute.si() > 0.0 && absolute.isFinite())) {
    Error error = outOfRange("air", temperature);
    error.facts.push_back({"pressure", absolute.si(), Dimension::Pressure});
    return error;
  }
  const double t = temperature.inKelvin();
  Air air;
  air.density = Density::fromSi(absolute.si() / (kGasConstant_J_kgK * t));
  air.specificHeat = SpecificHeat::fromSi(1002.5 + 275e-6 * (t - 200.0) * (t - 200.0));
  air.viscosity = DynamicViscosity::fromSi(1.458e-6 * std::pow(t, 1.5) / (t + 110.4));
  air.conductivity =
      ThermalConductivity::fromSi(2.64638e-3 * std::pow(t, 1.5) / (t + 245.4 * std::pow(10.0, -12.0 / t)));
  air.prandtl = air.viscosity.si() * air.specificHeat.si() / air.conductivity.si();
  air.kinematicViscosity_m2_s = air.viscosity.si() / air.density.si();
  air.diffusivity_m2_s = air.kinematicViscosity_m2_s / air.prandtl;
  air.expansion_1_K = 1.0 / t;
  return air;
}

Result<Pressure> vapourPressureMagnus(Temperature temperature) {
  if (!magnusRange(temperature)) return outOfRange("air/vapour", temperature);
  const double t_C = temperature.inCelsius();
  return pascals(kMagnusAtZero_Pa * std::exp(kMagnusFactor * t_C / (t_C + kMagnusOffset_K)));
}

Result<Temperature> dewPoint(Temperature air, double relativeHumidity) {
  if (!(magnusRange(air) && relativeHumidity > 0.0 && relativeHumidity <= 1.0)) {
    Error error = outOfRange("air/dew_point", air);
    error.facts.push_back({"relative_humidity", relativeHumidity, Dimension::Percent});
    return error;
  }
  const double t_C = air.inCelsius();
  const double exponent = kMagnusFactor * t_C / (t_C + kMagnusOffset_K) + std::log(relativeHumidity);
  return celsius(kMagnusOffset_K * exponent / (kMagnusFactor - exponent));
}

}  // namespace sunspool::materials
