// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::climate {

/// Where the sun stands, unrefracted. Azimuth from north, clockwise.
struct SunPosition {
  Angle zenith;
  Angle azimuth;
  Angle declination;
  Angle hourAngle;  ///< afternoon positive
  double equationOfTime_min = 0.0;
  double distance_AU = 1.0;
};
/// @param moment local clock with place.utcOffset_h; years 1950 to 2100, else DateImpossible.
/// Accuracy: 0.006 degree (see tests/core/climate/sun.tests.cpp for the reference).
Result<SunPosition> sunPosition(const model::Place& place, const model::Moment& moment);
/// Day of the year, 1 to 366. DateImpossible for 30 February and the like.
Result<int> dayOfYear(const model::Moment& moment);
/// Clock hour of the sun's highest place that day; and of sunrise and sunset (geometric, unrefracted).
struct SunDay {
  double noon_h = 12.0;
  bool rises = true;  ///< false: polar night or polar day
  bool neverSets = false;
  double rise_h = 6.0, set_h = 18.0;
};
Result<SunDay> sunDay(const model::Place& place, const model::Moment& moment);

struct ClearSky {
  double global_W_m2 = 0.0;  ///< on the horizontal
  double beamNormal_W_m2 = 0.0;
  double diffuse_W_m2 = 0.0;  ///< on the horizontal
  double extraterrestrialNormal_W_m2 = 0.0;
  double airMass = 0.0;
};
/// Ineichen & Perez (2002). All zero with the sun below the horizon.
ClearSky clearSky(const SunPosition& sun, Length altitude, double linkeTurbidity);

enum class SkyModel { Isotropic, Hdkr, Perez };
/// What falls on the panel's plane.
struct PlaneIrradiance {
  double beam_W_m2 = 0.0, sky_W_m2 = 0.0, ground_W_m2 = 0.0, total_W_m2 = 0.0;
  Angle incidence;  ///< of the beam on the plane
};
PlaneIrradiance onPlane(const SunPosition& sun, const ClearSky& sky, Angle tilt, Angle azimuth,
                        double groundReflectance, SkyModel model);

/// Dew point by Magnus (Alduchov & Eskridge 1996); relative humidity 0 < rh <= 1.
Temperature dewPoint(Temperature air, double relativeHumidity);
/// Berdahl & Martin (1984) clear-sky temperature. hour: solar, from midnight.
Temperature skyTemperature(Temperature air, Temperature dewPoint, double hour);

}  // namespace sunspool::climate
