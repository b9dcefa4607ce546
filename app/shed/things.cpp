// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/things.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/model/fields.h"

namespace sunspool::shed {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("sunspool::shed", text); }
QString counted(const char* text, int n) { return QCoreApplication::translate("sunspool::shed", text, nullptr, n); }
QString named(const std::string& name, const QString& otherwise) {
  return name.empty() ? otherwise : QString::fromStdString(name);
}
QString run(Length length, const format::Preferences& preferences) {
  return format::number(length, format::LengthScale::Run, preferences).joined();
}
QString bothSides(Length width, Length height, const format::Preferences& preferences) {
  const format::NumberAndUnit first = format::number(width, format::LengthScale::Drawing, preferences);
  return tr("%1 × %2").arg(first.number, format::number(height, format::LengthScale::Drawing, preferences).joined());
}

/// Lengths of this kind that a plan cuts, and what stays of them.
QString cutFrom(const stock::CutPlan& plan, const std::string& name, Length length,
                const format::Preferences& preferences) {
  int lengths = 0;
  Length used, left;
  for (const stock::CutPattern& pattern : plan.patterns) {
    const stock::StockLength& kind = plan.stock[pattern.stock];
    if (kind.name != name || kind.length != length) continue;
    ++lengths;
    used += pattern.used;
    left += pattern.left;
  }
  if (lengths == 0) return tr("nothing of it taken");
  if (lengths == 1) return tr("%1 taken, %2 stay").arg(run(used, preferences), run(left, preferences));
  return tr("%1 taken, %2 stay of them").arg(lengths).arg(run(left, preferences));
}

bool ofThisTube(const model::Document& document, const model::Roll& roll) {
  const auto same = [](const std::optional<Length>& own, Length design) { return !own || *own == design; };
  return same(roll.insideDiameter, document.tube.insideDiameter.value) &&
         same(roll.outsideDiameter, document.tube.outsideDiameter.value);
}

QString taken(const model::Document& document, const results::Results& results, const model::Roll& roll,
              const format::Preferences& preferences) {
  if (!ofThisTube(document, roll)) return tr("another tube than this design's");
  if (!results.tubeCuts) return {};
  return cutFrom(*results.tubeCuts, roll.name, roll.length, preferences);
}
QString taken(const model::Document&, const results::Results& results, const model::TimberStock& timber,
              const format::Preferences& preferences) {
  if (!results.timberCuts) return {};
  return cutFrom(*results.timberCuts, timber.name, timber.length, preferences);
}
QString taken(const model::Document&, const results::Results& results, const model::StockSheet& sheet,
              const format::Preferences& preferences) {
  for (const results::SheetCut& cut : results.sheetCuts) {
    if (cut.part != model::wordOf(sheet.use) || !cut.plan) continue;
    int sheets = 0;
    for (const stock::SheetPattern& pattern : cut.plan->patterns)
      if (cut.plan->stock[pattern.stock] == sheet) ++sheets;
    if (sheets == 0) return tr("nothing of it taken");
    const QString waste = format::number(Fact{{}, cut.plan->waste, Dimension::Percent}, preferences).joined();
    return tr("%1 taken, %2 left over").arg(sheets).arg(waste);
  }
  return {};
}
QString bought(const results::Results& results, std::string_view item, const std::string* name) {
  for (const auto& row : results.buying.rows) {
    if (row.item != item || (name != nullptr && row.name != *name)) continue;
    return row.stockUnits > 0.0 ? counted("%n taken", static_cast<int>(row.stockUnits)) : QString();
  }
  return {};
}
QString taken(const model::Document&, const results::Results& results, const model::StockFitting& fitting,
              const format::Preferences&) {
  const QString found = bought(results, model::wordOf(fitting.kind), nullptr);
  return found.isEmpty() ? tr("none taken") : found;
}
QString taken(const model::Document& document, const results::Results&, const model::StockPump& pump,
              const format::Preferences&) {
  return pump.pump == document.plumbing.pump ? tr("this design's pump") : QString();
}
QString taken(const model::Document&, const results::Results&, const model::Thermometer&, const format::Preferences&) {
  return {};
}

}  // namespace

