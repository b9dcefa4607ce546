// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/price_slip.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace sunspool::panelview {

namespace {

constexpr double kPadding = 20.0;
constexpr double kTextWidth = 330.0;
constexpr double kHeadSize = 25.0;
constexpr double kColumnGap = 22.0;
constexpr double kBendWidth = 132.0;

QString tr(const char* text) { return QCoreApplication::translate("sunspool::panelview", text); }

render::NumberStyle headStyle(const render::Tokens& tokens, const SlipColumn& column) {
  render::NumberStyle style;
  style.size = kHeadSize;
  if (column.settling) {
    style.size = 17.0;
    style.weight = QFont::Normal;
    style.italic = true;
    style.colour = tokens.ink2;
  }
  return style;
}

double columnWidth(const render::Tokens& tokens, const SlipColumn& column) {
  const QFont below = render::font(tokens, render::Voice::Measured, 13.5);
  return std::max(render::numberWidth(tokens, column.head, headStyle(tokens, column)),
                  render::textWidth(below, column.below));
}

double columnsWidth(const render::Tokens& tokens, const std::vector<SlipColumn>& columns) {
  double width = 0.0;
  for (const SlipColumn& column : columns) width += columnWidth(tokens, column) + tokens.px(kColumnGap);
  return width - (columns.empty() ? 0.0 : tokens.px(kColumnGap));
}

QRectF wrapped(const QFont& font, const QString& text, double width) {
  return QFontMetricsF(font).boundingRect(QRectF(0.0, 0.0, width, 1000.0), Qt::AlignLeft | Qt::TextWordWrap, text);
}

QFont titleFont(const render::Tokens& t) { return render::font(t, render::Voice::Said, 17.0, QFont::Bold); }
QFont textFont(const render::Tokens& t) { return render::font(t, render::Voice::Measured, 14.5); }
/// Charis declares more line height than it needs.
constexpr double kSaidLineShare = 0.85;

double wordsWidth(const render::Tokens& tokens, const PriceSlip& slip) {
  return std::max(columnsWidth(tokens, slip.columns), slip.title.isEmpty() ? 0.0 : tokens.px(kTextWidth));
}

double titleHeight(const render::Tokens& tokens, const PriceSlip& slip) {
  if (slip.title.isEmpty()) return 0.0;
  return wrapped(titleFont(tokens), slip.title, wordsWidth(tokens, slip)).height() * kSaidLineShare;
}

double textHeight(const render::Tokens& tokens, const PriceSlip& slip) {
  if (slip.text.isEmpty()) return 0.0;
  return wrapped(textFont(tokens), slip.text, wordsWidth(tokens, slip)).height();
}

/// The tube at its tightest bend, end-on: true ovality inside the round it came from.
void drawEndOn(QPainter& painter, const render::Tokens& tokens, const format::Preferences& preferences,
               const results::Bend& bend, QPointF centre) {
  const double radius = tokens.px(36.0);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  QPen round(tokens.mark, tokens.line(1.2));
  round.setDashPattern({4.0, 3.0});
  painter.setBrush(Qt::NoBrush);
  painter.setPen(round);
  painter.drawEllipse(centre, radius, radius);
  const double share = std::clamp(bend.ovality, 0.0, 0.6);
  const double wall = radius * 0.2, a = radius * (1.0 + share), b = radius * (1.0 - share);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tokens.ink, wall));
  painter.drawEllipse(centre, a - wall / 2.0, b - wall / 2.0);
  painter.setPen(tokens.ink);
  const QFont engraved = render::font(tokens, render::Voice::Engraved, 15.5);
  painter.setFont(engraved);
  const auto middle = [&](const QString& text, double y) {
    painter.drawText(QPointF(centre.x() - render::textWidth(engraved, text) / 2.0, y), text);
  };
  middle(tr("R %1").arg(format::number(metres(bend.radius_m), format::LengthScale::Drawing, preferences).number),
         centre.y() + radius + tokens.px(24.0));
  const format::NumberAndUnit oval = format::number(Fact{"ovality", bend.ovality, Dimension::Percent}, preferences);
  const QFont plain = render::font(tokens, render::Voice::Measured, 13.5);
  painter.setFont(plain);
  painter.setPen(tokens.ink2);
  const QString words = tr("%1 oval").arg(oval.joined());
  painter.drawText(QPointF(centre.x() - render::textWidth(plain, words) / 2.0, centre.y() + radius + tokens.px(43.0)),
                   words);
  painter.restore();
}

SlipColumn settlingColumn() { return {{tr("settling"), {}}, {}, true}; }

}  // namespace

format::NumberAndUnit withSign(const format::NumberAndUnit& number, double value) {
  format::NumberAndUnit with = number;
  const bool isZero = std::none_of(number.number.cbegin(), number.number.cend(),
                                   [](QChar c) { return c.isNumber() && c != QLatin1Char('0'); });
  if (isZero)
    with.number = QStringLiteral("±0");
  else if (value > 0.0)
    with.number.prepend(QLatin1Char('+'));
  return with;
}

