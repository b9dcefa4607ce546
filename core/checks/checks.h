// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::checks {

/// What a cost comes to in the project's money, so that heat and things can be ranked beside each other; 0 when nothing
/// is known. Used for order alone, never printed.
/// Assumption: a watt lost at the hour looked at is worth 0.1 of the project's money: a season of 700 hours with as
/// much sun, 0.15 for the kilowatt-hour that would have been bought instead, the currency about a euro.
double moneyEquivalent(const Fact& cost);

/// All findings about a computed design, sorted by the cost of ignoring them: open before left with a reason, snags
/// before close ones before the unknown, what can hurt people (scald, steam, a panel in the wind) before what costs
/// things, dearer before cheaper by moneyEquivalent(), then in the order of SnagCode. Reasons stand in leftBecause.
/// A part that could not be computed gives no finding here; its Error stands in the results.
std::vector<Snag> check(const model::Document& document, const results::Results& results);

}  // namespace sunspool::checks
