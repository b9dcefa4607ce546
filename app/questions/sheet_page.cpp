// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/sheet_page.h"

#include <QEvent>
#include <QPainter>
#include <algorithm>
#include <utility>

#include "app/format/axis.h"
#include "app/questions/brush.h"
#include "app/render/paragraph.h"
#include "core/model/edits.h"

namespace sunspool::questions {

using render::paragraph;

namespace {

constexpr double kPad_px = 28.0, kBesideFrom_px = 740.0;

QString objectNameOf(const InputRow& row) { return QStringLiteral("input.") + row.name; }

}  // namespace

SheetPage::SheetPage(store::DocumentStore& store, render::Look& look, QWidget& sheet, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_sheetWidget(sheet) {}

void SheetPage::show(const QuestionSheet& sheet, bool settled) {
  takeRows(sheet.inputs);
  m_sheet = sheet;
  m_settled = settled;
  for (std::size_t i = 0; i < m_rows.size(); ++i) {
    const InputRow& input = m_sheet.inputs[i];
    if (m_rows[i].word != nullptr) m_rows[i].word->show(*input.sureness, input.pointer == m_opened);
    if (m_rows[i].field->hasBadText()) continue;
    m_rows[i].field->setKind(kindOf(input));
    m_rows[i].field->setValue(input.value_si, input.sureness);
  }
  if (const InputRow* row = opened()) {
    m_choice->show(*row->sureness);
    m_spread->setKind(spreadKindOf(*row));
    m_spread->setValue(row->spread_si);
  } else {
    open({}, false);
  }
  takeDeeds();
  order();
  place();
  update();
}

widgets::QuantityEdit* SheetPage::field(const QString& name) const {
  const auto found = std::find_if(m_rows.begin(), m_rows.end(), [&](const Row& row) { return row.name == name; });
  return found != m_rows.end() ? found->field : nullptr;
}
SurenessWord* SheetPage::word(const QString& name) const {
  const auto found = std::find_if(m_rows.begin(), m_rows.end(), [&](const Row& row) { return row.name == name; });
  return found != m_rows.end() ? found->word : nullptr;
}

void SheetPage::resizeEvent(QResizeEvent*) { place(); }

/// A field that has something to say, or no longer has, wants another height.
bool SheetPage::event(QEvent* event) {
  if (event->type() == QEvent::LayoutRequest) {
    const int room = parentWidget() != nullptr ? parentWidget()->height() : 0;
    resize(width(), std::max(room, static_cast<int>(heightFor(width()))));
    place();
    update();
  }
  return QWidget::event(event);
}

// --- rows -----------------------------------------------------------------------------------------

/// A field stays with its row when the rows come in another order, with the cursor and the text in it.
void SheetPage::takeRows(const std::vector<InputRow>& inputs) {
  std::vector<Row> kept;
  for (const InputRow& input : inputs) {
    const auto old = std::find_if(m_rows.begin(), m_rows.end(), [&](const Row& row) {
      return row.field != nullptr && row.name == input.name && (row.word != nullptr) == !input.pointer.empty();
    });
    kept.push_back(old != m_rows.end() ? std::exchange(*old, Row{}) : newRow(input));
  }
  for (const Row& old : m_rows) {
    for (QWidget* widget : {static_cast<QWidget*>(old.field), static_cast<QWidget*>(old.word)}) {
      if (widget == nullptr) continue;
      widget->hide();
      widget->deleteLater();
    }
  }
  m_rows = std::move(kept);
}

SheetPage::Row SheetPage::newRow(const InputRow& input) {
  Row row{input.name, newField(input), nullptr};
  if (input.pointer.empty()) return row;
  row.word = new SurenessWord(input.name, m_look, this);
  row.word->setObjectName(QStringLiteral("sureness.") + input.name);
  connect(row.word, &QAbstractButton::clicked, this,
          [this, pointer = input.pointer] { open(pointer == m_opened ? std::string() : pointer, true); });
  row.word->setVisible(true);
  return row;
}

widgets::QuantityKind SheetPage::kindOf(const InputRow& row) const {
  widgets::QuantityKind kind;
  kind.dimension = row.dimension;
  kind.bareUnit = format::bareUnit(row.dimension, row.value_si, m_look.preferences());
  kind.text = [this, dimension = row.dimension, none = row.whenNone](double si) {
    if (!none.isEmpty()) return format::NumberAndUnit{none, {}};
    return format::number(Fact{{}, si, dimension}, m_look.preferences());
  };
  return kind;
}

widgets::QuantityKind SheetPage::spreadKindOf(const InputRow& row) const {
  InputRow spread = row;
  spread.value_si = row.spread_si;
  if (row.dimension == Dimension::Temperature) spread.dimension = Dimension::TemperatureDifference;
  return kindOf(spread);
}

widgets::QuantityEdit* SheetPage::newField(const InputRow& row) {
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

QString SheetPage::refusalOf(const InputRow& row, double si) const {
  const Result<model::Document> tried = row.edit(m_store.document(), si);
  return tried.has_value() ? QString() : format::sentence(tried.error(), m_look.preferences());
}

const InputRow* SheetPage::opened() const {
  if (m_opened.empty() || m_choice == nullptr) return nullptr;
  const auto row = std::find_if(m_sheet.inputs.begin(), m_sheet.inputs.end(),
                                [this](const InputRow& input) { return input.pointer == m_opened; });
  return row != m_sheet.inputs.end() ? &*row : nullptr;
}

/// Shows how sure one input is, below its row; the empty pointer closes it.
void SheetPage::open(const std::string& pointer, bool focus) {
  const std::string before = std::exchange(m_opened, pointer);
  for (QWidget* widget : {static_cast<QWidget*>(std::exchange(m_choice, nullptr)),
                          static_cast<QWidget*>(std::exchange(m_spread, nullptr))}) {
    if (widget == nullptr) continue;
    widget->hide();
    widget->deleteLater();
  }
  const auto row = std::find_if(m_sheet.inputs.begin(), m_sheet.inputs.end(),
                                [&](const InputRow& input) { return !pointer.empty() && input.pointer == pointer; });
  if (row == m_sheet.inputs.end()) {
    m_opened.clear();
  } else {
    m_choice = new SurenessChoice(row->name, m_look, this);
    m_choice->show(*row->sureness);
    connect(m_choice, &SurenessChoice::chosen, this, [this, pointer, name = row->name](Sureness sureness) {
      m_store.apply([=](model::Document d) { return model::withSureness(std::move(d), pointer, sureness); },
                    QObject::tr("Say %1 of %2").arg(surenessWord(sureness), name));
    });
    connect(m_choice, &SurenessChoice::closed, this, [this, pointer] {
      open({}, false);
      m_sheetWidget.setFocus();
    });
    InputRow spread = *row;
    spread.name = QObject::tr("spread of %1").arg(row->name);
    spread.value_si = row->spread_si;
    spread.whenNone.clear();
    if (row->dimension == Dimension::Temperature) spread.dimension = Dimension::TemperatureDifference;
    spread.edit = [pointer](model::Document d, double si) { return model::withSpread(std::move(d), pointer, si); };
    m_spread = newField(spread);
    m_spread->setValue(row->spread_si);
    m_choice->setVisible(true);
  }
  for (std::size_t i = 0; i < m_rows.size() && i < m_sheet.inputs.size(); ++i) {
    const InputRow& input = m_sheet.inputs[i];
    if (m_rows[i].word != nullptr) m_rows[i].word->show(*input.sureness, input.pointer == m_opened);
  }
  if (before == m_opened && m_opened.empty()) return;
  order();
  resize(width(),
         std::max(parentWidget() != nullptr ? parentWidget()->height() : 0, static_cast<int>(heightFor(width()))));
  place();
  update();
  if (focus && m_choice != nullptr) m_choice->setFocus(Qt::TabFocusReason);
}

void SheetPage::takeDeeds() {
  while (m_deeds.size() > m_sheet.deeds.size()) {
    m_deeds.back()->hide();
    m_deeds.back()->deleteLater();
    m_deeds.pop_back();
  }
  while (m_deeds.size() < m_sheet.deeds.size()) {
    auto* button = new QPushButton(this);
    const std::size_t index = m_deeds.size();
    button->setObjectName(QStringLiteral("deed.%1").arg(index));
    connect(button, &QPushButton::clicked, this, [this, index] {
      if (index >= m_sheet.deeds.size()) return;
      const Deed deed = m_sheet.deeds[index];
      if (deed.edit) m_store.apply(deed.edit, deed.text);
      if (deed.snag) Q_EMIT snagAsked(*deed.snag);
      if (deed.lists) Q_EMIT listsAsked();
    });
    button->setVisible(true);
    m_deeds.push_back(button);
  }
  for (std::size_t i = 0; i < m_deeds.size(); ++i) {
    m_deeds[i]->setText(m_sheet.deeds[i].text);
    m_deeds[i]->setAccessibleName(m_sheet.deeds[i].text);
    m_deeds[i]->setToolTip(m_sheet.deeds[i].text);
  }
}

/// The keyboard walks row by row: number, its sureness, and what is open below it; then the deeds.
void SheetPage::order() {
  std::vector<QWidget*> stops;
  for (std::size_t i = 0; i < m_rows.size(); ++i) {
    stops.push_back(m_rows[i].field);
    if (m_rows[i].word != nullptr) stops.push_back(m_rows[i].word);
    if (m_choice != nullptr && i < m_sheet.inputs.size() && m_sheet.inputs[i].pointer == m_opened) {
      stops.push_back(m_choice);
      stops.push_back(m_spread);
    }
  }
  stops.insert(stops.end(), m_deeds.begin(), m_deeds.end());
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) setTabOrder(stops[i], stops[i + 1]);
}

// --- layout and painting ----------------------------------------------------------------------------

void SheetPage::place() {
  Spots spots;
  layOut(nullptr, width(), &spots);
  for (std::size_t i = 0; i < m_rows.size() && i < spots.fields.size(); ++i) {
    const QRectF& spot = spots.fields[i];
    const int wanted = m_rows[i].field->hasBadText() ? m_rows[i].field->heightForWidth(static_cast<int>(spot.width()))
                                                     : m_rows[i].field->sizeHint().height();
    m_rows[i].field->setGeometry(QRect(static_cast<int>(spot.left()),
                                       static_cast<int>(spot.center().y() - wanted / 2.0),
                                       static_cast<int>(spot.width()), wanted));
    if (m_rows[i].word == nullptr) continue;
    m_rows[i].word->setGeometry(spots.words[i].toRect());
    m_rows[i].word->setVisible(!m_rows[i].field->hasBadText());
  }
  if (m_choice != nullptr) {
    m_choice->setGeometry(spots.choice.toRect());
    const int wanted = m_spread->hasBadText() ? m_spread->heightForWidth(static_cast<int>(spots.spread.width()))
                                              : m_spread->sizeHint().height();
    m_spread->setGeometry(QRect(static_cast<int>(spots.spread.left()), static_cast<int>(spots.spread.top()),
                                static_cast<int>(spots.spread.width()), wanted));
  }
  for (std::size_t i = 0; i < m_deeds.size() && i < spots.deeds.size(); ++i) {
    m_deeds[i]->setGeometry(spots.deeds[i].toRect());
  }
}

bool SheetPage::isBeside(double width) const {
  return m_sheet.picture != nullptr && m_sheet.picture->place() == Picture::Place::Beside &&
         width >= m_look.tokens().px(kBesideFrom_px);
}

void SheetPage::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), m_look.tokens().slip);
  layOut(&painter, width(), nullptr);
}

