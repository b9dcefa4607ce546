// SPDX-License-Identifier: GPL-3.0-or-later
#include <QDate>
#include <QFontMetricsF>
#include <QLinearGradient>
#include <QLocale>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/daypage/day_page.h"
#include "app/daypage/stopped_curve.h"
#include "app/format/axis.h"
#include "app/render/marks.h"

namespace sunspool::daypage {
namespace {

constexpr double kMinute_h = 1.0 / 60.0;
constexpr double kQuarter_h = 0.25;
constexpr int kMonths = 12;

Amounts amountsOf(const evaluate::DayQuarter& bar) {
  return {bar.toPool_W, bar.waiting_W, bar.lost_W, bar.reflected_W, bar.shade_W};
}
Amounts amountsOf(const evaluate::DayEnergies& sums) {
  return {sums.toPool.si(), sums.waiting.si(), sums.lost.si(), sums.reflected.si(), sums.shade.si()};
}

}  // namespace

// --- where things stand -----------------------------------------------------------------------------

DayPage::Span DayPage::span() const {
  Span span;
  const auto day = m_days.day();
  if (day && !day->quarters.empty()) {
    span.from_h = std::floor(day->quarters.front().clock_h - 0.5);
    span.to_h = std::ceil(day->quarters.back().clock_h + 0.75);
  }
  const double now = m_store.document().moment.clock_h;
  span.from_h = std::max(0.0, std::min(span.from_h, std::floor(now)));
  span.to_h = std::min(24.0, std::max(span.to_h, std::ceil(now + 0.01)));
  return span;
}

double DayPage::ruleWidth() const { return m_look.tokens().px(width() < m_look.tokens().px(330) ? 50 : 62); }
/// Of the numbers at the right: the water's way out, or the month's sum.
double DayPage::columnWidth() const { return m_look.tokens().px(width() < m_look.tokens().px(330) ? 38 : 46); }
double DayPage::top() const { return m_look.tokens().px(68); }
double DayPage::bottom() const { return height() - footHeight(); }

QFont DayPage::footFont() const { return render::font(m_look.tokens(), render::Voice::Said, 14, QFont::Normal); }

double DayPage::footHeight() const {
  const auto& tokens = m_look.tokens();
  const double words = tokens.px(42);
  if (view() != View::PlugOut) return words;
  const QRectF room(0, 0, width() - tokens.px(30), 4000);
  return words + QFontMetricsF(footFont()).boundingRect(room, Qt::TextWordWrap, footText()).height() + tokens.px(34);
}

QRectF DayPage::plot() const {
  const double right =
      width() - m_look.tokens().px(12) - (view() == View::PlugOut ? m_look.tokens().px(30) : columnWidth());
  return {ruleWidth(), top(), right - ruleWidth(), bottom() - top()};
}

double DayPage::yOf(double clock_h) const {
  const Span s = span();
  return top() + (clock_h - s.from_h) / (s.to_h - s.from_h) * (bottom() - top());
}

double DayPage::yOfMonth(int month) const { return top() + (month - 0.5) / kMonths * (bottom() - top()); }

double DayPage::clockAt(double y) const {
  const Span s = span();
  const double clock = s.from_h + (y - top()) / (bottom() - top()) * (s.to_h - s.from_h);
  return std::clamp(std::round(clock / (5 * kMinute_h)) * 5 * kMinute_h, 0.0, 24.0 - kMinute_h);
}

QRectF DayPage::flagRect() const {
  const double clock = m_store.document().moment.clock_h;
  const QSizeF size = render::flagSize(m_look.tokens(), format::clock(clock), 14);
  return {width() - 8 - size.width(), yOf(clock) - size.height() / 2, size.width(), size.height()};
}

int DayPage::hoursApart() const {
  const Span s = span();
  return bottom() - top() < m_look.tokens().px(24) * (s.to_h - s.from_h) ? 3 : 1;
}

// --- the page ---------------------------------------------------------------------------------------

void DayPage::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), tokens.paper);
  painter.setPen(QPen(tokens.hair, 1.5));
  painter.drawLine(QPointF(width() - 0.75, 0), QPointF(width() - 0.75, height()));
  paintHead(painter);
  paintFoot(painter);
  const Canvas canvas{painter, tokens, m_look.preferences(), devicePixelRatioF()};
  const QString why = noBars();
  if (view() == View::Months) {
    paintChosenMonth(painter);
    paintMonthNames(painter);
    if (why.isEmpty()) paintMonths(canvas);
  } else {
    if (why.isEmpty() && view() == View::Hours) paintHours(canvas);
    if (why.isEmpty() && view() == View::PlugOut)
      drawStopped(
          canvas, plot(), *m_days.stopped(), [this](double hour) { return yOf(hour); },
          m_store.document().moment.clock_h);
    paintRule(painter);
    paintSun(painter);
  }
  if (!why.isEmpty()) paintNoBars(painter, why);
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(6, 6, -7, -6));
}

