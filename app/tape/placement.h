// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Where everything of the Tape stands for a size of the window.

#include <QRectF>
#include <QSize>

#include "app/render/tokens.h"

namespace sunspool::tape {

/// Below 1600 px, or where the large set is too high for its place, the small set of sizes is used.
enum class SizeSet { Small, Large };

struct Placement {
  QSize size;
  SizeSet set = SizeSet::Large;
  double side = 0.0;               ///< width of the left column
  double left = 0.0, right = 0.0;  ///< of the ruler: metre 0, and where the roll's words end
  double perMetre = 1.0;
  double end = 0.0;        ///< x of the end of the tube
  double rollEnd = 0.0;    ///< x of the end of the rest of the roll
  bool rollIsCut = false;  ///< the rest of the roll is drawn shorter than it is
  double bodyScale = 1.0;  ///< below 1 where even the tube and the pump are too high at this size of text
  QRectF bend, water, waterLine, marks, body;  ///< folded away: no height; x from left to end

  bool isLarge() const { return set == SizeSet::Large; }
  double x(double station_m) const { return left + station_m * perMetre; }
  double station(double at) const { return (at - left) / perMetre; }
};

struct Wanted {
  QSize size;
  double side = 372.0;
  double tube_m = 1.0;     ///< > 0
  double rest_m = 0.0;     ///< on the roll
  double restWords = 0.0;  ///< width of its words
};
Placement placementFor(const Wanted& wanted, const render::Tokens& tokens);

/// Height the Tape likes to have. [px]
int preferredHeight(int width, const render::Tokens& tokens);

}  // namespace sunspool::tape
