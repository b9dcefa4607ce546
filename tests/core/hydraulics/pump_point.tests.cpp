// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/pump_point.h"

#include <catch2/catch.hpp>

#include "core/hydraulics/friction.h"

using namespace sunspool;
using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;

namespace {
/// Curvature given per (L/min)^2.
double perLitreMinute2(double curvature) {
  return curvature / (litrePerMinute.si_per_unit * litrePerMinute.si_per_unit);
}
}  // namespace

TEST_CASE("Pump and system parabola meet at the evaluated point", "[hydraulics][pump][reference]") {
  // Evaluated: H0 10 m, k 10/3600, static 2 m, C 0.004, flow in L/min, water of 1000 kg/m3.
  const auto point = dutyPoint(metres(10), perLitreMinute2(10.0 / 3600.0), metres(2), perLitreMinute2(0.004),
                               kilogramsPerCubicMetre(1000));
  REQUIRE(point);
  CHECK_THAT(point->flow.in(litrePerMinute), WithinAbs(34.356, 5e-4));
  CHECK_THAT(point->head.si(), WithinAbs(6.7213, 5e-5));
  CHECK_THAT(point->hydraulicPower.si(), WithinAbs(37.74, 5e-3));
}

TEST_CASE("A pump below the static head never starts", "[hydraulics][pump][analytic]") {
  const auto point = dutyPoint(metres(2), 1.0, metres(2), 1.0, kilogramsPerCubicMetre(1000));
  REQUIRE_FALSE(point);
  CHECK(point.error().code == ErrorCode::PumpNeverStarts);
  CHECK(dutyPoint(metres(2), 0.0, metres(1), 0.0, kilogramsPerCubicMetre(1000)).error().code == ErrorCode::OutOfRange);
}

TEST_CASE("Affinity laws at 0.8 of the speed", "[hydraulics][pump][reference]") {
  // Evaluated: (10, 6 m, 200 W) becomes (8, 3.84 m, 102.4 W).
  const auto slow = atSpeed({litresPerMinute(10), metres(6), watts(200)}, 0.8);
  CHECK_THAT(slow.flow.in(litrePerMinute), WithinAbs(8.0, 1e-12));
  CHECK_THAT(slow.head.si(), WithinAbs(3.84, 1e-12));
  CHECK_THAT(slow.power.si(), WithinAbs(102.4, 1e-12));
}

TEST_CASE("Usual water speeds in small pipes", "[hydraulics][pump][reference]") {
  // 0.6 to 1.5 m/s below 100 mm (irrigation guides); 5 ft/s is 1.524 m/s (ASAE S376, from memory).
  CHECK(kUsualVelocity_m_s.contains(0.6));
  CHECK(kUsualVelocity_m_s.contains(1.5));
  CHECK_FALSE(kUsualVelocity_m_s.contains(5.0 * 0.3048));
}
