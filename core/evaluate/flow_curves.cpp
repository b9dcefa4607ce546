// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/flow_curves.h"

#include <algorithm>
#include <cmath>

#include "core/evaluate/flow_and_heat.h"
#include "core/layout/layout.h"
#include "core/materials/water.h"

namespace sunspool::evaluate {
namespace {

constexpr int kPoints = 48;
constexpr double kDrawnAboveShutOff = 1.3;
constexpr int kMostSteps = 100;
constexpr double kSplit = 1e-10;

/// One run's flow for a common loss. The loss rises with the flow, so that a bracket always closes.
Result<double> flowAtLoss(const hydraulics::FlowPath& run, double loss_Pa, double guess_m3_s) {
  double low = 0.0, high = guess_m3_s;
  for (int i = 0; i < kMostSteps; ++i) {
    const Result<hydraulics::PathLoss> at = hydraulics::pathLoss(run, VolumeFlow::fromSi(high));
    if (!at.has_value()) return at.error();
    if (at->loss_Pa >= loss_Pa) break;
    low = high;
    high *= 2.0;
  }
  for (int i = 0; i < kMostSteps && high - low > kSplit * high; ++i) {
    const double middle = 0.5 * (low + high);
    const Result<hydraulics::PathLoss> at = hydraulics::pathLoss(run, VolumeFlow::fromSi(middle));
    if (!at.has_value()) return at.error();
    (at->loss_Pa < loss_Pa ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

bool isAlike(const hydraulics::FlowPath& a, const hydraulics::FlowPath& b) {
  return a.lossCoefficientSum == b.lossCoefficientSum &&
         std::equal(a.stretches.begin(), a.stretches.end(), b.stretches.begin(), b.stretches.end(),
                    [](const hydraulics::Stretch& s, const hydraulics::Stretch& t) {
                      return s.length_m == t.length_m && s.bendRadius_m == t.bendRadius_m &&
                             s.waterTemperature_K == t.waterTemperature_K;
                    });
}

class System {
 public:
  System(const hydraulics::Network& network, double weight_Pa_m) : m_network(network), m_weight_Pa_m(weight_Pa_m) {}

  /// Head of the whole way while the first run carries this flow.
  Result<SystemPoint> at(double firstRun_m3_s) const {
    const Result<hydraulics::PathLoss> first =
        hydraulics::pathLoss(m_network.runs.front(), VolumeFlow::fromSi(firstRun_m3_s));
    if (!first.has_value()) return first.error();
    double panel_m3_s = 0.0;
    for (const hydraulics::FlowPath& run : m_network.runs) {
      if (firstRun_m3_s == 0.0 || isAlike(run, m_network.runs.front())) {
        panel_m3_s += firstRun_m3_s;
        continue;
      }
      const Result<double> flow = flowAtLoss(run, first->loss_Pa, firstRun_m3_s);
      if (!flow.has_value()) return flow.error();
      panel_m3_s += *flow;
    }
    SystemPoint point;
    point.flow_m3_s = panel_m3_s * m_network.alike;
    double best = first->loss_Pa, low = first->low_Pa, high = first->high_Pa;
    for (const auto* pipe : {&m_network.feed, &m_network.returning}) {
      if (!pipe->has_value()) continue;
      const Result<hydraulics::PathLoss> loss = hydraulics::pathLoss(**pipe, VolumeFlow::fromSi(point.flow_m3_s));
      if (!loss.has_value()) return loss.error();
      best += loss->loss_Pa;
      low += loss->low_Pa;
      high += loss->high_Pa;
    }
    point.head_m = m_network.staticHead_m + best / m_weight_Pa_m;
    point.low_m = m_network.staticHead_m + std::min(best, low) / m_weight_Pa_m;
    point.high_m = m_network.staticHead_m + std::max(best, high) / m_weight_Pa_m;
    return point;
  }

 private:
  const hydraulics::Network& m_network;
  double m_weight_Pa_m;
};

/// Flow of the first run at which the drawing ends: above the shut-off head, or at the pump's largest flow.
Result<double> lastFlow(const System& system, const FlowCurves& curves) {
  const auto isBeyond = [&](const SystemPoint& point) {
    return point.head_m >= kDrawnAboveShutOff * curves.shutOffHead_m || point.flow_m3_s >= curves.largestFlow_m3_s;
  };
  double low = 0.0, high = curves.largestFlow_m3_s;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    const Result<SystemPoint> at = system.at(middle);
    if (!at.has_value()) return at.error();
    (isBeyond(*at) ? high : low) = middle;
  }
  return high;
}

}  // namespace

Result<FlowCurves> flowCurves(const model::Document& document) {
  const Result<hydraulics::PumpCurve> pump = hydraulics::PumpCurve::from(document.plumbing.pump);
  if (!pump.has_value()) return pump.error();
  const Result<layout::LaidPanel> laid = layout::lay(document);
  if (!laid.has_value()) return laid.error();
  const Result<results::SunNow> sun = sunNow(document);
  const Result<Coupled> coupled = flowAndHeat(document, *laid, sun.has_value() ? &*sun : nullptr);
  if (!coupled.has_value()) return coupled.error();

  FlowCurves curves;
  curves.measured = pump->measured();
  curves.shutOffHead_m = pump->shutOffHead_m();
  curves.largestFlow_m3_s = pump->largestFlow_m3_s();
  curves.startingLift_m = coupled->flow.startingLift_m;
  curves.starts = coupled->flow.starts;
  curves.workFlow_m3_s = coupled->flow.flow_m3_s;
  curves.workHead_m = coupled->flow.starts ? coupled->flow.head_m : 0.0;
  for (int i = 0; i <= kPoints; ++i) {
    const double flow = curves.largestFlow_m3_s * i / kPoints;
    curves.pump.push_back({flow, i == kPoints ? 0.0 : pump->head_m(flow)});
  }
  const double first_K = coupled->network.runs.front().stretches.front().waterTemperature_K;
  const Result<materials::Water> water = materials::waterAt(Temperature::fromKelvin(first_K));
  if (!water.has_value()) return water.error();
  const System system(coupled->network, water->density.si() * kStandardGravity_m_s2);
  const Result<double> last = lastFlow(system, curves);
  if (!last.has_value()) return last.error();
  for (int i = 0; i <= kPoints; ++i) {
    const Result<SystemPoint> at = system.at(*last * i / kPoints);
    if (!at.has_value()) return at.error();
    curves.system.push_back(*at);
  }
  return curves;
}

}  // namespace sunspool::evaluate
