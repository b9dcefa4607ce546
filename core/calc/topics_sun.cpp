// SPDX-License-Identifier: GPL-3.0-or-later
// Where the sun stands.
#include "core/calc/topic.h"
#include "core/climate/irradiance.h"
#include "core/climate/position.h"
#include "core/climate/sky.h"

namespace sunspool::calc::detail {
namespace {

using namespace climate;

model::Place placeOf(const Values& v) {
  model::Place place;
  place.latitude = as<Angle>(v, "latitude_deg");
  place.longitude = as<Angle>(v, "longitude_deg");
  place.utcOffset_h = number(v, "utc_offset_h");
  return place;
}

model::Moment momentOf(const Values& v, double clock_h) {
  return {wholeNumber(v, "year"), wholeNumber(v, "month"), wholeNumber(v, "day"), clock_h};
}

Result<Answer> position(const Values& v) {
  return sunPosition(placeOf(v), momentOf(v, number(v, "clock_h"))).transform([](const SunPosition& sun) {
    return outputs({{"zenith_deg", sun.zenith.degrees()},
                    {"azimuth_deg", sun.azimuth.degrees()},
                    {"declination_deg", sun.declination.degrees()},
                    {"hour_angle_deg", sun.hourAngle.degrees()},
                    {"equation_of_time_min", sun.equationOfTime_min},
                    {"distance_AU", sun.distance_AU}});
  });
}

Result<Answer> day(const Values& v) {
  return sunDay(placeOf(v), momentOf(v, 12.0), as<Angle>(v, "zenith_at_rise_deg")).transform([](const SunDay& sun) {
    return outputs({{"rise_h", sun.rise_h},
                    {"noon_h", sun.noon_h},
                    {"set_h", sun.set_h},
                    {"rises", sun.rises ? 1.0 : 0.0},
                    {"never_sets", sun.neverSets ? 1.0 : 0.0}});
  });
}

Result<Answer> clearSkyAt(const Values& v) {
  return sunPosition(placeOf(v), momentOf(v, number(v, "clock_h"))).transform([&](const SunPosition& sun) {
    const ClearSky sky = clearSky(sun, as<Length>(v, "altitude_m"), number(v, "linke_turbidity"));
    return outputs({{"global_W_m2", sky.global_W_m2},
                    {"beam_normal_W_m2", sky.beamNormal_W_m2},
                    {"diffuse_W_m2", sky.diffuse_W_m2},
                    {"extraterrestrial_W_m2", sky.extraterrestrialNormal_W_m2},
                    {"air_mass", sky.airMass},
                    {"zenith_deg", sun.zenith.degrees()},
                    {"azimuth_deg", sun.azimuth.degrees()}});
  });
}

Result<Answer> declination(const Values& v) {
  const int n = wholeNumber(v, "day_of_year");
  return outputs({{"cooper_deg", cooperDeclination(n).degrees()}, {"spencer_deg", spencerDeclination(n).degrees()}});
}

Result<Answer> equationOfTime(const Values& v) {
  return outputs({{"equation_of_time_min", spencerEquationOfTime_min(wholeNumber(v, "day_of_year"))}});
}

Result<Answer> solarTime(const Values& v) {
  const double hours = solarTime_h(number(v, "clock_h"), number(v, "utc_offset_h"), as<Angle>(v, "longitude_deg"),
                                   spencerEquationOfTime_min(wholeNumber(v, "day_of_year")));
  return outputs({{"solar_time_h", hours}, {"hour_angle_deg", hourAngleOf(hours).degrees()}});
}

Result<Answer> incidenceOnPlane(const Values& v) {
  const Angle angle = incidence(as<Angle>(v, "declination_deg"), as<Angle>(v, "latitude_deg"), as<Angle>(v, "tilt_deg"),
                                as<Angle>(v, "azimuth_deg"), as<Angle>(v, "hour_angle_deg"));
  return outputs({{"incidence_deg", angle.degrees()}});
}

Result<Answer> incidenceOfPosition(const Values& v) {
  const Angle angle = incidence(as<Angle>(v, "zenith_deg"), as<Angle>(v, "sun_azimuth_deg"), as<Angle>(v, "tilt_deg"),
                                as<Angle>(v, "azimuth_deg"));
  return outputs({{"incidence_deg", angle.degrees()}});
}

Result<Answer> height(const Values& v) {
  const Angle atLatitude = as<Angle>(v, "latitude_deg"), declined = as<Angle>(v, "declination_deg");
  const HorizonPlace sun = horizonPlace(atLatitude, declined, as<Angle>(v, "hour_angle_deg"));
  return outputs({{"zenith_deg", sun.zenith.degrees()},
                  {"azimuth_deg", sun.azimuth.degrees()},
                  {"sunset_hour_angle_deg", sunsetHourAngle(atLatitude, declined).degrees()}});
}

Result<Answer> profile(const Values& v) {
  return profileAngle(as<Angle>(v, "zenith_deg"), as<Angle>(v, "sun_azimuth_deg"), as<Angle>(v, "azimuth_deg"))
      .transform([](Angle angle) {
        return outputs({{"profile_deg", angle.degrees()}});
      });
}

Result<Answer> ratio(const Values& v) {
  return beamRatio(as<Angle>(v, "incidence_deg"), as<Angle>(v, "zenith_deg")).transform([](double value) {
    return outputs({{"beam_ratio", value}});
  });
}

Result<Answer> airMass(const Values& v) {
  const double pressure = pressureRatio(as<Length>(v, "altitude_m"));
  return relativeAirMass(as<Angle>(v, "zenith_deg")).transform([&](double relative) {
    return outputs({{"relative_air_mass", relative}, {"pressure_ratio", pressure}});
  });
}

Result<Answer> skyTemperatures(const Values& v) {
  const auto air = as<Temperature>(v, "air_C"), dew = as<Temperature>(v, "dew_point_C");
  const double hour = number(v, "solar_time_h");
  return outputs({{"emissivity", skyEmissivity(dew, hour)},
                  {"berdahl_martin_C", skyTemperature(air, dew, hour).inCelsius()},
                  {"swinbank_C", swinbankSkyTemperature(air).inCelsius()}});
}

Input longitude() { return input("longitude_deg", "longitude, east positive", -180.0, 180.0); }
Input utcOffset() { return input("utc_offset_h", "clock ahead of universal time", -12.0, 14.0); }
Input clock() { return input("clock_h", "hour of the clock", 0.0, 23.999999999); }
Input year() { return whole("year", "year", 1950.0, 2100.0); }
Input month() { return whole("month", "month", 1.0, 12.0); }
Input dayOfMonth() { return whole("day", "day of the month", 1.0, 31.0); }
Input declinationInput() { return input("declination_deg", "declination of the sun", -23.5, 23.5); }
Input hourAngle() {
  return input("hour_angle_deg", "15 degrees an hour from solar noon, afternoon positive", -180.0, 180.0);
}
Input facing() { return input("azimuth_deg", "facing of the plane, from north clockwise", -360.0, 360.0); }
Input sunAzimuth() { return input("sun_azimuth_deg", "direction of the sun, from north clockwise", -360.0, 360.0); }

constexpr std::string_view kPositionSource = "[Meeus1982] chapter 18; [Meeus1998] chapter 12; [EspenakMeeus2006]";

}  // namespace

std::vector<Topic> sunTopics() {
  return {
      {"sun-position",
       "where the sun stands at a place and moment",
       {latitude(), longitude(), utcOffset(), year(), month(), dayOfMonth(), clock()},
       {"zenith_deg", "azimuth_deg", "declination_deg", "hour_angle_deg", "equation_of_time_min", "distance_AU"},
       position,
       "mean elements, equation of the centre, perturbations, nutation, aberration, parallax",
       kPositionSource,
       "1950 to 2100; 0.006 degree from 2000 to 2050; without refraction; azimuth from north, clockwise"},
      {"sun-day",
       "rise, noon and set on the clock",
       {latitude(), longitude(), utcOffset(), year(), month(), dayOfMonth(),
        input("zenith_at_rise_deg", "angle from overhead at rise; 90 is geometric", 80.0, 110.0,
              kZenithAtVisibleRise_deg)},
       {"rise_h", "noon_h", "set_h", "rises", "never_sets"},
       day,
       "sun at that angle from overhead",
       kPositionSource,
       "1950 to 2100; rises and never_sets are 1 or 0; without a rise, rise and set stand 12 h from noon (polar day) "
       "or "
       "at noon (polar night)"},
      {"clear-sky-at",
       "clear sky at a place and moment, as the engine uses it",
       {latitude(), longitude(), utcOffset(), year(), month(), dayOfMonth(), clock(),
        input("altitude_m", "altitude over the sea", -430.0, 5000.0, 0.0),
        input("linke_turbidity", "haze, 2 mountain air to 6 haze", 1.0, 10.0, 3.0)},
       {"global_W_m2", "beam_normal_W_m2", "diffuse_W_m2", "extraterrestrial_W_m2", "air_mass", "zenith_deg",
        "azimuth_deg"},
       clearSkyAt,
       "see sun-position, air-mass and clear-sky",
       "[IneichenPerez2002]; [KastenYoung1989]; [ISO2533]",
       "fitted for 0 to about 3000 m"},
      {"declination",
       "declination of the sun by the handbooks",
       {dayOfYear()},
       {"cooper_deg", "spencer_deg"},
       declination,
       "Cooper: 23.45 deg sin(360 (284 + n)/365); Spencer: series in B = (n - 1) 360/365",
       "[DB] eq. 1.6.1a and 1.6.1b, constants of the latter from memory",
       "the two differ by up to 1.4 degrees"},
      {"equation-of-time",
       "solar less clock time by the handbooks",
       {dayOfYear()},
       {"equation_of_time_min"},
       equationOfTime,
       "229.2 (0.000075 + 0.001868 cos B - 0.032077 sin B - 0.014615 cos 2B - 0.04089 sin 2B), B = (n - 1) 360/365",
       "[DB] eq. 1.5.3",
       "within 0.8 min"},
      {"solar-time",
       "solar time of a clock",
       {clock(), utcOffset(), longitude(), dayOfYear()},
       {"solar_time_h", "hour_angle_deg"},
       solarTime,
       "clock + 4 min per degree east of the clock's meridian + equation of time",
       "[DB] eq. 1.5.2 and 1.5.3",
       "longitude east positive; not wrapped at midnight"},
      {"incidence",
       "angle between the beam and the normal of a plane",
       {declinationInput(), latitude(), tilt(), facing(), hourAngle()},
       {"incidence_deg"},
       incidenceOnPlane,
       "cos i = sin d sin L cos b - sin d cos L sin b cos g + cos d cos L cos b cos w + cos d sin L sin b cos g cos w "
       "+ cos d sin b sin g sin w",
       "[DB] eq. 1.6.2",
       "facing here from north clockwise, 180 degrees more than g; above 90 the sun is behind"},
      {"incidence-of-position",
       "angle between the beam and the normal of a plane, from the sun's place",
       {zenith(), sunAzimuth(), tilt(), facing()},
       {"incidence_deg"},
       incidenceOfPosition,
       "cos i = cos z cos b + sin z sin b cos(azimuth of sun - azimuth of plane)",
       "[DB] eq. 1.6.3",
       "above 90 the sun is behind the plane"},
      {"sun-height",
       "zenith angle and direction of the sun from declination and hour angle",
       {latitude(), declinationInput(), hourAngle()},
       {"zenith_deg", "azimuth_deg", "sunset_hour_angle_deg"},
       height,
       "cos z = cos L cos d cos w + sin L sin d; cos ws = -tan L tan d",
       "[DB] eq. 1.6.5, 1.6.6 and 1.6.10",
       "azimuth from north, clockwise; sunset 0 in polar night, 180 in polar day"},
      {"profile-angle",
       "elevation of the sun projected on the vertical plane along a surface's normal",
       {zenith(), sunAzimuth(), facing()},
       {"profile_deg"},
       profile,
       "tan p = tan(elevation)/cos(azimuth difference)",
       "[DB] eq. 1.6.12",
       "sun above the horizon and in front of the surface"},
      {"beam-ratio",
       "beam on a plane over beam on the horizontal",
       {input("incidence_deg", "angle between beam and normal", 0.0, 180.0), zenith()},
       {"beam_ratio"},
       ratio,
       "cos i/cos z",
       "[DB] eq. 1.8.1",
       "sun above the horizon; 0 behind the plane"},
      {"air-mass",
       "optical air mass, and the share of the sea's air pressure",
       {zenith(), input("altitude_m", "altitude over the sea", -430.0, 11000.0, 0.0)},
       {"relative_air_mass", "pressure_ratio"},
       airMass,
       "m = 1/(cos z + 0.50572 (96.07995 - z)^-1.6364)",
       "[KastenYoung1989]; [ISO2533]",
       "zenith 0 to 90 degrees"},
      {"sky-temperature",
       "how cold a clear sky looks",
       {temperature("air_C", "air temperature"), temperature("dew_point_C", "dew point of the air"),
        input("solar_time_h", "hour from midnight", 0.0, 24.0, 12.0)},
       {"emissivity", "berdahl_martin_C", "swinbank_C"},
       skyTemperatures,
       "e = 0.711 + 0.0056 t + 0.000073 t^2 + 0.013 cos 15h, T = T_air e^0.25; Swinbank: 0.0552 T^1.5",
       "[BerdahlMartin1984]; [DB] eq. 3.9.2",
       "clear sky near sea level; dew points -20 to 30 C"},
  };
}

}  // namespace sunspool::calc::detail
