// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/cutting.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <map>
#include <random>

using namespace sunspool;
using namespace sunspool::stock;
using Catch::Matchers::WithinAbs;

namespace {

/// Settable by SUNSPOOL_TEST_SEED; tests print it with INFO.
unsigned seed() {
  const char* text = std::getenv("SUNSPOOL_TEST_SEED");
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250621u;
}

WantedPiece piece(double length_m, int count, std::string name = "piece") {
  return {std::move(name), metres(length_m), count};
}
StockLength onSale(double length_m, model::Price price = std::nullopt) {
  return {"on sale", metres(length_m), 0, true, price};
}
StockLength owned(double length_m, int count) { return {"owned", metres(length_m), count, false, std::nullopt}; }

const CutRule kNoLoss{};

CutPlan planned(const std::vector<WantedPiece>& wanted, const std::vector<StockLength>& stock, const CutRule& rule) {
  Result<CutPlan> plan = planCuts(wanted, stock, rule);
  REQUIRE(plan);
  return *std::move(plan);
}

/// A plan is legal when every piece is cut once, nothing is longer than its stock and nothing owned is used twice.
void checkLegal(const CutPlan& plan, const std::vector<WantedPiece>& wanted, const std::vector<StockLength>& stock,
                const CutRule& rule) {
  std::vector<int> cut(wanted.size(), 0);
  std::vector<int> ownedUsed(stock.size(), 0);
  double left_m = 0.0;
  int bought = 0;
  for (const CutPattern& pattern : plan.patterns) {
    REQUIRE(pattern.stock < stock.size());
    const StockLength& from = stock[pattern.stock];
    REQUIRE_FALSE(pattern.pieces.empty());
    double taken_m = rule.squaring.si() + rule.kerf.si() * static_cast<double>(pattern.pieces.size() - 1);
    double last_m = std::numeric_limits<double>::infinity();
    for (const std::size_t i : pattern.pieces) {
      ++cut.at(i);
      taken_m += wanted[i].length.si();
      CHECK(wanted[i].length.si() <= last_m + 1e-9);
      last_m = wanted[i].length.si();
    }
    CHECK(taken_m <= from.length.si() + 1e-9);
    CHECK_THAT(pattern.spare.si(), WithinAbs(from.length.si() - taken_m, 1e-9));
    CHECK_THAT(pattern.used.si() + pattern.left.si(), WithinAbs(from.length.si(), 1e-9));
    CHECK_THAT(pattern.left.si(), WithinAbs(std::max(0.0, from.length.si() - taken_m - rule.kerf.si()), 1e-9));
    if (pattern.owned) {
      ++ownedUsed[pattern.stock];
    } else {
      CHECK(from.canBuy);
      ++bought;
    }
    left_m += pattern.left.si();
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) CHECK(cut[i] == wanted[i].count);
  for (std::size_t i = 0; i < stock.size(); ++i) CHECK(ownedUsed[i] <= stock[i].owned);
  CHECK(plan.lengthsUsed == static_cast<int>(plan.patterns.size()));
  CHECK(plan.bought == bought);
  CHECK(plan.lowerBound <= plan.lengthsUsed);
  CHECK(plan.boughtLowerBound <= plan.bought);
  CHECK_THAT(plan.totalLeft.si(), WithinAbs(left_m, 1e-9));
}

/// Least (price, number, length) bought, by trying every piece in every open stock length and in every new one.
class EveryPlan {
 public:
  using Cost = std::array<double, 3>;
  EveryPlan(const std::vector<WantedPiece>& wanted, const std::vector<StockLength>& stock, const CutRule& rule)
      : m_stock(stock), m_rule(rule), m_ownedLeft(stock.size()) {
    for (const WantedPiece& w : wanted)
      m_pieces.insert(m_pieces.end(), static_cast<std::size_t>(w.count), w.length.si());
    for (std::size_t i = 0; i < stock.size(); ++i) m_ownedLeft[i] = stock[i].owned;
    const double smallest = *std::min_element(m_pieces.begin(), m_pieces.end());
    m_byPrice = std::all_of(stock.begin(), stock.end(), [&](const StockLength& s) {
      const bool useless = s.length.si() - rule.squaring.si() < smallest - 1e-9;  // holds nothing: its price is idle
      return !s.canBuy || s.price || useless;
    });
    place(0, {0.0, 0.0, 0.0});
  }
  bool feasible() const { return std::isfinite(m_best[1]); }
  Cost best() const { return m_best; }
  bool byPrice() const { return m_byPrice; }

