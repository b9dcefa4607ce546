// SPDX-License-Identifier: GPL-3.0-or-later
#include <QStringList>
#include <array>
#include <cmath>

#include "app/format/format.h"
#include "app/format/text.h"

namespace sunspool::format {
namespace {

constexpr QChar kThinSpace(0x2009);
constexpr QChar kMinus(0x2212);
/// More digits than this tell nothing about a thing made of timber and tube.
constexpr int kMostDecimals = 6;

/// How one quantity is written: text = (si - zero) / si_per_unit.
struct Writing {
  double siPerUnit = 1.0;
  int decimals = 0;
  QString unit;
  double zero_si = 0.0;
};

bool us(const Preferences& preferences) { return preferences.units == UnitSystem::UsCustomary; }

QString grouped(QString digits) {
  const qsizetype point = digits.indexOf(QLatin1Char('.'));
  for (qsizetype at = (point < 0 ? digits.size() : point) - 3; at > 0; at -= 3) digits.insert(at, kThinSpace);
  return digits;
}

/// Decimals grow until the first digit that is not zero shows: a spare of 0.4 mm is not "0 mm".
QString written(double value, int decimals) {
  const double size = std::abs(value);
  const double smallest = 0.5 * std::pow(10.0, -kMostDecimals);
  while (size >= smallest && size < 0.5 * std::pow(10.0, -decimals) && decimals < kMostDecimals) ++decimals;
  const bool isZero = size < 0.5 * std::pow(10.0, -decimals);
  const QString digits = grouped(QString::number(isZero ? 0.0 : size, 'f', decimals));
  return value < 0.0 && !isZero ? kMinus + digits : digits;
}

NumberAndUnit write(double si, const Writing& writing, int moreDecimals = 0) {
  const double value = (si - writing.zero_si) / writing.siPerUnit;
  return {written(value, writing.decimals + moreDecimals), writing.unit};
}

/// A drawing is read in whole millimetres; below a centimetre a tenth is shown when there is one.
int drawingDecimals(double si) {
  const double size_mm = std::abs(si) * 1e3;
  const bool hasTenths = std::abs(size_mm - std::round(size_mm)) >= 0.05;
  return size_mm < 10.0 && hasTenths ? 1 : 0;
}

Writing lengthWriting(double si, LengthScale scale, const Preferences& preferences) {
  switch (scale) {
    case LengthScale::Drawing:
      if (us(preferences)) return {inch.si_per_unit, 2, Text::tr("in")};
      return {millimetre.si_per_unit, drawingDecimals(si), Text::tr("mm")};
    case LengthScale::Run:
      if (us(preferences)) return {foot.si_per_unit, 1, Text::tr("ft")};
      return {1.0, 1, Text::tr("m")};
    case LengthScale::Height:
      if (us(preferences)) return {foot.si_per_unit, 1, Text::tr("ft")};
      return {1.0, 2, Text::tr("m")};
  }
  return {};
}

Writing areaWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {squareFoot.si_per_unit, 1, Text::tr("ft²")};
  return {1.0, 2, Text::tr("m²")};
}

Writing volumeWriting(double si, const Preferences& preferences) {
  const bool large = std::abs(si) >= 1.0;
  if (us(preferences)) return {usGallon.si_per_unit, large ? 0 : 1, Text::tr("US gal")};
  if (large) return {1.0, 1, Text::tr("m³")};
  return {litre.si_per_unit, 1, Text::tr("L")};
}

Writing massWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {poundMass.si_per_unit, 1, Text::tr("lb")};
  return {1.0, 1, Text::tr("kg")};
}

Writing durationWriting(double si, const Preferences&) {
  if (std::abs(si) < 120.0) return {1.0, 0, Text::tr("s")};
  if (std::abs(si) < 7200.0) return {60.0, 0, Text::tr("min")};
  return {3600.0, 1, Text::tr("h")};
}

Writing velocityWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {foot.si_per_unit, 2, Text::tr("ft/s")};
  return {1.0, 2, Text::tr("m/s")};
}

