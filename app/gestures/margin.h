// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/gestures/gesture.h"

namespace sunspool::gestures {

/// The gap between the top rail and the outermost turn; the same gap all round. Clicks to 1 mm.
class Margin : public Gesture {
 public:
  QString key() const override { return QStringLiteral("margin"); }
  QString name() const override;
  std::optional<Handle> handle(const Design& design) const override;
  double value(const Design& design) const override;
  double step() const override { return 0.001; }
  Edit edit(double value) const override;
  QString hint() const override;

 protected:
  double valueAt(geometry::Point hand) const override;
};

}  // namespace sunspool::gestures
