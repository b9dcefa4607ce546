// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/materials/water.h"
#include "core/thermal/checked.h"
#include "core/thermal/collector.h"
#include "core/thermal/panel_balance.h"

namespace sunspool::thermal {
namespace {

constexpr double kLongestCell_m = 0.25;
constexpr double kFreezing_K = 273.15;
constexpr double kHottestTable_K = 423.15;  // of materials::waterAt
constexpr int kMostIterations = 60;
constexpr double kRelativeTolerance = 1e-9;

materials::Water water(double temperature_K) {
  // Only trial profiles reach the ends of the table; a result out there is refused in checkedLiquid().
  return *materials::waterAt(Temperature::fromKelvin(std::clamp(temperature_K, kFreezing_K, kHottestTable_K)));
}

/// Resistance from the tube's outside to the water per length, at nodes 1 K apart that are reckoned when first asked
/// for: the film changes by a few per cent per kelvin at most, so straight lines between them are good to 1e-4 of it.
class TubeResistance {
 public:
  TubeResistance(const model::Tube& tube, double massFlow_kg_s, double bendRadius_m)
      : m_inside_m(tube.insideDiameter.value.si()),
        m_massFlow_kg_s(massFlow_kg_s),
        m_diameterRatio(bendRadius_m > 0.0 ? m_inside_m / (2.0 * bendRadius_m) : 0.0),
        m_wall_mK_W(std::log(tube.outsideDiameter.value.si() / m_inside_m) /
                    (2.0 * std::numbers::pi * tube.conductivity.value.si())),
        m_nodes_mK_W(static_cast<std::size_t>(kHottestTable_K - kFreezing_K) + 1, 0.0) {}

  double at_mK_W(double water_K) {
    const double place = std::clamp(water_K, kFreezing_K, kHottestTable_K) - kFreezing_K;
    const auto below = std::min(static_cast<std::size_t>(place), m_nodes_mK_W.size() - 2);
    const double share = place - static_cast<double>(below);
    return (1.0 - share) * node(below) + share * node(below + 1);
  }

 private:
  double node(std::size_t index) {
    double& value = m_nodes_mK_W[index];
    if (value == 0.0) {
      const materials::Water w = water(kFreezing_K + static_cast<double>(index));
      const double reynolds = 4.0 * m_massFlow_kg_s / (std::numbers::pi * m_inside_m * w.viscosity.si());
      const double nusselt = kernel::filmNusselt(reynolds, w.prandtl, m_diameterRatio);
      value = m_wall_mK_W + 1.0 / (std::numbers::pi * nusselt * w.conductivity.si());  // pi d h = pi Nu k
    }
    return value;
  }

  double m_inside_m, m_massFlow_kg_s, m_diameterRatio, m_wall_mK_W;
  std::vector<double> m_nodes_mK_W;
};

/// A stretch cut into equal cells.
struct CutStretch {
  std::size_t cells = 0;
  double cell_m = 0.0;
  std::size_t resistance = 0;  ///< index into MarchedRun::resistances
  bool insideBox = true;
};

struct MarchedRun {
  std::vector<CutStretch> stretches;
  std::vector<TubeResistance> resistances;
  double massFlow_kg_s = 0.0;
};

/// Heat exchange of one metre of tube: q = F' [sun - loss (T - surroundings)].
struct PerMetre {
  double sun_W_m = 0.0;
  double loss_W_mK = 0.0;
  double surroundings_K = 0.0;
};

/// What the march through all runs sums up inside the box.
struct MarchSums {
  double gainedInside_W = 0.0, gainedTails_W = 0.0;
  double absorber_Km = 0.0;  ///< temperature x length
  double factor_m = 0.0;     ///< F' x length
  double hottest_K = 0.0;    ///< absorber
  double moved_K = 0.0;      ///< largest change of an outlet since the pass before
};

struct CellResult {
  double outlet_K = 0.0, gained_W = 0.0, absorber_K = 0.0, factor = 1.0;
};

/// Exact for constant coefficients: T runs exponentially to where gain and loss meet.
CellResult marchCell(const PerMetre& per, double resistance_mK_W, double length_m, double inlet_K,
                     double capacityFlow_W_K) {
  CellResult cell;
  cell.factor = 1.0 / (1.0 + per.loss_W_mK * resistance_mK_W);
  const double transferUnits = cell.factor * per.loss_W_mK * length_m / capacityFlow_W_K;
  const double meanShare = transferUnits > 1e-9 ? -std::expm1(-transferUnits) / transferUnits : 1.0;
  const double atInlet_W_m = cell.factor * (per.sun_W_m - per.loss_W_mK * (inlet_K - per.surroundings_K));
  const double mean_W_m = atInlet_W_m * meanShare;
  cell.gained_W = mean_W_m * length_m;
  cell.outlet_K = inlet_K + cell.gained_W / capacityFlow_W_K;
  // The mean flux also fixes the mean absorber temperature: sun - loss = flux, per metre.
  cell.absorber_K = per.loss_W_mK > 0.0 ? per.surroundings_K + (per.sun_W_m - mean_W_m) / per.loss_W_mK
                                        : inlet_K + mean_W_m * resistance_mK_W;
  return cell;
}

class Marcher {
 public:
  Marcher(const PanelHeat& panel, const PanelBalance& balance, std::span<const HeatRun> runs, double inlet_K)
      : m_panel(panel), m_balance(balance), m_inlet_K(inlet_K) {
    for (const HeatRun& run : runs) m_runs.push_back(cut(run));
  }

