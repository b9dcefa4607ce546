// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/sureness_choice.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <algorithm>
#include <array>

#include "app/questions/brush.h"

namespace sunspool::questions {
namespace {

constexpr std::array kAll{Sureness::Guess, Sureness::Label, Sureness::Measured};
constexpr double kSegment_px = 84.0, kHeight_px = 38.0;

}  // namespace

QString surenessWord(Sureness sureness) {
  switch (sureness) {
    case Sureness::Guess:
      return SurenessChoice::tr("guess");
    case Sureness::Label:
      return SurenessChoice::tr("label");
    case Sureness::Measured:
      return SurenessChoice::tr("measured");
  }
  return {};
}

SurenessWord::SurenessWord(const QString& input, render::Look& look, QWidget* parent)
    : QAbstractButton(parent), m_look(look), m_input(input) {
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
  setCheckable(true);
}

void SurenessWord::show(Sureness sureness, bool opened) {
  m_sureness = sureness;
  m_opened = opened;
  setChecked(opened);
  setText(surenessWord(sureness));
  setAccessibleName(tr("%1: %2").arg(m_input, surenessWord(sureness)));
  setAccessibleDescription(tr("Opens how sure it is"));
  setToolTip(tr("%1: %2. Change how sure it is.").arg(m_input, surenessWord(sureness)));
  update();
}

void SurenessWord::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QFont font = measured(tokens, 13.5);
  const QString shown = elided(font, text(), width() - 4.0);
  const double base = height() / 2.0 + QFontMetricsF(font).capHeight() / 2.0 - 1.0;
  const bool hot = underMouse() || m_opened;
  write(painter, {2.0, base}, shown, font, hot ? tokens.ink : tokens.ink2);
  line(painter, {2.0, base + 4.0}, {2.0 + render::textWidth(font, shown), base + 4.0},
       m_opened ? tokens.violet
       : hot    ? tokens.ink
                : tokens.hair,
       m_opened ? 2.0 : 1.0);
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(4, 6, -4, -6));
}

SurenessChoice::SurenessChoice(const QString& input, render::Look& look, QWidget* parent)
    : QWidget(parent), m_look(look), m_input(input) {
  setObjectName(QStringLiteral("surenessChoice"));
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
}

void SurenessChoice::show(Sureness sureness) {
  m_sureness = sureness;
  setAccessibleName(tr("How sure is the %1: %2").arg(m_input, surenessWord(sureness)));
  setAccessibleDescription(tr("Guess, label or measured; left and right choose"));
  update();
}

QSize SurenessChoice::sizeHint() const {
  const render::Tokens& tokens = m_look.tokens();
  return {static_cast<int>(tokens.px(kSegment_px * kAll.size())), static_cast<int>(tokens.px(kHeight_px))};
}

QRectF SurenessChoice::segment(Sureness sureness) const {
  const double each = width() / static_cast<double>(kAll.size());
  return {each * static_cast<double>(static_cast<int>(sureness)), 0.0, each, static_cast<double>(height())};
}

void SurenessChoice::choose(Sureness sureness) {
  if (sureness != m_sureness) Q_EMIT chosen(sureness);
}

void SurenessChoice::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  for (const Sureness one : kAll) {
    const QRectF box = segment(one).adjusted(3, 3, -3, -3);
    const bool current = one == m_sureness;
    if (current) {
      painter.setPen(QPen(tokens.violet, 2.0));
      painter.setBrush(tokens.wash);
      painter.drawRect(box);
    }
    const QFont font = measured(tokens, 13.5, current ? QFont::Bold : QFont::Normal);
    const QString word = surenessWord(one);
    write(painter, {box.center().x(), box.center().y() + tokens.px(1)}, word, font, tokens.ink, Side::Middle);
    const double wide = std::max(tokens.px(36), render::textWidth(font, word));
    render::drawSureness(painter, tokens, {box.center().x() - wide / 2, box.bottom() - tokens.px(8)}, wide, one,
                         tokens.ink);
    if (current && hasFocus()) render::drawFocusRing(painter, tokens, box.adjusted(3, 3, -3, -3));
  }
}

void SurenessChoice::mousePressEvent(QMouseEvent* event) {
  for (const Sureness one : kAll) {
    if (segment(one).contains(event->position())) choose(one);
  }
}

void SurenessChoice::keyPressEvent(QKeyEvent* event) {
  const int at = static_cast<int>(m_sureness);
  switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Up:
      if (at > 0) choose(kAll[static_cast<std::size_t>(at - 1)]);
      return;
    case Qt::Key_Right:
    case Qt::Key_Down:
      if (at + 1 < static_cast<int>(kAll.size())) choose(kAll[static_cast<std::size_t>(at + 1)]);
      return;
    case Qt::Key_Escape:
      Q_EMIT closed();
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

void SurenessChoice::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
}
void SurenessChoice::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
}

}  // namespace sunspool::questions
