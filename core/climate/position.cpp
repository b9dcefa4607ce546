// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/position.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace sunspool::climate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kDegree = kPi / 180.0;
constexpr double kFirstYear = 1950;
constexpr double kLastYear = 2100;
constexpr double kSecondsPerDay = 86400.0;
constexpr double kHoursPerDay = 24.0;
constexpr double kDaysPerCentury = 36525.0;
/// From 1900 January 0.5, the origin of Newcomb's elements, to J2000.0. [d]
constexpr double kJ2000FromEpoch1900_d = 36525.0;
/// Equatorial horizontal parallax of the sun at 1 AU. [deg]
constexpr double kSolarParallax_deg = 8.794 / 3600.0;
/// Rounding of an angle given in degrees must not push 90 or 180 over the edge. [rad]
constexpr double kAngleSlack = 1e-12;

double wrapped_deg(double angle_deg) { return angle_deg - 360.0 * std::round(angle_deg / 360.0); }

bool isLeapYear(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int daysInMonth(int year, int month) {
  constexpr std::array<int, 12> kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && isLeapYear(year) ? 29 : kDays[static_cast<std::size_t>(month - 1)];
}

int dayNumber(int year, int month, int day) {
  constexpr std::array<int, 12> kBefore{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
  return kBefore[static_cast<std::size_t>(month - 1)] + day + (month > 2 && isLeapYear(year) ? 1 : 0);
}

/// Days from 1900 January 0.5 to 0 h of the day, for years 1901 to 2100.
double daysFromEpoch1900(int year, int ordinalDay) {
  const int y = year - 1900;
  const int leapDays = (y - 1) / 4;  // 1900 itself was no leap year, and 2100 is not passed
  return 365.0 * y + leapDays + ordinalDay - 0.5;
}

bool exists(const model::Moment& m) {
  return m.year >= kFirstYear && m.year <= kLastYear && m.month >= 1 && m.month <= 12 && m.day >= 1 &&
         m.day <= daysInMonth(m.year, m.month) && m.clock_h >= 0.0 && m.clock_h < kHoursPerDay;
}

Error dateError(const model::Moment& m) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%d-%02d-%02d", m.year, m.month, m.day);
  return {ErrorCode::DateImpossible,
          "/moment",
          text.data(),
          {{"clock", std::isfinite(m.clock_h) ? m.clock_h * 3600.0 : 0.0, Dimension::Duration},
           {"first_year", kFirstYear, Dimension::None},
           {"last_year", kLastYear, Dimension::None}}};
}

Error rangeError(const char* where, double found, double lowest, double highest, Dimension dimension) {
  if (!std::isfinite(found)) return {ErrorCode::NotFinite, where, "", {}};
  return {ErrorCode::OutOfRange,
          where,
          "",
          {{"found", found, dimension}, {"lowest", lowest, dimension}, {"highest", highest, dimension}}};
}

Result<Done> checkPlace(const model::Place& place) {
  const double latitude = place.latitude.radians();
  const double longitude = place.longitude.radians();
  if (!(std::abs(latitude) <= kPi / 2 + kAngleSlack)) {
    return rangeError("/place/latitude_deg", latitude, -kPi / 2, kPi / 2, Dimension::Angle);
  }
  if (!(std::abs(longitude) <= kPi + kAngleSlack)) {
    return rangeError("/place/longitude_deg", longitude, -kPi, kPi, Dimension::Angle);
  }
  if (!(place.utcOffset_h >= -12.0 && place.utcOffset_h <= 14.0)) {
    return rangeError("/place/utc_offset_h", place.utcOffset_h * 3600.0, -12.0 * 3600.0, 14.0 * 3600.0,
                      Dimension::Duration);
  }
  return Done{};
}

/// Terrestrial less universal time [s], by the polynomials of Espenak and Meeus. One second moves the sun by 1e-5 deg.
double deltaT_s(double year) {
  if (year < 1961.0) {
    const double t = year - 1950.0;
    return 29.07 + t * (0.407 + t * (-1.0 / 233.0 + t / 2547.0));
  }
  if (year < 1986.0) {
    const double t = year - 1975.0;
    return 45.45 + t * (1.067 + t * (-1.0 / 260.0 - t / 718.0));
  }
  const double t = year - 2000.0;
  if (year < 2005.0) {
    return 63.86 + t * (0.3345 + t * (-0.060374 + t * (0.0017275 + t * (0.000651814 + t * 0.00002373599))));
  }
  if (year < 2050.0) return 62.92 + t * (0.32217 + t * 0.005589);
  const double centuries = (year - 1820.0) / 100.0;
  return -20.0 + 32.0 * centuries * centuries - 0.5628 * (2150.0 - year);
}

/// The sun seen from the centre of the Earth, true equator and equinox of date. Radians.
struct Geocentric {
  double declination = 0.0;
  double greenwichHourAngle_deg = 0.0;  ///< -180 to 180
  double distance_AU = 1.0;
};

Geocentric geocentric(double universal_d) {
  const double year = 1900.0 + universal_d / 365.25;
  const double t = (universal_d + deltaT_s(year) / kSecondsPerDay) / kDaysPerCentury;

  const double meanLongitude = 279.69668 + t * (36000.76892 + t * 0.0003025);
  const double anomaly = (358.47583 + t * (35999.04975 + t * (-0.000150 - t * 0.0000033))) * kDegree;
  const double eccentricity = 0.01675104 + t * (-0.0000418 - t * 0.000000126);
  const double sinM = std::sin(anomaly);
  const double cosM = std::cos(anomaly);
  const double sin2M = 2.0 * sinM * cosM;
  const double sin3M = sinM * (3.0 - 4.0 * sinM * sinM);
  const double centre =
      (1.919460 + t * (-0.004789 - t * 0.000014)) * sinM + (0.020094 - 0.000100 * t) * sin2M + 0.000293 * sin3M;

  // Perturbations: Venus twice, Jupiter, Moon, and the long inequality.
  const double venusA = (153.23 + 22518.7541 * t) * kDegree;
  const double venusB = (216.57 + 45037.5082 * t) * kDegree;
  const double jupiter = (312.69 + 32964.3577 * t) * kDegree;
  const double moon = (350.74 + t * (445267.1142 - t * 0.00144)) * kDegree;
  const double longTerm = (231.19 + 20.20 * t) * kDegree;
  const double perturbation = 0.00134 * std::cos(venusA) + 0.00154 * std::cos(venusB) + 0.00200 * std::cos(jupiter) +
                              0.00179 * std::sin(moon) + 0.00178 * std::sin(longTerm);

  const double node = (259.18 - 1934.142 * t) * kDegree;
  const double twiceL = 2.0 * meanLongitude * kDegree;
  const double nutationLongitude = -0.00479 * std::sin(node) - 0.00037 * std::sin(twiceL);
  const double nutationObliquity = 0.00256 * std::cos(node) + 0.00016 * std::cos(twiceL);
  const double aberration = -0.00569;

  const double longitude = (meanLongitude + centre + perturbation + aberration + nutationLongitude) * kDegree;
  const double meanObliquity = 23.452294 + t * (-0.0130125 + t * (-0.00000164 + t * 0.000000503));
  const double obliquity = (meanObliquity + nutationObliquity) * kDegree;
  const double sinLongitude = std::sin(longitude);
  const double cosObliquity = std::cos(obliquity);
  const double rightAscension = std::atan2(cosObliquity * sinLongitude, std::cos(longitude)) / kDegree;

  const double fromJ2000_d = universal_d - kJ2000FromEpoch1900_d;
  const double centuries = fromJ2000_d / kDaysPerCentury;
  // Whole turns are taken out before the product, so that nothing is lost to its size.
  const double sidereal = 280.46061837 + 360.0 * (fromJ2000_d - std::floor(fromJ2000_d)) + 0.98564736629 * fromJ2000_d +
                          0.000387933 * centuries * centuries + nutationLongitude * cosObliquity;

  Geocentric sun;
  sun.declination = std::asin(std::sin(obliquity) * sinLongitude);
  sun.greenwichHourAngle_deg = wrapped_deg(sidereal - rightAscension);
  const double trueAnomaly = anomaly + centre * kDegree;
  sun.distance_AU = 1.0000002 * (1.0 - eccentricity * eccentricity) / (1.0 + eccentricity * std::cos(trueAnomaly));
  return sun;
}

/// Place and clock day, reduced to what the loop over hours needs.
struct Observer {
  double sinLatitude, cosLatitude;
  double longitude_deg;
  double midnight_d;  ///< universal time of the clock's 0 h, from 1900 January 0.5
};

Observer observerAt(const model::Place& place, const model::Moment& moment) {
  const double latitude = place.latitude.radians();
  const int ordinal = dayNumber(moment.year, moment.month, moment.day);
  return {std::sin(latitude), std::cos(latitude), place.longitude.degrees(),
          daysFromEpoch1900(moment.year, ordinal) - place.utcOffset_h / kHoursPerDay};
}

struct Direction {
  double zenith, azimuth;
};

Direction directionOf(double sinLatitude, double cosLatitude, double declination, double hourAngle) {
  const double sinD = std::sin(declination);
  const double cosD = std::cos(declination);
  const double cosH = std::cos(hourAngle);
  const double east = -cosD * std::sin(hourAngle);
  const double north = cosLatitude * sinD - sinLatitude * cosD * cosH;
  const double up = sinLatitude * sinD + cosLatitude * cosD * cosH;
  const double azimuth = std::atan2(east, north);
  return {std::atan2(std::sqrt(east * east + north * north), up), azimuth < 0.0 ? azimuth + 2.0 * kPi : azimuth};
}

SunPosition positionAt(const Observer& observer, double clock_h) {
  const double universal_d = observer.midnight_d + clock_h / kHoursPerDay;
  const Geocentric sun = geocentric(universal_d);
  const double hourAngle_deg = wrapped_deg(sun.greenwichHourAngle_deg + observer.longitude_deg);
  const Direction direction =
      directionOf(observer.sinLatitude, observer.cosLatitude, sun.declination, hourAngle_deg * kDegree);
  // Day fraction counted from universal noon: the epoch of the days is a noon.
  const double meanHourAngle_deg = 360.0 * (universal_d - std::round(universal_d));
  SunPosition position;
  position.zenith =
      radians(direction.zenith + kSolarParallax_deg * kDegree / sun.distance_AU * std::sin(direction.zenith));
  position.azimuth = radians(direction.azimuth);
  position.declination = radians(sun.declination);
  position.hourAngle = degrees(hourAngle_deg);
  position.equationOfTime_min = 4.0 * wrapped_deg(sun.greenwichHourAngle_deg - meanHourAngle_deg);
  position.distance_AU = sun.distance_AU;
  return position;
}

double noonOf(const Observer& observer) {
  double noon_h = 12.0;
  for (int i = 0; i < 3; ++i) noon_h -= positionAt(observer, noon_h).hourAngle.degrees() / 15.0;
  // The meridian passage of this clock day, not of its neighbours.
  noon_h -= kHoursPerDay * std::floor(noon_h / kHoursPerDay);
  return noon_h - positionAt(observer, noon_h).hourAngle.degrees() / 15.0;
}

/// Hour between from and to at which the sun crosses the zenith distance; it stands on either side at the two ends.
double crossing(const Observer& observer, double from_h, double to_h, double zenithAtRise) {
  const bool upAtFrom = positionAt(observer, from_h).zenith.radians() < zenithAtRise;
  for (int i = 0; i < 40; ++i) {
    const double middle_h = 0.5 * (from_h + to_h);
    const bool up = positionAt(observer, middle_h).zenith.radians() < zenithAtRise;
    (up == upAtFrom ? from_h : to_h) = middle_h;
  }
  return 0.5 * (from_h + to_h);
}

double dayAngle(int dayOfYear) { return (dayOfYear - 1) * 2.0 * kPi / 365.0; }

double clampedToCosine(double rounded) { return std::clamp(rounded, -1.0, 1.0); }

}  // namespace

