// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/irradiance.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/core/climate/support.h"

using namespace sunspool;
using namespace sunspool::climate;
using namespace sunspool::climate_test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kMegajoule = 1e6;

SunPosition sunAt(double zenith_deg, double azimuth_deg) {
  SunPosition sun;
  sun.zenith = degrees(zenith_deg);
  sun.azimuth = degrees(azimuth_deg);
  return sun;
}

/// Sky from measured global and diffuse.
ClearSky skyOf(double global_W_m2, double diffuse_W_m2, double zenith_deg, int day) {
  ClearSky sky;
  sky.global_W_m2 = global_W_m2;
  sky.diffuse_W_m2 = diffuse_W_m2;
  sky.beamNormal_W_m2 = (global_W_m2 - diffuse_W_m2) / std::cos(degrees(zenith_deg).radians());
  sky.extraterrestrialNormal_W_m2 = extraterrestrialNormalSimple_W_m2(day);
  return sky;
}

PlaneIrradiance planeAt(const model::Place& place, const model::Moment& moment, double tilt_deg, double azimuth_deg,
                        SkyModel model) {
  const Result<SunPosition> sun = sunPosition(place, moment);
  REQUIRE(sun);
  return onPlane(*sun, clearSky(*sun, metres(0.0), 3.0), degrees(tilt_deg), degrees(azimuth_deg), 0.2, model);
}

double dayTotal_kWh_m2(const model::Place& place, int month, int day, double tilt_deg, double azimuth_deg) {
  double sum_Wh = 0.0;
  for (double hour = 0.125; hour < 24.0; hour += 0.25) {
    sum_Wh += 0.25 * planeAt(place, at(2025, month, day, hour), tilt_deg, azimuth_deg, SkyModel::Perez).total_W_m2;
  }
  return sum_Wh / 1000.0;
}

}  // namespace

TEST_CASE("Air mass of Kasten and Young", "[climate][reference]") {
  // Kasten & Young (1989); values as in the tests of pvlib-python: 5.586 at 80 degrees, 1.000 overhead.
  CHECK_THAT(*relativeAirMass(degrees(80.0)), WithinAbs(5.586, 1e-3));
  CHECK_THAT(*relativeAirMass(degrees(0.0)), WithinAbs(1.000, 1e-3));
  CHECK(*relativeAirMass(degrees(90.0)) > 37.0);
  CHECK_FALSE(relativeAirMass(degrees(90.5)));
}

TEST_CASE("The standard atmosphere thins out as tabulated", "[climate][reference]") {
  // ISO 2533 (from memory), geopotential heights: 79 495 Pa at 2000 m, 54 020 Pa at 5000 m, 22 632 Pa at 11 000 m.
  CHECK(pressureRatio(metres(0.0)) == 1.0);
  CHECK_THAT(pressureRatio(metres(2000.0)), WithinRel(79495.0 / 101325.0, 1e-4));
  CHECK_THAT(pressureRatio(metres(5000.0)), WithinRel(54020.0 / 101325.0, 1e-4));
  CHECK_THAT(pressureRatio(metres(11000.0)), WithinRel(22632.0 / 101325.0, 1e-4));
  CHECK_THAT(pressureRatio(metres(11001.0)), WithinRel(pressureRatio(metres(10999.0)), 1e-3));
}

TEST_CASE("Irradiance outside the air", "[climate][reference]") {
  // Spencer's form with 1366.1 on day 300, as in the tests of pvlib-python; the simple form evaluated.
  CHECK_THAT(extraterrestrialNormalSpencer_W_m2(300, 1366.1), WithinAbs(1383.636203, 1e-6));
  CHECK_THAT(extraterrestrialNormalSimple_W_m2(105), WithinAbs(1356.42, 0.005));
}

TEST_CASE("A day's and an hour's sum outside the air", "[climate][reference]") {
  // Duffie & Beckman Ex. 1.10.1: latitude 43, 15 April -> 33.8 MJ/m2. Ex. 1.10.2: 10 to 11 h -> 3.79 (from memory).
  CHECK_THAT(dailyExtraterrestrial_J_m2(degrees(43.0), 105) / kMegajoule, WithinAbs(33.8, 0.05));
  CHECK_THAT(extraterrestrialBetween_J_m2(degrees(43.0), 105, degrees(-30.0), degrees(-15.0)) / kMegajoule,
             WithinAbs(3.79, 0.005));
  CHECK(dailyExtraterrestrial_J_m2(degrees(80.0), 355) == 0.0);
}

