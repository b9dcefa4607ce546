// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Numbers as text for files and machines: '.' as decimal point in every locale, no grouping.

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace sunspool {

/// The fewest digits that read back as exactly this double ("0.016", "400000", "1e-12"); without exponent from 1e-7
/// up to 1e15, as a person would write it. Minus zero gives "0".
/// A value that is not finite gives "nan", "inf" or "-inf", which parseNumber refuses.
std::string numberText(double value);

/// The double nearest to the text. The whole text must be one number as JSON spells it or simpler: optional
/// minus, digits with at most one '.', optional exponent. BadNumber with the text as detail otherwise (blank,
/// comma, leading plus, nan and inf included); OutOfRange when its size is beyond a double.
Result<double> parseNumber(std::string_view text);

}  // namespace sunspool
