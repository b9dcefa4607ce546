// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/body.h"

#include <QCoreApplication>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace sunspool::tape {

namespace {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::tape)
};

TextStyle restStyle(const Placement& place) {
  return {(place.isLarge() ? 16.0 : 13.5) * place.bodyScale, QFont::Normal, render::Voice::Said, true};
}

// --- marks ----------------------------------------------------------------------------------------

void drawBridge(const Canvas& canvas, const layout::Crossing& crossing, double y) {
  const double from = canvas.place.x(crossing.from_m),
               to = std::max(from + canvas.px(5.0), canvas.place.x(crossing.to_m));
  const double up = crossing.level == layout::CrossingLevel::Under ? -1.0 : 1.0;
  const double rise = canvas.px(6.0) * up, ramp = canvas.px(6.0);
  QPainterPath bridge(QPointF(from - ramp, y + rise));
  bridge.lineTo(from, y - rise);
  bridge.lineTo(to, y - rise);
  bridge.lineTo(to + ramp, y + rise);
  canvas.painter.setBrush(canvas.tokens.paper);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.8), Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
  canvas.painter.drawPath(bridge);
  if (!canvas.place.isLarge()) return;
  const int turns = crossing.turnsCrossed;
  const bool under = crossing.level == layout::CrossingLevel::Under;
  const QString one = under ? Text::tr("under one turn") : Text::tr("over one turn");
  const QString words = turns == 1 ? one : (under ? Text::tr("under %1 turns") : Text::tr("over %1 turns")).arg(turns);
  drawHaloText(canvas, {from - ramp - canvas.px(8.0), y + canvas.px(4.5)}, words, canvas.tokens.ink2, {12.5},
               Align::Right);
}

void drawHole(const Canvas& canvas, double x, double y) {
  canvas.painter.setBrush(canvas.tokens.paper);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.8)));
  canvas.painter.drawEllipse(QPointF(x, y), canvas.px(5.0), canvas.px(5.0));
  if (!canvas.place.isLarge()) return;
  const QString words = Text::tr("through the back");
  drawHaloText(canvas, {x - canvas.px(12.0), y + canvas.px(4.5)}, words, canvas.tokens.ink2, {12.5}, Align::Right);
}

void drawFrameTick(const Canvas& canvas, double station_m, double y) {
  const double x = canvas.place.x(station_m);
  canvas.line(x, y - canvas.px(6.0), x, y + canvas.px(6.0), canvas.tokens.ink, 1.6);
}

// --- the tube -------------------------------------------------------------------------------------

/// Marks and numbers in the reader's unit: which ones still stand apart.
struct Print {
  double unit_m = 1.0;
  int tick = 1;
  int number = 5;
};
Print printFor(const Canvas& canvas) {
  const bool us = canvas.preferences.units == format::UnitSystem::UsCustomary;
  Print print{us ? foot.si_per_unit : 1.0, 1, 1};
  const double perUnit = canvas.place.perMetre * print.unit_m;
  const auto firstWider = [&](std::initializer_list<int> steps, double apart) {
    for (const int step : steps)
      if (step * perUnit >= apart) return step;
    return *(steps.end() - 1);
  };
  print.tick = firstWider({1, 5, 10, 50, 100, 500}, canvas.bodyPx(4.0));
  print.number = firstWider({1, 5, 10, 20, 50, 100, 200, 500}, canvas.bodyPx(52.0, 48.0));
  return print;
}

