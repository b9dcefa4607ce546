// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/content.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>
#include <variant>

#include "core/results/run_profile.h"

namespace sunspool::tape {

namespace {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::tape)
};

bool hasPiece(const stock::CutPattern& pattern, std::size_t piece) {
  return std::find(pattern.pieces.begin(), pattern.pieces.end(), piece) != pattern.pieces.end();
}

QString whyNoRoll(const Error& error) {
  if (error.code == ErrorCode::PieceLongerThanStock) return Text::tr("no roll is this long");
  if (error.code == ErrorCode::NoStock) return Text::tr("no roll is known");
  return Text::tr("not cut from a roll");
}

RollRest restOf(const Content& content, const format::Preferences& preferences) {
  const auto& plan = content.results->tubeCuts;
  if (!plan) return {std::nullopt, content.settled ? whyNoRoll(plan.error()) : Text::tr("settling")};
  const auto run = static_cast<std::size_t>(content.run);
  const auto join =
      std::find_if(plan->joins.begin(), plan->joins.end(), [&](const stock::Join& j) { return j.wanted == run; });
  if (content.settled && join != plan->joins.end() && plan->wanted[run].count == 0) {
    const QString at = format::number(join->at, format::LengthScale::Run, preferences).joined();
    return {std::nullopt, Text::tr("joined from two at %1").arg(at)};
  }
  const auto pattern = std::find_if(plan->patterns.begin(), plan->patterns.end(),
                                    [&](const stock::CutPattern& p) { return hasPiece(p, run); });
  if (!content.settled || pattern == plan->patterns.end()) return {std::nullopt, Text::tr("settling")};
  const double left = pattern->left.si();
  if (left <= 0.0) return {0.0, Text::tr("the roll is used up")};
  const QString length = format::number(pattern->left, format::LengthScale::Run, preferences).joined();
  return {left, Text::tr("%1 stays on the roll").arg(length)};
}

QString withSettling(const Content& content, const QString& text) {
  return content.settled ? text : Text::tr("%1 settling").arg(text);
}

QString bendReading(const Content& content, double station_m, const format::Preferences& preferences) {
  if (!content.results->bends) return {};
  const results::Bend* bend = results::bendAt(*content.results->bends, content.run, station_m);
  if (bend == nullptr) return Text::tr("straight");
  const Fact times{"times_kink_radius", results::timesKinkRadius(*bend), Dimension::None};
  const Fact oval{"ovality", bend->ovality, Dimension::Percent};
  return Text::tr("%1, oval %2")
      .arg(format::number(times, preferences).joined(), format::number(oval, preferences).joined());
}

QString gaugeText(Pressure gauge, const format::Preferences& preferences) {
  const QString text = format::number(gauge, preferences).joined();
  return gauge > Pressure{} ? QLatin1Char('+') + text : text;
}

/// Left, right, upper or lower leg: where its middle lies from the middle of the region.
QString legName(const layout::LaidPanel& panel, const geometry::Path& path, double station_m) {
  const geometry::Point along = path.tangentAt(station_m);
  const geometry::Point from = path.pointAt(station_m) - (panel.coreLower + panel.coreUpper) * 0.5;
  if (std::abs(along.x) >= std::abs(along.y)) return from.y < 0.0 ? Text::tr("lower leg") : Text::tr("upper leg");
  return from.x < 0.0 ? Text::tr("left leg") : Text::tr("right leg");
}

}  // namespace

Content contentOf(const store::DocumentStore& store, int run, const format::Preferences& preferences) {
  Content content;
  content.document = store.shared();
  content.results = store.results();
  content.settled = store.isSettled();
  const auto& layout = content.results->layout;
  if (!layout) {
    content.refusal = format::sentence(layout.error(), preferences);
    return content;
  }
  content.runs = static_cast<int>(layout->runs.size());
  if (content.runs == 0) {
    content.refusal = Text::tr("No tube is laid.");
    return content;
  }
  content.run = std::clamp(run, 0, content.runs - 1);
  const auto index = static_cast<std::size_t>(content.run);
  content.laid = &layout->runs[index];
  content.end_m = content.laid->path.length().si();
  content.cut_m = content.end_m + content.laid->tailBehind_m;
  const auto& profiles = content.results->profiles;
  if (index < profiles.size() && !profiles[index].points.empty()) content.profile = &profiles[index];
  if (content.profile == nullptr && content.settled && !content.results->flow)
    content.noProfile = format::sentence(content.results->flow.error(), preferences);
  content.rest = restOf(content, preferences);
  return content;
}

