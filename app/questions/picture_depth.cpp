// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/questions/brush.h"
#include "app/questions/parts.h"

namespace sunspool::questions {
namespace {

class DepthPicture : public Picture {
 public:
  explicit DepthPicture(DepthModel model) : m_model(std::move(model)) {
    for (const DepthLayer& layer : m_model.layers) m_needed_m += layer.thickness_m;
  }
  Place place() const override { return Place::Beside; }
  double heightFor(double, const render::Tokens& tokens) const override { return tokens.px(330); }
  QString spoken() const override {
    QStringList layers;
    for (const DepthLayer& layer : m_model.layers) layers << QStringLiteral("%1 %2").arg(layer.name, layer.value);
    return tr("Cut through the box from the back: %1; %2 of the %3.")
        .arg(layers.join(QStringLiteral(", ")), m_model.spareWords, m_model.availableWords);
  }

  void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const override {
    const QFont head = said(tokens, 14, QFont::Normal, true);
    write(painter, {rect.left(), rect.top() + tokens.px(14)}, tr("cut through the box, to scale"), head, tokens.ink2);
    const double most = std::max(m_model.available_m, m_needed_m);
    const double bottom = rect.bottom() - tokens.px(26), top = rect.top() + tokens.px(44);
    const double perMetre = (bottom - top) / most;
    const double frame = rect.left() + tokens.px(26), inside = frame + tokens.px(26);
    const double layersRight = inside + std::max(tokens.px(60), rect.width() * 0.34);
    paintFrame(painter, tokens,
               {frame, bottom - m_model.available_m * perMetre, tokens.px(26), m_model.available_m * perMetre});
    double y = bottom, labelY = bottom + tokens.px(14);
    for (const DepthLayer& layer : m_model.layers) {
      const double height = layer.thickness_m * perMetre;
      const QRectF box(inside, y - height, layersRight - inside, height);
      paintLayer(painter, tokens, box, layer.part);
      labelY = std::min(labelY - tokens.px(19), box.center().y() + tokens.px(5));
      paintLabel(painter, tokens, box, {layersRight + tokens.px(22), labelY}, rect.right(), layer);
      y -= height;
    }
    paintSpare(painter, tokens, {inside, layersRight}, y, bottom - m_model.available_m * perMetre, rect.right(),
               labelY);
    write(painter, {frame, bottom + tokens.px(20)}, m_model.availableWords, measured(tokens, 13), tokens.ink2);
  }

 private:
  void paintFrame(QPainter& painter, const render::Tokens& tokens, const QRectF& timber) const {
    painter.setPen(QPen(tokens.ink, 1.4));
    painter.setBrush(tokens.timber);
    painter.drawRect(timber);
    painter.setPen(QPen(tokens.grain, 1.0));
    for (int i = 1; i < 4; ++i) {
      const double x = timber.left() + i * timber.width() / 4;
      painter.drawLine(QPointF(x, timber.top() + 3), QPointF(x, timber.bottom() - 3));
    }
  }
  void paintLayer(QPainter& painter, const render::Tokens& tokens, const QRectF& box, const std::string& part) const {
    painter.save();
    painter.setPen(QPen(tokens.ink, 1.2));
    painter.setBrush(Qt::NoBrush);
    if (part == "tube" || part == "crossing") {
      const double r = box.height() / 2.0, step = std::max(2.6 * r, 6.0);
      painter.setBrush(tokens.slip);
      const double first = box.left() + r + 3.0;
      if (part == "crossing") {
        painter.drawRect(box);  // one tube over the others, seen along its length
        painter.setPen(QPen(tokens.mark, 1.0, Qt::DashLine));
        painter.drawLine(QPointF(box.left(), box.center().y()), QPointF(box.right(), box.center().y()));
      } else {
        for (double x = first; x + r <= box.right(); x += step) painter.drawEllipse(QPointF(x, box.center().y()), r, r);
      }
    } else if (part == "plate") {
      painter.fillRect(QRectF(box.left(), box.center().y() - std::max(1.5, box.height() / 2), box.width(),
                              std::max(3.0, box.height())),
                       tokens.ink);
    } else if (part == "backing") {
      painter.setBrush(tokens.timber);
      painter.drawRect(box);
    } else {
      painter.drawRect(box);
      if (part == "insulation") {
        painter.setBrush(
            render::hatchBrush(tokens, render::Hatch::Shade, tokens.slip, painter.device()->devicePixelRatioF()));
        painter.drawRect(box);
      }
    }
    painter.restore();
  }
  void paintLabel(QPainter& painter, const render::Tokens& tokens, const QRectF& box, QPointF at, double right,
                  const DepthLayer& layer) const {
    line(painter, {box.right(), box.center().y()}, {at.x() - tokens.px(5), at.y() - tokens.px(5)}, tokens.mark, 1.0);
    const QFont bold = measured(tokens, 13.5, QFont::Bold), small = measured(tokens, 13.5);
    const double room = right - at.x() - render::textWidth(small, layer.value) - tokens.px(8);
    const QString name = elided(bold, layer.name, room);
    write(painter, at, name, bold, tokens.ink);
    write(painter, {at.x() + render::textWidth(bold, name) + tokens.px(7), at.y()}, layer.value, small, tokens.ink);
  }
  /// What stays free as a dimension; what stands out hatched.
  void paintSpare(QPainter& painter, const render::Tokens& tokens, std::pair<double, double> sides, double filled,
                  double edge, double right, double lastLabel) const {
    const QFont bold = measured(tokens, 15, QFont::Bold);
    const double x = (sides.first + sides.second) / 2;
    line(painter, {sides.first - tokens.px(30), edge}, {sides.second + tokens.px(12), edge}, tokens.ink, 1.4,
         Qt::DashLine);
    if (m_model.spare_m < 0.0) {
      painter.setPen(QPen(tokens.ink, 1.2));
      painter.setBrush(
          render::hatchBrush(tokens, render::Hatch::OverLimit, QColor(), painter.device()->devicePixelRatioF()));
      painter.drawRect(QRectF(QPointF(sides.first, filled), QPointF(sides.second, edge)));
    } else if (edge < filled - 2.0) {
      line(painter, {x, filled}, {x, edge}, tokens.mark, 1.0);
      for (const double y : {filled, edge}) {
        line(painter, {x - tokens.px(4), y + tokens.px(4)}, {x + tokens.px(4), y - tokens.px(4)}, tokens.ink, 1.6);
      }
    }
    const double y = std::min((filled + edge) / 2 + tokens.px(5), lastLabel - tokens.px(22));
    write(painter, {sides.second + tokens.px(22), y}, elided(bold, m_model.spareWords, right - sides.second), bold,
          tokens.ink);
  }

  DepthModel m_model;
  double m_needed_m = 0.0;
};

}  // namespace

PicturePtr depthPicture(DepthModel model) { return std::make_shared<DepthPicture>(std::move(model)); }

}  // namespace sunspool::questions
