// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/fitting.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "core/checks/measures.h"
#include "core/layout/layout.h"

namespace sunspool::propose {
namespace {

constexpr double kGrid_m = 0.5e-3;                                        // pitches a comb can be marked out with
constexpr double kRadiusGrid_m = 5e-3;                                    // radii a template is cut to
constexpr double kTighterIndex = 0.6, kCloseIndex = 0.8, kStrain = 0.08;  // the limits of checks
constexpr int kFullTurn = 4;                                              // quarter turns
constexpr double kFrameSmallest = 0.2, kFrameLargest = 1.25;              // how far a frame without a sheet is scaled
constexpr double kWidestShare = 0.6;  // of half the room: wider bends leave most of the frame without tube
constexpr double kAlikeTube = 0.01;   // of the roll: no more is lost than the wider pitch wins
constexpr double kTailSpare_m = 0.1;  // a tail is cut this much longer than the way

/// Typed lengths have few digits; so have the ones proposed.
double clean(double length_m) { return std::round(length_m * 1e4) / 1e4; }
double upTo(double value, double grid) { return clean(std::ceil(value / grid - 1e-9) * grid); }

double radiusFor(const model::Tube& tube, double index) {
  return upTo(std::max(checks::collapseRadius(tube).si() / index * (1.0 + 1e-6),
                       tube.outsideDiameter.value.si() / (2.0 * kStrain)),
              kRadiusGrid_m);
}

/// The longest piece of which this many can be cut from the rolls.
double longestPiece_m(const std::vector<double>& rolls_m, int pieces) {
  const auto cut = [&](double piece_m) {
    long many = 0;
    for (const double roll_m : rolls_m) many += static_cast<long>(std::floor(roll_m / piece_m * (1.0 + 1e-12)));
    return many >= pieces;
  };
  double longest_m = 0.0;
  for (const double roll_m : rolls_m) {
    for (int share = 1; share <= pieces; ++share) {
      const double piece_m = roll_m / share;
      if (piece_m <= longest_m) break;
      if (cut(piece_m)) longest_m = piece_m;
    }
  }
  return longest_m;
}

/// Cut length of the longest run with the spread of hand laying.
double neededOf(const layout::LaidPanel& laid, const model::Document& design) {
  double needed_m = 0.0;
  for (const layout::LaidRun& run : laid.runs) {
    needed_m = std::max(
        needed_m, run.cutLength_m + (run.turnsTo_m - run.turnsFrom_m) *
                                        (std::max(0.0, design.laying.wobble.value) + design.laying.wobble.spread));
  }
  return needed_m;
}
int fewestTurns(const layout::LaidPanel& laid) {
  int fewest = laid.runs.front().quarterTurns;
  for (const auto& run : laid.runs) fewest = std::min(fewest, run.quarterTurns);
  return fewest;
}

/// Tries pitches and numbers of turns for one frame, radius and number of runs.
class Fitter {
 public:
  Fitter(model::Document design, double available_m) : m_design(std::move(design)), m_available_m(available_m) {
    m_least_m = upTo((m_design.tube.outsideDiameter.value + kTubeGap).si(), kGrid_m);
  }

  Result<Laid> fit() {
    const Result<layout::LaidPanel> full = at(m_least_m, std::nullopt);
    if (!full.has_value() && full.error().code != ErrorCode::TooMuchTube) return full.error();
    if (full.has_value() && fewestTurns(*full) < kFullTurn) return tooNarrow();
    if (full.has_value() && neededOf(*full, m_design) <= m_available_m)
      return taken(m_least_m, std::nullopt, Binds::Sheet);
    return narrowed();
  }

 private:
  struct Offer {
    double pitch_m = 0.0, tube_m = 0.0;
    std::optional<int> turns;
  };

  Result<layout::LaidPanel> at(double pitch_m, std::optional<int> turns) const {
    model::Document tried = m_design;
    tried.laying.pitch = metres(pitch_m);
    tried.laying.quarterTurns = turns;
    return layout::lay(tried);
  }
  bool suffices(double pitch_m) {
    const auto laid = at(pitch_m, std::nullopt);
    if (!laid.has_value()) return laid.error().code != ErrorCode::TooMuchTube;
    offer(*laid, pitch_m, std::nullopt);
    return neededOf(*laid, m_design) <= m_available_m;
  }
  void offer(const layout::LaidPanel& laid, double pitch_m, std::optional<int> turns) {
    if (neededOf(laid, m_design) > m_available_m || fewestTurns(laid) < kFullTurn) return;
    const double tube_m = laid.totalCut.si();
    m_offers.push_back({pitch_m, tube_m, turns});
  }

