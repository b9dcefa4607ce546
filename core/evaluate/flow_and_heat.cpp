// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/flow_and_heat.h"

#include <algorithm>
#include <cmath>

#include "core/checks/measures.h"
#include "core/hydraulics/fittings.h"
#include "core/hydraulics/profile.h"
#include "core/materials/water.h"

namespace sunspool::evaluate {
namespace {

constexpr int kMostIterations = 30;
constexpr double kFlowChange = 1e-6;

/// A stretch of one run as flow and heat see it, in flow order.
struct RunStretch {
  double from_m = 0.0;    ///< station on the path, in plan
  double length_m = 0.0;  ///< of tube: ramps and the tail behind the panel have none in plan
  double plan_m = 0.0;
  double bendRadius_m = 0.0;
  bool insideBox = true;
};

/// Pieces of the run cut at the frame's faces; a crossing's extra length rides on the piece where it begins.
std::vector<RunStretch> stretchesOf(const layout::LaidRun& run) {
  std::vector<RunStretch> stretches;
  const auto pieces = run.path.pieces();
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto* arc = std::get_if<geometry::Arc>(&pieces[i]);
    const double from = run.path.stationOf(i), to = run.path.stationOf(i + 1);
    double cuts[] = {from, std::clamp(run.insideFrom_m, from, to), std::clamp(run.insideTo_m, from, to), to};
    for (int part = 0; part < 3; ++part) {
      const double length = cuts[part + 1] - cuts[part];
      if (length <= 1e-12) continue;
      stretches.push_back({cuts[part], length, length, arc != nullptr ? arc->radius : 0.0, part == 1});
    }
  }
  if (run.crossing) {
    const auto at = std::find_if(stretches.begin(), stretches.end(),
                                 [&](const RunStretch& s) { return s.from_m + s.length_m > run.crossing->from_m; });
    if (at != stretches.end()) at->length_m += run.crossing->extraLength_m;
  }
  if (run.tailBehind_m > 0.0) stretches.push_back({run.path.length().si(), run.tailBehind_m, 0.0, 0.0, false});
  return stretches;
}

double temperatureAt(const std::vector<thermal::TemperaturePoint>& profile, double station_m) {
  const auto after = std::lower_bound(profile.begin(), profile.end(), station_m,
                                      [](const thermal::TemperaturePoint& p, double s) { return p.station_m < s; });
  if (after == profile.begin()) return profile.front().water_K;
  if (after == profile.end()) return profile.back().water_K;
  const auto before = after - 1;
  const double span = after->station_m - before->station_m;
  const double share = span > 0.0 ? (station_m - before->station_m) / span : 0.0;
  return before->water_K + share * (after->water_K - before->water_K);
}

/// The run as the network sees it, each stretch at its own water temperature.
hydraulics::FlowPath flowPath(const model::Document& document, const std::vector<RunStretch>& stretches,
                              const thermal::RunHeat* heat, double inlet_K) {
  hydraulics::FlowPath path;
  path.insideDiameter_m = document.tube.insideDiameter.value.si();
  path.roughness_m = document.tube.roughness.value.si();
  path.lossCoefficientSum =
      hydraulics::lossCoefficientSum(document.plumbing.runFittings, document.tube.insideDiameter.value);
  double station = 0.0;
  for (const RunStretch& stretch : stretches) {
    const double water_K = heat != nullptr ? temperatureAt(heat->profile, station + 0.5 * stretch.length_m) : inlet_K;
    path.stretches.push_back({stretch.length_m, stretch.bendRadius_m, water_K});
    station += stretch.length_m;
  }
  return path;
}

double highestPoint_m(const model::Document& document) {
  const double upperEdge = document.siting.lowerEdgeAbovePool.si() +
                           checks::outerHeight(document).si() * std::sin(document.siting.tilt.radians());
  return std::max({document.plumbing.highestPointAbovePool.si(), upperEdge, document.plumbing.pumpAbovePool.si(), 0.0});
}

std::vector<thermal::HeatRun> heatRuns(const std::vector<std::vector<RunStretch>>& stretches,
                                       const hydraulics::NetworkFlow& flow) {
  std::vector<thermal::HeatRun> runs(stretches.size());
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    runs[i].flow_m3_s = flow.runs[i].flow_m3_s;
    for (const RunStretch& s : stretches[i]) runs[i].stretches.push_back({s.length_m, s.bendRadius_m, s.insideBox});
  }
  return runs;
}

