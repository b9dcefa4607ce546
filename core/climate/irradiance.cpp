// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/irradiance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sunspool::climate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kDegree = kPi / 180.0;
constexpr double kSecondsPerDay = 86400.0;

Error outOfRange(const char* where, double found, double lowest, double highest, Dimension dimension) {
  if (!std::isfinite(found)) return {ErrorCode::NotFinite, where, "", {}};
  return {ErrorCode::OutOfRange,
          where,
          "",
          {{"found", found, dimension}, {"lowest", lowest, dimension}, {"highest", highest, dimension}}};
}

double relativeAirMassOf(double zenith_rad) {
  return 1.0 / (std::cos(zenith_rad) + 0.50572 * std::pow(96.07995 - zenith_rad / kDegree, -1.6364));
}

double cube(double x) { return x * x * x; }

/// View of the sky dome from a tilted plane; the ground fills the rest.
double skyView(Angle tilt) { return 0.5 * (1.0 + std::cos(tilt.radians())); }

double hdkrSky(double zenith, double cosIncidence, const ClearSky& sky, double diffuse, Angle tilt) {
  static const double kLowestCosZenith = std::cos(89.0 * kDegree);
  const double cosZenith = std::cos(zenith);
  if (sky.extraterrestrialNormal_W_m2 <= 0.0) return diffuse * skyView(tilt);
  const double beam = sky.beamNormal_W_m2 * std::max(cosZenith, 0.0);
  const double anisotropy = sky.beamNormal_W_m2 / sky.extraterrestrialNormal_W_m2;
  const double global = beam + diffuse;
  const double brightening = global > 0.0 ? std::sqrt(beam / global) : 0.0;
  const double ratio = std::max(cosIncidence, 0.0) / std::max(cosZenith, kLowestCosZenith);
  return diffuse * (anisotropy * ratio +
                    (1.0 - anisotropy) * skyView(tilt) * (1.0 + brightening * cube(std::sin(0.5 * tilt.radians()))));
}

double perezSky(Angle zenith, double cosIncidence, const ClearSky& sky, double diffuse, Angle tilt) {
  static const double kLowestCosZenith = std::cos(85.0 * kDegree);
  if (sky.extraterrestrialNormal_W_m2 <= 0.0) return diffuse * skyView(tilt);
  const PerezBrightness bright = perezBrightness(zenith, diffuse, sky.beamNormal_W_m2, sky.extraterrestrialNormal_W_m2);
  const double ratio = std::max(cosIncidence, 0.0) / std::max(std::cos(zenith.radians()), kLowestCosZenith);
  // A strongly negative horizon term must not make the sky shine less than nothing.
  return std::max(0.0, diffuse * ((1.0 - bright.circumsolar) * skyView(tilt) + bright.circumsolar * ratio +
                                  bright.horizon * std::sin(tilt.radians())));
}

}  // namespace

double extraterrestrialNormalSimple_W_m2(int dayOfYear, double solarConstant_W_m2) {
  return solarConstant_W_m2 * (1.0 + 0.033 * std::cos(2.0 * kPi * dayOfYear / 365.0));
}

double extraterrestrialNormalSpencer_W_m2(int dayOfYear, double solarConstant_W_m2) {
  const double b = 2.0 * kPi * (dayOfYear - 1) / 365.0;
  return solarConstant_W_m2 * (1.000110 + 0.034221 * std::cos(b) + 0.001280 * std::sin(b) +
                               0.000719 * std::cos(2.0 * b) + 0.000077 * std::sin(2.0 * b));
}

double extraterrestrialBetween_J_m2(Angle latitude, int dayOfYear, Angle from, Angle to, double solarConstant_W_m2) {
  const double f = latitude.radians();
  const double d = cooperDeclination(dayOfYear).radians();
  return kSecondsPerDay / (2.0 * kPi) * extraterrestrialNormalSimple_W_m2(dayOfYear, solarConstant_W_m2) *
         (std::cos(f) * std::cos(d) * (std::sin(to.radians()) - std::sin(from.radians())) +
          (to.radians() - from.radians()) * std::sin(f) * std::sin(d));
}

double dailyExtraterrestrial_J_m2(Angle latitude, int dayOfYear, double solarConstant_W_m2) {
  const Angle sunset = sunsetHourAngle(latitude, cooperDeclination(dayOfYear));
  return extraterrestrialBetween_J_m2(latitude, dayOfYear, -sunset, sunset, solarConstant_W_m2);
}

