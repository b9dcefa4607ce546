// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/bounds.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sunspool::stock {
namespace {

constexpr std::size_t kMostStates = 200000;
constexpr int kLongestGeneration = 2000;
constexpr double kWeightScale = 1e9;
constexpr double kPivotTolerance = 1e-9;
constexpr double kEnterTolerance = 1e-7;
constexpr double kPerturbation = 1e-5;

/// Piece by piece, keeping only fillings that no other one beats in both size and weight. By falling weight per size,
/// so that a filling whose room, filled at the next piece's rate, cannot reach the best one is dropped early.
class Knapsack {
 public:
  Knapsack(std::span<const PieceKind> kinds, std::span<const std::int64_t> weights, Size capacity)
      : m_kinds(kinds), m_weights(weights), m_capacity(capacity), m_order(kinds.size()) {
    std::iota(m_order.begin(), m_order.end(), std::size_t{0});
    std::erase_if(m_order, [&](std::size_t i) { return weights[i] <= 0 || kinds[i].size > capacity; });
    std::stable_sort(m_order.begin(), m_order.end(), [&](std::size_t a, std::size_t b) { return rate(a) > rate(b); });
  }

  Filling best() {
    m_states.push_back({0, 0, kNone, 0});
    std::vector<std::size_t> front{0};
    std::size_t bestState = 0;
    bool exact = true;
    for (std::size_t k = 0; k < m_order.size() && exact; ++k) {
      const std::size_t i = m_order[k];
      const Size most = std::min<Size>(m_kinds[i].count, m_capacity / m_kinds[i].size);
      for (Size copy = 0; copy < most && exact; ++copy) {
        front = withOneMore(front, i, m_states[bestState].weight);
        for (const std::size_t state : front) {
          if (m_states[state].weight > m_states[bestState].weight) bestState = state;
        }
        exact = m_states.size() < kMostStates;
      }
    }
    Filling filling{m_states[bestState].weight, exact, std::vector<int>(m_kinds.size(), 0)};
    for (std::size_t state = bestState; m_states[state].from != kNone; state = m_states[state].from) {
      ++filling.counts[m_states[state].kind];
    }
    if (!exact) filling.value = relaxed();
    return filling;
  }

 private:
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  struct State {
    Size size;
    std::int64_t weight;
    std::size_t from;
    std::size_t kind;
  };

  double rate(std::size_t i) const { return static_cast<double>(m_weights[i]) / static_cast<double>(m_kinds[i].size); }

  /// The front by rising size and weight, each filling with and without one more piece of the kind.
  std::vector<std::size_t> withOneMore(const std::vector<std::size_t>& front, std::size_t kind, std::int64_t toBeat) {
    const double fillRate = rate(kind) * (1.0 + 1e-12);
    std::vector<std::size_t> merged;
    merged.reserve(2 * front.size());
    const auto keep = [&](std::size_t state) {
      const State& s = m_states[state];
      const double reach = static_cast<double>(s.weight) + fillRate * static_cast<double>(m_capacity - s.size) + 0.5;
      if (reach < static_cast<double>(toBeat)) return;
      if (!merged.empty() && m_states[merged.back()].weight >= s.weight) return;
      if (!merged.empty() && m_states[merged.back()].size == s.size) merged.pop_back();
      merged.push_back(state);
    };
    std::size_t without = 0;
    for (const std::size_t base : front) {
      const Size size = m_states[base].size + m_kinds[kind].size;
      if (size > m_capacity) break;
      while (without < front.size() && m_states[front[without]].size <= size) keep(front[without++]);
      m_states.push_back({size, m_states[base].weight + m_weights[kind], base, kind});
      keep(m_states.size() - 1);
    }
    while (without < front.size()) keep(front[without++]);
    return merged;
  }

  /// Most weight when the last piece may be cut into parts.
  std::int64_t relaxed() const {
    std::int64_t value = 0;
    Size room = m_capacity;
    for (const std::size_t i : m_order) {
      const Size whole = std::min<Size>(m_kinds[i].count, room / m_kinds[i].size);
      value += whole * m_weights[i];
      room -= whole * m_kinds[i].size;
      if (whole < m_kinds[i].count) {
        return value + static_cast<std::int64_t>(std::ceil(rate(i) * static_cast<double>(room) * (1.0 + 1e-12)));
      }
    }
    return value;
  }

