// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/path.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include "core/base/assert.h"

namespace sunspool::geometry {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
// Excess of tangent lengths over a leg that counts as a fit. [m]
constexpr double kFitTolerance_m = 1e-9;

Point direction(double angle) { return {std::cos(angle), std::sin(angle)}; }
Point leftOf(Point u) { return {-u.y, u.x}; }
double turnSign(const Arc& arc) { return arc.sweep < 0.0 ? -1.0 : 1.0; }
Point onArc(const Arc& arc, double angle) { return arc.centre + direction(angle) * arc.radius; }
Point tangentOfArc(const Arc& arc, double angle) { return leftOf(direction(angle)) * turnSign(arc); }

Point unitOf(Point a) {
  const double size = norm(a);
  return size > 0.0 ? a * (1.0 / size) : Point{};
}

double angleAt(const Arc& arc, double s) { return arc.startAngle + turnSign(arc) * s / arc.radius; }

Box boxOf(Point a, Point b) {
  return {{std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)}};
}
Box united(const Box& a, const Box& b) {
  return {{std::min(a.lower.x, b.lower.x), std::min(a.lower.y, b.lower.y)},
          {std::max(a.upper.x, b.upper.x), std::max(a.upper.y, b.upper.y)}};
}

// How far an arc has to be walked from its start to look along this angle, in [0, 2 pi).
double turnTo(const Arc& arc, double angle) {
  const double turn = std::fmod((angle - arc.startAngle) * turnSign(arc), kTwoPi);
  return turn < 0.0 ? turn + kTwoPi : turn;
}

Box boundsOf(const Line& line) { return boxOf(line.start, line.end); }
Box boundsOf(const Arc& arc) {
  Box box = boxOf(onArc(arc, arc.startAngle), onArc(arc, arc.startAngle + arc.sweep));
  for (int quarter = 0; quarter < 4; ++quarter) {
    if (turnTo(arc, quarter * (kTwoPi / 4.0)) > std::abs(arc.sweep)) continue;
    const Point reach{quarter == 0 ? 1.0 : (quarter == 2 ? -1.0 : 0.0),
                      quarter == 1 ? 1.0 : (quarter == 3 ? -1.0 : 0.0)};
    const Point extreme = arc.centre + reach * arc.radius;
    box = united(box, {extreme, extreme});
  }
  return box;
}

Path::Nearest nearestOn(const Line& line, Point p) {
  const Point along = line.end - line.start;
  const double square = dot(along, along);
  const double part = square > 0.0 ? std::clamp(dot(p - line.start, along) / square, 0.0, 1.0) : 0.0;
  return {part * std::sqrt(square), distance(p, line.start + along * part)};
}
Path::Nearest nearestOn(const Arc& arc, Point p) {
  const Point arm = p - arc.centre;
  const double turn = turnTo(arc, std::atan2(arm.y, arm.x));
  if (turn <= std::abs(arc.sweep)) return {turn * arc.radius, std::abs(norm(arm) - arc.radius)};
  const double toStart = distance(p, onArc(arc, arc.startAngle));
  const double toEnd = distance(p, onArc(arc, arc.startAngle + arc.sweep));
  return toStart <= toEnd ? Path::Nearest{0.0, toStart} : Path::Nearest{std::abs(arc.sweep) * arc.radius, toEnd};
}

}  // namespace

double norm(Point a) { return std::sqrt(dot(a, a)); }
double distance(Point a, Point b) { return norm(b - a); }

double length(const Piece& piece) {
  if (const auto* line = std::get_if<Line>(&piece)) return distance(line->start, line->end);
  const Arc& arc = std::get<Arc>(piece);
  return arc.radius * std::abs(arc.sweep);
}

Point startPoint(const Piece& piece) {
  if (const auto* line = std::get_if<Line>(&piece)) return line->start;
  const Arc& arc = std::get<Arc>(piece);
  return onArc(arc, arc.startAngle);
}

Point endPoint(const Piece& piece) {
  if (const auto* line = std::get_if<Line>(&piece)) return line->end;
  const Arc& arc = std::get<Arc>(piece);
  return onArc(arc, arc.startAngle + arc.sweep);
}

Point startTangent(const Piece& piece) {
  if (const auto* line = std::get_if<Line>(&piece)) return unitOf(line->end - line->start);
  const Arc& arc = std::get<Arc>(piece);
  return tangentOfArc(arc, arc.startAngle);
}

Point endTangent(const Piece& piece) {
  if (const auto* line = std::get_if<Line>(&piece)) return unitOf(line->end - line->start);
  const Arc& arc = std::get<Arc>(piece);
  return tangentOfArc(arc, arc.startAngle + arc.sweep);
}

