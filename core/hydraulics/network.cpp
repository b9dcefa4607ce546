// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/network.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/hydraulics/path_kernel.h"

namespace sunspool::hydraulics {
namespace {

constexpr double kTolerance = 1e-10;    // of the shut-off head
constexpr double kAcceptable = 1e-8;    // of the shut-off head, when rounding forbids more
constexpr int kMostTouchingSteps = 25;  // usual: 4 to 6
constexpr int kMostBracketingSteps = 200;

/// Everything that is solved, in pascal; the pump's head enters through weight_Pa_m.
struct Problem {
  std::optional<PathKernel> feed;
  std::vector<PathKernel> runs;
  std::optional<PathKernel> returning;
  const PumpCurve* pump = nullptr;
  double static_m = 0.0;
  double weight_Pa_m = 0.0;  // density times gravity
  double alike = 1.0;        // panels that share pump, feed and return

  double total(const std::vector<double>& flows) const {
    return alike * std::accumulate(flows.begin(), flows.end(), 0.0);
  }
};

/// A path near one flow: loss = loss0 (flow/flow0)^exponent.
struct PowerLaw {
  double flow0 = 1.0;
  double loss0_Pa = 0.0;
  double exponent = 1.0;

  LossPoint at(double flow) const {
    if (loss0_Pa == 0.0) return {};
    const double loss = loss0_Pa * std::pow(flow / flow0, exponent);
    return {loss, exponent * loss / flow};
  }
  LossPoint touchingPoint() const { return {loss0_Pa, exponent * loss0_Pa / flow0}; }
};

struct Touching {
  PowerLaw feed, returning;
  std::vector<PowerLaw> runs;
};

struct Solution {
  std::vector<double> flows_m3_s;
  Touching laws;  // at these flows
  double residual_m = std::numeric_limits<double>::infinity();
  int iterations = 0;
};

PowerLaw touching(const PathKernel& path, double flow, Branch branch) {
  const LossPoint point = path.at(flow, branch);
  if (!(point.loss_Pa > 0.0)) return {flow, 0.0, 1.0};
  return {flow, point.loss_Pa, point.slope_Pa_s_m3 * flow / point.loss_Pa};
}

Touching touch(const Problem& problem, const std::vector<double>& flows, Branch branch) {
  const double sum = problem.total(flows);
  Touching laws;
  if (problem.feed) laws.feed = touching(*problem.feed, sum, branch);
  if (problem.returning) laws.returning = touching(*problem.returning, sum, branch);
  laws.runs.reserve(flows.size());
  for (std::size_t n = 0; n < flows.size(); ++n) laws.runs.push_back(touching(problem.runs[n], flows[n], branch));
  return laws;
}

double residual_m(const Problem& problem, const Touching& laws, double sum) {
  const double left_Pa = problem.weight_Pa_m * (problem.pump->head_m(sum) - problem.static_m) - laws.feed.loss0_Pa -
                         laws.returning.loss0_Pa;
  double worst = 0.0;
  for (const PowerLaw& run : laws.runs) worst = std::max(worst, std::abs(run.loss0_Pa - left_Pa));
  return worst / problem.weight_Pa_m;
}

/// Exact solution of the network of power laws: Newton on the logarithm of the common loss, kept inside a bracket.
std::vector<double> solvePowerLaws(const Problem& problem, const Touching& laws) {
  std::vector<double> flows(laws.runs.size());
  std::vector<double> logLoss0(laws.runs.size());
  for (std::size_t n = 0; n < flows.size(); ++n) logLoss0[n] = std::log(laws.runs[n].loss0_Pa);
  double high = std::log(problem.weight_Pa_m * (problem.pump->shutOffHead_m() - problem.static_m));
  double low = high - 200.0;  // e^-200 of the head drives no flow that could be told from none
  double logLoss = std::clamp(*std::min_element(logLoss0.begin(), logLoss0.end()), low, high);
  for (int step = 0; step < kMostBracketingSteps; ++step) {
    double sum = 0.0;
    double sumSlope = 0.0;  // with the logarithm of the loss
    for (std::size_t n = 0; n < flows.size(); ++n) {
      const PowerLaw& run = laws.runs[n];
      flows[n] = run.flow0 * std::exp((logLoss - logLoss0[n]) / run.exponent);
      sum += flows[n];
      sumSlope += flows[n] / run.exponent;
    }
    sum *= problem.alike;
    sumSlope *= problem.alike;
    const LossPoint feed = laws.feed.at(sum);
    const LossPoint returning = laws.returning.at(sum);
    const double loss = std::exp(logLoss);
    const double excess =
        problem.weight_Pa_m * (problem.pump->head_m(sum) - problem.static_m) - feed.loss_Pa - returning.loss_Pa - loss;
    const double slope =
        (problem.weight_Pa_m * problem.pump->slope_s_m2(sum) - feed.slope_Pa_s_m3 - returning.slope_Pa_s_m3) *
            sumSlope -
        loss;
    (excess > 0.0 ? low : high) = logLoss;
    double next = logLoss - excess / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const double change = std::abs(next - logLoss);
    logLoss = next;
    if (change < 1e-13 * std::max(1.0, std::abs(logLoss))) break;
  }
  return flows;
}

Solution solveByTouching(const Problem& problem, Branch branch, std::vector<double> flows) {
  const double tolerance = kTolerance * problem.pump->shutOffHead_m();
  Solution best;
  int stalled = 0;
  for (int step = 1; step <= kMostTouchingSteps && stalled < 4; ++step) {
    Touching laws = touch(problem, flows, branch);
    const double residual = residual_m(problem, laws, problem.total(flows));
    stalled = residual < 0.5 * best.residual_m ? 0 : stalled + 1;
    best.iterations = step;
    std::vector<double> next;
    if (residual > tolerance) next = solvePowerLaws(problem, laws);
    if (residual < best.residual_m) {
      best.flows_m3_s = std::move(flows);
      best.laws = std::move(laws);
      best.residual_m = residual;
    }
    if (best.residual_m <= tolerance) break;
    flows = std::move(next);
  }
  return best;
}

/// Flow that loses this much along the path: bracketed Newton on a rising curve.
double flowAtLoss(const PathKernel& path, double loss_Pa, double largest_m3_s, Branch branch) {
  double low = 0.0;
  double high = largest_m3_s;
  if (path.at(high, branch).loss_Pa <= loss_Pa) return high;
  double flow = 0.5 * high;
  for (int step = 0; step < kMostBracketingSteps; ++step) {
    const LossPoint point = path.at(flow, branch);
    (point.loss_Pa < loss_Pa ? low : high) = flow;
    double next = flow - (point.loss_Pa - loss_Pa) / point.slope_Pa_s_m3;
    // Newton alone may swing from one side of a steep passage to the other: every third step halves the bracket.
    if (!(next > low && next < high) || step % 3 == 2) next = 0.5 * (low + high);
    const double change = std::abs(next - flow);
    flow = next;
    if (change <= 1e-15 * flow) break;
  }
  return flow;
}

/// Nested bracketing. Slow, but only needs losses that rise and a head that falls.
Solution solveByBracketing(const Problem& problem, Branch branch) {
  const double largest = problem.pump->largestFlow_m3_s();
  double low = 0.0;
  double high = problem.weight_Pa_m * (problem.pump->shutOffHead_m() - problem.static_m);
  double loss = 0.5 * high;
  Solution best;
  const double tolerance = kTolerance * problem.pump->shutOffHead_m();
  std::vector<double> flows(problem.runs.size());
  for (int step = 1; step <= kMostBracketingSteps; ++step) {
    double flowSlope = 0.0;
    for (std::size_t n = 0; n < flows.size(); ++n) {
      flows[n] = flowAtLoss(problem.runs[n], loss, largest, branch);
      flowSlope += 1.0 / problem.runs[n].at(flows[n], branch).slope_Pa_s_m3;
    }
    const double sum = problem.total(flows);
    flowSlope *= problem.alike;
    const LossPoint feed = problem.feed ? problem.feed->at(sum, branch) : LossPoint{};
    const LossPoint returning = problem.returning ? problem.returning->at(sum, branch) : LossPoint{};
    const double excess =
        problem.weight_Pa_m * (problem.pump->head_m(sum) - problem.static_m) - feed.loss_Pa - returning.loss_Pa - loss;
    Touching laws = touch(problem, flows, branch);
    const double residual = residual_m(problem, laws, sum);
    if (residual < best.residual_m) {
      best.flows_m3_s = flows;
      best.laws = std::move(laws);
      best.residual_m = residual;
    }
    best.iterations = step;
    if (best.residual_m <= tolerance) break;
    (excess > 0.0 ? low : high) = loss;
    const double slope =
        (problem.weight_Pa_m * problem.pump->slope_s_m2(sum) - feed.slope_Pa_s_m3 - returning.slope_Pa_s_m3) *
            flowSlope -
        1.0;
    double next = loss - excess / slope;
    if (!(next > low && next < high) || step % 3 == 0) next = 0.5 * (low + high);
    if (next == loss) break;
    loss = next;
  }
  return best;
}

Solution solveOn(const Problem& problem, Branch branch, std::vector<double> start) {
  Solution quick = solveByTouching(problem, branch, std::move(start));
  if (quick.residual_m <= kTolerance * problem.pump->shutOffHead_m()) return quick;
  Solution sure = solveByBracketing(problem, branch);
  sure.iterations += quick.iterations;
  if (quick.residual_m < sure.residual_m) {
    quick.iterations = sure.iterations;
    return quick;
  }
  return sure;
}

bool isOpen(const Problem& problem, const std::vector<double>& flows) {
  const double sum = problem.total(flows);
  if (problem.feed && problem.feed->isOpen(sum)) return true;
  if (problem.returning && problem.returning->isOpen(sum)) return true;
  for (std::size_t n = 0; n < flows.size(); ++n) {
    if (problem.runs[n].isOpen(flows[n])) return true;
  }
  return false;
}

Result<Problem> problemOf(const Network& network, const PumpCurve& pump) {
  if (network.runs.empty()) return Error{ErrorCode::OutOfRange, "network/runs", {}, {{"runs", 0.0, Dimension::Count}}};
  if (network.alike < 1) {
    return Error{ErrorCode::OutOfRange,
                 "network/alike",
                 {},
                 {{"panels_alike", static_cast<double>(network.alike), Dimension::Count}}};
  }
  if (!(network.staticHead_m >= 0.0 && std::isfinite(network.staticHead_m))) {
    return Error{
        ErrorCode::OutOfRange, "network/static_head", {}, {{"static_head", network.staticHead_m, Dimension::Head}}};
  }
  if (!std::isfinite(network.highestPoint_m)) {
    return Error{ErrorCode::NotFinite, "network/highest_point", {}, {}};
  }
  Problem problem;
  problem.pump = &pump;
  problem.static_m = network.staticHead_m;
  problem.alike = network.alike;
  for (const FlowPath& run : network.runs) {
    auto kernel = PathKernel::from(run);
    if (!kernel) return kernel.error();
    if (!(kernel->length_m() > 0.0)) {
      return Error{ErrorCode::OutOfRange, "path/length", {}, {{"length", 0.0, Dimension::Length}}};
    }
    problem.runs.push_back(std::move(*kernel));
  }
  for (const auto& [path, place] :
       {std::pair{&network.feed, &problem.feed}, {&network.returning, &problem.returning}}) {
    if (!path->has_value()) continue;
    auto kernel = PathKernel::from(**path);
    if (!kernel) return kernel.error();
    *place = std::move(*kernel);
  }
  problem.weight_Pa_m = problem.runs.front().firstDensity_kg_m3() * kStandardGravity_m_s2;
  return problem;
}

Error notConverged(const Solution& solution) {
  return {ErrorCode::NotConverged,
          "network",
          {},
          {{"residual", solution.residual_m, Dimension::Head},
           {"iterations", static_cast<double>(solution.iterations), Dimension::Count}}};
}

NetworkFlow describe(const Problem& problem, const Solution& solution) {
  NetworkFlow result;
  result.flow_m3_s = problem.total(solution.flows_m3_s);
  result.head_m = problem.pump->head_m(result.flow_m3_s);
  result.iterations = solution.iterations;
  result.residual_m = solution.residual_m;
  const Touching& laws = solution.laws;
  if (problem.feed) result.feed = problem.feed->full(result.flow_m3_s, laws.feed.touchingPoint());
  if (problem.returning) {
    result.returning = problem.returning->full(result.flow_m3_s, laws.returning.touchingPoint());
  }
  for (std::size_t n = 0; n < problem.runs.size(); ++n) {
    const double flow = solution.flows_m3_s[n];
    result.runs.push_back({flow, problem.runs[n].full(flow, laws.runs[n].touchingPoint())});
  }
  return result;
}

NetworkFlow standingStill(const Problem& problem, double startingLift_m) {
  NetworkFlow result;
  result.head_m = problem.pump->shutOffHead_m();
  if (problem.feed) result.feed = problem.feed->full(0.0);
  if (problem.returning) result.returning = problem.returning->full(0.0);
  for (const PathKernel& run : problem.runs) result.runs.push_back({0.0, run.full(0.0)});
  result.startingLift_m = startingLift_m;
  result.starts = false;
  return result;
}

Result<PathKernel> checkedKernel(const FlowPath& path, VolumeFlow flow) {
  if (!(flow.si() >= 0.0 && flow.isFinite())) {
    return Error{ErrorCode::OutOfRange, "path/flow", {}, {{"flow", flow.si(), Dimension::VolumeFlow}}};
  }
  auto kernel = PathKernel::from(path);
  if (!kernel) return kernel;
  const double reynolds = kernel->highestReynolds(flow.si());
  if (reynolds > kColebrookReynolds.highest) {
    return Error{ErrorCode::OutOfRange, "path/reynolds", {}, {{"reynolds", reynolds, Dimension::None}}};
  }
  return kernel;
}

}  // namespace

Result<PathLoss> pathLoss(const FlowPath& path, VolumeFlow flow) {
  return checkedKernel(path, flow).transform([&](const PathKernel& kernel) { return kernel.full(flow.si()); });
}

Result<std::vector<double>> lossUpTo(const FlowPath& path, VolumeFlow flow) {
  return checkedKernel(path, flow).transform([&](const PathKernel& kernel) { return kernel.lossUpTo_Pa(flow.si()); });
}

Result<NetworkFlow> solve(const Network& network, const PumpCurve& pump) {
  const auto problem = problemOf(network, pump);
  if (!problem) return problem.error();
  const double startingLift_m = std::max({network.highestPoint_m, network.staticHead_m, 0.0});
  if (pump.shutOffHead_m() <= startingLift_m) return standingStill(*problem, startingLift_m);
  const double share = 0.3 * pump.largestFlow_m3_s() / (problem->alike * static_cast<double>(network.runs.size()));
  const Solution best = solveOn(*problem, Branch::Best, std::vector<double>(network.runs.size(), share));
  const double acceptable = kAcceptable * pump.shutOffHead_m();
  if (!(best.residual_m <= acceptable)) return notConverged(best);
  NetworkFlow result = describe(*problem, best);
  result.startingLift_m = startingLift_m;
  result.lowFlow_m3_s = result.highFlow_m3_s = result.flow_m3_s;
  if (!isOpen(*problem, best.flows_m3_s)) return result;
  const Solution low = solveOn(*problem, Branch::High, best.flows_m3_s);
  if (!(low.residual_m <= acceptable)) return notConverged(low);
  const Solution high = solveOn(*problem, Branch::Low, best.flows_m3_s);
  if (!(high.residual_m <= acceptable)) return notConverged(high);
  // Equal up to rounding when the band is closed again at the other answer.
  result.lowFlow_m3_s = std::min(problem->total(low.flows_m3_s), result.flow_m3_s);
  result.highFlow_m3_s = std::max(problem->total(high.flows_m3_s), result.flow_m3_s);
  return result;
}

}  // namespace sunspool::hydraulics
