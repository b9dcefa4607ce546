// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a warm absorber loses heat to air and sky: wind, still air in a gap, radiation, and one cover over it.
// Left out: covers that let long-wave pass (polyethylene film), side walls of the gap, dew.
// Symbols: h coefficient [W/(m^2 K)], U overall coefficient [W/(m^2 K)], beta tilt from the horizontal, Ra Rayleigh
// number. Every function: OutOfRange (detail: the input's name) outside the range given at each input.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::thermal {

/// Two old measurements on plates of about half a metre to a metre, 0 to 7 m/s; used as they stand above that.
enum class WindFormula {
  Watmuff,  ///< 2.8 + 3.0 V: convection alone. The engine uses this one, for it reckons radiation by itself.
  McAdams   ///< 5.7 + 3.8 V: holds some radiation; never add long-wave on top of it.
};
/// @param wind V, 0 to 60 m/s.
/// Source: [Watmuff1977]; [McAdams1954], both as quoted in [DB] section 3.15.
Result<HeatTransferCoefficient> windCoefficient(Velocity wind, WindFormula formula);
/// On a roof: max[5, 8.6 V^0.6 / L^0.4], L the cube root of the building's volume, > 0.
/// Source: [DB] eq. 3.15.10 (Mitchell 1976).
Result<HeatTransferCoefficient> windCoefficientOnBuilding(Velocity wind, Length size);

/// Nusselt number of an inclined air gap heated from below.
///   Nu = 1 + 1.44 [1 - 1708 (sin 1.8 beta)^1.6 / (Ra cos beta)] [1 - 1708/(Ra cos beta)]+ + [(Ra cos beta/5830)^(1/3)
///   - 1]+
/// @param rayleigh >= 0  @param tilt beta, 0 to 75 degrees.
/// Source: [Hollands1976]; constants from memory, confirmed by [DB] Ex. 3.11.1.
Result<double> nusseltHollands(double rayleigh, Angle tilt);

struct AirGap {
  double rayleigh = 0.0;
  double nusselt = 1.0;
  double coefficient_W_m2K = 0.0;
};
/// Heat across an air gap between parallel plates: h = Nu k / gap, air at the mean temperature, Ra = g dT gap^3 /
/// (T nu alpha). With the upper plate the warmer one the air lies still: Nu = 1.
/// Assumption: between 75 and 90 degrees the value at 75 is used.
/// @param lower, upper plate temperatures, -60 to 250 C  @param gap > 0  @param tilt 0 to 90 degrees
Result<AirGap> airGap(Temperature lower, Temperature upper, Length gap, Angle tilt, Pressure air);

/// h = sigma (T1^2 + T2^2)(T1 + T2) / (1/e1 + 1/e2 - 1), parallel grey plates; emittances above 0 to 1.
/// Source: [DB] eq. 3.10.1.
Result<HeatTransferCoefficient> radiationCoefficient(Temperature first, Temperature second, double firstEmittance,
                                                     double secondEmittance);

/// An absorber under one cover.
struct CoveredAbsorber {
  Temperature absorber;
  Temperature air;
  Temperature sky;  ///< radiant surroundings of the cover
  HeatTransferCoefficient wind;
  double absorberEmittance = 0.95;
  double coverEmittance = 0.88;
  double coverResistance_m2K_W = 0.0;  ///< of conduction through the cover; 0 for a thin sheet
  Length gap;
  Angle tilt;
  Pressure airPressure = pascals(101325.0);
};
struct TopLoss {
  double coefficient_W_m2K = 0.0;  ///< U_t, on the difference absorber - surroundings_K
  double surroundings_K = 0.0;     ///< the cover's: air and sky weighted by their coefficients
  double coverInside_K = 0.0, coverOutside_K = 0.0;
  double gapConvection_W_m2K = 0.0, gapRadiation_W_m2K = 0.0, coverRadiation_W_m2K = 0.0;
  int iterations = 0;
};
/// Top loss coefficient by iterating the cover's temperature until its heat balance closes.
/// With sky and air equal this is [DB]'s U_t on absorber - air.
/// @param wind > 0.  Source: [DB] section 6.4, eq. 6.4.1 to 6.4.8.  Accuracy of the balance: 1e-10 K.
Result<TopLoss> topLoss(const CoveredAbsorber& absorber);

/// Klein's explicit top loss coefficient on absorber - air, N covers.
///   U = {N / [C/T_pm ((T_pm - T_a)/(N + f))^e] + 1/h_w}^-1
///       + sigma (T_pm + T_a)(T_pm^2 + T_a^2) / {1/(e_p + 0.00591 N h_w) + (2N + f - 1 + 0.133 e_p)/e_g - N}
///   f = (1 + 0.089 h_w - 0.1166 h_w e_p)(1 + 0.07866 N), C = 520 (1 - 0.000051 beta^2), e = 0.430 (1 - 100/T_pm)
/// beta in degrees; above 70 the value at 70 belongs to the equation.
/// @param covers 1 to 5  @param absorber mean plate temperature, above air  @param wind > 0.
/// Accuracy: +-0.3 W/(m^2 K) against the iteration.  Source: [DB] eq. 6.4.9 (Klein 1979); constants from memory.
Result<HeatTransferCoefficient> topLossKlein(int covers, Temperature absorber, Temperature air,
                                             HeatTransferCoefficient wind, double absorberEmittance,
                                             double coverEmittance, Angle tilt);

}  // namespace sunspool::thermal
