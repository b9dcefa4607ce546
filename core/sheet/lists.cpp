// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/lists.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "core/sheet/cutting_diagram.h"
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

/// Fillings that would only just fit and that the plan gets round: nobody should lay them at the bench.
void pourAvoided(PageFlow& flow, const stock::CutPlan& plan, const Texts& texts) {
  for (const stock::JustFitting& filling : stock::justFittingAvoided(plan)) {
    std::string names;
    for (std::size_t w = 0; w < filling.counts.size(); ++w) {
      if (filling.counts[w] == 0) continue;
      if (!names.empty()) names += " + ";
      names += std::to_string(filling.counts[w]) + " \u00D7 " + texts.item(plan.wanted[w].name);
    }
    flow.paragraph(names + ": " +
                   texts.say(TextKey::WouldJustFit, std::vector<Fact>{lengthFact("spare", filling.spare)}));
  }
}

/// Lengths that the sum of pieces and kerfs alone would need, of one kind of stock; 0 for more kinds.
int fewestByLength(const stock::CutPlan& plan) {
  if (plan.stock.size() != 1) return 0;
  Length pieces{};
  for (const stock::WantedPiece& piece : plan.wanted) {
    pieces += static_cast<double>(piece.count) * (piece.length + plan.rule.kerf);
  }
  const Length each = plan.stock[0].length - plan.rule.squaring + plan.rule.kerf;
  return static_cast<int>(std::ceil(pieces / each - 1e-9));
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
    const int byLength = fewestByLength(plan);
    if (byLength > 0 && byLength < plan.lengthsUsed) {
      line(TextKey::MoreThanByLength, {lengths, countFact("by_length", byLength)});
    }
  } else {
    line(TextKey::NotProven, {lengths, countFact("at_least", plan.lowerBound)});
  }
  line(TextKey::TotalLeft, {lengthFact(material.key, plan.totalLeft)});
  if (material.heading == TextKey::TimberHeading) pourAvoided(flow, plan, texts);
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

void pourJoins(PageFlow& flow, const results::Results& results, const Texts& texts) {
  if (!results.tubeCuts) return;
  const stock::CutPlan& plan = *results.tubeCuts;
  for (const stock::Join& join : plan.joins) {
    const std::string names =
        plan.wanted[join.wanted].name + " = " + plan.wanted[join.first].name + " + " + plan.wanted[join.second].name;
    flow.paragraph(names + ": " + texts.say(TextKey::JoinedAt, std::vector<Fact>{lengthFact("tube", join.at)}));
  }
  for (const stock::BuyingList::TightRoll& roll : results.buying.tightRolls) {
    flow.paragraph(
        texts.say(TextKey::RollMayBeShort, std::vector<Fact>{countFact("number", static_cast<double>(roll.pattern + 1)),
                                                             lengthFact("short_by", roll.shortBy)}));
  }
}

// ---- sheets

/// What a layer fills.
struct WantedPlace {
  Length width, height;
};
/// To the micrometre, so that a difference prints as short as it is.
Length toMicrometre(Length length) { return metres(std::round(length.si() * 1e6) / 1e6); }
WantedPlace placeOf(const model::Document& document, const std::string& part) {
  WantedPlace place{document.frame.insideWidth, document.frame.insideHeight};
  if (part != "glazing" || !document.box.glazing) return place;
  const Length both = 2.0 * document.box.glazing->overlap;
  return {place.width + both, place.height + both};
}

std::string sizeText(Length width, Length height, const Texts& texts) {
  return texts.number(lengthFact("sheet", width)) + " \u00D7 " + texts.number(lengthFact("sheet", height));
}

PrintTable sheetTable(const stock::SheetPattern& pattern, const Texts& texts) {
  const auto heading = [&](TextKey key) { return texts.say(key, {}); };
  PrintTable table;
  table.columns = {{heading(TextKey::ColumnPiece), 0.9, Align::Left, Voice::Measured},
                   {heading(TextKey::ColumnSize), 2.2, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnFromLeft), 1.1, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnFromBelow), 1.1, Align::Right, Voice::Measured}};
  for (std::size_t i = 0; i < pattern.pieces.size(); ++i) {
    const stock::PlacedPiece& piece = pattern.pieces[i];
    const std::string turned = piece.turned ? ' ' + texts.say(TextKey::Turned, {}) : std::string();
    table.rows.push_back({std::to_string(i + 1) + turned, sizeText(piece.width, piece.height, texts),
                          texts.number(lengthFact("sheet", piece.x)), texts.number(lengthFact("sheet", piece.y))});
  }
  if (pattern.freeWidth > Length{}) {
    table.rows.push_back(
        {texts.say(TextKey::LargestLeft, {}), sizeText(pattern.freeWidth, pattern.freeHeight, texts), "", ""});
  }
  return table;
}

