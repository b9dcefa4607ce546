// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Results for machines. Keys carry their unit and stand in a fixed order; the same results give the same bytes.

#include <string>

#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::io {

/// Everything that evaluate() found, as `sunspool reckon --json` prints it. Top level: "format" "sunspool-results",
/// "version" 1, "project", then "layout", "tube_length", "water", "bends", "depth", "masses", "sun", "flow", "heat",
/// "stopped", "profiles", "tube_cuts", "timber_cuts", "sheet_cuts" (by layer), "holes", "wind" (null: no gust entered),
/// "buying", "influences", "snags".
/// SI, but degrees and degrees Celsius ("deg", "C"). A value with a range is {"value_m", "low_m", "high_m"}. A part
/// that failed is {"error": code, "where", "detail", "facts": [...]}. A price that is not known is null. Runs are named
/// by their letter. A number that is not finite would be null; no module lets one out.
std::string writeResults(const model::Document& document, const results::Results& results);

/// The snags alone, as `sunspool check --json` prints them: "format" "sunspool-snags", "version" 1, "project",
/// "snags", each on one line: "key" (under which it can be left), "code", "state", "left_because", "places",
/// "measured", "limit", "cost", "why", "source".
std::string writeSnags(const model::Document& document, const results::Results& results);

}  // namespace sunspool::io
