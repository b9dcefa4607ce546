// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/bars.h"

#include <QCoreApplication>
#include <QPainterPath>
#include <QPolygonF>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "app/render/marks.h"
#include "core/base/quantity.h"

namespace sunspool::daypage {
namespace {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::daypage)
};

constexpr Part kInOrder[] = {Part::ToPool, Part::Waiting, Part::ToAir, Part::NeverHeat, Part::Shade};
// Shade has one place in the day, waiting has morning and evening and is the least where room is short.
constexpr Part kLabelOrder[] = {Part::ToPool, Part::Shade, Part::ToAir, Part::NeverHeat, Part::Waiting};
constexpr double kGap_px = 1.6;            // between bars of a quarter hour
constexpr double kThinnest_px = 1.2;       // a part that would only be its own edge
constexpr double kNotWorthSaying = 0.004;  // of all the sun
constexpr double kNotWorthNaming = 0.01;   // the same in the year, without a number
constexpr double kWideEnough = 0.25;       // of a part's widest row: there it may still be named
constexpr double kNameable = 0.4;          // of a label's width: its words may begin in the part and run over the next

std::size_t at(Part part) { return static_cast<std::size_t>(part); }

/// From where to where a part lies along its row.
struct Stretch {
  double from = 0.0, to = 0.0;
};
Stretch stretchOf(const Amounts& amounts, Part part) {
  Stretch stretch;
  for (const Part before : kInOrder) {
    stretch.from = stretch.to;
    stretch.to += amounts[at(before)];
    if (before == part) break;
  }
  return stretch;
}

/// 1, 2, 2.5 or 5 times a power of ten, so that the plot has at most this many steps.
double niceStep(double whole, int steps) {
  const double raw = whole / steps, tens = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double nice : {1.0, 2.0, 2.5, 5.0}) {
    if (raw <= nice * tens * (1.0 + 1e-9)) return nice * tens;
  }
  return 10.0 * tens;
}

QString kilowattHours(double amount_J) {
  const double kWh = Energy::fromSi(amount_J).in(kilowattHour);
  return QString::number(std::abs(kWh), 'f', std::abs(kWh) < 0.995 ? 2 : 1);
}

QFont labelFont(const Canvas& canvas, QFont::Weight weight, LabelText text) {
  return render::font(canvas.tokens, render::Voice::Measured, text == LabelText::NameOnly ? 12.5 : 14, weight);
}

/// Where the words of a part may stand against its bar.
enum class Stand { Inside, Over, Beside };

/// Right end of all bars the words would lie beside.
double barsEnd(const Scale& scale, const std::vector<Row>& rows, double top, double bottom) {
  double end = scale.plot.left();
  for (const Row& row : rows) {
    if (row.bottom > top && row.top < bottom) end = std::max(end, scale.x(sumOf(row.amounts)));
  }
  return end;
}

/// A null rectangle where they may not.
QRectF labelRect(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows, const Row& row,
                 const Stretch& stretch, QSizeF size, Stand stand, bool textured) {
  const double from = scale.x(stretch.from), wide = scale.x(stretch.to) - from, pad = canvas.tokens.px(2.0);
  const double top = 0.5 * (row.top + row.bottom) - 0.5 * size.height();
  double left = from + pad;
  switch (stand) {
    case Stand::Inside:
      if (wide < size.width() + pad) return {};
      break;
    case Stand::Over:
      if (textured || wide < kNameable * size.width()) left = from - pad - size.width();
      left = std::min(left, scale.plot.right() - size.width());
      break;
    case Stand::Beside:
      left = barsEnd(scale, rows, top, top + size.height()) + canvas.tokens.px(12.0);
      break;
  }
  const QRectF rect(left, top, size.width(), size.height());
  return scale.plot.adjusted(0, 0, 1, 0).contains(rect) ? rect : QRectF();
}

/// The widest row first.
std::vector<const Row*> widestFirst(const std::vector<Row>& rows, Part part) {
  std::vector<const Row*> widest;
  for (const Row& row : rows) {
    if (row.amounts[at(part)] > 0.0) widest.push_back(&row);
  }
  std::stable_sort(widest.begin(), widest.end(),
                   [part](const Row* a, const Row* b) { return a->amounts[at(part)] > b->amounts[at(part)]; });
  return widest;
}

