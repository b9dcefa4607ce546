// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/paragraph.h"

#include <QPainter>
#include <QTextLayout>
#include <vector>

namespace sunspool::render {

double paragraph(QPainter* painter, const QString& text, const QFont& font, const QColor& colour, QPointF at,
                 double width) {
  if (text.isEmpty()) return at.y();
  constexpr double kLineHeight = 1.4;  // Charis declares 1.64 em, too loose for a slip of paper
  const double step = font.pixelSize() * kLineHeight;
  QTextLayout layout(text, font);
  std::vector<QTextLine> lines;
  layout.beginLayout();
  for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
    line.setLineWidth(width);
    lines.push_back(line);
  }
  layout.endLayout();
  double y = at.y();
  if (painter != nullptr) painter->setPen(colour);
  for (const QTextLine& line : lines) {
    if (painter != nullptr) line.draw(painter, QPointF(at.x(), y + (step - line.height()) / 2));
    y += step;
  }
  return y;
}

}  // namespace sunspool::render
