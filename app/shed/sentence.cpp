// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/sentence.h"

#include <QEvent>
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>

#include "app/render/marks.h"

namespace sunspool::shed {

namespace {

constexpr double kFieldLine = 36.0, kWordLine = 24.0;
constexpr double kFieldPad = Sentence::kRoom;  ///< px a field keeps free at both sides of its number

bool standsClose(const QString& word) { return !word.isEmpty() && QStringLiteral(",.;:)°").contains(word.front()); }

}  // namespace

Sentence::Sentence(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
}

int Sentence::say(const QString& words) {
  m_items.push_back({words, nullptr, nullptr});
  return static_cast<int>(m_items.size()) - 1;
}

void Sentence::change(int index, const QString& words) {
  Item& item = m_items[static_cast<std::size_t>(index)];
  if (item.words == words) return;
  item.words = words;
  updateGeometry();
  place();
  update();
}

void Sentence::put(widgets::QuantityEdit* field) {
  field->setParent(this);
  if (!m_items.empty() && m_items.back().widget != nullptr) setTabOrder(m_items.back().widget, field);
  m_items.push_back({{}, field, field});
  field->show();
}

void Sentence::put(QWidget* widget) {
  widget->setParent(this);
  m_items.push_back({{}, widget, nullptr});
  widget->show();
}

void Sentence::setVoice(render::Voice voice, double size) {
  m_voice = voice;
  m_size = size;
}

QFont Sentence::wordFont() const { return render::font(m_look.tokens(), m_voice, m_size); }

std::vector<Sentence::Atom> Sentence::atoms(double width) const {
  const double widest = width + 2.0 * kFieldPad;
  const QFont font = wordFont();
  std::vector<Atom> all;
  for (const Item& item : m_items) {
    if (item.widget != nullptr) {
      if (item.widget->isHidden()) continue;
      const bool answered = item.field != nullptr && item.field->hasBadText();
      const double wanted = item.field != nullptr ? item.field->contentWidth() : item.widget->sizeHint().width();
      all.push_back({{}, &item, 0.0, answered ? widest : std::min(wanted, widest), false});
      continue;
    }
    for (const QString& word : item.words.split(QLatin1Char(' '), Qt::SkipEmptyParts))
      all.push_back({word, nullptr, 0.0, render::textWidth(font, word), standsClose(word)});
  }
  return all;
}

std::vector<Sentence::Line> Sentence::lines(double whole) const {
  const double width = whole - 2.0 * kFieldPad;
  const render::Tokens& tokens = m_look.tokens();
  const double space = QFontMetricsF(wordFont()).horizontalAdvance(QLatin1Char(' '));
  std::vector<Line> all(1);
  double x = 0.0;
  bool afterField = false;
  for (Atom atom : atoms(width)) {
    const bool field = atom.item != nullptr;
    double gap = x == 0.0 || atom.glued ? 0.0 : space;
    if (field) gap = x == 0.0 ? -kFieldPad : std::max(0.0, space - kFieldPad);
    if (afterField && !field) gap = atom.glued ? 1.0 - kFieldPad : std::max(0.0, space - kFieldPad);
    if (afterField && field) gap = 0.0;
    if (x > 0.0 && x + gap + atom.width > width + (field ? kFieldPad : 0.0) && !atom.glued) {
      all.emplace_back();
      x = 0.0;
      gap = field ? -kFieldPad : 0.0;
    }
    atom.x = x + gap;
    x = atom.x + atom.width;
    afterField = field;
    all.back().atoms.push_back(atom);
  }
  double top = 0.0;
  for (Line& line : all) {
    line.top = top;
    line.height = tokens.px(kWordLine);
    for (const Atom& atom : line.atoms) {
      if (atom.item == nullptr) continue;
      const int needed = atom.item->field != nullptr && atom.item->field->hasBadText()
                             ? atom.item->widget->heightForWidth(static_cast<int>(atom.width))
                             : 0;
      line.height = std::max({line.height, tokens.px(kFieldLine), static_cast<double>(needed)});
    }
    top += line.height;
  }
  return all;
}

int Sentence::heightForWidth(int width) const {
  const std::vector<Line> all = lines(width);
  return static_cast<int>(all.back().top + all.back().height + 0.999);
}

QSize Sentence::sizeHint() const {
  const int width = static_cast<int>(m_look.tokens().px(320.0));
  return {width, heightForWidth(width)};
}

void Sentence::place() {
  const double fieldLine = m_look.tokens().px(kFieldLine);
  for (const Line& line : lines(width())) {
    for (const Atom& atom : line.atoms) {
      if (atom.item == nullptr) continue;
      const bool answered = atom.item->field != nullptr && atom.item->field->hasBadText();
      const double tall = answered ? line.height : fieldLine;
      atom.item->widget->setGeometry(QRectF(kFieldPad + atom.x, line.top, atom.width, tall).toAlignedRect());
    }
  }
}

void Sentence::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  const QFont font = wordFont();
  const double cap = QFontMetricsF(font).capHeight();
  painter.setFont(font);
  painter.setPen(m_voice == render::Voice::Said ? tokens.ink : tokens.ink2);
  for (const Line& line : lines(width())) {
    const bool tall = line.height >= tokens.px(kFieldLine) - 0.5;
    const double middle = line.top + tokens.px(tall ? kFieldLine : kWordLine) / 2.0;
    for (const Atom& atom : line.atoms)
      if (atom.item == nullptr) painter.drawText(QPointF(kFieldPad + atom.x, middle + cap / 2.0 - 1.0), atom.word);
  }
}

void Sentence::resizeEvent(QResizeEvent*) { place(); }

/// A field that has something to say, or another number in it, wants another place.
bool Sentence::event(QEvent* event) {
  if (event->type() == QEvent::LayoutRequest) {
    place();
    updateGeometry();
    update();
  }
  return QWidget::event(event);
}

}  // namespace sunspool::shed