QRectF freePlace(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows, Part part, QSizeF size,
                 const std::vector<QRectF>& taken) {
  const std::vector<const Row*> widest = widestFirst(rows, part);
  if (widest.empty()) return {};
  // The textured parts are small: their words keep off them where they can.
  const bool textured = part == Part::Shade || part == Part::Waiting;
  const Stand texturedOrder[] = {Stand::Beside, Stand::Inside, Stand::Over};
  const Stand plainOrder[] = {Stand::Inside, Stand::Over, Stand::Beside};
  const auto tried = [&](Stand stand) {
    for (const Row* row : widest) {
      if (row->amounts[at(part)] < kWideEnough * widest.front()->amounts[at(part)]) break;
      const QRectF rect = labelRect(canvas, scale, rows, *row, stretchOf(row->amounts, part), size, stand, textured);
      if (rect.isNull()) continue;
      if (std::none_of(taken.begin(), taken.end(), [&](const QRectF& t) { return t.intersects(rect); })) return rect;
    }
    return QRectF();
  };
  QRectF rect;
  for (const Stand stand : textured ? texturedOrder : plainOrder)
    if (rect.isNull()) rect = tried(stand);
  return rect;
}

}  // namespace

double sumOf(const Amounts& amounts) { return std::accumulate(amounts.begin(), amounts.end(), 0.0); }

double mostOf(const std::vector<Row>& rows) {
  double most = 0.0;
  for (const Row& row : rows) most = std::max({most, sumOf(row.amounts), row.amounts[at(Part::ToPool)]});
  return most > 0.0 ? most : 1.0;
}

QString nameOf(Part part, double total) {
  switch (part) {
    case Part::ToPool:
      return Text::tr("to the pool");
    case Part::Waiting:
      return Text::tr("waiting");
    case Part::ToAir:
      return total < 0.0 ? Text::tr("from the air") : Text::tr("to the air");
    case Part::NeverHeat:
      return Text::tr("never heat");
    case Part::Shade:
      return Text::tr("shade");
  }
  return {};
}

QString energyText(double energy_J) {
  const QString sign = energy_J < 0.0 ? QStringLiteral("−") : QString();
  return Text::tr("%1 kWh").arg(sign + kilowattHours(energy_J));
}

QString signedEnergyText(double energy_J) {
  return (energy_J > 0.0 ? QStringLiteral("+") : QString()) + energyText(energy_J);
}

void drawAxis(const Canvas& canvas, const Scale& scale, const format::AxisUnit& unit) {
  QPainter& painter = canvas.painter;
  const QFont font = render::font(canvas.tokens, render::Voice::Measured, 12.5);
  painter.setFont(font);
  const double whole = unit.of(scale.most);
  const double step = niceStep(whole, scale.plot.width() < canvas.tokens.px(190.0) ? 3 : 4);
  for (double tick = 0.0; tick <= whole; tick += step) {
    const double x = scale.x(unit.toSi(tick));
    painter.setPen(QPen(canvas.tokens.hair, 1.0));
    painter.drawLine(QPointF(x, scale.plot.top()), QPointF(x, scale.plot.bottom()));
    const bool last = tick + step > whole;
    const QString text = last ? QStringLiteral("%1 %2").arg(tick).arg(unit.unit) : QString::number(tick);
    const double wide = render::textWidth(font, text), number = render::textWidth(font, QString::number(tick));
    const double left = tick == 0.0 ? x + 2.0 : std::min(x - 0.5 * number, scale.plot.right() - wide);
    painter.setPen(canvas.tokens.ink2);
    painter.drawText(QPointF(left, scale.plot.top() - canvas.tokens.px(8.0)), text);
  }
}