TEST_CASE("Monthly sums outside the air agree with the handbook's table", "[climate][reference]") {
  const auto rows = referenceRows("monthly_extraterrestrial.csv");
  REQUIRE(rows.size() == 36);
  for (const auto& row : rows) {
    INFO("latitude " << row[0] << " day " << row[1]);
    // Cooper's declination on the month's mean day against the table's monthly mean: up to 0.33 apart.
    CHECK_THAT(dailyExtraterrestrial_J_m2(degrees(row[0]), static_cast<int>(row[1])) / kMegajoule,
               WithinAbs(row[2], 0.45));
  }
}

TEST_CASE("Hottel's clear beam over Madison on 22 August", "[climate][reference]") {
  // Duffie & Beckman Ex. 2.8.1 (book values from memory: 0.62, 830, 702 W/m2): latitude 43, 270 m, day 234, 11:30
  // solar.
  const HorizonPlace sun = horizonPlace(degrees(43.0), cooperDeclination(234), hourAngleOf(11.5));
  const Result<double> tau = hottelBeamTransmittance(sun.zenith, metres(270.0), HottelClimate::MidLatitudeSummer);
  REQUIRE(tau);
  CHECK_THAT(*tau, WithinAbs(0.62, 0.005));
  CHECK_THAT(*tau, WithinAbs(0.61979, 5e-5));
  const double normal_W_m2 = *tau * extraterrestrialNormalSimple_W_m2(234);
  CHECK_THAT(normal_W_m2, WithinAbs(829.6, 0.1));
  CHECK_THAT(normal_W_m2 * std::cos(sun.zenith.radians()), WithinAbs(701.5, 0.1));
  CHECK_THAT(liuJordanDiffuseTransmittance(*tau), WithinAbs(0.271 - 0.294 * 0.61979, 2e-5));
  CHECK_FALSE(hottelBeamTransmittance(sun.zenith, metres(2600.0), HottelClimate::Tropical));
  CHECK(*hottelBeamTransmittance(degrees(95.0), metres(0.0), HottelClimate::Tropical) == 0.0);
}

TEST_CASE("Haurwitz' clear global", "[climate][reference]") {
  // As in the tests of pvlib-python: elevation 10 -> 135.741748, 50 -> 778.766689 W/m2.
  CHECK_THAT(haurwitzGlobal_W_m2(degrees(80.0)), WithinAbs(135.741748, 1e-5));
  CHECK_THAT(haurwitzGlobal_W_m2(degrees(40.0)), WithinAbs(778.766689, 1e-5));
  CHECK(haurwitzGlobal_W_m2(degrees(90.0)) < 1e-9);
}

TEST_CASE("Clear sky of Ineichen and Perez", "[climate][reference]") {
  // As in the tests of pvlib-python: zenith 10, air mass 1, turbidity 3, sea level, 1364 W/m2 outside.
  const ClearSky sky = ineichenPerez(degrees(10.0), 1.0, metres(0.0), 3.0, 1364.0);
  CHECK_THAT(sky.global_W_m2, WithinAbs(1038.159219, 1e-5));
  CHECK_THAT(sky.beamNormal_W_m2, WithinAbs(942.208186, 1e-5));
  CHECK_THAT(sky.diffuse_W_m2, WithinAbs(110.265293, 1e-5));
}

TEST_CASE("A clear sky adds up, never exceeds what comes from outside and is dark at night", "[climate][property]") {
  for (double zenith = 0.0; zenith <= 120.0; zenith += 0.5) {
    for (const double turbidity : {1.0, 2.0, 3.5, 7.0}) {
      for (const double altitude : {0.0, 500.0, 3000.0}) {
        const ClearSky sky = clearSky(sunAt(zenith, 180.0), metres(altitude), turbidity);
        INFO("zenith " << zenith << " turbidity " << turbidity << " altitude " << altitude);
        const double cosine = std::cos(degrees(zenith).radians());
        CHECK(sky.extraterrestrialNormal_W_m2 == kSolarConstant_W_m2);
        if (zenith >= 90.0) {
          CHECK((sky.global_W_m2 == 0.0 && sky.beamNormal_W_m2 == 0.0 && sky.diffuse_W_m2 == 0.0));
        } else {
          CHECK_THAT(sky.global_W_m2, WithinAbs(sky.beamNormal_W_m2 * cosine + sky.diffuse_W_m2, 1e-9));
          CHECK((sky.diffuse_W_m2 >= 0.0 && sky.beamNormal_W_m2 >= 0.0));
          CHECK(sky.beamNormal_W_m2 < kSolarConstant_W_m2);
          CHECK(sky.airMass > 0.0);
        }
      }
    }
  }
}

