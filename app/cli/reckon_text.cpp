// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/reckon_text.h"

#include <QString>
#include <vector>

#include "app/format/remedy_text.h"

namespace sunspool::cli {
namespace {

using format::LengthScale;

struct Row {
  QString name, value, range, remark;
};

QString text(const char* utf8) { return QString::fromUtf8(utf8); }

template <class Q>
QString rangeOrNothing(const Ranged<Q>& value, const format::Preferences& preferences) {
  return value.low == value.high ? QString() : format::range(value, preferences);
}

class Reckoning {
 public:
  Reckoning(const model::Document& document, const results::Results& results, const format::Preferences& preferences)
      : m_document(document), m_results(results), m_preferences(preferences) {}

  QString lines() {
    header();
    layout();
    flow();
    heat();
    stopped();
    cuts();
    return m_head + table();
  }

 private:
  void add(const char* name, const QString& value, const QString& range = {}, const QString& remark = {}) {
    m_rows.push_back({text(name), value, range, remark});
  }
  void fail(const char* name, const Error& error) { add(name, text("-"), {}, format::sentence(error, m_preferences)); }
  QString skyWords() const {
    if (m_results.sun->fixedByBuilder) return text("as typed in");
    const bool dull = m_document.conditions.sky == model::SkyKind::Dull;
    const QString sky = dull ? text("dull sky") : text("clear sky");
    return m_results.sun->inShade ? text("%1, in the shade").arg(sky) : sky;
  }
  template <class Q>
  QString num(Q value) const {
    return format::number(value, m_preferences).joined();
  }
  QString len(double metres_, LengthScale scale) const {
    return format::number(metres(metres_), scale, m_preferences).joined();
  }

