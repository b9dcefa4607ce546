// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Small things every picture of a sheet draws alike. Internal to app/questions.

#include <QFont>
#include <QPainter>
#include <cmath>

#include "app/render/marks.h"
#include "app/render/tokens.h"

namespace sunspool::questions {

inline QFont measured(const render::Tokens& tokens, double size, QFont::Weight weight = QFont::Normal) {
  return render::font(tokens, render::Voice::Measured, size, weight);
}
inline QFont said(const render::Tokens& tokens, double size, QFont::Weight weight = QFont::Normal,
                  bool italic = false) {
  return render::font(tokens, render::Voice::Said, size, weight, italic);
}
enum class Side { Left, Middle, Right };
/// Text whose left end, middle or right end stands at the point.
inline void write(QPainter& painter, QPointF at, const QString& text, const QFont& font, const QColor& colour,
                  Side side = Side::Left) {
  const double width = render::textWidth(font, text);
  const double back = side == Side::Left ? 0.0 : side == Side::Middle ? width / 2.0 : width;
  painter.setFont(font);
  painter.setPen(colour);
  painter.drawText(QPointF(at.x() - back, at.y()), text);
}
inline QString elided(const QFont& font, const QString& text, double room) {
  return QFontMetricsF(font).elidedText(text, Qt::ElideRight, room);
}
inline void line(QPainter& painter, QPointF from, QPointF to, const QColor& colour, double width,
                 Qt::PenStyle style = Qt::SolidLine) {
  painter.setPen(QPen(colour, width, style));
  painter.drawLine(from, to);
}
/// A step of 1, 2 or 5 times a power of ten that gives about `count` lines.
inline double niceStep(double span, double count) {
  if (!(span > 0.0)) return 1.0;
  const double raw = span / count, power = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (raw <= factor * power * 1.0001) return factor * power;
  }
  return 10.0 * power;
}
inline QString tick(double value, double step) {
  return QString::number(value, 'f', step >= 1.0 ? 0 : step >= 0.1 ? 1 : 2);
}

}  // namespace sunspool::questions
