// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Reading a typed quantity: number, optional unit, sums and products. No Qt, so that it can be fuzzed and
// used by the terminal. Point and comma are both decimal marks; grouping is never guessed.

#include <string_view>

#include "core/base/result.h"

namespace sunspool::format {

/// "26", "2.6 cm", "1 3/16 in", "7 ft 10 1/2", "3*40 mm", "25 L/min", "30 °C", "12,5", "1 200 mm" with thin spaces.
///
///   sum      = [sign] product { sign product }           a second sign in a row ("16 +- 1") is refused
///   product  = quantity { ("*" | "x" | "/") quantity }   at most one factor carries a unit
///   quantity = number [unit [number unit]]               "2 h 30 min"; after feet the second unit may be left out:
///   inches number   = 12 | 1.5 | 1,5 | 1e-6 | 3/16 | 1 3/16 | 1½
///
/// A bare number of a sum is in `bareUnit`. A sum of temperatures is a temperature plus differences; temperatures are
/// not multiplied. "7'-10"" (feet mark, hyphen, inches) is read as the drawings write it: 7 ft 10 in; "1-3/16" is
/// refused because it could mean two things. Unit names are read in any case unless that would change the meaning
/// (MPa).
/// @param bareUnit the unit a bare number is in, e.g. "mm"; must be a unit of `dimension`. Empty for Count, None and
///   Percent (then a bare number is a percentage). For Money the currency, which may also be typed.
/// @return SI value (kelvin for Temperature, radians for Angle, metres of water for Head, a share for Percent: "5 %" is
///   0.05); always finite. BadNumber, BadUnit, AmbiguousUnit ("gal": US or imperial?), with `where` = the text as typed
///   and `detail` = the part that was not understood.
Result<double> parseQuantity(std::string_view text, Dimension dimension, std::string_view bareUnit);

/// Whether `unit` names one unit of the dimension, i.e. may be a `bareUnit`.
bool isUnitOf(std::string_view unit, Dimension dimension);

}  // namespace sunspool::format