Box bounds(const Piece& piece) {
  return std::visit([](const auto& shape) { return boundsOf(shape); }, piece);
}

Point pointOn(const Piece& piece, double s) {
  if (const auto* line = std::get_if<Line>(&piece)) return line->start + unitOf(line->end - line->start) * s;
  const Arc& arc = std::get<Arc>(piece);
  return onArc(arc, angleAt(arc, s));
}

Point tangentOn(const Piece& piece, double s) {
  if (std::holds_alternative<Line>(piece)) return startTangent(piece);
  const Arc& arc = std::get<Arc>(piece);
  return tangentOfArc(arc, angleAt(arc, s));
}

Piece slice(const Piece& piece, double from, double to) {
  if (std::holds_alternative<Line>(piece)) return Line{pointOn(piece, from), pointOn(piece, to)};
  const Arc& arc = std::get<Arc>(piece);
  return Arc{arc.centre, arc.radius, angleAt(arc, from), turnSign(arc) * (to - from) / arc.radius};
}

Piece reversed(const Piece& piece) {
  if (const auto* line = std::get_if<Line>(&piece)) return Line{line->end, line->start};
  const Arc& arc = std::get<Arc>(piece);
  return Arc{arc.centre, arc.radius, arc.startAngle + arc.sweep, -arc.sweep};
}

Path::Path(std::vector<Piece> pieces) : m_pieces(std::move(pieces)) {
  std::erase_if(m_pieces, [](const Piece& piece) { return geometry::length(piece) <= kNoLength_m; });
  if (m_pieces.empty()) return;
  m_stations.reserve(m_pieces.size() + 1);
  m_stations.push_back(0.0);
  for (const Piece& piece : m_pieces) m_stations.push_back(m_stations.back() + geometry::length(piece));
  SUNSPOOL_ASSERT(std::isfinite(m_stations.back()), "a path has a finite length");
}

std::size_t Path::pieceAt(double station_m) const {
  SUNSPOOL_ASSERT(!empty(), "an empty path has no pieces");
  const auto after = std::upper_bound(m_stations.begin() + 1, m_stations.end() - 1, station_m);
  return static_cast<std::size_t>(after - m_stations.begin()) - 1;
}

Point Path::pointAt(double station_m) const {
  const std::size_t i = pieceAt(station_m);
  if (station_m >= m_stations.back()) return endPoint(m_pieces.back());
  return pointOn(m_pieces[i], std::max(0.0, station_m - m_stations[i]));
}

Point Path::tangentAt(double station_m) const {
  const std::size_t i = pieceAt(station_m);
  return tangentOn(m_pieces[i], std::clamp(station_m - m_stations[i], 0.0, m_stations[i + 1] - m_stations[i]));
}

double Path::curvatureAt(double station_m) const {
  const auto* arc = std::get_if<Arc>(&m_pieces[pieceAt(station_m)]);
  return arc != nullptr ? turnSign(*arc) / arc->radius : 0.0;
}

double Path::smallestRadius() const {
  double smallest = std::numeric_limits<double>::infinity();
  for (const Piece& piece : m_pieces) {
    if (const auto* arc = std::get_if<Arc>(&piece)) smallest = std::min(smallest, arc->radius);
  }
  return smallest;
}

double Path::largestGap() const {
  double largest = 0.0;
  for (std::size_t i = 1; i < m_pieces.size(); ++i) {
    largest = std::max(largest, distance(endPoint(m_pieces[i - 1]), startPoint(m_pieces[i])));
  }
  return largest;
}

double Path::largestTangentError() const {
  double largest = 0.0;
  for (std::size_t i = 1; i < m_pieces.size(); ++i) {
    const Point before = endTangent(m_pieces[i - 1]);
    const Point after = startTangent(m_pieces[i]);
    largest = std::max(largest, std::abs(std::atan2(cross(before, after), dot(before, after))));
  }
  return largest;
}

Box Path::bounds() const {
  if (empty()) return {};
  Box box = geometry::bounds(m_pieces.front());
  for (const Piece& piece : m_pieces) box = united(box, geometry::bounds(piece));
  return box;
}

Path Path::reversed() const {
  std::vector<Piece> pieces;
  pieces.reserve(m_pieces.size());
  for (auto piece = m_pieces.rbegin(); piece != m_pieces.rend(); ++piece) {
    pieces.push_back(geometry::reversed(*piece));
  }
  return Path(std::move(pieces));
}

Path Path::slice(double from_m, double to_m) const {
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < m_pieces.size(); ++i) {
    const double start = m_stations[i];
    const double end = m_stations[i + 1];
    if (end <= from_m || start >= to_m) continue;
    const bool whole = start >= from_m && end <= to_m;
    pieces.push_back(whole
                         ? m_pieces[i]
                         : geometry::slice(m_pieces[i], std::max(from_m, start) - start, std::min(to_m, end) - start));
  }
  return Path(std::move(pieces));
}

