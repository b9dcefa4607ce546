// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/shed.h"

#include <QApplication>
#include <QKeyEvent>
#include <QPainter>
#include <QPainterPath>
#include <QScrollArea>
#include <QTimer>
#include <QVBoxLayout>
#include <utility>

#include "app/render/marks.h"

namespace sunspool::shed {

namespace {

constexpr double kWidth = 468.0, kHead = 62.0;

}  // namespace

// ---- the pull

Pull::Pull(render::Look& look, QWidget* parent) : QAbstractButton(parent), m_look(look) {
  setObjectName(QStringLiteral("shed.pull"));
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
  setOpen(false);
}

void Pull::setOpen(bool open) {
  m_open = open;
  setAccessibleName(open ? tr("Close the Shed") : tr("Open the Shed"));
  setToolTip(tr("%1 (F9)").arg(accessibleName()));
  update();
}

QSize Pull::sizeHint() const {
  return {static_cast<int>(m_look.tokens().px(32.0)), static_cast<int>(m_look.tokens().px(92.0))};
}

void Pull::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double round = tokens.px(9.0), line = tokens.line(1.4);
  QPainterPath outline(QPointF(width(), line));
  const QRectF r(line, line, width(), height() - 2.0 * line);
  outline.lineTo(r.left() + round, r.top());
  outline.quadTo(r.topLeft(), {r.left(), r.top() + round});
  outline.lineTo(r.left(), r.bottom() - round);
  outline.quadTo(r.bottomLeft(), {r.left() + round, r.bottom()});
  outline.lineTo(width(), r.bottom());
  const bool hot = hasFocus() || underMouse();
  painter.fillPath(outline, tokens.slip);
  painter.setPen(QPen(hot ? tokens.violet : tokens.ink, hot ? tokens.line(2.6) : line));
  painter.drawPath(outline);
  const QFont said = render::font(tokens, render::Voice::Said, 15.0, QFont::Normal, true);
  painter.setFont(said);
  painter.setPen(tokens.ink);
  const QString word = tr("Shed");
  painter.translate(width() / 2.0 + QFontMetricsF(said).capHeight() / 2.0 + 1.0,
                    height() / 2.0 + render::textWidth(said, word) / 2.0);
  painter.rotate(-90.0);
  painter.drawText(QPointF(0.0, 0.0), word);
}

// ---- the two headlines

