// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/lists.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "core/sheet/page_flow.h"

namespace sunspool::sheet {
namespace {

constexpr Length kRoofHeight = metres(1.0);
/// Outlet ceiling of hot water for adults, Moritz & Henriques as printed in safety notes: 49 C hurts in minutes.
constexpr Temperature kScalds = celsius(49.0);

Fact countFact(const char* name, double value) { return {name, value, Dimension::Count}; }
Fact lengthFact(const char* name, Length length) { return {name, length.si(), Dimension::Length}; }
Fact temperatureFact(const char* name, double value_K) { return {name, value_K, Dimension::Temperature}; }

// ---- cut list

/// What differs between tube and timber on paper.
struct Material {
  const char* key;
  TextKey heading, stockColumn, piecesColumn;
};
constexpr Material kTube{"tube", TextKey::TubeHeading, TextKey::ColumnRoll, TextKey::ColumnRuns};
constexpr Material kTimber{"timber", TextKey::TimberHeading, TextKey::ColumnTimber, TextKey::ColumnPieces};

std::string pieceName(const Material& material, const stock::WantedPiece& piece, const Texts& texts) {
  // Runs are called by their letter; rails and stiles by a key.
  return material.heading == TextKey::TubeHeading ? piece.name : texts.item(piece.name);
}

/// "2 x rail 1970 mm, stile 940 mm": equal neighbours together, longest first.
std::string piecesText(const Material& material, const stock::CutPlan& plan, const stock::CutPattern& pattern,
                       const Texts& texts) {
  std::string text;
  for (std::size_t i = 0; i < pattern.pieces.size();) {
    const stock::WantedPiece& piece = plan.wanted[pattern.pieces[i]];
    std::size_t alike = 1;
    while (i + alike < pattern.pieces.size() && pattern.pieces[i + alike] == pattern.pieces[i]) ++alike;
    if (!text.empty()) text += ", ";
    if (alike > 1) text += std::to_string(alike) + " \u00D7 ";
    text += pieceName(material, piece, texts) + ' ' + texts.number(lengthFact(material.key, piece.length));
    i += alike;
  }
  return text;
}

PrintTable cutTable(const Material& material, const stock::CutPlan& plan, const Texts& texts) {
  const auto heading = [&](TextKey key) { return texts.say(key, {}); };
  PrintTable table;
  table.columns = {{heading(TextKey::ColumnNumber), 0.5, Align::Right, Voice::Measured},
                   {heading(material.stockColumn), 2.2, Align::Left, Voice::Said},
                   {heading(material.piecesColumn), 3.6, Align::Left, Voice::Measured},
                   {heading(TextKey::ColumnUsed), 1.0, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnLeft), 1.0, Align::Right, Voice::Measured}};
  for (std::size_t i = 0; i < plan.patterns.size(); ++i) {
    const stock::CutPattern& pattern = plan.patterns[i];
    std::string name = plan.stock[pattern.stock].name;
    if (pattern.owned) name += ' ' + texts.say(TextKey::FromTheShed, {});
    table.rows.push_back({std::to_string(i + 1), name, piecesText(material, plan, pattern, texts),
                          texts.number(lengthFact(material.key, pattern.used)),
                          texts.number(lengthFact(material.key, pattern.left))});
  }
  return table;
}

void pourPlan(PageFlow& flow, const Material& material, const Result<stock::CutPlan>& result, const Texts& texts) {
  flow.heading(texts.say(material.heading, {}));
  if (!result) {
    flow.paragraph(texts.error(result.error()));
    return;
  }
  const stock::CutPlan& plan = *result;
  flow.table(cutTable(material, plan, texts));
  const auto line = [&](TextKey key, const std::vector<Fact>& facts) { flow.paragraph(texts.say(key, facts)); };
  if (plan.rule.kerf > Length{} || plan.rule.squaring > Length{}) {
    line(TextKey::KerfAndSquaring, {lengthFact("kerf", plan.rule.kerf), lengthFact("squaring", plan.rule.squaring)});
  }
  const Fact lengths = countFact("lengths", plan.lengthsUsed);
  if (plan.proven) {
    line(TextKey::ProvenFewest, {lengths});
  } else {
    line(TextKey::NotProven, {lengths, countFact("at_least", plan.lowerBound)});
  }
  line(TextKey::TotalLeft, {lengthFact(material.key, plan.totalLeft)});
  for (std::size_t i = 0; i < plan.patterns.size(); ++i) {
    if (!plan.patterns[i].noSquaringAllowance) continue;
    line(TextKey::NoSquaringAllowance,
         {countFact("number", static_cast<double>(i + 1)), lengthFact("spare", plan.patterns[i].spare)});
  }
}

void pourLeftOnPurpose(PageFlow& flow, const results::Results& results, const Texts& texts) {
  const auto isLeft = [](const Snag& snag) { return !snag.leftBecause.empty(); };
  if (std::none_of(results.snags.begin(), results.snags.end(), isLeft)) return;
  flow.heading(texts.say(TextKey::LeftOnPurposeHeading, {}));
  for (const Snag& snag : results.snags) {
    if (isLeft(snag)) flow.paragraph(texts.snag(snag) + " \u2013 " + snag.leftBecause);
  }
}

void pourCautions(PageFlow& flow, const model::Document& document, const results::Results& results,
                  const Texts& texts) {
  flow.heading(texts.say(TextKey::CautionsHeading, {}));
  for (const Caution& caution : cautionsFor(document, results)) flow.paragraph(texts.say(caution.key, caution.facts));
}

PageFlow openedWith(TextKey titleKey, const model::Document& document, Paper paper, const Texts& texts) {
  const std::string title = texts.say(titleKey, {});
  PageFlow flow(paper, {document.name, texts.date(document.moment), title}, texts);
  flow.title(title);
  if (flow.projectIsCut()) flow.paragraph(document.name);
  return flow;
}

// ---- material list

std::string priceText(const model::Price& price, const std::string& currency, const Texts& texts) {
  return price ? texts.money(*price, currency) : texts.say(TextKey::Ask, {});
}

std::string unitsText(const stock::BuyingList::Row& row, double units, const Texts& texts) {
  if (row.note == "not_planned" || units == 0.0) return {};
  // Sheets are counted in square metres, so the unit stands with the number.
  if (row.dimension == Dimension::Area) return texts.number({"stock_units", units, Dimension::Area});
  return texts.number(countFact("stock_units", units));
}

PrintTable materialTable(const model::Document& document, const results::Results& results, const Texts& texts) {
  const auto heading = [&](TextKey key) { return texts.say(key, {}); };
  PrintTable table;
  table.columns = {{heading(TextKey::ColumnItem), 1.5, Align::Left, Voice::Said},
                   {heading(TextKey::ColumnName), 2.4, Align::Left, Voice::Said},
                   {heading(TextKey::ColumnAmount), 1.1, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnStockUnits), 0.9, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnOwned), 0.9, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnUnitPrice), 1.1, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnPrice), 1.2, Align::Right, Voice::Measured}};
  for (const stock::BuyingList::Row& row : results.buying.rows) {
    const std::string amount = row.note == "not_planned" ? texts.say(TextKey::NotPlanned, {})
                                                         : texts.number({row.item == "timber" ? "timber"
                                                                         : row.item == "tube" ? "tube"
                                                                                              : "amount",
                                                                         row.amount, row.dimension});
    const bool priced = row.note != "not_priced";
    const std::string& currency = document.stock.currency;
    table.rows.push_back({texts.item(row.item), row.name, amount, unitsText(row, row.stockUnits, texts),
                          unitsText(row, row.owned, texts),
                          priced ? priceText(row.unitPrice, currency, texts) : std::string(),
                          priced ? priceText(row.price, currency, texts) : texts.say(TextKey::NotPriced, {})});
  }
  return table;
}