void DayPage::paintHead(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const auto& moment = m_store.document().moment;
  const QFont title = render::font(tokens, render::Voice::Said, 18, QFont::Bold);
  const QString name = view() == View::Months    ? tr("Months")
                       : view() == View::PlugOut ? tr("Plug out")
                                                 : tr("Day page");
  painter.setPen(tokens.ink);
  painter.setFont(title);
  painter.drawText(QPointF(tokens.px(16), tokens.px(26)), name);
  const QString date = QLocale().toString(QDate(moment.year, moment.month, moment.day), tr("d MMMM"));
  const QFont small = render::font(tokens, render::Voice::Measured, 14);
  const double left = tokens.px(16) + render::textWidth(title, name) + tokens.px(10);
  painter.setFont(small);
  painter.setPen(tokens.ink2);
  painter.drawText(QPointF(left, tokens.px(26)),
                   QFontMetricsF(small).elidedText(date, Qt::ElideRight, m_clear->x() - left - tokens.px(4)));
}

void DayPage::paintFoot(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const double pad = tokens.px(16);
  if (view() == View::PlugOut) {
    const QRectF room(pad, bottom() + tokens.px(10), width() - tokens.px(30), footHeight());
    painter.setFont(footFont());
    painter.setPen(tokens.ink);
    QRectF used;
    painter.drawText(room, Qt::TextWordWrap, footText(), &used);
    painter.setFont(render::font(tokens, render::Voice::Measured, 12.5));
    painter.setPen(tokens.ink2);
    if (!footText().isEmpty())
      painter.drawText(QPointF(pad, used.bottom() + tokens.px(17)), tr("as if the sun stood still; time to a third"));
    return;
  }
  const QFont font = render::font(tokens, render::Voice::Measured, 13.5);
  const QString text = footText();
  const double right = width() - tokens.px(14), baseline = m_fold->y() + 0.5 * m_fold->height() + tokens.px(4);
  const double wide = render::textWidth(font, text);
  painter.setFont(font);
  painter.setPen(view() == View::Months ? tokens.ink2 : tokens.ink);
  painter.drawText(QPointF(right - wide, baseline), text);
  if (view() != View::Hours || !m_days.dayBefore()) return;
  painter.setPen(QPen(tokens.ink, tokens.line(1.6), Qt::DotLine));
  const double end = right - wide - tokens.px(6);
  painter.drawLine(QPointF(end - tokens.px(20), baseline - tokens.px(4)), QPointF(end, baseline - tokens.px(4)));
}

void DayPage::paintNoBars(QPainter& painter, const QString& why) const {
  painter.setFont(render::font(m_look.tokens(), render::Voice::Said, 15, QFont::Normal, true));
  painter.setPen(m_look.tokens().ink2);
  painter.drawText(QRectF(ruleWidth() + 16, top(), width() - ruleWidth() - 32, bottom() - top()),
                   Qt::AlignCenter | Qt::TextWordWrap, why);
}

void DayPage::paintColumn(const Canvas& canvas, double y, const QString& text) const {
  const QFont font = render::font(canvas.tokens, render::Voice::Measured, 13);
  canvas.painter.setFont(font);
  canvas.painter.setPen(canvas.tokens.ink2);
  canvas.painter.drawText(
      QPointF(width() - canvas.tokens.px(12) - render::textWidth(font, text), y + canvas.tokens.px(4.5)), text);
}

