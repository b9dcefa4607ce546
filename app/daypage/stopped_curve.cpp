// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/stopped_curve.h"

#include <QCoreApplication>
#include <QPolygonF>
#include <algorithm>
#include <cmath>

#include "app/render/marks.h"

namespace sunspool::daypage {
namespace {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::daypage)
};
using YOf = std::function<double(double)>;

constexpr double kQuarter_h = 0.25;

Temperature kelvin(double value_K) { return Temperature::fromKelvin(value_K); }
double middleOf(const evaluate::StoppedQuarter& quarter) { return quarter.clock_h + 0.5 * kQuarter_h; }

/// Without decimals, which an upper bound has not earned, and never torn apart at a line's end.
QString wholeDegrees(double value_K, const format::Preferences& preferences) {
  return QStringLiteral("%1\u00a0%2")
      .arg(std::round(format::temperatureOnAxis(kelvin(value_K), preferences)))
      .arg(format::temperatureUnit(preferences));
}

/// Degrees across the plot, from a round number under the coolest to one over the hottest.
struct Degrees {
  QRectF plot;
  double from = 0.0, to = 100.0, step = 20.0;
  const format::Preferences& preferences;

  Degrees(const QRectF& rect, const evaluate::StoppedDay& day, const format::Preferences& chosen)
      : plot(rect), preferences(chosen) {
    step = preferences.units == format::UnitSystem::Metric ? 20.0 : 40.0;
    double least = shown(day.tubeLimit_K), most = least;
    for (const auto& quarter : day.quarters) {
      least = std::min(least, shown(quarter.wetTube_K));
      most = std::max(most, shown(quarter.dryTube_K));
    }
    from = step * std::floor(least / step);
    to = step * std::ceil(most / step);
  }
  double shown(double value_K) const { return format::temperatureOnAxis(kelvin(value_K), preferences); }
  double xOf(double degrees) const { return plot.left() + (degrees - from) / (to - from) * plot.width(); }
  double x(double value_K) const { return xOf(shown(value_K)); }
};

void drawDegrees(const Canvas& canvas, const Degrees& degrees) {
  const QFont font = render::font(canvas.tokens, render::Voice::Measured, 12.5);
  canvas.painter.setFont(font);
  const double every = degrees.to - degrees.from > 5.0 * degrees.step ? 2.0 * degrees.step : degrees.step;
  for (double tick = degrees.from; tick <= degrees.to; tick += every) {
    const double x = degrees.xOf(tick);
    canvas.painter.setPen(QPen(canvas.tokens.hair, 1.0));
    canvas.painter.drawLine(QPointF(x, degrees.plot.top()), QPointF(x, degrees.plot.bottom()));
    const bool last = tick + every > degrees.to;
    const QString text = last ? QStringLiteral("%1 %2").arg(tick).arg(format::temperatureUnit(degrees.preferences))
                              : QString::number(tick);
    const double number = render::textWidth(font, QString::number(tick));
    canvas.painter.setPen(canvas.tokens.ink2);
    canvas.painter.drawText(
        QPointF(tick == degrees.from ? x + 2.0 : x - 0.5 * number, degrees.plot.top() - canvas.tokens.px(8.0)), text);
  }
}

/// Everything left of the curve of the full tube, from `least` to `most`.
QPolygonF underCurve(const Degrees& degrees, const evaluate::StoppedDay& day, const YOf& yOf, double least_K,
                     double most_K) {
  QPolygonF area;
  for (const auto& quarter : day.quarters)
    area << QPointF(degrees.x(std::clamp(quarter.wetTube_K, least_K, most_K)), yOf(middleOf(quarter)));
  area << QPointF(degrees.x(least_K), yOf(middleOf(day.quarters.back())))
       << QPointF(degrees.x(least_K), yOf(middleOf(day.quarters.front())));
  return area;
}

/// Paper up to the limit, hatched beyond it.
void drawFull(const Canvas& canvas, const Degrees& degrees, const evaluate::StoppedDay& day, const YOf& yOf) {
  constexpr double kBeyondAll_K = 2000.0;
  canvas.painter.save();
  canvas.painter.setClipRect(degrees.plot);
  canvas.painter.setPen(Qt::NoPen);
  canvas.painter.setBrush(canvas.tokens.slip);
  canvas.painter.drawPolygon(underCurve(degrees, day, yOf, 0.0, kBeyondAll_K));
  canvas.painter.setBrush(
      hatchBrush(canvas.tokens, render::Hatch::OverLimit, canvas.tokens.slip, canvas.devicePixelRatio));
  canvas.painter.drawPolygon(underCurve(degrees, day, yOf, day.tubeLimit_K, kBeyondAll_K));
  canvas.painter.restore();
}

void drawCurve(const Canvas& canvas, const Degrees& degrees, const evaluate::StoppedDay& day, const YOf& yOf,
               double evaluate::StoppedQuarter::*temperature_K, double width) {
  QPolygonF line;
  for (const auto& quarter : day.quarters) line << QPointF(degrees.x(quarter.*temperature_K), yOf(middleOf(quarter)));
  canvas.painter.setBrush(Qt::NoBrush);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(width)));
  canvas.painter.drawPolyline(line);
}

