// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/tape.h"

#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPaintEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/tape/accessible.h"
#include "app/tape/body.h"
#include "app/tape/corner.h"
#include "app/tape/strips.h"

namespace sunspool::tape {

namespace {
constexpr double kLargeStep_m = 10.0 * Tape::kStep_m;  ///< with Shift
constexpr int kSmallestHeight_px = 96;

constexpr double kStepsInAMetre = 10.0;
/// Division, so that 23.4 is the number nearest to 23.4.
double onGrid(double station_m) { return std::round(station_m * kStepsInAMetre) / kStepsInAMetre; }
/// Takes off what adding tenths leaves behind.
double tidied(double station_m) { return std::round(station_m * 1e6) / 1e6; }
}  // namespace

Tape::Tape(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent)
    : QWidget(parent), m_store(store), m_hub(hub), m_look(look) {
  installAccessibility();
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_OpaquePaintEvent);
  setMouseTracking(true);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  setAccessibleDescription(
      tr("The tube unrolled. Left and right move the bead, up and down choose the run, "
         "a typed metre and Enter go there."));
  connect(&m_store, &store::DocumentStore::resultsChanged, this, &Tape::takeResults);
  connect(&m_hub, &store::Hub::hereChanged, this, &Tape::showHere);
  connect(&m_hub, &store::Hub::plugChanged, this, &Tape::takeResults);
  connect(&m_look, &render::Look::changed, this, [this] {
    updateGeometry();
    takeResults();
  });
  constexpr std::array kKeys{store::NumberKey::TightestBend, store::NumberKey::Outlet, store::NumberKey::LowestPressure,
                             store::NumberKey::Flow};
  for (std::size_t i = 0; i < m_numbers.size(); ++i) {
    m_numbers[i] = new widgets::NumberTarget(look, this);
    m_numbers[i]->setObjectName(QStringLiteral("tape.number.%1").arg(i));
    connect(m_numbers[i], &QAbstractButton::clicked, this, [this, key = kKeys[i]] { m_hub.askAbout(key); });
  }
  takeResults();
}

void Tape::setSideWidth(int px) {
  if (px == m_side) return;
  m_side = px;
  place();
}

QString Tape::reading(Strip strip) const { return readingAt(m_content, strip, station_m(), m_look.preferences()); }

double Tape::station_m() const { return std::clamp(m_hub.station_m(), 0.0, m_content.end_m); }

QSize Tape::sizeHint() const { return {1280, preferredHeight(width(), m_look.tokens())}; }
QSize Tape::minimumSizeHint() const { return {640, kSmallestHeight_px}; }

void Tape::takeResults() {
  m_content = contentOf(m_store, m_hub.run(), m_look.preferences());
  m_content.plugPulled = m_hub.isPlugPulled();
  place();
}

void Tape::place() {
  Wanted wanted;
  wanted.size = size();
  wanted.side = m_side;
  if (m_content.laid != nullptr) wanted.tube_m = std::max(m_content.cut_m, kStep_m);
  wanted.rest_m = m_content.rest.left_m.value_or(0.0);
  const Placement withoutWords = placementFor(wanted, m_look.tokens());
  wanted.restWords = restWordsWidth(m_look.tokens(), withoutWords, m_content.rest.words);
  m_place = placementFor(wanted, m_look.tokens());
  m_still = {};
  setAccessibleName(spoken(m_content, station_m(), m_look.preferences()));
  m_hereArea = hereArea();
  placeNumbers();
  update();
}

