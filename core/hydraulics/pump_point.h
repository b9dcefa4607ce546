// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A pump and a pipe reckoned by hand: where two parabolas meet, and what another speed does.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::hydraulics {

struct DutyPoint {
  VolumeFlow flow;
  Length head;
  Power hydraulicPower;  ///< density g flow head
};
/// Where H = shutOff - pumpCurvature Q^2 meets H = staticHead + systemCurvature Q^2; curvatures in m/(m3/s)^2.
/// @return PumpNeverStarts (facts: shut_off_head, static_head) when the pump does not reach the static head;
///         OutOfRange for curvatures below zero, both zero, or not finite.
/// Source: two parabolas.
Result<DutyPoint> dutyPoint(Length shutOff, double pumpCurvature_s2_m5, Length staticHead, double systemCurvature_s2_m5,
                            Density density);

struct PumpAtSpeed {
  VolumeFlow flow;
  Length head;
  Power power;
};
/// A pump's point at another speed: flow as n, head as n^2, power as n^3; n = new/old speed, >= 0.
/// Source: affinity laws. Good for n between about 0.7 and 1.2.
PumpAtSpeed atSpeed(PumpAtSpeed point, double relativeSpeed);

}  // namespace sunspool::hydraulics
