// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/canvas.h"

#include <QFontMetricsF>

namespace sunspool::tape {

QFont fontOf(const Canvas& canvas, const TextStyle& style) {
  return render::font(canvas.tokens, style.voice, style.size, style.weight, style.italic);
}

double drawText(const Canvas& canvas, QPointF baseline, const QString& text, const QColor& colour,
                const TextStyle& style, Align align) {
  const QFont font = fontOf(canvas, style);
  const double width = render::textWidth(font, text);
  const double shift = align == Align::Left ? 0.0 : align == Align::Middle ? width / 2.0 : width;
  canvas.painter.setFont(font);
  canvas.painter.setPen(colour);
  canvas.painter.drawText(baseline - QPointF(shift, 0.0), text);
  return width;
}

QString elided(const QFont& font, const QString& text, double width) {
  return QFontMetricsF(font).elidedText(text, Qt::ElideRight, width);
}

}  // namespace sunspool::tape