void DayPage::paintColumnHead(const Canvas& canvas, const QString& text) const {
  const QFont font = render::font(canvas.tokens, render::Voice::Measured, 12.5);
  canvas.painter.setFont(font);
  canvas.painter.setPen(canvas.tokens.ink2);
  canvas.painter.drawText(
      QPointF(width() - canvas.tokens.px(12) - render::textWidth(font, text), top() - canvas.tokens.px(8)), text);
}

Scale DayPage::scaleOf(const std::vector<Row>& rows) const { return {plot(), mostOf(rows)}; }

// --- hours ------------------------------------------------------------------------------------------

std::vector<Row> DayPage::hourRows(const evaluate::Day& day) const {
  std::vector<Row> rows;
  for (const auto& bar : day.quarters)
    rows.push_back({yOf(bar.clock_h), yOf(bar.clock_h + kQuarter_h), amountsOf(bar)});
  return rows;
}

std::vector<PartLabel> DayPage::labels() const {
  if (!noBars().isEmpty() || view() == View::PlugOut) return {};
  QPixmap nothing(1, 1);
  QPainter painter(&nothing);
  const Canvas canvas{painter, m_look.tokens(), m_look.preferences(), 1.0};
  if (view() == View::Months) {
    const std::vector<Row> rows = monthRows();
    Amounts year{};
    for (const Row& row : rows)
      for (std::size_t part = 0; part < kParts; ++part) year[part] += row.amounts[part];
    // The months have no common total that would mean anything.
    return placeLabels(canvas, scaleOf(rows), rows, year, LabelText::NameOnly, {});
  }
  const auto day = m_days.day();
  const std::vector<Row> rows = hourRows(*day);
  const double now = yOf(m_store.document().moment.clock_h), reach = m_look.tokens().px(5);
  const QRectF line(ruleWidth(), now - reach, width(), 2 * reach);
  return placeLabels(canvas, scaleOf(rows), rows, amountsOf(*day), LabelText::NameAndTotal,
                     {flagRect().adjusted(-6, -4, 8, 4), line});
}

void DayPage::paintHours(const Canvas& canvas) const {
  const auto day = m_days.day();
  const std::vector<Row> rows = hourRows(*day);
  Scale scale = scaleOf(rows);
  const auto before = m_days.dayBefore();
  const std::vector<Row> kept = before ? hourRows(*before) : std::vector<Row>();
  drawAxis(canvas, scale, format::axisOf(Dimension::Power, scale.most, canvas.preferences));
  canvas.painter.save();
  canvas.painter.setClipRect(scale.plot.adjusted(-1, -1, columnWidth(), 1));
  drawBars(canvas, scale, rows);
  if (!kept.empty()) drawBefore(canvas, scale, kept);
  canvas.painter.restore();
  drawLabels(canvas, scale, rows, labels());
  paintWaterOut(canvas, *day);
}

void DayPage::paintWaterOut(const Canvas& canvas, const evaluate::Day& day) const {
  paintColumnHead(canvas, tr("out %1").arg(format::temperatureUnit(canvas.preferences)));
  const QRectF flag = flagRect();
  for (const auto& bar : day.quarters) {
    const bool onTheHour = bar.clock_h == std::floor(bar.clock_h);
    if (bar.outlet_K <= 0.0 || !onTheHour || static_cast<int>(bar.clock_h) % hoursApart() != 0) continue;
    const double y = yOf(bar.clock_h + 0.5 * kQuarter_h);
    if (y > flag.top() - canvas.tokens.px(8) && y < flag.bottom() + canvas.tokens.px(8)) continue;
    paintColumn(canvas, y, format::number(Temperature::fromKelvin(bar.outlet_K), canvas.preferences).number);
  }
}

