// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/question_view.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>
#include <algorithm>
#include <utility>

#include "app/format/axis.h"
#include "app/render/paragraph.h"

namespace sunspool::questions {

using render::paragraph;

/// The writing on the paper, with a field for each input.
class QuestionView::Page : public QWidget {
 public:
  Page(store::DocumentStore& store, render::Look& look, QWidget& sheet)
      : QWidget(&sheet), m_store(store), m_look(look), m_sheetWidget(sheet) {}

  void show(const QuestionSheet& sheet, bool settled) {
    takeFields(sheet.inputs);
    m_sheet = sheet;
    m_settled = settled;
    for (std::size_t i = 0; i < m_fields.size(); ++i) {
      const InputRow& row = m_sheet.inputs[i];
      if (m_fields[i]->hasBadText()) continue;
      m_fields[i]->setValue(row.value_si, row.sureness);
      m_fields[i]->setKind(kindOf(row));
    }
    place();
    update();
  }
  double heightFor(double width) const { return layOut(nullptr, width, nullptr); }
  widgets::QuantityEdit* field(const QString& name) const {
    for (std::size_t i = 0; i < m_fields.size(); ++i) {
      if (m_sheet.inputs[i].name == name) return m_fields[i];
    }
    return nullptr;
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), m_look.tokens().slip);
    layOut(&painter, width(), nullptr);
  }
  void resizeEvent(QResizeEvent*) override { place(); }
  /// A field that has something to say, or no longer has, wants another height.
  bool event(QEvent* event) override {
    if (event->type() == QEvent::LayoutRequest) {
      const int room = parentWidget() != nullptr ? parentWidget()->height() : 0;
      resize(width(), std::max(room, static_cast<int>(heightFor(width()))));
      place();
      update();
    }
    return QWidget::event(event);
  }

 private:
  /// A field stays with its row when the rows come in another order, with the cursor and the text in it.
  void takeFields(const std::vector<InputRow>& rows) {
    std::vector<widgets::QuantityEdit*> kept;
    for (const InputRow& row : rows) {
      const auto old = std::find_if(m_fields.begin(), m_fields.end(), [&](const widgets::QuantityEdit* edit) {
        return edit != nullptr && edit->objectName() == objectNameOf(row);
      });
      kept.push_back(old != m_fields.end() ? std::exchange(*old, nullptr) : newField(row));
      if (kept.size() > 1) setTabOrder(kept[kept.size() - 2], kept.back());
    }
    for (widgets::QuantityEdit* old : m_fields) {
      if (old == nullptr) continue;
      old->hide();
      old->deleteLater();
    }
    m_fields = std::move(kept);
  }
  static QString objectNameOf(const InputRow& row) { return QStringLiteral("input.") + row.name; }
  widgets::QuantityKind kindOf(const InputRow& row) const {
    widgets::QuantityKind kind;
    kind.dimension = row.dimension;
    kind.bareUnit = format::bareUnit(row.dimension, row.value_si, m_look.preferences());
    kind.text = [this, dimension = row.dimension](double si) {
      return format::number(Fact{{}, si, dimension}, m_look.preferences());
    };
    return kind;
  }
  widgets::QuantityEdit* newField(const InputRow& row) {
    auto* edit = new widgets::QuantityEdit(m_look, kindOf(row), this);
    edit->setName(row.name);
    edit->setObjectName(objectNameOf(row));
    edit->setCommit([this, row, edit](double si) {
      const bool taken = m_store.apply([row, si](model::Document d) { return row.edit(std::move(d), si); },
                                       QObject::tr("Change %1").arg(row.name));
      if (!taken) edit->showMessage(refusalOf(row, si));
      return taken;
    });
    // The first Esc puts the number back, the next one closes the sheet.
    connect(edit, &widgets::QuantityEdit::cancelled, &m_sheetWidget, [this] { m_sheetWidget.setFocus(); });
    edit->show();
    return edit;
  }
  QString refusalOf(const InputRow& row, double si) const {
    const Result<model::Document> tried = row.edit(m_store.document(), si);
    return tried.has_value() ? QString() : format::sentence(tried.error(), m_look.preferences());
  }
  void place() {
    std::vector<QRectF> spots;
    layOut(nullptr, width(), &spots);
    for (std::size_t i = 0; i < m_fields.size() && i < spots.size(); ++i) {
      if (m_fields[i]->hasBadText()) {
        m_fields[i]->setGeometry(spots[i].toAlignedRect());
        continue;
      }
      const int wanted = m_fields[i]->sizeHint().height();
      m_fields[i]->setGeometry(QRect(static_cast<int>(spots[i].left()),
                                     static_cast<int>(spots[i].center().y() - wanted / 2.0),
                                     static_cast<int>(spots[i].width()), wanted));
    }
  }

  /// Lays the writing out, painting when a painter is given; returns the y after the last line.
  double layOut(QPainter* painter, double width, std::vector<QRectF>* fields) const {
    const render::Tokens& tokens = m_look.tokens();
    const double left = tokens.px(28), inner = width - 2 * left;
    const auto said = [&](double size, QFont::Weight weight, bool italic = false) {
      return render::font(tokens, render::Voice::Said, size, weight, italic);
    };
    const auto measured = [&](double size, QFont::Weight weight = QFont::Normal) {
      return render::font(tokens, render::Voice::Measured, size, weight);
    };
    const auto gap = [&](double px) { return tokens.px(px); };
    double y = tokens.px(22);
    y = paragraph(painter, m_sheet.headline, said(24, QFont::Bold), tokens.ink, {left, y}, inner) + gap(6);
    if (!m_settled)
      y = paragraph(painter, QObject::tr("settling"), said(15, QFont::Normal, true), tokens.ink2, {left, y}, inner);
    y = paragraph(painter, m_sheet.body, said(16, QFont::Normal), tokens.ink, {left, y}, inner) + gap(12);
    if (!m_sheet.inputs.empty()) y = inputRows(painter, left, y, inner, fields) + gap(12);
    if (!m_sheet.formula.empty()) {
      y = paragraph(painter,
                    m_sheet.findings ? QObject::tr("What was found, the dearest first")
                                     : QObject::tr("The formula with your numbers"),
                    said(15, QFont::Normal, true), tokens.ink2, {left, y}, inner) +
          gap(2);
      for (std::size_t i = 0; i < m_sheet.formula.size(); ++i) {
        const bool last = !m_sheet.findings && i + 1 == m_sheet.formula.size();
        y = paragraph(painter, m_sheet.formula[i], said(16, last ? QFont::Bold : QFont::Normal), tokens.ink, {left, y},
                      inner) +
            gap(2);
      }
      y += gap(6);
    }
    y = paragraph(painter, m_sheet.remark, measured(14), tokens.ink2, {left, y}, inner) + gap(8);
    for (const QString& caution : m_sheet.cautions) {
      y = paragraph(painter, caution, measured(14, QFont::Bold), tokens.ink, {left, y}, inner) + gap(6);
    }
    for (const QString& source : m_sheet.sources) {
      y = paragraph(painter, source, said(13.5, QFont::Normal, true), tokens.ink2, {left, y}, inner);
    }
    return y + gap(18);
  }

  double inputRows(QPainter* painter, double left, double y, double inner, std::vector<QRectF>* fields) const {
    const render::Tokens& tokens = m_look.tokens();
    const double valueX = left + inner * 0.46, movesX = left + inner * 0.68, barX = left + inner * 0.84,
                 barWidth = inner * 0.16;
    const QFont head = render::font(tokens, render::Voice::Said, 15, QFont::Normal, true);
    const bool anyMoves =
        std::any_of(m_sheet.inputs.begin(), m_sheet.inputs.end(), [](const InputRow& row) { return row.share > 0.0; });
    double below = paragraph(painter, QObject::tr("What it hangs on; type over a number to change it"), head,
                             tokens.ink2, {left, y}, inner * 0.66);
    if (anyMoves)
      below = std::max(below, paragraph(painter, m_sheet.moves, head, tokens.ink2, {movesX, y}, inner * 0.32));
    y = below + tokens.px(4);
    const double step = tokens.px(34);
    for (std::size_t i = 0; i < m_sheet.inputs.size(); ++i) {
      const InputRow& row = m_sheet.inputs[i];
      // The sentence about a number that was not taken needs the width of the rest of the row, and room below.
      const bool answered = i < m_fields.size() && m_fields[i]->hasBadText();
      const double fieldWidth = inner * (answered ? 0.54 : 0.20);
      const double height =
          answered ? std::max<double>(step, m_fields[i]->heightForWidth(static_cast<int>(fieldWidth))) : step;
      if (fields != nullptr) fields->emplace_back(valueX, y, fieldWidth, height);
      if (painter != nullptr) {
        const double base = y + tokens.px(22);
        painter->setPen(tokens.ink);
        painter->setFont(render::font(tokens, render::Voice::Measured, 15));
        painter->drawText(QPointF(left, base),
                          QFontMetricsF(painter->font()).elidedText(row.name, Qt::ElideRight, inner * 0.44));
        painter->setPen(tokens.ink2);
        painter->setFont(render::font(tokens, render::Voice::Measured, 14));
        if (!answered) painter->drawText(QPointF(movesX, base), row.moves);
        if (row.share > 0.0 && !answered)
          painter->fillRect(QRectF(barX, y + tokens.px(10), std::max(2.0, barWidth * row.share), tokens.px(14)),
                            tokens.ink);
      }
      y += height;
    }
    return y;
  }

  store::DocumentStore& m_store;
  render::Look& m_look;
  QWidget& m_sheetWidget;
  QuestionSheet m_sheet;
  bool m_settled = true;
  std::vector<widgets::QuantityEdit*> m_fields;
};

