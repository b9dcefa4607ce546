// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/cutting.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <optional>
#include <queue>

#include "core/stock/drafts.h"
#include "core/stock/packing.h"

namespace sunspool::stock {
namespace {

constexpr double kMicrometresPerMetre = 1e6;
constexpr double kPriceUnits = 1e4;
constexpr int kMostPieces = 5000;
constexpr int kMostOwned = 5000;
constexpr double kLongestStock_m = 1e5;
constexpr double kHighestPrice = 1e9;
/// Together some tens of milliseconds.
constexpr long kStepsFirst = 50000;
constexpr long kStepsForBuying = 400000;
constexpr long kStepsForOwned = 60000;
constexpr int kMostSupplies = 20000;

// ---- reading the input

Error outOfRange(std::string where, double found, double lowest, double highest, Dimension dimension) {
  if (!std::isfinite(found)) return {ErrorCode::NotFinite, std::move(where), "", {}};
  return {ErrorCode::OutOfRange,
          std::move(where),
          "",
          {{"found", found, dimension}, {"lowest", lowest, dimension}, {"highest", highest, dimension}}};
}

std::optional<Error> faultIn(std::span<const WantedPiece> wanted, std::span<const StockLength> stock,
                             const CutRule& rule) {
  long pieces = 0;
  for (const WantedPiece& piece : wanted) {
    const double length_m = piece.length.si();
    if (!(length_m > 0.0 && length_m <= kLongestStock_m)) {
      return outOfRange(piece.name, length_m, 0.0, kLongestStock_m, Dimension::Length);
    }
    if (piece.count < 0) return outOfRange(piece.name, piece.count, 0.0, kMostPieces, Dimension::Count);
    pieces += piece.count;
  }
  if (pieces > kMostPieces) {
    return outOfRange("pieces", static_cast<double>(pieces), 0.0, kMostPieces, Dimension::Count);
  }
  for (const StockLength& length : stock) {
    if (!(length.length.si() > 0.0 && length.length.si() <= kLongestStock_m)) {
      return outOfRange(length.name, length.length.si(), 0.0, kLongestStock_m, Dimension::Length);
    }
    if (length.owned < 0 || length.owned > kMostOwned) {
      return outOfRange(length.name, length.owned, 0.0, kMostOwned, Dimension::Count);
    }
    if (length.price && !(*length.price >= 0.0 && *length.price <= kHighestPrice)) {
      return outOfRange(length.name, *length.price, 0.0, kHighestPrice, Dimension::Money);
    }
  }
  for (const auto& [where, loss] : {std::pair{"kerf", rule.kerf}, std::pair{"squaring", rule.squaring}}) {
    if (!(loss.si() >= 0.0 && loss.si() <= kLongestStock_m)) {
      return outOfRange(where, loss.si(), 0.0, kLongestStock_m, Dimension::Length);
    }
  }
  return std::nullopt;
}

Size micrometres(Length length) { return std::llround(length.si() * kMicrometresPerMetre); }

Length fromMicrometres(Size size) { return metres(static_cast<double>(size) / kMicrometresPerMetre); }

void addKinds(Problem& problem, std::span<const WantedPiece> wanted, Size kerf) {
  std::map<Size, std::vector<std::size_t>, std::greater<>> bySize;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (wanted[i].count == 0) continue;
    std::vector<std::size_t>& same = bySize[std::max<Size>(1, micrometres(wanted[i].length)) + kerf];
    same.insert(same.end(), static_cast<std::size_t>(wanted[i].count), i);
  }
  for (auto& [size, pieces] : bySize) {
    problem.kinds.push_back({size, static_cast<int>(pieces.size())});
    problem.pieces += static_cast<int>(pieces.size());
    problem.wantedOf.push_back(std::move(pieces));
  }
}

/// Only stock that holds at least the smallest piece counts.
void addOffers(Problem& problem, std::span<const StockLength> stock, const CutRule& rule) {
  const Size kerf = micrometres(rule.kerf);
  const auto roomOf = [&](const StockLength& s) { return micrometres(s.length) - micrometres(rule.squaring) + kerf; };
  const Size smallest = problem.kinds.back().size;
  for (const StockLength& s : stock) {
    if (roomOf(s) >= smallest && (s.canBuy || s.owned > 0)) problem.capacities.push_back(roomOf(s));
  }
  std::sort(problem.capacities.begin(), problem.capacities.end(), std::greater<>());
  problem.capacities.erase(std::unique(problem.capacities.begin(), problem.capacities.end()), problem.capacities.end());
  problem.byPrice = true;
  for (const StockLength& s : stock) {
    if (s.canBuy && !s.price && roomOf(s) >= smallest) problem.byPrice = false;
  }
  for (std::size_t i = 0; i < stock.size(); ++i) {
    const StockLength& s = stock[i];
    if (roomOf(s) < smallest) continue;
    const auto at = std::find(problem.capacities.begin(), problem.capacities.end(), roomOf(s));
    const auto capacity = static_cast<std::size_t>(at - problem.capacities.begin());
    if (s.owned > 0) {
      problem.owned.push_back({capacity, i, std::min(s.owned, problem.pieces), {0, 1, micrometres(s.length)}});
    }
    if (s.canBuy) {
      const std::int64_t price = problem.byPrice ? std::llround(*s.price * kPriceUnits) : 0;
      problem.forSale.push_back({capacity, i, problem.pieces, {price, 1, micrometres(s.length)}});
    }
  }
}

void addCuts(Problem& problem) {
  problem.cuts.push_back(volumeCut(problem.kinds, problem.capacities));
  if (problem.kinds.size() > kMostKinds) return;
  std::vector<double> costs(problem.capacities.size(), 1.0);
  problem.cuts.push_back(dualCut(problem.kinds, problem.capacities, costs));
  if (problem.capacities.size() == 1) return;
  for (std::size_t k = 0; k < costs.size(); ++k) costs[k] = static_cast<double>(problem.capacities[k]);
  problem.cuts.push_back(dualCut(problem.kinds, problem.capacities, costs));
  if (!problem.byPrice || problem.forSale.empty()) return;
  double dearest = 0.0;  // per micrometre: what is only owned is weighed as dear, so that it does not spoil the weights
  for (const Offer& offer : problem.forSale) {
    dearest =
        std::max(dearest, static_cast<double>(offer.cost[0]) / static_cast<double>(problem.capacities[offer.capacity]));
  }
  if (!(dearest > 0.0)) return;
  for (std::size_t k = 0; k < costs.size(); ++k) costs[k] = dearest * static_cast<double>(problem.capacities[k]);
  for (const Offer& offer : problem.forSale) {
    costs[offer.capacity] = std::min(costs[offer.capacity], static_cast<double>(offer.cost[0]));
  }
  if (*std::min_element(costs.begin(), costs.end()) > 0.0) {
    problem.cuts.push_back(dualCut(problem.kinds, problem.capacities, costs));
  }
}

// ---- what to take

std::vector<int> availableOf(const Problem& problem, std::span<const Offer> offers, const Supply& supply) {
  std::vector<int> available(problem.capacities.size(), 0);
  for (std::size_t k = 0; k < offers.size(); ++k) available[offers[k].capacity] += supply[k];
  return available;
}

Supply limitsOf(std::span<const Offer> offers) {
  Supply supply;
  for (const Offer& offer : offers) supply.push_back(offer.limit);
  return supply;
}

/// Least further cost, term by term, to meet every cut with offers from `from` on; nullopt when they cannot.
std::optional<Cost> furtherCost(const Problem& problem, std::span<const Offer> offers, std::size_t from,
                                std::span<const int> available) {
  Cost least{};
  for (const Cut& cut : problem.cuts) {
    std::int64_t missing = cut.wanted;
    for (std::size_t k = 0; k < available.size(); ++k) missing -= available[k] * cut.mostIn[k];
    if (missing <= 0) continue;
    for (std::size_t q = 0; q < least.size(); ++q) {
      double cheapest = std::numeric_limits<double>::infinity();
      for (std::size_t k = from; k < offers.size(); ++k) {
        const auto most = static_cast<double>(cut.mostIn[offers[k].capacity]);
        if (most > 0.0) cheapest = std::min(cheapest, static_cast<double>(offers[k].cost[q]) / most);
      }
      if (!std::isfinite(cheapest)) return std::nullopt;
      const double bound = std::ceil(static_cast<double>(missing) * cheapest * (1.0 - 1e-12) - 1e-6);
      least[q] = std::max(least[q], static_cast<std::int64_t>(bound));
    }
  }
  return least;
}

struct SupplySearch {
  std::optional<Supply> supply;
  std::vector<Bin> bins;
  Cost lowerBound{};
  bool decided = false;    ///< the supply is the cheapest, or none cheaper than the incumbent exists
  bool boundAlone = true;  ///< no packing search had to refuse a supply
};

struct Node {
  Cost bound;
  Supply supply;
  std::size_t last = 0;
  bool operator>(const Node& other) const { return bound != other.bound ? bound > other.bound : supply > other.supply; }
};

/// Cheapest supply from the offers, beside the fixed one, that holds all pieces and costs less than the incumbent.
SupplySearch cheapestSupply(const Problem& problem, std::span<const Offer> offers, std::span<const int> fixed,
                            const Cost& incumbent, long steps) {
  SupplySearch result;
  std::priority_queue<Node, std::vector<Node>, std::greater<>> open;
  if (const auto root = furtherCost(problem, offers, 0, fixed)) open.push({*root, Supply(offers.size(), 0), 0});
  bool undecided = false;
  result.lowerBound = incumbent;
  for (int expanded = 0; !open.empty() && steps > 0 && expanded < kMostSupplies; ++expanded) {
    const Node node = open.top();
    open.pop();
    if (!(node.bound < incumbent)) break;
    std::vector<int> available(fixed.begin(), fixed.end());
    for (std::size_t k = 0; k < offers.size(); ++k) available[offers[k].capacity] += node.supply[k];
    const bool meetsCuts = furtherCost(problem, offers, offers.size(), available).has_value();
    if (meetsCuts) {
      Packing packing = pack(problem.kinds, problem.capacities, available, problem.cuts, steps);
      if (packing.answer == Packed::Yes) {
        if (!undecided) result.lowerBound = costOf(offers, node.supply);
        result.supply = node.supply;
        result.bins = std::move(packing.bins);
        result.decided = !undecided;
        return result;
      }
      result.boundAlone = false;
      if (packing.answer == Packed::NotDecided && !undecided) {
        undecided = true;
        result.lowerBound = costOf(offers, node.supply);
      }
    }
    const Cost spent = costOf(offers, node.supply);
    for (std::size_t k = node.last; k < offers.size(); ++k) {
      if (node.supply[k] >= offers[k].limit) continue;
      Node child{spent + offers[k].cost, node.supply, k};
      ++child.supply[k];
      std::vector<int> withChild = available;
      ++withChild[offers[k].capacity];
      const auto further = furtherCost(problem, offers, k, withChild);
      if (!further) continue;
      child.bound = std::max(child.bound + *further, node.bound);
      if (child.bound < incumbent) open.push(std::move(child));
    }
  }
  const bool exhausted = open.empty() || !(open.top().bound < incumbent);
  if (!undecided && !exhausted) result.lowerBound = std::min(open.top().bound, incumbent);
  result.decided = exhausted && !undecided;
  return result;
}

// ---- the plan

CutPattern patternOf(const Bin& bin, const Offer& offer, bool owned, const StockLength& stock, const CutRule& rule,
                     const std::vector<std::vector<std::size_t>>& wantedOf, std::vector<std::size_t>& nextOf,
                     const Problem& problem) {
  CutPattern pattern;
  pattern.stock = offer.stock;
  pattern.owned = owned;
  const Size kerf = micrometres(rule.kerf);
  const Size squaring = micrometres(rule.squaring);
  Size withKerfs = 0;
  for (std::size_t i = 0; i < bin.counts.size(); ++i) {
    withKerfs += bin.counts[i] * problem.kinds[i].size;
    for (int n = 0; n < bin.counts[i]; ++n) pattern.pieces.push_back(wantedOf[i][nextOf[i]++]);
  }
  const Size whole = micrometres(stock.length);
  const Size spare = whole - (squaring + withKerfs - kerf);
  const Size left = std::max<Size>(0, spare - kerf);
  pattern.spare = fromMicrometres(spare);
  pattern.left = fromMicrometres(left);
  pattern.used = fromMicrometres(whole - left);
  pattern.noSquaringAllowance = spare < kerf || (squaring == 0 && pattern.spare < kJustFits);
  return pattern;
}

/// Gives every filled bin a stock length of its capacity: owned ones first, then the bought ones.
std::vector<CutPattern> patternsOf(const Problem& problem, std::vector<Bin> bins, const Supply& bought,
                                   std::span<const StockLength> stock, const CutRule& rule) {
  std::erase_if(bins, isEmpty);
  // Fullest first by content: the larger pieces lead, so equal bins stand together.
  std::sort(bins.begin(), bins.end(), [](const Bin& a, const Bin& b) {
    return a.capacity != b.capacity ? a.capacity < b.capacity : a.counts > b.counts;
  });
  std::vector<std::size_t> nextOf(problem.kinds.size(), 0);
  std::vector<bool> done(bins.size(), false);
  std::vector<CutPattern> patterns;
  const auto take = [&](const Offer& offer, int limit, bool owned) {
    for (std::size_t b = 0; b < bins.size() && limit > 0; ++b) {
      if (done[b] || bins[b].capacity != offer.capacity) continue;
      done[b] = true;
      --limit;
      patterns.push_back(patternOf(bins[b], offer, owned, stock[offer.stock], rule, problem.wantedOf, nextOf, problem));
    }
  };
  for (const Offer& offer : problem.owned) take(offer, offer.limit, true);
  for (std::size_t k = 0; k < problem.forSale.size(); ++k) take(problem.forSale[k], bought[k], false);
  SUNSPOOL_ASSERT(patterns.size() == bins.size(), "every filled stock length is owned or bought");
  return patterns;
}

int fewestLengths(const Problem& problem, bool boughtOnly) {
  std::int64_t fewest = 0;
  for (const Cut& cut : problem.cuts) {
    std::int64_t wanted = cut.wanted;
    std::int64_t most = 0;
    if (boughtOnly) {
      for (const Offer& offer : problem.owned) wanted -= offer.limit * cut.mostIn[offer.capacity];
      for (const Offer& offer : problem.forSale) most = std::max(most, cut.mostIn[offer.capacity]);
    } else {
      most = *std::max_element(cut.mostIn.begin(), cut.mostIn.end());
    }
    if (wanted > 0 && most > 0) fewest = std::max(fewest, (wanted + most - 1) / most);
  }
  return static_cast<int>(fewest);
}

bool volumeAloneProves(const Problem& problem, std::span<const int> ownedAvailable, const Cost& cost) {
  Problem volumeOnly = problem;
  std::erase_if(volumeOnly.cuts, [](const Cut& cut) { return !cut.isVolume; });
  const auto bound = furtherCost(volumeOnly, problem.forSale, 0, ownedAvailable);
  return bound && !(*bound < cost);
}

/// Fewer and shorter owned lengths beside what is bought, where the search can tell.
std::optional<std::vector<Bin>> withFewerOwned(const Problem& problem, const Supply& bought,
                                               const std::vector<Bin>& bins) {
  if (problem.owned.empty()) return std::nullopt;
  std::vector<int> used(problem.capacities.size(), 0);
  for (const Bin& bin : bins) used[bin.capacity] += isEmpty(bin) ? 0 : 1;
  const std::vector<int> boughtOf = availableOf(problem, problem.forSale, bought);
  Cost incumbent{};
  for (std::size_t k = 0; k < used.size(); ++k) {
    // Owned lengths are taken before bought ones of the same capacity, so the rest of the bins stands on bought ones.
    int ownedHere = std::max(0, used[k] - boughtOf[k]);
    for (const Offer& offer : problem.owned) {
      if (offer.capacity != k) continue;
      const int taken = std::min(ownedHere, offer.limit);
      ownedHere -= taken;
      incumbent = incumbent + Cost{0, taken, taken * offer.cost[2]};
    }
  }
  SupplySearch search = cheapestSupply(problem, problem.owned, boughtOf, incumbent, kStepsForOwned);
  if (!search.supply) return std::nullopt;
  return std::move(search.bins);
}

Error noStock(std::span<const WantedPiece> wanted, std::span<const StockLength> stock) {
  double wanted_m = 0.0;
  double owned_m = 0.0;
  for (const WantedPiece& piece : wanted) wanted_m += piece.count * piece.length.si();
  for (const StockLength& s : stock) owned_m += s.owned * s.length.si();
  return {ErrorCode::NoStock,
          "/stock",
          "",
          {{"wanted", wanted_m, Dimension::Length}, {"owned", owned_m, Dimension::Length}}};
}

std::optional<Error> pieceTooLong(std::span<const WantedPiece> wanted, std::span<const StockLength> stock,
                                  const CutRule& rule) {
  Size longest = 0;
  for (const StockLength& s : stock) {
    if (s.canBuy || s.owned > 0) longest = std::max(longest, micrometres(s.length) - micrometres(rule.squaring));
  }
  const WantedPiece* worst = nullptr;
  for (const WantedPiece& piece : wanted) {
    const bool longer = piece.count > 0 && micrometres(piece.length) > longest;
    if (longer && (worst == nullptr || piece.length > worst->length)) worst = &piece;
  }
  if (worst == nullptr) return std::nullopt;
  return Error{ErrorCode::PieceLongerThanStock,
               "/stock",
               worst->name,
               {{"piece", worst->length.si(), Dimension::Length},
                {"longest", fromMicrometres(longest).si(), Dimension::Length}}};
}

void addTotals(CutPlan& plan, std::span<const StockLength> stock) {
  plan.lengthsUsed = static_cast<int>(plan.patterns.size());
  plan.price = 0.0;
  for (const CutPattern& pattern : plan.patterns) {
    plan.totalLeft += pattern.left;
    if (pattern.owned) continue;
    ++plan.bought;
    plan.boughtLength += stock[pattern.stock].length;
    const model::Price price = stock[pattern.stock].price;
    plan.price = plan.price && price ? model::Price(*plan.price + *price) : std::nullopt;
  }
}

}  // namespace

