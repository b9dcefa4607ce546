// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/clearance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <tuple>
#include <utility>

#include "core/base/assert.h"
#include "core/geometry/piece_distance.h"

namespace sunspool::geometry {
namespace {

using detail::Shape;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
// Share of half a circle of the exempt radius below which two places of one path are not compared.
constexpr double kExemptShare = 0.9;
// A stretch that turns no more than this keeps 0.9 pi R cos(45 degrees) = 2 R between such places anyway.
constexpr double kHarmlessTurn = std::numbers::pi / 2.0 + 1e-9;
// Pitches reckoned two ways differ in the last digits; that is not "closer". [m]
constexpr double kRounding_m = 1e-9;
constexpr std::size_t kMostPlaces = 200;
constexpr std::size_t kLeafSize = 4;

struct Item {
  Shape shape;
  Box box;
  std::size_t path = 0;   // index in the list the caller gave
  std::size_t owner = 0;  // first index in that list with the same path
  std::size_t piece = 0;  // index on that path
  double from_m = 0.0;    // stations on the whole path
  double to_m = 0.0;
  double turnBefore = 0.0;  // angle turned on the way to the start and to the end of the piece [rad]
  double turnAfter = 0.0;
};

double squareBetween(const Box& a, const Box& b) {
  const double x = std::max({0.0, a.lower.x - b.upper.x, b.lower.x - a.upper.x});
  const double y = std::max({0.0, a.lower.y - b.upper.y, b.lower.y - a.upper.y});
  return x * x + y * y;
}

Box united(const Box& a, const Box& b) {
  return {{std::min(a.lower.x, b.lower.x), std::min(a.lower.y, b.lower.y)},
          {std::max(a.upper.x, b.upper.x), std::max(a.upper.y, b.upper.y)}};
}

// Nearest two places of two items, infinity where every pair of places is exempt.
PieceDistance between(const Item& a, const Item& b, double exemptSpan_m) {
  if (a.owner != b.owner) return detail::nearestPlaces(a.shape, b.shape);
  if (b.from_m < a.from_m) {
    const PieceDistance turned = between(b, a, exemptSpan_m);
    return {turned.distance_m, turned.onSecond_m, turned.onFirst_m};
  }
  if (b.from_m - a.to_m >= exemptSpan_m) return detail::nearestPlaces(a.shape, b.shape);
  if (b.to_m - a.from_m < exemptSpan_m || b.turnAfter - a.turnBefore <= kHarmlessTurn) return {kInfinity, 0.0, 0.0};
  return detail::nearestPlacesApart(a.shape, b.shape, b.from_m - a.from_m, exemptSpan_m);
}

ClosePlace placeOf(const Item& a, const Item& b, const PieceDistance& found) {
  const ClosePlace place{a.path, b.path, a.from_m + found.onFirst_m, b.from_m + found.onSecond_m, found.distance_m};
  if (std::tie(a.path, place.firstStation_m) <= std::tie(b.path, place.secondStation_m)) return place;
  return {place.secondPath, place.firstPath, place.secondStation_m, place.firstStation_m, place.distance_m};
}

bool nearerPlace(const ClosePlace& a, const ClosePlace& b) {
  return std::tie(a.distance_m, a.firstPath, a.secondPath, a.firstStation_m, a.secondStation_m) <
         std::tie(b.distance_m, b.firstPath, b.secondPath, b.firstStation_m, b.secondStation_m);
}

// Gathers a report. Only what is nearer than reachSquare() can still change it.
class Gathering {
 public:
  explicit Gathering(double wanted_m) : m_wanted_m(wanted_m - kRounding_m) {
    m_report.smallest_m = kInfinity;
    updateReach();
  }
  double reachSquare() const { return m_reachSquare; }

  void add(const Item& a, const Item& b, const PieceDistance& found) {
    if (found.distance_m < m_wanted_m) m_report.closer.push_back(placeOf(a, b, found));
    if (found.distance_m < m_report.smallest_m) {
      m_report.smallest_m = found.distance_m;
      m_report.smallestPlace = placeOf(a, b, found);
      updateReach();
    }
  }

