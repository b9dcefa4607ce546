// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPaintDevice>
#include <QPainterPath>
#include <algorithm>

#include "app/questions/brush.h"
#include "app/questions/parts.h"

namespace sunspool::questions {
namespace {

/// The layer as a cut through the box shows it.
void drawCut(QPainter& painter, const render::Tokens& tokens, const QRectF& box, const std::string& part) {
  painter.save();
  painter.setPen(QPen(tokens.ink, 1.4));
  painter.setBrush(Qt::NoBrush);
  const QRectF slim(box.left(), box.center().y() - 0.22 * box.height(), box.width(), 0.44 * box.height());
  if (part == "glazing") {
    painter.drawRect(slim);
    for (int i = 1; i < 7; ++i) {
      const double x = slim.left() + i * slim.width() / 7;
      painter.drawLine(QPointF(x, slim.top()), QPointF(x, slim.bottom()));
    }
  } else if (part == "tube") {
    const double r = 0.26 * box.height();
    for (int i = -1; i <= 1; ++i) painter.drawEllipse(box.center() + QPointF(2.1 * r * i, 0), r, r);
  } else if (part == "plate") {
    painter.fillRect(QRectF(box.left(), box.center().y() - 2.5, box.width(), 5.0), tokens.ink);
  } else if (part == "insulation") {
    painter.drawRect(box);
    painter.setClipRect(box);
    painter.setPen(QPen(tokens.mark, 1.2));
    const double step = box.height() / 3.0, wave = box.width() / 8.0;
    for (int row = 0; row < 3; ++row) {
      QPainterPath path(QPointF(box.left(), box.top() + (row + 0.5) * step));
      for (int i = 0; i < 8; ++i) {
        const QPointF from = path.currentPosition();
        path.quadTo(from + QPointF(wave / 2, i % 2 == 0 ? step : -step), from + QPointF(wave, 0));
      }
      painter.drawPath(path);
    }
  } else {
    painter.setBrush(tokens.timber);
    painter.drawRect(slim);
    painter.setPen(QPen(tokens.grain, 1.0));
    for (int i = 1; i < 3; ++i) {
      const double y = slim.top() + i * slim.height() / 3;
      painter.drawLine(QPointF(slim.left() + 2, y), QPointF(slim.right() - 2, y));
    }
  }
  painter.restore();
}

class LedgerPicture : public Picture {
 public:
  explicit LedgerPicture(LedgerModel model) : m_model(std::move(model)) {
    for (const LedgerRow& row : m_model.rows) m_most = std::max({m_most, row.dry, row.wet, row.limit.value_or(0.0)});
    m_step = niceStep(m_most - m_model.from, 7.0);
    m_first = std::floor(m_model.from / m_step) * m_step;
    m_last = std::ceil(m_most / m_step) * m_step;
  }
  double heightFor(double, const render::Tokens& tokens) const override {
    return tokens.px(44 + kRow * static_cast<double>(m_model.rows.size()) + 4);
  }
  QString spoken() const override {
    QStringList rows;
    for (const LedgerRow& row : m_model.rows) {
      const QString limit = row.limit ? tr("limit %1").arg(plain(*row.limit, 0)) : tr("no limit known");
      rows << tr("%1: %2 dry, %3 wet, %4, %5").arg(row.name, plain(row.dry, 0), plain(row.wet, 0), limit, row.verdict);
    }
    return tr("Hottest in %1, layer by layer. %2.").arg(m_model.unit, rows.join(QStringLiteral("; ")));
  }

  void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const override {
    const bool narrow = rect.width() < tokens.px(560);
    const double left = rect.left() + tokens.px(narrow ? 118 : 192), right = rect.right() - tokens.px(150);
    const auto x = [&](double value) { return left + (value - m_first) / (m_last - m_first) * (right - left); };
    const QFont head = said(tokens, 14, QFont::Normal, true), small = measured(tokens, 13);
    const double top = rect.top() + tokens.px(44);
    if (!narrow)
      write(painter, {rect.left(), rect.top() + tokens.px(14)}, tr("cut through the box"), head, tokens.ink2);
    write(painter, {left, rect.top() + tokens.px(14)}, tr("hottest it gets, %1").arg(m_model.unit), head, tokens.ink2);
    write(painter, {rect.right(), rect.top() + tokens.px(14)}, tr("against its limit"), head, tokens.ink2, Side::Right);
    const double bottom = top + tokens.px(kRow) * static_cast<double>(m_model.rows.size());
    for (double value = m_first; value <= m_last + 0.01 * m_step; value += m_step) {
      line(painter, {x(value), top - tokens.px(6)}, {x(value), bottom}, tokens.hair, 1.0);
      write(painter, {x(value), top - tokens.px(10)}, tick(value, m_step), small, tokens.ink2, Side::Middle);
    }
    for (std::size_t i = 0; i < m_model.rows.size(); ++i) {
      const double y = top + tokens.px(kRow) * static_cast<double>(i);
      const QRectF strip(rect.left(), y, rect.width(), tokens.px(kRow));
      paintRow(painter, tokens, strip, m_model.rows[i], left, narrow, x);
      line(painter, strip.bottomLeft(), strip.bottomRight(), tokens.hair, 1.0);
    }
  }

