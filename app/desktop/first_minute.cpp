// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/first_minute.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/cli/proposing.h"
#include "app/desktop/proposal_picture.h"
#include "app/format/format.h"
#include "app/render/marks.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::desktop {
namespace {

constexpr double kPad = 14.0, kLineHeight = 36.0, kWidest = 1010.0, kPictureLeast = 250.0, kWordsLeast = 120.0,
                 kPullRoom = 36.0, kEdge = 16.0;

bool isOnlyAnotherMoment(const model::Document& before, const model::Document& after) {
  model::Document moved = before;
  moved.moment = after.moment;
  return moved == after;
}

}  // namespace

model::Document panelAtNoon() {
  model::Document document = model::firstPanel();
  const Result<results::SunNow> sun = evaluate::sunNow(document);
  if (sun.has_value()) document.moment.clock_h = std::round(sun->day.noon_h * 60.0) / 60.0;
  return document;
}

struct FirstMinute::Answer {
  QString line;
  Result<std::vector<propose::Proposal>> found = Error{};
};

FirstMinute::FirstMinute(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_hub(hub), m_look(look) {
  setObjectName(QStringLiteral("firstMinute"));
  setAccessibleName(tr("Tell me what you have"));
  m_line = new QLineEdit(this);
  m_line->setObjectName(QStringLiteral("firstMinute.line"));
  m_line->setAccessibleName(tr("What you have"));
  m_line->installEventFilter(this);
  connect(m_line, &QLineEdit::textEdited, this, [this] {
    m_refused = false;
    refreshWords();
  });
  for (std::size_t i = 0; i < m_pictures.size(); ++i) {
    m_pictures[i] = new ProposalPicture(static_cast<int>(i) + 1, look, this);
    m_pictures[i]->hide();
    m_pictures[i]->installEventFilter(this);
    connect(m_pictures[i], &ProposalPicture::lookedAt, this, &FirstMinute::lookAt);
    connect(m_pictures[i], &QAbstractButton::clicked, this, [this, i] { take(static_cast<int>(i)); });
  }
  m_worker = std::make_unique<store::NewestWins<Answer>>([this](Answer answer) { receive(std::move(answer)); });
  connect(&store, &store::DocumentStore::changed, this, &FirstMinute::onChanged);
  connect(&look, &render::Look::changed, this, [this] {
    showProposals();
    refreshWords();
  });
  refreshWords();
  hide();
}

FirstMinute::~FirstMinute() = default;

void FirstMinute::begin() {
  m_open = true;
  setVisible(true);
  refreshWords();
  Q_EMIT openChanged();
  m_line->setFocus();
  m_line->selectAll();
}

void FirstMinute::fold() {
  if (!m_open) return;
  m_open = false;
  m_settling = false;
  forgetProposals();
  hide();
  Q_EMIT openChanged();
}

void FirstMinute::waitForProposals() { m_worker->finish(); }

// asking ---------------------------------------------------------------------------------------------------------

void FirstMinute::ask() {
  m_settling = true;
  m_refused = false;
  forgetProposals();
  const QString line = m_line->text();
  m_worker->submit([line, base = m_store.shared()] {
    return Answer{line, cli::proposalsFor(line.toStdString(), *base)};
  });
  refreshWords();
}

void FirstMinute::receive(Answer answer) {
  if (!m_open || !m_settling) return;
  m_settling = false;
  if (!answer.found.has_value()) return refuse(answer.found.error());
  const bool stillHere = m_line->hasFocus() && m_line->text() == answer.line;
  m_found = std::move(*answer.found);
  m_shown = std::min(m_found.size(), m_pictures.size());
  showProposals();
  refreshWords();
  if (stillHere) m_pictures.front()->setFocus();
}

void FirstMinute::showProposals() {
  const QStringList heats = cli::heatTexts(m_found, m_look.preferences());
  for (std::size_t i = 0; i < m_shown; ++i) {
    m_pictures[i]->show(std::make_shared<const propose::Proposal>(m_found[i]), heats[static_cast<int>(i)]);
    m_pictures[i]->setVisible(true);
  }
}

void FirstMinute::refuse(const Error& error) {
  m_refused = true;
  m_hint = format::sentence(error, m_look.preferences());
  const QString part = QString::fromStdString(error.detail);
  const int at = static_cast<int>(m_line->text().indexOf(part));
  if (!part.isEmpty() && at >= 0) m_line->setSelection(at, static_cast<int>(part.size()));
  refreshWords();
}

void FirstMinute::forgetProposals() {
  for (ProposalPicture* picture : m_pictures) picture->hide();
  m_shown = 0;
  m_found.clear();
  lookAt();
  refreshWords();
}

void FirstMinute::take(int index) {
  if (index < 0 || static_cast<std::size_t>(index) >= m_shown) return;
  const auto proposal = m_pictures[static_cast<std::size_t>(index)]->proposal();
  m_taking = true;
  const bool taken = m_store.apply([proposal](const model::Document&) { return proposal->design; },
                                   tr("Take a panel made of what I have"));
  m_taking = false;
  if (!taken) return;
  fold();
  Q_EMIT said(tr("The panel is taken, as one step that can be undone. What you have stands in the Shed."));
}

/// The one under the pointer, else the focused one, lies on the panel as a ghost.
void FirstMinute::lookAt() {
  ProposalPicture* looked = nullptr;
  for (std::size_t i = 0; i < m_shown; ++i) {
    if (m_pictures[i]->underMouse()) looked = m_pictures[i];
  }
  for (std::size_t i = 0; i < m_shown && looked == nullptr; ++i) {
    if (m_pictures[i]->hasFocus()) looked = m_pictures[i];
  }
  if (looked != m_looked) {
    m_looked = looked;
    refreshWords();
  }
  if (looked == nullptr) return m_hub.setGhostDesign(nullptr, {});
  const auto proposal = looked->proposal();
  m_hub.setGhostDesign(std::shared_ptr<const model::Document>(proposal, &proposal->design),
                       tr("proposal %1").arg(looked->number()));
}

void FirstMinute::onChanged(const store::DocumentChange& change) {
  if (!m_open || m_taking || isOnlyAnotherMoment(*change.before, *change.after)) return;
  fold();
}

// keys -----------------------------------------------------------------------------------------------------------

bool FirstMinute::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const int key = static_cast<QKeyEvent*>(event)->key();
  if (watched == m_line) return lineKey(key) || QWidget::eventFilter(watched, event);
  for (std::size_t i = 0; i < m_pictures.size(); ++i) {
    if (watched == m_pictures[i]) return pictureKey(static_cast<int>(i), key) || QWidget::eventFilter(watched, event);
  }
  return QWidget::eventFilter(watched, event);
}

