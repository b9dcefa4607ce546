// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/questions/brush.h"
#include "app/questions/parts.h"

namespace sunspool::questions {
namespace {

constexpr double kRow = 50.0, kSheets = 132.0;
constexpr std::size_t kMostBars = 9;

class StockPicture : public Picture {
 public:
  explicit StockPicture(StockModel model) : m_model(std::move(model)) {
    for (const StockBar& bar : m_model.bars) {
      double& longest = bar.isRoll ? m_longestRoll : m_longestBoard;
      longest = std::max(longest, bar.length_m);
    }
  }
  double heightFor(double, const render::Tokens& tokens) const override {
    const double bars = kRow * static_cast<double>(std::min(m_model.bars.size(), kMostBars));
    return tokens.px(bars + (m_model.bars.size() > kMostBars ? 22.0 : 0.0) + (m_model.sheets.empty() ? 0.0 : kSheets));
  }
  QString spoken() const override {
    QStringList bars;
    for (const StockBar& bar : m_model.bars) {
      QStringList pieces;
      for (const StockPiece& piece : bar.pieces) pieces << piece.name;
      bars << tr("%1: %2; %3").arg(nameOf(bar), pieces.join(QStringLiteral(", ")), bar.right);
    }
    for (const StockSheetDrawn& sheet : m_model.sheets) bars << tr("a sheet for the %1").arg(sheet.name);
    return bars.join(QStringLiteral(". "));
  }

  void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const override {
    double y = rect.top();
    for (std::size_t i = 0; i < std::min(m_model.bars.size(), kMostBars); ++i) {
      paintBar(painter, tokens, {rect.left(), y, rect.width(), tokens.px(kRow)}, m_model.bars[i]);
      y += tokens.px(kRow);
    }
    if (m_model.bars.size() > kMostBars) {
      write(painter, {rect.left(), y + tokens.px(14)}, tr("and %1 more").arg(m_model.bars.size() - kMostBars),
            measured(tokens, 13), tokens.ink2);
      y += tokens.px(22);
    }
    if (!m_model.sheets.empty()) paintSheets(painter, tokens, {rect.left(), y, rect.width(), tokens.px(kSheets)});
  }

 private:
  static QString nameOf(const StockBar& bar) {
    QString name = bar.times > 1 ? tr("%1 × %2").arg(bar.times).arg(bar.name) : bar.name;
    if (bar.owned) name += tr(", in the Shed");
    return name;
  }
  void paintBar(QPainter& painter, const render::Tokens& tokens, const QRectF& strip, const StockBar& bar) const {
    const QFont small = measured(tokens, 13), bold = measured(tokens, 13, QFont::Bold);
    write(painter, {strip.left(), strip.top() + tokens.px(13)}, nameOf(bar), bold, tokens.ink);
    write(painter, {strip.right(), strip.top() + tokens.px(13)}, bar.right, small, tokens.ink, Side::Right);
    const double longest = bar.isRoll ? m_longestRoll : m_longestBoard;
    const QRectF whole(strip.left() + 1, strip.top() + tokens.px(19), (strip.width() - 2) * bar.length_m / longest,
                       tokens.px(22));
    painter.setPen(QPen(tokens.ink, 1.2, Qt::DashLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(whole);
    double x = whole.left();
    for (const StockPiece& piece : bar.pieces) {
      const QRectF box(x, whole.top(), whole.width() * piece.length_m / bar.length_m, whole.height());
      painter.setPen(QPen(bar.isRoll ? tokens.mark : tokens.ink, 1.2));
      painter.setBrush(bar.isRoll ? tokens.tape : tokens.timber);
      painter.drawRect(box);
      const QString text = elided(small, piece.name, box.width() - tokens.px(8));
      if (text.size() > 2)
        write(painter, {box.center().x(), box.center().y() + tokens.px(5)}, text, small,
              bar.isRoll ? tokens.tapePrint : tokens.ink, Side::Middle);
      x = box.right();
    }
  }
  void paintSheets(QPainter& painter, const render::Tokens& tokens, const QRectF& strip) const {
    double largest = 0.0;
    for (const StockSheetDrawn& sheet : m_model.sheets) largest = std::max({largest, sheet.width_m, sheet.height_m});
    const double room = strip.height() - tokens.px(30), perMetre = room / largest;
    const QFont small = measured(tokens, 13);
    double x = strip.left() + 1;
    for (const StockSheetDrawn& sheet : m_model.sheets) {
      const QSizeF size(sheet.width_m * perMetre, sheet.height_m * perMetre);
      if (x + size.width() > strip.right()) break;
      const QRectF whole(QPointF(x, strip.top() + tokens.px(8)), size);
      painter.setPen(QPen(tokens.ink, 1.2, Qt::DashLine));
      painter.setBrush(Qt::NoBrush);
      painter.drawRect(whole);
      painter.setPen(QPen(tokens.ink, 1.2));
      painter.setBrush(tokens.timber);
      for (const QRectF& piece : sheet.pieces) {
        painter.drawRect(QRectF(whole.left() + piece.x() * perMetre,
                                whole.bottom() - (piece.y() + piece.height()) * perMetre, piece.width() * perMetre,
                                piece.height() * perMetre));
      }
      write(painter, {whole.left(), strip.bottom() - tokens.px(6)}, sheet.name, small, tokens.ink);
      x += std::max(size.width(), render::textWidth(small, sheet.name)) + tokens.px(18);
    }
  }

  StockModel m_model;
  double m_longestRoll = 0.0, m_longestBoard = 0.0;
};

}  // namespace

PicturePtr stockPicture(StockModel model) { return std::make_shared<StockPicture>(std::move(model)); }

}  // namespace sunspool::questions
