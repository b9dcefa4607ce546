// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a catalogue of tubes: never a crash, and every tube that is let in is valid and has an id.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "core/base/assert.h"
#include "core/io/catalogue.h"
#include "core/model/validate.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace sunspool;
  const auto catalogue = io::readTubeCatalogue({reinterpret_cast<const char*>(data), size});
  if (!catalogue) return 0;
  for (const io::CatalogueTube& entry : catalogue->tubes) {
    SUNSPOOL_ASSERT(model::validate(entry.tube).has_value(), "an invalid tube was let in");
    SUNSPOOL_ASSERT(catalogue->find(entry.tube.catalogueId) == &entry, "two tubes of one id were let in");
  }
  return 0;
}