double largestChange(const hydraulics::NetworkFlow& before, const hydraulics::NetworkFlow& after) {
  double change = 0.0;
  for (std::size_t i = 0; i < after.runs.size(); ++i) {
    change = std::max(change, std::abs(after.runs[i].flow_m3_s / before.runs[i].flow_m3_s - 1.0));
  }
  return change;
}

/// The network with every stretch at its temperature of the last heat, or all at the pool's.
hydraulics::Network networkAt(const model::Document& document, const std::vector<std::vector<RunStretch>>& stretches,
                              const thermal::SteadyHeat* heat, double returning_K) {
  const double inlet_K = document.pool.water.value.inKelvin();
  hydraulics::Network network;
  network.feed = hydraulics::pathOf(document.plumbing.feed, Temperature::fromKelvin(inlet_K));
  network.returning = hydraulics::pathOf(document.plumbing.returning, Temperature::fromKelvin(returning_K));
  network.highestPoint_m = highestPoint_m(document);
  network.staticHead_m = document.plumbing.returnEndsUnderWater ? 0.0 : document.plumbing.returnOutletAbovePool.si();
  network.alike = model::panelsOnThePump(document);
  network.airPressure_Pa = materials::airPressure(document.place.altitude).si();
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    network.runs.push_back(flowPath(document, stretches[i], heat != nullptr ? &heat->runs[i] : nullptr, inlet_K));
  }
  return network;
}

constexpr double kProfileStep_m = 0.25;

/// Places along a run: station in plan, as the drawing counts, and metres of tube, as water counts.
struct Place {
  double plan_m = 0.0, tube_m = 0.0;
};
std::vector<Place> placesAlong(const std::vector<RunStretch>& stretches) {
  std::vector<Place> places{{0.0, 0.0}};
  double tube = 0.0;
  for (const RunStretch& stretch : stretches) {
    const int steps = std::max(1, static_cast<int>(std::ceil(stretch.length_m / kProfileStep_m)));
    for (int i = 1; i <= steps; ++i) {
      const double share = static_cast<double>(i) / steps;
      places.push_back({stretch.from_m + share * stretch.plan_m, tube + share * stretch.length_m});
    }
    tube += stretch.length_m;
  }
  return places;
}

Result<results::RunProfile> profileOf(const model::Document& document, const layout::LaidRun& run,
                                      const Coupled& coupled, std::size_t index) {
  const std::vector<Place> places = placesAlong(stretchesOf(run));
  std::vector<hydraulics::HeightAt> heights;
  for (const Place& place : places) {
    heights.push_back({place.tube_m, heightOverPool_m(document, run.path.pointAt(place.plan_m))});
  }
  const Result<std::vector<hydraulics::PressurePoint>> pressures =
      hydraulics::pressureAlongRun(coupled.network, coupled.flow, index, heights);
  if (!pressures.has_value()) return pressures.error();
  results::RunProfile profile;
  const double inlet_K = document.pool.water.value.inKelvin();
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double water_K =
        coupled.heat.has_value() ? temperatureAt(coupled.heat->runs[index].profile, places[i].tube_m) : inlet_K;
    const auto& pressure = (*pressures)[i];
    profile.points.push_back({places[i].plan_m, water_K, pressure.gauge_Pa, heights[i].height_m, pressure.waterLine_m});
    if (i == 0 || pressure.gauge_Pa < profile.lowestGauge_Pa) {
      profile.lowestGauge_Pa = pressure.gauge_Pa;
      profile.lowestStation_m = places[i].plan_m;
    }
  }
  return profile;
}

