// SPDX-License-Identifier: GPL-3.0-or-later

// The keyboard twin of everything the hand does.

#include <QAccessible>
#include <QKeyEvent>
#include <algorithm>
#include <cmath>

#include "app/panelview/handle_mark.h"
#include "app/panelview/panel_view.h"
#include "app/widgets/quantity_edit.h"

namespace sunspool::panelview {

namespace {

constexpr double kBeadStep_m = 0.1, kBeadStride_m = 1.0;

std::optional<QPointF> arrowOf(int key) {
  switch (key) {
    case Qt::Key_Left:
      return QPointF(-1.0, 0.0);
    case Qt::Key_Right:
      return QPointF(1.0, 0.0);
    case Qt::Key_Up:
      return QPointF(0.0, -1.0);
    case Qt::Key_Down:
      return QPointF(0.0, 1.0);
    default:
      return std::nullopt;
  }
}

bool isEnter(const QKeyEvent& event) { return event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter; }

/// Metres along a run, as typed.
std::string runUnit(const format::Preferences& preferences) {
  return preferences.units == format::UnitSystem::Metric ? "m" : "ft";
}

}  // namespace

std::vector<PanelView::Stop> PanelView::stops() const {
  std::vector<Stop> all;
  if (laid() != nullptr) all.push_back({Stop::Kind::Bead, 0});
  for (std::size_t i = 0; i < m_handles.size(); ++i)
    if (m_handles[i]->isThere()) all.push_back({Stop::Kind::Handle, static_cast<int>(i)});
  for (std::size_t i = 0; i < m_overlay.tags().size(); ++i) all.push_back({Stop::Kind::Tag, static_cast<int>(i)});
  return all;
}

void PanelView::setStop(Stop stop) {
  if (stop != m_stop) {
    endSeries();
    m_typed.clear();
    m_typedAnswer.clear();
  }
  m_stop = stop;
  viewport()->update();
  if (HandleMark* mark = focusedHandle(); mark != nullptr && QAccessible::isActive()) {
    QAccessibleEvent focus(mark, QAccessible::Focus);
    QAccessible::updateAccessibility(&focus);
  }
}

bool PanelView::focusNextPrevChild(bool next) {
  if (m_editor) return QGraphicsView::focusNextPrevChild(next);
  arrangeOverlay();
  const std::vector<Stop> all = stops();
  const auto current = std::find(all.begin(), all.end(), m_stop);
  const auto index = current - all.begin() + (next ? 1 : -1);
  if (current != all.end() && index >= 0 && index < static_cast<std::ptrdiff_t>(all.size())) {
    setStop(all[static_cast<std::size_t>(index)]);
    return true;
  }
  if (QGraphicsView::focusNextPrevChild(next)) return true;
  // Nothing else in the window takes the focus: round again.
  if (all.empty()) return false;
  setStop(next ? all.front() : all.back());
  return true;
}

void PanelView::focusInEvent(QFocusEvent* event) {
  QGraphicsView::focusInEvent(event);
  arrangeOverlay();
  const std::vector<Stop> all = stops();
  if (all.empty()) return;
  if (event->reason() == Qt::TabFocusReason) setStop(all.front());
  if (event->reason() == Qt::BacktabFocusReason) setStop(all.back());
  viewport()->update();
}

void PanelView::focusOutEvent(QFocusEvent* event) {
  QGraphicsView::focusOutEvent(event);
  endSeries();
  viewport()->update();
}

bool PanelView::event(QEvent* event) {
  // Keys that mean something here are not for the window's shortcuts while the panel has the focus.
  if (event->type() == QEvent::ShortcutOverride) {
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool plain = (key->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) == 0;
    gestures::TypedNumber probe = m_typed;
    if (plain && (m_hand == Hand::Gesture || arrowOf(key->key()) || probe.take(key->text()))) {
      event->accept();
      return true;
    }
  }
  return QGraphicsView::event(event);
}

void PanelView::keyPressEvent(QKeyEvent* event) {
  if (m_editor) {
    event->ignore();
    return;
  }
  arrangeOverlay();
  event->accept();
  if (m_hand == Hand::Gesture) {
    keyWhileHeld(*event);
    return;
  }
  if (m_stop.kind == Stop::Kind::Handle && !m_handles[static_cast<std::size_t>(m_stop.index)]->isThere()) setStop({});
  if (event->key() == Qt::Key_0 && m_typed.empty() && (event->modifiers() & Qt::ControlModifier) == 0) {
    fit();
    return;
  }
  bool taken = false;
  switch (m_stop.kind) {
    case Stop::Kind::Bead:
      taken = keyOnBead(*event);
      break;
    case Stop::Kind::Handle:
      taken = keyOnHandle(*event, *m_handles[static_cast<std::size_t>(m_stop.index)]);
      break;
    case Stop::Kind::Tag: {
      const auto& tags = m_overlay.tags();
      taken = isEnter(*event) || event->key() == Qt::Key_Space;
      if (taken && m_stop.index < static_cast<int>(tags.size()))
        Q_EMIT snagActivated(tags[static_cast<std::size_t>(m_stop.index)].snag);
      break;
    }
  }
  if (!taken) event->ignore();
}

bool PanelView::typeKey(QKeyEvent& event) {
  if (event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) return false;
  const bool taken = event.key() == Qt::Key_Backspace ? m_typed.backspace() : m_typed.take(event.text());
  if (taken) {
    m_typedAnswer.clear();
    viewport()->update();
  }
  return taken;
}

bool PanelView::keyWhileHeld(QKeyEvent& event) {
  gestures::Gesture& gesture = m_held->gesture();
  if (event.key() == Qt::Key_Escape) {
    abandonGesture();
    return true;
  }
  if (isEnter(event)) {
    endGesture();
    m_hand = Hand::Spent;
    return true;
  }
  if (!typeKey(event)) return false;
  if (m_typed.empty()) {
    gesture.untype();
    pullTo(m_handAt);
    refreshSlip();
    return true;
  }
  const Result<double> number = m_typed.read(gesture.dimension(), gesture.bareUnit(m_look.preferences()));
  m_typedAnswer = number ? QString() : format::sentence(number.error(), m_look.preferences());
  if (number)
    propose(gesture.type(gesture.fromTyped(*number)));
  else
    refreshSlip();
  return true;
}

bool PanelView::keyOnBead(QKeyEvent& event) {
  const bool far = (event.modifiers() & Qt::ShiftModifier) != 0;
  if (const auto arrow = arrowOf(event.key())) {
    moveBead((arrow->x() - arrow->y()) * (far ? kBeadStride_m : kBeadStep_m));
    return true;
  }
  const layout::LaidRun* laidRun = run(m_hub.run());
  switch (event.key()) {
    case Qt::Key_Home:
      setBead(0.0);
      return true;
    case Qt::Key_End:
      if (laidRun != nullptr) setBead(laidRun->path.length().si());
      return true;
    case Qt::Key_PageUp:
    case Qt::Key_PageDown: {
      const int next = m_hub.run() + (event.key() == Qt::Key_PageDown ? 1 : -1);
      if (run(next) != nullptr) m_hub.setHere(next, m_hub.station_m());
      return run(next) != nullptr;
    }
    case Qt::Key_Escape: {
      const bool had = !m_typed.empty() || !m_typedAnswer.isEmpty();
      m_typed.clear();
      m_typedAnswer.clear();
      viewport()->update();
      return had;
    }
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (m_typed.empty()) return false;
      commitTyped();
      return true;
    default:
      return typeKey(event);
  }
}

void PanelView::moveBead(double by_m) {
  const layout::LaidRun* laidRun = run(m_hub.run());
  if (laidRun == nullptr) return;
  // An arrow key at the end of the tube stays there: there is nothing beyond.
  setBead(std::clamp(m_hub.station_m() + by_m, 0.0, laidRun->path.length().si()));
}

void PanelView::setBead(double station_m) {
  m_typed.clear();
  m_typedAnswer.clear();
  m_hub.setHere(m_hub.run(), station_m);
}

void PanelView::commitTyped() {
  const format::Preferences& preferences = m_look.preferences();
  if (m_stop.kind == Stop::Kind::Handle) {
    gestures::Gesture& gesture = m_handles[static_cast<std::size_t>(m_stop.index)]->gesture();
    const Result<double> number = m_typed.read(gesture.dimension(), gesture.bareUnit(preferences));
    if (!number) {
      m_typedAnswer = format::sentence(number.error(), preferences);
    } else {
      const double value = gesture.fromTyped(*number);
      m_typed.clear();
      applyEdit(gesture.edit(value), gesture.stepText(value, preferences));
    }
    viewport()->update();
    return;
  }
  const layout::LaidRun* laidRun = run(m_hub.run());
  const Result<double> station = m_typed.read(Dimension::Length, runUnit(preferences));
  if (!station) {
    m_typedAnswer = format::sentence(station.error(), preferences);
  } else if (laidRun == nullptr || *station < 0.0 || *station > laidRun->path.length().si()) {
    const double length = laidRun == nullptr ? 0.0 : laidRun->path.length().si();
    m_typedAnswer = tr("This run goes from 0 to %1.")
                        .arg(format::number(metres(length), format::LengthScale::Run, preferences).joined());
  } else {
    setBead(*station);
  }
  viewport()->update();
}

bool PanelView::keyOnHandle(QKeyEvent& event, HandleMark& mark) {
  if (const auto arrow = arrowOf(event.key())) {
    double way = mark.gesture().countsTurns() ? arrow->x() - arrow->y() : QPointF::dotProduct(*arrow, mark.along());
    // An arrow across the handle's way still does something: right and up are more.
    if (std::abs(way) < 0.3) way = arrow->x() - arrow->y();
    const int stride = event.modifiers() & Qt::ShiftModifier ? 10 : 1;
    stepHandle(mark, way > 0.0 ? stride : -stride);
    return true;
  }
  if (event.key() == Qt::Key_Escape) {
    const bool had = m_series || !m_typed.empty() || m_slip;
    m_typed.clear();
    m_typedAnswer.clear();
    putBackSeries();
    return had;
  }
  if (isEnter(event)) {
    if (m_typed.empty())
      editHandle(mark);
    else
      commitTyped();
    return true;
  }
  return typeKey(event);
}

void PanelView::stepHandle(HandleMark& mark, int steps) {
  gestures::Gesture& gesture = mark.gesture();
  if (!m_series || m_series->mark != &mark) {
    endSeries();
    m_series =
        Series{&mark, m_store.undoStack()->index(), QStringLiteral("%1/%2").arg(gesture.key()).arg(++m_seriesCount)};
    m_before = m_store.results();
  }
  const gestures::Design now = design();
  if (!gesture.hold(now, gesture.handle(now)->at)) return;
  const double value = gesture.stepBy(steps);
  m_refusal.reset();
  const Result<model::Document> edited = gesture.edit(value)(*now.document);
  if (!edited) {
    m_refusal = edited.error();
  } else if (now.panel) {
    // A key does not walk into a panel that cannot be laid; a typed number may.
    if (const Result<layout::LaidPanel> panel = layout::lay(*edited); !panel) m_refusal = panel.error();
  }
  if (!m_refusal) applyEdit(gesture.edit(value), gesture.stepText(value, m_look.preferences()), m_series->mergeKey);
  gesture.letGo();
  refreshSlip();
}

void PanelView::endSeries() {
  if (!m_series) return;
  m_series.reset();
  m_slip.reset();
  m_refusal.reset();
  viewport()->update();
}

void PanelView::putBackSeries() {
  if (!m_series) {
    m_slip.reset();
    viewport()->update();
    return;
  }
  const int index = m_series->undoIndex;
  endSeries();
  while (m_store.undoStack()->index() > index) m_store.undoStack()->undo();
}

}  // namespace sunspool::panelview