  double insideLength_m() const { return m_inside_m; }

  /// Marches every run under this loss; results keep their shape from pass to pass.
  MarchSums march(const PanelLoss& loss, std::vector<RunHeat>& results) {
    MarchSums sums;
    const PerMetre inside = perMetreInside(loss);
    for (std::size_t n = 0; n < m_runs.size(); ++n) marchRun(m_runs[n], inside, results[n], sums);
    return sums;
  }

  std::vector<RunHeat> emptyResults() const {
    std::vector<RunHeat> results(m_runs.size());
    for (std::size_t n = 0; n < m_runs.size(); ++n) {
      std::size_t points = 1;
      for (const CutStretch& stretch : m_runs[n].stretches) points += stretch.cells;
      results[n].profile.resize(points);
      results[n].outlet_K = m_inlet_K;
      results[n].massFlow_kg_s = m_runs[n].massFlow_kg_s;
    }
    return results;
  }

 private:
  MarchedRun cut(const HeatRun& run) {
    MarchedRun marched;
    marched.massFlow_kg_s = run.flow_m3_s * water(m_inlet_K).density.si();
    std::vector<double> radii_m;
    for (const HeatStretch& stretch : run.stretches) {
      if (stretch.length_m <= 0.0) continue;
      const auto known = std::find(radii_m.begin(), radii_m.end(), stretch.bendRadius_m);
      const auto index = static_cast<std::size_t>(known - radii_m.begin());
      if (known == radii_m.end()) {
        radii_m.push_back(stretch.bendRadius_m);
        marched.resistances.emplace_back(m_panel.tube, marched.massFlow_kg_s, stretch.bendRadius_m);
      }
      // The tolerance keeps 0.75 m, summed up from pieces, at three cells.
      const double cells = std::max(1.0, std::ceil(stretch.length_m / kLongestCell_m - 1e-9));
      marched.stretches.push_back(
          {static_cast<std::size_t>(cells), stretch.length_m / cells, index, stretch.insideBox});
      if (stretch.insideBox) m_inside_m += stretch.length_m;
    }
    return marched;
  }

  PerMetre perMetreInside(const PanelLoss& loss) const {
    if (m_inside_m <= 0.0) return {};
    const double width_m = m_panel.area_m2 / m_inside_m;
    const AbsorbedSun& sun = m_balance.sun();
    PerMetre per;
    per.sun_W_m = (sun.onTube_W_m2 + sun.contactShare * sun.onPlate_W_m2) * width_m;
    per.loss_W_mK = loss.total_W_m2K() * width_m;
    per.surroundings_K =
        (loss.top_W_m2K * loss.topSurroundings_K + (loss.back_W_m2K + loss.edge_W_m2K) * m_balance.air_K()) /
        loss.total_W_m2K();
    return per;
  }

