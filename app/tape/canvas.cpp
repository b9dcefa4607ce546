// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/canvas.h"

#include <QFontMetricsF>
#include <QStaticText>
#include <cmath>
#include <numbers>

namespace sunspool::tape {

QColor onPaper(const Canvas& canvas, const QColor& colour, double share) {
  const QColor& paper = canvas.tokens.paper;
  const auto mixed = [share](int over, int under) {
    return static_cast<int>(std::lround(under + (over - under) * share));
  };
  return {mixed(colour.red(), paper.red()), mixed(colour.green(), paper.green()), mixed(colour.blue(), paper.blue())};
}

QFont fontOf(const Canvas& canvas, const TextStyle& style) {
  return render::font(canvas.tokens, style.voice, style.size, style.weight, style.italic);
}

namespace {
double shiftOf(const QFont& font, const QString& text, Align align) {
  switch (align) {
    case Align::Left:
      return 0.0;
    case Align::Middle:
      return render::textWidth(font, text) / 2.0;
    case Align::Right:
      return render::textWidth(font, text);
  }
  return 0.0;
}
}  // namespace

void drawText(const Canvas& canvas, QPointF baseline, const QString& text, const QColor& colour, const TextStyle& style,
              Align align) {
  const QFont font = fontOf(canvas, style);
  canvas.painter.setFont(font);
  canvas.painter.setPen(colour);
  canvas.painter.drawText(baseline - QPointF(shiftOf(font, text, align), 0.0), text);
}

void drawHaloText(const Canvas& canvas, QPointF baseline, const QString& text, const QColor& colour,
                  const TextStyle& style, Align align) {
  constexpr int kCopies = 8;
  const double reach = canvas.tokens.line(2.4);
  const QFont font = fontOf(canvas, style);
  QStaticText letters(text);  // shaped once for all copies
  letters.setTextFormat(Qt::PlainText);
  letters.prepare({}, font);
  const QPointF at = baseline - QPointF(shiftOf(font, text, align), QFontMetricsF(font).ascent());
  canvas.painter.setFont(font);
  canvas.painter.setPen(canvas.tokens.paper);
  for (int i = 0; i < kCopies; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / kCopies;
    canvas.painter.drawStaticText(at + QPointF(std::cos(angle), std::sin(angle)) * reach, letters);
  }
  canvas.painter.setPen(colour);
  canvas.painter.drawStaticText(at, letters);
}

QString elided(const QFont& font, const QString& text, double width) {
  return QFontMetricsF(font).elidedText(text, Qt::ElideRight, width);
}

}  // namespace sunspool::tape
