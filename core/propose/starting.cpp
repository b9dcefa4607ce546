// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/starting.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <utility>

#include "core/base/assert.h"
#include "core/checks/measures.h"
#include "core/model/defaults.h"
#include "core/model/validate.h"

namespace sunspool::propose {
namespace {

constexpr double kSame_m = 1e-6;              // two lengths that were typed in different units
constexpr int kMostPanels = 64;               // as the file allows
constexpr double kDepthSpare_m = 3e-3;        // flatness of a sheet over a panel, as checks asks for
constexpr double kThinnestInsulation = 0.01;  // [m] thinner boards are not sold; common practice, no source

bool same(Length a, Length b) { return std::abs((a - b).si()) < kSame_m; }

std::string text(double value, int decimals) {
  char digits[32];
  const auto end = std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed, decimals);
  std::string written(digits, end.ptr);
  while (written.find('.') != std::string::npos && (written.back() == '0' || written.back() == '.')) {
    const bool point = written.back() == '.';
    written.pop_back();
    if (point) break;
  }
  return written;
}
std::string millimetresOf(Length length) { return text(length.si() * 1e3, 1); }
std::string metresOf(Length length) { return text(length.si(), 3); }

// Tube ---------------------------------------------------------------------------------------------------------------

model::Tube guessed(Length outside, Length inside) {
  model::Tube tube = model::lowDensityPolyethylene20x16();
  tube.catalogueId.clear();
  tube.name = "PE " + millimetresOf(outside) + "/" + millimetresOf(inside) + " mm";
  tube.outsideDiameter.value = outside;
  tube.insideDiameter.value = inside;
  for (auto* value : {&tube.minimumWallShare, &tube.absorptance, &tube.emittance}) value->sureness = Sureness::Guess;
  tube.roughness.sureness = Sureness::Guess;
  tube.conductivity.sureness = Sureness::Guess;
  return tube;
}

Result<model::Tube> tubeOf(const Have::Roll& roll, const model::Document& base, std::span<const model::Tube> known) {
  if (!roll.outsideDiameter && !roll.insideDiameter) return base.tube;
  if (!roll.outsideDiameter || !roll.insideDiameter)
    return Error{ErrorCode::NotUnderstood, {}, "diameters", {{"expected_diameters", 0.0, Dimension::None}}};
  const Length outside = *roll.outsideDiameter, inside = *roll.insideDiameter;
  if (!(inside < outside)) {
    return Error{ErrorCode::InsideNotBelowOutside,
                 "/tube",
                 {},
                 {{"inside", inside.si(), Dimension::Length}, {"outside", outside.si(), Dimension::Length}}};
  }
  const auto fits = [&](const model::Tube& tube) {
    return same(tube.outsideDiameter.value, outside) && same(tube.insideDiameter.value, inside);
  };
  if (fits(base.tube)) return base.tube;
  const auto found = std::find_if(known.begin(), known.end(), fits);
  return found != known.end() ? *found : guessed(outside, inside);
}

bool isOf(const Have::Roll& roll, const model::Tube& tube, const model::Tube& designs) {
  return same(roll.outsideDiameter.value_or(designs.outsideDiameter.value), tube.outsideDiameter.value) &&
         same(roll.insideDiameter.value_or(designs.insideDiameter.value), tube.insideDiameter.value);
}

/// The different tubes of the rolls said, in that order; the design's when no roll was said.
Result<std::vector<model::Tube>> tubesOf(const Have& have, const model::Document& base,
                                         std::span<const model::Tube> known) {
  std::vector<model::Tube> tubes;
  for (const Have::Roll& roll : have.rolls) {
    Result<model::Tube> tube = tubeOf(roll, base, known);
    if (!tube.has_value()) return tube.error();
    if (std::find(tubes.begin(), tubes.end(), *tube) == tubes.end()) tubes.push_back(std::move(*tube));
  }
  if (tubes.empty()) tubes.push_back(base.tube);
  return tubes;
}

void putRolls(model::Document& design, const Have& have, const model::Tube& tube, const model::Tube& designs) {
  auto& rolls = design.stock.rolls;
  for (model::Roll& roll : rolls) {  // what was "the design's tube" so far stays that tube
    roll.outsideDiameter = roll.outsideDiameter.value_or(designs.outsideDiameter.value);
    roll.insideDiameter = roll.insideDiameter.value_or(designs.insideDiameter.value);
    if (!have.rolls.empty()) roll.owned = 0;
  }
  for (const Have::Roll& said : have.rolls) {
    model::Roll roll;
    const Length outside = said.outsideDiameter.value_or(designs.outsideDiameter.value);
    const Length inside = said.insideDiameter.value_or(designs.insideDiameter.value);
    // The design's own diameters to the last bit, so that the roll is seen to be of its tube.
    const bool own = isOf(said, tube, designs);
    roll.outsideDiameter = own ? tube.outsideDiameter.value : outside;
    roll.insideDiameter = own ? tube.insideDiameter.value : inside;
    roll.name = "PE " + millimetresOf(outside) + "/" + millimetresOf(inside) + ", " + metresOf(said.length) + " m";
    roll.length = said.length;
    roll.owned = said.count;
    rolls.push_back(std::move(roll));
  }
}

std::vector<double> usableRolls(const Have& have, const model::Tube& tube, const model::Tube& designs) {
  std::vector<double> lengths_m;
  for (const Have::Roll& roll : have.rolls) {
    if (!isOf(roll, tube, designs)) continue;
    lengths_m.insert(lengths_m.end(), static_cast<std::size_t>(std::clamp(roll.count, 0, 1000)), roll.length.si());
  }
  return lengths_m;
}

// Sheets and frame ---------------------------------------------------------------------------------------------------

model::SheetUse useOf(const Have::Sheet& sheet) { return sheet.use.value_or(model::SheetUse::Plate); }

/// The layer of this use; made from firstPanel()'s where the design has none.
model::Sheet& layerOf(model::SheetUse use, model::Box& box) {
  const model::Box standard = model::firstPanel().box;
  switch (use) {
    case model::SheetUse::Plate:
      if (!box.plate) box.plate = standard.plate;
      return box.plate->sheet;
    case model::SheetUse::Insulation:
      if (!box.insulation) box.insulation = standard.insulation;
      return *box.insulation;
    case model::SheetUse::Backing:
      if (!box.backing) box.backing = standard.backing;
      return *box.backing;
    case model::SheetUse::Glazing:
      if (!box.glazing) box.glazing = model::twinWallPolycarbonate();
      return box.glazing->sheet;
  }
  SUNSPOOL_ASSERT(false, "a use of a sheet that is no layer");
}
void putLayers(model::Document& design, const Have& have) {
  for (const Have::Sheet& sheet : have.sheets) {
    model::Sheet& layer = layerOf(useOf(sheet), design.box);
    if (sheet.thickness) layer.thickness = *sheet.thickness;
  }
}

void putSheets(model::Document& design, const Have& have) {
  auto& stock = design.stock.sheets;
  for (const Have::Sheet& said : have.sheets) {
    for (model::StockSheet& earlier : stock) {
      if (earlier.use == useOf(said)) earlier.owned = 0;
    }
  }
  for (const Have::Sheet& said : have.sheets) {
    model::StockSheet sheet;
    sheet.use = useOf(said);
    sheet.width = said.width;
    sheet.height = said.height;
    sheet.owned = said.count;
    sheet.name = metresOf(said.width) + " x " + metresOf(said.height) + " m";
    stock.push_back(std::move(sheet));
  }
}

struct Inside {
  double width_m = 0.0, height_m = 0.0;
  int count = 1;
};

/// What the largest sheet of one use leaves inside the frame; nullopt when none of that use was said.
Result<std::optional<Inside>> insideBy(model::SheetUse use, const Have& have, const model::Document& design) {
  const Have::Sheet* largest = nullptr;
  for (const Have::Sheet& sheet : have.sheets) {
    if (useOf(sheet) != use) continue;
    if (largest == nullptr || (sheet.width * sheet.height).si() > (largest->width * largest->height).si())
      largest = &sheet;
  }
  if (largest == nullptr) return std::optional<Inside>();
  int count = 0;
  for (const Have::Sheet& sheet : have.sheets) {
    if (useOf(sheet) == use && sheet.width >= largest->width && sheet.height >= largest->height) count += sheet.count;
  }
  const double lap_m =
      use == model::SheetUse::Glazing && design.box.glazing ? 2.0 * design.box.glazing->overlap.si() : 0.0;
  const double width_m = std::max(largest->width, largest->height).si() - lap_m;
  const double height_m = std::min(largest->width, largest->height).si() - lap_m;
  if (lap_m > 0.0 && height_m <= 0.0) {
    return Error{ErrorCode::SheetSmallerThanLap,
                 "glazing",
                 {},
                 {{"sheet", height_m + lap_m, Dimension::Length}, {"lap", lap_m, Dimension::Length}}};
  }
  return std::optional(Inside{width_m, height_m, count});
}

Result<std::optional<Inside>> insideOf(const Have& have, const model::Document& design) {
  std::optional<Inside> tightest;
  const auto narrow = [&](const Inside& by) {
    if (!tightest) {
      tightest = by;
      return;
    }
    tightest->width_m = std::min(tightest->width_m, by.width_m);
    tightest->height_m = std::min(tightest->height_m, by.height_m);
    tightest->count = std::min(tightest->count, by.count);
  };
  for (const model::SheetUse use : {model::SheetUse::Plate, model::SheetUse::Glazing}) {
    const auto by = insideBy(use, have, design);
    if (!by.has_value()) return by.error();
    if (*by) narrow(**by);
  }
  // Boards of insulation and backing may be butted: they only speak where nothing better does.
  for (const model::SheetUse use : {model::SheetUse::Backing, model::SheetUse::Insulation}) {
    if (tightest) break;
    const auto by = insideBy(use, have, design);
    if (!by.has_value()) return by.error();
    if (*by) narrow(**by);
  }
  return tightest;
}

// Timber -------------------------------------------------------------------------------------------------------------

void putBoards(model::Document& design, const Have& have) {
  if (have.boards.empty()) return;
  const Have::Board& first = have.boards.front();
  const bool otherSection =
      first.width && first.depth &&
      !(same(std::min(*first.width, *first.depth), std::min(design.frame.timberWidth, design.frame.timberDepth)) &&
        same(std::max(*first.width, *first.depth), std::max(design.frame.timberWidth, design.frame.timberDepth)));
  if (otherSection) {
    design.frame.timberWidth = std::min(*first.width, *first.depth);
    design.frame.timberDepth = std::max(*first.width, *first.depth);
    design.stock.timbers.clear();  // lengths of another section are of no use
  }
  for (model::TimberStock& timber : design.stock.timbers) timber.owned = 0;
  for (const Have::Board& said : have.boards) {
    const auto isThis = [&](const model::TimberStock& timber) { return same(timber.length, said.length); };
    const auto known = std::find_if(design.stock.timbers.begin(), design.stock.timbers.end(), isThis);
    if (known != design.stock.timbers.end()) {
      known->owned += said.count;
      continue;
    }
    model::TimberStock timber;
    timber.name = "Timber " + millimetresOf(design.frame.timberWidth) + " x " +
                  millimetresOf(design.frame.timberDepth) + ", " + metresOf(said.length) + " m";
    timber.length = said.length;
    timber.owned = said.count;
    design.stock.timbers.push_back(std::move(timber));
  }
}

/// Makes the frame as small as the longest timber asks for.
Result<bool> shortenToBoards(model::Document& design) {
  double longest_m = 0.0;
  for (const model::TimberStock& timber : design.stock.timbers) longest_m = std::max(longest_m, timber.length.si());
  if (longest_m <= 0.0) return false;
  longest_m -= design.stock.squaringAllowance.si();
  model::Frame& frame = design.frame;
  const double rails_m = 2.0 * frame.timberWidth.si();
  const bool already = frame.insideWidth.si() + (frame.railsThrough ? rails_m : 0.0) <= longest_m &&
                       frame.insideHeight.si() + (frame.railsThrough ? 0.0 : rails_m) <= longest_m;
  if (already) return false;
  if (frame.insideWidth.si() <= longest_m && frame.insideHeight.si() + rails_m <= longest_m) {
    frame.railsThrough = false;  // rails between the stiles just do
    return false;
  }
  frame.railsThrough = true;
  const double inside_m = std::floor((longest_m - rails_m) * 1e3) * 1e-3;
  if (inside_m <= 0.0) {
    return Error{
        ErrorCode::PieceLongerThanStock,
        "rail",
        {},
        {{"piece", frame.insideWidth.si() + rails_m, Dimension::Length}, {"longest", longest_m, Dimension::Length}}};
  }
  frame.insideWidth = metres(std::min(frame.insideWidth.si(), inside_m));
  frame.insideHeight = metres(std::min(frame.insideHeight.si(), inside_m));
  return true;
}

/// The inner end over the turns where the box is deep enough, else through the back; insulation gives way to the tube.
Result<Done> fitDepth(model::Document& design) {
  design.laying.innerEnd = model::InnerEnd::OverTheTurns;
  if (!design.box.glazing) return Done{};
  const double outside_m = design.tube.outsideDiameter.value.si();
  const auto spare_m = [&] { return checks::depthBudget(design, nullptr).spare.si(); };
  if (spare_m() >= outside_m + kDepthSpare_m) return Done{};
  design.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  if (spare_m() >= kDepthSpare_m) return Done{};
  if (design.box.insulation) {
    const double left_m = design.box.insulation->thickness.si() - (kDepthSpare_m - spare_m());
    if (left_m >= kThinnestInsulation) {
      design.box.insulation->thickness = metres(std::floor(left_m * 1e3) * 1e-3);
    } else {
      design.box.insulation.reset();
    }
  }
  if (spare_m() >= kDepthSpare_m) return Done{};
  const results::DepthBudget budget = checks::depthBudget(design, nullptr);
  return Error{ErrorCode::OutOfRange,
               "/frame/timber_depth_m",
               {},
               {{"value", budget.available.si(), Dimension::Length},
                {"low", budget.needed.si() + kDepthSpare_m, Dimension::Length},
                {"high", 1.0, Dimension::Length}}};
}

}  // namespace

