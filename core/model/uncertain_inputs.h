// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/uncertain.h"
#include "core/model/document.h"

namespace sunspool::model {

/// One value of the document that is stored with a spread.
struct UncertainInput {
  std::string pointer;  ///< JSON pointer in the project file, e.g. "/tube/inside_diameter"
  double value_si = 0.0;
  double spread_si = 0.0;  ///< half-width, of the difference (K for temperatures)
  Sureness sureness = Sureness::Guess;
  Dimension dimension = Dimension::None;
  double low_si = 0.0, high_si = 0.0;  ///< what the value may be at all
  bool operator==(const UncertainInput&) const = default;
};

/// Every uncertain value that is present, in the order of the file. Absent optional ones are left out.
std::vector<UncertainInput> uncertainInputs(const Document& document);

/// The document with one uncertain value replaced, spread and sureness kept, without validation: for propagating
/// spreads, where a shifted value may stand just outside what a builder may enter. MissingKey for a pointer that
/// names no uncertain value.
Result<Document> shifted(Document document, std::string_view pointer, double value_si);

}  // namespace sunspool::model
