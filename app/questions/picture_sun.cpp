// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/questions/brush.h"
#include "app/questions/parts.h"

namespace sunspool::questions {
namespace {

constexpr double kRow = 27.0;

class SunPicture : public Picture {
 public:
  explicit SunPicture(std::vector<SunShareRow> rows) : m_rows(std::move(rows)) {}
  double heightFor(double, const render::Tokens& tokens) const override {
    return tokens.px(24 + kRow * static_cast<double>(m_rows.size()));
  }
  QString spoken() const override {
    QStringList rows;
    for (const SunShareRow& row : m_rows) rows << QStringLiteral("%1 %2, %3").arg(row.name, row.percent, row.value);
    return tr("Where the sun inside the frame goes: %1.").arg(rows.join(QStringLiteral("; ")));
  }

  /// One staircase: each bar begins where the one above ended, so that together they make the whole.
  void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const override {
    write(painter, {rect.left(), rect.top() + tokens.px(14)}, tr("where the sun inside the frame goes"),
          said(tokens, 14, QFont::Normal, true), tokens.ink2);
    const QFont small = measured(tokens, 13.5), bold = measured(tokens, 13.5, QFont::Bold);
    double names = 0.0;
    for (const SunShareRow& row : m_rows) names = std::max(names, render::textWidth(small, row.name));
    names = std::min(names, 0.36 * rect.width());
    const double left = rect.left() + names + tokens.px(14), right = rect.right() - tokens.px(150);
    const double top = rect.top() + tokens.px(24);
    const double bottom = top + tokens.px(kRow) * static_cast<double>(m_rows.size());
    for (int i = 0; i <= 4; ++i) {
      const double x = left + (right - left) * i / 4.0;
      line(painter, {x, top}, {x, bottom}, tokens.hair, 1.0);
    }
    double from = 0.0;
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
      const SunShareRow& row = m_rows[i];
      const double y = top + tokens.px(kRow) * static_cast<double>(i);
      const double x0 = left + (right - left) * from, x1 = left + (right - left) * (from + row.share);
      const QRectF bar(std::min(x0, x1), y + tokens.px(5), std::max(2.0, std::abs(x1 - x0)), tokens.px(17));
      write(painter, {rect.left(), y + tokens.px(19)}, elided(small, row.name, names + tokens.px(6)), small,
            tokens.ink);
      painter.setPen(QPen(tokens.ink, 1.2));
      painter.setBrush(brushOf(painter, tokens, row));
      painter.drawRect(bar);
      write(painter, {rect.right() - tokens.px(84), y + tokens.px(19)}, row.percent, bold, tokens.ink, Side::Right);
      write(painter, {rect.right(), y + tokens.px(19)}, row.value, small, tokens.ink2, Side::Right);
      from += row.share;
    }
  }

 private:
  static QBrush brushOf(QPainter& painter, const render::Tokens& tokens, const SunShareRow& row) {
    const double ratio = painter.device()->devicePixelRatioF();
    switch (row.kind) {
      case SunShareRow::Kind::ToPool:
        return render::hatchBrush(tokens, render::Hatch::ToThePool, tokens.slip, ratio);
      case SunShareRow::Kind::Reflected:
        return render::hatchBrush(tokens, render::Hatch::Shade, tokens.slip, ratio);
      case SunShareRow::Kind::Lost:
        return tokens.slip;
    }
    return Qt::NoBrush;
  }

  std::vector<SunShareRow> m_rows;
};

}  // namespace

PicturePtr sunPicture(std::vector<SunShareRow> rows) { return std::make_shared<SunPicture>(std::move(rows)); }

}  // namespace sunspool::questions
