// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/parts.h"

#include <QActionGroup>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMenu>
#include <QPainter>
#include <algorithm>
#include <utility>

#include "app/render/marks.h"

namespace sunspool::shed {

namespace {

constexpr double kTall = 36.0, kPad = 7.0;

bool isEnter(const QKeyEvent& event) { return event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter; }

/// Inside the widget, so that nothing is clipped by its own edge.
void drawRing(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) {
  const double half = tokens.line(2.2) / 2.0;
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tokens.violet, tokens.line(2.2), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  painter.drawRect(rect.adjusted(half, half + 2.0, -half, -half - 2.0));
}

}  // namespace

NameEdit::NameEdit(render::Look& look, double size, QFont::Weight weight, QWidget* parent)
    : QLineEdit(parent), m_look(look), m_size(size), m_weight(weight) {
  applyLook();
  connect(&look, &render::Look::changed, this, [this] { applyLook(); });
}

void NameEdit::applyLook() {
  setFont(render::font(m_look.tokens(), render::Voice::Said, m_size, m_weight));
  setMinimumHeight(qRound(m_look.tokens().px(kTall)));
  updateGeometry();
}

void NameEdit::setName(const QString& name) {
  if (name == m_shown && text() == name) return;
  m_shown = name;
  if (hasFocus() && isModified()) return;
  if (text() != name) setText(name);
  setModified(false);
  setToolTip(name);
  updateGeometry();
  update();
}

void NameEdit::setCommit(std::function<bool(const QString&)> commit) { m_commit = std::move(commit); }

double NameEdit::contentWidth() const {
  return render::textWidth(font(), text()) + 2.0 * kPad + (hasFocus() ? 10.0 : 1.0);
}
QSize NameEdit::sizeHint() const {
  return {static_cast<int>(std::max(contentWidth(), m_look.tokens().px(40.0))), qRound(m_look.tokens().px(kTall))};
}
QSize NameEdit::minimumSizeHint() const { return {qRound(m_look.tokens().px(40.0)), sizeHint().height()}; }

void NameEdit::commit() {
  if (!isModified()) return;
  const QString typed = text().trimmed();
  setModified(false);
  if (typed.isEmpty() || typed == m_shown || !m_commit || !m_commit(typed)) setText(m_shown);
  updateGeometry();
}

void NameEdit::keyPressEvent(QKeyEvent* event) {
  if (isEnter(*event)) {
    commit();
    selectAll();
  } else if (event->key() == Qt::Key_Escape) {
    setText(m_shown);
    setModified(false);
    Q_EMIT cancelled();
  } else {
    QLineEdit::keyPressEvent(event);
  }
}

void NameEdit::focusOutEvent(QFocusEvent* event) {
  QLineEdit::focusOutEvent(event);
  if (event->reason() != Qt::PopupFocusReason && event->reason() != Qt::ActiveWindowFocusReason) commit();
  setCursorPosition(0);
  updateGeometry();
}

void NameEdit::focusInEvent(QFocusEvent* event) {
  QLineEdit::focusInEvent(event);
  updateGeometry();
}

void NameEdit::paintEvent(QPaintEvent* event) {
  if (hasFocus()) {
    QLineEdit::paintEvent(event);
    return;
  }
  QPainter painter(this);
  painter.setFont(font());
  painter.setPen(m_look.tokens().ink);
  const QFontMetricsF metrics(font());
  const QString shown = metrics.elidedText(text(), Qt::ElideRight, width() - 2.0 * kPad);
  painter.drawText(QPointF(kPad, height() / 2.0 + metrics.capHeight() / 2.0 - 1.0), shown);
  if (!underMouse()) return;
  painter.setPen(QPen(m_look.tokens().mark, 1.0));
  painter.drawLine(QPointF(kPad, height() - 5.0), QPointF(kPad + metrics.horizontalAdvance(shown), height() - 5.0));
}

WordChoice::WordChoice(render::Look& look, const QStringList& words, Kind kind, QWidget* parent)
    : QAbstractButton(parent), m_look(look), m_words(words), m_kind(kind) {
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
  setIndex(0);
  connect(this, &QAbstractButton::clicked, this, [this] { open(); });
  connect(&look, &render::Look::changed, this, [this] { updateGeometry(); });
}

void WordChoice::setIndex(int index) {
  m_index = std::clamp(index, 0, static_cast<int>(m_words.size()) - 1);
  setText(m_words[m_index]);
  updateGeometry();
  update();
}

void WordChoice::choose(int index) {
  if (index == m_index) return;
  if (m_choose) m_choose(index);
}

QFont WordChoice::wordFont() const { return render::font(m_look.tokens(), render::Voice::Measured, 14.0); }

QSize WordChoice::sizeHint() const {
  const double arrow = m_kind == Kind::Plain ? m_look.tokens().px(13.0) : 0.0;
  return {static_cast<int>(render::textWidth(wordFont(), text()) + 2.0 * kPad + arrow + 1.0),
          qRound(m_look.tokens().px(kTall))};
}

void WordChoice::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QFont font = wordFont();
  const QFontMetricsF metrics(font);
  painter.setFont(font);
  painter.setPen(m_kind == Kind::Plain ? tokens.ink : tokens.ink2);
  const double middle = height() / 2.0;
  const QString shown = metrics.elidedText(text(), Qt::ElideRight, width() - 2.0 * kPad + 1.0);
  painter.drawText(QPointF(kPad, middle + metrics.capHeight() / 2.0 - 1.0), shown);
  const double wide = metrics.horizontalAdvance(shown), under = height() - 6.0;
  if (m_kind == Kind::Sureness) {
    render::drawSureness(painter, tokens, {kPad, under}, wide, static_cast<Sureness>(m_index), tokens.ink2);
  } else {
    painter.setPen(QPen(tokens.ink, tokens.line(1.1)));
    painter.drawLine(QPointF(kPad, under + 1.0), QPointF(width() - kPad, under + 1.0));
    const double half = tokens.px(4.0);
    const QPointF tip(width() - kPad - half, middle + 1.0);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tokens.ink);
    painter.drawPolygon(QPolygonF(
        {tip + QPointF(-half, -half * 0.6), tip + QPointF(half, -half * 0.6), tip + QPointF(0.0, half * 0.8)}));
  }
  if (hasFocus() || underMouse()) drawRing(painter, tokens, rect());
}

