// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/convection.h"

#include <algorithm>
#include <cmath>

#include "core/thermal/checked.h"
#include "core/thermal/kernels.h"

namespace sunspool::thermal {
namespace {

constexpr double kTiny = 1e-12;
constexpr double kHuge = 1e12;
constexpr double kLargestReynolds = 5e6;
constexpr double kStraightLaminarBelow = 2300.0;
constexpr double kBlendRatio = 4000.0 / 2300.0;
constexpr double kLargestDiameterRatio = 0.5;

double cubed(double x) { return x * x * x; }

double gnielinski(double reynolds, double prandtl, double frictionFactor) {
  const double eighth = frictionFactor / 8.0;
  return eighth * (reynolds - 1000.0) * prandtl /
         (1.0 + 12.7 * std::sqrt(eighth) * (std::cbrt(prandtl * prandtl) - 1.0));
}

double smoothFriction(double reynolds) {
  const double root = 0.79 * std::log(reynolds) - 1.64;
  return 1.0 / (root * root);
}

double coilLaminar(double reynolds, double prandtl, double diameterRatio, WallCondition wall) {
  const bool flux = wall == WallCondition::UniformFlux;
  const double straight = flux ? 4.364 : 3.657;
  if (diameterRatio <= 0.0) return straight;
  const double dean = reynolds * std::sqrt(diameterRatio);
  const double x3root = 1.0 + (flux ? 1342.0 : 957.0) / (dean * dean * prandtl);
  const double x4 = 1.0 + (flux ? 1.15 : 0.477) / prandtl;
  const double scaled = dean / x4;
  return std::cbrt(cubed(straight + (flux ? 4.636 : 4.343) / (x3root * x3root)) +
                   (flux ? 1.816 : 1.158) * scaled * std::sqrt(scaled));
}

double schmidtLower(double reynolds, double prandtl, double ratio) {
  return 0.023 * (1.0 + 14.8 * (1.0 + ratio) * std::cbrt(ratio)) *
         std::pow(reynolds, 0.8 - 0.22 * std::pow(ratio, 0.1)) * std::cbrt(prandtl);
}
double schmidtUpper(double reynolds, double prandtl, double ratio) {
  return 0.023 * (1.0 + 3.6 * (1.0 - ratio) * std::pow(ratio, 0.8)) * std::pow(reynolds, 0.8) * std::cbrt(prandtl);
}

double coilCritical(double diameterRatio) {
  return kStraightLaminarBelow * (1.0 + 8.6 * std::pow(diameterRatio, 0.45));
}

double blend(double from, double to, double x, double atFrom, double atTo) {
  return atFrom + (atTo - atFrom) * (x - from) / (to - from);
}

double schmidtBlended(double reynolds, double prandtl, double ratio) {
  constexpr double kFrom = 2.0e4, kTo = 2.4e4;
  if (reynolds <= kFrom) return schmidtLower(reynolds, prandtl, ratio);
  const double upper = schmidtUpper(reynolds, prandtl, ratio);
  if (reynolds >= kTo) return upper;
  return blend(kFrom, kTo, reynolds, schmidtLower(reynolds, prandtl, ratio), upper);
}

double turbulent(double reynolds, double prandtl, double diameterRatio) {
  const double straight = gnielinski(reynolds, prandtl, smoothFriction(reynolds));
  if (diameterRatio <= 0.0) return straight;
  return std::max(straight, schmidtBlended(reynolds, prandtl, diameterRatio));
}

}  // namespace

double kernel::filmNusselt(double reynolds, double prandtl, double diameterRatio) {
  const double from = coilCritical(diameterRatio);
  const double to = kBlendRatio * from;
  if (reynolds <= from) return coilLaminar(reynolds, prandtl, diameterRatio, WallCondition::UniformFlux);
  if (reynolds >= to) return turbulent(reynolds, prandtl, diameterRatio);
  return blend(from, to, reynolds, coilLaminar(from, prandtl, diameterRatio, WallCondition::UniformFlux),
               turbulent(to, prandtl, diameterRatio));
}

double nusseltLaminar(WallCondition wall) {
  switch (wall) {
    case WallCondition::UniformTemperature:
      return 3.66;
    case WallCondition::UniformFlux:
      return 4.364;
  }
  return 0.0;
}

Result<double> nusseltHausen(double reynolds, double prandtl, double diameterOverLength) {
  if (auto error = outside("nusselt/hausen", {{"reynolds", reynolds, kTiny, kHuge},
                                              {"prandtl", prandtl, kTiny, kHuge},
                                              {"diameter_over_length", diameterOverLength, kTiny, kHuge}})) {
    return *error;
  }
  const double graetz = reynolds * prandtl * diameterOverLength;
  return finite("nusselt/hausen", 3.66 + 0.0668 * graetz / (1.0 + 0.04 * std::cbrt(graetz * graetz)));
}

Result<double> nusseltSiederTate(double reynolds, double prandtl, double diameterOverLength, double viscosityRatio) {
  if (auto error = outside("nusselt/sieder_tate", {{"reynolds", reynolds, kTiny, kHuge},
                                                   {"prandtl", prandtl, kTiny, kHuge},
                                                   {"diameter_over_length", diameterOverLength, kTiny, kHuge},
                                                   {"viscosity_ratio", viscosityRatio, kTiny, kHuge}})) {
    return *error;
  }
  return finite("nusselt/sieder_tate",
                1.86 * std::cbrt(reynolds * prandtl * diameterOverLength) * std::pow(viscosityRatio, 0.14));
}

Result<double> frictionFactorSmooth(double reynolds) {
  if (auto error = outside("friction/smooth", {{"reynolds", reynolds, 3000.0, kLargestReynolds}})) return *error;
  return finite("friction/smooth", smoothFriction(reynolds));
}

Result<double> nusseltGnielinski(double reynolds, double prandtl, double frictionFactor) {
  if (auto error = outside("nusselt/gnielinski", {{"reynolds", reynolds, 3000.0, kLargestReynolds},
                                                  {"prandtl", prandtl, 0.5, 2000.0},
                                                  {"friction_factor", frictionFactor, kTiny, kHuge}})) {
    return *error;
  }
  return finite("nusselt/gnielinski", gnielinski(reynolds, prandtl, frictionFactor));
}

Result<double> nusseltDittusBoelter(double reynolds, double prandtl) {
  if (auto error = outside("nusselt/dittus_boelter",
                           {{"reynolds", reynolds, 1e4, kLargestReynolds}, {"prandtl", prandtl, 0.7, 160.0}})) {
    return *error;
  }
  return finite("nusselt/dittus_boelter", 0.023 * std::pow(reynolds, 0.8) * std::pow(prandtl, 0.4));
}

Result<double> nusseltCoilLaminar(double reynolds, double prandtl, double diameterRatio, WallCondition wall) {
  if (auto error = outside("nusselt/coil_laminar", {{"reynolds", reynolds, kTiny, kLargestReynolds},
                                                    {"prandtl", prandtl, kTiny, kHuge},
                                                    {"diameter_ratio", diameterRatio, 0.0, kLargestDiameterRatio}})) {
    return *error;
  }
  return finite("nusselt/coil_laminar", coilLaminar(reynolds, prandtl, diameterRatio, wall));
}

Result<double> nusseltCoilTurbulent(double reynolds, double prandtl, double diameterRatio) {
  if (auto error =
          outside("nusselt/coil_turbulent", {{"reynolds", reynolds, kTiny, kLargestReynolds},
                                             {"prandtl", prandtl, kTiny, kHuge},
                                             {"diameter_ratio", diameterRatio, kTiny, kLargestDiameterRatio}})) {
    return *error;
  }
  constexpr double kBranch = 2.2e4;
  return finite("nusselt/coil_turbulent", reynolds < kBranch ? schmidtLower(reynolds, prandtl, diameterRatio)
                                                             : schmidtUpper(reynolds, prandtl, diameterRatio));
}

Result<double> criticalReynoldsCoil(double diameterRatio) {
  if (auto error = outside("reynolds/coil_critical", {{"diameter_ratio", diameterRatio, 0.0, kLargestDiameterRatio}})) {
    return *error;
  }
  return finite("reynolds/coil_critical", coilCritical(diameterRatio));
}

Result<Film> filmCoefficient(double reynolds, double prandtl, Length insideDiameter, Length bendRadius,
                             ThermalConductivity conductivity) {
  const double diameter_m = insideDiameter.si();
  const double ratio = bendRadius.si() > 0.0 ? diameter_m / (2.0 * bendRadius.si()) : 0.0;
  if (auto error =
          outside("film", {{"reynolds", reynolds, kTiny, kLargestReynolds},
                           {"prandtl", prandtl, 0.5, 2000.0},
                           {"inside_diameter", diameter_m, kTiny, kHuge, Dimension::Length},
                           {"bend_radius", bendRadius.si(), 0.0, kHuge, Dimension::Length},
                           {"diameter_ratio", ratio, 0.0, kLargestDiameterRatio},
                           {"conductivity", conductivity.si(), kTiny, kHuge, Dimension::ThermalConductivity}})) {
    return *error;
  }
  Film film;
  film.nusselt = kernel::filmNusselt(reynolds, prandtl, ratio);
  film.coefficient_W_m2K = film.nusselt * conductivity.si() / diameter_m;
  film.laminarBelow = coilCritical(ratio);
  film.turbulentAbove = kBlendRatio * film.laminarBelow;
  film.regime = reynolds <= film.laminarBelow     ? FilmRegime::Laminar
                : reynolds >= film.turbulentAbove ? FilmRegime::Turbulent
                                                  : FilmRegime::Blended;
  if (!std::isfinite(film.coefficient_W_m2K)) return Error{ErrorCode::NotFinite, "film", {}, {}};
  return film;
}

}  // namespace sunspool::thermal
