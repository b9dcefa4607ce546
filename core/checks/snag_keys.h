// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "core/base/snag.h"

namespace sunspool::checks {

/// Stable word of a finding, as it stands in files and in the terminal's JSON: "bend_collapses".
std::string_view codeKey(SnagCode code);
/// "close", "snag", "not_known".
std::string_view stateKey(SnagState state);
/// Key under which one finding is left on purpose: code and part or run, e.g. "bend_close/A", "limit/glazing".
std::string snagKey(const Snag& snag);

}  // namespace sunspool::checks
