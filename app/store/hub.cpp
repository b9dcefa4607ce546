// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/hub.h"

namespace sunspool::store {

void Hub::setHere(int run, double station_m) {
  if (run == m_run && station_m == m_station_m) return;
  m_run = run;
  m_station_m = station_m;
  Q_EMIT hereChanged(run, station_m);
}

void Hub::setSweepVariable(evaluate::Sweep variable) {
  if (variable == m_sweep) return;
  m_sweep = variable;
  Q_EMIT sweepVariableChanged();
}

void Hub::setGhost(std::optional<double> sweepValue) {
  if (sweepValue == m_ghost) return;
  m_ghost = sweepValue;
  Q_EMIT ghostChanged();
}

void Hub::askAbout(NumberKey number) { Q_EMIT numberAsked(number); }

void Hub::setGhostDesign(std::shared_ptr<const model::Document> design, const QString& name) {
  if (design == m_ghostDesign && name == m_ghostName) return;
  m_ghostDesign = std::move(design);
  m_ghostName = name;
  Q_EMIT ghostDesignChanged();
}

void Hub::setPlugPulled(bool pulled) {
  if (pulled == m_plugPulled) return;
  m_plugPulled = pulled;
  Q_EMIT plugChanged(pulled);
}

}  // namespace sunspool::store
