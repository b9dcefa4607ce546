// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How the functions of this module refuse a number: OutOfRange with the offending value and the range it left.

#include <cmath>
#include <initializer_list>
#include <optional>
#include <string>

#include "core/base/result.h"

namespace sunspool::thermal {

/// One input with the range it must lie in, both ends included.
struct Bounded {
  const char* name;
  double value;
  double lowest;
  double highest;
  Dimension dimension = Dimension::None;
};

/// OutOfRange names the first value outside its range (or not a number): detail = its name, facts "value", "lowest",
/// "highest". nullopt when all are inside.
inline std::optional<Error> outside(const std::string& where, std::initializer_list<Bounded> inputs) {
  for (const Bounded& input : inputs) {
    if (input.value >= input.lowest && input.value <= input.highest) continue;
    return Error{ErrorCode::OutOfRange,
                 where,
                 input.name,
                 {{"value", input.value, input.dimension},
                  {"lowest", input.lowest, input.dimension},
                  {"highest", input.highest, input.dimension}}};
  }
  return std::nullopt;
}

/// The last door of a formula: NotFinite instead of a NaN or an infinity.
inline Result<double> finite(const std::string& where, double value) {
  if (std::isfinite(value)) return value;
  return Error{ErrorCode::NotFinite, where, {}, {}};
}

}  // namespace sunspool::thermal
