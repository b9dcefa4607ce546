// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/sheets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

#include "core/stock/guillotine.h"
#include "core/stock/sheet_division.h"

namespace sunspool::stock {
namespace {

constexpr double kMicrometresPerMetre = 1e6;
constexpr double kPriceUnits = 1e4;
constexpr int kMostPieces = 2000;
constexpr int kMostOwned = 5000;
constexpr double kLargestSheet_m = 1e3;
constexpr double kHighestPrice = 1e9;
constexpr double kMostGrowth = 0.2;
/// Together some milliseconds at the very most.
constexpr long kStepsForFillings = 20000;
constexpr long kStepsForCover = 20000;
constexpr std::size_t kMostDivisions = 12;
constexpr std::size_t kMostForLeftover = 24;

Size micrometres(Length length) { return std::llround(length.si() * kMicrometresPerMetre); }
Length fromMicrometres(Size size) { return metres(static_cast<double>(size) / kMicrometresPerMetre); }

// ---- reading the input

Error outOfRange(std::string where, double found, double lowest, double highest, Dimension dimension) {
  if (!std::isfinite(found)) return {ErrorCode::NotFinite, std::move(where), "", {}};
  return {ErrorCode::OutOfRange,
          std::move(where),
          "",
          {{"found", found, dimension}, {"lowest", lowest, dimension}, {"highest", highest, dimension}}};
}

std::optional<Error> faultInWanted(std::span<const WantedRectangle> wanted) {
  long pieces = 0;
  for (const WantedRectangle& rectangle : wanted) {
    for (const Length side : {rectangle.width, rectangle.height}) {
      if (!(side.si() > 0.0 && side.si() <= kLargestSheet_m)) {
        return outOfRange(rectangle.name, side.si(), 0.0, kLargestSheet_m, Dimension::Length);
      }
    }
    if (rectangle.count < 0) return outOfRange(rectangle.name, rectangle.count, 0.0, kMostPieces, Dimension::Count);
    pieces += rectangle.count;
  }
  if (pieces > kMostPieces) {
    return outOfRange("pieces", static_cast<double>(pieces), 0.0, kMostPieces, Dimension::Count);
  }
  return std::nullopt;
}

std::optional<Error> faultInSheets(std::span<const model::StockSheet> sheets) {
  for (const model::StockSheet& sheet : sheets) {
    for (const Length side : {sheet.width, sheet.height}) {
      if (!(side.si() > 0.0 && side.si() <= kLargestSheet_m)) {
        return outOfRange(sheet.name, side.si(), 0.0, kLargestSheet_m, Dimension::Length);
      }
    }
    if (sheet.owned < 0 || sheet.owned > kMostOwned) {
      return outOfRange(sheet.name, sheet.owned, 0.0, kMostOwned, Dimension::Count);
    }
    if (sheet.price && !(*sheet.price >= 0.0 && *sheet.price <= kHighestPrice)) {
      return outOfRange(sheet.name, *sheet.price, 0.0, kHighestPrice, Dimension::Money);
    }
  }
  return std::nullopt;
}

std::optional<Error> faultInRule(const SheetRule& rule) {
  for (const auto& [where, length] :
       {std::pair{"kerf", rule.kerf}, std::pair{"lap", rule.lap}, std::pair{"expansion_gap", rule.expansionGap}}) {
    if (!(length.si() >= 0.0 && length.si() <= kLargestSheet_m)) {
      return outOfRange(where, length.si(), 0.0, kLargestSheet_m, Dimension::Length);
    }
  }
  if (!(rule.growth >= 0.0 && rule.growth <= kMostGrowth)) {
    return outOfRange("growth", rule.growth, 0.0, kMostGrowth, Dimension::None);
  }
  return std::nullopt;
}

/// Growth taken off; OutOfRange when nothing is left.
Result<std::vector<WantedRectangle>> withRoomToGrow(std::span<const WantedRectangle> wanted, const SheetRule& rule) {
  std::vector<WantedRectangle> cut(wanted.begin(), wanted.end());
  for (WantedRectangle& rectangle : cut) {
    for (Length* side : {&rectangle.width, &rectangle.height}) {
      const Length before = *side;
      *side = before * (1.0 - rule.growth) - rule.expansionGap;
      if (micrometres(*side) < 1) {
        return outOfRange("expansion_gap", rule.expansionGap.si(), 0.0, before.si(), Dimension::Length);
      }
    }
  }
  return cut;
}

// ---- the problem in whole numbers

/// Compared term by term: price (when known), bought number, bought area, owned number, owned area.
using Cost = std::array<std::int64_t, 5>;
constexpr Cost kUnlimited{std::numeric_limits<std::int64_t>::max(), 0, 0, 0, 0};
Cost sum(Cost a, const Cost& b) {
  for (std::size_t q = 0; q < a.size(); ++q) a[q] += b[q];
  return a;
}

/// One piece: of which rectangle, and which of its parts.
struct Part {
  std::size_t wanted = 0;
  int part = 0;
};
struct Offer {
  std::size_t stock = 0;
  Blank blank;
  Cost cost{};
};
struct Problem {
  std::vector<RectangleKind> kinds;       ///< kerf added
  std::vector<std::vector<Part>> partOf;  ///< per kind, one entry a piece
  std::vector<Offer> forSale;             ///< one for each kind of sheet, in the order given
  std::vector<Offer> owned;               ///< one for each sheet, largest first
  bool byPrice = true;
};

/// Area in square millimetres, kerf added: small enough to be added up as whole numbers.
std::int64_t area(Size width, Size height) {
  return static_cast<std::int64_t>(std::llround(static_cast<double>(width) * static_cast<double>(height) / 1e6));
}
std::int64_t area(const Blank& blank) { return area(blank.width, blank.height); }

void addKinds(Problem& problem, std::span<const WantedRectangle> wanted, std::span<const DividedRectangle> divided,
              Size kerf) {
  for (std::size_t w = 0; w < wanted.size(); ++w) {
    for (int piece = 0; wanted[w].count > 0 && piece < divided[w].pieces(); ++piece) {
      const auto columns = static_cast<int>(divided[w].widths.size());
      const Size width = divided[w].widths[static_cast<std::size_t>(piece % columns)] + kerf;
      const Size height = divided[w].heights[static_cast<std::size_t>(piece / columns)] + kerf;
      auto kind = std::find_if(problem.kinds.begin(), problem.kinds.end(),
                               [&](const RectangleKind& k) { return k.width == width && k.height == height; });
      if (kind == problem.kinds.end()) {
        problem.kinds.push_back({width, height, 0});
        problem.partOf.emplace_back();
        kind = problem.kinds.end() - 1;
      }
      kind->count += wanted[w].count;
      std::vector<Part>& parts = problem.partOf[static_cast<std::size_t>(kind - problem.kinds.begin())];
      parts.insert(parts.end(), static_cast<std::size_t>(wanted[w].count), {w, piece});
    }
  }
}

void addOffers(Problem& problem, std::span<const model::StockSheet> sheets, Size kerf) {
  int pieces = 0;
  for (const RectangleKind& kind : problem.kinds) pieces += kind.count;
  for (const model::StockSheet& sheet : sheets) problem.byPrice = problem.byPrice && sheet.price.has_value();
  for (std::size_t s = 0; s < sheets.size(); ++s) {
    const Blank blank{micrometres(sheets[s].width) + kerf, micrometres(sheets[s].height) + kerf, sheets[s].canTurn};
    const std::int64_t price = problem.byPrice ? std::llround(*sheets[s].price * kPriceUnits) : 0;
    problem.forSale.push_back({s, blank, {price, 1, area(blank), 0, 0}});
    for (int copy = 0; copy < std::min(sheets[s].owned, pieces); ++copy) {
      problem.owned.push_back({s, blank, {0, 0, 0, 1, area(blank)}});
    }
  }
  std::stable_sort(problem.owned.begin(), problem.owned.end(),
                   [](const Offer& a, const Offer& b) { return area(a.blank) > area(b.blank); });
}

std::vector<int> allPieces(const Problem& problem) {
  std::vector<int> counts;
  for (const RectangleKind& kind : problem.kinds) counts.push_back(kind.count);
  return counts;
}
bool isDone(const std::vector<int>& left) {
  return std::all_of(left.begin(), left.end(), [](int count) { return count == 0; });
}

// ---- which sheets, and what from each

struct Taken {
  std::size_t stock = 0;
  bool owned = false;
  SheetFilling filling;  ///< may hold more pieces than are still wanted
};
struct Draft {
  std::vector<Taken> sheets;
  Cost cost = kUnlimited;
  bool exact = false;
};

/// Cheapest way to cut all pieces: owned sheets one after another, each left out or filled in one of its undominated
/// ways, then bought sheets, the next of which always holds a piece of the first kind that is left.
class Cover {
 public:
  Cover(const Problem& problem, const std::vector<SheetFillings>& fillingsOf)
      : m_problem(problem), m_fillingsOf(fillingsOf) {}

