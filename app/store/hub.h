// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <memory>
#include <optional>

#include "core/evaluate/evaluate.h"
#include "core/model/document.h"

namespace sunspool::store {

/// A number in sight that opens: its formula with this design's numbers, its sources, how sure it is.
enum class NumberKey {
  TubeLength,
  Water,
  PressureDrop,
  Heat,
  Flow,
  Rise,
  Outlet,
  LowestPressure,
  TightestBend,
  DayHeat,
  PoolRise,
  WetMass,
  Stopped,
  Cost
};

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

  /// Opens a number; the window shows its sheet.
  void askAbout(sunspool::store::NumberKey number);
  /// A whole design only looked at (a remedy, a proposal), with its name: a ghost on the panel; nullptr = none.
  void setGhostDesign(std::shared_ptr<const sunspool::model::Document> design, const QString& name);
  /// The plug of the pump pulled at the hour looked at: views show what the panel comes to without flow. Not part of
  /// the design.
  void setPlugPulled(bool pulled);

 public:
  std::optional<double> ghost() const { return m_ghost; }
  std::shared_ptr<const model::Document> ghostDesign() const { return m_ghostDesign; }
  const QString& ghostName() const { return m_ghostName; }
  bool isPlugPulled() const { return m_plugPulled; }

 Q_SIGNALS:
  void hereChanged(int run, double station_m);
  void sweepVariableChanged();
  void ghostChanged();
  void numberAsked(sunspool::store::NumberKey number);
  void ghostDesignChanged();
  void plugChanged(bool pulled);

 private:
  int m_run = 0;
  double m_station_m = 0.0;
  evaluate::Sweep m_sweep = evaluate::Sweep::Pitch;
  std::optional<double> m_ghost;
  std::shared_ptr<const model::Document> m_ghostDesign;
  QString m_ghostName;
  bool m_plugPulled = false;
};

}  // namespace sunspool::store
