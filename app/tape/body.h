// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The tube itself, unrolled and printed, and the row of marks over it.

#include "app/tape/canvas.h"

namespace sunspool::tape {

void drawMarksRow(const Canvas& canvas);
void drawBody(const Canvas& canvas);
/// The place of the tube that cannot be laid, and why.
void drawNoTube(const Canvas& canvas);
/// Size of the words about the rest of the roll, for the placement.
double restWordsWidth(const render::Tokens& tokens, const Placement& place, const QString& words);

}  // namespace sunspool::tape