std::vector<SlipColumn> changesOf(const results::Results& before, const results::Results& now, Freshness freshness,
                                  const std::string& currency, const format::Preferences& preferences) {
  std::vector<SlipColumn> columns;
  const Length tube = now.tubeLength.value - before.tubeLength.value;
  columns.push_back({withSign(format::number(tube, format::LengthScale::Run, preferences), tube.si()),
                     format::number(now.tubeLength.value, format::LengthScale::Run, preferences).joined()});
  if (freshness == Freshness::Settling) {
    columns.push_back(settlingColumn());
    return columns;
  }
  if (now.heat && before.heat) {
    const Power heat = now.heat->toPool.value - before.heat->toPool.value;
    columns.push_back({withSign(format::number(heat, preferences), heat.si()),
                       format::number(now.heat->toPool.value, preferences).joined()});
  }
  const double money = now.buying.knownTotal - before.buying.knownTotal;
  const QString total = format::money(now.buying.knownTotal, currency).joined();
  columns.push_back({withSign(format::money(money, currency), money),
                     now.buying.unknownPrices > 0 ? tr("%1, the rest: ask").arg(total) : total});
  return columns;
}

const Snag* newSnag(const results::Results& before, const results::Results& now) {
  const auto had = [&](const Snag& snag) {
    return std::any_of(before.snags.begin(), before.snags.end(),
                       [&](const Snag& old) { return old.code == snag.code && old.state == snag.state; });
  };
  for (const Snag& snag : now.snags)
    if (snag.leftBecause.empty() && snag.state != SnagState::NotKnown && !had(snag)) return &snag;
  return nullptr;
}

QSizeF PriceSlip::size(const render::Tokens& tokens) const {
  double height = tokens.px(2.0 * kPadding) + (columns.empty() ? 0.0 : tokens.px(44.0));
  if (!title.isEmpty())
    height += tokens.px(columns.empty() ? 0.0 : 20.0) + titleHeight(tokens, *this) + textHeight(tokens, *this) +
              (text.isEmpty() ? 0.0 : tokens.px(5.0));
  double width = wordsWidth(tokens, *this) + tokens.px(2.0 * kPadding);
  if (bend) {
    width += tokens.px(kBendWidth);
    height = std::max(height, tokens.px(148.0));
  }
  return {width, height};
}

void PriceSlip::draw(QPainter& painter, const render::Tokens& tokens, const format::Preferences& preferences,
                     QPointF topLeft) const {
  const QSizeF whole = size(tokens);
  const QRectF rect(topLeft, whole);
  render::drawSlip(painter, tokens, rect, state);
  painter.save();
  double x = rect.left() + tokens.px(kPadding);
  double y = title.isEmpty() ? rect.center().y() - tokens.px(24.0) : rect.top() + tokens.px(kPadding);
  const double left = x, words = wordsWidth(tokens, *this);
  const QFont below = render::font(tokens, render::Voice::Measured, 13.5);
  for (const SlipColumn& column : columns) {
    render::drawNumber(painter, tokens, {x, y + tokens.px(20.0)}, column.head, headStyle(tokens, column));
    painter.setFont(below);
    painter.setPen(tokens.ink2);
    painter.drawText(QPointF(x, y + tokens.px(42.0)), column.below);
    x += columnWidth(tokens, column) + tokens.px(kColumnGap);
  }
  if (!columns.empty()) y += tokens.px(44.0);
  if (!title.isEmpty()) {
    if (!columns.empty()) {
      y += tokens.px(10.0);
      painter.setPen(QPen(tokens.hair, 1.0));
      painter.drawLine(QPointF(left, y), QPointF(left + words, y));
      y += tokens.px(10.0);
    }
    painter.setPen(tokens.ink);
    painter.setFont(titleFont(tokens));
    const double slack = tokens.px(2.0);
    painter.drawText(QRectF(left, y - slack, words, titleHeight(tokens, *this) / kSaidLineShare),
                     Qt::AlignLeft | Qt::TextWordWrap, title);
    y += titleHeight(tokens, *this) + tokens.px(5.0);
    painter.setFont(textFont(tokens));
    painter.drawText(QRectF(left, y, words, textHeight(tokens, *this) + 2.0), Qt::AlignLeft | Qt::TextWordWrap, text);
  }
  painter.restore();
  if (!bend) return;
  const double middle = rect.right() - tokens.px(kBendWidth) / 2.0 - tokens.px(6.0);
  painter.setPen(QPen(tokens.hair, 1.0));
  const double divider = rect.right() - tokens.px(kBendWidth);
  painter.drawLine(QPointF(divider, rect.top() + tokens.px(16.0)), QPointF(divider, rect.bottom() - tokens.px(16.0)));
  drawEndOn(painter, tokens, preferences, *bend, {middle, rect.top() + tokens.px(56.0)});
}

}  // namespace sunspool::panelview
