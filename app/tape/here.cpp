// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/here.h"

#include <algorithm>

#include "app/tape/corner.h"
#include "app/tape/strips.h"

namespace sunspool::tape {

namespace {

constexpr double kFlagText = 15.0;

enum class Age { Fresh, Stale };
struct Chip {
  QRectF rect;
  QString text;
  Age age = Age::Fresh;
};

/// Right of the hairline, or left of it where the end of the tube is near.
Chip chipAt(const Canvas& canvas, double x, double middle, const QString& text) {
  const QSizeF size = render::chipSize(canvas.tokens, text);
  const double gap = canvas.px(6.0);
  const bool right = x + gap + size.width() <= canvas.place.end;
  return {QRectF(QPointF(right ? x + gap : x - gap - size.width(), middle - size.height() / 2.0), size), text};
}

Chip waterChip(const Canvas& canvas, double x, const Here& here, const QString& text) {
  const QRectF& strip = canvas.place.water;
  const double edge = canvas.px(11.0);
  const bool high = waterRibbonY(canvas, here.station_m) < strip.center().y();
  return chipAt(canvas, x, high ? strip.bottom() - edge : strip.top() + edge, text);
}

Chip waterLineChip(const Canvas& canvas, double x, const QString& text) {
  const QRectF& strip = canvas.place.waterLine;
  const Chip upper = chipAt(canvas, x, strip.top() + canvas.px(11.0), text);
  if (!upper.rect.intersects(siphonTextRect(canvas))) return upper;
  return chipAt(canvas, x, strip.bottom() - canvas.px(11.0), text);
}

std::vector<Chip> chipsOf(const Canvas& canvas, const Here& here) {
  std::vector<Chip> chips;
  const double x = canvas.place.x(here.station_m);
  const auto text = [&](Strip strip) { return readingAt(canvas.content, strip, here.station_m, canvas.preferences); };
  const auto open = [&](const QRectF& strip, const QString& words) { return strip.height() > 0.0 && !words.isEmpty(); };
  const QString bend = text(Strip::Bend), water = text(Strip::Water), line = text(Strip::WaterLine);
  const QRectF& bendStrip = canvas.place.bend;
  if (open(bendStrip, bend)) chips.push_back(chipAt(canvas, x, bendStrip.top() + 0.3 * bendStrip.height(), bend));
  const Age age = canvas.content.settled ? Age::Fresh : Age::Stale;
  const auto aged = [&](Chip chip) { return Chip{chip.rect, chip.text, age}; };
  if (open(canvas.place.water, water)) chips.push_back(aged(waterChip(canvas, x, here, water)));
  if (open(canvas.place.waterLine, line)) chips.push_back(aged(waterLineChip(canvas, x, line)));
  return chips;
}

/// A number of an older design: ink2 and italic, in a hair frame.
void drawStaleChip(const Canvas& canvas, const Chip& chip) {
  canvas.painter.setPen(canvas.pen(canvas.tokens.mark, 1.0));
  canvas.painter.setBrush(canvas.tokens.paper);
  canvas.painter.drawRect(chip.rect);
  drawText(canvas, {chip.rect.center().x(), chip.rect.center().y() + canvas.px(4.8)}, chip.text, canvas.tokens.ink2,
           {13.5, QFont::Normal, render::Voice::Measured, true}, Align::Middle);
}

void drawFrame(const Canvas& canvas, double x) {
  const QRectF& body = canvas.place.body;
  const QRectF frame(x - canvas.px(13.0), body.top() - canvas.px(3.0), canvas.px(26.0), body.height() + canvas.px(6.0));
  const double width = canvas.tokens.line(3.0);
  canvas.painter.setBrush(Qt::NoBrush);
  const QColor inner = canvas.tokens.isDark() ? canvas.tokens.tape : canvas.tokens.paper;
  canvas.painter.setPen(QPen(inner, width, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  canvas.painter.drawRect(frame.adjusted(width, width, -width, -width));
  canvas.painter.setPen(QPen(canvas.tokens.violet, width, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  canvas.painter.drawRect(frame);
}

Chip typedFlag(const Canvas& canvas, const Here& here) {
  const QString text = here.refusal.isEmpty() ? here.typed + QLatin1Char('|') : here.refusal;
  const QSizeF size =
      here.refusal.isEmpty() ? render::flagSize(canvas.tokens, text) : render::chipSize(canvas.tokens, text);
  const double most = canvas.place.size.width() - size.width() - canvas.px(6.0);
  const double x = std::clamp(canvas.place.x(here.station_m) - canvas.px(13.0), canvas.place.side,
                              std::max(canvas.place.side, most));
  const double y = std::max(0.0, canvas.place.body.top() - canvas.px(8.0) - size.height());
  return {QRectF(QPointF(x, y), size), text};
}

/// The bead's metre beside it, where the left column has no room for it.
Chip metreFlag(const Canvas& canvas, const Here& here) {
  const QString text = format::number(metres(here.station_m), format::LengthScale::Run, canvas.preferences).joined();
  const double textSize = kFlagText * canvas.place.bodyScale;
  const QSizeF size = render::flagSize(canvas.tokens, text, textSize);
  const double x = canvas.place.x(here.station_m), off = canvas.px(16.0);
  const bool right = x + off + size.width() < canvas.place.size.width();
  const double y = canvas.place.body.center().y() - size.height() / 2.0;
  return {QRectF(QPointF(right ? x + off : x - off - size.width(), y), size), text};
}

}  // namespace

void drawHere(const Canvas& canvas, const Here& here) {
  const double x = canvas.place.x(here.station_m);
  const double top = std::min(canvas.place.bend.top(), canvas.place.body.top()) - canvas.px(4.0);
  canvas.line(x, top, x, canvas.place.body.top(), canvas.tokens.violet, 1.5);
  drawFrame(canvas, x);
  for (const Chip& chip : chipsOf(canvas, here)) {
    if (chip.age == Age::Fresh)
      render::drawChip(canvas.painter, canvas.tokens, chip.rect, chip.text);
    else
      drawStaleChip(canvas, chip);
  }
  if (!beadReadingFits(canvas.tokens, canvas.place)) {
    const Chip metre = metreFlag(canvas, here);
    render::drawFlag(canvas.painter, canvas.tokens, metre.rect, metre.text, kFlagText * canvas.place.bodyScale);
  }
  if (here.typed.isEmpty() && here.refusal.isEmpty()) return;
  const Chip flag = typedFlag(canvas, here);
  if (here.refusal.isEmpty())
    render::drawFlag(canvas.painter, canvas.tokens, flag.rect, flag.text);
  else
    render::drawChip(canvas.painter, canvas.tokens, flag.rect, flag.text);
}

QRectF hereRect(const Canvas& canvas, const Here& here) {
  const double x = canvas.place.x(here.station_m);
  QRectF rect(x - canvas.px(16.0), 0.0, canvas.px(32.0), canvas.place.size.height());
  for (const Chip& chip : chipsOf(canvas, here)) rect |= chip.rect;
  if (!here.typed.isEmpty() || !here.refusal.isEmpty()) rect |= typedFlag(canvas, here).rect;
  if (!beadReadingFits(canvas.tokens, canvas.place)) rect |= metreFlag(canvas, here).rect;
  return rect.adjusted(-3.0, -3.0, 3.0, 3.0);
}

}  // namespace sunspool::tape
