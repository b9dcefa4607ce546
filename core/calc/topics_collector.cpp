// SPDX-License-Identifier: GPL-3.0-or-later
// From absorbed sun to warm water, and without flow.
#include "core/calc/topic.h"
#include "core/thermal/fin.h"

namespace sunspool::calc::detail {
namespace {

using namespace thermal;

Result<Answer> fin(const Values& v) {
  FinnedTube tube;
  tube.loss = as<HeatTransferCoefficient>(v, "loss_W_m2K");
  tube.plateConductivity = as<ThermalConductivity>(v, "plate_conductivity_W_mK");
  tube.plateThickness = as<Length>(v, "plate_thickness_m");
  tube.pitch = as<Length>(v, "pitch_m");
  tube.outsideDiameter = as<Length>(v, "outside_diameter_m");
  tube.insideDiameter = as<Length>(v, "inside_diameter_m");
  tube.film = as<HeatTransferCoefficient>(v, "film_W_m2K");
  tube.bondConductance_W_mK = number(v, "bond_W_mK");
  return finnedTube(tube).transform([](const FinResult& result) {
    return outputs({{"parameter_1_m", result.parameter_1_m},
                    {"fin_efficiency", result.finEfficiency},
                    {"efficiency_factor", result.efficiencyFactor}});
  });
}

Result<Answer> mat(const Values& v) {
  return matEfficiencyFactor(as<HeatTransferCoefficient>(v, "loss_W_m2K"), as<Length>(v, "pitch_m"),
                             as<Length>(v, "outside_diameter_m"), as<Length>(v, "inside_diameter_m"),
                             as<ThermalConductivity>(v, "conductivity_W_mK"),
                             as<HeatTransferCoefficient>(v, "film_W_m2K"))
      .transform([](double factor) {
        return outputs({{"efficiency_factor", factor}});
      });
}

Result<Answer> removal(const Values& v) {
  return heatRemoval(number(v, "heat_capacity_flow_W_K"), as<Area>(v, "area_m2"),
                     as<HeatTransferCoefficient>(v, "loss_W_m2K"), number(v, "efficiency_factor"))
      .transform([](const HeatRemoval& r) {
        return outputs(
            {{"capacity_ratio", r.capacityRatio}, {"flow_factor", r.flowFactor}, {"removal_factor", r.removalFactor}});
      });
}

Result<Answer> outlet(const Values& v) {
  return outletTemperature(as<Temperature>(v, "inlet_C"), as<Temperature>(v, "air_C"),
                           as<Irradiance>(v, "absorbed_W_m2"), as<HeatTransferCoefficient>(v, "loss_W_m2K"),
                           number(v, "efficiency_factor"), as<Area>(v, "area_m2"), number(v, "heat_capacity_flow_W_K"))
      .transform([](Temperature t) {
        return outputs({{"outlet_C", t.inCelsius()}});
      });
}

Result<Answer> stagnation(const Values& v) {
  OpenAbsorber absorber;
  absorber.absorptance = number(v, "absorptance");
  absorber.emittance = number(v, "emittance");
  absorber.irradiance = as<Irradiance>(v, "irradiance_W_m2");
  absorber.air = as<Temperature>(v, "air_C");
  absorber.sky = as<Temperature>(v, "sky_C");
  absorber.wind = as<HeatTransferCoefficient>(v, "wind_W_m2K");
  absorber.other = as<HeatTransferCoefficient>(v, "other_W_m2K");
  return stagnationOpen(absorber).transform([](Temperature t) { return outputs({{"absorber_C", t.inCelsius()}}); });
}

Result<Answer> stagnationCovered(const Values& v) {
  GlazedAbsorber absorber;
  absorber.transmittanceAbsorptance = number(v, "tau_alpha");
  absorber.emittance = number(v, "emittance");
  absorber.coverEmittance = number(v, "cover_emittance");
  absorber.irradiance = as<Irradiance>(v, "irradiance_W_m2");
  absorber.air = as<Temperature>(v, "air_C");
  absorber.wind = as<HeatTransferCoefficient>(v, "wind_W_m2K");
  absorber.other = as<HeatTransferCoefficient>(v, "other_W_m2K");
  absorber.tilt = as<Angle>(v, "tilt_deg");
  return stagnationGlazed(absorber).transform([](const Stagnation& s) {
    return outputs({{"absorber_C", s.absorber.inCelsius()}, {"loss_W_m2K", s.lossCoefficient_W_m2K}});
  });
}

Result<Answer> warming(const Values& v) {
  const auto lump = warmUp(number(v, "capacity_J_m2K"), as<HeatTransferCoefficient>(v, "loss_W_m2K"),
                           as<Irradiance>(v, "absorbed_W_m2"), as<Temperature>(v, "air_C"));
  if (!lump) return lump.error();
  return timeToReach(*lump, as<Temperature>(v, "start_C"), as<Temperature>(v, "wanted_C"))
      .transform([&](Duration time) {
        return outputs({{"final_C", lump->final.inCelsius()},
                        {"time_constant_s", lump->timeConstant.si()},
                        {"time_to_reach_s", time.si()}});
      });
}

Input loss() { return input("loss_W_m2K", "loss coefficient of the panel", 1e-3, 1000.0); }
Input pitch() { return input("pitch_m", "distance between neighbouring centre lines", 1e-3, 10.0); }
Input film() { return input("film_W_m2K", "film coefficient on the inner wall", 0.1, 1e6); }
Input area() { return input("area_m2", "area of the panel", 1e-4, 1e6); }
Input capacityFlow() { return input("heat_capacity_flow_W_K", "mass flow times specific heat", 1e-3, 1e9); }
Input factor() { return input("efficiency_factor", "collector efficiency factor F'", 1e-3, 1.0); }
Input absorbed() { return input("absorbed_W_m2", "sun absorbed per area", 0.0, 2000.0); }
Input irradiance() { return input("irradiance_W_m2", "sun on the plane", 0.0, 2000.0); }
Input windInput() { return input("wind_W_m2K", "wind coefficient", 0.1, 1000.0); }
Input other() { return input("other_W_m2K", "loss of back and edges", 0.0, 1000.0, 0.0); }
Input emittance() { return share("emittance", "long-wave emittance of the absorber", 0.95); }
Input air() { return temperature("air_C", "air temperature"); }

}  // namespace

std::vector<Topic> collectorTopics() {
  return {
      {"fin",
       "efficiency factor of a plate with tubes bonded to it",
       {loss(), input("plate_conductivity_W_mK", "heat conductivity of the plate", 1e-3, 1000.0),
        input("plate_thickness_m", "thickness of the plate", 1e-6, 0.1), pitch(), outsideDiameter(), insideDiameter(),
        film(), input("bond_W_mK", "conductance of the bond, 0 for a perfect one", 0.0, 1e6, 0.0)},
       {"parameter_1_m", "fin_efficiency", "efficiency_factor"},
       fin,
       "m = sqrt(U/(k t)); F = tanh(x)/x, x = m (W - D)/2; "
       "F' = (1/U)/(W (1/(U (D + (W - D) F)) + 1/Cb + 1/(pi Di h)))",
       "[DB] section 6.5, eq. 6.5.12 and 6.5.18",
       "pitch at least the diameter"},
      {"mat",
       "efficiency factor of tubes side by side without a plate",
       {loss(), pitch(), outsideDiameter(), insideDiameter(),
        input("conductivity_W_mK", "heat conductivity of the wall", 1e-3, 500.0, 0.33), film()},
       {"efficiency_factor"},
       mat,
       "F' = 1/(1 + U W (ln(Do/Di)/(2 pi k) + 1/(pi Di h)))",
       "[DB] section 6.5 without the fin and with the wall",
       "uniform flux on the wall"},
      {"heat-removal",
       "heat removal factor",
       {capacityFlow(), area(), loss(), factor()},
       {"capacity_ratio", "flow_factor", "removal_factor"},
       removal,
       "F_R = m c/(A U) (1 - exp(-A U F'/(m c)))",
       "[DB] eq. 6.7.4 and 6.7.5",
       ""},
      {"outlet",
       "temperature of the water at the outlet",
       {temperature("inlet_C", "water at the inlet"), air(), absorbed(), loss(), factor(), area(), capacityFlow()},
       {"outlet_C"},
       outlet,
       "To = Ta + S/U - (Ta + S/U - Ti) exp(-U F' A/(m c))",
       "[DB] eq. 6.6.4",
       "one loss coefficient along the flow; heat stored left out"},
      {"stagnation",
       "temperature of an open absorber without flow",
       {share("absorptance", "absorptance of the absorber for sun", 0.95), emittance(), irradiance(), air(),
        temperature("sky_C", "temperature of the sky"), windInput(), other()},
       {"absorber_C"},
       stagnation,
       "alpha G = h (T - Ta) + e sigma (T^4 - Tsky^4) + U (T - Ta)",
       "heat balance of the surface, no source needed",
       "dry, at rest: an upper bound"},
      {"stagnation-glazed",
       "temperature of an absorber under one cover without flow",
       {share("tau_alpha", "share of the sun that the absorber keeps", 0.8), emittance(),
        input("cover_emittance", "long-wave emittance of the cover", 0.001, 1.0, 0.88), irradiance(), air(),
        windInput(), other(), tilt()},
       {"absorber_C", "loss_W_m2K"},
       stagnationCovered,
       "T = Ta + S/U(T), top loss of top-loss-klein",
       "[DB] eq. 6.4.9 (Klein 1979), constants from memory",
       "dry, at rest: an upper bound"},
      {"warm-up",
       "warming of a lump",
       {input("capacity_J_m2K", "heat capacity per area", 1.0, 1e9), loss(), absorbed(), air(),
        temperature("start_C", "temperature at the start"), temperature("wanted_C", "temperature wanted")},
       {"final_C", "time_constant_s", "time_to_reach_s"},
       warming,
       "T = Tf - (Tf - T0) exp(-t/tau), Tf = Ta + S/U, tau = C/U",
       "first-order lag, no source needed",
       "one temperature throughout, the wanted one between start and final"},
  };
}

}  // namespace sunspool::calc::detail
