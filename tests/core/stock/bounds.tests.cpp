// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/bounds.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>

using namespace sunspool::stock;

namespace {

/// Settable by SUNSPOOL_TEST_SEED; tests print it with INFO.
unsigned seed() {
  const char* text = std::getenv("SUNSPOOL_TEST_SEED");
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250621u;
}

/// All fillings one by one.
std::int64_t bestByHand(const std::vector<PieceKind>& kinds, const std::vector<std::int64_t>& weights, Size room,
                        std::size_t from) {
  if (from == kinds.size()) return 0;
  std::int64_t best = 0;
  for (int count = 0; count <= kinds[from].count && count * kinds[from].size <= room; ++count) {
    best =
        std::max(best, count * weights[from] + bestByHand(kinds, weights, room - count * kinds[from].size, from + 1));
  }
  return best;
}

}  // namespace

TEST_CASE("The best filling equals the best of all fillings", "[stock][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  for (int round = 0; round < 300; ++round) {
    std::vector<PieceKind> kinds;
    std::vector<std::int64_t> weights;
    for (unsigned i = 0; i < 1 + random() % 5; ++i) {
      kinds.push_back({static_cast<Size>(1 + random() % 40), static_cast<int>(1 + random() % 4)});
      weights.push_back(static_cast<std::int64_t>(random() % 30));
    }
    const Size capacity = static_cast<Size>(random() % 120);
    const Filling found = bestFilling(kinds, weights, capacity);
    REQUIRE(found.exact);
    CHECK(found.value == bestByHand(kinds, weights, capacity, 0));
    Size size = 0;
    std::int64_t weight = 0;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      CHECK(found.counts[i] <= kinds[i].count);
      size += found.counts[i] * kinds[i].size;
      weight += found.counts[i] * weights[i];
    }
    CHECK(size <= capacity);
    CHECK(weight == found.value);
  }
}

TEST_CASE("The dual weights bound the boards of four panels at six where the volume says five", "[stock][reference]") {
  // Eight of 1970 and eight of 940 from 4800 with a kerf of 3 (added to sizes and capacity). By hand: of one board come
  // at most (1, 3), (2, 0) or (0, 5), so weights 1/2 and 1/6 fit no board more than once: 8/2 + 8/6 = 5.33 boards.
  const std::vector<PieceKind> kinds{{1973, 8}, {943, 8}};
  const std::vector<Size> capacities{4803};
  const Cut volume = volumeCut(kinds, capacities);
  CHECK(volume.wanted == 8 * 1973 + 8 * 943);
  CHECK(volume.mostIn[0] == 1973 + 3 * 943);
  CHECK((volume.wanted + volume.mostIn[0] - 1) / volume.mostIn[0] == 5);
  const std::vector<double> costs{1.0};
  const Cut dual = dualCut(kinds, capacities, costs);
  CHECK((dual.wanted + dual.mostIn[0] - 1) / dual.mostIn[0] == 6);
  CHECK(static_cast<double>(dual.wanted) / static_cast<double>(dual.mostIn[0]) == Approx(16.0 / 3.0).epsilon(1e-6));
}
