// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The bead on the Tape: its frame, the hairline through the strips and what each strip reads there.

#include "app/tape/canvas.h"

namespace sunspool::tape {

struct Here {
  double station_m = 0.0;
  QString typed;    ///< a metre being typed
  QString refusal;  ///< why the typed metre was not taken
};
void drawHere(const Canvas& canvas, const Here& here);
/// What changes when the bead moves, without its reading in the left column.
QRectF hereRect(const Canvas& canvas, const Here& here);

}  // namespace sunspool::tape
