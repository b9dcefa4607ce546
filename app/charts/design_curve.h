// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QChartView>
#include <QLineSeries>
#include <QPixmap>
#include <QValueAxis>
#include <optional>
#include <vector>

#include "app/format/format.h"
#include "app/render/look.h"
#include "app/widgets/number_target.h"

namespace sunspool::charts {

/// A limit drawn into a curve with its word: the end of a roll, a bend that kinks.
struct Limit {
  double at = 0.0;
  QString word;
};

/// What one curve shows. All numbers are already in the units of its axes.
struct CurveModel {
  QString name, shortName;  ///< "tube length", "tube"
  QString unit;             ///< of the value axis
  QString value;            ///< of the present design, as text
  QString range;            ///< of it, with its unit
  QString bareRange;        ///< without the unit, which stands with the value
  QString difference;       ///< against the kept design; empty when none is kept
  bool settled = true;
  std::vector<QPolygonF> lines;        ///< legal stretches, broken where a design cannot be laid
  std::vector<QPolygonF> beforeLines;  ///< the same of the kept design
  std::optional<QPointF> present;
  std::vector<Limit> valueLimits;   ///< horizontal
  std::vector<Limit> designLimits;  ///< vertical
  double from = 0.0, to = 1.0;      ///< of the shared design axis
};

/// One of the linked curves: a chart without box, its header painted above the plot, the present design as a violet
/// dropline that can be dragged.
class DesignCurve : public QChartView {
  Q_OBJECT
 public:
  DesignCurve(render::Look& look, QWidget* parent);
  void setModel(CurveModel model);
  void setGhost(std::optional<double> x);
  /// Whether the values of the shared axis stand under this curve.
  void setShowsDesignAxis(bool shows);
  const CurveModel& model() const { return m_model; }
  /// Point of the widget at this place of the axes; for tests and for the mark.
  QPointF widgetPointAt(double x, double y) const;

 Q_SIGNALS:
  void hovered(std::optional<double> x);
  void dragged(double x);
  void dropped();
  void cancelled();
  void stepped(int steps);  ///< arrow keys; Shift ten
  void numberAsked();       ///< the value in the header was opened

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void leaveEvent(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void restyle();
  void placePlot();
  double designAt(const QPointF& position) const;
  /// What the header says at this width: long names first, then short ones, then smaller letters.
  struct Header {
    QFont nameFont, valueFont, secondFont;
    QString name, second;
    double valueX = 0.0, secondX = 0.0;
  };
  Header headerFor(double room) const;
  void placeNumber();
  void paintHeader(QPainter& painter) const;
  void paintBefore(QPainter& painter) const;
  void paintScale(QPainter& painter) const;
  void paintLimits(QPainter& painter) const;
  void paintPresent(QPainter& painter) const;
  double headerHeight() const;

  render::Look& m_look;
  CurveModel m_model;
  QChart* m_chart = nullptr;
  QValueAxis* m_design = nullptr;
  QValueAxis* m_value = nullptr;
  std::vector<QLineSeries*> m_series;
  widgets::NumberTarget* m_number = nullptr;
  QPixmap m_still;  ///< the chart without what moves over it; null when stale
  std::optional<double> m_ghost;
  bool m_showsDesignAxis = false, m_dragging = false;
};

}  // namespace sunspool::charts
