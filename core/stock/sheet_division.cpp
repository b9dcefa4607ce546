// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/sheet_division.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace sunspool::stock {
namespace {

Size micrometres(Length length) { return std::llround(length.si() * 1e6); }

/// Each further piece reaches on by its size less the lap, or plus the gap.
Size overlapOf(const SheetRule& rule) {
  return rule.lap > Length{} ? micrometres(rule.lap) : -micrometres(rule.expansionGap);
}

/// Fewest equal pieces in a row that are no longer than `most`; nothing when the lap eats them all.
std::optional<Size> fewestInRow(Size whole, Size most, Size overlap) {
  if (whole <= most) return 1;
  if (most <= overlap) return std::nullopt;
  return (whole - overlap + (most - overlap) - 1) / (most - overlap);
}

std::vector<Size> alike(Size whole, Size count, Size overlap) {
  return std::vector<Size>(static_cast<std::size_t>(count), (whole + (count - 1) * overlap + count - 1) / count);
}

/// As wide as the sheet allows, and what is missing in one narrower piece.
std::optional<std::vector<Size>> filled(Size whole, Size count, Size most, Size overlap) {
  if (count < 2) return std::nullopt;
  std::vector<Size> sizes(static_cast<std::size_t>(count), most);
  sizes.back() = whole - (count - 1) * (most - overlap);
  if (sizes.back() < micrometres(kNarrowestStrip) || sizes.back() < 2 * overlap) return std::nullopt;
  return sizes;
}

struct Draft {
  DividedRectangle divided;
  bool alongLonger = true;
  bool alike = true;
};

/// Both ways of dividing for pieces that lie within width x height.
void addDrafts(std::vector<Draft>& drafts, const WantedRectangle& wanted, Length width, Length height, Size overlap) {
  const Size wholeWidth = micrometres(wanted.width);
  const Size wholeHeight = micrometres(wanted.height);
  const std::optional<Size> columns = fewestInRow(wholeWidth, micrometres(width), overlap);
  const std::optional<Size> rows = fewestInRow(wholeHeight, micrometres(height), overlap);
  if (!columns || !rows || *columns > kMostParts || *rows > kMostParts || *columns * *rows > kMostParts) return;
  const bool alongLonger = wholeWidth >= wholeHeight ? *rows == 1 : *columns == 1;
  const std::vector<Size> widths = alike(wholeWidth, *columns, overlap);
  const std::vector<Size> heights = alike(wholeHeight, *rows, overlap);
  drafts.push_back({{widths, heights}, alongLonger, true});
  const auto filledWidths = filled(wholeWidth, *columns, micrometres(width), overlap);
  const auto filledHeights = filled(wholeHeight, *rows, micrometres(height), overlap);
  if (!filledWidths && !filledHeights) return;
  drafts.push_back({{filledWidths.value_or(widths), filledHeights.value_or(heights)}, alongLonger, false});
}

Error tooLarge(const WantedRectangle& wanted, std::span<const model::StockSheet> sheets, const SheetRule& rule) {
  Length widest{};
  Length longest{};
  for (const model::StockSheet& sheet : sheets) {
    widest = std::max(widest, std::min(sheet.width, sheet.height));
    longest = std::max(longest, std::max(sheet.width, sheet.height));
  }
  if (rule.lap > Length{} && rule.lap >= widest) {
    return {ErrorCode::SheetSmallerThanLap,
            wanted.name,
            "",
            {{"sheet", widest.si(), Dimension::Length}, {"lap", rule.lap.si(), Dimension::Length}}};
  }
  return {ErrorCode::PieceLongerThanStock,
          wanted.name,
          "",
          {{"piece", std::max(wanted.width, wanted.height).si(), Dimension::Length},
           {"longest", longest.si(), Dimension::Length}}};
}

}  // namespace

Result<std::vector<DividedRectangle>> divisionsOf(const WantedRectangle& wanted,
                                                  std::span<const model::StockSheet> sheets, const SheetRule& rule) {
  std::vector<Draft> drafts;
  for (const model::StockSheet& sheet : sheets) {
    addDrafts(drafts, wanted, sheet.width, sheet.height, overlapOf(rule));
    if (sheet.canTurn) addDrafts(drafts, wanted, sheet.height, sheet.width, overlapOf(rule));
  }
  if (drafts.empty()) return tooLarge(wanted, sheets, rule);
  std::stable_sort(drafts.begin(), drafts.end(), [](const Draft& a, const Draft& b) {
    if (a.divided.pieces() != b.divided.pieces()) return a.divided.pieces() < b.divided.pieces();
    if (a.alongLonger != b.alongLonger) return a.alongLonger;
    return a.alike && !b.alike;
  });
  std::vector<DividedRectangle> fewest;
  for (const Draft& draft : drafts) {
    if (draft.divided.pieces() > drafts.front().divided.pieces()) break;
    const bool known = std::any_of(fewest.begin(), fewest.end(), [&](const DividedRectangle& other) {
      return other.widths == draft.divided.widths && other.heights == draft.divided.heights;
    });
    if (!known) fewest.push_back(draft.divided);
  }
  return fewest;
}

}  // namespace sunspool::stock
