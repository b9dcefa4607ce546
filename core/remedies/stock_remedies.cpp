// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/number_text.h"
#include "core/checks/measures.h"
#include "core/evaluate/demand.h"
#include "core/layout/layout.h"
#include "core/remedies/trial.h"

namespace sunspool::remedies {
namespace {

constexpr double kMillimetre = 1e-3;
constexpr int kTries = 4;  ///< designs that fit the roll and are reckoned whole before a way is given up

/// The next of what is commonly sold, else the next whole step.
template <std::size_t N>
double nextSold(const std::array<double, N>& sold, double needed, double step) {
  const auto found = std::lower_bound(sold.begin(), sold.end(), needed - 1e-9);
  return found != sold.end() ? *found : roundedUp(needed, step);
}
// Common practice, no source.
constexpr std::array kRolls_m{25.0, 50.0, 100.0, 150.0, 200.0, 300.0};
constexpr std::array kBoards_m{2.4, 3.0, 3.6, 4.2, 4.8, 5.4, 6.0};

double longestRun_m(const layout::LaidPanel& laid) {
  double longest = 0.0;
  for (const layout::LaidRun& run : laid.runs) longest = std::max(longest, run.cutLength_m);
  return longest;
}

void offerLongerRoll(Trial& trial) {
  if (!trial.results().layout.has_value()) return;
  const double length = nextSold(kRolls_m, longestRun_m(*trial.results().layout), 10.0);
  const Edit edit = [length](model::Document d) {
    model::Roll roll;
    roll.name = d.tube.name + ", " + numberText(length) + " m";
    roll.length = metres(length);
    d.stock.rolls.push_back(std::move(roll));
    return accepted(std::move(d));
  };
  trial.offer(RemedyKind::LongerRoll, edit, {lengthFact("length", length)});
}

/// Whether the longest run of the laid document comes from a roll of this length.
bool fitsRoll(const model::Document& document, double roll_m) {
  const Result<layout::LaidPanel> laid = layout::lay(document);
  return laid.has_value() && longestRun_m(*laid) <= roll_m;
}

Edit withLaying(const model::Laying& laying) {
  return [laying](model::Document d) {
    d.laying = laying;
    return accepted(std::move(d));
  };
}

/// The smallest pitch over today's that saves the roll, in steps a builder can lay.
void offerPitchForRoll(Trial& trial, double roll_m) {
  model::Document tried = trial.document();
  const double now = tried.laying.pitch.si();
  int tries = 0;
  for (int step = 1; step <= 120 && tries < kTries; ++step) {
    tried = trial.document();
    tried.laying.pitch = metres(roundedUp(now + 0.5 * step * kMillimetre, 0.5 * kMillimetre));
    tried = fitted(std::move(tried));
    if (!fitsRoll(tried, roll_m)) continue;
    ++tries;
    if (trial.offer(RemedyKind::LargerPitch, withLaying(tried.laying), {lengthFact("pitch", tried.laying.pitch.si())}))
      return;
  }
}

void offerTurnsForRoll(Trial& trial, double roll_m) {
  model::Document tried = trial.document();
  int sides = 0;
  for (const layout::LaidRun& run : trial.results().layout->runs) sides = std::max(sides, run.quarterTurns);
  int tries = 0;
  for (int fewer = sides - 1; fewer >= 1 && tries < kTries; --fewer) {
    tried.laying.quarterTurns = fewer;
    if (!fitsRoll(tried, roll_m)) continue;
    ++tries;
    if (trial.offer(RemedyKind::FewerTurns, withLaying(tried.laying), {{"turns", 0.25 * fewer, Dimension::None}}))
      return;
  }
}

/// A frame whose pieces lose so much; the tube is laid anew.
Edit smallerBy(double width_m, double height_m) {
  return [=](model::Document d) {
    d.frame.insideWidth -= metres(width_m);
    d.frame.insideHeight -= metres(height_m);
    return accepted(fitted(std::move(d)));
  };
}
void offerSmaller(Trial& trial, double width_m, double height_m) {
  const model::Document& document = trial.document();
  trial.offer(RemedyKind::SmallerFrame, smallerBy(width_m, height_m),
              {lengthFact("width", checks::outerWidth(document).si() - width_m),
               lengthFact("height", checks::outerHeight(document).si() - height_m),
               lengthFact("by", std::max(width_m, height_m))});
}

void offerStilesThrough(Trial& trial) {
  const bool now = trial.document().frame.railsThrough;
  trial.offer(RemedyKind::StilesThrough, [now](model::Document d) {
    d.frame.railsThrough = !now;
    return accepted(std::move(d));
  });
}

bool isTight(const model::Document& document) {
  const Result<stock::CutPlan> plan = stock::planCuts(evaluate::wantedTimber(document), evaluate::timberStock(document),
                                                      evaluate::timberRule(document));
  return !plan.has_value() || std::any_of(plan->patterns.begin(), plan->patterns.end(),
                                          [](const auto& pattern) { return pattern.noSquaringAllowance; });
}

std::optional<model::SheetUse> useOf(std::string_view part) {
  if (part == "plate") return model::SheetUse::Plate;
  if (part == "insulation") return model::SheetUse::Insulation;
  if (part == "backing") return model::SheetUse::Backing;
  if (part == "glazing") return model::SheetUse::Glazing;
  return std::nullopt;
}

std::optional<model::FittingKind> fittingOf(std::string_view item) {
  if (item == "barb_connector") return model::FittingKind::BarbConnector;
  if (item == "elbow_90") return model::FittingKind::Elbow90;
  if (item == "elbow_45") return model::FittingKind::Elbow45;
  if (item == "tee") return model::FittingKind::TeeThrough;
  if (item == "valve") return model::FittingKind::Valve;
  return std::nullopt;
}

/// Where the price of a row of the list stands in the document; nullptr when it has none.
model::Price* priceOfRow(model::Document& document, const std::string& item, const std::string& name) {
  const auto named = [&](auto& list) -> model::Price* {
    for (auto& entry : list) {
      if (entry.name == name) return &entry.price;
    }
    return nullptr;
  };
  if (item == "tube") return named(document.stock.rolls);
  if (item == "timber") return named(document.stock.timbers);
  if (item == "pump") {
    for (model::StockPump& entry : document.stock.pumps) {
      if (entry.pump.name == name) return &entry.price;
    }
    return nullptr;
  }
  if (const auto use = useOf(item)) {
    for (model::StockSheet& sheet : document.stock.sheets) {
      if (sheet.use == *use && sheet.name == name) return &sheet.price;
    }
    model::Box& box = document.box;
    switch (*use) {
      case model::SheetUse::Plate:
        return box.plate ? &box.plate->sheet.pricePerSquareMetre : nullptr;
      case model::SheetUse::Insulation:
        return box.insulation ? &box.insulation->pricePerSquareMetre : nullptr;
      case model::SheetUse::Backing:
        return box.backing ? &box.backing->pricePerSquareMetre : nullptr;
      case model::SheetUse::Glazing:
        return box.glazing ? &box.glazing->sheet.pricePerSquareMetre : nullptr;
    }
  }
  if (const auto kind = fittingOf(item)) {
    for (model::StockFitting& fitting : document.stock.fittings) {
      if (fitting.kind == *kind) return &fitting.price;
    }
    return &document.stock.fittingPrice;
  }
  return nullptr;
}

}  // namespace

void noTubeRemedies(Trial& trial) {
  offerLongerRoll(trial);
  // A roll of another tube may stand in the Shed.
  for (const model::Tube& tube : trial.tubes()) {
    const bool onARoll = std::any_of(
        trial.document().stock.rolls.begin(), trial.document().stock.rolls.end(), [&](const model::Roll& roll) {
          return roll.outsideDiameter == tube.outsideDiameter.value && roll.insideDiameter == tube.insideDiameter.value;
        });
    if (!onARoll) continue;
    const Edit edit = [tube](model::Document d) { return withOtherTube(std::move(d), tube); };
    trial.offer(RemedyKind::OtherTube, edit, {}, tube.name);
  }
}

void joinRemedies(Trial& trial) {
  if (!trial.results().layout.has_value()) return;
  const double roll = trial.snag().limit.value_si;
  offerPitchForRoll(trial, roll);
  offerTurnsForRoll(trial, roll);
  for (const int starts : {2, 4}) {
    model::Document tried = trial.document();
    if (starts <= tried.laying.starts) continue;
    if (tried.laying.quarterTurns) {
      tried.laying.quarterTurns = std::max(1, *tried.laying.quarterTurns * tried.laying.starts / starts);
    }
    tried.laying.starts = starts;
    tried = fitted(std::move(tried));
    if (!fitsRoll(tried, roll)) continue;
    if (trial.offer(RemedyKind::MoreRuns, withLaying(tried.laying),
                    {{"runs", static_cast<double>(starts), Dimension::Count}}))
      break;
  }
  offerLongerRoll(trial);
  trial.offer(RemedyKind::AllowJoins, [](model::Document d) {
    d.stock.joinsAllowed = true;
    return accepted(std::move(d));
  });
}

void timberRemedies(Trial& trial) {
  double longest = 0.0;
  const std::vector<stock::WantedPiece> wanted = evaluate::wantedTimber(trial.document());
  for (const stock::WantedPiece& piece : wanted) longest = std::max(longest, piece.length.si());
  const double needed = longest + trial.document().stock.squaringAllowance.si();
  const double board = nextSold(kBoards_m, needed, 0.3);
  const Edit longer = [board](model::Document d) {
    model::TimberStock timber;
    timber.name = "Timber " + std::to_string(std::lround(d.frame.timberWidth.si() * 1e3)) + " x " +
                  std::to_string(std::lround(d.frame.timberDepth.si() * 1e3)) + ", " + numberText(board) + " m";
    timber.length = metres(board);
    d.stock.timbers.push_back(std::move(timber));
    return accepted(std::move(d));
  };
  trial.offer(RemedyKind::LongerTimber, longer, {lengthFact("length", board)});
  if (trial.document().stock.timbers.empty()) return;
  offerStilesThrough(trial);
  double usable = 0.0;
  for (const model::TimberStock& timber : trial.document().stock.timbers) usable = std::max(usable, timber.length.si());
  usable -= trial.document().stock.squaringAllowance.si();
  const auto excess = [&](std::size_t piece) {
    return std::max(0.0, roundedUp(wanted[piece].length.si() - usable, kMillimetre));
  };
  // Half a panel is another panel, not a remedy.
  if (excess(0) > 0.4 * wanted[0].length.si() || excess(1) > 0.4 * wanted[1].length.si()) return;
  offerSmaller(trial, excess(0), excess(1));
}

void squaringRemedies(Trial& trial) {
  const model::Document& document = trial.document();
  const auto smallest = [&](double alongWidth, double alongHeight) -> std::optional<double> {
    for (int mm = 1; mm <= 40; ++mm) {
      model::Document tried = document;
      tried.frame.insideWidth -= metres(mm * kMillimetre * alongWidth);
      tried.frame.insideHeight -= metres(mm * kMillimetre * alongHeight);
      if (!isTight(tried)) return mm * kMillimetre;
    }
    return std::nullopt;
  };
  if (const auto by = smallest(1.0, 0.0)) offerSmaller(trial, *by, 0.0);
  if (const auto by = smallest(0.0, 1.0)) offerSmaller(trial, 0.0, *by);
  offerStilesThrough(trial);
  // Boards of the tight kind one size longer.
  for (const stock::CutPattern& pattern : trial.results().timberCuts->patterns) {
    if (!pattern.noSquaringAllowance || pattern.owned) continue;
    const std::size_t index = pattern.stock;
    const double length = nextSold(kBoards_m, document.stock.timbers[index].length.si() + 0.1, 0.3);
    const Edit edit = [index, length](model::Document d) -> Result<model::Document> {
      if (index >= d.stock.timbers.size()) return Error{ErrorCode::RemedyGone, "/stock/timbers", {}, {}};
      model::TimberStock& timber = d.stock.timbers[index];
      timber.name = "Timber " + std::to_string(std::lround(d.frame.timberWidth.si() * 1e3)) + " x " +
                    std::to_string(std::lround(d.frame.timberDepth.si() * 1e3)) + ", " + numberText(length) + " m";
      timber.length = metres(length);
      timber.price.reset();
      return accepted(std::move(d));
    };
    trial.offer(RemedyKind::LongerTimber, edit, {lengthFact("length", length)});
    break;
  }
}

void sheetRemedies(Trial& trial) {
  if (trial.snag().places.empty()) return;
  const std::string part = trial.snag().places.front().part;
  const std::optional<model::SheetUse> use = useOf(part);
  if (!use) return;
  const model::Document& document = trial.document();
  const double over =
      *use == model::SheetUse::Glazing && document.box.glazing ? 2.0 * document.box.glazing->overlap.si() : 0.0;
  const double width = document.frame.insideWidth.si() + over, height = document.frame.insideHeight.si() + over;
  // Common practice, no source.
  constexpr std::array<std::pair<double, double>, 7> kSheets_m{
      {{1.0, 2.0}, {1.22, 2.44}, {1.25, 2.5}, {1.5, 3.0}, {2.05, 3.05}, {2.1, 6.0}, {2.1, 7.0}}};
  std::pair<double, double> size{roundedUp(std::min(width, height), 0.05), roundedUp(std::max(width, height), 0.05)};
  for (const auto& sold : kSheets_m) {
    if (std::min(width, height) <= sold.first && std::max(width, height) <= sold.second) {
      size = sold;
      break;
    }
  }
  const bool upright = height > width;
  const double x = upright ? size.first : size.second, y = upright ? size.second : size.first;
  const Edit larger = [use, x, y](model::Document d) {
    model::StockSheet sheet;
    sheet.use = *use;
    sheet.name = numberText(x) + " x " + numberText(y) + " m";
    sheet.width = metres(x);
    sheet.height = metres(y);
    d.stock.sheets.push_back(std::move(sheet));
    return accepted(std::move(d));
  };
  trial.offer(RemedyKind::LargerSheet, larger, {lengthFact("width", x), lengthFact("height", y)});
  double widest = 0.0;
  for (const model::StockSheet& sheet : document.stock.sheets) {
    if (sheet.use == *use) widest = std::max({widest, sheet.width.si(), sheet.height.si()});
  }
  const double excess = roundedUp(std::min(width, height) - widest, kMillimetre);
  if (excess <= 0.0 || excess > 0.4 * std::min(width, height)) return;
  offerSmaller(trial, upright ? excess : 0.0, upright ? 0.0 : excess);
}

void priceRemedies(Trial& trial) {
  model::Document copy = trial.document();
  for (const auto& row : trial.results().buying.rows) {
    if (row.price || !row.note.empty()) continue;
    if (priceOfRow(copy, row.item, row.name) == nullptr) continue;
    const std::string item = row.item, name = row.name;
    trial.ask(
        RemedyKind::EnterPrice, Dimension::Money,
        [item, name](model::Document d, double typed) -> Result<model::Document> {
          model::Price* price = priceOfRow(d, item, name);
          if (price == nullptr) return Error{ErrorCode::RemedyGone, "/stock", name, {}};
          *price = typed;
          return accepted(std::move(d));
        },
        item + ":" + name);
  }
}

void windRemedies(Trial& trial) {
  if (!trial.results().wind) return;
  const double mass = roundedUp(trial.results().wind->holdDownMass.high.si(), 5.0);
  const Edit held = [mass](model::Document d) {
    d.siting.holdDown = kilograms(mass);
    return accepted(std::move(d));
  };
  trial.offerPriced(RemedyKind::HoldDown, held, {{"mass", mass, Dimension::Mass}}, {}, std::nullopt);
}

void gustRemedies(Trial& trial) {
  trial.ask(RemedyKind::EnterGust, Dimension::Velocity, [](model::Document d, double typed_m_s) {
    d.siting.gust =
        Uncertain<Velocity>{metresPerSecond(typed_m_s), metresPerSecond(0.1 * std::abs(typed_m_s)), Sureness::Guess};
    return accepted(std::move(d));
  });
}

}  // namespace sunspool::remedies
