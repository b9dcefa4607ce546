// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"

#include <bit>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <random>

using sunspool::ErrorCode;
using sunspool::numberText;
using sunspool::parseNumber;

TEST_CASE("Numbers are written as a person would write them", "[number_text][analytic]") {
  CHECK(numberText(0.0) == "0");
  CHECK(numberText(-0.0) == "0");
  CHECK(numberText(0.1) == "0.1");
  CHECK(numberText(0.016) == "0.016");
  CHECK(numberText(-8.61) == "-8.61");
  CHECK(numberText(400000.0) == "400000");
  CHECK(numberText(0.000007) == "0.000007");
  CHECK(numberText(1e-12) == "1e-12");
  CHECK(numberText(1e22) == "1e+22");
  CHECK(numberText(1.0 / 3.0) == "0.3333333333333333");
}

TEST_CASE("A number that is not finite has a text that does not read back", "[number_text][analytic]") {
  for (const double value : {std::nan(""), HUGE_VAL, -HUGE_VAL}) {
    CHECK_FALSE(parseNumber(numberText(value)));
  }
}

TEST_CASE("Any double reads back from its text as itself", "[number_text][property]") {
  const char* const set = std::getenv("SUNSPOOL_TEST_SEED");
  const auto seed = set != nullptr ? static_cast<std::uint64_t>(std::strtoull(set, nullptr, 10)) : 20250614U;
  INFO("seed " << seed << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(seed);
  int checked = 0;
  while (checked < 100000) {
    const double value = std::bit_cast<double>(random());  // every size from subnormal to the largest
    if (!std::isfinite(value)) continue;
    ++checked;
    const std::string text = numberText(value);
    const auto back = parseNumber(text);
    if (!back || *back != value || numberText(*back) != text) FAIL(text);
  }
  CHECK(checked == 100000);
}

TEST_CASE("The ends of the double range read back as themselves", "[number_text][analytic]") {
  using Limits = std::numeric_limits<double>;
  for (const double value : {Limits::max(), Limits::lowest(), Limits::min(), Limits::denorm_min(), Limits::epsilon()}) {
    CHECK(parseNumber(numberText(value)).value() == value);
  }
}

TEST_CASE("Text that is not one whole number is refused", "[number_text][analytic]") {
  for (const char* text :
       {"", " ", "1 ", " 1", "1,5", "+1", "1e", "0x10", "nan", "inf", "infinity", "1.5m", "--1", "."}) {
    INFO("'" << text << "'");
    const auto result = parseNumber(text);
    REQUIRE_FALSE(result);
    CHECK(result.error().code == ErrorCode::BadNumber);
    CHECK(result.error().detail == text);
  }
}

TEST_CASE("A number beyond the range of a double is said to be out of range", "[number_text][analytic]") {
  const auto result = parseNumber("1e400");
  REQUIRE_FALSE(result);
  CHECK(result.error().code == ErrorCode::OutOfRange);
  CHECK(result.error().detail == "1e400");
}