/// Lays the writing out, painting when a painter is given; returns the y after the last line.
double SheetPage::layOut(QPainter* painter, double width, Spots* spots) const {
  const render::Tokens& tokens = m_look.tokens();
  const double left = tokens.px(kPad_px), inner = width - 2 * left, top = tokens.px(22);
  if (!isBeside(width)) return words(painter, left, top, inner, m_sheet.picture != nullptr, spots) + tokens.px(18);
  const double column = 0.545 * inner, gap = tokens.px(48);
  const double pictureLeft = left + column + gap, pictureWidth = inner - column - gap;
  const double pictureHeight = m_sheet.picture->heightFor(pictureWidth, tokens);
  if (painter != nullptr) {
    m_sheet.picture->paint(*painter, tokens, {pictureLeft, top + tokens.px(6), pictureWidth, pictureHeight});
    const double x = left + column + gap / 2;
    painter->setPen(QPen(tokens.hair, 1.0));
    painter->drawLine(QPointF(x, top + tokens.px(4)), QPointF(x, top + pictureHeight));
  }
  const double bottom = words(painter, left, top, column, false, spots);
  return std::max(bottom, top + tokens.px(6) + pictureHeight) + tokens.px(18);
}

double SheetPage::words(QPainter* painter, double left, double top, double inner, bool pictureBelow,
                        Spots* spots) const {
  const render::Tokens& tokens = m_look.tokens();
  const auto gap = [&](double px) { return tokens.px(px); };
  const auto at = [&](double y) { return QPointF(left, y); };
  const QFont head = said(tokens, 15, QFont::Normal, true);
  double y = paragraph(painter, m_sheet.headline, said(tokens, 24, QFont::Bold), tokens.ink, at(top), inner) + gap(6);
  if (!m_settled) y = paragraph(painter, QObject::tr("settling"), head, tokens.ink2, at(y), inner);
  y = paragraph(painter, m_sheet.body, said(tokens, 16), tokens.ink, at(y), inner) + gap(12);
  if (pictureBelow) {
    const double height = m_sheet.picture->heightFor(inner, tokens);
    if (painter != nullptr) m_sheet.picture->paint(*painter, tokens, {left, y, inner, height});
    y += height + gap(16);
  }
  if (!m_sheet.lastIsResult) y = formulaLines(painter, left, y, inner);
  if (!m_sheet.lastIsResult && !m_sheet.deeds.empty()) y = deedRow(left, y, inner, spots) + gap(12);
  if (!m_sheet.inputs.empty()) y = inputRows(painter, left, y, inner, spots) + gap(10);
  if (!m_sheet.narrow.isEmpty())
    y = paragraph(painter, m_sheet.narrow, measured(tokens, 14.5), tokens.ink, at(y), inner) + gap(12);
  if (m_sheet.lastIsResult && !m_sheet.deeds.empty()) y = deedRow(left, y, inner, spots) + gap(12);
  if (m_sheet.lastIsResult) y = formulaLines(painter, left, y, inner);
  y = paragraph(painter, m_sheet.remark, measured(tokens, 14), tokens.ink2, at(y), inner) + gap(8);
  for (const QString& caution : m_sheet.cautions)
    y = paragraph(painter, caution, measured(tokens, 14, QFont::Bold), tokens.ink, at(y), inner) + gap(6);
  for (const QString& source : m_sheet.sources)
    y = paragraph(painter, source, said(tokens, 13.5, QFont::Normal, true), tokens.ink2, at(y), inner);
  return y;
}

