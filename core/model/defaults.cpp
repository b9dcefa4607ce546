// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/defaults.h"

namespace sunspool::model {
namespace {

template <class Q>
Uncertain<Q> guess(Q value, Difference<Q> spread) {
  return {value, spread, Sureness::Guess};
}
template <class Q>
Uncertain<Q> label(Q value, Difference<Q> spread) {
  return {value, spread, Sureness::Label};
}
template <class Q>
Uncertain<Q> measured(Q value, Difference<Q> spread) {
  return {value, spread, Sureness::Measured};
}

Sheet plywood() {
  Sheet sheet;
  sheet.material = "Exterior plywood";
  sheet.thickness = metres(0.012);
  sheet.conductivity = guess(wattsPerMetreKelvin(0.13), wattsPerMetreKelvin(0.02));
  sheet.density = kilogramsPerCubicMetre(550.0);
  sheet.pricePerSquareMetre = 14.5;
  return sheet;
}

Sheet foam() {
  Sheet sheet;
  sheet.material = "Extruded polystyrene board";
  sheet.thickness = metres(0.02);
  sheet.conductivity = label(wattsPerMetreKelvin(0.034), wattsPerMetreKelvin(0.002));
  sheet.density = kilogramsPerCubicMetre(33.0);
  sheet.limit = celsius(75.0);
  sheet.limitSource = "common practice for polystyrene foam, no source";
  sheet.pricePerSquareMetre = 5.2;
  return sheet;
}

Plate darkSheet() {
  Plate plate;
  plate.sheet.material = "Steel sheet, painted matt black";
  plate.sheet.thickness = metres(0.001);
  plate.sheet.conductivity = guess(wattsPerMetreKelvin(50.0), wattsPerMetreKelvin(8.0));
  plate.sheet.density = kilogramsPerCubicMetre(7850.0);
  plate.absorptance = guess(0.95, 0.03);
  plate.emittance = guess(0.90, 0.05);
  return plate;
}

Plumbing poolPumpAndHoses() {
  Plumbing plumbing;
  plumbing.pump.name = "Small submersible pump";
  plumbing.pump.labelFlow = label(litresPerMinute(25.0), litresPerMinute(1.5));
  plumbing.pump.labelHead = label(metres(2.6), metres(0.15));
  plumbing.pump.electricalPower = watts(45.0);
  Pipe pipe;
  pipe.length = metres(4.0);
  pipe.insideDiameter = metres(0.02);
  pipe.roughness = Length::fromSi(7e-6);
  plumbing.feed = pipe;
  plumbing.feed.fittings = {{FittingKind::PipeEntrance, 1, {}, {}}};
  plumbing.returning = pipe;
  plumbing.returning.fittings = {{FittingKind::PipeExit, 1, {}, {}}};
  plumbing.runFittings = {{FittingKind::BarbConnector, 2, {}, {}}};
  plumbing.returnEndsUnderWater = true;
  plumbing.highestPointAbovePool = metres(0.5);
  return plumbing;
}

Stock shopAndShed() {
  Stock stock;
  stock.rolls = {{"LDPE 20/16, 100 m roll", metres(100.0), 0, 62.0}};
  stock.timbers = {{"Timber 35 x 85, 4.2 m", metres(4.2), 0, 9.8}, {"Timber 35 x 85, 3.0 m", metres(3.0), 0, 7.2}};
  stock.kerf = metres(0.003);
  stock.squaringAllowance = metres(0.005);
  stock.fittingPrice = 1.4;
  return stock;
}

}  // namespace

Glazing twinWallPolycarbonate() {
  Glazing glazing;
  glazing.sheet.material = "Twin-wall polycarbonate";
  glazing.sheet.thickness = metres(0.01);
  // Whole sheet, air channels included: common practice, no source.
  glazing.sheet.conductivity = guess(wattsPerMetreKelvin(0.065), wattsPerMetreKelvin(0.010));
  glazing.sheet.density = kilogramsPerCubicMetre(170.0);
  glazing.sheet.limit = celsius(120.0);
  glazing.sheet.limitSource =
      "Crawford, Plastics Engineering, Table 1.8: 125 C continuous for polycarbonate; 120 C taken";
  glazing.transmittance = guess(0.74, 0.05);
  glazing.refractiveIndex = 1.59;
  glazing.emittance = guess(0.88, 0.05);
  glazing.overlap = metres(0.025);
  return glazing;
}

Tube lowDensityPolyethylene20x16() {
  Tube tube;
  tube.catalogueId = "ldpe-20-16";
  tube.name = "PE 20 mm, 20 x 16";
  tube.material = TubeMaterial::LowDensityPolyethylene;
  tube.insideDiameter = label(metres(0.016), metres(0.0002));
  tube.outsideDiameter = label(metres(0.02), metres(0.0002));
  tube.minimumWallShare = guess(0.9, 0.05);
  tube.roughness = guess(metres(7e-6), metres(5.5e-6));
  tube.conductivity = guess(wattsPerMetreKelvin(0.33), wattsPerMetreKelvin(0.05));
  tube.density = kilogramsPerCubicMetre(920.0);
  tube.specificHeat = joulesPerKilogramKelvin(2100.0);
  tube.expansion = ThermalExpansion::fromSi(1.8e-4);
  tube.poissonRatio = 0.45;
  tube.absorptance = guess(0.92, 0.03);
  tube.emittance = guess(0.92, 0.03);
  tube.limit = celsius(50.0);
  tube.limitSource =
      "Crawford, Plastics Engineering, table 1.8: highest continuous temperature of low-density polyethylene";
  tube.pressureRatingAt20C = pascals(400000.0);
  return tube;
}

Document firstPanel() {
  Document document;
  document.name = "Porto, first panel";
  document.note = "A round pool of 3.6 m by 0.9 m, one glazed panel beside it, one run of tube from one roll.";
  document.place = {"Porto", degrees(41.15), degrees(-8.61), metres(80.0), 1.0};
  document.moment = {2025, 6, 14, 13.5};
  document.conditions.air = guess(celsius(22.0), kelvins(2.0));
  document.conditions.wind = guess(metresPerSecond(2.0), metresPerSecond(1.0));
  document.conditions.relativeHumidity = guess(0.6, 0.1);
  document.conditions.linkeTurbidity = guess(3.5, 0.7);
  document.pool.volume = cubicMetres(9.16);
  document.pool.water = measured(celsius(24.0), kelvins(0.5));
  document.frame = {metres(2.34), metres(1.18), metres(0.035), metres(0.085), true};
  document.box.backing = plywood();
  document.box.insulation = foam();
  document.box.plate = darkSheet();
  document.box.standOff = metres(0.0);
  document.box.plateContactShare = guess(0.4, 0.15);
  document.box.glazing = twinWallPolycarbonate();
  document.siting = {degrees(30.0), degrees(180.0), metres(0.3)};
  document.tube = lowDensityPolyethylene20x16();
  document.laying.recipe = Recipe::RectangularSpiral;
  document.laying.pitch = metres(0.026);
  document.laying.bendRadius = metres(0.16);
  document.laying.margin = metres(0.03);
  document.laying.feedTail = metres(1.4);
  document.laying.returnTail = metres(1.4);
  document.laying.wobble = guess(0.0, 0.004);
  document.plumbing = poolPumpAndHoses();
  document.stock = shopAndShed();
  return document;
}

}  // namespace sunspool::model