/// The same cuts from the same kind of sheet.
bool cutAlike(const stock::SheetPattern& a, const stock::SheetPattern& b) {
  const auto same = [](const stock::PlacedPiece& p, const stock::PlacedPiece& q) {
    return p.x == q.x && p.y == q.y && p.width == q.width && p.height == q.height && p.turned == q.turned;
  };
  return a.stock == b.stock && a.owned == b.owned &&
         std::equal(a.pieces.begin(), a.pieces.end(), b.pieces.begin(), b.pieces.end(), same);
}

void pourPatterns(PageFlow& flow, const stock::SheetPlan& plan, const Texts& texts) {
  for (std::size_t i = 0; i < plan.patterns.size();) {
    const stock::SheetPattern& pattern = plan.patterns[i];
    std::size_t alike = 1;
    while (i + alike < plan.patterns.size() && cutAlike(pattern, plan.patterns[i + alike])) ++alike;
    std::string name = plan.stock[pattern.stock].name;
    if (pattern.owned) name += ' ' + texts.say(TextKey::FromTheShed, {});
    const Drawing drawing = cuttingDiagram(plan, pattern, texts);
    flow.caption(
        name + texts.say(TextKey::SheetUsed, std::vector<Fact>{countFact("number", static_cast<double>(i + 1)),
                                                               countFact("alike", static_cast<double>(alike))}),
        drawing.height_mm);
    flow.beside(drawing, sheetTable(pattern, texts));
    i += alike;
  }
}

void pourSheetPlan(PageFlow& flow, const stock::SheetPlan& plan, const WantedPlace& place, const Texts& texts) {
  const auto line = [&](TextKey key, const std::vector<Fact>& facts) { flow.paragraph(texts.say(key, facts)); };
  pourPatterns(flow, plan, texts);
  for (std::size_t w = 0; w < plan.wanted.size(); ++w) {
    const stock::WantedRectangle& wanted = plan.wanted[w];
    line(TextKey::RoomToGrow, {lengthFact("width", toMicrometre(place.width - wanted.width)),
                               lengthFact("height", toMicrometre(place.height - wanted.height))});
    const stock::Division& division = plan.divisions[w];
    if (division.isWhole()) continue;
    const Fact pieces = countFact("pieces", division.columns * division.rows);
    if (plan.rule.lap > Length{}) {
      line(TextKey::MadeOfLapped, {pieces, lengthFact("lap", plan.rule.lap)});
    } else {
      line(TextKey::MadeOfButted, {pieces, lengthFact("gap", plan.rule.expansionGap)});
    }
  }
  if (plan.rule.kerf > Length{}) line(TextKey::SheetKerf, {lengthFact("kerf", plan.rule.kerf)});
  const Fact sheets = countFact("sheets", plan.sheetsUsed);
  if (plan.proven) {
    line(TextKey::SheetsProven, {sheets});
  } else {
    line(TextKey::SheetsNotProven, {sheets, countFact("at_least", plan.lowerBound)});
  }
}

bool hasNoSheet(const results::SheetCut& cut) { return !cut.plan && cut.plan.error().code == ErrorCode::NoStock; }

void pourSheets(PageFlow& flow, const model::Document& document, const results::Results& results, const Texts& texts) {
  std::string without;
  for (const results::SheetCut& cut : results.sheetCuts) {
    if (hasNoSheet(cut)) {
      without += (without.empty() ? "" : ", ") + texts.item(cut.part);
      continue;
    }
    flow.heading(texts.say(TextKey::SheetsHeading, {}) + texts.item(cut.part), cut.plan ? kHighestDiagram_mm : 0.0);
    if (cut.plan) {
      pourSheetPlan(flow, *cut.plan, placeOf(document, cut.part), texts);
    } else {
      flow.paragraph(texts.error(cut.plan.error()));
    }
  }
  if (without.empty()) return;
  flow.heading(texts.say(TextKey::SheetsHeading, {}) + without);
  flow.paragraph(texts.say(TextKey::BySquareMetre, {}));
}

