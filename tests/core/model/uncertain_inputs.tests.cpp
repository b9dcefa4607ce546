// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/uncertain_inputs.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "core/model/defaults.h"

using namespace sunspool;
using model::UncertainInput;

namespace {
const UncertainInput* find(const std::vector<UncertainInput>& all, const std::string& pointer) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const auto& input) { return input.pointer == pointer; });
  return at == all.end() ? nullptr : &*at;
}
}  // namespace

TEST_CASE("Every uncertain value of a document is listed once, with its spread", "[model][uncertain]") {
  const auto inputs = model::uncertainInputs(model::firstPanel());
  std::set<std::string> pointers;
  for (const UncertainInput& input : inputs) pointers.insert(input.pointer);
  CHECK(pointers.size() == inputs.size());
  // Counted by hand in document.h: weather 4, pool 1, backing 1, insulation 1, plate 3, contact share 1, glazing 3,
  // tube 7 (no bend test), wobble 1, pump 2.
  CHECK(inputs.size() == 26);
  const UncertainInput* const bore = find(inputs, "/tube/inside_diameter");
  REQUIRE(bore != nullptr);
  CHECK(bore->value_si == 0.016);
  CHECK(bore->spread_si == 0.0002);
  CHECK(bore->sureness == Sureness::Label);
  CHECK(bore->dimension == Dimension::Length);
  const UncertainInput* const air = find(inputs, "/conditions/air");
  REQUIRE(air != nullptr);
  CHECK(air->value_si == celsius(22.0).inKelvin());
  CHECK(air->spread_si == 2.0);
}

TEST_CASE("Optional uncertain values are listed only when they are there", "[model][uncertain]") {
  model::Document document = model::firstPanel();
  CHECK(find(model::uncertainInputs(document), "/conditions/on_panel") == nullptr);
  document.conditions.onPanel = {wattsPerSquareMetre(850.0), wattsPerSquareMetre(40.0), Sureness::Measured};
  document.plumbing.feed.fittings.push_back(
      {model::FittingKind::Valve, 1, {}, Uncertain<double>{0.2, 0.1, Sureness::Guess}});
  document.box.glazing.reset();
  const auto inputs = model::uncertainInputs(document);
  CHECK(find(inputs, "/conditions/on_panel") != nullptr);
  CHECK(find(inputs, "/plumbing/feed/fittings/1/loss_coefficient") != nullptr);
  CHECK(find(inputs, "/box/glazing/transmittance") == nullptr);
}

TEST_CASE("Shifting an input moves that value and nothing else", "[model][uncertain][property]") {
  const model::Document before = model::firstPanel();
  const auto inputs = model::uncertainInputs(before);
  for (const UncertainInput& input : inputs) {
    INFO(input.pointer);
    const auto after = model::shifted(before, input.pointer, input.value_si + input.spread_si);
    REQUIRE(after);
    const auto moved = model::uncertainInputs(*after);
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      const bool same = moved[i] == inputs[i];
      CHECK(same == (inputs[i].pointer != input.pointer || input.spread_si == 0.0));
    }
    CHECK(model::shifted(*after, input.pointer, input.value_si).value() == before);
  }
}

TEST_CASE("A pointer that names no uncertain value is refused", "[model][uncertain]") {
  for (const char* pointer : {"", "/tube", "/tube/density_kg_m3", "/conditions/on_panel", "/tube/inside_diameter/"}) {
    const auto result = model::shifted(model::firstPanel(), pointer, 1.0);
    INFO(pointer);
    REQUIRE_FALSE(result);
    CHECK(result.error().code == ErrorCode::MissingKey);
    CHECK(result.error().where == pointer);
  }
}
