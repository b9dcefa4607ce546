// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/pump_point.h"

#include <cmath>

namespace sunspool::hydraulics {

Result<DutyPoint> dutyPoint(Length shutOff, double pumpCurvature_s2_m5, Length staticHead, double systemCurvature_s2_m5,
                            Density density) {
  const double curvature = pumpCurvature_s2_m5 + systemCurvature_s2_m5;
  if (!(pumpCurvature_s2_m5 >= 0.0 && systemCurvature_s2_m5 >= 0.0 && curvature > 0.0 && std::isfinite(curvature))) {
    return Error{ErrorCode::OutOfRange,
                 "pump_point",
                 {},
                 {{"pump_curvature", pumpCurvature_s2_m5, Dimension::None},
                  {"system_curvature", systemCurvature_s2_m5, Dimension::None}}};
  }
  if (!(shutOff > staticHead)) {
    return Error{ErrorCode::PumpNeverStarts,
                 "pump_point",
                 {},
                 {{"shut_off_head", shutOff.si(), Dimension::Head}, {"static_head", staticHead.si(), Dimension::Head}}};
  }
  DutyPoint point;
  point.flow = cubicMetresPerSecond(std::sqrt((shutOff - staticHead).si() / curvature));
  point.head = staticHead + metres(systemCurvature_s2_m5 * point.flow.si() * point.flow.si());
  point.hydraulicPower = watts(density.si() * kStandardGravity_m_s2 * point.flow.si() * point.head.si());
  return point;
}

PumpAtSpeed atSpeed(PumpAtSpeed point, double n) {
  return {point.flow * n, point.head * (n * n), point.power * (n * n * n)};
}

}  // namespace sunspool::hydraulics
