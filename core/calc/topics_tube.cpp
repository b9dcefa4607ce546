// SPDX-License-Identifier: GPL-3.0-or-later
// What a polyethylene tube stands.
#include "core/calc/topic.h"
#include "core/materials/tube.h"

namespace sunspool::calc::detail {
namespace {

using namespace materials;

double dimensionRatioOf(const Values& v) {
  return dimensionRatio(as<Length>(v, "outside_diameter_m"), as<Length>(v, "wall_m"));
}

/// The closed forms of a ring ask for a hollow tube.
Result<Done> hollow(const Values& v) {
  const double outside = number(v, "outside_diameter_m"), wall = number(v, "wall_m");
  if (2.0 * wall < outside) return Done{};
  return Error{ErrorCode::OutOfRange,
               "/wall_m",
               {},
               {{"value", wall, Dimension::Length}, {"highest", outside / 2.0, Dimension::Length}}};
}

Result<Answer> bend(const Values& v) {
  const Result<Done> tube = hollow(v);
  if (!tube) return tube.error();
  const Length outside = as<Length>(v, "outside_diameter_m"), radius = as<Length>(v, "bend_radius_m");
  const Length collapse = brazierCollapseRadius(outside, as<Length>(v, "wall_m"), number(v, "poisson_ratio"));
  const double index = bendIndex(collapse, radius);
  return outputs({{"collapse_radius_m", collapse.si()},
                  {"bend_index", index},
                  {"ovality", ovality(index)},
                  {"strain", bendingStrain(outside, radius)}});
}

Result<Answer> bendMoment(const Values& v) {
  const Result<Done> tube = hollow(v);
  if (!tube) return tube.error();
  return outputs(
      {{"collapse_moment_N_m", brazierCollapseMoment_N_m(as<Length>(v, "outside_diameter_m"), as<Length>(v, "wall_m"),
                                                         number(v, "poisson_ratio"), as<Pressure>(v, "modulus_Pa"))}});
}

Result<Answer> handbookBend(const Values& v) {
  const double ratio = dimensionRatioOf(v);
  return handbookBendMultiple(ratio).transform([&](double multiple) {
    return outputs({{"dimension_ratio", ratio},
                    {"bend_multiple", multiple},
                    {"bend_radius_m", (multiple * as<Length>(v, "outside_diameter_m")).si()}});
  });
}

Result<Answer> wallResistance(const Values& v) {
  const Length outside = as<Length>(v, "outside_diameter_m"), inside = as<Length>(v, "inside_diameter_m");
  return wallOf(outside, inside).transform([&](Length thickness) {
    return outputs({{"wall_m", thickness.si()},
                    {"wall_resistance_mK_W",
                     wallResistance_mK_W(outside, inside, as<ThermalConductivity>(v, "conductivity_W_mK"))}});
  });
}

Result<Answer> hoop(const Values& v) {
  const Result<Done> tube = hollow(v);
  if (!tube) return tube.error();
  return outputs({{"pressure_Pa", hoopPressure(as<Pressure>(v, "hoop_stress_Pa"), dimensionRatioOf(v)).si()}});
}

Result<Answer> stress(const Values& v) {
  const Result<Done> tube = hollow(v);
  if (!tube) return tube.error();
  return outputs({{"hoop_stress_Pa", hoopStress(as<Pressure>(v, "pressure_Pa"), dimensionRatioOf(v)).si()}});
}

Result<Answer> suctionCollapse(const Values& v) {
  const Result<Done> tube = hollow(v);
  if (!tube) return tube.error();
  return outputs(
      {{"collapse_pressure_Pa",
        collapsePressure(as<Pressure>(v, "modulus_Pa"), number(v, "poisson_ratio"), dimensionRatioOf(v)).si()}});
}

Result<Answer> modulus(const Values& v) {
  const auto duration = as<Duration>(v, "duration_s");
  const auto softer = apparentModulus(PolyethyleneClass::Pe2xxx, duration);
  if (!softer) return softer.error();
  return apparentModulus(PolyethyleneClass::Pe3xxx, duration).transform([&](Pressure harder) {
    return outputs({{"pe2xxx_Pa", softer->si()}, {"pe3xxx_Pa", harder.si()}});
  });
}

Result<Answer> modulusWarm(const Values& v) {
  return modulusTemperatureMultiplier(as<Temperature>(v, "tube_C")).transform([](double multiplier) {
    return outputs({{"multiplier", multiplier}});
  });
}

Result<Answer> pressureSoft(const Values& v) {
  const auto tube = as<Temperature>(v, "tube_C");
  const auto part = softTubePressureShare(tube);
  if (!part) return part.error();
  return softTubePressureRating(as<Pressure>(v, "rating_at_20C_Pa"), tube).transform([&](Pressure rating) {
    return outputs({{"rating_Pa", rating.si()}, {"share", *part}});
  });
}

Result<Answer> pressurePe100(const Values& v) {
  return pe100PressureShare(as<Temperature>(v, "tube_C")).transform([](double part) {
    return outputs({{"share", part}});
  });
}

Result<Answer> growth(const Values& v) {
  return outputs({{"growth_m", thermalGrowth(as<Length>(v, "length_m"), as<ThermalExpansion>(v, "expansion_1_K"),
                                             as<TemperatureDifference>(v, "warming_K"))
                                   .si()}});
}

Input poisson() { return input("poisson_ratio", "Poisson's ratio of the material", 0.0, 0.5, 0.45); }
Input modulusInput() { return input("modulus_Pa", "modulus for the duration and temperature of the load", 1e3, 1e12); }
Input tubeTemperature() { return input("tube_C", "temperature of the tube", -20.0, 110.0); }

}  // namespace

std::vector<Topic> tubeTopics() {
  return {
      {"bend",
       "flattening and strain of a bent tube",
       {outsideDiameter(), input("wall_m", "minimum thickness of the wall", 1e-5, 1.0),
        input("bend_radius_m", "radius of the bend's centre line", 1e-4, 1e5), poisson()},
       {"collapse_radius_m", "bend_index", "ovality", "strain"},
       bend,
       "Rc = r^2 sqrt(1 - nu^2)/(sqrt(2)/3 t), r = (OD - t)/2; I = Rc/R; ovality (2/9) I^2; strain OD/(2 R)",
       "[Brazier1927], constants from memory",
       "thin elastic walls, r/t from about 10; thicker tube that creeps: a lower bound of collapse, never an "
       "allowance"},
      {"bend-moment",
       "bending moment at which a tube collapses",
       {outsideDiameter(), wall(), modulusInput(), poisson()},
       {"collapse_moment_N_m"},
       bendMoment,
       "M = 2 sqrt(2)/9 pi E r t^2/sqrt(1 - nu^2)",
       "[Brazier1927], constants from memory",
       "thin elastic walls"},
      {"handbook-bend",
       "smallest bend of pressure pipe by the handbook",
       {outsideDiameter(), wall()},
       {"dimension_ratio", "bend_multiple", "bend_radius_m"},
       handbookBend,
       "R = multiple x OD, by DR = OD/t",
       "[PPI] table of minimum cold bend radii",
       "DR up to 41, no fitting in the bend (100 OD there)"},
      {"wall-resistance",
       "resistance of the tube's wall to heat, for one metre",
       {outsideDiameter(), insideDiameter(),
        input("conductivity_W_mK", "heat conductivity of the wall", 1e-3, 500.0, 0.33)},
       {"wall_m", "wall_resistance_mK_W"},
       wallResistance,
       "R = ln(OD/ID)/(2 pi k)",
       "conduction through a cylinder, all handbooks",
       "inside diameter below outside diameter"},
      {"hoop",
       "pressure that a hoop stress carries",
       {input("hoop_stress_Pa", "stress in the wall", 0.0, 1e10), outsideDiameter(), wall()},
       {"pressure_Pa"},
       hoop,
       "p = 2 stress/(OD/t - 1)",
       "[PPI]",
       "thin-walled ring"},
      {"hoop-stress",
       "hoop stress under a pressure",
       {input("pressure_Pa", "pressure above the outside", 0.0, 1e10), outsideDiameter(), wall()},
       {"hoop_stress_Pa"},
       stress,
       "stress = p (OD/t - 1)/2",
       "[PPI]",
       "thin-walled ring"},
      {"suction-collapse",
       "outside overpressure that presses a tube flat",
       {outsideDiameter(), wall(), modulusInput(), poisson()},
       {"collapse_pressure_Pa"},
       suctionCollapse,
       "p = 2 E/(1 - nu^2)/(OD/t - 1)^3",
       "standard thin-ring result, from memory",
       "long round tube; halve it for an oval one; modulus for the duration and temperature of the suction"},
      {"modulus",
       "apparent modulus of polyethylene at 23 C under a load that lasts",
       {input("duration_s", "duration of the load", 1800.0, 1.5779e9)},
       {"pe2xxx_Pa", "pe3xxx_Pa"},
       modulus,
       "table, straight in the logarithm of time",
       "[PPI] chapter 3, table B.1.1",
       "half an hour to 50 years; low-density tube is softer, about 0.14 to 0.3 GPa for short loads"},
      {"modulus-temperature",
       "multiplier on the modulus of polyethylene when warm",
       {tubeTemperature()},
       {"multiplier"},
       modulusWarm,
       "table, straight between the rows, 1 at 23 C",
       "[PPI] chapter 3, table B.1.2, from memory",
       "4 to 60 C"},
      {"pressure-at-temperature",
       "pressure rating of soft polyethylene tube when warm",
       {input("rating_at_20C_Pa", "rating at 20 C", 0.0, 1e8), tubeTemperature()},
       {"rating_Pa", "share"},
       pressureSoft,
       "1 up to 23 C, straight to 0.5 at 43 C and on to 50 C",
       "assumption, after Utah State University, Sprinkle and Trickle Irrigation, lecture 21",
       "up to 50 C; no pressure may be claimed above"},
      {"pe100-pressure-at-temperature",
       "share of its 20 C rating that PE100 pressure pipe keeps",
       {tubeTemperature()},
       {"share"},
       pressurePe100,
       "1 to 20 C, 0.94 at 30, 0.845 at 40, 0.68 at 60, straight between",
       "[ASNZS4130] as reproduced by a maker",
       "up to 60 C"},
      {"growth",
       "growth of a tube when it warms",
       {input("length_m", "length of the tube", 0.0, 1e6),
        input("expansion_1_K", "thermal growth per kelvin", 0.0, 0.01, 1.8e-4),
        input("warming_K", "warming, negative for cooling", -500.0, 500.0)},
       {"growth_m"},
       growth,
       "dL = a L dT",
       "definition; tables give 1e-4 to 2.2e-4 1/K for low density, from memory",
       "free to move"},
  };
}

}  // namespace sunspool::calc::detail