  std::span<const PieceKind> m_kinds;
  std::span<const std::int64_t> m_weights;
  Size m_capacity;
  std::vector<std::size_t> m_order;
  std::vector<State> m_states;
};

Cut cutOf(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::vector<std::int64_t> weights) {
  Cut cut;
  cut.weights = std::move(weights);
  for (std::size_t i = 0; i < kinds.size(); ++i) cut.wanted += kinds[i].count * cut.weights[i];
  for (const Size capacity : capacities) cut.mostIn.push_back(bestFilling(kinds, cut.weights, capacity).value);
  return cut;
}

/// Revised simplex over patterns that are generated when wanted. Rows: one per piece kind, "at least its count".
class PatternProgram {
 public:
  PatternProgram(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::span<const double> costs,
                 std::vector<FractionalPattern>& pool)
      : m_kinds(kinds),
        m_capacities(capacities),
        m_costs(costs),
        m_rows(kinds.size()),
        m_inverse(m_rows * m_rows, 0.0),
        m_basisCost(m_rows),
        m_value(m_rows),
        m_dual(m_rows, 0.0),
        m_largestCost(*std::max_element(costs.begin(), costs.end())),
        m_pattern(m_rows),
        m_pool(pool) {
    const std::size_t largest =
        static_cast<std::size_t>(std::max_element(capacities.begin(), capacities.end()) - capacities.begin());
    for (std::size_t i = 0; i < m_rows; ++i) {
      const auto held = static_cast<double>(std::min<Size>(kinds[i].count, capacities[largest] / kinds[i].size));
      m_inverse[i * m_rows + i] = 1.0 / held;
      m_basisCost[i] = costs[largest];
      // Slightly uneven demands keep the many ties from going round in circles; the weights are checked afterwards.
      const double fraction = static_cast<double>(i + 1) * 0.6180339887498949;
      m_value[i] = (kinds[i].count + kPerturbation * (0.5 + fraction - std::floor(fraction))) / held;
      m_pattern[i] = {largest, std::vector<int>(m_rows, 0), 0.0};
      m_pattern[i].counts[i] = static_cast<int>(held);
    }
  }

  std::vector<std::int64_t> solve() {
    std::vector<std::int64_t> weights;
    for (int iteration = 0; iteration < kLongestGeneration; ++iteration) {
      price();
      weights = scaledDuals();
      if (!enterSurplus() && !enterPattern(weights)) break;
    }
    return weights;
  }

  std::vector<FractionalPattern> basis() const {
    std::vector<FractionalPattern> patterns;
    for (std::size_t i = 0; i < m_rows; ++i) {
      if (m_pattern[i].counts.empty() || m_value[i] <= kPivotTolerance) continue;
      patterns.push_back(m_pattern[i]);
      patterns.back().times = m_value[i];
    }
    return patterns;
  }

 private:
  void price() {
    for (std::size_t j = 0; j < m_rows; ++j) {
      double sum = 0.0;
      for (std::size_t i = 0; i < m_rows; ++i) sum += m_basisCost[i] * m_inverse[i * m_rows + j];
      m_dual[j] = sum;
    }
  }

  std::vector<std::int64_t> scaledDuals() const {
    std::vector<std::int64_t> weights(m_rows);
    for (std::size_t i = 0; i < m_rows; ++i) {
      weights[i] = static_cast<std::int64_t>(std::floor(std::max(0.0, m_dual[i] / m_largestCost) * kWeightScale + 0.5));
    }
    return weights;
  }

  bool enterSurplus() {
    const auto worst = std::min_element(m_dual.begin(), m_dual.end());
    if (*worst > -kPivotTolerance) return false;
    std::vector<double> column(m_rows, 0.0);
    column[static_cast<std::size_t>(worst - m_dual.begin())] = -1.0;
    return pivot(column, 0.0, {});
  }

  double reducedCost(std::size_t capacity, const std::vector<int>& counts) const {
    double worth = 0.0;
    for (std::size_t i = 0; i < m_rows; ++i) worth += m_dual[i] * counts[i];
    return (m_costs[capacity] - worth) / m_largestCost;
  }