// ---- tables

/// To the micrometre the plan is made in, so that sums of lengths print as short as they are.
double toMicrometre_m(Length length) { return std::round(length.si() * 1e6) / 1e6; }
/// Money to a hundredth of a cent, areas to a square millimetre, for the same reason.
double toMoney(double amount) { return std::round(amount * 1e4) / 1e4; }
double toMillionth(double amount) { return std::round(amount * 1e6) / 1e6; }

void addCutRows(Table& table, const Material& material, const stock::CutPlan& plan) {
  const auto yesNo = [](bool yes) { return std::string(yes ? "yes" : "no"); };
  for (std::size_t i = 0; i < plan.patterns.size(); ++i) {
    const stock::CutPattern& pattern = plan.patterns[i];
    const stock::StockLength& from = plan.stock[pattern.stock];
    const auto addRow = [&](const char* kind, const std::string& name, Length start, Length length) {
      table.rows.push_back(
          {std::string(material.key), static_cast<double>(i + 1), from.name, toMicrometre_m(from.length),
           yesNo(pattern.owned), std::string(kind), name, toMicrometre_m(start), toMicrometre_m(length),
           toMicrometre_m(pattern.spare), std::string(pattern.noSquaringAllowance ? "no_squaring_allowance" : ""),
           static_cast<double>(plan.lengthsUsed), static_cast<double>(plan.lowerBound), yesNo(plan.proven)});
    };
    Length at = plan.rule.squaring;
    for (const std::size_t piece : pattern.pieces) {
      addRow("piece", plan.wanted[piece].name, at, plan.wanted[piece].length);
      at += plan.wanted[piece].length + plan.rule.kerf;
    }
    if (pattern.left > Length{}) addRow("left", "", pattern.used, pattern.left);
  }
}

Cell priceCell(const stock::BuyingList::Row& row, const model::Price& price) {
  if (price) return toMoney(*price);
  if (row.note == "not_priced") return std::monostate{};
  return std::string("ask");
}

// ---- cautions

const thermal::StoppedLayer* layerOf(const results::Results& results, const char* part) {
  if (!results.stopped) return nullptr;
  const auto& layers = results.stopped->layers;
  const auto layer = std::find_if(layers.begin(), layers.end(), [&](const auto& l) { return l.part == part; });
  return layer == layers.end() ? nullptr : &*layer;
}