  Draft run() {
    Draft draft;
    std::vector<int> left = allPieces(m_problem);
    draft.cost = best(0, left);
    draft.exact = m_steps > 0;
    if (draft.cost == kUnlimited) return draft;
    std::size_t owned = 0;
    while (!isDone(left)) {
      const Choice choice = m_known.at(keyOf(owned, left)).choice;
      owned = choice.next;
      if (!choice.offer) continue;
      const SheetFilling& filling = m_fillingsOf[choice.offer->stock].all[choice.filling];
      left = without(left, filling.counts);
      draft.sheets.push_back({choice.offer->stock, choice.owned, filling});
    }
    return draft;
  }

 private:
  struct Choice {
    const Offer* offer = nullptr;  ///< none: the next owned sheets of this kind stay untouched
    std::size_t filling = 0;
    std::size_t next = 0;  ///< owned sheet that is decided on next
    bool owned = false;
  };
  struct Known {
    Cost cost = kUnlimited;
    Choice choice;
  };

  static std::string keyOf(std::size_t owned, const std::vector<int>& left) {
    std::string key;
    const auto append = [&key](std::size_t count) {
      key.push_back(static_cast<char>(count & 0xff));
      key.push_back(static_cast<char>((count >> 8) & 0xff));
    };
    append(owned);
    for (const int count : left) append(static_cast<std::size_t>(count));
    return key;
  }
  static std::vector<int> without(std::vector<int> left, const std::vector<int>& cut) {
    for (std::size_t k = 0; k < left.size(); ++k) left[k] = std::max(0, left[k] - cut[k]);
    return left;
  }

