// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/charts/design_curve.h"

#include <QGraphicsLayout>
#include <QGraphicsScene>
#include <QKeyEvent>
#include <QMouseEvent>
#include <algorithm>
#include <cmath>
#include <utility>

#include "app/render/marks.h"

namespace sunspool::charts {
namespace {

constexpr double kGrabRange_px = 22.0;

/// A step of 1, 2 or 5 times a power of ten that gives three to five grid lines.
double niceStep(double span) {
  if (!(span > 0.0)) return 1.0;
  const double raw = span / 3.5;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double factor : {1.0, 2.0, 5.0, 10.0}) {
    if (raw <= factor * power * 1.0001) return factor * power;
  }
  return 10.0 * power;
}

/// Touches an axis only when it changes. Qt lays the ticks out after each call: a wide new range with the narrow old
/// interval would make a tick item for each of a million steps, so the ticks are taken off first.
void setAxis(QValueAxis& axis, double low, double high, double step) {
  if (axis.min() == low && axis.max() == high && axis.tickInterval() == step) return;
  axis.setTickType(QValueAxis::TicksFixed);
  axis.setTickCount(2);
  axis.setRange(low, high);
  axis.setTickAnchor(0.0);
  axis.setTickInterval(step);
  axis.setTickType(QValueAxis::TicksDynamic);
  axis.setLabelFormat(step >= 1.0   ? QStringLiteral("%.0f")
                      : step >= 0.1 ? QStringLiteral("%.1f")
                                    : QStringLiteral("%.2f"));
}

}  // namespace

DesignCurve::DesignCurve(render::Look& look, QWidget* parent) : QChartView(parent), m_look(look) {
  setFocusPolicy(Qt::StrongFocus);
  setMouseTracking(true);
  setFrameShape(QFrame::NoFrame);
  setRenderHint(QPainter::Antialiasing);
  m_chart = chart();
  m_chart->legend()->hide();
  m_chart->setBackgroundVisible(false);
  m_chart->setBackgroundRoundness(0);
  m_chart->layout()->setContentsMargins(0, 0, 0, 0);
  m_design = new QValueAxis(m_chart);
  m_value = new QValueAxis(m_chart);
  m_chart->addAxis(m_design, Qt::AlignBottom);
  m_chart->addAxis(m_value, Qt::AlignRight);
  m_design->setGridLineVisible(false);
  viewport()->setAttribute(Qt::WA_OpaquePaintEvent);
  connect(scene(), &QGraphicsScene::changed, this, [this] {
    m_still = {};
    viewport()->update();
  });
  m_value->setLabelsVisible(false);  // written by paintScale: Qt elides them in a low plot
  m_number = new widgets::NumberTarget(look, this);
  m_number->setObjectName(QStringLiteral("number"));
  connect(m_number, &QAbstractButton::clicked, this, &DesignCurve::numberAsked);
  connect(&look, &render::Look::changed, this, &DesignCurve::restyle);
  restyle();
}

double DesignCurve::headerHeight() const { return m_look.tokens().px(24); }

void DesignCurve::restyle() {
  const render::Tokens& tokens = m_look.tokens();
  setBackgroundBrush(tokens.paper);
  m_chart->setMargins(QMargins(0, 0, 0, 0));
  const QFont small = render::font(tokens, render::Voice::Measured, 12.5);
  for (QValueAxis* axis : {m_design, m_value}) {
    axis->setLabelsFont(small);
    axis->setLabelsColor(tokens.ink2);
    axis->setLinePen(QPen(axis == m_design ? tokens.ink : QColor(Qt::transparent), axis == m_design ? 1.4 : 0.0));
    axis->setGridLinePen(QPen(tokens.hair, 1.0));
  }
  for (QLineSeries* series : m_series) series->setPen(QPen(tokens.ink, 2.2));
  placePlot();
  setModel(m_model);
}

void DesignCurve::setShowsDesignAxis(bool shows) {
  m_showsDesignAxis = shows;
  m_design->setLabelsVisible(shows);
  placePlot();
}