void addOverLimit(std::vector<Caution>& cautions, const results::Results& results, const char* part, TextKey key) {
  const thermal::StoppedLayer* layer = layerOf(results, part);
  if (layer == nullptr || !layer->limit_K) return;
  const double hottest_K = std::max(layer->dry_K, layer->wet_K);
  if (hottest_K <= *layer->limit_K) return;
  cautions.push_back({key, {temperatureFact("reached", hottest_K), temperatureFact("limit", *layer->limit_K)}});
}

}  // namespace

std::vector<Caution> cautionsFor(const model::Document& document, const results::Results& results) {
  std::vector<Caution> cautions;
  const auto add = [&](TextKey key) { cautions.push_back({key, {}}); };
  add(TextKey::CautionMains);
  add(TextKey::CautionElectricalParts);
  if (!results.stopped) {
    add(TextKey::CautionStoppedNotKnown);
    add(TextKey::CautionScaldingFirstWater);
    add(TextKey::CautionSteam);
  } else {
    const thermal::StoppedLayer* tube = layerOf(results, "tube");
    if (tube == nullptr || tube->wet_K >= kScalds.inKelvin()) add(TextKey::CautionScaldingFirstWater);
    if (results.stopped->waterBoils) add(TextKey::CautionSteam);
    addOverLimit(cautions, results, "tube", TextKey::CautionTubeOverLimit);
    addOverLimit(cautions, results, "glazing", TextKey::CautionGlazingOverLimit);
    addOverLimit(cautions, results, "insulation", TextKey::CautionInsulationOverLimit);
  }
  if (document.box.plate || document.box.insulation) add(TextKey::CautionFire);
  add(TextKey::CautionWind);
  if (document.siting.lowerEdgeAbovePool >= kRoofHeight) {
    cautions.push_back({TextKey::CautionRoof, {{"wet_mass", results.masses.wet.si(), Dimension::Mass}}});
  }
  add(TextKey::CautionSuction);
  add(TextKey::CautionStandingWater);
  add(TextKey::CautionPressureAndFreezing);
  add(TextKey::CautionPoolWater);
  add(TextKey::CautionNotForDrinking);
  add(TextKey::CautionLocalCodes);
  return cautions;
}

std::vector<Sheet> cutListSheets(const model::Document& document, const results::Results& results, Paper paper,
                                 const Texts& texts) {
  PageFlow flow = openedWith(TextKey::CutListTitle, document, paper, texts);
  pourPlan(flow, kTube, results.tubeCuts, texts);
  pourPlan(flow, kTimber, results.timberCuts, texts);
  pourLeftOnPurpose(flow, results, texts);
  pourCautions(flow, document, results, texts);
  return std::move(flow).finish();
}

std::vector<Sheet> materialListSheets(const model::Document& document, const results::Results& results, Paper paper,
                                      const Texts& texts) {
  PageFlow flow = openedWith(TextKey::MaterialListTitle, document, paper, texts);
  flow.heading(texts.say(TextKey::MaterialHeading, {}));
  flow.table(materialTable(document, results, texts));
  const auto line = [&](TextKey key, const Fact& fact) { flow.paragraph(texts.say(key, std::vector<Fact>{fact})); };
  line(TextKey::KnownTotal, {"total", results.buying.knownTotal, Dimension::Money});
  if (results.buying.unknownPrices > 0) line(TextKey::PricesToAsk, countFact("count", results.buying.unknownPrices));
  pourCautions(flow, document, results, texts);
  return std::move(flow).finish();
}

Table cutListTable(const results::Results& results) {
  Table table;
  table.columns = {"material", "stock_number", "stock_name",       "stock_length_m", "owned",
                   "kind",     "name",         "start_m",          "length_m",       "spare_m",
                   "note",     "lengths_used", "lengths_at_least", "proven"};
  if (results.tubeCuts) addCutRows(table, kTube, *results.tubeCuts);
  if (results.timberCuts) addCutRows(table, kTimber, *results.timberCuts);
  return table;
}

Table materialListTable(const model::Document& document, const results::Results& results) {
  Table table;
  table.columns = {"item",  "name",       "amount_m", "amount_m2", "amount_count", "stock_units",
                   "owned", "unit_price", "price",    "currency",  "note"};
  for (const stock::BuyingList::Row& row : results.buying.rows) {
    const auto amountIn = [&](Dimension dimension) {
      return row.dimension == dimension && row.note != "not_planned" ? Cell(toMillionth(row.amount)) : Cell();
    };
    table.rows.push_back({row.item, row.name, amountIn(Dimension::Length), amountIn(Dimension::Area),
                          amountIn(Dimension::Count), row.note == "not_planned" ? Cell() : Cell(row.stockUnits),
                          row.owned, priceCell(row, row.unitPrice), priceCell(row, row.price), document.stock.currency,
                          row.note});
  }
  return table;
}

}  // namespace sunspool::sheet
