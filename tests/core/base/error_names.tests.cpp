// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/error_names.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

using namespace sunspool;

TEST_CASE("Every failure has a stable word of its own", "[error_names][analytic]") {
  std::set<std::string> words;
  const int last = static_cast<int>(ErrorCode::RenderFailed);
  for (int code = 0; code <= last; ++code) {
    const std::string word(codeName(static_cast<ErrorCode>(code)));
    INFO("code " << code);
    CHECK_FALSE(word.empty());
    CHECK(word.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == std::string::npos);
    words.insert(word);
  }
  CHECK(words.size() == static_cast<std::size_t>(last) + 1);
  CHECK(codeName(ErrorCode::InsideNotBelowOutside) == "inside_not_below_outside");
  CHECK(codeName(ErrorCode::NotARegularFile) == "not_a_regular_file");
}

TEST_CASE("Units of facts are those of the keys in files", "[error_names][analytic]") {
  CHECK(unitSuffix(Dimension::Length) == "m");
  CHECK(unitSuffix(Dimension::VolumeFlow) == "m3_s");
  CHECK(unitSuffix(Dimension::Temperature) == "C");
  CHECK(unitSuffix(Dimension::TemperatureDifference) == "K");
  CHECK(unitSuffix(Dimension::Angle) == "deg");
  CHECK(unitSuffix(Dimension::Count).empty());
  CHECK(unitSuffix(Dimension::None).empty());
}
