// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Physical quantities with their dimension in the type. SI inside; other units only where a
// value is made from a named unit or read in one. See DEVELOPERS.md, "Glossary".

#include <cmath>
#include <compare>
#include <numbers>

namespace sunspool {

template <int M, int L, int T, int K>
class Quantity;

/// A named unit of one dimension: how many SI units it holds.
template <class Q>
struct Unit {
  double si_per_unit;
};

/// A quantity of dimension kg^M m^L s^T K^K, stored in SI.
template <int M, int L, int T, int K>
class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity fromSi(double value) {
    Quantity q;
    q.m_si = value;
    return q;
  }
  constexpr double si() const { return m_si; }
  constexpr double in(Unit<Quantity> unit) const { return m_si / unit.si_per_unit; }
  bool isFinite() const { return std::isfinite(m_si); }

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator-() const { return fromSi(-m_si); }
  constexpr Quantity& operator+=(Quantity b) {
    m_si += b.m_si;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity b) {
    m_si -= b.m_si;
    return *this;
  }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return fromSi(a.m_si + b.m_si); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return fromSi(a.m_si - b.m_si); }
  friend constexpr Quantity operator*(Quantity a, double f) { return fromSi(a.m_si * f); }
  friend constexpr Quantity operator*(double f, Quantity a) { return fromSi(a.m_si * f); }
  friend constexpr Quantity operator/(Quantity a, double f) { return fromSi(a.m_si / f); }

 private:
  double m_si = 0.0;
};

template <int M1, int L1, int T1, int K1, int M2, int L2, int T2, int K2>
constexpr auto operator*(Quantity<M1, L1, T1, K1> a, Quantity<M2, L2, T2, K2> b) {
  if constexpr (M1 + M2 == 0 && L1 + L2 == 0 && T1 + T2 == 0 && K1 + K2 == 0) {
    return a.si() * b.si();
  } else {
    return Quantity<M1 + M2, L1 + L2, T1 + T2, K1 + K2>::fromSi(a.si() * b.si());
  }
}
template <int M1, int L1, int T1, int K1, int M2, int L2, int T2, int K2>
constexpr auto operator/(Quantity<M1, L1, T1, K1> a, Quantity<M2, L2, T2, K2> b) {
  if constexpr (M1 == M2 && L1 == L2 && T1 == T2 && K1 == K2) {
    return a.si() / b.si();
  } else {
    return Quantity<M1 - M2, L1 - L2, T1 - T2, K1 - K2>::fromSi(a.si() / b.si());
  }
}

using Length = Quantity<0, 1, 0, 0>;
using Area = Quantity<0, 2, 0, 0>;
using Volume = Quantity<0, 3, 0, 0>;
using Mass = Quantity<1, 0, 0, 0>;
using Duration = Quantity<0, 0, 1, 0>;
using Velocity = Quantity<0, 1, -1, 0>;
using VolumeFlow = Quantity<0, 3, -1, 0>;
using MassFlow = Quantity<1, 0, -1, 0>;
using Density = Quantity<1, -3, 0, 0>;
using DynamicViscosity = Quantity<1, -1, -1, 0>;
using Pressure = Quantity<1, -1, -2, 0>;
using Force = Quantity<1, 1, -2, 0>;
using Energy = Quantity<1, 2, -2, 0>;
using Power = Quantity<1, 2, -3, 0>;
using Irradiance = Quantity<1, 0, -3, 0>;                ///< W/m^2
using TemperatureDifference = Quantity<0, 0, 0, 1>;      ///< K; never carries the zero of a scale
using HeatTransferCoefficient = Quantity<1, 0, -3, -1>;  ///< W/(m^2 K)
using ThermalConductivity = Quantity<1, 1, -3, -1>;      ///< W/(m K)
using SpecificHeat = Quantity<0, 2, -2, -1>;             ///< J/(kg K)
using ThermalExpansion = Quantity<0, 0, 0, -1>;          ///< 1/K
using InverseLength = Quantity<0, -1, 0, 0>;             ///< 1/m, e.g. extinction in a cover

inline constexpr Unit<Length> metre{1.0}, millimetre{1e-3}, centimetre{1e-2}, inch{0.0254}, foot{0.3048};
inline constexpr Unit<Area> squareMetre{1.0}, squareFoot{0.09290304};
inline constexpr Unit<Volume> cubicMetre{1.0}, litre{1e-3}, usGallon{3.785411784e-3}, imperialGallon{4.54609e-3};
inline constexpr Unit<Mass> kilogram{1.0}, poundMass{0.45359237};
inline constexpr Unit<Duration> second{1.0}, minute{60.0}, hour{3600.0};
inline constexpr Unit<Velocity> metrePerSecond{1.0};
inline constexpr Unit<VolumeFlow> cubicMetrePerSecond{1.0}, litrePerMinute{1e-3 / 60.0}, litrePerHour{1e-3 / 3600.0},
    usGallonPerMinute{3.785411784e-3 / 60.0};
inline constexpr Unit<MassFlow> kilogramPerSecond{1.0};
inline constexpr Unit<Density> kilogramPerCubicMetre{1.0};
inline constexpr Unit<DynamicViscosity> pascalSecond{1.0};
inline constexpr Unit<Pressure> pascal{1.0}, kilopascal{1e3}, megapascal{1e6}, bar{1e5}, psi{6894.757293168361};
inline constexpr Unit<Force> newton{1.0};
inline constexpr Unit<Energy> joule{1.0}, kilowattHour{3.6e6};
inline constexpr Unit<Power> watt{1.0}, kilowatt{1e3}, btuPerHour{0.29307107017222};
inline constexpr Unit<Irradiance> wattPerSquareMetre{1.0};
inline constexpr Unit<TemperatureDifference> kelvin{1.0}, fahrenheitDegree{5.0 / 9.0};
inline constexpr Unit<HeatTransferCoefficient> wattPerSquareMetreKelvin{1.0};
inline constexpr Unit<ThermalConductivity> wattPerMetreKelvin{1.0};
inline constexpr Unit<SpecificHeat> joulePerKilogramKelvin{1.0};

