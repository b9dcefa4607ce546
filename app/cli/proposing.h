// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From a typed line to proposals, the same for the window and the terminal.

#include <QStringList>
#include <string_view>
#include <vector>

#include "app/format/format.h"
#include "core/propose/propose.h"

namespace sunspool::cli {

/// Reads the line and proposes panels of what it says, with the tubes of the catalogue as known ones (a catalogue that
/// cannot be read knows none). A design that still has firstPanel()'s name gets one of its own size and no note.
/// Errors of format::parseHave() and propose::proposals(). Pure but for the catalogue; callable from any thread.
Result<std::vector<propose::Proposal>> proposalsFor(std::string_view line, const model::Document& base);

/// Heat to the pool of each, with as many digits as it takes to tell it from its neighbours; empty where there is none.
QStringList heatTexts(const std::vector<propose::Proposal>& proposals, const format::Preferences& preferences);

}  // namespace sunspool::cli
