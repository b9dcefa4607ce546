// SPDX-License-Identifier: GPL-3.0-or-later
// How a warm absorber loses heat.
#include "core/calc/topic.h"
#include "core/thermal/loss.h"

namespace sunspool::calc::detail {
namespace {

using namespace thermal;

Result<Answer> wind(const Values& v) {
  const auto watmuff = windCoefficient(as<Velocity>(v, "wind_m_s"), WindFormula::Watmuff);
  if (!watmuff) return watmuff.error();
  return windCoefficient(as<Velocity>(v, "wind_m_s"), WindFormula::McAdams)
      .transform([&](HeatTransferCoefficient mcAdams) {
        return outputs({{"watmuff_W_m2K", watmuff->si()}, {"mcadams_W_m2K", mcAdams.si()}});
      });
}

Answer coefficientAnswer(HeatTransferCoefficient value) { return outputs({{"coefficient_W_m2K", value.si()}}); }

Result<Answer> windOnBuilding(const Values& v) {
  return windCoefficientOnBuilding(as<Velocity>(v, "wind_m_s"), as<Length>(v, "size_m")).transform(coefficientAnswer);
}

Result<Answer> hollands(const Values& v) {
  return nusseltHollands(number(v, "rayleigh"), as<Angle>(v, "tilt_deg")).transform([](double nusselt) {
    return outputs({{"nusselt", nusselt}});
  });
}

Result<Answer> gap(const Values& v) {
  return airGap(as<Temperature>(v, "lower_C"), as<Temperature>(v, "upper_C"), as<Length>(v, "gap_m"),
                as<Angle>(v, "tilt_deg"), as<Pressure>(v, "air_pressure_Pa"))
      .transform([](const AirGap& g) {
        return outputs({{"coefficient_W_m2K", g.coefficient_W_m2K}, {"nusselt", g.nusselt}, {"rayleigh", g.rayleigh}});
      });
}

Result<Answer> radiation(const Values& v) {
  return radiationCoefficient(as<Temperature>(v, "first_C"), as<Temperature>(v, "second_C"),
                              number(v, "first_emittance"), number(v, "second_emittance"))
      .transform(coefficientAnswer);
}

Result<Answer> top(const Values& v) {
  CoveredAbsorber absorber;
  absorber.absorber = as<Temperature>(v, "absorber_C");
  absorber.air = as<Temperature>(v, "air_C");
  absorber.sky = as<Temperature>(v, "sky_C");
  absorber.wind = as<HeatTransferCoefficient>(v, "wind_W_m2K");
  absorber.absorberEmittance = number(v, "absorber_emittance");
  absorber.coverEmittance = number(v, "cover_emittance");
  absorber.coverResistance_m2K_W = number(v, "cover_resistance_m2K_W");
  absorber.gap = as<Length>(v, "gap_m");
  absorber.tilt = as<Angle>(v, "tilt_deg");
  absorber.airPressure = as<Pressure>(v, "air_pressure_Pa");
  return topLoss(absorber).transform([](const TopLoss& loss) {
    return outputs({{"coefficient_W_m2K", loss.coefficient_W_m2K},
                    {"surroundings_C", Temperature::fromKelvin(loss.surroundings_K).inCelsius()},
                    {"cover_inside_C", Temperature::fromKelvin(loss.coverInside_K).inCelsius()},
                    {"cover_outside_C", Temperature::fromKelvin(loss.coverOutside_K).inCelsius()},
                    {"gap_convection_W_m2K", loss.gapConvection_W_m2K},
                    {"gap_radiation_W_m2K", loss.gapRadiation_W_m2K},
                    {"cover_radiation_W_m2K", loss.coverRadiation_W_m2K}});
  });
}

Result<Answer> topKlein(const Values& v) {
  return topLossKlein(wholeNumber(v, "covers"), as<Temperature>(v, "absorber_C"), as<Temperature>(v, "air_C"),
                      as<HeatTransferCoefficient>(v, "wind_W_m2K"), number(v, "absorber_emittance"),
                      number(v, "cover_emittance"), as<Angle>(v, "tilt_deg"))
      .transform(coefficientAnswer);
}

Input windSpeed() { return input("wind_m_s", "wind along the panel", 0.0, 60.0); }
Input windInput() { return input("wind_W_m2K", "wind coefficient on the cover", 1e-3, 1000.0); }
Input emittance(std::string_view key, std::string_view meaning, std::optional<double> standard = std::nullopt) {
  return input(key, meaning, 0.001, 1.0, standard);
}
Input absorberEmittance() { return emittance("absorber_emittance", "long-wave emittance of the absorber", 0.95); }
Input coverEmittance() { return emittance("cover_emittance", "long-wave emittance of the cover", 0.88); }
Input gapInput() { return input("gap_m", "air gap between the plates", 1e-4, 1.0); }

}  // namespace

std::vector<Topic> lossTopics() {
  return {
      {"wind-coefficient",
       "heat lost to the wind by a flat plate",
       {windSpeed()},
       {"watmuff_W_m2K", "mcadams_W_m2K"},
       wind,
       "Watmuff: 2.8 + 3.0 V; McAdams: 5.7 + 3.8 V",
       "[Watmuff1977]; [McAdams1954]; as in [DB] section 3.15",
       "0 to 7 m/s, used as it stands above; Watmuff is convection alone (the engine's), McAdams holds some radiation"},
      {"wind-coefficient-building",
       "heat lost to the wind on a roof",
       {windSpeed(), input("size_m", "cube root of the building's volume", 0.01, 1000.0)},
       {"coefficient_W_m2K"},
       windOnBuilding,
       "max(5, 8.6 V^0.6/L^0.4)",
       "[DB] eq. 3.15.10 (Mitchell 1976)",
       ""},
      {"hollands",
       "Nusselt number of an inclined air gap heated from below",
       {input("rayleigh", "Rayleigh number of the gap", 0.0, 1e12),
        input("tilt_deg", "tilt of the gap, 0 lying flat", 0.0, 75.0)},
       {"nusselt"},
       hollands,
       "1 + 1.44 (1 - 1708 (sin 1.8 b)^1.6/(Ra cos b)) [1 - 1708/(Ra cos b)]+ + [(Ra cos b/5830)^(1/3) - 1]+",
       "[Hollands1976], constants from memory",
       "0 to 75 degrees, Ra up to about 1e5"},
      {"air-gap",
       "convection across an inclined air gap",
       {temperature("lower_C", "temperature of the lower plate"),
        temperature("upper_C", "temperature of the upper plate"), gapInput(), tilt(), airPressure()},
       {"coefficient_W_m2K", "nusselt", "rayleigh"},
       gap,
       "h = Nu k/gap, Ra = g dT gap^3/(T nu alpha), see hollands",
       "[Hollands1976], constants from memory; [USSA1976]; 75 to 90 degrees: assumption, the value at 75",
       "-60 to 250 C; still air when the upper plate is the warmer one"},
      {"radiation",
       "radiation between parallel plates as a coefficient",
       {temperature("first_C", "temperature of the first plate"),
        temperature("second_C", "temperature of the second plate"),
        emittance("first_emittance", "emittance of the first plate"),
        emittance("second_emittance", "emittance of the second plate")},
       {"coefficient_W_m2K"},
       radiation,
       "sigma (T1^2 + T2^2)(T1 + T2)/(1/e1 + 1/e2 - 1)",
       "[DB] eq. 3.10.1",
       "grey parallel plates"},
      {"top-loss",
       "loss through one cover, by iterating its temperature",
       {temperature("absorber_C", "mean temperature of the absorber"), temperature("air_C", "air temperature"),
        temperature("sky_C", "temperature of what the cover radiates to"), windInput(), absorberEmittance(),
        coverEmittance(), input("cover_resistance_m2K_W", "resistance of the cover to heat", 0.0, 10.0, 0.0),
        gapInput(), tilt(), airPressure()},
       {"coefficient_W_m2K", "surroundings_C", "cover_inside_C", "cover_outside_C", "gap_convection_W_m2K",
        "gap_radiation_W_m2K", "cover_radiation_W_m2K"},
       top,
       "heat through gap = heat to wind and sky",
       "[DB] section 6.4, eq. 6.4.1 to 6.4.8",
       "a cover that stops long-wave; the coefficient counts from the surroundings' temperature given"},
      {"top-loss-klein",
       "loss through covers by Klein's formula",
       {whole("covers", "number of covers", 1.0, 5.0, 1.0),
        temperature("absorber_C", "mean temperature of the absorber"), temperature("air_C", "air temperature"),
        windInput(), absorberEmittance(), coverEmittance(), tilt()},
       {"coefficient_W_m2K"},
       topKlein,
       "1/(N/(C/T ((T - Ta)/(N + f))^e) + 1/h) + sigma (T + Ta)(T^2 + Ta^2)/(1/(ep + 0.00591 N h) + "
       "(2 N + f - 1 + 0.133 ep)/eg - N)",
       "[DB] eq. 6.4.9 (Klein 1979), constants from memory",
       "absorber warmer than air; within 0.3 W/(m2 K) of top-loss; sky at air temperature"},
  };
}

}  // namespace sunspool::calc::detail