  /// Halves the pitches between "too much tube" and "the rolls suffice", then looks at the neighbours: the length does
  /// not fall evenly, and an end of a run may be given up.
  Result<Laid> narrowed() {
    long low = 0;
    long high = static_cast<long>(
        std::ceil(0.5 * std::max(m_design.frame.insideWidth, m_design.frame.insideHeight).si() / kGrid_m));
    while (high - low > 1) {
      const long middle = (low + high) / 2;
      (suffices(clean(m_least_m + static_cast<double>(middle) * kGrid_m)) ? high : low) = middle;
    }
    const long span = std::max<long>(3, low / 20);
    for (long step = std::max<long>(0, low - span); step <= high + span; ++step) {
      const double pitch_m = clean(m_least_m + static_cast<double>(step) * kGrid_m);
      const auto laid = at(pitch_m, std::nullopt);
      if (!laid.has_value()) continue;
      offer(*laid, pitch_m, std::nullopt);
      shorten(*laid, pitch_m);
      if (step - low > 40) break;
    }
    if (m_offers.empty()) return tooShort();
    const Offer best = widestOfTheLongest();
    return taken(best.pitch_m, best.turns, Binds::Roll);
  }
  /// Of those that use the roll nearly as well as the best, the one spread widest over the plate.
  Offer widestOfTheLongest() const {
    double longest_m = 0.0;
    for (const Offer& offer : m_offers) longest_m = std::max(longest_m, offer.tube_m);
    Offer best;
    for (const Offer& offer : m_offers) {
      if (offer.tube_m >= (1.0 - kAlikeTube) * longest_m && offer.pitch_m > best.pitch_m) best = offer;
    }
    return best;
  }
  void shorten(const layout::LaidPanel& laid, double pitch_m) {
    if (neededOf(laid, m_design) <= m_available_m) return;
    const int most = laid.runs.front().quarterTurns;
    for (int turns = most - 1; turns >= std::max(kFullTurn, most - 3); --turns) {
      const auto fewer = at(pitch_m, turns);
      if (fewer.has_value()) offer(*fewer, pitch_m, turns);
    }
  }

  Result<Laid> taken(double pitch_m, std::optional<int> turns, Binds binds) const {
    Laid laid{m_design, binds};
    laid.design.laying.pitch = metres(pitch_m);
    laid.design.laying.quarterTurns = turns;
    return laid;
  }
  Error tooShort() const {
    double needed_m = 0.0;
    for (double pitch_m = m_least_m; pitch_m < m_design.frame.insideHeight.si(); pitch_m *= 1.5) {
      const auto laid = at(pitch_m, kFullTurn);
      if (!laid.has_value()) continue;
      const double found_m = neededOf(*laid, m_design);
      needed_m = needed_m <= 0.0 ? found_m : std::min(needed_m, found_m);
    }
    if (needed_m <= m_available_m) return tooNarrow();
    return {ErrorCode::PieceLongerThanStock,
            "tube",
            "A",
            {{"piece", needed_m, Dimension::Length}, {"longest", m_available_m, Dimension::Length}}};
  }
  Error tooNarrow() const {
    const double outside_m = m_design.tube.outsideDiameter.value.si();
    const double edges_m = 2.0 * m_design.laying.margin.si() + outside_m;
    return {
        ErrorCode::RegionTooNarrow,
        "/laying/bend_radius_m",
        {},
        {{"width", std::min(m_design.frame.insideWidth, m_design.frame.insideHeight).si() - edges_m, Dimension::Length},
         {"needed", 2.0 * m_design.laying.bendRadius.si() + m_least_m, Dimension::Length}}};
  }

