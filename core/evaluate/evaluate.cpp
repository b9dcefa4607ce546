// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/evaluate.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "core/checks/checks.h"
#include "core/checks/holes.h"
#include "core/checks/measures.h"
#include "core/checks/wind.h"
#include "core/evaluate/demand.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/model/uncertain_inputs.h"
#include "core/model/validate.h"
#include "core/stock/buying.h"

namespace sunspool::evaluate {
namespace {

/// The answers that get a range.
struct Headline {
  double tubeLength_m = 0.0, water_m3 = 0.0, flow_m3_s = 0.0, loss_Pa = 0.0, head_m = 0.0;
  double heat_W = 0.0, rise_K = 0.0, outlet_K = 0.0;
};
using Member = double Headline::*;
constexpr Member kMembers[] = {&Headline::tubeLength_m, &Headline::water_m3, &Headline::flow_m3_s, &Headline::loss_Pa,
                               &Headline::head_m,       &Headline::heat_W,   &Headline::rise_K,    &Headline::outlet_K};

constexpr double kWorthPricing = 0.001;  // imbalance below which runs count as equal

/// Hand laying makes the turns longer or shorter by the wobble; tails are cut to length.
double laidLength_m(const model::Document& document, const layout::LaidPanel& laid) {
  double length = 0.0;
  for (const layout::LaidRun& run : laid.runs) {
    length += run.cutLength_m + (run.turnsTo_m - run.turnsFrom_m) * document.laying.wobble.value;
  }
  return length;
}

double largestLoss_Pa(const hydraulics::NetworkFlow& flow) {
  double loss = 0.0;
  for (const auto& run : flow.runs) loss = std::max(loss, run.loss.loss_Pa);
  return loss;
}

Headline headlineOf(const model::Document& document, const layout::LaidPanel& laid, const Coupled* coupled) {
  Headline line;
  const double bore = document.tube.insideDiameter.value.si();
  line.tubeLength_m = laidLength_m(document, laid);
  line.water_m3 = std::numbers::pi / 4.0 * bore * bore * line.tubeLength_m;
  if (coupled == nullptr) return line;
  line.flow_m3_s = coupled->flow.flow_m3_s;
  line.loss_Pa = largestLoss_Pa(coupled->flow);
  line.head_m = coupled->flow.head_m;
  if (coupled->heat.has_value()) {
    line.heat_W = coupled->heat->toWater_W * model::panelsOnThePump(document);
    line.outlet_K = mixedOutlet_K(*coupled->heat, coupled->flow);
    line.rise_K = line.outlet_K - document.pool.water.value.inKelvin();
  }
  return line;
}

/// Half-widths of the headline, first order: each spread alone, added as squares.
class Spreads {
 public:
  Spreads(const model::Document& document, const layout::LaidPanel& laid, const Headline& base,
          const results::SunNow* sun, bool withFlow)
      : m_document(document), m_laid(laid), m_base(base), m_sun(sun), m_withFlow(withFlow) {}

  std::vector<results::Influence> propagate() {
    std::vector<results::Influence> influences;
    for (const model::UncertainInput& input : model::uncertainInputs(m_document)) {
      if (!(input.spread_si > 0.0) || movesNothing(input)) continue;
      const Headline half = halfWidths(input);
      for (const Member member : kMembers) m_squares.*member += half.*member * half.*member;
      influences.push_back({input.pointer, input.sureness, half.flow_m3_s, half.heat_W, half.loss_Pa});
    }
    std::stable_sort(influences.begin(), influences.end(),
                     [](const auto& a, const auto& b) { return a.heat_W > b.heat_W; });
    return influences;
  }
  double halfWidth(Member member) const { return std::sqrt(m_squares.*member); }

