// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "app/format/format.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::panelview {

/// What is at one place of a run now, as a person at the panel would say it.
struct HereAndNow {
  const model::Document& document;
  const results::Results& results;
  bool settled = false;
  int run = 0;
  double station_m = 0.0;
};
QString hereSentence(const HereAndNow& here, const format::Preferences& preferences);

/// Which part of the run this is: "turn 4, straight", "turn 4, bend of radius 160 mm", "the crossing", "the feed tail".
QString placeOnRun(const layout::LaidRun& run, double station_m, const format::Preferences& preferences);

}  // namespace sunspool::panelview
