// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/tube_law.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunspool::hydraulics {
namespace {

// The edges of the band open just above its beginning and close just below its end.
constexpr double kEarlyPassageEnds = 1.05 * kTransitionBegins;
constexpr double kLatePassageBegins = 0.95 * kTransitionEnds;
constexpr double kCoilPassage = 1.25;  // times the critical number of the coil
// From straight to coiled turbulent tube, in Re (d/D)^2; the two laws differ by at most 3 % there.
constexpr double kCoilFullX = 3.0 * 0.034;

FrictionPoint colebrook(double reynolds, double relativeRoughness, double& root) {
  root = colebrookRoot(root, reynolds, relativeRoughness);
  // d ln f/d ln Re by implicit differentiation of the equation.
  constexpr double kTwoOverLn10 = 2.0 / std::numbers::ln10;
  const double b = 2.51 / reynolds;
  const double pull = kTwoOverLn10 * b;
  return {1.0 / (root * root), 2.0 - 2.0 * pull / (relativeRoughness / 3.7 + b * root + pull)};
}

}  // namespace

TubeLaw::TubeLaw(double relativeRoughness, double curvatureRatio)
    : m_relativeRoughness(relativeRoughness),
      m_curvatureRatio(curvatureRatio),
      m_rootCurvature(std::sqrt(curvatureRatio)) {
  if (curvatureRatio > 0.0) {
    m_criticalReynolds = std::max(kTransitionBegins, itoCriticalReynolds(curvatureRatio));
    m_bandEnds = std::max(kTransitionEnds, kCoilPassage * m_criticalReynolds);
  }
}

FrictionPoint TubeLaw::at(double reynolds, Branch branch) const {
  ColebrookMemory fresh;
  return at(reynolds, branch, fresh);
}

FrictionPoint TubeLaw::at(double reynolds, Branch branch, ColebrookMemory& memory) const {
  return m_curvatureRatio > 0.0 ? arcAt(reynolds, branch, memory) : straightAt(reynolds, branch, memory);
}

FrictionPoint TubeLaw::straightAt(double reynolds, Branch branch, ColebrookMemory& memory) const {
  if (reynolds <= kTransitionBegins) return laminar(reynolds);
  if (reynolds >= kTransitionEnds) return turbulent(reynolds, memory);
  switch (branch) {
    case Branch::Best:
      return passage(reynolds, kTransitionBegins, kTransitionEnds, memory);
    case Branch::Low:
      return reynolds <= kLatePassageBegins ? laminar(reynolds)
                                            : passage(reynolds, kLatePassageBegins, kTransitionEnds, memory);
    case Branch::High:
      return reynolds >= kEarlyPassageEnds ? turbulent(reynolds, memory)
                                           : passage(reynolds, kTransitionBegins, kEarlyPassageEnds, memory);
  }
  return {};
}

FrictionPoint TubeLaw::arcAt(double reynolds, Branch branch, ColebrookMemory& memory) const {
  if (reynolds <= kTransitionBegins) return laminar(reynolds);
  if (reynolds >= m_bandEnds) return turbulent(reynolds, memory);
  const FrictionPoint asCoil =
      reynolds <= m_criticalReynolds ? laminar(reynolds) : passage(reynolds, m_criticalReynolds, m_bandEnds, memory);
  if (branch == Branch::Best) return asCoil;
  const FrictionPoint withStraights = reynolds >= kTransitionEnds
                                          ? turbulent(reynolds, memory)
                                          : passage(reynolds, kTransitionBegins, kTransitionEnds, memory);
  const bool coilIsLess = asCoil.friction < withStraights.friction;
  return coilIsLess == (branch == Branch::Low) ? asCoil : withStraights;
}

FrictionPoint TubeLaw::laminar(double reynolds) const {
  const double dean = reynolds * m_rootCurvature;
  if (dean <= kWhiteDean.lowest) return {64.0 / reynolds, 1.0};
  constexpr double kPower = 0.45;
  const double x = std::pow(kWhiteDean.lowest / dean, kPower);
  const double w = std::pow(1.0 - x, 1.0 / kPower);
  const double ratio = 1.0 / (1.0 - w);
  return {64.0 / reynolds * ratio, 1.0 + ratio * x * w / (1.0 - x)};
}

FrictionPoint TubeLaw::turbulent(double reynolds, ColebrookMemory& memory) const {
  const FrictionPoint straight = colebrook(reynolds, m_relativeRoughness, memory.rough);
  const double x = reynolds * m_curvatureRatio * m_curvatureRatio;
  if (x <= kItoTurbulentX.lowest) return straight;
  const double varying = 0.304 / std::sqrt(std::sqrt(x));
  FrictionPoint coil{m_rootCurvature * (0.029 + varying), 2.0 - 0.25 * varying / (0.029 + varying)};
  if (m_relativeRoughness > 0.0) {
    const FrictionPoint smooth = colebrook(reynolds, 0.0, memory.smooth);
    coil.friction *= straight.friction / smooth.friction;
    coil.exponent += straight.exponent - smooth.exponent;
  }
  if (x >= kCoilFullX) return coil;
  const double span = std::log(kCoilFullX / kItoTurbulentX.lowest);
  const double t = std::log(x / kItoTurbulentX.lowest) / span;
  const double share = t * t * (3.0 - 2.0 * t);
  const double shareSlope = 6.0 * t * (1.0 - t) / span;  // with ln Re
  const double friction = straight.friction + share * (coil.friction - straight.friction);
  const double slope = (1.0 - share) * straight.friction * (straight.exponent - 2.0) +
                       share * coil.friction * (coil.exponent - 2.0) + shareSlope * (coil.friction - straight.friction);
  return {friction, 2.0 + slope / friction};
}

FrictionPoint TubeLaw::passage(double reynolds, double from, double to, ColebrookMemory& memory) const {
  const FrictionPoint a = laminar(from);
  const FrictionPoint b = turbulent(to, memory);
  const double width = std::log(to / from);
  const double t = std::log(reynolds / from) / width;
  const double rise = std::log(b.friction / a.friction) + 2.0 * width;
  // Within three secants the cubic is monotone (Fritsch and Carlson 1980); both slopes lie there for every tube.
  const double slopeA = std::min(a.exponent * width, 3.0 * rise);
  const double slopeB = std::min(b.exponent * width, 3.0 * rise);
  const double c2 = 3.0 * rise - 2.0 * slopeA - slopeB;
  const double c3 = slopeA + slopeB - 2.0 * rise;
  const double climbed = t * (slopeA + t * (c2 + t * c3));
  const double slope = slopeA + t * (2.0 * c2 + 3.0 * t * c3);
  return {a.friction * std::exp(climbed - 2.0 * t * width), slope / width};
}

}  // namespace sunspool::hydraulics