bool FirstMinute::lineKey(int key) {
  switch (key) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      ask();
      return true;
    case Qt::Key_Escape:
      if (m_shown > 0 || m_settling) {
        m_settling = false;
        forgetProposals();
      } else {
        fold();
      }
      return true;
    case Qt::Key_Down:
      if (m_shown == 0) return false;
      m_pictures.front()->setFocus();
      return true;
    default:
      return false;
  }
}

bool FirstMinute::pictureKey(int index, int key) {
  const int last = static_cast<int>(m_shown) - 1;
  switch (key) {
    case Qt::Key_1:
    case Qt::Key_2:
    case Qt::Key_3:
      take(key - Qt::Key_1);
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      take(index);
      return true;
    case Qt::Key_Right:
    case Qt::Key_Down:
      m_pictures[static_cast<std::size_t>(std::min(index + 1, last))]->setFocus();
      return true;
    case Qt::Key_Left:
    case Qt::Key_Up:
      if (index == 0) {
        m_line->setFocus();
      } else {
        m_pictures[static_cast<std::size_t>(index - 1)]->setFocus();
      }
      return true;
    case Qt::Key_Escape:
      forgetProposals();
      m_line->setFocus();
      return true;
    default:
      return false;
  }
}

// looks ----------------------------------------------------------------------------------------------------------

void FirstMinute::refreshWords() {
  const bool metric = m_look.preferences().units == format::UnitSystem::Metric;
  m_line->setPlaceholderText(metric ? tr("sheet 1.2 x 2.4 m, roll 100 m of 20/16")
                                    : tr("sheet 4 x 8 ft, roll 250 ft of 0.700/0.600 in"));
  m_line->setFont(render::font(m_look.tokens(), render::Voice::Measured, 16));
  if (m_settling) {
    m_hint = tr("settling");
  } else if (m_shown > 0 && m_looked != nullptr && !hasPictures(width())) {
    m_hint = m_looked->text();
  } else if (m_shown > 0) {
    m_hint =
        tr("The warmest first, reckoned for the sun that is marked. A click or its number takes one; Esc goes back.");
  } else if (!m_refused) {
    m_hint = tr("Sheets, rolls, boards, a pump, a pool, with commas between. Return shows panels made of them.");
  }
  m_line->setAccessibleDescription(m_hint);
  placeParts();
  Q_EMIT heightChanged();
  update();
}

