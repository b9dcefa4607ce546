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

void addSheet(std::vector<Row>& rows, const char* item, const model::Sheet& sheet, Area area,
              const model::Price& pricePerSquareMetre) {
  Row row;
  row.item = item;
  row.name = sheet.material;
  row.amount = area.si();
  row.dimension = Dimension::Area;
  // A whole number of square metres must not round up for its last bit.
  row.stockUnits = std::ceil(area.si() * (1.0 - 1e-12));
  row.unitPrice = pricePerSquareMetre;
  row.price = priceOf(row.stockUnits, row.unitPrice);
  rows.push_back(row);
}

void addSheets(std::vector<Row>& rows, const model::Document& document) {
  const model::Box& box = document.box;
  const model::Frame& frame = document.frame;
  const Area inside = frame.insideWidth * frame.insideHeight;
  if (box.plate) addSheet(rows, "plate", box.plate->sheet, inside, box.plate->sheet.pricePerSquareMetre);
  if (box.insulation) addSheet(rows, "insulation", *box.insulation, inside, box.insulation->pricePerSquareMetre);
  if (box.backing) addSheet(rows, "backing", *box.backing, inside, box.backing->pricePerSquareMetre);
  if (box.glazing) {
    const Length both = 2.0 * box.glazing->overlap;
    const model::Price own = box.glazing->sheet.pricePerSquareMetre;
    addSheet(rows, "glazing", box.glazing->sheet, (frame.insideWidth + both) * (frame.insideHeight + both),
             own ? own : document.stock.glazingPricePerSquareMetre);
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

void addFittings(std::vector<Row>& rows, const model::Document& document, int runs) {
  constexpr std::array<std::string_view, 5> kParts{"barb_connector", "elbow_90", "elbow_45", "tee", "valve"};
  std::array<int, kParts.size()> counts{};
  const auto count = [&](const std::vector<model::FittingCount>& fittings, int times) {
    for (const model::FittingCount& fitting : fittings) {
      const auto part = std::find(kParts.begin(), kParts.end(), partName(fitting.kind));
      if (part != kParts.end()) counts[static_cast<std::size_t>(part - kParts.begin())] += times * fitting.count;
    }
  };
  count(document.plumbing.runFittings, runs);
  count(document.plumbing.feed.fittings, 1);
  count(document.plumbing.returning.fittings, 1);
  for (std::size_t i = 0; i < kParts.size(); ++i) {
    if (counts[i] == 0) continue;
    Row row;
    row.item = kParts[i];
    row.amount = row.stockUnits = counts[i];
    row.unitPrice = document.stock.fittingPrice;
    row.price = priceOf(row.stockUnits, row.unitPrice);
    rows.push_back(row);
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

}  // namespace

BuyingList buyingList(const model::Document& document, const CutPlan* tubeCuts, const CutPlan* timberCuts, int runs) {
  BuyingList list;
  addPlan(list.rows, "tube", tubeCuts);
  addPlan(list.rows, "timber", timberCuts);
  addSheets(list.rows, document);
  addFittings(list.rows, document, runs);
  const model::Plumbing& plumbing = document.plumbing;
  addNotPriced(list.rows, "feed_pipe", "", plumbing.feed.length.si(), Dimension::Length);
  addNotPriced(list.rows, "return_pipe", "", plumbing.returning.length.si(), Dimension::Length);
  addNotPriced(list.rows, "pump", plumbing.pump.name, 1.0, Dimension::Count);
  for (const Row& row : list.rows) {
    if (row.note == kNotPriced) continue;
    if (row.price) {
      list.knownTotal += *row.price;
    } else {
      ++list.unknownPrices;
    }
  }
  return list;
}

}  // namespace sunspool::stock
