// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Liquid water: density, specific heat, viscosity, conductivity, saturation. Pure water; the salts of a
// pool (below 0.5 % by mass) change none of these by more than about 1 % and are left out.
// Left out: the critical enhancements of viscosity and conductivity (below 0.2 % under 150 C), steam.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::materials {

/// Liquid water at one temperature, at the larger of one atmosphere and saturation.
struct Water {
  Density density;
  SpecificHeat specificHeat;
  DynamicViscosity viscosity;
  ThermalConductivity conductivity;
  double prandtl = 0.0;        ///< viscosity times specific heat over conductivity
  double expansion_1_K = 0.0;  ///< of volume, isobaric; negative below 4 C
};

/// Properties of liquid water, 0 to 150 C: IF97 region 1, viscosity R12-08, conductivity R15-11, at
/// max(0.101325 MPa, saturation). OutOfRange outside (fact: temperature).
/// Read from a table of the equations at 0.25 K steps with cubic Hermite pieces, so it may be called per cell
/// and from several threads. Accuracy: within 1e-6 of the equations (relative; of expansion 1e-9 1/K absolute).
Result<Water> waterAt(Temperature temperature);

/// The same from the equations themselves: about a hundred times slower, no table.
Result<Water> waterFromEquations(Temperature temperature);

/// IF97 region 4, eq. 30. 273.15 to 647.096 K, else OutOfRange (fact: temperature).
/// Source: [IF97], table 34 and eq. 30.
Result<Pressure> saturationPressure(Temperature temperature);
/// Inverse of saturationPressure, IF97 eq. 31. 611.213 Pa to 22.064 MPa, else OutOfRange (fact: pressure).
/// Accuracy: returns the temperature to 1e-8 K. Source: [IF97], eq. 31.
Result<Temperature> boilingTemperature(Pressure absolute);
/// Saturation pressure over liquid water, Hyland and Wexler 1983 as used by ASHRAE Fundamentals: an independent
/// check of saturationPressure (agrees to 0.03 %). 0 to 200 C. Coefficients from memory.
Result<Pressure> saturationPressureHylandWexler(Temperature temperature);

/// Liquid water at temperature and pressure.
struct LiquidState {
  Density density;
  SpecificHeat specificHeat;   ///< at constant pressure
  double enthalpy_J_kg = 0.0;  ///< over the zero of IF97 (saturated liquid at the triple point, internal energy)
  double entropy_J_kgK = 0.0;  ///< same zero
  double soundSpeed_m_s = 0.0;
  double expansion_1_K = 0.0;  ///< of volume, isobaric
};
/// IF97 region 1 (liquid). 273.15 to 623.15 K, saturation to 100 MPa; OutOfRange elsewhere (facts: temperature,
/// pressure). Accuracy: table 5 of the release to its last digit. Source: [IF97], table 2 and eq. 7.
Result<LiquidState> liquidStateAt(Temperature temperature, Pressure absolute);
/// Viscosity without the critical term. 273.15 to 623.15 K, 0 < density <= 1100 kg/m3. Source: [R12-08], eq. 10-12.
Result<DynamicViscosity> viscosityAt(Temperature temperature, Density density);
/// Conductivity without the critical term. Same range. Source: [R15-11], eq. 15-17.
Result<ThermalConductivity> conductivityAt(Temperature temperature, Density density);

/// Standard atmosphere at this altitude (ISO 2533 troposphere, -500 to 11000 m; above it goes on as the isothermal
/// layer of the same standard). Altitude is taken as geopotential, which differs by 0.05 % at 3000 m.
/// Source: [ISO2533].
Pressure airPressure(Length altitude);

}  // namespace sunspool::materials
