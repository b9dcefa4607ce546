// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/question_view.h"

#include <QKeyEvent>
#include <QPainter>
#include <QPointer>
#include <QScrollArea>
#include <QScrollBar>
#include <algorithm>
#include <cmath>

#include "app/questions/brush.h"
#include "app/questions/sheet_page.h"

namespace sunspool::questions {
namespace {

constexpr int kInset = 5;  ///< room for edge and focus ring round the page

}  // namespace

/// The shadow alone: clicks go through it to what lies below.
class QuestionView::Shadow : public QWidget {
 public:
  Shadow(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setFocusPolicy(Qt::NoFocus);
    hide();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    const double reach = render::kShadowReach;
    render::drawShadow(painter, m_look.tokens(), QRectF(rect()).adjusted(reach, 0, -reach, -reach));
  }

 private:
  render::Look& m_look;
};

QuestionView::QuestionView(store::DocumentStore& store, render::Look& look, QWidget* parent)
    : QWidget(parent), m_look(look) {
  setObjectName(QStringLiteral("questionSheet"));
  setFocusPolicy(Qt::StrongFocus);
  m_shadow = new Shadow(look, parent);
  m_scroll = new QScrollArea(this);
  m_page = new SheetPage(store, look, *this, m_scroll);
  m_scroll->setFrameShape(QFrame::NoFrame);
  m_scroll->setWidgetResizable(false);
  m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_scroll->setFocusPolicy(Qt::NoFocus);
  m_scroll->setWidget(m_page);
  connect(m_page, &SheetPage::snagAsked, this, &QuestionView::snagAsked);
  connect(m_page, &SheetPage::listsAsked, this, &QuestionView::listsAsked);
}

QuestionView::~QuestionView() = default;

void QuestionView::show(const QuestionSheet& sheet, bool settled) {
  QStringList spoken{sheet.headline, sheet.body};
  if (sheet.picture != nullptr) spoken << sheet.picture->spoken();
  if (!sheet.narrow.isEmpty()) spoken << sheet.narrow;
  for (const auto* lines : {&sheet.formula, &sheet.cautions, &sheet.sources}) {
    for (const QString& line : *lines) spoken << line;
  }
  setAccessibleName(sheet.headline);
  setAccessibleDescription(spoken.join(QLatin1Char('\n')));
  m_page->show(sheet, settled);
  resizeEvent(nullptr);
}

widgets::QuantityEdit* QuestionView::field(const QString& name) const { return m_page->field(name); }
SurenessWord* QuestionView::sureness(const QString& name) const { return m_page->word(name); }
const QuestionSheet& QuestionView::sheet() const { return m_page->sheet(); }

int QuestionView::preferredWidth() const {
  const PicturePtr& picture = m_page->sheet().picture;
  const bool wide = picture != nullptr && picture->place() == Picture::Place::Beside;
  return static_cast<int>(m_look.tokens().px(wide ? 1010 : 780));
}
int QuestionView::heightFor(int width) const {
  return static_cast<int>(std::ceil(m_page->heightFor(width - 2 * kInset))) + 2 * kInset;
}

void QuestionView::setJoint(std::optional<std::pair<double, double>> joint) {
  m_joint = joint;
  update();
}

void QuestionView::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), tokens.slip);
  const QRectF edge = QRectF(rect()).adjusted(0.7, 0.7, -0.7, -0.7);
  painter.setPen(QPen(tokens.ink, 1.4));
  painter.drawPolyline(QPolygonF{edge.topLeft(), edge.bottomLeft(), edge.bottomRight(), edge.topRight()});
  if (m_joint) {
    line(painter, edge.topLeft(), {std::max(edge.left(), m_joint->first), edge.top()}, tokens.ink, 1.4);
    line(painter, {std::min(edge.right(), m_joint->second), edge.top()}, edge.topRight(), tokens.ink, 1.4);
  } else {
    line(painter, edge.topLeft(), edge.topRight(), tokens.ink, 1.4);
  }
  if (m_keyboard && hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(6, 6, -6, -6));
}

void QuestionView::placeShadow() {
  const int reach = static_cast<int>(render::kShadowReach);
  m_shadow->setGeometry(geometry().adjusted(-reach, 0, reach, reach));
  m_shadow->stackUnder(this);
  m_shadow->setVisible(isVisible());
}

void QuestionView::resizeEvent(QResizeEvent*) {
  m_scroll->setGeometry(rect().adjusted(kInset, kInset, -kInset, -kInset));
  const int bar =
      m_page->heightFor(m_scroll->width()) > m_scroll->height() ? m_scroll->verticalScrollBar()->sizeHint().width() : 0;
  const int pageWidth = m_scroll->width() - bar;
  m_page->resize(pageWidth, std::max(m_scroll->height(), static_cast<int>(m_page->heightFor(pageWidth))));
  placeShadow();
}
void QuestionView::moveEvent(QMoveEvent*) { placeShadow(); }
void QuestionView::showEvent(QShowEvent*) {
  raise();
  placeShadow();
}
void QuestionView::hideEvent(QHideEvent*) { m_shadow->hide(); }

void QuestionView::focusInEvent(QFocusEvent* event) {
  m_keyboard = event->reason() == Qt::TabFocusReason || event->reason() == Qt::BacktabFocusReason;
  QWidget::focusInEvent(event);
  update();
}
void QuestionView::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
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
