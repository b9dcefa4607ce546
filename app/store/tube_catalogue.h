// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/model/document.h"

namespace sunspool::store {

/// The tubes of the catalogue that comes with the program, read once; empty when the file is missing.
const std::vector<model::Tube>& catalogueTubes();

}  // namespace sunspool::store
