// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What every painter of the Tape is handed.

#include <QPainter>
#include <QString>

#include "app/format/format.h"
#include "app/render/marks.h"
#include "app/tape/content.h"
#include "app/tape/placement.h"

namespace sunspool::tape {

struct Canvas {
  QPainter& painter;
  const render::Tokens& tokens;
  const Placement& place;
  const Content& content;
  const format::Preferences& preferences;

  double px(double at100Percent) const { return tokens.px(at100Percent); }
  /// The larger size, or the smaller one below 1600 px.
  double px(double large, double small) const { return tokens.px(place.isLarge() ? large : small); }
  /// The same for what is part of the tube and the pump.
  double bodyPx(double at100Percent) const { return px(at100Percent) * place.bodyScale; }
  double bodyPx(double large, double small) const { return px(large, small) * place.bodyScale; }
  QPen pen(const QColor& colour, double width) const {
    return {colour, tokens.line(width), Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin};
  }
  void line(double x1, double y1, double x2, double y2, const QColor& colour, double width) const {
    painter.setPen(pen(colour, width));
    painter.drawLine(QPointF(x1, y1), QPointF(x2, y2));
  }
};

/// A colour laid thinly on paper, as a full colour: painting with opacity costs many times more.
QColor onPaper(const Canvas& canvas, const QColor& colour, double share);

/// Size in px at 100 % and the rest of a voice.
struct TextStyle {
  double size = 14.0;
  QFont::Weight weight = QFont::Normal;
  render::Voice voice = render::Voice::Measured;
  bool italic = false;
};
enum class Align { Left, Middle, Right };
void drawText(const Canvas& canvas, QPointF baseline, const QString& text, const QColor& colour,
              const TextStyle& style = {}, Align align = Align::Left);
QFont fontOf(const Canvas& canvas, const TextStyle& style);
/// Text on a halo of paper, so that it can lie over lines. Made of copies of the text beside itself: stroking the
/// outlines of its letters costs milliseconds a sentence.
void drawHaloText(const Canvas& canvas, QPointF baseline, const QString& text, const QColor& colour,
                  const TextStyle& style, Align align = Align::Left);
/// The text, cut with an ellipsis when it is wider.
QString elided(const QFont& font, const QString& text, double width);

}  // namespace sunspool::tape
