// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/gestures/gesture.h"

namespace sunspool::gestures {

/// Slides the feed along its rail or stile, away from the start corner. Clicks to 5 mm.
class ExitShift : public Gesture {
 public:
  QString key() const override { return QStringLiteral("feed_shift"); }
  QString name() const override;
  std::optional<Handle> handle(const Design& design) const override;
  double value(const Design& design) const override;
  double step() const override { return 0.005; }
  Edit edit(double value) const override;
  QString hint() const override;

 protected:
  double valueAt(geometry::Point hand) const override;
};

}  // namespace sunspool::gestures