/// The formula line by line, its result bold; or findings, all alike.
double SheetPage::formulaLines(QPainter* painter, double left, double y, double inner) const {
  if (m_sheet.formula.empty()) return y;
  const render::Tokens& tokens = m_look.tokens();
  const QString over =
      m_sheet.formulaHead.isEmpty() ? QObject::tr("The formula with your numbers") : m_sheet.formulaHead;
  y = paragraph(painter, over, said(tokens, 15, QFont::Normal, true), tokens.ink2, {left, y}, inner) + tokens.px(2);
  for (std::size_t i = 0; i < m_sheet.formula.size(); ++i) {
    const bool last = m_sheet.lastIsResult && i + 1 == m_sheet.formula.size();
    y = paragraph(painter, m_sheet.formula[i], said(tokens, 16, last ? QFont::Bold : QFont::Normal), tokens.ink,
                  {left, y}, inner) +
        tokens.px(2);
  }
  return y + tokens.px(8);
}

double SheetPage::inputRows(QPainter* painter, double left, double y, double inner, Spots* spots) const {
  const render::Tokens& tokens = m_look.tokens();
  const QFont head = said(tokens, 15, QFont::Normal, true);
  const bool anyMoves =
      std::any_of(m_sheet.inputs.begin(), m_sheet.inputs.end(), [](const InputRow& row) { return row.share > 0.0; });
  double below = paragraph(painter, QObject::tr("What it hangs on; type over a number"), head, tokens.ink2, {left, y},
                           inner * 0.68);
  if (anyMoves) {
    const QString shown = elided(head, m_sheet.moves, inner * 0.34);
    if (painter != nullptr) write(*painter, {left + inner, y + tokens.px(16)}, shown, head, tokens.ink2, Side::Right);
    below = std::max(below, y + tokens.px(21));
  }
  y = below + tokens.px(2);
  for (std::size_t i = 0; i < m_sheet.inputs.size(); ++i) y = inputRow(painter, left, y, inner, i, spots);
  return y;
}