  void header() {
    const auto& moment = m_document.moment;
    m_head = QString::fromStdString(m_document.name) + QLatin1Char('\n');
    m_head += text("%1, %2-%3-%4 at %5\n\n")
                  .arg(QString::fromStdString(m_document.place.name))
                  .arg(moment.year)
                  .arg(moment.month, 2, 10, QLatin1Char('0'))
                  .arg(moment.day, 2, 10, QLatin1Char('0'))
                  .arg(format::clock(moment.clock_h));
  }
  void layout() {
    if (!m_results.layout.has_value()) return fail("tube", m_results.layout.error());
    const auto& laid = *m_results.layout;
    const Ranged<Length>& tube = m_results.tubeLength;
    add("tube", len(tube.value.si(), LengthScale::Run),
        tube.low == tube.high ? QString() : format::rangeOf(tube, LengthScale::Run, m_preferences),
        text("%1 inside the frame").arg(len(laid.tubeInside.si(), LengthScale::Run)));
    for (const auto& run : laid.runs) {
      m_rows.push_back({text("  run %1").arg(QLatin1Char(run.letter)),
                        len(run.cutLength_m, LengthScale::Run),
                        {},
                        text("%1 turns").arg(run.quarterTurns / 4.0)});
    }
    add("water", num(m_results.water.value), rangeOrNothing(m_results.water, m_preferences));
    add("coverage", text("%1 %").arg(100.0 * laid.coverage, 0, 'f', 1), {}, text("of the inside of the frame"));
    add("weight", num(m_results.masses.wet), {},
        text("filled; %1 dry; %2 kg/m²").arg(num(m_results.masses.dry)).arg(m_results.masses.wet_kg_m2, 0, 'f', 1));
    if (m_results.bends && m_results.bends->worst) {
      const auto& bends = *m_results.bends;
      add("tightest bend", len(bends.worst->radius_m, LengthScale::Drawing), {},
          text("kinks at %1 at the latest; the handbook asks for %2")
              .arg(len(bends.collapseRadius.si(), LengthScale::Drawing),
                   len(bends.handbookRadius.si(), LengthScale::Drawing)));
    }
    add("depth to spare", len(m_results.depth.crossingSpare.si(), LengthScale::Drawing));
  }
  void flow() {
    if (!m_results.flow.has_value()) return fail("flow", m_results.flow.error());
    const auto& flow = *m_results.flow;
    add("flow", num(flow.flow.value), rangeOrNothing(flow.flow, m_preferences));
    add("pressure drop", num(flow.panelLoss.value), rangeOrNothing(flow.panelLoss, m_preferences),
        text("across the panel"));
    add("lift to start", len(flow.network.startingLift_m, LengthScale::Height), {},
        text("the pump's highest is %1").arg(len(flow.shutOffHead.si(), LengthScale::Height)));
    add("lowest pressure", num(flow.lowest), {}, text("against the air"));
  }
  void heat() {
    if (m_results.sun.has_value()) {
      add("sun on the panel", num(wattsPerSquareMetre(m_results.sun->plane.total_W_m2)), {}, skyWords());
    }
    if (!m_results.heat.has_value()) return fail("heat to the pool", m_results.heat.error());
    const auto& heat = *m_results.heat;
    add("heat to the pool", num(heat.toPool.value), rangeOrNothing(heat.toPool, m_preferences));
    add("water leaves at", num(heat.outlet.value), rangeOrNothing(heat.outlet, m_preferences),
        (heat.rise.value.si() < 0.0 ? text("%1 cooler").arg(num(-heat.rise.value))
                                    : text("%1 warmer").arg(num(heat.rise.value))));
    add("efficiency", text("%1 %").arg(100.0 * heat.steady.efficiencyInside, 0, 'f', 0), {},
        text("of the sun on the inside of the frame; %1 % on the outer area")
            .arg(100.0 * heat.steady.efficiencyGross, 0, 'f', 0));
  }
  void stopped() {
    if (!m_results.stopped.has_value()) return fail("pump stopped", m_results.stopped.error());
    const thermal::Sky& sky = m_results.stoppedSky;
    add("pump stopped", num(wattsPerSquareMetre(sky.beam_W_m2 + sky.sky_W_m2)), {},
        text("judged at %1 and a wind of %2, whatever the hour")
            .arg(num(Temperature::fromKelvin(sky.air_K)), num(metresPerSecond(sky.wind_m_s))));
    for (const auto& layer : m_results.stopped->layers) {
      const Temperature dry = Temperature::fromKelvin(layer.dry_K), wet = Temperature::fromKelvin(layer.wet_K);
      const QString limit =
          layer.limit_K ? text("limit %1").arg(num(Temperature::fromKelvin(*layer.limit_K))) : text("no limit known");
      m_rows.push_back({text("stopped: %1").arg(QString::fromStdString(layer.part)), num(dry),
                        text("%1 with water").arg(num(wet)), limit});
    }
  }
  void cuts() {
    if (m_results.tubeCuts.has_value()) {
      add("rolls of tube", QString::number(m_results.tubeCuts->lengthsUsed), {},
          text("%1 left over").arg(len(m_results.tubeCuts->totalLeft.si(), LengthScale::Run)));
    } else {
      fail("rolls of tube", m_results.tubeCuts.error());
    }
    if (m_results.timberCuts.has_value()) {
      add("boards", QString::number(m_results.timberCuts->lengthsUsed), {},
          text("%1 left over").arg(len(m_results.timberCuts->totalLeft.si(), LengthScale::Run)));
    } else {
      fail("boards", m_results.timberCuts.error());
    }
    for (const results::SheetCut& cut : m_results.sheetCuts) sheets(cut);
    if (!m_results.holes.empty()) {
      add("holes for the tube", QString::number(m_results.holes.size()), {},
          text("in each panel; places on the cut list"));
    }
    prices();
  }
  void sheets(const results::SheetCut& cut) {
    const QString part = format::partInWords(cut.part);
    const bool bySquareMetre = !cut.plan.has_value() && cut.plan.error().code == ErrorCode::NoStock;
    if (bySquareMetre) return;
    const QString name = text("sheets of %1").arg(part);
    if (!cut.plan.has_value()) {
      m_rows.push_back({name, text("-"), {}, format::sentence(cut.plan.error(), m_preferences)});
      return;
    }
    const QString left = text("%1 % left over").arg(100.0 * cut.plan->waste, 0, 'f', 0);
    const QString joints = text("%1, %2 joints").arg(left, QString::number(cut.plan->joints));
    m_rows.push_back({name, QString::number(cut.plan->sheetsUsed), {}, cut.plan->joints > 0 ? joints : left});
  }
  void prices() {
    const auto money = [&](double amount) { return format::money(amount, m_document.stock.currency).joined(); };
    const results::Buying& buying = m_results.buying;
    const QString range = buying.knownLow < buying.knownHigh
                              ? text("%1 to %2").arg(money(buying.knownLow), money(buying.knownHigh))
                              : QString();
    add("known prices", money(buying.knownTotal), range,
        buying.unknownPrices == 0   ? QString()
        : buying.unknownPrices == 1 ? text("at least: one price to ask for")
                                    : text("at least: %1 prices to ask for").arg(buying.unknownPrices));
  }
  QString table() const {
    qsizetype name = 0, value = 0, range = 0;
    for (const Row& row : m_rows) {
      name = std::max(name, row.name.size());
      value = std::max(value, row.value.size());
      range = std::max(range, row.range.size());
    }
    QString all;
    for (const Row& row : m_rows) {
      QString line = row.name.leftJustified(name + 2) + row.value.rightJustified(value) + text("  ") +
                     row.range.leftJustified(range + 2) + row.remark;
      while (line.endsWith(QLatin1Char(' '))) line.chop(1);
      all += line + QLatin1Char('\n');
    }
    return all;
  }

