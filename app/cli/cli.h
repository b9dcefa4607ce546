// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace sunspool::cli {

/// Exit codes of every subcommand.
enum ExitCode { kFine = 0, kFindings = 1, kUsage = 2, kFailure = 3 };

/// Whether these arguments ask for the terminal program (a subcommand, --help, --version) rather than the window.
bool isForTerminal(const std::vector<std::string>& arguments);

/// Runs one subcommand: results on out, messages on err. `arguments` without the program's own name.
/// Needs a QGuiApplication only for `sheets`.
int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err);

}  // namespace sunspool::cli