Writing volumeFlowWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {usGallonPerMinute.si_per_unit, 2, Text::tr("US gal/min")};
  return {litrePerMinute.si_per_unit, 1, Text::tr("L/min")};
}

Writing massFlowWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {poundMass.si_per_unit / 60.0, 1, Text::tr("lb/min")};
  return {1.0, 3, Text::tr("kg/s")};
}

Writing pressureWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {psi.si_per_unit, 2, Text::tr("psi")};
  return {kilopascal.si_per_unit, 1, Text::tr("kPa")};
}

Writing powerWriting(double si, const Preferences& preferences) {
  if (us(preferences)) return {btuPerHour.si_per_unit, 0, Text::tr("BTU/h")};
  // 999.6 W would print as "1 000 W".
  if (std::abs(si) >= 999.5) return {kilowatt.si_per_unit, 2, Text::tr("kW")};
  return {1.0, std::abs(si) < 9.95 ? 1 : 0, Text::tr("W")};
}

Writing energyWriting(double si, const Preferences&) {
  if (std::abs(si) < 1e4) return {1.0, 0, Text::tr("J")};
  return {kilowattHour.si_per_unit, 2, Text::tr("kWh")};
}

Writing irradianceWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {btuPerHour.si_per_unit / squareFoot.si_per_unit, 0, Text::tr("BTU/(h ft²)")};
  return {1.0, 0, Text::tr("W/m²")};
}

Writing temperatureWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {5.0 / 9.0, 1, Text::tr("°F"), 273.15 - 160.0 / 9.0};
  return {1.0, 1, Text::tr("°C"), 273.15};
}

Writing differenceWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {5.0 / 9.0, 1, Text::tr("°F")};
  return {1.0, 1, Text::tr("K")};
}

Writing angleWriting(double si, const Preferences&) {
  const double perDegree = degrees(1.0).radians();
  const double value = si / perDegree;
  return {perDegree, std::abs(value - std::round(value)) >= 0.05 ? 1 : 0, Text::tr("°")};
}

Writing percentWriting(double si, const Preferences&) {
  const double value = si * 100.0;
  return {0.01, std::abs(value - std::round(value)) >= 0.05 ? 1 : 0, Text::tr("%")};
}

Writing heatTransferWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {5.678263341113487, 2, Text::tr("BTU/(h ft² °F)")};
  return {1.0, 2, Text::tr("W/(m² K)")};
}

Writing conductivityWriting(double, const Preferences& preferences) {
  if (us(preferences)) return {1.730734666371390, 3, Text::tr("BTU/(h ft °F)")};
  return {1.0, 3, Text::tr("W/(m K)")};
}

/// A pure number: whole when it is, else three digits that count.
Writing plainWriting(double si) {
  if (si == std::round(si)) return {};
  const int beforePoint = std::abs(si) < 1.0 ? 0 : static_cast<int>(std::floor(std::log10(std::abs(si)))) + 1;
  return {1.0, std::max(0, 3 - beforePoint), {}};
}

Writing factLengthWriting(double si, const Preferences& preferences) {
  return lengthWriting(si, std::abs(si) < 1.9995 ? LengthScale::Drawing : LengthScale::Run, preferences);
}

/// @param reference the value that chooses between units, e.g. the larger end of a range
Writing writing(Dimension dimension, double reference, const Preferences& preferences) {
  switch (dimension) {
    case Dimension::Length:
      return factLengthWriting(reference, preferences);
    case Dimension::Head:
      return lengthWriting(reference, LengthScale::Height, preferences);
    case Dimension::Area:
      return areaWriting(reference, preferences);
    case Dimension::Volume:
      return volumeWriting(reference, preferences);
    case Dimension::Mass:
      return massWriting(reference, preferences);
    case Dimension::Duration:
      return durationWriting(reference, preferences);
    case Dimension::Velocity:
      return velocityWriting(reference, preferences);
    case Dimension::VolumeFlow:
      return volumeFlowWriting(reference, preferences);
    case Dimension::MassFlow:
      return massFlowWriting(reference, preferences);
    case Dimension::Pressure:
      return pressureWriting(reference, preferences);
    case Dimension::Power:
      return powerWriting(reference, preferences);
    case Dimension::Energy:
      return energyWriting(reference, preferences);
    case Dimension::Irradiance:
      return irradianceWriting(reference, preferences);
    case Dimension::Temperature:
      return temperatureWriting(reference, preferences);
    case Dimension::TemperatureDifference:
      return differenceWriting(reference, preferences);
    case Dimension::Angle:
      return angleWriting(reference, preferences);
    case Dimension::Percent:
      return percentWriting(reference, preferences);
    case Dimension::HeatTransferCoefficient:
      return heatTransferWriting(reference, preferences);
    case Dimension::ThermalConductivity:
      return conductivityWriting(reference, preferences);
    case Dimension::Money:
      return {1.0, 2, {}};
    case Dimension::None:
    case Dimension::Count:
      return plainWriting(reference);
  }
  return {};
}

