// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "app/render/look.h"
#include "app/store/day_runner.h"
#include "app/store/document_store.h"

namespace sunspool::daypage {

/// The hours of one clear day, morning at the top: a bar per quarter hour, the part that reaches the pool and the part
/// that goes back to the air; the sun mark is the hour everything else is shown at, and can be dragged.
class DayPage : public QWidget {
  Q_OBJECT
 public:
  DayPage(store::DocumentStore& store, render::Look& look, store::DayRunner& days, QWidget* parent = nullptr);
  /// Height on the widget of this clock hour; for tests.
  double yOf(double clock_h) const;
  /// What stands in the place of the bars: why there are none, or that they are late. Empty when there are bars.
  QString noBars() const;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  struct Span {
    double from_h = 5.0, to_h = 21.0;
  };
  Span span() const;
  double clockAt(double y) const;
  void previewClock(double y);
  void stepClock(double hours);
  void paintRule(QPainter& painter) const;
  void paintBars(QPainter& painter) const;
  void paintSun(QPainter& painter) const;
  double ruleWidth() const;
  double top() const;
  double bottom() const;
  void describe();

  store::DocumentStore& m_store;
  render::Look& m_look;
  store::DayRunner& m_days;
  bool m_dragging = false;
};

}  // namespace sunspool::daypage
