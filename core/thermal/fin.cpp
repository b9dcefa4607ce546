// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/fin.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "core/thermal/checked.h"
#include "core/thermal/kernels.h"
#include "core/thermal/loss.h"
#include "core/thermal/root.h"

namespace sunspool::thermal {
namespace {

constexpr double kTiny = 1e-12, kHuge = 1e12;
constexpr double kHottest_K = 3000.0;

Bounded positive(const char* name, Length value) { return {name, value.si(), kTiny, kHuge, Dimension::Length}; }
Bounded positive(const char* name, HeatTransferCoefficient value) {
  return {name, value.si(), kTiny, kHuge, Dimension::HeatTransferCoefficient};
}
Bounded notNegative(const char* name, HeatTransferCoefficient value) {
  return {name, value.si(), 0.0, kHuge, Dimension::HeatTransferCoefficient};
}
Bounded positive(const char* name, ThermalConductivity value) {
  return {name, value.si(), kTiny, kHuge, Dimension::ThermalConductivity};
}
Bounded share(const char* name, double value) { return {name, value, kTiny, 1.0}; }
Bounded temperature(const char* name, Temperature value) {
  return {name, value.inKelvin(), 1.0, kHottest_K, Dimension::Temperature};
}
Bounded irradiance(Irradiance value) { return {"irradiance", value.si(), 0.0, 1e5, Dimension::Irradiance}; }

}  // namespace

Result<FinResult> finnedTube(const FinnedTube& t) {
  if (auto error =
          outside("fin", {positive("loss", t.loss),
                          positive("plate_conductivity", t.plateConductivity),
                          positive("plate_thickness", t.plateThickness),
                          positive("outside_diameter", t.outsideDiameter),
                          {"pitch", t.pitch.si(), t.outsideDiameter.si(), kHuge, Dimension::Length},
                          {"inside_diameter", t.insideDiameter.si(), kTiny, t.outsideDiameter.si(), Dimension::Length},
                          positive("film", t.film),
                          {"bond_conductance", t.bondConductance_W_mK, 0.0, kHuge}})) {
    return *error;
  }
  const double u = t.loss.si(), w = t.pitch.si(), d = t.outsideDiameter.si();
  FinResult result;
  result.parameter_1_m = std::sqrt(u / (t.plateConductivity.si() * t.plateThickness.si()));
  const double x = result.parameter_1_m * 0.5 * (w - d);
  result.finEfficiency = x < 1e-6 ? 1.0 : std::tanh(x) / x;
  const double bond = t.bondConductance_W_mK > 0.0 ? 1.0 / t.bondConductance_W_mK : 0.0;
  const double resistance = 1.0 / (u * (d + (w - d) * result.finEfficiency)) + bond +
                            1.0 / (std::numbers::pi * t.insideDiameter.si() * t.film.si());
  result.efficiencyFactor = 1.0 / (u * w * resistance);
  if (!std::isfinite(result.efficiencyFactor)) return Error{ErrorCode::NotFinite, "fin", {}, {}};
  return result;
}

Result<double> wallResistance_mK_W(Length outsideDiameter, Length insideDiameter, ThermalConductivity conductivity) {
  if (auto error =
          outside("wall", {positive("outside_diameter", outsideDiameter),
                           {"inside_diameter", insideDiameter.si(), kTiny, outsideDiameter.si(), Dimension::Length},
                           positive("wall_conductivity", conductivity)})) {
    return *error;
  }
  return finite("wall",
                std::log(outsideDiameter.si() / insideDiameter.si()) / (2.0 * std::numbers::pi * conductivity.si()));
}

Result<double> matEfficiencyFactor(HeatTransferCoefficient loss, Length pitch, Length outsideDiameter,
                                   Length insideDiameter, ThermalConductivity wallConductivity,
                                   HeatTransferCoefficient film) {
  if (auto error = outside("mat", {notNegative("loss", loss), positive("pitch", pitch), positive("film", film)})) {
    return *error;
  }
  const Result<double> wall = wallResistance_mK_W(outsideDiameter, insideDiameter, wallConductivity);
  if (!wall) return wall;
  const double resistance = *wall + 1.0 / (std::numbers::pi * insideDiameter.si() * film.si());
  return finite("mat", 1.0 / (1.0 + loss.si() * pitch.si() * resistance));
}

Result<HeatRemoval> heatRemoval(double heatCapacityFlow_W_K, Area area, HeatTransferCoefficient loss,
                                double efficiencyFactor) {
  if (auto error = outside("heat_removal", {{"heat_capacity_flow", heatCapacityFlow_W_K, kTiny, kHuge},
                                            {"area", area.si(), kTiny, kHuge, Dimension::Area},
                                            positive("loss", loss),
                                            share("efficiency_factor", efficiencyFactor)})) {
    return *error;
  }
  HeatRemoval result;
  result.capacityRatio = heatCapacityFlow_W_K / (area.si() * loss.si() * efficiencyFactor);
  result.flowFactor = -result.capacityRatio * std::expm1(-1.0 / result.capacityRatio);
  result.removalFactor = efficiencyFactor * result.flowFactor;
  return result;
}

Result<Temperature> outletTemperature(Temperature inlet, Temperature air, Irradiance absorbed,
                                      HeatTransferCoefficient loss, double efficiencyFactor, Area area,
                                      double heatCapacityFlow_W_K) {
  if (auto error = outside("outlet", {temperature("inlet", inlet), temperature("air", air), irradiance(absorbed)})) {
    return *error;
  }
  const Result<HeatRemoval> removal = heatRemoval(heatCapacityFlow_W_K, area, loss, efficiencyFactor);
  if (!removal) return removal.error();
  const double equilibrium_K = air.inKelvin() + absorbed.si() / loss.si();
  return Temperature::fromKelvin(equilibrium_K -
                                 (equilibrium_K - inlet.inKelvin()) * std::exp(-1.0 / removal->capacityRatio));
}

Result<Temperature> stagnationOpen(const OpenAbsorber& a) {
  if (auto error =
          outside("stagnation_open", {share("absorptance", a.absorptance), share("emittance", a.emittance),
                                      irradiance(a.irradiance), temperature("air", a.air), temperature("sky", a.sky),
                                      positive("wind_coefficient", a.wind), notNegative("other_loss", a.other)})) {
    return *error;
  }
  const double air_K = a.air.inKelvin(), sky_K = a.sky.inKelvin();
  const auto surplus = [&](double t_K) {
    return a.absorptance * a.irradiance.si() - (a.wind.si() + a.other.si()) * (t_K - air_K) -
           kernel::radiationCoefficient_W_m2K(t_K, sky_K, a.emittance) * (t_K - sky_K);
  };
  const double hottest_K = air_K + a.absorptance * a.irradiance.si() / a.wind.si() + 1.0;
  const Root root = findRoot(surplus, std::min(air_K, sky_K) - 1.0, std::max(hottest_K, sky_K + 1.0), 1e-10);
  if (!root.found) return Error{ErrorCode::NotConverged, "stagnation_open", {}, {}};
  return Temperature::fromKelvin(root.x);
}

Result<Stagnation> stagnationGlazed(const GlazedAbsorber& a) {
  if (auto error = outside("stagnation_glazed", {{"transmittance_absorptance", a.transmittanceAbsorptance, 0.0, 1.0},
                                                 irradiance(a.irradiance),
                                                 notNegative("other_loss", a.other)})) {
    return *error;
  }
  const double air_K = a.air.inKelvin();
  const double absorbed_W_m2 = a.transmittanceAbsorptance * a.irradiance.si();
  if (absorbed_W_m2 <= 0.0) return Stagnation{a.air, a.other.si()};
  std::optional<Error> failed;
  double loss_W_m2K = 0.0;
  const auto surplus = [&](double t_K) {
    const auto top =
        topLossKlein(1, Temperature::fromKelvin(t_K), a.air, a.wind, a.emittance, a.coverEmittance, a.tilt);
    if (!top) {
      failed = top.error();
      return std::numeric_limits<double>::quiet_NaN();
    }
    loss_W_m2K = top->si() + a.other.si();
    return absorbed_W_m2 - loss_W_m2K * (t_K - air_K);
  };
  // The equation ends where the air's properties do; hotter than that is refused, not guessed.
  const Root root = findRoot(surplus, air_K + 1e-5, kernel::kHottestAir_K, 1e-10);
  if (failed) return *failed;
  if (!root.found) return Error{ErrorCode::NotConverged, "stagnation_glazed", {}, {}};
  return Stagnation{Temperature::fromKelvin(root.x), loss_W_m2K};
}

Result<WarmUp> warmUp(double capacity_J_m2K, HeatTransferCoefficient loss, Irradiance absorbed, Temperature air) {
  if (auto error = outside("warm_up", {{"capacity", capacity_J_m2K, kTiny, kHuge},
                                       positive("loss", loss),
                                       irradiance(absorbed),
                                       temperature("air", air)})) {
    return *error;
  }
  return WarmUp{air + kelvins(absorbed.si() / loss.si()), seconds(capacity_J_m2K / loss.si())};
}

Result<Duration> timeToReach(const WarmUp& lump, Temperature start, Temperature wanted) {
  const double whole_K = (lump.final - start).si(), left_K = (lump.final - wanted).si();
  const double share = left_K / whole_K;
  if (!(share > 0.0 && share <= 1.0)) {
    return Error{ErrorCode::OutOfRange,
                 "warm_up",
                 "wanted",
                 {{"value", wanted.inKelvin(), Dimension::Temperature},
                  {"start", start.inKelvin(), Dimension::Temperature},
                  {"final", lump.final.inKelvin(), Dimension::Temperature}}};
  }
  return seconds(-lump.timeConstant.si() * std::log(share));
}

}  // namespace sunspool::thermal
