// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Laying tube from one roll until it is empty.

#include <cstddef>

#include "core/layout/layout.h"

namespace sunspool::layout {

struct LaidFromRoll {
  model::Document document;  ///< with the roll's tube and the turns set
  int quarterTurns = 0;      ///< sides (passes) of each run
  bool tubeChanged = false;  ///< the roll's diameters were not those of the design
  bool panelFull = false;    ///< the roll would hold more, the panel does not
  Length cut;                ///< of the runs of one panel, as drawn
  Length left;               ///< on the roll afterwards, as drawn
  Length leftAtLeast;        ///< the same at the bad end of wobble and of the roll's own length
};

/// The document with the most quarter turns that one roll of its stock holds, tails and crossings included: the runs of
/// one panel are cut from one roll (panels alike take one such roll each). Drawn length times 1 + wobble, and the
/// spreads of wobble and of the roll's length added as squares, have to fit.
/// Where the roll names diameters other than the design's, they become the tube's, from the label; the tube is then one
/// of the builder's own and an offcut's bend test no longer speaks of it.
///
/// Errors: MissingKey when there is no such roll (`where` "/stock/rolls"); RollTooShort (detail its name; facts
/// "needed" for one turn, which is two passes of a serpentine, and "length" on the roll); InsideNotBelowOutside; those
/// of lay() when nothing can be laid at all.
Result<LaidFromRoll> layFromRoll(const model::Document& document, std::size_t roll);

}  // namespace sunspool::layout