Result<int> dayOfYear(const model::Moment& moment) {
  if (!exists(moment)) return dateError(moment);
  return dayNumber(moment.year, moment.month, moment.day);
}

Result<SunPosition> sunPosition(const model::Place& place, const model::Moment& moment) {
  if (!exists(moment)) return dateError(moment);
  if (const Result<Done> good = checkPlace(place); !good) return good.error();
  return positionAt(observerAt(place, moment), moment.clock_h);
}

Result<SunDay> sunDay(const model::Place& place, const model::Moment& moment) {
  return sunDay(place, moment, degrees(90.0));
}

Result<SunDay> sunDay(const model::Place& place, const model::Moment& moment, Angle zenithAtRise) {
  if (!exists(moment)) return dateError(moment);
  if (const Result<Done> good = checkPlace(place); !good) return good.error();
  const double limit = zenithAtRise.radians();
  if (!(limit >= 0.0 && limit <= kPi)) return rangeError("zenith_at_rise", limit, 0.0, kPi, Dimension::Angle);
  const Observer observer = observerAt(place, moment);
  SunDay day;
  day.noon_h = noonOf(observer);
  const double before_h = day.noon_h - 12.0;
  const double after_h = day.noon_h + 12.0;
  const auto isUp = [&](double clock_h) { return positionAt(observer, clock_h).zenith.radians() < limit; };
  const bool upBefore = isUp(before_h);
  const bool upAtNoon = isUp(day.noon_h);
  const bool upAfter = isUp(after_h);
  day.neverSets = upBefore && upAtNoon && upAfter;
  day.rises = (upBefore || upAtNoon || upAfter) && !day.neverSets;
  if (upAtNoon) {
    day.rise_h = upBefore ? before_h : crossing(observer, before_h, day.noon_h, limit);
    day.set_h = upAfter ? after_h : crossing(observer, day.noon_h, after_h, limit);
  } else {
    // Only beside a pole at an equinox: the last or first light is not around noon.
    day.rise_h = upBefore ? before_h : (upAfter ? crossing(observer, day.noon_h, after_h, limit) : day.noon_h);
    day.set_h = upBefore ? crossing(observer, before_h, day.noon_h, limit) : (upAfter ? after_h : day.noon_h);
  }
  return day;
}

