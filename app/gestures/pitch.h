// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/gestures/gesture.h"

namespace sunspool::gestures {

/// The gap between two neighbouring turns follows the hand; the outermost turn stays. Clicks to 0.5 mm.
class Pitch : public Gesture {
 public:
  QString key() const override { return QStringLiteral("pitch"); }
  QString name() const override;
  std::optional<Handle> handle(const Design& design) const override;
  double value(const Design& design) const override;
  double step() const override { return 0.0005; }
  Edit edit(double value) const override;
  QString hint() const override;

 protected:
  void prepare() override;
  double valueAt(geometry::Point hand) const override;

 private:
  double m_gapsBelow = 1.0;  ///< pitches between the outermost turn and the handle
  geometry::Point m_along;
};

/// Places where the turns cross a line through the middle of the panel, from the border inwards; what the pitch
/// handle stands on. Empty when fewer than two turns cross.
struct TurnRow {
  std::vector<double> offsets_m;  ///< from the inside face
  bool across = false;            ///< true: along x from the left, false: along y from the bottom
};
TurnRow turnRow(const Design& design);

}  // namespace sunspool::gestures