TEST_CASE("Erbs' diffuse part of an hour", "[climate][reference]") {
  // As in the tests of pvlib-python: global 1000, zenith 10, day 1, Spencer with 1366.1.
  const double outside = extraterrestrialNormalSpencer_W_m2(1, 1366.1) * std::cos(degrees(10.0).radians());
  const double clearness = 1000.0 / outside;
  CHECK_THAT(clearness, WithinAbs(0.718132729, 1e-8));
  const Result<double> share = erbsDiffuseFraction(clearness);
  REQUIRE(share);
  CHECK_THAT(1000.0 * *share, WithinAbs(217.860117, 1e-5));
  CHECK_THAT((1000.0 - 1000.0 * *share) / std::cos(degrees(10.0).radians()), WithinAbs(794.205651, 1e-5));
  // Evaluated from the equation.
  CHECK_THAT(*erbsDiffuseFraction(0.4), WithinAbs(0.83999, 5.1e-6));
  CHECK_THAT(*erbsDiffuseFraction(0.6), WithinAbs(0.43948, 5.1e-6));
  CHECK_FALSE(erbsDiffuseFraction(-0.1));
}

TEST_CASE("Erbs' diffuse part of a month", "[climate][reference]") {
  // Evaluated from Erbs, Klein & Duffie (1982), constants from memory; confirmed by the monthly example below.
  CHECK_THAT(*erbsMonthlyDiffuseFraction(0.5, degrees(80.0)), WithinAbs(0.39113, 5.1e-6));
  CHECK_THAT(*erbsMonthlyDiffuseFraction(0.5, degrees(90.0)), WithinAbs(0.42913, 5.1e-6));
  CHECK_FALSE(erbsMonthlyDiffuseFraction(0.29, degrees(90.0)));
  CHECK_FALSE(erbsMonthlyDiffuseFraction(0.81, degrees(90.0)));
}

TEST_CASE("Hours' share of a day's sum", "[climate][reference]") {
  // Duffie & Beckman Ex. 2.13.1: Melbourne -38, day 17, 8 to 9 h: r_t 0.076 (from memory); r_d evaluated 0.0785.
  const Angle sunset = sunsetHourAngle(degrees(-38.0), cooperDeclination(17));
  CHECK_THAT(sunset.degrees(), WithinAbs(107.37, 0.005));
  CHECK_THAT(hourlyGlobalShare(degrees(-52.5), sunset), WithinAbs(0.0759, 5.1e-5));
  CHECK_THAT(hourlyDiffuseShare(degrees(-52.5), sunset), WithinAbs(0.0785, 5.1e-5));
  // Latitude 40, day 15, evaluated from Collares-Pereira & Rabl (1979).
  const Angle winter = sunsetHourAngle(degrees(40.0), cooperDeclination(15));
  const double expected[] = {0.17215, 0.14908, 0.10809, 0.05815, 0.00980};
  double sum = 0.0;
  for (int i = 0; i < 5; ++i) {
    const double share = hourlyGlobalShare(degrees(7.5 + 15.0 * i), winter);
    CHECK_THAT(share, WithinAbs(expected[i], 1.1e-5));
    sum += 2.0 * share;
  }
  CHECK_THAT(sum, WithinAbs(0.9945, 1e-4));
  CHECK(hourlyGlobalShare(degrees(90.0), winter) == 0.0);
  CHECK(hourlyDiffuseShare(degrees(0.0), degrees(0.0)) == 0.0);
}