  Cost best(std::size_t owned, const std::vector<int>& left) {
    if (isDone(left)) return {};
    const std::string key = keyOf(owned, left);
    if (const auto known = m_known.find(key); known != m_known.end()) return known->second.cost;
    if (--m_steps <= 0) return kUnlimited;
    Known found;
    const auto consider = [&](const Cost& cost, const Choice& choice) {
      if (cost < found.cost) found = {cost, choice};
    };
    if (owned < m_problem.owned.size()) {
      considerOwned(owned, left, consider);
    } else {
      considerBought(left, consider);
    }
    m_known[key] = found;
    return found.cost;
  }

  template <class F>
  void considerOwned(std::size_t owned, const std::vector<int>& left, const F& consider) {
    const Offer& offer = m_problem.owned[owned];
    std::size_t others = owned;
    while (others < m_problem.owned.size() && m_problem.owned[others].stock == offer.stock) ++others;
    consider(best(others, left), {nullptr, 0, others, true});
    considerFillings(offer, left, owned + 1, true, consider);
  }
  template <class F>
  void considerBought(const std::vector<int>& left, const F& consider) {
    for (const Offer& offer : m_problem.forSale) considerFillings(offer, left, m_problem.owned.size(), false, consider);
  }
  template <class F>
  void considerFillings(const Offer& offer, const std::vector<int>& left, std::size_t next, bool owned,
                        const F& consider) {
    const auto first = std::find_if(left.begin(), left.end(), [](int count) { return count > 0; });
    const auto firstKind = static_cast<std::size_t>(first - left.begin());
    const std::vector<SheetFilling>& fillings = m_fillingsOf[offer.stock].all;
    for (std::size_t f = 0; f < fillings.size() && m_steps > 0; ++f) {
      if (!owned && fillings[f].counts[firstKind] == 0) continue;
      std::vector<int> rest = without(left, fillings[f].counts);
      if (rest == left) continue;
      const Cost further = best(next, rest);
      if (further != kUnlimited) consider(sum(further, offer.cost), {&offer, f, next, owned});
    }
  }

