// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/propose.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/assert.h"
#include "core/evaluate/evaluate.h"
#include "core/propose/fitting.h"
#include "core/propose/starting.h"

namespace sunspool::propose {
namespace {

constexpr std::size_t kMostProposals = 3;
constexpr std::size_t kMostReckoned = 12;  // full evaluations, about 4 ms each
constexpr double kAlikeBare = 0.03;        // of the plate
constexpr double kAlikeHeat = 0.01;        // the model's own accuracy is worse than 1 %

struct Candidate {
  Laid laid;
  double heat_W = 0.0, tube_m = 0.0;
  double bareShare = 0.0;  ///< of the frame's inside: the core without tube
  double bend_m() const { return laid.design.laying.bendRadius.si(); }
};

enum class Tier { Clean, FlowSnag, NotLegal };

bool isOfFlow(SnagCode code) {
  switch (code) {
    case SnagCode::PumpNeverStarts:
    case SnagCode::NearVapourPressure:
    case SnagCode::HoseCollapsesWhenHot:
    case SnagCode::RunsUnequal:
      return true;
    default:
      return false;
  }
}
/// What the stopped pump does to the plastic belongs to glazing and place, not to how the tube is laid.
bool isOfTheStoppedPump(SnagCode code) {
  switch (code) {
    case SnagCode::WaterBoilsWhenStopped:
    case SnagCode::FirstSlugScalds:
    case SnagCode::TubeOverLimitWhenStopped:
    case SnagCode::GlazingOverLimitWhenStopped:
    case SnagCode::PlateOverLimitWhenStopped:
    case SnagCode::InsulationOverLimitWhenStopped:
    case SnagCode::BackingOverLimitWhenStopped:
      return true;
    default:
      return false;
  }
}

Tier tierOf(const results::Results& results, const Starting& start) {
  Tier tier = Tier::Clean;
  if (!results.layout.has_value() || !results.tubeCuts.has_value() || !results.timberCuts.has_value())
    return Tier::NotLegal;
  if (!start.rolls_m.empty() && results.tubeCuts->bought > 0) return Tier::NotLegal;
  for (const Snag& snag : results.snags) {
    if (snag.state != SnagState::Snag || isOfTheStoppedPump(snag.code)) continue;
    if (!isOfFlow(snag.code)) return Tier::NotLegal;
    tier = Tier::FlowSnag;
  }
  return tier;
}

Length tubeLeftOf(const model::Document& design, const results::Results& results) {
  Length left;
  for (const model::Roll& roll : design.stock.rolls) {
    const bool ofThisTube =
        roll.outsideDiameter.value_or(design.tube.outsideDiameter.value) == design.tube.outsideDiameter.value &&
        roll.insideDiameter.value_or(design.tube.insideDiameter.value) == design.tube.insideDiameter.value;
    if (ofThisTube) left += roll.length * static_cast<double>(roll.owned);
  }
  for (const stock::CutPattern& pattern : results.tubeCuts->patterns) {
    if (!pattern.owned) continue;
    left -= results.tubeCuts->stock[pattern.stock].length - pattern.left;
  }
  return std::max(left, Length{});
}

/// Lays every number of runs with every radius, and reckons flow and heat.
class Search {
 public:
  explicit Search(const std::vector<Starting>& startings) : m_startings(startings) {}

  Result<std::vector<Proposal>> run() {
    for (const Starting& start : m_startings) tryAll(start, radiiFor(start));
    for (const Starting& start : m_startings) {
      if (m_candidates.empty() && lastResortRadius(start) > 0.0) tryAll(start, {lastResortRadius(start)});
    }
    std::stable_sort(m_candidates.begin(), m_candidates.end(), warmerFirst);
    preferEvenWideBends();
    choose();
    if (!m_chosen.empty()) return std::move(m_chosen);
    return m_refusal ? *m_refusal : Error{ErrorCode::NoRunFits, {}, {}, {}};
  }

 private:
  struct Found {
    Candidate candidate;
    const Starting* start = nullptr;
  };

  void tryAll(const Starting& start, const std::vector<double>& radii_m) {
    for (const int runs : {1, 2, 4}) {
      for (const double radius_m : radii_m) {
        Result<Laid> laid = fitted(start, runs, radius_m);
        if (!laid.has_value()) {
          refuse(laid.error());
          continue;
        }
        const results::Results quick =
            evaluate::evaluate(laid->design, {.depth = evaluate::Depth::Heat, .ranges = false});
        if (!quick.layout.has_value()) {
          refuse(quick.layout.error());
          continue;
        }
        Candidate candidate{std::move(*laid), 0.0, quick.layout->totalCut.si(), 0.0};
        candidate.bareShare = bareShareOf(candidate.laid.design, *quick.layout);
        if (quick.heat.has_value()) candidate.heat_W = quick.heat->toPool.value.si();
        m_candidates.push_back({std::move(candidate), &start});
      }
    }
  }
  static double bareShareOf(const model::Document& design, const layout::LaidPanel& laid) {
    const double width_m = std::max(0.0, laid.coreUpper.x - laid.coreLower.x);
    const double height_m = std::max(0.0, laid.coreUpper.y - laid.coreLower.y);
    return width_m * height_m / (design.frame.insideWidth * design.frame.insideHeight).si();
  }
  /// Of several reasons the one that is nearest to being met; the first one where they cannot be compared.
  void refuse(const Error& error) {
    if (!m_refusal || (m_refusal->code == error.code && missingShare(error) < missingShare(*m_refusal)))
      m_refusal = error;
  }
  static double missingShare(const Error& error) {
    double asked = 0.0, there = 0.0;
    for (const Fact& fact : error.facts) {
      if (fact.name == "needed" || fact.name == "piece") asked = fact.value_si;
      if (fact.name == "width" || fact.name == "longest") there = fact.value_si;
    }
    return there > 0.0 ? asked / there : HUGE_VAL;
  }

