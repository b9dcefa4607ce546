// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/materials/water.h"
#include "core/thermal/checked.h"
#include "core/thermal/collector.h"
#include "core/thermal/panel_balance.h"
#include "core/thermal/root.h"
#include "core/thermal/warming.h"

namespace sunspool::thermal {
namespace {

constexpr double kWidth_K = 1e-10;

/// Temperatures of all parts in one state.
struct LayerState {
  double tube_K = 0.0, plate_K = 0.0, absorber_K = 0.0;
  PanelLoss loss;  ///< at absorber_K
};

Error tooHot() {
  return {ErrorCode::OutOfRange, "stopped", "absorber", {{"highest", kernel::kHottestAir_K, Dimension::Temperature}}};
}

/// The whole absorber where sun and losses balance.
Result<LayerState> dryState(const PanelBalance& balance) {
  const AbsorbedSun& sun = balance.sun();
  const double kept_W_m2 = sun.onTube_W_m2 + sun.onPlate_W_m2;
  const auto surplus = [&](double absorber_K) {
    return kept_W_m2 - balance.lossAt(absorber_K).loss_W_m2(absorber_K, balance.air_K());
  };
  // A degree below all surroundings there is a surplus even without sun.
  const double coldest_K = std::min(balance.air_K(), balance.radiantSurroundings_K()) - 1.0;
  if (surplus(kernel::kHottestAir_K) > 0.0) return tooHot();
  const Root root = findRoot(surplus, coldest_K, kernel::kHottestAir_K, kWidth_K);
  if (!root.found) return Error{ErrorCode::NotConverged, "stopped", {}, {}};
  return LayerState{root.x, root.x, root.x, balance.lossAt(root.x)};
}

/// Boiling water holds the tube; the plate lies between its own stagnation and the tube, coupled by the contact share.
Result<LayerState> boilingState(const PanelBalance& balance, const LayerState& dry, double boiling_K) {
  const AbsorbedSun& sun = balance.sun();
  const double kept_W_m2 = sun.onTube_W_m2 + sun.onPlate_W_m2;
  const double k = sun.contactShare;
  double plate_K = boiling_K;
  if (k < 1.0 && dry.plate_K > boiling_K + kWidth_K) {
    const auto surplus = [&](double t_K) {
      const PanelLoss loss = balance.lossAt(t_K);
      const double coupling_W_m2K = loss.total_W_m2K() * k / (1.0 - k);
      return kept_W_m2 - loss.loss_W_m2(t_K, balance.air_K()) - coupling_W_m2K * (t_K - boiling_K);
    };
    // Without coupling the root is the dry plate itself: the bracket ends a little beyond it.
    const Root root = findRoot(surplus, boiling_K, dry.plate_K + 1e-6, kWidth_K);
    if (!root.found) return Error{ErrorCode::NotConverged, "stopped", {}, {}};
    plate_K = std::min(root.x, dry.plate_K);
  }
  LayerState state;
  state.tube_K = boiling_K;
  state.plate_K = plate_K;
  state.absorber_K = sun.tubeShare * boiling_K + (1.0 - sun.tubeShare) * plate_K;
  state.loss = balance.lossAt(state.absorber_K);
  return state;
}

std::optional<double> limit_K(const model::Sheet& sheet) {
  if (!sheet.limit) return std::nullopt;
  return sheet.limit->inKelvin();
}

StoppedLayer layer(const char* part, double dry_K, double wet_K, const model::Sheet& sheet) {
  return {part, dry_K, wet_K, limit_K(sheet), sheet.limitSource};
}

std::vector<StoppedLayer> layersOf(const PanelHeat& panel, const LayerState& dry, const LayerState& wet) {
  const model::Box& box = panel.box;
  std::vector<StoppedLayer> layers;
  if (box.glazing) layers.push_back(layer("glazing", dry.loss.glazing_K, wet.loss.glazing_K, box.glazing->sheet));
  layers.push_back({"tube", dry.tube_K, wet.tube_K, panel.tube.limit.inKelvin(), panel.tube.limitSource});
  if (box.plate) layers.push_back(layer("plate", dry.plate_K, wet.plate_K, box.plate->sheet));
  // The hot face of what lies behind touches the plate, or sees the tube, and is taken as warm as the warmer of them.
  const double dryHot_K = std::max(dry.plate_K, dry.tube_K), wetHot_K = std::max(wet.plate_K, wet.tube_K);
  if (box.insulation) layers.push_back(layer("insulation", dryHot_K, wetHot_K, *box.insulation));
  if (box.backing) {
    layers.push_back(layer("backing", dry.loss.backingFace_K, wet.loss.backingFace_K, *box.backing));
  }
  return layers;
}

}  // namespace

Result<StoppedHeat> stopped(const PanelHeat& panel, const Sky& sky, double waterColumn_Pa) {
  if (auto error = outside("stopped", {{"water_column", waterColumn_Pa, 0.0, 1e7, Dimension::Pressure}})) return *error;
  const Result<PanelBalance> balance = PanelBalance::from(panel, sky, panel.tubeInside_m);
  if (!balance) return balance.error();
  const Result<Temperature> boiling = materials::boilingTemperature(pascals(sky.airPressure_Pa + waterColumn_Pa));
  if (!boiling) return boiling.error();
  const Result<LayerState> dry = dryState(*balance);
  if (!dry) return dry.error();

  StoppedHeat heat;
  heat.boiling_K = boiling->inKelvin();
  heat.waterBoils = dry->tube_K >= heat.boiling_K;
  heat.lossCoefficient_W_m2K = dry->loss.total_W_m2K();
  const Result<LayerState> wet = heat.waterBoils ? boilingState(*balance, *dry, heat.boiling_K) : dry;
  if (!wet) return wet.error();
  heat.layers = layersOf(panel, *dry, *wet);
  for (const StoppedLayer& part : heat.layers) {
    if (!std::isfinite(part.dry_K + part.wet_K)) return Error{ErrorCode::NotFinite, "stopped", part.part, {}};
  }
  return heat;
}

Result<StoppedHeat> stopped(const PanelHeat& panel, const Sky& sky, double waterColumn_Pa, double start_K) {
  Result<StoppedHeat> heat = stopped(panel, sky, waterColumn_Pa);
  if (!heat) return heat;
  if (auto error = outside("stopped", {{"start", start_K, 200.0, kernel::kHottestAir_K, Dimension::Temperature},
                                       {"tube_inside", panel.tubeInside_m, 1e-6, 1e7, Dimension::Length}})) {
    return *error;
  }
  const Result<PanelBalance> balance = PanelBalance::from(panel, sky, panel.tubeInside_m);
  if (!balance) return balance.error();
  const Result<double> stored_J_K = storedHeat_J_K(panel, start_K);
  if (!stored_J_K) return stored_J_K.error();
  const Result<LayerState> dry = dryState(*balance);
  if (!dry) return dry.error();
  const Warming warming(*balance, *stored_J_K / panel.area_m2, start_K, dry->absorber_K);
  for (StoppedLayer& part : heat->layers) {
    if (part.limit_K && part.wet_K > *part.limit_K) part.minutesToLimit = warming.minutesTo(part.part, *part.limit_K);
  }
  return heat;
}

}  // namespace sunspool::thermal
