// SPDX-License-Identifier: GPL-3.0-or-later
// What the sun and sky send.
#include "core/calc/topic.h"
#include "core/climate/irradiance.h"

namespace sunspool::calc::detail {
namespace {

using namespace climate;

Result<Answer> extraterrestrial(const Values& v) {
  const int n = wholeNumber(v, "day_of_year");
  const double constant = number(v, "solar_constant_W_m2");
  return outputs({{"simple_W_m2", extraterrestrialNormalSimple_W_m2(n, constant)},
                  {"spencer_W_m2", extraterrestrialNormalSpencer_W_m2(n, constant)}});
}

Result<Answer> daily(const Values& v) {
  return outputs({{"daily_J_m2", dailyExtraterrestrial_J_m2(as<Angle>(v, "latitude_deg"), wholeNumber(v, "day_of_year"),
                                                            number(v, "solar_constant_W_m2"))}});
}

Result<Answer> hourly(const Values& v) {
  const Angle from = as<Angle>(v, "from_deg"), to = as<Angle>(v, "to_deg");
  if (!(from < to)) {
    return Error{ErrorCode::LowerNotBelowUpper,
                 "/hour_angle_deg",
                 {},
                 {{"lower", from.radians(), Dimension::Angle}, {"upper", to.radians(), Dimension::Angle}}};
  }
  return outputs({{"sum_J_m2", extraterrestrialBetween_J_m2(as<Angle>(v, "latitude_deg"), wholeNumber(v, "day_of_year"),
                                                            from, to, number(v, "solar_constant_W_m2"))}});
}

Result<Answer> clear(const Values& v) {
  const ClearSky sky = ineichenPerez(as<Angle>(v, "zenith_deg"), number(v, "air_mass"), as<Length>(v, "altitude_m"),
                                     number(v, "linke_turbidity"), number(v, "extraterrestrial_W_m2"));
  return outputs({{"global_W_m2", sky.global_W_m2},
                  {"beam_normal_W_m2", sky.beamNormal_W_m2},
                  {"diffuse_W_m2", sky.diffuse_W_m2}});
}

Result<Answer> haurwitz(const Values& v) {
  return outputs({{"global_W_m2", haurwitzGlobal_W_m2(as<Angle>(v, "zenith_deg"))}});
}

Result<Answer> hottel(const Values& v) {
  Answer answer;
  for (const auto& [key, climate] : {std::pair{"tropical", HottelClimate::Tropical},
                                     {"mid_latitude_summer", HottelClimate::MidLatitudeSummer},
                                     {"subarctic_summer", HottelClimate::SubarcticSummer},
                                     {"mid_latitude_winter", HottelClimate::MidLatitudeWinter}}) {
    const auto passed = hottelBeamTransmittance(as<Angle>(v, "zenith_deg"), as<Length>(v, "altitude_m"), climate);
    if (!passed) return passed.error();
    answer.outputs.push_back({key, *passed});
  }
  return answer;
}

Result<Answer> liuJordan(const Values& v) {
  return outputs({{"diffuse_transmittance", liuJordanDiffuseTransmittance(number(v, "beam_transmittance"))}});
}

Answer fraction(double value) { return outputs({{"diffuse_fraction", value}}); }

Result<Answer> diffuse(const Values& v) { return erbsDiffuseFraction(number(v, "clearness")).transform(fraction); }

Result<Answer> monthlyDiffuse(const Values& v) {
  return erbsMonthlyDiffuseFraction(number(v, "mean_clearness"), as<Angle>(v, "sunset_hour_angle_deg"))
      .transform(fraction);
}

Result<Answer> hours(const Values& v) {
  const Angle at = as<Angle>(v, "hour_angle_deg"), sunset = as<Angle>(v, "sunset_hour_angle_deg");
  return outputs({{"global_share", hourlyGlobalShare(at, sunset)}, {"diffuse_share", hourlyDiffuseShare(at, sunset)}});
}

SunPosition sunOf(const Values& v) {
  SunPosition sun;
  sun.zenith = as<Angle>(v, "zenith_deg");
  sun.azimuth = as<Angle>(v, "sun_azimuth_deg");
  return sun;
}

Result<Answer> tilted(const Values& v) {
  const SunPosition sun = sunOf(v);
  ClearSky sky;
  sky.global_W_m2 = number(v, "global_W_m2");
  sky.beamNormal_W_m2 = number(v, "beam_normal_W_m2");
  sky.diffuse_W_m2 = number(v, "diffuse_W_m2");
  sky.extraterrestrialNormal_W_m2 = number(v, "extraterrestrial_W_m2");
  const auto on = [&](SkyModel model) {
    return onPlane(sun, sky, as<Angle>(v, "tilt_deg"), as<Angle>(v, "azimuth_deg"), number(v, "ground_reflectance"),
                   model);
  };
  const PlaneIrradiance isotropic = on(SkyModel::Isotropic), hdkr = on(SkyModel::Hdkr), perez = on(SkyModel::Perez);
  return outputs({{"incidence_deg", isotropic.incidence.degrees()},
                  {"beam_W_m2", isotropic.beam_W_m2},
                  {"ground_W_m2", isotropic.ground_W_m2},
                  {"sky_isotropic_W_m2", isotropic.sky_W_m2},
                  {"sky_hdkr_W_m2", hdkr.sky_W_m2},
                  {"sky_perez_W_m2", perez.sky_W_m2},
                  {"total_isotropic_W_m2", isotropic.total_W_m2},
                  {"total_hdkr_W_m2", hdkr.total_W_m2},
                  {"total_perez_W_m2", perez.total_W_m2}});
}

Result<Answer> klucher(const Values& v) {
  return outputs(
      {{"sky_W_m2", klucherSky_W_m2(number(v, "diffuse_W_m2"), number(v, "global_W_m2"), as<Angle>(v, "zenith_deg"),
                                    as<Angle>(v, "incidence_deg"), as<Angle>(v, "tilt_deg"))}});
}

Result<Answer> brightness(const Values& v) {
  const PerezBrightness sky = perezBrightness(as<Angle>(v, "zenith_deg"), number(v, "diffuse_W_m2"),
                                              number(v, "beam_normal_W_m2"), number(v, "extraterrestrial_W_m2"));
  return outputs({{"bin", sky.bin}, {"circumsolar", sky.circumsolar}, {"horizon", sky.horizon}});
}

Result<Answer> monthlyTilt(const Values& v) {
  return kleinMonthly(as<Angle>(v, "latitude_deg"), wholeNumber(v, "day_of_year"), as<Angle>(v, "tilt_deg"),
                      number(v, "horizontal_J_m2"), number(v, "ground_reflectance"), number(v, "solar_constant_W_m2"))
      .transform([](const MonthlyTilt& month) {
        return outputs({{"on_plane_J_m2", month.onPlane_J_m2},
                        {"extraterrestrial_J_m2", month.extraterrestrial_J_m2},
                        {"clearness", month.clearness},
                        {"diffuse_fraction", month.diffuseFraction},
                        {"beam_ratio", month.beamRatio}});
      });
}

Input solarConstant() { return input("solar_constant_W_m2", "solar constant", 1000.0, 2000.0, kSolarConstant_W_m2); }
Input up(std::string_view key, std::string_view meaning) { return input(key, meaning, 0.0, 2000.0); }
Input global() { return up("global_W_m2", "global irradiance on the horizontal"); }
Input diffuseInput() { return up("diffuse_W_m2", "diffuse irradiance on the horizontal"); }
Input beamNormal() { return up("beam_normal_W_m2", "beam irradiance across the beam"); }
Input outside() {
  return input("extraterrestrial_W_m2", "irradiance outside the air, across the beam", 1.0, 2000.0,
               kSolarConstant_W_m2);
}
Input sunset() { return input("sunset_hour_angle_deg", "hour angle of sunset", 0.0, 180.0); }
Input ground() { return share("ground_reflectance", "part that the ground throws back", 0.2); }
Input angle(std::string_view key, std::string_view meaning) { return input(key, meaning, -180.0, 180.0); }

std::vector<Topic> outsideTheAir() {
  return {
      {"extraterrestrial",
       "irradiance outside the air, across the beam",
       {dayOfYear(), solarConstant()},
       {"simple_W_m2", "spencer_W_m2"},
       extraterrestrial,
       "simple: G (1 + 0.033 cos(360 n/365)); Spencer: series in B = (n - 1) 360/365",
       "[DB] eq. 1.4.1a and 1.4.1b",
       ""},
      {"daily-extraterrestrial",
       "a day's sum on the horizontal outside the air",
       {latitude(), dayOfYear(), solarConstant()},
       {"daily_J_m2"},
       daily,
       "86400/pi Gon (cos L cos d sin ws + ws sin L sin d)",
       "[DB] eq. 1.10.3",
       "with Cooper's declination; 0 in the polar night"},
      {"hourly-extraterrestrial",
       "the sum between two hour angles on the horizontal outside the air",
       {latitude(), dayOfYear(), angle("from_deg", "hour angle of the beginning, afternoon positive"),
        angle("to_deg", "hour angle of the end"), solarConstant()},
       {"sum_J_m2"},
       hourly,
       "43200/pi Gon (cos L cos d (sin w2 - sin w1) + (w2 - w1) sin L sin d)",
       "[DB] eq. 1.10.4",
       "both while the sun is up, from below to"},
  };
}

std::vector<Topic> throughTheAir() {
  return {
      {"clear-sky",
       "clear sky of Ineichen and Perez from its ingredients",
       {zenith(), input("air_mass", "absolute air mass: relative times pressure ratio", 0.1, 40.0),
        input("altitude_m", "altitude over the sea", -430.0, 5000.0, 0.0),
        input("linke_turbidity", "haze, 2 mountain air to 6 haze", 1.0, 10.0, 3.0), outside()},
       {"global_W_m2", "beam_normal_W_m2", "diffuse_W_m2"},
       clear,
       "global = c1 I0 cos z exp(-c2 m (f1 + f2 (TL - 1))), f1 = exp(-h/8000), f2 = exp(-h/1250), "
       "c1 = 5.09e-5 h + 0.868, c2 = 3.92e-5 h + 0.0387; beam = b I0 exp(-0.09 m (TL - 1))",
       "[IneichenPerez2002]",
       "0 to about 3000 m; about 7 % of the global, 12 % of the beam, from memory"},
      {"haurwitz",
       "clear-sky global on the horizontal from the sun's height alone",
       {zenith()},
       {"global_W_m2"},
       haurwitz,
       "1098 cos z exp(-0.059/cos z)",
       "[Haurwitz1945]",
       "0 with the sun down"},
      {"hottel",
       "share of the beam that passes a clear sky, by climate",
       {zenith(), input("altitude_m", "altitude over the sea", 0.0, 2499.0, 0.0)},
       {"tropical", "mid_latitude_summer", "subarctic_summer", "mid_latitude_winter"},
       hottel,
       "a0 + a1 exp(-k/cos z); a0 = r0 (0.4237 - 0.00821 (6 - A)^2), a1 = r1 (0.5055 + 0.00595 (6.5 - A)^2), "
       "k = rk (0.2711 + 0.01858 (2.5 - A)^2), A in km",
       "[Hottel1976] as [DB] eq. 2.8.1, climate factors from memory",
       "23 km visibility, 0 to 2.5 km"},
      {"liu-jordan-diffuse",
       "diffuse share of a clear sky from its beam share",
       {share("beam_transmittance", "share of the beam that passes")},
       {"diffuse_transmittance"},
       liuJordan,
       "0.271 - 0.294 tau_b",
       "[LiuJordan1960] as [DB] eq. 2.8.5",
       "clear sky, tau_b below 0.92"},
      {"diffuse-fraction",
       "diffuse part of an hour's global",
       {input("clearness", "global over extraterrestrial on the horizontal", 0.0, 1.5)},
       {"diffuse_fraction"},
       diffuse,
       "k <= 0.22: 1 - 0.09 k; k <= 0.80: 0.9511 - 0.1604 k + 4.388 k^2 - 16.638 k^3 + 12.336 k^4; else 0.165",
       "[Erbs1982]",
       "hours"},
      {"monthly-diffuse-fraction",
       "diffuse part of a month's mean day",
       {input("mean_clearness", "mean global over extraterrestrial", 0.0, 1.5), sunset()},
       {"diffuse_fraction"},
       monthlyDiffuse,
       "sunset <= 81.4 deg: 1.391 - 3.560 K + 4.189 K^2 - 2.137 K^3; else 1.311 - 3.022 K + 3.427 K^2 - 1.821 K^3",
       "[Erbs1982] as [DB] eq. 2.12.1, constants from memory",
       "clearness 0.3 to 0.8"},
      {"monthly-to-hourly",
       "an hour's part of a mean day",
       {angle("hour_angle_deg", "hour angle of the hour's middle"), sunset()},
       {"global_share", "diffuse_share"},
       hours,
       "rd = pi/24 (cos w - cos ws)/(sin ws - ws cos ws); rt = (a + b cos w) rd, a = 0.409 + 0.5016 sin(ws - 60), "
       "b = 0.6609 - 0.4767 sin(ws - 60)",
       "[CollaresPereiraRabl1979]; [LiuJordan1960]; [DB] eq. 2.13.2 and 2.13.4",
       "hours of a day add up to 1 within about 1 %; 0 outside the day"},
  };
}

std::vector<Topic> onAPlane() {
  return {
      {"tilted-irradiance",
       "irradiance on a tilted plane by three models of the sky",
       {zenith(), input("sun_azimuth_deg", "direction of the sun, from north clockwise", -360.0, 360.0), global(),
        diffuseInput(), beamNormal(), outside(), tilt(),
        input("azimuth_deg", "facing of the plane, from north clockwise", -360.0, 360.0), ground()},
       {"incidence_deg", "beam_W_m2", "ground_W_m2", "sky_isotropic_W_m2", "sky_hdkr_W_m2", "sky_perez_W_m2",
        "total_isotropic_W_m2", "total_hdkr_W_m2", "total_perez_W_m2"},
       tilted,
       "beam cos i + sky + ground global rho (1 - cos b)/2; isotropic sky: diffuse (1 + cos b)/2; HDKR adds the part "
       "round the sun and at the horizon; Perez: diffuse ((1 - F1)(1 + cos b)/2 + F1 a/b + F2 sin b)",
       "[LiuJordan1963]; [DB] eq. 2.16.7, form from memory; [Perez1990] table 6",
       "global = diffuse + beam_normal cos z is not enforced: give figures that agree"},
      {"klucher-sky",
       "diffuse from the sky on a tilted plane by Klucher",
       {diffuseInput(), global(), zenith(), input("incidence_deg", "angle between beam and normal", 0.0, 180.0),
        tilt()},
       {"sky_W_m2"},
       klucher,
       "D (1 + cos b)/2 (1 + F sin^3(b/2)) (1 + F cos^2 i sin^3 z), F = 1 - (D/G)^2",
       "[Klucher1979]",
       ""},
      {"perez-brightness",
       "brightness of the sky round the sun and at the horizon",
       {zenith(), input("diffuse_W_m2", "diffuse irradiance on the horizontal", 1e-3, 2000.0), beamNormal(), outside()},
       {"bin", "circumsolar", "horizon"},
       brightness,
       "F1 and F2 from clearness bin, brightness and zenith",
       "[Perez1990] table 6",
       "diffuse above 0"},
      {"monthly-tilt",
       "mean day of a month on a plane that faces the equator",
       {latitude(), dayOfYear(), tilt(), input("horizontal_J_m2", "mean day's global on the horizontal", 0.0, 1e8),
        ground(), solarConstant()},
       {"on_plane_J_m2", "extraterrestrial_J_m2", "clearness", "diffuse_fraction", "beam_ratio"},
       monthlyTilt,
       "H ((1 - f) Rb + f (1 + cos b)/2 + rho (1 - cos b)/2)",
       "[DB] eq. 2.19.1 to 2.19.3 (Klein 1977)",
       "the month's mean day: 17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344; clearness 0.3 to 0.8"},
  };
}

}  // namespace

std::vector<Topic> irradianceTopics() {
  std::vector<Topic> all;
  for (const auto& part : {outsideTheAir(), throughTheAir(), onAPlane()})
    all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace sunspool::calc::detail
