// SPDX-License-Identifier: GPL-3.0-or-later

// What lies over the scene in px: bead, handles, the wish of the hand, slip and hint.

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/panelview/board_item.h"
#include "app/panelview/handle_mark.h"
#include "app/panelview/panel_view.h"
#include "app/panelview/scene_units.h"
#include "app/render/marks.h"

namespace sunspool::panelview {

namespace {
constexpr double kFlagText = 15.0;

/// Broken at spaces where a line would be wider than this.
QStringList brokenLines(const QString& text, const QFont& font, double most) {
  QStringList lines;
  for (const QString& given : text.split(QLatin1Char('\n'))) {
    QString line;
    for (const QString& word : given.split(QLatin1Char(' '))) {
      const QString longer = line.isEmpty() ? word : line + QLatin1Char(' ') + word;
      if (!line.isEmpty() && render::textWidth(font, longer) > most) {
        lines << line;
        line = word;
      } else {
        line = longer;
      }
    }
    lines << line;
  }
  return lines;
}
constexpr double kClickText = 14.0;
}  // namespace

void PanelView::drawForeground(QPainter* painter, const QRectF&) {
  arrangeOverlay();
  painter->save();
  painter->resetTransform();
  m_overlay.draw(*painter, m_hand == Hand::Gesture ? Overlay::Refusal::Hidden : Overlay::Refusal::Shown);
  drawGhostName(*painter);
  drawHover(*painter);
  drawBead(*painter);
  drawWish(*painter);
  drawHandles(*painter);
  drawHint(*painter);
  drawClick(*painter);
  if (m_slip) {
    const QSizeF size = m_slip->size(m_look.tokens());
    const QRectF view = QRectF(viewport()->rect()).adjusted(8.0, 8.0, -8.0, -64.0);
    const QPointF hand = m_series ? m_series->mark->centre() : m_handAt;
    QPointF at = hand + QPointF(46.0, -62.0);
    if (at.x() + size.width() > view.right()) at.setX(hand.x() - 46.0 - size.width());
    at.setX(std::max(view.left(), at.x()));
    at.setY(std::clamp(at.y(), view.top(), std::max(view.top(), view.bottom() - size.height())));
    m_slip->draw(*painter, m_look.tokens(), m_look.preferences(), at);
  }
  painter->restore();
}

QString PanelView::beadText() const {
  if (!m_typed.empty() && m_stop.kind == Stop::Kind::Bead) return m_typed.text() + QLatin1Char('|');
  const QString metre =
      format::number(metres(m_hub.station_m()), format::LengthScale::Run, m_look.preferences()).joined();
  const layout::LaidPanel* panel = laid();
  const layout::LaidRun* laidRun = run(m_hub.run());
  if (panel == nullptr || laidRun == nullptr || panel->runs.size() < 2) return metre;
  return QStringLiteral("%1 %2").arg(QLatin1Char(laidRun->letter)).arg(metre);
}

QRectF PanelView::flagRect() const {
  const QSizeF size = render::flagSize(m_look.tokens(), beadText(), kFlagText);
  const QPointF bead = beadCentre();
  QRectF rect(bead.x() + 20.0, bead.y() - 51.0 - (size.height() - 25.0), size.width(), size.height());
  const QRectF view = viewport()->rect();
  if (rect.right() > view.right() - 4.0) rect.moveRight(bead.x() - 20.0);
  if (rect.top() < view.top() + 4.0) rect.moveTop(bead.y() + 26.0);
  return rect;
}

void PanelView::drawBead(QPainter& painter) const {
  const layout::LaidRun* laidRun = run(m_hub.run());
  if (laidRun == nullptr || m_hub.station_m() > laidRun->path.length().si()) return;
  const render::Tokens& tokens = m_look.tokens();
  const QPointF at = beadCentre();
  const double tube_px = m_store.document().tube.outsideDiameter.value.si() * pixelsPerMetre();
  const double radius = std::max(11.0, 0.95 * tube_px);
  render::drawBeadRing(painter, tokens, at, radius);
  const QRectF flag = flagRect();
  const QPointF corner(flag.left() > at.x() ? flag.left() + 8.0 : flag.right() - 8.0,
                       flag.top() > at.y() ? flag.top() + 2.0 : flag.bottom() - 2.0);
  const QPointF way = corner - at;
  const double length = std::hypot(way.x(), way.y());
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(tokens.violet, tokens.line(2.0)));
  if (length > radius) painter.drawLine(at + way * ((radius + 1.0) / length), corner);
  painter.restore();
  render::drawFlag(painter, tokens, flag, beadText(), kFlagText);
  const bool focused = hasFocus() && m_stop.kind == Stop::Kind::Bead && !m_editor;
  if (focused) render::drawFocusRing(painter, tokens, flag, render::Ground::Plate);
  if (!m_typedAnswer.isEmpty() && m_stop.kind == Stop::Kind::Bead) {
    PriceSlip answer;
    answer.title = m_typedAnswer;
    answer.draw(painter, tokens, m_look.preferences(), flag.bottomLeft() + QPointF(0.0, 12.0));
  }
}

