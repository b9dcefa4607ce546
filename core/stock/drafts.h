// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Good plans found without search, to start from and to fall back on.

#include "core/stock/packing.h"
#include "core/stock/problem.h"

namespace sunspool::stock {

struct Draft {
  std::vector<Bin> bins;
  Supply bought;
  Cost cost = kUnlimitedCost;  ///< kUnlimitedCost: no plan found
};

bool isEmpty(const Bin& bin);
/// First fit by falling size, owned lengths first, with each kind on sale as the preferred one; the cheapest of these.
Draft firstFitDraft(const Problem& problem);
/// Takes whole patterns off the fractional plan, again and again, until all is cut. [GilmoreGomory1961], rounded.
Draft roundedDraft(const Problem& problem);

}  // namespace sunspool::stock
