// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The handbook calculators: each topic names its inputs and answers through the very functions the engine uses.
// No formula stands in this module, only the way from a key's unit to the quantity types and back.

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
  std::string_view bareUnit;  ///< unit of a bare number, as the quantity parser spells it: "m", "°C", "deg"; "" for
                              ///< plain numbers and for units no parser knows ("density_kg_m3")
  std::optional<double> standard;  ///< in the key's unit; nullopt = must be given
  std::string_view meaning;        ///< short noun phrase, lower case; a key for translation
  double lowest = 0.0;             ///< in the key's unit, itself allowed
  double highest = 0.0;            ///< in the key's unit, itself allowed
};
struct Output {
  std::string key;     ///< with unit
  double value = 0.0;  ///< in the key's unit, finite
};
struct Answer {
  std::vector<Output> outputs;
  std::string formula;   ///< as text, plain ASCII
  std::string source;    ///< bibliography keys in brackets with equation or table
  std::string validity;  ///< range in words and numbers; empty = all
};
using Values = std::map<std::string, double, std::less<>>;  ///< key -> value in the key's unit

struct Topic {
  std::string_view name;  ///< "friction", "coil-friction", ...
  std::string_view what;  ///< one line
  std::vector<Input> inputs;
  std::vector<std::string_view> outputs;
  Result<Answer> (*answer)(const Values&);  ///< the outputs alone, from checked values; ask calculate() instead
  std::string_view formula, source, validity;
};
/// All topics, by field. Names are unique.
std::span<const Topic> topics();
/// nullptr for a name that is none.
const Topic* findTopic(std::string_view name);

/// Fills defaults, refuses what cannot be asked, calls the topic.
/// @return UnknownTopic (where = the name); UnknownWord and MissingKey (where = topic, detail = key; of UnknownWord the
///         facts name the known keys); where = "/" + key: OutOfRange (facts "value", "lowest", "highest"), NotFinite,
///         and WrongType (fact "expected_whole_number") for a broken count; else the errors of the engine's function.
///         NotFinite (where = topic) when a number would not be finite.
Result<Answer> calculate(std::string_view topic, const Values& given);

}  // namespace sunspool::calc
