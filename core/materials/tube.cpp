// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/tube.h"

#include <array>
#include <cmath>
#include <numbers>
#include <span>

namespace sunspool::materials {
namespace {

struct Row {
  double x;
  double y;
};

/// Straight between rows with rising x; x lies within them.
double between(std::span<const Row> rows, double x) {
  std::size_t upper = 1;
  while (upper + 1 < rows.size() && x > rows[upper].x) ++upper;
  const Row& a = rows[upper - 1];
  const Row& b = rows[upper];
  return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
}

Error tooHot(const char* where, Temperature temperature, Temperature highest) {
  return {ErrorCode::OutOfRange,
          where,
          {},
          {{"temperature", temperature.inKelvin(), Dimension::Temperature},
           {"highest", highest.inKelvin(), Dimension::Temperature}}};
}

}  // namespace

Result<Length> wallOf(Length outsideDiameter, Length insideDiameter) {
  if (!(insideDiameter.si() > 0.0 && insideDiameter < outsideDiameter && outsideDiameter.isFinite())) {
    return Error{
        ErrorCode::InsideNotBelowOutside,
        "tube",
        {},
        {{"inside", insideDiameter.si(), Dimension::Length}, {"outside", outsideDiameter.si(), Dimension::Length}}};
  }
  return (outsideDiameter - insideDiameter) / 2.0;
}

Length meanRadius(Length outsideDiameter, Length wall) { return (outsideDiameter - wall) / 2.0; }

double dimensionRatio(Length outsideDiameter, Length wall) { return outsideDiameter / wall; }

Result<double> handbookBendMultiple(double ratio) {
  struct Step {
    double highestRatio;
    double multiple;
  };
  static constexpr std::array<Step, 6> kSteps = {
      {{9.0, 20.0}, {13.5, 25.0}, {21.0, 27.0}, {26.0, 34.0}, {32.5, 42.0}, {41.0, 52.0}}};
  // A wall computed from two decimal diameters may miss its row by rounding.
  constexpr double kRounding = 1e-9;
  if (ratio > 2.0) {
    for (const Step& step : kSteps) {
      if (ratio <= step.highestRatio + kRounding) return step.multiple;
    }
  }
  return Error{ErrorCode::OutOfRange, "tube/bend", {}, {{"dimension_ratio", ratio, Dimension::None}}};
}

Length brazierCollapseRadius(Length outsideDiameter, Length wall, double poissonRatio) {
  const double r = meanRadius(outsideDiameter, wall).si();
  return metres(r * r * std::sqrt(1.0 - poissonRatio * poissonRatio) / (std::numbers::sqrt2 / 3.0 * wall.si()));
}

double brazierCollapseMoment_N_m(Length outsideDiameter, Length wall, double poissonRatio, Pressure modulus) {
  const double r = meanRadius(outsideDiameter, wall).si();
  const double t = wall.si();
  return 2.0 * std::numbers::sqrt2 / 9.0 * std::numbers::pi * modulus.si() * r * t * t /
         std::sqrt(1.0 - poissonRatio * poissonRatio);
}

double bendIndex(Length collapseRadius, Length bendRadius) { return collapseRadius / bendRadius; }

double ovality(double index) { return 2.0 / 9.0 * index * index; }

double bendingStrain(Length outsideDiameter, Length bendRadius) { return outsideDiameter / (2.0 * bendRadius); }

Pressure hoopPressure(Pressure stress, double ratio) { return 2.0 * stress / (ratio - 1.0); }

Pressure hoopStress(Pressure pressure, double ratio) { return pressure * ((ratio - 1.0) / 2.0); }

Result<double> softTubePressureShare(Temperature temperature) {
  constexpr Temperature kHighest = celsius(50.0);
  if (!(temperature <= kHighest)) return tooHot("tube/pressure", temperature, kHighest);
  const double above_K = temperature.inCelsius() - 23.0;
  return above_K <= 0.0 ? 1.0 : 1.0 - 0.5 * above_K / 20.0;
}

Result<double> pe100PressureShare(Temperature temperature) {
  static constexpr std::array<Row, 4> kRows = {{{20.0, 1.0}, {30.0, 0.94}, {40.0, 0.845}, {60.0, 0.68}}};
  constexpr Temperature kHighest = celsius(60.0);
  if (!(temperature <= kHighest)) return tooHot("tube/pressure", temperature, kHighest);
  if (temperature <= celsius(20.0)) return 1.0;
  return between(kRows, temperature.inCelsius());
}

Result<Pressure> softTubePressureRating(Pressure ratingAt20C, Temperature temperature) {
  return softTubePressureShare(temperature).transform([&](double share) { return ratingAt20C * share; });
}

Pressure collapsePressure(Pressure modulus, double poissonRatio, double ratio) {
  const double thinness = ratio - 1.0;
  return 2.0 * modulus / (1.0 - poissonRatio * poissonRatio) / (thinness * thinness * thinness);
}

Result<Pressure> apparentModulus(PolyethyleneClass polyethyleneClass, Duration duration) {
  constexpr double kYear_h = 8766.0;
  struct Line {
    double hours;
    double pe2_MPa;
    double pe3_MPa;
  };
  static constexpr std::array<Line, 6> kLines = {{{0.5, 428.0, 538.0},
                                                  {2.0, 393.0, 490.0},
                                                  {12.0, 331.0, 414.0},
                                                  {100.0, 290.0, 359.0},
                                                  {kYear_h, 207.0, 262.0},
                                                  {50.0 * kYear_h, 152.0, 193.0}}};
  const double hours = duration.in(hour);
  if (!(hours >= kLines.front().hours && hours <= kLines.back().hours)) {
    return Error{ErrorCode::OutOfRange, "tube/modulus", {}, {{"duration", duration.si(), Dimension::Duration}}};
  }
  std::array<Row, kLines.size()> rows{};
  for (std::size_t n = 0; n < rows.size(); ++n) {
    const bool soft = polyethyleneClass == PolyethyleneClass::Pe2xxx;
    rows[n] = {std::log(kLines[n].hours), soft ? kLines[n].pe2_MPa : kLines[n].pe3_MPa};
  }
  return pascals(between(rows, std::log(hours)) * 1e6);
}

Result<double> modulusTemperatureMultiplier(Temperature temperature) {
  static constexpr std::array<Row, 11> kRows = {{{4.0, 1.49},
                                                 {10.0, 1.32},
                                                 {16.0, 1.18},
                                                 {23.0, 1.00},
                                                 {27.0, 0.93},
                                                 {32.0, 0.82},
                                                 {38.0, 0.73},
                                                 {43.0, 0.64},
                                                 {49.0, 0.58},
                                                 {54.0, 0.50},
                                                 {60.0, 0.43}}};
  const double t_C = temperature.inCelsius();
  constexpr double kRounding_K = 1e-9;  // 4 C itself must be inside after the way through kelvin
  if (!(t_C >= 4.0 - kRounding_K && t_C <= 60.0 + kRounding_K)) {
    return tooHot("tube/modulus", temperature, celsius(60.0));
  }
  return between(kRows, t_C);
}

double wallResistance_mK_W(Length outsideDiameter, Length insideDiameter, ThermalConductivity conductivity) {
  return std::log(outsideDiameter / insideDiameter) / (2.0 * std::numbers::pi * conductivity.si());
}

Length thermalGrowth(Length length, ThermalExpansion expansion, TemperatureDifference warming) {
  return length * (expansion * warming);
}

}  // namespace sunspool::materials
