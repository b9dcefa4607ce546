// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "core/checks/measures.h"
#include "core/remedies/trial.h"

namespace sunspool::remedies {
namespace {

constexpr double kLiftMargin = 1.15;  // of checks::check: labels are off by a tenth and more
constexpr double kComfortableLift = 1.25;

/// A pump by its label; as much power from the socket as its water may take.
model::Pump pumpOf(model::Pump pump, double flow_m3_s, double head_m) {
  pump.name = "Pump " + std::to_string(std::lround(head_m * 10.0) / 10) + "." +
              std::to_string(std::lround(head_m * 10.0) % 10) + " m";
  pump.points.clear();
  pump.speed = 1.0;
  pump.labelFlow.value = cubicMetresPerSecond(flow_m3_s);
  pump.labelHead.value = metres(head_m);
  pump.labelFlow.sureness = pump.labelHead.sureness = Sureness::Label;
  const double most_W = 1000.0 * kStandardGravity_m_s2 * head_m * flow_m3_s * 2.0 / (3.0 * std::sqrt(3.0));
  if (pump.electricalPower.si() > 0.0) {
    pump.electricalPower = std::max(pump.electricalPower, watts(roundedUp(3.0 * most_W, 5.0)));
  }
  return pump;
}

double largestFlow_m3_s(const model::Pump& pump) {
  return pump.points.empty() ? pump.labelFlow.value.si() : pump.points.back().flow.si();
}

Edit withPump(const model::Pump& pump) {
  return [pump](model::Document document) {
    document.plumbing.pump = pump;
    return accepted(std::move(document));
  };
}

std::vector<Fact> pumpFacts(const model::Pump& pump) {
  return {{"flow", largestFlow_m3_s(pump), Dimension::VolumeFlow},
          {"head", pump.points.empty() ? pump.labelHead.value.si() : pump.points.front().head.si(), Dimension::Head}};
}

/// Pumps of the Shed, at their own price; what is owned costs nothing.
void offerShedPumps(Trial& trial) {
  for (const model::StockPump& entry : trial.document().stock.pumps) {
    if (entry.pump == trial.document().plumbing.pump) continue;
    trial.offerPriced(RemedyKind::StrongerPump, withPump(entry.pump), pumpFacts(entry.pump), entry.pump.name,
                      entry.owned > 0 ? model::Price(0.0) : entry.price);
  }
}

void offerNewPump(Trial& trial, const model::Pump& pump) {
  trial.offerPriced(RemedyKind::StrongerPump, withPump(pump), pumpFacts(pump), {}, std::nullopt);
}

double panelRise_m(const model::Document& document) {
  return checks::outerHeight(document).si() * std::sin(document.siting.tilt.radians());
}

Edit throttled(double lossCoefficient) {
  return [lossCoefficient](model::Document document) {
    auto& fittings = document.plumbing.returning.fittings;
    const Uncertain<double> loss{lossCoefficient, 0.2 * lossCoefficient, Sureness::Guess};
    const auto valve = std::find_if(fittings.begin(), fittings.end(), [](const model::FittingCount& fitting) {
      return fitting.kind == model::FittingKind::Valve && fitting.count == 1 && fitting.lossCoefficient;
    });
    if (valve != fittings.end()) {
      valve->lossCoefficient = loss;
    } else {
      fittings.push_back({model::FittingKind::Valve, 1, {}, loss});
    }
    return accepted(std::move(document));
  };
}

Edit openReturn(double height_m) {
  return [height_m](model::Document document) {
    document.plumbing.returnEndsUnderWater = false;
    document.plumbing.returnOutletAbovePool = metres(height_m);
    return accepted(std::move(document));
  };
}

Edit panelAt(double lowerEdge_m) {
  return [lowerEdge_m](model::Document document) {
    document.siting.lowerEdgeAbovePool = metres(lowerEdge_m);
    return accepted(std::move(document));
  };
}

/// Smallest x of low < x <= high from which on `does`; nullopt when not even high does. Geometric when low > 0.
std::optional<double> smallestThat(double low, double high, const std::function<bool(double)>& does) {
  if (!does(high)) return std::nullopt;
  for (int i = 0; i < 12; ++i) {
    const double middle = low > 0.0 ? std::sqrt(low * high) : 0.5 * (low + high);
    (does(middle) ? high : low) = middle;
  }
  return high;
}

/// Two digits, upwards: a valve is not set finer.
double twoDigitsUp(double value) {
  const double step = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  return roundedUp(value, step);
}

Edit atSpeed(double speed) {
  return [speed](model::Document document) {
    document.plumbing.pump.speed = speed;
    return accepted(std::move(document));
  };
}

/// The speed nearest to today's that does.
void offerSpeed(Trial& trial, RemedyKind kind, std::span<const double> factors) {
  const double now = trial.document().plumbing.pump.speed;
  for (const double factor : factors) {
    const double speed = std::round(now * factor * 100.0) / 100.0;
    if (!trial.helps(atSpeed(speed))) continue;
    if (trial.offerPriced(kind, atSpeed(speed), {{"speed", speed, Dimension::Percent}}, {}, std::nullopt)) return;
  }
}
constexpr std::array kSlower{0.95, 0.9, 0.85, 0.8, 0.7, 0.6, 0.5};
constexpr std::array kFaster{1.05, 1.1, 1.2, 1.3, 1.5};

Edit withStarts(int starts) {
  return [starts](model::Document document) {
    // As many sides a run as keep the tube about as it is.
    if (document.laying.quarterTurns) {
      document.laying.quarterTurns = std::max(1, *document.laying.quarterTurns * document.laying.starts / starts);
    }
    document.laying.starts = starts;
    return accepted(fitted(std::move(document)));
  };
}
void offerStarts(Trial& trial, RemedyKind kind) {
  for (const int starts : {1, 2, 4}) {
    const int now = trial.document().laying.starts;
    if (kind == RemedyKind::MoreRuns ? starts <= now : starts >= now) continue;
    trial.offer(kind, withStarts(starts), {{"runs", static_cast<double>(starts), Dimension::Count}});
  }
}

/// The nearest tube that does.
void offerTube(Trial& trial, const std::function<bool(const model::Tube&)>& does) {
  for (const model::Tube& tube : trial.tubes()) {
    if (!does(tube)) continue;
    const Edit edit = [tube](model::Document document) { return withOtherTube(std::move(document), tube); };
    if (trial.offer(RemedyKind::OtherTube, edit, {}, tube.name)) return;
  }
}

void offerLower(Trial& trial, double allowed_m) {
  const model::Document& document = trial.document();
  const double lowerEdge = roundedDown(allowed_m - panelRise_m(document), 0.01);
  const double edgeNow = document.siting.lowerEdgeAbovePool.si();
  const double allowed = roundedDown(allowed_m, 0.01);
  const auto both = [=](model::Document d) {
    d.plumbing.highestPointAbovePool = std::min(d.plumbing.highestPointAbovePool, metres(allowed));
    d.plumbing.pumpAbovePool = std::min(d.plumbing.pumpAbovePool, metres(allowed));
    d.siting.lowerEdgeAbovePool = std::min(d.siting.lowerEdgeAbovePool, metres(lowerEdge));
    return accepted(std::move(d));
  };
  if (lowerEdge < edgeNow) {
    trial.offer(RemedyKind::LowerPanel, both, {lengthFact("height", lowerEdge), lengthFact("by", edgeNow - lowerEdge)});
  } else {
    trial.offer(RemedyKind::LowerPipes, both, {lengthFact("height", allowed)});
  }
}

/// The gauge pressure the finding wants at least.
double wantedPressure_Pa(const Trial& trial) {
  const Snag& snag = trial.snag();
  const double lowest = trial.results().flow->lowest.si();
  if (snag.code == SnagCode::HoseCollapsesWhenHot && snag.state == SnagState::Snag) {
    for (const Fact& fact : snag.why) {
      if (fact.name == "factor") return -snag.limit.value_si / fact.value_si;
    }
  }
  if (snag.code == SnagCode::NearVapourPressure) {
    for (const Fact& fact : snag.why) {
      if (fact.name == "margin") return lowest + snag.limit.value_si + fact.value_si - snag.measured.value_si;
    }
  }
  return 0.0;
}

}  // namespace

void startRemedies(Trial& trial) {
  const double lift = trial.snag().measured.value_si, shutOff = trial.snag().limit.value_si;
  const model::Pump& pump = trial.document().plumbing.pump;
  offerShedPumps(trial);
  offerLower(trial, shutOff / kLiftMargin);
  offerNewPump(trial, pumpOf(pump, largestFlow_m3_s(pump), roundedUp(kComfortableLift * lift, 0.1)));
}

void suctionRemedies(Trial& trial) {
  if (!trial.results().flow.has_value()) return;
  constexpr double kRoom_Pa = 100.0;
  const double wanted = wantedPressure_Pa(trial) + kRoom_Pa;
  const auto holds = [&](const Edit& edit) {
    const std::optional<double> lowest = trial.lowestPressure_Pa(edit);
    return lowest && *lowest >= wanted;
  };
  const std::optional<double> loss = smallestThat(1.0, 9000.0, [&](double k) { return holds(throttled(k)); });
  if (loss) {
    const double rounded = twoDigitsUp(*loss);
    trial.offer(RemedyKind::ThrottleReturn, throttled(rounded), {{"loss_coefficient", rounded, Dimension::None}});
  }
  const model::Document& document = trial.document();
  const double edge = document.siting.lowerEdgeAbovePool.si();
  const double top = edge + panelRise_m(document);
  if (document.plumbing.returnEndsUnderWater && top > 0.05) {
    const std::optional<double> height =
        smallestThat(0.0, roundedUp(top, 0.05), [&](double h) { return holds(openReturn(h)); });
    if (height) {
      const double rounded = roundedUp(*height, 0.05);
      trial.offer(RemedyKind::OpenReturn, openReturn(rounded), {lengthFact("height", rounded)});
    }
  }
  if (edge > 0.0) {
    const std::optional<double> by =
        smallestThat(0.0, edge, [&](double lower) { return holds(panelAt(edge - lower)); });
    if (by) {
      const double lower = std::max(0.0, roundedDown(edge - *by, 0.01));
      trial.offer(RemedyKind::LowerPanel, panelAt(lower),
                  {lengthFact("height", lower), lengthFact("by", edge - lower)});
    }
  }
  if (trial.snag().code != SnagCode::HoseCollapsesWhenHot) return;
  trial.offerPriced(
      RemedyKind::ShadeCloth,
      [](model::Document d) {
        d.box.shadeCloth = Uncertain<double>{0.1, 0.05, Sureness::Label};
        return accepted(std::move(d));
      },
      {{"share", 0.1, Dimension::Percent}}, {}, std::nullopt);
}

void transitionRemedies(Trial& trial) {
  offerSpeed(trial, RemedyKind::SlowerPump, kSlower);
  offerSpeed(trial, RemedyKind::FasterPump, kFaster);
  offerStarts(trial, RemedyKind::FewerRuns);
  offerStarts(trial, RemedyKind::MoreRuns);
  const auto leaves = [&](double k) { return trial.helps(throttled(k)); };
  for (const double k : {10.0, 20.0, 50.0, 100.0, 200.0, 500.0}) {
    if (!leaves(k)) continue;
    trial.offer(RemedyKind::ThrottleReturn, throttled(k), {{"loss_coefficient", k, Dimension::None}});
    break;
  }
}

void fastWaterRemedies(Trial& trial) {
  offerStarts(trial, RemedyKind::MoreRuns);
  const std::optional<double> loss = smallestThat(1.0, 9000.0, [&](double k) { return trial.helps(throttled(k)); });
  if (loss) {
    const double rounded = twoDigitsUp(*loss);
    trial.offer(RemedyKind::ThrottleReturn, throttled(rounded), {{"loss_coefficient", rounded, Dimension::None}});
  }
  offerSpeed(trial, RemedyKind::SlowerPump, kSlower);
  const Length bore = trial.document().tube.insideDiameter.value;
  offerTube(trial, [&](const model::Tube& tube) { return tube.insideDiameter.value > bore; });
}

void slowWaterRemedies(Trial& trial) {
  offerShedPumps(trial);
  offerStarts(trial, RemedyKind::FewerRuns);
  offerSpeed(trial, RemedyKind::FasterPump, kFaster);
  const model::Pump& pump = trial.document().plumbing.pump;
  const double head = trial.results().flow->shutOffHead.si();
  for (const double factor : {1.25, 1.5, 2.0, 3.0, 4.0}) {
    const model::Pump stronger = pumpOf(pump, factor * largestFlow_m3_s(pump), roundedUp(factor * head, 0.1));
    if (!trial.helps(withPump(stronger))) continue;
    offerNewPump(trial, stronger);
    break;
  }
  const Length bore = trial.document().tube.insideDiameter.value;
  offerTube(trial, [&](const model::Tube& tube) { return tube.insideDiameter.value < bore; });
}

void unequalRemedies(Trial& trial) {
  if (trial.document().laying.entries == model::Entries::SideBySide) {
    trial.offer(RemedyKind::SpreadEntries, [](model::Document d) {
      d.laying.entries = model::Entries::Spread;
      return accepted(fitted(std::move(d)));
    });
  }
  offerStarts(trial, RemedyKind::FewerRuns);
  offerStarts(trial, RemedyKind::MoreRuns);
}

}  // namespace sunspool::remedies