  static bool alike(const Candidate& a, const Candidate& b) {
    return a.laid.design.laying.starts == b.laid.design.laying.starts &&
           a.laid.design.panelsAlike == b.laid.design.panelsAlike && a.laid.design.tube == b.laid.design.tube;
  }
  /// Of candidates alike but for their bends one stands for all. Those as warm as the warmest within the model's
  /// accuracy compete: first by how little of the plate lies without tube in the middle (the marched panel takes the
  /// same share of the sun from bare plate near and far from a tube, so that it does not see an empty middle), then by
  /// wide bends.
  void preferEvenWideBends() {
    std::vector<Found> kept;
    for (const Found& found : m_candidates) {
      const bool isDone = std::any_of(kept.begin(), kept.end(),
                                      [&](const Found& other) { return alike(other.candidate, found.candidate); });
      if (!isDone) kept.push_back(standsFor(found.candidate));
    }
    std::stable_sort(kept.begin(), kept.end(), warmerFirst);
    m_candidates = std::move(kept);
  }
  const Found& standsFor(const Candidate& kind) const {
    const double leastHeat_W = (1.0 - kAlikeHeat) * warmestAlike(kind);
    const auto competes = [&](const Found& found) {
      return alike(found.candidate, kind) && found.candidate.heat_W >= leastHeat_W;
    };
    double leastBare = HUGE_VAL;
    for (const Found& found : m_candidates) {
      if (competes(found)) leastBare = std::min(leastBare, found.candidate.bareShare);
    }
    const Found* best = nullptr;
    for (const Found& found : m_candidates) {
      if (!competes(found) || found.candidate.bareShare > leastBare + kAlikeBare) continue;
      if (best == nullptr || found.candidate.bend_m() > best->candidate.bend_m()) best = &found;
    }
    SUNSPOOL_ASSERT(best != nullptr, "the warmest one competes");
    return *best;
  }
  double warmestAlike(const Candidate& candidate) const {
    double warmest_W = 0.0;
    for (const Found& found : m_candidates) {
      if (alike(found.candidate, candidate)) warmest_W = std::max(warmest_W, found.candidate.heat_W);
    }
    return warmest_W;
  }
  static bool warmerFirst(const Found& a, const Found& b) {
    return a.candidate.heat_W != b.candidate.heat_W ? a.candidate.heat_W > b.candidate.heat_W
                                                    : a.candidate.tube_m > b.candidate.tube_m;
  }

  void choose() {
    std::vector<Proposal> withFlowSnag;
    const std::size_t most = std::min(m_candidates.size(), kMostReckoned);
    for (std::size_t i = 0; i < most && m_chosen.size() < kMostProposals; ++i) {
      const Found& found = m_candidates[i];
      results::Results results =
          evaluate::evaluate(found.candidate.laid.design, {.depth = evaluate::Depth::Everything, .ranges = false});
      const Tier tier = tierOf(results, *found.start);
      if (tier == Tier::NotLegal) {
        refuseByFindings(results);
        continue;
      }
      Proposal proposal{found.candidate.laid.design, std::move(results), {}, found.candidate.laid.binds};
      proposal.tubeLeft = tubeLeftOf(proposal.design, proposal.results);
      (tier == Tier::Clean ? m_chosen : withFlowSnag).push_back(std::move(proposal));
    }
    if (!m_chosen.empty()) return;
    withFlowSnag.resize(std::min(withFlowSnag.size(), kMostProposals));
    m_chosen = std::move(withFlowSnag);
  }
  void refuseByFindings(const results::Results& results) {
    if (m_refusal) return;
    if (!results.layout.has_value()) m_refusal = results.layout.error();
    if (!results.tubeCuts.has_value()) m_refusal = results.tubeCuts.error();
    if (!results.timberCuts.has_value()) m_refusal = results.timberCuts.error();
  }

  const std::vector<Starting>& m_startings;
  std::vector<Found> m_candidates;
  std::vector<Proposal> m_chosen;
  std::optional<Error> m_refusal;
};

}  // namespace

Result<std::vector<Proposal>> proposals(const Have& have, const model::Document& base,
                                        std::span<const model::Tube> knownTubes) {
  const Result<std::vector<Starting>> from = startings(have, base, knownTubes);
  if (!from.has_value()) return from.error();
  return Search(*from).run();
}

}  // namespace sunspool::propose
