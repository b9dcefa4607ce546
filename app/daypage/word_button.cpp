// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/word_button.h"

#include <QPainter>
#include <cmath>

#include "app/render/marks.h"

namespace sunspool::daypage {
namespace {

constexpr double kText = 14.0, kPad = 5.0, kHeight = 30.0;

}  // namespace

WordButton::WordButton(const QString& word, const QString& objectName, render::Look& look, QWidget* parent)
    : QAbstractButton(parent), m_look(look) {
  setText(word);
  setObjectName(objectName);
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
}

QFont WordButton::wordFont(QFont::Weight weight) const {
  return render::font(m_look.tokens(), render::Voice::Measured, kText, weight);
}

QSize WordButton::sizeHint() const {
  const auto& tokens = m_look.tokens();
  const double bold = render::textWidth(wordFont(QFont::Bold), text());
  return {static_cast<int>(std::ceil(bold + 2.0 * tokens.px(kPad))), static_cast<int>(tokens.px(kHeight))};
}

void WordButton::paintEvent(QPaintEvent*) {
  const auto& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const bool chosen = isCheckable() && isChecked();
  const QFont font = wordFont(chosen ? QFont::Bold : QFont::Normal);
  const double wide = render::textWidth(font, text());
  const double left = 0.5 * (width() - wide), baseline = 0.5 * height() + tokens.px(4.0);
  painter.setFont(font);
  painter.setPen(chosen || !isCheckable() || underMouse() ? tokens.ink : tokens.ink2);
  painter.drawText(QPointF(left, baseline), text());
  const double line = baseline + tokens.px(5.0);
  painter.setPen(QPen(chosen ? tokens.ink : tokens.mark, tokens.line(chosen ? 2.5 : 1.0), Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(QPointF(left, line), QPointF(left + wide, line));
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(4, 4, -4, -4));
}

}  // namespace sunspool::daypage
