// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/handle_mark.h"

#include <QPainter>
#include <QTransform>
#include <cmath>

#include "app/panelview/scene_units.h"
#include "app/render/marks.h"

namespace sunspool::panelview {

HandleMark::HandleMark(std::unique_ptr<gestures::Gesture> gesture, QObject* parent)
    : QObject(parent), m_gesture(std::move(gesture)) {
  setObjectName(m_gesture->key());
}

void HandleMark::place(const gestures::Design& design, const QTransform& toPx, const format::Preferences& preferences,
                       double scale) {
  m_scale = scale;
  const auto handle = design.document ? m_gesture->handle(design) : std::nullopt;
  if (!handle) {
    m_centre.reset();
    return;
  }
  m_centre = toPx.map(toScene(handle->at));
  m_along = directionToScene(handle->along);
  m_spokenValue = m_gesture->text(m_gesture->value(design), preferences).joined();
}

QRectF HandleMark::box() const {
  const double size = kHandleSize_px * m_scale;
  return {centre().x() - size / 2.0, centre().y() - size / 2.0, size, size};
}

bool HandleMark::catches(QPointF p) const {
  if (!m_centre) return false;
  const QPointF away = p - *m_centre;
  return std::hypot(away.x(), away.y()) <= m_scale * kHandleCatch_px / 2.0;
}

void HandleMark::draw(QPainter& painter, const render::Tokens& tokens, Standing standing) const {
  if (!m_centre) return;
  if (standing == Standing::Ringed) render::drawFocusRing(painter, tokens, box(), render::Ground::Plate);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(*m_centre);
  painter.scale(m_scale, m_scale);
  painter.setPen(QPen(tokens.violet, 3.5));
  painter.setBrush(tokens.isDark() ? tokens.slip : tokens.paper);
  constexpr double kRadius = kHandleSize_px / 2.0 - 1.75;
  painter.drawEllipse(QPointF(), kRadius, kRadius);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tokens.violet, 2.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const QPointF u = m_along, n(-u.y(), u.x());
  for (const double side : {-1.0, 1.0}) {
    const QPointF foot = u * (3.0 * side), tip = u * (8.0 * side);
    painter.drawPolyline(QPolygonF({foot + n * 5.0, tip, foot - n * 5.0}));
  }
  painter.restore();
}

}  // namespace sunspool::panelview