// ---- holes

/// "stile_left" and so on for the frame; layers by their own key.
std::string placeKey(const results::Hole& hole) {
  if (hole.part != "rail" && hole.part != "stile") return hole.part;
  switch (hole.side) {
    case layout::Side::Bottom:
      return hole.part + "_bottom";
    case layout::Side::Right:
      return hole.part + "_right";
    case layout::Side::Top:
      return hole.part + "_top";
    case layout::Side::Left:
      return hole.part + "_left";
  }
  return hole.part;
}
bool isInFrame(const results::Hole& hole) { return hole.part == "rail" || hole.part == "stile"; }

PrintTable holeTable(const results::Results& results, const Texts& texts) {
  const auto heading = [&](TextKey key) { return texts.say(key, {}); };
  PrintTable table;
  table.columns = {{heading(TextKey::ColumnNumber), 0.5, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnPart), 1.6, Align::Left, Voice::Said},
                   {heading(TextKey::ColumnRun), 0.6, Align::Left, Voice::Measured},
                   {heading(TextKey::ColumnWay), 0.9, Align::Left, Voice::Said},
                   {heading(TextKey::ColumnAlong), 1.2, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnAcross), 1.2, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnHeight), 1.1, Align::Right, Voice::Measured},
                   {heading(TextKey::ColumnDiameter), 1.1, Align::Right, Voice::Measured}};
  const auto length = [&](double value_m) { return texts.number({"sheet", value_m, Dimension::Length}); };
  for (std::size_t i = 0; i < results.holes.size(); ++i) {
    const results::Hole& hole = results.holes[i];
    const bool frame = isInFrame(hole);
    table.rows.push_back({std::to_string(i + 1), texts.item(placeKey(hole)), std::string(1, hole.run),
                          texts.item(hole.feed ? "feed" : "return"), length(frame ? hole.along_m : hole.x_m),
                          frame ? std::string() : length(hole.y_m), frame ? length(hole.fromBack_m) : std::string(),
                          length(hole.diameter_m)});
  }
  return table;
}

void pourHoles(PageFlow& flow, const results::Results& results, const Texts& texts) {
  if (results.holes.empty()) return;
  flow.heading(texts.say(TextKey::HolesHeading, {}));
  flow.table(holeTable(results, texts));
  flow.paragraph(texts.say(TextKey::HolesMeasured, {}));
  for (std::size_t i = 0; i < results.holes.size(); ++i) {
    if (!results.holes[i].nearEdge) continue;
    flow.paragraph(
        texts.say(TextKey::HoleNearEdge, std::vector<Fact>{countFact("number", static_cast<double>(i + 1)),
                                                           {"left", results.holes[i].left_m, Dimension::Length}}));
  }
}

// ---- weight, wind, cautions

Fact massFact(const char* name, Mass mass) { return {name, mass.si(), Dimension::Mass}; }
/// The mass whose weight a force equals.
Mass massOf(Force force) { return kilograms(force.si() / kStandardGravity_m_s2); }

void pourWind(PageFlow& flow, const results::Results& results, const Texts& texts) {
  if (!results.wind) return flow.paragraph(texts.say(TextKey::WindNotScreened, {}));
  const results::Wind& wind = *results.wind;
  flow.paragraph(texts.say(
      TextKey::WindScreened,
      std::vector<Fact>{massFact("low", massOf(wind.uplift.low)), massFact("high", massOf(wind.uplift.high)),
                        massFact("weight", massOf(wind.ownWeight)), massFact("hold_low", wind.holdDownMass.low),
                        massFact("hold_high", wind.holdDownMass.high)}));
}

void pourWeight(PageFlow& flow, const results::Results& results, const Texts& texts) {
  flow.heading(texts.say(TextKey::WeightHeading, {}));
  flow.paragraph(texts.say(
      TextKey::Weights, std::vector<Fact>{massFact("dry", results.masses.dry), massFact("wet", results.masses.wet)}));
  pourWind(flow, results, texts);
}