NumberAndUnit writeAs(Dimension dimension, double si, const Preferences& preferences) {
  return write(si, writing(dimension, si, preferences));
}

template <class Q>
struct DimensionOf;
template <>
struct DimensionOf<Area> {
  static constexpr Dimension value = Dimension::Area;
};
template <>
struct DimensionOf<Volume> {
  static constexpr Dimension value = Dimension::Volume;
};
template <>
struct DimensionOf<Mass> {
  static constexpr Dimension value = Dimension::Mass;
};
template <>
struct DimensionOf<VolumeFlow> {
  static constexpr Dimension value = Dimension::VolumeFlow;
};
template <>
struct DimensionOf<Pressure> {
  static constexpr Dimension value = Dimension::Pressure;
};
template <>
struct DimensionOf<Power> {
  static constexpr Dimension value = Dimension::Power;
};
template <>
struct DimensionOf<Irradiance> {
  static constexpr Dimension value = Dimension::Irradiance;
};
template <>
struct DimensionOf<Velocity> {
  static constexpr Dimension value = Dimension::Velocity;
};
template <>
struct DimensionOf<Temperature> {
  static constexpr Dimension value = Dimension::Temperature;
};
template <>
struct DimensionOf<TemperatureDifference> {
  static constexpr Dimension value = Dimension::TemperatureDifference;
};

template <class Q>
double siOf(Q value) {
  return value.si();
}
double siOf(Temperature value) { return value.inKelvin(); }

double larger(double a, double b) { return std::abs(a) > std::abs(b) ? a : b; }

QString lowToHigh(double low_si, double high_si, const Writing& writing) {
  const NumberAndUnit low = write(low_si, writing);
  const NumberAndUnit high = write(high_si, writing);
  if (low.number == high.number) return high.joined();
  return Text::tr("%1 to %2").arg(low.number, high.joined());
}

}  // namespace

QString NumberAndUnit::joined() const {
  if (unit.isEmpty()) return number;
  return unit == QStringLiteral("°") ? number + unit : number + QLatin1Char(' ') + unit;
}

NumberAndUnit number(Length value, LengthScale scale, const Preferences& preferences) {
  return write(value.si(), lengthWriting(value.si(), scale, preferences));
}
NumberAndUnit number(Area value, const Preferences& preferences) {
  return writeAs(Dimension::Area, value.si(), preferences);
}
NumberAndUnit number(Volume value, const Preferences& preferences) {
  return writeAs(Dimension::Volume, value.si(), preferences);
}
NumberAndUnit number(Mass value, const Preferences& preferences) {
  return writeAs(Dimension::Mass, value.si(), preferences);
}
NumberAndUnit number(VolumeFlow value, const Preferences& preferences) {
  return writeAs(Dimension::VolumeFlow, value.si(), preferences);
}
NumberAndUnit number(Pressure value, const Preferences& preferences) {
  return writeAs(Dimension::Pressure, value.si(), preferences);
}
NumberAndUnit number(Power value, const Preferences& preferences) {
  return writeAs(Dimension::Power, value.si(), preferences);
}
NumberAndUnit number(Irradiance value, const Preferences& preferences) {
  return writeAs(Dimension::Irradiance, value.si(), preferences);
}
NumberAndUnit number(Velocity value, const Preferences& preferences) {
  return writeAs(Dimension::Velocity, value.si(), preferences);
}
NumberAndUnit number(Temperature value, const Preferences& preferences) {
  return writeAs(Dimension::Temperature, value.inKelvin(), preferences);
}
NumberAndUnit number(TemperatureDifference value, const Preferences& preferences) {
  return writeAs(Dimension::TemperatureDifference, value.si(), preferences);
}
NumberAndUnit number(Angle value, const Preferences& preferences) {
  return writeAs(Dimension::Angle, value.radians(), preferences);
}
NumberAndUnit number(const Fact& fact, const Preferences& preferences) {
  return writeAs(fact.dimension, fact.value_si, preferences);
}