/// At the right the drawer's pull has room.
double FirstMinute::slipWidth(int width) const {
  const double room = width - kEdge - m_look.tokens().px(kPullRoom);
  return std::max(120.0, std::min(room, m_look.tokens().px(kWidest)));
}
double FirstMinute::slipLeft(int width) const {
  return kEdge + std::max(0.0, 0.5 * (width - kEdge - m_look.tokens().px(kPullRoom) - slipWidth(width)));
}
double FirstMinute::inset() const { return m_look.tokens().px(kPad); }
double FirstMinute::headingWidth() const {
  const QFont font = render::font(m_look.tokens(), render::Voice::Said, 17, QFont::Bold);
  return render::textWidth(font, tr("Tell me what you have")) + m_look.tokens().px(16);
}
bool FirstMinute::hasPictures(int width) const {
  const double room = slipWidth(width) - 2 * inset();
  return room / 3.0 >= m_look.tokens().px(kPictureLeast);
}
int FirstMinute::columnsFor(int width) const {
  const double room = slipWidth(width) - 2 * inset();
  return hasPictures(width) ? 3 : std::clamp(static_cast<int>(room / m_look.tokens().px(kWordsLeast)), 1, 3);
}
double FirstMinute::hintHeight(int width) const {
  const QFont font = render::font(m_look.tokens(), render::Voice::Said, 14.5, QFont::Normal, true);
  const double room = slipWidth(width) - 2 * inset();
  const double tall = QFontMetricsF(font).boundingRect(QRectF(0, 0, room, 4000), Qt::TextWordWrap, m_hint).height();
  // Where the hint tells what a proposal has no room for, nothing moves when another one is looked at.
  const bool tells = m_shown > 0 && !hasPictures(width);
  return tells ? std::max(tall, 2.0 * QFontMetricsF(font).lineSpacing()) : tall;
}

int FirstMinute::heightForWidth(int width) const {
  for (ProposalPicture* picture : m_pictures) picture->setWithPicture(hasPictures(width));
  const double pictures_px = m_shown == 0 ? 0.0
                                          : std::ceil(static_cast<double>(m_shown) / columnsFor(width)) *
                                                (m_pictures.front()->heightFor() + 4.0);
  return static_cast<int>(8 + 1.6 * inset() + m_look.tokens().px(kLineHeight) + 4 + hintHeight(width) + pictures_px);
}

void FirstMinute::placeParts() {
  const render::Tokens& tokens = m_look.tokens();
  const int wide = static_cast<int>(slipWidth(width()));
  const int left = static_cast<int>(slipLeft(width()) + inset());
  const int inner = wide - static_cast<int>(2 * inset());
  const int heading = static_cast<int>(headingWidth());
  const int lineHeight = static_cast<int>(tokens.px(kLineHeight));
  const int top = 8 + static_cast<int>(0.7 * inset());
  m_line->setGeometry(left + heading, top, std::max(120, inner - heading), lineHeight);
  const int columns = columnsFor(width());
  const int cell = inner / columns;
  for (ProposalPicture* picture : m_pictures) picture->setWithPicture(hasPictures(width()));
  int y = top + lineHeight + 4 + static_cast<int>(hintHeight(width())) + 4;
  for (std::size_t i = 0; i < m_pictures.size(); ++i) {
    const int column = static_cast<int>(i) % columns;
    m_pictures[i]->setGeometry(left + column * cell, y, cell - 6, m_pictures[i]->heightFor());
    if (column == columns - 1) y += m_pictures[i]->heightFor() + 4;
  }
}

void FirstMinute::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeParts();
}

void FirstMinute::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.fillRect(rect(), tokens.desk);
  painter.setRenderHint(QPainter::Antialiasing);
  const double wide = slipWidth(width());
  const QRectF slip(slipLeft(width()), 8, wide, height() - 10);
  painter.fillRect(slip, tokens.slip);
  painter.setPen(QPen(tokens.ink, tokens.line(1.4)));
  painter.drawRect(slip);
  painter.setPen(tokens.ink);
  painter.setFont(render::font(tokens, render::Voice::Said, 17, QFont::Bold));
  const QRectF row(slip.left() + inset(), m_line->y(), headingWidth(), m_line->height());
  painter.drawText(row, Qt::AlignVCenter | Qt::AlignLeft, tr("Tell me what you have"));
  painter.setFont(render::font(tokens, render::Voice::Said, 14.5, QFont::Normal, true));
  painter.setPen(m_refused ? tokens.ink : tokens.ink2);
  const QRectF hint(slip.left() + inset(), m_line->geometry().bottom() + 4, slip.width() - 2 * inset(),
                    hintHeight(width()) + 4);
  painter.drawText(hint, Qt::TextWordWrap, m_hint);
}

// the word it folds to -------------------------------------------------------------------------------------------

WordButton::WordButton(const QString& text, render::Look& look, QWidget* parent)
    : QAbstractButton(parent), m_look(look) {
  setText(text);
  setAccessibleName(text);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
  setFocusPolicy(Qt::TabFocus);
}

QSize WordButton::sizeHint() const {
  const QFont font = render::font(m_look.tokens(), render::Voice::Said, 14.5, QFont::Normal, true);
  return {static_cast<int>(render::textWidth(font, text()) + m_look.tokens().px(28)),
          static_cast<int>(m_look.tokens().px(28))};
}

void WordButton::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  QFont font = render::font(tokens, render::Voice::Said, 14.5, QFont::Normal, true);
  font.setUnderline(underMouse());
  painter.setFont(font);
  painter.setPen(hasFocus() || underMouse() ? tokens.violet : tokens.ink);
  painter.drawText(rect(), Qt::AlignCenter, text());
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(4, 4, -4, -4));
}

}  // namespace sunspool::desktop
