// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/geometry/path.h"

namespace sunspool::layout::detail {

/// How far one can go from `from` along the unit vector `along` until the piece is only `keep_m` away; infinity when
/// that never happens. The start is taken to be at least keep_m away; grazing does not count. [m]
double firstApproach(geometry::Point from, geometry::Point along, const geometry::Piece& piece, double keep_m);

}  // namespace sunspool::layout::detail