/// Targets over the heads of the strips, at their left, and over the flow in the pump's outlet.
void Tape::placeNumbers() {
  const render::Tokens& tokens = m_look.tokens();
  const bool beside = m_place.side >= tokens.px(230.0);
  const auto headOf = [&](const QRectF& strip) {
    if (!beside || strip.height() <= 0.0) return QRectF();
    const double height = std::min(strip.height(), tokens.px(36.0));
    return QRectF(m_place.side - tokens.px(128.0), strip.center().y() - 0.5 * height, tokens.px(116.0), height);
  };
  QPixmap nothing(1, 1);
  QPainter painter(&nothing);
  const Canvas canvas{painter, tokens, m_place, m_content, m_look.preferences()};
  const QRectF places[] = {headOf(m_place.bend), headOf(m_place.water), headOf(m_place.waterLine),
                           flowReadingRect(canvas)};
  const QString names[] = {tr("tightest bend"), tr("water that leaves"), tr("lowest pressure"), tr("flow")};
  for (std::size_t i = 0; i < m_numbers.size(); ++i) {
    m_numbers[i]->setGeometry(places[i].toRect());
    m_numbers[i]->setVisible(places[i].width() > tokens.px(20.0) && m_content.laid != nullptr);
    m_numbers[i]->say(names[i]);
  }
}

void Tape::showHere() {
  if (m_content.laid != nullptr && std::clamp(m_hub.run(), 0, m_content.runs - 1) != m_content.run) {
    takeResults();
    return;
  }
  setAccessibleName(spoken(m_content, station_m(), m_look.preferences()));
  const QRect before = m_hereArea;
  m_hereArea = hereArea();
  update(before);
  update(m_hereArea);
  update(beadReadingRect(m_look.tokens(), m_place).toAlignedRect());
}

// --- hand and keys --------------------------------------------------------------------------------

void Tape::moveTo(double station_m) {
  if (m_content.laid == nullptr) return;
  m_hub.setHere(m_content.run, std::clamp(station_m, 0.0, m_content.end_m));
}

void Tape::chooseRun(int run) {
  if (run < 0 || run >= m_content.runs) return;
  const double end = m_content.results->layout->runs[static_cast<std::size_t>(run)].path.length().si();
  m_hub.setHere(run, std::min(station_m(), end));
}

void Tape::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) {
    QWidget::mousePressEvent(event);
    return;
  }
  if (plugRect(m_look.tokens(), m_place).contains(event->position())) {
    m_hub.setPlugPulled(!m_hub.isPlugPulled());
    return;
  }
  const std::vector<QRectF> targets = runTargets(m_look.tokens(), m_place, m_content.runs);
  for (std::size_t run = 0; run < targets.size(); ++run)
    if (targets[run].contains(event->position())) chooseRun(static_cast<int>(run));
  if (event->position().x() < m_place.side) return;
  m_dragging = true;
  forgetTyped();
  moveTo(onGrid(m_place.station(event->position().x())));
}

void Tape::mouseMoveEvent(QMouseEvent* event) {
  if (m_dragging) {
    moveTo(onGrid(m_place.station(event->position().x())));
    return;
  }
  setCursor(plugRect(m_look.tokens(), m_place).contains(event->position()) ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

void Tape::mouseReleaseEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton) m_dragging = false;
}

void Tape::keyPressEvent(QKeyEvent* event) {
  if (m_content.laid == nullptr || (!typeByKey(*event) && !moveByKey(*event))) QWidget::keyPressEvent(event);
}

bool Tape::moveByKey(const QKeyEvent& event) {
  const double step = event.modifiers().testFlag(Qt::ShiftModifier) ? kLargeStep_m : kStep_m;
  switch (event.key()) {
    case Qt::Key_Left:
      moveTo(tidied(station_m() - step));
      break;
    case Qt::Key_Right:
      moveTo(tidied(station_m() + step));
      break;
    case Qt::Key_Home:
      moveTo(0.0);
      break;
    case Qt::Key_End:
      moveTo(m_content.end_m);
      break;
    case Qt::Key_Up:
      chooseRun(m_content.run - 1);
      break;
    case Qt::Key_Down:
      chooseRun(m_content.run + 1);
      break;
    default:
      return false;
  }
  forgetTyped();
  return true;
}

