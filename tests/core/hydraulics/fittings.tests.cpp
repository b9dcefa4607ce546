// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/hydraulics/fittings.h"

#include <catch2/catch.hpp>

#include "core/hydraulics/friction.h"

using namespace sunspool;
using namespace sunspool::hydraulics;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {
model::FittingCount fitting(model::FittingKind kind, int count) {
  model::FittingCount counted;
  counted.kind = kind;
  counted.count = count;
  return counted;
}
}  // namespace

TEST_CASE("Fittings add up by count", "[hydraulics][fittings][analytic]") {
  const std::vector<model::FittingCount> list = {fitting(model::FittingKind::PipeEntrance, 1),
                                                 fitting(model::FittingKind::PipeExit, 1),
                                                 fitting(model::FittingKind::Elbow90, 3)};
  // Hooper's screwed elbow at Re 1e4 in 19 mm: 1.01474, evaluated.
  CHECK_THAT(lossCoefficientSum(list, millimetres(19)), WithinAbs(1.5 + 3 * 1.01474, 2e-5));
  CHECK(lossCoefficientSum({}, millimetres(19)) == 0.0);
}

TEST_CASE("A barb nobody measured counts 1.5 and a measured bore or coefficient replaces it",
          "[hydraulics][fittings][reference]") {
  auto barb = fitting(model::FittingKind::BarbConnector, 1);
  CHECK(fittingLossCoefficient(barb, millimetres(16)) == 1.5);
  barb.bore = millimetres(14);
  // Borda-Carnot and contraction, 14 mm in 19 mm: 1.4840, evaluated.
  CHECK_THAT(fittingLossCoefficient(barb, millimetres(19)), WithinAbs(1.4840, 5e-5));
  barb.lossCoefficient = Uncertain<double>{7.5, 1.0, Sureness::Measured};
  CHECK(fittingLossCoefficient(barb, millimetres(19)) == 7.5);
}

TEST_CASE("Every kind of fitting has a positive loss coefficient", "[hydraulics][fittings][property]") {
  using model::FittingKind;
  for (const auto kind :
       {FittingKind::BarbConnector, FittingKind::Elbow90, FittingKind::Elbow45, FittingKind::TeeThrough,
        FittingKind::TeeBranch, FittingKind::Valve, FittingKind::PipeEntrance, FittingKind::PipeExit}) {
    CHECK(fittingLossCoefficient(fitting(kind, 1), millimetres(16)) > 0.0);
  }
}

TEST_CASE("A pipe of the design becomes a straight path", "[hydraulics][fittings][analytic]") {
  model::Pipe pipe;
  CHECK_FALSE(pathOf(pipe, celsius(20)));
  pipe.length = metres(12);
  pipe.insideDiameter = millimetres(25);
  pipe.roughness = millimetres(0.007);
  pipe.fittings = {fitting(model::FittingKind::PipeExit, 1)};
  const auto path = pathOf(pipe, celsius(20));
  REQUIRE(path);
  CHECK(path->lossCoefficientSum == 1.0);
  CHECK(path->stretches.size() == 1);
  CHECK(path->stretches[0].bendRadius_m == 0.0);
  CHECK(pathLoss(*path, litresPerMinute(6)));
  pipe.fittings[0].count = -2;
  CHECK(pathLoss(*pathOf(pipe, celsius(20)), litresPerMinute(6)).error().code == ErrorCode::OutOfRange);
}
