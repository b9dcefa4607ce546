// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Paints bands along lines and arcs straight into an image, by the distance of each pixel from the centre line. All
// layers of a band (gap, edge, colour, shine) go down in one pass, neighbours meet without a seam, and no polygon
// is ever made: several times quicker than a painter's antialiased fill for hundreds of bands.

#include <QColor>
#include <QImage>
#include <QTransform>
#include <span>
#include <vector>

#include "core/geometry/path.h"

namespace sunspool::panelview {

/// One layer of a band, px from the centre line.
struct BandLayer {
  double halfWidth_px = 0.0;
  QColor colour;  ///< may be translucent
};

/// Colours of a band by distance from its centre line, made once and used for many pieces.
class BandProfile {
 public:
  /// @param layers from the lowest to the topmost
  explicit BandProfile(std::span<const BandLayer> layers);
  double reach_px() const { return m_reach_px; }  ///< nothing is painted farther out
  QRgb at(double distance_px) const { return m_colours[static_cast<std::size_t>(distance_px * kPerPixel)]; }

 private:
  static constexpr double kPerPixel = 32.0;
  double m_reach_px = 0.0;
  std::vector<QRgb> m_colours;  // premultiplied
};

/// Lays a piece (panel metres) over what is in the image (Format_ARGB32_Premultiplied). Ends are cut square.
/// @param toImage from scene units to image pixels: scale and shift only
void paintBand(QImage& image, const geometry::Piece& piece, const QTransform& toImage, const BandProfile& profile);

}  // namespace sunspool::panelview
