// SPDX-License-Identifier: GPL-3.0-or-later

// Clearance of rounded spirals, ours on exact lines and arcs against Boost.Geometry's R-tree on chords.

#include <algorithm>
#include <array>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/segment.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <utility>

#include "core/geometry/clearance.h"
#include "core/geometry/outline.h"
#include "tests/bench/bench.h"
#include "tests/core/geometry/shapes.h"

namespace {

using namespace sunspool;
using namespace sunspool::geometry;
using bench::Bench;
using bench::Measurement;
using bench::Sense;
using bench::Target;

constexpr double kPitch_m = 0.016;
constexpr double kRadius_m = 0.1;
constexpr double kWanted_m = 0.016;
constexpr double kExemptSpan_m = 0.9 * std::numbers::pi * kRadius_m;

// A spiral of just this length in a box of three to two that it nearly fills.
Path spiralOf(double length_m) {
  for (double height = std::sqrt(length_m * kPitch_m / 1.5);; height *= 1.005) {
    const int turns = static_cast<int>((height - 2.0 * kRadius_m) / (2.0 * kPitch_m));
    const auto path = filleted(testing::spiralCorners(1.5 * height, height, kPitch_m, kRadius_m, 4 * turns));
    if (path && path->length().si() >= length_m) return path->slice(0.0, length_m);
  }
}

ClearanceChecker checkerOf(const Path& path) {
  const std::array<CheckedPath, 1> all{CheckedPath{&path, 0.0, path.length().si()}};
  return ClearanceChecker(all, kRadius_m);
}

// The peer: the same question answered with what Boost.Geometry offers.
class ChordPeer {
  using ChordPoint = boost::geometry::model::d2::point_xy<double>;
  using Chord = boost::geometry::model::segment<ChordPoint>;
  using ChordBox = boost::geometry::model::box<ChordPoint>;
  using Entry = std::pair<ChordBox, std::size_t>;

 public:
  static double smallest(const Path& path) {
    ChordPeer peer(path);
    return peer.check();
  }

 private:
  explicit ChordPeer(const Path& path) {
    constexpr double kTolerance_m = 1e-4;
    for (std::size_t i = 0; i < path.pieces().size(); ++i) {
      const Piece& piece = path.pieces()[i];
      const double size = length(piece);
      const auto* arc = std::get_if<Arc>(&piece);
      const double widest = arc != nullptr ? 2.0 * std::acos(1.0 - kTolerance_m / arc->radius) * arc->radius : size;
      const int chords = std::max(1, static_cast<int>(std::ceil(size / widest)));
      for (int k = 0; k < chords; ++k) add(piece, path.stationOf(i), size * k / chords, size * (k + 1) / chords);
    }
  }

  void add(const Piece& piece, double station, double from, double to) {
    const Point a = pointOn(piece, from);
    const Point b = pointOn(piece, to);
    m_chords.push_back(Chord(ChordPoint(a.x, a.y), ChordPoint(b.x, b.y)));
    m_from.push_back(station + from);
    m_to.push_back(station + to);
  }

  double check() const {
    std::vector<Entry> entries;
    entries.reserve(m_chords.size());
    for (std::size_t i = 0; i < m_chords.size(); ++i) {
      entries.emplace_back(boost::geometry::return_envelope<ChordBox>(m_chords[i]), i);
    }
    const boost::geometry::index::rtree<Entry, boost::geometry::index::rstar<16>> tree(entries.begin(), entries.end());
    double best = 2.0 * kWanted_m;
    for (const Entry& entry : entries) {
      ChordBox reach = entry.first;
      boost::geometry::subtract_value(reach.min_corner(), best);
      boost::geometry::add_value(reach.max_corner(), best);
      const std::size_t i = entry.second;
      const auto later = [&](const Entry& other) { return m_from[other.second] - m_to[i] >= kExemptSpan_m; };
      const auto wanted = boost::geometry::index::intersects(reach) && boost::geometry::index::satisfies(later);
      for (auto found = tree.qbegin(wanted); found != tree.qend(); ++found) {
        best = std::min(best, boost::geometry::distance(m_chords[i], m_chords[found->second]));
      }
    }
    return best;
  }

