// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Dry air for gaps and wind, and the moisture that the air holds.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::materials {

/// Dry air as an ideal gas at one temperature and pressure.
struct Air {
  Density density;
  SpecificHeat specificHeat;
  DynamicViscosity viscosity;
  ThermalConductivity conductivity;
  double prandtl = 0.0;
  double kinematicViscosity_m2_s = 0.0;
  double diffusivity_m2_s = 0.0;  ///< thermal
  double expansion_1_K = 0.0;     ///< 1/T of an ideal gas
};

/// Dry air, -60 to 250 C, pressure > 0; OutOfRange (facts: temperature, pressure) elsewhere.
///   density = p/(R T), R = 287.05287 J/(kg K)
///   viscosity = 1.458e-6 T^1.5/(T + 110.4)                          (Sutherland)
///   conductivity = 2.64638e-3 T^1.5/(T + 245.4 * 10^(-12/T))        (Sutherland's form)
///   specific heat = 1002.5 + 275e-6 (T - 200)^2                     (fit from memory, 0.2 %)
/// Accuracy: within 1.5 % of tables from 0 to 200 C. Source: [USSA1976], eq. 51 and 53; specific heat from memory.
Result<Air> airAt(Temperature temperature, Pressure absolute);

/// Saturation pressure of water vapour over liquid, Magnus form with the constants of Alduchov and Eskridge 1996,
/// 0.61094 exp(17.625 t/(t + 243.04)) kPa. -40 to 50 C, else OutOfRange. Accuracy: 0.3 %. Constants from memory.
Result<Pressure> vapourPressureMagnus(Temperature temperature);
/// Temperature at which this air begins to condense, the inverse of vapourPressureMagnus.
/// Air -40 to 50 C, relative humidity above 0 and at most 1, else OutOfRange (facts: temperature, relative_humidity).
Result<Temperature> dewPoint(Temperature air, double relativeHumidity);

}  // namespace sunspool::materials