void PanelView::drawHover(QPainter& painter) const {
  if (!m_hoverPlace || m_hand != Hand::Free || !m_pointerInside) return;
  const render::Tokens& tokens = m_look.tokens();
  const QPointF at = widgetPointAt(m_hoverPlace->run, m_hoverPlace->station_m);
  if (std::hypot(at.x() - beadCentre().x(), at.y() - beadCentre().y()) < 24.0) return;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tokens.onPlate, 3.6));
  painter.drawEllipse(at, 8.0, 8.0);
  painter.setPen(QPen(tokens.violet, 2.0));
  painter.drawEllipse(at, 8.0, 8.0);
  painter.restore();
  const QString text =
      format::number(metres(m_hoverPlace->station_m), format::LengthScale::Run, m_look.preferences()).joined();
  const QSizeF size = render::chipSize(tokens, text);
  QRectF chip(at.x() + 14.0, at.y() - 14.0 - size.height(), size.width(), size.height());
  if (chip.right() > viewport()->width() - 4.0) chip.moveRight(at.x() - 14.0);
  if (chip.top() < 4.0) chip.moveTop(at.y() + 14.0);
  render::drawChip(painter, tokens, chip, text);
}

void PanelView::drawHandles(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const HandleMark* focused = m_editor ? nullptr : focusedHandle();
  for (const HandleMark* mark : m_handles) {
    using Standing = HandleMark::Standing;
    if (mark == m_held) {
      mark->draw(painter, tokens, Standing::Shown);
    } else if (m_held == nullptr && (mark == focused || (mark == m_hovered && mark->catches(m_handAt)))) {
      mark->draw(painter, tokens, Standing::Ringed);
    } else if (m_held == nullptr && mark == m_hovered) {
      mark->draw(painter, tokens, Standing::Shown);
    }
  }
  if (!hasFocus() || m_editor || m_stop.kind != Stop::Kind::Tag) return;
  const auto& tags = m_overlay.tags();
  if (m_stop.index < static_cast<int>(tags.size()))
    render::drawFocusRing(painter, tokens, tags[static_cast<std::size_t>(m_stop.index)].box());
}

void PanelView::drawWish(QPainter& painter) const {
  if (m_hand != Hand::Gesture || m_held == nullptr || !m_held->gesture().countsTurns()) return;
  if (!m_held->isThere()) return;
  const QPointF from = m_held->centre(), to = m_handAt;
  const double distance = std::hypot(to.x() - from.x(), to.y() - from.y());
  if (distance < 26.0) return;
  const render::Tokens& tokens = m_look.tokens();
  QPainterPath wish(from);
  wish.cubicTo(from + m_held->along() * (distance * 0.45), to - QPointF(0.0, (to.y() - from.y()) * 0.25), to);
  const double width = tokens.line(2.2);
  QPen dashed(tokens.isDark() ? tokens.violet : tokens.onPlate, width, Qt::CustomDashLine, Qt::FlatCap);
  dashed.setDashPattern({7.0 / width, 5.0 / width});
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(dashed);
  painter.drawPath(wish);
  painter.restore();
}

