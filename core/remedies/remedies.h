// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What can be done about a finding: pure edits, each tried on the whole program before it is offered.

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/snag.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::remedies {

/// What is done. The phrases stand in app/format.
enum class RemedyKind {
  LargerBendRadius,     ///< "radius"
  OtherTube,            ///< detail: its name
  LargerPitch,          ///< "pitch"
  FewerTurns,           ///< "turns"
  InnerEndThroughBack,  ///< "hole", diameter
  InnerEndUnder,        ///< "stand_off"
  DeeperTimber,         ///< "depth", "was"
  ThinnerInsulation,    ///< "thickness", "was"
  LongerTail,           ///< "tail"
  StrongerPump,         ///< "flow", "head"; detail: its name when it stands in the Shed
  LowerPanel,           ///< "height" of the lower edge over the pool, "by"
  LowerPipes,           ///< "height" of their highest point over the pool
  ThrottleReturn,       ///< a valve behind the panel, "loss_coefficient"
  OpenReturn,           ///< the return ends above the water, "height"
  MoreRuns,             ///< "runs"
  FewerRuns,            ///< "runs"
  SpreadEntries,
  SlowerPump,  ///< "speed"
  FasterPump,  ///< "speed"
  ShadeCloth,  ///< "share" of the sun it lets through
  NoGlazing,
  OtherMaterial,  ///< detail: its name
  HandbookLimit,  ///< "limit" of a material whose limit is not known; the source goes into the file. "share": with a
                  ///< shade cloth, because without one the limit would be passed. detail: the source
  LongerRoll,     ///< "length"
  AllowJoins,
  LongerTimber,  ///< "length"
  SmallerFrame,  ///< "width", "height" outside, "by"
  LargerSheet,   ///< "width", "height"
  EnterPrice,    ///< asks for a number; detail: key of the row and its name, "tube:LDPE 20/16"
  EnterGust,     ///< asks for a number
  HoldDown,      ///< "mass" a panel
  OtherRecipe,   ///< detail: its word
  EnterLimit,    ///< asks for a number; detail: the material
  StilesThrough  ///< stiles at full height, rails between them
};

/// Stable word for machines: "larger_bend_radius".
std::string_view kindKey(RemedyKind kind);

/// What a remedy changes, after less before; all panels alike together.
struct Price {
  Length tube;
  Power heat;
  std::optional<double> money;  ///< nullopt: a price is not known
  int findings = 0;             ///< open findings, after less before
  bool operator==(const Price&) const = default;
};

struct Remedy {
  RemedyKind kind{};
  std::string detail;
  std::vector<Fact> facts;  ///< the numbers of its phrase
  /// The edit. Of a remedy that asks for a number (asks is set) `typed_si` is that number; others ignore it.
  /// Errors of model::validate() for a number that cannot be; a price of 0 is a price.
  std::function<Result<model::Document>(model::Document, double typed_si)> edit;
  std::optional<Dimension> asks;
  std::optional<Price> price;  ///< nullopt for one that asks for a number
};

/// One to three remedies of a finding, the least painful first; none where nothing we know of takes it away. Each was
/// tried: the finding is gone then and no finding worse than it has been born (worse: a Snag where there was none of
/// its key, or a Close grown to a Snag; what the stopped pump does to a box that could not be reckoned before, because
/// its layers did not fit, is found and not born). One that asks for a number cannot be tried and says so by `asks`.
/// Pain is money to be paid, heat lost by checks::moneyEquivalent() and a bother of our own judgement for the work.
/// Assumption: the bothers, in the project's money, in trial.cpp.
/// @param results  of the document, with Depth::Everything; ranges are not needed
/// @param tubes    tubes that could be bought instead; the rolls of the Shed are looked through as well
/// Pure; a few evaluations each, about 0.1 s together: call it off the window's thread.
std::vector<Remedy> remediesFor(const model::Document& document, const results::Results& results, const Snag& snag,
                                std::span<const model::Tube> tubes = {});

/// What an edit costs: both designs reckoned. Heat that could not be reckoned counts as none.
Price priceOf(const model::Document& before, const results::Results& beforeResults, const model::Document& after,
              const results::Results& afterResults);

}  // namespace sunspool::remedies