 private:
  std::optional<Headline> at(const model::UncertainInput& input, double spreads) const {
    const Result<model::Document> shifted =
        model::shifted(m_document, input.pointer, input.value_si + spreads * input.spread_si);
    if (!shifted.has_value() || !model::validate(*shifted).has_value()) {
      return std::nullopt;  // beyond what is possible: the other side speaks
    }
    if (!m_withFlow || movesLengthOnly(input)) {
      Headline line = m_base;
      const Headline lengths = headlineOf(*shifted, m_laid, nullptr);
      line.tubeLength_m = lengths.tubeLength_m;
      line.water_m3 = lengths.water_m3;
      return line;
    }
    const Result<results::SunNow> sun = m_sun != nullptr ? sunNow(*shifted) : Result<results::SunNow>(Error{});
    const Result<Coupled> coupled = flowAndHeat(*shifted, m_laid, sun.has_value() ? &*sun : nullptr);
    if (!coupled.has_value()) return std::nullopt;
    return headlineOf(*shifted, m_laid, &*coupled);
  }
  /// Hand laying moves the length that is shown; the run that flows and warms stays the drawn one.
  static bool movesLengthOnly(const model::UncertainInput& input) { return input.pointer == "/laying/wobble"; }
  /// Inputs of other answers than the headline's: asking them would only cost time.
  bool movesNothing(const model::UncertainInput& input) const {
    const std::string_view pointer = input.pointer;
    return pointer.starts_with("/stock/") || pointer == "/siting/gust" || pointer == "/siting/uplift_coefficient" ||
           pointer == "/box/shade_cloth" ||
           (pointer == "/conditions/dull_share" && m_document.conditions.sky == model::SkyKind::Clear);
  }
  Headline halfWidths(const model::UncertainInput& input) const {
    const std::optional<Headline> up = at(input, 1.0);
    const std::optional<Headline> down = at(input, -1.0);
    Headline half;
    for (const Member member : kMembers) {
      if (up && down) {
        half.*member = 0.5 * std::abs((*up).*member - (*down).*member);
      } else if (up || down) {
        half.*member = std::abs((up ? *up : *down).*member - m_base.*member);
      }
    }
    return half;
  }

