// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The upright axis of a strip, in the reader's unit.

#include <QRectF>
#include <QString>
#include <vector>

namespace sunspool::tape {

struct Axis {
  double low = 0.0, high = 1.0;  ///< at the lower and upper edge of the strip, low < high
  double step = 1.0;
  std::vector<double> marks;  ///< whole steps, rising

  double y(const QRectF& strip, double value) const {
    return strip.bottom() - (value - low) / (high - low) * strip.height();
  }
  /// "24", "24.5", with a true minus.
  QString text(double mark) const;
};
/// Steps of 1, 2 or 5 times a power of ten, rounded out so that the values lie between two marks.
/// @param most  marks, at least 2
Axis axisFor(double least, double largest, int most);

}  // namespace sunspool::tape