void drawPrint(const Canvas& canvas, const QRectF& tube) {
  const Print print = printFor(canvas);
  const auto end = static_cast<int>(std::floor(canvas.content.cut_m / print.unit_m));
  const double base = tube.bottom() - canvas.bodyPx(2.0);
  for (int i = 0; i <= end; i += print.tick) {
    const bool strong = i % std::max(5 * print.tick, 5) == 0;
    const double x = canvas.place.x(i * print.unit_m);
    canvas.line(x, tube.bottom() - tube.height() * (strong ? 0.30 : 0.17), x, base, canvas.tokens.tapePrint,
                strong ? 1.8 : 1.0);
  }
  const TextStyle engraved{(canvas.place.isLarge() ? 17.0 : 14.0) * canvas.place.bodyScale, QFont::Normal,
                           render::Voice::Engraved};
  const double baseline = tube.top() + tube.height() * 0.56;
  const QString letter(QLatin1Char(canvas.content.laid->letter));
  const double room = tube.right() - canvas.bodyPx(14.0);
  for (int i = 0; i <= end; i += print.number) {
    const QString text = QString::number(i);
    const double x = canvas.place.x(i * print.unit_m) + (i == 0 ? canvas.bodyPx(2.0) : 0.0);
    if (x + render::textWidth(fontOf(canvas, engraved), text) / 2.0 > room) break;
    drawText(canvas, {x, baseline}, text, canvas.tokens.tapePrint, engraved, Align::Middle);
    const double between = canvas.place.x((i + 0.5 * print.number) * print.unit_m);
    const bool lettered = (i / print.number) % 4 == 2 && canvas.place.isLarge();
    if (lettered && between < room - canvas.bodyPx(20.0))
      drawText(canvas, {between, baseline}, letter, canvas.tokens.tapePrint, engraved, Align::Middle);
  }
}

void drawOpenEnd(const Canvas& canvas, const QRectF& tube) {
  const double r = tube.height() / 2.0;
  const QPointF end(tube.right(), tube.center().y());
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.4)));
  canvas.painter.setBrush(canvas.tokens.paper);
  canvas.painter.drawEllipse(end, r * 0.36, r - 0.6);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.0)));
  canvas.painter.setBrush(canvas.tokens.desk);
  canvas.painter.drawEllipse(end, r * 0.26, r * 0.72);
}

void drawRestOfRoll(const Canvas& canvas, const QRectF& tube) {
  const RollRest& rest = canvas.content.rest;
  const double from = tube.right(), to = canvas.place.rollEnd;
  const double openEnd = tube.height() * 0.18;
  if (rest.left_m.value_or(0.0) > 0.0) {
    QPen dashed = canvas.pen(canvas.tokens.ink, 1.4);
    dashed.setDashPattern({canvas.bodyPx(7.0) / dashed.widthF(), canvas.bodyPx(5.0) / dashed.widthF()});
    canvas.painter.setPen(dashed);
    canvas.painter.drawPolyline(
        QPolygonF({{from, tube.top()}, {to, tube.top()}, {to, tube.bottom()}, {from, tube.bottom()}}));
  }
  if (canvas.place.rollIsCut) {  // two strokes: the rest is longer than it is drawn
    for (const double shift : {0.0, 6.0}) {
      const double x = to - canvas.bodyPx(16.0) + canvas.bodyPx(shift);
      canvas.line(x, tube.bottom() + canvas.bodyPx(4.0), x + canvas.bodyPx(8.0), tube.top() - canvas.bodyPx(4.0),
                  canvas.tokens.ink, 1.4);
    }
  }
  const TextStyle style = restStyle(canvas.place);
  const QFont font = fontOf(canvas, style);
  const double inside = to - from - openEnd, width = render::textWidth(font, rest.words);
  const double cut = canvas.place.rollIsCut ? canvas.bodyPx(20.0) : 0.0;
  const double baseline = tube.center().y() + canvas.bodyPx(5.0);
  const bool fits = width + canvas.bodyPx(12.0) < inside - cut;
  const double x =
      fits ? from + openEnd + (inside - cut - width) / 2.0 : std::max(to, from + openEnd) + canvas.bodyPx(8.0);
  const QColor colour = canvas.content.settled ? canvas.tokens.ink : canvas.tokens.ink2;
  const double room = (fits ? to : canvas.place.size.width() - canvas.bodyPx(4.0)) - x;
  drawText(canvas, {x, baseline}, elided(font, rest.words, room), colour, style);
}

}  // namespace

double restWordsWidth(const render::Tokens& tokens, const Placement& place, const QString& words) {
  const TextStyle style = restStyle(place);
  return render::textWidth(render::font(tokens, style.voice, style.size, style.weight, style.italic), words);
}

