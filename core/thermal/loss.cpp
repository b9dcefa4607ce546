// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/loss.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/materials/air.h"
#include "core/thermal/checked.h"
#include "core/thermal/kernels.h"
#include "core/thermal/root.h"

namespace sunspool::thermal {
namespace {

constexpr double kColdest_K = kernel::kColdestAir_K, kHottest_K = kernel::kHottestAir_K;
constexpr double kSteepestHollands_rad = 75.0 * std::numbers::pi / 180.0;
constexpr double kSteepest_rad = 90.0 * std::numbers::pi / 180.0 + 1e-12;
constexpr double kTinyEmittance = 1e-6;

Bounded temperature(const char* name, Temperature value) {
  return {name, value.inKelvin(), kColdest_K, kHottest_K, Dimension::Temperature};
}
Bounded emittance(const char* name, double value) { return {name, value, kTinyEmittance, 1.0}; }
Bounded windFilm(HeatTransferCoefficient value) {
  return {"wind_coefficient", value.si(), 1e-6, 1e6, Dimension::HeatTransferCoefficient};
}
Bounded tiltBelow(double highest_rad, Angle value) {
  return {"tilt", value.radians(), 0.0, highest_rad, Dimension::Angle};
}
Bounded gapWidth(Length value) { return {"air_gap", value.si(), 1e-5, 10.0, Dimension::Length}; }
Bounded pressure(Pressure value) { return {"air_pressure", value.si(), 1e3, 1e6, Dimension::Pressure}; }

struct GapState {
  double rayleigh, nusselt, coefficient_W_m2K;
};
GapState gapState(double lower_K, double upper_K, double gap_m, double tilt_rad, double pressure_Pa) {
  const double mean_K = 0.5 * (lower_K + upper_K);
  // Only trial values of an iteration can lie outside the range of the air equations; no result does.
  const Temperature inRange = Temperature::fromKelvin(std::clamp(mean_K, kColdest_K, kHottest_K));
  const materials::Air air = *materials::airAt(inRange, pascals(pressure_Pa));
  GapState state{0.0, 1.0, air.conductivity.si() / gap_m};
  if (lower_K <= upper_K) return state;
  state.rayleigh = kStandardGravity_m_s2 * (lower_K - upper_K) * gap_m * gap_m * gap_m /
                   (mean_K * air.kinematicViscosity_m2_s * air.diffusivity_m2_s);
  state.nusselt = kernel::nusseltHollands(state.rayleigh, std::min(tilt_rad, kSteepestHollands_rad));
  state.coefficient_W_m2K *= state.nusselt;
  return state;
}

}  // namespace

double kernel::windCoefficient_W_m2K(double wind_m_s) { return 2.8 + 3.0 * wind_m_s; }

double kernel::nusseltHollands(double rayleigh, double tilt_rad) {
  const double along = rayleigh * std::cos(tilt_rad);
  if (along <= 1708.0) return 1.0;
  const double first = 1.0 - 1708.0 * std::pow(std::sin(1.8 * tilt_rad), 1.6) / along;
  return 1.0 + 1.44 * first * (1.0 - 1708.0 / along) + std::max(0.0, std::cbrt(along / 5830.0) - 1.0);
}

double kernel::gapCoefficient_W_m2K(double lower_K, double upper_K, double gap_m, double tilt_rad, double pressure_Pa) {
  return gapState(lower_K, upper_K, gap_m, tilt_rad, pressure_Pa).coefficient_W_m2K;
}

double kernel::radiationCoefficient_W_m2K(double first_K, double second_K, double exchange) {
  return kStefanBoltzmann_W_m2K4 * exchange * (first_K * first_K + second_K * second_K) * (first_K + second_K);
}

kernel::Cover kernel::coverBalance(const CoverInputs& in) {
  // Heat leaving the outer face of the cover grows with its temperature, heat arriving from the absorber falls: one
  // root, between the coldest and the hottest of absorber, air and sky.
  Cover cover;
  const auto balance = [&](double outside_K) {
    cover.coverRadiation_W_m2K = radiationCoefficient_W_m2K(outside_K, in.sky_K, in.coverEmittance);
    const double leaving_W_m2 =
        in.wind_W_m2K * (outside_K - in.air_K) + cover.coverRadiation_W_m2K * (outside_K - in.sky_K);
    cover.outside_K = outside_K;
    cover.inside_K = std::max(1.0, outside_K + leaving_W_m2 * in.coverResistance_m2K_W);
    cover.gapConvection_W_m2K =
        gapCoefficient_W_m2K(in.absorber_K, cover.inside_K, in.gap_m, in.tilt_rad, in.airPressure_Pa);
    cover.gapRadiation_W_m2K = radiationCoefficient_W_m2K(in.absorber_K, cover.inside_K, in.gapExchange);
    const double arriving_W_m2 =
        in.absorberArea * (cover.gapConvection_W_m2K + cover.gapRadiation_W_m2K) * (in.absorber_K - cover.inside_K);
    return leaving_W_m2 - arriving_W_m2;
  };
  const double low_K = std::min({in.absorber_K, in.air_K, in.sky_K});
  const double high_K = std::max({in.absorber_K, in.air_K, in.sky_K});
  const Root root = high_K - low_K < 1e-9 ? Root{low_K, 0.0, 0, true} : findRoot(balance, low_K, high_K, 1e-10);
  cover.found = root.found;
  cover.iterations = root.iterations;
  balance(root.x);
  const double outer_W_m2K = in.wind_W_m2K + cover.coverRadiation_W_m2K;
  const double gap_W_m2K = in.absorberArea * (cover.gapConvection_W_m2K + cover.gapRadiation_W_m2K);
  cover.coefficient_W_m2K = 1.0 / (1.0 / gap_W_m2K + in.coverResistance_m2K_W + 1.0 / outer_W_m2K);
  cover.surroundings_K = (in.wind_W_m2K * in.air_K + cover.coverRadiation_W_m2K * in.sky_K) / outer_W_m2K;
  return cover;
}

Result<HeatTransferCoefficient> windCoefficient(Velocity wind, WindFormula formula) {
  if (auto error = outside("wind", {{"wind", wind.si(), 0.0, 60.0, Dimension::Velocity}})) return *error;
  switch (formula) {
    case WindFormula::Watmuff:
      return wattsPerSquareMetreKelvin(kernel::windCoefficient_W_m2K(wind.si()));
    case WindFormula::McAdams:
      return wattsPerSquareMetreKelvin(5.7 + 3.8 * wind.si());
  }
  return Error{ErrorCode::OutOfRange, "wind", "formula", {}};
}

Result<HeatTransferCoefficient> windCoefficientOnBuilding(Velocity wind, Length size) {
  if (auto error = outside("wind", {{"wind", wind.si(), 0.0, 60.0, Dimension::Velocity},
                                    {"size", size.si(), 1e-3, 1e4, Dimension::Length}})) {
    return *error;
  }
  return wattsPerSquareMetreKelvin(std::max(5.0, 8.6 * std::pow(wind.si(), 0.6) / std::pow(size.si(), 0.4)));
}

Result<double> nusseltHollands(double rayleigh, Angle tilt) {
  if (auto error = outside("nusselt/hollands",
                           {{"rayleigh", rayleigh, 0.0, 1e12}, tiltBelow(kSteepestHollands_rad + 1e-12, tilt)})) {
    return *error;
  }
  return finite("nusselt/hollands", kernel::nusseltHollands(rayleigh, tilt.radians()));
}

Result<AirGap> airGap(Temperature lower, Temperature upper, Length gap, Angle tilt, Pressure air) {
  if (auto error = outside("air_gap", {temperature("lower_plate", lower), temperature("upper_plate", upper),
                                       gapWidth(gap), tiltBelow(kSteepest_rad, tilt), pressure(air)})) {
    return *error;
  }
  const GapState state = gapState(lower.inKelvin(), upper.inKelvin(), gap.si(), tilt.radians(), air.si());
  return AirGap{state.rayleigh, state.nusselt, state.coefficient_W_m2K};
}

Result<HeatTransferCoefficient> radiationCoefficient(Temperature first, Temperature second, double firstEmittance,
                                                     double secondEmittance) {
  if (auto error = outside("radiation", {{"first", first.inKelvin(), 0.0, 1e4, Dimension::Temperature},
                                         {"second", second.inKelvin(), 0.0, 1e4, Dimension::Temperature},
                                         emittance("first_emittance", firstEmittance),
                                         emittance("second_emittance", secondEmittance)})) {
    return *error;
  }
  return wattsPerSquareMetreKelvin(kernel::radiationCoefficient_W_m2K(
      first.inKelvin(), second.inKelvin(), 1.0 / (1.0 / firstEmittance + 1.0 / secondEmittance - 1.0)));
}

Result<TopLoss> topLoss(const CoveredAbsorber& a) {
  if (auto error = outside("top_loss", {temperature("absorber", a.absorber),
                                        temperature("air", a.air),
                                        {"sky", a.sky.inKelvin(), 100.0, kHottest_K, Dimension::Temperature},
                                        windFilm(a.wind),
                                        emittance("absorber_emittance", a.absorberEmittance),
                                        emittance("cover_emittance", a.coverEmittance),
                                        {"cover_resistance", a.coverResistance_m2K_W, 0.0, 100.0},
                                        gapWidth(a.gap),
                                        tiltBelow(kSteepest_rad, a.tilt),
                                        pressure(a.airPressure)})) {
    return *error;
  }
  kernel::CoverInputs in;
  in.absorber_K = a.absorber.inKelvin();
  in.air_K = a.air.inKelvin();
  in.sky_K = a.sky.inKelvin();
  in.wind_W_m2K = a.wind.si();
  in.gapExchange = 1.0 / (1.0 / a.absorberEmittance + 1.0 / a.coverEmittance - 1.0);
  in.coverEmittance = a.coverEmittance;
  in.coverResistance_m2K_W = a.coverResistance_m2K_W;
  in.gap_m = a.gap.si();
  in.tilt_rad = a.tilt.radians();
  in.airPressure_Pa = a.airPressure.si();
  const kernel::Cover cover = kernel::coverBalance(in);
  if (!cover.found) return Error{ErrorCode::NotConverged, "top_loss", {}, {}};
  return TopLoss{
      cover.coefficient_W_m2K,  cover.surroundings_K,       cover.inside_K,  cover.outside_K, cover.gapConvection_W_m2K,
      cover.gapRadiation_W_m2K, cover.coverRadiation_W_m2K, cover.iterations};
}

Result<HeatTransferCoefficient> topLossKlein(int covers, Temperature absorber, Temperature air,
                                             HeatTransferCoefficient wind, double absorberEmittance,
                                             double coverEmittance, Angle tilt) {
  if (auto error = outside("top_loss_klein", {{"covers", static_cast<double>(covers), 1.0, 5.0, Dimension::Count},
                                              temperature("air", air),
                                              {"absorber", absorber.inKelvin(), air.inKelvin() + 1e-6, kHottest_K,
                                               Dimension::Temperature},
                                              windFilm(wind),
                                              emittance("absorber_emittance", absorberEmittance),
                                              emittance("cover_emittance", coverEmittance),
                                              tiltBelow(kSteepest_rad, tilt)})) {
    return *error;
  }
  const double n = covers, plate_K = absorber.inKelvin(), air_K = air.inKelvin(), h = wind.si();
  const double beta_deg = std::min(tilt.degrees(), 70.0);
  const double f = (1.0 + 0.089 * h - 0.1166 * h * absorberEmittance) * (1.0 + 0.07866 * n);
  const double c = 520.0 * (1.0 - 0.000051 * beta_deg * beta_deg);
  const double e = 0.430 * (1.0 - 100.0 / plate_K);
  const double convection = n / (c / plate_K * std::pow((plate_K - air_K) / (n + f), e)) + 1.0 / h;
  const double radiation = kStefanBoltzmann_W_m2K4 * (plate_K + air_K) * (plate_K * plate_K + air_K * air_K) /
                           (1.0 / (absorberEmittance + 0.00591 * n * h) +
                            (2.0 * n + f - 1.0 + 0.133 * absorberEmittance) / coverEmittance - n);
  return finite("top_loss_klein", 1.0 / convection + radiation).transform([](double u) {
    return wattsPerSquareMetreKelvin(u);
  });
}

}  // namespace sunspool::thermal
