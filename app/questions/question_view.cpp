// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/question_view.h"

#include <QKeyEvent>
#include <QPainter>

#include "app/render/paragraph.h"

namespace sunspool::questions {
using render::paragraph;

QuestionView::QuestionView(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
  setObjectName(QStringLiteral("questionSheet"));
  setFocusPolicy(Qt::StrongFocus);
}

void QuestionView::show(const QuestionSheet& sheet, bool settled) {
  m_sheet = sheet;
  m_settled = settled;
  QStringList spoken{sheet.headline, sheet.body};
  for (const InputRow& row : sheet.inputs)
    spoken << QStringLiteral("%1 %2, %3, %4").arg(row.name, row.value, format::sureness(row.sureness), row.moves);
  for (const QString& line : sheet.formula) spoken << line;
  setAccessibleName(sheet.headline);
  setAccessibleDescription(spoken.join(QLatin1Char('\n')));
  update();
}

int QuestionView::heightFor(int width) const {
  return static_cast<int>(layOut(nullptr, width) + m_look.tokens().px(28) + render::kShadowReach);
}

double QuestionView::layOut(QPainter* painter, double width) const {
  const render::Tokens& tokens = m_look.tokens();
  const double pad = tokens.px(28), left = pad + render::kShadowReach, inner = width - 2 * left;
  const auto said = [&](double size, QFont::Weight weight, bool italic = false) {
    return render::font(tokens, render::Voice::Said, size, weight, italic);
  };
  const auto measured = [&](double size, QFont::Weight weight = QFont::Normal) {
    return render::font(tokens, render::Voice::Measured, size, weight);
  };
  const auto gap = [&](double px) { return tokens.px(px); };
  double y = pad;
  y = paragraph(painter, m_sheet.headline, said(24, QFont::Bold), tokens.ink, {left, y}, inner) + gap(8);
  if (!m_settled) y = paragraph(painter, tr("settling"), said(15, QFont::Normal, true), tokens.ink2, {left, y}, inner);
  y = paragraph(painter, m_sheet.body, said(16, QFont::Normal), tokens.ink, {left, y}, inner) + gap(12);

  if (!m_sheet.inputs.empty()) {
    const double valueX = left + inner * 0.46, movesX = left + inner * 0.72, barX = left + inner * 0.86,
                 barW = inner * 0.14;
    const QFont head = said(15, QFont::Normal, true);
    paragraph(painter, tr("What it hangs on"), head, tokens.ink2, {left, y}, inner);
    y = paragraph(painter, tr("moves the answer"), head, tokens.ink2, {movesX, y}, inner) + gap(4);
    for (const InputRow& row : m_sheet.inputs) {
      const double step = gap(30);
      if (painter != nullptr) {
        const double base = y + gap(18);
        painter->setPen(tokens.ink);
        painter->setFont(measured(15));
        painter->drawText(QPointF(left, base),
                          QFontMetricsF(painter->font()).elidedText(row.name, Qt::ElideRight, inner * 0.44));
        painter->setFont(measured(15, QFont::Bold));
        painter->drawText(QPointF(valueX, base), row.value);
        render::drawSureness(*painter, tokens, {valueX, base + gap(5)}, render::textWidth(painter->font(), row.value),
                             row.sureness, tokens.ink);
        painter->setPen(tokens.ink2);
        painter->setFont(measured(14));
        painter->drawText(QPointF(movesX, base), row.moves);
        painter->fillRect(QRectF(barX, y + gap(6), std::max(2.0, barW * row.share), gap(14)), tokens.ink);
      }
      y += step;
    }
    y += gap(12);
  }
  if (!m_sheet.formula.empty()) {
    y = paragraph(painter, tr("The formula with your numbers"), said(15, QFont::Normal, true), tokens.ink2, {left, y},
                  inner) +
        gap(2);
    for (std::size_t i = 0; i < m_sheet.formula.size(); ++i) {
      const bool last = i + 1 == m_sheet.formula.size();
      y = paragraph(painter, m_sheet.formula[i], said(16, last ? QFont::Bold : QFont::Normal), tokens.ink, {left, y},
                    inner) +
          gap(2);
    }
    y += gap(6);
  }
  y = paragraph(painter, m_sheet.remark, measured(14), tokens.ink2, {left, y}, inner) + gap(8);
  for (const QString& caution : m_sheet.cautions)
    y = paragraph(painter, caution, measured(14, QFont::Bold), tokens.ink, {left, y}, inner) + gap(6);
  for (const QString& source : m_sheet.sources)
    y = paragraph(painter, source, said(13.5, QFont::Normal, true), tokens.ink2, {left, y}, inner);
  y = paragraph(painter, tr("Esc closes"), measured(13), tokens.ink2, {left, y + gap(8)}, inner);
  return y;
}

void QuestionView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double reach = render::kShadowReach;
  const QRectF slip = QRectF(rect()).adjusted(reach, 0, -reach, -reach);
  render::drawShadow(painter, m_look.tokens(), slip);
  painter.fillRect(slip, m_look.tokens().slip);
  painter.setPen(QPen(m_look.tokens().ink, 1.4));
  painter.drawRect(slip.adjusted(0.7, -2, -0.7, -0.7));
  layOut(&painter, width());
  if (hasFocus()) render::drawFocusRing(painter, m_look.tokens(), slip.adjusted(8, 8, -8, -8));
}

void QuestionView::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    Q_EMIT closed();
    return;
  }
  QWidget::keyPressEvent(event);
}

}  // namespace sunspool::questions
