// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/piece_distance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace sunspool::geometry {
namespace detail {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
// Nearer than this is touching: the rounding of coordinates of some metres. [m]
constexpr double kTouching_m = 1e-12;

double stationOn(const Shape& shape, Point p) {
  if (!shape.isArc()) return std::clamp(dot(p - shape.start, shape.unit), 0.0, shape.length);
  const Point arm = p - shape.centre;
  const double sign = shape.sweep < 0.0 ? -1.0 : 1.0;
  double turn = std::fmod((std::atan2(arm.y, arm.x) - shape.startAngle) * sign, kTwoPi);
  if (turn < 0.0) turn += kTwoPi;
  const double sweep = std::abs(shape.sweep);
  // Rounding may put an end just outside the arc, a whole turn away.
  if (turn > sweep) turn = turn - sweep <= kTwoPi - turn ? sweep : 0.0;
  return turn * shape.radius;
}

struct AnySpan {
  bool allows(const Shape&, Point, const Shape&, Point) const { return true; }
};
struct LeastSpan {
  double offset_m;
  double least_m;
  bool allows(const Shape& a, Point onA, const Shape& b, Point onB) const {
    return offset_m + stationOn(b, onB) - stationOn(a, onA) >= least_m;
  }
};

// Collects candidates for the nearest two places. Every candidate is a true pair of places, so none can lie
// below the minimum; together they hold every local minimum of the distance.
template <class Span>
class Search {
 public:
  Search(const Shape& a, const Shape& b, Span span) : m_a(a), m_b(b), m_span(span) {}

  PieceDistance run() {
    ends();
    feet(m_a, m_b, [this](Point end, Point foot) { consider(end, foot); });
    feet(m_b, m_a, [this](Point end, Point foot) { consider(foot, end); });
    if (m_a.isArc() && m_b.isArc()) {
      arcWithArc();
    } else if (m_a.isArc()) {
      lineWithArc(m_b, m_a, [this](Point onLine, Point onArc) { consider(onArc, onLine); });
    } else if (m_b.isArc()) {
      lineWithArc(m_a, m_b, [this](Point onLine, Point onArc) { consider(onLine, onArc); });
    } else {
      lineWithLine();
    }
    return result();
  }

 private:
  void consider(Point onA, Point onB) {
    const Point between = onB - onA;
    const double square = dot(between, between);
    if (square < m_square && m_span.allows(m_a, onA, m_b, onB)) {
      m_square = square;
      m_onA = onA;
      m_onB = onB;
    }
  }

  static bool faces(const Shape& arc, Point arm, double armLength) {
    return dot(arm, arc.unit) >= armLength * arc.cosHalf;
  }

  void ends() {
    consider(m_a.start, m_b.start);
    consider(m_a.start, m_b.end);
    consider(m_a.end, m_b.start);
    consider(m_a.end, m_b.end);
  }

  template <class Found>
  static void footOn(const Shape& shape, Point p, Found&& found) {
    if (!shape.isArc()) {
      const double along = dot(p - shape.start, shape.unit);
      if (along > 0.0 && along < shape.length) found(shape.start + shape.unit * along);
      return;
    }
    const Point arm = p - shape.centre;
    const double armLength = norm(arm);
    if (armLength > 0.0 && faces(shape, arm, armLength)) found(shape.centre + arm * (shape.radius / armLength));
  }

  template <class Found>
  static void feet(const Shape& from, const Shape& onto, Found&& found) {
    footOn(onto, from.start, [&](Point foot) { found(from.start, foot); });
    footOn(onto, from.end, [&](Point foot) { found(from.end, foot); });
  }

  void lineWithLine() {
    const double slant = cross(m_a.unit, m_b.unit);
    if (slant == 0.0) return;
    const Point between = m_b.start - m_a.start;
    const double alongA = cross(between, m_b.unit) / slant;
    const double alongB = cross(between, m_a.unit) / slant;
    if (alongA < 0.0 || alongA > m_a.length || alongB < 0.0 || alongB > m_b.length) return;
    // On nearly parallel lines the crossing is rounding along them: the foot on the other line stays a true pair.
    const Point onA = m_a.start + m_a.unit * alongA;
    footOn(m_b, onA, [&](Point onB) { consider(onA, onB); });
  }

