// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/model/defaults.h"
#include "core/model/document.h"

namespace sunspool::tests {

/// Settable by SUNSPOOL_TEST_SEED; tests print it with INFO.
inline unsigned seed() {
  const char* const set = std::getenv("SUNSPOOL_TEST_SEED");
  return set != nullptr ? static_cast<unsigned>(std::strtoul(set, nullptr, 10)) : 20250614U;
}

inline double factOf(const Error& error, const std::string& name) {
  for (const Fact& fact : error.facts) {
    if (fact.name == name) return fact.value_si;
  }
  return -12345.0;
}

/// A document in which every key of the file stands: nothing optional is left out, no list is empty.
inline model::Document everyKey() {
  model::Document document = model::firstPanel();
  document.name = "Every key: \"quotes\", \\, tab\t, 屋根の上, Sonnenwärme";
  document.conditions.onPanel = {wattsPerSquareMetre(850.0), wattsPerSquareMetre(40.0), Sureness::Measured};
  document.keepOuts = {{"block", "centre block", {{{1.0, 0.5}, {1.2, 0.5}, {1.2, 0.6}, {1.0, 0.6}}}, metres(0.01)},
                       {"strap", "strap", {{{0.3, 0.2}, {0.4, 0.2}, {0.35, 0.3}}}, metres(0.0)}};
  document.box.backing->limit = celsius(90.0);
  document.box.plate->sheet.limit = celsius(150.5);
  document.box.plate->sheet.pricePerSquareMetre = 21.0;
  document.box.glazing->sheet.pricePerSquareMetre = 33.3;
  document.tube.bendTestCollapseRadius = {metres(0.09), metres(0.005), Sureness::Measured};
  document.laying.quarterTurns = 40;
  document.plumbing.pump.points = {{litresPerMinute(0.0), metres(2.5)}, {litresPerMinute(20.0), metres(0.4)}};
  const model::FittingCount full{model::FittingKind::BarbConnector, 2, metres(0.012),
                                 Uncertain<double>{1.1, 0.3, Sureness::Guess}};
  document.plumbing.feed.fittings = {full, {model::FittingKind::Elbow90, 3, {}, {}}};
  document.plumbing.returning.fittings = {full};
  document.plumbing.runFittings = {full};
  document.stock.glazingPricePerSquareMetre = 30.0;
  document.box.shadeCloth = Uncertain<double>{0.2, 0.05, Sureness::Label};
  document.siting.gust = {metresPerSecond(33.0), metresPerSecond(5.0), Sureness::Guess};
  document.siting.holdDown = kilograms(60.0);
  document.stock.rolls.front().outsideDiameter = metres(0.02);
  document.stock.rolls.front().insideDiameter = metres(0.016);
  document.stock.sheets = {{"ply", model::SheetUse::Backing, metres(1.22), metres(2.44), 1, 30.0}};
  document.stock.fittings = {{model::FittingKind::TeeBranch, 2, 1.9}};
  document.stock.pumps = {{document.plumbing.pump, 1, 55.0}};
  document.stock.thermometers = {{"two of a set", kelvins(0.3), 2, {}}};
  document.panelsAlike = 3;
  document.obstacles = {{"tower", degrees(150.0), degrees(190.0), degrees(50.0)}};
  document.leftSnags = {{"bend_close/A", "tried on an offcut"}};
  return document;
}

inline std::vector<std::filesystem::path> samples() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(SUNSPOOL_SAMPLES)) {
    if (entry.path().extension() == ".sunspool") paths.push_back(entry.path());
  }
  return paths;
}

}  // namespace sunspool::tests
