// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/remedies/trial.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/number_text.h"
#include "core/checks/checks.h"
#include "core/checks/measures.h"
#include "core/checks/snag_keys.h"
#include "core/evaluate/evaluate.h"
#include "core/layout/layout.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::remedies {
namespace {

constexpr std::size_t kMost = 3;

/// What the work is worth in the project's money, beside what has to be paid. Assumption: our own judgement.
double botherOf(RemedyKind kind) {
  switch (kind) {
    case RemedyKind::HandbookLimit:
      return 1.0;
    case RemedyKind::LargerBendRadius:
    case RemedyKind::LargerPitch:
    case RemedyKind::LongerTail:
    case RemedyKind::EnterPrice:
    case RemedyKind::EnterGust:
      return 2.0;
    case RemedyKind::FewerTurns:
    case RemedyKind::SpreadEntries:
    case RemedyKind::StilesThrough:
      return 3.0;
    case RemedyKind::ThrottleReturn:
    case RemedyKind::FewerRuns:
    case RemedyKind::SmallerFrame:
    case RemedyKind::EnterLimit:
      return 5.0;
    case RemedyKind::InnerEndThroughBack:
      return 6.0;
    case RemedyKind::InnerEndUnder:
    case RemedyKind::OpenReturn:
    case RemedyKind::AllowJoins:
    case RemedyKind::LongerTimber:
      return 8.0;
    case RemedyKind::LowerPipes:
    case RemedyKind::SlowerPump:
    case RemedyKind::LongerRoll:
    case RemedyKind::LargerSheet:
      return 10.0;
    case RemedyKind::ThinnerInsulation:
    case RemedyKind::DeeperTimber:
    case RemedyKind::OtherRecipe:
      return 12.0;
    case RemedyKind::MoreRuns:
      return 15.0;
    case RemedyKind::LowerPanel:
    case RemedyKind::HoldDown:
      return 20.0;
    case RemedyKind::ShadeCloth:
      return 25.0;
    case RemedyKind::NoGlazing:
      return 30.0;
    case RemedyKind::FasterPump:
    case RemedyKind::OtherMaterial:
      return 40.0;
    case RemedyKind::StrongerPump:
    case RemedyKind::OtherTube:
      return 60.0;
  }
  return 0.0;
}
constexpr double kBotherOfAFinding = 3.0;

double painOf(const Remedy& remedy) {
  double pain = botherOf(remedy.kind);
  if (!remedy.price) return pain;
  const Price& price = *remedy.price;
  pain += kBotherOfAFinding * price.findings;
  pain += std::max(0.0, price.money.value_or(0.0));
  pain += checks::moneyEquivalent({"heat", std::max(0.0, -price.heat.si()), Dimension::Power});
  return pain;
}

/// Findings that hang on the stopped pump's temperatures.
bool isOfTheStoppedPump(SnagCode code) {
  constexpr std::array kCodes{SnagCode::WaterBoilsWhenStopped,       SnagCode::FirstSlugScalds,
                              SnagCode::TubeOverLimitWhenStopped,    SnagCode::GlazingOverLimitWhenStopped,
                              SnagCode::PlateOverLimitWhenStopped,   SnagCode::InsulationOverLimitWhenStopped,
                              SnagCode::BackingOverLimitWhenStopped, SnagCode::HoseCollapsesWhenHot};
  return std::find(kCodes.begin(), kCodes.end(), code) != kCodes.end();
}

bool isSame(const model::Tube& a, const model::Tube& b) {
  return a.outsideDiameter.value == b.outsideDiameter.value && a.insideDiameter.value == b.insideDiameter.value &&
         a.material == b.material;
}

/// Tubes given, those of rolls in the Shed, and the one every project starts from.
std::vector<model::Tube> otherTubes(const model::Document& document, std::span<const model::Tube> given) {
  std::vector<model::Tube> all;
  const auto add = [&](const model::Tube& tube) {
    if (isSame(tube, document.tube)) return;
    if (std::any_of(all.begin(), all.end(), [&](const model::Tube& other) { return isSame(other, tube); })) return;
    all.push_back(tube);
  };
  for (const model::Roll& roll : document.stock.rolls) {
    if (!roll.outsideDiameter || !roll.insideDiameter) continue;
    const auto known = std::find_if(given.begin(), given.end(), [&](const model::Tube& tube) {
      return tube.outsideDiameter.value == *roll.outsideDiameter && tube.insideDiameter.value == *roll.insideDiameter;
    });
    model::Tube tube = known != given.end() ? *known : document.tube;
    if (known == given.end()) {
      tube.catalogueId.clear();
      tube.name = roll.name;
      tube.bendTestCollapseRadius.reset();
      tube.outsideDiameter.value = *roll.outsideDiameter;
      tube.insideDiameter.value = *roll.insideDiameter;
    }
    add(tube);
  }
  for (const model::Tube& tube : given) add(tube);
  add(model::lowDensityPolyethylene20x16());
  const double outside = document.tube.outsideDiameter.value.si();
  std::stable_sort(all.begin(), all.end(), [&](const model::Tube& a, const model::Tube& b) {
    return std::abs(a.outsideDiameter.value.si() - outside) < std::abs(b.outsideDiameter.value.si() - outside);
  });
  return all;
}

}  // namespace

