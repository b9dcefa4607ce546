// SPDX-License-Identifier: GPL-3.0-or-later
// Water and the air around it.
#include "core/calc/topic.h"
#include "core/materials/air.h"
#include "core/materials/water.h"

namespace sunspool::calc::detail {
namespace {

using namespace materials;

Result<Answer> water(const Values& v) {
  return waterAt(as<Temperature>(v, "water_C")).transform([](const Water& w) {
    return outputs({{"density_kg_m3", w.density.si()},
                    {"specific_heat_J_kgK", w.specificHeat.si()},
                    {"viscosity_Pa_s", w.viscosity.si()},
                    {"conductivity_W_mK", w.conductivity.si()},
                    {"prandtl", w.prandtl},
                    {"expansion_1_K", w.expansion_1_K}});
  });
}

Result<Answer> waterAtPressure(const Values& v) {
  return liquidStateAt(as<Temperature>(v, "water_C"), as<Pressure>(v, "pressure_Pa"))
      .transform([](const LiquidState& w) {
        return outputs({{"density_kg_m3", w.density.si()},
                        {"specific_heat_J_kgK", w.specificHeat.si()},
                        {"enthalpy_J_kg", w.enthalpy_J_kg},
                        {"entropy_J_kgK", w.entropy_J_kgK},
                        {"sound_speed_m_s", w.soundSpeed_m_s},
                        {"expansion_1_K", w.expansion_1_K}});
      });
}

Result<Answer> viscosity(const Values& v) {
  return viscosityAt(as<Temperature>(v, "water_C"), as<Density>(v, "density_kg_m3"))
      .transform([](DynamicViscosity value) {
        return outputs({{"viscosity_Pa_s", value.si()}});
      });
}

Result<Answer> conductivity(const Values& v) {
  return conductivityAt(as<Temperature>(v, "water_C"), as<Density>(v, "density_kg_m3"))
      .transform([](ThermalConductivity value) {
        return outputs({{"conductivity_W_mK", value.si()}});
      });
}

Answer saturationAnswer(Pressure value) { return outputs({{"saturation_pressure_Pa", value.si()}}); }

Result<Answer> saturation(const Values& v) {
  return saturationPressure(as<Temperature>(v, "water_C")).transform(saturationAnswer);
}

Result<Answer> saturationAshrae(const Values& v) {
  return saturationPressureHylandWexler(as<Temperature>(v, "water_C")).transform(saturationAnswer);
}

Result<Answer> saturationMagnus(const Values& v) {
  return vapourPressureMagnus(as<Temperature>(v, "air_C")).transform(saturationAnswer);
}

Result<Answer> boiling(const Values& v) {
  return boilingTemperature(as<Pressure>(v, "pressure_Pa")).transform([](Temperature t) {
    return outputs({{"boiling_C", t.inCelsius()}});
  });
}

Result<Answer> dew(const Values& v) {
  return dewPoint(as<Temperature>(v, "air_C"), number(v, "relative_humidity")).transform([](Temperature t) {
    return outputs({{"dew_point_C", t.inCelsius()}});
  });
}

Result<Answer> air(const Values& v) {
  return airAt(as<Temperature>(v, "air_C"), as<Pressure>(v, "air_pressure_Pa")).transform([](const Air& a) {
    return outputs({{"density_kg_m3", a.density.si()},
                    {"specific_heat_J_kgK", a.specificHeat.si()},
                    {"viscosity_Pa_s", a.viscosity.si()},
                    {"conductivity_W_mK", a.conductivity.si()},
                    {"prandtl", a.prandtl},
                    {"kinematic_viscosity_m2_s", a.kinematicViscosity_m2_s},
                    {"diffusivity_m2_s", a.diffusivity_m2_s},
                    {"expansion_1_K", a.expansion_1_K}});
  });
}

Result<Answer> pressureAtAltitude(const Values& v) {
  return outputs({{"air_pressure_Pa", materials::airPressure(as<Length>(v, "altitude_m")).si()}});
}

Input wideWater() { return input("water_C", "water temperature", 0.0, 373.946); }
Input density() { return input("density_kg_m3", "density of the water", 1.0, 1100.0); }

}  // namespace

std::vector<Topic> waterTopics() {
  return {
      {"water",
       "liquid water at one temperature, as the engine uses it",
       {waterTemperature()},
       {"density_kg_m3", "specific_heat_J_kgK", "viscosity_Pa_s", "conductivity_W_mK", "prandtl", "expansion_1_K"},
       water,
       "Gibbs energy of region 1 and its derivatives; viscosity mu0(T) mu1(T, rho); Pr = mu cp/k",
       "[IF97] table 2; [R12-08] eq. 10-12; [R15-11] eq. 15-17",
       "0 to 150 C, liquid, at the larger of 101325 Pa and saturation; no critical terms; pure water"},
      {"water-at-pressure",
       "liquid water at temperature and pressure",
       {wideWater(), input("pressure_Pa", "absolute pressure", 611.0, 1e8)},
       {"density_kg_m3", "specific_heat_J_kgK", "enthalpy_J_kg", "entropy_J_kgK", "sound_speed_m_s", "expansion_1_K"},
       waterAtPressure,
       "g(p, T) = R T sum n_i (7.1 - p/16.53 MPa)^I_i (1386 K/T - 1.222)^J_i and its derivatives",
       "[IF97] table 2 and eq. 7",
       "273.15 to 623.15 K, saturation to 100 MPa"},
      {"water-viscosity",
       "viscosity of water at temperature and density",
       {wideWater(), density()},
       {"viscosity_Pa_s"},
       viscosity,
       "mu = mu0(T) mu1(T, rho)",
       "[R12-08] eq. 10-12",
       "273.15 to 623.15 K, up to 1100 kg/m3; without the critical term"},
      {"water-conductivity",
       "heat conductivity of water at temperature and density",
       {wideWater(), density()},
       {"conductivity_W_mK"},
       conductivity,
       "k = k0(T) k1(T, rho)",
       "[R15-11] eq. 15-17",
       "273.15 to 623.15 K, up to 1100 kg/m3; without the critical term"},
      {"saturation",
       "saturation pressure of water",
       {wideWater()},
       {"saturation_pressure_Pa"},
       saturation,
       "p = [2 C/(-B + sqrt(B^2 - 4 A C))]^4 MPa, A, B, C quadratic in T + n9/(T - n10)",
       "[IF97] eq. 30 and table 34",
       "273.15 to 647.096 K"},
      {"saturation-ashrae",
       "saturation pressure over liquid water, Hyland and Wexler 1983",
       {input("water_C", "water temperature", 0.0, 200.0)},
       {"saturation_pressure_Pa"},
       saturationAshrae,
       "ln p = C8/T + C9 + C10 T + C11 T^2 + C12 T^3 + C13 ln T",
       "Hyland and Wexler 1983 as in ASHRAE Fundamentals; coefficients from memory, within 0.03 % of [IF97]",
       "0 to 200 C"},
      {"saturation-magnus",
       "saturation pressure of the moisture in air, Magnus form",
       {input("air_C", "air temperature", -40.0, 50.0)},
       {"saturation_pressure_Pa"},
       saturationMagnus,
       "p = 610.94 Pa exp(17.625 t/(t + 243.04)), t in C",
       "[AlduchovEskridge1996], constants from memory",
       "-40 to 50 C, within 0.3 %"},
      {"dew-point",
       "temperature at which air begins to condense",
       {input("air_C", "air temperature", -40.0, 50.0),
        input("relative_humidity", "relative humidity, 0 to 1", 1e-6, 1.0)},
       {"dew_point_C"},
       dew,
       "inverse of p = 610.94 Pa exp(17.625 t/(t + 243.04))",
       "[AlduchovEskridge1996], constants from memory",
       "-40 to 50 C, humidity above 0"},
      {"boiling",
       "boiling temperature of water",
       {input("pressure_Pa", "absolute pressure", 611.213, 2.2064e7, 101325.0)},
       {"boiling_C"},
       boiling,
       "inverse of the saturation pressure",
       "[IF97] eq. 31",
       "611.213 Pa to 22.064 MPa"},
      {"air",
       "dry air",
       {temperature("air_C", "air temperature"), detail::airPressure()},
       {"density_kg_m3", "specific_heat_J_kgK", "viscosity_Pa_s", "conductivity_W_mK", "prandtl",
        "kinematic_viscosity_m2_s", "diffusivity_m2_s", "expansion_1_K"},
       air,
       "rho = p/(R T); mu = 1.458e-6 T^1.5/(T + 110.4); k = 2.64638e-3 T^1.5/(T + 245.4 10^(-12/T))",
       "[USSA1976] eq. 51 and 53; specific heat from memory",
       "-60 to 250 C, within 1.5 % of tables from 0 to 200 C"},
      {"air-pressure",
       "pressure of the standard atmosphere at an altitude",
       {input("altitude_m", "altitude over the sea", -500.0, 11000.0)},
       {"air_pressure_Pa"},
       pressureAtAltitude,
       "p = 101325 Pa (1 - 0.0065 h/288.15)^5.2559",
       "[ISO2533]",
       "-500 to 11000 m"},
  };
}

}  // namespace sunspool::calc::detail
