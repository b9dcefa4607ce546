// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/snags/snag_slip.h"

#include <QKeyEvent>
#include <QPainter>

#include "app/format/source.h"
#include "app/render/marks.h"
#include "app/render/paragraph.h"
#include "core/checks/snag_keys.h"
#include "core/model/edits.h"

namespace sunspool::snags {

SnagSlip::SnagSlip(store::DocumentStore& store, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look) {
  setObjectName(QStringLiteral("snagSlip"));
  setFocusPolicy(Qt::StrongFocus);
  m_reason = new QLineEdit(this);
  m_reason->setObjectName(QStringLiteral("snagReason"));
  m_reason->setAccessibleName(tr("Reason for leaving it"));
  m_reason->setPlaceholderText(tr("because ... (the reason is printed)"));
  m_leave = new QPushButton(tr("Leave it"), this);
  m_leave->setObjectName(QStringLiteral("snagLeave"));
  connect(m_leave, &QPushButton::clicked, this, [this] { isReasonNew() ? leave() : takeUp(); });
  connect(m_reason, &QLineEdit::returnPressed, this, [this] {
    if (isReasonNew()) leave();
  });
  connect(m_reason, &QLineEdit::textChanged, this, &SnagSlip::refreshButton);
  connect(&look, &render::Look::changed, this, &SnagSlip::refresh);
  connect(&store, &store::DocumentStore::resultsChanged, this, &SnagSlip::refresh);
}

const Snag* SnagSlip::snag() const {
  const auto results = m_store.results();
  if (!m_index || *m_index < 0 || static_cast<std::size_t>(*m_index) >= results->snags.size()) return nullptr;
  return &results->snags[static_cast<std::size_t>(*m_index)];
}

void SnagSlip::open(int index) {
  m_index = index;
  const Snag* found = snag();
  if (found == nullptr) {
    m_index.reset();
    Q_EMIT closed();
    return;
  }
  m_key = checks::snagKey(*found);
  m_reason->setText(QString::fromStdString(found->leftBecause));
  describe(*found);
}

void SnagSlip::describe(const Snag& found) {
  const format::SnagText words = format::snagText(found, m_store.document(), m_look.preferences());
  setAccessibleName(words.title);
  setAccessibleDescription(QStringList{words.what, words.why, words.costs}.join(QLatin1Char('\n')));
  refreshButton();
  update();
}

bool SnagSlip::isReasonNew() const {
  const Snag* found = snag();
  const QString reason = m_reason->text().trimmed();
  if (found == nullptr || found->leftBecause.empty()) return true;
  return !reason.isEmpty() && reason != QString::fromStdString(found->leftBecause);
}

void SnagSlip::refreshButton() {
  const bool leaves = isReasonNew();
  m_leave->setText(leaves ? tr("Leave it") : tr("Take it up again"));
  m_leave->setToolTip(leaves ? tr("Leaves this finding with your reason; the reason is printed on the lists")
                             : tr("Lets this finding stand again and forgets the reason"));
  placeRow();
}

/// Results came anew: the same finding may stand at another number, or be gone.
void SnagSlip::refresh() {
  if (!m_index) return;
  const auto results = m_store.results();
  for (std::size_t i = 0; i < results->snags.size(); ++i) {
    if (checks::snagKey(results->snags[i]) == m_key) {
      m_index = static_cast<int>(i);
      describe(results->snags[i]);
      return;
    }
  }
  if (!m_store.isSettled()) return;  // it may only be late
  m_index.reset();
  Q_EMIT closed();
}

void SnagSlip::leave() {
  const std::string key = m_key, reason = m_reason->text().trimmed().toStdString();
  if (reason.empty()) {
    m_reason->setFocus();
    Q_EMIT said(tr("A finding is left with a reason, for the reason is printed; write it beside the button."));
    return;
  }
  m_store.apply([key, reason](model::Document d) { return model::withSnagLeft(std::move(d), key, reason); },
                tr("Leave a finding"));
}

void SnagSlip::takeUp() {
  m_store.apply([key = m_key](model::Document d) { return model::withSnagTakenUp(std::move(d), key); },
                tr("Take the finding up again"));
  m_reason->clear();
}

int SnagSlip::heightFor(int width) const {
  return static_cast<int>(layOut(nullptr, width) + m_look.tokens().px(96) + render::kShadowReach);
}

double SnagSlip::layOut(QPainter* painter, double width) const {
  const Snag* found = snag();
  if (found == nullptr) return 0.0;
  const render::Tokens& tokens = m_look.tokens();
  const format::SnagText words = format::snagText(*found, m_store.document(), m_look.preferences());
  const double pad = tokens.px(24), left = render::kShadowReach + pad, tagWidth = tokens.px(58);
  const double labelWidth = tokens.px(58), inner = width - 2 * left;
  double y = pad;
  if (painter != nullptr) {
    render::drawSnagTag(*painter, tokens, {left + tokens.px(21), y + tokens.px(17)}, QString::number(*m_index + 1),
                        render::edgeOf(found->state));
  }
  y = render::paragraph(painter, words.title, render::font(tokens, render::Voice::Said, 22, QFont::Bold), tokens.ink,
                        {left + tagWidth, y}, inner - tagWidth) +
      tokens.px(12);
  const QFont label = render::font(tokens, render::Voice::Said, 15, QFont::Normal, true);
  const QFont text = render::font(tokens, render::Voice::Measured, 15);
  for (const auto& [name, line] :
       {std::pair{tr("what"), words.what}, {tr("why"), words.why}, {tr("costs"), words.costs}}) {
    if (line.isEmpty() || line == words.title) continue;
    render::paragraph(painter, name, label, tokens.ink2, {left, y}, labelWidth);
    y = render::paragraph(painter, line, text, tokens.ink, {left + labelWidth, y}, inner - labelWidth) + tokens.px(6);
  }
  if (!found->source.empty()) {
    render::paragraph(painter, tr("after"), label, tokens.ink2, {left, y}, labelWidth);
    y = render::paragraph(painter, format::sourceInWords(found->source), text, tokens.ink2, {left + labelWidth, y},
                          inner - labelWidth);
  }
  return y + tokens.px(8);
}

void SnagSlip::paintEvent(QPaintEvent*) {
  const Snag* found = snag();
  if (found == nullptr) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double reach = render::kShadowReach;
  const QRectF slip = QRectF(rect()).adjusted(reach, 4, -reach, -reach);
  render::drawSlip(painter, m_look.tokens(), slip, render::edgeOf(found->state));
  layOut(&painter, width());
}

void SnagSlip::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeRow();
}

void SnagSlip::placeRow() {
  const render::Tokens& tokens = m_look.tokens();
  const int pad = static_cast<int>(tokens.px(24) + render::kShadowReach);
  const int buttonWidth = m_leave->sizeHint().width(), buttonHeight = m_leave->sizeHint().height();
  const int y = height() - static_cast<int>(render::kShadowReach + tokens.px(20)) - buttonHeight;
  m_leave->setGeometry(pad, y, buttonWidth, buttonHeight);
  m_reason->setGeometry(pad + buttonWidth + static_cast<int>(tokens.px(12)), y,
                        width() - 2 * pad - buttonWidth - static_cast<int>(tokens.px(12)), buttonHeight);
}

void SnagSlip::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Escape:
      Q_EMIT closed();
      return;
    case Qt::Key_PageDown:
      Q_EMIT moved(1);
      return;
    case Qt::Key_PageUp:
      Q_EMIT moved(-1);
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace sunspool::snags