void pourCautions(PageFlow& flow, const model::Document& document, const results::Results& results,
                  const Texts& texts) {
  flow.heading(texts.say(TextKey::CautionsHeading, {}));
  for (const Caution& caution : cautionsFor(document, results)) flow.paragraph(texts.say(caution.key, caution.facts));
}

/// What matters in the shop; the rest stands on the cut list.
void pourBuyingCautions(PageFlow& flow, const results::Results& results, const Texts& texts) {
  flow.heading(texts.say(TextKey::CautionsHeading, {}));
  flow.paragraph(texts.say(TextKey::CautionElectricalParts, {}));
  flow.paragraph(texts.say(TextKey::CautionWind, {}));
  pourWind(flow, results, texts);
  flow.paragraph(texts.say(TextKey::CautionsElsewhere, {}));
}

PageFlow openedWith(TextKey titleKey, const model::Document& document, Paper paper, const Texts& texts) {
  const std::string title = texts.say(titleKey, {});
  PageFlow flow(paper, {document.name, texts.date(document.moment), title}, texts);
  flow.title(title);
  if (flow.projectIsCut()) flow.paragraph(document.name);
  if (document.panelsAlike > 1) {
    flow.paragraph(texts.say(TextKey::ForPanelsAlike, std::vector<Fact>{countFact("count", document.panelsAlike)}));
  }
  return flow;
}

// ---- material list

std::string priceText(const model::Price& price, const std::string& currency, const Texts& texts) {
  return price ? texts.money(*price, currency) : texts.say(TextKey::Ask, {});
}

std::string unitsText(const stock::BuyingList::Row& row, double units, const Texts& texts) {
  if (row.note == "not_planned" || units == 0.0) return {};
  // Square metres carry their unit; rolls, lengths, sheets and pieces do not.
  if (row.units == Dimension::Area) return texts.number({"stock_units", units, Dimension::Area});
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
                                                         : texts.number({"amount", row.amount, row.dimension});
    const bool priced = row.note != "not_priced";
    const std::string& currency = document.stock.currency;
    table.rows.push_back({texts.item(row.item), row.name, amount, unitsText(row, row.stockUnits, texts),
                          unitsText(row, row.owned, texts),
                          priced ? priceText(row.unitPrice, currency, texts) : std::string(),
                          priced ? priceText(row.price, currency, texts) : texts.say(TextKey::NotPriced, {})});
  }
  return table;
}

void pourRange(PageFlow& flow, const stock::BuyingList& buying, const Texts& texts) {
  if (buying.rollsHigh < 0) {
    flow.paragraph(texts.say(TextKey::RunMayFitNoRoll, {}));
  } else if (buying.rollsLow != buying.rolls || buying.rollsHigh != buying.rolls) {
    flow.paragraph(texts.say(TextKey::RollsRange,
                             std::vector<Fact>{countFact("low", buying.rollsLow), countFact("planned", buying.rolls),
                                               countFact("high", buying.rollsHigh)}));
  }
  if (buying.knownLow == buying.knownHigh) return;
  flow.paragraph(texts.say(TextKey::KnownRange, std::vector<Fact>{{"low", buying.knownLow, Dimension::Money},
                                                                  {"high", buying.knownHigh, Dimension::Money}}));
}

// ---- tables

/// To the micrometre the plan is made in, so that sums of lengths print as short as they are.
double toMicrometre_m(Length length) { return std::round(length.si() * 1e6) / 1e6; }
/// Money to a hundredth of a cent, areas to a square millimetre, for the same reason.
double toMoney(double amount) { return std::round(amount * 1e4) / 1e4; }
double toMillionth(double amount) { return std::round(amount * 1e6) / 1e6; }

/// Empty cells up to the last column.
void fill(Table& table) { table.rows.back().resize(table.columns.size()); }