/// Tells the chart only what differs: each telling makes it lay itself out and paint anew.
void DesignCurve::setModel(CurveModel model) {
  const std::vector<QPolygonF> before = std::exchange(m_model.lines, {});
  m_model = model;
  const QString against = model.difference.isEmpty() ? QString() : tr(", %1 against before").arg(model.difference);
  setAccessibleName(tr("%1: %2, range %3").arg(model.name, model.value, model.range) + against);
  while (m_series.size() < model.lines.size()) {
    auto* series = new QLineSeries(m_chart);
    m_chart->addSeries(series);
    series->attachAxis(m_design);
    series->attachAxis(m_value);
    series->setPen(QPen(m_look.tokens().ink, 2.2));
    m_series.push_back(series);
  }
  double low = INFINITY, high = -INFINITY;
  for (std::size_t i = 0; i < m_series.size(); ++i) {
    const QPolygonF line = i < model.lines.size() ? model.lines[i] : QPolygonF();
    if (line != (i < before.size() ? before[i] : QPolygonF())) m_series[i]->replace(line);
    for (const QPointF& point : line) {
      low = std::min(low, point.y());
      high = std::max(high, point.y());
    }
  }
  for (const QPolygonF& line : model.beforeLines) {
    for (const QPointF& point : line) {
      low = std::min(low, point.y());
      high = std::max(high, point.y());
    }
  }
  if (model.present) {
    low = std::min(low, model.present->y());
    high = std::max(high, model.present->y());
  }
  if (!(low < INFINITY)) low = 0.0, high = 1.0;
  const double step = niceStep(std::max(high - low, 0.02 * std::abs(high)));
  const double bottom = std::floor(low / step - 0.05) * step, top = std::ceil(high / step + 0.05) * step;
  setAxis(*m_value, std::max(0.0, bottom), std::max(top, bottom + step), step);
  setAxis(*m_design, model.from, model.to, niceStep(model.to - model.from));
  placeNumber();
  viewport()->update();
}

void DesignCurve::setGhost(std::optional<double> x) {
  m_ghost = x;
  viewport()->update();
}

QPointF DesignCurve::widgetPointAt(double x, double y) const {
  const QPointF inChart = m_chart->mapToPosition(QPointF(x, y));
  return mapFromScene(m_chart->mapToScene(inChart));
}

double DesignCurve::designAt(const QPointF& position) const {
  const QPointF inChart = m_chart->mapFromScene(mapToScene(position.toPoint()));
  return m_chart->mapToValue(inChart).x();
}

void DesignCurve::paintEvent(QPaintEvent*) {
  const QRect area = viewport()->rect();
  const QSize size = area.size() * devicePixelRatioF();
  if (m_still.size() != size) {
    m_still = QPixmap(size);
    m_still.setDevicePixelRatio(devicePixelRatioF());
    m_still.fill(m_look.tokens().paper);
    QPainter still(&m_still);
    still.setRenderHint(QPainter::Antialiasing);
    scene()->render(&still, area, mapToScene(area).boundingRect(), Qt::IgnoreAspectRatio);
  }
  QPainter painter(viewport());
  painter.drawPixmap(0, 0, m_still);
  painter.setRenderHint(QPainter::Antialiasing);
  paintHeader(painter);
  paintScale(painter);
  paintBefore(painter);
  paintPresent(painter);
  paintLimits(painter);
  if (hasFocus()) render::drawFocusRing(painter, m_look.tokens(), QRectF(area).adjusted(5, 5, -5, -5));
}

DesignCurve::Header DesignCurve::headerFor(double room) const {
  const render::Tokens& tokens = m_look.tokens();
  struct Sizes {
    const QString& name;
    double nameSize, valueSize, secondSize;
  };
  const QString& brief = m_model.shortName.isEmpty() ? m_model.name : m_model.shortName;
  const Sizes choices[] = {{m_model.name, 14.0, 17.0, 12.5}, {brief, 14.0, 17.0, 12.5}, {brief, 13.5, 15.5, 12.0}};
  const QString both = m_model.difference.isEmpty()
                           ? m_model.bareRange
                           : QStringLiteral("%1   %2").arg(m_model.difference, m_model.bareRange);
  const QString must = m_model.difference.isEmpty() ? m_model.bareRange : m_model.difference;
  Header header;
  for (const Sizes& sizes : choices) {
    header.name = sizes.name;
    header.nameFont = render::font(tokens, render::Voice::Measured, sizes.nameSize, QFont::Bold);
    header.valueFont = render::font(tokens, render::Voice::Measured, sizes.valueSize, QFont::Bold, !m_model.settled);
    header.secondFont = render::font(tokens, render::Voice::Measured, sizes.secondSize);
    header.valueX = tokens.px(2) + render::textWidth(header.nameFont, header.name) + tokens.px(10);
    header.secondX = header.valueX + render::textWidth(header.valueFont, m_model.value) + tokens.px(8);
    for (const QString& second : {m_model.settled ? both : tr("settling"), m_model.settled ? must : tr("settling")}) {
      header.second = second;
      if (header.secondX + render::textWidth(header.secondFont, second) <= room) return header;
    }
  }
  header.second = QFontMetricsF(header.secondFont).elidedText(header.second, Qt::ElideRight, room - header.secondX);
  return header;
}

