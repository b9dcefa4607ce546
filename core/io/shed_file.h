// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A Shed of one's own, kept between projects: a JSON text in the manner of the project file, with the same keys as its
// "stock".

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::io {

inline constexpr int kShedVersion = 1;

struct OwnShed {
  model::Stock stock;
  std::vector<model::UnknownKey> unknownKeys;  ///< pointers from the top of the file: "/rolls/0"
  /// Written by a newer program: what is known here was read. Not to be written over.
  bool newerVersion = false;
  bool operator==(const OwnShed&) const = default;
};

/// Reads a text of format "sunspool-shed". Errors as readDocument(): DamagedText, NotAProject (another format, or
/// empty), NewerVersion, MissingKey, DuplicateKey, WrongType, UnknownWord, and those of model::validate() for a stock.
Result<OwnShed> readShed(std::string_view text);

/// writeShed(readShed(t)) == t for every t that writeShed made.
std::string writeShed(const OwnShed& shed);

}  // namespace sunspool::io
