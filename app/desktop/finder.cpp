// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/finder.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QPainter>
#include <QStyledItemDelegate>
#include <algorithm>
#include <utility>

#include "app/render/marks.h"

namespace sunspool::desktop {
namespace {

constexpr int kIndexRole = Qt::UserRole, kTitleRole = Qt::UserRole + 1, kWhereRole = Qt::UserRole + 2,
              kKeyRole = Qt::UserRole + 3;
constexpr double kRow = 36.0, kWidth = 640.0, kPad = 16.0;
constexpr int kRows = 9;

bool beginsAWord(const QString& text, const QString& word) {
  for (qsizetype at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1)) {
    if (at == 0 || !text[at - 1].isLetterOrNumber()) return true;
  }
  return false;
}
bool lettersInOrder(const QString& text, const QString& word) {
  qsizetype at = 0;
  for (const QChar letter : word) {
    at = text.indexOf(letter, at);
    if (at < 0) return false;
    ++at;
  }
  return true;
}

class Row : public QStyledItemDelegate {
 public:
  Row(render::Look& look, QObject* parent) : QStyledItemDelegate(parent), m_look(look) {}

  QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override {
    return {100, static_cast<int>(m_look.tokens().px(kRow))};
  }
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const render::Tokens& tokens = m_look.tokens();
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const QRectF row(option.rect);
    if (chosen) {
      painter->fillRect(row, tokens.wash);
      painter->setPen(QPen(tokens.violet, tokens.line(1.4)));
      painter->drawRect(row.adjusted(1, 1, -1, -1));
    }
    const double pad = tokens.px(10);
    const QRectF inner = row.adjusted(pad, 0, -pad, 0);
    const QString key = index.data(kKeyRole).toString(), where = index.data(kWhereRole).toString();
    const QFont keyFont = render::font(tokens, render::Voice::Engraved, 14);
    const QFont whereFont = render::font(tokens, render::Voice::Measured, 12.5);
    const QFont titleFont = render::font(tokens, render::Voice::Said, 16);
    double right = inner.right();
    const auto atRight = [&](const QString& text, const QFont& font, const QColor& colour) {
      if (text.isEmpty()) return;
      const double wide = render::textWidth(font, text);
      painter->setFont(font);
      painter->setPen(colour);
      painter->drawText(QRectF(right - wide - 1, inner.top(), wide + 2, inner.height()), Qt::AlignVCenter, text);
      right -= wide + tokens.px(18);
    };
    atRight(key, keyFont, tokens.ink);
    atRight(where, whereFont, tokens.ink2);
    painter->setFont(titleFont);
    painter->setPen(tokens.ink);
    const QString title = QFontMetricsF(titleFont).elidedText(index.data(kTitleRole).toString(), Qt::ElideRight,
                                                              std::max(0.0, right - inner.left()));
    painter->drawText(QRectF(inner.left(), inner.top(), std::max(0.0, right - inner.left()), inner.height()),
                      Qt::AlignVCenter | Qt::AlignLeft, title);
    painter->restore();
  }

 private:
  render::Look& m_look;
};

}  // namespace

std::optional<int> fitOf(const QString& typed, const Findable& findable) {
  const QString title = findable.title.toLower(), where = findable.where.toLower();
  int worst = 0;
  for (const QString& word : typed.toLower().split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
    if (title.startsWith(word)) continue;
    if (beginsAWord(title, word)) {
      worst += 1;
    } else if (title.contains(word)) {
      worst += 2;
    } else if (where.contains(word)) {
      worst += 3;
    } else if (word.size() > 1 && lettersInOrder(title, word)) {
      worst += 20;
    } else {
      return std::nullopt;
    }
  }
  return worst;
}

Finder::Finder(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
  setObjectName(QStringLiteral("finder"));
  setAccessibleName(tr("Find a command"));
  m_line = new QLineEdit(this);
  m_line->setObjectName(QStringLiteral("finder.line"));
  m_line->setAccessibleName(tr("Find a command, a question, a finding or a number"));
  m_line->setPlaceholderText(tr("a command, a question, a finding, a number"));
  m_list = new QListWidget(this);
  m_list->setObjectName(QStringLiteral("finder.list"));
  m_list->setAccessibleName(tr("What was found"));
  m_list->setItemDelegate(new Row(look, m_list));
  m_list->setFrameShape(QFrame::NoFrame);
  m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_list->setFocusPolicy(Qt::NoFocus);
  m_list->setUniformItemSizes(true);
  m_line->installEventFilter(this);
  parent->installEventFilter(this);
  connect(m_line, &QLineEdit::textEdited, this, [this] { refill(); });
  connect(m_list, &QListWidget::itemClicked, this, [this] { choose(); });
  connect(&look, &render::Look::changed, this, [this] {
    if (isVisible()) place();
  });
  hide();
}