void PanelView::drawHint(QPainter& painter) const {
  const HandleMark* mark = m_held != nullptr ? m_held : m_editor ? nullptr : focusedHandle();
  if (mark == nullptr) return;
  const render::Tokens& tokens = m_look.tokens();
  const bool typing = !m_typed.empty() && m_held == nullptr;
  const QString text = !typing                   ? mark->gesture().hint()
                       : m_typedAnswer.isEmpty() ? tr("%1: %2|").arg(mark->gesture().name(), m_typed.text())
                                                 : m_typedAnswer;
  const QFont said =
      render::font(tokens, render::Voice::Said, viewport()->width() >= 1200 ? 16.0 : 14.0, QFont::Normal, true);
  const double width = render::textWidth(said, text) + tokens.px(32.0), height = tokens.px(32.0);
  const QRectF box((viewport()->width() - width) / 2.0, viewport()->height() - height - 12.0, width, height);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(tokens.ink, tokens.line(1.2), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  painter.setBrush(tokens.paper);
  painter.drawRect(box);
  painter.setFont(said);
  painter.drawText(QPointF(box.left() + tokens.px(16.0), box.center().y() + QFontMetricsF(said).capHeight() / 2.0),
                   text);
  painter.restore();
}

/// Beside the dimension that is pulled.
void PanelView::drawClick(QPainter& painter) const {
  const QString text = clickText();
  if (text.isEmpty()) return;
  const auto edge = static_cast<const gestures::FrameEdge&>(m_held->gesture()).edge();
  const auto& spots = m_overlay.dimensions();
  const auto spot = std::find_if(spots.begin(), spots.end(), [edge](const DimensionSpot& s) { return s.edge == edge; });
  if (spot == spots.end()) return;
  const render::Tokens& tokens = m_look.tokens();
  const QSizeF size = render::chipSize(tokens, text, kClickText);
  const QRectF view = QRectF(viewport()->rect()).adjusted(6.0, 6.0, -6.0, -6.0);
  QRectF box(QPointF(), size);
  if (edge == gestures::FrameEdge::Edge::Right) {
    box.moveCenter(spot->text.center());
    box.moveLeft(spot->text.right() + 12.0);
  } else {
    // Tags hang on the other side.
    box.moveCenter(spot->text.center());
    box.moveRight(spot->text.left() - 12.0);
  }
  box.moveLeft(std::max(view.left(), std::min(box.left(), view.right() - size.width())));
  render::drawChip(painter, tokens, box, text, kClickText);
}

void PanelView::drawGhostName(QPainter& painter) const {
  if (m_ghostName.isEmpty()) return;
  const render::Tokens& tokens = m_look.tokens();
  const QFont said = render::font(tokens, render::Voice::Said, 15.5, QFont::Normal, true);
  const QRectF inside = viewportTransform().mapRect(m_board->insideRect());
  const QStringList lines = brokenLines(m_ghostName, said, tokens.px(m_hub.ghost() ? 400.0 : 150.0));
  double width = 0.0;
  for (const QString& line : lines) width = std::max(width, render::textWidth(said, line));
  const double step = tokens.px(21.0);
  QRectF box(0.0, 0.0, width + tokens.px(24.0), step * static_cast<double>(lines.size()) + tokens.px(9.0));
  box.moveCenter(inside.center());
  // A remedy's slip lies over half of the panel: the name stands low on the plate's other end.
  if (!m_hub.ghost()) {
    const double gap = tokens.px(10.0);
    box.moveBottomLeft(inside.bottomLeft() + QPointF(gap, -gap));
    if (box.intersects(m_covered)) box.moveBottomRight(inside.bottomRight() + QPointF(-gap, -gap));
  }
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(tokens.isHighContrast() ? tokens.onPlate : tokens.straw, tokens.line(1.4), Qt::DashLine));
  painter.setBrush(tokens.plate);
  painter.drawRect(box);
  painter.setFont(said);
  painter.setPen(tokens.onPlate);
  double base = box.top() + tokens.px(20.0);
  for (const QString& line : lines) {
    painter.drawText(QPointF(box.left() + tokens.px(12.0), base), line);
    base += step;
  }
  painter.restore();
}

}  // namespace sunspool::panelview
