// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/axis.h"

#include <algorithm>
#include <cmath>

namespace sunspool::tape {

namespace {
constexpr double kSmallestStep = 0.1;
constexpr double kEdgeShare = 0.09;  ///< of the axis, free above and below the values
constexpr double kReach = 0.05;      ///< a mark may stand this share of a step beyond the values
}  // namespace

QString Axis::text(double mark) const {
  const int decimals = step < 1.0 ? 1 : 0;
  const QString digits = QString::number(std::abs(mark), 'f', decimals);
  const bool negative = mark < -0.5 * std::pow(10.0, -decimals);
  return negative ? QChar(0x2212) + digits : digits;
}

Axis axisFor(double least, double largest, int most) {
  Axis axis;
  for (double decade = kSmallestStep;; decade *= 10.0) {
    for (const double part : {1.0, 2.0, 5.0}) {
      const double step = part * decade;
      double first = std::ceil(least / step - kReach), last = std::floor(largest / step + kReach);
      if (last - first + 1.0 > most) continue;
      double low = least, high = largest;
      if (last - first < 1.0) {
        first = std::floor(least / step);
        last = std::max(first + 1.0, std::ceil(largest / step));
        low = first * step;
        high = last * step;
      }
      axis.step = step;
      for (double i = first; i <= last; i += 1.0) axis.marks.push_back(i * step);
      const double edge = kEdgeShare * (high - low);
      axis.low = std::min(low, first * step) - edge;
      axis.high = std::max(high, last * step) + edge;
      return axis;
    }
  }
}

}  // namespace sunspool::tape