 private:
  static constexpr double kRow = 50.0;

  template <class Scale>
  void paintRow(QPainter& painter, const render::Tokens& tokens, const QRectF& strip, const LedgerRow& row, double left,
                bool narrow, const Scale& x) const {
    const double middle = strip.center().y();
    double nameX = strip.left();
    if (!narrow) {
      drawCut(painter, tokens, {strip.left(), middle - tokens.px(15), tokens.px(56), tokens.px(30)}, row.part);
      nameX += tokens.px(70);
    }
    const QFont second = measured(tokens, 12.5);
    write(painter, {nameX, middle - tokens.px(1)}, row.name, said(tokens, 15, QFont::Bold), tokens.ink);
    write(painter, {nameX, middle + tokens.px(16)}, elided(second, row.material, left - nameX - tokens.px(10)), second,
          tokens.ink2);
    paintBar(painter, tokens, row, {left, middle - tokens.px(15), x(row.dry) - left, tokens.px(13)}, row.dry,
             tokens.straw, x);
    paintBar(painter, tokens, row, {left, middle + tokens.px(5), x(row.wet) - left, tokens.px(8)}, row.wet, tokens.slip,
             x);
    const QFont bold = measured(tokens, 14, QFont::Bold), plainFont = measured(tokens, 12.5);
    const auto value = [&](double at, double y, const QString& number, const QString& word) {
      double right = x(at);
      if (row.limit && x(*row.limit) > right - 2 && x(*row.limit) < right + tokens.px(58)) right = x(*row.limit);
      render::drawHaloText(painter, {right + tokens.px(7), y}, number, bold, tokens.ink, tokens.slip);
      render::drawHaloText(painter, {right + tokens.px(11) + render::textWidth(bold, number), y}, word, plainFont,
                           tokens.ink2, tokens.slip);
    };
    value(row.dry, middle - tokens.px(4), plain(row.dry, 0), tr("dry"));
    value(row.wet, middle + tokens.px(15), plain(row.wet, 0), tr("wet"));
    if (row.limit) paintLimit(painter, tokens, row, x(*row.limit), middle);
    paintVerdict(painter, tokens, strip, row, middle);
  }

  template <class Scale>
  void paintBar(QPainter& painter, const render::Tokens& tokens, const LedgerRow& row, const QRectF& bar,
                double hottest, const QColor& fill, const Scale& x) const {
    if (bar.width() <= 0.0) return;
    painter.setPen(QPen(tokens.ink, 1.2));
    painter.setBrush(fill);
    painter.drawRect(bar);
    if (!row.limit || hottest <= *row.limit) return;
    const QRectF over(QPointF(std::max(bar.left(), x(*row.limit)), bar.top()), bar.bottomRight());
    painter.setBrush(tokens.slip);
    painter.drawRect(over);
    painter.setBrush(
        render::hatchBrush(tokens, render::Hatch::OverLimit, tokens.slip, painter.device()->devicePixelRatioF()));
    painter.drawRect(over);
  }

  void paintLimit(QPainter& painter, const render::Tokens& tokens, const LedgerRow& row, double x,
                  double middle) const {
    line(painter, {x, middle - tokens.px(20)}, {x, middle + tokens.px(17)}, tokens.ink, 2.6);
    const QFont font = measured(tokens, 12.5);
    const QString text = plain(*row.limit, 0);
    const double width = render::textWidth(font, text), left = x - width - tokens.px(5);
    render::drawHaloText(painter, {left, middle - tokens.px(15) + tokens.px(1)}, text, font, tokens.ink, tokens.slip,
                         5.0);
    render::drawSureness(painter, tokens, {left, middle - tokens.px(10)}, width, row.limitSureness, tokens.ink);
  }

  void paintVerdict(QPainter& painter, const render::Tokens& tokens, const QRectF& strip, const LedgerRow& row,
                    double middle) const {
    const bool reached = !row.second.isEmpty();
    const QFont bold = measured(tokens, reached ? 16 : 14, QFont::Bold), small = measured(tokens, 12.5);
    const double width = std::max(render::textWidth(bold, row.verdict), tokens.px(60));
    write(painter, {strip.right(), middle - tokens.px(reached ? 5 : 1)}, row.verdict, bold, tokens.ink, Side::Right);
    render::drawStateEdge(painter, tokens, {strip.right() - width, middle + tokens.px(reached ? 0 : 5)}, width,
                          row.state, tokens.ink, render::kSmallEdge);
    if (reached) write(painter, {strip.right(), middle + tokens.px(19)}, row.second, small, tokens.ink2, Side::Right);
  }

  LedgerModel m_model;
  double m_most = 0.0, m_first = 0.0, m_last = 1.0, m_step = 1.0;
};

}  // namespace

PicturePtr ledgerPicture(LedgerModel model) { return std::make_shared<LedgerPicture>(std::move(model)); }

}  // namespace sunspool::questions
