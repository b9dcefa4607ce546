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
  PageOf,          ///< "page", "pages"
  ForPanelsAlike,  ///< "count"
  // headings
  TubeHeading,
  TimberHeading,
  SheetsHeading,
  HolesHeading,
  WeightHeading,
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
  ColumnPiece,
  ColumnSize,
  ColumnFromLeft,
  ColumnFromBelow,
  ColumnPart,
  ColumnRun,
  ColumnWay,
  ColumnAlong,
  ColumnAcross,
  ColumnHeight,
  ColumnDiameter,
  // cells
  FromTheShed,  ///< mark behind the name of an owned length
  Ask,          ///< in the place of a price that is not known
  NotPriced,    ///< in the place of a price that this list does not carry
  NotPlanned,   ///< in the place of an amount that could not be planned
  Turned,       ///< mark of a piece that lies across the sheet
  LargestLeft,  ///< name of the largest rectangle left of a sheet
  // lines
  KerfAndSquaring,      ///< "kerf", "squaring"
  ProvenFewest,         ///< nothing cheaper can be bought: "lengths"
  NotProven,            ///< "lengths", "at_least"
  MoreThanByLength,     ///< "lengths", "by_length": the sum of the lengths alone would need fewer
  WouldJustFit,         ///< said behind a filling that the plan gets round: "spare"
  JoinedAt,             ///< said behind the names: "at" (from the run's feed end)
  RollMayBeShort,       ///< "number", "short_by"
  TotalLeft,            ///< "left"
  NoSquaringAllowance,  ///< "number", "spare"
  KnownTotal,           ///< "total" (Money)
  KnownRange,           ///< "low", "high" (Money)
  PricesToAsk,          ///< "count"
  RollsRange,           ///< "low", "planned", "high"
  RunMayFitNoRoll,
  ManifoldTees,  ///< "count"
  CautionsElsewhere,
  SheetUsed,        ///< "number", "alike": behind the sheet's name; how many are cut like this
  SheetsProven,     ///< "sheets"
  SheetsNotProven,  ///< "sheets", "at_least"
  SheetKerf,        ///< "kerf"
  RoomToGrow,       ///< "width", "height": by how much the rectangle is smaller than its place
  MadeOfLapped,     ///< "pieces", "lap"
  MadeOfButted,     ///< "pieces", "gap"
  BySquareMetre,    ///< no sheet of this layer is known
  HolesMeasured,    ///< how the places of the table are to be read
  HoleNearEdge,     ///< "number", "left"
  Weights,          ///< "dry", "wet"
  WindScreened,     ///< "low", "high" (Mass whose weight the uplift equals), "weight" (Mass), "hold_low", "hold_high"
  WindNotScreened,
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
