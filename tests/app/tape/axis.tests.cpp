// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/axis.h"

#include <catch2/catch.hpp>
#include <random>

namespace sunspool::tape {
namespace {

TEST_CASE("The marks of an axis are whole steps between the values", "[tape][analytic]") {
  const Axis axis = axisFor(24.0, 26.7, 5);
  CHECK(axis.step == 1.0);
  CHECK(axis.marks == std::vector<double>{24.0, 25.0, 26.0});
  CHECK(axis.text(24.0) == QStringLiteral("24"));
  CHECK(axis.text(-2.0) == QString(QChar(0x2212)) + QStringLiteral("2"));
  CHECK(axisFor(-0.2, 2.3, 4).marks == std::vector<double>{0.0, 1.0, 2.0});
  CHECK(axisFor(24.31, 24.32, 4).marks.size() == 2);
  CHECK(axisFor(0.1, 0.4, 5).text(0.1) == QStringLiteral("0.1"));
  const QRectF strip(0.0, 10.0, 100.0, 50.0);
  CHECK(axis.y(strip, axis.low) == 60.0);
  CHECK(axis.y(strip, axis.high) == 10.0);
}

TEST_CASE("Any two values lie on an axis of few marks", "[tape][property]") {
  const auto seed = Catch::rngSeed();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> at(-100.0, 100.0), exponent(-6.0, 3.0);
  for (int i = 0; i < 2000; ++i) {
    const double least = at(random), largest = least + std::pow(10.0, exponent(random));
    const Axis axis = axisFor(least, largest, 5);
    REQUIRE(axis.marks.size() >= 2);
    REQUIRE(axis.marks.size() <= 5);
    REQUIRE(axis.low < least);
    REQUIRE(axis.high > largest);
    REQUIRE(axis.low < axis.marks.front());
    REQUIRE(axis.high > axis.marks.back());
  }
}

}  // namespace
}  // namespace sunspool::tape
