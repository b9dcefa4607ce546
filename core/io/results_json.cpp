// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/results_json.h"

#include <cmath>
#include <numbers>

#include "core/base/error_names.h"
#include "core/checks/snag_keys.h"
#include "core/io/json_writer.h"
#include "core/model/fields.h"

namespace sunspool::io {
namespace {

constexpr double kFreezing_K = 273.15;
constexpr JsonShape kLines = JsonShape::Lines;
constexpr JsonShape kOneLine = JsonShape::OneLine;

// ---- words

std::string_view word(hydraulics::Regime regime) {
  switch (regime) {
    case hydraulics::Regime::Laminar:
      return "laminar";
    case hydraulics::Regime::Transition:
      return "transition";
    case hydraulics::Regime::Turbulent:
      return "turbulent";
  }
  return {};
}
std::string_view word(layout::Side side) {
  switch (side) {
    case layout::Side::Bottom:
      return "bottom";
    case layout::Side::Right:
      return "right";
    case layout::Side::Top:
      return "top";
    case layout::Side::Left:
      return "left";
  }
  return {};
}
std::string_view word(results::BendVerdict verdict) {
  switch (verdict) {
    case results::BendVerdict::WithinHandbook:
      return "within_handbook";
    case results::BendVerdict::TighterThanHandbook:
      return "tighter_than_handbook";
    case results::BendVerdict::Close:
      return "close";
    case results::BendVerdict::LikelyToFlatten:
      return "likely_to_flatten";
    case results::BendVerdict::Collapses:
      return "collapses";
  }
  return {};
}

// ---- values

double inUnitOf(Dimension dimension, double value_si) {
  if (dimension == Dimension::Temperature) return value_si - kFreezing_K;
  if (dimension == Dimension::Angle) return value_si * 180.0 / std::numbers::pi;
  return value_si;
}
std::string withUnit(std::string_view stem, Dimension dimension) {
  const std::string_view unit = unitSuffix(dimension);
  return unit.empty() ? std::string(stem) : std::string(stem) + '_' + std::string(unit);
}
std::string runName(const results::Results& results, std::size_t run) {
  if (results.layout && run < results.layout->runs.size()) return {results.layout->runs[run].letter};
  return {static_cast<char>('A' + static_cast<int>(run % 26))};
}

void factMembers(JsonWriter& json, const Fact& fact) {
  json.text("name", fact.name);
  json.number(withUnit("value", fact.dimension), inUnitOf(fact.dimension, fact.value_si));
}
void factObject(JsonWriter& json, std::string_view key, const Fact& fact) {
  if (fact.name.empty() && fact.dimension == Dimension::None) return json.null(key);
  json.open(key, '{', kOneLine);
  factMembers(json, fact);
  json.close();
}
void factList(JsonWriter& json, std::string_view key, const std::vector<Fact>& facts) {
  json.open(key, '[', kOneLine);
  for (const Fact& fact : facts) {
    json.openItem('{', kOneLine);
    factMembers(json, fact);
    json.close();
  }
  json.close();
}

template <class Q>
void ranged(JsonWriter& json, std::string_view key, const Ranged<Q>& value) {
  const Dimension dimension = model::dimensionOf<Q>();
  json.open(key, '{', kOneLine);
  json.number(withUnit("value", dimension), inUnitOf(dimension, model::siOf(value.value)));
  json.number(withUnit("low", dimension), inUnitOf(dimension, model::siOf(value.low)));
  json.number(withUnit("high", dimension), inUnitOf(dimension, model::siOf(value.high)));
  json.close();
}

void errorObject(JsonWriter& json, std::string_view key, const Error& error) {
  json.open(key, '{', kLines);
  json.text("error", codeName(error.code));
  json.text("where", error.where);
  json.text("detail", error.detail);
  factList(json, "facts", error.facts);
  json.close();
}
/// The part as an object, or its error.
template <class T, class F>
void part(JsonWriter& json, std::string_view key, const Result<T>& value, F members) {
  if (!value) return errorObject(json, key, value.error());
  json.open(key, '{', kLines);
  members(*value);
  json.close();
}

// ---- layout and bends

void portObject(JsonWriter& json, std::string_view key, const layout::Port& port) {
  json.open(key, '{', kOneLine);
  json.text("side", word(port.side));
  json.flag("through_back", port.throughBack);
  json.number("x_m", port.at.x);
  json.number("y_m", port.at.y);
  json.number("station_m", port.station_m);
  json.close();
}
void crossingObject(JsonWriter& json, const std::optional<layout::Crossing>& crossing) {
  if (!crossing) return json.null("crossing");
  json.open("crossing", '{', kOneLine);
  json.number("from_m", crossing->from_m);
  json.number("to_m", crossing->to_m);
  json.number("rise_m", crossing->rise_m);
  json.number("ramp_length_m", crossing->rampLength_m);
  json.number("extra_length_m", crossing->extraLength_m);
  json.number("turns_crossed", crossing->turnsCrossed);
  json.text("level", crossing->level == layout::CrossingLevel::Over ? "over" : "under");
  json.close();
}
void layoutMembers(JsonWriter& json, const layout::LaidPanel& panel) {
  json.number("net_area_m2", panel.netArea.si());
  json.number("tube_inside_m", panel.tubeInside.si());
  json.number("total_cut_m", panel.totalCut.si());
  json.number("coverage_share", panel.coverage);
  json.number("most_quarter_turns", panel.mostQuarterTurns);
  json.number("smallest_spacing_m", panel.smallestSpacing_m);
  json.open("core", '{', kOneLine);
  json.number("lower_x_m", panel.coreLower.x);
  json.number("lower_y_m", panel.coreLower.y);
  json.number("upper_x_m", panel.coreUpper.x);
  json.number("upper_y_m", panel.coreUpper.y);
  json.close();
  json.open("runs", '[', kLines);
  for (const layout::LaidRun& run : panel.runs) {
    json.openItem('{', kLines);
    json.text("run", std::string(1, run.letter));
    json.number("path_length_m", run.path.length().si());
    json.number("cut_length_m", run.cutLength_m);
    json.number("inside_from_m", run.insideFrom_m);
    json.number("inside_to_m", run.insideTo_m);
    json.number("turns_from_m", run.turnsFrom_m);
    json.number("turns_to_m", run.turnsTo_m);
    json.number("quarter_turns", run.quarterTurns);
    json.number("smallest_radius_m", run.smallestRadius_m);
    portObject(json, "feed", run.feed);
    portObject(json, "return", run.returning);
    crossingObject(json, run.crossing);
    json.close();
  }
  json.close();
}

void bendMembers(JsonWriter& json, const results::Results& results, const results::Bend& bend) {
  json.text("run", runName(results, static_cast<std::size_t>(bend.run)));
  json.number("station_m", bend.station_m);
  json.number("from_m", bend.from_m);
  json.number("to_m", bend.to_m);
  json.number("radius_m", bend.radius_m);
  json.number("index", bend.index);
  json.number("ovality", bend.ovality);
  json.number("strain", bend.strain);
}
void bends(JsonWriter& json, const results::Results& results) {
  if (!results.bends) return json.null("bends");
  const results::Bends& bends = *results.bends;
  json.open("bends", '{', kLines);
  json.text("verdict", word(bends.verdict));
  json.number("collapse_radius_m", bends.collapseRadius.si());
  json.flag("from_bend_test", bends.fromBendTest);
  json.number("handbook_radius_m", bends.handbookRadius.si());
  if (bends.worst) {
    json.open("worst", '{', kOneLine);
    bendMembers(json, results, *bends.worst);
    json.close();
  } else {
    json.null("worst");
  }
  json.open("all", '[', kLines);
  for (const results::Bend& bend : bends.all) {
    json.openItem('{', kOneLine);
    bendMembers(json, results, bend);
    json.close();
  }
  json.close();
  json.close();
}

void depth(JsonWriter& json, const results::DepthBudget& budget) {
  json.open("depth", '{', kLines);
  json.number("needed_m", budget.needed.si());
  json.number("available_m", budget.available.si());
  json.number("spare_m", budget.spare.si());
  json.number("crossing_spare_m", budget.crossingSpare.si());
  json.open("layers", '[', kLines);
  for (const results::DepthBudget::Layer& layer : budget.layers) {
    json.openItem('{', kOneLine);
    json.text("part", layer.part);
    json.number("thickness_m", layer.thickness.si());
    json.close();
  }
  json.close();
  json.close();
}

void masses(JsonWriter& json, const results::Masses& masses) {
  json.open("masses", '{', kLines);
  json.number("tube_kg", masses.tube.si());
  json.number("water_kg", masses.water.si());
  json.number("timber_kg", masses.timber.si());
  json.number("plate_kg", masses.plate.si());
  json.number("insulation_kg", masses.insulation.si());
  json.number("backing_kg", masses.backing.si());
  json.number("glazing_kg", masses.glazing.si());
  json.number("dry_kg", masses.dry.si());
  json.number("wet_kg", masses.wet.si());
  json.number("wet_kg_m2", masses.wet_kg_m2);
  json.close();
}

/// Forces have no unit suffix of their own elsewhere: newtons.
void wind(JsonWriter& json, const results::Results& results) {
  if (!results.wind) return json.null("wind");
  const results::Wind& wind = *results.wind;
  json.open("wind", '{', kLines);
  json.number("gust_pressure_Pa", wind.gustPressure.si());
  json.open("uplift", '{', kOneLine);
  json.number("value_N", wind.uplift.value.si());
  json.number("low_N", wind.uplift.low.si());
  json.number("high_N", wind.uplift.high.si());
  json.close();
  json.number("own_weight_N", wind.ownWeight.si());
  json.open("hold_down_mass", '{', kOneLine);
  json.number("value_kg", wind.holdDownMass.value.si());
  json.number("low_kg", wind.holdDownMass.low.si());
  json.number("high_kg", wind.holdDownMass.high.si());
  json.close();
  json.number("overturning_share", wind.overturning);
  json.close();
}

// ---- sun, flow, heat

void sunMembers(JsonWriter& json, const results::SunNow& sun) {
  json.number("zenith_deg", sun.position.zenith.degrees());
  json.number("azimuth_deg", sun.position.azimuth.degrees());
  json.number("declination_deg", sun.position.declination.degrees());
  json.number("hour_angle_deg", sun.position.hourAngle.degrees());
  json.number("equation_of_time_min", sun.position.equationOfTime_min);
  json.number("distance_AU", sun.position.distance_AU);
  json.open("clear_sky", '{', kOneLine);
  json.number("global_W_m2", sun.sky.global_W_m2);
  json.number("beam_normal_W_m2", sun.sky.beamNormal_W_m2);
  json.number("diffuse_W_m2", sun.sky.diffuse_W_m2);
  json.number("extraterrestrial_normal_W_m2", sun.sky.extraterrestrialNormal_W_m2);
  json.number("air_mass", sun.sky.airMass);
  json.close();
  json.open("on_panel", '{', kOneLine);
  json.number("total_W_m2", sun.plane.total_W_m2);
  json.number("beam_W_m2", sun.plane.beam_W_m2);
  json.number("sky_W_m2", sun.plane.sky_W_m2);
  json.number("ground_W_m2", sun.plane.ground_W_m2);
  json.number("incidence_deg", sun.plane.incidence.degrees());
  json.flag("fixed_by_builder", sun.fixedByBuilder);
  json.flag("in_shade", sun.inShade);
  json.number("shaded_beam_W_m2", sun.shadedBeam_W_m2);
  json.number("shaded_sky_W_m2", sun.shadedSky_W_m2);
  json.close();
  json.open("day", '{', kOneLine);
  json.number("noon_h", sun.day.noon_h);
  json.flag("rises", sun.day.rises);
  json.flag("never_sets", sun.day.neverSets);
  json.number("rise_h", sun.day.rise_h);
  json.number("set_h", sun.day.set_h);
  json.close();
}

void pathLossMembers(JsonWriter& json, const hydraulics::PathLoss& loss) {
  json.number("loss_Pa", loss.loss_Pa);
  json.number("low_Pa", loss.low_Pa);
  json.number("high_Pa", loss.high_Pa);
  json.number("reynolds", loss.reynolds);
  json.number("velocity_m_s", loss.velocity_m_s);
  json.text("regime", word(loss.mostly));
  json.number("transition_length_m", loss.transitionLength_m);
}
void flowMembers(JsonWriter& json, const results::Results& results, const results::Flow& flow) {
  const hydraulics::NetworkFlow& network = flow.network;
  ranged(json, "flow", flow.flow);
  ranged(json, "panel_loss", flow.panelLoss);
  ranged(json, "head", flow.head);
  json.number("shut_off_head_m", flow.shutOffHead.si());
  json.text("regime", word(flow.regime));
  json.number("imbalance_share", flow.imbalance);
  json.number("lowest_gauge_Pa", flow.lowest.si());
  json.flag("starts", network.starts);
  json.number("starting_lift_m", network.startingLift_m);
  json.number("low_flow_m3_s", network.lowFlow_m3_s);
  json.number("high_flow_m3_s", network.highFlow_m3_s);
  json.number("iterations", network.iterations);
  json.number("residual_m", network.residual_m);
  json.open("feed", '{', kOneLine);
  pathLossMembers(json, network.feed);
  json.close();
  json.open("return", '{', kOneLine);
  pathLossMembers(json, network.returning);
  json.close();
  json.open("runs", '[', kLines);
  for (std::size_t i = 0; i < network.runs.size(); ++i) {
    json.openItem('{', kOneLine);
    json.text("run", runName(results, i));
    json.number("flow_m3_s", network.runs[i].flow_m3_s);
    pathLossMembers(json, network.runs[i].loss);
    json.close();
  }
  json.close();
}

void heatMembers(JsonWriter& json, const results::Results& results, const results::Heat& heat) {
  const thermal::SteadyHeat& steady = heat.steady;
  ranged(json, "to_pool", heat.toPool);
  ranged(json, "rise", heat.rise);
  ranged(json, "outlet", heat.outlet);
  json.number("efficiency_inside_area_share", steady.efficiencyInside);
  json.number("efficiency_gross_area_share", steady.efficiencyGross);
  json.number("tau_alpha", steady.tauAlpha);
  json.number("optical_share", steady.opticalShare);
  json.number("tube_share", steady.tubeShare);
  json.number("efficiency_factor", steady.efficiencyFactor);
  json.number("top_loss_W_m2K", steady.topLoss_W_m2K);
  json.number("back_loss_W_m2K", steady.backLoss_W_m2K);
  json.number("edge_loss_W_m2K", steady.edgeLoss_W_m2K);
  json.number("mean_absorber_C", steady.meanAbsorber_K - kFreezing_K);
  json.number("top_surroundings_C", steady.topSurroundings_K - kFreezing_K);
  json.number("glazing_C", steady.glazing_K > 0.0 ? std::optional(steady.glazing_K - kFreezing_K) : std::nullopt);
  json.number("tails_W", steady.tails_W);
  json.open("shares", '{', kOneLine);
  json.number("falling_W", steady.shares.falling_W);
  json.number("to_water_W", steady.shares.toWater_W);
  json.number("reflected_W", steady.shares.reflected_W);
  json.number("top_W", steady.shares.top_W);
  json.number("back_W", steady.shares.back_W);
  json.number("edge_W", steady.shares.edge_W);
  json.close();
  json.open("runs", '[', kLines);
  for (std::size_t i = 0; i < steady.runs.size(); ++i) {
    const thermal::RunHeat& run = steady.runs[i];
    json.openItem('{', kOneLine);
    json.text("run", runName(results, i));
    json.number("outlet_C", run.outlet_K - kFreezing_K);
    json.number("gained_W", run.gained_W);
    json.number("mass_flow_kg_s", run.massFlow_kg_s);
    json.number("specific_heat_J_kgK", run.specificHeat_J_kgK);
    json.close();
  }
  json.close();
  json.number("coupling_iterations", heat.couplingIterations);
  json.number("iterations", steady.iterations);
  json.number("residual_W", steady.residual_W);
}

void stoppedMembers(JsonWriter& json, const thermal::StoppedHeat& stopped) {
  json.number("boiling_C", stopped.boiling_K - kFreezing_K);
  json.flag("water_boils", stopped.waterBoils);
  json.number("loss_coefficient_W_m2K", stopped.lossCoefficient_W_m2K);
  json.open("layers", '[', kLines);
  for (const thermal::StoppedLayer& layer : stopped.layers) {
    json.openItem('{', kOneLine);
    json.text("part", layer.part);
    json.number("dry_C", layer.dry_K - kFreezing_K);
    json.number("wet_C", layer.wet_K - kFreezing_K);
    json.number("limit_C", layer.limit_K ? std::optional(*layer.limit_K - kFreezing_K) : std::nullopt);
    json.text("limit_source", layer.limitSource);
    json.number("minutes_to_limit", layer.minutesToLimit);
    json.close();
  }
  json.close();
}

void profiles(JsonWriter& json, const results::Results& results) {
  json.open("profiles", '[', kLines);
  for (std::size_t i = 0; i < results.profiles.size(); ++i) {
    const results::RunProfile& profile = results.profiles[i];
    json.openItem('{', kLines);
    json.text("run", runName(results, i));
    json.number("lowest_gauge_Pa", profile.lowestGauge_Pa);
    json.number("lowest_station_m", profile.lowestStation_m);
    json.open("points", '[', kLines);
    for (const results::RunProfile::Point& point : profile.points) {
      json.openItem('{', kOneLine);
      json.number("station_m", point.station_m);
      json.number("water_C", point.water_K - kFreezing_K);
      json.number("gauge_Pa", point.gauge_Pa);
      json.number("height_m", point.height_m);
      json.number("water_line_m", point.waterLine_m);
      json.close();
    }
    json.close();
    json.close();
  }
  json.close();
}

// ---- stock

void wantedList(JsonWriter& json, const std::vector<stock::WantedPiece>& wanted) {
  json.open("wanted", '[', kLines);
  for (const stock::WantedPiece& piece : wanted) {
    json.openItem('{', kOneLine);
    json.text("name", piece.name);
    json.number("length_m", piece.length.si());
    json.number("count", piece.count);
    json.close();
  }
  json.close();
}
void stockList(JsonWriter& json, const std::vector<stock::StockLength>& stock) {
  json.open("stock", '[', kLines);
  for (const stock::StockLength& length : stock) {
    json.openItem('{', kOneLine);
    json.text("name", length.name);
    json.number("length_m", length.length.si());
    json.number("owned", length.owned);
    json.flag("can_buy", length.canBuy);
    json.number("price", length.price);
    json.close();
  }
  json.close();
}
/// "stock" and "pieces" of a pattern count the items of the lists "stock" and "wanted" from 0.
void cutMembers(JsonWriter& json, const stock::CutPlan& plan) {
  json.number("lengths_used", plan.lengthsUsed);
  json.number("lower_bound", plan.lowerBound);
  json.number("bought", plan.bought);
  json.number("bought_lower_bound", plan.boughtLowerBound);
  json.number("bought_length_m", plan.boughtLength.si());
  json.number("price", plan.price);
  json.number("price_lower_bound", plan.priceLowerBound);
  json.flag("proven", plan.proven);
  json.text("proof", plan.proof);
  json.number("total_left_m", plan.totalLeft.si());
  json.number("kerf_m", plan.rule.kerf.si());
  json.number("squaring_m", plan.rule.squaring.si());
  wantedList(json, plan.wanted);
  stockList(json, plan.stock);
  json.open("patterns", '[', kLines);
  for (const stock::CutPattern& pattern : plan.patterns) {
    json.openItem('{', kOneLine);
    json.number("stock", static_cast<double>(pattern.stock));
    json.flag("owned", pattern.owned);
    std::string pieces = "[";
    for (const std::size_t piece : pattern.pieces) {
      if (pieces.size() > 1) pieces += ", ";
      pieces += std::to_string(piece);
    }
    json.raw("pieces", pieces + ']');
    json.number("used_m", pattern.used.si());
    json.number("left_m", pattern.left.si());
    json.flag("no_squaring_allowance", pattern.noSquaringAllowance);
    json.number("spare_m", pattern.spare.si());
    json.close();
  }
  json.close();
  json.open("joins", '[', kLines);
  for (const stock::Join& join : plan.joins) {
    json.openItem('{', kOneLine);
    json.number("wanted", static_cast<double>(join.wanted));
    json.number("first", static_cast<double>(join.first));
    json.number("second", static_cast<double>(join.second));
    json.number("at_m", join.at.si());
    json.close();
  }
  json.close();
}

void wantedRectangles(JsonWriter& json, const stock::SheetPlan& plan) {
  json.open("wanted", '[', kLines);
  for (std::size_t i = 0; i < plan.wanted.size(); ++i) {
    json.openItem('{', kOneLine);
    json.text("name", plan.wanted[i].name);
    json.number("width_m", plan.wanted[i].width.si());
    json.number("height_m", plan.wanted[i].height.si());
    json.number("count", plan.wanted[i].count);
    json.number("columns", plan.divisions[i].columns);
    json.number("rows", plan.divisions[i].rows);
    json.close();
  }
  json.close();
}
void stockSheets(JsonWriter& json, const std::vector<model::StockSheet>& sheets) {
  json.open("stock", '[', kLines);
  for (const model::StockSheet& sheet : sheets) {
    json.openItem('{', kOneLine);
    json.text("name", sheet.name);
    json.number("width_m", sheet.width.si());
    json.number("height_m", sheet.height.si());
    json.number("owned", sheet.owned);
    json.number("price", sheet.price);
    json.flag("can_turn", sheet.canTurn);
    json.close();
  }
  json.close();
}
void sheetPattern(JsonWriter& json, const stock::SheetPattern& pattern) {
  json.openItem('{', kLines);
  json.number("stock", static_cast<double>(pattern.stock));
  json.flag("owned", pattern.owned);
  json.open("pieces", '[', kLines);
  for (const stock::PlacedPiece& piece : pattern.pieces) {
    json.openItem('{', kOneLine);
    json.number("wanted", static_cast<double>(piece.wanted));
    json.number("part", piece.part);
    json.number("x_m", piece.x.si());
    json.number("y_m", piece.y.si());
    json.number("width_m", piece.width.si());
    json.number("height_m", piece.height.si());
    json.flag("turned", piece.turned);
    json.close();
  }
  json.close();
  json.number("free_width_m", pattern.freeWidth.si());
  json.number("free_height_m", pattern.freeHeight.si());
  json.close();
}
/// As cutMembers: indices count from 0.
void sheetMembers(JsonWriter& json, const stock::SheetPlan& plan) {
  json.number("sheets_used", plan.sheetsUsed);
  json.number("lower_bound", plan.lowerBound);
  json.number("bought", plan.bought);
  json.number("price", plan.price);
  json.flag("proven", plan.proven);
  json.text("proof", plan.proof);
  json.number("waste_share", plan.waste);
  json.number("joints", plan.joints);
  json.number("kerf_m", plan.rule.kerf.si());
  json.number("lap_m", plan.rule.lap.si());
  json.number("gap_m", plan.rule.expansionGap.si());
  json.number("growth_share", plan.rule.growth);
  wantedRectangles(json, plan);
  stockSheets(json, plan.stock);
  json.open("patterns", '[', kLines);
  for (const stock::SheetPattern& pattern : plan.patterns) sheetPattern(json, pattern);
  json.close();
}
void sheetCuts(JsonWriter& json, const results::Results& results) {
  json.open("sheet_cuts", '{', kLines);
  for (const results::SheetCut& cut : results.sheetCuts) {
    part(json, cut.part, cut.plan, [&](const auto& plan) { sheetMembers(json, plan); });
  }
  json.close();
}

void holes(JsonWriter& json, const results::Results& results) {
  json.open("holes", '[', kLines);
  for (const results::Hole& hole : results.holes) {
    json.openItem('{', kOneLine);
    json.text("part", hole.part);
    json.text("side", word(hole.side));
    json.text("run", std::string(1, hole.run));
    json.text("for", hole.feed ? "feed" : "return");
    json.number("x_m", hole.x_m);
    json.number("y_m", hole.y_m);
    json.number("along_m", hole.along_m);
    json.number("from_back_m", hole.fromBack_m);
    json.number("diameter_m", hole.diameter_m);
    json.number("left_beside_m", hole.left_m);
    json.close();
  }
  json.close();
}

void buying(JsonWriter& json, const model::Document& document, const results::Buying& buying) {
  json.open("buying", '{', kLines);
  json.text("currency", document.stock.currency);
  json.number("known_total", buying.knownTotal);
  json.number("unknown_prices", buying.unknownPrices);
  json.number("known_low", buying.knownLow);
  json.number("known_high", buying.knownHigh);
  json.number("rolls_low", buying.rollsLow);
  json.number("rolls", buying.rolls);
  json.number("rolls_high", buying.rollsHigh < 0 ? std::nullopt : std::optional<double>(buying.rollsHigh));
  json.number("manifold_tees", buying.manifoldTees);
  json.open("tight_rolls", '[', kLines);
  for (const results::Buying::TightRoll& roll : buying.tightRolls) {
    json.openItem('{', kOneLine);
    json.number("pattern", static_cast<double>(roll.pattern));
    json.number("short_by_m", roll.shortBy.si());
    json.close();
  }
  json.close();
  json.open("rows", '[', kLines);
  for (const results::Buying::Row& row : buying.rows) {
    json.openItem('{', kOneLine);
    json.text("item", row.item);
    json.text("name", row.name);
    json.number(withUnit("amount", row.dimension), inUnitOf(row.dimension, row.amount));
    json.number("stock_units", row.stockUnits);
    json.text("units", row.units == Dimension::Area ? "m2" : "pieces");
    json.number("owned", row.owned);
    json.number("unit_price", row.unitPrice);
    json.number("price", row.price);
    json.text("note", row.note);
    json.close();
  }
  json.close();
  json.close();
}

void influences(JsonWriter& json, const std::vector<results::Influence>& influences) {
  json.open("influences", '[', kLines);
  for (const results::Influence& influence : influences) {
    json.openItem('{', kOneLine);
    json.text("input", influence.input);
    json.text("sureness", model::wordOf(influence.sureness));
    json.number("flow_m3_s", influence.flow_m3_s);
    json.number("heat_W", influence.heat_W);
    json.number("loss_Pa", influence.loss_Pa);
    json.close();
  }
  json.close();
}

// ---- snags

void places(JsonWriter& json, const results::Results& results, const Snag& snag) {
  json.open("places", '[', kOneLine);
  for (const SnagPlace& place : snag.places) {
    json.openItem('{', kOneLine);
    if (place.run >= 0) {
      json.text("run", runName(results, static_cast<std::size_t>(place.run)));
      json.number("station_m", place.station_m);
    } else {
      json.text("part", place.part);
    }
    json.close();
  }
  json.close();
}
void snags(JsonWriter& json, const results::Results& results) {
  json.open("snags", '[', kLines);
  for (const Snag& snag : results.snags) {
    json.openItem('{', kOneLine);
    json.text("key", checks::snagKey(snag));
    json.text("code", checks::codeKey(snag.code));
    json.text("state", checks::stateKey(snag.state));
    json.text("left_because", snag.leftBecause);
    places(json, results, snag);
    factObject(json, "measured", snag.measured);
    factObject(json, "limit", snag.limit);
    factObject(json, "cost", snag.cost);
    factList(json, "why", snag.why);
    json.text("source", snag.source);
    json.close();
  }
  json.close();
}

void heading(JsonWriter& json, std::string_view format, const model::Document& document) {
  json.text("format", format);
  json.number("version", 1.0);
  json.text("project", document.name);
}

}  // namespace

std::string writeResults(const model::Document& document, const results::Results& results) {
  JsonWriter json;
  json.openItem('{', kLines);
  heading(json, "sunspool-results", document);
  part(json, "layout", results.layout, [&](const auto& laid) { layoutMembers(json, laid); });
  ranged(json, "tube_length", results.tubeLength);
  ranged(json, "water", results.water);
  bends(json, results);
  depth(json, results.depth);
  masses(json, results.masses);
  part(json, "sun", results.sun, [&](const auto& sun) { sunMembers(json, sun); });
  part(json, "flow", results.flow, [&](const auto& flow) { flowMembers(json, results, flow); });
  part(json, "heat", results.heat, [&](const auto& heat) { heatMembers(json, results, heat); });
  part(json, "stopped", results.stopped, [&](const auto& stopped) { stoppedMembers(json, stopped); });
  profiles(json, results);
  part(json, "tube_cuts", results.tubeCuts, [&](const auto& plan) { cutMembers(json, plan); });
  part(json, "timber_cuts", results.timberCuts, [&](const auto& plan) { cutMembers(json, plan); });
  sheetCuts(json, results);
  holes(json, results);
  wind(json, results);
  buying(json, document, results.buying);
  influences(json, results.influences);
  snags(json, results);
  json.close();
  return json.take();
}

std::string writeSnags(const model::Document& document, const results::Results& results) {
  JsonWriter json;
  json.openItem('{', kLines);
  heading(json, "sunspool-snags", document);
  snags(json, results);
  json.close();
  return json.take();
}

}  // namespace sunspool::io
