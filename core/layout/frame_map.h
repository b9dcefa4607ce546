// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/layout/inner_run.h"

namespace sunspool::layout::detail {

/// From recipe coordinates to the panel's. Internal to the layout module.
struct FrameMap {
  double insideWidth_m = 0.0;
  double insideHeight_m = 0.0;
  double faceGap_m = 0.0;
  bool transposed = false;  ///< recipe x runs up the slope
  bool fromRight = false;
  bool fromTop = false;

  geometry::Point point(geometry::Point p) const;
  geometry::Piece piece(const geometry::Piece& piece) const;
  Side side(Side side) const;
};

}  // namespace sunspool::layout::detail
