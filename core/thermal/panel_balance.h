// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The panel as one absorber over its inside area: what sun it keeps and what it loses at one mean temperature.
// Shared by steady() and stopped(); the model is described in collector.h.

#include "core/base/result.h"
#include "core/thermal/collector.h"
#include "core/thermal/kernels.h"

namespace sunspool::thermal {

/// Sun per inside area, and the absorber's surface.
struct AbsorbedSun {
  double falling_W_m2 = 0.0;
  double tubeShare = 0.0;     ///< c
  double contactShare = 0.0;  ///< k; 0 without a plate
  double onTube_W_m2 = 0.0, onPlate_W_m2 = 0.0;
  double tauAlpha = 0.0;
  double optical = 0.0;    ///< c + (1 - c) k
  double emittance = 0.0;  ///< long-wave, of tube and plate by area
  double surface = 1.0;    ///< area that exchanges with the front, per inside area
};

/// Losses at one absorber temperature; coefficients per inside area.
struct PanelLoss {
  double top_W_m2K = 0.0, topSurroundings_K = 0.0;
  double back_W_m2K = 0.0, edge_W_m2K = 0.0;
  double glazing_K = 0.0;  ///< inner face
  double backingFace_K = 0.0;
  bool found = true;
  double total_W_m2K() const { return top_W_m2K + back_W_m2K + edge_W_m2K; }
  double loss_W_m2(double absorber_K, double air_K) const {
    return top_W_m2K * (absorber_K - topSurroundings_K) + (back_W_m2K + edge_W_m2K) * (absorber_K - air_K);
  }
};

/// One panel under one sky, inputs checked once.
class PanelBalance {
 public:
  /// @param tubeInside_m 0 = not known (see PanelHeat::tubeInside_m). OutOfRange names the offending input.
  static Result<PanelBalance> from(const PanelHeat& panel, const Sky& sky, double tubeInside_m);

  const AbsorbedSun& sun() const { return m_sun; }
  double air_K() const { return m_air_K; }
  double radiantSurroundings_K() const { return m_radiant_K; }
  double wind_W_m2K() const { return m_wind_W_m2K; }
  PanelLoss lossAt(double absorber_K) const;

 private:
  void setBack(const PanelHeat& panel);

  AbsorbedSun m_sun;
  double m_air_K = 0.0, m_radiant_K = 0.0, m_wind_W_m2K = 0.0;
  bool m_glazed = false;
  kernel::CoverInputs m_cover;
  double m_insulation_m2K_W = 0.0, m_backing_m2K_W = 0.0;
  double m_backSurface = 1.0;
  double m_side_m2K_W = 0.0, m_sideArea = 0.0;  ///< resistance of the frame; its area per inside area
};

}  // namespace sunspool::thermal
