// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/snag_keys.h"

namespace sunspool::checks {

std::string_view codeKey(SnagCode code) {
  switch (code) {
    case SnagCode::BendClose:
      return "bend_close";
    case SnagCode::BendLikelyToFlatten:
      return "bend_likely_to_flatten";
    case SnagCode::BendCollapses:
      return "bend_collapses";
    case SnagCode::BendStrainHigh:
      return "bend_strain_high";
    case SnagCode::TubesTooClose:
      return "tubes_too_close";
    case SnagCode::TubesTouch:
      return "tubes_touch";
    case SnagCode::CrossingTouchesGlazing:
      return "crossing_touches_glazing";
    case SnagCode::TubeUnsupportedDepth:
      return "tube_higher_than_frame";
    case SnagCode::TailTooShort:
      return "tail_too_short";
    case SnagCode::PumpNeverStarts:
      return "pump_never_starts";
    case SnagCode::PumpBarelyStarts:
      return "pump_barely_starts";
    case SnagCode::PressureBelowAir:
      return "pressure_below_air";
    case SnagCode::NearVapourPressure:
      return "near_vapour_pressure";
    case SnagCode::HoseCollapsesWhenHot:
      return "tube_collapses_when_hot";
    case SnagCode::FlowInTransition:
      return "flow_in_transition";
    case SnagCode::VelocityHigh:
      return "velocity_high";
    case SnagCode::VelocityLowForAir:
      return "velocity_low_for_air";
    case SnagCode::RunsUnequal:
      return "runs_unequal";
    case SnagCode::TubeOverLimitWhenStopped:
      return "tube_over_limit_when_stopped";
    case SnagCode::GlazingOverLimitWhenStopped:
      return "glazing_over_limit_when_stopped";
    case SnagCode::PlateOverLimitWhenStopped:
      return "plate_over_limit_when_stopped";
    case SnagCode::InsulationOverLimitWhenStopped:
      return "insulation_over_limit_when_stopped";
    case SnagCode::BackingOverLimitWhenStopped:
      return "backing_over_limit_when_stopped";
    case SnagCode::MaterialLimitNotKnown:
      return "material_limit_not_known";
    case SnagCode::WaterBoilsWhenStopped:
      return "water_boils_when_stopped";
    case SnagCode::FirstSlugScalds:
      return "first_slug_scalds";
    case SnagCode::RunNeedsJoin:
      return "run_needs_join";
    case SnagCode::TubeShort:
      return "tube_short";
    case SnagCode::TimberShort:
      return "timber_short";
    case SnagCode::NoSquaringAllowance:
      return "no_squaring_allowance";
    case SnagCode::SheetShort:
      return "sheet_short";
    case SnagCode::RollEndsInTurn:
      return "roll_ends_in_turn";
    case SnagCode::WindLiftsPanel:
      return "wind_lifts_panel";
    case SnagCode::GustNotEntered:
      return "gust_not_entered";
    case SnagCode::PriceNotKnown:
      return "price_not_known";
  }
  return "unknown";
}

std::string_view stateKey(SnagState state) {
  switch (state) {
    case SnagState::Close:
      return "close";
    case SnagState::Snag:
      return "snag";
    case SnagState::NotKnown:
      return "not_known";
  }
  return "unknown";
}

std::string snagKey(const Snag& snag) {
  std::string key{codeKey(snag.code)};
  if (snag.places.empty()) return key;
  const SnagPlace& place = snag.places.front();
  if (place.run >= 0) {
    key += '/';
    key += static_cast<char>('A' + place.run);
  } else if (!place.part.empty()) {
    key += '/' + place.part;
  }
  return key;
}

}  // namespace sunspool::checks
