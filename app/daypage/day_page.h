// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "app/daypage/bars.h"
#include "app/daypage/word_button.h"
#include "app/render/look.h"
#include "app/store/day_runner.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"

namespace sunspool::daypage {

/// The hours of one clear or dull day, morning at the top: a bar per quarter hour told apart by where its sun goes; the
/// sun mark is the hour everything else is shown at, and can be dragged. It folds to the twelve months; with the plug
/// pulled it shows what the tube would come to instead.
/// Keys: up and down a quarter hour (with Shift an hour), Home, End; on the months a month, Home, End, and Return or
/// Escape back to the hours; Escape pushes the plug in.
class DayPage : public QWidget {
  Q_OBJECT
 public:
  enum class View { Hours, Months, PlugOut };

  DayPage(store::DocumentStore& store, store::Hub& hub, render::Look& look, store::DayRunner& days,
          QWidget* parent = nullptr);
  View view() const;
  /// Folds to the months, or opens to the hours.
  void foldToMonths(bool folded);
  /// Puts its words right behind the page in the order of the Tab key; to be called when the window has its own order.
  void orderTabs();

  /// Height on the widget of this clock hour, and of the middle of a month, 1 to 12; for tests.
  double yOf(double clock_h) const;
  double yOfMonth(int month) const;
  /// What stands in the place of the bars: why there are none, or that they are late. Empty when there are bars.
  QString noBars() const;
  /// The line at the foot: the day's total, its difference from before, or what the stopped pump does.
  QString footText() const;
  /// The parts that are named in the plot, with their places.
  std::vector<PartLabel> labels() const;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
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
  void chooseMonth(int month);
  void setSky(model::SkyKind sky);
  bool monthKey(int key);
  bool hourKey(const QKeyEvent& event);
  void refresh();
  void describe();
  QString spokenParts() const;
  void placeWords();

  // where things stand
  double ruleWidth() const;
  double columnWidth() const;
  double top() const;
  double bottom() const;
  double footHeight() const;
  QRectF plot() const;
  QRectF flagRect() const;
  QFont footFont() const;

  // what is drawn
  std::vector<Row> hourRows(const evaluate::Day& day) const;
  std::vector<Row> monthRows() const;
  Scale scaleOf(const std::vector<Row>& rows) const;
  void paintHead(QPainter& painter) const;
  void paintFoot(QPainter& painter) const;
  void paintRule(QPainter& painter) const;
  void paintMonthNames(QPainter& painter) const;
  void paintChosenMonth(QPainter& painter) const;
  void paintHours(const Canvas& canvas) const;
  void paintMonths(const Canvas& canvas) const;
  void paintWaterOut(const Canvas& canvas, const evaluate::Day& day) const;
  void paintColumn(const Canvas& canvas, double y, const QString& text) const;
  void paintColumnHead(const Canvas& canvas, const QString& text) const;
  void paintNoBars(QPainter& painter, const QString& why) const;
  void paintSun(QPainter& painter) const;
  int hoursApart() const;

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  store::DayRunner& m_days;
  WordButton *m_clear = nullptr, *m_dull = nullptr, *m_fold = nullptr;
  bool m_folded = false;
  bool m_dragging = false;
};

}  // namespace sunspool::daypage