  const model::Document& m_document;
  const layout::LaidPanel& m_laid;
  const Headline& m_base;
  const results::SunNow* m_sun;
  bool m_withFlow;
  Headline m_squares;
};

template <class Q>
Ranged<Q> around(double value, double half, double (*)(Q) = nullptr) {
  return {Q::fromSi(value), Q::fromSi(value - half), Q::fromSi(value + half)};
}

results::Flow flowResult(const Coupled& coupled, const std::vector<results::RunProfile>& profiles) {
  results::Flow flow;
  flow.network = coupled.flow;
  flow.shutOffHead = metres(coupled.shutOffHead_m);
  double least = 0.0, most = 0.0, sum = 0.0;
  for (std::size_t i = 0; i < coupled.flow.runs.size(); ++i) {
    const double run = coupled.flow.runs[i].flow_m3_s;
    least = i == 0 ? run : std::min(least, run);
    most = std::max(most, run);
    sum += run;
  }
  const double mean = sum / static_cast<double>(std::max<std::size_t>(1, coupled.flow.runs.size()));
  flow.imbalance = mean > 0.0 ? (most - least) / mean : 0.0;
  flow.regime = coupled.flow.runs.empty() ? hydraulics::Regime::Laminar : coupled.flow.runs.front().loss.mostly;
  if (!profiles.empty()) {
    double lowest = profiles.front().lowestGauge_Pa;
    for (const auto& profile : profiles) lowest = std::min(lowest, profile.lowestGauge_Pa);
    flow.lowest = pascals(lowest);
  }
  return flow;
}

/// The transition between laminar and turbulent flow is a band of the model itself, not of an input.
double transitionHalfWidth_m3_s(const hydraulics::NetworkFlow& flow) {
  return 0.5 * std::abs(flow.highFlow_m3_s - flow.lowFlow_m3_s);
}

void fillFlowAndHeat(const model::Document& document, const Options& options, results::Results& results) {
  const layout::LaidPanel& laid = *results.layout;
  const results::SunNow* sun = options.depth >= Depth::Heat && results.sun.has_value() ? &*results.sun : nullptr;
  const Result<Coupled> coupled = flowAndHeat(document, laid, sun);
  if (!coupled.has_value()) {
    results.flow = coupled.error();
    results.heat = coupled.error();
    return;
  }
  Result<std::vector<results::RunProfile>> along = profiles(document, laid, *coupled);
  if (along.has_value()) results.profiles = std::move(*along);

  const Headline base = headlineOf(document, laid, &*coupled);
  Spreads spreads(document, laid, base, sun, true);
  if (options.ranges) results.influences = spreads.propagate();
  const double band = transitionHalfWidth_m3_s(coupled->flow);

  results::Flow flow = flowResult(*coupled, results.profiles);
  flow.flow = around<VolumeFlow>(base.flow_m3_s, std::hypot(spreads.halfWidth(&Headline::flow_m3_s), band));
  flow.panelLoss = around<Pressure>(base.loss_Pa, spreads.halfWidth(&Headline::loss_Pa));
  flow.head = around<Length>(base.head_m, spreads.halfWidth(&Headline::head_m));
  if (sun != nullptr && coupled->heat.has_value() && flow.imbalance > kWorthPricing) {
    const Result<thermal::SteadyHeat> fair = heatWithFairShares(document, laid, *sun, *coupled);
    if (fair.has_value()) flow.imbalanceCost = watts(fair->toWater_W * model::panelsOnThePump(document) - base.heat_W);
  }
  results.flow = flow;
  results.tubeLength = around<Length>(base.tubeLength_m, spreads.halfWidth(&Headline::tubeLength_m));
  results.water = around<Volume>(base.water_m3, spreads.halfWidth(&Headline::water_m3));

  if (sun == nullptr) {
    results.heat = results.sun.has_value() ? Error{} : results.sun.error();
    return;
  }
  if (!coupled->heat.has_value()) {
    results.heat = coupled->heat.error();
    return;
  }
  results::Heat heat;
  heat.steady = *coupled->heat;
  heat.couplingIterations = coupled->iterations;
  heat.toPool = around<Power>(base.heat_W, spreads.halfWidth(&Headline::heat_W));
  heat.rise = around<TemperatureDifference>(base.rise_K, spreads.halfWidth(&Headline::rise_K));
  const TemperatureDifference half = kelvins(spreads.halfWidth(&Headline::outlet_K));
  const Temperature outlet = Temperature::fromKelvin(base.outlet_K);
  heat.outlet = {outlet, outlet - half, outlet + half};
  results.heat = heat;
}

void fillLengths(const model::Document& document, const Options& options, results::Results& results) {
  const Headline base = headlineOf(document, *results.layout, nullptr);
  Spreads spreads(document, *results.layout, base, nullptr, false);
  if (options.ranges) spreads.propagate();
  results.tubeLength = around<Length>(base.tubeLength_m, spreads.halfWidth(&Headline::tubeLength_m));
  results.water = around<Volume>(base.water_m3, spreads.halfWidth(&Headline::water_m3));
}

void fillStopped(const model::Document& document, results::Results& results) {
  if (!results.layout.has_value()) {
    results.stopped = results.layout.error();
    return;
  }
  const Result<thermal::Sky> sky = stoppedSky(document);
  if (!sky.has_value()) {
    results.stopped = sky.error();
    return;
  }
  results.stoppedSky = *sky;
  const Result<double> start_K =
      atTheStop_K(document, *results.layout, results.flow.has_value() ? &results.flow->network : nullptr, *sky);
  if (!start_K.has_value()) {
    results.stopped = start_K.error();
    return;
  }
  results.stopped = thermal::stopped(panelHeat(document, *results.layout), *sky, standingColumn_Pa(document), *start_K);
}

void fillSheets(const model::Document& document, results::Results& results, stock::BuyingPlans& plans) {
  for (const WantedLayer& layer : wantedSheets(document)) {
    results.sheetCuts.push_back(
        {layer.part, stock::planSheets(std::vector{layer.rectangle}, layer.sheets, layer.rule)});
  }
  for (const results::SheetCut& cut : results.sheetCuts) {
    // Without a sheet in the Shed the layer is bought by the square metre.
    if (!cut.plan.has_value() && cut.plan.error().code == ErrorCode::NoStock) continue;
    plans.layers.push_back({cut.part, cut.plan.has_value() ? &*cut.plan : nullptr});
  }
}

void fillCuts(const model::Document& document, results::Results& results) {
  stock::BuyingPlans plans;
  const layout::LaidPanel* laid = results.layout.has_value() ? &*results.layout : nullptr;
  std::optional<Result<stock::CutPlan>> best, worst;
  if (laid != nullptr) {
    plans.runsPerPanel = static_cast<int>(laid->runs.size());
    results.holes = checks::holes(document, *laid);
    results.tubeCuts = tubePlan(document, *laid);
    if (results.tubeCuts.has_value()) {
      best = tubePlanAt(End::Best, document, *laid);
      worst = tubePlanAt(End::Worst, document, *laid);
      plans.tightRolls = tightRolls(document, *laid, *results.tubeCuts);
      plans.worstWasTried = true;
    }
  } else {
    results.tubeCuts = results.layout.error();
  }
  results.timberCuts = stock::planCuts(wantedTimber(document), timberStock(document), timberRule(document));
  const auto planOf = [](const Result<stock::CutPlan>& plan) { return plan.has_value() ? &*plan : nullptr; };
  plans.tube = planOf(results.tubeCuts);
  plans.timber = planOf(results.timberCuts);
  if (best) plans.tubeAtBest = planOf(*best);
  if (worst) plans.tubeAtWorst = planOf(*worst);
  fillSheets(document, results, plans);
  results.buying = stock::buyingList(document, plans);
}

}  // namespace

results::Results evaluate(const model::Document& document, const Options& options) {
  results::Results results;
  results.layout = layout::lay(document);
  const layout::LaidPanel* laid = results.layout.has_value() ? &*results.layout : nullptr;
  results.depth = checks::depthBudget(document, laid);
  results.masses = checks::masses(document, laid);
  results.wind = checks::wind(document, results.masses);
  if (laid != nullptr) results.bends = checks::measureBends(document, *laid);
  results.sun = sunNow(document);

  if (laid == nullptr) {
    results.flow = results.layout.error();
    results.heat = results.layout.error();
  } else {
    if (options.depth >= Depth::Flow) fillFlowAndHeat(document, options, results);
    if (options.depth < Depth::Flow || !results.flow.has_value()) fillLengths(document, options, results);
  }
  if (options.depth == Depth::Everything) {
    fillStopped(document, results);
    fillCuts(document, results);
  }
  results.snags = checks::check(document, results);
  return results;
}

std::vector<SweepPoint> sweep(const model::Document& document, Sweep variable, std::span<const double> at) {
  std::vector<SweepPoint> points;
  points.reserve(at.size());
  for (const double x : at) {
    SweepPoint point;
    point.x = x;
    const results::Results results = evaluate(swept(document, variable, x), {.depth = Depth::Heat, .ranges = false});
    if (results.layout.has_value() && results.flow.has_value()) {
      point.legal = true;
      point.tubeLength_m = results.tubeLength.value.si();
      point.water_m3 = results.water.value.si();
      point.loss_Pa = results.flow->panelLoss.value.si();
      point.heat_W = results.heat.has_value() ? results.heat->toPool.value.si() : 0.0;
    }
    points.push_back(point);
  }
  return points;
}

model::Document swept(model::Document document, Sweep variable, double x) {
  switch (variable) {
    case Sweep::Pitch:
      document.laying.pitch = metres(x);
      break;
    case Sweep::QuarterTurns:
      document.laying.quarterTurns = static_cast<int>(std::lround(x));
      break;
    case Sweep::BendRadius:
      document.laying.bendRadius = metres(x);
      break;
  }
  return document;
}

}  // namespace sunspool::evaluate
