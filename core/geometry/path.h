// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Centre lines of tube as lines and arcs, kept analytic. Metres and radians; axes and signs in
// core/geometry/conventions.md.

#include <cstddef>
#include <optional>
#include <span>
#include <variant>
#include <vector>

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::geometry {

struct Point {
  double x = 0.0;  ///< [m]
  double y = 0.0;  ///< [m]
  bool operator==(const Point&) const = default;
};
constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
constexpr Point operator*(Point a, double f) { return {a.x * f, a.y * f}; }
constexpr double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
constexpr double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
double norm(Point a);
double distance(Point a, Point b);

/// Axis-parallel box, lower <= upper.
struct Box {
  Point lower;
  Point upper;
  bool operator==(const Box&) const = default;
};

struct Line {
  Point start;
  Point end;
  bool operator==(const Line&) const = default;
};

/// Circular arc: from centre + radius*(cos startAngle, sin startAngle), turning by sweep.
struct Arc {
  Point centre;
  double radius = 0.0;      ///< [m], > 0
  double startAngle = 0.0;  ///< [rad]
  double sweep = 0.0;       ///< [rad], positive = counter-clockwise, |sweep| <= 2 pi
  bool operator==(const Arc&) const = default;
};

using Piece = std::variant<Line, Arc>;

double length(const Piece& piece);  ///< [m]
Point startPoint(const Piece& piece);
Point endPoint(const Piece& piece);
Point startTangent(const Piece& piece);  ///< unit vector; {0,0} for a line without length
Point endTangent(const Piece& piece);
Box bounds(const Piece& piece);
/// Point and unit tangent at arc length s from the start of the piece, 0 <= s <= length.
Point pointOn(const Piece& piece, double s);
Point tangentOn(const Piece& piece, double s);
/// Part of the piece between arc lengths from and to, 0 <= from <= to <= length.
Piece slice(const Piece& piece, double from, double to);
Piece reversed(const Piece& piece);

/// Pieces up to this length are rounding, not tube. [m]
inline constexpr double kNoLength_m = 1e-13;

/// A chain of pieces, each starting where the last one ends. All numbers finite (asserted).
/// A place on an empty path (pieceAt, pointAt, tangentAt, curvatureAt) is a broken invariant.
class Path {
 public:
  Path() = default;
  explicit Path(std::vector<Piece> pieces);  ///< pieces up to kNoLength_m are dropped

  std::span<const Piece> pieces() const { return m_pieces; }
  bool empty() const { return m_pieces.empty(); }
  Length length() const { return Length::fromSi(m_stations.empty() ? 0.0 : m_stations.back()); }
  /// Station at which piece i starts; stationOf(size()) is the length. [m]
  double stationOf(std::size_t pieceIndex) const { return m_stations.empty() ? 0.0 : m_stations[pieceIndex]; }
  /// Index of the piece that holds station s; the last one for s >= length.
  std::size_t pieceAt(double station_m) const;
  Point pointAt(double station_m) const;       ///< clamped to the ends
  Point tangentAt(double station_m) const;     ///< unit vector
  double curvatureAt(double station_m) const;  ///< signed, 1/m, 0 on lines
  double smallestRadius() const;               ///< infinity without arcs [m]
  double largestGap() const;                   ///< worst distance between end and next start [m]
  double largestTangentError() const;          ///< worst angle between end and next start tangent [rad]
  Box bounds() const;
  Path reversed() const;
  /// Stretch between two stations, cut at the ends of the path; empty when to <= from.
  Path slice(double from_m, double to_m) const;
  /// Station of the point of the path nearest to p, and that distance; exact on lines and arcs.
  /// Of equally near places the first one. Infinity for an empty path.
  struct Nearest {
    double station_m = 0.0;
    double distance_m = 0.0;
  };
  Nearest nearest(Point p) const;
  bool operator==(const Path&) const = default;

 private:
  std::vector<Piece> m_pieces;
  std::vector<double> m_stations;  // size pieces + 1, or empty
};

/// A corner of a polyline to be rounded: where, and with which radius (0 = left sharp).
struct Corner {
  Point at;
  double radius = 0.0;
};
/// Rounds the corners of an open polyline with tangent arcs. First and last radius are ignored.
/// A point given twice in a row is one corner with the larger radius.
/// @return Error TurnsDoNotFit with facts "corner" (index of the first corner of the leg), "tangent_length"
///   (sum over both ends), "leg_length" when two neighbouring tangent lengths R tan(theta/2) exceed their leg by
///   more than 1e-9 m; an excess below that shrinks both radii by the same part. OutOfRange for a negative
///   radius, NotFinite for numbers that are none, both with fact "corner".
/// Accuracy: gaps below 1e-12 m; directions within 1e-9 rad where the straights are longer than 1 um.
Result<Path> filleted(std::span<const Corner> corners);

}  // namespace sunspool::geometry
