// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/friction.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

using namespace sunspool;
using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {
struct Measured {
  double reynolds, friction;
};
std::vector<Measured> smoothPipeMeasurements() {
  std::ifstream file(std::string(SUNSPOOL_TEST_DATA) + "/reference/smooth_pipe_friction.csv");
  REQUIRE(file);
  std::vector<Measured> rows;
  std::string line;
  while (std::getline(file, line)) {
    if (line.empty() || line[0] == '#' || line[0] == 'r') continue;
    std::istringstream text(line);
    Measured row{};
    char comma = 0;
    text >> row.reynolds >> comma >> row.friction;
    rows.push_back(row);
  }
  return rows;
}
constexpr double kCoil = 0.013 / 0.4;  // 13 mm tube on 400 mm diameter
}  // namespace

TEST_CASE("Laminar friction is 64 over the Reynolds number", "[hydraulics][friction][analytic]") {
  CHECK(laminarFriction(128.0) == 0.5);
}

TEST_CASE("Colebrook's equation is solved to its published and evaluated values", "[hydraulics][friction][reference]") {
  // Colebrook 1939; first value from the tests of the library fluids (C. Bell), the others evaluated from the equation.
  CHECK_THAT(colebrookFriction(1e5, 1e-4), WithinAbs(0.018513866, 1e-8));
  CHECK_THAT(colebrookFriction(5e3, 1e-4), WithinAbs(0.037505, 5e-7));
  CHECK_THAT(colebrookFriction(1e4, 0.0), WithinAbs(0.030883, 1e-6));
  CHECK_THAT(colebrookFriction(1e5, 0.0), WithinAbs(0.017990, 5e-7));
}

TEST_CASE("Colebrook's solution satisfies its own equation to 1e-12", "[hydraulics][friction][property]") {
  for (double reynolds = 10.0; reynolds < 2e8; reynolds *= 1.7) {
    for (const double roughness : {0.0, 1e-6, 1e-4, 1e-2, 0.05}) {
      const double f = colebrookFriction(reynolds, roughness);
      const double right = -2.0 * std::log10(roughness / 3.7 + 2.51 / (reynolds * std::sqrt(f)));
      INFO("Re " << reynolds << ", e/d " << roughness);
      CHECK_THAT(1.0 / std::sqrt(f), WithinRel(right, 1e-12));
    }
  }
}

TEST_CASE("Haaland and Churchill give their published and evaluated values", "[hydraulics][friction][reference]") {
  // Haaland 1983, Churchill 1977; the values at (1e5, 1e-4) from the tests of the library fluids, others evaluated.
  CHECK_THAT(haalandFriction(1e5, 1e-4), WithinAbs(0.018265053, 1e-8));
  CHECK_THAT(haalandFriction(5e3, 1e-4), WithinAbs(0.037800, 5e-7));
  CHECK_THAT(churchillFriction(1e5, 1e-4), WithinAbs(0.018462625, 1e-8));
  CHECK_THAT(churchillFriction(1000, 0), WithinAbs(0.064000, 5e-7));
  CHECK_THAT(churchillFriction(2300, 0), WithinAbs(0.030840, 5e-7));
  CHECK_THAT(churchillFriction(3000, 0), WithinAbs(0.042975, 5e-7));
}

TEST_CASE("Blasius and the law measured on small polyethylene tube", "[hydraulics][friction][reference]") {
  // Blasius 1913; BioEng (UNESP), abstract: 0.300 Re^-0.25 for polyethylene tube of 10.0 to 19.7 mm.
  CHECK_THAT(blasiusFriction(1e4), WithinAbs(0.03164, 5e-7));
  CHECK_THAT(smallPolyethyleneFriction(1e4), WithinAbs(0.03000, 5e-7));
  // Smooth-pipe friction is good for such tube within the band it leaves: Blasius reads 0 to 5.5 % above it.
  for (const double reynolds : {6000.0, 20000.0, 72000.0}) {
    const double over = blasiusFriction(reynolds) / smallPolyethyleneFriction(reynolds) - 1.0;
    CHECK(over > 0.0);
    CHECK(over < 0.055);
  }
}

