// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the Tape says, without a pixel: one run, its lengths, its profile and the words beside it.

#include <QString>
#include <memory>
#include <optional>

#include "app/format/format.h"
#include "app/store/document_store.h"
#include "core/results/results.h"

namespace sunspool::tape {

enum class Strip { Bend, Water, WaterLine };

/// What stays on the roll that the run is cut from.
struct RollRest {
  std::optional<double> left_m;  ///< nullopt: not known, the words say why
  QString words;
};

struct Content {
  std::shared_ptr<const model::Document> document;
  std::shared_ptr<const results::Results> results;
  bool settled = false;  ///< else flow, heat, profiles and roll belong to an older design
  int runs = 0;
  int run = 0;
  const layout::LaidRun* laid = nullptr;         ///< into results; nullptr when the layout failed
  const results::RunProfile* profile = nullptr;  ///< into results; nullptr when there is none
  QString refusal;                               ///< why there is no run, one sentence
  QString noProfile;                             ///< why there is a run but no profile, one sentence
  double end_m = 0.0;                            ///< last station of the run
  double cut_m = 0.0;                            ///< end of the tube itself: a tail behind the panel has no stations
  RollRest rest;
  bool plugPulled = false;  ///< the pump is shown at rest; the strips stay those of the running pump
};
/// @param run  the last one of the layout is shown instead of one beyond it
Content contentOf(const store::DocumentStore& store, int run, const format::Preferences& preferences);

/// What the strip's chip says at a station; ends in "settling" while the number belongs to an older design, and is
/// empty when there is nothing to say.
QString readingAt(const Content& content, Strip strip, double station_m, const format::Preferences& preferences);

/// "turn 4, upper leg", "bend, turn 4", "feed tail", "crossing".
QString placeOf(const Content& content, double station_m);

/// For a screen reader: "at 23.4 metres of run A, 24.8 degrees, +7.1 kPa".
QString spoken(const Content& content, double station_m, const format::Preferences& preferences);

/// "from 54 m on below the air's pressure: siphon, -8 kPa at most"; empty when the water never is.
enum class Wording { Full, Short };
QString siphonWords(const Content& content, Wording wording, const format::Preferences& preferences);

}  // namespace sunspool::tape