bool Tape::typeByKey(const QKeyEvent& event) {
  const bool nothingTyped = m_typed.empty();
  switch (event.key()) {
    case Qt::Key_Escape:
      if (nothingTyped) return false;
      forgetTyped();
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (nothingTyped) return false;
      takeTyped();
      return true;
    case Qt::Key_Backspace:
      if (nothingTyped) return false;
      m_typed.backspace();
      break;
    default:
      if (event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) return false;
      if (!m_typed.take(event.text())) return false;
  }
  m_typedRefusal.clear();
  m_hereArea |= hereArea();
  update();
  return true;
}

/// A metre beyond the run is refused in words, not drawn to its end.
void Tape::takeTyped() {
  const auto& preferences = m_look.preferences();
  const bool us = preferences.units == format::UnitSystem::UsCustomary;
  const Result<double> typed = m_typed.read(Dimension::Length, us ? "ft" : "m");
  if (typed.has_value() && *typed >= 0.0 && *typed <= m_content.end_m) {
    const double station = *typed;
    forgetTyped();
    moveTo(station);
    return;
  }
  const QString end = format::number(metres(m_content.end_m), format::LengthScale::Run, preferences).joined();
  m_typedRefusal = typed.has_value()
                       ? tr("Run %1 goes from 0 to %2.").arg(QString(QLatin1Char(m_content.laid->letter)), end)
                       : format::sentence(typed.error(), preferences);
  m_hereArea |= hereArea();
  update();
}

void Tape::forgetTyped() {
  if (m_typed.empty() && m_typedRefusal.isEmpty()) return;
  m_typed.clear();
  m_typedRefusal.clear();
  update();
}

void Tape::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
}
void Tape::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  forgetTyped();
  update();
}

// --- painting -------------------------------------------------------------------------------------

void Tape::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  place();
}

Here Tape::here() const { return {station_m(), m_typed.text(), m_typedRefusal}; }

QRect Tape::hereArea() const {
  if (m_content.laid == nullptr) return {};
  QPixmap nothing(1, 1);
  QPainter painter(&nothing);
  const Canvas canvas{painter, m_look.tokens(), m_place, m_content, m_look.preferences()};
  return hereRect(canvas, here()).toAlignedRect();
}

void Tape::drawStill(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), tokens.paper);
  const Canvas canvas{painter, tokens, m_place, m_content, m_look.preferences()};
  canvas.line(0.0, 0.0, width(), 0.0, tokens.hair, 1.5);
  drawSunReading(canvas);
  if (m_content.laid == nullptr) {
    drawNoTube(canvas);
    drawPump(canvas);
    return;
  }
  drawBendStrip(canvas);
  drawWaterStrip(canvas);
  drawWaterLineStrip(canvas);
  drawNoProfile(canvas);
  drawMarksRow(canvas);
  drawRunChooser(canvas);
  drawBody(canvas);
  drawPump(canvas);
}

void Tape::paintEvent(QPaintEvent*) {
  const double ratio = devicePixelRatioF();
  if (m_still.isNull() || m_still.devicePixelRatio() != ratio) {
    m_still = QPixmap(size() * ratio);
    m_still.setDevicePixelRatio(ratio);
    QPainter still(&m_still);
    drawStill(still);
  }
  QPainter painter(this);
  painter.drawPixmap(0, 0, m_still);
  painter.setRenderHint(QPainter::Antialiasing);
  if (m_content.laid != nullptr) {
    const Canvas canvas{painter, m_look.tokens(), m_place, m_content, m_look.preferences()};
    drawBeadReading(canvas, station_m());
    drawHere(canvas, here());
  }
  if (!hasFocus()) return;
  const QRectF focused = m_content.laid != nullptr
                             ? m_place.body
                             : QRectF(m_place.body.topLeft(), QPointF(m_place.right, m_place.body.bottom()));
  render::drawFocusRing(painter, m_look.tokens(), focused);
}

}  // namespace sunspool::tape