/// What the obstacles leave of the sun on the plane.
void shade(const model::Document& document, results::SunNow& now) {
  now.inShade = climate::isHidden(document.obstacles, now.position);
  const double hidden = climate::hiddenSkyShare(document.obstacles, document.siting.tilt, document.siting.azimuth);
  if (now.inShade) now.shadedBeam_W_m2 = now.plane.beam_W_m2;
  now.shadedSky_W_m2 = hidden * now.plane.sky_W_m2;
  now.plane.beam_W_m2 -= now.shadedBeam_W_m2;
  now.plane.sky_W_m2 -= now.shadedSky_W_m2;
  now.plane.total_W_m2 = now.plane.beam_W_m2 + now.plane.sky_W_m2 + now.plane.ground_W_m2;
}

/// sunNow() without the hours of rise and set, which cost more than all else.
Result<results::SunNow> sunOnPanel(const model::Document& document) {
  const Result<climate::SunPosition> position = climate::sunPosition(document.place, document.moment);
  if (!position.has_value()) return position.error();
  results::SunNow now;
  now.position = *position;
  now.sky = climate::clearSky(now.position, document.place.altitude, document.conditions.linkeTurbidity.value);
  if (document.conditions.sky == model::SkyKind::Dull) {
    now.sky = climate::dulled(now.sky, now.position.zenith, document.conditions.dullShare.value);
  }
  now.plane = climate::onPlane(now.position, now.sky, document.siting.tilt, document.siting.azimuth,
                               document.conditions.groundReflectance, climate::SkyModel::Perez);
  if (!document.obstacles.empty()) shade(document, now);
  if (document.conditions.onPanel) {
    now.fixedByBuilder = true;
    now.shadedBeam_W_m2 = now.shadedSky_W_m2 = 0.0;
    const double wanted = document.conditions.onPanel->value.si();
    if (now.plane.total_W_m2 > 0.0) {
      const double factor = wanted / now.plane.total_W_m2;
      now.plane.beam_W_m2 *= factor;
      now.plane.sky_W_m2 *= factor;
      now.plane.ground_W_m2 *= factor;
    } else {
      now.plane.sky_W_m2 = wanted;  // a measured value with the sun down can only be diffuse
    }
    now.plane.total_W_m2 = wanted;
  }
  return now;
}

}  // namespace

Result<results::SunNow> sunNow(const model::Document& document) {
  Result<results::SunNow> now = sunOnPanel(document);
  if (!now.has_value()) return now;
  const Result<climate::SunDay> day = climate::sunDay(document.place, document.moment);
  if (!day.has_value()) return day.error();
  now->day = *day;
  return now;
}

thermal::Sky skyOver(const model::Document& document, const results::SunNow& sun) {
  const Temperature air = document.conditions.air.value;
  const double solarHour = 12.0 + sun.position.hourAngle.degrees() / 15.0;
  thermal::Sky sky;
  sky.air_K = air.inKelvin();
  sky.sky_K =
      climate::skyTemperature(air, climate::dewPoint(air, document.conditions.relativeHumidity.value), solarHour)
          .inKelvin();
  sky.wind_m_s = document.conditions.wind.value.si();
  sky.beam_W_m2 = sun.plane.beam_W_m2;
  sky.sky_W_m2 = sun.plane.sky_W_m2;
  sky.ground_W_m2 = sun.plane.ground_W_m2;
  sky.incidence_rad = sun.plane.incidence.radians();
  sky.airPressure_Pa = materials::airPressure(document.place.altitude).si();
  return sky;
}

