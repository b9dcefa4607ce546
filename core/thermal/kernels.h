// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The formulas of this module without their range checks, for the inner loops. Callers have checked the inputs once.

namespace sunspool::thermal::kernel {

/// Range of the air equations (materials/air.h), -60 to 250 C. Results outside are refused.
inline constexpr double kColdestAir_K = 213.15, kHottestAir_K = 523.15;

/// Nusselt number of thermal::filmCoefficient. diameterRatio = 0 for a straight.
double filmNusselt(double reynolds, double prandtl, double diameterRatio);

/// Watmuff, Charters and Proctor: convection alone.
double windCoefficient_W_m2K(double wind_m_s);
double nusseltHollands(double rayleigh, double tilt_rad);
/// Convection, or conduction when the upper plate is the warmer one, across an inclined gap.
double gapCoefficient_W_m2K(double lower_K, double upper_K, double gap_m, double tilt_rad, double pressure_Pa);
/// @param exchange 1/(1/e1 + 1/e2 - 1), or the emittance towards surroundings much larger than the surface
double radiationCoefficient_W_m2K(double first_K, double second_K, double exchange);

/// Heat balance of one cover, per area of cover.
struct CoverInputs {
  double absorber_K = 0.0, air_K = 0.0, sky_K = 0.0;
  double wind_W_m2K = 0.0;
  double gapExchange = 1.0;
  double coverEmittance = 1.0;
  double coverResistance_m2K_W = 0.0;
  double gap_m = 0.025, tilt_rad = 0.0, airPressure_Pa = 101325.0;
  double absorberArea = 1.0;  ///< absorber's surface per area of cover
};
struct Cover {
  double coefficient_W_m2K = 0.0, surroundings_K = 0.0;
  double inside_K = 0.0, outside_K = 0.0;
  double gapConvection_W_m2K = 0.0, gapRadiation_W_m2K = 0.0, coverRadiation_W_m2K = 0.0;
  int iterations = 0;
  bool found = false;
};
Cover coverBalance(const CoverInputs& in);

}  // namespace sunspool::thermal::kernel
