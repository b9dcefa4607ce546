// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/packing.h"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <string>
#include <unordered_set>
#include <utility>

namespace sunspool::stock {
namespace {

constexpr std::size_t kMostRemembered = 100000;
constexpr std::size_t kMostCompletions = 2000;

class Search {
 public:
  Search(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::span<const int> available,
         std::span<const Cut> cuts, long& stepsLeft)
      : m_kinds(kinds),
        m_capacities(capacities),
        m_available(available.begin(), available.end()),
        m_cuts(cuts),
        m_stepsLeft(stepsLeft),
        m_left(kinds.size()),
        m_bySize(capacities.size()) {
    for (std::size_t i = 0; i < kinds.size(); ++i) m_left[i] = kinds[i].count;
    std::iota(m_bySize.begin(), m_bySize.end(), std::size_t{0});
    std::sort(m_bySize.begin(), m_bySize.end(),
              [&](std::size_t a, std::size_t b) { return capacities[a] < capacities[b]; });
  }

  Packing run() {
    Size slack = 0;
    for (std::size_t k = 0; k < m_capacities.size(); ++k) slack += m_available[k] * m_capacities[k];
    for (std::size_t i = 0; i < m_kinds.size(); ++i) slack -= m_left[i] * m_kinds[i].size;
    Packing packing;
    const bool packed = slack >= 0 && place(slack);
    if (packed) {
      packing.answer = Packed::Yes;
      packing.bins = m_bins;
    } else {
      packing.answer = m_stepsLeft > 0 && m_whole ? Packed::No : Packed::NotDecided;
    }
    return packing;
  }

 private:
  bool cutsHold() const {
    for (const Cut& cut : m_cuts) {
      std::int64_t wanted = 0;
      std::int64_t most = 0;
      for (std::size_t i = 0; i < m_left.size(); ++i) wanted += m_left[i] * cut.weights[i];
      for (std::size_t k = 0; k < m_available.size(); ++k) most += m_available[k] * cut.mostIn[k];
      if (wanted > most) return false;
    }
    return true;
  }

  std::string stateKey() const {
    std::string key;
    key.reserve(2 * (m_left.size() + m_available.size()));
    const auto append = [&key](int count) {
      key.push_back(static_cast<char>(count & 0xff));
      key.push_back(static_cast<char>((count >> 8) & 0xff));
    };
    for (const int count : m_left) append(count);
    for (const int count : m_available) append(count);
    return key;
  }

  /// What goes into one stock length beside its first piece.
  struct Completion {
    Size room = 0;                                                ///< left
    std::vector<std::pair<std::uint16_t, std::uint16_t>> pieces;  ///< kind and how many
  };

  /// Places everything that is left. slack: room of the stock lengths left less the size of the pieces left.
  bool place(Size slack) {
    const auto largest = std::find_if(m_left.begin(), m_left.end(), [](int count) { return count > 0; });
    if (largest == m_left.end()) return true;
    if (!cutsHold()) return false;
    const std::string key = stateKey();
    if (m_failed.contains(key)) return false;
    const auto first = static_cast<std::size_t>(largest - m_left.begin());
    for (const std::size_t k : m_bySize) {
      if (m_available[k] == 0 || m_capacities[k] < m_kinds[first].size) continue;
      if (fill(k, first, slack)) return true;
      if (m_stepsLeft <= 0) return false;
    }
    if (m_failed.size() < kMostRemembered) m_failed.insert(key);
    return false;
  }

  /// Tries every completion of one stock length that holds the first piece, the fullest first.
  bool fill(std::size_t k, std::size_t first, Size slack) {
    --m_left[first];
    std::vector<Completion> completions;
    std::vector<int> counts(m_kinds.size(), 0);
    counts[first] = 1;
    Size smallerLeft = 0;
    for (std::size_t i = first; i < m_kinds.size(); ++i) smallerLeft += m_left[i] * m_kinds[i].size;
    collect(completions, counts, first, first, m_capacities[k] - m_kinds[first].size, slack, smallerLeft);
    ++m_left[first];
    std::stable_sort(completions.begin(), completions.end(),
                     [](const Completion& a, const Completion& b) { return a.room < b.room; });
    --m_available[k];
    for (const Completion& completion : completions) {
      Bin bin{k, std::vector<int>(m_kinds.size(), 0)};
      for (const auto& [kind, count] : completion.pieces) {
        bin.counts[kind] = count;
        m_left[kind] -= count;
      }
      m_bins.push_back(std::move(bin));
      if (place(slack - completion.room)) return true;
      m_bins.pop_back();
      for (const auto& [kind, count] : completion.pieces) m_left[kind] += count;
      if (m_stepsLeft <= 0) return false;
    }
    ++m_available[k];
    return false;
  }

  /// Completions with kinds from j on; smallerLeft: size of all pieces left of these kinds.
  void collect(std::vector<Completion>& completions, std::vector<int>& counts, std::size_t first, std::size_t j,
               Size room, Size slack, Size smallerLeft) {
    if (--m_stepsLeft <= 0 || room - smallerLeft > slack) return;
    if (completions.size() >= kMostCompletions) {
      m_whole = false;
      return;
    }
    if (j == m_kinds.size()) {
      if (isDominated(counts, first, room)) return;
      completions.push_back({room, {}});
      for (std::size_t i = first; i < counts.size(); ++i) {
        if (counts[i] == 0) continue;
        completions.back().pieces.emplace_back(static_cast<std::uint16_t>(i), static_cast<std::uint16_t>(counts[i]));
      }
      return;
    }
    const int most = static_cast<int>(std::min<Size>(m_left[j], room / m_kinds[j].size));
    const Size others = smallerLeft - m_left[j] * m_kinds[j].size;
    for (int count = most; count >= 0; --count) {
      counts[j] += count;
      m_left[j] -= count;
      collect(completions, counts, first, j + 1, room - count * m_kinds[j].size, slack, others);
      m_left[j] += count;
      counts[j] -= count;
    }
  }

  bool isDominated(const std::vector<int>& counts, std::size_t first, Size room) const {
    for (std::size_t j = first; j < m_kinds.size(); ++j) {
      if (m_left[j] == 0) continue;
      if (m_kinds[j].size <= room) return true;
      for (std::size_t smaller = j + 1; smaller < m_kinds.size(); ++smaller) {
        if (counts[smaller] > 0 && m_kinds[j].size - m_kinds[smaller].size <= room) return true;
      }
    }
    return false;
  }

  std::span<const PieceKind> m_kinds;
  std::span<const Size> m_capacities;
  std::vector<int> m_available;
  std::span<const Cut> m_cuts;
  long& m_stepsLeft;
  std::vector<int> m_left;
  std::vector<std::size_t> m_bySize;
  std::vector<Bin> m_bins;
  std::unordered_set<std::string> m_failed;
  bool m_whole = true;  ///< no completion was left out so far
};

}  // namespace

Packing pack(std::span<const PieceKind> kinds, std::span<const Size> capacities, std::span<const int> available,
             std::span<const Cut> cuts, long& stepsLeft) {
  if (kinds.size() > kMostKinds) return {};
  return Search(kinds, capacities, available, cuts, stepsLeft).run();
}

}  // namespace sunspool::stock
