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
/// An axis that just holds the values, marked at steps of 1, 2 or 5 times a power of ten. Values that lie within one
/// step get an axis of that whole step, so that there are always two marks.
/// @param most  marks, at least 3
Axis axisFor(double least, double largest, int most);

}  // namespace sunspool::tape
