// SPDX-License-Identifier: GPL-3.0-or-later

// The hand: hovering, pulling handles, moving the bead, panning, typing a size over.

#include <QHelpEvent>
#include <QMouseEvent>
#include <QScrollBar>
#include <QToolTip>
#include <algorithm>
#include <cmath>
#include <limits>

#include "app/gestures/inner_end.h"
#include "app/panelview/board_item.h"
#include "app/panelview/handle_mark.h"
#include "app/panelview/panel_view.h"
#include "app/panelview/scene_units.h"
#include "app/panelview/tube_item.h"
#include "app/widgets/quantity_edit.h"

namespace sunspool::panelview {

namespace {

constexpr double kTubeReach_px = 7.0;     ///< a pointer this near to a tube is on it
constexpr double kHandleReach_px = 64.0;  ///< a handle shows itself to a pointer this near
constexpr double kClickReach_px = 9.0;    ///< a frame edge clicks to a stock size this near
constexpr double kBeadWindow_m = 0.6;     ///< the bead follows the tube it is on, not its neighbour
constexpr double kBeadJump_px = 70.0;     ///< unless the hand has clearly gone elsewhere

double away(QPointF a, QPointF b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

Qt::CursorShape cursorAlong(QPointF u) {
  return std::abs(u.x()) > std::abs(u.y()) ? Qt::SizeHorCursor : Qt::SizeVerCursor;
}

}  // namespace

std::optional<PanelView::Place> PanelView::nearestTube(QPointF at) const {
  const layout::LaidPanel* panel = laid();
  if (panel == nullptr) return std::nullopt;
  const geometry::Point p = toPanel(viewportTransform().inverted().map(at));
  const double half_m = m_store.document().tube.outsideDiameter.value.si() / 2.0;
  std::optional<Place> best;
  for (std::size_t i = 0; i < panel->runs.size(); ++i) {
    const layout::LaidRun& laidRun = panel->runs[i];
    const geometry::Path::Nearest nearest = laidRun.path.nearest(p);
    if (!best || nearest.distance_m < best->distance_m)
      best = Place{static_cast<int>(i), nearest.station_m, nearest.distance_m};
    if (!laidRun.crossing || laidRun.crossing->level == layout::CrossingLevel::Under) continue;
    // What lies over the turns is what the pointer sees.
    const double from = laidRun.crossing->from_m;
    const geometry::Path::Nearest over = laidRun.path.slice(from, laidRun.path.length().si()).nearest(p);
    if (over.distance_m <= half_m) best = Place{static_cast<int>(i), from + over.station_m, 0.0};
  }
  if (!best) return std::nullopt;
  const double reach_m = std::max(half_m, kTubeReach_px / pixelsPerMetre());
  return best->distance_m <= reach_m ? best : std::nullopt;
}

HandleMark* PanelView::handleNear(QPointF at) const {
  HandleMark* nearest = nullptr;
  double least = kHandleReach_px;
  const QRectF outer = viewportTransform().mapRect(m_board->outerRect());
  for (HandleMark* mark : m_handles) {
    if (!mark->isThere()) continue;
    double distance = away(mark->centre(), at);
    // A frame edge is hovered along its whole length.
    if (const auto* edge = dynamic_cast<const gestures::FrameEdge*>(&mark->gesture())) {
      const bool right = edge->edge() == gestures::FrameEdge::Edge::Right;
      const QRectF strip = right ? QRectF(mark->centre().x() - 22.0, outer.top(), 44.0, outer.height())
                                 : QRectF(outer.left(), mark->centre().y() - 22.0, outer.width(), 44.0);
      if (strip.contains(at)) distance = std::min(distance, kHandleReach_px - 1.0);
    }
    if (distance < least) {
      least = distance;
      nearest = mark;
    }
  }
  return nearest;
}

void PanelView::hoverAt(QPointF at) {
  arrangeOverlay();
  HandleMark* hovered = handleNear(at);
  const int tag = m_overlay.tagAt(at);
  const int dimension = m_overlay.dimensionAt(at);
  const bool caught = hovered != nullptr && hovered->catches(at);
  const std::optional<Place> place = caught || tag >= 0 ? std::nullopt : nearestTube(at);
  if (caught)
    viewport()->setCursor(cursorAlong(hovered->along()));
  else if (tag >= 0)
    viewport()->setCursor(Qt::PointingHandCursor);
  else if (dimension >= 0)
    viewport()->setCursor(Qt::IBeamCursor);
  else
    viewport()->unsetCursor();
  if (hovered != m_hovered || tag != m_hoveredTag || dimension != m_hoveredDimension || caught) {
    m_hovered = hovered;
    m_hoveredTag = tag;
    m_hoveredDimension = dimension;
    m_overlay.setMarkedDimension(dimension);
    viewport()->update();
  }
  const auto repaintHover = [this] {
    if (!m_hoverPlace) return;
    const QPointF centre = widgetPointAt(m_hoverPlace->run, m_hoverPlace->station_m);
    viewport()->update(QRectF(centre.x() - 130.0, centre.y() - 70.0, 260.0, 140.0).toAlignedRect());
  };
  repaintHover();
  m_hoverPlace = place;
  repaintHover();
}

void PanelView::mousePressEvent(QMouseEvent* event) {
  const QPointF at = event->position();
  m_handAt = at;
  endSeries();
  m_slip.reset();
  m_refusal.reset();
  m_typed.clear();
  m_typedAnswer.clear();
  viewport()->update();
  if (event->button() == Qt::MiddleButton) {
    m_hand = Hand::Panning;
    m_panFrom = at;
    viewport()->setCursor(Qt::ClosedHandCursor);
    return;
  }
  if (event->button() != Qt::LeftButton) return;
  arrangeOverlay();
  HandleMark* near = handleNear(at);
  if (near != nullptr && near->catches(at)) {
    beginGesture(*near, at);
    return;
  }
  if (const int dimension = m_overlay.dimensionAt(at); dimension >= 0) {
    editDimension(m_overlay.dimensions()[static_cast<std::size_t>(dimension)]);
    return;
  }
  if (const int tag = m_overlay.tagAt(at); tag >= 0) {
    Q_EMIT snagActivated(m_overlay.tags()[static_cast<std::size_t>(tag)].snag);
    return;
  }
  if (away(at, beadCentre()) <= kHandleCatch_px / 2.0) {
    setStop({});
    m_hand = Hand::Bead;
    dragBeadTo(at);
  } else if (const auto place = nearestTube(at)) {
    setStop({});
    m_hand = Hand::Bead;
    m_hub.setHere(place->run, place->station_m);
  } else {
    setStop({});  // what is typed next belongs to the bead, not to a handle pulled before
  }
}

void PanelView::mouseDoubleClickEvent(QMouseEvent* event) { mousePressEvent(event); }

void PanelView::mouseMoveEvent(QMouseEvent* event) {
  const QPointF at = event->position();
  m_handAt = at;
  m_pointerInside = true;
  switch (m_hand) {
    case Hand::Free:
      hoverAt(at);
      return;
    case Hand::Panning: {
      m_fitted = false;
      const QPoint moved = (at - m_panFrom).toPoint();
      m_panFrom += moved;
      horizontalScrollBar()->setValue(horizontalScrollBar()->value() - moved.x());
      verticalScrollBar()->setValue(verticalScrollBar()->value() - moved.y());
      return;
    }
    case Hand::Bead:
      dragBeadTo(at);
      return;
    case Hand::Gesture:
      if (auto* edge = dynamic_cast<gestures::FrameEdge*>(&m_held->gesture()))
        edge->setClicks(event->modifiers() & Qt::AltModifier ? gestures::FrameEdge::Clicks::Free
                                                             : gestures::FrameEdge::Clicks::ToStock);
      pullTo(at);
      return;
    case Hand::Roll:
    case Hand::Spent:
      return;
  }
}

void PanelView::mouseReleaseEvent(QMouseEvent* event) {
  m_handAt = event->position();
  const Hand was = m_hand;
  if (was == Hand::Gesture) {
    endGesture();
  } else {
    m_hand = Hand::Free;
  }
  hoverAt(m_handAt);
}

void PanelView::dragBeadTo(QPointF at) {
  const layout::LaidRun* laidRun = run(m_hub.run());
  if (laidRun == nullptr) return;
  const geometry::Point p = toPanel(viewportTransform().inverted().map(at));
  const double length = laidRun->path.length().si();
  const double from = std::clamp(m_hub.station_m() - kBeadWindow_m, 0.0, length);
  const double to = std::clamp(m_hub.station_m() + kBeadWindow_m, 0.0, length);
  const geometry::Path::Nearest along = laidRun->path.slice(from, to).nearest(p);
  if (along.distance_m * pixelsPerMetre() <= kBeadJump_px) {
    m_hub.setHere(m_hub.run(), from + along.station_m);
    return;
  }
  if (const auto place = nearestTube(at)) m_hub.setHere(place->run, place->station_m);
}

void PanelView::beginGesture(HandleMark& mark, QPointF at) {
  if (!mark.gesture().hold(design(), toPanel(viewportTransform().inverted().map(at)))) return;
  if (auto* edge = dynamic_cast<gestures::FrameEdge*>(&mark.gesture()))
    edge->setReach(metres(kClickReach_px / pixelsPerMetre()));
  m_hand = Hand::Gesture;
  m_held = &mark;
  m_before = m_store.results();
  m_refusal.reset();
  const auto index = std::find(m_handles.begin(), m_handles.end(), &mark) - m_handles.begin();
  setStop({Stop::Kind::Handle, static_cast<int>(index)});
  m_board->setMarginShown(mark.gesture().key() == QStringLiteral("margin"));
  viewport()->update();
}

void PanelView::pullTo(QPointF at) {
  const auto value = m_held->gesture().drag(toPanel(viewportTransform().inverted().map(at)));
  if (value)
    propose(*value);
  else
    viewport()->update();
}

void PanelView::propose(double value) {
  m_refusal.reset();
  m_store.preview(m_held->gesture().edit(value));
  refreshSlip();
}

void PanelView::endGesture() {
  gestures::Gesture& gesture = m_held->gesture();
  const bool cannotBeLaid = laid() == nullptr && m_before && m_before->layout.has_value();
  const bool refused = m_refusal.has_value() || cannotBeLaid || !m_typedAnswer.isEmpty();
  if (refused) {
    // The slip with the reason stays until the next press.
    refreshSlip();
    m_hand = Hand::Free;
    m_store.cancelPreview();
  } else {
    m_hand = Hand::Free;
    const QString step = gesture.stepText(gesture.proposed(), m_look.preferences());
    m_slip.reset();
    if (m_store.isPreviewing()) m_store.commitPreview(step);
  }
  gesture.letGo();
  m_held = nullptr;
  m_typed.clear();
  m_typedAnswer.clear();
  m_tube->setHeld(std::nullopt);
  m_board->setMarginShown(false);
  if (m_fitted) fit();
  viewport()->update();
}

void PanelView::abandonGesture() {
  m_hand = Hand::Spent;
  m_slip.reset();
  m_refusal.reset();
  m_typed.clear();
  m_typedAnswer.clear();
  m_held->gesture().letGo();
  m_held = nullptr;
  m_store.cancelPreview();
  m_tube->setHeld(std::nullopt);
  m_board->setMarginShown(false);
  viewport()->update();
}

PriceSlip PanelView::slipOf(const gestures::Gesture& gesture, double value) const {
  const format::Preferences& preferences = m_look.preferences();
  const auto now = m_store.results();
  PriceSlip slip;
  const bool turns = gesture.countsTurns();
  const auto turnsOf = [](const results::Results& results) {
    return results.layout && !results.layout->runs.empty() ? results.layout->runs.front().quarterTurns : 0;
  };
  if (!turns) {
    slip.columns.push_back({gesture.text(value, preferences), gesture.name().toLower()});
  }
  if (m_refusal || !now || !now->layout) {
    slip.title = tr("It cannot be laid like this.");
    if (m_refusal || now) slip.text = format::sentence(m_refusal ? *m_refusal : now->layout.error(), preferences);
    slip.state = render::EdgeState::TwoTeeth;
    return slip;
  }
  if (!m_before || !m_before->layout) return slip;
  const int change = turnsOf(*now) - turnsOf(*m_before);
  if (turns || change != 0) {
    const format::NumberAndUnit head{gestures::turnsInWords(change), std::abs(change) == 4 ? tr("turn") : tr("turns")};
    slip.columns.push_back({withSign(head, change), tr("%1 now").arg(gestures::turnsInWords(turnsOf(*now)))});
  }
  const Freshness freshness = m_store.isSettled() ? Freshness::Settled : Freshness::Settling;
  for (SlipColumn& column : changesOf(*m_before, *now, freshness, m_store.document().stock.currency, preferences))
    slip.columns.push_back(std::move(column));
  if (turns && now->bends && now->bends->worst) slip.bend = now->bends->worst;
  if (freshness == Freshness::Settled) {
    if (const Snag* snag = newSnag(*m_before, *now)) {
      const format::SnagText words = format::snagText(*snag, m_store.document(), preferences);
      slip.title = words.title;
      slip.text = words.why;
      slip.state = render::edgeOf(snag->state);
    }
  }
  return slip;
}

void PanelView::refreshSlip() {
  const HandleMark* mark = m_held != nullptr ? m_held : m_series ? m_series->mark : nullptr;
  if (mark == nullptr) return;
  const gestures::Gesture& gesture = mark->gesture();
  const double value = gesture.state() == gestures::Gesture::State::Held ? gesture.proposed() : gesture.value(design());
  m_slip = slipOf(gesture, value);
  if (!m_typedAnswer.isEmpty()) {
    m_slip->columns = {{{m_typed.text(), {}}, tr("typed")}};
    m_slip->title = tr("This is not a number to take.");
    m_slip->text = m_typedAnswer;
    m_slip->state = render::EdgeState::TwoTeeth;
    m_slip->bend.reset();
  }
  std::optional<TubeItem::Held> held;
  const layout::LaidRun* now = run(0);
  if (m_held != nullptr && gesture.countsTurns() && now != nullptr && m_before && m_before->layout &&
      !m_before->layout->runs.empty()) {
    const double before_m = m_before->layout->runs.front().turnsTo_m;
    if (now->turnsTo_m > before_m) held = TubeItem::Held{0, before_m, now->turnsTo_m};
  }
  m_tube->setHeld(held);
  viewport()->update();
}

bool PanelView::applyEdit(const gestures::Edit& edit, const QString& stepText, const QString& mergeKey) {
  return m_store.apply(edit, stepText, mergeKey);
}

void PanelView::editDimension(const DimensionSpot& spot) {
  const auto edge = std::make_shared<gestures::FrameEdge>(spot.edge);
  const Length timbers = spot.outside - metres(edge->value(design()));
  widgets::QuantityKind kind;
  kind.dimension = Dimension::Length;
  kind.bareUnit = edge->bareUnit(m_look.preferences());
  kind.text = [this](double si) {
    return format::number(metres(si), format::LengthScale::Drawing, m_look.preferences());
  };
  kind.step_si = edge->step();
  const bool width = spot.edge == gestures::FrameEdge::Edge::Right;
  openEditor(std::move(kind), width ? tr("Outside width") : tr("Outside height"), spot.outside.si(), spot.text.center(),
             [this, edge, timbers](double outside_m) {
               const double inside_m = outside_m - timbers.si();
               return applyEdit(edge->edit(inside_m), edge->stepText(inside_m, m_look.preferences()));
             });
}

void PanelView::editHandle(HandleMark& mark) {
  gestures::Gesture& gesture = mark.gesture();
  widgets::QuantityKind kind;
  kind.dimension = gesture.dimension();
  kind.bareUnit = gesture.bareUnit(m_look.preferences());
  kind.text = [this, &gesture](double typed) { return gesture.typedText(typed, m_look.preferences()); };
  kind.step_si = gesture.toTyped(gesture.step());
  openEditor(std::move(kind), gesture.name(), gesture.toTyped(gesture.value(design())),
             mark.centre() + QPointF(0.0, -44.0), [this, &gesture](double typed) {
               const double value = gesture.fromTyped(typed);
               return applyEdit(gesture.edit(value), gesture.stepText(value, m_look.preferences()));
             });
}

void PanelView::openEditor(widgets::QuantityKind kind, const QString& name, double value, QPointF centre,
                           std::function<bool(double)> commit) {
  endSeries();
  delete m_editor;
  m_editor = new widgets::QuantityEdit(m_look, std::move(kind), viewport());
  m_editor->setObjectName(QStringLiteral("panel_number"));
  m_editor->setAutoFillBackground(true);
  m_editor->setName(name);
  m_editor->setValue(value);
  m_editor->setCommit(std::move(commit));
  QObject::connect(m_editor, &widgets::QuantityEdit::finished, this, [this] {
    if (!m_editor) return;
    m_editor->deleteLater();
    m_editor = nullptr;
    setFocus(Qt::OtherFocusReason);
    viewport()->update();
  });
  const QSize size = m_editor->sizeHint().expandedTo({qRound(m_look.tokens().px(130.0)), 0});
  QRect box(QPoint(0, 0), size);
  box.moveCenter(centre.toPoint());
  const QRect room = viewport()->rect().adjusted(4, 4, -4, -4);
  box.moveLeft(std::clamp(box.left(), room.left(), std::max(room.left(), room.right() - box.width())));
  box.moveTop(std::clamp(box.top(), room.top(), std::max(room.top(), room.bottom() - box.height())));
  m_editor->setGeometry(box);
  m_editor->show();
  m_editor->editNow();
}

bool PanelView::viewportEvent(QEvent* event) {
  if (event->type() == QEvent::Leave) {
    m_pointerInside = false;
    if (m_hand == Hand::Free) {
      m_hovered = nullptr;
      m_hoveredTag = m_hoveredDimension = -1;
      m_overlay.setMarkedDimension(-1);
      m_hoverPlace.reset();
      viewport()->update();
    }
  }
  if (event->type() == QEvent::ToolTip) {
    const auto* help = static_cast<QHelpEvent*>(event);
    arrangeOverlay();
    const int tag = m_overlay.tagAt(help->pos());
    const int dimension = m_overlay.dimensionAt(help->pos());
    const HandleMark* mark = handleNear(help->pos());
    if (tag >= 0)
      QToolTip::showText(help->globalPos(), m_overlay.tags()[static_cast<std::size_t>(tag)].title, viewport());
    else if (dimension >= 0)
      QToolTip::showText(help->globalPos(), tr("Outside size. Click to type another."), viewport());
    else if (mark != nullptr && mark->catches(help->pos()))
      QToolTip::showText(help->globalPos(), tr("%1: %2").arg(mark->gesture().name(), mark->spokenValue()), viewport());
    else
      QToolTip::hideText();
    return true;
  }
  return QGraphicsView::viewportEvent(event);
}

}  // namespace sunspool::panelview
