// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/water.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sunspool::materials {
namespace {

constexpr double kCriticalTemperature_K = 647.096;
constexpr double kCriticalDensity_kg_m3 = 322.0;
constexpr double kCriticalPressure_Pa = 22.064e6;
constexpr double kTriplePressure_Pa = 611.212677;  // saturation at 273.15 K
constexpr double kGasConstant_J_kgK = 461.526;     // IF97 eq. 1
constexpr double kColdest_K = 273.15;
constexpr double kRegion1Hottest_K = 623.15;
constexpr double kRegion1Highest_Pa = 100e6;
constexpr double kAtmosphere_Pa = 101325.0;

Error outOfRange(const char* where, Temperature temperature) {
  return {ErrorCode::OutOfRange, where, {}, {{"temperature", temperature.inKelvin(), Dimension::Temperature}}};
}

struct Region1Term {
  int i;
  int j;
  double n;
};
// IF97 table 2.
constexpr std::array<Region1Term, 34> kRegion1 = {{
    {0, -2, 0.14632971213167},        {0, -1, -0.84548187169114},       {0, 0, -0.37563603672040e1},
    {0, 1, 0.33855169168385e1},       {0, 2, -0.95791963387872},        {0, 3, 0.15772038513228},
    {0, 4, -0.16616417199501e-1},     {0, 5, 0.81214629983568e-3},      {1, -9, 0.28319080123804e-3},
    {1, -7, -0.60706301565874e-3},    {1, -1, -0.18990068218419e-1},    {1, 0, -0.32529748770505e-1},
    {1, 1, -0.21841717175414e-1},     {1, 3, -0.52838357969930e-4},     {2, -3, -0.47184321073267e-3},
    {2, 0, -0.30001780793026e-3},     {2, 1, 0.47661393906987e-4},      {2, 3, -0.44141845330846e-5},
    {2, 17, -0.72694996297594e-15},   {3, -4, -0.31679644845054e-4},    {3, 0, -0.28270797985312e-5},
    {3, 6, -0.85205128120103e-9},     {4, -5, -0.22425281908000e-5},    {4, -2, -0.65171222895601e-6},
    {4, 10, -0.14341729937924e-12},   {5, -8, -0.40516996860117e-6},    {8, -11, -0.12734301741641e-8},
    {8, -6, -0.17424871230634e-9},    {21, -29, -0.68762131295531e-18}, {23, -31, 0.14478307828521e-19},
    {29, -38, 0.26335781662795e-22},  {30, -39, -0.11947622640071e-22}, {31, -40, 0.18228094581404e-23},
    {32, -41, -0.93537087292458e-25},
}};

/// Dimensionless Gibbs energy of region 1 and its derivatives with pi (p) and tau (t).
struct Gibbs {
  double g = 0.0, p = 0.0, pp = 0.0, t = 0.0, tt = 0.0, pt = 0.0;
};

Gibbs region1(double pi, double tau) {
  const double a = 7.1 - pi;
  const double b = tau - 1.222;
  Gibbs sum;
  for (const auto& [i, j, n] : kRegion1) {
    const double term = n * std::pow(a, i) * std::pow(b, j);
    sum.g += term;
    sum.p -= term * i / a;
    sum.pp += term * i * (i - 1) / (a * a);
    sum.t += term * j / b;
    sum.tt += term * j * (j - 1) / (b * b);
    sum.pt -= term * i * j / (a * b);
  }
  return sum;
}

LiquidState region1State(double temperature_K, double pressure_Pa) {
  const double pi = pressure_Pa / 16.53e6;
  const double tau = 1386.0 / temperature_K;
  const Gibbs gamma = region1(pi, tau);
  const double specificVolume_m3_kg = pi * gamma.p * kGasConstant_J_kgK * temperature_K / pressure_Pa;
  LiquidState state;
  state.density = Density::fromSi(1.0 / specificVolume_m3_kg);
  state.specificHeat = SpecificHeat::fromSi(-kGasConstant_J_kgK * tau * tau * gamma.tt);
  state.enthalpy_J_kg = kGasConstant_J_kgK * temperature_K * tau * gamma.t;
  state.entropy_J_kgK = kGasConstant_J_kgK * (tau * gamma.t - gamma.g);
  const double mixed = gamma.p - tau * gamma.pt;
  state.soundSpeed_m_s = std::sqrt(kGasConstant_J_kgK * temperature_K * gamma.p * gamma.p /
                                   (mixed * mixed / (tau * tau * gamma.tt) - gamma.pp));
  state.expansion_1_K = (1.0 - tau * gamma.pt / gamma.p) / temperature_K;
  return state;
}

// IF97 table 34; index 0 stands for n1.
constexpr std::array<double, 10> kRegion4 = {
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5,  -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6,  -0.23855557567849e0, 0.65017534844798e3};

double saturation_Pa(double temperature_K) {
  const auto& n = kRegion4;
  const double theta = temperature_K + n[8] / (temperature_K - n[9]);
  const double a = theta * theta + n[0] * theta + n[1];
  const double b = n[2] * theta * theta + n[3] * theta + n[4];
  const double c = n[5] * theta * theta + n[6] * theta + n[7];
  const double root = 2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c));
  return root * root * root * root * 1e6;
}

