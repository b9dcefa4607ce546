// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::materials {

/// Liquid water at one temperature, at the larger of 0.1 MPa and saturation.
struct Water {
  Density density;
  SpecificHeat specificHeat;
  DynamicViscosity viscosity;
  ThermalConductivity conductivity;
  double prandtl = 0.0;
  double expansion_1_K = 0.0;
};

/// Properties of liquid water, 0 to 150 C: IF97 region 1, viscosity R12-08, conductivity R15-11, at
/// max(0.101325 MPa, saturation). OutOfRange outside. Fast enough to be called per cell (tabulated to 1e-6).
Result<Water> waterAt(Temperature temperature);
/// IF97 region 4. 273.15 to 647.096 K.
Result<Pressure> saturationPressure(Temperature temperature);
/// Inverse of saturationPressure. 611.213 Pa to 22.064 MPa.
Result<Temperature> boilingTemperature(Pressure absolute);
/// Standard atmosphere at this altitude (ISO 2533 troposphere, -500 to 11000 m).
Pressure airPressure(Length altitude);

}  // namespace sunspool::materials
