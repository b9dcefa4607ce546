// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How fast a stopped panel warms, as one body of tube, standing water and plate. Described at stopped() in collector.h.

#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/thermal/collector.h"
#include "core/thermal/panel_balance.h"

namespace sunspool::thermal {

/// Heat capacity of the tube inside the box, the water in it at this temperature, and the plate [J/K].
/// OutOfRange for a tube or plate without mass.
Result<double> storedHeat_J_K(const PanelHeat& panel, double water_K);

/// The way from a start to where sun and losses balance.
class Warming {
 public:
  /// @param stored_J_m2K per inside area
  /// @param rest_K where the panel comes to rest; at or below the start nothing warms
  Warming(const PanelBalance& balance, double stored_J_m2K, double start_K, double rest_K);

  /// Until a layer is at this temperature, which must lie below the layer's own at rest; 0 when it is there already.
  double minutesTo(std::string_view part, double temperature_K) const;

 private:
  struct Node {
    double nearness = 0.0;  ///< -ln of (rest - absorber)/(rest - start): time runs nearly evenly in it
    double absorber_K = 0.0, glazing_K = 0.0, backingFace_K = 0.0;
    double time_s = 0.0;
    double rate_s = 0.0;  ///< time per nearness
  };
  double layerAt(const Node& node, std::string_view part) const;

  std::vector<Node> m_nodes;
  Node m_rest;
  double m_start_K = 0.0;
};

}  // namespace sunspool::thermal
