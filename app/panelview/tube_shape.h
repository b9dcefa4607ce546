// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A run made ready for painting: pieces in scene units with their boxes, cut into stretches of one colour.

#include <QPolygonF>
#include <QRectF>
#include <span>
#include <variant>
#include <vector>

#include "core/layout/layout.h"
#include "core/results/results.h"

namespace sunspool::panelview {

/// Shares of the ramp are painted in this many steps.
inline constexpr int kColourSteps = 64;

/// Colour along a run: from each station on, this step of the ramp.
struct ColourStep {
  double station_m = 0.0;
  int step = 0;
};
/// Water temperature over the ramp's scale; a single step 0 when there is no profile.
std::vector<ColourStep> colourSteps(std::span<const results::RunProfile::Point> profile, double low_K, double high_K);

/// Part of one piece in one colour.
struct Stretch {
  geometry::Piece piece;  ///< panel metres
  QRectF box;             ///< scene units, half a tube wider
  double from_m = 0.0, to_m = 0.0;
  int step = 0;
};

/// The crossing and what follows it lie over the turns, or under them.
enum class Level { Turns, Crossing };

class TubeShape {
 public:
  TubeShape() = default;
  TubeShape(const layout::LaidRun& run, double outsideDiameter_m, std::span<const ColourStep> colours);

  /// Whole pieces, for the tube's edge.
  const std::vector<Stretch>& pieces(Level level) const;
  /// The same cut by colour.
  const std::vector<Stretch>& stretches(Level level) const;
  double halfWidth() const { return m_halfWidth; }  ///< scene units
  const layout::LaidRun& run() const { return m_run; }
  bool crossesUnder() const { return m_run.crossing && m_run.crossing->level == layout::CrossingLevel::Under; }

 private:
  layout::LaidRun m_run;
  double m_halfWidth = 0.0;
  std::vector<Stretch> m_pieces[2], m_stretches[2];
};

/// Centre line as a polyline whose chords stay within 0.15 px of the arc at `pxPerUnit`.
QPolygonF centreLine(const geometry::Piece& piece, double pxPerUnit);

}  // namespace sunspool::panelview
