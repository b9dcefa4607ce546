// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "app/questions/parts.h"
#include "core/model/edits.h"

// One sheet for each number in sight. What belongs to a question is that question's sheet with the number's own
// headline and formula.

namespace sunspool::questions {

using format::LengthScale;

namespace {

template <class Q>
QString named(const QString& name, const Ranged<Q>& value, const Known& known) {
  const QString range = bareRange(value, known), best = num(value.value, known);
  return range.isEmpty() || best.startsWith(range)
             ? tr("%1 is %2.").arg(name, best)
             : tr("%1 is %2, between %3.").arg(name, best, QString(range).replace(tr(" to "), tr(" and ")));
}
void notYet(const QString& name, const Error& error, const Known& known, QuestionSheet& sheet) {
  sheet.headline = tr("%1 is not known yet.").arg(name);
  sheet.body = format::sentence(error, known.preferences);
}
QString run(Length value, const Known& known) { return len(value, LengthScale::Run, known); }
QString energy(Energy value, const Known& known) {
  return format::number(Fact{{}, value.si(), Dimension::Energy}, known.preferences).joined();
}
const std::vector<evaluate::MovedBy>* moved(const Known& known,
                                            std::vector<evaluate::MovedBy> store::SheetNumbers::*list) {
  return known.numbers != nullptr ? &(known.numbers->*list) : nullptr;
}

void tubeLength(const Known& known, QuestionSheet& sheet) {
  if (!known.results.layout.has_value())
    return notYet(tr("The tube length"), known.results.layout.error(), known, sheet);
  const layout::LaidPanel& laid = *known.results.layout;
  const Ranged<Length>& value = known.results.tubeLength;
  const QString range = withoutUnit(format::rangeOf(value, LengthScale::Run, known.preferences),
                                    format::axisOf(LengthScale::Run, known.preferences).unit);
  sheet.headline = tr("The tube length is %1, %2.").arg(run(value.value, known), range);
  sheet.body = laid.runs.size() == 1
                   ? tr("As it is cut from the roll, tails and crossing included, laid by hand.")
                   : tr("All runs of one panel together, tails and crossings included, laid by hand.");
  QStringList parts;
  for (const layout::LaidRun& one : laid.runs) {
    parts << QStringLiteral("%1 %2").arg(QLatin1Char(one.letter)).arg(run(metres(one.cutLength_m), known));
  }
  sheet.formula = {tr("L = turns · (1 + wobble) + tails + ramp of the crossing"),
                   tr("as drawn: %1").arg(parts.join(QStringLiteral(" + "))),
                   tr("L = %1").arg(run(value.value, known))};
  sheet.remark = tr("%1 of it lie inside the frame.").arg(run(laid.tubeInside, known));
  sheet.sources = {tr("Exact lines and arcs of the drawing; the wobble of a hand is an assumption.")};
  const std::string_view asked[] = {"/laying/wobble"};
  addMovedBy(sheet, moved(known, &store::SheetNumbers::tubeLength), Dimension::Length, asked, known);
  append(sheet.inputs, layingRows(known));
  sheet.moves = tr("moves the length");
}

void water(const Known& known, QuestionSheet& sheet) {
  if (!known.results.layout.has_value()) return notYet(tr("The water"), known.results.layout.error(), known, sheet);
  sheet.headline = named(tr("The water in the tube"), known.results.water, known);
  sheet.body = tr("It is what leaves first when the pump starts again, and what the panel carries when it is filled.");
  sheet.formula = {
      tr("V = π/4 · d² · L"),
      tr("d = %1, L = %2")
          .arg(drawn(known.document.tube.insideDiameter.value.si(), known), run(known.results.tubeLength.value, known)),
      tr("V = %1").arg(num(known.results.water.value, known))};
  sheet.sources = {tr("Plain geometry of a round bore.")};
  const std::string_view asked[] = {"/tube/inside_diameter", "/laying/wobble"};
  addMovedBy(sheet, moved(known, &store::SheetNumbers::water), Dimension::Volume, asked, known);
  sheet.moves = tr("moves the volume");
}

void pressureDrop(const Known& known, QuestionSheet& sheet) {
  flowsSheet(known, sheet);
  sheet.picture = nullptr;
  sheet.cautions.clear();
  if (!known.results.flow.has_value() || !known.results.flow->network.starts) return;
  const results::Flow& flow = *known.results.flow;
  const auto& loss = flow.network.runs.front().loss;
  sheet.headline = named(tr("The pressure drop across the runs"), flow.panelLoss, known);
  sheet.body = tr("At the flow that pump and tube agree on, %1.").arg(num(flow.flow.value, known));
  sheet.formula.back() = tr("Δp = %1").arg(num(flow.panelLoss.value, known));
  if (loss.transitionLength_m > 0.0) {
    sheet.remark += QLatin1Char(' ') + tr("%1 of it lie between laminar and turbulent, where the law is a band.")
                                           .arg(run(metres(loss.transitionLength_m), known));
  }
  sheet.inputs.clear();
  const std::string_view asked[] = {"/tube/inside_diameter", "/tube/roughness"};
  addInfluences(sheet, Moves::Loss, asked, known);
  sheet.moves = tr("moves the drop");
}

void lowestPressure(const Known& known, QuestionSheet& sheet) {
  flowsSheet(known, sheet);
  sheet.picture = nullptr;
  sheet.cautions.clear();
  if (!known.results.flow.has_value() || !known.results.flow->network.starts) return;
  const results::Flow& flow = *known.results.flow;
  sheet.headline = tr("The lowest pressure on the way is %1 against the air.").arg(num(flow.lowest, known));
  sheet.body = flow.lowest.si() < 0.0
                   ? tr("Below the air's pressure the water hangs in the tube like in a siphon: a leak lets air in, "
                        "soft hose is pressed flat when hot, and warm water may boil.")
                   : tr("Everywhere above the air's pressure: a leak drips and lets no air in.");
  sheet.formula = {tr("p = ρ g · (water line − height of the tube)"),
                   tr("the water line falls from %1 of head at the pump to the pool; the tube rises to %2 over it")
                       .arg(len(flow.head.value, LengthScale::Height, known),
                            len(metres(flow.network.startingLift_m), LengthScale::Height, known)),
                   tr("p = %1").arg(num(flow.lowest, known))};
  sheet.remark = tr("The Tape shows it along the way: hatched where the line lies below the tube.");
}

void heat(const Known& known, QuestionSheet& sheet) {
  warmsSheet(known, sheet);
  if (!known.results.heat.has_value()) return;
  sheet.headline = named(tr("The heat to the pool"), known.results.heat->toPool, known);
  sheet.cautions.clear();
}

void riseOrOutlet(const Known& known, QuestionSheet& sheet, bool outlet) {
  warmsSheet(known, sheet);
  sheet.picture = nullptr;
  if (!known.results.heat.has_value() || !known.results.flow.has_value()) return;
  const results::Heat& found = *known.results.heat;
  sheet.headline = outlet ? named(tr("The water that leaves"), found.outlet, known)
                          : named(tr("The rise from feed to return"), found.rise, known);
  sheet.body = tr("A small rise is right: the more water passes, the cooler the panel stays and the less it loses.");
  sheet.formula = {tr("rise = Q / (flow · ρ · c)"),
                   tr("Q = %1, flow = %2, water comes at %3")
                       .arg(num(found.toPool.value, known), num(known.results.flow->flow.value, known),
                            num(known.document.pool.water.value, known)),
                   tr("rise = %1, to %2").arg(num(found.rise.value, known), num(found.outlet.value, known))};
  sheet.remark.clear();
}

void dayHeat(const Known& known, QuestionSheet& sheet, bool poolRise) {
  worthItSheet(known, sheet);
  if (known.day == nullptr) return;
  if (poolRise) {
    sheet.headline = tr("The pool gains %1 in this day, before its own losses.").arg(num(known.day->poolRise, known));
    return;
  }
  sheet.headline = tr("%1 go to the pool in this day.").arg(energy(known.day->toPool, known));
  sheet.body =
      tr("One bar of the Day page is a quarter hour by the steady model, with the air and wind as they stand; "
         "while the panel would cool the pool the pump stands still.");
  sheet.formula = {tr("sum of %1 quarter hours").arg(known.day->quarters.size()),
                   tr("%1 fall on the panel in the day").arg(energy(known.day->falling, known)),
                   tr("to the pool %1").arg(energy(known.day->toPool, known))};
}

void wetMass(const Known& known, QuestionSheet& sheet) {
  const results::Masses& masses = known.results.masses;
  sheet.headline = tr("Filled with water one panel weighs %1.").arg(num(masses.wet, known));
  sheet.body = tr("Dry it is %1; %2 kg/m² on its outer area when it is filled. Whether a roof bears it is a question "
                  "for who built the roof.")
                   .arg(num(masses.dry, known), plain(masses.wet_kg_m2, 1));
  const std::pair<QString, Mass> parts[] = {
      {tr("tube"), masses.tube},      {tr("water"), masses.water},           {tr("timber"), masses.timber},
      {tr("plate"), masses.plate},    {tr("insulation"), masses.insulation}, {tr("backing"), masses.backing},
      {tr("glazing"), masses.glazing}};
  QStringList sum;
  for (const auto& [name, mass] : parts) {
    if (mass.si() > 0.0) sum << QStringLiteral("%1 %2").arg(name, num(mass, known));
  }
  sheet.formula = {tr("mass = length or area · thickness · density, part by part"), sum.join(QStringLiteral(" + ")),
                   tr("together %1").arg(num(masses.wet, known))};
  if (known.results.wind) {
    sheet.remark =
        tr("The gust that was entered lifts one panel with %1; %2 of ballast or its like hold it down. A "
           "screening figure: the local wind standard and a qualified person decide.")
            .arg(format::number(Fact{{}, known.results.wind->gustPressure.si(), Dimension::Pressure}, known.preferences)
                     .joined(),
                 num(known.results.wind->holdDownMass.value, known));
    addMovedBy(sheet, nullptr, Dimension::None,
               std::array<std::string_view, 2>{"/siting/gust", "/siting/uplift_coefficient"}, known);
  }
  sheet.sources = {tr("Densities as they were entered; softwood 480 kg/m³ (common practice, no source).")};
  addCaution(sheet, format::Caution::WeightOnRoof);
  addCaution(sheet, format::Caution::WindLifts);
}

}  // namespace

QuestionSheet numberSheet(NumberKey number, const Known& known) {
  QuestionSheet sheet;
  switch (number) {
    case NumberKey::TubeLength:
      tubeLength(known, sheet);
      break;
    case NumberKey::Water:
      water(known, sheet);
      break;
    case NumberKey::PressureDrop:
      pressureDrop(known, sheet);
      break;
    case NumberKey::Heat:
      heat(known, sheet);
      break;
    case NumberKey::Flow:
      flowsSheet(known, sheet);
      break;
    case NumberKey::Rise:
      riseOrOutlet(known, sheet, false);
      break;
    case NumberKey::Outlet:
      riseOrOutlet(known, sheet, true);
      break;
    case NumberKey::LowestPressure:
      lowestPressure(known, sheet);
      break;
    case NumberKey::TightestBend:
      bendsSheet(known, sheet);
      break;
    case NumberKey::DayHeat:
      dayHeat(known, sheet, false);
      break;
    case NumberKey::PoolRise:
      dayHeat(known, sheet, true);
      break;
    case NumberKey::WetMass:
      wetMass(known, sheet);
      break;
    case NumberKey::Stopped:
      survivesSheet(known, sheet);
      break;
    case NumberKey::Cost:
      stockSheet(known, sheet);
      sheet.headline =
          known.results.buying.unknownPrices > 0
              ? tr("What is known of the prices comes to %1; %2 more must be asked for.")
                    .arg(format::money(known.results.buying.knownTotal, known.document.stock.currency).joined())
                    .arg(known.results.buying.unknownPrices)
              : tr("What must be bought costs %1.")
                    .arg(format::money(known.results.buying.knownTotal, known.document.stock.currency).joined());
      break;
  }
  return sheet;
}

}  // namespace sunspool::questions
