// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How much each uncertain input moves a number that is no part of flow, heat or loss (those stand in the results).

#include <string>
#include <vector>

#include "core/base/uncertain.h"
#include "core/model/document.h"

namespace sunspool::evaluate {

enum class MovedNumber {
  CollapseRadius,  ///< of the tube [m]
  TubeLength,      ///< as laid by hand [m]
  Water,           ///< in the runs [m3]
  StoppedTube,     ///< dry tube with the pump off [K]
  Uplift           ///< of the gust on one panel [N]; nothing moves it while no gust is entered
};
struct MovedBy {
  std::string input;  ///< JSON pointer
  Sureness sureness = Sureness::Guess;
  double half_si = 0.0;  ///< half-width it contributes, > 0
};
/// Each stored spread alone, up and down, half the difference; the side that is possible where the other is not.
/// Largest first; inputs that move nothing are left out, and all are when the number cannot be reckoned.
std::vector<MovedBy> movedBy(const model::Document& document, MovedNumber number);

}  // namespace sunspool::evaluate