TEST_CASE("Beam ratio of the handbook's examples", "[climate][reference]") {
  // Duffie & Beckman Ex. 1.8.1: data of Ex. 1.6.1 -> 1.66. Ex. 1.8.2: latitude 40, 16 February, 9 to 10 h, 30 -> 1.61.
  const auto ratio = [](Angle latitude, Angle declination, Angle hourAngle, Angle tilt, Angle azimuth) {
    return beamRatio(incidence(declination, latitude, tilt, azimuth, hourAngle),
                     horizonPlace(latitude, declination, hourAngle).zenith);
  };
  CHECK_THAT(*ratio(degrees(43.0), cooperDeclination(44), degrees(-22.5), degrees(45.0), degrees(195.0)),
             WithinAbs(1.66, 0.006));
  CHECK_THAT(*ratio(degrees(40.0), cooperDeclination(47), degrees(-37.5), degrees(30.0), degrees(180.0)),
             WithinAbs(1.61, 0.005));
  CHECK_FALSE(beamRatio(degrees(10.0), degrees(90.0)));
}

TEST_CASE("Isotropic sky and ground", "[climate][reference]") {
  // As in the tests of pvlib-python: sky 88.302222 at 40 degrees and diffuse 100; ground 26.32 for global 900 and 0.25.
  ClearSky sky;
  sky.diffuse_W_m2 = 100.0;
  sky.global_W_m2 = 900.0;
  const PlaneIrradiance plane =
      onPlane(sunAt(20.0, 180.0), sky, degrees(40.0), degrees(180.0), 0.25, SkyModel::Isotropic);
  CHECK_THAT(plane.sky_W_m2, WithinAbs(88.302222, 1e-6));
  CHECK_THAT(plane.ground_W_m2, WithinAbs(26.320000, 1e-6));
}

TEST_CASE("Isotropic hour of the handbook with a bright ground", "[climate][reference]") {
  // Duffie & Beckman Ex. 2.15.1: latitude 40, 60 degrees south, 20 February 9 to 10 h, I = 1.04 MJ/m2, ground 0.60:
  // I0 2.34, kt 0.445, Id 0.796, Ib 0.244, Rb 1.71, total 1.171 (0.418 + 0.597 + 0.156).
  const int day = 51;
  const Angle latitude = degrees(40.0);
  const double outside = extraterrestrialBetween_J_m2(latitude, day, degrees(-45.0), degrees(-30.0)) / kMegajoule;
  CHECK_THAT(outside, WithinAbs(2.335, 0.003));
  const double clearness = 1.04 / outside;
  const double diffuse = 1.04 * *erbsDiffuseFraction(clearness);
  CHECK_THAT(diffuse, WithinAbs(0.796, 0.001));
  const HorizonPlace place = horizonPlace(latitude, cooperDeclination(day), degrees(-37.5));
  CHECK_THAT(place.zenith.degrees(), WithinAbs(62.20, 0.05));
  const Angle angle = incidence(place.zenith, place.azimuth, degrees(60.0), degrees(180.0));
  CHECK_THAT(angle.degrees(), WithinAbs(36.97, 0.05));
  CHECK_THAT(*beamRatio(angle, place.zenith), WithinAbs(1.713, 0.003));
  SunPosition sun;
  sun.zenith = place.zenith;
  sun.azimuth = place.azimuth;
  ClearSky sky;
  sky.global_W_m2 = 1.04e6;  // J/m2 of the hour in the place of W/m2: the model is linear
  sky.diffuse_W_m2 = diffuse * 1e6;
  sky.beamNormal_W_m2 = (1.04 - diffuse) * 1e6 / std::cos(place.zenith.radians());
  const PlaneIrradiance plane = onPlane(sun, sky, degrees(60.0), degrees(180.0), 0.60, SkyModel::Isotropic);
  CHECK_THAT(plane.beam_W_m2 / 1e6, WithinAbs(0.418, 0.001));
  CHECK_THAT(plane.sky_W_m2 / 1e6, WithinAbs(0.597, 0.001));
  CHECK_THAT(plane.ground_W_m2 / 1e6, WithinAbs(0.156, 0.0005));
  CHECK_THAT(plane.total_W_m2 / 1e6, WithinAbs(1.171, 0.002));
}

TEST_CASE("Klucher's sky", "[climate][reference]") {
  // As in the tests of pvlib-python: 40 degrees south, diffuse 100, global 900, sun 20 degrees from the zenith in the
  // south.
  CHECK_THAT(klucherSky_W_m2(100.0, 900.0, degrees(20.0), degrees(20.0), degrees(40.0)), WithinAbs(94.994299, 1e-5));
  CHECK(klucherSky_W_m2(0.0, 0.0, degrees(20.0), degrees(20.0), degrees(40.0)) == 0.0);
}