  ClearanceReport finish() && {
    auto& closer = m_report.closer;
    const std::size_t kept = std::min(closer.size(), kMostPlaces);
    std::partial_sort(closer.begin(), closer.begin() + static_cast<std::ptrdiff_t>(kept), closer.end(), nearerPlace);
    closer.resize(kept);
    return std::move(m_report);
  }

 private:
  void updateReach() {
    const double reach = std::max(m_wanted_m, m_report.smallest_m);
    m_reachSquare = reach * reach;
  }
  double m_wanted_m;
  double m_reachSquare = kInfinity;
  ClearanceReport m_report;
};

// The pieces of one stretch, cut where it begins and ends.
void appendItems(std::vector<Item>& items, const CheckedPath& checked, std::size_t index, std::size_t owner) {
  const Path& path = *checked.path;
  const auto pieces = path.pieces();
  double turned = 0.0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (i > 0) {
      const Point before = endTangent(pieces[i - 1]);
      const Point after = startTangent(pieces[i]);
      turned += std::abs(std::atan2(cross(before, after), dot(before, after)));
    }
    const auto* arc = std::get_if<Arc>(&pieces[i]);
    const double turnBefore = turned;
    turned += arc != nullptr ? std::abs(arc->sweep) : 0.0;
    const double start = path.stationOf(i);
    const double from = std::max(start, checked.from_m);
    const double to = std::min(path.stationOf(i + 1), checked.to_m);
    if (to - from <= kNoLength_m) continue;
    const bool whole = from == start && to == path.stationOf(i + 1);
    const Piece piece = whole ? pieces[i] : slice(pieces[i], from - start, to - start);
    items.push_back({detail::prepared(piece), bounds(piece), index, owner, i, from, to, turnBefore, turned});
  }
}

}  // namespace

// A static tree of boxes. Items are kept in the order of its leaves, so a node is a range of items.
struct ClearanceChecker::Impl {
  struct Node {
    Box box;
    std::uint32_t first = 0;
    std::uint32_t last = 0;   // one past
    std::uint32_t right = 0;  // second child; the first follows its parent; 0 = leaf
  };

  std::vector<Item> items;
  std::vector<Node> nodes;
  double exemptSpan_m = 0.0;

  void build(std::size_t first, std::size_t last) {
    const std::size_t self = nodes.size();
    Box box = items[first].box;
    for (std::size_t i = first + 1; i < last; ++i) box = united(box, items[i].box);
    nodes.push_back({box, static_cast<std::uint32_t>(first), static_cast<std::uint32_t>(last), 0});
    if (last - first <= kLeafSize) return;
    const std::size_t middle = split(first, last);
    build(first, middle);
    nodes[self].right = static_cast<std::uint32_t>(nodes.size());
    build(middle, last);
  }

  // Halves a range across the direction in which the middles of its boxes spread wider.
  std::size_t split(std::size_t first, std::size_t last) {
    const auto middleOf = [](const Item& item) { return item.box.lower + item.box.upper; };
    Point low = middleOf(items[first]);
    Point high = low;
    for (std::size_t i = first; i < last; ++i) {
      const Point middle = middleOf(items[i]);
      low = {std::min(low.x, middle.x), std::min(low.y, middle.y)};
      high = {std::max(high.x, middle.x), std::max(high.y, middle.y)};
    }
    const bool alongX = high.x - low.x >= high.y - low.y;
    const std::size_t middle = first + (last - first) / 2;
    const auto at = [this](std::size_t i) { return items.begin() + static_cast<std::ptrdiff_t>(i); };
    std::nth_element(at(first), at(middle), at(last), [&](const Item& a, const Item& b) {
      const Point ma = middleOf(a);
      const Point mb = middleOf(b);
      return std::tuple(alongX ? ma.x : ma.y, a.path, a.from_m) < std::tuple(alongX ? mb.x : mb.y, b.path, b.from_m);
    });
    return middle;
  }

