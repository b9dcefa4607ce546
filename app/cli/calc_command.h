// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace sunspool::cli {

/// `calc --list`: topics with inputs, units, outputs, source. Returns an exit code.
int listTopics(bool json, std::ostream& out);
/// `calc TOPIC name=value ...`. Values may carry a unit; a bare number is in the unit of its key.
int calculate(const std::string& topic, const std::vector<std::string>& values, bool json, std::ostream& out,
              std::ostream& err);

}  // namespace sunspool::cli
