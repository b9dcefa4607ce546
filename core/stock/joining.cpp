// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/joining.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <vector>

namespace sunspool::stock {
namespace {

constexpr std::size_t kMostRolls = 5000;

/// Rolls one after another: the owned ones, longest first, then one kind on sale without end.
class Rolls {
 public:
  Rolls(std::span<const StockLength> stock, Length onSale) : m_onSale(onSale) {
    for (const StockLength& length : stock) {
      m_owned.insert(m_owned.end(), static_cast<std::size_t>(std::min(length.owned, 5000)), length.length);
    }
    std::sort(m_owned.begin(), m_owned.end(), [](Length a, Length b) { return a > b; });
  }
  Length at(std::size_t index) const { return index < m_owned.size() ? m_owned[index] : m_onSale; }
  bool isOnSale(std::size_t index) const { return index >= m_owned.size(); }

 private:
  std::vector<Length> m_owned;
  Length m_onSale;
};

struct Waiting {
  std::size_t wanted = 0;
  Length length;
};

/// The pieces to cut when rolls are used up one after another; nothing when a piece would need a second join.
class Splitter {
 public:
  Splitter(std::span<const WantedPiece> wanted, const Rolls& rolls, const CutRule& rule)
      : m_rolls(rolls), m_rule(rule), m_pieces(wanted.begin(), wanted.end()) {
    for (std::size_t w = 0; w < wanted.size(); ++w) {
      m_waiting.insert(m_waiting.end(), static_cast<std::size_t>(wanted[w].count), {w, wanted[w].length});
    }
    std::stable_sort(m_waiting.begin(), m_waiting.end(),
                     [](const Waiting& a, const Waiting& b) { return a.length > b.length; });
  }

  std::optional<std::vector<WantedPiece>> split() {
    Length room = m_rolls.at(0) - m_rule.squaring;
    for (std::size_t roll = 0; !m_waiting.empty();) {
      if (takeWhole(room)) continue;
      const Length next = m_rolls.at(roll + 1) - m_rule.squaring;
      const std::optional<Length> rest = beginLongest(room, next);
      if (!rest && m_rolls.isOnSale(roll) && room == m_rolls.at(roll) - m_rule.squaring) return std::nullopt;
      if (++roll > kMostRolls) return std::nullopt;
      room = next - (rest ? *rest + m_rule.kerf : Length{});
    }
    return m_pieces;
  }
  const std::vector<Join>& joins() const { return m_joins; }

 private:
  bool takeWhole(Length& room) {
    const auto fits =
        std::find_if(m_waiting.begin(), m_waiting.end(), [&](const Waiting& piece) { return piece.length <= room; });
    if (fits == m_waiting.end()) return false;
    room -= fits->length + m_rule.kerf;
    m_waiting.erase(fits);
    return true;
  }

  /// Begins the longest piece whose rest fits the next roll; returns that rest.
  std::optional<Length> beginLongest(Length room, Length next) {
    for (auto piece = m_waiting.begin(); piece != m_waiting.end(); ++piece) {
      // To whole centimetres, as tube is cut.
      Length first = std::min(room, piece->length - kShortestJoined);
      first = metres(std::floor(first.si() * 100.0 + 1e-6) / 100.0);
      const Length rest = piece->length - first;
      if (first < kShortestJoined || rest > next) continue;
      join(piece->wanted, first, rest);
      m_waiting.erase(piece);
      return rest;
    }
    return std::nullopt;
  }

  void join(std::size_t wanted, Length first, Length rest) {
    int& parts = m_partsOf[m_pieces[wanted].name];
    const std::string name = m_pieces[wanted].name;
    --m_pieces[wanted].count;
    m_joins.push_back({wanted, m_pieces.size(), m_pieces.size() + 1, first});
    m_pieces.push_back({name + std::to_string(++parts), first, 1});
    m_pieces.push_back({name + std::to_string(++parts), rest, 1});
  }

  const Rolls& m_rolls;
  const CutRule& m_rule;
  std::vector<WantedPiece> m_pieces;
  std::vector<Waiting> m_waiting;
  std::vector<Join> m_joins;
  std::map<std::string, int> m_partsOf;
};

bool buysLess(const CutPlan& plan, const CutPlan& than) {
  if (plan.price && than.price) return *plan.price < *than.price - 1e-6;
  if (plan.bought != than.bought) return plan.bought < than.bought;
  return plan.boughtLength < than.boughtLength - metres(1e-6);
}

/// Tube that the owned rolls (all of them, when counted) do not hold.
Length missingLength(const CutPlan& plan, std::span<const WantedPiece> wanted, bool countOwned) {
  Length missing{};
  for (const WantedPiece& piece : wanted) missing += static_cast<double>(piece.count) * piece.length;
  for (const StockLength& stock : plan.stock) {
    if (countOwned) missing -= static_cast<double>(stock.owned) * stock.length;
  }
  return missing;
}
int fewestOf(Length missing, const CutPlan& plan) {
  Length longest = metres(1e-6);
  for (const StockLength& stock : plan.stock) longest = std::max(longest, stock.length);
  return missing > Length{} ? static_cast<int>(std::ceil(missing / longest - 1e-9)) : 0;
}

/// What the lengths alone say: no plan, joined or not, buys less than this.
bool lengthAloneProves(const CutPlan& plan, std::span<const WantedPiece> wanted) {
  if (plan.bought == 0) return true;
  return plan.stock.size() == 1 && plan.bought <= fewestOf(missingLength(plan, wanted, true), plan);
}

/// The bounds of planCuts hold for its pieces; with other joins fewer lengths might do.
void loosenBounds(CutPlan& plan, std::span<const WantedPiece> wanted) {
  if (lengthAloneProves(plan, wanted)) return;
  plan.proven = false;
  plan.lowerBound = std::min(plan.lowerBound, fewestOf(missingLength(plan, wanted, false), plan));
  plan.boughtLowerBound = std::min(plan.boughtLowerBound, fewestOf(missingLength(plan, wanted, true), plan));
  plan.priceLowerBound = std::nullopt;
}

}  // namespace

Result<CutPlan> planCutsWithJoins(std::span<const WantedPiece> wanted, std::span<const StockLength> stock,
                                  const CutRule& rule) {
  Result<CutPlan> best = planCuts(wanted, stock, rule);
  if (!best && best.error().code != ErrorCode::PieceLongerThanStock && best.error().code != ErrorCode::NoStock) {
    return best;
  }
  if (best && lengthAloneProves(*best, wanted)) return best;
  for (const StockLength& kind : stock) {
    if (!kind.canBuy) continue;
    const Rolls rolls(stock, kind.length);
    Splitter splitter(wanted, rolls, rule);
    const std::optional<std::vector<WantedPiece>> pieces = splitter.split();
    if (!pieces || splitter.joins().empty()) continue;
    Result<CutPlan> joined = planCuts(*pieces, stock, rule);
    if (!joined || (best && !buysLess(*joined, *best))) continue;
    joined->joins = splitter.joins();
    best = std::move(joined);
  }
  if (best) loosenBounds(*best, wanted);
  return best;
}

}  // namespace sunspool::stock