void Finder::open(std::vector<Findable> all) {
  m_all = std::move(all);
  m_before = QApplication::focusWidget();
  m_line->clear();
  refill();
  show();
  raise();
  m_line->setFocus();
}

void Finder::closeFinder() {
  if (!isVisible()) return;
  hide();
  m_all.clear();
}

/// The keyboard goes back to where it was.
void Finder::giveBack() {
  if (m_before) m_before->setFocus();
}

void Finder::refill() {
  std::vector<std::pair<int, int>> order;
  for (std::size_t i = 0; i < m_all.size(); ++i) {
    if (const auto fit = fitOf(m_line->text(), m_all[i])) order.emplace_back(*fit, static_cast<int>(i));
  }
  std::sort(order.begin(), order.end());
  m_list->clear();
  for (const auto& [fit, index] : order) {
    const Findable& one = m_all[static_cast<std::size_t>(index)];
    auto* item = new QListWidgetItem(one.title + QStringLiteral(", ") + one.where, m_list);
    item->setData(kIndexRole, index);
    item->setData(kTitleRole, one.title);
    item->setData(kWhereRole, one.where);
    item->setData(kKeyRole, one.key);
    if (!one.key.isEmpty()) item->setData(Qt::AccessibleDescriptionRole, one.key);
  }
  if (m_list->count() > 0) m_list->setCurrentRow(0);
  m_line->setAccessibleDescription(m_list->count() == 0 ? tr("nothing found")
                                                        : tr("%n found", nullptr, m_list->count()));
  place();
}

void Finder::place() {
  const render::Tokens& tokens = m_look.tokens();
  const double reach = render::kShadowReach, pad = tokens.px(kPad);
  const double wide = std::min(tokens.px(kWidth), parentWidget()->width() - 40.0);
  const double line = tokens.px(38), row = tokens.px(kRow);
  const double most = parentWidget()->height() - 2 * reach - line - 3 * pad;
  const double rows = std::min({static_cast<double>(std::max(1, m_list->count())), static_cast<double>(kRows),
                                std::max(1.0, std::floor(most / row))});
  const double tall = line + rows * row + 2.5 * pad;
  m_line->setFont(render::font(tokens, render::Voice::Measured, 16));
  setGeometry(static_cast<int>(0.5 * (parentWidget()->width() - wide) - reach),
              static_cast<int>(std::max(0.0, tokens.px(56) - reach)), static_cast<int>(wide + 2 * reach),
              static_cast<int>(tall + 2 * reach));
  m_line->setGeometry(static_cast<int>(reach + pad), static_cast<int>(reach + pad), static_cast<int>(wide - 2 * pad),
                      static_cast<int>(line));
  m_list->setGeometry(static_cast<int>(reach + pad), static_cast<int>(reach + 1.5 * pad + line),
                      static_cast<int>(wide - 2 * pad), static_cast<int>(rows * row) + 2);
  update();
}

void Finder::choose() {
  const QListWidgetItem* item = m_list->currentItem();
  if (item == nullptr) return;
  const std::function<void()> does = m_all[item->data(kIndexRole).toUInt()].does;
  closeFinder();
  giveBack();
  does();
}

bool Finder::eventFilter(QObject* watched, QEvent* event) {
  if (watched == parentWidget()) {
    if (event->type() == QEvent::Resize && isVisible()) place();
    return QWidget::eventFilter(watched, event);
  }
  if (event->type() == QEvent::FocusOut) closeFinder();
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const auto step = [this](int rows) {
    if (m_list->count() == 0) return;
    m_list->setCurrentRow(std::clamp(m_list->currentRow() + rows, 0, m_list->count() - 1));
    m_line->setAccessibleDescription(m_list->currentItem()->text());
  };
  switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Down:
      step(1);
      return true;
    case Qt::Key_Up:
      step(-1);
      return true;
    case Qt::Key_PageDown:
      step(kRows);
      return true;
    case Qt::Key_PageUp:
      step(-kRows);
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      choose();
      return true;
    case Qt::Key_Escape:
      closeFinder();
      giveBack();
      return true;
    default:
      return QWidget::eventFilter(watched, event);
  }
}

void Finder::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double reach = render::kShadowReach;
  const QRectF slip = QRectF(rect()).adjusted(reach, reach, -reach, -reach);
  render::drawSlip(painter, m_look.tokens(), slip);
  if (m_list->count() > 0) return;
  painter.setFont(render::font(m_look.tokens(), render::Voice::Said, 16, QFont::Normal, true));
  painter.setPen(m_look.tokens().ink2);
  painter.drawText(m_list->geometry(), Qt::AlignVCenter, tr("Nothing here is called so."));
}

}  // namespace sunspool::desktop