  /// Bare tube in sun and wind: sun on its outside diameter, loss from its circumference.
  PerMetre perMetreOutside(double water_K) const {
    const model::Tube& tube = m_panel.tube;
    const double od_m = tube.outsideDiameter.value.si();
    const double wind_W_m2K = m_balance.wind_W_m2K();
    const double radiant_K = m_balance.radiantSurroundings_K();
    const double radiation_W_m2K = kernel::radiationCoefficient_W_m2K(water_K, radiant_K, tube.emittance.value);
    PerMetre per;
    per.sun_W_m = tube.absorptance.value * m_balance.sun().falling_W_m2 * od_m;
    per.loss_W_mK = std::numbers::pi * od_m * (wind_W_m2K + radiation_W_m2K);
    per.surroundings_K =
        (wind_W_m2K * m_balance.air_K() + radiation_W_m2K * radiant_K) / (wind_W_m2K + radiation_W_m2K);
    return per;
  }

  void marchRun(MarchedRun& run, const PerMetre& inside, RunHeat& result, MarchSums& sums) const {
    result.specificHeat_J_kgK = water(0.5 * (m_inlet_K + result.outlet_K)).specificHeat.si();
    const double capacityFlow_W_K = run.massFlow_kg_s * result.specificHeat_J_kgK;
    TemperaturePoint at{0.0, m_inlet_K, 0.0};
    std::size_t point = 0;
    result.profile[point] = at;
    double lastRise_K = 0.0;
    for (const CutStretch& stretch : run.stretches) {
      TubeResistance& resistance = run.resistances[stretch.resistance];
      const double from_m = at.station_m;
      for (std::size_t n = 1; n <= stretch.cells; ++n) {
        // Half the last cell's rise ahead stands for the middle of this one.
        const double middle_K = at.water_K + 0.5 * lastRise_K;
        const PerMetre per = stretch.insideBox ? inside : perMetreOutside(middle_K);
        const CellResult cell =
            marchCell(per, resistance.at_mK_W(middle_K), stretch.cell_m, at.water_K, capacityFlow_W_K);
        lastRise_K = cell.outlet_K - at.water_K;
        at.station_m = from_m + stretch.cell_m * static_cast<double>(n);
        at.gained_W += cell.gained_W;
        // From the sum, so that gain and rise agree to the last digits over hundreds of cells.
        at.water_K = m_inlet_K + at.gained_W / capacityFlow_W_K;
        result.profile[++point] = at;
        (stretch.insideBox ? sums.gainedInside_W : sums.gainedTails_W) += cell.gained_W;
        if (!stretch.insideBox) continue;
        sums.absorber_Km += cell.absorber_K * stretch.cell_m;
        sums.factor_m += cell.factor * stretch.cell_m;
        sums.hottest_K = std::max(sums.hottest_K, cell.absorber_K);
      }
    }
    sums.moved_K = std::max(sums.moved_K, std::abs(at.water_K - result.outlet_K));
    result.outlet_K = at.water_K;
    result.gained_W = at.gained_W;
  }