Result<double> relativeAirMass(Angle zenith) {
  if (!(zenith.radians() >= 0.0 && zenith.degrees() <= 90.0)) {
    return outOfRange("zenith", zenith.radians(), 0.0, kPi / 2, Dimension::Angle);
  }
  return relativeAirMassOf(zenith.radians());
}

double pressureRatio(Length altitude) {
  constexpr double kSeaLevelTemperature_K = 288.15;
  constexpr double kLapse_K_m = 0.0065;
  constexpr double kExponent = 5.255880;
  constexpr double kTropopause_m = 11000.0;
  constexpr double kTropopauseTemperature_K = kSeaLevelTemperature_K - kLapse_K_m * kTropopause_m;
  const double h_m = altitude.si();
  if (h_m <= kTropopause_m) return std::pow(1.0 - kLapse_K_m * h_m / kSeaLevelTemperature_K, kExponent);
  constexpr double kScaleHeight_m = kTropopauseTemperature_K / (kLapse_K_m * kExponent);
  return std::pow(kTropopauseTemperature_K / kSeaLevelTemperature_K, kExponent) *
         std::exp(-(h_m - kTropopause_m) / kScaleHeight_m);
}

ClearSky clearSky(const SunPosition& sun, Length altitude, double linkeTurbidity) {
  const double outside_W_m2 = kSolarConstant_W_m2 / (sun.distance_AU * sun.distance_AU);
  const double airMass =
      sun.zenith.degrees() < 90.0 ? relativeAirMassOf(sun.zenith.radians()) * pressureRatio(altitude) : 0.0;
  return ineichenPerez(sun.zenith, airMass, altitude, linkeTurbidity, outside_W_m2);
}

ClearSky ineichenPerez(Angle zenith, double absoluteAirMass, Length altitude, double linkeTurbidity,
                       double extraterrestrialNormal_W_m2) {
  ClearSky sky;
  sky.extraterrestrialNormal_W_m2 = extraterrestrialNormal_W_m2;
  const double cosZenith = std::cos(zenith.radians());
  if (!(cosZenith > 0.0) || zenith.degrees() >= 90.0) return sky;
  sky.airMass = absoluteAirMass;
  const double h = altitude.si();
  const double f1 = std::exp(-h / 8000.0);
  const double f2 = std::exp(-h / 1250.0);
  const double c1 = 5.09e-5 * h + 0.868;
  const double c2 = 3.92e-5 * h + 0.0387;
  const double overClean = linkeTurbidity - 1.0;
  sky.global_W_m2 =
      c1 * extraterrestrialNormal_W_m2 * cosZenith * std::exp(-c2 * absoluteAirMass * (f1 + f2 * overClean));
  const double b = 0.664 + 0.163 / f1;
  const double extinction = b * extraterrestrialNormal_W_m2 * std::exp(-0.09 * absoluteAirMass * overClean);
  // Second form of the paper: keeps the diffuse part from falling below its clean-sky share.
  const double share = (1.0 - (0.1 - 0.2 * std::exp(-linkeTurbidity)) / (0.1 + 0.882 / f1)) / cosZenith;
  sky.beamNormal_W_m2 = std::min(extinction, sky.global_W_m2 * std::max(share, 0.0));
  sky.diffuse_W_m2 = sky.global_W_m2 - sky.beamNormal_W_m2 * cosZenith;
  return sky;
}

double haurwitzGlobal_W_m2(Angle zenith) {
  const double cosZenith = std::cos(zenith.radians());
  return cosZenith > 0.0 ? 1098.0 * cosZenith * std::exp(-0.059 / cosZenith) : 0.0;
}