 private:
  void place(std::size_t i, Cost cost) {
    if (!(cost < m_best)) return;
    if (i == m_pieces.size()) {
      m_best = cost;
      return;
    }
    const double length = m_pieces[i];
    for (std::size_t b = 0; b < m_room.size(); ++b) {
      if (length + m_rule.kerf.si() > m_room[b] + 1e-9) continue;
      m_room[b] -= length + m_rule.kerf.si();
      place(i + 1, cost);
      m_room[b] += length + m_rule.kerf.si();
    }
    for (std::size_t k = 0; k < m_stock.size(); ++k) {
      const double room = m_stock[k].length.si() - m_rule.squaring.si() - length;
      if (room < -1e-9) continue;
      m_room.push_back(room);
      if (m_ownedLeft[k] > 0) {
        --m_ownedLeft[k];
        place(i + 1, cost);
        ++m_ownedLeft[k];
      } else if (m_stock[k].canBuy) {
        place(i + 1,
              {cost[0] + (m_byPrice ? *m_stock[k].price : 0.0), cost[1] + 1.0, cost[2] + m_stock[k].length.si()});
      }
      m_room.pop_back();
    }
  }

  const std::vector<StockLength>& m_stock;
  CutRule m_rule;
  std::vector<int> m_ownedLeft;
  std::vector<double> m_pieces, m_room;
  bool m_byPrice = true;
  Cost m_best{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(), 0.0};
};

}  // namespace

TEST_CASE("Runs of 4, 4, 3, 3, 3 and 3 m without joins need two rolls of 10 m", "[stock][analytic]") {
  // 20 m of runs from 20 m of roll: 4 + 3 + 3 twice, nothing left. Longest first would open a third roll.
  const std::vector<WantedPiece> runs{piece(4.0, 2), piece(3.0, 4)};
  const std::vector<StockLength> rolls{onSale(10.0)};
  const CutPlan plan = planned(runs, rolls, kNoLoss);
  checkLegal(plan, runs, rolls, kNoLoss);
  CHECK(plan.lengthsUsed == 2);
  CHECK(plan.lowerBound == 2);
  CHECK(plan.proven);
  CHECK(plan.proof == "volume bound");
  CHECK_THAT(plan.totalLeft.si(), WithinAbs(0.0, 1e-9));
  CHECK(plan.price == std::nullopt);
}

TEST_CASE("The timber of four panels takes six boards, proven, and says where no squaring is left",
          "[stock][reference]") {
  // Worked by hand: 8 rails of 1970 and 8 stiles of 940 from 4.8 m with a kerf of 3. Volume alone allows five; but two
  // rails leave 860 < 940, so five boards with eight rails carry at most six stiles.
  const std::vector<WantedPiece> pieces{piece(1.970, 8, "rail"), piece(0.940, 8, "stile")};
  const std::vector<StockLength> boards{onSale(4.8, 11.5)};
  const CutRule rule{millimetres(3.0), Length{}};
  const CutPlan plan = planned(pieces, boards, rule);
  checkLegal(plan, pieces, boards, rule);
  CHECK(plan.lengthsUsed == 6);
  CHECK(plan.lowerBound == 6);
  CHECK(plan.proven);
  CHECK(plan.proof == "dual bound");
  REQUIRE(plan.price);
  CHECK_THAT(*plan.price, WithinAbs(6 * 11.5, 1e-9));
  REQUIRE(plan.priceLowerBound);
  CHECK_THAT(*plan.priceLowerBound, WithinAbs(6 * 11.5, 1e-9));

  // 1970 + 3 x 940 with three kerfs is 4799: legal by 1 mm, and no squaring can be taken off.
  const std::vector<WantedPiece> tight{piece(1.970, 1, "rail"), piece(0.940, 3, "stile")};
  const CutPlan one = planned(tight, boards, rule);
  REQUIRE(one.patterns.size() == 1);
  CHECK(one.patterns[0].noSquaringAllowance);
  CHECK_THAT(one.patterns[0].spare.in(millimetre), WithinAbs(1.0, 1e-6));
  CHECK_THAT(one.patterns[0].left.si(), WithinAbs(0.0, 1e-12));
  // With 5 mm taken off each end first it no longer fits.
  const CutPlan squared = planned(tight, boards, {millimetres(3.0), millimetres(5.0)});
  CHECK(squared.lengthsUsed == 2);
  for (const CutPattern& pattern : squared.patterns) CHECK_FALSE(pattern.noSquaringAllowance);
}