  const PanelHeat& m_panel;
  const PanelBalance& m_balance;
  double m_inlet_K;
  double m_inside_m = 0.0;
  std::vector<MarchedRun> m_runs;
};

std::optional<Error> checkedRuns(const PanelHeat& panel, std::span<const HeatRun> runs) {
  if (runs.empty()) return Error{ErrorCode::NoFlow, "heat/runs", {}, {}};
  const double inside_m = panel.tube.insideDiameter.value.si();
  for (std::size_t n = 0; n < runs.size(); ++n) {
    const std::string where = "heat/runs/" + std::to_string(n);
    const double flow_m3_s = runs[n].flow_m3_s;
    if (!(flow_m3_s > 0.0)) {
      return Error{ErrorCode::NoFlow, where, {}, {{"flow", flow_m3_s, Dimension::VolumeFlow}}};
    }
    // Slower than a drop an hour or faster than any pump is a slip of a unit; the correlations end there too.
    if (auto error = outside(where, {{"flow", flow_m3_s, 1e-11, 10.0, Dimension::VolumeFlow}})) return error;
    for (const HeatStretch& stretch : runs[n].stretches) {
      if (auto error = outside(where, {{"length", stretch.length_m, 0.0, 1e6, Dimension::Length},
                                       {"bend_radius", stretch.bendRadius_m, 0.0, 1e6, Dimension::Length}})) {
        return error;
      }
      if (stretch.bendRadius_m <= 0.0) continue;
      if (auto error = outside(where, {{"bend_radius", stretch.bendRadius_m, inside_m, 1e6, Dimension::Length}})) {
        return error;
      }
    }
  }
  return std::nullopt;
}

double insideLength_m(std::span<const HeatRun> runs) {
  double sum_m = 0.0;
  for (const HeatRun& run : runs) {
    for (const HeatStretch& stretch : run.stretches) sum_m += stretch.insideBox ? stretch.length_m : 0.0;
  }
  return sum_m;
}

/// Water between freezing and boiling all along, and everything a number.
std::optional<Error> checkedLiquid(const SteadyHeat& heat, std::span<const HeatRun> runs, double boiling_K) {
  for (std::size_t n = 0; n < heat.runs.size(); ++n) {
    for (const TemperaturePoint& point : heat.runs[n].profile) {
      if (point.water_K >= kFreezing_K && point.water_K <= boiling_K) continue;
      const std::string where = "heat/runs/" + std::to_string(n);
      if (!std::isfinite(point.water_K)) return Error{ErrorCode::NotFinite, where, {}, {}};
      return Error{ErrorCode::OutOfRange,
                   where,
                   point.water_K > boiling_K ? "water_boils" : "water_freezes",
                   {{"value", point.water_K, Dimension::Temperature},
                    {"lowest", kFreezing_K, Dimension::Temperature},
                    {"highest", boiling_K, Dimension::Temperature},
                    {"flow", runs[n].flow_m3_s, Dimension::VolumeFlow}}};
    }
  }
  const double sum = heat.toWater_W + heat.shares.top_W + heat.shares.back_W + heat.shares.edge_W + heat.residual_W +
                     heat.meanAbsorber_K + heat.efficiencyFactor;
  if (!std::isfinite(sum)) return Error{ErrorCode::NotFinite, "heat", {}, {}};
  return std::nullopt;
}

void setShares(SteadyHeat& heat, const PanelHeat& panel, const PanelBalance& balance, const PanelLoss& loss,
               double gainedInside_W) {
  const AbsorbedSun& sun = balance.sun();
  const double area_m2 = panel.area_m2, warmer_K = heat.meanAbsorber_K - balance.air_K();
  const double lostAtOnce_W = (1.0 - sun.contactShare) * sun.onPlate_W_m2 * area_m2;
  const double perCoefficient = lostAtOnce_W / loss.total_W_m2K();
  heat.shares.falling_W = sun.falling_W_m2 * area_m2;
  heat.shares.reflected_W = (sun.falling_W_m2 - sun.onTube_W_m2 - sun.onPlate_W_m2) * area_m2;
  heat.shares.toWater_W = gainedInside_W;
  heat.shares.top_W = loss.top_W_m2K * (area_m2 * (heat.meanAbsorber_K - loss.topSurroundings_K) + perCoefficient);
  heat.shares.back_W = loss.back_W_m2K * (area_m2 * warmer_K + perCoefficient);
  heat.shares.edge_W = loss.edge_W_m2K * (area_m2 * warmer_K + perCoefficient);
}

void setSummary(SteadyHeat& heat, const PanelHeat& panel, const PanelBalance& balance, const PanelLoss& loss,
                const MarchSums& sums) {
  const AbsorbedSun& sun = balance.sun();
  for (const RunHeat& run : heat.runs) heat.toWater_W += run.gained_W;
  heat.tails_W = sums.gainedTails_W;
  const double falling_W = sun.falling_W_m2 * panel.area_m2;
  heat.efficiencyInside = falling_W > 0.0 ? heat.toWater_W / falling_W : 0.0;
  heat.efficiencyGross =
      falling_W > 0.0 && panel.grossArea_m2 > 0.0 ? heat.toWater_W / (sun.falling_W_m2 * panel.grossArea_m2) : 0.0;
  heat.tauAlpha = sun.tauAlpha;
  heat.topLoss_W_m2K = loss.top_W_m2K;
  heat.topSurroundings_K = loss.topSurroundings_K;
  heat.backLoss_W_m2K = loss.back_W_m2K;
  heat.edgeLoss_W_m2K = loss.edge_W_m2K;
  heat.efficiencyFactor = sums.factor_m / heat.tubeInside_m;
  heat.hottestAbsorber_K = sums.hottest_K;
  heat.opticalShare = sun.optical;
  heat.tubeShare = sun.tubeShare;
  heat.glazing_K = loss.glazing_K;
  setShares(heat, panel, balance, loss, sums.gainedInside_W);
  // The march used `loss`; what the absorber really loses at the temperature it came out at is reckoned afresh.
  const PanelLoss afresh = balance.lossAt(heat.meanAbsorber_K);
  const double kept_W = (sun.onTube_W_m2 + sun.contactShare * sun.onPlate_W_m2) * panel.area_m2;
  heat.residual_W =
      std::abs(kept_W - sums.gainedInside_W - afresh.loss_W_m2(heat.meanAbsorber_K, balance.air_K()) * panel.area_m2);
}

}  // namespace

Result<SteadyHeat> steady(const PanelHeat& panel, const Sky& sky, std::span<const HeatRun> runs, double inlet_K) {
  if (auto error = checkedRuns(panel, runs)) return *error;
  const double tubeInside_m = insideLength_m(runs);
  if (auto error = outside("heat/runs", {{"tube_inside", tubeInside_m, 1e-6, 1e7, Dimension::Length}})) return *error;
  const Result<PanelBalance> balance = PanelBalance::from(panel, sky, tubeInside_m);
  if (!balance) return balance.error();
  const Result<Temperature> boiling = materials::boilingTemperature(pascals(sky.airPressure_Pa));
  if (!boiling) return boiling.error();
  if (auto error = outside("heat", {{"inlet", inlet_K, kFreezing_K, boiling->inKelvin(), Dimension::Temperature}})) {
    return *error;
  }

  Marcher marcher(panel, *balance, runs, inlet_K);
  SteadyHeat heat;
  heat.tubeInside_m = tubeInside_m;
  heat.runs = marcher.emptyResults();
  // Mean absorber temperature x fixes the loss, the march under that loss returns g(x); x = g(x) by secant steps.
  double x_K = inlet_K, lastX_K = 0.0, lastSurplus_K = 0.0, surplus_K = 0.0;
  for (heat.iterations = 1; heat.iterations <= kMostIterations; ++heat.iterations) {
    const PanelLoss loss = balance->lossAt(x_K);
    if (!loss.found) return Error{ErrorCode::NotConverged, "heat/loss", {}, {}};
    const MarchSums sums = marcher.march(loss, heat.runs);
    heat.meanAbsorber_K = sums.absorber_Km / tubeInside_m;
    surplus_K = heat.meanAbsorber_K - x_K;
    const double scale_K = std::max(1.0, std::abs(x_K - sky.air_K));
    if (std::abs(surplus_K) <= kRelativeTolerance * scale_K && sums.moved_K <= 1e-6) {
      setSummary(heat, panel, *balance, loss, sums);
      if (auto error = checkedLiquid(heat, runs, boiling->inKelvin())) return *error;
      return heat;
    }
    if (!std::isfinite(surplus_K)) return Error{ErrorCode::NotFinite, "heat", {}, {}};
    const double slope = heat.iterations > 1 ? (surplus_K - lastSurplus_K) / (x_K - lastX_K) : -1.0;
    lastX_K = x_K;
    lastSurplus_K = surplus_K;
    // The surplus falls with x, by 1 and a little more per kelvin; anything else is rounding near the root.
    x_K -= surplus_K / (slope < -0.5 && slope > -20.0 ? slope : -1.0);
  }
  return Error{
      ErrorCode::NotConverged, "heat", {}, {{"residual", std::abs(surplus_K), Dimension::TemperatureDifference}}};
}

}  // namespace sunspool::thermal