void addSheetRows(Table& table, const std::string& part, const stock::SheetPlan& plan) {
  const auto yesNo = [](bool yes) { return std::string(yes ? "yes" : "no"); };
  const Cell none;
  for (std::size_t i = 0; i < plan.patterns.size(); ++i) {
    const stock::SheetPattern& pattern = plan.patterns[i];
    for (const stock::PlacedPiece& piece : pattern.pieces) {
      table.rows.push_back({part, static_cast<double>(i + 1), plan.stock[pattern.stock].name, none,
                            yesNo(pattern.owned), std::string("piece"), plan.wanted[piece.wanted].name, none, none,
                            none, std::string(piece.turned ? "turned" : ""), static_cast<double>(plan.sheetsUsed),
                            static_cast<double>(plan.lowerBound), yesNo(plan.proven), toMicrometre_m(piece.x),
                            toMicrometre_m(piece.y), toMicrometre_m(piece.width), toMicrometre_m(piece.height)});
      fill(table);
    }
    if (!(pattern.freeWidth > Length{})) continue;
    table.rows.push_back({part, static_cast<double>(i + 1), plan.stock[pattern.stock].name, none, yesNo(pattern.owned),
                          std::string("left"), std::string(), none, none, none, std::string(),
                          static_cast<double>(plan.sheetsUsed), static_cast<double>(plan.lowerBound),
                          yesNo(plan.proven), none, none, toMicrometre_m(pattern.freeWidth),
                          toMicrometre_m(pattern.freeHeight)});
    fill(table);
  }
}

void addHoleRows(Table& table, const std::vector<results::Hole>& holes) {
  const Cell none;
  for (const results::Hole& hole : holes) {
    const bool frame = isInFrame(hole);
    table.rows.push_back({placeKey(hole),
                          none,
                          std::string(),
                          none,
                          std::string(),
                          std::string("hole"),
                          std::string(1, hole.run) + (hole.feed ? " feed" : " return"),
                          frame ? Cell(toMillionth(hole.along_m)) : none,
                          none,
                          toMillionth(hole.left_m),
                          std::string(hole.nearEdge ? "near_edge" : ""),
                          none,
                          none,
                          std::string(),
                          toMillionth(hole.x_m),
                          toMillionth(hole.y_m),
                          none,
                          none,
                          frame ? Cell(toMillionth(hole.fromBack_m)) : none,
                          toMillionth(hole.diameter_m)});
    fill(table);
  }
}

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
      fill(table);
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
  pourJoins(flow, results, texts);
  pourPlan(flow, kTimber, results.timberCuts, texts);
  pourSheets(flow, document, results, texts);
  pourHoles(flow, results, texts);
  pourLeftOnPurpose(flow, results, texts);
  pourWeight(flow, results, texts);
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
  pourRange(flow, results.buying, texts);
  if (results.buying.unknownPrices > 0) line(TextKey::PricesToAsk, countFact("count", results.buying.unknownPrices));
  if (results.buying.manifoldTees > 0) line(TextKey::ManifoldTees, countFact("count", results.buying.manifoldTees));
  pourBuyingCautions(flow, results, texts);
  return std::move(flow).finish();
}

Table cutListTable(const results::Results& results) {
  Table table;
  table.columns = {"material", "stock_number", "stock_name",       "stock_length_m", "owned",
                   "kind",     "name",         "start_m",          "length_m",       "spare_m",
                   "note",     "lengths_used", "lengths_at_least", "proven",         "x_m",
                   "y_m",      "width_m",      "height_m",         "from_back_m",    "diameter_m"};
  if (results.tubeCuts) addCutRows(table, kTube, *results.tubeCuts);
  if (results.timberCuts) addCutRows(table, kTimber, *results.timberCuts);
  for (const results::SheetCut& cut : results.sheetCuts) {
    if (cut.plan) addSheetRows(table, cut.part, *cut.plan);
  }
  addHoleRows(table, results.holes);
  return table;
}

Table materialListTable(const model::Document& document, const results::Results& results) {
  Table table;
  table.columns = {"item",  "name",       "amount_m", "amount_m2", "amount_count", "stock_units",
                   "owned", "unit_price", "price",    "currency",  "note",         "unit"};
  for (const stock::BuyingList::Row& row : results.buying.rows) {
    const auto amountIn = [&](Dimension dimension) {
      return row.dimension == dimension && row.note != "not_planned" ? Cell(toMillionth(row.amount)) : Cell();
    };
    table.rows.push_back({row.item, row.name, amountIn(Dimension::Length), amountIn(Dimension::Area),
                          amountIn(Dimension::Count), row.note == "not_planned" ? Cell() : Cell(row.stockUnits),
                          row.owned, priceCell(row, row.unitPrice), priceCell(row, row.price), document.stock.currency,
                          row.note, std::string(row.units == Dimension::Area ? "m2" : "piece")});
  }
  return table;
}

}  // namespace sunspool::sheet
