// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/wind.h"

namespace sunspool::checks {

Pressure velocityPressure(Velocity speed, Density air) {
  return Pressure::fromSi(0.5 * air.si() * speed.si() * speed.si());
}

Force windForce(Pressure pressure, double coefficient, Area area) { return pressure * area * coefficient; }

}  // namespace sunspool::checks
