// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/catalogue.h"

#include <catch2/catch.hpp>

#include "core/io/files.h"
#include "core/io/json_tree.h"
#include "tests/core/io/support.h"

using namespace sunspool;

namespace {

std::string catalogueText() { return io::readFile(std::string(SUNSPOOL_RESOURCES) + "/catalogue/tubes.json").value(); }

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), with);
}
Error errorOf(const std::string& text) {
  const auto read = io::readTubeCatalogue(text);
  REQUIRE_FALSE(read);
  return read.error();
}

}  // namespace

TEST_CASE("The catalogue is read whole, each value with its source", "[io][catalogue]") {
  const auto catalogue = io::readTubeCatalogue(catalogueText());
  REQUIRE(catalogue);
  CHECK(catalogue->tubes.size() >= 8);
  for (const io::CatalogueTube& entry : catalogue->tubes) {
    INFO(entry.tube.catalogueId);
    CHECK(entry.sources.size() == 14);  // material, 7 uncertain values, 6 others
    for (const io::ValueSource& source : entry.sources) CHECK_FALSE(source.source.empty());
    CHECK(entry.tube.insideDiameter.value < entry.tube.outsideDiameter.value);
    CHECK(catalogue->find(entry.tube.catalogueId) == &entry);
  }
  CHECK(catalogue->find("garden hose") == nullptr);
}

TEST_CASE("The tube of the first panel is the catalogue's to the last value", "[io][catalogue]") {
  const auto catalogue = io::readTubeCatalogue(catalogueText());
  REQUIRE(catalogue);
  const io::CatalogueTube* const entry = catalogue->find("ldpe-20-16");
  REQUIRE(entry != nullptr);
  CHECK(entry->tube == model::firstPanel().tube);
}

TEST_CASE("A fault in the catalogue is named with its place", "[io][catalogue][fault]") {
  const std::string text = catalogueText();
  const Error missing = errorOf(replaced(text, "\"roughness_m\"", "\"roughness_mm\""));
  CHECK(missing.code == ErrorCode::MissingKey);
  CHECK(missing.where == "/tubes/0");
  CHECK(missing.detail == "roughness_m");
  const Error unsourced = errorOf(replaced(text, "\"density_source\"", "\"density_sauce\""));
  CHECK(unsourced.code == ErrorCode::MissingKey);
  CHECK(unsourced.detail == "density_source");
  const Error swapped = errorOf(replaced(text, "\"outside_diameter_m\": 0.016", "\"outside_diameter_m\": 0.013"));
  CHECK(swapped.code == ErrorCode::InsideNotBelowOutside);
  CHECK(swapped.where == "/tubes/0/inside_diameter");
  const Error word = errorOf(replaced(text, "\"low_density_polyethylene\"", "\"copper\""));
  CHECK(word.code == ErrorCode::UnknownWord);
  CHECK(word.where == "/tubes/0/material");
  const Error type = errorOf(replaced(text, "\"limit_C\": 50", "\"limit_C\": \"50\""));
  CHECK(type.code == ErrorCode::WrongType);
  CHECK(type.where == "/tubes/0/limit_C");
  CHECK(type.detail == "\"50\"");
  const Error twice = errorOf(replaced(text, "\"ldpe-13-15.5\"", "\"ldpe-13-16\""));
  CHECK(twice.code == ErrorCode::DuplicateKey);
  CHECK(twice.where == "/tubes/1/id");
}

TEST_CASE("Text that is no catalogue of this version is refused", "[io][catalogue][fault]") {
  CHECK(errorOf("").code == ErrorCode::DamagedText);
  CHECK(errorOf("{}").code == ErrorCode::NotAProject);
  CHECK(errorOf("[1]").code == ErrorCode::NotAProject);
  CHECK(errorOf(replaced(catalogueText(), "\"version\": 1", "\"version\": 2")).code == ErrorCode::NewerVersion);
  CHECK(errorOf(replaced(catalogueText(), "\"version\": 1", "\"version\": \"x\"")).code == ErrorCode::WrongType);
  CHECK(errorOf("{\"format\": \"sunspool-catalogue\", \"version\": 1}").detail == "tubes");
}