Path::Nearest Path::nearest(Point p) const {
  Nearest best{0.0, std::numeric_limits<double>::infinity()};
  for (std::size_t i = 0; i < m_pieces.size(); ++i) {
    const Nearest here = std::visit([p](const auto& shape) { return nearestOn(shape, p); }, m_pieces[i]);
    if (here.distance_m < best.distance_m) best = {m_stations[i] + here.station_m, here.distance_m};
  }
  return best;
}

namespace {

struct Rounding {
  std::size_t index = 0;  // in the list the caller gave
  Point at;
  double radius = 0.0;
  double turn = 0.0;     // signed angle between the legs
  double tangent = 0.0;  // length each leg loses
};

Result<std::vector<Rounding>> cornersWithLegs(std::span<const Corner> corners) {
  std::vector<Rounding> kept;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Corner& corner = corners[i];
    const Fact which{"corner", static_cast<double>(i), Dimension::Count};
    if (!std::isfinite(corner.at.x) || !std::isfinite(corner.at.y) || !std::isfinite(corner.radius)) {
      return Error{ErrorCode::NotFinite, "corner", {}, {which}};
    }
    if (corner.radius < 0.0) {
      return Error{ErrorCode::OutOfRange, "corner", "radius", {which, {"radius", corner.radius, Dimension::Length}}};
    }
    if (!kept.empty() && distance(kept.back().at, corner.at) <= kNoLength_m) {
      kept.back().radius = std::max(kept.back().radius, corner.radius);
    } else {
      kept.push_back({i, corner.at, corner.radius, 0.0, 0.0});
    }
  }
  for (std::size_t i = 1; i + 1 < kept.size(); ++i) {
    const Point in = unitOf(kept[i].at - kept[i - 1].at);
    const Point out = unitOf(kept[i + 1].at - kept[i].at);
    kept[i].turn = std::atan2(cross(in, out), dot(in, out));
    kept[i].tangent = kept[i].radius * std::tan(std::abs(kept[i].turn) / 2.0);
  }
  return kept;
}

// An excess within the tolerance but above rounding shrinks both roundings of the leg, so that the path stays closed.
Result<Done> fitToLegs(std::vector<Rounding>& corners) {
  std::vector<double> factors(corners.size(), 1.0);
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    const double leg = distance(corners[i].at, corners[i + 1].at);
    const double wanted = corners[i].tangent + corners[i + 1].tangent;
    if (wanted - leg > kFitTolerance_m) {
      return Error{ErrorCode::TurnsDoNotFit,
                   "corner",
                   {},
                   {{"corner", static_cast<double>(corners[i].index), Dimension::Count},
                    {"tangent_length", wanted, Dimension::Length},
                    {"leg_length", leg, Dimension::Length}}};
    }
    if (wanted - leg > kNoLength_m) {
      factors[i] = std::min(factors[i], leg / wanted);
      factors[i + 1] = std::min(factors[i + 1], leg / wanted);
    }
  }
  for (std::size_t i = 0; i < corners.size(); ++i) {
    corners[i].radius *= factors[i];
    corners[i].tangent *= factors[i];
  }
  return Done{};
}

Arc arcOf(const Rounding& corner, Point before) {
  const Point in = unitOf(corner.at - before);
  const Point start = corner.at - in * corner.tangent;
  const Point toCentre = leftOf(in) * (corner.turn < 0.0 ? -1.0 : 1.0);
  return {start + toCentre * corner.radius, corner.radius, std::atan2(-toCentre.y, -toCentre.x), corner.turn};
}

}  // namespace

Result<Path> filleted(std::span<const Corner> corners) {
  auto kept = cornersWithLegs(corners);
  if (!kept) return kept.error();
  std::vector<Rounding>& roundings = *kept;
  if (!roundings.empty()) roundings.front().radius = roundings.back().radius = 0.0;
  if (const auto fit = fitToLegs(roundings); !fit) return fit.error();

  std::vector<Piece> pieces;
  for (std::size_t i = 1; i < roundings.size(); ++i) {
    const Rounding& corner = roundings[i];
    const Point from = pieces.empty() ? roundings.front().at : endPoint(pieces.back());
    if (corner.radius * std::abs(corner.turn) <= kNoLength_m) {
      pieces.push_back(Line{from, corner.at});
      continue;
    }
    const Arc arc = arcOf(corner, roundings[i - 1].at);
    const Line leg{from, startPoint(arc)};
    if (length(leg) > kNoLength_m) pieces.push_back(leg);
    pieces.push_back(arc);
  }
  return Path(std::move(pieces));
}

}  // namespace sunspool::geometry
