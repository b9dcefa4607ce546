// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/guillotine.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <utility>

namespace sunspool::stock {
namespace {

constexpr std::size_t kMostPositions = 500;
constexpr std::size_t kNone = static_cast<std::size_t>(-1);

/// All sums of piece sizes up to the limit, 0 included; empty when there are too many.
std::vector<Size> sumsUpTo(std::span<const RectangleKind> kinds, Size limit, bool alongWidth, bool canTurn) {
  std::vector<Size> sums{0};
  for (const RectangleKind& kind : kinds) {
    for (int copy = 0; copy < kind.count; ++copy) {
      std::vector<Size> longer = sums;
      for (const Size sum : sums) {
        if (sum + (alongWidth ? kind.width : kind.height) <= limit) {
          longer.push_back(sum + (alongWidth ? kind.width : kind.height));
        }
        if (canTurn && sum + (alongWidth ? kind.height : kind.width) <= limit) {
          longer.push_back(sum + (alongWidth ? kind.height : kind.width));
        }
      }
      std::sort(longer.begin(), longer.end());
      longer.erase(std::unique(longer.begin(), longer.end()), longer.end());
      if (longer.size() > kMostPositions) return {};
      if (longer.size() == sums.size()) break;
      sums = std::move(longer);
    }
  }
  return sums;
}

bool covers(const std::vector<int>& more, const std::vector<int>& fewer) {
  for (std::size_t i = 0; i < more.size(); ++i) {
    if (more[i] < fewer[i]) return false;
  }
  return true;
}

/// Fillings of every sub-sheet whose sides are sums of piece sizes, built from those of its two halves.
class Fillings {
 public:
  Fillings(std::span<const RectangleKind> kinds, const Blank& blank, long& stepsLeft)
      : m_kinds(kinds),
        m_blank(blank),
        m_stepsLeft(stepsLeft),
        m_xs(sumsUpTo(kinds, blank.width, true, blank.canTurn)),
        m_ys(sumsUpTo(kinds, blank.height, false, blank.canTurn)) {}

  SheetFillings run() {
    if (m_xs.empty() || m_ys.empty()) return {{}, false};
    const std::size_t root = partOf(m_xs.size() - 1, m_ys.size() - 1);
    if (m_stepsLeft <= 0) return {{}, false};
    SheetFillings fillings;
    for (std::size_t w = 0; w < m_parts[root].ways.size(); ++w) {
      SheetFilling filling{m_parts[root].ways[w].counts, {}};
      place(root, w, 0, 0, filling.pieces);
      fillings.all.push_back(std::move(filling));
    }
    return fillings;
  }

 private:
  enum class How { Empty, Piece, TurnedPiece, Beside, Above };
  struct Way {
    std::vector<int> counts;
    How how = How::Empty;
    std::size_t kind = 0;                       ///< of a piece
    Size at = 0;                                ///< of the cut
    std::size_t first = kNone, firstWay = 0;    ///< left or lower half
    std::size_t second = kNone, secondWay = 0;  ///< right or upper half
  };
  struct Part {
    std::vector<Way> ways;
  };

  static std::size_t floorIndex(const std::vector<Size>& sums, Size value) {
    return static_cast<std::size_t>(std::upper_bound(sums.begin(), sums.end(), value) - sums.begin()) - 1;
  }

  void keep(std::vector<Way>& ways, Way way) {
    for (const Way& known : ways) {
      if (covers(known.counts, way.counts)) return;
    }
    std::erase_if(ways, [&](const Way& known) { return covers(way.counts, known.counts); });
    ways.push_back(std::move(way));
  }

  void addPieces(std::vector<Way>& ways, Size width, Size height) {
    for (std::size_t k = 0; k < m_kinds.size(); ++k) {
      const RectangleKind& kind = m_kinds[k];
      if (kind.count == 0) continue;
      Way way{std::vector<int>(m_kinds.size(), 0)};
      way.counts[k] = 1;
      way.kind = k;
      if (kind.width <= width && kind.height <= height) {
        way.how = How::Piece;
        keep(ways, way);
      } else if (m_blank.canTurn && kind.height <= width && kind.width <= height) {
        way.how = How::TurnedPiece;
        keep(ways, way);
      }
    }
  }

