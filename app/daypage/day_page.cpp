// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/daypage/day_page.h"

#include <QDate>
#include <QKeyEvent>
#include <QLinearGradient>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/format/axis.h"
#include "app/render/marks.h"
#include "core/model/edits.h"

namespace sunspool::daypage {
namespace {

constexpr double kMinute_h = 1.0 / 60.0;
constexpr double kQuarter_h = 0.25;

store::Edit clockEdit(double clock_h) {
  return [clock_h](model::Document d) { return model::withClock(std::move(d), clock_h); };
}

}  // namespace

DayPage::DayPage(store::DocumentStore& store, render::Look& look, store::DayRunner& days, QWidget* parent)
    : QWidget(parent), m_store(store), m_look(look), m_days(days) {
  setObjectName(QStringLiteral("dayPage"));
  setFocusPolicy(Qt::StrongFocus);
  const auto again = [this] {
    describe();
    update();
  };
  connect(&store, &store::DocumentStore::resultsChanged, this, again);
  connect(&store, &store::DocumentStore::changed, this, again);
  connect(&days, &store::DayRunner::dayChanged, this, again);
  connect(&look, &render::Look::changed, this, again);
  describe();
}

void DayPage::describe() {
  const double clock = m_store.document().moment.clock_h;
  QString spoken = tr("Day page, %1").arg(format::clock(clock));
  const auto results = m_store.results();
  if (results->heat.has_value())
    spoken += tr(", %1 to the pool").arg(format::number(results->heat->toPool.value, m_look.preferences()).joined());
  setAccessibleName(spoken);
  setAccessibleDescription(noBars());
}

QString DayPage::noBars() const {
  if (m_days.refusal()) return format::sentence(*m_days.refusal(), m_look.preferences());
  const auto day = m_days.day();
  if (!day) return tr("settling");
  if (!day->quarters.empty()) return {};
  const auto results = m_store.results();
  if (!results->sun.has_value()) return format::sentence(results->sun.error(), m_look.preferences());
  const bool rises = results->sun->day.rises || results->sun->day.neverSets;
  return rises ? tr("No sun falls on the panel's face on this day; turn or tilt it another way.")
               : format::sentence(Error{ErrorCode::SunNeverRises, {}, {}, {}}, m_look.preferences());
}

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

double DayPage::ruleWidth() const { return m_look.tokens().px(width() < m_look.tokens().px(330) ? 54 : 62); }
double DayPage::top() const { return m_look.tokens().px(66); }
double DayPage::bottom() const { return height() - m_look.tokens().px(10); }

double DayPage::yOf(double clock_h) const {
  const Span s = span();
  return top() + (clock_h - s.from_h) / (s.to_h - s.from_h) * (bottom() - top());
}

double DayPage::clockAt(double y) const {
  const Span s = span();
  const double clock = s.from_h + (y - top()) / (bottom() - top()) * (s.to_h - s.from_h);
  return std::clamp(std::round(clock / (5 * kMinute_h)) * 5 * kMinute_h, 0.0, 24.0 - kMinute_h);
}

void DayPage::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), tokens.paper);
  painter.setPen(QPen(tokens.hair, 1.5));
  painter.drawLine(QPointF(width() - 0.75, 0), QPointF(width() - 0.75, height()));

  const auto& moment = m_store.document().moment;
  painter.setPen(tokens.ink);
  const QFont title = render::font(tokens, render::Voice::Said, 18, QFont::Bold);
  painter.setFont(title);
  painter.drawText(QPointF(tokens.px(16), tokens.px(26)), tr("Day page"));
  painter.setFont(render::font(tokens, render::Voice::Measured, 14));
  painter.setPen(tokens.ink2);
  const QString date = QLocale().toString(QDate(moment.year, moment.month, moment.day), tr("d MMMM"));
  painter.drawText(QPointF(tokens.px(16) + render::textWidth(title, tr("Day page")) + tokens.px(10), tokens.px(26)),
                   tr("%1, clear").arg(date));

  paintBars(painter);
  paintRule(painter);
  paintSun(painter);
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(6, 6, -7, -6));
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
  const int every = bottom() - top() < tokens.px(24) * (s.to_h - s.from_h) ? 3 : 1;
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

