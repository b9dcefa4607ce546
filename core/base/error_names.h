// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "core/base/result.h"

namespace sunspool {

/// Stable word of a failure, as it stands in the terminal's JSON: "pump_never_starts".
std::string_view codeName(ErrorCode code);

/// Unit in which a Fact's value stands in JSON, as a suffix of the key: "m3_s" for a volume flow, "C" for a
/// temperature; "share" for Percent (0 to 1); empty for None and Count.
std::string_view unitSuffix(Dimension dimension);

}  // namespace sunspool
