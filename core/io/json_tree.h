// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// JSON text as a tree that keeps number tokens as they were written and the order of keys. For .cpp files of io.

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace sunspool::io {

inline constexpr int kDeepestNesting = 64;

enum class JsonKind { Null, False, True, Number, Text, List, Object };

struct JsonMember;
struct JsonNode {
  JsonKind kind = JsonKind::Null;
  std::string text;  ///< of a text, or the token of a number
  std::vector<JsonNode> items;
  std::vector<JsonMember> members;

  const JsonNode* find(std::string_view key) const;
};
struct JsonMember {
  std::string key;
  JsonNode value;
};

/// DamagedText with facts "line" and "column" counted from 1 (columns in bytes), DuplicateKey, OutOfRange for a
/// number beyond a double. `where` is the JSON pointer of the place.
Result<JsonNode> parseJson(std::string_view text);

/// A quoted JSON string; bytes that are not UTF-8 become U+FFFD.
std::string jsonString(std::string_view text);

/// The value on one line, in the manner of the project file: {"a": 1, "b": [2, 3]}.
std::string oneLine(const JsonNode& node);

/// A number for JSON: numberText(), or null when it is not finite.
std::string jsonNumber(double value);

}  // namespace sunspool::io
