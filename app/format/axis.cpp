// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/axis.h"

#include <cmath>

namespace sunspool::format {
namespace {

template <class Q>
AxisUnit unitOf(Unit<Q> unit, const char* name) {
  return {unit.si_per_unit, QString::fromUtf8(name)};
}

}  // namespace

AxisUnit axisOf(LengthScale scale, const Preferences& preferences) {
  const bool metric = preferences.units == UnitSystem::Metric;
  if (scale == LengthScale::Drawing) return metric ? unitOf(millimetre, "mm") : unitOf(inch, "in");
  return metric ? unitOf(metre, "m") : unitOf(foot, "ft");
}

AxisUnit axisOf(Dimension dimension, double largest_si, const Preferences& preferences) {
  const bool metric = preferences.units == UnitSystem::Metric;
  switch (dimension) {
    case Dimension::Volume:
      return metric ? unitOf(litre, "L") : unitOf(usGallon, "US gal");
    case Dimension::Pressure:
      return metric ? unitOf(kilopascal, "kPa") : unitOf(psi, "psi");
    case Dimension::VolumeFlow:
      return metric ? unitOf(litrePerMinute, "L/min") : unitOf(usGallonPerMinute, "US gal/min");
    case Dimension::Power:
      if (!metric) return unitOf(btuPerHour, "BTU/h");
      return std::abs(largest_si) >= 1000.0 ? unitOf(kilowatt, "kW") : unitOf(watt, "W");
    case Dimension::Duration:
      return unitOf(hour, "h");
    case Dimension::Length:
      return axisOf(LengthScale::Run, preferences);
    case Dimension::None:
    case Dimension::Count:
    case Dimension::Area:
    case Dimension::Mass:
    case Dimension::Velocity:
    case Dimension::MassFlow:
    case Dimension::Head:
    case Dimension::Energy:
    case Dimension::Irradiance:
    case Dimension::Temperature:
    case Dimension::TemperatureDifference:
    case Dimension::Angle:
    case Dimension::Percent:
    case Dimension::HeatTransferCoefficient:
    case Dimension::ThermalConductivity:
    case Dimension::Money:
      break;
  }
  return {};
}

std::string bareUnit(Dimension dimension, double value_si, const Preferences& preferences) {
  if (dimension == Dimension::Percent || dimension == Dimension::None || dimension == Dimension::Count) return {};
  return number(Fact{{}, value_si, dimension}, preferences).unit.toStdString();
}

double temperatureOnAxis(Temperature temperature, const Preferences& preferences) {
  return preferences.units == UnitSystem::Metric ? temperature.inCelsius() : temperature.inFahrenheit();
}

QString temperatureUnit(const Preferences& preferences) {
  return preferences.units == UnitSystem::Metric ? QStringLiteral("°C") : QStringLiteral("°F");
}

}  // namespace sunspool::format
