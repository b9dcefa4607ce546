// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <iosfwd>
#include <string>

#include "app/format/format.h"

namespace sunspool::cli {

struct LayOptions {
  std::string line;     ///< what somebody has
  std::string from;     ///< project whose place, pool and pump stay; empty: the first panel's
  std::string outFile;  ///< empty: nothing is written
  int take = 1;         ///< which proposal is written
  bool json = false;
  format::Preferences preferences;
};

/// `sunspool lay "sheet 1.2 x 2.4 m, roll 100 m of 20/16" -o FILE`: up to three panels, the warmest first; the one
/// taken is written. Exit codes of cli.h; kFindings when nothing legal can be made of what was said.
///
/// --json: {"format": "sunspool-proposals", "version": 1, "proposals": [{"panels_alike", "inside_width_m",
/// "inside_height_m", "runs", "pitch_m", "bend_radius_m", "tube_m" (all panels), "tube_left_m", "heat_W", "flow_m3_s",
/// "money", "prices_to_ask", "limited_by": "sheet" | "roll" | "boards", "project": {...}}]}; what is not known is null.
int lay(const LayOptions& options, std::ostream& out, std::ostream& err);

}  // namespace sunspool::cli
