// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The sentences of a sheet are said by the app; core only names them.

#include <functional>
#include <span>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/base/snag.h"
#include "core/model/document.h"
#include "core/sheet/display_list.h"

namespace sunspool::sheet {

/// What is to be said. The facts that go with a key stand behind it.
enum class TextKey {
  CutListTitle,
  MaterialListTitle,
  PageOf,  ///< "page", "pages"
  // headings
  TubeHeading,
  TimberHeading,
  MaterialHeading,
  LeftOnPurposeHeading,
  CautionsHeading,
  // columns
  ColumnNumber,
  ColumnRoll,
  ColumnTimber,
  ColumnRuns,
  ColumnPieces,
  ColumnUsed,
  ColumnLeft,
  ColumnItem,
  ColumnName,
  ColumnAmount,
  ColumnStockUnits,
  ColumnOwned,
  ColumnUnitPrice,
  ColumnPrice,
  // cells
  FromTheShed,  ///< mark behind the name of an owned length
  Ask,          ///< in the place of a price that is not known
  NotPriced,    ///< in the place of a price that this list does not carry
  NotPlanned,   ///< in the place of an amount that could not be planned
  // lines
  KerfAndSquaring,      ///< "kerf", "squaring"
  ProvenFewest,         ///< nothing cheaper can be bought: "lengths"
  NotProven,            ///< "lengths", "at_least"
  TotalLeft,            ///< "left"
  NoSquaringAllowance,  ///< "number", "spare"
  KnownTotal,           ///< "total" (Money)
  PricesToAsk,          ///< "count"
  // cautions
  CautionMains,
  CautionScaldingFirstWater,
  CautionTubeOverLimit,        ///< "reached", "limit" (Temperature)
  CautionGlazingOverLimit,     ///< "reached", "limit"
  CautionInsulationOverLimit,  ///< "reached", "limit"
  CautionStoppedNotKnown,
  CautionSteam,
  CautionFire,
  CautionWind,
  CautionRoof,  ///< "wet_mass" (Mass)
  CautionSuction,
  CautionPoolWater,
  CautionNotForDrinking,
  CautionPressureAndFreezing,
  CautionStandingWater,
  CautionElectricalParts,
  CautionLocalCodes
};

/// How the app says things. Every function but textWidth_mm must be set.
struct Texts {
  std::function<std::string(TextKey, std::span<const Fact>)> say;
  /// A number with its unit. Roles: "timber" lengths are cut to the millimetre, "tube" lengths to the centimetre; any
  /// other role as usual.
  std::function<std::string(const Fact&)> number;
  std::function<std::string(double amount, const std::string& currency)> money;
  /// Key of a part in words: "rail", "stile", "tube", "barb_connector", ... (stock::BuyingList::Row::item).
  std::function<std::string(std::string_view item)> item;
  std::function<std::string(const model::Moment&)> date;
  std::function<std::string(const Error&)> error;
  std::function<std::string(const Snag&)> snag;
  /// Width of a text as it will be painted; without it estimatedWidth_mm is used.
  std::function<double(const Text&)> textWidth_mm;
};

/// Half an em a character (0.6 in bold): wider than most texts are.
/// Assumption: typical proportions of book faces, no source.
double estimatedWidth_mm(const Text& text);

}  // namespace sunspool::sheet
