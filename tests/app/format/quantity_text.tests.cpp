// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/quantity_text.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <random>
#include <string>

#include "core/base/quantity.h"

namespace sunspool::format {
namespace {

using Catch::Matchers::WithinRel;

// A few roundings of a double: factor, quotient, sum.
constexpr double kRoundings = 1e-15;

double read(std::string_view text, Dimension dimension, std::string_view bareUnit) {
  const auto value = parseQuantity(text, dimension, bareUnit);
  INFO("text: " << text);
  REQUIRE(value);
  return *value;
}
Error refused(std::string_view text, Dimension dimension, std::string_view bareUnit) {
  const auto value = parseQuantity(text, dimension, bareUnit);
  INFO("text: " << text);
  REQUIRE_FALSE(value);
  CHECK(value.error().where == text);
  return value.error();
}

TEST_CASE("A bare number is in the field's own unit", "[format][quantity][analytic]") {
  CHECK(read("26", Dimension::Length, "mm") == 0.026);
  CHECK(read("12,5", Dimension::Length, "mm") == 0.0125);
  CHECK(read("12.5", Dimension::Length, "m") == 12.5);
  CHECK(read("25", Dimension::Temperature, "°C") == 298.15);
  CHECK(read("5", Dimension::Percent, "") == 0.05);
  CHECK(read("4", Dimension::Count, "") == 4.0);
  CHECK(read("  26  ", Dimension::Length, "mm") == 0.026);
}

TEST_CASE("Millimetres become the double that a file would hold", "[format][quantity][property]") {
  for (int mm = 0; mm <= 2000; ++mm) {
    const std::string literal = std::to_string(mm) + "e-3";
    CHECK(read(std::to_string(mm), Dimension::Length, "mm") == std::strtod(literal.c_str(), nullptr));
  }
}

TEST_CASE("Units are read as people write them", "[format][quantity][analytic]") {
  struct Row {
    std::string_view text;
    Dimension dimension;
    std::string_view bareUnit;
    double si;
  };
  // 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg, 1 US gal = 231 in^3, all exact by definition.
  constexpr auto rows = std::to_array<Row>({
      {"2.6 cm", Dimension::Length, "mm", 0.026},
      {"2.6cm", Dimension::Length, "mm", 0.026},
      {"26 MM", Dimension::Length, "m", 0.026},
      {"7 µm", Dimension::Length, "mm", 7e-6},
      {"1 3/16 in", Dimension::Length, "mm", 0.0254 * 1.1875},
      {"3/16\"", Dimension::Length, "mm", 0.0254 * 0.1875},
      {"1½ in", Dimension::Length, "mm", 0.0381},
      {"7 ft 10 1/2", Dimension::Length, "mm", 0.0254 * 94.5},
      {"7ft10", Dimension::Length, "mm", 0.0254 * 94.0},
      {"7' 10 1/2\"", Dimension::Length, "mm", 0.0254 * 94.5},
      {"7'-10\"", Dimension::Length, "mm", 0.0254 * 94.0},
      {"7′ 10″", Dimension::Length, "mm", 0.0254 * 94.0},
      {"-7 ft 6 in", Dimension::Head, "m", -0.3048 * 7.5},
      {"7 ft - 10 in", Dimension::Length, "mm", 0.0254 * 74.0},
      {"1\u2009040 mm", Dimension::Length, "m", 1.04},
      {"5 ft of head", Dimension::Head, "m", 1.524},
      {"30.5 sq ft", Dimension::Area, "m2", 30.5 * 0.09290304},
      {"30.5 ft²", Dimension::Area, "m2", 30.5 * 0.09290304},
      {"0,41 m²", Dimension::Area, "m2", 0.41},
      {"16.3 l", Dimension::Volume, "L", 0.0163},
      {"3 US gal", Dimension::Volume, "L", 3 * 231 * 0.0254 * 0.0254 * 0.0254},
      {"3 UK gallons", Dimension::Volume, "L", 3 * 4.54609e-3},
      {"25 L/min", Dimension::VolumeFlow, "L/h", 25e-3 / 60.0},
      {"25 L / min", Dimension::VolumeFlow, "L/h", 25e-3 / 60.0},
      {"1.5 m³/h", Dimension::VolumeFlow, "L/min", 1.5 / 3600.0},
      {"3 US gal/min", Dimension::VolumeFlow, "L/min", 3 * 231 * 0.0254 * 0.0254 * 0.0254 / 60.0},
      {"4.2 kPa", Dimension::Pressure, "bar", 4200.0},
      {"1.2 MPa", Dimension::Pressure, "bar", 1.2e6},
      {"0.6", Dimension::Pressure, "bar", 6e4},
      {"30 °C", Dimension::Temperature, "°F", 303.15},
      {"−5 °C", Dimension::Temperature, "°C", 268.15},
      {"86 °F", Dimension::Temperature, "°C", 303.15},
      {"20 °C + 9 °F", Dimension::Temperature, "°C", 298.15},
      {"9 °F", Dimension::TemperatureDifference, "K", 5.0},
      {"2 °C", Dimension::TemperatureDifference, "K", 2.0},
      {"180°", Dimension::Angle, "deg", 3.14159265358979323846},
      {"58 min", Dimension::Duration, "s", 3480.0},
      {"2 h 30 min", Dimension::Duration, "s", 9000.0},
      {"3.6 km/h", Dimension::Velocity, "m/s", 1.0},
      {"850 W/m²", Dimension::Irradiance, "W/m2", 850.0},
      {"1.2 kW", Dimension::Power, "W", 1200.0},
      {"3412.141633 BTU/h", Dimension::Power, "W", 1000.0},  // to the digits typed
      {"0.04 W/(m K)", Dimension::ThermalConductivity, "W/(m K)", 0.04},
      {"0.04 W/(m·K)", Dimension::ThermalConductivity, "W/(m K)", 0.04},
      {"8 W/m²K", Dimension::HeatTransferCoefficient, "W/(m2 K)", 8.0},
      {"2 lb 8 oz", Dimension::Mass, "kg", 2.5 * 0.45359237},
      {"12,50 €", Dimension::Money, "EUR", 12.5},
      {"12.50 eur", Dimension::Money, "EUR", 12.5},
      {"5 %", Dimension::Percent, "", 0.05},
      {"1e-6 m", Dimension::Length, "mm", 1e-6},
  });
  for (const Row& row : rows) {
    INFO(row.text);
    CHECK_THAT(read(row.text, row.dimension, row.bareUnit),
               WithinRel(row.si, row.dimension == Dimension::Power ? 1e-9 : kRoundings));
  }
}

TEST_CASE("Sums and products are worked out", "[format][quantity][analytic]") {
  CHECK_THAT(read("3*40 mm", Dimension::Length, "mm"), WithinRel(0.12, kRoundings));
  CHECK_THAT(read("3 x 40 mm", Dimension::Length, "m"), WithinRel(0.12, kRoundings));
  CHECK_THAT(read("40 mm × 3", Dimension::Length, "m"), WithinRel(0.12, kRoundings));
  CHECK_THAT(read("1040 mm / 8", Dimension::Length, "m"), WithinRel(0.13, kRoundings));
  CHECK_THAT(read("1040 / 8 mm", Dimension::Length, "m"), WithinRel(0.13, kRoundings));
  CHECK_THAT(read("1 m + 20 cm", Dimension::Length, "mm"), WithinRel(1.2, kRoundings));
  CHECK_THAT(read("1 m - 2*35", Dimension::Length, "mm"), WithinRel(0.93, kRoundings));
  CHECK_THAT(read("2 * 7 ft 6 in", Dimension::Length, "mm"), WithinRel(15.0 * 0.3048, kRoundings));
}

TEST_CASE("A gallon without a country is refused by name", "[format][quantity][analytic]") {
  for (const std::string_view text : {"3 gal", "3 gallons"}) {
    const Error error = refused(text, Dimension::Volume, "L");
    CHECK(error.code == ErrorCode::AmbiguousUnit);
    CHECK(error.detail == text.substr(2));
  }
  CHECK(refused("3 gal/min", Dimension::VolumeFlow, "L/min").code == ErrorCode::AmbiguousUnit);
  CHECK(refused("3 gpm", Dimension::VolumeFlow, "L/min").detail == "gpm");
}

TEST_CASE("What is not understood is named and nothing is guessed", "[format][quantity][analytic]") {
  struct Row {
    std::string_view text;
    Dimension dimension;
    std::string_view bareUnit;
    ErrorCode code;
    std::string_view detail;
  };
  constexpr auto rows = std::to_array<Row>({
      {"", Dimension::Length, "mm", ErrorCode::BadNumber, ""},
      {"wide", Dimension::Length, "mm", ErrorCode::BadNumber, "wide"},
      {"12 bar", Dimension::Length, "mm", ErrorCode::BadUnit, "bar"},
      {"5 m2", Dimension::Length, "mm", ErrorCode::BadUnit, "m2"},
      {"5 mPa", Dimension::Pressure, "kPa", ErrorCode::BadUnit, "mPa"},
      {"1,200.5", Dimension::Length, "mm", ErrorCode::BadNumber, "1,200.5"},
      {"1 200", Dimension::Length, "mm", ErrorCode::BadNumber, "200"},
      {"16 +- 0.5", Dimension::Length, "mm", ErrorCode::BadNumber, "-"},
      {"16 ± 0.5", Dimension::Length, "mm", ErrorCode::BadNumber, "±"},
      {"5–6", Dimension::Length, "mm", ErrorCode::BadNumber, "–6"},
      {"1-3/16 in", Dimension::Length, "mm", ErrorCode::BadNumber, "1-3/16"},
      {"2 m * 3 m", Dimension::Length, "mm", ErrorCode::BadNumber, "3 m"},
      {"2 * 20 °C", Dimension::Temperature, "°C", ErrorCode::BadNumber, "2 * 20 °C"},
      {"3/0 in", Dimension::Length, "mm", ErrorCode::BadNumber, "3/0"},
      {"4 m / 0", Dimension::Length, "mm", ErrorCode::BadNumber, "0"},
      {"1e999", Dimension::Length, "mm", ErrorCode::BadNumber, "1e999"},
      {"1e300 * 1e300", Dimension::Length, "mm", ErrorCode::BadNumber, "1e300 * 1e300"},
      {"5²", Dimension::Length, "mm", ErrorCode::BadNumber, "²"},
      {"2 m 35", Dimension::Length, "mm", ErrorCode::BadNumber, "35"},
      {"3.5", Dimension::Count, "", ErrorCode::BadNumber, "3.5"},
      {"12 $", Dimension::Money, "EUR", ErrorCode::BadUnit, "$"},
      {"26 mm mm", Dimension::Length, "mm", ErrorCode::BadNumber, "mm"},
      {"٢٦", Dimension::Length, "mm", ErrorCode::BadNumber, "٢٦"},
  });
  for (const Row& row : rows) {
    INFO(row.text);
    const Error error = refused(row.text, row.dimension, row.bareUnit);
    CHECK(error.code == row.code);
    CHECK(error.detail == row.detail);
  }
}

unsigned seed() {
  const char* set = std::getenv("SUNSPOOL_TEST_SEED");
  return set != nullptr ? static_cast<unsigned>(std::strtoul(set, nullptr, 10)) : 20250621U;
}

std::string shortest(double value) {
  std::array<char, 64> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
  return {text.data(), end};
}

TEST_CASE("10 000 random quantities come back from their text", "[format][quantity][property]") {
  struct Row {
    std::string_view unit;
    Dimension dimension;
    std::string_view bareUnit;
    double perUnit;
  };
  constexpr auto rows = std::to_array<Row>({
      {"mm", Dimension::Length, "m", millimetre.si_per_unit},
      {"in", Dimension::Length, "mm", inch.si_per_unit},
      {"ft", Dimension::Head, "m", foot.si_per_unit},
      {"ft2", Dimension::Area, "m2", squareFoot.si_per_unit},
      {"US gal", Dimension::Volume, "L", usGallon.si_per_unit},
      {"imp gal", Dimension::Volume, "L", imperialGallon.si_per_unit},
      {"L/min", Dimension::VolumeFlow, "L/h", litrePerMinute.si_per_unit},
      {"L/h", Dimension::VolumeFlow, "L/min", litrePerHour.si_per_unit},
      {"US gal/min", Dimension::VolumeFlow, "L/min", usGallonPerMinute.si_per_unit},
      {"psi", Dimension::Pressure, "bar", psi.si_per_unit},
      {"kPa", Dimension::Pressure, "bar", kilopascal.si_per_unit},
      {"BTU/h", Dimension::Power, "W", btuPerHour.si_per_unit},
      {"kWh", Dimension::Energy, "J", kilowattHour.si_per_unit},
      {"lb", Dimension::Mass, "kg", poundMass.si_per_unit},
      {"°F", Dimension::TemperatureDifference, "K", fahrenheitDegree.si_per_unit},
  });
  const unsigned used = seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  std::uniform_real_distribution<double> exponent(-6.0, 6.0);
  for (int i = 0; i < 10'000; ++i) {
    const Row& row = rows[random() % rows.size()];
    const double number = (random() % 2 == 0 ? 1.0 : -1.0) * std::pow(10.0, exponent(random));
    std::string text = shortest(number);
    if (random() % 2 == 0) std::replace(text.begin(), text.end(), '.', ',');
    if (random() % 2 == 0) text += ' ';
    text += row.unit;
    INFO(text);
    const auto value = parseQuantity(text, row.dimension, row.bareUnit);
    REQUIRE(value);
    // The units of quantity.h are rounded doubles themselves (BTU/h to 14 digits).
    REQUIRE_THAT(*value, WithinRel(number * row.perUnit, 1e-13));
  }
}

TEST_CASE("Random bytes are refused or give a finite number", "[format][quantity][property]") {
  const unsigned used = seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  constexpr std::string_view alphabet = "0123456789.,+-*/x '\"eEmftinLgalhPak°C½\xE2\x80\x89\xC2\xB2()%\xFF";
  for (int i = 0; i < 20'000; ++i) {
    std::string text;
    const auto length = random() % 14;
    for (std::size_t k = 0; k < length; ++k) text += alphabet[random() % alphabet.size()];
    INFO(text);
    const auto value = parseQuantity(text, Dimension::Length, "mm");
    if (value) {
      REQUIRE(std::isfinite(*value));
    } else {
      REQUIRE(text.find(value.error().detail) != std::string::npos);
    }
  }
}

}  // namespace
}  // namespace sunspool::format
