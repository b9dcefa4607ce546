// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/shelf.h"

#include <QHBoxLayout>
#include <QPainter>
#include <algorithm>

namespace sunspool::questions {
namespace {

constexpr double kNarrowBelow = 1600.0;
constexpr double kPad = 9.0;

}  // namespace

ShelfPiece::ShelfPiece(Question question, render::Look& look, QWidget* parent)
    : QAbstractButton(parent), m_question(question), m_look(look) {
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
  setAttribute(Qt::WA_Hover);
}

void ShelfPiece::show(const Answer& answer, bool settled) {
  m_answer = answer;
  m_settled = settled;
  setText(answer.question);
  const QString state = [&] {
    switch (answer.state) {
      case render::EdgeState::Smooth:
        return tr("nothing found");
      case render::EdgeState::OneTooth:
        return tr("close");
      case render::EdgeState::TwoTeeth:
        return tr("snag");
      case render::EdgeState::Dashed:
        return tr("not known");
    }
    return QString();
  }();
  setAccessibleName(QStringLiteral("%1 %2. %3. %4").arg(answer.question, answer.answer, answer.second, state));
  setToolTip(QStringLiteral("%1 %2\n%3\n(%4)").arg(answer.question, answer.answer, answer.second, state));
  update();
}

void ShelfPiece::setOpened(bool opened) {
  m_opened = opened;
  update();
}

void ShelfPiece::setNarrow(bool narrow) {
  m_narrow = narrow;
  update();
}

QSize ShelfPiece::sizeHint() const {
  const render::Tokens& tokens = m_look.tokens();
  return {static_cast<int>(tokens.px(m_narrow ? 122 : 160)), static_cast<int>(tokens.px(m_narrow ? 84 : 98))};
}

void ShelfPiece::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double pad = tokens.px(kPad);
  if (m_opened) {
    painter.fillRect(rect(), tokens.slip);
    painter.setPen(QPen(tokens.ink, 1.4));
    painter.drawPolyline(QPolygonF{QPointF(0.7, height()), QPointF(0.7, 1.5), QPointF(width() - 0.7, 1.5),
                                   QPointF(width() - 0.7, height())});
  } else if (underMouse()) {
    painter.fillRect(rect().adjusted(2, 4, -2, -4), tokens.slip);
  }
  const double scale = m_narrow ? 0.88 : 1.0;
  const double edgeY = height() - tokens.px(m_narrow ? 15 : 17);
  const double secondY = edgeY - tokens.px(m_narrow ? 11 : 12);
  const double answerY = secondY - tokens.px(m_narrow ? 18 : 21);
  const double questionY = answerY - tokens.px(m_narrow ? 21 : 24);
  const auto write = [&](double y, const QString& text, const QFont& font, const QColor& colour) {
    painter.setFont(font);
    painter.setPen(colour);
    const QString fitted = QFontMetricsF(font).elidedText(text, Qt::ElideRight, width() - 2 * pad + 2);
    painter.drawText(QPointF(pad, y), fitted);
  };
  write(questionY, m_answer.question,
        render::font(tokens, render::Voice::Said, m_narrow ? 14 : 15.5, QFont::Normal, true), tokens.ink2);
  QFont bold = render::font(tokens, render::Voice::Said, 20 * scale - (m_narrow ? 1.6 : 0), QFont::Bold, !m_settled);
  const double room = width() - 2 * pad + 2, wide = QFontMetricsF(bold).horizontalAdvance(m_answer.answer);
  if (wide > room) bold.setPixelSize(static_cast<int>(std::max(0.72, room / wide) * bold.pixelSize()));
  write(answerY, m_answer.answer, bold, m_settled ? tokens.ink : tokens.ink2);
  const QFont secondFont = render::font(tokens, render::Voice::Measured, m_narrow ? 12.5 : 13.5);
  const bool longFits = QFontMetricsF(secondFont).horizontalAdvance(m_answer.second) <= width() - 2 * pad + 2;
  write(secondY,
        !m_settled ? tr("settling")
        : longFits ? m_answer.second
                   : m_answer.shortSecond,
        secondFont, tokens.ink2);
  render::drawStateEdge(painter, tokens, QPointF(pad, edgeY), width() - 2 * pad, m_answer.state, tokens.ink);
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(6, 6, -6, -6));
}

Shelf::Shelf(store::DocumentStore& store, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look) {
  setObjectName(QStringLiteral("shelf"));
  setAccessibleName(tr("Questions"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(static_cast<int>(look.tokens().px(10)), 0, static_cast<int>(look.tokens().px(10)), 0);
  row->setSpacing(0);
  for (std::size_t i = 0; i < kQuestions.size(); ++i) {
    auto* piece = new ShelfPiece(kQuestions[i], look, this);
    piece->setObjectName(QStringLiteral("question.%1").arg(i));
    m_pieces[i] = piece;
    row->addWidget(piece, 1);
    connect(piece, &QAbstractButton::clicked, this, [this, piece] { Q_EMIT asked(piece->question()); });
  }
  connect(&store, &store::DocumentStore::resultsChanged, this, &Shelf::refresh);
  connect(&look, &render::Look::changed, this, &Shelf::refresh);
  refresh();
}

void Shelf::setDay(std::shared_ptr<const evaluate::Day> day) {
  m_day = std::move(day);
  refresh();
}

void Shelf::setOpened(std::optional<Question> question) {
  for (ShelfPiece* piece : m_pieces) piece->setOpened(question == piece->question());
}

ShelfPiece* Shelf::piece(Question question) const { return m_pieces[static_cast<std::size_t>(question)]; }

QuestionSheet Shelf::sheetOf(Question question) const { return sheet(question, known()); }

Known Shelf::known() const { return {*m_document, *m_results, m_day.get(), m_look.preferences()}; }

void Shelf::refresh() {
  m_document = m_store.shared();
  m_results = m_store.results();
  for (ShelfPiece* piece : m_pieces) {
    const Answer shown = answer(piece->question(), known());
    const bool late = piece->question() != Question::Fits && piece->question() != Question::Bends;
    piece->show(shown, m_store.isSettled() || !late);
  }
}

void Shelf::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  const bool narrow = width() < m_look.tokens().px(kNarrowBelow);
  for (ShelfPiece* piece : m_pieces) piece->setNarrow(narrow);
}

void Shelf::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), m_look.tokens().paper);
  painter.setPen(QPen(m_look.tokens().hair, 1.0));
  painter.drawLine(QPointF(0, height() - 0.5), QPointF(width(), height() - 0.5));
}

}  // namespace sunspool::questions
