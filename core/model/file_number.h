// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Degrees and degrees Celsius in the file against radians and kelvin in memory, without a drift of last digits.
// For .cpp files of model and io.

#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include "core/model/fields.h"

namespace sunspool::model {

/// The double in the unit of the file, with the fewest digits, that converts to exactly the held value: 20.1 C is
/// held as 293.25 K, from which a plain subtraction would give 20.10000000000002. nullopt where no double of the
/// file's unit converts to it (about one in ten of arbitrary radians).
template <class Q>
std::optional<double> exactFileNumber(Q held) {
  const double plain = toFileUnit(held);
  if (!std::isfinite(plain)) return std::nullopt;
  std::array<char, 32> digits{};
  for (int precision = 0; precision < 17; ++precision) {
    const auto end =
        std::to_chars(digits.data(), digits.data() + digits.size(), plain, std::chars_format::scientific, precision);
    double candidate = 0.0;
    std::from_chars(digits.data(), end.ptr, candidate);
    if (fromFileUnit<Q>(candidate) == held) return candidate;
  }
  double below = plain;
  double above = plain;
  for (int step = 0; step < 3; ++step) {
    below = std::nextafter(below, -HUGE_VAL);
    above = std::nextafter(above, HUGE_VAL);
    if (fromFileUnit<Q>(below) == held) return below;
    if (fromFileUnit<Q>(above) == held) return above;
  }
  return std::nullopt;
}

/// The value itself, or its neighbour that a number in the file can express. settled(settled(x)) == settled(x).
template <class Q>
Q settled(Q held) {
  const double plain = toFileUnit(held);
  const Q neighbour = fromFileUnit<Q>(plain);
  return neighbour == held || exactFileNumber(held) ? held : neighbour;
}

}  // namespace sunspool::model