  const Problem& m_problem;
  const std::vector<SheetFillings>& m_fillingsOf;
  long m_steps = kStepsForCover;
  std::unordered_map<std::string, Known> m_known;
};

/// Fills one sheet after another with what is left, the owned ones first.
Draft quickDraft(const Problem& problem, const Offer& preferred) {
  Draft draft;
  draft.cost = {};
  std::vector<RectangleKind> left = problem.kinds;
  const auto fill = [&](const Offer& offer, bool owned) {
    SheetFilling filling = quickFilling(left, offer.blank);
    if (filling.pieces.empty()) return false;
    for (std::size_t k = 0; k < left.size(); ++k) left[k].count -= filling.counts[k];
    draft.cost = sum(draft.cost, offer.cost);
    draft.sheets.push_back({offer.stock, owned, std::move(filling)});
    return true;
  };
  for (const Offer& offer : problem.owned) fill(offer, true);
  const auto isLeft = [](const RectangleKind& kind) { return kind.count > 0; };
  while (std::any_of(left.begin(), left.end(), isLeft)) {
    if (!fill(preferred, false)) return {};
  }
  return draft;
}

std::int64_t wantedArea(const Problem& problem) {
  std::int64_t wanted = 0;
  for (const RectangleKind& kind : problem.kinds) wanted += kind.count * area(kind.width, kind.height);
  return wanted;
}

/// No plan uses fewer sheets, or buys fewer beside the owned ones, by the areas alone.
int areaBound(const Problem& problem, bool boughtOnly) {
  std::int64_t wanted = wantedArea(problem);
  // Each area is rounded to a square millimetre: half of one a piece and a sheet may be lacking.
  for (const RectangleKind& kind : problem.kinds) wanted -= kind.count;
  if (boughtOnly) {
    for (const Offer& offer : problem.owned) wanted -= area(offer.blank) + 1;
  }
  std::int64_t most = 1;
  for (const Offer& offer : problem.forSale) most = std::max(most, area(offer.blank) + 1);
  return wanted <= 0 ? 0 : static_cast<int>((wanted + most - 1) / most);
}

/// Fewest sheets of any kind, whether owned or not.
int fewestSheets(Problem problem, const std::vector<SheetFillings>& fillingsOf) {
  problem.owned.clear();
  for (Offer& offer : problem.forSale) offer.cost = {0, 1, 0, 0, 0};
  const Draft draft = Cover(problem, fillingsOf).run();
  return draft.exact ? static_cast<int>(draft.cost[1]) : 0;
}

struct Solved {
  Draft draft;
  int lowerBound = 0;
  bool proven = false;
  bool byArea = false;
};

Solved solve(const Problem& problem) {
  Solved solved;
  for (const Offer& preferred : problem.forSale) {
    Draft quick = quickDraft(problem, preferred);
    if (quick.cost < solved.draft.cost) solved.draft = std::move(quick);
  }
  std::vector<SheetFillings> fillingsOf;
  long steps = kStepsForFillings;
  bool exact = true;
  for (const Offer& offer : problem.forSale) {
    fillingsOf.push_back(undominatedFillings(problem.kinds, offer.blank, steps));
    exact = exact && fillingsOf.back().exact;
  }
  const int byArea = areaBound(problem, false);
  solved.lowerBound = byArea;
  if (exact) {
    Draft covered = Cover(problem, fillingsOf).run();
    exact = covered.exact;
    if (covered.cost <= solved.draft.cost) solved.draft = std::move(covered);
    if (exact) solved.lowerBound = std::max(byArea, fewestSheets(problem, fillingsOf));
  }
  const auto bought = static_cast<int>(solved.draft.cost[1]);
  solved.byArea = bought <= areaBound(problem, true) && (bought == 0 || problem.forSale.size() == 1);
  solved.proven = exact || solved.byArea;
  return solved;
}

// ---- the plan

class PlanMaker {
 public:
  PlanMaker(const Problem& problem, std::span<const WantedRectangle> wanted, std::span<const model::StockSheet> sheets,
            const SheetRule& rule)
      : m_problem(problem), m_kerf(micrometres(rule.kerf)), m_nextOf(problem.kinds.size(), 0) {
    m_plan.wanted.assign(wanted.begin(), wanted.end());
    m_plan.stock.assign(sheets.begin(), sheets.end());
    m_plan.rule = rule;
  }