Angle incidence(Angle zenith, Angle sunAzimuth, Angle tilt, Angle azimuth) {
  const double cosine =
      std::cos(zenith.radians()) * std::cos(tilt.radians()) +
      std::sin(zenith.radians()) * std::sin(tilt.radians()) * std::cos(sunAzimuth.radians() - azimuth.radians());
  return radians(std::acos(clampedToCosine(cosine)));
}

Angle incidence(Angle declination, Angle latitude, Angle tilt, Angle azimuth, Angle hourAngle) {
  const double sinD = std::sin(declination.radians());
  const double cosD = std::cos(declination.radians());
  const double sinF = std::sin(latitude.radians());
  const double cosF = std::cos(latitude.radians());
  const double sinB = std::sin(tilt.radians());
  const double cosB = std::cos(tilt.radians());
  const double gamma = azimuth.radians() - kPi;  // from south, west positive
  const double cosW = std::cos(hourAngle.radians());
  const double cosine = sinD * sinF * cosB - sinD * cosF * sinB * std::cos(gamma) + cosD * cosF * cosB * cosW +
                        cosD * sinF * sinB * std::cos(gamma) * cosW +
                        cosD * sinB * std::sin(gamma) * std::sin(hourAngle.radians());
  return radians(std::acos(clampedToCosine(cosine)));
}