Result<thermal::Sky> stoppedSky(const model::Document& document) {
  constexpr double kStandardSun_W_m2 = 1000.0, kBeamShare = 0.85, kStillAir_m_s = 1.0;
  const Temperature standardAir = celsius(30.0);
  double strongest_W_m2 = kStandardSun_W_m2;
  if (document.conditions.onPanel) strongest_W_m2 = std::max(strongest_W_m2, document.conditions.onPanel->value.si());
  model::Document atQuarter = document;
  atQuarter.conditions.onPanel.reset();
  atQuarter.conditions.sky = model::SkyKind::Clear;
  atQuarter.obstacles.clear();
  for (int quarter = 0; quarter < 96; ++quarter) {
    atQuarter.moment.clock_h = 0.25 * quarter;
    const Result<results::SunNow> sun = sunOnPanel(atQuarter);
    if (!sun.has_value()) return sun.error();
    strongest_W_m2 = std::max(strongest_W_m2, sun->plane.total_W_m2);
  }
  if (document.box.shadeCloth) strongest_W_m2 *= document.box.shadeCloth->value;
  const Temperature air = std::max(standardAir, document.conditions.air.value);
  thermal::Sky sky;
  sky.air_K = air.inKelvin();
  sky.sky_K =
      climate::skyTemperature(air, climate::dewPoint(air, document.conditions.relativeHumidity.value), 12.0).inKelvin();
  sky.wind_m_s = std::min(kStillAir_m_s, document.conditions.wind.value.si());
  sky.beam_W_m2 = kBeamShare * strongest_W_m2;
  sky.sky_W_m2 = strongest_W_m2 - sky.beam_W_m2;
  sky.airPressure_Pa = materials::airPressure(document.place.altitude).si();
  return sky;
}

thermal::PanelHeat panelHeat(const model::Document& document, const layout::LaidPanel& laid) {
  thermal::PanelHeat panel;
  const model::Frame& frame = document.frame;
  panel.area_m2 = (frame.insideWidth * frame.insideHeight).si();
  panel.grossArea_m2 = (checks::outerWidth(document) * checks::outerHeight(document)).si();
  panel.perimeter_m = 2.0 * (frame.insideWidth + frame.insideHeight).si();
  panel.depth_m = frame.timberDepth.si();
  panel.tilt_rad = document.siting.tilt.radians();
  panel.airGap_m = checks::depthBudget(document, nullptr).spare.si();
  panel.box = document.box;
  panel.tube = document.tube;
  panel.edgeThickness_m = frame.timberWidth.si();
  panel.tubeInside_m = laid.tubeInside.si();
  return panel;
}

Result<Coupled> flowAndHeat(const model::Document& document, const layout::LaidPanel& laid,
                            const results::SunNow* sun) {
  const Result<hydraulics::PumpCurve> pump = hydraulics::PumpCurve::from(document.plumbing.pump);
  if (!pump.has_value()) return pump.error();
  std::vector<std::vector<RunStretch>> stretches;
  for (const layout::LaidRun& run : laid.runs) stretches.push_back(stretchesOf(run));
  const double inlet_K = document.pool.water.value.inKelvin();

  Coupled coupled;
  coupled.shutOffHead_m = pump->shutOffHead_m();
  coupled.network = networkAt(document, stretches, nullptr, inlet_K);
  Result<hydraulics::NetworkFlow> flow = hydraulics::solve(coupled.network, *pump);
  if (!flow.has_value()) return flow.error();
  coupled.flow = *flow;
  coupled.heat = Error{ErrorCode::NoFlow, "pump", {}, {}};
  if (!coupled.flow.starts) {
    coupled.heat = Error{ErrorCode::PumpNeverStarts,
                         "pump",
                         {},
                         {{"starting_lift", coupled.flow.startingLift_m, Dimension::Head},
                          {"shut_off_head", coupled.shutOffHead_m, Dimension::Head}}};
  }
  if (sun == nullptr || !coupled.flow.starts || coupled.flow.flow_m3_s <= 0.0) return coupled;

  const thermal::PanelHeat panel = panelHeat(document, laid);
  const thermal::Sky sky = skyOver(document, *sun);
  double change = 0.0;
  for (coupled.iterations = 1; coupled.iterations <= kMostIterations; ++coupled.iterations) {
    coupled.heat = thermal::steady(panel, sky, heatRuns(stretches, coupled.flow), inlet_K);
    if (!coupled.heat.has_value()) return coupled;
    coupled.network = networkAt(document, stretches, &*coupled.heat, mixedOutlet_K(*coupled.heat, coupled.flow));
    flow = hydraulics::solve(coupled.network, *pump);
    if (!flow.has_value()) return flow.error();
    change = largestChange(coupled.flow, *flow);
    coupled.flow = *flow;
    if (change <= kFlowChange) return coupled;
  }
  return Error{ErrorCode::NotConverged, "flow and heat", {}, {{"change", change, Dimension::Percent}}};
}