  template <class Found>
  static void lineWithArc(const Shape& line, const Shape& arc, Found&& found) {
    const double along = dot(arc.centre - line.start, line.unit);
    const Point foot = line.start + line.unit * along;
    const Point arm = foot - arc.centre;
    const double armSquare = dot(arm, arm);
    if (along > 0.0 && along < line.length) {
      const double armLength = std::sqrt(armSquare);
      if (armLength > 0.0 && faces(arc, arm, armLength)) {
        found(foot, arc.centre + arm * (arc.radius / armLength));
      }
    }
    const double halfChordSquare = arc.radius * arc.radius - armSquare;
    if (halfChordSquare < 0.0) return;
    const double halfChord = std::sqrt(halfChordSquare);
    for (const double at : {along - halfChord, along + halfChord}) {
      const Point meeting = line.start + line.unit * at;
      if (at >= 0.0 && at <= line.length && faces(arc, meeting - arc.centre, arc.radius)) found(meeting, meeting);
    }
  }

  void arcWithArc() {
    const Point between = m_b.centre - m_a.centre;
    const double centres = norm(between);
    // Arcs about one centre: where they overlap, an end of one faces the other, and feet() has seen it.
    if (centres == 0.0) return;
    const Point along = between * (1.0 / centres);
    const double onAxis = dot(along, m_a.unit);
    const bool aAhead = onAxis >= m_a.cosHalf;
    const bool aBehind = -onAxis >= m_a.cosHalf;
    const double onAxisOfB = dot(along, m_b.unit);
    const bool bAhead = onAxisOfB >= m_b.cosHalf;
    const bool bBehind = -onAxisOfB >= m_b.cosHalf;
    const Point reachA = along * m_a.radius;
    const Point reachB = along * m_b.radius;
    if (aAhead && bBehind) consider(m_a.centre + reachA, m_b.centre - reachB);
    if (aAhead && bAhead) consider(m_a.centre + reachA, m_b.centre + reachB);
    if (aBehind && bBehind) consider(m_a.centre - reachA, m_b.centre - reachB);
    if (aBehind && bAhead) consider(m_a.centre - reachA, m_b.centre + reachB);
    circleCrossings(along, centres);
  }

  void circleCrossings(Point along, double centres) {
    const double toChord =
        (centres * centres + (m_a.radius - m_b.radius) * (m_a.radius + m_b.radius)) / (2.0 * centres);
    const double halfChordSquare = m_a.radius * m_a.radius - toChord * toChord;
    if (halfChordSquare < 0.0) return;
    const Point across = Point{-along.y, along.x} * std::sqrt(halfChordSquare);
    const Point foot = m_a.centre + along * toChord;
    for (const Point meeting : {foot + across, foot - across}) {
      if (faces(m_a, meeting - m_a.centre, m_a.radius) && faces(m_b, meeting - m_b.centre, m_b.radius)) {
        consider(meeting, meeting);
      }
    }
  }

  PieceDistance result() const {
    if (!std::isfinite(m_square)) return {m_square, 0.0, 0.0};
    const double apart = std::sqrt(m_square);
    return {apart < kTouching_m ? 0.0 : apart, stationOn(m_a, m_onA), stationOn(m_b, m_onB)};
  }

  const Shape& m_a;
  const Shape& m_b;
  Span m_span;
  double m_square = std::numeric_limits<double>::infinity();
  Point m_onA;
  Point m_onB;
};

}  // namespace

Shape prepared(const Piece& piece) {
  Shape shape;
  shape.start = startPoint(piece);
  shape.end = endPoint(piece);
  shape.length = length(piece);
  if (const auto* arc = std::get_if<Arc>(&piece)) {
    const double middle = arc->startAngle + 0.5 * arc->sweep;
    shape.unit = {std::cos(middle), std::sin(middle)};
    shape.centre = arc->centre;
    shape.radius = arc->radius;
    shape.cosHalf = std::cos(0.5 * arc->sweep);
    shape.startAngle = arc->startAngle;
    shape.sweep = arc->sweep;
  } else {
    shape.unit = startTangent(piece);
  }
  return shape;
}

PieceDistance nearestPlaces(const Shape& a, const Shape& b) { return Search<AnySpan>(a, b, {}).run(); }

PieceDistance nearestPlacesApart(const Shape& a, const Shape& b, double offset_m, double leastSpan_m) {
  return Search<LeastSpan>(a, b, {offset_m, leastSpan_m}).run();
}

}  // namespace detail

PieceDistance distanceBetween(const Piece& a, const Piece& b) {
  return detail::nearestPlaces(detail::prepared(a), detail::prepared(b));
}

}  // namespace sunspool::geometry
