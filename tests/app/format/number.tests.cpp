// SPDX-License-Identifier: GPL-3.0-or-later
#include <QString>
#include <catch2/catch.hpp>
#include <cmath>
#include <ostream>
#include <random>

#include "app/format/format.h"
#include "app/format/quantity_text.h"

inline std::ostream& operator<<(std::ostream& out, const QString& text) { return out << text.toStdString(); }

namespace sunspool::format {
namespace {

constexpr Preferences kMetric{UnitSystem::Metric};
constexpr Preferences kUs{UnitSystem::UsCustomary};

QString drawn(double length_m, const Preferences& preferences = kMetric) {
  return number(metres(length_m), LengthScale::Drawing, preferences).joined();
}

TEST_CASE("A drawing is in whole millimetres", "[format][analytic]") {
  CHECK(drawn(0.026) == QStringLiteral("26 mm"));
  CHECK(drawn(1.04) == QStringLiteral("1\u2009040 mm"));
  CHECK(drawn(0.0129999) == QStringLiteral("13 mm"));
  CHECK(drawn(0.0025) == QStringLiteral("2.5 mm"));
  CHECK(drawn(1.04, kUs) == QStringLiteral("40.94 in"));
}

TEST_CASE("What is not nothing is not printed as nothing", "[format][analytic]") {
  CHECK(drawn(0.001) == QStringLiteral("1 mm"));
  CHECK(drawn(0.0004) == QStringLiteral("0.4 mm"));
  CHECK(drawn(-0.00004) == QStringLiteral("\u22120.04 mm"));
  CHECK(drawn(0.0) == QStringLiteral("0 mm"));
  CHECK(drawn(-0.0) == QStringLiteral("0 mm"));
  CHECK(drawn(1e-18) == QStringLiteral("0 mm"));
  CHECK(number(watts(0.004), kMetric).joined() == QStringLiteral("0.004 W"));
}

TEST_CASE("Minus is a minus and thousands stand apart", "[format][analytic]") {
  CHECK(drawn(-12.3456) == QStringLiteral("\u221212\u2009346 mm"));
  CHECK(number(cubicMetres(1234.56), kMetric).joined() == QStringLiteral("1\u2009234.6 m³"));
}

TEST_CASE("Each quantity prints with the digits that tell something", "[format][analytic]") {
  CHECK(number(metres(80.995), LengthScale::Run, kMetric).joined() == QStringLiteral("81.0 m"));
  CHECK(number(metres(80.995), LengthScale::Run, kUs).joined() == QStringLiteral("265.7 ft"));
  CHECK(number(metres(1.424), LengthScale::Height, kMetric).joined() == QStringLiteral("1.42 m"));
  CHECK(number(litres(16.29), kMetric).joined() == QStringLiteral("16.3 L"));
  CHECK(number(litres(16.29), kUs).joined() == QStringLiteral("4.3 US gal"));
  CHECK(number(litresPerMinute(6.0), kMetric).joined() == QStringLiteral("6.0 L/min"));
  CHECK(number(litresPerMinute(6.0), kUs).joined() == QStringLiteral("1.59 US gal/min"));
  CHECK(number(kilopascals(4.21), kMetric).joined() == QStringLiteral("4.2 kPa"));
  CHECK(number(kilopascals(4.21), kUs).joined() == QStringLiteral("0.61 psi"));
  CHECK(number(watts(873.4), kMetric).joined() == QStringLiteral("873 W"));
  CHECK(number(watts(1234.0), kMetric).joined() == QStringLiteral("1.23 kW"));
  CHECK(number(watts(999.7), kMetric).joined() == QStringLiteral("1.00 kW"));
  CHECK(number(watts(1000.0), kUs).joined() == QStringLiteral("3\u2009412 BTU/h"));
  CHECK(number(celsius(31.04), kMetric).joined() == QStringLiteral("31.0 °C"));
  CHECK(number(celsius(30.0), kUs).joined() == QStringLiteral("86.0 °F"));
  CHECK(number(celsius(-5.0), kMetric).joined() == QStringLiteral("\u22125.0 °C"));
  CHECK(number(degrees(30.0), kMetric).joined() == QStringLiteral("30°"));
  CHECK(number(degrees(33.5), kMetric).joined() == QStringLiteral("33.5°"));
  CHECK(number(Fact{"strain", 0.05, Dimension::Percent}, kMetric).joined() == QStringLiteral("5 %"));
  CHECK(number(Fact{"price", 12.5, Dimension::Money}, kMetric).number == QStringLiteral("12.50"));
  CHECK(money(12.5, "EUR").joined() == QStringLiteral("12.50 €"));
  CHECK(money(-3.0, "USD").joined() == QStringLiteral("\u22123.00 USD"));
}

TEST_CASE("A difference of temperatures carries no 32", "[format][analytic]") {
  CHECK(number(kelvins(5.0), kMetric).joined() == QStringLiteral("5.0 K"));
  CHECK(number(kelvins(5.0), kUs).joined() == QStringLiteral("9.0 °F"));
}

TEST_CASE("A range names its unit once and one number when both ends print alike", "[format][analytic]") {
  CHECK(range(Ranged<Volume>{litres(16.3), litres(15.8), litres(16.8)}, kMetric) == QStringLiteral("15.8 to 16.8 L"));
  CHECK(range(Ranged<Volume>{litres(16.3), litres(16.29), litres(16.31)}, kMetric) == QStringLiteral("16.3 L"));
  CHECK(range(Ranged<Power>{watts(980), watts(940), watts(1020)}, kMetric) == QStringLiteral("0.94 to 1.02 kW"));
  CHECK(range(Ranged<Temperature>{celsius(30), celsius(29), celsius(31)}, kUs) == QStringLiteral("84.2 to 87.8 °F"));
  CHECK(rangeOf({metres(81), metres(80.7), metres(81.3)}, LengthScale::Run, kMetric) ==
        QStringLiteral("80.7 to 81.3 m"));
}

TEST_CASE("Two numbers that disagree never print alike", "[format][property]") {
  const TwoNumbers numbers =
      apart({"radius", 0.0259, Dimension::Length}, {"limit", 0.02599, Dimension::Length}, kMetric);
  CHECK(numbers.first.joined() == QStringLiteral("25.9 mm"));
  CHECK(numbers.second.joined() == QStringLiteral("26.0 mm"));
  std::mt19937 random(7);
  std::uniform_real_distribution<double> value(0.01, 1.0), shift(-5.0, -2.0);
  for (int i = 0; i < 1000; ++i) {
    const double a = value(random);
    const double b = a + std::pow(10.0, shift(random)) * 1e-3;
    INFO("seed 7, draw " << i);
    const TwoNumbers two = apart({"a", a, Dimension::Length}, {"b", b, Dimension::Length}, kMetric);
    REQUIRE_FALSE(two.first == two.second);
  }
}

TEST_CASE("What is printed can be typed again", "[format][property]") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> exponent(-3.0, 2.0);
  for (const Preferences& preferences : {kMetric, kUs}) {
    for (int i = 0; i < 500; ++i) {
      const double length = std::pow(10.0, exponent(random));
      const QString text = number(metres(length), LengthScale::Drawing, preferences).joined();
      INFO("seed 11, draw " << i << ", text " << text);
      const auto back = parseQuantity(text.toStdString(), Dimension::Length, "mm");
      REQUIRE(back);
      // Half of the last digit shown: 0.5 mm or 0.005 in.
      REQUIRE(std::abs(*back - length) <= 0.5001e-3);
      const QString flow = number(litresPerMinute(length), preferences).joined();
      REQUIRE(parseQuantity(flow.toStdString(), Dimension::VolumeFlow, "L/min"));
    }
  }
}

TEST_CASE("Hours, winds and sureness are words", "[format][analytic]") {
  CHECK(clock(13.5) == QStringLiteral("13:30"));
  CHECK(clock(7.0 + 5.0 / 60.0) == QStringLiteral("07:05"));
  CHECK(clock(23.9999) == QStringLiteral("00:00"));
  CHECK(compass(degrees(180)) == QStringLiteral("south"));
  CHECK(compass(degrees(225)) == QStringLiteral("south-west"));
  CHECK(compass(degrees(-10)) == QStringLiteral("north"));
  CHECK(compass(degrees(359)) == QStringLiteral("north"));
  CHECK(sureness(Sureness::Label) == QStringLiteral("from the label"));
}

}  // namespace
}  // namespace sunspool::format