  bool enterPattern(const std::vector<std::int64_t>& weights) { return enterFromPool() || enterNew(weights); }

  bool enterFromPool() {
    double bestReduced = -kEnterTolerance;
    const FractionalPattern* best = nullptr;
    for (const FractionalPattern& pattern : m_pool) {
      const double reduced = reducedCost(pattern.capacity, pattern.counts);
      if (reduced >= bestReduced) continue;
      bestReduced = reduced;
      best = &pattern;
    }
    return best != nullptr && enter(*best);
  }

  bool enterNew(const std::vector<std::int64_t>& weights) {
    double bestReduced = -kEnterTolerance;
    FractionalPattern best;
    for (std::size_t k = 0; k < m_capacities.size(); ++k) {
      Filling filling = bestFilling(m_kinds, weights, m_capacities[k]);
      const double reduced = reducedCost(k, filling.counts);
      if (reduced >= bestReduced) continue;
      bestReduced = reduced;
      best = {k, std::move(filling.counts), 0.0};
    }
    if (best.counts.empty()) return false;
    m_pool.push_back(best);
    return enter(std::move(best));
  }

  bool enter(FractionalPattern pattern) {
    const std::vector<double> column(pattern.counts.begin(), pattern.counts.end());
    const double cost = m_costs[pattern.capacity];
    return pivot(column, cost, std::move(pattern));
  }

  bool pivot(const std::vector<double>& column, double cost, FractionalPattern pattern) {
    std::vector<double> direction(m_rows, 0.0);
    for (std::size_t i = 0; i < m_rows; ++i) {
      for (std::size_t j = 0; j < m_rows; ++j) direction[i] += m_inverse[i * m_rows + j] * column[j];
    }
    std::size_t leaving = m_rows;
    double step = 0.0;
    for (std::size_t i = 0; i < m_rows; ++i) {
      if (direction[i] <= kPivotTolerance) continue;
      const double ratio = m_value[i] / direction[i];
      if (leaving == m_rows || ratio < step) {
        step = ratio;
        leaving = i;
      }
    }
    if (leaving == m_rows) return false;
    for (std::size_t j = 0; j < m_rows; ++j) m_inverse[leaving * m_rows + j] /= direction[leaving];
    for (std::size_t i = 0; i < m_rows; ++i) {
      if (i == leaving) continue;
      m_value[i] = std::max(0.0, m_value[i] - step * direction[i]);
      for (std::size_t j = 0; j < m_rows; ++j) {
        m_inverse[i * m_rows + j] -= direction[i] * m_inverse[leaving * m_rows + j];
      }
    }
    m_value[leaving] = step;
    m_basisCost[leaving] = cost;
    m_pattern[leaving] = std::move(pattern);
    return true;
  }

  std::span<const PieceKind> m_kinds;
  std::span<const Size> m_capacities;
  std::span<const double> m_costs;
  std::size_t m_rows;
  std::vector<double> m_inverse;  ///< of the basis, by rows
  std::vector<double> m_basisCost, m_value, m_dual;
  double m_largestCost;
  std::vector<FractionalPattern> m_pattern;  ///< in the basis; without counts for a surplus
  std::vector<FractionalPattern>& m_pool;
};

}  // namespace

Filling bestFilling(std::span<const PieceKind> kinds, std::span<const std::int64_t> weights, Size capacity) {
  return Knapsack(kinds, weights, capacity).best();
}

Cut volumeCut(std::span<const PieceKind> kinds, std::span<const Size> capacities) {
  std::vector<std::int64_t> weights;
  for (const PieceKind& kind : kinds) weights.push_back(kind.size);
  Cut cut = cutOf(kinds, capacities, std::move(weights));
  cut.isVolume = true;
  return cut;
}

Cut dualCut(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::span<const double> costs) {
  std::vector<FractionalPattern> pool;
  return cutOf(kinds, capacities, PatternProgram(kinds, capacities, costs, pool).solve());
}

std::vector<FractionalPattern> fractionalPlan(std::span<const PieceKind> kinds, std::span<const Size> capacities,
                                              std::span<const double> costs, std::vector<FractionalPattern>& pool) {
  PatternProgram program(kinds, capacities, costs, pool);
  program.solve();
  return program.basis();
}

}  // namespace sunspool::stock