/// The number in the header can be opened: its target lies over it.
void DesignCurve::placeNumber() {
  const Header header = headerFor(width() - 2.0);
  const double wide = render::textWidth(header.valueFont, m_model.value);
  const int pad = static_cast<int>(m_look.tokens().px(4));
  m_number->setGeometry(static_cast<int>(header.valueX) - pad, 0, static_cast<int>(wide) + 2 * pad,
                        static_cast<int>(m_look.tokens().px(22)));
  m_number->say(tr("%1: %2").arg(m_model.name, m_model.value));
}

void DesignCurve::paintHeader(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const double base = tokens.px(17);
  const Header header = headerFor(width() - 2.0);
  painter.setFont(header.nameFont);
  painter.setPen(tokens.ink);
  painter.drawText(QPointF(tokens.px(2), base), header.name);
  painter.setFont(header.valueFont);
  painter.setPen(m_model.settled ? tokens.ink : tokens.ink2);
  painter.drawText(QPointF(header.valueX, base), m_model.value);
  painter.setFont(header.secondFont);
  painter.setPen(tokens.ink2);
  painter.drawText(QPointF(header.secondX, base), header.second);
}

/// The kept design's curve, dotted one pixel wide.
void DesignCurve::paintBefore(QPainter& painter) const {
  if (m_model.beforeLines.empty()) return;
  const QPointF origin = widgetPointAt(m_model.from, m_value->min()), far = widgetPointAt(m_model.to, m_value->max());
  const double perX = (far.x() - origin.x()) / (m_model.to - m_model.from);
  const double perY = (far.y() - origin.y()) / (m_value->max() - m_value->min());
  painter.save();
  painter.setClipRect(QRectF(QPointF(origin.x(), far.y()), QPointF(far.x(), origin.y())).adjusted(0, -1, 0, 1));
  painter.setPen(QPen(m_look.tokens().ink, 1.0, Qt::DotLine));
  for (const QPolygonF& before : m_model.beforeLines) {
    QPolygonF drawn;
    for (const QPointF& p : before) {
      drawn << QPointF(origin.x() + (p.x() - m_model.from) * perX, origin.y() + (p.y() - m_value->min()) * perY);
    }
    painter.drawPolyline(drawn);
  }
  painter.restore();
}

void DesignCurve::paintScale(QPainter& painter) const {
  if (m_model.lines.empty()) return;
  const render::Tokens& tokens = m_look.tokens();
  painter.setFont(render::font(tokens, render::Voice::Measured, 12.5));
  painter.setPen(tokens.ink2);
  const double step = m_value->tickInterval(), room = tokens.px(15);
  const int digits = step >= 1.0 ? 0 : step >= 0.1 ? 1 : 2;
  double lastY = INFINITY;
  for (double value = std::ceil(m_value->min() / step - 1e-9) * step; value <= m_value->max() + 1e-9 * step;
       value += step) {
    const QPointF at = widgetPointAt(m_model.to, value);
    if (lastY - at.y() < room) continue;
    lastY = at.y();
    QString text = QString::number(value, 'f', digits);
    const bool last = value + step > m_value->max() + 1e-9 * step;
    if (last) text = QStringLiteral("%1 %2").arg(text, m_model.unit);
    const double x = std::min(at.x() + tokens.px(6), width() - render::textWidth(painter.font(), text) - 1.0);
    painter.drawText(QPointF(x, std::min(at.y() + tokens.px(4.5), height() - 3.0)), text);
  }
}

void DesignCurve::paintLimits(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const QRectF plot = QRectF(widgetPointAt(m_model.from, m_value->max()), widgetPointAt(m_model.to, m_value->min()));
  const QFont font = render::font(tokens, render::Voice::Measured, 12, QFont::Bold);
  for (const Limit& limit : m_model.valueLimits) {
    if (limit.at <= m_value->min() || limit.at >= m_value->max()) continue;
    const double y = widgetPointAt(m_model.from, limit.at).y();
    painter.setPen(QPen(tokens.ink, 2.2, Qt::DashLine));
    painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
    render::drawHaloText(painter, {plot.left() + 4, y - 4}, limit.word, font, tokens.ink, tokens.paper);
  }
  for (const Limit& limit : m_model.designLimits) {
    if (limit.at <= m_model.from || limit.at >= m_model.to) continue;
    const double x = widgetPointAt(limit.at, m_value->min()).x();
    painter.setPen(QPen(tokens.ink, 2.2, Qt::DashLine));
    painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()));
    const double w = render::textWidth(font, limit.word);
    const double left = x + 4 + w < plot.right() ? x + 4 : x - 4 - w;
    render::drawHaloText(painter, {left, plot.bottom() - tokens.px(6)}, limit.word, font, tokens.ink, tokens.paper);
  }
}