  SheetPlan make(Solved solved, std::span<const DividedRectangle> divided) {
    for (std::size_t w = 0; w < divided.size(); ++w) {
      const Division division = divided[w].division();
      m_plan.divisions.push_back(division);
      m_plan.joints += m_plan.wanted[w].count * (division.columns + division.rows - 2);
    }
    for (const Taken& taken : solved.draft.sheets) m_plan.patterns.push_back(patternOf(taken));
    order();
    m_plan.sheetsUsed = static_cast<int>(m_plan.patterns.size());
    m_plan.lowerBound = std::min(solved.lowerBound, m_plan.sheetsUsed);
    m_plan.proven = solved.proven;
    m_plan.proof = solved.byArea ? "area bound" : "search";
    addUp();
    return std::move(m_plan);
  }

 private:
  SheetPattern patternOf(const Taken& taken) {
    SheetPattern pattern;
    pattern.stock = taken.stock;
    pattern.owned = taken.owned;
    std::vector<Spot> spots;
    for (const Placement& placed : taken.filling.pieces) {
      const RectangleKind& kind = m_problem.kinds[placed.kind];
      std::size_t& next = m_nextOf[placed.kind];
      if (next >= m_problem.partOf[placed.kind].size()) continue;  // more fit than are wanted
      const Part& part = m_problem.partOf[placed.kind][next++];
      const Spot spot{placed.x, placed.y, placed.turned ? kind.height : kind.width,
                      placed.turned ? kind.width : kind.height};
      spots.push_back(spot);
      pattern.pieces.push_back({part.wanted, part.part, fromMicrometres(spot.x), fromMicrometres(spot.y),
                                fromMicrometres(spot.width - m_kerf), fromMicrometres(spot.height - m_kerf),
                                placed.turned});
    }
    if (spots.size() > kMostForLeftover) return pattern;
    const std::optional<Spot> left = largestLeft(spots, m_problem.forSale[taken.stock].blank);
    SUNSPOOL_ASSERT(left.has_value(), "every filling can be cut edge to edge");
    if (left->width > m_kerf && left->height > m_kerf) {
      pattern.freeWidth = fromMicrometres(left->width - m_kerf);
      pattern.freeHeight = fromMicrometres(left->height - m_kerf);
    }
    return pattern;
  }
  static double usedArea_m2(const SheetPattern& pattern) {
    double used = 0.0;
    for (const PlacedPiece& piece : pattern.pieces) used += (piece.width * piece.height).si();
    return used;
  }
  void order() {
    std::stable_sort(m_plan.patterns.begin(), m_plan.patterns.end(), [](const SheetPattern& a, const SheetPattern& b) {
      if (a.owned != b.owned) return a.owned;
      if (a.stock != b.stock) return a.stock < b.stock;
      return usedArea_m2(a) > usedArea_m2(b) + 1e-9;
    });
  }
  void addUp() {
    double used_m2 = 0.0;
    double whole_m2 = 0.0;
    m_plan.price = 0.0;
    for (const SheetPattern& pattern : m_plan.patterns) {
      const model::StockSheet& sheet = m_plan.stock[pattern.stock];
      used_m2 += usedArea_m2(pattern);
      whole_m2 += (sheet.width * sheet.height).si();
      if (pattern.owned) continue;
      ++m_plan.bought;
      m_plan.price = m_plan.price && sheet.price ? model::Price(*m_plan.price + *sheet.price) : std::nullopt;
    }
    m_plan.waste = whole_m2 > 0.0 ? 1.0 - used_m2 / whole_m2 : 0.0;
  }

