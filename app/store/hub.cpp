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

}  // namespace sunspool::store