  std::vector<Chord> m_chords;
  std::vector<double> m_from;
  std::vector<double> m_to;
};

Target atMost(double value) { return {Sense::AtMost, value}; }
Target atLeast(double value) { return {Sense::AtLeast, value}; }

void clearanceOf200m(Bench& bench) {
  const Path path = spiralOf(200.0);
  const ClearanceChecker checker = checkerOf(path);
  const std::string size = std::to_string(checker.pieceCount()) + " pieces";
  bench.time({"set up the check, 200 m", "ms", 0, 0, {}, size},
             [&] { return static_cast<double>(checkerOf(path).pieceCount()); });
  bench.time({"clearance, 200 m, set up before", "ms", 0, 0, atMost(1.0), size},
             [&] { return checker.check(kWanted_m).smallest_m; });
  const Measurement ours = bench.time({"clearance, 200 m, with set-up", "ms", 0, 0, atMost(1.0), size},
                                      [&] { return checkerOf(path).check(kWanted_m).smallest_m; });
  std::size_t piece = 0;
  bench.time({"clearance, one piece against all", "ms", 0, 0, atMost(0.05), "each piece in turn"}, [&] {
    piece = (piece + 1) % path.pieces().size();
    return checker.checkOne(0, piece, kWanted_m).smallest_m;
  });
  const Measurement peer = bench.time({"R-tree on 0.1 mm chords, 200 m", "ms", 0, 0, {}, "Boost.Geometry, with set-up"},
                                      [&] { return ChordPeer::smallest(path); });
  const double ratio = peer.median / ours.median;
  char note[96];
  std::snprintf(note, sizeof note, "smallest %.6f mm exact, %.6f mm on chords",
                1e3 * checker.check(kWanted_m).smallest_m, 1e3 * ChordPeer::smallest(path));
  bench.report({"peer / ours, with set-up", "times", ratio, ratio, atLeast(8.0), note});
}

void clearanceAgainstSize(Bench& bench) {
  std::vector<double> pieces;
  std::vector<double> costs;
  for (const double length_m : {50.0, 100.0, 200.0, 400.0}) {
    const Path path = spiralOf(length_m);
    const auto count = static_cast<double>(path.pieces().size());
    const std::string name = "clearance, " + std::to_string(static_cast<int>(length_m)) + " m, with set-up";
    pieces.push_back(count);
    costs.push_back(bench
                        .time({name, "ms", 0, 0, {}, std::to_string(path.pieces().size()) + " pieces"},
                              [&] { return checkerOf(path).check(kWanted_m).smallest_m; })
                        .median);
  }
  const double exponent = bench::fittedExponent(pieces, costs);
  bench.report({"growth of the cost with pieces", "power", exponent, exponent, atMost(1.3), "50 to 400 m"});
}

void otherGeometry(Bench& bench) {
  bench.time({"lay 200 m of rounded spiral", "ms", 0, 0, {}, "filleted()"},
             [] { return filleted(testing::spiralCorners(2.3, 1.53, kPitch_m, kRadius_m, 160))->length().si(); });
  const Path path = spiralOf(80.0);
  const Box box = path.bounds();
  const Region region = *regionOf(rectangle(box.lower, box.upper), {});
  bench.time({"area of the band, 80 m", "ms", 0, 0, atMost(1000.0), ""},
             [&] { return bandArea(path, metres(0.013), region).si(); });
  const Outline ell{{{0, 0}, {1.8, 0}, {1.8, 0.6}, {1.2, 0.6}, {1.2, 1.2}, {0, 1.2}}};
  const std::array<Outline, 3> keepOuts{rectangle({0.3, 0.3}, {0.4, 0.4}), rectangle({0.35, 0.35}, {0.5, 0.38}),
                                        rectangle({0.8, 0.9}, {0.9, 1.3})};
  bench.time({"L outline less three keep-outs", "ms", 0, 0, {}, ""},
             [&] { return area(*regionOf(ell, keepOuts)).si(); });
  const Region cut = *regionOf(ell, keepOuts);
  bench.time({"erosion of that by 30 mm", "ms", 0, 0, {}, ""}, [&] { return area(eroded(cut, metres(0.03))).si(); });
  bench.time({"opening of that by 100 mm", "ms", 0, 0, {}, ""}, [&] { return area(openedBy(cut, metres(0.1))).si(); });
}

const bench::Registered kGeometry("geometry", [](Bench& bench) {
  clearanceOf200m(bench);
  clearanceAgainstSize(bench);
  otherGeometry(bench);
});

}  // namespace
