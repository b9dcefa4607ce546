// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::checks {

/// All findings about a computed design, sorted by the cost of ignoring them: snags before close ones before the
/// unknown, dearer before cheaper, then in the order of SnagCode. Reasons the builder left stand in leftBecause.
/// A part that could not be computed gives no finding here; its Error stands in the results.
std::vector<Snag> check(const model::Document& document, const results::Results& results);

}  // namespace sunspool::checks
