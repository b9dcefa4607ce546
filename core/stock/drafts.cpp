// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/drafts.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace sunspool::stock {
namespace {

std::vector<int> allPieces(const Problem& problem) {
  std::vector<int> left;
  for (const PieceKind& kind : problem.kinds) left.push_back(kind.count);
  return left;
}

bool anyLeft(const std::vector<int>& left) {
  return std::any_of(left.begin(), left.end(), [](int count) { return count > 0; });
}

Size heldIn(const Problem& problem, const Bin& bin) {
  Size held = 0;
  for (std::size_t i = 0; i < bin.counts.size(); ++i) held += bin.counts[i] * problem.kinds[i].size;
  return held;
}

/// Puts in what still fits, larger pieces first.
void fillUp(const Problem& problem, Bin& bin, std::vector<int>& left) {
  Size room = problem.capacities[bin.capacity] - heldIn(problem, bin);
  for (std::size_t i = 0; i < problem.kinds.size(); ++i) {
    const int count = static_cast<int>(std::min<Size>(left[i], room / problem.kinds[i].size));
    bin.counts[i] += count;
    left[i] -= count;
    room -= count * problem.kinds[i].size;
  }
}

Bin emptyBin(const Problem& problem, std::size_t capacity) {
  return {capacity, std::vector<int>(problem.kinds.size(), 0)};
}

/// Buys the cheapest kind that holds what is in the bin.
void buyFor(const Problem& problem, Draft& draft, Bin bin, std::size_t preferred) {
  const Size held = heldIn(problem, bin);
  std::size_t taken = preferred;
  for (std::size_t k = 0; k < problem.forSale.size(); ++k) {
    const bool holds = problem.capacities[problem.forSale[k].capacity] >= held;
    if (holds && problem.forSale[k].cost < problem.forSale[taken].cost) taken = k;
  }
  bin.capacity = problem.forSale[taken].capacity;
  ++draft.bought[taken];
  draft.bins.push_back(std::move(bin));
}

Draft firstFit(const Problem& problem, std::size_t preferred) {
  Draft draft;
  draft.bought.assign(problem.forSale.size(), 0);
  std::vector<int> left = allPieces(problem);
  std::vector<Offer> owned = problem.owned;
  std::stable_sort(owned.begin(), owned.end(),
                   [](const Offer& a, const Offer& b) { return a.capacity > b.capacity; });  // smallest first
  for (const Offer& offer : owned) {
    for (int i = 0; i < offer.limit; ++i) {
      Bin bin = emptyBin(problem, offer.capacity);
      fillUp(problem, bin, left);
      if (isEmpty(bin)) break;
      draft.bins.push_back(std::move(bin));
    }
  }
  while (anyLeft(left)) {
    Bin bin = emptyBin(problem, problem.forSale[preferred].capacity);
    fillUp(problem, bin, left);
    if (isEmpty(bin)) return {};  // a piece is left that this kind does not hold
    buyFor(problem, draft, std::move(bin), preferred);
  }
  draft.cost = costOf(problem.forSale, draft.bought);
  return draft;
}

/// Owned and bought lengths on one scale, the owned ones all but free.
struct Scaled {
  Offer offer;
  double cost = 0.0;
  std::optional<std::size_t> sale;  ///< index of what is bought
};

std::vector<Scaled> scaledOffers(const Problem& problem) {
  constexpr double kAllButFree = 1e-3;
  std::vector<Scaled> scaled;
  const auto longest = static_cast<double>(problem.capacities.front());
  double largest = 1.0;
  for (std::size_t k = 0; k < problem.forSale.size(); ++k) {
    const Offer& offer = problem.forSale[k];
    // Length only breaks ties: all pieces together never take more lengths than there are pieces.
    const double tie = static_cast<double>(problem.capacities[offer.capacity]) / longest / (10.0 * problem.pieces);
    const double first = problem.byPrice ? static_cast<double>(offer.cost[0]) : 1.0;
    scaled.push_back({offer, first + tie, k});
    largest = std::max(largest, first + tie);
  }
  for (const Offer& offer : problem.owned) {
    const double share = static_cast<double>(problem.capacities[offer.capacity]) / longest;
    scaled.push_back({offer, kAllButFree * largest * share, std::nullopt});
  }
  return scaled;
}

/// The pieces left and the lengths that may still be taken, as a smaller problem.
struct Rest {
  std::vector<PieceKind> kinds;
  std::vector<std::size_t> kindOf;  ///< index in the whole problem
  std::vector<Size> capacities;
  std::vector<double> costs;
  std::vector<std::size_t> offerOf;
};

std::optional<Rest> restOf(const Problem& problem, const std::vector<Scaled>& offers, const std::vector<int>& left) {
  Rest rest;
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (left[i] == 0) continue;
    rest.kinds.push_back({problem.kinds[i].size, left[i]});
    rest.kindOf.push_back(i);
  }
  Size largest = 0;
  for (std::size_t k = 0; k < offers.size(); ++k) {
    if (offers[k].offer.limit == 0) continue;
    rest.capacities.push_back(problem.capacities[offers[k].offer.capacity]);
    rest.costs.push_back(offers[k].cost);
    rest.offerOf.push_back(k);
    largest = std::max(largest, rest.capacities.back());
  }
  if (rest.capacities.empty() || largest < rest.kinds.front().size) return std::nullopt;
  return rest;
}