double SheetPage::inputRow(QPainter* painter, double left, double y, double inner, std::size_t index,
                           Spots* spots) const {
  const render::Tokens& tokens = m_look.tokens();
  const InputRow& row = m_sheet.inputs[index];
  const double valueX = left + inner * 0.41, step = tokens.px(34);
  // The sentence about a number that was not taken needs the width of the rest of the row, and room below.
  const widgets::QuantityEdit* field = index < m_rows.size() ? m_rows[index].field : nullptr;
  const bool answered = field != nullptr && field->hasBadText();
  const double fieldWidth = answered ? inner * 0.59 : std::max(inner * 0.2, tokens.px(100));
  const double height = answered ? std::max<double>(step, field->heightForWidth(static_cast<int>(fieldWidth))) : step;
  if (spots != nullptr) {
    spots->fields.emplace_back(valueX, y, fieldWidth, height);
    spots->words.emplace_back(valueX + fieldWidth + tokens.px(8), y, tokens.px(70), step);
  }
  if (painter != nullptr) {
    const double base = y + tokens.px(22);
    const QFont name = measured(tokens, 15), small = measured(tokens, 13.5);
    write(*painter, {left, base}, elided(name, row.name, inner * 0.40), name, tokens.ink);
    if (row.share > 0.0 && !answered) {
      const double most = tokens.px(44), bar = std::max(2.0, most * row.share), right = left + inner;
      painter->fillRect(QRectF(right - bar, y + tokens.px(11), bar, tokens.px(12)), tokens.ink);
      const double room = right - most - valueX - fieldWidth - tokens.px(86);
      QString moves = row.moves;
      if (render::textWidth(small, moves) > room) moves = moves.section(QLatin1Char(' '), 0, 0);
      write(*painter, {right - most - tokens.px(6), base}, moves, small, tokens.ink2, Side::Right);
    }
  }
  y += height;
  if (m_choice != nullptr && row.pointer == m_opened) y = openedRow(painter, left, y, inner, spots);
  return y;
}

