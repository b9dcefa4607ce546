// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/geometry/outline.h"

// The area of a union of many slim bands by a sweep over horizontal slabs. Between two neighbouring heights of
// corners every side is a straight line, so a slab without crossings is a row of trapezia and its covered width at
// half height is exact. Slabs in which sides cross are cut at the crossings. Unlike a polygon overlay the sum has
// no failing cases: bands that meet along a line cost only rounding.

namespace sunspool::geometry {
namespace {

constexpr double kChordError_m = 2e-5;
// A joint that turns more than this is a corner, not rounding. [rad]
constexpr double kSharp_rad = 1e-6;
// Sides that change places by less than this inside a slab are taken as meeting. [m]
constexpr double kMeeting_m = 1e-13;

struct Side {
  double low_m = 0.0;   // y at the lower end
  double high_m = 0.0;  // y at the upper end
  double xAtLow_m = 0.0;
  double slope = 0.0;  // dx/dy
  int band = 0;        // change of the number of bands when passed from left to right
  int border = 0;      // 1 for a side of the region

  double at(double y) const { return xAtLow_m + (y - low_m) * slope; }
};

class Sides {
 public:
  // Corners of a band counter-clockwise: the inside is to the left of each side.
  void addBand(const std::vector<Point>& corners) { add(corners, true); }
  void addBorder(const std::vector<Point>& corners) { add(corners, false); }
  std::vector<Side> take() && {
    std::sort(m_sides.begin(), m_sides.end(), [](const Side& a, const Side& b) { return a.low_m < b.low_m; });
    return std::move(m_sides);
  }

 private:
  void add(const std::vector<Point>& corners, bool ofBand) {
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Point from = corners[i];
      const Point to = corners[(i + 1) % corners.size()];
      if (from.y == to.y) continue;
      const bool up = to.y > from.y;
      const Point low = up ? from : to;
      const Point high = up ? to : from;
      m_sides.push_back(
          {low.y, high.y, low.x, (high.x - low.x) / (high.y - low.y), ofBand ? (up ? -1 : 1) : 0, ofBand ? 0 : 1});
    }
  }
  std::vector<Side> m_sides;
};

Point leftOf(Point u) { return {-u.y, u.x}; }

std::vector<Point> bandOf(const Line& line, double half) {
  const Point left = leftOf(startTangent(line)) * half;
  return {line.start - left, line.end - left, line.end + left, line.start + left};
}

int chordsOf(double sweep, double radius) {
  const double widest = 2.0 * std::acos(1.0 - std::min(0.5, kChordError_m / radius));
  return std::max(1, static_cast<int>(std::ceil(sweep / widest)));
}

std::vector<Point> discAt(Point centre, double radius) {
  const int chords = chordsOf(2.0 * std::numbers::pi, radius);
  const double step = 2.0 * std::numbers::pi / chords;
  std::vector<Point> corners;
  corners.reserve(static_cast<std::size_t>(chords));
  for (int i = 0; i < chords; ++i) corners.push_back(centre + Point{std::cos(i * step), std::sin(i * step)} * radius);
  return corners;
}

// Chords with both radii widened so that the polygon has exactly the area of the ring sector.
std::vector<Point> bandOf(const Arc& arc, double half) {
  const double outer = arc.radius + half;
  const double inner = std::max(0.0, arc.radius - half);
  const double sweep = std::abs(arc.sweep);
  const int chords = chordsOf(sweep, outer);
  const double step = sweep / chords;
  const double widening = std::sqrt(step / std::sin(step));
  const double from = arc.sweep < 0.0 ? arc.startAngle + arc.sweep : arc.startAngle;
  std::vector<Point> corners;
  const auto put = [&](double radius, int i) {
    const double angle = from + i * step;
    corners.push_back(arc.centre + Point{std::cos(angle), std::sin(angle)} * (radius * widening));
  };
  for (int i = 0; i <= chords; ++i) put(outer, i);
  for (int i = chords; i >= 0; --i) put(inner, i);
  return corners;
}

std::vector<Side> sidesOf(const Path& path, double half, const Region& region) {
  Sides sides;
  const auto pieces = path.pieces();
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    sides.addBand(std::visit([half](const auto& shape) { return bandOf(shape, half); }, pieces[i]));
    if (i == 0) continue;
    const Point before = endTangent(pieces[i - 1]);
    const Point after = startTangent(pieces[i]);
    if (std::abs(std::atan2(cross(before, after), dot(before, after))) > kSharp_rad) {
      sides.addBand(discAt(startPoint(pieces[i]), half));
    }
  }
  for (const RegionPart& part : region.parts) {
    sides.addBorder(part.outer.corners);
    for (const Outline& hole : part.holes) sides.addBorder(hole.corners);
  }
  return std::move(sides).take();
}

using Row = std::vector<const Side*>;

void sortAt(Row& row, double y) {
  std::sort(row.begin(), row.end(), [y](const Side* a, const Side* b) { return a->at(y) < b->at(y); });
}

// Width covered by bands inside the region at one height.
double coveredWidth(Row& row, double y) {
  sortAt(row, y);
  double width = 0.0;
  int bands = 0;
  int border = 0;
  double last = 0.0;
  for (const Side* side : row) {
    const double x = side->at(y);
    if (bands != 0 && border == 1) width += x - last;
    bands += side->band;
    border ^= side->border;
    last = x;
  }
  return width;
}

// Heights at which sides of the row change places between low and high.
std::vector<double> crossingHeights(Row& row, double low, double high) {
  sortAt(row, low);
  std::vector<double> heights;
  for (std::size_t i = 1; i < row.size(); ++i) {
    for (std::size_t j = i; j > 0; --j) {
      const double overshoot = row[j - 1]->at(high) - row[j]->at(high);
      if (overshoot <= 0.0) break;
      const double gap = row[j]->at(low) - row[j - 1]->at(low);
      if (overshoot > kMeeting_m && gap > kMeeting_m) {
        heights.push_back(low + (high - low) * gap / (gap + overshoot));
      }
      std::swap(row[j - 1], row[j]);
    }
  }
  std::sort(heights.begin(), heights.end());
  return heights;
}

double slabArea(Row& row, double low, double high) {
  double sum = 0.0;
  double from = low;
  for (const double to : crossingHeights(row, low, high)) {
    sum += coveredWidth(row, 0.5 * (from + to)) * (to - from);
    from = to;
  }
  return sum + coveredWidth(row, 0.5 * (from + high)) * (high - from);
}

}  // namespace

Area bandArea(const Path& path, Length width, const Region& region) {
  if (path.empty() || width.si() <= 0.0 || region.parts.empty()) return Area{};
  const std::vector<Side> sides = sidesOf(path, 0.5 * width.si(), region);
  std::vector<double> heights;
  for (const Side& side : sides) {
    heights.push_back(side.low_m);
    heights.push_back(side.high_m);
  }
  std::sort(heights.begin(), heights.end());
  heights.erase(std::unique(heights.begin(), heights.end()), heights.end());

  double sum = 0.0;
  Row row;
  std::size_t next = 0;
  for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
    const double low = heights[i];
    std::erase_if(row, [low](const Side* side) { return side->high_m <= low; });
    for (; next < sides.size() && sides[next].low_m <= low; ++next) row.push_back(&sides[next]);
    if (!row.empty()) sum += slabArea(row, low, heights[i + 1]);
  }
  return Area::fromSi(sum);
}

}  // namespace sunspool::geometry
