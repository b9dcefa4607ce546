// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A flow path made ready for many evaluations: properties looked up, laws of equal tube shared. Internal to hydraulics.

#include <vector>

#include "core/hydraulics/network.h"
#include "core/hydraulics/tube_law.h"

namespace sunspool::hydraulics {

/// Loss and its derivative on one branch.
struct LossPoint {
  double loss_Pa = 0.0;
  double slope_Pa_s_m3 = 0.0;
};

class PathKernel {
 public:
  /// OutOfRange (where: "path/...") for impossible geometry; errors of waterAt.
  static Result<PathKernel> from(const FlowPath& path);

  /// Loss on one branch. flow_m3_s >= 0 and finite.
  LossPoint at(double flow_m3_s, Branch branch) const;
  /// Loss with band, regime and Reynolds number.
  PathLoss full(double flow_m3_s) const;
  /// The same when the loss at this flow is already known.
  PathLoss full(double flow_m3_s, LossPoint best) const;
  /// True when some tube lies in the band at this flow.
  bool isOpen(double flow_m3_s) const;
  /// Loss from the beginning to the end of each stretch; fittings sit half at each end of the path, so the first entry
  /// holds the first half and the last entry both. Best values.
  std::vector<double> lossUpTo_Pa(double flow_m3_s) const;
  double fittingLoss_Pa(double flow_m3_s) const { return m_fittings_Pa_s2_m6 * flow_m3_s * flow_m3_s; }
  double firstDensity_kg_m3() const { return m_firstDensity_kg_m3; }
  double length_m() const { return m_length_m; }
  double highestReynolds(double flow_m3_s) const { return m_highestReynolds_s_m3 * flow_m3_s; }

 private:
  struct Piece {
    double reynoldsPerFlow_s_m3 = 0.0;
    double lossPerFriction_Pa_s2_m6 = 0.0;  // loss = this * f * flow^2
    double viscousLoss_Pa_s_m3 = 0.0;       // loss per flow when the flow goes to 0
    double length_m = 0.0;
    std::size_t law = 0;
  };
  std::size_t lawFor(double relativeRoughness, double curvatureRatio);

  std::vector<Piece> m_pieces;
  std::vector<TubeLaw> m_laws;
  double m_fittings_Pa_s2_m6 = 0.0;
  double m_firstDensity_kg_m3 = 0.0;
  double m_length_m = 0.0;
  double m_area_m2 = 0.0;
  double m_highestReynolds_s_m3 = 0.0;
};

}  // namespace sunspool::hydraulics
