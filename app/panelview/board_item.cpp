// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/board_item.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/panelview/scene_units.h"
#include "app/render/marks.h"

namespace sunspool::panelview {

namespace {

constexpr double kShadowRoom = 400.0;  ///< scene units; the shadow is a few dozen px at any zoom

enum class Grain { Lying, Standing };

/// One board: fill, ink outline and a few slow lines of grain, the same on every paint.
void paintBoard(QPainter& painter, const render::Tokens& tokens, const QRectF& r, Grain grain) {
  painter.setPen(QPen(tokens.ink, tokens.line(1.2), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  painter.setBrush(tokens.timber);
  painter.drawRect(r);
  if (tokens.isHighContrast()) return;
  const double across = grain == Grain::Lying ? r.height() : r.width();
  const int parts = std::clamp(static_cast<int>(across / 6.0), 4, 9);
  painter.setPen(QPen(tokens.grain, tokens.line(0.8)));
  painter.setBrush(Qt::NoBrush);
  for (int i = 1; i < parts; ++i) {
    const double share = static_cast<double>(i) / parts + 0.05 * std::sin(i * 7.0);
    QPainterPath line;
    if (grain == Grain::Lying) {
      const double y = r.top() + r.height() * share;
      line.moveTo(r.left() + 2.0, y);
      line.cubicTo(r.left() + r.width() * 0.3, y - 2.0, r.left() + r.width() * 0.55, y + 2.5, r.right() - 2.0, y);
    } else {
      const double x = r.left() + r.width() * share;
      line.moveTo(x, r.top() + 2.0);
      line.cubicTo(x - 2.0, r.top() + r.height() * 0.3, x + 2.5, r.top() + r.height() * 0.6, x, r.bottom() - 2.0);
    }
    painter.drawPath(line);
  }
}

QPolygonF polygonOf(const geometry::Outline& outline, const QTransform& toPx) {
  QPolygonF polygon;
  for (const geometry::Point& corner : outline.corners) polygon << toPx.map(toScene(corner));
  return polygon;
}

/// Paints in px: the lines of the look do not grow with the zoom.
class InPixels {
 public:
  explicit InPixels(QPainter& painter) : m_painter(painter), m_toPx(painter.worldTransform()) {
    m_painter.save();
    m_painter.resetTransform();
    m_painter.setRenderHint(QPainter::Antialiasing);
  }
  ~InPixels() { m_painter.restore(); }
  InPixels(const InPixels&) = delete;
  InPixels& operator=(const InPixels&) = delete;
  const QTransform& toPx() const { return m_toPx; }

 private:
  QPainter& m_painter;
  QTransform m_toPx;
};

}  // namespace

void BoardItem::show(std::shared_ptr<const model::Document> document) {
  if (m_document && document && m_document->frame == document->frame && m_document->box == document->box &&
      m_document->keepOuts == document->keepOuts && m_document->laying.margin == document->laying.margin) {
    m_document = std::move(document);
    return;
  }
  prepareGeometryChange();
  m_document = std::move(document);
  update();
}

void BoardItem::setMarginShown(bool shown) {
  if (shown == m_marginShown) return;
  m_marginShown = shown;
  update();
}

QRectF BoardItem::insideRect() const {
  if (!m_document) return {};
  const model::Frame& frame = m_document->frame;
  return toScene(geometry::Box{{0.0, 0.0}, {frame.insideWidth.si(), frame.insideHeight.si()}});
}

QRectF BoardItem::outerRect() const {
  if (!m_document) return {};
  const double timber = m_document->frame.timberWidth.si() * kSceneUnitsPerMetre;
  return insideRect().adjusted(-timber, -timber, timber, timber);
}

QRectF BoardItem::boundingRect() const {
  return outerRect().adjusted(-kShadowRoom, -kShadowRoom, kShadowRoom, kShadowRoom);
}

void BoardItem::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*) {
  if (!m_document) return;
  const InPixels px(*painter);
  const QRectF outer = px.toPx().mapRect(outerRect());
  const QRectF inside = px.toPx().mapRect(insideRect());
  render::drawShadow(*painter, m_look.tokens(), outer);
  paintPlate(*painter, inside);
  paintKeepOuts(*painter, px.toPx());
  paintTimber(*painter, px.toPx());
  if (!m_marginShown) return;
  const double margin = m_document->laying.margin.si() * kSceneUnitsPerMetre;
  QPen dashed(m_look.tokens().onPlate, m_look.tokens().line(1.4));
  dashed.setDashPattern({7.0 / 1.4, 5.0 / 1.4});
  painter->setPen(dashed);
  painter->setBrush(Qt::NoBrush);
  painter->drawRect(px.toPx().mapRect(insideRect().adjusted(margin, margin, -margin, -margin)));
}

void BoardItem::paintPlate(QPainter& painter, const QRectF& px) const {
  const render::Tokens& tokens = m_look.tokens();
  if (m_document->box.plate) {
    painter.fillRect(px, tokens.plate);
  } else if (m_document->box.backing) {
    // Bare ply behind the tube.
    painter.fillRect(px, tokens.timber);
    painter.setPen(QPen(tokens.grain, tokens.line(0.8)));
    if (!tokens.isHighContrast())
      for (double y = px.top() + 9.0; y < px.bottom(); y += 11.0)
        painter.drawLine(QPointF(px.left(), y), QPointF(px.right(), y + 2.0 * std::sin(y)));
  } else {
    painter.fillRect(px, tokens.desk);
  }
}

void BoardItem::paintKeepOuts(QPainter& painter, const QTransform& toPx) const {
  const render::Tokens& tokens = m_look.tokens();
  for (const model::KeepOut& keepOut : m_document->keepOuts) {
    const QPolygonF polygon = polygonOf(keepOut.outline, toPx);
    render::Tokens onPlate = tokens;
    onPlate.ink = tokens.onPlate;
    painter.setPen(QPen(tokens.onPlate, tokens.line(1.4), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(
        render::hatchBrush(onPlate, render::Hatch::OverLimit, tokens.plate, painter.device()->devicePixelRatioF()));
    painter.drawPolygon(polygon);
    const QFont name = render::font(tokens, render::Voice::Said, 14.0, QFont::Normal, true);
    const QString text = QString::fromStdString(keepOut.name);
    const QRectF box = polygon.boundingRect();
    const double width = render::textWidth(name, text);
    if (width + 8.0 < box.width() && box.height() > tokens.px(20.0))
      render::drawHaloText(painter, {box.center().x() - width / 2.0, box.center().y() + tokens.px(5.0)}, text, name,
                           tokens.onPlate, tokens.plate, 6.0);
  }
}

void BoardItem::paintTimber(QPainter& painter, const QTransform& toPx) const {
  const render::Tokens& tokens = m_look.tokens();
  const QRectF o = toPx.mapRect(outerRect()), i = toPx.mapRect(insideRect());
  const bool rails = m_document->frame.railsThrough;
  const double left = rails ? o.left() : i.left(), right = rails ? o.right() : i.right();
  const double top = rails ? i.top() : o.top(), bottom = rails ? i.bottom() : o.bottom();
  paintBoard(painter, tokens, {left, o.top(), right - left, i.top() - o.top()}, Grain::Lying);
  paintBoard(painter, tokens, {left, i.bottom(), right - left, o.bottom() - i.bottom()}, Grain::Lying);
  paintBoard(painter, tokens, {o.left(), top, i.left() - o.left(), bottom - top}, Grain::Standing);
  paintBoard(painter, tokens, {i.right(), top, o.right() - i.right(), bottom - top}, Grain::Standing);
  if (tokens.isDark()) {
    painter.setPen(QPen(tokens.mark, 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(o);
  }
  const double timber = i.left() - o.left();
  if (timber < 8.0) return;
  // Two screws where each board end butts against the one that runs through.
  painter.setPen(Qt::NoPen);
  painter.setBrush(tokens.ink);
  const double radius = std::clamp(timber * 0.09, 1.3, 4.0);
  for (const double nearX : {0.29, 0.74}) {
    const double near = timber * nearX, half = timber / 2.0;
    const double x = rails ? half : near, y = rails ? near : half;
    for (const QPointF& at : {QPointF(o.left() + x, o.top() + y), QPointF(o.right() - x, o.top() + y),
                              QPointF(o.left() + x, o.bottom() - y), QPointF(o.right() - x, o.bottom() - y)})
      painter.drawEllipse(at, radius, radius);
  }
}

void GlazingItem::show(std::shared_ptr<const model::Document> document, const layout::LaidPanel* panel) {
  prepareGeometryChange();
  m_glazed = document && document->box.glazing.has_value();
  m_box = {};
  if (!document) return;
  geometry::Box core{{0.0, 0.0}, {document->frame.insideWidth.si(), document->frame.insideHeight.si()}};
  if (panel != nullptr && panel->coreUpper.x > panel->coreLower.x && panel->coreUpper.y > panel->coreLower.y)
    core = {panel->coreLower, panel->coreUpper};
  m_box = toScene(core);
  update();
}

void GlazingItem::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*) {
  const render::Tokens& tokens = m_look.tokens();
  if (!m_glazed || tokens.isHighContrast()) return;
  const InPixels px(*painter);
  const QRectF core = px.toPx().mapRect(m_box);
  if (core.width() < 120.0 || core.height() < 50.0) return;
  QColor hair = tokens.onPlate;
  hair.setAlphaF(0.55F);
  painter->setPen(QPen(hair, tokens.line(1.0), Qt::SolidLine, Qt::RoundCap));
  const double u = std::min(1.0, core.height() / 130.0);
  const QPointF foot(core.right() - 128.0 * u, core.center().y() + 42.0 * u);
  for (const auto& [shift, length] : {std::pair{0.0, 50.0}, {19.0, 77.0}, {38.0, 38.0}}) {
    const QPointF from = foot + QPointF(shift, shift * 0.2) * u;
    painter->drawLine(from, from + QPointF(length, -length) * u);
  }
}

}  // namespace sunspool::panelview
