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

/// What fits of the second line, the longest wording first: whole, short, in smaller letters, in two lines.
ShelfPiece::Second ShelfPiece::secondLine(double room) const {
  const render::Tokens& tokens = m_look.tokens();
  const auto at = [&](double size) { return render::font(tokens, render::Voice::Measured, size); };
  const double size = m_narrow ? 12.5 : 13.5;
  if (!m_settled) return {{tr("settling")}, at(size)};
  for (const QString& text : {m_answer.second, m_answer.shortSecond}) {
    if (render::textWidth(at(size), text) <= room) return {{text}, at(size)};
  }
  for (const double smaller : {12.0, 11.5}) {
    if (render::textWidth(at(smaller), m_answer.shortSecond) <= room) return {{m_answer.shortSecond}, at(smaller)};
  }
  const QFont font = at(12.0);
  QString first;
  QStringList words = m_answer.shortSecond.split(QLatin1Char(' '));
  while (!words.isEmpty()) {
    const QString longer = first.isEmpty() ? words.front() : first + QLatin1Char(' ') + words.front();
    if (!first.isEmpty() && render::textWidth(font, longer) > room) break;
    first = longer;
    words.removeFirst();
  }
  if (words.isEmpty()) return {{first}, font};
  return {{first, words.join(QLatin1Char(' '))}, font};
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
  const double lift = secondLine(width() - 2 * pad + 2).lines.size() > 1 ? 1.0 : 0.0;  // the rest moves up
  const double answerY = secondY - tokens.px(m_narrow ? 18 : 21) - lift * tokens.px(m_narrow ? 11 : 12);
  const double questionY = answerY - tokens.px(m_narrow ? 21 : 24) + lift * tokens.px(m_narrow ? 4 : 5);
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
  const Second second = secondLine(width() - 2 * pad + 2);
  for (qsizetype i = 0; i < second.lines.size(); ++i) {
    const double up = tokens.px(13) * static_cast<double>(second.lines.size() - 1 - i);
    write(secondY - up, second.lines[i], second.font, tokens.ink2);
  }
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
  m_numbers = new store::SheetNumbersRunner(this, store);
  connect(m_numbers, &store::SheetNumbersRunner::numbersChanged, this, &Shelf::sheetChanged);
  connect(&store, &store::DocumentStore::resultsChanged, this, &Shelf::refresh);
  connect(&store, &store::DocumentStore::beforeChanged, this, &Shelf::refresh);
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

QuestionSheet Shelf::numberSheetOf(NumberKey number) const { return numberSheet(number, known()); }

void Shelf::setSheetWanted(bool wanted) { m_numbers->setWanted(wanted); }

Known Shelf::known() const {
  return {*m_document,
          *m_results,
          m_day.get(),
          m_look.preferences(),
          m_numbers->numbers().get(),
          m_store.before() ? &*m_store.before() : nullptr};
}

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