  const model::Document& m_document;
  const results::Results& m_results;
  const format::Preferences& m_preferences;
  QString m_head;
  std::vector<Row> m_rows;
};

const char* stateWord(SnagState state) {
  switch (state) {
    case SnagState::Snag:
      return "snag";
    case SnagState::Close:
      return "close";
    case SnagState::NotKnown:
      return "not known";
  }
  return "";
}

/// Numbered as on the slip: phrase, what it means, price; nothing known is said as well.
QString remediesText(const std::vector<remedies::Remedy>& all, const model::Document& document,
                     const format::Preferences& preferences) {
  if (all.empty()) return text("   remedies: none known that takes it away and brings nothing worse\n");
  QString lines;
  int number = 0;
  for (const remedies::Remedy& remedy : all) {
    const format::RemedyText words = format::remedyText(remedy, document, preferences);
    const QString price = remedy.price
                              ? format::remedyPriceText(*remedy.price, document.stock.currency, preferences).joined()
                              : text("asks for a number");
    lines += text("   remedy %1  %2 (%3): %4\n").arg(++number).arg(words.title, words.second, price);
  }
  return lines;
}

}  // namespace

std::string reckonText(const model::Document& document, const results::Results& results,
                       const format::Preferences& preferences) {
  return Reckoning(document, results, preferences).lines().toStdString();
}

std::string snagsText(const model::Document& document, const results::Results& results,
                      const format::Preferences& preferences, std::span<const std::vector<remedies::Remedy>> remedies) {
  if (results.snags.empty()) return "Nothing found.\n";
  QString all;
  int number = 0;
  for (const Snag& snag : results.snags) {
    const format::SnagText words = format::snagText(snag, document, preferences);
    all += text("%1. %2: %3\n").arg(++number).arg(text(stateWord(snag.state)), words.title);
    for (const auto& [label, line] :
         {std::pair{text("what"), words.what}, {text("why"), words.why}, {text("costs"), words.costs}}) {
      if (!line.isEmpty() && line != words.title) all += text("   %1  %2\n").arg(label.leftJustified(5), line);
    }
    if (static_cast<std::size_t>(number) <= remedies.size()) {
      all += remediesText(remedies[static_cast<std::size_t>(number) - 1], document, preferences);
    }
    if (!snag.leftBecause.empty()) all += text("   left because: %1\n").arg(QString::fromStdString(snag.leftBecause));
  }
  return all.toStdString();
}

}  // namespace sunspool::cli