void DayPage::paintBars(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const auto day = m_days.day();
  const double left = ruleWidth(), right = width() - tokens.px(18);
  if (!day || day->quarters.empty()) {
    painter.setFont(render::font(tokens, render::Voice::Said, 15, QFont::Normal, true));
    painter.setPen(tokens.ink2);
    painter.drawText(QRectF(left + 16, top(), right - left - 16, bottom() - top()), Qt::AlignCenter | Qt::TextWordWrap,
                     noBars());
    return;
  }
  double most = 1.0;
  for (const auto& bar : day->quarters) most = std::max(most, bar.falling_W);
  const format::AxisUnit unit = format::axisOf(Dimension::Power, most, m_look.preferences());
  const auto x = [&](double value_W) { return left + value_W / most * (right - left); };
  painter.setFont(render::font(tokens, render::Voice::Measured, 12.5));
  const double step = unit.of(most) > 4000 ? 2000 : unit.of(most) > 1.5 ? 1.0 : 0.5;
  for (double tick = 0.0; tick <= unit.of(most); tick += step) {
    const double at = x(unit.toSi(tick));
    painter.setPen(QPen(tokens.hair, 1.0));
    painter.drawLine(QPointF(at, top()), QPointF(at, bottom()));
    painter.setPen(tokens.ink2);
    const QString text =
        tick + step > unit.of(most) ? QStringLiteral("%1 %2").arg(tick).arg(unit.unit) : QString::number(tick);
    painter.drawText(
        QPointF(at + (tick == 0.0 ? 2 : -render::textWidth(painter.font(), text) / 2), top() - tokens.px(8)), text);
  }
  for (const auto& bar : day->quarters) {
    const double y0 = yOf(bar.clock_h) + 0.8, y1 = yOf(bar.clock_h + kQuarter_h) - 0.8;
    painter.setPen(QPen(tokens.mark, 0.8));
    painter.setBrush(tokens.slip);
    painter.drawRect(QRectF(left, y0, x(bar.falling_W) - left, y1 - y0));
    if (bar.toPool_W <= 0.0) continue;
    painter.setPen(QPen(tokens.ink, 0.8));
    painter.setBrush(tokens.straw);
    painter.drawRect(QRectF(left, y0, x(bar.toPool_W) - left, y1 - y0));
  }
  const Span hours = span();
  double labelY = yOf(hours.from_h + 0.44 * (hours.to_h - hours.from_h));
  // Not under the sun mark's flag.
  if (std::abs(labelY - yOf(m_store.document().moment.clock_h)) < tokens.px(44)) labelY += tokens.px(76);
  const QFont bold = render::font(tokens, render::Voice::Measured, 14, QFont::Bold),
              plain = render::font(tokens, render::Voice::Measured, 14);
  const auto two = [&](double at, const QString& name, const QString& value, const QColor& ground, const QColor& ink) {
    const double width_ = std::max(render::textWidth(bold, name), render::textWidth(plain, value));
    painter.fillRect(QRectF(at - 3, labelY - tokens.px(14), width_ + 6, tokens.px(38)), ground);
    painter.setPen(ink);
    painter.setFont(bold);
    painter.drawText(QPointF(at, labelY), name);
    painter.setFont(plain);
    painter.drawText(QPointF(at, labelY + tokens.px(18)), value);
  };
  const auto energy = [&](Energy e) { return tr("%1 kWh").arg(e.in(kilowattHour), 0, 'f', 1); };
  const bool dark = tokens.theme == render::Theme::Dark;
  two(left + tokens.px(6), tr("to the pool"), energy(day->toPool), tokens.straw,
      dark                                   ? tokens.plate
      : tokens.theme == render::Theme::Light ? tokens.ink
                                             : tokens.paper);
  two(left + (right - left) * 0.56, tr("not gained"), energy(day->falling - day->toPool), tokens.slip, tokens.ink);
}

void DayPage::paintSun(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const double clock = m_store.document().moment.clock_h, y = yOf(clock);
  painter.setPen(QPen(tokens.violet, 1.5));
  painter.drawLine(QPointF(ruleWidth(), y), QPointF(width() - 10, y));
  render::drawSunMark(painter, tokens, {ruleWidth(), y});
  const QString text = format::clock(clock);
  const QSizeF size = render::flagSize(tokens, text, 14);
  render::drawFlag(painter, tokens,
                   QRectF(width() - 10 - size.width(), y - size.height() / 2, size.width(), size.height()), text, 14);
}

void DayPage::previewClock(double y) { m_store.preview(clockEdit(clockAt(y))); }

void DayPage::stepClock(double hours) {
  const double clock = std::clamp(m_store.document().moment.clock_h + hours, 0.0, 24.0 - kMinute_h);
  m_store.apply(clockEdit(clock), tr("Look at another hour"), QStringLiteral("clock"));
}

void DayPage::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton || event->position().y() < top() - 10) return;
  setFocus();
  m_dragging = true;
  previewClock(event->position().y());
}

void DayPage::mouseMoveEvent(QMouseEvent* event) {
  if (m_dragging) previewClock(event->position().y());
}

void DayPage::mouseReleaseEvent(QMouseEvent*) {
  if (!m_dragging) return;
  m_dragging = false;
  m_store.commitPreview(tr("Look at another hour"));
}

void DayPage::keyPressEvent(QKeyEvent* event) {
  const bool far = event->modifiers().testFlag(Qt::ShiftModifier);
  switch (event->key()) {
    case Qt::Key_Up:
      stepClock(far ? -1.0 : -kQuarter_h);
      return;
    case Qt::Key_Down:
      stepClock(far ? 1.0 : kQuarter_h);
      return;
    case Qt::Key_Home:
      stepClock(span().from_h - m_store.document().moment.clock_h);
      return;
    case Qt::Key_End:
      stepClock(span().to_h - m_store.document().moment.clock_h);
      return;
    case Qt::Key_Escape:
      if (m_dragging) {
        m_dragging = false;
        m_store.cancelPreview();
        return;
      }
      break;
    default:
      break;
  }
  QWidget::keyPressEvent(event);
}

}  // namespace sunspool::daypage
