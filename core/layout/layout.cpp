// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/layout.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/layout/double_spiral.h"
#include "core/layout/frame_map.h"
#include "core/layout/inner_run.h"
#include "core/layout/keep_outs.h"
#include "core/layout/serpentine.h"
#include "core/layout/spiral.h"
#include "core/layout/tails.h"

namespace sunspool::layout {
namespace {

using detail::countFact;
using detail::InnerRun;
using detail::kFitTolerance_m;
using detail::kMostSidesInAll;
using detail::lengthFact;
using detail::Obstacle;
using geometry::Line;
using geometry::Piece;
using geometry::Point;

// An automatic layout gives up at most this many sides for a crossing or a keep-out.
constexpr int kMostGivenUp = 64;

/// The document's numbers as the kernels take them.
struct Sizes {
  double insideWidth_m = 0.0;
  double insideHeight_m = 0.0;
  double timber_m = 0.0;
  double diameter_m = 0.0;
  double pitch_m = 0.0;
  double bendRadius_m = 0.0;
  double faceGap_m = 0.0;
  double feedTail_m = 0.0;
  double returnTail_m = 0.0;
};
Sizes sizesOf(const model::Document& document) {
  const model::Laying& laying = document.laying;
  const double diameter = document.tube.outsideDiameter.value.si();
  return {document.frame.insideWidth.si(),
          document.frame.insideHeight.si(),
          document.frame.timberWidth.si(),
          diameter,
          laying.pitch.si(),
          laying.bendRadius.si(),
          laying.margin.si() + diameter / 2.0,
          laying.feedTail.si(),
          laying.returnTail.si()};
}

enum class Sign { Positive, NotNegative, Any };
struct Checked {
  const char* where;
  double value;
  Sign sign;
};

std::optional<Error> meaningless(const Checked& number) {
  if (!std::isfinite(number.value)) return Error{ErrorCode::NotFinite, number.where, "", {}};
  const bool fine =
      number.sign == Sign::Any || number.value > 0.0 || (number.sign == Sign::NotNegative && number.value == 0.0);
  if (fine) return std::nullopt;
  return Error{ErrorCode::OutOfRange, number.where, "", {lengthFact("value", number.value)}};
}

std::optional<Error> meaninglessNumber(const model::Document& document) {
  const model::Laying& laying = document.laying;
  const Checked numbers[] = {
      {"/frame/inside_width_m", document.frame.insideWidth.si(), Sign::Positive},
      {"/frame/inside_height_m", document.frame.insideHeight.si(), Sign::Positive},
      {"/frame/timber_width_m", document.frame.timberWidth.si(), Sign::NotNegative},
      {"/tube/outside_diameter_m", document.tube.outsideDiameter.value.si(), Sign::Positive},
      {"/laying/pitch_m", laying.pitch.si(), Sign::Positive},
      {"/laying/bend_radius_m", laying.bendRadius.si(), Sign::Positive},
      {"/laying/margin_m", laying.margin.si(), Sign::NotNegative},
      {"/laying/feed_tail_m", laying.feedTail.si(), Sign::NotNegative},
      {"/laying/return_tail_m", laying.returnTail.si(), Sign::NotNegative},
      {"/laying/feed_shift_m", laying.feedShift.si(), Sign::Any},
      {"/laying/return_shift_m", laying.returnShift.si(), Sign::Any},
      {"/box/stand_off_m", document.box.standOff.si(), Sign::NotNegative},
  };
  for (const Checked& number : numbers) {
    if (std::optional<Error> error = meaningless(number)) return error;
  }
  for (const model::KeepOut& keepOut : document.keepOuts) {
    if (std::optional<Error> error = meaningless({"/keep_outs", keepOut.clearance.si(), Sign::NotNegative})) {
      error->where = keepOut.id;
      return error;
    }
  }
  if (laying.starts != 1 && laying.starts != 2 && laying.starts != 4) {
    return Error{ErrorCode::OutOfRange, "/laying/starts", "", {countFact("value", laying.starts)}};
  }
  if (laying.quarterTurns && *laying.quarterTurns < 1) {
    return Error{ErrorCode::OutOfRange, "/laying/quarter_turns", "", {countFact("value", *laying.quarterTurns)}};
  }
  return std::nullopt;
}

detail::Field fieldOf(const Sizes& sizes) {
  return {sizes.insideWidth_m - 2.0 * sizes.faceGap_m, sizes.insideHeight_m - 2.0 * sizes.faceGap_m, sizes.faceGap_m,
          sizes.pitch_m, sizes.bendRadius_m};
}

detail::FrameMap mapOf(const model::Document& document, const Sizes& sizes) {
  const model::StartCorner corner = document.laying.startCorner;
  detail::FrameMap map{sizes.insideWidth_m, sizes.insideHeight_m, sizes.faceGap_m};
  map.fromRight = corner == model::StartCorner::LowerRight || corner == model::StartCorner::UpperRight;
  map.fromTop = corner == model::StartCorner::UpperLeft || corner == model::StartCorner::UpperRight;
  const bool passes = document.laying.recipe == model::Recipe::PlainSerpentine ||
                      document.laying.recipe == model::Recipe::BulbSerpentine;
  map.transposed = passes && sizes.insideHeight_m > sizes.insideWidth_m;
  return map;
}

detail::SpiralRule spiralRule(const model::Document& document, const Sizes& sizes) {
  const model::Laying& laying = document.laying;
  return {fieldOf(sizes),        sizes.diameter_m,        laying.starts,  laying.cornerRule,         laying.innerEnd,
          laying.feedShift.si(), laying.returnShift.si(), laying.entries, document.box.standOff.si()};
}

/// The serpentine's field lies along the longer dimension.
detail::SerpentineRule serpentineRule(const Sizes& sizes, double pitch_m, detail::Turn turn) {
  detail::Field field = fieldOf(sizes);
  field.pitch_m = pitch_m;
  if (field.height_m > field.width_m) std::swap(field.width_m, field.height_m);
  return {field, turn};
}

std::optional<Error> tooTight(const Sizes& sizes) {
  if (sizes.pitch_m < sizes.diameter_m - kFitTolerance_m) {
    return Error{ErrorCode::PitchBelowDiameter,
                 "/laying/pitch_m",
                 "",
                 {lengthFact("pitch", sizes.pitch_m), lengthFact("diameter", sizes.diameter_m)}};
  }
  const detail::Field field = fieldOf(sizes);
  const double narrow = std::min(field.width_m, field.height_m);
  const double needed = 2.0 * sizes.bendRadius_m;
  if (narrow < needed - kFitTolerance_m) {
    return Error{ErrorCode::RegionTooNarrow, "/frame", "", {lengthFact("width", narrow), lengthFact("needed", needed)}};
  }
  return std::nullopt;
}

double turnsLaid(const std::vector<InnerRun>& runs) {
  double length = 0.0;
  for (const InnerRun& run : runs) length += run.turnsTo_m - run.turnsFrom_m;
  return length;
}

/// What a recipe holds, turns alone; 0 when it can lay nothing.
template <class Rule>
double mostTube(const Rule& rule, long starts) {
  const long most = detail::mostTurns(rule);
  if (most < 1) return 0.0;
  if (most * starts > kMostSidesInAll) return detail::turnsLength(rule, most);
  const auto runs = detail::layRuns(rule, static_cast<int>(most));
  return runs ? turnsLaid(*runs) : 0.0;
}

/// A recipe that lays one run only and cannot move its ends.
std::optional<Error> notSingle(const model::Document& document) {
  if (document.laying.starts == 1) return std::nullopt;
  return Error{ErrorCode::NoRunFits, "/laying/starts", "", {countFact("starts", document.laying.starts)}};
}
std::optional<Error> shifted(const model::Laying& laying) {
  for (const auto& [where, shift] : {std::pair{"feed", laying.feedShift}, std::pair{"return", laying.returnShift}}) {
    if (shift.si() == 0.0) continue;
    return Error{ErrorCode::CrossingHasNoPlace, where, "", {lengthFact("shift", shift.si())}};
  }
  return std::nullopt;
}

/// What a spiral of the same box and pitch holds.
double spiralLength(const model::Document& document, const Sizes& sizes) {
  detail::SpiralRule spiral = spiralRule(document, sizes);
  spiral.innerEnd = model::InnerEnd::ThroughTheBack;
  spiral.feedShift_m = 0.0;
  return mostTube(spiral, spiral.starts);
}

/// Passes at which bulbs lie as far apart as tubes at this pitch.
double bulbPitch(const Sizes& sizes) { return sizes.bendRadius_m + sizes.pitch_m / 2.0; }

std::optional<Error> notPlain(const model::Document& document, const Sizes& sizes) {
  const double plainPitch = 2.0 * sizes.bendRadius_m;
  if (sizes.pitch_m >= plainPitch - kFitTolerance_m) return std::nullopt;
  return Error{ErrorCode::CannotBendPlain,
               "/laying/pitch_m",
               "",
               {lengthFact("pitch", sizes.pitch_m), lengthFact("plain_pitch", plainPitch),
                lengthFact("bulb_pitch", bulbPitch(sizes)), lengthFact("spiral_length", spiralLength(document, sizes)),
                lengthFact("serpentine_length", mostTube(serpentineRule(sizes, plainPitch, detail::Turn::Plain), 1))}};
}

/// Bulbs side by side, 2 pitches from middle to middle and 2R wide, may touch but not more.
std::optional<Error> notBulbs(const model::Document& document, const Sizes& sizes) {
  const double least = sizes.bendRadius_m + sizes.diameter_m / 2.0;
  if (sizes.pitch_m >= std::min(least, 2.0 * sizes.bendRadius_m) - kFitTolerance_m) return std::nullopt;
  return Error{
      ErrorCode::CannotBendBulbs,
      "/laying/pitch_m",
      "",
      {lengthFact("pitch", sizes.pitch_m), lengthFact("least_pitch", least), lengthFact("bulb_pitch", bulbPitch(sizes)),
       lengthFact("spiral_length", spiralLength(document, sizes)),
       lengthFact("serpentine_length", mostTube(serpentineRule(sizes, bulbPitch(sizes), detail::Turn::Bulb), 1))}};
}

/// Why the recipe cannot lay this pitch or so many runs.
std::optional<Error> notWithRecipe(const model::Document& document, const Sizes& sizes) {
  switch (document.laying.recipe) {
    case model::Recipe::RectangularSpiral:
      return std::nullopt;
    case model::Recipe::DoubleSpiral:
      return notSingle(document);
    case model::Recipe::PlainSerpentine:
      if (const auto error = notSingle(document)) return error;
      return notPlain(document, sizes);
    case model::Recipe::BulbSerpentine:
      if (const auto error = notSingle(document)) return error;
      return notBulbs(document, sizes);
  }
  return std::nullopt;
}

/// Runs of one recipe in the panel, still without tails.
struct Inside {
  std::vector<InnerRun> runs;
  int turns = 0;
  int most = 0;
};

InnerRun mapped(const detail::FrameMap& map, InnerRun run) {
  for (Piece& piece : run.pieces) piece = map.piece(piece);
  run.feedSide = map.side(run.feedSide);
  run.returnSide = map.side(run.returnSide);
  return run;
}

Point feedPoint(const InnerRun& run) { return geometry::startPoint(run.pieces.front()); }
Point returnPoint(const InnerRun& run) { return geometry::endPoint(run.pieces.back()); }

/// A failed attempt: why, and how many turns are worth the next one.
struct Refused {
  Error error;
  int next = 0;
};

std::optional<Refused> blocked(const std::vector<InnerRun>& runs, std::span<const Obstacle> obstacles, int turns) {
  if (obstacles.empty()) return std::nullopt;
  for (const InnerRun& run : runs) {
    if (const Obstacle* on = detail::over(obstacles, feedPoint(run))) {
      return Refused{{ErrorCode::KeepOutOverExit, on->id, "", {}}, 0};
    }
  }
  std::optional<detail::Hit> outermost;
  for (const InnerRun& run : runs) {
    const auto hit = detail::outermostHit(obstacles, run.pieces, run.sideOf);
    if (hit && (!outermost || hit->side < outermost->side)) outermost = hit;
  }
  for (const InnerRun& run : runs) {
    if (run.throughBack || (outermost && outermost->side + 1 < turns)) continue;
    if (const Obstacle* on = detail::over(obstacles, returnPoint(run))) {
      return Refused{{ErrorCode::KeepOutOverExit, on->id, "", {}}, run.returnStays ? 0 : turns - 1};
    }
  }
  if (!outermost) return std::nullopt;
  return Refused{{ErrorCode::KeepOutInTheWay, outermost->obstacle->id, "", {}}, std::min(turns - 1, outermost->side)};
}

// A ramp may cost turns; an exit that was moved by hand to where it has no place, or turns that lie on the plate, may
// not.
bool costsTurns(const Error& error) {
  return std::none_of(error.facts.begin(), error.facts.end(),
                      [](const Fact& f) { return f.name == "shift" || f.name == "stand_off"; });
}

template <class Rule>
std::variant<std::vector<InnerRun>, Refused> attempt(const Rule& rule, int turns, const detail::FrameMap& map,
                                                     std::span<const Obstacle> obstacles) {
  Result<std::vector<InnerRun>> laid = detail::layRuns(rule, turns);
  if (!laid) return Refused{laid.error(), costsTurns(laid.error()) ? turns - 1 : 0};
  std::vector<InnerRun> runs;
  for (InnerRun& run : *laid) runs.push_back(mapped(map, std::move(run)));
  if (std::optional<Refused> refused = blocked(runs, obstacles, turns)) return *refused;
  return runs;
}

/// As many turns as asked, or as many as fit but not fewer than `least`.
template <class Rule>
Result<Inside> layInside(const Rule& rule, int starts, int least, std::optional<int> asked, const detail::FrameMap& map,
                         std::span<const Obstacle> obstacles) {
  const long most = detail::mostTurns(rule);
  if (most < least) return Error{ErrorCode::NoRunFits, "/laying", "", {countFact("most", static_cast<double>(most))}};
  if (asked && *asked > most) {
    return Error{ErrorCode::TurnsDoNotFit,
                 "/laying/quarter_turns",
                 "",
                 {countFact("asked", *asked), countFact("most", static_cast<double>(most))}};
  }
  const long wanted = asked ? *asked : most;
  if (wanted * starts > kMostSidesInAll) {
    return Error{ErrorCode::TooMuchTube,
                 "/laying",
                 "",
                 {lengthFact("length", detail::turnsLength(rule, wanted)), lengthFact("limit", kMostTube_m)}};
  }
  std::optional<Error> why;
  int turns = static_cast<int>(wanted);
  for (int tries = 0; tries <= kMostGivenUp && turns >= (asked ? 1 : least); ++tries) {
    auto tried = attempt(rule, turns, map, obstacles);
    if (auto* runs = std::get_if<0>(&tried)) return Inside{std::move(*runs), turns, static_cast<int>(most)};
    Refused& refused = std::get<1>(tried);
    why = std::move(refused.error);
    if (asked) break;
    turns = refused.next;
  }
  SUNSPOOL_ASSERT(why.has_value(), "a layout is laid or refused");
  return *why;
}

/// Chains pieces; lines that go on straight become one.
class Chain {
 public:
  void add(const Piece& piece) {
    const auto* line = std::get_if<Line>(&piece);
    auto* last = m_pieces.empty() ? nullptr : std::get_if<Line>(&m_pieces.back());
    if (line && last) {
      last->end = line->end;
    } else {
      m_pieces.push_back(piece);
    }
  }
  geometry::Path path() && { return geometry::Path(std::move(m_pieces)); }

