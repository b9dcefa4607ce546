// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What can be done about a finding: pure edits, each tried on the whole program before it is offered.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/snag.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::remedies {

/// What is done. The phrases stand in app/format.
enum class RemedyKind {
  LargerBendRadius,  ///< "radius"
  OtherTube,         ///< detail: its name
  LargerPitch,       ///< "pitch"
  FewerTurns,        ///< "turns"
  InnerEndThroughBack,
  InnerEndUnder,      ///< "stand_off"
  DeeperTimber,       ///< "depth"
  ThinnerInsulation,  ///< "thickness"
  LongerTail,         ///< "tail"
  StrongerPump,       ///< "flow", "head"; detail: its name when it stands in the Shed
  LowerPanel,         ///< "height"
  LowerPipes,         ///< "height"
  ThrottleReturn,     ///< a valve behind the panel, "loss_coefficient"
  OpenReturn,         ///< the return ends above the water, "height"
  MoreRuns,           ///< "runs"
  FewerRuns,          ///< "runs"
  SpreadEntries,
  SlowerPump,  ///< "speed"
  FasterPump,  ///< "speed"
  ShadeCloth,  ///< "share"
  NoGlazing,
  OtherMaterial,  ///< detail: its name
  HandbookLimit,  ///< "limit" of a material whose limit is not known; the source goes into the file
  LongerRoll,     ///< "length"
  AllowJoins,
  LongerTimber,  ///< "length"
  SmallerFrame,  ///< "width", "height"
  LargerSheet,   ///< "width", "height"
  EnterPrice,    ///< asks for a number
  EnterGust,     ///< asks for a number
  HoldDown,      ///< "mass"
  OtherRecipe    ///< detail: its word
};

/// What a remedy changes, after less before; all panels alike together.
struct Price {
  Length tube;
  Power heat;
  std::optional<double> money;  ///< nullopt: a price is not known
  int findings = 0;             ///< open findings, after less before
};

struct Remedy {
  RemedyKind kind{};
  std::string detail;
  std::vector<Fact> facts;  ///< the numbers of its phrase
  /// The edit. Of a remedy that asks for a number (asks is set) `typed_si` is that number; others ignore it.
  std::function<Result<model::Document>(model::Document, double typed_si)> edit;
  std::optional<Dimension> asks;
  std::optional<Price> price;  ///< nullopt for one that asks for a number
};

/// One to three remedies of a finding, the least painful first. Each was tried: the finding is gone then and no finding
/// worse than it has been born (worse: a Snag where there was none of its key, or a Close grown to a Snag).
/// @param results  of the document, with Depth::Everything; ranges are not needed
/// Pure; a few evaluations each, up to about 0.1 s together: call it off the window's thread.
std::vector<Remedy> remediesFor(const model::Document& document, const results::Results& results, const Snag& snag);

/// What an edit costs: both designs reckoned.
Price priceOf(const model::Document& before, const results::Results& beforeResults, const model::Document& after,
              const results::Results& afterResults);

}  // namespace sunspool::remedies