Result<CutPlan> planCuts(std::span<const WantedPiece> wanted, std::span<const StockLength> stock, const CutRule& rule) {
  if (std::optional<Error> fault = faultIn(wanted, stock, rule)) return *std::move(fault);
  Problem problem;
  addKinds(problem, wanted, micrometres(rule.kerf));
  CutPlan plan;
  plan.wanted.assign(wanted.begin(), wanted.end());
  plan.stock.assign(stock.begin(), stock.end());
  plan.rule = rule;
  if (problem.kinds.empty()) {
    plan.proven = true;
    plan.proof = "volume bound";
    plan.price = plan.priceLowerBound = 0.0;
    return plan;
  }
  const auto offered = [](const StockLength& s) { return s.canBuy || s.owned > 0; };
  if (std::none_of(stock.begin(), stock.end(), offered)) return noStock(wanted, stock);
  if (std::optional<Error> tooLong = pieceTooLong(wanted, stock, rule)) return *std::move(tooLong);
  addOffers(problem, stock, rule);
  addCuts(problem);

  const std::vector<int> ownedAvailable = availableOf(problem, problem.owned, limitsOf(problem.owned));
  Draft best = firstFitDraft(problem);
  const auto searchWith = [&](long steps) {
    SupplySearch search = cheapestSupply(problem, problem.forSale, ownedAvailable, best.cost, steps);
    if (search.supply) {
      best = {std::move(search.bins), *search.supply, costOf(problem.forSale, *search.supply)};
    }
    return search;
  };
  SupplySearch search = searchWith(kStepsFirst);
  if (!search.decided) {
    if (Draft rounded = roundedDraft(problem); rounded.cost < best.cost) best = std::move(rounded);
    search = searchWith(kStepsForBuying);
  }
  if (best.cost == kUnlimitedCost) return noStock(wanted, stock);
  if (auto fewer = withFewerOwned(problem, best.bought, best.bins)) best.bins = *std::move(fewer);

  plan.patterns = patternsOf(problem, std::move(best.bins), best.bought, stock, rule);
  addTotals(plan, stock);
  plan.proven = search.decided;
  plan.proof = !search.boundAlone || !search.decided                   ? "search"
               : volumeAloneProves(problem, ownedAvailable, best.cost) ? "volume bound"
                                                                       : "dual bound";
  plan.lowerBound = fewestLengths(problem, false);
  plan.boughtLowerBound = problem.byPrice ? fewestLengths(problem, true) : static_cast<int>(search.lowerBound[1]);
  if (problem.forSale.size() == 1 && problem.owned.empty())
    plan.boughtLowerBound = static_cast<int>(search.lowerBound[1]);
  if (problem.owned.empty()) plan.lowerBound = std::max(plan.lowerBound, plan.boughtLowerBound);
  if (problem.byPrice) {
    plan.priceLowerBound = plan.proven ? plan.price : static_cast<double>(search.lowerBound[0]) / kPriceUnits;
  }
  return plan;
}