Result<double> hottelBeamTransmittance(Angle zenith, Length altitude, HottelClimate climate) {
  const double a_km = altitude.si() / 1000.0;
  if (!(a_km >= 0.0 && a_km < 2.5)) return outOfRange("altitude", altitude.si(), 0.0, 2500.0, Dimension::Length);
  const double cosZenith = std::cos(zenith.radians());
  if (!(cosZenith > 0.0)) return 0.0;
  struct Factors {
    double r0, r1, rk;
  };
  const Factors r = [climate] {
    switch (climate) {
      case HottelClimate::Tropical:
        return Factors{0.95, 0.98, 1.02};
      case HottelClimate::MidLatitudeSummer:
        return Factors{0.97, 0.99, 1.02};
      case HottelClimate::SubarcticSummer:
        return Factors{0.99, 0.99, 1.01};
      case HottelClimate::MidLatitudeWinter:
        return Factors{1.03, 1.01, 1.00};
    }
    return Factors{1.0, 1.0, 1.0};
  }();
  const double a0 = r.r0 * (0.4237 - 0.00821 * (6.0 - a_km) * (6.0 - a_km));
  const double a1 = r.r1 * (0.5055 + 0.00595 * (6.5 - a_km) * (6.5 - a_km));
  const double k = r.rk * (0.2711 + 0.01858 * (2.5 - a_km) * (2.5 - a_km));
  return a0 + a1 * std::exp(-k / cosZenith);
}

double liuJordanDiffuseTransmittance(double beamTransmittance) { return 0.271 - 0.294 * beamTransmittance; }

Result<double> erbsDiffuseFraction(double clearness) {
  if (!(clearness >= 0.0)) return outOfRange("clearness", clearness, 0.0, 1.0, Dimension::None);
  const double k = clearness;
  if (k <= 0.22) return 1.0 - 0.09 * k;
  if (k <= 0.80) return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
  return 0.165;
}

Result<double> erbsMonthlyDiffuseFraction(double meanClearness, Angle sunsetHourAngle) {
  const double k = meanClearness;
  if (!(k >= 0.3 && k <= 0.8)) return outOfRange("clearness", k, 0.3, 0.8, Dimension::None);
  if (sunsetHourAngle.degrees() <= 81.4) return 1.391 + k * (-3.560 + k * (4.189 - k * 2.137));
  return 1.311 + k * (-3.022 + k * (3.427 - k * 1.821));
}

double hourlyDiffuseShare(Angle hourAngle, Angle sunsetHourAngle) {
  const double w = hourAngle.radians();
  const double ws = sunsetHourAngle.radians();
  if (!(std::abs(w) < ws)) return 0.0;
  return kPi / 24.0 * (std::cos(w) - std::cos(ws)) / (std::sin(ws) - ws * std::cos(ws));
}

double hourlyGlobalShare(Angle hourAngle, Angle sunsetHourAngle) {
  const double fromSixty = sunsetHourAngle.radians() - 60.0 * kDegree;
  const double a = 0.409 + 0.5016 * std::sin(fromSixty);
  const double b = 0.6609 - 0.4767 * std::sin(fromSixty);
  return (a + b * std::cos(hourAngle.radians())) * hourlyDiffuseShare(hourAngle, sunsetHourAngle);
}

