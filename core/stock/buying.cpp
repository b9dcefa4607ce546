// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/buying.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace sunspool::stock {
namespace {

using Row = BuyingList::Row;

constexpr const char* kNotPlanned = "not_planned";
constexpr const char* kNotPriced = "not_priced";
constexpr const char* kManifold = "manifold";

/// Price of whole units; nothing to buy costs nothing, whatever a unit costs.
model::Price priceOf(double units, const model::Price& unitPrice) {
  if (units <= 0.0) return 0.0;
  return unitPrice ? model::Price(units * *unitPrice) : std::nullopt;
}

void addPlan(std::vector<Row>& rows, const char* item, const CutPlan* plan) {
  if (plan == nullptr) {
    Row row;
    row.item = item;
    row.dimension = Dimension::Length;
    row.note = kNotPlanned;
    rows.push_back(row);
    return;
  }
  for (std::size_t i = 0; i < plan->stock.size(); ++i) {
    Row row;
    row.item = item;
    row.name = plan->stock[i].name;
    row.dimension = Dimension::Length;
    row.unitPrice = plan->stock[i].price;
    for (const CutPattern& pattern : plan->patterns) {
      if (pattern.stock != i) continue;
      row.amount += pattern.used.si();
      row.stockUnits += 1.0;
      row.owned += pattern.owned ? 1.0 : 0.0;
    }
    if (row.stockUnits == 0.0) continue;
    row.price = priceOf(row.stockUnits - row.owned, row.unitPrice);
    rows.push_back(row);
  }
}

void addSquareMetres(std::vector<Row>& rows, const char* item, const model::Sheet& sheet, Area area,
                     const model::Price& pricePerSquareMetre) {
  Row row;
  row.item = item;
  row.name = sheet.material;
  row.amount = area.si();
  row.dimension = Dimension::Area;
  // A whole number of square metres must not round up for its last bit.
  row.stockUnits = std::ceil(area.si() * (1.0 - 1e-12));
  row.units = Dimension::Area;
  row.unitPrice = pricePerSquareMetre;
  row.price = priceOf(row.stockUnits, row.unitPrice);
  rows.push_back(row);
}

void addSheetPlan(std::vector<Row>& rows, const BuyingPlans::Layer& layer) {
  if (layer.plan == nullptr) {
    Row row;
    row.item = layer.part;
    row.dimension = Dimension::Area;
    row.note = kNotPlanned;
    rows.push_back(row);
    return;
  }
  for (std::size_t i = 0; i < layer.plan->stock.size(); ++i) {
    Row row;
    row.item = layer.part;
    row.name = layer.plan->stock[i].name;
    row.dimension = Dimension::Area;
    row.unitPrice = layer.plan->stock[i].price;
    for (const SheetPattern& pattern : layer.plan->patterns) {
      if (pattern.stock != i) continue;
      for (const PlacedPiece& piece : pattern.pieces) row.amount += (piece.width * piece.height).si();
      row.stockUnits += 1.0;
      row.owned += pattern.owned ? 1.0 : 0.0;
    }
    if (row.stockUnits == 0.0) continue;
    row.price = priceOf(row.stockUnits - row.owned, row.unitPrice);
    rows.push_back(row);
  }
}

void addLayers(std::vector<Row>& rows, const model::Document& document, const BuyingPlans& plans) {
  const model::Box& box = document.box;
  const model::Frame& frame = document.frame;
  const auto add = [&](const char* item, const model::Sheet& sheet, Length overlap, const model::Price& price) {
    const auto planned =
        std::find_if(plans.layers.begin(), plans.layers.end(), [&](const auto& layer) { return layer.part == item; });
    if (planned != plans.layers.end()) return addSheetPlan(rows, *planned);
    const Area each = (frame.insideWidth + 2.0 * overlap) * (frame.insideHeight + 2.0 * overlap);
    addSquareMetres(rows, item, sheet, each * static_cast<double>(document.panelsAlike), price);
  };
  if (box.plate) add("plate", box.plate->sheet, {}, box.plate->sheet.pricePerSquareMetre);
  if (box.insulation) add("insulation", *box.insulation, {}, box.insulation->pricePerSquareMetre);
  if (box.backing) add("backing", *box.backing, {}, box.backing->pricePerSquareMetre);
  if (box.glazing) {
    const model::Price own = box.glazing->sheet.pricePerSquareMetre;
    add("glazing", box.glazing->sheet, box.glazing->overlap, own ? own : document.stock.glazingPricePerSquareMetre);
  }
}

/// Key of a fitting that is a part to buy; empty for a mere loss.
std::string_view partName(model::FittingKind kind) {
  switch (kind) {
    case model::FittingKind::BarbConnector:
      return "barb_connector";
    case model::FittingKind::Elbow90:
      return "elbow_90";
    case model::FittingKind::Elbow45:
      return "elbow_45";
    case model::FittingKind::TeeThrough:
    case model::FittingKind::TeeBranch:
      return "tee";  // one part, passed straight or into its branch
    case model::FittingKind::Valve:
      return "valve";
    case model::FittingKind::PipeEntrance:
    case model::FittingKind::PipeExit:
      return {};
  }
  return {};
}

constexpr std::array<std::string_view, 5> kParts{"barb_connector", "elbow_90", "elbow_45", "tee", "valve"};
using PartCounts = std::array<int, kParts.size()>;

void count(PartCounts& counts, const std::vector<model::FittingCount>& fittings, int times) {
  for (const model::FittingCount& fitting : fittings) {
    const auto part = std::find(kParts.begin(), kParts.end(), partName(fitting.kind));
    if (part != kParts.end()) counts[static_cast<std::size_t>(part - kParts.begin())] += times * fitting.count;
  }
}
int& of(PartCounts& counts, std::string_view part) {
  return counts[static_cast<std::size_t>(std::find(kParts.begin(), kParts.end(), part) - kParts.begin())];
}

/// Owned number and price of a kind of part.
void applyShed(Row& row, const model::Stock& stock) {
  model::Price cheapest;
  int owned = 0;
  for (const model::StockFitting& fitting : stock.fittings) {
    if (partName(fitting.kind) != row.item) continue;
    owned += fitting.owned;
    if (fitting.price) cheapest = cheapest ? std::min(*cheapest, *fitting.price) : *fitting.price;
  }
  row.owned = std::min(row.stockUnits, static_cast<double>(owned));
  row.unitPrice = cheapest ? cheapest : stock.fittingPrice;
  row.price = priceOf(row.stockUnits - row.owned, row.unitPrice);
}

/// Tees that join the runs of each pump beyond those that stand in the runs' own fittings.
int missingTees(const model::Document& document, const BuyingPlans& plans, int groups) {
  const int runs = plans.runsPerPanel * model::panelsOnThePump(document);
  if (runs <= 1) return 0;
  PartCounts each{};
  count(each, document.plumbing.runFittings, runs);
  return groups * std::max(0, 2 * (runs - 1) - of(each, "tee"));
}

void addFittings(BuyingList& list, const model::Document& document, const BuyingPlans& plans, int groups) {
  PartCounts counts{};
  count(counts, document.plumbing.runFittings, plans.runsPerPanel * document.panelsAlike);
  count(counts, document.plumbing.feed.fittings, groups);
  count(counts, document.plumbing.returning.fittings, groups);
  if (plans.tube != nullptr) of(counts, "barb_connector") += static_cast<int>(plans.tube->joins.size());
  const int tees = missingTees(document, plans, groups);
  of(counts, "tee") += tees;
  list.manifoldTees = tees;
  for (std::size_t i = 0; i < kParts.size(); ++i) {
    if (counts[i] == 0) continue;
    Row row;
    row.item = kParts[i];
    row.amount = row.stockUnits = counts[i];
    if (tees > 0 && row.item == "tee") row.note = kManifold;
    applyShed(row, document.stock);
    list.rows.push_back(row);
  }
}

void addNotPriced(std::vector<Row>& rows, const char* item, std::string name, double amount, Dimension dimension) {
  if (!(amount > 0.0)) return;
  Row row;
  row.item = item;
  row.name = std::move(name);
  row.amount = amount;
  row.dimension = dimension;
  row.stockUnits = dimension == Dimension::Count ? amount : 0.0;
  row.note = kNotPriced;
  rows.push_back(row);
}

void addPump(std::vector<Row>& rows, const model::Document& document, int pumps) {
  const std::string& name = document.plumbing.pump.name;
  const auto& shed = document.stock.pumps;
  const auto known = std::find_if(shed.begin(), shed.end(), [&](const auto& pump) { return pump.pump.name == name; });
  if (known == shed.end()) return addNotPriced(rows, "pump", name, pumps, Dimension::Count);
  Row row;
  row.item = "pump";
  row.name = name;
  row.amount = row.stockUnits = pumps;
  row.owned = std::min(pumps, known->owned);
  row.unitPrice = known->price;
  row.price = priceOf(row.stockUnits - row.owned, row.unitPrice);
  rows.push_back(row);
}

void addThermometers(std::vector<Row>& rows, const model::Document& document) {
  for (const model::Thermometer& thermometer : document.stock.thermometers) {
    if (thermometer.owned <= 0) continue;
    Row row;
    row.item = "thermometer";
    row.name = thermometer.name;
    row.amount = row.stockUnits = row.owned = thermometer.owned;
    row.unitPrice = thermometer.price;
    row.price = 0.0;
    rows.push_back(row);
  }
}

model::Price dearestRoll(const CutPlan& plan) {
  model::Price dearest;
  for (const StockLength& roll : plan.stock) {
    if (roll.price && (!dearest || *roll.price > *dearest)) dearest = roll.price;
  }
  return dearest;
}

void addRange(BuyingList& list, const BuyingPlans& plans) {
  list.knownLow = list.knownHigh = list.knownTotal;
  list.tightRolls = plans.tightRolls;
  if (plans.tube == nullptr) return;
  list.rollsLow = list.rolls = list.rollsHigh = plans.tube->bought;
  const double planned = plans.tube->price.value_or(0.0);
  const auto take = [&](const CutPlan* end, int& rolls, double& known) {
    if (end == nullptr) return;
    rolls = end->bought;
    if (plans.tube->price && end->price) known += *end->price - planned;
  };
  take(plans.tubeAtBest, list.rollsLow, list.knownLow);
  take(plans.tubeAtWorst, list.rollsHigh, list.knownHigh);
  list.knownLow = std::min(list.knownLow, list.knownTotal);
  list.knownHigh = std::max(list.knownHigh, list.knownTotal);
  if (plans.tubeAtWorst != nullptr || !plans.worstWasTried) return;
  list.rollsHigh = -1;
  list.knownHigh += dearestRoll(*plans.tube).value_or(0.0);
}

}  // namespace

BuyingList buyingList(const model::Document& document, const BuyingPlans& plans) {
  BuyingList list;
  const int pumps = document.panelsSharePump ? 1 : document.panelsAlike;
  addPlan(list.rows, "tube", plans.tube);
  addPlan(list.rows, "timber", plans.timber);
  addLayers(list.rows, document, plans);
  addFittings(list, document, plans, pumps);
  const model::Plumbing& plumbing = document.plumbing;
  addNotPriced(list.rows, "feed_pipe", "", pumps * plumbing.feed.length.si(), Dimension::Length);
  addNotPriced(list.rows, "return_pipe", "", pumps * plumbing.returning.length.si(), Dimension::Length);
  addPump(list.rows, document, pumps);
  addThermometers(list.rows, document);
  for (const Row& row : list.rows) {
    if (row.note == kNotPriced) continue;
    if (row.price) {
      list.knownTotal += *row.price;
    } else {
      ++list.unknownPrices;
    }
  }
  addRange(list, plans);
  return list;
}

}  // namespace sunspool::stock