void WordChoice::keyPressEvent(QKeyEvent* event) {
  if (isEnter(*event) || event->key() == Qt::Key_Down) {
    open();
  } else if (event->key() == Qt::Key_Escape) {
    event->ignore();
  } else {
    QAbstractButton::keyPressEvent(event);
  }
}

void WordChoice::open() {
  auto* menu = new QMenu(this);
  menu->setAttribute(Qt::WA_DeleteOnClose);
  auto* group = new QActionGroup(menu);
  for (int i = 0; i < m_words.size(); ++i) {
    QAction* action = menu->addAction(m_words[i]);
    action->setCheckable(true);
    action->setChecked(i == m_index);
    group->addAction(action);
    connect(action, &QAction::triggered, this, [this, i] { choose(i); });
  }
  menu->popup(mapToGlobal(QPoint(0, height())));
}

QStringList surenessWords() { return {WordChoice::tr("guess"), WordChoice::tr("label"), WordChoice::tr("measured")}; }

Deed::Deed(render::Look& look, const QString& text, QWidget* parent) : QAbstractButton(parent), m_look(look) {
  setText(text);
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
  connect(&look, &render::Look::changed, this, [this] { updateGeometry(); });
}

QFont Deed::wordFont() const { return render::font(m_look.tokens(), render::Voice::Measured, 14.0); }

QSize Deed::sizeHint() const {
  return {static_cast<int>(render::textWidth(wordFont(), text()) + 2.0 * kPad + 1.0),
          qRound(m_look.tokens().px(kTall))};
}

void Deed::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QFont font = wordFont();
  const QFontMetricsF metrics(font);
  painter.setFont(font);
  painter.setPen(isEnabled() ? tokens.ink : tokens.ink2);
  const double base = height() / 2.0 + metrics.capHeight() / 2.0 - 1.0;
  painter.drawText(QPointF(kPad, base), text());
  painter.setPen(QPen(tokens.mark, tokens.line(1.1)));
  painter.drawLine(QPointF(kPad, base + tokens.px(5.0)),
                   QPointF(kPad + metrics.horizontalAdvance(text()), base + tokens.px(5.0)));
  if (hasFocus() || underMouse()) drawRing(painter, tokens, rect());
}

void Deed::keyPressEvent(QKeyEvent* event) {
  if (isEnter(*event)) {
    click();
  } else if (event->key() == Qt::Key_Escape) {
    event->ignore();
  } else {
    QAbstractButton::keyPressEvent(event);
  }
}

}  // namespace sunspool::shed