  void addHalves(std::vector<Way>& ways, std::size_t first, std::size_t second, How how, Size at) {
    for (std::size_t a = 0; a < m_parts[first].ways.size(); ++a) {
      for (std::size_t b = 0; b < m_parts[second].ways.size(); ++b) {
        if (--m_stepsLeft <= 0) return;
        Way way{m_parts[first].ways[a].counts, how, 0, at, first, a, second, b};
        for (std::size_t k = 0; k < way.counts.size(); ++k) {
          way.counts[k] = std::min(m_kinds[k].count, way.counts[k] + m_parts[second].ways[b].counts[k]);
        }
        keep(ways, std::move(way));
      }
    }
  }

  /// Index of the sub-sheet with these sides. A cut beyond the middle only changes the halves' places.
  std::size_t partOf(std::size_t xi, std::size_t yi) {
    const auto known = m_indexOf.find({xi, yi});
    if (known != m_indexOf.end()) return known->second;
    const Size width = m_xs[xi];
    const Size height = m_ys[yi];
    std::vector<Way> ways{{std::vector<int>(m_kinds.size(), 0)}};
    addPieces(ways, width, height);
    for (std::size_t i = 1; i < m_xs.size() && 2 * m_xs[i] <= width && m_stepsLeft > 0; ++i) {
      const std::size_t left = partOf(i, yi);
      addHalves(ways, left, partOf(floorIndex(m_xs, width - m_xs[i]), yi), How::Beside, m_xs[i]);
    }
    for (std::size_t i = 1; i < m_ys.size() && 2 * m_ys[i] <= height && m_stepsLeft > 0; ++i) {
      const std::size_t lower = partOf(xi, i);
      addHalves(ways, lower, partOf(xi, floorIndex(m_ys, height - m_ys[i])), How::Above, m_ys[i]);
    }
    m_parts.push_back({std::move(ways)});
    return m_indexOf[{xi, yi}] = m_parts.size() - 1;
  }

  void place(std::size_t part, std::size_t wayIndex, Size x, Size y, std::vector<Placement>& pieces) const {
    const Way& way = m_parts[part].ways[wayIndex];
    switch (way.how) {
      case How::Empty:
        return;
      case How::Piece:
      case How::TurnedPiece:
        pieces.push_back({way.kind, x, y, way.how == How::TurnedPiece});
        return;
      case How::Beside:
      case How::Above:
        const bool beside = way.how == How::Beside;
        place(way.first, way.firstWay, x, y, pieces);
        place(way.second, way.secondWay, beside ? x + way.at : x, beside ? y : y + way.at, pieces);
        return;
    }
  }

  std::span<const RectangleKind> m_kinds;
  Blank m_blank;
  long& m_stepsLeft;
  std::vector<Size> m_xs, m_ys;
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> m_indexOf;
  std::vector<Part> m_parts;
};

/// Cuts out edge to edge, part by part; parts are remembered by their corners.
class Leftover {
 public:
  explicit Leftover(std::span<const Spot> pieces) : m_pieces(pieces) {}

  std::optional<Spot> of(const Spot& part) {
    const std::array<Size, 4> key{part.x, part.y, part.width, part.height};
    if (const auto known = m_known.find(key); known != m_known.end()) return known->second;
    return m_known[key] = search(part);
  }

 private:
  static constexpr std::size_t kMostParts = 3000;
  static bool isLarger(const Spot& a, const Spot& b) {
    return static_cast<double>(a.width) * static_cast<double>(a.height) >
           static_cast<double>(b.width) * static_cast<double>(b.height);
  }
  static bool touches(const Spot& a, const Spot& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  }