Trial::Trial(const model::Document& document, const results::Results& results, const Snag& snag,
             std::span<const model::Tube> tubes)
    : m_document(document),
      m_results(results),
      m_snag(snag),
      m_key(checks::snagKey(snag)),
      m_tubes(otherTubes(document, tubes)) {}

bool Trial::offer(RemedyKind kind, const Edit& edit, std::vector<Fact> facts, std::string detail) {
  Remedy remedy;
  remedy.kind = kind;
  remedy.facts = std::move(facts);
  remedy.detail = std::move(detail);
  return tryOut(std::move(remedy), edit, Pricing::List, std::nullopt);
}

bool Trial::offerPriced(RemedyKind kind, const Edit& edit, std::vector<Fact> facts, std::string detail,
                        model::Price money) {
  Remedy remedy;
  remedy.kind = kind;
  remedy.facts = std::move(facts);
  remedy.detail = std::move(detail);
  return tryOut(std::move(remedy), edit, Pricing::Given, money);
}

bool Trial::tryOut(Remedy remedy, const Edit& edit, Pricing pricing, model::Price money) {
  const Result<model::Document> after = edit(m_document);
  if (!after.has_value() || *after == m_document) return false;
  const results::Results reckoned = evaluate::evaluate(*after, {.ranges = false});
  if (!isGood(reckoned)) return false;
  remedy.price = priceOf(m_document, m_results, *after, reckoned);
  if (pricing == Pricing::Given) remedy.price->money = money;
  remedy.edit = [edit](model::Document document, double) { return edit(std::move(document)); };
  const double pain = painOf(remedy);
  m_kept.push_back({std::move(remedy), pain});
  return true;
}

void Trial::ask(RemedyKind kind, Dimension dimension,
                std::function<Result<model::Document>(model::Document, double)> edit, std::string detail) {
  Remedy remedy;
  remedy.kind = kind;
  remedy.detail = std::move(detail);
  remedy.asks = dimension;
  remedy.edit = std::move(edit);
  const double pain = painOf(remedy);
  m_kept.push_back({std::move(remedy), pain});
}

bool Trial::isGood(const results::Results& after) const {
  if (m_results.layout.has_value() && !after.layout.has_value()) return false;
  const auto before = [&](const std::string& key) {
    return std::find_if(m_results.snags.begin(), m_results.snags.end(),
                        [&](const Snag& snag) { return checks::snagKey(snag) == key; });
  };
  for (const Snag& snag : after.snags) {
    const std::string key = checks::snagKey(snag);
    if (key == m_key) return false;
    const auto was = before(key);
    const bool isNew = was == m_results.snags.end();
    if (isNew && snag.code == m_snag.code) return false;  // only moved
    const bool worse = snag.state == SnagState::Snag && (isNew || was->state != SnagState::Snag);
    if (worse && !(isOfTheStoppedPump(snag.code) && !m_results.stopped.has_value())) return false;
  }
  return true;
}

