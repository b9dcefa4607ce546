// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/model/document.h"

namespace sunspool::model {

/// The panel a new project starts from, and the sample first-panel.sunspool: 1180 x 2340 mm inside, one
/// rectangular spiral of 20/16 mm low-density polyethylene on a dark sheet under twin-wall glazing, for a round
/// pool of 9.16 m^3 in Porto. Every value the builder has not measured says "guess" or "label".
Document firstPanel();

/// 20/16 mm low-density polyethylene irrigation tube, the entry "ldpe-20-16" of the catalogue to the last value.
Tube lowDensityPolyethylene20x16();

/// Twin-wall polycarbonate, 10 mm: what an open panel gets when it is to be glazed. Its transmittance, 0.74 with a
/// spread of 0.05, is a guess at the middle of what is published for multi-skin sheet.
Glazing twinWallPolycarbonate();

}  // namespace sunspool::model