TEST_CASE("Smooth friction lies within 4 percent of every measured row", "[hydraulics][friction][reference]") {
  const auto rows = smoothPipeMeasurements();
  REQUIRE(rows.size() == 7);
  for (const auto& [reynolds, friction] : rows) {
    const double ours = reynolds < 2000.0 ? laminarFriction(reynolds) : colebrookFriction(reynolds, 0.0);
    INFO("Re " << reynolds);
    CHECK_THAT(ours, WithinRel(friction, 0.04));
  }
}

TEST_CASE("Roughness of plastic tube raises friction by the evaluated shares", "[hydraulics][friction][reference]") {
  // Evaluated from Colebrook with 0.0015 mm (from memory) in a 13 mm bore.
  const double roughness = 0.0015 / 13.0;
  const auto rise = [&](double reynolds) {
    return colebrookFriction(reynolds, roughness) / colebrookFriction(reynolds, 0.0) - 1.0;
  };
  CHECK_THAT(rise(5e3), WithinAbs(0.003, 6e-4));
  CHECK_THAT(rise(2e4), WithinAbs(0.010, 6e-4));
  CHECK_THAT(rise(5e4), WithinAbs(0.020, 6e-4));
}

TEST_CASE("White's and Mori and Nakayama's laminar coil laws", "[hydraulics][friction][coil][reference]") {
  // White 1929, Mori and Nakayama 1965; (250, 0.02/0.1) from the tests of the library fluids, others evaluated.
  CHECK_THAT(whiteCoilFriction(250, 0.2), WithinAbs(0.40632818, 1e-8));
  CHECK_THAT(moriNakayamaLaminarCoilFriction(250, 0.2), WithinAbs(0.42224583, 1e-8));
  CHECK_THAT(deanNumber(1000, kCoil), WithinAbs(180.278, 5e-4));
  CHECK_THAT(whiteCoilRatio(deanNumber(1000, kCoil)), WithinAbs(1.87180, 5e-6));
  CHECK_THAT(whiteCoilFriction(1000, kCoil), WithinAbs(0.119795, 5e-7));
  CHECK_THAT(moriNakayamaLaminarCoilRatio(deanNumber(1000, kCoil)), WithinAbs(1.91375, 1e-5));
  CHECK(whiteCoilRatio(11.6) == 1.0);
  CHECK(whiteCoilRatio(5.0) == 1.0);
}

TEST_CASE("Critical Reynolds numbers of coils", "[hydraulics][friction][coil][reference]") {
  // Ito 1959, Schmidt 1967, Srinivasan 1968; values at 1/7 and 0.02/0.5 from the tests of the library fluids.
  CHECK_THAT(itoCriticalReynolds(1.0 / 7.0), WithinAbs(10729.97, 5e-3));
  CHECK_THAT(schmidtCriticalReynolds(1.0 / 7.0), WithinAbs(10540.09, 5e-3));
  CHECK_THAT(schmidtCriticalReynolds(0.02 / 0.5), WithinAbs(6946.79, 5e-3));
  CHECK_THAT(srinivasanCriticalReynolds(1.0 / 7.0), WithinAbs(11624.70, 5e-3));
  CHECK_THAT(itoCriticalReynolds(kCoil), WithinAbs(6681, 0.6));
  CHECK_THAT(schmidtCriticalReynolds(kCoil), WithinAbs(6532, 0.6));
  CHECK_THAT(srinivasanCriticalReynolds(kCoil), WithinAbs(6643, 0.6));
  CHECK(kItoCriticalCurvature.contains(kCoil));
  CHECK_FALSE(kItoCriticalCurvature.contains(1.0 / 7.0));
}

TEST_CASE("Turbulent coil laws", "[hydraulics][friction][coil][reference]") {
  // Ito 1959 (from memory) and Mori and Nakayama 1967 (value from the tests of the library fluids).
  CHECK_THAT(itoTurbulentCoilFriction(1e4, kCoil), WithinAbs(0.035628, 5e-7));
  CHECK_THAT(itoTurbulentCoilFriction(1e4, kCoil) / colebrookFriction(1e4, 0.0), WithinAbs(1.153, 1e-3));
  CHECK_THAT(itoTurbulentCoilFriction(1e4, 0.05), WithinAbs(0.03689, 1e-5));
  CHECK_THAT(moriNakayamaTurbulentCoilFriction(1e4, 0.05), WithinAbs(0.037311802, 1e-8));
}

