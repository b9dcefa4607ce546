// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The tubes that can be picked: resources/catalogue/tubes.json.

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::io {

/// Where one value of a catalogue entry comes from.
struct ValueSource {
  std::string pointer;  ///< of the value within a tube of the project file: "/inside_diameter"
  std::string source;   ///< as printed; begins with "assumption" where nobody can be cited
  bool operator==(const ValueSource&) const = default;
};
struct CatalogueTube {
  model::Tube tube;
  std::vector<ValueSource> sources;  ///< one for every value
  bool operator==(const CatalogueTube&) const = default;
};
struct TubeCatalogue {
  std::vector<CatalogueTube> tubes;  ///< in the order of the file
  const CatalogueTube* find(std::string_view id) const;
};

/// Reads a catalogue of tubes. Each value stands flat beside its spread and its source ("inside_diameter_m",
/// "inside_diameter_spread_m", "inside_diameter_source"); a value without source is refused. Diameters whose source
/// is no assumption are as sure as a label, all others are guesses.
/// Errors as readDocument(): DamagedText, NotAProject (another format), NewerVersion, MissingKey, WrongType,
/// UnknownWord, DuplicateKey (two tubes of one id), and those of model::validate() for a tube.
Result<TubeCatalogue> readTubeCatalogue(std::string_view text);

}  // namespace sunspool::io
