// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "app/format/format.h"
#include "app/format/text.h"

namespace sunspool::format {
namespace {

constexpr auto kAll =
    std::to_array<Caution>({Caution::MainsNearWater, Caution::FirstWaterScalds, Caution::PlasticOverLimit,
                            Caution::WindLifts, Caution::WorkOnRoof, Caution::WeightOnRoof, Caution::SuctionCover,
                            Caution::WaterChemistry, Caution::NotForDrinking, Caution::PressureAndFreezing,
                            Caution::SteamAndClosedValves, Caution::Fire, Caution::StandingWater, Caution::LocalCodes});

CautionText waterCaution(Caution caution) {
  if (caution == Caution::FirstWaterScalds) {
    return {Text::tr("The first water scalds"),
            Text::tr("Water that stood in the sun leaves the return far hotter than the rest and burns skin within "
                     "minutes or seconds. Keep everybody, children first, away from the return until it runs cool.")};
  }
  if (caution == Caution::SuctionCover) {
    return {Text::tr("Cover every suction"),
            Text::tr("A bare suction opening holds hair, fingers and bodies fast under water. Fit a cover made and "
                     "approved for it, and never run the pump without it.")};
  }
  if (caution == Caution::WaterChemistry) {
    return {Text::tr("Pool water attacks metal"),
            Text::tr("Chlorine and salt eat copper, brass and aluminium and stain the pool. Use plastic or parts sold "
                     "for pool water, and keep the water in its usual range.")};
  }
  if (caution == Caution::NotForDrinking) {
    return {
        Text::tr("Not for drinking"),
        Text::tr("Tube, fittings and warm standing water make this water unfit to drink. Never connect the panel to "
                 "a drinking-water pipe.")};
  }
  if (caution == Caution::StandingWater) {
    return {Text::tr("Flush standing water away from people"),
            Text::tr("Germs grow in water that stood warm for days, and spray carries them into the lungs. After days "
                     "away, run the first water off onto the ground, away from people.")};
  }
  return {Text::tr("Pressure and frost burst tube"),
          Text::tr("Warm plastic holds less pressure than its label says, and ice bursts it. Keep the return open to "
                   "the pool, and drain panel and pipes before the first frost.")};
}

CautionText placeCaution(Caution caution) {
  if (caution == Caution::WindLifts) {
    return {Text::tr("Wind lifts a light box"),
            Text::tr("A gust can pull a panel up with many times its weight. Figures here only show whether to worry; "
                     "let a qualified person decide on the fixing before it goes up.")};
  }
  if (caution == Caution::WorkOnRoof) {
    return {
        Text::tr("Ladders and roofs"),
        Text::tr("Falls from ladders and through fragile roofs kill. Foot and tie the ladder, step on no sheet roof "
                 "or rooflight, work with a second person, and leave it to a roofer when in doubt.")};
  }
  if (caution == Caution::WeightOnRoof) {
    return {Text::tr("Weight on the roof"),
            Text::tr("Full of water the panel weighs what the list says under “wet”, before wind and snow. Have the "
                     "roof judged by a qualified person before it carries that.")};
  }
  return {Text::tr("Local rules come first"),
          Text::tr("Building, water and electrical rules of the place, and the judgement of licensed people, prevail "
                   "over anything printed here.")};
}

CautionText heatCaution(Caution caution) {
  if (caution == Caution::PlasticOverLimit) {
    return {Text::tr("Plastic above its limit"),
            Text::tr("On a hot day without the pump the box can get hotter than its plastic stands. Shade or cover the "
                     "panel whenever the pump is off in the sun.")};
  }
  if (caution == Caution::SteamAndClosedValves) {
    return {Text::tr("Steam and closed valves"),
            Text::tr("Standing water can boil. Between two closed valves it has nowhere to go and bursts the tube: one "
                     "way out must always stay open.")};
  }
  return {Text::tr("Fire"),
          Text::tr("Foam, paint and timber near a dry hot plate give off smoke and may catch fire. Keep foam off the "
                   "plate or use one made for that heat, and never leave the panel dry in the sun.")};
}

}  // namespace

std::span<const Caution> allCautions() { return kAll; }

std::string_view cautionKey(Caution caution) {
  switch (caution) {
    case Caution::MainsNearWater:
      return "mains_near_water";
    case Caution::FirstWaterScalds:
      return "first_water_scalds";
    case Caution::PlasticOverLimit:
      return "plastic_over_limit";
    case Caution::WindLifts:
      return "wind_lifts";
    case Caution::WorkOnRoof:
      return "work_on_roof";
    case Caution::WeightOnRoof:
      return "weight_on_roof";
    case Caution::SuctionCover:
      return "suction_cover";
    case Caution::WaterChemistry:
      return "water_chemistry";
    case Caution::NotForDrinking:
      return "not_for_drinking";
    case Caution::PressureAndFreezing:
      return "pressure_and_freezing";
    case Caution::SteamAndClosedValves:
      return "steam_and_closed_valves";
    case Caution::Fire:
      return "fire";
    case Caution::StandingWater:
      return "standing_water";
    case Caution::LocalCodes:
      return "local_codes";
  }
  return {};
}

CautionText cautionText(Caution caution) {
  switch (caution) {
    case Caution::MainsNearWater:
      return {Text::tr("Mains power near water"),
              Text::tr(
                  "Mains voltage and wet hands kill. Pump and thermostat must be of a kind sold for this place, behind "
                  "residual-current protection, bonded and at the distances the rules ask for, wired by a licensed "
                  "electrician. This program sizes no mains wiring.")};
    case Caution::FirstWaterScalds:
    case Caution::SuctionCover:
    case Caution::WaterChemistry:
    case Caution::NotForDrinking:
    case Caution::StandingWater:
    case Caution::PressureAndFreezing:
      return waterCaution(caution);
    case Caution::WindLifts:
    case Caution::WorkOnRoof:
    case Caution::WeightOnRoof:
    case Caution::LocalCodes:
      return placeCaution(caution);
    case Caution::PlasticOverLimit:
    case Caution::SteamAndClosedValves:
    case Caution::Fire:
      return heatCaution(caution);
  }
  return {};
}

}  // namespace sunspool::format
