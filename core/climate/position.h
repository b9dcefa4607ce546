// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Where the sun stands, by a short series for the engine and by the handbook formulae for checking by hand.
// Compass azimuths throughout: from north, clockwise, in both hemispheres. Refraction is left out: it matters
// only within a few degrees of the horizon, where little heat is to be had.

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::climate {

/// Where the sun stands, unrefracted. Azimuth from north, clockwise, 0 to 360 degrees.
struct SunPosition {
  Angle zenith;                     ///< from the place itself (parallax included)
  Angle azimuth;                    ///< of the sun; at the poles along the given meridian
  Angle declination;                ///< seen from the centre of the Earth
  Angle hourAngle;                  ///< afternoon positive, -180 to 180 degrees
  double equationOfTime_min = 0.0;  ///< apparent less mean solar time
  double distance_AU = 1.0;
};

/// The sun at a place and moment.
///
/// Newcomb's mean elements and equation of the centre, five terms for Venus, Jupiter and Moon, nutation, aberration,
/// apparent sidereal time, parallax.
///
/// @param place   latitude within +-90 degrees, longitude within +-180, clock offset from -12 to +14 h: else OutOfRange
///                (facts "found", "lowest", "highest")
/// @param moment  local clock with place.utcOffset_h; years 1950 to 2100 and a day that exists, else DateImpossible
/// Accuracy: 0.006 degree, 1e-4 AU (largest found 0.0042 degree in 80 000 moments of 1950 to 2100 against a full
/// theory, see tests/core/climate/position.tests.cpp). The clock is taken as UT1; real UTC differs by up to 0.9 s,
/// which turns the sun by another 0.004 degree.
/// Source: [Meeus1982] chapter 18; sidereal time and delta T: [Meeus1998] chapter 12, [EspenakMeeus2006]
/// (coefficients from memory, confirmed by the comparison above).
Result<SunPosition> sunPosition(const model::Place& place, const model::Moment& moment);

/// Day of the year, 1 to 366. DateImpossible for 30 February and the like and for years outside 1950 to 2100.
Result<int> dayOfYear(const model::Moment& moment);

/// Clock hour at which the sun crosses the meridian on the clock's day, and of the rise and set around it. A rise or
/// set may lie below 0 or above 24 h where the clock is far from the sun.
/// Polar day: rises false, neverSets true, rise and set 12 h before and after noon.
/// Polar night: rises false, neverSets false, rise and set equal to noon.
struct SunDay {
  double noon_h = 12.0;
  bool rises = true;  ///< false: polar night or polar day
  bool neverSets = false;
  double rise_h = 6.0, set_h = 18.0;
};
/// Geometric day: centre of the sun on a level horizon, unrefracted. Errors as sunPosition.
/// Accuracy: 2 s in the hour of noon; rise and set as the position, about 2 s at the equator and more towards the
/// poles.
Result<SunDay> sunDay(const model::Place& place, const model::Moment& moment);
/// The same for another zenith distance at rise and set, e.g. kZenithAtVisibleRise. [0, 180 degrees]
Result<SunDay> sunDay(const model::Place& place, const model::Moment& moment, Angle zenithAtRise);
/// Upper edge of the sun on the horizon with mean refraction, as almanacs print sunrise: 90 degrees 50 minutes.
inline constexpr double kZenithAtVisibleRise_deg = 90.0 + 50.0 / 60.0;

/// Angle between the beam and the normal of a plane, 0 to 180 degrees (above 90: the sun is behind the plane).
///   cos(incidence) = cos z cos tilt + sin z sin tilt cos(azimuth of sun - azimuth of plane)
Angle incidence(Angle zenith, Angle sunAzimuth, Angle tilt, Angle azimuth);
/// The same from declination, latitude and hour angle. Source: [DB] eq. 1.6.2, whose surface azimuth
/// (from south, west positive) is the compass azimuth less 180 degrees.
Angle incidence(Angle declination, Angle latitude, Angle tilt, Angle azimuth, Angle hourAngle);

/// Zenith and compass azimuth from declination and hour angle. Source: [DB] eqs. 1.6.5, 1.6.6.
struct HorizonPlace {
  Angle zenith;
  Angle azimuth;
};
HorizonPlace horizonPlace(Angle latitude, Angle declination, Angle hourAngle);

/// Elevation of the sun projected on the vertical plane along the normal of a surface.
///   tan(profile) = tan(elevation) / cos(azimuth of sun - azimuth of surface)
/// OutOfRange with the sun at or below the horizon or behind the surface. Source: [DB] eq. 1.6.12.
Result<Angle> profileAngle(Angle zenith, Angle sunAzimuth, Angle surfaceAzimuth);

/// Hour angle of sunset, 0 (polar night) to 180 degrees (polar day). Source: [DB] eq. 1.6.10.
Angle sunsetHourAngle(Angle latitude, Angle declination);

/// Declination of Cooper (1969): 23.45 deg sin(360 (284 + n)/365). n = 1 to 366. Up to 1.4 degrees from Spencer's.
/// Source: [DB] eq. 1.6.1a.
Angle cooperDeclination(int dayOfYear);
/// Declination of Spencer (1971); up to 0.45 degree from sunPosition at noon, a day's motion, as it knows no leap
/// years. Source: [DB] eq. 1.6.1b (constants from memory).
Angle spencerDeclination(int dayOfYear);
/// Equation of time of Spencer (1971) [min]; up to 0.8 min from sunPosition. Source: [DB] eq. 1.5.3.
double spencerEquationOfTime_min(int dayOfYear);
/// Solar time of a clock [h], not wrapped: clock + 4 min per degree east of the clock's meridian + equation of time.
/// Source: [DB] eq. 1.5.2, with longitude east positive.
double solarTime_h(double clock_h, double utcOffset_h, Angle longitude, double equationOfTime_min);
/// 15 degrees an hour from solar noon, afternoon positive.
Angle hourAngleOf(double solarTime_h);

}  // namespace sunspool::climate
