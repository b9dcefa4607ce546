// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Exact distances between lines and arcs, and the clearance check of whole runs.

#include <memory>
#include <span>
#include <vector>

#include "core/geometry/path.h"

namespace sunspool::geometry {

/// Smallest distance between two pieces; exactly 0 where they touch (nearer than 1e-12 m) or cross. [m]
/// Closed forms: end points, feet of perpendiculars, points on the line of centres, crossings. Accuracy about
/// 1e-15 m for coordinates of some metres.
struct PieceDistance {
  double distance_m = 0.0;
  double onFirst_m = 0.0;   ///< arc length on the first piece
  double onSecond_m = 0.0;  ///< arc length on the second piece
};
PieceDistance distanceBetween(const Piece& a, const Piece& b);

/// A stretch of one path that takes part in a check. Stretches at different levels never meet.
struct CheckedPath {
  const Path* path = nullptr;
  double from_m = 0.0;
  double to_m = 0.0;
};
/// Two places closer than asked.
struct ClosePlace {
  std::size_t firstPath = 0;
  std::size_t secondPath = 0;
  double firstStation_m = 0.0;
  double secondStation_m = 0.0;
  double distance_m = 0.0;
};
struct ClearanceReport {
  double smallest_m = 0.0;  ///< infinity when nothing was compared
  ClosePlace smallestPlace;
  std::vector<ClosePlace> closer;  ///< all pairs of pieces closer than wanted, nearest first, at most 200
};

/// All pieces against all, exactly; stretches are copied, so the paths need not outlive the call.
///
/// Exempt span: two places of the same path with less than 0.9 pi R of tube between them are not compared,
/// R = exemptRadius. A curve of curvature <= 1/R keeps at least the chord 2 R sin(s / 2R) over s < pi R of tube
/// (Schur's comparison theorem), so such places cannot touch; with the bend check the test is complete. Every
/// local minimum of the distance with more tube between is looked at, also where the pieces themselves are nearer
/// along the path than that (two long legs behind a turn of more than 90 degrees). Distances of one path from
/// 1.97 R upwards may be left out: ask for `wanted` below that. Stretches of the same Path object count as one path;
/// with exemptRadius 0 every joint counts as a contact.
/// Cost: grows as n log n with the number of pieces; building included.
class ClearanceChecker {
 public:
  ClearanceChecker(std::span<const CheckedPath> paths, double exemptRadius_m);
  ~ClearanceChecker();
  ClearanceChecker(ClearanceChecker&&) noexcept;
  ClearanceChecker& operator=(ClearanceChecker&&) noexcept;
  /// Closer than wanted by less than 1e-9 m is not reported as closer.
  ClearanceReport check(double wanted_m) const;
  /// One piece, named by the index of its stretch and its index on the path, against all others. Nothing is
  /// compared when no part of it lies in the stretch.
  ClearanceReport checkOne(std::size_t path, std::size_t piece, double wanted_m) const;
  /// The same for another piece in its place: what a drag asks before the set is built anew.
  ClearanceReport checkInstead(std::size_t path, std::size_t piece, const Piece& instead, double wanted_m) const;
  std::size_t pieceCount() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> m_impl;
};

}  // namespace sunspool::geometry