NumberAndUnit money(double amount, const std::string& currency) {
  const QString code = QString::fromStdString(currency);
  const bool euro = code == QStringLiteral("EUR");
  const bool pound = code == QStringLiteral("GBP");
  return {written(amount, 2), euro ? QStringLiteral("€") : pound ? QStringLiteral("£") : code};
}

TwoNumbers apart(const Fact& first, const Fact& second, const Preferences& preferences) {
  const Writing one = writing(first.dimension, first.value_si, preferences);
  const Writing two = writing(second.dimension, second.value_si, preferences);
  TwoNumbers numbers{write(first.value_si, one), write(second.value_si, two)};
  for (int more = 1; more <= kMostDecimals && numbers.first == numbers.second; ++more) {
    if (first.value_si == second.value_si) break;
    numbers = {write(first.value_si, one, more), write(second.value_si, two, more)};
  }
  return numbers;
}

template <class Q>
QString range(const Ranged<Q>& value, const Preferences& preferences) {
  const double low = siOf(value.low);
  const double high = siOf(value.high);
  return lowToHigh(low, high, writing(DimensionOf<Q>::value, larger(low, high), preferences));
}
template QString range(const Ranged<Area>&, const Preferences&);
template QString range(const Ranged<Volume>&, const Preferences&);
template QString range(const Ranged<Mass>&, const Preferences&);
template QString range(const Ranged<VolumeFlow>&, const Preferences&);
template QString range(const Ranged<Pressure>&, const Preferences&);
template QString range(const Ranged<Power>&, const Preferences&);
template QString range(const Ranged<Irradiance>&, const Preferences&);
template QString range(const Ranged<Velocity>&, const Preferences&);
template QString range(const Ranged<Temperature>&, const Preferences&);
template QString range(const Ranged<TemperatureDifference>&, const Preferences&);

QString rangeOf(const Ranged<Length>& value, LengthScale scale, const Preferences& preferences) {
  const double low = value.low.si();
  const double high = value.high.si();
  return lowToHigh(low, high, lengthWriting(larger(low, high), scale, preferences));
}

QString sureness(Sureness sureness) {
  switch (sureness) {
    case Sureness::Guess:
      return Text::tr("guess");
    case Sureness::Label:
      return Text::tr("from the label");
    case Sureness::Measured:
      return Text::tr("measured");
  }
  return {};
}

QString clock(double hour) {
  // The minute that is nearest; 23:59:40 is 00:00 of the next day.
  const int minutes = static_cast<int>(std::lround(hour * 60.0) % (24 * 60));
  const int positive = minutes < 0 ? minutes + 24 * 60 : minutes;
  return QStringLiteral("%1:%2")
      .arg(positive / 60, 2, 10, QLatin1Char('0'))
      .arg(positive % 60, 2, 10, QLatin1Char('0'));
}

QString compass(Angle azimuth) {
  const std::array<QString, 8> names{Text::tr("north"),      Text::tr("north-east"), Text::tr("east"),
                                     Text::tr("south-east"), Text::tr("south"),      Text::tr("south-west"),
                                     Text::tr("west"),       Text::tr("north-west")};
  const long eighth = std::lround(azimuth.degrees() / 45.0) % 8;
  return names[static_cast<std::size_t>(eighth < 0 ? eighth + 8 : eighth)];
}

QString runLetter(int run) { return QString(QChar(u'A' + static_cast<char16_t>(run))); }

}  // namespace sunspool::format