double SheetPage::openedRow(QPainter* painter, double left, double y, double inner, Spots* spots) const {
  const render::Tokens& tokens = m_look.tokens();
  const QSize choice = m_choice->sizeHint();
  const double spreadX = left + tokens.px(16) + choice.width() + tokens.px(40);
  const double spreadWidth = std::min(tokens.px(m_spread->hasBadText() ? 320 : 110), left + inner - spreadX);
  const double height = std::max<double>(
      choice.height(), m_spread->hasBadText() ? m_spread->heightForWidth(static_cast<int>(spreadWidth)) : 0);
  if (spots != nullptr) {
    spots->choice = QRectF(left + tokens.px(16), y, choice.width(), choice.height());
    spots->spread = QRectF(spreadX, y + tokens.px(1), spreadWidth, height);
  }
  if (painter != nullptr) {
    painter->fillRect(QRectF(left, y + tokens.px(2), tokens.px(3), height - tokens.px(4)), tokens.violet);
    write(*painter, {spreadX - tokens.px(8), y + tokens.px(24)}, QStringLiteral("±"), measured(tokens, 15), tokens.ink,
          Side::Right);
  }
  return y + height + tokens.px(4);
}

double SheetPage::deedRow(double left, double y, double inner, Spots* spots) const {
  const double gap = m_look.tokens().px(12);
  double x = left, height = 0.0;
  for (const QPushButton* button : m_deeds) {
    const QSize size = button->sizeHint();
    if (x > left && x + size.width() > left + inner) {
      x = left;
      y += height + gap / 2;
    }
    if (spots != nullptr) spots->deeds.emplace_back(x, y, size.width(), size.height());
    x += size.width() + gap;
    height = std::max<double>(height, size.height());
  }
  return y + height;
}

}  // namespace sunspool::questions
