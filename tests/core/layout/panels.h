// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Panels that the layout tests share.

#include <algorithm>
#include <string>

#include "core/layout/layout.h"

namespace sunspool::layout::test {

/// Glazed panel of 1180 x 2340 mm inside, tube 20/16, 40 mm from the frame to the outermost centre line.
inline model::Document firstPanel() {
  model::Document document;
  document.frame.insideWidth = millimetres(2340.0);
  document.frame.insideHeight = millimetres(1180.0);
  document.frame.timberWidth = millimetres(35.0);
  document.tube.outsideDiameter.value = millimetres(20.0);
  document.laying.pitch = millimetres(26.0);
  document.laying.bendRadius = millimetres(160.0);
  document.laying.margin = millimetres(30.0);
  document.laying.feedTail = metres(1.4);
  document.laying.returnTail = metres(1.4);
  return document;
}

/// Small panel of 560 x 860 mm inside, tube 16/13.6, 30 mm from the frame to the outermost centre line.
inline model::Document classPanel() {
  model::Document document = firstPanel();
  document.frame.insideWidth = millimetres(560.0);
  document.frame.insideHeight = millimetres(860.0);
  document.tube.outsideDiameter.value = millimetres(16.0);
  document.laying.pitch = millimetres(22.0);
  document.laying.bendRadius = millimetres(110.0);
  document.laying.margin = millimetres(22.0);
  return document;
}

inline model::KeepOut block(const char* id, double x0_m, double y0_m, double x1_m, double y1_m) {
  return {id, id, geometry::rectangle({x0_m, y0_m}, {x1_m, y1_m}), millimetres(5.0)};
}

inline double fact(const Error& error, const std::string& name) {
  const auto found =
      std::find_if(error.facts.begin(), error.facts.end(), [&](const Fact& f) { return f.name == name; });
  return found == error.facts.end() ? -1.0 : found->value_si;
}

inline double turnsLength(const LaidRun& run) { return run.turnsTo_m - run.turnsFrom_m; }

}  // namespace sunspool::layout::test
