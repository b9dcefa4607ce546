// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The handbook calculators: each topic names its inputs and answers through the very functions the engine uses.

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace sunspool::calc {

struct Input {
  std::string_view key;  ///< with unit, as in files: "inside_diameter_m", "water_C", "tilt_deg"
  Dimension dimension;
  std::string_view
      bareUnit;  ///< unit of a bare number, as the quantity parser spells it: "m", "°C", "deg"; "" for plain numbers
  std::optional<double> standard;  ///< in the key's unit; nullopt = must be given
  std::string_view meaning;        ///< short noun phrase, lower case; a key for translation
};
struct Output {
  std::string key;     ///< with unit
  double value = 0.0;  ///< in the key's unit
};
struct Answer {
  std::vector<Output> outputs;
  std::string formula;   ///< as text, plain ASCII
  std::string source;    ///< bibliography key with equation or table
  std::string validity;  ///< range in words and numbers; empty = all
};
using Values = std::map<std::string, double, std::less<>>;  ///< key -> value in the key's unit

struct Topic {
  std::string_view name;  ///< "friction", "coil-friction", ...
  std::string_view what;  ///< one line
  std::vector<Input> inputs;
  std::vector<std::string_view> outputs;
  Result<Answer> (*answer)(const Values&);
};
std::span<const Topic> topics();
/// Fills defaults, refuses unknown and missing keys (UnknownWord, MissingKey with where = topic), calls the topic.
Result<Answer> calculate(std::string_view topic, const Values& given);

}  // namespace sunspool::calc