bool Trial::helps(const Edit& edit) const {
  const Result<model::Document> after = edit(m_document);
  if (!after.has_value()) return false;
  const results::Results reckoned = evaluate::evaluate(*after, {.depth = evaluate::Depth::Heat, .ranges = false});
  if (!reckoned.layout.has_value() || !reckoned.flow.has_value() || !reckoned.flow->network.starts) return false;
  return std::none_of(reckoned.snags.begin(), reckoned.snags.end(),
                      [&](const Snag& snag) { return snag.code == m_snag.code; });
}

std::optional<double> Trial::lowestPressure_Pa(const Edit& edit) const {
  const Result<model::Document> after = edit(m_document);
  if (!after.has_value()) return std::nullopt;
  const results::Results reckoned = evaluate::evaluate(*after, {.depth = evaluate::Depth::Heat, .ranges = false});
  if (!reckoned.flow.has_value() || !reckoned.flow->network.starts || reckoned.profiles.empty()) return std::nullopt;
  return reckoned.flow->lowest.si();
}

std::vector<Remedy> Trial::best() {
  std::stable_sort(m_kept.begin(), m_kept.end(), [](const Kept& a, const Kept& b) { return a.pain < b.pain; });
  std::vector<Remedy> remedies;
  for (Kept& kept : m_kept) {
    if (remedies.size() == kMost) break;
    remedies.push_back(std::move(kept.remedy));
  }
  return remedies;
}

Result<model::Document> accepted(model::Document document) {
  std::string name = document.name;
  return model::withName(std::move(document), std::move(name));
}

model::Document fitted(model::Document document) {
  if (!document.laying.quarterTurns || layout::lay(document).has_value()) return document;
  model::Document free = document;
  free.laying.quarterTurns.reset();
  const Result<layout::LaidPanel> laid = layout::lay(free);
  if (!laid.has_value()) return document;
  int most = 0;
  for (const layout::LaidRun& run : laid->runs) most = std::max(most, run.quarterTurns);
  // Some counts leave no room for the ramp of a crossing although a larger one does.
  constexpr int kStepsDown = 16;
  const int asked = *document.laying.quarterTurns;
  for (int sides = std::min(asked - 1, most); sides >= std::max(1, asked - kStepsDown); --sides) {
    free.laying.quarterTurns = sides;
    if (layout::lay(free).has_value()) return free;
  }
  if (most < asked) document.laying.quarterTurns = most;
  return document;
}

Result<model::Document> withOtherTube(model::Document document, const model::Tube& tube) {
  const model::Tube old = document.tube;
  Length longest = metres(100.0);
  bool onARoll = false;
  for (model::Roll& roll : document.stock.rolls) {
    if (!roll.outsideDiameter) roll.outsideDiameter = old.outsideDiameter.value;
    if (!roll.insideDiameter) roll.insideDiameter = old.insideDiameter.value;
    onARoll = onARoll || (*roll.outsideDiameter == tube.outsideDiameter.value &&
                          *roll.insideDiameter == tube.insideDiameter.value);
    longest = std::max(longest, roll.length);
  }
  if (!onARoll) {
    model::Roll roll;
    roll.name = tube.name + ", " + numberText(longest.si()) + " m";
    roll.length = longest;
    roll.outsideDiameter = tube.outsideDiameter.value;
    roll.insideDiameter = tube.insideDiameter.value;
    document.stock.rolls.push_back(std::move(roll));
  }
  // The gap a hand needs stays what it was.
  document.laying.pitch = std::max(document.laying.pitch, tube.outsideDiameter.value + millimetres(2.0));
  document.tube = tube;
  return accepted(fitted(std::move(document)));
}

}  // namespace sunspool::remedies
