// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Exact distances between lines and arcs, and the clearance check of whole runs.

#include <memory>
#include <span>
#include <vector>

#include "core/geometry/path.h"

namespace sunspool::geometry {

/// Smallest distance between two pieces; exactly 0 where they touch or cross. [m]
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

/// All pieces against all. Pairs of the same path whose arc gap is below pi*exemptRadius are skipped: a curve
/// of curvature <= 1/exemptRadius cannot approach itself within that span (Schur's comparison theorem).
class ClearanceChecker {
 public:
  ClearanceChecker(std::span<const CheckedPath> paths, double exemptRadius_m);
  ~ClearanceChecker();
  ClearanceChecker(ClearanceChecker&&) noexcept;
  ClearanceChecker& operator=(ClearanceChecker&&) noexcept;
  ClearanceReport check(double wanted_m) const;
  /// One piece (of path index, not yet in the set or replacing its own) against all others.
  ClearanceReport checkOne(std::size_t path, std::size_t piece, double wanted_m) const;
  std::size_t pieceCount() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> m_impl;
};

}  // namespace sunspool::geometry
