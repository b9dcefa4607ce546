// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The project file: one JSON text, described in resources/schema/project-1.schema.json.

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::io {

inline constexpr int kProjectVersion = 1;

struct ReadDocument {
  model::Document document;
  /// Written by a newer program: what is known here was read, the rest is kept as unknown keys. Open read-only.
  bool newerVersion = false;
  int version = kProjectVersion;
};

/// Reads a project. Keys this version does not know are kept in Document::unknownKeys; a missing optional key
/// takes the default named in the schema. Degrees and degrees Celsius stand in the file where a person writes them.
///
/// Errors, `where` the JSON pointer of the place, `detail` the text found there:
///   DamagedText   no JSON, or nested deeper than 64: facts "line", "column" (from 1), detail = what stood there
///   NotAProject   JSON, but not of this format (detail = its "format"), or an empty text
///   NewerVersion  newer, and it makes no sense here: facts "version", "newest_known"
///   MissingKey    detail = the key
///   DuplicateKey  detail = the key
///   WrongType     one fact whose name says what is expected: "expected_number", "expected_whole_number",
///                 "expected_text", "expected_object", "expected_list", "expected_true_or_false"
///   UnknownWord   facts named after the words that are allowed
///   OutOfRange and all others of model::validate()
Result<ReadDocument> readDocument(std::string_view text);

/// The text of a project: fixed key order, one item per line in lists, shortest numbers that read back exactly,
/// UTF-8, LF, newline at the end. writeDocument(readDocument(t)) == t for every t that writeDocument made.
/// Unknown keys stand at the end of the object they were found in; those of a part that is gone are left out.
std::string writeDocument(const model::Document& document);

}  // namespace sunspool::io
