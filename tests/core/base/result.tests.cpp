// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/result.h"

#include <catch2/catch.hpp>
#include <string>

using namespace sunspool;

namespace {
Result<double> halved(int value) {
  if (value % 2 != 0) return Error{ErrorCode::OutOfRange, "/value", std::to_string(value), {}};
  return value / 2.0;
}
}  // namespace

TEST_CASE("A good result holds its value, a failed one its error", "[result][analytic]") {
  const Result<double> good = halved(4);
  REQUIRE(good);
  CHECK(*good == 2.0);
  const Result<double> failed = halved(3);
  REQUIRE_FALSE(failed.has_value());
  CHECK(failed.error().code == ErrorCode::OutOfRange);
  CHECK(failed.error().detail == "3");
}

TEST_CASE("and_then and transform go on with values and hand errors through", "[result][analytic]") {
  const auto text = [](double value) { return std::to_string(value); };
  CHECK(halved(8).and_then([](double half) { return halved(static_cast<int>(half)); }).value() == 2.0);
  CHECK(halved(4).transform(text).value() == "2.000000");
  CHECK(halved(5).transform(text).error().detail == "5");
  CHECK(halved(6).and_then([](double half) { return halved(static_cast<int>(half)); }).error().detail == "3");
}

TEST_CASE("A value moves out of a result", "[result][analytic]") {
  Result<std::string> result = std::string("a text too long for the small string buffer");
  const std::string moved = *std::move(result);
  CHECK(moved.size() == 43);
}