void drawBars(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows) {
  const render::Tokens& tokens = canvas.tokens;
  QPainter& painter = canvas.painter;
  const QBrush waiting = hatchBrush(tokens, render::Hatch::Waiting, tokens.slip, canvas.devicePixelRatio);
  const QBrush shade = hatchBrush(tokens, render::Hatch::Shade, tokens.slip, canvas.devicePixelRatio);
  for (const Row& row : rows) {
    const double top = row.top + 0.5 * kGap_px, height = row.bottom - row.top - kGap_px;
    const auto box = [&](Part part, const QBrush& brush, const QColor& edge) {
      const Stretch stretch = stretchOf(row.amounts, part);
      if (scale.x(stretch.to) - scale.x(stretch.from) < kThinnest_px) return;
      painter.setPen(QPen(edge, 0.8));
      painter.setBrush(brush);
      painter.drawRect(QRectF(scale.x(stretch.from), top, scale.x(stretch.to) - scale.x(stretch.from), height));
    };
    box(Part::NeverHeat, Qt::NoBrush, tokens.mark);
    box(Part::ToAir, tokens.slip, tokens.mark);
    box(Part::Shade, shade, tokens.ink);
    box(Part::Waiting, waiting, tokens.ink);
    box(Part::ToPool, tokens.straw, tokens.ink);
  }
}

void drawBefore(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows) {
  QPolygonF outline;
  for (const Row& row : rows) {
    const double x = scale.x(row.amounts[at(Part::ToPool)]);
    outline << QPointF(x, row.top) << QPointF(x, row.bottom);
  }
  canvas.painter.setBrush(Qt::NoBrush);
  canvas.painter.setPen(QPen(canvas.tokens.slip, canvas.tokens.line(3.4)));
  canvas.painter.drawPolyline(outline);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.6), Qt::DotLine));
  canvas.painter.drawPolyline(outline);
}

std::vector<PartLabel> placeLabels(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows,
                                   const Amounts& totals_J, LabelText text, std::vector<QRectF> taken) {
  std::vector<PartLabel> labels;
  const double all = sumOf(totals_J);
  for (const Part part : kLabelOrder) {
    const double total = totals_J[at(part)];
    if (std::abs(total) <= (text == LabelText::NameOnly ? kNotWorthNaming : kNotWorthSaying) * all) continue;
    PartLabel label{part, {}, nameOf(part, total), {}};
    const bool withTotal = text == LabelText::NameAndTotal;
    if (withTotal) label.value = energyText(std::abs(total));
    const QSizeF size(std::max(render::textWidth(labelFont(canvas, QFont::Bold, text), label.name),
                               render::textWidth(labelFont(canvas, QFont::Normal, text), label.value)) +
                          canvas.tokens.px(6.0),
                      canvas.tokens.px(withTotal ? 36.0 : 18.0));
    label.rect = freePlace(canvas, scale, rows, part, size, taken);
    if (label.rect.isNull()) continue;
    taken.push_back(label.rect);
    labels.push_back(label);
  }
  return labels;
}

void drawLabels(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows,
                const std::vector<PartLabel>& labels) {
  const render::Tokens& tokens = canvas.tokens;
  QPainter& painter = canvas.painter;
  for (const PartLabel& label : labels) {
    const bool onStraw = label.part == Part::ToPool;
    const double middle = label.rect.center().y();
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.top <= middle && middle < r.bottom; });
    if (row != rows.end()) {
      const Stretch stretch = stretchOf(row->amounts, label.part);
      const double centre = scale.x(0.5 * (stretch.from + stretch.to));
      if (label.rect.left() > scale.x(stretch.to)) {
        painter.setPen(QPen(tokens.ink, tokens.line(1.0)));
        painter.drawLine(QPointF(centre, middle), QPointF(label.rect.left() - tokens.px(2.0), middle));
      }
    }
    const QColor ground = onStraw ? tokens.straw : label.part == Part::ToAir ? tokens.slip : tokens.paper;
    const QColor ink = !onStraw                  ? tokens.ink
                       : tokens.isHighContrast() ? tokens.paper
                       : tokens.isDark()         ? tokens.plate
                                                 : tokens.ink;
    painter.fillRect(label.rect, ground);
    painter.setPen(ink);
    const double left = label.rect.left() + tokens.px(3.0);
    const LabelText text = label.value.isEmpty() ? LabelText::NameOnly : LabelText::NameAndTotal;
    painter.setFont(labelFont(canvas, QFont::Bold, text));
    painter.drawText(QPointF(left, label.rect.top() + tokens.px(text == LabelText::NameOnly ? 13.5 : 14.0)),
                     label.name);
    painter.setFont(labelFont(canvas, QFont::Normal, text));
    painter.drawText(QPointF(left, label.rect.top() + tokens.px(31.0)), label.value);
  }
}

}  // namespace sunspool::daypage