TEST_CASE("A straight-tube switch at 2300 would underread a coil by 28 percent",
          "[hydraulics][friction][coil][reference]") {
  // Evaluated: Re 3000 in 13 mm tube on 400 mm diameter is laminar by every critical number above.
  CHECK_THAT(whiteCoilFriction(3000, kCoil), WithinAbs(0.06057, 5e-6));
  // That value was evaluated from Prandtl's rounded form (0.8 for 2 log10 2.51).
  CHECK_THAT(colebrookFriction(3000, 0.0), WithinAbs(0.04353, 2e-5));
  CHECK(3000 < schmidtCriticalReynolds(kCoil));
}

TEST_CASE("A whole spiral or helix as one loss coefficient", "[hydraulics][friction][coil][reference]") {
  // Rennels and Hudson, Pipe Flow, 2012; values from the tests of the library fluids.
  CHECK_THAT(rennelsSpiralLossCoefficient(metres(0.01), metres(0.02), metres(0.10), metres(0.01), 0.0185),
             WithinAbs(7.9509186, 1e-7));
  CHECK_THAT(rennelsHelixLossCoefficient(metres(0.01), metres(0.1), metres(0.03), 10.0, 0.0185),
             WithinAbs(14.5251349, 1e-7));
}

TEST_CASE("Loss coefficients of fittings", "[hydraulics][friction][reference]") {
  // Hooper 1981/88 two-K, Borda-Carnot, and the study of protruding barbs; each evaluated.
  CHECK_THAT(hooperLossCoefficient(TwoKFitting::Elbow90, 1e4, millimetres(19)), WithinAbs(1.01474, 5e-6));
  CHECK(hooperLossCoefficient(TwoKFitting::Elbow45, 1e4, millimetres(19)) <
        hooperLossCoefficient(TwoKFitting::Elbow90, 1e4, millimetres(19)));
  CHECK_THAT(hooperLossCoefficient(TwoKFitting::TeeBranch, 1e9, inch.si_per_unit * metres(1.0)), WithinAbs(1.4, 1e-6));
  CHECK_THAT(hooperLossCoefficient(TwoKFitting::TeeThrough, 1e9, inch.si_per_unit * metres(1.0)), WithinAbs(0.2, 1e-6));
  CHECK_THAT(barbLossCoefficientOnBore(millimetres(14), millimetres(19)), WithinAbs(0.43744, 5e-6));
  CHECK_THAT(barbLossCoefficient(millimetres(14), millimetres(19)), WithinAbs(1.4840, 5e-5));
  CHECK_THAT(protrudingBarbLossCoefficient(0.8), WithinAbs(0.299, 5e-4));
  CHECK(kPipeExitLossCoefficient == 1.0);
  CHECK(kPipeEntranceLossCoefficient == 0.5);
}

TEST_CASE("A barb as wide as the tube loses nothing and a wider one widens and contracts",
          "[hydraulics][friction][analytic]") {
  CHECK(barbLossCoefficient(millimetres(13), millimetres(13)) == 0.0);
  // s = 4: the tube is the narrow part; (1 - 1/4)^2 + 0.5 (1 - 1/4) on its velocity.
  CHECK_THAT(barbLossCoefficient(millimetres(26), millimetres(13)), WithinRel(0.5625 + 0.375, 1e-12));
}

TEST_CASE("Hazen and Williams agree with Darcy and Weisbach for plastic tube in turbulent water",
          "[hydraulics][friction][reference]") {
  // 81 m of 16 mm tube at 6 L/min by hand: about 1.8 m with C = 150.
  const Length head = hazenWilliamsHead(litresPerMinute(6), metres(81), millimetres(16), kHazenWilliamsPlastic);
  CHECK_THAT(head.si(), WithinAbs(1.8, 0.1));
}

TEST_CASE("Darcy and Weisbach by hand", "[hydraulics][friction][analytic]") {
  CHECK_THAT(darcyWeisbach(0.02, metres(10), metres(0.02), kilogramsPerCubicMetre(1000), metresPerSecond(2)).si(),
             WithinRel(20000.0, 1e-14));
}