  model::Document m_design;
  double m_available_m, m_least_m = 0.0;
  std::vector<Offer> m_offers;
};

/// The return tail reaches from the inner end to the outside and a little on.
Result<Done> lengthenTail(model::Document& design) {
  const auto laid = layout::lay(design);
  if (!laid.has_value()) return laid.error();
  double short_m = 0.0;
  for (const auto& run : laid->runs) short_m = std::max(short_m, run.tailShortBy_m);
  if (short_m > 0.0) design.laying.returnTail += metres(upTo(short_m + kTailSpare_m, 0.05));
  return Done{};
}

Result<Laid> fittedInFrame(model::Document design, double available_m) {
  Result<Laid> laid = Fitter(design, available_m).fit();
  if (!laid.has_value()) return laid;
  const Length before = laid->design.laying.returnTail;
  if (const auto longer = lengthenTail(laid->design); !longer.has_value()) return longer.error();
  if (laid->design.laying.returnTail == before) return laid;
  design.laying.returnTail = laid->design.laying.returnTail;
  return Fitter(std::move(design), available_m).fit();
}

model::Document scaled(model::Document design, double scale) {
  const auto round = [](double value) { return metres(std::round(value * 100.0) / 100.0); };
  design.frame.insideWidth = round(design.frame.insideWidth.si() * scale);
  design.frame.insideHeight = round(design.frame.insideHeight.si() * scale);
  return design;
}

/// Without a sheet: the largest frame that the rolls still fill.
model::Document sizedToRoll(const model::Document& design, double available_m) {
  const auto runsShort = [&](double scale) {
    const Result<Laid> laid = Fitter(scaled(design, scale), available_m).fit();
    if (laid.has_value()) return laid->binds == Binds::Roll;
    return laid.error().code == ErrorCode::PieceLongerThanStock || laid.error().code == ErrorCode::TooMuchTube;
  };
  double low = kFrameSmallest, high = kFrameLargest;
  if (runsShort(low)) return design;
  if (!runsShort(high)) return scaled(design, high);
  for (int i = 0; i < 7; ++i) {
    const double middle = 0.5 * (low + high);
    (runsShort(middle) ? high : low) = middle;
  }
  return scaled(design, low);
}

}  // namespace

std::vector<double> radiiFor(const Starting& start) {
  const model::Document& design = start.design;
  const double tightest_m = radiusFor(design.tube, kTighterIndex);
  const double room_m = 0.5 * (std::min(design.frame.insideWidth, design.frame.insideHeight).si() -
                               2.0 * design.laying.margin.si() - design.tube.outsideDiameter.value.si());
  const double widest_m = std::min(upTo(checks::handbookRadius(design.tube).si(), kRadiusGrid_m),
                                   clean(std::floor(kWidestShare * room_m / kRadiusGrid_m) * kRadiusGrid_m));
  std::vector<double> radii{tightest_m};
  if (widest_m > tightest_m * 1.1) radii.push_back(widest_m);
  if (widest_m > tightest_m * 1.5) radii.push_back(upTo(std::sqrt(widest_m * tightest_m), kRadiusGrid_m));
  std::sort(radii.begin(), radii.end(), std::greater<>());
  return radii;
}

double lastResortRadius(const Starting& start) {
  const double radius_m = radiusFor(start.design.tube, kCloseIndex);
  return radius_m < radiusFor(start.design.tube, kTighterIndex) ? radius_m : 0.0;
}

Result<Laid> fitted(const Starting& start, int runs, double radius_m) {
  model::Document design = start.design;
  design.laying.starts = runs;
  design.laying.bendRadius = metres(radius_m);
  const double available_m =
      start.rolls_m.empty() ? layout::kMostTube_m : longestPiece_m(start.rolls_m, runs * design.panelsAlike);
  if (!start.sizedBySheet) design = sizedToRoll(design, available_m);
  Result<Laid> laid = fittedInFrame(design, available_m);
  if (!laid.has_value() && laid.error().code == ErrorCode::CrossingHasNoPlace) {
    design.laying.innerEnd = model::InnerEnd::ThroughTheBack;
    laid = fittedInFrame(std::move(design), available_m);
  }
  if (laid.has_value() && start.boardsBind && laid->binds == Binds::Sheet) laid->binds = Binds::Boards;
  return laid;
}

}  // namespace sunspool::propose
