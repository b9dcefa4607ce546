// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace sunspool::desktop {

/// Opens the window on the project named in the arguments, or on the finished small panel, and runs until it closes.
/// Returns the program's exit code. Needs a QApplication.
int openWorkbench(const std::vector<std::string>& arguments);

}  // namespace sunspool::desktop
