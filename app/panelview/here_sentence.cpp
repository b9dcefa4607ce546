// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/here_sentence.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace sunspool::panelview {

namespace {

constexpr double kNear_m = 0.5;  ///< a finding this close to a place belongs to it

QString tr(const char* text) { return QCoreApplication::translate("sunspool::panelview", text); }

/// Straight between the two points of the profile around a station.
double between(const std::vector<results::RunProfile::Point>& points, double station_m,
               double results::RunProfile::Point::*value) {
  const auto after = std::lower_bound(points.begin(), points.end(), station_m,
                                      [](const results::RunProfile::Point& p, double s) { return p.station_m < s; });
  if (after == points.begin()) return points.front().*value;
  if (after == points.end()) return points.back().*value;
  const auto before = std::prev(after);
  const double span = after->station_m - before->station_m;
  const double share = span > 0.0 ? (station_m - before->station_m) / span : 0.0;
  return std::lerp((*before).*value, (*after).*value, share);
}

QStringList findingsNear(const HereAndNow& here, const format::Preferences& preferences) {
  QStringList titles;
  for (const Snag& snag : here.results.snags) {
    const bool near = std::any_of(snag.places.begin(), snag.places.end(), [&](const SnagPlace& place) {
      return place.run == here.run && std::abs(place.station_m - here.station_m) <= kNear_m;
    });
    if (near) titles << format::snagText(snag, here.document, preferences).title;
  }
  return titles;
}

}  // namespace

QString placeOnRun(const layout::LaidRun& run, double station_m, const format::Preferences& preferences) {
  if (station_m < run.insideFrom_m) return tr("in the feed tail");
  if (station_m > run.insideTo_m) return tr("in the return tail");
  if (run.crossing && station_m >= run.crossing->from_m && station_m <= run.crossing->to_m)
    return run.crossing->level == layout::CrossingLevel::Under ? tr("on the crossing under the turns")
                                                               : tr("on the crossing");
  const auto pieces = run.path.pieces();
  const std::size_t index = run.path.pieceAt(station_m);
  int corners = 0;
  for (std::size_t i = 0; i < index; ++i)
    corners += std::holds_alternative<geometry::Arc>(pieces[i]) && run.path.stationOf(i) >= run.turnsFrom_m ? 1 : 0;
  const QString turn = tr("turn %1").arg(corners / 4 + 1);
  if (const auto* arc = std::get_if<geometry::Arc>(&pieces[index])) {
    const QString radius = format::number(metres(arc->radius), format::LengthScale::Drawing, preferences).joined();
    return tr("%1, bend of radius %2").arg(turn, radius);
  }
  return tr("%1, straight").arg(turn);
}

QString hereSentence(const HereAndNow& here, const format::Preferences& preferences) {
  const auto& layout = here.results.layout;
  if (!layout) return format::sentence(layout.error(), preferences);
  if (here.run < 0 || here.run >= static_cast<int>(layout->runs.size())) return tr("There is no tube here.");
  const layout::LaidRun& run = layout->runs[static_cast<std::size_t>(here.run)];
  QStringList parts;
  const QString metre = format::number(metres(here.station_m), format::LengthScale::Run, preferences).joined();
  parts << (layout->runs.size() > 1 ? tr("At %1 of run %2").arg(metre, QString(QLatin1Char(run.letter)))
                                    : tr("At %1").arg(metre));
  parts << placeOnRun(run, here.station_m, preferences);
  const QStringList findings = findingsNear(here, preferences);
  const bool profiled = here.settled && static_cast<std::size_t>(here.run) < here.results.profiles.size() &&
                        !here.results.profiles[static_cast<std::size_t>(here.run)].points.empty();
  if (profiled) {
    const auto& points = here.results.profiles[static_cast<std::size_t>(here.run)].points;
    using Point = results::RunProfile::Point;
    parts << tr("water %1")
                 .arg(format::number(Temperature::fromKelvin(between(points, here.station_m, &Point::water_K)),
                                     preferences)
                          .joined());
    const Pressure gauge = pascals(between(points, here.station_m, &Point::gauge_Pa));
    const QString amount = format::number(gauge.si() < 0.0 ? -gauge : gauge, preferences).joined();
    parts << (gauge.si() < 0.0 ? tr("%1 below the air’s pressure") : tr("%1 above the air’s pressure")).arg(amount);
  } else {
    parts << tr("temperature and pressure are settling");
  }
  if (findings.isEmpty()) parts << tr("nothing found here");
  QString sentence =
      tr("%1; the clock says %2.").arg(parts.join(QStringLiteral(", ")), format::clock(here.document.moment.clock_h));
  if (!findings.isEmpty()) sentence += QLatin1Char(' ') + findings.join(QLatin1Char(' '));
  return sentence;
}

}  // namespace sunspool::panelview
