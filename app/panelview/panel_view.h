// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The panel at scale, seen from the glazed side, lying as it will lie: what is drawn can be pulled, and every
// number on it typed over. Reads the store and the hub, sends edits to the store and the bead to the hub.

#include <QGraphicsView>
#include <QPointer>
#include <memory>
#include <optional>
#include <vector>

#include "app/gestures/gesture.h"
#include "app/gestures/roll_drop.h"
#include "app/gestures/typed_number.h"
#include "app/panelview/overlay.h"
#include "app/panelview/price_slip.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/widgets/quantity_edit.h"

namespace sunspool::panelview {

class BoardItem;
class GhostItem;
class GlazingItem;
class HandleMark;
class TubeItem;

class PanelView : public QGraphicsView {
  Q_OBJECT
 public:
  /// Store, hub and look must outlive the view.
  PanelView(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent = nullptr);
  ~PanelView() override;

  /// What is at the bead now, in one sentence.
  QString hereAndNow() const;
  /// Where a place of a run lies on this widget. For tests and for marks of others.
  QPointF widgetPointAt(int run, double station_m) const;
  QPointF beadCentre() const;  ///< as drawn
  const std::vector<HandleMark*>& handles() const { return m_handles; }
  HandleMark* handle(const QString& key) const;
  HandleMark* focusedHandle() const;
  const Overlay& overlay() const { return m_overlay; }
  /// The slip at the hand, when one is shown.
  const std::optional<PriceSlip>& slip() const { return m_slip; }
  bool hasGhost() const;
  /// Where on this widget a finding hangs, as last drawn; nothing for one without a place.
  std::optional<QPointF> placeOfSnag(int snag) const;
  /// What a slip covers of this widget: the ghost's name keeps clear of it.
  void setCovered(const QRect& covered);
  double pixelsPerMetre() const;

 public Q_SLOTS:
  void fit();
  void zoomIn();
  void zoomOut();

 Q_SIGNALS:
  void snagActivated(int index);
  void said(const QString& sentence);  ///< what a dropped roll came to

 protected:
  void drawForeground(QPainter* painter, const QRectF& rect) override;
  void resizeEvent(QResizeEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  bool focusNextPrevChild(bool next) override;
  bool viewportEvent(QEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dragMoveEvent(QDragMoveEvent* event) override;
  void dragLeaveEvent(QDragLeaveEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  bool event(QEvent* event) override;
  void scrollContentsBy(int dx, int dy) override;

 private:
  struct Place {
    int run = 0;
    double station_m = 0.0;
    double distance_m = 0.0;
  };
  /// What Tab walks: the bead, then handles, then tags.
  struct Stop {
    enum class Kind { Bead, Handle, Tag } kind = Kind::Bead;
    int index = 0;
    bool operator==(const Stop&) const = default;
  };
  enum class Hand { Free, Panning, Bead, Gesture, Roll, Spent };

  // picture
  void refresh();
  void refreshColours();
  void refreshGhost();
  void applyLook();
  void arrangeOverlay();
  gestures::Design design() const;
  const layout::LaidPanel* laid() const;
  const layout::LaidRun* run(int index) const;

  // view
  void zoomAbout(QPointF at, double factor);
  void setScale(double pxPerUnit, QPointF sceneCentre, QPointF atPx);
  double pxPerUnit() const { return transform().m11(); }

  // hand
  std::optional<Place> nearestTube(QPointF at) const;
  HandleMark* handleNear(QPointF at) const;
  void hoverAt(QPointF at);
  void beginGesture(HandleMark& mark, QPointF at);
  void pullTo(QPointF at);
  void propose(double value);
  void endGesture();
  void abandonGesture();
  void refreshSlip();
  PriceSlip slipOf(const gestures::Gesture& gesture, double value) const;
  void dragBeadTo(QPointF at);

  // a roll of the Shed over the panel
  void holdRoll(std::size_t roll);
  void letRollGo();
  void refreshRollSlip();
  /// What the edge under the hand has clicked to, and what is left of it; empty when to nothing.
  QString clickText() const;

  // keys
  std::vector<Stop> stops() const;
  void setStop(Stop stop);
  bool keyWhileHeld(QKeyEvent& event);
  bool keyOnBead(QKeyEvent& event);
  bool keyOnHandle(QKeyEvent& event, HandleMark& mark);
  bool typeKey(QKeyEvent& event);
  void commitTyped();
  void moveBead(double by_m);
  void setBead(double station_m);
  void stepHandle(HandleMark& mark, int steps);
  void endSeries();
  void putBackSeries();

  // typing over
  void editDimension(const DimensionSpot& spot);
  void editHandle(HandleMark& mark);
  void openEditor(widgets::QuantityKind kind, const QString& name, double value, QPointF centre,
                  std::function<bool(double)> commit);
  bool applyEdit(const gestures::Edit& edit, const QString& stepText, const QString& mergeKey = {});

  // drawing over the scene
  void drawBead(QPainter& painter) const;
  void drawHover(QPainter& painter) const;
  void drawHandles(QPainter& painter) const;
  void drawWish(QPainter& painter) const;
  void drawHint(QPainter& painter) const;
  void drawClick(QPainter& painter) const;
  void drawGhostName(QPainter& painter) const;
  QString beadText() const;
  QRectF flagRect() const;

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  BoardItem* m_board = nullptr;
  TubeItem* m_tube = nullptr;
  GhostItem* m_ghost = nullptr;
  GlazingItem* m_glazing = nullptr;
  Overlay m_overlay;
  std::vector<HandleMark*> m_handles;

  // what the colours were last reckoned from
  std::vector<results::RunProfile> m_profiles;
  std::vector<double> m_profileLengths_m;
  RampScale m_scale;
  std::vector<Contour> m_contours;
  QString m_ghostName;
  QRect m_covered;

  bool m_pointerInside = false;
  bool m_fitted = true;  ///< fits itself to the window until the builder zooms or pans
  bool m_overlayStale = true;

  Hand m_hand = Hand::Free;
  HandleMark* m_held = nullptr;
  QPointF m_handAt, m_panFrom;
  HandleMark* m_hovered = nullptr;
  int m_hoveredTag = -1, m_hoveredDimension = -1;
  std::optional<Place> m_hoverPlace;
  Stop m_stop;
  std::optional<PriceSlip> m_slip;
  std::optional<Error> m_refusal;
  std::shared_ptr<const results::Results> m_before;
  gestures::TypedNumber m_typed;
  QString m_typedAnswer;
  std::optional<gestures::RollDrop> m_roll;  ///< held over the panel and good to be laid

  /// Arrow keys on one handle, one undo step together.
  struct Series {
    HandleMark* mark = nullptr;
    int undoIndex = 0;
    QString mergeKey;
  };
  std::optional<Series> m_series;
  int m_seriesCount = 0;
  QPointer<widgets::QuantityEdit> m_editor;
};

}  // namespace sunspool::panelview
