// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <optional>

#include "core/evaluate/evaluate.h"

namespace sunspool::store {

/// Here (run and metre) and what is hovered: where all views meet. The hour (now) is part of the document.
class Hub : public QObject {
  Q_OBJECT
 public:
  using QObject::QObject;
  int run() const { return m_run; }
  double station_m() const { return m_station_m; }
  evaluate::Sweep sweepVariable() const { return m_sweep; }

 public Q_SLOTS:
  void setHere(int run, double station_m);  ///< moves the bead
  void setSweepVariable(sunspool::evaluate::Sweep variable);
  /// A design only looked at (hovering a chart): shown as a ghost on the panel; nullopt = none.
  void setGhost(std::optional<double> sweepValue);

 public:
  std::optional<double> ghost() const { return m_ghost; }

 Q_SIGNALS:
  void hereChanged(int run, double station_m);
  void sweepVariableChanged();
  void ghostChanged();

 private:
  int m_run = 0;
  double m_station_m = 0.0;
  evaluate::Sweep m_sweep = evaluate::Sweep::Pitch;
  std::optional<double> m_ghost;
};

}  // namespace sunspool::store