class Shed::Tab : public QAbstractButton {
 public:
  Tab(render::Look& look, const QString& text, const QString& second, QWidget* parent)
      : QAbstractButton(parent), m_look(look), m_second(second) {
    setText(text);
    setAccessibleName(text);
    setToolTip(second);
    setCheckable(true);
    setAutoExclusive(true);
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setAttribute(Qt::WA_Hover);
  }
  QSize sizeHint() const override {
    double width = render::textWidth(headFont(), text());
    if (isChecked()) width += m_look.tokens().px(8.0) + render::textWidth(secondFont(), m_second);
    return {static_cast<int>(width + 14.0), static_cast<int>(m_look.tokens().px(44.0))};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const render::Tokens& tokens = m_look.tokens();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double base = height() - tokens.px(14.0);
    painter.setFont(headFont());
    painter.setPen(isChecked() ? tokens.ink : tokens.ink2);
    painter.drawText(QPointF(6.0, base), text());
    const double wide = render::textWidth(headFont(), text());
    if (isChecked()) {
      painter.setFont(secondFont());
      painter.setPen(tokens.ink2);
      painter.drawText(QPointF(6.0 + wide + tokens.px(8.0), base), m_second);
    } else {
      painter.setPen(QPen(tokens.mark, tokens.line(1.1)));
      painter.drawLine(QPointF(6.0, base + tokens.px(6.0)), QPointF(6.0 + wide, base + tokens.px(6.0)));
    }
    if (!hasFocus() && !underMouse()) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(tokens.violet, tokens.line(2.2), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.drawRect(QRectF(rect()).adjusted(1.2, 3.0, -1.2, -2.0));
  }

 private:
  QFont headFont() const {
    return render::font(m_look.tokens(), render::Voice::Said, isChecked() ? 22.0 : 16.0,
                        isChecked() ? QFont::Bold : QFont::Normal);
  }
  QFont secondFont() const { return render::font(m_look.tokens(), render::Voice::Said, 14.5, QFont::Normal, true); }
  render::Look& m_look;
  QString m_second;
};

// ---- the drawer

Shed::Shed(store::DocumentStore& store, render::Look& look, store::OwnShed own, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_own(std::move(own)) {
  setObjectName(QStringLiteral("shed"));
  setAccessibleName(tr("Shed"));
  setFocusPolicy(Qt::ClickFocus);
  m_stockTab = new Tab(look, tr("Shed"), tr("what you own or can buy"), this);
  m_designTab = new Tab(look, tr("This design"), tr("where it stands, what it is made of"), this);
  m_stockTab->setObjectName(QStringLiteral("shed.tab.stock"));
  m_designTab->setObjectName(QStringLiteral("shed.tab.design"));
  m_stockTab->setChecked(true);
  connect(m_stockTab, &QAbstractButton::clicked, this, [this] { setPage(Page::Stock); });
  connect(m_designTab, &QAbstractButton::clicked, this, [this] { setPage(Page::Design); });
  m_area = new QScrollArea(this);
  m_area->setFrameShape(QFrame::NoFrame);
  m_area->setWidgetResizable(true);
  m_area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_area->setFocusPolicy(Qt::NoFocus);
  m_area->viewport()->setAutoFillBackground(false);
  colourPaper();
  buildPages();
  connect(&store, &store::DocumentStore::changed, this, [this] { refresh(); });
  connect(&store, &store::DocumentStore::resultsChanged, this, [this] { refresh(); });
  connect(&look, &render::Look::changed, this, [this] {
    colourPaper();
    if (m_builtFor != m_look.preferences() || m_builtScale != m_look.tokens().textScale) buildPages();
    placeHead();
    update();
  });
}

void Shed::colourPaper() {
  QPalette paper = m_look.tokens().palette();
  paper.setColor(QPalette::Window, m_look.tokens().slip);
  m_area->setPalette(paper);
}

Fields::Say Shed::sayer() {
  return [this](const QString& sentence) { Q_EMIT said(sentence); };
}

void Shed::buildPages() {
  m_builtFor = m_look.preferences();
  m_builtScale = m_look.tokens().textScale;
  auto* paper = new QWidget;
  paper->setAutoFillBackground(false);
  auto* column = new QVBoxLayout(paper);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  m_stock = new StockPage(m_store, m_look, m_own, sayer(), paper);
  m_design = new DesignPage(m_store, m_look, sayer(), paper);
  m_ownPage = new OwnPage(m_store, m_look, m_own, sayer(), paper);
  for (QWidget* page :
       {static_cast<QWidget*>(m_stock), static_cast<QWidget*>(m_design), static_cast<QWidget*>(m_ownPage)})
    column->addWidget(page);
  column->addStretch(1);
  connect(m_stock, &StockPage::ownShedAsked, this, [this] { setPage(Page::Own); });
  connect(m_stock, &StockPage::rowShown, this, [this](QWidget* row) {
    QTimer::singleShot(0, row, [this, row] { m_area->ensureWidgetVisible(row, 0, 12); });
  });
  connect(m_ownPage, &OwnPage::done, this, [this] { setPage(Page::Stock); });
  m_area->setWidget(paper);
  paper->setAutoFillBackground(false);
  m_paper = paper;
  setPage(m_page);
}

void Shed::setPage(Page page) {
  const QWidget* focused = QApplication::focusWidget();
  const bool fromPaper = focused != nullptr && m_paper != nullptr && m_paper->isAncestorOf(focused);
  m_page = page;
  m_stock->setVisible(page == Page::Stock);
  m_design->setVisible(page == Page::Design);
  m_ownPage->setVisible(page == Page::Own);
  if (page == Page::Own) m_ownPage->refresh();
  (page == Page::Design ? m_designTab : m_stockTab)->setChecked(true);
  placeHead();
  refresh();
  // What had the focus is hidden now; the drawer keeps it.
  if (fromPaper) setFocus(Qt::OtherFocusReason);
}

int Shed::wantedWidth() const { return static_cast<int>(m_look.tokens().px(kWidth)); }

/// What is not seen waits until it is.
void Shed::refresh() {
  if (!isVisible()) return;
  if (m_page == Page::Stock) m_stock->refresh();
  if (m_page == Page::Design) m_design->refresh();
}

void Shed::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  refresh();
}

void Shed::placeHead() {
  const render::Tokens& tokens = m_look.tokens();
  const int left = static_cast<int>(tokens.px(16.0)), top = static_cast<int>(tokens.px(8.0));
  m_stockTab->setGeometry(QRect(QPoint(left, top), m_stockTab->sizeHint()));
  const QSize second = m_designTab->sizeHint();
  m_designTab->setGeometry(QRect(QPoint(width() - second.width() - static_cast<int>(tokens.px(13.0)), top), second));
  const int head = static_cast<int>(tokens.px(kHead)) - 6;
  m_area->setGeometry(2, head, width() - 2, height() - head);
  m_stockTab->update();
  m_designTab->update();
}

void Shed::resizeEvent(QResizeEvent*) { placeHead(); }

void Shed::keyPressEvent(QKeyEvent* event) {
  if (event->key() != Qt::Key_Escape) {
    QWidget::keyPressEvent(event);
  } else if (m_page == Page::Own) {
    setPage(Page::Stock);
  } else {
    Q_EMIT closed();
  }
}

void Shed::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.fillRect(rect(), tokens.slip);
  painter.setPen(QPen(tokens.ink, tokens.line(1.4)));
  painter.drawLine(QPointF(0.7, 0.0), QPointF(0.7, height()));
}

}  // namespace sunspool::shed
