// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/corner.h"

#include <QCoreApplication>
#include <QPainterPath>
#include <QStringList>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunspool::tape {

namespace {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::tape)
};

/// Baselines of the readings, and whether they have a place at all.
struct Readings {
  double x, bead, beadWords, sun, sunWords;
};
Readings readingsOf(const render::Tokens& tokens, const Placement& place) {
  const bool large = place.isLarge();
  const auto px = [&](double l, double s) { return tokens.px(large ? l : s); };
  Readings at{tokens.px(20.0), px(30.0, 26.0), 0.0, 0.0, 0.0};
  at.beadWords = at.bead + px(21.0, 18.0);
  at.sun = at.beadWords + px(30.0, 25.0);
  at.sunWords = at.sun + px(21.0, 18.0);
  return at;
}
double namesLeft(const render::Tokens& tokens, const Placement& place) { return place.side - tokens.px(128.0); }
/// Right edge of the readings: the names of the strips stand beyond it.
double readingsRight(const render::Tokens& tokens, const Placement& place) {
  return place.side < tokens.px(230.0) ? place.side : namesLeft(tokens, place);
}
bool sunFits(const render::Tokens& tokens, const Placement& place) {
  return readingsOf(tokens, place).sunWords < place.body.top() - tokens.px(30.0);
}

void drawReading(const Canvas& canvas, double x, double baseline, const QString& text) {
  drawText(canvas, {x, baseline}, text, canvas.tokens.violet, {canvas.place.isLarge() ? 21.0 : 18.0, QFont::Bold});
}
void drawSecondLine(const Canvas& canvas, double x, double baseline, const QString& text) {
  const TextStyle style{13.0};
  const double room = readingsRight(canvas.tokens, canvas.place) - x;
  drawText(canvas, {x, baseline}, elided(fontOf(canvas, style), text, room), canvas.tokens.ink2, style);
}

// --- pump -----------------------------------------------------------------------------------------

struct PumpShape {
  double radius, wheelX, wheelY, unionX;
};
PumpShape pumpShape(const render::Tokens& tokens, const Placement& place) {
  const auto bodyPx = [&](double large, double small) {
    return tokens.px(place.isLarge() ? large : small) * place.bodyScale;
  };
  const double radius = bodyPx(36.0, 28.0);
  const double wanted = place.side - bodyPx(158.0, 136.0);
  return {radius, std::max(radius + bodyPx(6.0, 6.0), wanted), place.body.bottom() - radius,
          place.body.left() - tokens.px(12.0)};
}

/// Left end of the pins when the plug is in.
double plugLeft(const render::Tokens& tokens, const Placement& place) { return tokens.px(30.0) * place.bodyScale; }
bool plugFits(const render::Tokens& tokens, const Placement& place) {
  const PumpShape pump = pumpShape(tokens, place);
  return pump.wheelX - pump.radius >= plugLeft(tokens, place) + 44.0 * tokens.px(1.0) * place.bodyScale;
}

void drawWheel(const Canvas& canvas, const PumpShape& pump) {
  const QPointF centre(pump.wheelX, pump.wheelY);
  const double r = pump.radius;
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(2.0)));
  canvas.painter.setBrush(canvas.tokens.slip);
  canvas.painter.drawEllipse(centre, r, r);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.8), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  canvas.painter.setBrush(Qt::NoBrush);
  const auto around = [&](double angle, double share) {
    return centre + QPointF(std::cos(angle), std::sin(angle)) * (r * share);
  };
  for (int vane = 0; vane < 5; ++vane) {
    const double angle = vane * 2.0 * std::numbers::pi / 5.0 + 0.3;
    QPainterPath curve(around(angle, 0.26));
    curve.quadTo(around(angle + 0.35, 0.62), around(angle + 0.95, 0.78));
    canvas.painter.drawPath(curve);
  }
  canvas.painter.setPen(Qt::NoPen);
  canvas.painter.setBrush(canvas.tokens.ink);
  canvas.painter.drawEllipse(centre, r * 0.2, r * 0.2);
}

