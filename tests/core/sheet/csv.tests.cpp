// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/csv.h"

#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <limits>
#include <random>

#include "tests/core/sheet/support.h"

using namespace sunspool::sheet;

namespace {

/// RFC 4180 read by its own grammar, independent of the writer.
std::vector<std::vector<std::string>> readCsv(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1);
  std::string field;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"') {
        field += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        field += text[++i];
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      rows.back().push_back(std::exchange(field, {}));
    } else if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      ++i;
      rows.back().push_back(std::exchange(field, {}));
      rows.emplace_back();
    } else {
      field += c;
    }
  }
  REQUIRE_FALSE(quoted);
  REQUIRE(rows.back().empty());  // the last line is ended too
  rows.pop_back();
  return rows;
}

}  // namespace

TEST_CASE("A table becomes one line a row, ended by CRLF, with quotes only where they are needed",
          "[sheet][analytic]") {
  Table table;
  table.columns = {"name", "length_m"};
  table.rows = {{std::string("rail"), 1.97}, {std::string("roll, \"black\""), std::monostate{}}, {std::string(" a ")}};
  CHECK(csvText(table) == "name,length_m\r\nrail,1.97\r\n\"roll, \"\"black\"\"\",\r\n\" a \",\r\n");
}

TEST_CASE("Every text and number comes back from the file as it went in", "[sheet][property]") {
  INFO("seed " << sunspool::sheet_test::seed());
  std::mt19937_64 random(sunspool::sheet_test::seed());
  const std::string alphabet = "ab ,\"\r\n;\t'=-\xC3\xA4\xE2\x82\xAC";
  Table table;
  table.columns = {"text", "number"};
  std::vector<double> numbers;
  std::vector<std::string> texts;
  for (int i = 0; i < 2000; ++i) {
    std::string text;
    for (std::uint64_t n = random() % 12; n > 0; --n) text += alphabet[random() % alphabet.size()];
    const std::uint64_t bits = random();
    double number = 0.0;
    std::memcpy(&number, &bits, sizeof number);
    if (!std::isfinite(number)) number = 0.1 * static_cast<double>(i);
    table.rows.push_back({text, number});
    texts.push_back(text);
    numbers.push_back(number);
  }
  const auto rows = readCsv(csvText(table));
  REQUIRE(rows.size() == table.rows.size() + 1);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    REQUIRE(rows[i + 1].size() == 2);
    CHECK(rows[i + 1][0] == texts[i]);
    CHECK(std::strtod(rows[i + 1][1].c_str(), nullptr) == numbers[i]);
  }
}

TEST_CASE("Numbers keep their point in a locale of comma decimals, and what is not a number stays empty",
          "[sheet][analytic]") {
  const std::string before = std::setlocale(LC_NUMERIC, nullptr);
  std::setlocale(LC_NUMERIC, "de_DE.UTF-8");  // where it is not installed the test still holds
  Table table;
  table.columns = {"a", "b"};
  table.rows = {{1234.5, std::numeric_limits<double>::quiet_NaN()}, {0.1 + 0.2, 34.2}};
  CHECK(csvText(table) == "a,b\r\n1234.5,\r\n0.30000000000000004,34.2\r\n");
  std::setlocale(LC_NUMERIC, before.c_str());
}