TEST_CASE("Isotropic, HDKR and Perez sky on two planes", "[climate][reference]") {
  // Evaluated from the equations; coefficients Perez et al., Solar Energy 44 (1990) 271, Table 6; HDKR form from
  // memory.
  struct Case {
    double global, diffuse, zenith, azimuth, tilt;
    int day;
    double normal, incidence, beam, ground, isotropic, hdkr, perez;
    int bin;
  };
  const Case cases[] = {{800, 120, 30, 160, 30, 172, 785.196, 9.962, 773.358, 10.718, 111.962, 127.242, 133.129, 8},
                        {250, 180, 62, 140, 45, 335, 149.104, 35.881, 120.810, 7.322, 153.640, 174.361, 189.890, 3}};
  for (const Case& c : cases) {
    const SunPosition sun = sunAt(c.zenith, c.azimuth);
    const ClearSky sky = skyOf(c.global, c.diffuse, c.zenith, c.day);
    CHECK_THAT(sky.beamNormal_W_m2, WithinAbs(c.normal, 1e-3));
    const auto plane = [&](SkyModel model) { return onPlane(sun, sky, degrees(c.tilt), degrees(180.0), 0.2, model); };
    const PlaneIrradiance perez = plane(SkyModel::Perez);
    CHECK_THAT(perez.incidence.degrees(), WithinAbs(c.incidence, 1e-3));
    CHECK_THAT(perez.beam_W_m2, WithinAbs(c.beam, 1e-3));
    CHECK_THAT(perez.ground_W_m2, WithinAbs(c.ground, 1e-3));
    CHECK_THAT(plane(SkyModel::Isotropic).sky_W_m2, WithinAbs(c.isotropic, 1e-3));
    CHECK_THAT(plane(SkyModel::Hdkr).sky_W_m2, WithinAbs(c.hdkr, 1e-3));
    CHECK_THAT(perez.sky_W_m2, WithinAbs(c.perez, 1e-3));
    CHECK(perezBrightness(sun.zenith, c.diffuse, sky.beamNormal_W_m2, sky.extraterrestrialNormal_W_m2).bin == c.bin);
  }
  const ClearSky first = skyOf(800, 120, 30, 172);
  const PerezBrightness bright =
      perezBrightness(degrees(30.0), 120.0, first.beamNormal_W_m2, first.extraterrestrialNormal_W_m2);
  CHECK_THAT(bright.circumsolar, WithinAbs(0.5129, 5.1e-5));
  CHECK_THAT(bright.horizon, WithinAbs(0.1433, 5.1e-5));
}

TEST_CASE("Monthly sums on a plane at Madison", "[climate][reference]") {
  // Duffie & Beckman Ex. 2.19.1: latitude 43, 60 degrees south; published sums to 0.1 MJ/m2, Rb and f evaluated.
  struct Month {
    int day;
    double ground, outside, horizontal, published, ratio, diffuse;
  };
  const Month months[] = {{17, 0.7, 13.37, 6.44, 13.7, 2.788, 0.409},   {75, 0.4, 26.03, 12.86, 15.8, 1.419, 0.435},
                          {135, 0.2, 39.42, 21.36, 16.6, 0.711, 0.390}, {198, 0.2, 40.56, 22.58, 16.8, 0.657, 0.376},
                          {258, 0.2, 28.80, 14.59, 15.6, 1.214, 0.423}, {318, 0.2, 14.62, 6.37, 11.4, 2.565, 0.458}};
  for (const Month& m : months) {
    INFO("day " << m.day);
    const Result<MonthlyTilt> found =
        kleinMonthly(degrees(43.0), m.day, degrees(60.0), m.horizontal * kMegajoule, m.ground);
    REQUIRE(found);
    CHECK_THAT(found->extraterrestrial_J_m2 / kMegajoule, WithinAbs(m.outside, 0.011));
    CHECK_THAT(found->beamRatio, WithinAbs(m.ratio, 5.1e-4));
    CHECK_THAT(found->diffuseFraction, WithinAbs(m.diffuse, 1e-3));
    CHECK_THAT(found->onPlane_J_m2 / kMegajoule, WithinAbs(m.published, 0.06));
  }
  const Result<MonthlyTilt> dark = kleinMonthly(degrees(80.0), 344, degrees(60.0), 1.0, 0.2);
  REQUIRE_FALSE(dark);
  CHECK(dark.error().code == ErrorCode::SunNeverRises);
}