struct ViscosityTerm {
  int i;
  int j;
  double h;
};
// R12-08 table 2.
constexpr std::array<ViscosityTerm, 21> kViscosity = {{
    {0, 0, 0.520094},     {1, 0, 0.0850895},  {2, 0, -1.08374},  {3, 0, -0.289555},  {0, 1, 0.222531},
    {1, 1, 0.999115},     {2, 1, 1.88797},    {3, 1, 1.26613},   {5, 1, 0.120573},   {0, 2, -0.281378},
    {1, 2, -0.906851},    {2, 2, -0.772479},  {3, 2, -0.489837}, {4, 2, -0.257040},  {0, 3, 0.161913},
    {1, 3, 0.257399},     {0, 4, -0.0325372}, {3, 4, 0.0698452}, {4, 5, 0.00872102}, {3, 6, -0.00435673},
    {5, 6, -0.000593264},
}};

double viscosity_Pa_s(double temperature_K, double density_kg_m3) {
  const double t = temperature_K / kCriticalTemperature_K;
  const double d = density_kg_m3 / kCriticalDensity_kg_m3;
  const double dilute = 100.0 * std::sqrt(t) / (1.67752 + 2.20462 / t + 0.6366564 / (t * t) - 0.241605 / (t * t * t));
  double exponent = 0.0;
  for (const auto& [i, j, h] : kViscosity) exponent += h * std::pow(1.0 / t - 1.0, i) * std::pow(d - 1.0, j);
  return dilute * std::exp(d * exponent) * 1e-6;
}

