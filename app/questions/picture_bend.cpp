// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/questions/brush.h"
#include "app/questions/parts.h"

namespace sunspool::questions {
namespace {

class BendPicture : public Picture {
 public:
  explicit BendPicture(BendModel model) : m_model(std::move(model)) {
    std::sort(m_model.marks.begin(), m_model.marks.end(),
              [](const BendMark& a, const BendMark& b) { return a.radius < b.radius; });
    for (const BendMark& mark : m_model.marks) m_most = std::max(m_most, 1.12 * mark.radius);
  }
  double heightFor(double, const render::Tokens& tokens) const override { return tokens.px(158); }
  QString spoken() const override {
    QStringList marks;
    for (const BendMark& mark : m_model.marks) {
      marks << tr("%1 %2, %3 % oval").arg(mark.name, mark.value, plain(100.0 * mark.ovality, 0));
    }
    return tr("Radii on one scale: %1.").arg(marks.join(QStringLiteral("; ")));
  }

  void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const override {
    const QRectF plot = rect.adjusted(tokens.px(6), 0, -tokens.px(44), 0);
    const auto x = [&](double radius) { return plot.left() + radius / m_most * plot.width(); };
    const double base = rect.top() + tokens.px(92);
    const QRectF kinked(plot.left(), base - tokens.px(14), x(m_model.kinks) - plot.left(), tokens.px(14));
    painter.setPen(Qt::NoPen);
    painter.setBrush(
        render::hatchBrush(tokens, render::Hatch::OverLimit, tokens.slip, painter.device()->devicePixelRatioF()));
    painter.drawRect(kinked);
    line(painter, {plot.left(), base}, {plot.right(), base}, tokens.ink, 1.4);
    const double step = niceStep(m_most, 6.0);
    const QFont small = measured(tokens, 12.5);
    for (double radius = 0.0; radius <= m_most; radius += step) {
      line(painter, {x(radius), base}, {x(radius), base + tokens.px(5)}, tokens.ink, 1.0);
      write(painter, {x(radius), base + tokens.px(19)}, tick(radius, step), small, tokens.ink2, Side::Middle);
    }
    write(painter, {rect.right(), base + tokens.px(19)}, m_model.unit, small, tokens.ink2, Side::Right);
    paintMarks(painter, tokens, plot, base, x);
  }

 private:
  /// A section drawn as oval as the model has it, its area kept: height and width move by half the ovality each.
  void paintSection(QPainter& painter, const render::Tokens& tokens, QPointF centre, const BendMark& mark) const {
    const double r = tokens.px(15);
    painter.setPen(QPen(mark.ofTheDesign ? tokens.violet : tokens.ink, tokens.px(mark.ofTheDesign ? 3.4 : 2.2)));
    painter.setBrush(tokens.slip);
    painter.drawEllipse(centre, r * (1.0 + mark.ovality / 2.0), r * (1.0 - mark.ovality / 2.0));
  }
  template <class Scale>
  void paintMarks(QPainter& painter, const render::Tokens& tokens, const QRectF& plot, double base,
                  const Scale& x) const {
    const QFont bold = measured(tokens, 13.5, QFont::Bold), plainFont = measured(tokens, 13);
    double freeFrom = plot.left() - tokens.px(6), shapesFree = freeFrom;
    int row = 0;
    for (const BendMark& mark : m_model.marks) {
      const QColor colour = mark.ofTheDesign ? tokens.violet : tokens.ink;
      const double at = x(mark.radius);
      const QPointF centre(std::max(at, shapesFree + tokens.px(22)), base - tokens.px(46));
      shapesFree = centre.x() + tokens.px(20);
      line(painter, {centre.x(), centre.y() + tokens.px(17)}, {at, base - tokens.px(10)}, colour, 1.0);
      line(painter, {at, base - tokens.px(10)}, {at, base + tokens.px(2)}, colour, mark.ofTheDesign ? 3.0 : 2.2);
      paintSection(painter, tokens, centre, mark);
      write(painter, {centre.x(), base - tokens.px(70)}, tr("%1 %").arg(plain(100.0 * mark.ovality, 0)), plainFont,
            colour, Side::Middle);
      const double width = std::max(render::textWidth(bold, mark.name), render::textWidth(plainFont, mark.value));
      double left = std::clamp(at - width / 2, plot.left(), plot.right() + tokens.px(40) - width);
      row = left < freeFrom ? row + 1 : 0;
      freeFrom = left + width + tokens.px(14);
      const double y = base + tokens.px(38) + tokens.px(0) * row;
      if (row > 0) left = freeFrom - width;  // pushed to the right of its neighbour
      write(painter, {left, y}, mark.name, bold, colour);
      write(painter, {left, y + tokens.px(17)}, mark.value, plainFont, colour);
      freeFrom = left + width + tokens.px(14);
    }
  }

  BendModel m_model;
  double m_most = 0.0;
};

}  // namespace

PicturePtr bendPicture(BendModel model) { return std::make_shared<BendPicture>(std::move(model)); }

}  // namespace sunspool::questions