TEST_CASE("A piece that ends flush with its board needs no last cut, and one micrometre more does not fit",
          "[stock][analytic]") {
  const CutRule rule{millimetres(3.0), millimetres(2.0)};
  const std::vector<StockLength> boards{onSale(1.0)};
  const std::vector<WantedPiece> flush{piece(0.4975, 1), piece(0.4975, 1)};  // 2 + 497.5 + 3 + 497.5 = 1000
  const CutPlan plan = planned(flush, boards, rule);
  CHECK(plan.lengthsUsed == 1);
  CHECK(plan.patterns[0].noSquaringAllowance);
  CHECK_THAT(plan.patterns[0].spare.si(), WithinAbs(0.0, 1e-9));
  CHECK(planned({piece(0.4975, 1), piece(0.497501, 1)}, boards, rule).lengthsUsed == 2);
}

TEST_CASE("Eight runs of 34.2 m take four rolls of 100 m and leave 126 m", "[stock][reference]") {
  // Worked by hand: two runs a roll, 31.6 m left on each.
  const std::vector<WantedPiece> runs{piece(34.2, 8, "run")};
  const std::vector<StockLength> rolls{onSale(100.0)};
  const CutPlan plan = planned(runs, rolls, kNoLoss);
  checkLegal(plan, runs, rolls, kNoLoss);
  CHECK(plan.lengthsUsed == 4);
  CHECK(plan.proven);
  CHECK_THAT(plan.totalLeft.si(), WithinAbs(126.4, 1e-6));
  // 32.6 m instead: three a roll.
  CHECK(planned({piece(32.6, 8)}, rolls, kNoLoss).lengthsUsed == 3);
}

TEST_CASE("What is owned is used before anything is bought, and no more of it than helps", "[stock][analytic]") {
  const std::vector<WantedPiece> runs{piece(34.2, 3)};
  std::vector<StockLength> rolls{onSale(100.0, 60.0), owned(50.0, 1)};
  const CutPlan plan = planned(runs, rolls, kNoLoss);
  checkLegal(plan, runs, rolls, kNoLoss);
  CHECK(plan.bought == 1);
  CHECK(plan.lengthsUsed == 2);
  CHECK(plan.patterns[0].owned);
  CHECK_THAT(*plan.price, WithinAbs(60.0, 1e-9));
  // One run alone: the owned roll does, nothing is bought.
  const CutPlan small = planned({piece(34.2, 1)}, rolls, kNoLoss);
  CHECK(small.bought == 0);
  CHECK(small.patterns.at(0).owned);
  CHECK(*small.price == 0.0);
  // Of three owned offcuts the one that holds both pieces is taken, and the other two stay whole.
  const CutPlan offcuts = planned({piece(1.0, 2)}, {owned(1.5, 2), owned(2.5, 1)}, kNoLoss);
  CHECK(offcuts.lengthsUsed == 1);
  CHECK(offcuts.patterns.at(0).stock == 1);
}

