// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/evaluate/evaluate.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/materials/water.h"
#include "core/thermal/panel_balance.h"

namespace sunspool::evaluate {
namespace {

constexpr int kQuarters = 96;
constexpr double kQuarter_h = 0.25;
constexpr double kQuarter_s = 900.0;
constexpr int kMiddleOfMonth = 15;

/// The document at the middle of one of its quarter hours, under its own sky.
model::Document atQuarter(const model::Document& document, int quarter) {
  model::Document at = document;
  at.conditions.onPanel.reset();
  at.moment.clock_h = kQuarter_h * (quarter + 0.5);
  return at;
}

double area_m2(const model::Document& document) {
  return (document.frame.insideWidth * document.frame.insideHeight).si() * model::panelsOnThePump(document);
}

/// Whether a heat that could not be reckoned only says that the pump stands still.
bool standsStill(const Error& error) {
  return error.code == ErrorCode::NoFlow || error.code == ErrorCode::PumpNeverStarts || error.detail == "water_freezes";
}

void fillRunning(const model::Document& document, const Coupled& coupled, DayQuarter& bar) {
  const thermal::SteadyHeat& heat = *coupled.heat;
  const thermal::SunShares& shares = heat.shares;
  const double panels = model::panelsOnThePump(document);
  bar.toPool_W = heat.toWater_W * panels;
  bar.lost_W = (shares.top_W + shares.back_W + shares.edge_W - heat.tails_W) * panels;
  bar.reflected_W = shares.reflected_W * panels;
  bar.outlet_K = mixedOutlet_K(heat, coupled.flow);
  bar.hottest_K = heat.hottestAbsorber_K;
}

std::optional<Error> fillStill(const model::Document& document, const thermal::PanelHeat& panel,
                               const thermal::Sky& sky, DayQuarter& bar) {
  const Result<thermal::PanelBalance> balance = thermal::PanelBalance::from(panel, sky, panel.tubeInside_m);
  if (!balance) return balance.error();
  const Result<thermal::StoppedHeat> stopped = thermal::stopped(panel, sky, standingColumn_Pa(document));
  if (!stopped) return stopped.error();
  bar.waiting_W = balance->sun().tauAlpha * bar.falling_W;
  bar.reflected_W = bar.falling_W - bar.waiting_W;
  for (const auto& layer : stopped->layers) bar.hottest_K = std::max(bar.hottest_K, layer.wet_K);
  return std::nullopt;
}

/// nullopt: no sun.
Result<std::optional<DayQuarter>> quarterOf(const model::Document& document, const layout::LaidPanel& laid,
                                            int quarter) {
  const model::Document at = atQuarter(document, quarter);
  const Result<results::SunNow> sun = sunNow(at);
  if (!sun) return sun.error();
  const double taken_W_m2 = sun->shadedBeam_W_m2 + sun->shadedSky_W_m2;
  if (sun->plane.total_W_m2 + taken_W_m2 <= 0.0) return std::optional<DayQuarter>();
  DayQuarter bar;
  bar.clock_h = kQuarter_h * quarter;
  bar.falling_W = sun->plane.total_W_m2 * area_m2(document);
  bar.shade_W = taken_W_m2 * area_m2(document);
  const Result<Coupled> coupled = flowAndHeat(at, laid, &*sun);
  if (!coupled) return coupled.error();
  if (!coupled->heat && !standsStill(coupled->heat.error())) return coupled->heat.error();
  if (coupled->heat && coupled->heat->toWater_W > 0.0) {
    fillRunning(document, *coupled, bar);
  } else if (const auto error = fillStill(document, panelHeat(at, laid), skyOver(at, *sun), bar)) {
    return *error;
  }
  return std::optional(bar);
}

void add(const DayQuarter& bar, DayEnergies& sums) {
  sums.falling += joules(bar.falling_W * kQuarter_s);
  sums.toPool += joules(bar.toPool_W * kQuarter_s);
  sums.shade += joules(bar.shade_W * kQuarter_s);
  sums.lost += joules(bar.lost_W * kQuarter_s);
  sums.reflected += joules(bar.reflected_W * kQuarter_s);
  sums.waiting += joules(bar.waiting_W * kQuarter_s);
}

Result<Day> dayOf(const model::Document& document, const layout::LaidPanel& laid) {
  Day day;
  for (int quarter = 0; quarter < kQuarters; ++quarter) {
    const Result<std::optional<DayQuarter>> bar = quarterOf(document, laid, quarter);
    if (!bar) return bar.error();
    if (!*bar) continue;
    add(**bar, day);
    day.quarters.push_back(**bar);
  }
  return day;
}

thermal::Sky underCloth(const model::Document& document, thermal::Sky sky) {
  const double passing = document.box.shadeCloth ? document.box.shadeCloth->value : 1.0;
  sky.beam_W_m2 *= passing;
  sky.sky_W_m2 *= passing;
  sky.ground_W_m2 *= passing;
  return sky;
}

/// As warm as the pump left the panel.
Result<double> startOf(const model::Document& at, const layout::LaidPanel& laid, const results::SunNow& sun) {
  const double pool_K = at.pool.water.value.inKelvin();
  const Result<Coupled> coupled = flowAndHeat(at, laid, &sun);
  if (!coupled) return coupled.error();
  if (!coupled->heat && !standsStill(coupled->heat.error())) return coupled->heat.error();
  return coupled->heat ? std::max(pool_K, coupled->heat->meanAbsorber_K) : pool_K;
}

}  // namespace

Result<Day> day(const model::Document& document) {
  const Result<layout::LaidPanel> laid = layout::lay(document);
  if (!laid) return laid.error();
  Result<Day> day = dayOf(document, *laid);
  if (!day) return day;
  const Result<materials::Water> water = materials::waterAt(document.pool.water.value);
  if (!water) return water.error();
  day->poolRise = day->toPool / (document.pool.volume * water->density * water->specificHeat);
  return day;
}

Result<std::vector<DayEnergies>> months(const model::Document& document) {
  const Result<layout::LaidPanel> laid = layout::lay(document);
  if (!laid) return laid.error();
  std::vector<DayEnergies> months;
  model::Document inMonth = document;
  inMonth.moment.day = kMiddleOfMonth;
  for (inMonth.moment.month = 1; inMonth.moment.month <= 12; ++inMonth.moment.month) {
    const Result<Day> day = dayOf(inMonth, *laid);
    if (!day) return day.error();
    months.push_back(*day);
  }
  return months;
}

Result<StoppedDay> stoppedDay(const model::Document& document) {
  const Result<layout::LaidPanel> laid = layout::lay(document);
  if (!laid) return laid.error();
  const thermal::PanelHeat panel = panelHeat(document, *laid);
  StoppedDay day;
  day.tubeLimit_K = document.tube.limit.inKelvin();
  day.limitSource = document.tube.limitSource;
  for (int quarter = 0; quarter < kQuarters; ++quarter) {
    const model::Document at = atQuarter(document, quarter);
    const Result<results::SunNow> sun = sunNow(at);
    if (!sun) return sun.error();
    if (sun->plane.total_W_m2 <= 0.0) continue;
    const Result<double> start_K = startOf(at, *laid, *sun);
    if (!start_K) return start_K.error();
    const thermal::Sky sky = underCloth(document, skyOver(at, *sun));
    const Result<thermal::StoppedHeat> stopped = thermal::stopped(panel, sky, standingColumn_Pa(document), *start_K);
    if (!stopped) return stopped.error();
    const auto tube = std::find_if(stopped->layers.begin(), stopped->layers.end(),
                                   [](const auto& layer) { return layer.part == "tube"; });
    day.boiling_K = stopped->boiling_K;
    day.quarters.push_back({kQuarter_h * quarter, sky.beam_W_m2 + sky.sky_W_m2 + sky.ground_W_m2, tube->dry_K,
                            tube->wet_K, tube->minutesToLimit});
  }
  return day;
}

}  // namespace sunspool::evaluate