Result<std::vector<Starting>> startings(const Have& have, const model::Document& base,
                                        std::span<const model::Tube> knownTubes) {
  if (have.sheets.empty() && have.rolls.empty()) {
    return Error{ErrorCode::NotUnderstood, {}, {}, {{"expected_sheet_or_roll", 0.0, Dimension::None}}};
  }
  const Result<std::vector<model::Tube>> tubes = tubesOf(have, base, knownTubes);
  if (!tubes.has_value()) return tubes.error();

  Starting start;
  start.design = base;
  model::Document& design = start.design;
  design.keepOuts.clear();
  design.leftSnags.clear();
  design.laying.feedShift = design.laying.returnShift = Length{};
  design.laying.quarterTurns.reset();
  design.laying.recipe = model::Recipe::RectangularSpiral;
  design.laying.cornerRule = model::CornerRule::ConstantRadius;
  if (have.pump) design.plumbing.pump = *have.pump;
  if (have.pool) design.pool.volume = *have.pool;
  putLayers(design, have);
  putSheets(design, have);
  putBoards(design, have);
  const auto inside = insideOf(have, design);
  if (!inside.has_value()) return inside.error();
  start.sizedBySheet = inside->has_value();
  int mostPanels = 1;
  if (*inside) {
    design.frame.insideWidth = metres((*inside)->width_m);
    design.frame.insideHeight = metres((*inside)->height_m);
    mostPanels = std::clamp((*inside)->count, 1, kMostPanels);
    const Result<bool> shortened = shortenToBoards(design);
    if (!shortened.has_value()) return shortened.error();
    start.boardsBind = *shortened;
  }

  std::vector<Starting> all;
  std::vector<int> counts{mostPanels};
  if (mostPanels > 1) counts.push_back(1);
  for (const model::Tube& tube : *tubes) {
    for (const int panels : counts) {
      Starting one = start;
      one.design.tube = tube;
      one.design.panelsAlike = panels;
      putRolls(one.design, have, tube, base.tube);
      one.rolls_m = usableRolls(have, tube, base.tube);
      if (const Result<Done> valid = model::validate(one.design); !valid.has_value()) return valid.error();
      if (const Result<Done> deep = fitDepth(one.design); !deep.has_value()) return deep.error();
      all.push_back(std::move(one));
    }
  }
  return all;
}

}  // namespace sunspool::propose
