// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Part of propose: what is had, put into a design before anything is laid.

#include <span>
#include <vector>

#include "core/propose/propose.h"

namespace sunspool::propose {

/// A design whose frame, box, tube, pump and Shed follow from what is had; how it is laid is still open.
struct Starting {
  model::Document design;
  std::vector<double> rolls_m;  ///< usable length of each owned roll of this tube; empty: tube is bought as needed
  bool sizedBySheet = false;    ///< else the frame may be scaled to the roll
  bool boardsBind = false;
};

/// One for each tube and number of panels worth trying. Errors as proposals().
Result<std::vector<Starting>> startings(const Have& have, const model::Document& base,
                                        std::span<const model::Tube> knownTubes);

}  // namespace sunspool::propose
