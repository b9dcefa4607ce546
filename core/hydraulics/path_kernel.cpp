// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/path_kernel.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/materials/water.h"

namespace sunspool::hydraulics {
namespace {

constexpr double kRoughestTube = 0.05;  // relative; end of the Moody chart

Error impossible(const char* where, const char* fact, double value, Dimension dimension) {
  return {ErrorCode::OutOfRange, where, {}, {{fact, value, dimension}}};
}

bool isNotNegative(double value) { return value >= 0.0 && std::isfinite(value); }

Result<Done> checkPath(const FlowPath& path) {
  if (!(path.insideDiameter_m > 0.0 && std::isfinite(path.insideDiameter_m))) {
    return impossible("path/inside_diameter", "inside_diameter", path.insideDiameter_m, Dimension::Length);
  }
  if (!(isNotNegative(path.roughness_m) && path.roughness_m <= kRoughestTube * path.insideDiameter_m)) {
    return impossible("path/roughness", "roughness", path.roughness_m, Dimension::Length);
  }
  if (!isNotNegative(path.lossCoefficientSum)) {
    return impossible("path/loss_coefficient", "loss_coefficient", path.lossCoefficientSum, Dimension::None);
  }
  if (path.stretches.empty()) return impossible("path/length", "length", 0.0, Dimension::Length);
  for (const Stretch& stretch : path.stretches) {
    if (!isNotNegative(stretch.length_m)) {
      return impossible("path/length", "length", stretch.length_m, Dimension::Length);
    }
    const bool bendsOnItself = stretch.bendRadius_m != 0.0 && !(stretch.bendRadius_m > 0.5 * path.insideDiameter_m);
    if (bendsOnItself || !isNotNegative(stretch.bendRadius_m)) {
      return impossible("path/bend_radius", "bend_radius", stretch.bendRadius_m, Dimension::Length);
    }
  }
  return Done{};
}

}  // namespace

std::size_t PathKernel::lawFor(double relativeRoughness, double curvatureRatio) {
  // Arcs mostly repeat the radius of one of the last few.
  for (std::size_t n = m_laws.size(); n-- > 0;) {
    if (m_laws[n].curvatureRatio() == curvatureRatio) return n;
  }
  m_laws.emplace_back(relativeRoughness, curvatureRatio);
  return m_laws.size() - 1;
}

Result<PathKernel> PathKernel::from(const FlowPath& path) {
  if (const auto checked = checkPath(path); !checked) return checked.error();
  const double d = path.insideDiameter_m;
  PathKernel kernel;
  kernel.m_area_m2 = 0.25 * std::numbers::pi * d * d;
  kernel.m_pieces.reserve(path.stretches.size());
  const double area2 = kernel.m_area_m2 * kernel.m_area_m2;
  double densitySum = 0.0;
  for (const Stretch& stretch : path.stretches) {
    const auto water = materials::waterAt(Temperature::fromKelvin(stretch.waterTemperature_K));
    if (!water) return water.error();
    const double density = water->density.si();
    const double viscosity = water->viscosity.si();
    Piece piece;
    piece.length_m = stretch.length_m;
    piece.reynoldsPerFlow_s_m3 = density * d / (kernel.m_area_m2 * viscosity);
    piece.lossPerFriction_Pa_s2_m6 = 0.5 * density * stretch.length_m / (d * area2);
    piece.viscousLoss_Pa_s_m3 = 32.0 * viscosity * stretch.length_m / (d * d * kernel.m_area_m2);
    const double curvatureRatio = stretch.bendRadius_m > 0.0 ? d / (2.0 * stretch.bendRadius_m) : 0.0;
    piece.law = kernel.lawFor(path.roughness_m / d, curvatureRatio);
    kernel.m_highestReynolds_s_m3 = std::max(kernel.m_highestReynolds_s_m3, piece.reynoldsPerFlow_s_m3);
    kernel.m_length_m += stretch.length_m;
    densitySum += density;
    if (kernel.m_pieces.empty()) kernel.m_firstDensity_kg_m3 = density;
    kernel.m_pieces.push_back(piece);
  }
  const double density = densitySum / static_cast<double>(path.stretches.size());
  kernel.m_fittings_Pa_s2_m6 = 0.5 * density * path.lossCoefficientSum / area2;
  return kernel;
}

LossPoint PathKernel::at(double flow_m3_s, Branch branch) const {
  LossPoint sum;
  if (flow_m3_s == 0.0) {
    for (const Piece& piece : m_pieces) sum.slope_Pa_s_m3 += piece.viscousLoss_Pa_s_m3;
    return sum;
  }
  const double flow2 = flow_m3_s * flow_m3_s;
  ColebrookMemory memory;
  for (const Piece& piece : m_pieces) {
    const FrictionPoint point = m_laws[piece.law].at(piece.reynoldsPerFlow_s_m3 * flow_m3_s, branch, memory);
    const double loss = piece.lossPerFriction_Pa_s2_m6 * point.friction * flow2;
    sum.loss_Pa += loss;
    sum.slope_Pa_s_m3 += loss * point.exponent;
  }
  const double fittings = fittingLoss_Pa(flow_m3_s);
  sum.loss_Pa += fittings;
  sum.slope_Pa_s_m3 = (sum.slope_Pa_s_m3 + 2.0 * fittings) / flow_m3_s;
  return sum;
}

bool PathKernel::isOpen(double flow_m3_s) const {
  return std::any_of(m_pieces.begin(), m_pieces.end(), [&](const Piece& piece) {
    return piece.length_m > 0.0 && m_laws[piece.law].isOpen(piece.reynoldsPerFlow_s_m3 * flow_m3_s);
  });
}

PathLoss PathKernel::full(double flow_m3_s) const { return full(flow_m3_s, at(flow_m3_s, Branch::Best)); }

PathLoss PathKernel::full(double flow_m3_s, LossPoint best) const {
  PathLoss loss;
  loss.loss_Pa = loss.low_Pa = loss.high_Pa = best.loss_Pa;
  loss.slope_Pa_s_m3 = best.slope_Pa_s_m3;
  loss.velocity_m_s = flow_m3_s / m_area_m2;
  loss.reynolds = m_pieces.front().reynoldsPerFlow_s_m3 * flow_m3_s;
  double laminar_m = 0.0;
  for (const Piece& piece : m_pieces) {
    const double reynolds = piece.reynoldsPerFlow_s_m3 * flow_m3_s;
    if (m_laws[piece.law].isOpen(reynolds)) {
      loss.transitionLength_m += piece.length_m;
    } else if (reynolds <= kTransitionBegins) {
      laminar_m += piece.length_m;
    }
  }
  if (loss.transitionLength_m > 0.0) {
    // Where the branches agree they still differ in the last digit.
    loss.low_Pa = std::min(at(flow_m3_s, Branch::Low).loss_Pa, best.loss_Pa);
    loss.high_Pa = std::max(at(flow_m3_s, Branch::High).loss_Pa, best.loss_Pa);
  }
  const double turbulent_m = m_length_m - laminar_m - loss.transitionLength_m;
  if (loss.transitionLength_m >= std::max(laminar_m, turbulent_m) && loss.transitionLength_m > 0.0) {
    loss.mostly = Regime::Transition;
  } else {
    loss.mostly = laminar_m >= turbulent_m ? Regime::Laminar : Regime::Turbulent;
  }
  return loss;
}

std::vector<double> PathKernel::lossUpTo_Pa(double flow_m3_s) const {
  std::vector<double> sums;
  sums.reserve(m_pieces.size());
  const double half = 0.5 * fittingLoss_Pa(flow_m3_s);
  double sum = half;
  ColebrookMemory memory;
  for (const Piece& piece : m_pieces) {
    if (flow_m3_s > 0.0) {
      const FrictionPoint point = m_laws[piece.law].at(piece.reynoldsPerFlow_s_m3 * flow_m3_s, Branch::Best, memory);
      sum += piece.lossPerFriction_Pa_s2_m6 * point.friction * flow_m3_s * flow_m3_s;
    }
    sums.push_back(sum);
  }
  sums.back() += half;
  return sums;
}

}  // namespace sunspool::hydraulics
