// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/fittings.h"

#include <algorithm>

#include "core/hydraulics/friction.h"

namespace sunspool::hydraulics {
namespace {

double barb(const model::FittingCount& fitting, Length tubeBore) {
  if (fitting.bore) return barbLossCoefficient(*fitting.bore, tubeBore);
  return std::max(kLeastUnmeasuredBarb, barbLossCoefficient(tubeBore * kUsualBarbBoreShare, tubeBore));
}

}  // namespace

double fittingLossCoefficient(const model::FittingCount& fitting, Length tubeBore, double reynolds) {
  if (fitting.lossCoefficient) return fitting.lossCoefficient->value;
  switch (fitting.kind) {
    case model::FittingKind::BarbConnector:
      return barb(fitting, tubeBore);
    case model::FittingKind::Elbow90:
      return hooperLossCoefficient(TwoKFitting::Elbow90, reynolds, tubeBore);
    case model::FittingKind::Elbow45:
      return hooperLossCoefficient(TwoKFitting::Elbow45, reynolds, tubeBore);
    case model::FittingKind::TeeThrough:
      return hooperLossCoefficient(TwoKFitting::TeeThrough, reynolds, tubeBore);
    case model::FittingKind::TeeBranch:
      return hooperLossCoefficient(TwoKFitting::TeeBranch, reynolds, tubeBore);
    case model::FittingKind::Valve:
      return hooperLossCoefficient(TwoKFitting::FullBoreValve, reynolds, tubeBore);
    case model::FittingKind::PipeEntrance:
      return kPipeEntranceLossCoefficient;
    case model::FittingKind::PipeExit:
      return kPipeExitLossCoefficient;
  }
  return 0.0;
}

double lossCoefficientSum(std::span<const model::FittingCount> fittings, Length tubeBore, double reynolds) {
  double sum = 0.0;
  for (const auto& fitting : fittings) sum += fitting.count * fittingLossCoefficient(fitting, tubeBore, reynolds);
  return sum;
}

std::optional<FlowPath> pathOf(const model::Pipe& pipe, Temperature water, double reynolds) {
  if (pipe.length.si() == 0.0) return std::nullopt;
  FlowPath path;
  path.insideDiameter_m = pipe.insideDiameter.si();
  path.roughness_m = pipe.roughness.si();
  path.lossCoefficientSum = lossCoefficientSum(pipe.fittings, pipe.insideDiameter, reynolds);
  path.stretches.push_back({pipe.length.si(), 0.0, water.inKelvin()});
  return path;
}

}  // namespace sunspool::hydraulics