TEST_CASE("The cheapest mix is bought when prices are known, else the fewest and then the shortest lengths",
          "[stock][analytic]") {
  const std::vector<WantedPiece> pieces{piece(2.0, 5)};
  // 4.8 m holds two, 2.4 m holds one. Five pieces: 2 x 4.8 + 2.4 at 20 each and 9 -> 49; five of 2.4 -> 45.
  const CutPlan cheap = planned(pieces, {onSale(4.8, 20.0), onSale(2.4, 9.0)}, kNoLoss);
  CHECK(cheap.bought == 5);
  CHECK_THAT(*cheap.price, WithinAbs(45.0, 1e-9));
  CHECK(cheap.proven);
  const CutPlan mixed = planned(pieces, {onSale(4.8, 20.0), onSale(2.4, 11.0)}, kNoLoss);
  CHECK(mixed.bought == 3);
  CHECK_THAT(*mixed.price, WithinAbs(51.0, 1e-9));
  const CutPlan unpriced = planned(pieces, {onSale(4.8, 20.0), onSale(2.4)}, kNoLoss);
  CHECK(unpriced.bought == 3);
  CHECK_THAT(unpriced.boughtLength.si(), WithinAbs(2 * 4.8 + 2.4, 1e-9));
  CHECK(unpriced.price == std::nullopt);
}

TEST_CASE("A piece longer than every stock length is named with both lengths", "[stock][analytic]") {
  const std::vector<WantedPiece> runs{piece(81.0, 1, "run A"), piece(120.5, 1, "run B")};
  const Result<CutPlan> plan =
      planCuts(runs, std::vector<StockLength>{onSale(100.0), onSale(50.0)}, {millimetres(0.0), millimetres(20.0)});
  REQUIRE_FALSE(plan);
  CHECK(plan.error().code == ErrorCode::PieceLongerThanStock);
  CHECK(plan.error().detail == "run B");
  REQUIRE(plan.error().facts.size() == 2);
  CHECK(plan.error().facts[0].name == "piece");
  CHECK_THAT(plan.error().facts[0].value_si, WithinAbs(120.5, 1e-9));
  CHECK(plan.error().facts[1].name == "longest");
  CHECK_THAT(plan.error().facts[1].value_si, WithinAbs(99.98, 1e-9));
}

TEST_CASE("No stock, too little owned stock and senseless numbers are refused", "[stock][analytic]") {
  const std::vector<WantedPiece> one{piece(1.0, 1)};
  const auto codeOf = [](const std::vector<WantedPiece>& wanted, const std::vector<StockLength>& stock,
                         const CutRule& rule) {
    const Result<CutPlan> plan = planCuts(wanted, stock, rule);
    REQUIRE_FALSE(plan);
    return plan.error().code;
  };
  CHECK(codeOf(one, {}, kNoLoss) == ErrorCode::NoStock);
  CHECK(codeOf(one, {owned(2.0, 0)}, kNoLoss) == ErrorCode::NoStock);
  CHECK(codeOf({piece(1.0, 5)}, {owned(2.0, 2)}, kNoLoss) == ErrorCode::NoStock);
  // Room in all, but not in one: three of 1.2 from three times 2.0 is possible, four is not.
  CHECK(codeOf({piece(1.2, 4)}, {owned(2.0, 3)}, kNoLoss) == ErrorCode::NoStock);
  CHECK(codeOf({piece(0.0, 1)}, {onSale(2.0)}, kNoLoss) == ErrorCode::OutOfRange);
  CHECK(codeOf({piece(1.0, -1)}, {onSale(2.0)}, kNoLoss) == ErrorCode::OutOfRange);
  CHECK(codeOf({piece(1.0, 6000)}, {onSale(2.0)}, kNoLoss) == ErrorCode::OutOfRange);
  CHECK(codeOf(one, {onSale(-2.0)}, kNoLoss) == ErrorCode::OutOfRange);
  CHECK(codeOf(one, {onSale(2.0, -1.0)}, kNoLoss) == ErrorCode::OutOfRange);
  CHECK(codeOf(one, {onSale(2.0)}, {millimetres(-1.0), Length{}}) == ErrorCode::OutOfRange);
  CHECK(codeOf({piece(std::numeric_limits<double>::quiet_NaN(), 1)}, {onSale(2.0)}, kNoLoss) == ErrorCode::NotFinite);
  const CutPlan nothing = planned({piece(1.0, 0)}, {onSale(2.0)}, kNoLoss);
  CHECK((nothing.proven && nothing.lengthsUsed == 0 && nothing.price == model::Price(0.0)));
}