void drawOutlet(const Canvas& canvas, const PumpShape& pump) {
  const QRectF& body = canvas.place.body;
  canvas.painter.setPen(canvas.pen(canvas.tokens.ink, 2.0));
  canvas.painter.setBrush(canvas.tokens.slip);
  canvas.painter.drawRect(QRectF(QPointF(pump.wheelX, body.top()), QPointF(pump.unionX, body.bottom())));
  const double nut = canvas.bodyPx(10.0), over = canvas.bodyPx(5.0);
  canvas.painter.fillRect(QRectF(pump.unionX - nut, body.top() - over, nut, body.height() + 2.0 * over),
                          canvas.tokens.ink);
  for (int ring = 0; ring < 3; ++ring) {
    const double x = pump.unionX - nut - canvas.bodyPx(6.0) * (ring + 1);
    canvas.line(x, body.top() + 1.0, x, body.bottom() - 1.0, canvas.tokens.ink, 1.3);
  }
}

void drawSocket(const Canvas& canvas, double x, double y) {
  const double u = canvas.bodyPx(1.0);
  QPainterPath socket(QPointF(x + 4.0 * u, y - 13.0 * u));
  socket.lineTo(x - 6.0 * u, y - 13.0 * u);
  socket.quadTo(x - 10.0 * u, y - 13.0 * u, x - 10.0 * u, y - 9.0 * u);
  socket.lineTo(x - 10.0 * u, y + 9.0 * u);
  socket.quadTo(x - 10.0 * u, y + 13.0 * u, x - 6.0 * u, y + 13.0 * u);
  socket.lineTo(x + 4.0 * u, y + 13.0 * u);
  socket.closeSubpath();
  canvas.painter.setPen(canvas.pen(canvas.tokens.ink, 2.0));
  canvas.painter.setBrush(canvas.tokens.paper);
  canvas.painter.drawPath(socket);
}

/// In its socket the pump runs, out of it the pump stands. The cord leaves the wheel low and comes to the plug's back.
void drawPlug(const Canvas& canvas, const PumpShape& pump) {
  if (!plugFits(canvas.tokens, canvas.place)) return;
  const double u = canvas.bodyPx(1.0);
  const double in = plugLeft(canvas.tokens, canvas.place), y = canvas.place.body.center().y() + 2.0 * u;
  const double room = pump.wheelX - pump.radius - (in + 34.0 * u);
  const double x = in + (canvas.content.plugPulled ? std::clamp(room, 8.0 * u, 22.0 * u) : 0.0);
  QPainterPath cord(QPointF(pump.wheelX - pump.radius * 0.9, pump.wheelY + pump.radius * 0.42));
  cord.cubicTo({pump.wheelX - pump.radius - 26.0 * u, y + 14.0 * u}, {x + 60.0 * u, y - 12.0 * u}, {x + 30.0 * u, y});
  canvas.painter.setBrush(Qt::NoBrush);
  canvas.painter.setPen(canvas.pen(canvas.tokens.ink, 2.4));
  canvas.painter.drawPath(cord);
  QPainterPath plug(QPointF(x + 30.0 * u, y - 9.0 * u));
  plug.lineTo(x + 16.0 * u, y - 9.0 * u);
  plug.quadTo(x + 7.0 * u, y - 9.0 * u, x + 7.0 * u, y);
  plug.quadTo(x + 7.0 * u, y + 9.0 * u, x + 16.0 * u, y + 9.0 * u);
  plug.lineTo(x + 30.0 * u, y + 9.0 * u);
  plug.closeSubpath();
  canvas.painter.fillPath(plug, canvas.tokens.ink);
  for (const double pin : {-4.5, 4.5})
    canvas.line(x + 8.0 * u, y + pin * u, x - 2.0 * u, y + pin * u, canvas.tokens.ink, 2.6);
  drawSocket(canvas, in, y);
  const TextStyle words{12.5 * canvas.place.bodyScale};
  const QString deed = canvas.content.plugPulled ? Text::tr("push to run") : Text::tr("pull to stop");
  drawText(canvas, {in - 10.0 * u, y - 19.0 * u}, elided(fontOf(canvas, words), deed, pump.wheelX - pump.radius - in),
           canvas.tokens.ink2, words);
}

