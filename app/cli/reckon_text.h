// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "app/format/format.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::cli {

/// All answers as lines a person reads, widths fitted to the text.
std::string reckonText(const model::Document& document, const results::Results& results,
                       const format::Preferences& preferences);
/// The findings, numbered, four lines each; "Nothing found." without any.
std::string snagsText(const model::Document& document, const results::Results& results,
                      const format::Preferences& preferences);

}  // namespace sunspool::cli
