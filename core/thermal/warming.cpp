// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/warming.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/materials/water.h"
#include "core/thermal/checked.h"

namespace sunspool::thermal {
namespace {

constexpr int kNodes = 24;
constexpr double kNearest = 7.0;  // e^-7: a thousandth of the way is left

double plateSpecificHeat_J_kgK(double density_kg_m3) {
  if (density_kg_m3 > 5000.0) return 450.0;
  return density_kg_m3 >= 2000.0 ? 900.0 : 1400.0;
}

}  // namespace

Result<double> storedHeat_J_K(const PanelHeat& panel, double water_K) {
  const model::Tube& tube = panel.tube;
  if (auto error = outside("heat/tube", {{"density", tube.density.si(), 1.0, 1e5},
                                         {"specific_heat", tube.specificHeat.si(), 1.0, 1e5}})) {
    return *error;
  }
  constexpr double kColdest_K = 273.15, kHottest_K = 373.15;
  const Result<materials::Water> water =
      materials::waterAt(Temperature::fromKelvin(std::clamp(water_K, kColdest_K, kHottest_K)));
  if (!water) return water.error();
  const double od_m = tube.outsideDiameter.value.si(), id_m = tube.insideDiameter.value.si();
  const double perMetre = std::numbers::pi / 4.0 *
                          ((od_m * od_m - id_m * id_m) * tube.density.si() * tube.specificHeat.si() +
                           id_m * id_m * water->density.si() * water->specificHeat.si());
  double stored = perMetre * panel.tubeInside_m;
  if (panel.box.plate) {
    const model::Sheet& sheet = panel.box.plate->sheet;
    stored += panel.area_m2 * sheet.thickness.si() * sheet.density.si() * plateSpecificHeat_J_kgK(sheet.density.si());
  }
  return stored;
}

Warming::Warming(const PanelBalance& balance, double stored_J_m2K, double start_K, double rest_K) : m_start_K(start_K) {
  const auto nodeAt = [](double absorber_K, const PanelLoss& loss) {
    return Node{0.0, absorber_K, loss.glazing_K, loss.backingFace_K, 0.0, 0.0};
  };
  m_rest = nodeAt(rest_K, balance.lossAt(rest_K));
  if (rest_K <= start_K) return;
  const double kept_W_m2 = balance.sun().onTube_W_m2 + balance.sun().onPlate_W_m2;
  for (int n = 0; n <= kNodes; ++n) {
    const double nearness = kNearest * n / kNodes;
    const double absorber_K = rest_K - (rest_K - start_K) * std::exp(-nearness);
    const PanelLoss loss = balance.lossAt(absorber_K);
    Node node = nodeAt(absorber_K, loss);
    node.nearness = nearness;
    const double surplus_W_m2 = kept_W_m2 - loss.loss_W_m2(absorber_K, balance.air_K());
    node.rate_s = stored_J_m2K * (rest_K - absorber_K) / surplus_W_m2;
    if (n > 0) {
      const Node& before = m_nodes.back();
      node.time_s = before.time_s + 0.5 * (before.rate_s + node.rate_s) * (nearness - before.nearness);
    }
    m_nodes.push_back(node);
  }
}

double Warming::layerAt(const Node& node, std::string_view part) const {
  if (part == "glazing") return node.glazing_K;
  if (part == "backing") return node.backingFace_K;
  return node.absorber_K;
}

double Warming::minutesTo(std::string_view part, double temperature_K) const {
  if (m_nodes.empty() || layerAt(m_nodes.front(), part) >= temperature_K) return 0.0;
  const auto after = std::find_if(m_nodes.begin(), m_nodes.end(),
                                  [&](const Node& node) { return layerAt(node, part) >= temperature_K; });
  const bool beyond = after == m_nodes.end();
  const Node& from = beyond ? m_nodes.back() : *(after - 1);
  const Node& to = beyond ? m_rest : *after;
  const double share = (temperature_K - layerAt(from, part)) / (layerAt(to, part) - layerAt(from, part));
  const double absorber_K = from.absorber_K + share * (to.absorber_K - from.absorber_K);
  const double nearness = -std::log((m_rest.absorber_K - absorber_K) / (m_rest.absorber_K - m_start_K));
  // The rate changes evenly from node to node; beyond the last it stays.
  const double on = nearness - from.nearness;
  const double change = beyond ? 0.0 : (to.rate_s - from.rate_s) / (to.nearness - from.nearness);
  return (from.time_s + on * (from.rate_s + 0.5 * change * on)) / 60.0;
}

}  // namespace sunspool::thermal
