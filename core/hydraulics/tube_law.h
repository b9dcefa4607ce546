// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The friction law of one kind of tube (roughness and curvature) over all Reynolds numbers, as the engine uses it.
//
// Straight tube: 64/Re up to Re 2000, Colebrook from 4000. Between them nobody knows: low = laminar, high = Colebrook.
// Arc: White's laminar coil law up to Ito's critical number Rc of the coil (at least 2000), Ito's turbulent coil law
// from
//   1.25 Rc (at least 4000), with roughness by the ratio of rough to smooth Colebrook; from Re (d/D)^2 = 0.034 down to
//   gentler bends the turbulent law is the straight one. An arc between straights may stay laminar as a long coil would
//   or turn turbulent with the straights, so from 2000 to 1.25 Rc the answer is a band: low and high are the lesser and
//   the greater of these two.
// Best value: the first of the two for an arc; and wherever a law passes from one branch to the other, a cubic in
//   (ln Re, ln(f Re^2)) that meets both with their slopes: continuous, differentiable, loss strictly rising with flow.
//   Assumption: the shape of the passage. Sensitivity: the band itself.
// The edges of the band open and close over a few percent of Re, so they are continuous and rising too.
// Beyond Re (d/D)^2 = 300 Ito's law goes on (about 1 % above his own next branch).

#include "core/hydraulics/friction.h"

namespace sunspool::hydraulics {

/// Which answer inside the band.
enum class Branch { Best, Low, High };

struct FrictionPoint {
  double friction = 0.0;
  double exponent = 0.0;  ///< d ln(loss)/d ln(flow), > 0: 1 in straight laminar flow, about 1.8 in turbulent flow
};

/// The last roots of Colebrook's equation for rough and smooth tube, from where the next ones are looked for. Start
/// with a fresh one for every walk along a path, so that the same path gives the same digits.
struct ColebrookMemory {
  double rough = 6.0;
  double smooth = 6.0;
};

class TubeLaw {
 public:
  /// @param relativeRoughness  e/d, 0 to 0.05
  /// @param curvatureRatio     d/D, 0 = straight
  TubeLaw(double relativeRoughness, double curvatureRatio);
  /// @param reynolds  > 0
  FrictionPoint at(double reynolds, Branch branch) const;
  FrictionPoint at(double reynolds, Branch branch, ColebrookMemory& memory) const;
  /// True where low and high differ.
  bool isOpen(double reynolds) const { return reynolds > kTransitionBegins && reynolds < m_bandEnds; }
  double bandEnds() const { return m_bandEnds; }
  double curvatureRatio() const { return m_curvatureRatio; }

 private:
  FrictionPoint laminar(double reynolds) const;
  FrictionPoint turbulent(double reynolds, ColebrookMemory& memory) const;
  FrictionPoint passage(double reynolds, double from, double to, ColebrookMemory& memory) const;
  FrictionPoint straightAt(double reynolds, Branch branch, ColebrookMemory& memory) const;
  FrictionPoint arcAt(double reynolds, Branch branch, ColebrookMemory& memory) const;

  double m_relativeRoughness;
  double m_curvatureRatio;
  double m_rootCurvature;
  double m_criticalReynolds = kTransitionBegins;
  double m_bandEnds = kTransitionEnds;
};

}  // namespace sunspool::hydraulics
