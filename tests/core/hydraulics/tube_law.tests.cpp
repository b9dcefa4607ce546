// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/tube_law.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {
// Straight, very gentle, panel-like and tight bends; smooth to rough.
constexpr double kCurvatures[] = {0.0, 1e-4, 1e-3, 3e-3, 0.01, 0.0325, 0.05, 0.067, 0.12, 0.3};
constexpr double kRoughnesses[] = {0.0, 1e-4, 1e-3, 0.02};
constexpr Branch kBranches[] = {Branch::Best, Branch::Low, Branch::High};

double logLoss(const TubeLaw& law, double reynolds, Branch branch) {
  return std::log(law.at(reynolds, branch).friction * reynolds * reynolds);
}
}  // namespace

TEST_CASE("A straight tube is laminar to 2000 and follows Colebrook from 4000", "[hydraulics][law][analytic]") {
  const TubeLaw law(1e-4, 0.0);
  for (const Branch branch : kBranches) {
    CHECK(law.at(500, branch).friction == 64.0 / 500);
    CHECK(law.at(2000, branch).friction == 64.0 / 2000);
    CHECK(law.at(4000, branch).friction == colebrookFriction(4000, 1e-4));
    CHECK(law.at(3e4, branch).friction == colebrookFriction(3e4, 1e-4));
  }
  CHECK(law.at(3000, Branch::Low).friction == 64.0 / 3000);
  CHECK(law.at(3000, Branch::High).friction == colebrookFriction(3000, 1e-4));
}

TEST_CASE("An arc follows White below its critical number and Ito above", "[hydraulics][law][reference]") {
  // 13 mm tube on 400 mm diameter; White 1929 and Ito 1959 as evaluated: 0.119795, 0.06057 and 0.035628.
  const TubeLaw law(0.0, 0.0325);
  CHECK_THAT(law.at(1000, Branch::Best).friction, WithinAbs(0.119795, 5e-7));
  CHECK_THAT(law.at(3000, Branch::Best).friction, WithinAbs(0.06057, 5e-6));
  CHECK_THAT(law.at(1e4, Branch::Best).friction, WithinAbs(0.035628, 5e-7));
  CHECK_THAT(law.bandEnds(), WithinRel(1.25 * itoCriticalReynolds(0.0325), 1e-12));
}

TEST_CASE("Loss rises with flow on every branch of every tube", "[hydraulics][law][property]") {
  for (const double curvature : kCurvatures) {
    for (const double roughness : kRoughnesses) {
      const TubeLaw law(roughness, curvature);
      for (const Branch branch : kBranches) {
        double before = logLoss(law, 1.0, branch);
        for (double reynolds = 1.01; reynolds < 3e5; reynolds *= 1.003) {
          const double now = logLoss(law, reynolds, branch);
          INFO("Re " << reynolds << ", d/D " << curvature << ", e/d " << roughness);
          REQUIRE(now > before);
          before = now;
        }
      }
    }
  }
}

TEST_CASE("Loss has no jump on any branch of any tube", "[hydraulics][law][property]") {
  for (const double curvature : kCurvatures) {
    for (const double roughness : kRoughnesses) {
      const TubeLaw law(roughness, curvature);
      for (const Branch branch : kBranches) {
        for (double reynolds = 1000.0; reynolds < 3e5; reynolds *= 1.00731) {
          const double step = 1e-7;
          const double rise = logLoss(law, reynolds * (1.0 + step), branch) - logLoss(law, reynolds, branch);
          INFO("Re " << reynolds << ", d/D " << curvature << ", e/d " << roughness);
          REQUIRE(rise < 200.0 * step);  // the steepest passage has an exponent below 50
        }
        for (const double knot : {2000.0, 2100.0, 3800.0, 4000.0, law.bandEnds()}) {
          const double gap = logLoss(law, knot * (1.0 + 1e-12), branch) - logLoss(law, knot * (1.0 - 1e-12), branch);
          INFO("knot " << knot << ", d/D " << curvature << ", e/d " << roughness);
          CHECK(std::abs(gap) < 1e-9);
        }
      }
    }
  }
}

TEST_CASE("The exponent is the derivative of the loss", "[hydraulics][law][property]") {
  for (const double curvature : kCurvatures) {
    for (const double roughness : kRoughnesses) {
      const TubeLaw law(roughness, curvature);
      for (double reynolds = 5.0; reynolds < 3e5; reynolds *= 1.0371) {
        const double h = 1e-5;
        const double differences =
            (logLoss(law, reynolds * std::exp(h), Branch::Best) - logLoss(law, reynolds * std::exp(-h), Branch::Best)) /
            (2.0 * h);
        INFO("Re " << reynolds << ", d/D " << curvature << ", e/d " << roughness);
        // A step across the corner between two branches leaves half the change of curvature.
        CHECK_THAT(law.at(reynolds, Branch::Best).exponent, WithinAbs(differences, 2e-4));
      }
    }
  }
}

TEST_CASE("The best value lies between low and high", "[hydraulics][law][property]") {
  for (const double curvature : kCurvatures) {
    const TubeLaw law(1e-4, curvature);
    for (double reynolds = 100.0; reynolds < 1e5; reynolds *= 1.01) {
      const double low = law.at(reynolds, Branch::Low).friction;
      const double best = law.at(reynolds, Branch::Best).friction;
      const double high = law.at(reynolds, Branch::High).friction;
      INFO("Re " << reynolds << ", d/D " << curvature);
      CHECK(low <= best);
      CHECK(best <= high);
      if (!law.isOpen(reynolds)) CHECK(low == high);
    }
  }
}

TEST_CASE("A bend that vanishes becomes a straight tube", "[hydraulics][law][property]") {
  const TubeLaw straight(1e-4, 0.0);
  const TubeLaw nearly(1e-4, 1e-9);
  for (double reynolds = 10.0; reynolds < 1e6; reynolds *= 1.3) {
    CHECK_THAT(nearly.at(reynolds, Branch::Best).friction,
               WithinRel(straight.at(reynolds, Branch::Best).friction, 1e-9));
  }
}

TEST_CASE("Tighter bends never lose less in turbulent or laminar flow", "[hydraulics][law][property]") {
  for (const double reynolds : {500.0, 1500.0, 2e4, 1e5}) {
    double before = 0.0;
    for (const double curvature : kCurvatures) {
      const double now = TubeLaw(0.0, curvature).at(reynolds, Branch::Best).friction;
      INFO("Re " << reynolds << ", d/D " << curvature);
      // Where Ito takes over from the straight law, his formula may lie up to 1 % below Colebrook's.
      CHECK(now > before * 0.99);
      before = now;
    }
  }
}