 private:
  std::vector<Piece> m_pieces;
};

Point outward(Side side) {
  switch (side) {
    case Side::Bottom:
      return {0.0, -1.0};
    case Side::Right:
      return {1.0, 0.0};
    case Side::Top:
      return {0.0, 1.0};
    case Side::Left:
      return {-1.0, 0.0};
  }
  return {};
}

double crossingExtra(const InnerRun& run) { return run.crossing ? run.crossing->extraLength_m : 0.0; }

/// Tube from the inner end of the turns to the outer face of the frame.
double wayOut(const InnerRun& run, const Sizes& sizes) {
  return run.length_m - run.turnsTo_m + crossingExtra(run) + sizes.timber_m;
}

/// Feed and return tail of every run, return tails only where they leave through the frame.
std::vector<detail::Tail> tailsOf(const std::vector<InnerRun>& runs, const Sizes& sizes) {
  std::vector<detail::Tail> tails;
  for (const InnerRun& run : runs) {
    tails.push_back({feedPoint(run) + outward(run.feedSide) * sizes.timber_m, run.feedSide, sizes.feedTail_m, {}});
    if (run.throughBack) continue;
    const double outside = std::max(0.0, sizes.returnTail_m - wayOut(run, sizes));
    tails.push_back({returnPoint(run) + outward(run.returnSide) * sizes.timber_m, run.returnSide, outside, {}});
  }
  detail::drawTails({sizes.insideWidth_m, sizes.bendRadius_m, sizes.pitch_m}, tails);
  return tails;
}

geometry::Path wholePath(const InnerRun& run, const detail::Tail& feed, const detail::Tail* back) {
  Chain chain;
  for (auto piece = feed.pieces.rbegin(); piece != feed.pieces.rend(); ++piece) chain.add(geometry::reversed(*piece));
  chain.add(Line{feed.atFace, feedPoint(run)});
  for (const Piece& piece : run.pieces) chain.add(piece);
  if (back) {
    chain.add(Line{returnPoint(run), back->atFace});
    for (const Piece& piece : back->pieces) chain.add(piece);
  }
  return std::move(chain).path();
}

LaidRun completed(const InnerRun& run, const detail::Tail& feed, const detail::Tail* back, const Sizes& sizes,
                  int turns) {
  LaidRun laid;
  laid.path = wholePath(run, feed, back);
  laid.insideFrom_m = sizes.feedTail_m + sizes.timber_m;
  laid.insideTo_m = laid.insideFrom_m + run.length_m;
  laid.turnsFrom_m = laid.insideFrom_m + run.turnsFrom_m;
  laid.turnsTo_m = laid.insideFrom_m + run.turnsTo_m;
  laid.quarterTurns = turns;
  laid.feed = {feedPoint(run), run.feedSide, false, laid.insideFrom_m};
  laid.returning = {returnPoint(run), run.returnSide, run.throughBack, laid.insideTo_m};
  laid.crossing = run.crossing;
  if (laid.crossing) {
    laid.crossing->from_m += laid.insideFrom_m;
    laid.crossing->to_m += laid.insideFrom_m;
  }
  laid.smallestRadius_m = laid.path.smallestRadius();
  laid.tailBehind_m = run.throughBack ? sizes.returnTail_m : 0.0;
  laid.tailShortBy_m = run.throughBack ? 0.0 : std::max(0.0, wayOut(run, sizes) - sizes.returnTail_m);
  laid.cutLength_m = laid.path.length().si() + crossingExtra(run) + laid.tailBehind_m;
  return laid;
}

std::vector<LaidRun> withTails(const Inside& inside, const Sizes& sizes) {
  const std::vector<detail::Tail> tails = tailsOf(inside.runs, sizes);
  std::vector<LaidRun> runs;
  std::size_t next = 0;
  for (const InnerRun& run : inside.runs) {
    const detail::Tail& feed = tails[next++];
    const detail::Tail* back = run.throughBack ? nullptr : &tails[next++];
    runs.push_back(completed(run, feed, back, sizes, inside.turns));
    runs.back().letter = static_cast<char>('A' + runs.size() - 1);
  }
  return runs;
}

void setSpacing(LaidPanel& panel, const Sizes& sizes) {
  // Legs that follow one another are no neighbours. Less than a pitch apart, round one turn back, lie only places with
  // less than pi/2 pitches of tube between them; 0.6 pitches of exempt radius cover that and still see the pitch.
  const double exemptRadius_m = std::max(sizes.bendRadius_m, detail::kTurnShareOfPitch * sizes.pitch_m);
  std::vector<geometry::CheckedPath> turns;
  for (const LaidRun& run : panel.runs) {
    // The ramp leaves the plate, but keeps the pitch up to its top.
    const double ramp = run.crossing ? run.crossing->rampLength_m : 0.0;
    turns.push_back({&run.path, run.turnsFrom_m, run.turnsTo_m + ramp});
  }
  const geometry::ClearanceReport report = geometry::ClearanceChecker(turns, exemptRadius_m).check(0.0);
  panel.smallestSpacing_m = report.smallest_m;
  panel.smallestSpacingPlace = report.smallestPlace;
}

void setTotals(LaidPanel& panel, const Sizes& sizes) {
  double turns = 0.0;
  for (const LaidRun& run : panel.runs) {
    const double extra = run.crossing ? run.crossing->extraLength_m : 0.0;
    panel.totalCut += Length::fromSi(run.cutLength_m);
    panel.tubeInside += Length::fromSi(run.insideTo_m - run.insideFrom_m + extra);
    turns += run.turnsTo_m - run.turnsFrom_m;
  }
  const double net_m2 = panel.netArea.si();
  panel.coverage = net_m2 > 0.0 ? sizes.diameter_m * turns / net_m2 : 0.0;
}

/// The box inside the innermost legs, up to the frame where no leg lies.
void setSpiralCore(LaidPanel& panel, const detail::FrameMap& map, const detail::SpiralRule& rule, int turns) {
  const detail::LaidDepths depths = detail::laidDepths(rule, turns);
  const auto inset = [&](Side side) {
    const long depth = depths.bySide[static_cast<int>(side)];
    if (depth < 0) return -rule.field.faceGap_m;
    return static_cast<double>(depth) * rule.field.pitch_m + rule.outsideDiameter_m / 2.0;
  };
  const Point a = map.point({inset(Side::Left), inset(Side::Bottom)});
  const Point b = map.point({rule.field.width_m - inset(Side::Right), rule.field.height_m - inset(Side::Top)});
  panel.coreLower = {std::min(a.x, b.x), std::min(a.y, b.y)};
  panel.coreUpper = {std::max(a.x, b.x), std::max(a.y, b.y)};
}

Result<Done> setAreas(LaidPanel& panel, const model::Document& document, const Sizes& sizes,
                      std::span<const Obstacle> obstacles) {
  const double gap = sizes.faceGap_m;
  const geometry::Outline lines =
      geometry::rectangle({gap, gap}, {sizes.insideWidth_m - gap, sizes.insideHeight_m - gap});
  Result<geometry::Region> region = detail::regionOfCentreLines(lines, obstacles);
  if (!region) return region.error();
  panel.region = std::move(*region);
  panel.netArea = Area::fromSi(sizes.insideWidth_m * sizes.insideHeight_m);
  if (obstacles.empty()) return Done{};
  std::vector<geometry::Outline> outlines;
  for (const model::KeepOut& keepOut : document.keepOuts) outlines.push_back(keepOut.outline);
  const auto net =
      geometry::regionOf(geometry::rectangle({0.0, 0.0}, {sizes.insideWidth_m, sizes.insideHeight_m}), outlines);
  if (!net) return net.error();
  panel.netArea = geometry::area(*net);
  return Done{};
}

/// From laid runs to the whole panel.
Result<LaidPanel> panelOf(const Inside& inside, const model::Document& document, const Sizes& sizes,
                          std::span<const Obstacle> obstacles) {
  LaidPanel panel;
  panel.runs = withTails(inside, sizes);
  panel.mostQuarterTurns = inside.most;
  panel.coreLower = panel.coreUpper = {sizes.insideWidth_m / 2.0, sizes.insideHeight_m / 2.0};
  if (const Result<Done> areas = setAreas(panel, document, sizes, obstacles); !areas) return areas.error();
  setTotals(panel, sizes);
  if (panel.totalCut.si() > kMostTube_m) {
    return Error{ErrorCode::TooMuchTube,
                 "/laying",
                 "",
                 {lengthFact("length", panel.totalCut.si()), lengthFact("limit", kMostTube_m)}};
  }
  setSpacing(panel, sizes);
  const double shift = document.laying.returnShift.si();
  if (shift != 0.0 && panel.smallestSpacing_m < sizes.pitch_m - kFitTolerance_m) {
    return Error{
        ErrorCode::CrossingHasNoPlace,
        "return",
        "",
        {lengthFact("shift", shift), lengthFact("room", panel.smallestSpacing_m), lengthFact("needed", sizes.pitch_m)}};
  }
  return panel;
}

Result<LaidPanel> laySpiral(const model::Document& document, const Sizes& sizes, std::span<const Obstacle> obstacles) {
  // A straight tube through the box is laid only when asked for.
  const int least = document.laying.quarterTurns ? 1 : 2;
  const detail::SpiralRule rule = spiralRule(document, sizes);
  const detail::FrameMap map = mapOf(document, sizes);
  const auto inside = layInside(rule, rule.starts, least, document.laying.quarterTurns, map, obstacles);
  if (!inside) return inside.error();
  Result<LaidPanel> panel = panelOf(*inside, document, sizes, obstacles);
  if (panel) setSpiralCore(*panel, map, rule, inside->turns);
  return panel;
}

Result<LaidPanel> layDoubleSpiral(const model::Document& document, const Sizes& sizes,
                                  std::span<const Obstacle> obstacles) {
  const model::Laying& laying = document.laying;
  detail::DoubleSpiralRule rule{fieldOf(sizes), laying.cornerRule};
  rule.field.bendRadius_m = std::max(sizes.bendRadius_m, detail::kTurnShareOfPitch * sizes.pitch_m);
  const auto inside =
      layInside(rule, 2, detail::kLeastDoubleSides, laying.quarterTurns, mapOf(document, sizes), obstacles);
  if (!inside) return inside.error();
  if (const auto error = shifted(laying)) return *error;
  return panelOf(*inside, document, sizes, obstacles);
}

Result<LaidPanel> laySerpentine(const model::Document& document, const Sizes& sizes,
                                std::span<const Obstacle> obstacles) {
  const model::Laying& laying = document.laying;
  const bool bulbs = laying.recipe == model::Recipe::BulbSerpentine && sizes.pitch_m < 2.0 * sizes.bendRadius_m;
  const detail::SerpentineRule rule =
      serpentineRule(sizes, sizes.pitch_m, bulbs ? detail::Turn::Bulb : detail::Turn::Plain);
  const auto inside = layInside(rule, 1, 1, laying.quarterTurns, mapOf(document, sizes), obstacles);
  if (!inside) return inside.error();
  if (const auto error = shifted(laying)) return *error;
  return panelOf(*inside, document, sizes, obstacles);
}

}  // namespace

Result<LaidPanel> lay(const model::Document& document) {
  if (const auto error = meaninglessNumber(document)) return *error;
  const Sizes sizes = sizesOf(document);
  if (const auto error = tooTight(sizes)) return *error;
  if (const auto error = notWithRecipe(document, sizes)) return *error;
  const Result<std::vector<Obstacle>> obstacles = detail::obstaclesOf(document.keepOuts, sizes.diameter_m);
  if (!obstacles) return obstacles.error();
  switch (document.laying.recipe) {
    case model::Recipe::RectangularSpiral:
      return laySpiral(document, sizes, *obstacles);
    case model::Recipe::DoubleSpiral:
      return layDoubleSpiral(document, sizes, *obstacles);
    case model::Recipe::PlainSerpentine:
    case model::Recipe::BulbSerpentine:
      return laySerpentine(document, sizes, *obstacles);
  }
  return Error{ErrorCode::OutOfRange, "/laying/recipe", "", {}};
}

}  // namespace sunspool::layout