TEST_CASE("A piece that only an owned length holds is cut from it", "[stock][analytic]") {
  const std::vector<WantedPiece> pieces{piece(5.0, 1), piece(1.0, 2)};
  const std::vector<StockLength> stock{onSale(2.0, 3.0), owned(5.5, 1)};
  const CutPlan plan = planned(pieces, stock, kNoLoss);
  checkLegal(plan, pieces, stock, kNoLoss);
  CHECK(plan.bought == 1);
  const Result<CutPlan> twice = planCuts(std::vector<WantedPiece>{piece(5.0, 2)}, stock, kNoLoss);
  REQUIRE_FALSE(twice);
  CHECK(twice.error().code == ErrorCode::NoStock);
}

TEST_CASE("The paper machine of the textbooks needs 73 parent rolls", "[stock][reference]") {
  // A much printed example of cutting stock, from memory: parent rolls of 5600 mm, thirteen widths, 219 pieces; 73.
  const std::vector<WantedPiece> widths{piece(1.380, 22), piece(1.520, 25), piece(1.560, 12), piece(1.710, 14),
                                        piece(1.820, 18), piece(1.880, 18), piece(1.930, 20), piece(2.000, 10),
                                        piece(2.050, 12), piece(2.100, 14), piece(2.140, 16), piece(2.150, 18),
                                        piece(2.200, 20)};
  const std::vector<StockLength> parents{onSale(5.6)};
  const CutPlan plan = planned(widths, parents, kNoLoss);
  checkLegal(plan, widths, parents, kNoLoss);
  CHECK(plan.lowerBound == 73);
  CHECK(plan.lengthsUsed == 73);
  CHECK(plan.proven);
}

TEST_CASE("Small plans equal the best of all plans", "[stock][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  int withOwned = 0;
  int byPrice = 0;
  for (int round = 0; round < 400; ++round) {
    std::vector<WantedPiece> wanted;
    std::vector<StockLength> stock;
    const unsigned long kinds = 1 + random() % 4;
    int pieces = 0;
    for (unsigned i = 0; i < kinds && pieces < 7; ++i) {
      const int count = std::min(7 - pieces, static_cast<int>(1 + random() % 3));
      wanted.push_back(piece(0.05 * static_cast<double>(4 + random() % 40), count));
      pieces += count;
    }
    const unsigned long lengths = 1 + random() % 3;
    for (unsigned k = 0; k < lengths; ++k) {
      StockLength s = onSale(0.05 * static_cast<double>(20 + random() % 60));
      s.owned = static_cast<int>(random() % 3 == 0 ? random() % 3 : 0);
      s.canBuy = random() % 4 != 0;
      if (random() % 5 != 0) s.price = 0.25 * static_cast<double>(1 + random() % 80);
      withOwned += s.owned > 0 ? 1 : 0;
      stock.push_back(s);
    }
    const CutRule rule{millimetres(static_cast<double>(random() % 4)), millimetres(static_cast<double>(random() % 20))};
    INFO("round " << round);
    const EveryPlan every(wanted, stock, rule);
    const Result<CutPlan> plan = planCuts(wanted, stock, rule);
    REQUIRE(plan.has_value() == every.feasible());
    if (!plan) continue;
    checkLegal(*plan, wanted, stock, rule);
    CHECK(plan->proven);
    CHECK(plan->bought == static_cast<int>(every.best()[1]));
    CHECK_THAT(plan->boughtLength.si(), WithinAbs(every.best()[2], 1e-9));
    if (every.byPrice()) {
      ++byPrice;
      REQUIRE(plan->price);
      CHECK_THAT(*plan->price, WithinAbs(every.best()[0], 1e-9));
    }
  }
  CHECK(withOwned > 50);
  CHECK(byPrice > 50);
}