TEST_CASE("A month in the south mirrors the same declination in the north", "[climate][property]") {
  // At declination 0 (day 81 in Cooper's form) all of Klein's factors agree at the mirrored latitude.
  const double horizontal = 14.0 * kMegajoule;
  const Result<MonthlyTilt> north = kleinMonthly(degrees(35.0), 81, degrees(45.0), horizontal, 0.2);
  const Result<MonthlyTilt> south = kleinMonthly(degrees(-35.0), 81, degrees(45.0), horizontal, 0.2);
  REQUIRE((north && south));
  CHECK_THAT(north->beamRatio, WithinRel(south->beamRatio, 1e-9));
  CHECK_THAT(north->onPlane_J_m2, WithinRel(south->onPlane_J_m2, 1e-9));
}

TEST_CASE("A horizontal plane receives the global irradiance in every sky model", "[climate][property]") {
  for (double zenith = 0.0; zenith < 85.0; zenith += 1.0) {
    const SunPosition sun = sunAt(zenith, 123.0);
    const ClearSky sky = clearSky(sun, metres(200.0), 3.0);
    for (const SkyModel model : {SkyModel::Isotropic, SkyModel::Hdkr, SkyModel::Perez}) {
      CHECK_THAT(onPlane(sun, sky, degrees(0.0), degrees(77.0), 0.3, model).total_W_m2,
                 WithinRel(sky.global_W_m2, 1e-12));
    }
  }
}

TEST_CASE("Every part on any plane is finite and not negative, at the horizon and below it too",
          "[climate][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  for (int i = 0; i < 5000; ++i) {
    SunPosition sun =
        sunAt(i < 1000 ? uniform(random, 89.0, 91.0) : uniform(random, 0.0, 180.0), uniform(random, 0, 360));
    const ClearSky sky = clearSky(sun, metres(uniform(random, 0, 4000)), uniform(random, 1, 8));
    const Angle tilt = degrees(uniform(random, 0, 90));
    const Angle azimuth = degrees(uniform(random, 0, 360));
    for (const SkyModel model : {SkyModel::Isotropic, SkyModel::Hdkr, SkyModel::Perez}) {
      const PlaneIrradiance plane = onPlane(sun, sky, tilt, azimuth, 0.2, model);
      INFO("zenith " << sun.zenith.degrees() << " tilt " << tilt.degrees());
      CHECK((plane.beam_W_m2 >= 0.0 && plane.sky_W_m2 >= 0.0 && plane.ground_W_m2 >= 0.0));
      CHECK((std::isfinite(plane.total_W_m2) && plane.total_W_m2 < 1500.0));
      if (sun.zenith.degrees() >= 90.0) CHECK(plane.total_W_m2 == 0.0);
    }
  }
}

TEST_CASE("A panel facing east peaks before solar noon and one facing west after", "[climate][property]") {
  for (const double latitude : {41.15, -33.0}) {
    const model::Place place = placeAt(latitude, 0.0, 0.0);
    const Result<SunDay> day = sunDay(place, at(2025, 6, 21, 12.0));
    REQUIRE(day);
    const auto peakHour = [&](double azimuth_deg) {
      double best_h = 0.0;
      double best_W_m2 = -1.0;
      for (double hour = 0.0; hour < 24.0; hour += 0.1) {
        const double total = planeAt(place, at(2025, 6, 21, hour), 40.0, azimuth_deg, SkyModel::Perez).total_W_m2;
        if (total > best_W_m2) {
          best_W_m2 = total;
          best_h = hour;
        }
      }
      return best_h;
    };
    CHECK(peakHour(90.0) < day->noon_h - 0.5);
    CHECK(peakHour(270.0) > day->noon_h + 0.5);
  }
}

TEST_CASE("At 33 degrees south a day of June gives less than one of December", "[climate][property]") {
  const model::Place mendoza = placeAt(-32.9, -68.8, -3.0);
  const double june = dayTotal_kWh_m2(mendoza, 6, 21, 25.0, 0.0);
  const double december = dayTotal_kWh_m2(mendoza, 12, 21, 25.0, 0.0);
  CHECK(june < december);
  CHECK(june > 2.0);
  // Facing the pole instead loses most of the winter sun.
  CHECK(dayTotal_kWh_m2(mendoza, 6, 21, 25.0, 180.0) < 0.7 * june);
}
