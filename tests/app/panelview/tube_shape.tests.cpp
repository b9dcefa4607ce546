// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/tube_shape.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "app/panelview/contours.h"
#include "app/panelview/scene_units.h"
#include "core/model/defaults.h"

using namespace sunspool;
using namespace sunspool::panelview;
using Point = results::RunProfile::Point;

namespace {

results::RunProfile linearProfile(double length_m, double from_K, double to_K) {
  results::RunProfile profile;
  for (int i = 0; i <= 10; ++i) {
    Point point;
    point.station_m = length_m * i / 10.0;
    point.water_K = from_K + (to_K - from_K) * i / 10.0;
    profile.points.push_back(point);
  }
  return profile;
}

}  // namespace

TEST_CASE("The scene is the panel in millimetres with y turned over", "[panelview][analytic]") {
  CHECK(toScene(geometry::Point{1.5, 0.25}) == QPointF(1500.0, -250.0));
  const geometry::Point back = toPanel(toScene(geometry::Point{0.37, -2.1}));
  CHECK_THAT(back.x, Catch::WithinAbs(0.37, 1e-15));
  CHECK_THAT(back.y, Catch::WithinAbs(-2.1, 1e-15));
}

TEST_CASE("The stretches of a run cover it once from end to end", "[panelview][property]") {
  const Result<layout::LaidPanel> panel = layout::lay(model::firstPanel());
  REQUIRE(panel);
  const layout::LaidRun& run = panel->runs[0];
  const results::RunProfile profile = linearProfile(run.path.length().si(), 297.0, 299.6);
  const TubeShape shape(run, 0.020, colourSteps(profile.points, 296.5, 300.0));
  double at = 0.0;
  int lastStep = -1;
  for (const Level level : {Level::Turns, Level::Crossing}) {
    for (const Stretch& stretch : shape.stretches(level)) {
      CHECK_THAT(stretch.from_m, Catch::WithinAbs(at, 1e-9));
      CHECK(stretch.to_m > stretch.from_m);
      CHECK_THAT(geometry::length(stretch.piece), Catch::WithinAbs(stretch.to_m - stretch.from_m, 1e-9));
      CHECK(stretch.step >= lastStep);
      at = stretch.to_m;
      lastStep = stretch.step;
    }
  }
  CHECK_THAT(at, Catch::WithinAbs(run.path.length().si(), 1e-9));
}

TEST_CASE("Colours change where the rounded share of the ramp changes", "[panelview][analytic]") {
  const results::RunProfile profile = linearProfile(63.0, 300.0, 363.0);  // one step of the ramp per metre
  const std::vector<ColourStep> steps = colourSteps(profile.points, 300.0, 363.0);
  REQUIRE(steps.size() == 64);
  for (std::size_t i = 1; i < steps.size(); ++i) {
    CHECK(steps[i].step == static_cast<int>(i));
    CHECK_THAT(steps[i].station_m, Catch::WithinAbs(static_cast<double>(i) - 0.5, 1e-9));
  }
}

TEST_CASE("Without a profile the whole run has the first colour", "[panelview]") {
  const std::vector<ColourStep> steps = colourSteps({}, 0.0, 0.0);
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].step == 0);
}

TEST_CASE("The ramp's scale is rounded out to a whole step with at most seven contours", "[panelview][property]") {
  for (const double rise : {0.3, 1.1, 2.6, 4.2, 9.0, 22.0, 55.0, 130.0}) {
    const std::vector<results::RunProfile> profiles = {linearProfile(80.0, 297.23, 297.23 + rise)};
    const RampScale scale = rampScaleOf(profiles, format::UnitSystem::Metric);
    CAPTURE(rise);
    REQUIRE(scale.known());
    CHECK(scale.low_K <= 297.23);
    CHECK(scale.high_K >= 297.23 + rise);
    CHECK(scale.low_K > 297.23 - scale.step_K);
    const double steps = (scale.low_K - 273.15) / scale.step_K;
    CHECK_THAT(steps, Catch::WithinAbs(std::round(steps), 1e-6));
    CHECK(contoursOf(profiles, scale).size() <= 7);
  }
}

TEST_CASE("A contour lies where the water has that temperature", "[panelview][analytic]") {
  const std::vector<results::RunProfile> profiles = {linearProfile(80.0, 297.15, 299.75)};
  const RampScale scale = rampScaleOf(profiles, format::UnitSystem::Metric);
  const std::vector<Contour> contours = contoursOf(profiles, scale);
  REQUIRE(contours.size() == 5);
  CHECK_THAT(contours[0].water_K, Catch::WithinAbs(297.65, 1e-9));
  CHECK_THAT(contours[0].station_m, Catch::WithinAbs(80.0 * 0.5 / 2.6, 1e-6));
}

TEST_CASE("One temperature everywhere makes no scale and no contours", "[panelview]") {
  const std::vector<results::RunProfile> profiles = {linearProfile(80.0, 297.0, 297.0)};
  const RampScale scale = rampScaleOf(profiles, format::UnitSystem::Metric);
  CHECK_FALSE(scale.known());
  CHECK(contoursOf(profiles, scale).empty());
}
