// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/widgets/quantity_edit.h"

#include <QFocusEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "app/format/quantity_text.h"
#include "app/render/marks.h"

namespace sunspool::widgets {

/// The field itself. Unfocused it paints number, unit and sureness; focused it is an ordinary line to type in.
class QuantityEdit::Line : public QLineEdit {
 public:
  explicit Line(QuantityEdit& owner) : QLineEdit(&owner), m_owner(owner) {
    setFrame(true);
    QObject::connect(this, &QLineEdit::textEdited, &owner, [&owner] { owner.clearMessage(); });
  }

  bool isTouched() const { return isModified(); }

 protected:
  void keyPressEvent(QKeyEvent* event) override {
    const int steps = event->modifiers() & Qt::ShiftModifier ? 10 : 1;
    switch (event->key()) {
      case Qt::Key_Up:
        m_owner.stepBy(steps);
        return;
      case Qt::Key_Down:
        m_owner.stepBy(-steps);
        return;
      case Qt::Key_Return:
      case Qt::Key_Enter:
        m_owner.commit();
        if (!m_owner.hasBadText()) {
          selectAll();
          Q_EMIT m_owner.finished();
        }
        return;
      case Qt::Key_Escape:
        m_owner.putBack();
        selectAll();
        Q_EMIT m_owner.cancelled();
        Q_EMIT m_owner.finished();
        return;
      default:
        QLineEdit::keyPressEvent(event);
    }
  }

  void focusInEvent(QFocusEvent* event) override {
    QLineEdit::focusInEvent(event);
    m_owner.updateGeometry();
    if (!m_owner.hasBadText() && !isTouched()) m_owner.refreshText();
    if (event->reason() != Qt::MouseFocusReason) selectAll();
  }

  void focusOutEvent(QFocusEvent* event) override {
    QLineEdit::focusOutEvent(event);
    m_owner.updateGeometry();
    if (event->reason() == Qt::PopupFocusReason || event->reason() == Qt::ActiveWindowFocusReason) return;
    if (isTouched() && !m_owner.hasBadText()) m_owner.commit();
    Q_EMIT m_owner.finished();
  }

  void paintEvent(QPaintEvent* event) override {
    if (hasFocus() || m_owner.hasBadText() || isTouched()) {
      QLineEdit::paintEvent(event);
      return;
    }
    const render::Tokens& tokens = m_owner.m_look.tokens();
    render::NumberStyle style;
    style.size = m_owner.m_textSize;
    style.weight = m_owner.m_weight;
    if (!isEnabled() || m_owner.m_empty) style.colour = tokens.ink2;
    if (m_owner.m_empty) style.weight = QFont::Normal;
    QPainter painter(this);
    const format::NumberAndUnit number = m_owner.shown();
    const QFont font = render::font(tokens, render::Voice::Measured, style.size, style.weight);
    const double cap = QFontMetricsF(font).capHeight();
    const QPointF baseline(7.0, height() / 2.0 + cap / 2.0 - 1.0);
    const double end = render::drawNumber(painter, tokens, baseline, number, style);
    const double under = height() - 5.0;
    painter.setRenderHint(QPainter::Antialiasing);
    if (m_owner.m_sureness && !m_owner.m_empty)
      render::drawSureness(painter, tokens, {baseline.x(), under - 1.0}, end - baseline.x(), *m_owner.m_sureness,
                           tokens.ink);
    else if (m_owner.m_hugs)
      render::drawSureness(painter, tokens, {baseline.x(), under - 1.0}, end - baseline.x(), Sureness::Label,
                           tokens.mark);
    else
      render::drawSureness(painter, tokens, {5.0, under}, width() - 10.0, Sureness::Label, tokens.ink);
  }