QString fittingName(model::FittingKind kind) {
  switch (kind) {
    case model::FittingKind::BarbConnector:
      return tr("Hose tail");
    case model::FittingKind::Elbow90:
      return tr("Elbow, 90°");
    case model::FittingKind::Elbow45:
      return tr("Elbow, 45°");
    case model::FittingKind::TeeThrough:
      return tr("Tee, straight way");
    case model::FittingKind::TeeBranch:
      return tr("Tee, branch");
    case model::FittingKind::Valve:
      return tr("Valve");
    case model::FittingKind::PipeEntrance:
      return tr("Strainer at the entrance");
    case model::FittingKind::PipeExit:
      return tr("Outlet");
  }
  return {};
}

QString sheetUseName(model::SheetUse use) {
  switch (use) {
    case model::SheetUse::Plate:
      return tr("plate");
    case model::SheetUse::Insulation:
      return tr("insulation");
    case model::SheetUse::Backing:
      return tr("backing");
    case model::SheetUse::Glazing:
      return tr("glazing");
  }
  return {};
}

QString nameOf(const model::Roll& roll) { return named(roll.name, tr("Roll of tube")); }
QString nameOf(const model::TimberStock& timber) { return named(timber.name, tr("Timber")); }
QString nameOf(const model::StockSheet& sheet) { return named(sheet.name, tr("Sheet")); }
QString nameOf(const model::StockPump& pump) { return named(pump.pump.name, tr("Pump")); }
QString nameOf(const model::StockFitting& fitting) { return fittingName(fitting.kind); }
QString nameOf(const model::Thermometer& thermometer) { return named(thermometer.name, tr("Thermometers")); }

QString sizeOf(const model::Roll& roll, const format::Preferences& preferences) {
  const QString length = run(roll.length, preferences);
  if (!roll.outsideDiameter || !roll.insideDiameter) return length;
  return tr("%1, %2").arg(length, bothSides(*roll.outsideDiameter, *roll.insideDiameter, preferences));
}
QString sizeOf(const model::TimberStock& timber, const format::Preferences& preferences) {
  return run(timber.length, preferences);
}
QString sizeOf(const model::StockSheet& sheet, const format::Preferences& preferences) {
  return tr("%1, for the %2").arg(bothSides(sheet.width, sheet.height, preferences), sheetUseName(sheet.use));
}
QString sizeOf(const model::StockPump& pump, const format::Preferences& preferences) {
  return tr("%1, %2").arg(format::number(pump.pump.labelFlow.value, preferences).joined(),
                          format::number(pump.pump.labelHead.value, format::LengthScale::Height, preferences).joined());
}
QString sizeOf(const model::StockFitting&, const format::Preferences&) { return {}; }
QString sizeOf(const model::Thermometer& thermometer, const format::Preferences& preferences) {
  return tr("± %1").arg(format::number(thermometer.spread, preferences).joined());
}

model::Roll newThing(const model::Document& document, model::Roll*) {
  model::Roll roll;
  roll.name = tr("Roll of tube").toStdString();
  roll.length = metres(50.0);
  roll.owned = 1;
  roll.sureness = Sureness::Guess;
  roll.outsideDiameter = document.tube.outsideDiameter.value;
  roll.insideDiameter = document.tube.insideDiameter.value;
  return roll;
}
model::TimberStock newThing(const model::Document&, model::TimberStock*) {
  return {tr("Timber").toStdString(), metres(3.0), 1, {}, Sureness::Guess};
}
model::StockSheet newThing(const model::Document& document, model::StockSheet*) {
  model::StockSheet sheet;
  sheet.name = tr("Sheet").toStdString();
  sheet.use = document.box.plate ? model::SheetUse::Plate : model::SheetUse::Backing;
  sheet.width = metres(1.25);
  sheet.height = metres(2.5);
  sheet.owned = 1;
  sheet.sureness = Sureness::Guess;
  return sheet;
}
model::StockPump newThing(const model::Document& document, model::StockPump*) {
  return {document.plumbing.pump, 1, {}};
}
model::StockFitting newThing(const model::Document&, model::StockFitting*) {
  return {model::FittingKind::BarbConnector, 1, {}};
}
model::Thermometer newThing(const model::Document&, model::Thermometer*) {
  return {tr("Thermometers").toStdString(), kelvins(0.5), 2, {}, Sureness::Guess};
}

QString takenOf(const model::Document& document, const results::Results& results, model::StockList list,
                std::size_t index, const format::Preferences& preferences) {
  return withKind(list, [&](auto* kind) {
    using T = std::remove_pointer_t<decltype(kind)>;
    const auto& rows = document.stock.*Thing<T>::rows;
    return index < rows.size() ? taken(document, results, rows[index], preferences) : QString();
  });
}

}  // namespace sunspool::shed
