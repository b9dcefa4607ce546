// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/panel_view.h"

#include <QAccessible>
#include <QGraphicsScene>
#include <QResizeEvent>
#include <QScrollBar>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "app/gestures/exit_shift.h"
#include "app/gestures/inner_end.h"
#include "app/gestures/margin.h"
#include "app/gestures/pitch.h"
#include "app/panelview/accessible.h"
#include "app/panelview/board_item.h"
#include "app/panelview/ghost_item.h"
#include "app/panelview/handle_mark.h"
#include "app/panelview/here_sentence.h"
#include "app/panelview/scene_units.h"
#include "app/panelview/tube_item.h"
#include "app/widgets/quantity_edit.h"
#include "core/model/edits.h"

namespace sunspool::panelview {

namespace {

constexpr double kSmallestScale = 0.002, kLargestScale = 30.0;  ///< px per millimetre
constexpr double kDesk = 500000.0;                              ///< scene units the view may be panned over

/// The design a hovered chart asks for.
Result<model::Document> ghostOf(const model::Document& document, evaluate::Sweep variable, double x) {
  switch (variable) {
    case evaluate::Sweep::Pitch:
      return model::withPitch(document, metres(x));
    case evaluate::Sweep::QuarterTurns:
      return model::withQuarterTurns(document, static_cast<int>(std::lround(std::clamp(x, -1e6, 1e6))));
    case evaluate::Sweep::BendRadius:
      return model::withBendRadius(document, metres(x));
  }
  return document;
}

QString ghostName(evaluate::Sweep variable, double x, const format::Preferences& preferences) {
  const auto drawn = [&] { return format::number(metres(x), format::LengthScale::Drawing, preferences).joined(); };
  switch (variable) {
    case evaluate::Sweep::Pitch:
      return PanelView::tr("ghost: pitch %1").arg(drawn());
    case evaluate::Sweep::QuarterTurns:
      return PanelView::tr("ghost: %1 turns").arg(gestures::turnsInWords(x));
    case evaluate::Sweep::BendRadius:
      return PanelView::tr("ghost: bend radius %1").arg(drawn());
  }
  return {};
}

bool portOn(const layout::LaidPanel& panel, layout::Side side) {
  return std::any_of(panel.runs.begin(), panel.runs.end(), [&](const layout::LaidRun& run) {
    return run.feed.side == side || (run.returning.side == side && !run.returning.throughBack);
  });
}

}  // namespace

PanelView::PanelView(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent)
    : QGraphicsView(parent), m_store(store), m_hub(hub), m_look(look), m_overlay(look) {
  installAccessibility();
  setObjectName(QStringLiteral("panel_view"));
  setAccessibleName(tr("Panel"));
  setScene(new QGraphicsScene(this));
  scene()->setSceneRect(-kDesk, -kDesk, 2.0 * kDesk, 2.0 * kDesk);
  scene()->setItemIndexMethod(QGraphicsScene::NoIndex);
  scene()->addItem(m_board = new BoardItem(look));
  scene()->addItem(m_glazing = new GlazingItem(look));
  scene()->addItem(m_tube = new TubeItem(look));
  scene()->addItem(m_ghost = new GhostItem(look));
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setTransformationAnchor(NoAnchor);
  setResizeAnchor(NoAnchor);
  setViewportUpdateMode(MinimalViewportUpdate);
  setOptimizationFlag(DontAdjustForAntialiasing);
  setFocusPolicy(Qt::StrongFocus);
  setMinimumSize(320, 200);
  setAcceptDrops(true);
  viewport()->setAcceptDrops(true);
  viewport()->setMouseTracking(true);

  const auto add = [this](std::unique_ptr<gestures::Gesture> gesture) {
    m_handles.push_back(new HandleMark(std::move(gesture), this));
  };
  add(std::make_unique<gestures::FrameEdge>(gestures::FrameEdge::Edge::Right));
  add(std::make_unique<gestures::FrameEdge>(gestures::FrameEdge::Edge::Top));
  add(std::make_unique<gestures::Margin>());
  add(std::make_unique<gestures::Pitch>());
  add(std::make_unique<gestures::InnerEnd>());
  add(std::make_unique<gestures::ExitShift>());

  QObject::connect(&m_store, &store::DocumentStore::resultsChanged, this, &PanelView::refresh);
  QObject::connect(&m_store, &store::DocumentStore::editRefused, this, [this](const Error& error) {
    if (m_hand == Hand::Gesture) m_refusal = error;
    if (m_editor) m_editor->showMessage(format::sentence(error, m_look.preferences()));
  });
  // Undo and redo take an old answer off the panel.
  connect(store.undoStack(), &QUndoStack::indexChanged, this, [this] {
    if (m_hand != Hand::Free || m_series) return;
    m_slip.reset();
    m_refusal.reset();
    viewport()->update();
  });
  QObject::connect(&m_hub, &store::Hub::hereChanged, this, [this] {
    viewport()->update();
    if (QAccessible::isActive()) {
      QAccessibleEvent said(this, QAccessible::DescriptionChanged);
      QAccessible::updateAccessibility(&said);
    }
  });
  QObject::connect(&m_hub, &store::Hub::ghostChanged, this, &PanelView::refreshGhost);
  QObject::connect(&m_hub, &store::Hub::sweepVariableChanged, this, &PanelView::refreshGhost);
  QObject::connect(&m_hub, &store::Hub::ghostDesignChanged, this, &PanelView::refreshGhost);
  QObject::connect(&m_look, &render::Look::changed, this, &PanelView::applyLook);
  applyLook();
}

PanelView::~PanelView() = default;

void PanelView::applyLook() {
  setBackgroundBrush(m_look.tokens().desk);
  m_profiles.clear();  // the scale may be in other degrees now
  refresh();
}

const layout::LaidPanel* PanelView::laid() const {
  const auto results = m_store.results();
  return results && results->layout ? &*results->layout : nullptr;
}

const layout::LaidRun* PanelView::run(int index) const {
  const layout::LaidPanel* panel = laid();
  if (panel == nullptr || index < 0 || index >= static_cast<int>(panel->runs.size())) return nullptr;
  return &panel->runs[static_cast<std::size_t>(index)];
}

gestures::Design PanelView::design() const {
  const auto results = m_store.results();
  gestures::Design design{m_store.shared(), nullptr};
  if (results && results->layout) design.panel = {results, &*results->layout};
  return design;
}

void PanelView::refresh() {
  const auto document = m_store.shared();
  m_board->show(document);
  m_glazing->show(document, laid());
  refreshColours();
  refreshGhost();
  m_overlayStale = true;
  // Under the hand the panel stays where it is.
  if (m_fitted && m_hand != Hand::Gesture && !m_series && !m_store.isPreviewing()) fit();
  if (m_hand == Hand::Gesture || m_series) refreshSlip();
  if (m_hand == Hand::Roll) refreshRollSlip();
  viewport()->update();
}

void PanelView::refreshColours() {
  const auto results = m_store.results();
  const layout::LaidPanel* panel = laid();
  m_contours.clear();
  if (panel == nullptr) {
    m_tube->show({});
    return;
  }
  const std::size_t runs = panel->runs.size();
  if (m_store.isSettled()) {
    m_profiles = results->profiles.size() == runs ? results->profiles : std::vector<results::RunProfile>{};
    m_profileLengths_m.clear();
    for (const layout::LaidRun& laidRun : panel->runs) m_profileLengths_m.push_back(laidRun.path.length().si());
    m_scale = rampScaleOf(m_profiles, m_look.preferences().units);
    m_contours = contoursOf(m_profiles, m_scale);
  }
  // While settling, the tone of the last answer is stretched over the new run; its numbers are not shown.
  const bool toned = m_profiles.size() == runs && m_profileLengths_m.size() == runs && m_scale.known();
  const double diameter = m_store.document().tube.outsideDiameter.value.si();
  std::vector<TubeShape> shapes;
  for (std::size_t i = 0; i < runs; ++i) {
    std::vector<ColourStep> colours = {{0.0, 0}};
    if (toned && m_profileLengths_m[i] > 0.0) {
      colours = colourSteps(m_profiles[i].points, m_scale.low_K, m_scale.high_K);
      const double stretch = panel->runs[i].path.length().si() / m_profileLengths_m[i];
      for (ColourStep& colour : colours) colour.station_m *= stretch;
    }
    shapes.emplace_back(panel->runs[i], diameter, colours);
  }
  m_tube->show(std::move(shapes));
}

void PanelView::refreshGhost() {
  m_ghostName.clear();
  const std::optional<double> x = m_hub.ghost();
  if (const auto wanted = m_hub.ghostDesign(); wanted && !x) {
    const Result<layout::LaidPanel> panel = layout::lay(*wanted);
    m_ghost->showBeside(wanted->frame, panel ? &*panel : nullptr, m_store.document().frame, laid());
    m_tube->setFaded(m_ghost->isMostlyNew());
    m_ghostName = m_hub.ghostName();
    viewport()->update();
    return;
  }
  if (!x) {
    m_ghost->show(nullptr);
    m_tube->setFaded(false);
    viewport()->update();
    return;
  }
  const Result<model::Document> document = ghostOf(m_store.document(), m_hub.sweepVariable(), *x);
  const Result<layout::LaidPanel> panel = document.and_then([](const model::Document& d) { return layout::lay(d); });
  m_ghost->show(panel ? &*panel : nullptr);
  m_tube->setFaded(m_ghost->isShown());
  m_ghostName = ghostName(m_hub.sweepVariable(), *x, m_look.preferences());
  if (!panel) m_ghostName = tr("%1 cannot be laid").arg(m_ghostName);
  viewport()->update();
}

std::optional<QPointF> PanelView::placeOfSnag(int snag) const {
  for (const TagSpot& tag : m_overlay.tags())
    if (tag.snag == snag && tag.hangs) return viewport()->pos() + tag.place;
  return std::nullopt;
}

void PanelView::setCovered(const QRect& covered) {
  if (covered == m_covered) return;
  m_covered = covered;
  viewport()->update();
}

bool PanelView::hasGhost() const { return m_ghost->isShown(); }

void PanelView::arrangeOverlay() {
  if (!m_overlayStale) return;
  m_overlayStale = false;
  const QTransform toPx = viewportTransform();
  m_overlay.arrange({m_store.shared(), m_store.results(), m_contours}, toPx, viewport()->rect());
  const gestures::Design now = design();
  for (HandleMark* mark : m_handles) mark->place(now, toPx, m_look.preferences(), m_look.tokens().px(1.0));
}

QString PanelView::hereAndNow() const {
  const auto results = m_store.results();
  if (!results) return {};
  return hereSentence({m_store.document(), *results, m_store.isSettled(), m_hub.run(), m_hub.station_m()},
                      m_look.preferences());
}

QPointF PanelView::widgetPointAt(int index, double station_m) const {
  const layout::LaidRun* laidRun = run(index);
  if (laidRun == nullptr) return {};
  return viewport()->pos() + viewportTransform().map(toScene(laidRun->path.pointAt(station_m)));
}

QPointF PanelView::beadCentre() const { return widgetPointAt(m_hub.run(), m_hub.station_m()); }

HandleMark* PanelView::handle(const QString& key) const {
  const auto found = std::find_if(m_handles.begin(), m_handles.end(),
                                  [&](const HandleMark* mark) { return mark->gesture().key() == key; });
  return found == m_handles.end() ? nullptr : *found;
}

HandleMark* PanelView::focusedHandle() const {
  if (!hasFocus() || m_stop.kind != Stop::Kind::Handle) return nullptr;
  return m_handles[static_cast<std::size_t>(m_stop.index)];
}

double PanelView::pixelsPerMetre() const { return pxPerUnit() * kSceneUnitsPerMetre; }

void PanelView::setScale(double pxPerUnit, QPointF sceneCentre, QPointF atPx) {
  const double scale = std::clamp(pxPerUnit, kSmallestScale, kLargestScale);
  setTransform(QTransform::fromScale(scale, scale));
  const QPointF off = viewportTransform().map(sceneCentre) - atPx;
  horizontalScrollBar()->setValue(horizontalScrollBar()->value() + qRound(off.x()));
  verticalScrollBar()->setValue(verticalScrollBar()->value() + qRound(off.y()));
  m_overlayStale = true;
  viewport()->update();
}

void PanelView::fit() {
  m_fitted = true;
  const QRectF outer = m_board->outerRect();
  if (outer.isEmpty() || viewport()->width() < 2 || viewport()->height() < 2) return;
  const double width = viewport()->width(), height = viewport()->height();
  const double text = m_look.tokens().textScale;
  const bool roomy = width >= 1200.0;
  // 60 px around with the dimensions in it; more where tails leave, with their letters.
  QMarginsF room = roomy ? QMarginsF(131.0, 59.0, 131.0, 63.0) : QMarginsF(89.0, 49.0, 89.0, 55.0);
  if (const layout::LaidPanel* panel = laid()) {
    const double tail = roomy ? 68.0 : 52.0;
    if (portOn(*panel, layout::Side::Left)) room.setLeft(room.left() + tail);
    if (portOn(*panel, layout::Side::Right)) room.setRight(room.right() + tail);
    if (portOn(*panel, layout::Side::Top)) room.setTop(room.top() + tail / 2.0);
    if (portOn(*panel, layout::Side::Bottom)) room.setBottom(room.bottom() + tail / 4.0);
  }
  room *= text;
  const double across = std::max(0.4 * width, width - room.left() - room.right());
  const double down = std::max(0.4 * height, height - room.top() - room.bottom());
  const double scale = std::min(across / outer.width(), down / outer.height());
  const QPointF shift((room.left() - room.right()) / 2.0, (room.top() - room.bottom()) / 2.0);
  setScale(scale, outer.center(), QPointF(width / 2.0, height / 2.0) + shift);
}

void PanelView::zoomAbout(QPointF at, double factor) {
  m_fitted = false;
  const QPointF still = viewportTransform().inverted().map(at);
  setScale(pxPerUnit() * factor, still, at);
}

void PanelView::zoomIn() { zoomAbout(QRectF(viewport()->rect()).center(), 1.25); }
void PanelView::zoomOut() { zoomAbout(QRectF(viewport()->rect()).center(), 0.8); }

void PanelView::resizeEvent(QResizeEvent* event) {
  QGraphicsView::resizeEvent(event);
  m_overlayStale = true;
  if (m_fitted) fit();
}

void PanelView::wheelEvent(QWheelEvent* event) {
  const double notches = event->angleDelta().y() / 120.0;
  if (notches != 0.0) zoomAbout(event->position(), std::pow(1.2, notches));
  event->accept();
}

void PanelView::scrollContentsBy(int dx, int dy) {
  QGraphicsView::scrollContentsBy(dx, dy);
  // What is written round the panel does not scroll with it.
  m_overlayStale = true;
  viewport()->update();
}

}  // namespace sunspool::panelview