 private:
  QuantityEdit& m_owner;
};

QuantityEdit::QuantityEdit(render::Look& look, QuantityKind kind, QWidget* parent)
    : QWidget(parent), m_look(look), m_kind(std::move(kind)), m_line(new Line(*this)), m_below(new QLabel(this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  column->addWidget(m_line);
  column->addWidget(m_below);
  m_below->setWordWrap(true);
  m_below->hide();
  setFocusProxy(m_line);
  setTextSize(m_textSize);
  QObject::connect(&m_look, &render::Look::changed, this, [this] {
    setTextSize(m_textSize);
    refreshText();
  });
}

QuantityEdit::~QuantityEdit() {
  // The field must not report the loss of its focus to a half-destroyed owner.
  delete m_line;
}

void QuantityEdit::setName(const QString& name) {
  m_name = name;
  refreshName();
}

void QuantityEdit::setValue(double si, std::optional<Sureness> sureness) {
  m_value = si;
  m_sureness = sureness;
  m_empty = false;
  // What is being typed is the builder's own; a result that arrives meanwhile does not wipe it.
  if (!(m_line->hasFocus() && m_line->isTouched())) {
    clearMessage();
    refreshText();
  }
  refreshName();
  updateGeometry();
  m_line->update();
}

void QuantityEdit::setKind(QuantityKind kind) {
  m_kind = std::move(kind);
  if (m_empty) {
    setEmpty();
  } else {
    setValue(m_value, m_sureness);
  }
}

void QuantityEdit::setTextSize(double size) {
  m_textSize = size;
  const render::Tokens& tokens = m_look.tokens();
  m_line->setFont(render::font(tokens, render::Voice::Measured, size, m_weight));
  m_line->setMinimumHeight(qRound(tokens.px(36.0)));
  m_line->setMinimumWidth(qRound(tokens.px(m_hugs ? 24.0 : 96.0)));
  m_below->setFont(render::font(tokens, render::Voice::Measured, 13.5));
}

void QuantityEdit::setWeight(QFont::Weight weight) {
  m_weight = weight;
  setTextSize(m_textSize);
}

void QuantityEdit::hug() {
  m_hugs = true;
  setTextSize(m_textSize);
}

double QuantityEdit::contentWidth() const {
  const render::Tokens& tokens = m_look.tokens();
  render::NumberStyle style;
  style.size = m_textSize;
  style.weight = m_weight;
  const double painted = render::numberWidth(tokens, shown(), style) + 14.0;
  const bool typing = m_line->hasFocus() || m_line->isTouched();
  const double typed = typing ? render::textWidth(m_line->font(), m_line->text()) + 20.0 : 0.0;
  return std::max({painted, typed, tokens.px(26.0)});
}

void QuantityEdit::setMayBeEmpty(const QString& word, std::function<bool()> commitEmpty) {
  m_emptyWord = word;
  m_commitEmpty = std::move(commitEmpty);
}

void QuantityEdit::setEmpty() {
  m_empty = true;
  if (!(m_line->hasFocus() && m_line->isTouched())) {
    clearMessage();
    refreshText();
  }
  refreshName();
  updateGeometry();
  m_line->update();
}

format::NumberAndUnit QuantityEdit::shown() const {
  return m_empty ? format::NumberAndUnit{m_emptyWord, {}} : m_kind.text(m_value);
}

void QuantityEdit::setCommit(std::function<bool(double)> commit) { m_commit = std::move(commit); }

void QuantityEdit::editNow() {
  m_line->setFocus(Qt::OtherFocusReason);
  m_line->selectAll();
}

void QuantityEdit::showMessage(const QString& sentence) {
  m_message = sentence;
  m_line->setToolTip(sentence);
  m_line->setAccessibleDescription(sentence);
  m_below->setText(sentence);
  m_below->setVisible(!sentence.isEmpty());
  updateGeometry();
  m_line->update();
}

QString QuantityEdit::text() const { return m_line->text(); }

void QuantityEdit::setText(const QString& text) {
  clearMessage();
  m_line->setText(text);
  m_line->setModified(true);
}

void QuantityEdit::commit() {
  const QString text = m_line->text().trimmed();
  if (m_commitEmpty && (text.isEmpty() || text == m_emptyWord)) {
    if (!m_line->isTouched()) return;
    if (!m_commitEmpty()) return;
    m_line->setModified(false);
    setEmpty();
    return;
  }
  const std::optional<double> word = m_kind.word ? m_kind.word(text) : std::nullopt;
  const Result<double> number =
      word ? Result<double>(*word) : format::parseQuantity(text.toStdString(), m_kind.dimension, m_kind.bareUnit);
  if (!number) {
    showMessage(format::sentence(number.error(), m_look.preferences()));
    return;
  }
  if (!m_line->isTouched()) return;
  if (m_commit && !m_commit(*number)) {
    if (m_message.isEmpty()) showMessage(tr("This number was not taken; the old one still holds."));
    return;
  }
  m_line->setModified(false);
  setValue(*number, m_sureness);
  Q_EMIT committed(*number);
}

void QuantityEdit::stepBy(int steps) {
  if (m_kind.step_si == 0.0 || m_empty) return;
  const double next = m_value + steps * m_kind.step_si;
  if (m_commit && !m_commit(next)) return;
  m_line->setModified(false);
  setValue(next, m_sureness);
  m_line->selectAll();
  Q_EMIT committed(next);
}

void QuantityEdit::putBack() {
  clearMessage();
  m_line->setModified(false);
  refreshText();
}

void QuantityEdit::refreshName() {
  m_line->setAccessibleName(m_name);
  setAccessibleName(m_name);
  QString value = shown().joined();
  if (m_sureness && !m_empty) value = tr("%1, %2").arg(value, format::sureness(*m_sureness));
  m_line->setAccessibleDescription(value);
  if (m_message.isEmpty()) m_line->setToolTip(m_name.isEmpty() ? value : tr("%1: %2").arg(m_name, value));
}

void QuantityEdit::refreshText() {
  m_line->setText(m_empty ? QString() : typedForm(m_value));
  m_line->setModified(false);
}

void QuantityEdit::clearMessage() {
  if (m_message.isEmpty()) return;
  showMessage({});
  refreshName();
}

QString QuantityEdit::typedForm(double si) const {
  QString shown = m_kind.text(si).joined();
  shown.remove(QChar(0x2009));
  shown.replace(QChar(0x2212), QLatin1Char('-'));
  return shown;
}

}  // namespace sunspool::widgets
