// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The one description of the project file's shape: every key with its unit, its limits and whether it may be
// missing. Reader, writer, validation and the list of uncertain inputs all walk it, so they cannot disagree.
// For .cpp files; not part of any interface.
//
// A visitor offers: text, number, maybeNumber, uncertain, maybeUncertain, word, flag, object, maybeObject, list.
// Limits are in the unit of the key, both ends included.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "core/base/result.h"
#include "core/model/document.h"

namespace sunspool::model {

enum class Need { Required, Optional };

struct Limits {
  double low = 0.0;
  double high = 0.0;
};

// ---- words of the file for enumerations

template <class E>
struct Word {
  E value{};
  std::string_view word;
};
template <class E>
struct Words;
template <>
struct Words<Sureness> {
  static constexpr std::array<Word<Sureness>, 3> all{
      {{Sureness::Guess, "guess"}, {Sureness::Label, "label"}, {Sureness::Measured, "measured"}}};
};
template <>
struct Words<TubeMaterial> {
  static constexpr std::array<Word<TubeMaterial>, 2> all{
      {{TubeMaterial::LowDensityPolyethylene, "low_density_polyethylene"},
       {TubeMaterial::HighDensityPolyethylene, "high_density_polyethylene"}}};
};
template <>
struct Words<Recipe> {
  static constexpr std::array<Word<Recipe>, 4> all{{{Recipe::RectangularSpiral, "rectangular_spiral"},
                                                    {Recipe::PlainSerpentine, "plain_serpentine"},
                                                    {Recipe::DoubleSpiral, "double_spiral"},
                                                    {Recipe::BulbSerpentine, "bulb_serpentine"}}};
};
template <>
struct Words<CornerRule> {
  static constexpr std::array<Word<CornerRule>, 2> all{
      {{CornerRule::ConstantRadius, "constant_radius"}, {CornerRule::ConcentricRadii, "concentric_radii"}}};
};
template <>
struct Words<InnerEnd> {
  static constexpr std::array<Word<InnerEnd>, 3> all{{{InnerEnd::OverTheTurns, "over_the_turns"},
                                                      {InnerEnd::ThroughTheBack, "through_the_back"},
                                                      {InnerEnd::UnderTheTurns, "under_the_turns"}}};
};
template <>
struct Words<Entries> {
  static constexpr std::array<Word<Entries>, 2> all{
      {{Entries::Spread, "spread"}, {Entries::SideBySide, "side_by_side"}}};
};
template <>
struct Words<SkyKind> {
  static constexpr std::array<Word<SkyKind>, 2> all{{{SkyKind::Clear, "clear"}, {SkyKind::Dull, "dull"}}};
};
template <>
struct Words<SheetUse> {
  static constexpr std::array<Word<SheetUse>, 4> all{{{SheetUse::Plate, "plate"},
                                                      {SheetUse::Insulation, "insulation"},
                                                      {SheetUse::Backing, "backing"},
                                                      {SheetUse::Glazing, "glazing"}}};
};
template <>
struct Words<StartCorner> {
  static constexpr std::array<Word<StartCorner>, 4> all{{{StartCorner::LowerLeft, "lower_left"},
                                                         {StartCorner::LowerRight, "lower_right"},
                                                         {StartCorner::UpperRight, "upper_right"},
                                                         {StartCorner::UpperLeft, "upper_left"}}};
};
template <>
struct Words<FittingKind> {
  static constexpr std::array<Word<FittingKind>, 8> all{{{FittingKind::BarbConnector, "barb_connector"},
                                                         {FittingKind::Elbow90, "elbow_90"},
                                                         {FittingKind::Elbow45, "elbow_45"},
                                                         {FittingKind::TeeThrough, "tee_through"},
                                                         {FittingKind::TeeBranch, "tee_branch"},
                                                         {FittingKind::Valve, "valve"},
                                                         {FittingKind::PipeEntrance, "pipe_entrance"},
                                                         {FittingKind::PipeExit, "pipe_exit"}}};
};
template <class E>
constexpr std::string_view wordOf(E value) {
  for (const auto& entry : Words<E>::all) {
    if (entry.value == value) return entry.word;
  }
  return {};
}
template <class E>
std::optional<E> fromWord(std::string_view word) {
  for (const auto& entry : Words<E>::all) {
    if (entry.word == word) return entry.value;
  }
  return std::nullopt;
}

// ---- values in the unit of the file: SI, but degrees and degrees Celsius

template <class Q>
constexpr double toFileUnit(Q value) {
  if constexpr (std::is_arithmetic_v<Q>) {
    return static_cast<double>(value);
  } else if constexpr (std::is_same_v<Q, Temperature>) {
    return value.inCelsius();
  } else if constexpr (std::is_same_v<Q, Angle>) {
    return value.degrees();
  } else {
    return value.si();
  }
}
template <class Q>
constexpr Q fromFileUnit(double value) {
  if constexpr (std::is_arithmetic_v<Q>) {
    return static_cast<Q>(value);
  } else if constexpr (std::is_same_v<Q, Temperature>) {
    return celsius(value);
  } else if constexpr (std::is_same_v<Q, Angle>) {
    return degrees(value);
  } else {
    return Q::fromSi(value);
  }
}
template <class Q>
constexpr double siOf(Q value) {
  if constexpr (std::is_arithmetic_v<Q>) {
    return static_cast<double>(value);
  } else if constexpr (std::is_same_v<Q, Temperature>) {
    return value.inKelvin();
  } else if constexpr (std::is_same_v<Q, Angle>) {
    return value.radians();
  } else {
    return value.si();
  }
}
template <class Q>
constexpr Q fromSi(double value) {
  if constexpr (std::is_arithmetic_v<Q>) {
    return static_cast<Q>(value);
  } else if constexpr (std::is_same_v<Q, Temperature>) {
    return Temperature::fromKelvin(value);
  } else if constexpr (std::is_same_v<Q, Angle>) {
    return radians(value);
  } else {
    return Q::fromSi(value);
  }
}
template <class Q>
constexpr Dimension dimensionOf() {
  if constexpr (std::is_same_v<Q, int>) return Dimension::Count;
  if constexpr (std::is_same_v<Q, Length>) return Dimension::Length;
  if constexpr (std::is_same_v<Q, Volume>) return Dimension::Volume;
  if constexpr (std::is_same_v<Q, Velocity>) return Dimension::Velocity;
  if constexpr (std::is_same_v<Q, VolumeFlow>) return Dimension::VolumeFlow;
  if constexpr (std::is_same_v<Q, Pressure>) return Dimension::Pressure;
  if constexpr (std::is_same_v<Q, Power>) return Dimension::Power;
  if constexpr (std::is_same_v<Q, Irradiance>) return Dimension::Irradiance;
  if constexpr (std::is_same_v<Q, Temperature>) return Dimension::Temperature;
  if constexpr (std::is_same_v<Q, TemperatureDifference>) return Dimension::TemperatureDifference;
  if constexpr (std::is_same_v<Q, Angle>) return Dimension::Angle;
  if constexpr (std::is_same_v<Q, ThermalConductivity>) return Dimension::ThermalConductivity;
  return Dimension::None;
}

// ---- keys

inline std::string valueKey(std::string_view unit) { return unit.empty() ? "value" : "value_" + std::string(unit); }
inline std::string spreadKey(std::string_view unit) {
  if (unit == "C") return "spread_K";
  return unit.empty() ? "spread" : "spread_" + std::string(unit);
}
/// One step deeper in a JSON pointer (RFC 6901).
inline std::string pointerTo(std::string_view parent, std::string_view key) {
  std::string pointer(parent);
  pointer += '/';
  for (const char c : key) {
    if (c == '~') {
      pointer += "~0";
    } else if (c == '/') {
      pointer += "~1";
    } else {
      pointer += c;
    }
  }
  return pointer;
}

inline constexpr Limits kShare{0.0, 1.0};
inline constexpr Limits kMoney{0.0, 1e7};
inline constexpr Limits kPieces{0.0, 1e6};

template <class V>
void fields(V& v, Place& place) {
  v.text("name", place.name, Need::Optional);
  v.number("latitude_deg", place.latitude, Limits{-90.0, 90.0}, Need::Required);
  v.number("longitude_deg", place.longitude, Limits{-180.0, 180.0}, Need::Required);
  v.number("altitude_m", place.altitude, Limits{-500.0, 9000.0}, Need::Optional);
  v.number("utc_offset_h", place.utcOffset_h, Limits{-14.0, 14.0}, Need::Required);
}

template <class V>
void fields(V& v, Moment& moment) {
  v.number("year", moment.year, Limits{1950.0, 2100.0}, Need::Required);
  v.number("month", moment.month, Limits{1.0, 12.0}, Need::Required);
  v.number("day", moment.day, Limits{1.0, 31.0}, Need::Required);
  v.number("clock_h", moment.clock_h, Limits{0.0, 23.999999999999996}, Need::Required);
}

template <class V>
void fields(V& v, Conditions& conditions) {
  v.uncertain("air", "C", conditions.air, Limits{-60.0, 60.0}, Need::Required);
  v.uncertain("wind", "m_s", conditions.wind, Limits{0.0, 60.0}, Need::Required);
  v.uncertain("relative_humidity", "", conditions.relativeHumidity, Limits{0.01, 1.0}, Need::Required);
  v.uncertain("linke_turbidity", "", conditions.linkeTurbidity, Limits{1.0, 10.0}, Need::Required);
  v.number("ground_reflectance", conditions.groundReflectance, kShare, Need::Optional);
  v.maybeUncertain("on_panel", "W_m2", conditions.onPanel, Limits{0.0, 1500.0});
  v.word("sky", conditions.sky, Need::Optional);
  v.uncertain("dull_share", "", conditions.dullShare, kShare, Need::Optional);
}

template <class V>
void fields(V& v, Pool& pool) {
  v.number("volume_m3", pool.volume, Limits{0.01, 1e5}, Need::Required);
  v.uncertain("water", "C", pool.water, Limits{0.0, 60.0}, Need::Required);
}

template <class V>
void fields(V& v, Frame& frame) {
  v.number("inside_width_m", frame.insideWidth, Limits{1e-4, 100.0}, Need::Required);
  v.number("inside_height_m", frame.insideHeight, Limits{1e-4, 100.0}, Need::Required);
  v.number("timber_width_m", frame.timberWidth, Limits{1e-3, 1.0}, Need::Required);
  v.number("timber_depth_m", frame.timberDepth, Limits{1e-3, 1.0}, Need::Required);
  v.flag("rails_through", frame.railsThrough, Need::Optional);
}

template <class V>
void fields(V& v, geometry::Point& point) {
  v.number("x_m", point.x, Limits{-1000.0, 1000.0}, Need::Required);
  v.number("y_m", point.y, Limits{-1000.0, 1000.0}, Need::Required);
}

template <class V>
void fields(V& v, Obstacle& obstacle) {
  v.text("name", obstacle.name, Need::Optional);
  v.number("azimuth_from_deg", obstacle.azimuthFrom, Limits{0.0, 360.0}, Need::Required);
  v.number("azimuth_to_deg", obstacle.azimuthTo, Limits{0.0, 360.0}, Need::Required);
  v.number("height_deg", obstacle.height, Limits{0.0, 90.0}, Need::Required);
}

template <class V>
void fields(V& v, KeepOut& keepOut) {
  v.text("id", keepOut.id, Need::Required);
  v.text("name", keepOut.name, Need::Optional);
  v.number("clearance_m", keepOut.clearance, Limits{0.0, 10.0}, Need::Optional);
  v.list("corners", keepOut.outline.corners, Need::Required);
}

template <class V>
void fields(V& v, Sheet& sheet) {
  v.text("material", sheet.material, Need::Required);
  v.number("thickness_m", sheet.thickness, Limits{1e-5, 1.0}, Need::Required);
  v.uncertain("conductivity", "W_mK", sheet.conductivity, Limits{1e-3, 1000.0}, Need::Required);
  v.number("density_kg_m3", sheet.density, Limits{1.0, 3e4}, Need::Required);
  v.maybeNumber("limit_C", sheet.limit, Limits{-50.0, 2000.0});
  v.text("limit_source", sheet.limitSource, Need::Optional);
  v.maybeNumber("price_per_m2", sheet.pricePerSquareMetre, kMoney);
}

template <class V>
void fields(V& v, Plate& plate) {
  v.object("sheet", plate.sheet, Need::Required);
  v.uncertain("absorptance", "", plate.absorptance, kShare, Need::Required);
  v.uncertain("emittance", "", plate.emittance, kShare, Need::Required);
}

template <class V>
void fields(V& v, Glazing& glazing) {
  v.object("sheet", glazing.sheet, Need::Required);
  v.uncertain("transmittance", "", glazing.transmittance, kShare, Need::Required);
  v.number("refractive_index", glazing.refractiveIndex, Limits{1.0, 3.0}, Need::Optional);
  v.uncertain("emittance", "", glazing.emittance, kShare, Need::Required);
  v.number("overlap_m", glazing.overlap, Limits{0.0, 1.0}, Need::Optional);
  v.number("lap_m", glazing.lap, Limits{0.0, 1.0}, Need::Optional);
  v.number("expansion_1_K", glazing.expansion, Limits{0.0, 1e-3}, Need::Optional);
}

template <class V>
void fields(V& v, Box& box) {
  v.maybeObject("backing", box.backing);
  v.maybeObject("insulation", box.insulation);
  v.maybeObject("plate", box.plate);
  v.number("stand_off_m", box.standOff, Limits{0.0, 1.0}, Need::Optional);
  v.uncertain("plate_contact_share", "", box.plateContactShare, kShare, Need::Required);
  v.maybeObject("glazing", box.glazing);
  v.maybeUncertain("shade_cloth", "", box.shadeCloth, kShare);
}

template <class V>
void fields(V& v, Siting& siting) {
  v.number("tilt_deg", siting.tilt, Limits{0.0, 90.0}, Need::Required);
  v.number("azimuth_deg", siting.azimuth, Limits{0.0, 360.0}, Need::Required);
  v.number("lower_edge_above_pool_m", siting.lowerEdgeAbovePool, Limits{-50.0, 100.0}, Need::Required);
  v.maybeUncertain("gust", "m_s", siting.gust, Limits{0.0, 120.0});
  v.uncertain("uplift_coefficient", "", siting.upliftCoefficient, Limits{0.0, 5.0}, Need::Optional);
  v.number("hold_down_kg", siting.holdDown, Limits{0.0, 1e5}, Need::Optional);
}

template <class V>
void fields(V& v, Tube& tube) {
  v.text("catalogue_id", tube.catalogueId, Need::Optional);
  v.text("name", tube.name, Need::Optional);
  v.word("material", tube.material, Need::Required);
  v.uncertain("inside_diameter", "m", tube.insideDiameter, Limits{1e-3, 0.5}, Need::Required);
  v.uncertain("outside_diameter", "m", tube.outsideDiameter, Limits{1e-3, 0.5}, Need::Required);
  v.uncertain("minimum_wall_share", "", tube.minimumWallShare, Limits{0.1, 1.0}, Need::Required);
  v.uncertain("roughness", "m", tube.roughness, Limits{0.0, 1e-3}, Need::Required);
  v.uncertain("conductivity", "W_mK", tube.conductivity, Limits{0.01, 500.0}, Need::Required);
  v.number("density_kg_m3", tube.density, Limits{100.0, 1e4}, Need::Required);
  v.number("specific_heat_J_kgK", tube.specificHeat, Limits{100.0, 1e4}, Need::Required);
  v.number("expansion_1_K", tube.expansion, Limits{0.0, 1e-3}, Need::Required);
  v.number("poisson_ratio", tube.poissonRatio, Limits{0.0, 0.5}, Need::Optional);
  v.uncertain("absorptance", "", tube.absorptance, kShare, Need::Required);
  v.uncertain("emittance", "", tube.emittance, kShare, Need::Required);
  v.number("limit_C", tube.limit, Limits{-50.0, 400.0}, Need::Required);
  v.text("limit_source", tube.limitSource, Need::Optional);
  v.number("pressure_rating_at_20C_Pa", tube.pressureRatingAt20C, Limits{0.0, 1e8}, Need::Required);
  v.maybeUncertain("bend_test_collapse_radius", "m", tube.bendTestCollapseRadius, Limits{1e-3, 10.0});
}

template <class V>
void fields(V& v, Laying& laying) {
  v.word("recipe", laying.recipe, Need::Required);
  v.number("starts", laying.starts, Limits{1.0, 4.0}, Need::Required);
  v.number("pitch_m", laying.pitch, Limits{1e-3, 10.0}, Need::Required);
  v.number("bend_radius_m", laying.bendRadius, Limits{1e-3, 10.0}, Need::Required);
  v.word("corner_rule", laying.cornerRule, Need::Optional);
  v.maybeNumber("quarter_turns", laying.quarterTurns, Limits{0.0, 1e5});
  v.word("inner_end", laying.innerEnd, Need::Optional);
  v.word("start_corner", laying.startCorner, Need::Optional);
  v.number("margin_m", laying.margin, Limits{0.0, 10.0}, Need::Required);
  v.number("feed_tail_m", laying.feedTail, Limits{0.0, 1000.0}, Need::Required);
  v.number("return_tail_m", laying.returnTail, Limits{0.0, 1000.0}, Need::Required);
  v.number("feed_shift_m", laying.feedShift, Limits{-100.0, 100.0}, Need::Optional);
  v.number("return_shift_m", laying.returnShift, Limits{-100.0, 100.0}, Need::Optional);
  v.word("entries", laying.entries, Need::Optional);
  v.uncertain("wobble", "", laying.wobble, Limits{-0.5, 0.5}, Need::Optional);
}

template <class V>
void fields(V& v, PumpPoint& point) {
  v.number("flow_m3_s", point.flow, Limits{0.0, 1.0}, Need::Required);
  v.number("head_m", point.head, Limits{0.0, 1000.0}, Need::Required);
}

template <class V>
void fields(V& v, Pump& pump) {
  v.text("name", pump.name, Need::Optional);
  v.uncertain("label_flow", "m3_s", pump.labelFlow, Limits{-1.0, 1.0}, Need::Required);
  v.uncertain("label_head", "m", pump.labelHead, Limits{-1000.0, 1000.0}, Need::Required);
  v.list("points", pump.points, Need::Optional);
  v.number("speed", pump.speed, Limits{0.01, 10.0}, Need::Optional);
  v.number("electrical_power_W", pump.electricalPower, Limits{0.0, 1e6}, Need::Optional);
}

template <class V>
void fields(V& v, FittingCount& fitting) {
  v.word("kind", fitting.kind, Need::Required);
  v.number("count", fitting.count, Limits{0.0, 1000.0}, Need::Required);
  v.maybeNumber("bore_m", fitting.bore, Limits{1e-4, 1.0});
  v.maybeUncertain("loss_coefficient", "", fitting.lossCoefficient, Limits{0.0, 1e4});
}

template <class V>
void fields(V& v, Pipe& pipe) {
  v.number("length_m", pipe.length, Limits{0.0, 1e4}, Need::Required);
  v.number("inside_diameter_m", pipe.insideDiameter, Limits{1e-3, 1.0}, Need::Required);
  v.number("roughness_m", pipe.roughness, Limits{0.0, 0.01}, Need::Optional);
  v.list("fittings", pipe.fittings, Need::Optional);
}

template <class V>
void fields(V& v, Plumbing& plumbing) {
  v.object("pump", plumbing.pump, Need::Required);
  v.object("feed", plumbing.feed, Need::Required);
  v.object("return", plumbing.returning, Need::Required);
  v.list("run_fittings", plumbing.runFittings, Need::Optional);
  v.flag("return_ends_under_water", plumbing.returnEndsUnderWater, Need::Required);
  v.number("return_outlet_above_pool_m", plumbing.returnOutletAbovePool, Limits{0.0, 100.0}, Need::Optional);
  v.number("highest_point_above_pool_m", plumbing.highestPointAbovePool, Limits{-50.0, 200.0}, Need::Optional);
  v.number("pump_above_pool_m", plumbing.pumpAbovePool, Limits{-50.0, 50.0}, Need::Optional);
}

template <class V>
void fields(V& v, Roll& roll) {
  v.text("name", roll.name, Need::Required);
  v.number("length_m", roll.length, Limits{0.01, 1e5}, Need::Required);
  v.number("owned", roll.owned, kPieces, Need::Optional);
  v.maybeNumber("price", roll.price, kMoney);
  v.word("sureness", roll.sureness, Need::Optional);
  v.number("spread_m", roll.spread, Limits{0.0, 1e5}, Need::Optional);
  v.maybeNumber("outside_diameter_m", roll.outsideDiameter, Limits{1e-3, 0.5});
  v.maybeNumber("inside_diameter_m", roll.insideDiameter, Limits{1e-3, 0.5});
}
template <class V>
void fields(V& v, TimberStock& timber) {
  v.text("name", timber.name, Need::Required);
  v.number("length_m", timber.length, Limits{0.01, 100.0}, Need::Required);
  v.number("owned", timber.owned, kPieces, Need::Optional);
  v.maybeNumber("price", timber.price, kMoney);
  v.word("sureness", timber.sureness, Need::Optional);
}

template <class V>
void fields(V& v, StockSheet& sheet) {
  v.text("name", sheet.name, Need::Required);
  v.word("use", sheet.use, Need::Required);
  v.number("width_m", sheet.width, Limits{0.01, 100.0}, Need::Required);
  v.number("height_m", sheet.height, Limits{0.01, 100.0}, Need::Required);
  v.number("owned", sheet.owned, kPieces, Need::Optional);
  v.maybeNumber("price", sheet.price, kMoney);
  v.word("sureness", sheet.sureness, Need::Optional);
  v.flag("can_turn", sheet.canTurn, Need::Optional);
}

template <class V>
void fields(V& v, StockFitting& fitting) {
  v.word("kind", fitting.kind, Need::Required);
  v.number("owned", fitting.owned, kPieces, Need::Optional);
  v.maybeNumber("price", fitting.price, kMoney);
}

template <class V>
void fields(V& v, StockPump& pump) {
  v.object("pump", pump.pump, Need::Required);
  v.number("owned", pump.owned, kPieces, Need::Optional);
  v.maybeNumber("price", pump.price, kMoney);
}

template <class V>
void fields(V& v, Thermometer& thermometer) {
  v.text("name", thermometer.name, Need::Required);
  v.number("spread_K", thermometer.spread, Limits{0.0, 20.0}, Need::Required);
  v.number("owned", thermometer.owned, kPieces, Need::Optional);
  v.maybeNumber("price", thermometer.price, kMoney);
  v.word("sureness", thermometer.sureness, Need::Optional);
}

template <class V>
void fields(V& v, Stock& stock) {
  v.text("currency", stock.currency, Need::Optional);
  v.list("rolls", stock.rolls, Need::Required);
  v.list("timbers", stock.timbers, Need::Required);
  v.number("kerf_m", stock.kerf, Limits{0.0, 0.1}, Need::Required);
  v.number("squaring_allowance_m", stock.squaringAllowance, Limits{0.0, 1.0}, Need::Optional);
  v.maybeNumber("fitting_price", stock.fittingPrice, kMoney);
  v.maybeNumber("glazing_price_per_m2", stock.glazingPricePerSquareMetre, kMoney);
  v.flag("joins_allowed", stock.joinsAllowed, Need::Optional);
  v.list("sheets", stock.sheets, Need::Optional);
  v.list("fittings", stock.fittings, Need::Optional);
  v.list("pumps", stock.pumps, Need::Optional);
  v.list("thermometers", stock.thermometers, Need::Optional);
}

template <class V>
void fields(V& v, LeftSnag& left) {
  v.text("key", left.key, Need::Required);
  v.text("reason", left.reason, Need::Required);
}

template <class V>
void fields(V& v, Document& document) {
  v.text("name", document.name, Need::Required);
  v.text("note", document.note, Need::Optional);
  v.object("place", document.place, Need::Required);
  v.object("moment", document.moment, Need::Required);
  v.object("conditions", document.conditions, Need::Required);
  v.object("pool", document.pool, Need::Required);
  v.object("frame", document.frame, Need::Required);
  v.list("keep_outs", document.keepOuts, Need::Optional);
  v.object("box", document.box, Need::Required);
  v.object("siting", document.siting, Need::Required);
  v.object("tube", document.tube, Need::Required);
  v.object("laying", document.laying, Need::Required);
  v.object("plumbing", document.plumbing, Need::Required);
  v.object("stock", document.stock, Need::Required);
  v.number("panels_alike", document.panelsAlike, Limits{1.0, 64.0}, Need::Optional);
  v.flag("panels_share_pump", document.panelsSharePump, Need::Optional);
  v.list("obstacles", document.obstacles, Need::Optional);
  v.list("left_snags", document.leftSnags, Need::Optional);
}

}  // namespace sunspool::model
