// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>

#include "core/hydraulics/network.h"

namespace sunspool::test {

/// Settable with SUNSPOOL_TEST_SEED; print it where it is used.
inline std::uint32_t testSeed(std::uint32_t usual) {
  const char* set = std::getenv("SUNSPOOL_TEST_SEED");
  return set == nullptr ? usual : static_cast<std::uint32_t>(std::strtoul(set, nullptr, 10));
}

class Draw {
 public:
  explicit Draw(std::uint32_t seed) : m_engine(seed) {}
  double uniform(double low, double high) {
    return low + (high - low) * (static_cast<double>(m_engine()) / 4294967296.0);
  }
  double logUniform(double low, double high) { return std::exp(uniform(std::log(low), std::log(high))); }
  int whole(int low, int high) {
    return low + static_cast<int>(m_engine() % static_cast<std::uint32_t>(high - low + 1));
  }
  bool chance(double share) { return uniform(0.0, 1.0) < share; }

 private:
  std::mt19937 m_engine;
};

/// A path of straights and arcs as panels have them: every other stretch may bend.
inline hydraulics::FlowPath randomPath(Draw& draw, double length_m, double bore_m) {
  hydraulics::FlowPath path;
  path.insideDiameter_m = bore_m;
  path.roughness_m = draw.chance(0.3) ? 0.0 : draw.logUniform(1e-7, 1e-4);
  path.lossCoefficientSum = draw.chance(0.3) ? 0.0 : draw.logUniform(0.1, 50.0);
  const int stretches = draw.whole(1, 9);
  const double warm_K = draw.uniform(278.15, 333.15);
  const double rise_K = draw.uniform(0.0, 10.0);
  for (int n = 0; n < stretches; ++n) {
    const double bend_m = n % 2 == 1 ? draw.logUniform(4.0 * bore_m, 200.0 * bore_m) : 0.0;
    path.stretches.push_back({length_m / stretches, bend_m, warm_K + rise_K * n / stretches});
  }
  return path;
}

inline hydraulics::Network randomNetwork(Draw& draw) {
  hydraulics::Network network;
  const int runs = draw.whole(1, 8);
  const double bore_m = draw.uniform(0.010, 0.025);
  const double length_m = draw.logUniform(5.0, 200.0);
  for (int n = 0; n < runs; ++n) {
    network.runs.push_back(randomPath(draw, length_m * draw.uniform(0.8, 1.2), bore_m));
  }
  if (draw.chance(0.8)) network.feed = randomPath(draw, draw.logUniform(0.5, 50.0), draw.uniform(0.010, 0.050));
  if (draw.chance(0.8)) network.returning = randomPath(draw, draw.logUniform(0.5, 50.0), draw.uniform(0.010, 0.050));
  network.highestPoint_m = draw.uniform(0.0, 5.0);
  network.staticHead_m = draw.chance(0.5) ? 0.0 : draw.uniform(0.0, network.highestPoint_m);
  return network;
}

inline hydraulics::PumpCurve randomPump(Draw& draw, double lowestHead_m) {
  return *hydraulics::PumpCurve::fromLabels(litresPerMinute(draw.logUniform(0.1, 300.0)),
                                            metres(lowestHead_m + draw.logUniform(0.02, 15.0)));
}

}  // namespace sunspool::test
