// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/stock_sizes.h"

#include <algorithm>
#include <cmath>

namespace sunspool::stock {
namespace {

constexpr Length kSmallestSide = millimetres(100.0);
constexpr Length kSame = millimetres(0.1);
constexpr int kMostShares = 3;

bool hasLayer(const model::Box& box, model::SheetUse use) {
  switch (use) {
    case model::SheetUse::Plate:
      return box.plate.has_value();
    case model::SheetUse::Insulation:
      return box.insulation.has_value();
    case model::SheetUse::Backing:
      return box.backing.has_value();
    case model::SheetUse::Glazing:
      return box.glazing.has_value();
  }
  return false;
}

Length shareOf(Length whole, int shares, Length kerf) { return (whole - kerf * (shares - 1)) / shares; }

void addSheet(std::vector<StockSize>& sizes, const model::Document& document, const model::StockSheet& sheet,
              FrameSide side) {
  if (!hasLayer(document.box, sheet.use)) return;
  const Length over = sheet.use == model::SheetUse::Glazing ? document.box.glazing->overlap * 2.0 : Length::fromSi(0.0);
  std::vector<Length> wholes = {side == FrameSide::Width ? sheet.width : sheet.height};
  if (sheet.canTurn) wholes.push_back(side == FrameSide::Width ? sheet.height : sheet.width);
  for (const Length whole : wholes) {
    for (int shares = 1; shares <= kMostShares; ++shares) {
      sizes.push_back(
          {shareOf(whole, shares, document.stock.kerf) - over, StockSize::Part::Sheet, sheet.name, sheet.use, shares});
    }
  }
}

void addTimber(std::vector<StockSize>& sizes, const model::Document& document, const model::TimberStock& timber,
               FrameSide side) {
  const bool rail = side == FrameSide::Width;
  const bool through = rail == document.frame.railsThrough;
  const Length over = through ? document.frame.timberWidth * 2.0 : Length::fromSi(0.0);
  const Length usable = timber.length - document.stock.squaringAllowance;
  for (int shares = 1; shares <= kMostShares; ++shares) {
    sizes.push_back({shareOf(usable, shares, document.stock.kerf) - over,
                     rail ? StockSize::Part::Rail : StockSize::Part::Stile, timber.name, model::SheetUse::Plate,
                     shares});
  }
}

}  // namespace

std::vector<StockSize> stockSizes(const model::Document& document, FrameSide side) {
  std::vector<StockSize> sizes;
  for (const model::StockSheet& sheet : document.stock.sheets) addSheet(sizes, document, sheet, side);
  for (const model::TimberStock& timber : document.stock.timbers) addTimber(sizes, document, timber, side);
  std::erase_if(sizes, [](const StockSize& size) { return size.inside < kSmallestSide; });
  std::stable_sort(sizes.begin(), sizes.end(),
                   [](const StockSize& a, const StockSize& b) { return a.inside < b.inside; });
  const auto better = [](const StockSize& a, const StockSize& b) {
    const bool aSheet = a.part == StockSize::Part::Sheet, bSheet = b.part == StockSize::Part::Sheet;
    return aSheet != bSheet ? aSheet : a.shares < b.shares;
  };
  std::vector<StockSize> kept;
  for (StockSize& size : sizes) {
    if (kept.empty() || size.inside - kept.back().inside > kSame) {
      kept.push_back(std::move(size));
    } else if (better(size, kept.back())) {
      kept.back() = std::move(size);
    }
  }
  return kept;
}

}  // namespace sunspool::stock