namespace {

constexpr std::size_t kMostDifferent = 6;
constexpr std::size_t kMostTold = 4;
constexpr std::size_t kMostTried = 20000;

bool isOnlyJust(Size spare, const CutRule& rule) {
  const Size squaring = micrometres(rule.squaring);
  return spare >= 0 && (spare < micrometres(rule.kerf) || (squaring == 0 && fromMicrometres(spare) < kJustFits));
}

std::vector<int> countsOf(const CutPlan& plan, const CutPattern& pattern) {
  std::vector<int> counts(plan.wanted.size(), 0);
  for (const std::size_t piece : pattern.pieces) ++counts[piece];
  return counts;
}

/// Every filling of one stock length by counts, larger pieces first.
class FillingsTried {
 public:
  FillingsTried(const CutPlan& plan, std::size_t stock)
      : m_plan(plan), m_stock(stock), m_counts(plan.wanted.size(), 0) {}

  void collect(std::vector<JustFitting>& found) {
    const Size room =
        micrometres(m_plan.stock[m_stock].length) - micrometres(m_plan.rule.squaring) + micrometres(m_plan.rule.kerf);
    add(0, room, found);
  }

 private:
  void add(std::size_t wanted, Size room, std::vector<JustFitting>& found) {
    if (++m_tried > kMostTried) return;
    if (wanted == m_counts.size()) {
      const bool isUsed = std::any_of(m_plan.patterns.begin(), m_plan.patterns.end(), [&](const CutPattern& pattern) {
        return pattern.stock == m_stock && countsOf(m_plan, pattern) == m_counts;
      });
      if (isOnlyJust(room, m_plan.rule) && !isUsed) found.push_back({m_stock, m_counts, fromMicrometres(room)});
      return;
    }
    const Size each = micrometres(m_plan.wanted[wanted].length) + micrometres(m_plan.rule.kerf);
    for (m_counts[wanted] = 0; m_counts[wanted] <= m_plan.wanted[wanted].count; ++m_counts[wanted]) {
      const Size left = room - m_counts[wanted] * each;
      if (left < 0) break;
      add(wanted + 1, left, found);
    }
    m_counts[wanted] = 0;
  }

  const CutPlan& m_plan;
  std::size_t m_stock;
  std::vector<int> m_counts;
  std::size_t m_tried = 0;
};

}  // namespace

std::vector<JustFitting> justFittingAvoided(const CutPlan& plan) {
  std::vector<JustFitting> found;
  if (plan.wanted.size() > kMostDifferent) return found;
  for (std::size_t stock = 0; stock < plan.stock.size(); ++stock) FillingsTried(plan, stock).collect(found);
  std::stable_sort(found.begin(), found.end(),
                   [](const JustFitting& a, const JustFitting& b) { return a.spare < b.spare; });
  if (found.size() > kMostTold) found.resize(kMostTold);
  return found;
}

}  // namespace sunspool::stock