TEST_CASE("Plans of 64 different pieces are proven, or one length off their bound at most", "[stock][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  const CutRule rule{millimetres(3.0), millimetres(10.0)};
  const std::vector<std::vector<StockLength>> stocks{{onSale(4.8)}, {onSale(4.8), onSale(3.0)}};
  for (const std::vector<StockLength>& stock : stocks) {
    int proven = 0;
    constexpr int kRounds = 6;
    for (int round = 0; round < kRounds; ++round) {
      std::vector<WantedPiece> wanted;
      for (int i = 0; i < 64; ++i) wanted.push_back(piece(0.001 * static_cast<double>(300 + random() % 2200), 1));
      INFO("round " << round);
      const CutPlan plan = planned(wanted, stock, rule);
      checkLegal(plan, wanted, stock, rule);
      CHECK(plan.bought - plan.boughtLowerBound <= 1);
      CHECK((!plan.proven || plan.bought == plan.boughtLowerBound));
      proven += plan.proven ? 1 : 0;
    }
    CHECK(proven >= kRounds / 2);
  }
}

TEST_CASE("Far more pieces than are solved exactly still give a legal plan and an honest bound", "[stock][property]") {
  std::vector<WantedPiece> wanted;
  for (int i = 0; i < 900; ++i) wanted.push_back(piece(0.3 + 0.0017 * ((i * 641) % 900), 1));
  const std::vector<StockLength> stock{onSale(4.8, 10.0), owned(3.0, 40)};
  const CutPlan plan = planned(wanted, stock, kNoLoss);
  checkLegal(plan, wanted, stock, kNoLoss);
  CHECK(plan.boughtLowerBound > 0);
  CHECK(plan.bought < 1.1 * plan.boughtLowerBound);
  const std::vector<WantedPiece> alike{piece(0.7, 1200), piece(1.1, 900), piece(0.45, 700)};
  const CutPlan many = planned(alike, stock, kNoLoss);
  checkLegal(many, alike, stock, kNoLoss);
  CHECK(many.bought - many.boughtLowerBound <= 1);
}

TEST_CASE("The same input gives the same plan", "[stock][property]") {
  std::vector<WantedPiece> wanted;
  for (int i = 0; i < 40; ++i) wanted.push_back(piece(0.5 + 0.037 * ((i * 29) % 40), 1));
  const std::vector<StockLength> stock{onSale(4.8), onSale(3.6), owned(2.0, 2)};
  const CutRule rule{millimetres(3.0), millimetres(5.0)};
  const CutPlan first = planned(wanted, stock, rule);
  const CutPlan second = planned(wanted, stock, rule);
  REQUIRE(first.patterns.size() == second.patterns.size());
  for (std::size_t i = 0; i < first.patterns.size(); ++i) {
    CHECK(first.patterns[i].pieces == second.patterns[i].pieces);
    CHECK(first.patterns[i].stock == second.patterns[i].stock);
  }
}

TEST_CASE("What would only just fit and is got round is named", "[stock][analytic]") {
  // 1970 + 3 x 940 + 3 x 3 = 4799 of 4800; the plan of six boards lays rails in pairs and stiles in fives.
  const auto plan = planCuts(std::vector<WantedPiece>{{"rail", metres(1.970), 8}, {"stile", metres(0.940), 8}},
                             std::vector<StockLength>{{"4.8 m", metres(4.8), 0, true, 11.0}}, {millimetres(3.0), {}});
  REQUIRE(plan);
  const std::vector<JustFitting> avoided = justFittingAvoided(*plan);
  bool used = false;
  for (const CutPattern& pattern : plan->patterns) used = used || pattern.noSquaringAllowance;
  REQUIRE((used || avoided.size() == 1));
  if (!used) {
    CHECK(avoided[0].counts == std::vector<int>{1, 3});
    CHECK(avoided[0].spare.in(millimetre) == Approx(1.0));
  }
  // With 5 mm squared off it does not fit at all.
  const auto squared =
      planCuts(std::vector<WantedPiece>{{"rail", metres(1.970), 8}, {"stile", metres(0.940), 8}},
               std::vector<StockLength>{{"4.8 m", metres(4.8), 0, true, 11.0}}, {millimetres(3.0), millimetres(5.0)});
  REQUIRE(squared);
  CHECK(justFittingAvoided(*squared).empty());
}