QuestionView::QuestionView(store::DocumentStore& store, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look) {
  setObjectName(QStringLiteral("questionSheet"));
  setFocusPolicy(Qt::StrongFocus);
  m_page = new Page(store, look, *this);
  m_scroll = new QScrollArea(this);
  m_scroll->setFrameShape(QFrame::NoFrame);
  m_scroll->setWidgetResizable(false);
  m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_scroll->setFocusPolicy(Qt::NoFocus);
  m_scroll->setWidget(m_page);
}

QuestionView::~QuestionView() = default;

void QuestionView::show(const QuestionSheet& sheet, bool settled) {
  QStringList spoken{sheet.headline, sheet.body};
  for (const QString& line : sheet.formula) spoken << line;
  setAccessibleName(sheet.headline);
  setAccessibleDescription(spoken.join(QLatin1Char('\n')));
  m_page->show(sheet, settled);
  resizeEvent(nullptr);
}

widgets::QuantityEdit* QuestionView::field(const QString& name) const { return m_page->field(name); }

int QuestionView::heightFor(int width) const {
  return static_cast<int>(m_page->heightFor(width - 2 * render::kShadowReach) + render::kShadowReach + 4);
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
  if (hasFocus()) render::drawFocusRing(painter, m_look.tokens(), slip.adjusted(6, 6, -6, -6));
}

void QuestionView::resizeEvent(QResizeEvent*) {
  const int reach = static_cast<int>(render::kShadowReach);
  m_scroll->setGeometry(reach + 2, 2, width() - 2 * reach - 4, height() - reach - 4);
  const int pageWidth = m_scroll->width();
  m_page->resize(pageWidth, std::max(m_scroll->height(), static_cast<int>(m_page->heightFor(pageWidth))));
}

void QuestionView::keyPressEvent(QKeyEvent* event) {
  QScrollBar& bar = *m_scroll->verticalScrollBar();
  switch (event->key()) {
    case Qt::Key_Escape:
      Q_EMIT closed();
      return;
    case Qt::Key_Down:
      bar.setValue(bar.value() + static_cast<int>(m_look.tokens().px(40)));
      return;
    case Qt::Key_Up:
      bar.setValue(bar.value() - static_cast<int>(m_look.tokens().px(40)));
      return;
    case Qt::Key_PageDown:
      bar.setValue(bar.value() + bar.pageStep());
      return;
    case Qt::Key_PageUp:
      bar.setValue(bar.value() - bar.pageStep());
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace sunspool::questions
