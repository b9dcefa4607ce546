// SPDX-License-Identifier: GPL-3.0-or-later

// Working points of networks: eight runs with one curvature and temperature per piece, and random networks in bulk.

#include <cstdio>
#include <numbers>
#include <string>

#include "core/hydraulics/network.h"
#include "core/materials/water.h"
#include "tests/bench/bench.h"
#include "tests/core/hydraulics/random_networks.h"

namespace {

using namespace sunspool;
using namespace sunspool::hydraulics;
using bench::Bench;
using bench::Sense;
using bench::Target;

/// One run of a rounded spiral, warming along its way.
FlowPath runOf(double length_m, int corners) {
  constexpr double kRadius_m = 0.160;
  FlowPath path;
  path.insideDiameter_m = 0.016;
  path.roughness_m = 7e-6;
  path.lossCoefficientSum = 3.0;
  const double arc_m = 0.5 * std::numbers::pi * kRadius_m;
  const double straight_m = (length_m - corners * arc_m) / (corners + 1);
  const int pieces = 2 * corners + 1;
  for (int n = 0; n < pieces; ++n) {
    const bool isArc = n % 2 == 1;
    path.stretches.push_back({isArc ? arc_m : straight_m, isArc ? kRadius_m : 0.0, 298.15 + 4.0 * n / pieces});
  }
  return path;
}

FlowPath pipe(double length_m, double bore_m, double t_K) {
  FlowPath path;
  path.insideDiameter_m = bore_m;
  path.roughness_m = 7e-6;
  path.lossCoefficientSum = 4.0;
  path.stretches = {{length_m, 0.0, t_K}};
  return path;
}

Network eightRuns(double length_m, int corners) {
  Network network;
  network.feed = pipe(8.0, 0.036, 298.15);
  network.returning = pipe(8.0, 0.036, 302.15);
  network.highestPoint_m = 2.5;
  for (int n = 0; n < 8; ++n) network.runs.push_back(runOf(length_m * (1.0 + 0.01 * n), corners));
  return network;
}

double flowOf(const Network& network, const PumpCurve& pump) { return solve(network, pump)->flow_m3_s; }

void eightRunsAtWork(Bench& bench) {
  const Network network = eightRuns(25.0, 20);
  // Strong: every stretch decided. Weak: straights and arcs lie in the band, so three networks are solved.
  const auto strong = *PumpCurve::fromLabels(litresPerMinute(160), metres(12));
  const auto weak = *PumpCurve::fromLabels(litresPerMinute(20), metres(3));
  const auto point = solve(network, strong);
  char note[96];
  std::snprintf(note, sizeof note, "%zu pieces, %d steps, Re %.0f", 8 * network.runs[0].stretches.size(),
                point->iterations, point->runs[0].loss.reynolds);
  bench.time({"network, 8 runs, 200 m, curvature per piece", "ms", 0, 0, Target{Sense::AtMost, 0.1}, note},
             [&] { return flowOf(network, strong); });
  const auto banded = solve(network, weak);
  std::snprintf(note, sizeof note, "Re %.0f, %.1f to %.1f L/min", banded->runs[0].loss.reynolds,
                banded->lowFlow_m3_s * 6e4, banded->highFlow_m3_s * 6e4);
  bench.time({"the same with an open band", "ms", 0, 0, {}, note}, [&] { return flowOf(network, weak); });
}

void growth(Bench& bench) {
  const auto pump = *PumpCurve::fromLabels(litresPerMinute(160), metres(12));
  std::vector<double> pieces, costs;
  for (const int corners : {10, 20, 40, 80}) {
    const Network network = eightRuns(1.25 * corners, corners);
    pieces.push_back(8.0 * static_cast<double>(network.runs[0].stretches.size()));
    const std::string name = "network, 8 runs, " + std::to_string(10 * corners) + " m";
    costs.push_back(
        bench.time({name, "ms", 0, 0, {}, "decided or not, as it falls"}, [&] { return flowOf(network, pump); })
            .median);
  }
  const double exponent = bench::fittedExponent(pieces, costs);
  bench.report({"growth of the cost with pieces", "power", exponent, exponent, Target{Sense::AtMost, 1.3}, ""});
}

void randomNetworks(Bench& bench) {
  const int count = bench.thoroughness() == bench::Thoroughness::Full ? 100000 : 2000;
  test::Draw draw(test::testSeed(1));
  int failures = 0, most = 0;
  double worst = 0.0, steps = 0.0;
  for (int n = 0; n < count; ++n) {
    const Network network = test::randomNetwork(draw);
    const PumpCurve pump = test::randomPump(draw, network.highestPoint_m);
    const auto flow = solve(network, pump);
    if (!flow || !flow->starts) {
      ++failures;
      continue;
    }
    most = std::max(most, flow->iterations);
    steps += flow->iterations;
    worst = std::max(worst, flow->residual_m / pump.shutOffHead_m());
  }
  char note[96];
  std::snprintf(note, sizeof note, "of %d; mean %.1f, most %d steps; worst residual %.1e", count, steps / count, most,
                worst);
  bench.report(
      {"random networks not solved", "count", 1.0 * failures, 1.0 * failures, Target{Sense::AtMost, 0.0}, note});
}

void properties(Bench& bench) {
  bench.time({"water, one look-up", "ms", 0, 0, {}, "table"},
             [] { return materials::waterAt(celsius(31.4))->density.si(); });
  bench.time({"water, from the equations", "ms", 0, 0, {}, ""},
             [] { return materials::waterFromEquations(celsius(31.4))->density.si(); });
}

const bench::Registered kHydraulics("hydraulics", [](Bench& bench) {
  eightRunsAtWork(bench);
  growth(bench);
  randomNetworks(bench);
  properties(bench);
});

}  // namespace