void DayPage::paintRule(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const Span s = span();
  const double right = ruleWidth();
  QLinearGradient sky(0, top(), 0, bottom());
  sky.setColorAt(0, tokens.mark);
  sky.setColorAt(0.5, tokens.slip);
  sky.setColorAt(1, tokens.mark);
  const double noon = m_store.results()->sun.has_value() ? m_store.results()->sun->day.noon_h : 12.0;
  sky.setColorAt(std::clamp((noon - s.from_h) / (s.to_h - s.from_h), 0.1, 0.9), tokens.slip);
  painter.fillRect(QRectF(0, top(), right, bottom() - top()), sky);
  painter.setPen(QPen(tokens.ink, 1.5));
  painter.drawLine(QPointF(right, top()), QPointF(right, bottom()));
  const QFont engraved = render::font(tokens, render::Voice::Engraved, 17);
  painter.setFont(engraved);
  const int every = hoursApart();
  for (int quarter = static_cast<int>(s.from_h * 4); quarter <= static_cast<int>(s.to_h * 4); ++quarter) {
    const double y = yOf(quarter * kQuarter_h);
    const double tick = quarter % 4 == 0 ? 15 : quarter % 2 == 0 ? 8 : 5;
    painter.setPen(QPen(tokens.ink, 1.2));
    painter.drawLine(QPointF(right - tokens.px(tick), y), QPointF(right, y));
    if (quarter % (4 * every) != 0 || quarter == static_cast<int>(s.from_h * 4) ||
        quarter == static_cast<int>(s.to_h * 4))
      continue;
    const QString text = QString::number(quarter / 4);
    const double w = render::textWidth(engraved, text);
    render::drawHaloText(painter, {right - tokens.px(19) - w, y + tokens.px(6)}, text, engraved, tokens.ink,
                         tokens.paper, 3.0);
  }
}

void DayPage::paintSun(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const double clock = m_store.document().moment.clock_h, y = yOf(clock);
  painter.setPen(QPen(tokens.violet, 1.5));
  painter.drawLine(QPointF(ruleWidth(), y), QPointF(width() - 10, y));
  render::drawSunMark(painter, tokens, {ruleWidth(), y});
  render::drawFlag(painter, tokens, flagRect(), format::clock(clock), 14);
}

// --- months -----------------------------------------------------------------------------------------

std::vector<Row> DayPage::monthRows() const {
  std::vector<Row> rows;
  const double half = 0.5 * (bottom() - top()) / kMonths, gap = m_look.tokens().px(5);
  for (int month = 1; month <= kMonths; ++month) {
    rows.push_back({yOfMonth(month) - half + gap, yOfMonth(month) + half - gap,
                    amountsOf((*m_days.months())[static_cast<std::size_t>(month - 1)])});
  }
  return rows;
}

void DayPage::paintChosenMonth(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const double y = yOfMonth(m_store.document().moment.month), half = 0.5 * (bottom() - top()) / kMonths;
  const QRectF row(tokens.px(6), y - half + 1, width() - tokens.px(12), 2 * half - 2);
  painter.setPen(QPen(tokens.violet, tokens.line(2.0), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  painter.setBrush(tokens.wash);
  painter.drawRect(row);
  QPainterPath wedge(QPointF(row.left(), y - tokens.px(6)));
  wedge.lineTo(row.left() + tokens.px(7), y);
  wedge.lineTo(row.left(), y + tokens.px(6));
  wedge.closeSubpath();
  painter.fillPath(wedge, tokens.violet);
}

void DayPage::paintMonthNames(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  for (int month = 1; month <= kMonths; ++month) {
    const bool chosen = month == m_store.document().moment.month;
    const QFont font = render::font(tokens, render::Voice::Measured, 14, chosen ? QFont::Bold : QFont::Normal);
    const QString name = QLocale().standaloneMonthName(month, QLocale::ShortFormat);
    painter.setFont(font);
    painter.setPen(chosen ? tokens.violet : tokens.ink);
    painter.drawText(
        QPointF(ruleWidth() - tokens.px(8) - render::textWidth(font, name), yOfMonth(month) + tokens.px(5)), name);
  }
}

void DayPage::paintMonths(const Canvas& canvas) const {
  const std::vector<Row> rows = monthRows();
  const Scale scale = scaleOf(rows);
  drawAxis(canvas, scale, {kilowattHour.si_per_unit, tr("kWh")});
  paintColumnHead(canvas, tr("pool"));
  drawBars(canvas, scale, rows);
  drawLabels(canvas, scale, rows, labels());
  for (int month = 1; month <= kMonths; ++month) {
    const Row& row = rows[static_cast<std::size_t>(month - 1)];
    const double kWh = joules(row.amounts[static_cast<std::size_t>(Part::ToPool)]).in(kilowattHour);
    paintColumn(canvas, yOfMonth(month), QString::number(kWh, 'f', 1));
  }
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(1.5)));
  canvas.painter.drawLine(scale.plot.topLeft(), scale.plot.bottomLeft());
}

}  // namespace sunspool::daypage
