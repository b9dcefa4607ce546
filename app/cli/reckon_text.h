// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <vector>

#include "app/format/format.h"
#include "core/model/document.h"
#include "core/remedies/remedies.h"
#include "core/results/results.h"

namespace sunspool::cli {

/// All answers as lines a person reads, widths fitted to the text.
std::string reckonText(const model::Document& document, const results::Results& results,
                       const format::Preferences& preferences);
/// The findings, numbered, four lines each; "Nothing found." without any.
/// @param remedies of each finding, printed with their prices below it; empty: none are printed
std::string snagsText(const model::Document& document, const results::Results& results,
                      const format::Preferences& preferences,
                      std::span<const std::vector<remedies::Remedy>> remedies = {});

}  // namespace sunspool::cli
