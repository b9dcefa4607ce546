// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Edits of what stands before the sun. Pure, as all edits: a refused one returns the error and changes nothing.

#include <cstddef>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::model {

/// Puts the obstacle in the place of the one of this index; the index after the last adds it.
/// MissingKey for an index beyond that, else as validate().
Result<Document> withObstacle(Document document, std::size_t index, Obstacle obstacle);
/// MissingKey when there is none of this index.
Result<Document> withoutObstacle(Document document, std::size_t index);

}  // namespace sunspool::model
