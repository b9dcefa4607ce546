// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace sunspool::tape {

/// Lets screen readers take the Tape for a slider along the metres. Called by every Tape; does its work once.
void installAccessibility();

}  // namespace sunspool::tape
