// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"

#include <array>
#include <charconv>
#include <cmath>

namespace sunspool {

std::string numberText(double value) {
  if (value == 0.0) return "0";
  std::array<char, 32> buffer{};  // the longest of both forms has 25 characters
  const double size = std::fabs(value);
  const auto form = size >= 1e-7 && size < 1e15 ? std::chars_format::fixed : std::chars_format::scientific;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, form);
  return {buffer.data(), end.ptr};
}

Result<double> parseNumber(std::string_view text) {
  double value = 0.0;
  const char* const last = text.data() + text.size();
  const auto end = std::from_chars(text.data(), last, value, std::chars_format::general);
  if (end.ec == std::errc::result_out_of_range && end.ptr == last) {
    return Error{ErrorCode::OutOfRange, {}, std::string(text), {}};
  }
  if (end.ec != std::errc{} || end.ptr != last || !std::isfinite(value)) {
    return Error{ErrorCode::BadNumber, {}, std::string(text), {}};
  }
  return value;
}

}  // namespace sunspool
