// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/friction.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunspool::hydraulics {

double laminarFriction(double reynolds) { return 64.0 / reynolds; }

double colebrookFriction(double reynolds, double relativeRoughness) {
  constexpr double kUsualRoot = 6.0;
  const double x = colebrookRoot(kUsualRoot, reynolds, relativeRoughness);
  return 1.0 / (x * x);
}

double colebrookRoot(double start, double reynolds, double relativeRoughness) {
  // Newton on x + 2 log10(a + b x) = 0: concave and rising, so every step after the first comes from the left and stays
  // there.
  const double a = relativeRoughness / 3.7;
  const double b = 2.51 / reynolds;
  constexpr double kTwoOverLn10 = 2.0 / std::numbers::ln10;
  constexpr int kMostSteps = 60;
  double x = start;
  for (int step = 0; step < kMostSteps; ++step) {
    const double inside = a + b * x;
    const double change = (x + kTwoOverLn10 * std::log(inside)) * inside / (inside + kTwoOverLn10 * b);
    const double next = x - change;
    // Far outside the turbulent range the first step may leave the domain of the logarithm.
    x = next > 0.0 ? next : 0.5 * x;
    // Newton squares the error: a step this small leaves less than 1e-15 behind.
    if (std::abs(change) <= 1e-7 * x) break;
  }
  return x;
}

double haalandFriction(double reynolds, double relativeRoughness) {
  const double x = -1.8 * std::log10(std::pow(relativeRoughness / 3.7, 1.11) + 6.9 / reynolds);
  return 1.0 / (x * x);
}

double churchillFriction(double reynolds, double relativeRoughness) {
  const double a = std::pow(2.457 * std::log(1.0 / (std::pow(7.0 / reynolds, 0.9) + 0.27 * relativeRoughness)), 16.0);
  const double b = std::pow(37530.0 / reynolds, 16.0);
  return 8.0 * std::pow(std::pow(8.0 / reynolds, 12.0) + std::pow(a + b, -1.5), 1.0 / 12.0);
}

double blasiusFriction(double reynolds) { return 0.3164 * std::pow(reynolds, -0.25); }

double smallPolyethyleneFriction(double reynolds) { return 0.300 * std::pow(reynolds, -0.25); }

Length hazenWilliamsHead(VolumeFlow flow, Length length, Length insideDiameter, double coefficient) {
  return metres(10.67 * length.si() * std::pow(flow.si() / coefficient, 1.852) / std::pow(insideDiameter.si(), 4.8704));
}

double deanNumber(double reynolds, double curvatureRatio) { return reynolds * std::sqrt(curvatureRatio); }

double whiteCoilRatio(double dean) {
  if (dean <= kWhiteDean.lowest) return 1.0;
  return 1.0 / (1.0 - std::pow(1.0 - std::pow(11.6 / dean, 0.45), 1.0 / 0.45));
}

double whiteCoilFriction(double reynolds, double curvatureRatio) {
  return laminarFriction(reynolds) * whiteCoilRatio(deanNumber(reynolds, curvatureRatio));
}

double moriNakayamaLaminarCoilRatio(double dean) {
  const double root = std::sqrt(dean);
  return 0.108 * root / (1.0 - 3.253 / root);
}

double moriNakayamaLaminarCoilFriction(double reynolds, double curvatureRatio) {
  return laminarFriction(reynolds) * moriNakayamaLaminarCoilRatio(deanNumber(reynolds, curvatureRatio));
}

double itoCriticalReynolds(double curvatureRatio) { return 20000.0 * std::pow(curvatureRatio, 0.32); }

double schmidtCriticalReynolds(double curvatureRatio) { return 2300.0 * (1.0 + 8.6 * std::pow(curvatureRatio, 0.45)); }

double srinivasanCriticalReynolds(double curvatureRatio) { return 2100.0 * (1.0 + 12.0 * std::sqrt(curvatureRatio)); }

double itoTurbulentCoilFriction(double reynolds, double curvatureRatio) {
  const double x = reynolds * curvatureRatio * curvatureRatio;
  return std::sqrt(curvatureRatio) * (0.029 + 0.304 / std::sqrt(std::sqrt(x)));
}

double moriNakayamaTurbulentCoilFriction(double reynolds, double curvatureRatio) {
  const double x = std::pow(reynolds * curvatureRatio * curvatureRatio, -0.2);
  return 0.3 * std::sqrt(curvatureRatio) * x * (1.0 + 0.112 * x);
}

double rennelsSpiralLossCoefficient(Length insideDiameter, Length innerRadius, Length outerRadius, Length pitch,
                                    double friction) {
  const double inner = innerRadius / insideDiameter;
  return (outerRadius - innerRadius) / pitch *
             (std::numbers::pi * friction * ((outerRadius + innerRadius) / insideDiameter) + 0.20 + 4.8 * friction) +
         13.2 * friction / (inner * inner);
}

double rennelsHelixLossCoefficient(Length insideDiameter, Length radius, Length pitch, double turns, double friction) {
  const double turn_m = std::hypot(2.0 * std::numbers::pi * radius.si(), pitch.si());
  return turns * (friction * turn_m / insideDiameter.si() + 0.20 + 4.8 * friction);
}

double hooperLossCoefficient(TwoKFitting fitting, double reynolds, Length insideDiameter) {
  struct TwoK {
    double k1;
    double kInfinite;
  };
  const auto constants = [fitting]() -> TwoK {
    switch (fitting) {
      case TwoKFitting::Elbow90:
        return {800.0, 0.40};
      case TwoKFitting::Elbow45:
        return {500.0, 0.20};
      case TwoKFitting::TeeThrough:
        return {200.0, 0.10};
      case TwoKFitting::TeeBranch:
        return {500.0, 0.70};
      case TwoKFitting::FullBoreValve:
        return {300.0, 0.10};
    }
    return {};
  }();
  return constants.k1 / reynolds + constants.kInfinite * (1.0 + 1.0 / insideDiameter.in(inch));
}

double barbLossCoefficientOnBore(Length bore, Length tubeInsideDiameter) {
  const double ratio = bore / tubeInsideDiameter;
  const double s = ratio * ratio;
  return barbLossCoefficient(bore, tubeInsideDiameter) * s * s;
}

double barbLossCoefficient(Length bore, Length tubeInsideDiameter) {
  const double ratio = bore / tubeInsideDiameter;
  const double s = ratio * ratio;
  const double closed = 1.0 - std::min(s, 1.0 / s);
  const double onNarrower = 0.5 * closed + closed * closed;
  return s < 1.0 ? onNarrower / (s * s) : onNarrower;
}

double protrudingBarbLossCoefficient(double openAreaRatio) {
  const double obstruction = (1.0 - openAreaRatio) / openAreaRatio;
  return 1.23 * std::pow(obstruction * obstruction, 0.51);
}

Pressure darcyWeisbach(double friction, Length length, Length insideDiameter, Density density, Velocity velocity) {
  return pascals(friction * (length / insideDiameter) * 0.5 * density.si() * velocity.si() * velocity.si());
}

}  // namespace sunspool::hydraulics
