// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/widgets/number_target.h"

#include <QKeyEvent>
#include <QPainter>

#include "app/render/marks.h"

namespace sunspool::widgets {

NumberTarget::NumberTarget(render::Look& look, QWidget* parent) : QAbstractButton(parent), m_look(look) {
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
}

void NumberTarget::say(const QString& number) {
  if (number == accessibleName()) return;
  setAccessibleName(number);
  setAccessibleDescription(tr("Opens its formula, sources and inputs"));
  setToolTip(tr("%1. Open it.").arg(number));
}

void NumberTarget::paintEvent(QPaintEvent*) {
  if (!underMouse() && !hasFocus()) return;
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  if (hasFocus()) {
    render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(4, 4, -4, -4));
    return;
  }
  painter.setPen(QPen(tokens.violet, tokens.line(1.5)));
  painter.drawLine(QPointF(2.0, height() - 1.5), QPointF(width() - 2.0, height() - 1.5));
}

void NumberTarget::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
    click();
    return;
  }
  QAbstractButton::keyPressEvent(event);
}

}  // namespace sunspool::widgets