  std::optional<Spot> search(const Spot& part) {
    std::vector<Spot> inside;
    for (const Spot& piece : m_pieces) {
      if (touches(piece, part)) inside.push_back(piece);
    }
    if (inside.empty()) return part;
    if (inside.size() == 1 && inside[0].width == part.width && inside[0].height == part.height) return Spot{};
    std::optional<Spot> best;
    for (const bool upright : {true, false}) {
      for (const Size at : edgesOf(inside, part, upright)) {
        const std::optional<Spot> left = cutAt(inside, part, upright, at);
        if (left && (!best || isLarger(*left, *best))) best = left;
        if (best && m_known.size() > kMostParts) return best;
      }
    }
    return best;
  }
  static std::vector<Size> edgesOf(const std::vector<Spot>& inside, const Spot& part, bool upright) {
    std::vector<Size> edges;
    const Size from = upright ? part.x : part.y;
    const Size to = from + (upright ? part.width : part.height);
    for (const Spot& piece : inside) {
      const Size low = upright ? piece.x : piece.y;
      for (const Size at : {low, low + (upright ? piece.width : piece.height)}) {
        if (at > from && at < to) edges.push_back(at);
      }
    }
    std::sort(edges.begin(), edges.end());
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    return edges;
  }
  std::optional<Spot> cutAt(const std::vector<Spot>& inside, const Spot& part, bool upright, Size at) {
    for (const Spot& piece : inside) {
      const Size low = upright ? piece.x : piece.y;
      if (low < at && at < low + (upright ? piece.width : piece.height)) return std::nullopt;
    }
    Spot first = part;
    Spot second = part;
    (upright ? first.width : first.height) = at - (upright ? part.x : part.y);
    (upright ? second.x : second.y) = at;
    (upright ? second.width : second.height) -= upright ? first.width : first.height;
    const std::optional<Spot> a = of(first);
    const std::optional<Spot> b = a ? of(second) : std::nullopt;
    if (!a || !b) return std::nullopt;
    return isLarger(*b, *a) ? b : a;
  }

  std::span<const Spot> m_pieces;
  std::map<std::array<Size, 4>, std::optional<Spot>> m_known;
};

/// Where the piece leaves the least room beside it; index of the free rectangle and whether it is turned.
struct Fit {
  std::size_t spot = kNone;
  bool turned = false;
  Size room = 0;
};
Fit closestFit(const std::vector<Spot>& spots, const RectangleKind& kind, bool canTurn) {
  Fit best;
  for (std::size_t s = 0; s < spots.size(); ++s) {
    for (const bool turned : {false, true}) {
      if (turned && !canTurn) continue;
      const Size width = turned ? kind.height : kind.width;
      const Size height = turned ? kind.width : kind.height;
      if (width > spots[s].width || height > spots[s].height) continue;
      const Size room = std::min(spots[s].width - width, spots[s].height - height);
      if (best.spot == kNone || room < best.room) best = {s, turned, room};
    }
  }
  return best;
}

}  // namespace

SheetFillings undominatedFillings(std::span<const RectangleKind> kinds, const Blank& blank, long& stepsLeft) {
  return Fillings(kinds, blank, stepsLeft).run();
}

SheetFilling quickFilling(std::span<const RectangleKind> kinds, const Blank& blank) {
  std::vector<std::size_t> order(kinds.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return kinds[a].width * (kinds[a].height / 1000) > kinds[b].width * (kinds[b].height / 1000);
  });
  SheetFilling filling{std::vector<int>(kinds.size(), 0), {}};
  std::vector<Spot> spots{{0, 0, blank.width, blank.height}};
  for (const std::size_t k : order) {
    for (int copy = 0; copy < kinds[k].count; ++copy) {
      const Fit fit = closestFit(spots, kinds[k], blank.canTurn);
      if (fit.spot == kNone) break;
      const Spot spot = spots[fit.spot];
      spots.erase(spots.begin() + static_cast<std::ptrdiff_t>(fit.spot));
      const Size width = fit.turned ? kinds[k].height : kinds[k].width;
      const Size height = fit.turned ? kinds[k].width : kinds[k].height;
      filling.pieces.push_back({k, spot.x, spot.y, fit.turned});
      ++filling.counts[k];
      // The longer room keeps its whole length.
      const bool upright = spot.width - width > spot.height - height;
      spots.push_back({spot.x + width, spot.y, spot.width - width, upright ? spot.height : height});
      spots.push_back({spot.x, spot.y + height, upright ? width : spot.width, spot.height - height});
    }
  }
  return filling;
}

std::optional<Spot> largestLeft(std::span<const Spot> pieces, const Blank& blank) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Spot& a = pieces[i];
    if (a.x < 0 || a.y < 0 || a.x + a.width > blank.width || a.y + a.height > blank.height) return std::nullopt;
    for (std::size_t j = 0; j < i; ++j) {
      const Spot& b = pieces[j];
      if (a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height) {
        return std::nullopt;
      }
    }
  }
  return Leftover(pieces).of({0, 0, blank.width, blank.height});
}

}  // namespace sunspool::stock
