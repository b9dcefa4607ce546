// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Root of a continuous function between two ends of opposite sign.

#include <cmath>

namespace sunspool::thermal {

struct Root {
  double x = 0.0;
  double value = 0.0;  ///< of the function there
  int iterations = 0;
  bool found = false;  ///< false: no sign change, not a number, or out of steps
};

/// Regula falsi with the Illinois weight, and a bisection step whenever the bracket shrinks too slowly.
/// Ends when the bracket is narrower than `width` or the function is exactly 0.
template <class Function>
Root findRoot(Function&& function, double low, double high, double width) {
  double atLow = function(low), atHigh = function(high);
  if (atLow == 0.0) return {low, 0.0, 0, true};
  if (atHigh == 0.0) return {high, 0.0, 0, true};
  if (!(atLow * atHigh < 0.0)) return {};
  double previousWidth = high - low;
  int kept = 0;  // which end stayed: -1 low, +1 high
  for (int n = 1; n <= 200; ++n) {
    double x = (low * atHigh - high * atLow) / (atHigh - atLow);
    const bool slow = n % 3 == 0 && high - low > 0.5 * previousWidth;
    if (slow || !(x > low && x < high)) x = 0.5 * (low + high);
    if (n % 3 == 0) previousWidth = high - low;
    const double value = function(x);
    if (!std::isfinite(value)) return {};
    if (value == 0.0 || high - low < width) return {x, value, n, true};
    if (value * atLow > 0.0) {
      low = x, atLow = value;
      if (kept == 1) atHigh *= 0.5;
      kept = 1;
    } else {
      high = x, atHigh = value;
      if (kept == -1) atLow *= 0.5;
      kept = -1;
    }
  }
  return {};
}

}  // namespace sunspool::thermal
