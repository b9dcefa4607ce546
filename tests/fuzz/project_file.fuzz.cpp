// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a project: never a crash, and what was read survives being written: the text of the first save is
// read back equal and saved to the same bytes.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "core/base/assert.h"
#include "core/io/project_file.h"
#include "core/model/validate.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace sunspool;
  const auto read = io::readDocument({reinterpret_cast<const char*>(data), size});
  if (!read) return 0;
  SUNSPOOL_ASSERT(model::validate(read->document).has_value(), "the reader let an invalid document pass");
  const std::string saved = io::writeDocument(read->document);
  const auto again = io::readDocument(saved);
  SUNSPOOL_ASSERT(again.has_value(), "what was written cannot be read");
  SUNSPOOL_ASSERT(again->document == read->document, "saving changed the document");
  SUNSPOOL_ASSERT(io::writeDocument(again->document) == saved, "saving twice gave other bytes");
  return 0;
}
