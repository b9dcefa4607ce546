// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the sheets of core/sheet say, in words.

#include <span>
#include <string>

#include "app/format/format.h"
#include "core/sheet/texts.h"

namespace sunspool::format {

/// The text of one key with its facts filled in. Money facts are in `currency`.
std::string sheetText(sheet::TextKey key, std::span<const Fact> facts, const std::string& currency,
                      const Preferences& preferences);
/// All texts a sheet asks for; textWidth_mm is left to whoever paints.
sheet::Texts sheetTexts(const model::Document& document, const Preferences& preferences);
QString dateText(const model::Moment& moment);  ///< "21 June 2025, 12:00"

}  // namespace sunspool::format
