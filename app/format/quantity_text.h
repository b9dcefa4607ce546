// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Reading a typed quantity: number, optional unit, sums and products. No Qt, so that it can be fuzzed and
// used by the terminal. Point and comma are both decimal marks; grouping is never guessed.

#include <string_view>

#include "core/base/result.h"

namespace sunspool::format {

/// "26", "2.6 cm", "1 3/16 in", "7 ft 10 1/2", "3*40 mm", "25 L/min", "30 °C", "12,5".
/// @param bareUnit the unit a bare number is in, e.g. "mm"; must be a unit of `dimension`
/// @return SI value (kelvin for Temperature, radians for Angle, metres of water for Head). BadNumber, BadUnit, AmbiguousUnit
///   ("gal": US or imperial?), with `where` = the text as typed and `detail` = the part that was not understood.
Result<double> parseQuantity(std::string_view text, Dimension dimension, std::string_view bareUnit);

}  // namespace sunspool::format