// R15-11 table 2: rows by power of (1/T - 1), columns by power of (density - 1).
constexpr std::array<std::array<double, 6>, 5> kConductivity = {{
    {1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
    {2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
    {2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
    {-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0.0, 0.0},
    {-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
}};

double conductivity_W_mK(double temperature_K, double density_kg_m3) {
  const double t = temperature_K / kCriticalTemperature_K;
  const double d = density_kg_m3 / kCriticalDensity_kg_m3;
  const double dilute = std::sqrt(t) / (2.443221e-3 + 1.323095e-2 / t + 6.770357e-3 / (t * t) -
                                        3.454586e-3 / (t * t * t) + 4.096266e-4 / (t * t * t * t));
  double exponent = 0.0;
  for (std::size_t i = 0; i < kConductivity.size(); ++i) {
    for (std::size_t j = 0; j < kConductivity[i].size(); ++j) {
      exponent +=
          kConductivity[i][j] * std::pow(1.0 / t - 1.0, static_cast<int>(i)) * std::pow(d - 1.0, static_cast<int>(j));
    }
  }
  return dilute * std::exp(d * exponent) * 1e-3;
}

/// density, specific heat, viscosity, conductivity, expansion; SI
using Properties = std::array<double, 5>;

Properties propertiesFromEquations(double temperature_K) {
  const double pressure_Pa = std::max(kAtmosphere_Pa, saturation_Pa(temperature_K));
  const LiquidState state = region1State(temperature_K, pressure_Pa);
  const double density = state.density.si();
  return {density, state.specificHeat.si(), viscosity_Pa_s(temperature_K, density),
          conductivity_W_mK(temperature_K, density), state.expansion_1_K};
}

Water waterOf(const Properties& p) {
  Water water;
  water.density = Density::fromSi(p[0]);
  water.specificHeat = SpecificHeat::fromSi(p[1]);
  water.viscosity = DynamicViscosity::fromSi(p[2]);
  water.conductivity = ThermalConductivity::fromSi(p[3]);
  water.prandtl = p[2] * p[1] / p[3];
  water.expansion_1_K = p[4];
  return water;
}

constexpr double kTableStep_K = 0.25;
constexpr std::size_t kTableSteps = 600;  // 0 to 150 C
constexpr double kTableHottest_K = kColdest_K + kTableStep_K * static_cast<double>(kTableSteps);

struct Node {
  Properties value{};
  Properties slope{};  // per step, not per kelvin
};
using Table = std::array<Node, kTableSteps + 1>;

Table buildTable() {
  Table table;
  for (std::size_t n = 0; n <= kTableSteps; ++n) {
    table[n].value = propertiesFromEquations(kColdest_K + kTableStep_K * static_cast<double>(n));
  }
  for (std::size_t n = 0; n <= kTableSteps; ++n) {
    // Fourth-order differences; the stencil is moved inside at both ends.
    const std::size_t from = std::clamp<std::size_t>(n, 2, kTableSteps - 2) - 2;
    static constexpr double kWeights[5][5] = {
        {-25, 48, -36, 16, -3}, {-3, -10, 18, -6, 1}, {1, -8, 0, 8, -1}, {-1, 6, -18, 10, 3}, {3, -16, 36, -48, 25}};
    const auto& weights = kWeights[n - from];
    for (std::size_t k = 0; k < table[n].value.size(); ++k) {
      double sum = 0.0;
      for (std::size_t m = 0; m < 5; ++m) sum += weights[m] * table[from + m].value[k];
      table[n].slope[k] = sum / 12.0;
    }
  }
  return table;
}

const Table& table() {
  static const Table kTable = buildTable();  // built once; initialisation is thread-safe
  return kTable;
}

bool inTable(Temperature temperature) {
  return temperature.inKelvin() >= kColdest_K && temperature.inKelvin() <= kTableHottest_K;
}

bool transportRange(Temperature temperature, Density density) {
  return temperature.inKelvin() >= kColdest_K && temperature.inKelvin() <= kRegion1Hottest_K && density.si() > 0.0 &&
         density.si() <= 1100.0;
}

Error transportError(const char* where, Temperature temperature, Density density) {
  Error error = outOfRange(where, temperature);
  error.facts.push_back({"density_kg_m3", density.si(), Dimension::None});
  return error;
}

}  // namespace

Result<Water> waterAt(Temperature temperature) {
  if (!inTable(temperature)) return outOfRange("water", temperature);
  const double place = (temperature.inKelvin() - kColdest_K) / kTableStep_K;
  const auto cell = std::min(static_cast<std::size_t>(place), kTableSteps - 1);
  const double x = place - static_cast<double>(cell);
  const Node& a = table()[cell];
  const Node& b = table()[cell + 1];
  Properties properties;
  for (std::size_t k = 0; k < properties.size(); ++k) {
    const double rise = b.value[k] - a.value[k];
    const double c2 = 3.0 * rise - 2.0 * a.slope[k] - b.slope[k];
    const double c3 = a.slope[k] + b.slope[k] - 2.0 * rise;
    properties[k] = a.value[k] + x * (a.slope[k] + x * (c2 + x * c3));
  }
  return waterOf(properties);
}

Result<Water> waterFromEquations(Temperature temperature) {
  if (!inTable(temperature)) return outOfRange("water", temperature);
  return waterOf(propertiesFromEquations(temperature.inKelvin()));
}

Result<Pressure> saturationPressure(Temperature temperature) {
  const double t = temperature.inKelvin();
  if (!(t >= kColdest_K && t <= kCriticalTemperature_K)) return outOfRange("water/saturation", temperature);
  return pascals(saturation_Pa(t));
}

Result<Temperature> boilingTemperature(Pressure absolute) {
  // Saturation at 273.15 K itself must come back although its last bit may lie below the printed limit.
  if (!(absolute.si() >= kTriplePressure_Pa - 1e-6 && absolute.si() <= kCriticalPressure_Pa)) {
    return Error{ErrorCode::OutOfRange, "water/boiling", {}, {{"pressure", absolute.si(), Dimension::Pressure}}};
  }
  const auto& n = kRegion4;
  const double beta = std::pow(absolute.si() * 1e-6, 0.25);
  const double e = beta * beta + n[2] * beta + n[5];
  const double f = n[0] * beta * beta + n[3] * beta + n[6];
  const double g = n[1] * beta * beta + n[4] * beta + n[7];
  const double d = 2.0 * g / (-f - std::sqrt(f * f - 4.0 * e * g));
  const double sum = n[9] + d;
  return Temperature::fromKelvin(0.5 * (sum - std::sqrt(sum * sum - 4.0 * (n[8] + n[9] * d))));
}

Result<Pressure> saturationPressureHylandWexler(Temperature temperature) {
  const double t = temperature.inKelvin();
  if (!(t >= 273.15 && t <= 473.15)) return outOfRange("water/saturation", temperature);
  return pascals(std::exp(-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t -
                          1.4452093e-8 * t * t * t + 6.5459673 * std::log(t)));
}

Result<LiquidState> liquidStateAt(Temperature temperature, Pressure absolute) {
  const double t = temperature.inKelvin();
  const bool inside = t >= kColdest_K && t <= kRegion1Hottest_K && absolute.si() >= saturation_Pa(t) * (1.0 - 1e-9) &&
                      absolute.si() <= kRegion1Highest_Pa;
  if (!inside) {
    Error error = outOfRange("water/liquid", temperature);
    error.facts.push_back({"pressure", absolute.si(), Dimension::Pressure});
    return error;
  }
  return region1State(t, absolute.si());
}

Result<DynamicViscosity> viscosityAt(Temperature temperature, Density density) {
  if (!transportRange(temperature, density)) return transportError("water/viscosity", temperature, density);
  return pascalSeconds(viscosity_Pa_s(temperature.inKelvin(), density.si()));
}

Result<ThermalConductivity> conductivityAt(Temperature temperature, Density density) {
  if (!transportRange(temperature, density)) return transportError("water/conductivity", temperature, density);
  return wattsPerMetreKelvin(conductivity_W_mK(temperature.inKelvin(), density.si()));
}

Pressure airPressure(Length altitude) {
  SUNSPOOL_ASSERT(altitude.isFinite(), "altitude is checked where it enters");
  constexpr double kSeaLevel_K = 288.15;
  constexpr double kLapse_K_m = 0.0065;
  constexpr double kAirGasConstant_J_kgK = 287.05287;
  constexpr double kTropopause_m = 11000.0;
  constexpr double kExponent = kStandardGravity_m_s2 / (kAirGasConstant_J_kgK * kLapse_K_m);
  const auto troposphere_Pa = [](double height_m) {
    return kAtmosphere_Pa * std::pow(1.0 - kLapse_K_m * height_m / kSeaLevel_K, kExponent);
  };
  const double height_m = altitude.si();
  if (height_m <= kTropopause_m) return pascals(troposphere_Pa(height_m));
  const double scale_m = kAirGasConstant_J_kgK * (kSeaLevel_K - kLapse_K_m * kTropopause_m) / kStandardGravity_m_s2;
  return pascals(troposphere_Pa(kTropopause_m) * std::exp(-(height_m - kTropopause_m) / scale_m));
}

}  // namespace sunspool::materials
