// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string>

#include "app/format/format.h"

namespace sunspool::format {

/// The unit an axis counts in. Values are plotted as si / si_per_unit.
struct AxisUnit {
  double si_per_unit = 1.0;
  QString unit;
  double of(double si) const { return si / si_per_unit; }
  double toSi(double shown) const { return shown * si_per_unit; }
};
AxisUnit axisOf(LengthScale scale, const Preferences& preferences);
/// Volume, Pressure, Power, VolumeFlow and Duration; others count in SI without a unit. `largest` picks between W and
/// kW, Pa and kPa.
AxisUnit axisOf(Dimension dimension, double largest_si, const Preferences& preferences);
/// The unit in which a bare number of this dimension is read and shown, as the quantity parser spells it.
std::string bareUnit(Dimension dimension, double value_si, const Preferences& preferences);
/// Temperatures need an offset as well.
double temperatureOnAxis(Temperature temperature, const Preferences& preferences);
QString temperatureUnit(const Preferences& preferences);

}  // namespace sunspool::format
