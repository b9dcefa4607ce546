// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/obstacle_edits.h"

#include <string>
#include <utility>

#include "core/model/validate.h"

namespace sunspool::model {
namespace {

Error noneOfThisIndex(std::size_t index) {
  return {ErrorCode::MissingKey, "/obstacles/" + std::to_string(index), "obstacle", {}};
}

}  // namespace

Result<Document> withObstacle(Document document, std::size_t index, Obstacle obstacle) {
  if (index > document.obstacles.size()) return noneOfThisIndex(index);
  if (index == document.obstacles.size()) {
    document.obstacles.push_back(std::move(obstacle));
  } else {
    document.obstacles[index] = std::move(obstacle);
  }
  if (const Result<Done> valid = validate(document); !valid) return valid.error();
  return document;
}

Result<Document> withoutObstacle(Document document, std::size_t index) {
  if (index >= document.obstacles.size()) return noneOfThisIndex(index);
  document.obstacles.erase(document.obstacles.begin() + static_cast<std::ptrdiff_t>(index));
  return document;
}

}  // namespace sunspool::model