void drawFlow(const Canvas& canvas, const PumpShape& pump) {
  const auto& flow = canvas.content.results->flow;
  const double left = pump.wheelX + pump.radius + canvas.bodyPx(8.0);
  const double room = pump.unionX - canvas.bodyPx(30.0) - left;
  const double baseline = canvas.place.body.center().y() + canvas.bodyPx(5.5);
  const TextStyle words{13.5 * canvas.place.bodyScale, QFont::Normal, render::Voice::Said, true};
  if (!flow) {
    const QString why = !canvas.content.settled ? Text::tr("settling")
                        : flow.error().code == ErrorCode::PumpNeverStarts || flow.error().code == ErrorCode::NoFlow
                            ? Text::tr("no flow")
                            : Text::tr("not known");
    drawText(canvas, {left, baseline}, elided(fontOf(canvas, words), why, room), canvas.tokens.ink2, words);
    return;
  }
  format::NumberAndUnit value = format::number(flow->flow.value, canvas.preferences);
  if (canvas.content.plugPulled) value.number = QStringLiteral("0");
  render::NumberStyle style;
  style.size = (canvas.place.isLarge() ? 18.0 : 15.0) * canvas.place.bodyScale;
  style.italic = !canvas.content.settled;
  if (!canvas.content.settled) style.colour = canvas.tokens.ink2;
  if (render::numberWidth(canvas.tokens, value, style) <= room && canvas.content.settled) {
    render::drawNumber(canvas.painter, canvas.tokens, {left, baseline}, value, style);
    return;
  }
  // Two lines: number over its unit, or over the word that it is an older one.
  style.size = 15.0 * canvas.place.bodyScale;
  const QString under = canvas.content.settled ? value.unit : Text::tr("settling");
  const format::NumberAndUnit upper{value.number, canvas.content.settled ? QString() : value.unit};
  render::drawNumber(canvas.painter, canvas.tokens, {left, baseline - canvas.bodyPx(6.0)}, upper, style);
  const TextStyle small{12.5 * canvas.place.bodyScale, QFont::Normal, render::Voice::Measured, !canvas.content.settled};
  drawText(canvas, {left, baseline + canvas.bodyPx(9.0)}, elided(fontOf(canvas, small), under, room),
           canvas.tokens.ink2, small);
}

QString foldedReadings(const Canvas& canvas, double station_m) {
  QStringList texts;
  const auto fold = [&](const QRectF& strip, Strip which) {
    if (strip.height() <= 0.0) texts << readingAt(canvas.content, which, station_m, canvas.preferences);
  };
  fold(canvas.place.water, Strip::Water);
  fold(canvas.place.waterLine, Strip::WaterLine);
  fold(canvas.place.bend, Strip::Bend);
  texts.removeAll(QString());
  return texts.join(Text::tr(", "));
}

}  // namespace

void drawPump(const Canvas& canvas) {
  const PumpShape pump = pumpShape(canvas.tokens, canvas.place);
  drawOutlet(canvas, pump);
  drawWheel(canvas, pump);
  drawFlow(canvas, pump);
  drawPlug(canvas, pump);
}

QRectF plugRect(const render::Tokens& tokens, const Placement& place) {
  if (!plugFits(tokens, place)) return {};
  const PumpShape pump = pumpShape(tokens, place);
  const double u = tokens.px(1.0) * place.bodyScale, middle = place.body.center().y() + 2.0 * u;
  return {QPointF(4.0 * u, middle - 32.0 * u), QPointF(pump.wheelX - pump.radius - 2.0 * u, middle + 20.0 * u)};
}

void drawSunReading(const Canvas& canvas) {
  if (!sunFits(canvas.tokens, canvas.place)) return;
  const Readings at = readingsOf(canvas.tokens, canvas.place);
  const double text = at.x + canvas.px(26.0);
  render::drawSunMark(canvas.painter, canvas.tokens, {at.x + canvas.px(15.0), at.sun - canvas.px(6.5)}, 8.0);
  drawReading(canvas, text, at.sun, format::clock(canvas.content.document->moment.clock_h));
  const auto& sun = canvas.content.results->sun;
  if (!sun) {
    drawSecondLine(canvas, text, at.sunWords, format::sentence(sun.error(), canvas.preferences));
    return;
  }
  const QString amount = format::number(Irradiance::fromSi(sun->plane.total_W_m2), canvas.preferences).joined();
  const QString where = sun->inShade             ? Text::tr("%1, in the shade")
                        : canvas.place.isLarge() ? Text::tr("%1 on the panel")
                                                 : QStringLiteral("%1");
  drawSecondLine(canvas, text, at.sunWords, where.arg(amount));
}

