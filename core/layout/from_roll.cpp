// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/from_roll.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/model/edits.h"

namespace sunspool::layout {
namespace {

using model::Document;
using model::Roll;

/// What laying these runs may take off the roll at the bad end of the spreads.
double mostTaken_m(const Document& document, const Roll& roll, double drawn_m) {
  const Uncertain<double>& wobble = document.laying.wobble;
  return drawn_m * (1.0 + wobble.value) + std::hypot(drawn_m * wobble.spread, roll.spread.si());
}

bool fits(const Document& document, const Roll& roll, const LaidPanel& panel) {
  return mostTaken_m(document, roll, panel.totalCut.si()) <= roll.length.si();
}

int oneTurn(model::Recipe recipe) {
  switch (recipe) {
    case model::Recipe::RectangularSpiral:
    case model::Recipe::DoubleSpiral:
      return 4;
    case model::Recipe::PlainSerpentine:
    case model::Recipe::BulbSerpentine:
      return 2;
  }
  return 4;
}

Result<Document> withTubeOf(const Document& document, const Roll& roll) {
  model::Tube tube = document.tube;
  if (roll.insideDiameter) tube.insideDiameter.value = *roll.insideDiameter;
  if (roll.outsideDiameter) tube.outsideDiameter.value = *roll.outsideDiameter;
  if (tube == document.tube) return document;
  tube.insideDiameter.sureness = tube.outsideDiameter.sureness = Sureness::Label;
  tube.name = roll.name;
  tube.catalogueId.clear();
  tube.bendTestCollapseRadius.reset();
  return model::withTube(document, std::move(tube));
}

struct Laid {
  int quarterTurns = 0;
  LaidPanel panel;
};

/// Lengths grow with the turns; some numbers of turns have no way out and are stepped over.
class Search {
 public:
  Search(const Document& document, const Roll& roll) : m_document(document), m_roll(roll) {}

  /// The longest legal one of at most `most` and at least `least` turns that fits.
  std::optional<Laid> longest(int least, int most) {
    std::optional<Laid> best;
    int low = least, high = most;
    while (low <= high) {
      const int middle = low + (high - low) / 2;
      std::optional<Laid> tried = legalAtMost(middle, low);
      if (tried && fits(m_document, m_roll, tried->panel)) {
        best = std::move(tried);
        low = middle + 1;
      } else if (tried) {
        high = tried->quarterTurns - 1;
      } else {
        low = middle + 1;  // none between: only longer ones are left
      }
    }
    return best;
  }
  std::optional<Laid> shortest(int least, int most) const {
    for (int turns = least; turns <= most; ++turns) {
      if (auto laid = at(turns)) return laid;
    }
    return std::nullopt;
  }

 private:
  std::optional<Laid> at(int turns) const {
    Document document = m_document;
    document.laying.quarterTurns = turns;
    Result<LaidPanel> panel = lay(document);
    if (!panel) return std::nullopt;
    return Laid{turns, std::move(*panel)};
  }
  std::optional<Laid> legalAtMost(int turns, int least) const {
    for (int tried = turns; tried >= least; --tried) {
      if (auto laid = at(tried)) return laid;
    }
    return std::nullopt;
  }

  const Document& m_document;
  const Roll& m_roll;
};

Error tooShort(const Roll& roll, double needed_m) {
  return {ErrorCode::RollTooShort,
          "/stock/rolls",
          roll.name,
          {{"needed", needed_m, Dimension::Length}, {"length", roll.length.si(), Dimension::Length}}};
}

}  // namespace

Result<LaidFromRoll> layFromRoll(const Document& document, std::size_t index) {
  if (index >= document.stock.rolls.size()) {
    return Error{ErrorCode::MissingKey, "/stock/rolls", std::to_string(index), {}};
  }
  const Roll& roll = document.stock.rolls[index];
  Result<Document> start = withTubeOf(document, roll);
  if (!start) return start.error();
  start->laying.quarterTurns.reset();
  const Result<LaidPanel> full = lay(*start);
  if (!full) return full.error();
  const int most = full->runs.empty() ? 0 : full->runs.front().quarterTurns;
  const int least = std::min(oneTurn(start->laying.recipe), most);

  LaidFromRoll result;
  std::optional<Laid> best;
  if (fits(*start, roll, *full)) {
    best = Laid{most, *full};
    result.panelFull = true;
  } else {
    Search search(*start, roll);
    best = search.longest(least, most);
    if (!best) {
      const auto shortest = search.shortest(least, most);
      const double drawn_m = shortest ? shortest->panel.totalCut.si() : full->totalCut.si();
      return tooShort(roll, mostTaken_m(*start, roll, drawn_m));
    }
  }
  Result<Document> laid = model::withQuarterTurns(*start, best->quarterTurns);
  if (!laid) return laid.error();
  const double drawn_m = best->panel.totalCut.si();
  result.tubeChanged = laid->tube != document.tube;
  result.document = std::move(*laid);
  result.quarterTurns = best->quarterTurns;
  result.cut = best->panel.totalCut;
  result.left = roll.length - metres(drawn_m * (1.0 + document.laying.wobble.value));
  result.leftAtLeast = roll.length - metres(mostTaken_m(document, roll, drawn_m));
  return result;
}

}  // namespace sunspool::layout
