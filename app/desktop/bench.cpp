// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/bench.h"

#include <QApplication>
#include <QEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QTimer>
#include <QVariantAnimation>
#include <algorithm>

#include "app/store/settings.h"

namespace sunspool::desktop {

/// One line of paper with a sentence, at the lower edge of the panel.
class Bench::Said : public QWidget {
 public:
  Said(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
    setObjectName(QStringLiteral("said"));
    setAttribute(Qt::WA_TransparentForMouseEvents);
    m_timer.setSingleShot(true);
    connect(&m_timer, &QTimer::timeout, this, &QWidget::hide);
    hide();
  }
  void say(const QString& sentence, const QRect& within) {
    m_sentence = sentence;
    setAccessibleName(sentence);
    placeIn(within);
    show();
    raise();
    m_timer.start(std::max(6000, static_cast<int>(sentence.size()) * 90));
  }
  void placeIn(const QRect& within) {
    const QFont font = textFont();
    const double pad = m_look.tokens().px(14);
    // Before the window has its size there is no room yet; it is placed again then.
    const double inner =
        std::max(tokenWidth(), std::min(render::textWidth(font, m_sentence), within.width() - 120.0 - 2 * pad));
    m_lines = QFontMetricsF(font).boundingRect(QRectF(0, 0, inner, 4000), Qt::TextWordWrap, m_sentence).size();
    resize(static_cast<int>(m_lines.width() + 2 * pad + 4), static_cast<int>(m_lines.height() + 1.2 * pad));
    move(within.center().x() - width() / 2, within.bottom() - height() - 14);
    update();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.fillRect(rect(), m_look.tokens().slip);
    painter.setPen(QPen(m_look.tokens().ink, 1.4));
    painter.drawRect(QRectF(rect()).adjusted(0.7, 0.7, -0.7, -0.7));
    painter.setFont(textFont());
    painter.drawText(rect().adjusted(8, 2, -8, -2), Qt::AlignCenter | Qt::TextWordWrap, m_sentence);
  }

 private:
  double tokenWidth() const { return m_look.tokens().px(200); }
  QFont textFont() const { return render::font(m_look.tokens(), render::Voice::Said, 15.5, QFont::Normal, true); }

