// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The left column: the pump that feeds metre 0, the readings of bead and sun, the runs to choose from.

#include <QRectF>
#include <vector>

#include "app/tape/canvas.h"

namespace sunspool::tape {

void drawPump(const Canvas& canvas);
void drawSunReading(const Canvas& canvas);
void drawBeadReading(const Canvas& canvas, double station_m);
void drawRunChooser(const Canvas& canvas);

/// Where a press pulls or pushes the plug; empty when there is no room for it.
QRectF plugRect(const render::Tokens& tokens, const Placement& place);
/// One target a run, none for a single run.
std::vector<QRectF> runTargets(const render::Tokens& tokens, const Placement& place, int runs);
/// Else the bead carries its metre as a flag.
bool beadReadingFits(const render::Tokens& tokens, const Placement& place);
/// Where the flow stands in the pump's outlet.
QRectF flowReadingRect(const Canvas& canvas);
/// What changes when the bead moves.
QRectF beadReadingRect(const render::Tokens& tokens, const Placement& place);

}  // namespace sunspool::tape
