// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From what somebody has to a legal panel.

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::propose {

/// What lies in somebody's shed, as far as it was said. At least a sheet or a roll.
struct Have {
  struct Sheet {
    std::optional<model::SheetUse> use;  ///< nullopt: not said; the plate then
    Length width, height;
    int count = 1;
  };
  struct Roll {
    Length length;
    std::optional<Length> outsideDiameter, insideDiameter;  ///< nullopt: the design's tube
    int count = 1;
  };
  struct Board {
    Length length;
    std::optional<Length> width, depth;
    int count = 1;
  };
  std::vector<Sheet> sheets;
  std::vector<Roll> rolls;
  std::vector<Board> boards;
  std::optional<model::Pump> pump;
  std::optional<Volume> pool;
};

/// One way to make a panel of it.
struct Proposal {
  model::Document design;    ///< legal; what is had stands in its Shed as owned
  results::Results results;  ///< without ranges
  Length tubeLeft;           ///< on the owned rolls after cutting
  std::string limitedBy;     ///< "roll", "sheet", "pump": what keeps it from being larger
};

/// Up to three proposals, the warmest first, each without an open Snag of bends, room, flow or stock as far as that is
/// possible; the rest of the design (pool, place, day) as in `base`.
/// Errors: NotUnderstood when nothing is had; RegionTooNarrow and its kind when no legal panel can be made of it, with
/// what binds.
Result<std::vector<Proposal>> proposals(const Have& have, const model::Document& base);

}  // namespace sunspool::propose
