// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/remedies/remedies.h"

#include <algorithm>
#include <map>

#include "core/remedies/trial.h"

namespace sunspool::remedies {
namespace {

using Row = stock::BuyingList::Row;

double heat_W(const results::Results& results) {
  return results.heat.has_value() ? results.heat->toPool.value.si() : 0.0;
}

double cutTube_m(const model::Document& document, const results::Results& results) {
  return results.layout.has_value() ? results.layout->totalCut.si() * document.panelsAlike : 0.0;
}

int openFindings(const results::Results& results) {
  return static_cast<int>(std::count_if(results.snags.begin(), results.snags.end(),
                                        [](const Snag& snag) { return snag.leftBecause.empty(); }));
}

/// What has to be bought of one thing, and for how much.
struct Bought {
  double units = 0.0, amount = 0.0;
  bool isPriced = true;
  double money = 0.0;
};

std::map<std::pair<std::string, std::string>, Bought> boughtOf(const results::Results& results) {
  std::map<std::pair<std::string, std::string>, Bought> things;
  for (const Row& row : results.buying.rows) {
    Bought& thing = things[{row.item, row.name}];
    thing.units += row.stockUnits - row.owned;
    thing.amount += row.amount;
    if (row.price) {
      thing.money += *row.price;
    } else {
      thing.isPriced = false;
    }
  }
  return things;
}

/// An unknown price counts only where something more or less of the thing is bought.
std::optional<double> moneyBetween(const results::Results& before, const results::Results& after) {
  auto old = boughtOf(before);
  const auto now = boughtOf(after);
  double money = 0.0;
  for (const auto& [key, thing] : now) {
    const Bought was = old.contains(key) ? old[key] : Bought{};
    old.erase(key);
    if (was.isPriced && thing.isPriced) {
      money += thing.money - was.money;
    } else if (thing.units != was.units || (thing.units == 0.0 && thing.amount != was.amount) ||
               was.isPriced != thing.isPriced) {
      return std::nullopt;
    }
  }
  for (const auto& [key, was] : old) {
    if (!was.isPriced) return std::nullopt;
    money -= was.money;
  }
  return money;
}

}  // namespace

std::string_view kindKey(RemedyKind kind) {
  switch (kind) {
    case RemedyKind::LargerBendRadius:
      return "larger_bend_radius";
    case RemedyKind::OtherTube:
      return "other_tube";
    case RemedyKind::LargerPitch:
      return "larger_pitch";
    case RemedyKind::FewerTurns:
      return "fewer_turns";
    case RemedyKind::InnerEndThroughBack:
      return "inner_end_through_back";
    case RemedyKind::InnerEndUnder:
      return "inner_end_under";
    case RemedyKind::DeeperTimber:
      return "deeper_timber";
    case RemedyKind::ThinnerInsulation:
      return "thinner_insulation";
    case RemedyKind::LongerTail:
      return "longer_tail";
    case RemedyKind::StrongerPump:
      return "stronger_pump";
    case RemedyKind::LowerPanel:
      return "lower_panel";
    case RemedyKind::LowerPipes:
      return "lower_pipes";
    case RemedyKind::ThrottleReturn:
      return "throttle_return";
    case RemedyKind::OpenReturn:
      return "open_return";
    case RemedyKind::MoreRuns:
      return "more_runs";
    case RemedyKind::FewerRuns:
      return "fewer_runs";
    case RemedyKind::SpreadEntries:
      return "spread_entries";
    case RemedyKind::SlowerPump:
      return "slower_pump";
    case RemedyKind::FasterPump:
      return "faster_pump";
    case RemedyKind::ShadeCloth:
      return "shade_cloth";
    case RemedyKind::NoGlazing:
      return "no_glazing";
    case RemedyKind::OtherMaterial:
      return "other_material";
    case RemedyKind::HandbookLimit:
      return "handbook_limit";
    case RemedyKind::LongerRoll:
      return "longer_roll";
    case RemedyKind::AllowJoins:
      return "allow_joins";
    case RemedyKind::LongerTimber:
      return "longer_timber";
    case RemedyKind::SmallerFrame:
      return "smaller_frame";
    case RemedyKind::LargerSheet:
      return "larger_sheet";
    case RemedyKind::EnterPrice:
      return "enter_price";
    case RemedyKind::EnterGust:
      return "enter_gust";
    case RemedyKind::HoldDown:
      return "hold_down";
    case RemedyKind::OtherRecipe:
      return "other_recipe";
    case RemedyKind::EnterLimit:
      return "enter_limit";
    case RemedyKind::StilesThrough:
      return "stiles_through";
  }
  return "unknown";
}

Price priceOf(const model::Document& before, const results::Results& beforeResults, const model::Document& after,
              const results::Results& afterResults) {
  Price price;
  price.tube = metres(cutTube_m(after, afterResults) - cutTube_m(before, beforeResults));
  price.heat = watts(heat_W(afterResults) - heat_W(beforeResults));
  price.money = moneyBetween(beforeResults, afterResults);
  price.findings = openFindings(afterResults) - openFindings(beforeResults);
  return price;
}

std::vector<Remedy> remediesFor(const model::Document& document, const results::Results& results, const Snag& snag,
                                std::span<const model::Tube> tubes) {
  Trial trial(document, results, snag, tubes);
  switch (snag.code) {
    case SnagCode::BendCollapses:
    case SnagCode::BendLikelyToFlatten:
    case SnagCode::BendClose:
    case SnagCode::BendStrainHigh:
      bendRemedies(trial);
      break;
    case SnagCode::TubesTouch:
    case SnagCode::TubesTooClose:
      spacingRemedies(trial);
      break;
    case SnagCode::CrossingTouchesGlazing:
    case SnagCode::TubeUnsupportedDepth:
      depthRemedies(trial);
      break;
    case SnagCode::TailTooShort:
      tailRemedies(trial);
      break;
    case SnagCode::PumpNeverStarts:
    case SnagCode::PumpBarelyStarts:
      startRemedies(trial);
      break;
    case SnagCode::NearVapourPressure:
    case SnagCode::HoseCollapsesWhenHot:
    case SnagCode::PressureBelowAir:
      suctionRemedies(trial);
      break;
    case SnagCode::FlowInTransition:
      transitionRemedies(trial);
      break;
    case SnagCode::VelocityHigh:
      fastWaterRemedies(trial);
      break;
    case SnagCode::VelocityLowForAir:
      slowWaterRemedies(trial);
      break;
    case SnagCode::RunsUnequal:
      unequalRemedies(trial);
      break;
    case SnagCode::WaterBoilsWhenStopped:
    case SnagCode::FirstSlugScalds:
    case SnagCode::TubeOverLimitWhenStopped:
    case SnagCode::GlazingOverLimitWhenStopped:
    case SnagCode::PlateOverLimitWhenStopped:
    case SnagCode::InsulationOverLimitWhenStopped:
    case SnagCode::BackingOverLimitWhenStopped:
      hotRemedies(trial);
      break;
    case SnagCode::MaterialLimitNotKnown:
      limitRemedies(trial);
      break;
    case SnagCode::TubeShort:
      noTubeRemedies(trial);
      break;
    case SnagCode::RunNeedsJoin:
    case SnagCode::RollEndsInTurn:
      joinRemedies(trial);
      break;
    case SnagCode::TimberShort:
      timberRemedies(trial);
      break;
    case SnagCode::NoSquaringAllowance:
      squaringRemedies(trial);
      break;
    case SnagCode::SheetShort:
      sheetRemedies(trial);
      break;
    case SnagCode::WindLiftsPanel:
      windRemedies(trial);
      break;
    case SnagCode::GustNotEntered:
      gustRemedies(trial);
      break;
    case SnagCode::PriceNotKnown:
      priceRemedies(trial);
      break;
  }
  return trial.best();
}

}  // namespace sunspool::remedies