QRectF flowReadingRect(const Canvas& canvas) {
  const PumpShape pump = pumpShape(canvas.tokens, canvas.place);
  const double left = pump.wheelX + pump.radius + canvas.bodyPx(4.0);
  const QRectF& body = canvas.place.body;
  return {left, body.top(), std::max(0.0, pump.unionX - canvas.bodyPx(30.0) - left), body.height()};
}

QRectF beadReadingRect(const render::Tokens& tokens, const Placement& place) {
  const Readings at = readingsOf(tokens, place);
  return {0.0, 0.0, readingsRight(tokens, place), at.beadWords + tokens.px(6.0)};
}

void drawBeadReading(const Canvas& canvas, double station_m) {
  const Readings at = readingsOf(canvas.tokens, canvas.place);
  if (!beadReadingFits(canvas.tokens, canvas.place)) return;
  const double text = at.x + canvas.px(26.0);
  canvas.painter.setBrush(Qt::NoBrush);
  canvas.painter.setPen(QPen(canvas.tokens.violet, canvas.tokens.line(3.0)));
  canvas.painter.drawEllipse(QPointF(at.x + canvas.px(8.0), at.bead - canvas.px(7.0, 6.0)), canvas.px(7.0),
                             canvas.px(7.0));
  drawReading(canvas, text, at.bead,
              format::number(metres(station_m), format::LengthScale::Run, canvas.preferences).joined());
  const QString folded = foldedReadings(canvas, station_m);
  const QString place = placeOf(canvas.content, station_m);
  const QString both = folded.isEmpty() ? place : Text::tr("%1, %2").arg(folded, place);
  const double room = readingsRight(canvas.tokens, canvas.place) - text;
  const bool fits = render::textWidth(fontOf(canvas, {13.0}), both) <= room;
  drawSecondLine(canvas, text, at.beadWords, fits || folded.isEmpty() ? both : folded);
}

bool beadReadingFits(const render::Tokens& tokens, const Placement& place) {
  return readingsOf(tokens, place).bead < place.body.top() - tokens.px(4.0);
}

std::vector<QRectF> runTargets(const render::Tokens& tokens, const Placement& place, int runs) {
  std::vector<QRectF> targets;
  if (runs < 2) return targets;
  const double side = tokens.px(place.isLarge() ? 36.0 : 32.0), gap = tokens.px(4.0);
  const Readings at = readingsOf(tokens, place);
  const double top = sunFits(tokens, place) ? at.sunWords + tokens.px(place.isLarge() ? 16.0 : 9.0) : at.beadWords;
  for (int run = 0; run < runs; ++run)
    targets.emplace_back(at.x - tokens.px(4.0) + run * (side + gap), top, side, side);
  return targets;
}

void drawRunChooser(const Canvas& canvas) {
  const std::vector<QRectF> targets = runTargets(canvas.tokens, canvas.place, canvas.content.runs);
  for (std::size_t run = 0; run < targets.size(); ++run) {
    const bool chosen = static_cast<int>(run) == canvas.content.run;
    canvas.painter.setBrush(chosen ? QBrush(canvas.tokens.wash) : QBrush(Qt::NoBrush));
    canvas.painter.setPen(chosen ? canvas.pen(canvas.tokens.violet, 2.0) : canvas.pen(canvas.tokens.mark, 1.0));
    canvas.painter.drawRect(targets[run]);
    const QString letter(QLatin1Char(canvas.content.results->layout->runs[run].letter));
    drawText(canvas, {targets[run].center().x(), targets[run].center().y() + canvas.px(6.0)}, letter,
             chosen ? canvas.tokens.violet : canvas.tokens.ink,
             {17.0, chosen ? QFont::Bold : QFont::Normal, render::Voice::Measured}, Align::Middle);
  }
}

}  // namespace sunspool::tape
