// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layout/tails.h"

#include <algorithm>
#include <numbers>

namespace sunspool::layout::detail {
namespace {

using geometry::Arc;
using geometry::Line;
using geometry::Point;

// Straight out of the nearest tail before it bends: room for a hand and a clip. Assumption.
constexpr double kStraightOut_m = 0.15;

enum class Bend { None, Left, Right };
struct Way {
  Point out;
  Bend bend = Bend::None;
};

Way wayOf(const TailRule& rule, const Tail& tail) {
  switch (tail.side) {
    case Side::Bottom:
      return {{0.0, -1.0}, Bend::None};
    case Side::Left:
      return {{-1.0, 0.0}, Bend::Left};
    case Side::Right:
      return {{1.0, 0.0}, Bend::Right};
    case Side::Top:
      return {{0.0, 1.0}, tail.atFace.x <= rule.insideWidth_m / 2.0 ? Bend::Left : Bend::Right};
  }
  return {};
}

double outAngle(Side side) {
  constexpr double kQuarter = std::numbers::pi / 2.0;
  switch (side) {
    case Side::Bottom:
      return -kQuarter;
    case Side::Left:
      return 2.0 * kQuarter;
    case Side::Right:
      return 0.0;
    case Side::Top:
      return kQuarter;
  }
  return 0.0;
}

/// True when `a` must turn nearer to the frame than `b`, which is on the same side and turns the same way.
bool turnsBefore(const TailRule& rule, const Tail& a, const Tail& b) {
  if (a.side != b.side || a.side == Side::Bottom) return false;
  const Bend bend = wayOf(rule, a).bend;
  if (bend != wayOf(rule, b).bend) return false;
  if (a.side != Side::Top) return a.atFace.y < b.atFace.y;
  return bend == Bend::Left ? a.atFace.x < b.atFace.x : a.atFace.x > b.atFace.x;
}

std::vector<geometry::Piece> drawn(const TailRule& rule, const Tail& tail, double straight_m) {
  if (tail.length_m <= 0.0) return {};
  const Way way = wayOf(rule, tail);
  const double radius = rule.bendRadius_m;
  const double bent = radius * std::numbers::pi / 2.0;
  if (way.bend == Bend::None || tail.length_m < straight_m + bent) {
    return {Line{tail.atFace, tail.atFace + way.out * tail.length_m}};
  }
  const double turn = way.bend == Bend::Left ? 1.0 : -1.0;
  const Point aside = Point{-way.out.y, way.out.x} * turn;
  const Point bendStart = tail.atFace + way.out * straight_m;
  const Point bendEnd = bendStart + way.out * radius + aside * radius;
  const double quarter = turn * std::numbers::pi / 2.0;
  return {Line{tail.atFace, bendStart}, Arc{bendStart + aside * radius, radius, outAngle(tail.side) - quarter, quarter},
          Line{bendEnd, bendEnd + aside * (tail.length_m - straight_m - bent)}};
}

}  // namespace

void drawTails(const TailRule& rule, std::vector<Tail>& tails) {
  const double bent = rule.bendRadius_m * std::numbers::pi / 2.0;
  const auto draw = [&](double step) {
    bool allBend = true;
    for (Tail& tail : tails) {
      const auto nearer =
          std::count_if(tails.begin(), tails.end(), [&](const Tail& other) { return turnsBefore(rule, other, tail); });
      const double straight = kStraightOut_m + static_cast<double>(nearer) * step;
      tail.pieces = drawn(rule, tail, straight);
      allBend = allBend && tail.length_m >= straight + bent;
    }
    return allBend;
  };
  // A tail just too short to bend reaches farther out than its bend would.
  if (!draw(rule.bendRadius_m + 2.0 * rule.pitch_m)) draw(bent + 2.0 * rule.pitch_m);
}

}  // namespace sunspool::layout::detail