HorizonPlace horizonPlace(Angle latitude, Angle declination, Angle hourAngle) {
  const Direction direction = directionOf(std::sin(latitude.radians()), std::cos(latitude.radians()),
                                          declination.radians(), hourAngle.radians());
  return {radians(direction.zenith), radians(direction.azimuth)};
}

Result<Angle> profileAngle(Angle zenith, Angle sunAzimuth, Angle surfaceAzimuth) {
  if (!(zenith.degrees() < 90.0)) {
    return rangeError("zenith", zenith.radians(), 0.0, kPi / 2, Dimension::Angle);
  }
  const double away = sunAzimuth.radians() - surfaceAzimuth.radians();
  if (!(std::cos(away) > 0.0)) {
    return rangeError("azimuth_from_surface", wrapped_deg(away / kDegree) * kDegree, -kPi / 2, kPi / 2,
                      Dimension::Angle);
  }
  return radians(std::atan2(std::cos(zenith.radians()), std::sin(zenith.radians()) * std::cos(away)));
}

Angle sunsetHourAngle(Angle latitude, Angle declination) {
  const double cosine = -std::tan(latitude.radians()) * std::tan(declination.radians());
  return radians(std::acos(clampedToCosine(cosine)));  // beyond +-1: polar day or night
}

Angle cooperDeclination(int dayOfYear) { return degrees(23.45 * std::sin(2.0 * kPi * (284 + dayOfYear) / 365.0)); }

Angle spencerDeclination(int dayOfYear) {
  const double b = dayAngle(dayOfYear);
  return radians(0.006918 - 0.399912 * std::cos(b) + 0.070257 * std::sin(b) - 0.006758 * std::cos(2.0 * b) +
                 0.000907 * std::sin(2.0 * b) - 0.002697 * std::cos(3.0 * b) + 0.00148 * std::sin(3.0 * b));
}

double spencerEquationOfTime_min(int dayOfYear) {
  const double b = dayAngle(dayOfYear);
  return 229.2 * (0.000075 + 0.001868 * std::cos(b) - 0.032077 * std::sin(b) - 0.014615 * std::cos(2.0 * b) -
                  0.04089 * std::sin(2.0 * b));
}

double solarTime_h(double clock_h, double utcOffset_h, Angle longitude, double equationOfTime_min) {
  return clock_h + (4.0 * (longitude.degrees() - 15.0 * utcOffset_h) + equationOfTime_min) / 60.0;
}

Angle hourAngleOf(double solarTime_h) { return degrees(15.0 * (solarTime_h - 12.0)); }

}  // namespace sunspool::climate