/// A pattern of the rest as one of the whole problem: kinds and offers by their own index.
FractionalPattern widened(const FractionalPattern& pattern, const Rest& rest, std::size_t kinds) {
  FractionalPattern wide{rest.offerOf[pattern.capacity], std::vector<int>(kinds, 0), 0.0};
  for (std::size_t r = 0; r < rest.kinds.size(); ++r) wide.counts[rest.kindOf[r]] = pattern.counts[r];
  return wide;
}

/// The known patterns that can still be cut from the rest.
std::vector<FractionalPattern> narrowed(const std::vector<FractionalPattern>& known, const Rest& rest,
                                        const std::vector<int>& left) {
  std::vector<FractionalPattern> patterns;
  for (const FractionalPattern& pattern : known) {
    const auto offer = std::find(rest.offerOf.begin(), rest.offerOf.end(), pattern.capacity);
    bool fits = offer != rest.offerOf.end();
    for (std::size_t i = 0; i < left.size() && fits; ++i) fits = pattern.counts[i] <= left[i];
    if (!fits) continue;
    patterns.push_back({static_cast<std::size_t>(offer - rest.offerOf.begin()), {}, 0.0});
    for (const std::size_t i : rest.kindOf) patterns.back().counts.push_back(pattern.counts[i]);
  }
  return patterns;
}

constexpr double kNearlyWhole = 0.6;

/// Cuts one pattern, as far as pieces and lengths are left. False when nothing was cut.
bool take(const Problem& problem, const Rest& rest, const FractionalPattern& pattern, std::vector<Scaled>& offers,
          std::vector<int>& left, Draft& draft) {
  Scaled& scaled = offers[rest.offerOf[pattern.capacity]];
  if (scaled.offer.limit == 0) return false;
  Bin bin = emptyBin(problem, scaled.offer.capacity);
  for (std::size_t r = 0; r < rest.kinds.size(); ++r) {
    const std::size_t i = rest.kindOf[r];
    bin.counts[i] = std::min(pattern.counts[r], left[i]);
    left[i] -= bin.counts[i];
  }
  fillUp(problem, bin, left);
  if (isEmpty(bin)) return false;
  --scaled.offer.limit;
  if (scaled.sale) {
    buyFor(problem, draft, std::move(bin), *scaled.sale);
  } else {
    draft.bins.push_back(std::move(bin));
  }
  return true;
}

}  // namespace

bool isEmpty(const Bin& bin) {
  return std::all_of(bin.counts.begin(), bin.counts.end(), [](int count) { return count == 0; });
}

Draft firstFitDraft(const Problem& problem) {
  Draft best;
  for (std::size_t k = 0; k < problem.forSale.size(); ++k) {
    Draft draft = firstFit(problem, k);
    if (draft.cost < best.cost) best = std::move(draft);
  }
  return best;
}

Draft roundedDraft(const Problem& problem) {
  if (problem.kinds.size() > kMostKinds) return {};
  Draft draft;
  draft.bought.assign(problem.forSale.size(), 0);
  std::vector<int> left = allPieces(problem);
  std::vector<Scaled> offers = scaledOffers(problem);
  std::vector<FractionalPattern> known;  // over all kinds and offers
  while (anyLeft(left)) {
    const std::optional<Rest> rest = restOf(problem, offers, left);
    if (!rest) return {};
    std::vector<FractionalPattern> pool = narrowed(known, *rest, left);
    const std::size_t old = pool.size();
    std::vector<FractionalPattern> patterns = fractionalPlan(rest->kinds, rest->capacities, rest->costs, pool);
    for (std::size_t p = old; p < pool.size(); ++p) known.push_back(widened(pool[p], *rest, left.size()));
    std::stable_sort(patterns.begin(), patterns.end(),
                     [](const FractionalPattern& a, const FractionalPattern& b) { return a.times > b.times; });
    bool cut = false;
    bool half = false;
    for (const FractionalPattern& pattern : patterns) {
      const int times = static_cast<int>(std::floor(pattern.times + 1e-6));
      for (int n = 0; n < times; ++n) cut = take(problem, *rest, pattern, offers, left, draft) || cut;
    }
    // None is whole: the next best thing is those cut more than half.
    for (std::size_t p = 0; !cut && p < patterns.size(); ++p) {
      if (p > 0 && patterns[p].times < kNearlyWhole) break;
      half = take(problem, *rest, patterns[p], offers, left, draft) || half;
    }
    if (!cut && !half) return {};
  }
  draft.cost = costOf(problem.forSale, draft.bought);
  return draft;
}

}  // namespace sunspool::stock
