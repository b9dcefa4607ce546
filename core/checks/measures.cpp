// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/measures.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <numbers>

#include "core/materials/tube.h"
#include "core/materials/water.h"

namespace sunspool::checks {
namespace {

constexpr double kTimberDensity_kg_m3 = 480.0;
constexpr double kCloseIndex = 0.6, kFlattenIndex = 0.8, kCollapseIndex = 1.0;

results::Bend bendAt(const layout::LaidRun& run, int runIndex, std::size_t piece, double collapseRadius_m,
                     double outside_m) {
  const auto& arc = std::get<geometry::Arc>(run.path.pieces()[piece]);
  results::Bend bend;
  bend.run = runIndex;
  bend.from_m = run.path.stationOf(piece);
  bend.to_m = run.path.stationOf(piece + 1);
  bend.station_m = 0.5 * (bend.from_m + bend.to_m);
  bend.radius_m = arc.radius;
  bend.index = collapseRadius_m / arc.radius;
  bend.ovality = materials::ovality(bend.index);
  bend.strain = materials::bendingStrain(metres(outside_m), metres(arc.radius));
  return bend;
}

/// The tube that crosses under the turns lies close below them, in the depth they stand off.
void takeFromStandOff(std::vector<results::DepthBudget::Layer>& layers, Length rise) {
  const auto standOff =
      std::find_if(layers.begin(), layers.end(), [](const auto& layer) { return layer.part == "stand_off"; });
  if (standOff == layers.end()) return;
  standOff->thickness -= rise;
  const bool allTaken = standOff->thickness.si() <= 0.0;
  const auto above = allTaken ? layers.erase(standOff) : std::next(standOff);
  layers.insert(above, {"crossing", rise});
}

Mass sheetMass(const std::optional<model::Sheet>& sheet, Area area) {
  return sheet ? area * sheet->thickness * sheet->density : Mass{};
}

}  // namespace

Length collapseRadius(const model::Tube& tube) {
  if (tube.bendTestCollapseRadius) return tube.bendTestCollapseRadius->value;
  return materials::brazierCollapseRadius(tube.outsideDiameter.value, thinnestWall(tube), tube.poissonRatio);
}

Length thinnestWall(const model::Tube& tube) {
  return 0.5 * (tube.outsideDiameter.value - tube.insideDiameter.value) * tube.minimumWallShare.value;
}

Length handbookRadius(const model::Tube& tube) {
  const Length wall = 0.5 * (tube.outsideDiameter.value - tube.insideDiameter.value);
  const Result<double> multiple =
      materials::handbookBendMultiple(materials::dimensionRatio(tube.outsideDiameter.value, wall));
  // Thinner than the table goes: no bend of such tube is within it.
  return multiple.has_value() ? tube.outsideDiameter.value * *multiple : metres(std::numeric_limits<double>::max());
}

results::BendVerdict verdictOn(double radius_m, double collapseRadius_m, double handbookRadius_m) {
  if (radius_m >= handbookRadius_m) return results::BendVerdict::WithinHandbook;
  const double index = collapseRadius_m / radius_m;
  if (index < kCloseIndex) return results::BendVerdict::TighterThanHandbook;
  if (index < kFlattenIndex) return results::BendVerdict::Close;
  return index < kCollapseIndex ? results::BendVerdict::LikelyToFlatten : results::BendVerdict::Collapses;
}

results::Bends measureBends(const model::Document& document, const layout::LaidPanel& laid) {
  const model::Tube& tube = document.tube;
  results::Bends bends;
  bends.fromBendTest = tube.bendTestCollapseRadius.has_value();
  bends.collapseRadius = collapseRadius(tube);
  bends.handbookRadius = handbookRadius(tube);
  for (std::size_t i = 0; i < laid.runs.size(); ++i) {
    const auto pieces = laid.runs[i].path.pieces();
    for (std::size_t piece = 0; piece < pieces.size(); ++piece) {
      if (!std::holds_alternative<geometry::Arc>(pieces[piece])) continue;
      bends.all.push_back(
          bendAt(laid.runs[i], static_cast<int>(i), piece, bends.collapseRadius.si(), tube.outsideDiameter.value.si()));
    }
  }
  const auto worst = std::max_element(bends.all.begin(), bends.all.end(),
                                      [](const auto& a, const auto& b) { return a.index < b.index - 1e-12; });
  if (worst != bends.all.end()) {
    bends.worst = *worst;
    bends.verdict = verdictOn(worst->radius_m, bends.collapseRadius.si(), bends.handbookRadius.si());
  }
  return bends;
}

results::DepthBudget depthBudget(const model::Document& document, const layout::LaidPanel* laid) {
  results::DepthBudget budget;
  const auto add = [&](const char* part, Length thickness) {
    budget.layers.push_back({part, thickness});
    budget.needed += thickness;
  };
  if (document.box.backing) add("backing", document.box.backing->thickness);
  if (document.box.insulation) add("insulation", document.box.insulation->thickness);
  if (document.box.plate) add("plate", document.box.plate->sheet.thickness);
  if (document.box.standOff.si() > 0.0) add("stand_off", document.box.standOff);
  add("tube", document.tube.outsideDiameter.value);
  budget.available = document.frame.timberDepth;
  budget.spare = budget.available - budget.needed;
  budget.crossingSpare = budget.spare;
  if (laid == nullptr) return budget;
  const auto run =
      std::find_if(laid->runs.begin(), laid->runs.end(), [](const auto& r) { return r.crossing.has_value(); });
  if (run == laid->runs.end()) return budget;
  const Length rise = metres(run->crossing->rise_m);
  switch (run->crossing->level) {
    case layout::CrossingLevel::Over:
      budget.layers.push_back({"crossing", rise});
      budget.crossingSpare = budget.spare - rise;
      break;
    case layout::CrossingLevel::Under:
      takeFromStandOff(budget.layers, rise);
      break;
  }
  return budget;
}

Length outerWidth(const model::Document& document) {
  return document.frame.insideWidth + 2.0 * document.frame.timberWidth;
}
Length outerHeight(const model::Document& document) {
  return document.frame.insideHeight + 2.0 * document.frame.timberWidth;
}

results::Masses masses(const model::Document& document, const layout::LaidPanel* laid) {
  results::Masses masses;
  const model::Frame& frame = document.frame;
  const Area inside = frame.insideWidth * frame.insideHeight;
  const Area outer = outerWidth(document) * outerHeight(document);
  masses.timber = (outer - inside) * frame.timberDepth * kilogramsPerCubicMetre(kTimberDensity_kg_m3);
  if (document.box.plate) masses.plate = sheetMass(document.box.plate->sheet, inside);
  masses.insulation = sheetMass(document.box.insulation, inside);
  masses.backing = sheetMass(document.box.backing, inside);
  if (document.box.glazing) {
    const Length overlap = 2.0 * document.box.glazing->overlap;
    masses.glazing =
        sheetMass(document.box.glazing->sheet, (frame.insideWidth + overlap) * (frame.insideHeight + overlap));
  }
  if (laid != nullptr) {
    const double outside = document.tube.outsideDiameter.value.si();
    const double bore = document.tube.insideDiameter.value.si();
    const double quarterPi = std::numbers::pi / 4.0;
    masses.tube = Area::fromSi(quarterPi * (outside * outside - bore * bore)) * laid->totalCut * document.tube.density;
    const Result<materials::Water> water = materials::waterAt(document.pool.water.value);
    if (water.has_value()) masses.water = Area::fromSi(quarterPi * bore * bore) * laid->totalCut * water->density;
  }
  masses.dry = masses.tube + masses.timber + masses.plate + masses.insulation + masses.backing + masses.glazing;
  masses.wet = masses.dry + masses.water;
  masses.wet_kg_m2 = masses.wet.si() / outer.si();
  return masses;
}

}  // namespace sunspool::checks