void DesignCurve::paintPresent(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  if (m_model.lines.empty()) {
    painter.setFont(render::font(tokens, render::Voice::Said, 14, QFont::Normal, true));
    painter.setPen(tokens.ink2);
    painter.drawText(m_chart->plotArea(), Qt::AlignCenter, tr("settling"));
    return;  // without a curve there is no scale for the marks to stand on
  }
  const double top = widgetPointAt(m_model.from, m_value->max()).y(),
               bottom = widgetPointAt(m_model.from, m_value->min()).y();
  if (m_ghost) {
    const double x = widgetPointAt(*m_ghost, m_value->min()).x();
    painter.setPen(QPen(tokens.strawInk, 1.6, Qt::DashLine));
    painter.drawLine(QPointF(x, top), QPointF(x, bottom));
  }
  if (!m_model.present) return;
  const QPointF at = widgetPointAt(m_model.present->x(), m_model.present->y());
  painter.setPen(QPen(tokens.violet, 1.5));
  painter.drawLine(QPointF(at.x(), top), QPointF(at.x(), bottom));
  painter.setPen(QPen(tokens.paper, 6));
  painter.setBrush(tokens.paper);
  painter.drawEllipse(at, tokens.px(5), tokens.px(5));
  painter.setPen(QPen(tokens.violet, 3));
  painter.drawEllipse(at, tokens.px(5), tokens.px(5));
}

void DesignCurve::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton || !m_model.present) return;
  const double markX = widgetPointAt(m_model.present->x(), m_model.present->y()).x();
  m_dragging = true;
  if (std::abs(event->position().x() - markX) > kGrabRange_px) Q_EMIT dragged(designAt(event->position()));
  setCursor(Qt::SizeHorCursor);
}

void DesignCurve::mouseMoveEvent(QMouseEvent* event) {
  if (m_dragging) {
    Q_EMIT dragged(designAt(event->position()));
    return;
  }
  const double x = designAt(event->position());
  const bool inside = x >= m_model.from && x <= m_model.to && event->position().y() > headerHeight();
  Q_EMIT hovered(inside ? std::optional(x) : std::nullopt);
}

void DesignCurve::mouseReleaseEvent(QMouseEvent*) {
  if (!m_dragging) return;
  m_dragging = false;
  unsetCursor();
  Q_EMIT dropped();
}

void DesignCurve::leaveEvent(QEvent* event) {
  QChartView::leaveEvent(event);
  if (!m_dragging) Q_EMIT hovered(std::nullopt);
}

void DesignCurve::keyPressEvent(QKeyEvent* event) {
  const int size = event->modifiers().testFlag(Qt::ShiftModifier) ? 10 : 1;
  switch (event->key()) {
    case Qt::Key_Left:
      Q_EMIT stepped(-size);
      return;
    case Qt::Key_Right:
      Q_EMIT stepped(size);
      return;
    case Qt::Key_Escape:
      if (m_dragging) {
        m_dragging = false;
        unsetCursor();
        Q_EMIT cancelled();
        return;
      }
      break;
    default:
      break;
  }
  QWidget::keyPressEvent(event);
}

void DesignCurve::focusInEvent(QFocusEvent* event) {
  QChartView::focusInEvent(event);
  viewport()->update();
}

void DesignCurve::focusOutEvent(QFocusEvent* event) {
  QChartView::focusOutEvent(event);
  viewport()->update();
}

/// All four plots stand on the same two edges, whatever their labels need.
void DesignCurve::placePlot() {
  const render::Tokens& tokens = m_look.tokens();
  const double below = m_showsDesignAxis ? tokens.px(24) : tokens.px(8);
  m_still = {};
  m_chart->setPlotArea(QRectF(tokens.px(4), headerHeight() + tokens.px(6), width() - tokens.px(52),
                              height() - headerHeight() - tokens.px(6) - below));
}

void DesignCurve::resizeEvent(QResizeEvent* event) {
  QChartView::resizeEvent(event);
  placePlot();
  placeNumber();
  viewport()->update();
}

}  // namespace sunspool::charts