enum class From { Left, Right };
/// A halo of paper round words that lie over areas and lines.
void word(const Canvas& canvas, QPointF baseline, const QString& text, From side) {
  const QFont font = render::font(canvas.tokens, render::Voice::Measured, 13.5, QFont::Bold);
  const double left = side == From::Left ? baseline.x() : baseline.x() - render::textWidth(font, text);
  render::drawHaloText(canvas.painter, {left, baseline.y()}, text, font, canvas.tokens.ink, canvas.tokens.paper);
}

void drawLimit(const Canvas& canvas, const Degrees& degrees, const evaluate::StoppedDay& day) {
  const double x = degrees.x(day.tubeLimit_K);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(2.8), Qt::SolidLine, Qt::FlatCap));
  canvas.painter.drawLine(QPointF(x, degrees.plot.top()), QPointF(x, degrees.plot.bottom()));
  const QString limit = Text::tr("limit %1").arg(wholeDegrees(day.tubeLimit_K, degrees.preferences));
  const bool roomAtRight = degrees.plot.right() - x > canvas.tokens.px(100.0);
  word(canvas, {x + canvas.tokens.px(roomAtRight ? 7.0 : -7.0), degrees.plot.bottom() - canvas.tokens.px(6.0)}, limit,
       roomAtRight ? From::Left : From::Right);
}

/// The hottest quarter hour whose words keep clear of the sun mark's flag and the plot's ends.
const evaluate::StoppedQuarter* labelled(const Canvas& canvas, const QRectF& plot, const evaluate::StoppedDay& day,
                                         const YOf& yOf, double now_h) {
  const evaluate::StoppedQuarter* best = nullptr;
  for (const auto& quarter : day.quarters) {
    const double y = yOf(middleOf(quarter)), clear = canvas.tokens.px(26.0);
    if (std::abs(y - yOf(now_h)) < clear || y < plot.top() + clear || y > plot.bottom() - clear) continue;
    if (best == nullptr || quarter.dryTube_K > best->dryTube_K) best = &quarter;
  }
  return best;
}

}  // namespace

void drawStopped(const Canvas& canvas, const QRectF& plot, const evaluate::StoppedDay& day, const YOf& yOf,
                 double now_h) {
  const Degrees degrees(plot, day, canvas.preferences);
  drawDegrees(canvas, degrees);
  drawFull(canvas, degrees, day, yOf);
  drawCurve(canvas, degrees, day, yOf, &evaluate::StoppedQuarter::wetTube_K, 1.1);
  drawCurve(canvas, degrees, day, yOf, &evaluate::StoppedQuarter::dryTube_K, 2.2);
  drawLimit(canvas, degrees, day);
  const evaluate::StoppedQuarter* there = labelled(canvas, plot, day, yOf, now_h);
  if (there == nullptr) return;
  const double y = yOf(middleOf(*there)) + canvas.tokens.px(5.0), gap = canvas.tokens.px(8.0);
  const bool boils = there->wetTube_K > day.boiling_K - 0.01;
  word(canvas, {plot.left() + gap, y}, boils ? Text::tr("full: boils") : Text::tr("full"), From::Left);
  word(canvas, {degrees.x(there->dryTube_K) - gap, y}, Text::tr("drained"), From::Right);
}

const evaluate::StoppedQuarter* quarterAt(const evaluate::StoppedDay& day, double clock_h) {
  const auto found = std::find_if(day.quarters.begin(), day.quarters.end(), [clock_h](const auto& quarter) {
    return quarter.clock_h <= clock_h && clock_h < quarter.clock_h + kQuarter_h;
  });
  return found == day.quarters.end() ? nullptr : &*found;
}

QString stoppedSentence(const evaluate::StoppedDay& day, double clock_h, const format::Preferences& preferences) {
  const evaluate::StoppedQuarter* quarter = quarterAt(day, clock_h);
  const QString hour = format::clock(clock_h);
  if (quarter == nullptr) return Text::tr("No sun falls on the panel at %1.").arg(hour);
  const QString limit = wholeDegrees(day.tubeLimit_K, preferences),
                full = wholeDegrees(quarter->wetTube_K, preferences);
  const QString drained = wholeDegrees(quarter->dryTube_K, preferences);
  if (quarter->minutesToLimit) {
    const QString minutes = *quarter->minutesToLimit < 1.0
                                ? Text::tr("within a minute")
                                : Text::tr("after about %1\u00a0min").arg(std::round(*quarter->minutesToLimit));
    return Text::tr("Power fails at %1: the tube is past its limit of %2 %3. Full it comes to %4, drained to %5.")
        .arg(hour, limit, minutes, full, drained);
  }
  const format::NumberAndUnit spare = format::number(kelvins(day.tubeLimit_K - quarter->wetTube_K), preferences);
  const QString first = Text::tr("Power fails at %1: full, the tube comes to %2, %3\u00a0%4 under its limit.")
                            .arg(hour, full, spare.number, spare.unit);
  if (quarter->dryTube_K <= day.tubeLimit_K) return first;
  return Text::tr("%1 Drained it comes to %2, over it.").arg(first, drained);
}

}  // namespace sunspool::daypage