PerezBrightness perezBrightness(Angle zenith, double diffuse_W_m2, double beamNormal_W_m2,
                                double extraterrestrialNormal_W_m2) {
  struct Row {
    double from, f11, f12, f13, f21, f22, f23;
  };
  static constexpr std::array<Row, 8> kRows{{{1.000, -0.008, 0.588, -0.062, -0.060, 0.072, -0.022},
                                             {1.065, 0.130, 0.683, -0.151, -0.019, 0.066, -0.029},
                                             {1.230, 0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
                                             {1.500, 0.568, 0.187, -0.295, 0.109, -0.152, -0.014},
                                             {1.950, 0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
                                             {2.800, 1.132, -1.237, -0.412, 0.288, -0.823, 0.056},
                                             {4.500, 1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
                                             {6.200, 0.678, -0.327, -0.250, 0.156, -1.377, 0.251}}};
  constexpr double kKappa = 5.535e-6;  // per cubic degree of zenith
  const double z = std::min(zenith.radians(), kPi / 2);
  const double zenithTerm = kKappa * cube(z / kDegree);
  const double clearness = ((diffuse_W_m2 + beamNormal_W_m2) / diffuse_W_m2 + zenithTerm) / (1.0 + zenithTerm);
  const double brightness = relativeAirMassOf(z) * diffuse_W_m2 / extraterrestrialNormal_W_m2;
  std::size_t bin = 0;
  while (bin + 1 < kRows.size() && clearness >= kRows[bin + 1].from) ++bin;
  const Row& row = kRows[bin];
  return {static_cast<int>(bin) + 1, std::max(0.0, row.f11 + row.f12 * brightness + row.f13 * z),
          row.f21 + row.f22 * brightness + row.f23 * z};
}

PlaneIrradiance onPlane(const SunPosition& sun, const ClearSky& sky, Angle tilt, Angle azimuth,
                        double groundReflectance, SkyModel model) {
  PlaneIrradiance plane;
  plane.incidence = incidence(sun.zenith, sun.azimuth, tilt, azimuth);
  const double cosIncidence = std::cos(plane.incidence.radians());
  const bool sunIsUp = sun.zenith.degrees() < 90.0;
  if (sunIsUp) plane.beam_W_m2 = sky.beamNormal_W_m2 * std::max(cosIncidence, 0.0);
  const double diffuse = sky.diffuse_W_m2;
  if (diffuse > 0.0) {
    switch (model) {
      case SkyModel::Isotropic:
        plane.sky_W_m2 = diffuse * skyView(tilt);
        break;
      case SkyModel::Hdkr:
        plane.sky_W_m2 = hdkrSky(sun.zenith.radians(), cosIncidence, sky, diffuse, tilt);
        break;
      case SkyModel::Perez:
        plane.sky_W_m2 = perezSky(sun.zenith, cosIncidence, sky, diffuse, tilt);
        break;
    }
  }
  plane.ground_W_m2 = sky.global_W_m2 * groundReflectance * (1.0 - skyView(tilt));
  plane.total_W_m2 = plane.beam_W_m2 + plane.sky_W_m2 + plane.ground_W_m2;
  return plane;
}

double klucherSky_W_m2(double diffuse_W_m2, double global_W_m2, Angle zenith, Angle incidence, Angle tilt) {
  if (!(global_W_m2 > 0.0)) return 0.0;
  const double ratio = diffuse_W_m2 / global_W_m2;
  const double clearness = 1.0 - ratio * ratio;
  const double cosIncidence = std::max(0.0, std::cos(incidence.radians()));
  return diffuse_W_m2 * skyView(tilt) * (1.0 + clearness * cube(std::sin(0.5 * tilt.radians()))) *
         (1.0 + clearness * cosIncidence * cosIncidence * cube(std::sin(zenith.radians())));
}

Result<double> beamRatio(Angle incidence, Angle zenith) {
  const double cosZenith = std::cos(zenith.radians());
  if (!(cosZenith > 0.0) || zenith.degrees() >= 90.0) {
    return outOfRange("zenith", zenith.radians(), 0.0, kPi / 2, Dimension::Angle);
  }
  return std::max(0.0, std::cos(incidence.radians())) / cosZenith;
}

Result<MonthlyTilt> kleinMonthly(Angle latitude, int dayOfYear, Angle tilt, double horizontal_J_m2,
                                 double groundReflectance, double solarConstant_W_m2) {
  MonthlyTilt month;
  month.extraterrestrial_J_m2 = dailyExtraterrestrial_J_m2(latitude, dayOfYear, solarConstant_W_m2);
  if (!(month.extraterrestrial_J_m2 > 0.0)) return Error{ErrorCode::SunNeverRises, "latitude", "", {}};
  const Angle declination = cooperDeclination(dayOfYear);
  const Angle sunset = sunsetHourAngle(latitude, declination);
  month.clearness = horizontal_J_m2 / month.extraterrestrial_J_m2;
  const Result<double> diffuse = erbsMonthlyDiffuseFraction(month.clearness, sunset);
  if (!diffuse) return diffuse.error();
  month.diffuseFraction = *diffuse;

  // The plane at this place lies like level ground nearer to the equator by its tilt.
  const double f = latitude.radians();
  const double level = f < 0.0 ? f + tilt.radians() : f - tilt.radians();
  const double d = declination.radians();
  const double ws = sunset.radians();
  const double wsPlane = std::min(ws, sunsetHourAngle(radians(level), declination).radians());
  const double onPlaneTerm =
      std::cos(level) * std::cos(d) * std::sin(wsPlane) + wsPlane * std::sin(level) * std::sin(d);
  const double onLevelTerm = std::cos(f) * std::cos(d) * std::sin(ws) + ws * std::sin(f) * std::sin(d);
  month.beamRatio = onPlaneTerm / onLevelTerm;
  month.onPlane_J_m2 =
      horizontal_J_m2 * ((1.0 - month.diffuseFraction) * month.beamRatio + month.diffuseFraction * skyView(tilt) +
                         groundReflectance * (1.0 - skyView(tilt)));
  return month;
}

}  // namespace sunspool::climate