QString readingAt(const Content& content, Strip strip, double station_m, const format::Preferences& preferences) {
  if (content.laid == nullptr) return {};
  if (strip == Strip::Bend) return bendReading(content, station_m, preferences);
  if (content.profile == nullptr) return content.settled ? QString() : Text::tr("settling");
  const results::RunProfile::Point here = results::at(*content.profile, station_m);
  if (strip == Strip::WaterLine) return withSettling(content, gaugeText(pascals(here.gauge_Pa), preferences));
  return withSettling(content, format::number(Temperature::fromKelvin(here.water_K), preferences).joined());
}

QString placeOf(const Content& content, double station_m) {
  if (content.laid == nullptr) return {};
  const layout::LaidRun& run = *content.laid;
  if (station_m < run.insideFrom_m) return Text::tr("feed tail");
  if (run.crossing && station_m >= run.crossing->from_m && station_m <= run.crossing->to_m)
    return Text::tr("the crossing");
  if (station_m > run.insideTo_m) return Text::tr("return tail");
  const auto pieces = run.path.pieces();
  const std::size_t here = run.path.pieceAt(station_m);
  int bends = 0, straights = 0;
  for (std::size_t i = 0; i <= here; ++i) {
    const bool arc = std::holds_alternative<geometry::Arc>(pieces[i]);
    bends += arc && i < here && run.path.stationOf(i) >= run.turnsFrom_m ? 1 : 0;
    straights += !arc && run.path.stationOf(i + 1) > run.turnsFrom_m ? 1 : 0;
  }
  const bool inBend = std::holds_alternative<geometry::Arc>(pieces[here]);
  const model::Recipe recipe = content.document->laying.recipe;
  if (recipe == model::Recipe::PlainSerpentine || recipe == model::Recipe::BulbSerpentine)
    return (inBend ? Text::tr("bend after pass %1") : Text::tr("pass %1")).arg(straights);
  const QString turn = Text::tr("turn %1").arg(bends / 4 + 1);
  return Text::tr("%1, %2").arg(turn,
                                inBend ? Text::tr("bend") : legName(*content.results->layout, run.path, station_m));
}

QString spoken(const Content& content, double station_m, const format::Preferences& preferences) {
  if (content.laid == nullptr) return content.refusal;
  const format::NumberAndUnit length = format::number(metres(station_m), format::LengthScale::Run, preferences);
  const bool us = preferences.units == format::UnitSystem::UsCustomary;
  QStringList parts{(us ? Text::tr("at %1 feet of run %2") : Text::tr("at %1 metres of run %2"))
                        .arg(length.number, QString(QLatin1Char(content.laid->letter)))};
  if (content.profile != nullptr) {
    const results::RunProfile::Point here = results::at(*content.profile, station_m);
    const QString water = format::number(Temperature::fromKelvin(here.water_K), preferences).number;
    parts << Text::tr("%1 degrees").arg(water) << gaugeText(pascals(here.gauge_Pa), preferences);
    if (!content.settled) parts << Text::tr("settling");
  } else {
    parts << (content.settled ? content.noProfile : Text::tr("settling"));
  }
  if (content.plugPulled) parts << Text::tr("the plug is out, the pump stands still");
  parts.removeAll(QString());
  return parts.join(Text::tr(", "));
}

QString siphonWords(const Content& content, Wording wording, const format::Preferences& preferences) {
  if (content.profile == nullptr) return {};
  const std::vector<results::Extent> below = results::belowAir(*content.profile);
  if (below.empty()) return {};
  constexpr double kToTheEnd_m = 1.0;
  const auto metre = [&](double station_m) {
    return format::number(metres(station_m), format::LengthScale::Run, preferences).joined();
  };
  const bool toTheEnd = below.back().to_m > content.profile->points.back().station_m - kToTheEnd_m;
  const QString where = toTheEnd ? Text::tr("from %1 on").arg(metre(below.front().from_m))
                                 : Text::tr("%1 to %2").arg(metre(below.front().from_m), metre(below.back().to_m));
  if (wording == Wording::Short) return Text::tr("siphon %1").arg(where);
  const QString lowest = format::number(pascals(content.profile->lowestGauge_Pa), preferences).joined();
  return (below.size() > 1 ? Text::tr("%1, pressure in places below the air’s: siphon, %2 at most")
                           : Text::tr("%1, pressure below the air’s: siphon, %2 at most"))
      .arg(where, lowest);
}

}  // namespace sunspool::tape