  render::Look& m_look;
  QTimer m_timer;
  QString m_sentence;
  QSizeF m_lines;
};

Bench::Bench(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look) {
  setObjectName(QStringLiteral("bench"));
  m_sweeps = new store::SweepRunner(this, store, hub);
  m_days = new store::DayRunner(this, store);
  m_shelf = new questions::Shelf(store, look, this);
  m_dayPage = new daypage::DayPage(store, hub, look, *m_days, this);
  m_curves = new charts::LinkedCharts(store, hub, look, *m_sweeps, this);
  m_panel = new panelview::PanelView(store, hub, look, this);
  m_tape = new tape::Tape(store, hub, look, this);
  m_sheet = new questions::QuestionView(store, look, this);
  m_slip = new snags::SnagSlip(store, hub, look, this);
  m_shed = new shed::Shed(store, look, store::OwnShed(), this);
  m_pull = new shed::Pull(look, this);
  m_slide = new QVariantAnimation(this);
  m_slide->setDuration(120);
  m_slide->setEasingCurve(QEasingCurve::OutCubic);
  m_shed->hide();
  m_firstMinute = new FirstMinute(store, hub, look, this);
  m_said = new Said(look, this);
  m_sheet->hide();
  m_slip->hide();
  QWidget* const order[] = {m_shelf, m_dayPage, m_curves, m_panel, m_pull, m_shed, m_tape};
  for (std::size_t i = 0; i + 1 < std::size(order); ++i) setTabOrder(order[i], order[i + 1]);
  m_dayPage->orderTabs();

  connect(m_firstMinute, &FirstMinute::openChanged, this, [this] {
    layOut();
    if (!m_firstMinute->isOpen()) m_panel->setFocus();
  });
  connect(m_firstMinute, &FirstMinute::heightChanged, this, &Bench::layOut);
  connect(m_firstMinute, &FirstMinute::said, this, &Bench::say);
  connect(m_shelf, &questions::Shelf::asked, this, [this](questions::Question question) {
    openQuestion(m_question == question ? std::nullopt : std::optional(question));
  });
  connect(m_sheet, &questions::QuestionView::closed, this, [this] {
    openQuestion(std::nullopt);
    openNumber(std::nullopt);
  });
  connect(m_sheet, &questions::QuestionView::snagAsked, this, [this](int index) { openSnag(index); });
  connect(m_sheet, &questions::QuestionView::listsAsked, this, &Bench::listsAsked);
  connect(m_shelf, &questions::Shelf::sheetChanged, this, [this] { refreshOverlays(); });
  connect(&hub, &store::Hub::numberAsked, this, [this](store::NumberKey number) { openNumber(number); });
  connect(&store, &store::DocumentStore::beforeChanged, this, [this] { refreshOverlays(); });
  connect(m_panel, &panelview::PanelView::snagActivated, this, [this](int index) { openSnag(index); });
  connect(m_slip, &snags::SnagSlip::closed, this, [this] { openSnag(std::nullopt); });
  connect(m_slip, &snags::SnagSlip::said, this, &Bench::say);
  connect(m_slip, &snags::SnagSlip::heightChanged, this, [this] { placeOverlays(); });
  connect(m_slip, &snags::SnagSlip::moved, this, [this](int steps) { walkSnags(steps); });
  connect(m_pull, &QAbstractButton::clicked, this, [this] { m_shedOpen ? closeShed() : openShed(); });
  connect(m_shed, &shed::Shed::closed, this, [this] { closeShed(); });
  connect(m_shed, &shed::Shed::said, this, &Bench::say);
  connect(m_panel, &panelview::PanelView::said, this, &Bench::say);
  connect(m_slide, &QVariantAnimation::valueChanged, this, [this] { slideShed(); });
  connect(&hub, &store::Hub::plugChanged, this, [this](bool pulled) {
    if (pulled) setSideView(SideView::DayPage);
  });
  connect(m_days, &store::DayRunner::dayChanged, this, [this] { m_shelf->setDay(m_days->day()); });
  connect(&store, &store::DocumentStore::editRefused, this, [this](const Error& error) {
    if (!m_store.isPreviewing()) say(format::sentence(error, m_look.preferences()));
  });
  connect(&store, &store::DocumentStore::resultsChanged, this, [this] { refreshOverlays(); });
  connect(&look, &render::Look::changed, this, [this] {
    layOut();
    refreshOverlays();
    update();
  });
  m_panel->viewport()->installEventFilter(this);
  setSideView(m_sideView);
}

Bench::Heights Bench::heights() const {
  const bool large = width() >= 1600;
  const double scale = m_look.tokens().textScale;
  const Heights at100 = large ? Heights{98, 372, 318} : Heights{84, 286, 262};
  // Text may take what it needs until the panel would get less than 55 % of the window.
  const double roomiest = 0.45 * height() / (at100.shelf + at100.tape);
  const double grown = std::max(1.0, std::min(scale, std::max(roomiest, 1.0)));
  return {static_cast<int>(at100.shelf * std::max(grown, std::min(scale, 1.3))),
          static_cast<int>(at100.side * std::min(scale, 1.4)), static_cast<int>(at100.tape * grown)};
}

QRect Bench::crook() const {
  const Heights h = heights();
  return {h.side, h.shelf, width() - h.side, height() - h.shelf - h.tape};
}

QRect Bench::shedPlace() const {
  const QRect middle = crook();
  const int width_ = std::min(m_shed->wantedWidth(), std::max(middle.width() - 320, middle.width() / 2));
  return {middle.right() + 1 - width_, middle.top(), width_, middle.height()};
}

QRect Bench::panelPlace() const {
  QRect middle = crook();
  if (m_shedOpen) middle.setRight(shedPlace().left() - 1);
  if (m_firstMinute->isOpen())
    middle.setTop(middle.top() + std::min(middle.height(), m_firstMinute->heightForWidth(middle.width())));
  return middle;
}

void Bench::slideShed() {
  const QRect open = shedPlace();
  const double still = m_slide->state() == QAbstractAnimation::Running ? m_slide->currentValue().toDouble() : 0.0;
  const double away = m_shedOpen ? still : 1.0 - still;
  m_shed->setGeometry(open.translated(static_cast<int>(away * open.width()), 0));
  const QSize pull = m_pull->sizeHint();
  const int edge = m_shedOpen || m_shed->isVisible() ? m_shed->x() + 1 : open.right() + 1;
  m_pull->setGeometry(edge - pull.width(), open.bottom() - pull.height() - pull.width() / 2, pull.width(),
                      pull.height());
  m_pull->raise();
}

void Bench::openShed(shed::Shed::Page page) {
  m_shed->setPage(page);
  if (m_shedOpen) return;
  m_shedOpen = true;
  m_pull->setOpen(true);
  m_shed->show();
  m_shed->raise();
  layOut();
  if (isVisible() && store::Settings().motion()) {
    m_slide->setStartValue(1.0);
    m_slide->setEndValue(0.0);
    m_slide->start();
  }
  slideShed();
  m_shed->setFocus(Qt::OtherFocusReason);
  Q_EMIT shedOpenedOrClosed();
}

void Bench::closeShed() {
  if (!m_shedOpen) return;
  const bool hadFocus = m_shed->hasFocus() || (focusWidget() != nullptr && m_shed->isAncestorOf(focusWidget()));
  m_slide->stop();
  m_shedOpen = false;
  m_pull->setOpen(false);
  if (hadFocus) m_panel->setFocus();
  m_shed->hide();
  layOut();
  Q_EMIT shedOpenedOrClosed();
}

void Bench::layOut() {
  const Heights h = heights();
  const QRect middle = crook();
  m_shelf->setGeometry(0, 0, width(), h.shelf);
  const QRect side(0, h.shelf, h.side, middle.height());
  m_dayPage->setGeometry(side);
  m_curves->setGeometry(side);
  const QRect place = panelPlace();
  m_panel->setGeometry(place);
  m_firstMinute->setGeometry(place.left(), middle.top(), place.width(), place.top() - middle.top());
  slideShed();
  m_tape->setGeometry(0, height() - h.tape, width(), h.tape);
  m_tape->setSideWidth(h.side);
  placeOverlays();
}

void Bench::refreshOverlays() {
  if (isSheetOpen()) {
    showSheet();
    placeOverlays();
  }
  if (m_slip->isVisible()) placeOverlays();
}

void Bench::placeOverlays() {
  const QRect middle = crook();
  m_said->placeIn(panelPlace());
  if (m_sheet->isVisible() && isSheetOpen()) {
    // Opened paper may lie over the strips, never over the tube itself.
    const int foot = m_tape->y() + static_cast<int>(m_tape->placement().body.top()) - 8;
    const int width_ = std::min(width() - 20, m_sheet->preferredWidth());
    const QRect piece = m_question ? m_shelf->piece(*m_question)->geometry() : QRect();
    const int top = m_shelf->geometry().bottom() + (m_question ? 0 : 14);
    const int wish = m_question ? piece.left() : middle.center().x() - width_ / 2;
    const int x = std::clamp(wish, 10, width() - width_ - 10);
    m_sheet->setGeometry(x, top, width_, std::min(m_sheet->heightFor(width_), foot - top));
    m_sheet->setJoint(m_question ? std::optional(std::pair<double, double>(piece.left() - x, piece.right() + 1 - x))
                                 : std::nullopt);
    m_sheet->raise();
  }
  if (m_slip->isVisible()) {
    const int width_ =
        std::min(middle.width() - 20, static_cast<int>(m_look.tokens().px(600) + 2 * render::kShadowReach));
    // Over the strips where it must, never over the Tape's own row.
    const int lowest = m_tape->geometry().bottom() - static_cast<int>(m_look.tokens().px(72)) - middle.top();
    const int height_ = std::min(m_slip->heightFor(width_), std::max(middle.height(), lowest));
    // At the far side from its place; beside the drawer where there is room, else over it.
    const int right = std::max(panelPlace().right(), middle.left() + width_);
    const auto place = m_slip->openIndex() ? m_panel->placeOfSnag(*m_slip->openIndex()) : std::nullopt;
    const bool atLeft = place && place->x() > 0.5 * m_panel->width();
    m_slip->setGeometry(atLeft ? middle.left() : right - width_, middle.top(), width_, height_);
    m_panel->setCovered(m_slip->geometry().translated(-m_panel->pos()));
    m_slip->raise();
  }
}

void Bench::showSheet() {
  m_sheet->show(m_question ? m_shelf->sheetOf(*m_question) : m_shelf->numberSheetOf(*m_number), m_store.isSettled());
}

void Bench::openQuestion(std::optional<questions::Question> question) {
  const bool wasOpen = m_question.has_value();
  if (m_question != question || m_number) m_sheet->show({}, true);  // what was typed and not taken stays with its sheet
  if (question) m_number.reset();
  m_question = question;
  m_shelf->setOpened(question);
  m_shelf->setSheetWanted(isSheetOpen());
  if (!question) {
    m_sheet->setVisible(isSheetOpen());
    if (wasOpen && !m_number) m_panel->setFocus();
    return;
  }
  openSnag(std::nullopt);
  showSheet();
  m_sheet->setVisible(true);
  placeOverlays();
  if (!wasOpen) m_sheet->setFocus();
}

/// The sheet of one number; the focus goes back to where the number stands.
void Bench::openNumber(std::optional<store::NumberKey> number) {
  const bool wasOpen = m_number.has_value();
  if (!number) {
    m_number.reset();
    m_shelf->setSheetWanted(isSheetOpen());
    m_sheet->setVisible(isSheetOpen());
    if (!wasOpen || m_question) return;
    m_sheet->show({}, true);
    QWidget* back = m_askedFrom != nullptr && m_askedFrom->isVisible() ? m_askedFrom.data() : m_panel;
    back->setFocus();
    return;
  }
  if (!wasOpen) m_askedFrom = QApplication::focusWidget();
  openSnag(std::nullopt);
  openQuestion(std::nullopt);
  if (m_number != number) m_sheet->show({}, true);
  m_number = number;
  m_shelf->setSheetWanted(true);
  showSheet();
  m_sheet->setVisible(true);
  placeOverlays();
  m_sheet->setFocus();
}

void Bench::openSnag(std::optional<int> index) {
  const bool wasOpen = m_slip->isVisible();
  if (!index) {
    m_slip->hide();
    m_panel->setCovered({});
    if (wasOpen && !isSheetOpen()) m_panel->setFocus();
    return;
  }
  openQuestion(std::nullopt);
  openNumber(std::nullopt);
  m_slip->setVisible(true);
  m_slip->open(*index);
  placeOverlays();
  if (m_slip->isVisible()) m_slip->setFocus();
}

void Bench::walkSnags(int steps) {
  const int count = static_cast<int>(m_store.results()->snags.size());
  if (count == 0) {
    say(tr("Nothing found."));
    return;
  }
  const std::optional<int> open = m_slip->isVisible() ? m_slip->openIndex() : std::nullopt;
  openSnag(open ? (*open + steps + count) % count : 0);
}

void Bench::setSideView(SideView view) {
  m_sideView = view;
  m_curves->setVisible(view == SideView::DesignCurves);
  m_dayPage->setVisible(view == SideView::DayPage);
  Q_EMIT sideViewChanged();
}

void Bench::say(const QString& sentence) { m_said->say(sentence, panelPlace()); }

/// A click beside an opened sheet closes it; the click itself still does what it does there.
bool Bench::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::MouseButtonPress && isSheetOpen()) {
    openQuestion(std::nullopt);
    openNumber(std::nullopt);
  }
  return QWidget::eventFilter(watched, event);
}

/// What nobody else had a use for: Escape closes the drawer.
void Bench::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape && m_shedOpen) {
    closeShed();
    return;
  }
  QWidget::keyPressEvent(event);
}

void Bench::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  layOut();
}

void Bench::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), m_look.tokens().paper);
}

}  // namespace sunspool::desktop
