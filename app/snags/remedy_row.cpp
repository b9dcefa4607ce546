// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/snags/remedy_row.h"

#include <QFontMetricsF>
#include <QKeyEvent>
#include <QPainter>
#include <QRegularExpression>
#include <algorithm>

#include "app/render/marks.h"
#include "app/render/paragraph.h"

namespace sunspool::snags {
namespace {

constexpr double kPad = 5.0, kTitle = 16.0, kSecond = 13.5, kPrice = 15.0;

}  // namespace

PriceColumns priceColumns(const render::Tokens& tokens) { return {tokens.px(190.0), tokens.px(96.0), tokens.px(12.0)}; }

RemedyRow::RemedyRow(render::Look& look, QWidget* parent) : QWidget(parent), m_look(look) {
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_Hover);
}

void RemedyRow::show(int number, const format::RemedyText& words, const std::optional<format::RemedyPriceText>& price) {
  m_number = number;
  m_words = words;
  m_price = price;
  const QString cost = price ? price->joined() : tr("asks for a number");
  setAccessibleName(tr("Remedy %1: %2").arg(number).arg(words.title));
  setAccessibleDescription(QStringLiteral("%1; %2").arg(words.second, cost));
  setToolTip(words.second);
  placeField();
  update();
}

void RemedyRow::setField(widgets::QuantityEdit* field) {
  if (m_field) m_field->deleteLater();
  m_field = field;
  if (field == nullptr) return;
  field->setParent(this);
  field->show();
  placeField();
}

void RemedyRow::setChosen(bool chosen) {
  if (m_chosen == chosen) return;
  m_chosen = chosen;
  update();
}

double RemedyRow::textWidth(double width) const {
  const render::Tokens& tokens = m_look.tokens();
  const double taken = m_price ? priceColumns(tokens).tube + tokens.px(62.0) : tokens.px(176.0);
  return std::max(tokens.px(80.0), width - tokens.px(36.0) - taken);
}

int RemedyRow::heightFor(int width) const {
  return static_cast<int>(layOut(nullptr, width) + m_look.tokens().px(kPad) + 1.0);
}

double RemedyRow::layOut(QPainter* painter, double width) const {
  const render::Tokens& tokens = m_look.tokens();
  const double left = tokens.px(36.0), across = textWidth(width);
  double y = tokens.px(kPad);
  const QFont title = render::font(tokens, render::Voice::Said, kTitle, QFont::Bold);
  if (painter != nullptr) {
    const QFont number = render::font(tokens, render::Voice::Measured, 17.0, QFont::Bold);
    painter->setFont(number);
    painter->setPen(tokens.ink);
    const QString text = QString::number(m_number);
    painter->drawText(QPointF(tokens.px(22.0) - render::textWidth(number, text) / 2.0, y + tokens.px(17.0)), text);
  }
  y = render::paragraph(painter, m_words.title, title, tokens.ink, {left, y}, across);
  return render::paragraph(painter, m_words.second, render::font(tokens, render::Voice::Measured, kSecond), tokens.ink2,
                           {left, y}, across);
}

void RemedyRow::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF row = QRectF(rect()).adjusted(1.0, 1.0, -1.0, -1.0);
  if (m_chosen) {
    painter.setPen(QPen(tokens.violet, tokens.line(2.0), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(tokens.wash);
    painter.drawRect(row);
    const double middle = row.center().y(), half = tokens.px(7.0);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tokens.violet);
    painter.drawPolygon(
        QPolygonF{{row.left(), middle - half}, {row.left() + half, middle}, {row.left(), middle + half}});
  } else {
    painter.setPen(QPen(tokens.hair, tokens.line(1.0)));
    painter.drawLine(row.bottomLeft(), row.bottomRight());
  }
  layOut(&painter, width());
  if (!m_price) return;
  const QFont font = render::font(tokens, render::Voice::Measured, kPrice);
  const QFont paler = render::font(tokens, render::Voice::Measured, 13.0, QFont::Normal, true);
  const PriceColumns columns = priceColumns(tokens);
  const double base = height() / 2.0 + QFontMetricsF(font).capHeight() / 2.0;
  const auto put = [&](const QString& text, double fromRight) {
    const bool isNumber = text.contains(QRegularExpression(QStringLiteral("[0-9]")));
    painter.setFont(isNumber ? font : paler);
    painter.setPen(isNumber ? tokens.ink : tokens.ink2);
    painter.drawText(QPointF(width() - fromRight - render::textWidth(painter.font(), text), base), text);
  };
  put(m_price->tube, columns.tube);
  put(m_price->heat, columns.heat);
  put(m_price->money, columns.money);
}

void RemedyRow::placeField() {
  if (!m_field) return;
  const int width_ = static_cast<int>(m_look.tokens().px(150.0));
  const int height_ = std::min(height(), std::max(m_field->sizeHint().height(), m_field->minimumSizeHint().height()));
  m_field->setGeometry(width() - width_ - static_cast<int>(m_look.tokens().px(12.0)), (height() - height_) / 2, width_,
                       height_);
}

void RemedyRow::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeField();
}

void RemedyRow::enterEvent(QEnterEvent* event) {
  QWidget::enterEvent(event);
  Q_EMIT chosen();
}
void RemedyRow::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  Q_EMIT chosen();
}
void RemedyRow::mousePressEvent(QMouseEvent* event) {
  event->accept();
  Q_EMIT chosen();
}
void RemedyRow::mouseDoubleClickEvent(QMouseEvent* event) {
  event->accept();
  Q_EMIT taken();
}
void RemedyRow::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
    Q_EMIT taken();
    return;
  }
  QWidget::keyPressEvent(event);
}

}  // namespace sunspool::snags
