// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The Tape: the chosen run unrolled along the foot of the window, with its strips, the pump and the bead.

#include <QPixmap>
#include <QWidget>
#include <array>
#include <optional>

#include "app/gestures/typed_number.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/tape/content.h"
#include "app/tape/here.h"
#include "app/tape/placement.h"
#include "app/widgets/number_target.h"

namespace sunspool::tape {

/// Reads the store, moves the bead of the hub. Keys: left and right 0.1 m (with Shift 1 m), Home, End, up and down for
/// the run, digits and Enter for a metre, Escape to forget them.
class Tape : public QWidget {
  Q_OBJECT
 public:
  Tape(store::DocumentStore& store, store::Hub& hub, render::Look& look, QWidget* parent = nullptr);

  /// Width of the left column: readings and names stand in it, metre 0 begins right of it.
  void setSideWidth(int px);

  /// What the strip's chip says at the bead.
  QString reading(Strip strip) const;
  /// The bead, drawn back onto the tube when the hub's place is beyond it.
  int run() const { return m_content.run; }
  double station_m() const;
  double end_m() const { return m_content.end_m; }
  /// Moves the bead along the shown run, to its ends at most.
  void moveTo(double station_m);
  static constexpr double kStep_m = 0.1;  ///< one arrow key, and the grid of the hand
  /// Why there is no run; empty when there is one.
  QString refusal() const { return m_content.refusal; }
  /// Why a typed metre was not taken; empty when nothing was refused.
  QString typedRefusal() const { return m_typedRefusal; }
  const Placement& placement() const { return m_place; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  void takeResults();
  void place();
  void showHere();
  void placeNumbers();
  void chooseRun(int run);
  void takeTyped();
  void forgetTyped();
  bool moveByKey(const QKeyEvent& event);
  bool typeByKey(const QKeyEvent& event);
  void drawStill(QPainter& painter) const;
  Here here() const;
  QRect hereArea() const;

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  int m_side = 372;
  Content m_content;
  Placement m_place;
  QPixmap m_still;  ///< everything but the bead; null when it has to be painted again
  QRect m_hereArea;
  std::array<widgets::NumberTarget*, 4> m_numbers{};  ///< over the heads of the strips and the pump's flow
  bool m_dragging = false;
  gestures::TypedNumber m_typed;
  QString m_typedRefusal;
};

}  // namespace sunspool::tape