  const Problem& m_problem;
  Size m_kerf;
  std::vector<std::size_t> m_nextOf;
  SheetPlan m_plan;
};

/// One choice of division for each rectangle.
using Chosen = std::vector<DividedRectangle>;

std::vector<Chosen> choicesOf(const std::vector<std::vector<DividedRectangle>>& divisions) {
  std::vector<Chosen> choices{{}};
  for (const std::vector<DividedRectangle>& ways : divisions) {
    std::vector<Chosen> longer;
    for (const DividedRectangle& way : ways) {
      for (Chosen choice : choices) {
        choice.push_back(way);
        longer.push_back(std::move(choice));
      }
    }
    if (longer.size() > kMostDivisions) longer.resize(kMostDivisions);
    choices = std::move(longer);
  }
  return choices;
}

}  // namespace

Result<SheetPlan> planSheets(std::span<const WantedRectangle> wanted, std::span<const model::StockSheet> sheets,
                             const SheetRule& rule) {
  if (const auto fault = faultInRule(rule)) return *fault;
  if (const auto fault = faultInWanted(wanted)) return *fault;
  if (const auto fault = faultInSheets(sheets)) return *fault;
  if (sheets.empty()) return Error{ErrorCode::NoStock, "sheets", "", {}};
  const Result<std::vector<WantedRectangle>> cut = withRoomToGrow(wanted, rule);
  if (!cut) return cut.error();

  std::vector<std::vector<DividedRectangle>> divisions;
  long pieces = 0;
  for (const WantedRectangle& rectangle : *cut) {
    Result<std::vector<DividedRectangle>> ways = divisionsOf(rectangle, sheets, rule);
    if (!ways) return ways.error();
    pieces += static_cast<long>(rectangle.count) * ways->front().pieces();
    divisions.push_back(*std::move(ways));
  }
  if (pieces > kMostPieces) {
    return outOfRange("pieces", static_cast<double>(pieces), 0.0, kMostPieces, Dimension::Count);
  }

  std::optional<SheetPlan> best;
  Cost bestCost = kUnlimited;
  for (const Chosen& choice : choicesOf(divisions)) {
    Problem problem;
    addKinds(problem, *cut, choice, micrometres(rule.kerf));
    addOffers(problem, sheets, micrometres(rule.kerf));
    Solved solved = solve(problem);
    if (!(solved.draft.cost < bestCost)) continue;
    bestCost = solved.draft.cost;
    best = PlanMaker(problem, *cut, sheets, rule).make(std::move(solved), choice);
  }
  SUNSPOOL_ASSERT(best.has_value(), "some sheet on sale holds every piece");
  return *std::move(best);
}

}  // namespace sunspool::stock