constexpr Length metres(double v) { return Length::fromSi(v); }
constexpr Length millimetres(double v) { return Length::fromSi(v / 1e3); }  // 26 mm is 0.026 exactly as typed
constexpr Area squareMetres(double v) { return Area::fromSi(v); }
constexpr Volume cubicMetres(double v) { return Volume::fromSi(v); }
constexpr Volume litres(double v) { return Volume::fromSi(v / 1e3); }
constexpr Mass kilograms(double v) { return Mass::fromSi(v); }
constexpr Duration seconds(double v) { return Duration::fromSi(v); }
constexpr Velocity metresPerSecond(double v) { return Velocity::fromSi(v); }
constexpr VolumeFlow cubicMetresPerSecond(double v) { return VolumeFlow::fromSi(v); }
constexpr VolumeFlow litresPerMinute(double v) { return VolumeFlow::fromSi(v / 6e4); }
constexpr MassFlow kilogramsPerSecond(double v) { return MassFlow::fromSi(v); }
constexpr Density kilogramsPerCubicMetre(double v) { return Density::fromSi(v); }
constexpr DynamicViscosity pascalSeconds(double v) { return DynamicViscosity::fromSi(v); }
constexpr Pressure pascals(double v) { return Pressure::fromSi(v); }
constexpr Pressure kilopascals(double v) { return Pressure::fromSi(v * 1e3); }
constexpr Power watts(double v) { return Power::fromSi(v); }
constexpr Energy joules(double v) { return Energy::fromSi(v); }
constexpr Irradiance wattsPerSquareMetre(double v) { return Irradiance::fromSi(v); }
constexpr TemperatureDifference kelvins(double v) { return TemperatureDifference::fromSi(v); }
constexpr HeatTransferCoefficient wattsPerSquareMetreKelvin(double v) { return HeatTransferCoefficient::fromSi(v); }
constexpr ThermalConductivity wattsPerMetreKelvin(double v) { return ThermalConductivity::fromSi(v); }
constexpr SpecificHeat joulesPerKilogramKelvin(double v) { return SpecificHeat::fromSi(v); }

/// An absolute temperature. Differences are TemperatureDifference; the two never mix silently.
class Temperature {
 public:
  constexpr Temperature() = default;
  static constexpr Temperature fromKelvin(double v) {
    Temperature t;
    t.m_kelvin = v;
    return t;
  }
  constexpr double inKelvin() const { return m_kelvin; }
  constexpr double inCelsius() const { return m_kelvin - 273.15; }
  constexpr double inFahrenheit() const { return (m_kelvin - 273.15) * 1.8 + 32.0; }
  bool isFinite() const { return std::isfinite(m_kelvin); }
  constexpr auto operator<=>(const Temperature&) const = default;
  friend constexpr Temperature operator+(Temperature t, TemperatureDifference d) {
    return fromKelvin(t.m_kelvin + d.si());
  }
  friend constexpr Temperature operator-(Temperature t, TemperatureDifference d) {
    return fromKelvin(t.m_kelvin - d.si());
  }
  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::fromSi(a.m_kelvin - b.m_kelvin);
  }

 private:
  double m_kelvin = 273.15;
};
constexpr Temperature celsius(double v) { return Temperature::fromKelvin(v + 273.15); }

/// A plane angle; radians inside.
class Angle {
 public:
  constexpr Angle() = default;
  static constexpr Angle fromRadians(double v) {
    Angle a;
    a.m_radians = v;
    return a;
  }
  constexpr double radians() const { return m_radians; }
  constexpr double degrees() const { return m_radians * (180.0 / std::numbers::pi); }
  bool isFinite() const { return std::isfinite(m_radians); }
  constexpr auto operator<=>(const Angle&) const = default;
  constexpr Angle operator-() const { return fromRadians(-m_radians); }
  friend constexpr Angle operator+(Angle a, Angle b) { return fromRadians(a.m_radians + b.m_radians); }
  friend constexpr Angle operator-(Angle a, Angle b) { return fromRadians(a.m_radians - b.m_radians); }
  friend constexpr Angle operator*(Angle a, double f) { return fromRadians(a.m_radians * f); }

 private:
  double m_radians = 0.0;
};
constexpr Angle degrees(double v) { return Angle::fromRadians(v * (std::numbers::pi / 180.0)); }
constexpr Angle radians(double v) { return Angle::fromRadians(v); }

/// The type of the difference of two values of Q.
template <class Q>
struct DifferenceOf {
  using type = Q;
};
template <>
struct DifferenceOf<Temperature> {
  using type = TemperatureDifference;
};
template <class Q>
using Difference = typename DifferenceOf<Q>::type;

/// Standard acceleration of free fall, exact by definition (CGPM 1901). [m/s^2]
inline constexpr double kStandardGravity_m_s2 = 9.80665;
/// Stefan-Boltzmann constant, exact to the digits shown (SI 2019). [W/(m^2 K^4)]
inline constexpr double kStefanBoltzmann_W_m2K4 = 5.670374419e-8;

}  // namespace sunspool
