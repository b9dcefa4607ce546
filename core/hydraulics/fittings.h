// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From the counted fittings of the design to one loss coefficient K on the velocity in the tube.

#include <optional>
#include <span>

#include "core/hydraulics/network.h"

namespace sunspool::hydraulics {

/// Reynolds number at which the two-K fittings are read while no flow is known. From there up K falls by at most 0.08
/// per elbow, so it may stay; below Re 2000 give the real one.
inline constexpr double kUsualFittingReynolds = 1e4;
/// Bore of a barb that nobody measured, as a share of the tube's inside diameter. Assumption: 14 mm in 19 mm tube.
inline constexpr double kUsualBarbBoreShare = 0.74;
/// Least K of a barb that nobody measured. Measured small connectors lie between 2.7 and 24
/// (Rev. Bras. Eng. Agric. Ambiental 23(7), 2019, abstract), the plain bore formula gives 1.4.
inline constexpr double kLeastUnmeasuredBarb = 1.5;

/// K of one fitting on the velocity in the tube.
/// Override: as given. Barb: contraction and widening from its bore; without a bore the usual share and at least 1.5; a
/// bore wider than the tube widens and contracts. Elbows, tees and a full-bore valve: two-K method. Entrance 0.5,
/// exit 1.
double fittingLossCoefficient(const model::FittingCount& fitting, Length tubeBore,
                              double reynolds = kUsualFittingReynolds);
/// Sum over all, count times K. A count below zero makes a K that pathLoss refuses.
/// Assumption: fittings do not disturb one another (true when they lie 10 diameters apart).
double lossCoefficientSum(std::span<const model::FittingCount> fittings, Length tubeBore,
                          double reynolds = kUsualFittingReynolds);

/// A pipe of the design as a straight path at one temperature; nullopt when it has no length.
std::optional<FlowPath> pathOf(const model::Pipe& pipe, Temperature water, double reynolds = kUsualFittingReynolds);

}  // namespace sunspool::hydraulics