  // Compares one item with all items from index `from` on, but not with the piece `except`.
  void compare(const Item& item, std::size_t from, const Item* except, Gathering& gathering) const {
    if (nodes.empty()) return;
    std::array<std::uint32_t, 64> stack{};  // the tree halves: depth below 64
    std::size_t height = 0;
    stack[height++] = 0;
    while (height > 0) {
      const std::uint32_t at = stack[--height];
      const Node& node = nodes[at];
      if (node.last <= from || squareBetween(node.box, item.box) > gathering.reachSquare()) continue;
      if (node.right != 0) {
        stack[height++] = node.right;
        stack[height++] = at + 1;
        continue;
      }
      for (std::size_t j = std::max<std::size_t>(node.first, from); j < node.last; ++j) {
        const Item& other = items[j];
        if (&other == except || squareBetween(other.box, item.box) > gathering.reachSquare()) continue;
        gathering.add(item, other, between(item, other, exemptSpan_m));
      }
    }
  }

  // An arc of more than half a turn comes back towards itself; its ends are then its nearest places.
  void compareWithItself(const Item& item, Gathering& gathering) const {
    if (!item.shape.isArc() || item.shape.length < exemptSpan_m || std::abs(item.shape.sweep) < std::numbers::pi)
      return;
    gathering.add(item, item, {distance(item.shape.start, item.shape.end), 0.0, item.shape.length});
  }

  const Item* find(std::size_t path, std::size_t piece) const {
    if (path >= places.size() || piece >= places[path].size() || places[path][piece] == kNotChecked) return nullptr;
    return &items[places[path][piece]];
  }

  static constexpr std::size_t kNotChecked = static_cast<std::size_t>(-1);
  std::vector<std::vector<std::size_t>> places;  // item of each piece of each path
};

ClearanceChecker::ClearanceChecker(std::span<const CheckedPath> paths, double exemptRadius_m)
    : m_impl(std::make_unique<Impl>()) {
  SUNSPOOL_ASSERT(exemptRadius_m >= 0.0, "a radius is not negative");
  Impl& impl = *m_impl;
  impl.exemptSpan_m = kExemptShare * std::numbers::pi * exemptRadius_m;
  for (std::size_t index = 0; index < paths.size(); ++index) {
    SUNSPOOL_ASSERT(paths[index].path != nullptr, "a checked stretch has a path");
    const auto sameAs = [&](const CheckedPath& other) { return other.path == paths[index].path; };
    const auto owner = static_cast<std::size_t>(std::find_if(paths.begin(), paths.end(), sameAs) - paths.begin());
    appendItems(impl.items, paths[index], index, owner);
    impl.places.emplace_back(paths[index].path->pieces().size(), Impl::kNotChecked);
  }
  if (impl.items.empty()) return;
  impl.build(0, impl.items.size());
  for (std::size_t i = 0; i < impl.items.size(); ++i) impl.places[impl.items[i].path][impl.items[i].piece] = i;
}

ClearanceChecker::~ClearanceChecker() = default;
ClearanceChecker::ClearanceChecker(ClearanceChecker&&) noexcept = default;
ClearanceChecker& ClearanceChecker::operator=(ClearanceChecker&&) noexcept = default;

ClearanceReport ClearanceChecker::check(double wanted_m) const {
  Gathering gathering(wanted_m);
  for (std::size_t i = 0; i < m_impl->items.size(); ++i) {
    m_impl->compareWithItself(m_impl->items[i], gathering);
    m_impl->compare(m_impl->items[i], i + 1, nullptr, gathering);
  }
  return std::move(gathering).finish();
}

ClearanceReport ClearanceChecker::checkOne(std::size_t path, std::size_t piece, double wanted_m) const {
  Gathering gathering(wanted_m);
  if (const Item* item = m_impl->find(path, piece)) {
    m_impl->compareWithItself(*item, gathering);
    m_impl->compare(*item, 0, item, gathering);
  }
  return std::move(gathering).finish();
}

ClearanceReport ClearanceChecker::checkInstead(std::size_t path, std::size_t piece, const Piece& instead,
                                               double wanted_m) const {
  Gathering gathering(wanted_m);
  if (const Item* replaced = m_impl->find(path, piece)) {
    Item item = *replaced;
    item.shape = detail::prepared(instead);
    item.box = bounds(instead);
    item.to_m = item.from_m + item.shape.length;
    m_impl->compareWithItself(item, gathering);
    m_impl->compare(item, 0, replaced, gathering);
  }
  return std::move(gathering).finish();
}

std::size_t ClearanceChecker::pieceCount() const { return m_impl->items.size(); }

}  // namespace sunspool::geometry
