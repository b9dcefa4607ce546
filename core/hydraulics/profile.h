// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Pressure and water line along the way from pump to pool, and how near it comes to boiling.
// The water line is the height over the pool to which water would rise in a standpipe: pump head less the losses so
// far. Gauge pressure = density * g * (water line - height of the tube). Left out: the velocity head (13 mm at 0.5
// m/s).

#include <span>
#include <vector>

#include "core/hydraulics/network.h"

namespace sunspool::hydraulics {

/// Height of a path's centre line over the pool's water level, at a station along that path.
struct HeightAt {
  double station_m = 0.0;
  double height_m = 0.0;
};

/// Where pressure is wanted. Empty lists are skipped. The first and last station of a pipe show its ends.
struct WayHeights {
  std::vector<HeightAt> feed;
  std::vector<HeightAt> run;
  std::vector<HeightAt> returning;
};

enum class Leg { Feed, Run, Returning };

struct WayPressure {
  std::vector<PressurePoint> feed;
  std::vector<PressurePoint> run;
  std::vector<PressurePoint> returning;
  Leg lowestLeg = Leg::Run;
  PressurePoint lowest;  ///< of all points given, the first of equals
};

/// Pressure along feed, one run and return while the pump runs. A sealed way that falls back to the pool shows negative
/// gauge pressure at its top (siphon); a return ending under water ends at the static pressure of its depth.
/// Fittings count half at each end of their path.
/// @param flow  of solve(network, ...)
/// @return NoFlow when the pump does not start; OutOfRange for a run that is not there (fact: run), a station off its
/// path
///         (fact: station; up to 1 um is rounding) or heights for a pipe that is not there; NotFinite for a height.
Result<WayPressure> pressureAlong(const Network& network, const NetworkFlow& flow, std::size_t run,
                                  const WayHeights& heights);
/// The run alone.
Result<std::vector<PressurePoint>> pressureAlongRun(const Network& network, const NetworkFlow& flow, std::size_t run,
                                                    std::span<const HeightAt> heights);

/// Absolute pressure at this height over the pool with the pump off and the way sealed and full. Errors of waterAt.
/// Below saturation the column breaks; compare with vapourMargin of the result.
Result<Pressure> restingPressure(Pressure air, Temperature water, Length heightAbovePool);
/// Absolute pressure less saturation pressure; at or below zero the water boils. Errors of saturationPressure.
Result<Pressure> vapourMargin(Pressure gauge, Pressure air, Temperature water);
/// Height of water that the air carries before the top of a siphon boils: (air - saturation)/(density g).
/// Errors of waterAt.
Result<Length> columnBreakHeight(Pressure air, Temperature water);
/// Dissolved air breaks siphons long before: keep the top below this. Common practice, no source.
inline constexpr double kPracticalSiphonHeight_m = 6.0;
/// Head over boiling at a pump inlet (NPSH available): (air - saturation)/(density g) - suction lift - suction loss.
/// Suction lift is the height of the pump over the pool, negative when flooded. Errors of waterAt.
Result<Length> suctionHeadAvailable(Pressure air, Temperature water, Length suctionLift, Length suctionLoss);

}  // namespace sunspool::hydraulics
