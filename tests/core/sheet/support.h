// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdio>
#include <cstdlib>
#include <string>
#include <variant>
#include <vector>

#include "core/sheet/display_list.h"
#include "core/sheet/texts.h"

namespace sunspool::sheet_test {

/// Settable by SUNSPOOL_TEST_SEED; tests print it with INFO.
inline unsigned seed() {
  const char* text = std::getenv("SUNSPOOL_TEST_SEED");
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250621u;
}

inline std::string shortNumber(double value) {
  char text[64];
  std::snprintf(text, sizeof text, "%.10g", value);
  return text;
}

/// Says "key 12(name=value)" for everything, so that a test can tell what was asked for.
inline sheet::Texts plainTexts() {
  sheet::Texts texts;
  texts.say = [](sheet::TextKey key, std::span<const Fact> facts) {
    std::string text = "key" + std::to_string(static_cast<int>(key));
    for (const Fact& fact : facts) text += '(' + fact.name + '=' + shortNumber(fact.value_si) + ')';
    return text;
  };
  texts.number = [](const Fact& fact) { return shortNumber(fact.value_si); };
  texts.money = [](double amount, const std::string& currency) { return shortNumber(amount) + ' ' + currency; };
  texts.item = [](std::string_view item) { return std::string(item); };
  texts.date = [](const model::Moment& moment) { return std::to_string(moment.year) + "-date"; };
  texts.error = [](const Error& error) { return "error:" + error.detail; };
  texts.snag = [](const Snag& snag) { return "snag" + std::to_string(static_cast<int>(snag.code)); };
  return texts;
}

inline std::vector<sheet::Text> textsOf(const sheet::Sheet& sheet) {
  std::vector<sheet::Text> found;
  for (const sheet::Item& item : sheet.items) {
    if (const auto* text = std::get_if<sheet::Text>(&item)) found.push_back(*text);
  }
  return found;
}

inline std::string keyText(sheet::TextKey key) { return "key" + std::to_string(static_cast<int>(key)); }

/// How many texts of all pages contain the part.
inline int countContaining(const std::vector<sheet::Sheet>& sheets, const std::string& part) {
  int count = 0;
  for (const sheet::Sheet& sheet : sheets) {
    for (const sheet::Text& text : textsOf(sheet)) count += text.text.find(part) != std::string::npos ? 1 : 0;
  }
  return count;
}

}  // namespace sunspool::sheet_test
