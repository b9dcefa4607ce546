// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// For every finding a design that shows it, made from the first panel by edits.

#include <vector>

#include "core/base/snag.h"
#include "core/model/defaults.h"
#include "core/model/document.h"

namespace sunspool::tests {

struct ShownSnag {
  SnagCode code{};
  model::Document document;
};

inline model::Document withEverythingPriced() {
  model::Document document = model::firstPanel();
  document.box.plate->sheet.pricePerSquareMetre = 22.0;
  document.box.glazing->sheet.pricePerSquareMetre = 28.0;
  return document;
}

inline std::vector<ShownSnag> shownSnags() {
  std::vector<ShownSnag> shown;
  const auto add = [&](SnagCode code, auto change) {
    model::Document document = withEverythingPriced();
    change(document);
    shown.push_back({code, std::move(document)});
  };
  using D = model::Document;
  add(SnagCode::BendCollapses, [](D& d) { d.laying.bendRadius = millimetres(80.0); });
  add(SnagCode::BendLikelyToFlatten, [](D& d) { d.laying.bendRadius = millimetres(100.0); });
  add(SnagCode::BendClose, [](D& d) { d.laying.bendRadius = millimetres(125.0); });
  add(SnagCode::BendStrainHigh, [](D& d) {
    d.laying.bendRadius = millimetres(120.0);
    d.tube.bendTestCollapseRadius = Uncertain<Length>{millimetres(50.0), millimetres(5.0), Sureness::Measured};
  });
  add(SnagCode::TubesTouch, [](D& d) { d.laying.pitch = millimetres(20.2); });
  add(SnagCode::TubesTooClose, [](D& d) { d.laying.pitch = millimetres(21.0); });
  add(SnagCode::CrossingTouchesGlazing, [](D& d) { d.frame.timberDepth = millimetres(65.0); });
  add(SnagCode::TubeUnsupportedDepth, [](D& d) {
    d.laying.innerEnd = model::InnerEnd::ThroughTheBack;
    d.frame.timberDepth = millimetres(50.0);
  });
  add(SnagCode::TailTooShort, [](D& d) { d.laying.returnTail = millimetres(100.0); });
  add(SnagCode::PumpNeverStarts, [](D& d) { d.siting.lowerEdgeAbovePool = metres(2.4); });
  add(SnagCode::PumpBarelyStarts, [](D& d) { d.siting.lowerEdgeAbovePool = metres(1.8); });
  // A roof: the return falls a long way under water and the column nearly breaks.
  const auto onARoof = [](D& d) {
    d.siting.lowerEdgeAbovePool = metres(8.6);
    d.plumbing.pump.labelHead.value = metres(14.0);
    d.plumbing.pump.labelFlow.value = litresPerMinute(25.0);
    d.plumbing.pump.electricalPower = watts(400.0);
  };
  add(SnagCode::NearVapourPressure, onARoof);
  add(SnagCode::HoseCollapsesWhenHot, [](D&) {});
  add(SnagCode::PressureBelowAir, [](D&) {});
  add(SnagCode::FlowInTransition, [](D& d) { d.plumbing.pump.labelFlow.value = litresPerMinute(3.0); });
  add(SnagCode::VelocityHigh, [](D& d) {
    d.laying.quarterTurns = 12;
    d.plumbing.pump.labelHead.value = metres(30.0);
    d.plumbing.pump.labelFlow.value = litresPerMinute(60.0);
    d.plumbing.pump.electricalPower = watts(900.0);
  });
  add(SnagCode::VelocityLowForAir, [](D& d) {
    d.laying.starts = 2;
    d.plumbing.pump.labelFlow.value = litresPerMinute(5.0);
  });
  add(SnagCode::RunsUnequal, [](D& d) {
    d.frame.insideHeight = metres(0.6);
    d.laying.starts = 4;
    d.laying.quarterTurns = 3;
  });
  add(SnagCode::RunsUnequal, [](D& d) {
    d.laying.starts = 4;
    d.laying.pitch = millimetres(60.0);
    d.laying.entries = model::Entries::SideBySide;
  });
  add(SnagCode::WaterBoilsWhenStopped, [](D&) {});
  add(SnagCode::FirstSlugScalds, [](D&) {});
  add(SnagCode::TubeOverLimitWhenStopped, [](D&) {});
  add(SnagCode::GlazingOverLimitWhenStopped, [](D&) {});
  add(SnagCode::PlateOverLimitWhenStopped, [](D& d) { d.box.plate->sheet.limit = celsius(120.0); });
  add(SnagCode::InsulationOverLimitWhenStopped, [](D&) {});
  add(SnagCode::BackingOverLimitWhenStopped, [](D& d) { d.box.backing->limit = celsius(45.0); });
  add(SnagCode::MaterialLimitNotKnown, [](D&) {});
  add(SnagCode::MaterialLimitNotKnown, [](D& d) { d.box.plate->sheet.limit = celsius(200.0); });
  add(SnagCode::MaterialLimitNotKnown, [](D& d) { d.box.plate->sheet.material = "found at a yard"; });
  add(SnagCode::TubeShort, [](D& d) { d.stock.rolls.clear(); });
  add(SnagCode::RunNeedsJoin, [](D& d) { d.stock.rolls.front().length = metres(75.0); });
  add(SnagCode::TimberShort, [](D& d) { d.stock.timbers = {{"Timber 35 x 85, 2.4 m", metres(2.4), 0, 6.0}}; });
  add(SnagCode::TimberShort, [](D& d) { d.stock.timbers.clear(); });
  add(SnagCode::NoSquaringAllowance, [](D& d) {
    d.stock.timbers = {{"Timber 35 x 85, 2.415 m", metres(2.415), 0, 6.0}};
  });
  add(SnagCode::SheetShort, [](D& d) {
    d.stock.sheets = {{"Offcut", model::SheetUse::Plate, metres(0.06), metres(0.08), 1, 10.0}};
  });
  add(SnagCode::RollEndsInTurn, [](D& d) {
    d.stock.joinsAllowed = true;
    d.stock.rolls.front().length = metres(50.0);
  });
  add(SnagCode::WindLiftsPanel, [](D& d) {
    d.siting.gust = Uncertain<Velocity>{metresPerSecond(33.0), metresPerSecond(3.0), Sureness::Guess};
  });
  add(SnagCode::GustNotEntered, [](D&) {});
  add(SnagCode::PriceNotKnown, [](D& d) { d.stock.rolls.front().price.reset(); });
  return shown;
}

}  // namespace sunspool::tests