Result<thermal::SteadyHeat> heatWithFairShares(const model::Document& document, const layout::LaidPanel& laid,
                                               const results::SunNow& sun, const Coupled& coupled) {
  std::vector<std::vector<RunStretch>> stretches;
  double length = 0.0, flow_m3_s = 0.0;
  for (std::size_t i = 0; i < laid.runs.size(); ++i) {
    stretches.push_back(stretchesOf(laid.runs[i]));
    length += laid.runs[i].cutLength_m;
    flow_m3_s += coupled.flow.runs[i].flow_m3_s;
  }
  hydraulics::NetworkFlow fair = coupled.flow;
  for (std::size_t i = 0; i < laid.runs.size(); ++i) {
    fair.runs[i].flow_m3_s = flow_m3_s * laid.runs[i].cutLength_m / length;
  }
  return thermal::steady(panelHeat(document, laid), skyOver(document, sun), heatRuns(stretches, fair),
                         document.pool.water.value.inKelvin());
}

Result<double> atTheStop_K(const model::Document& document, const layout::LaidPanel& laid,
                           const hydraulics::NetworkFlow* flow, const thermal::Sky& stopped) {
  const double pool_K = document.pool.water.value.inKelvin();
  if (flow == nullptr || !flow->starts) return pool_K;
  Result<thermal::Sky> sky = stopped;
  if (document.box.shadeCloth) {
    model::Document uncovered = document;
    uncovered.box.shadeCloth.reset();
    sky = stoppedSky(uncovered);
    if (!sky.has_value()) return sky.error();
  }
  std::vector<std::vector<RunStretch>> stretches;
  for (const layout::LaidRun& run : laid.runs) stretches.push_back(stretchesOf(run));
  const Result<thermal::SteadyHeat> heat =
      thermal::steady(panelHeat(document, laid), *sky, heatRuns(stretches, *flow), pool_K);
  return heat.has_value() ? std::max(pool_K, heat->meanAbsorber_K) : pool_K;
}

double mixedOutlet_K(const thermal::SteadyHeat& heat, const hydraulics::NetworkFlow& flow) {
  double weighted = 0.0, total = 0.0;
  for (std::size_t i = 0; i < heat.runs.size(); ++i) {
    weighted += heat.runs[i].outlet_K * flow.runs[i].flow_m3_s;
    total += flow.runs[i].flow_m3_s;
  }
  return weighted / total;
}

double standingColumn_Pa(const model::Document& document) {
  const double rise_m = std::sin(document.siting.tilt.radians()) * checks::outerHeight(document).si();
  const double density_kg_m3 = 1000.0;  // cold water, on the side of the higher boiling point by under 0.1 K
  return density_kg_m3 * kStandardGravity_m_s2 * rise_m;
}

double heightOverPool_m(const model::Document& document, geometry::Point point) {
  const double upSlope = point.y + document.frame.timberWidth.si();
  return document.siting.lowerEdgeAbovePool.si() + upSlope * std::sin(document.siting.tilt.radians());
}

Result<std::vector<results::RunProfile>> profiles(const model::Document& document, const layout::LaidPanel& laid,
                                                  const Coupled& coupled) {
  std::vector<results::RunProfile> all;
  if (!coupled.flow.starts) return all;
  for (std::size_t i = 0; i < laid.runs.size(); ++i) {
    Result<results::RunProfile> one = profileOf(document, laid.runs[i], coupled, i);
    if (!one.has_value()) return one.error();
    all.push_back(std::move(*one));
  }
  return all;
}

}  // namespace sunspool::evaluate
