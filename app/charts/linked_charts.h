// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <array>

#include "app/charts/design_curve.h"
#include "app/format/axis.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/store/sweeps.h"

class QAbstractButton;

namespace sunspool::charts {

/// Tube length, water volume, pressure drop and heat output over one shared design axis: pitch, turns or bend radius.
/// Dragging the mark changes the panel, hovering shows that design as a ghost on it.
class LinkedCharts : public QWidget {
  Q_OBJECT
 public:
  LinkedCharts(store::DocumentStore& store, store::Hub& hub, render::Look& look, store::SweepRunner& sweeps,
               QWidget* parent = nullptr);
  DesignCurve& curve(int index) { return *m_curves[static_cast<std::size_t>(index)]; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void refresh();
  CurveModel modelOf(int index) const;
  /// Lines and signed difference of the kept design.
  void addBefore(int index, const format::AxisUnit& unit, std::optional<double> present, CurveModel& model) const;
  double presentValue() const;  ///< of the sweep's variable, SI or quarter turns
  double shownDesign(double value) const;
  double designFrom(double shown) const;
  double snapped(double value) const;
  void dragTo(double shown);
  void step(int steps);
  void setVariable(evaluate::Sweep variable);
  QString stepText() const;
  store::Edit editTo(double value) const;

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  store::SweepRunner& m_sweeps;
  std::array<DesignCurve*, 4> m_curves{};
  std::array<QAbstractButton*, 3> m_variables{};
};

}  // namespace sunspool::charts
