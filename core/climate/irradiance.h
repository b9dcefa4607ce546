// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the sun and sky send: outside the air, through a clear sky, onto a tilted plane; and the statistics that
// split a measured total into beam and diffuse. Daily and hourly sums are in J/m^2, irradiances in W/m^2.

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/climate/position.h"

namespace sunspool::climate {

/// Solar constant the older clear-sky and statistical models were fitted with, World Radiation Center.
/// Source: [DB] section 1.2. (Satellite value since 2008: 1361, 0.4 % less.) [W/m^2]
inline constexpr double kSolarConstant_W_m2 = 1367.0;

// ---- outside the air

/// 1 + 0.033 cos(360 n/365), times the constant [W/m^2]. Source: [DB] eq. 1.4.1a.
double extraterrestrialNormalSimple_W_m2(int dayOfYear, double solarConstant_W_m2 = kSolarConstant_W_m2);
/// Fourier series of Spencer (1971), within 0.01 % of the true distance law [W/m^2].
/// Source: [DB] eq. 1.4.1b.
double extraterrestrialNormalSpencer_W_m2(int dayOfYear, double solarConstant_W_m2 = kSolarConstant_W_m2);
/// One day's sum on the horizontal outside the air; 0 in the polar night [J/m^2].
/// Source: [DB] eq. 1.10.3, with the normal irradiance of eq. 1.4.1a and Cooper's declination.
double dailyExtraterrestrial_J_m2(Angle latitude, int dayOfYear, double solarConstant_W_m2 = kSolarConstant_W_m2);
/// The sum between two hour angles, both while the sun is up, from < to [J/m^2].
/// Source: [DB] eq. 1.10.4.
double extraterrestrialBetween_J_m2(Angle latitude, int dayOfYear, Angle from, Angle to,
                                    double solarConstant_W_m2 = kSolarConstant_W_m2);

// ---- air

/// Relative optical air mass, 1 at the zenith, 38 at the horizon.
///   m = 1 / (cos z + 0.50572 (96.07995 - z)^-1.6364), z in degrees
/// @return OutOfRange for a zenith outside 0 to 90 degrees. Source: [KastenYoung1989].
Result<double> relativeAirMass(Angle zenith);
/// Air pressure at a height over the pressure at sea level in the standard atmosphere: 1 at 0 m, 0.785 at 2000 m.
/// Source: [ISO2533].
double pressureRatio(Length altitude);

struct ClearSky {
  double global_W_m2 = 0.0;  ///< on the horizontal
  double beamNormal_W_m2 = 0.0;
  double diffuse_W_m2 = 0.0;  ///< on the horizontal
  double extraterrestrialNormal_W_m2 = 0.0;
  double airMass = 0.0;  ///< absolute: relative times pressure ratio
};
/// Clear sky of Ineichen & Perez (2002). Sun at or below the horizon: all zero but the extraterrestrial normal.
/// @param altitude        of the place; fitted for 0 to about 3000 m
/// @param linkeTurbidity  2 (mountain air) to 6 (haze); 1 is clean dry air
/// Accuracy: about 7 % of the global and 12 % of the beam irradiance under skies that are clear (order of magnitude
/// in the paper, from memory); the turbidity is the main unknown.
/// Source: [IneichenPerez2002]; solar constant 1367 over the square of the distance.
ClearSky clearSky(const SunPosition& sun, Length altitude, double linkeTurbidity);
/// The same with every ingredient given. zenith < 90 degrees, else all zero but the extraterrestrial normal.
ClearSky ineichenPerez(Angle zenith, double absoluteAirMass, Length altitude, double linkeTurbidity,
                       double extraterrestrialNormal_W_m2);

/// Clear-sky global on the horizontal, 1098 cos z exp(-0.059/cos z); 0 with the sun down [W/m^2].
/// Source: [Haurwitz1945], constants as in the public reference implementations.
double haurwitzGlobal_W_m2(Angle zenith);

enum class HottelClimate { Tropical, MidLatitudeSummer, SubarcticSummer, MidLatitudeWinter };
/// Clear-sky beam transmittance, 23 km visibility, 0 with the sun down. OutOfRange for an altitude of 2500 m and over
/// or below 0. Source: [Hottel1976], as [DB] eqs. 2.8.1 (climate factors from memory).
Result<double> hottelBeamTransmittance(Angle zenith, Length altitude, HottelClimate climate);
/// Diffuse transmittance of a clear sky from that of the beam: 0.271 - 0.294 tau_b.
/// Source: [LiuJordan1960], as [DB] eq. 2.8.5.
double liuJordanDiffuseTransmittance(double beamTransmittance);

// ---- splitting and spreading measured sums

/// Diffuse part of an hour's global from its clearness index kt >= 0 (OutOfRange below). Source: [Erbs1982].
Result<double> erbsDiffuseFraction(double clearness);
/// Diffuse part of a month's mean day from its mean clearness index, 0.3 to 0.8 (OutOfRange outside).
/// Source: [Erbs1982], as [DB] eqs. 2.12.1 (constants from memory).
Result<double> erbsMonthlyDiffuseFraction(double meanClearness, Angle sunsetHourAngle);
/// Hour's part of a day's global, by the hour angle of its middle; 0 outside the day. The hours of a day add up to
/// 1 only within about 1 %: renormalise. Source: [CollaresPereiraRabl1979], as [DB] eq. 2.13.2.
double hourlyGlobalShare(Angle hourAngle, Angle sunsetHourAngle);
/// Hour's part of a day's diffuse. Source: [LiuJordan1960], as [DB] eq. 2.13.4.
double hourlyDiffuseShare(Angle hourAngle, Angle sunsetHourAngle);

// ---- on a tilted plane

enum class SkyModel { Isotropic, Hdkr, Perez };
/// What falls on the panel's plane.
struct PlaneIrradiance {
  double beam_W_m2 = 0.0, sky_W_m2 = 0.0, ground_W_m2 = 0.0, total_W_m2 = 0.0;
  Angle incidence;  ///< of the beam on the plane
};
/// Beam, sky and ground on a plane. A horizontal plane receives the global irradiance exactly (Perez: up to 85 degrees
/// of zenith). No part is below 0.
///   Isotropic: [LiuJordan1963]. Hdkr: [DB] eq. 2.16.7 (form from memory). Perez: [Perez1990], Table 6.
/// @param tilt               0 horizontal, 90 degrees upright
/// @param azimuth            facing, compass
/// @param groundReflectance  0 to 1
/// The beam counts only with the sun above the horizon and in front of the plane; near the horizon Hdkr's
/// circumsolar part divides by no less than cos 89 degrees and Perez' by no less than cos 85 degrees.
PlaneIrradiance onPlane(const SunPosition& sun, const ClearSky& sky, Angle tilt, Angle azimuth,
                        double groundReflectance, SkyModel model);

/// Brightness of the sky around the sun (F1) and at the horizon (F2) and the clearness bin, 1 to 8.
/// diffuse > 0. Source: [Perez1990].
struct PerezBrightness {
  int bin = 1;
  double circumsolar = 0.0;
  double horizon = 0.0;
};
PerezBrightness perezBrightness(Angle zenith, double diffuse_W_m2, double beamNormal_W_m2,
                                double extraterrestrialNormal_W_m2);
/// Diffuse from the sky on a plane by Klucher (1979); global > 0, else 0 [W/m^2]. Source: [Klucher1979].
double klucherSky_W_m2(double diffuse_W_m2, double global_W_m2, Angle zenith, Angle incidence, Angle tilt);
/// Beam on the plane over beam on the horizontal, cos(incidence)/cos(zenith); 0 with the sun behind the plane.
/// OutOfRange with the sun at or below the horizon. Source: [DB] eq. 1.8.1.
Result<double> beamRatio(Angle incidence, Angle zenith);

/// Mean day of a month on a plane that faces the equator: Klein (1977) with Liu & Jordan's sky and Erbs' diffuse part.
struct MonthlyTilt {
  double extraterrestrial_J_m2 = 0.0;  ///< H0
  double clearness = 0.0;
  double diffuseFraction = 0.0;
  double beamRatio = 0.0;
  double onPlane_J_m2 = 0.0;
};
/// @param dayOfYear         the month's mean day: 17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344
/// @param horizontal_J_m2   measured mean day sum of the global
/// @return SunNeverRises in the polar night; OutOfRange for a clearness outside 0.3 to 0.8.
/// Source: [DB] eqs. 2.19.1 to 2.19.3.
Result<MonthlyTilt> kleinMonthly(Angle latitude, int dayOfYear, Angle tilt, double horizontal_J_m2,
                                 double groundReflectance, double solarConstant_W_m2 = kSolarConstant_W_m2);

}  // namespace sunspool::climate