void drawMarksRow(const Canvas& canvas) {
  const QRectF& row = canvas.place.marks;
  if (row.height() <= 0.0) return;
  const layout::LaidRun& run = *canvas.content.laid;
  const bool hole = run.returning.throughBack || run.feed.throughBack;
  const QString name = run.crossing ? Text::tr("frame, crossing") : hole ? Text::tr("frame, hole") : Text::tr("frame");
  const double y = row.center().y();
  if (canvas.place.side >= canvas.px(230.0))
    drawText(canvas, {canvas.place.side - canvas.px(16.0), y + canvas.px(5.0)}, name, canvas.tokens.ink,
             {14.0, QFont::Bold}, Align::Right);
  canvas.line(row.left(), y, row.right(), y, canvas.tokens.hair, 1.0);
  const double inside = canvas.place.x(run.insideFrom_m);
  canvas.line(inside, y, canvas.place.x(run.insideTo_m), y, canvas.tokens.mark, 1.6);
  drawFrameTick(canvas, run.feed.station_m, y);
  const double r = 9.0;
  const double feed = std::max(canvas.place.x(run.feed.station_m) - canvas.px(r + 3.0), row.left() + canvas.px(r));
  render::drawRingLetter(canvas.painter, canvas.tokens, {feed, y}, Text::tr("F"), r);
  const double returning = canvas.place.x(run.returning.station_m);
  const double after = std::max(returning, row.right()) + canvas.px(18.0);
  canvas.line(returning, y, after, y, canvas.tokens.ink, 1.2);
  if (run.crossing) drawBridge(canvas, *run.crossing, y);
  if (run.returning.throughBack)
    drawHole(canvas, returning, y);
  else
    drawFrameTick(canvas, run.returning.station_m, y);
  render::drawRingLetter(canvas.painter, canvas.tokens, {after, y}, Text::tr("R"), r);
}

void drawBody(const Canvas& canvas) {
  const QRectF& body = canvas.place.body;
  const QRectF tube = body.adjusted(-canvas.px(13.0), 0.0, 0.0, 0.0);
  drawRestOfRoll(canvas, body);
  const QColor outline = canvas.tokens.isDark() ? canvas.tokens.mark : canvas.tokens.ink;
  canvas.painter.setPen(canvas.pen(outline, 1.2));
  canvas.painter.setBrush(canvas.tokens.tape);
  canvas.painter.drawRect(tube);
  if (!canvas.tokens.isHighContrast()) {
    QColor shine = canvas.tokens.tapePrint;
    shine.setAlphaF(0.22F);
    const double y = tube.top() + tube.height() * 0.2;
    canvas.line(tube.left() + 1.0, y, tube.right() - 1.0, y, shine, 1.0);
  }
  drawPrint(canvas, body);
  drawOpenEnd(canvas, body);
}

void drawNoTube(const Canvas& canvas) {
  const QRectF& body = canvas.place.body;
  QPen dashed = canvas.pen(canvas.tokens.ink, 1.4);
  dashed.setDashPattern({canvas.px(7.0) / dashed.widthF(), canvas.px(5.0) / dashed.widthF()});
  canvas.painter.setPen(dashed);
  canvas.painter.setBrush(Qt::NoBrush);
  const double left = body.left() - canvas.px(12.0);
  canvas.painter.drawPolyline(QPolygonF({{left, body.top()},
                                         {canvas.place.right, body.top()},
                                         {canvas.place.right, body.bottom()},
                                         {left, body.bottom()}}));
  const QRectF room(body.left(), canvas.px(12.0), canvas.place.right - body.left(), body.top() - canvas.px(24.0));
  const bool above = room.height() > canvas.px(30.0);
  canvas.painter.setPen(canvas.tokens.ink);
  canvas.painter.setFont(
      fontOf(canvas, {above ? 17.0 : 15.0 * canvas.place.bodyScale, QFont::Normal, render::Voice::Said}));
  canvas.painter.drawText(above ? room : QRectF(body.left(), body.top(), room.width(), body.height()),
                          Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, canvas.content.refusal);
}

}  // namespace sunspool::tape
