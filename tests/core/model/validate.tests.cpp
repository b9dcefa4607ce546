// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/validate.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <string>

#include "core/model/defaults.h"

using namespace sunspool;
using model::Document;

namespace {

double factOf(const Error& error, const std::string& name) {
  for (const Fact& fact : error.facts) {
    if (fact.name == name) return fact.value_si;
  }
  FAIL("no fact " << name);
  return 0.0;
}

Error faultOf(const std::function<void(Document&)>& spoil) {
  Document document = model::firstPanel();
  spoil(document);
  const Result<Done> result = model::validate(document);
  REQUIRE_FALSE(result);
  return result.error();
}

}  // namespace

TEST_CASE("A value outside its limits is named with what is allowed", "[model][validate]") {
  const Error error = faultOf([](Document& d) { d.siting.tilt = degrees(91.0); });
  CHECK(error.code == ErrorCode::OutOfRange);
  CHECK(error.where == "/siting/tilt_deg");
  CHECK(factOf(error, "value") == degrees(91.0).radians());
  CHECK(factOf(error, "low") == 0.0);
  CHECK(factOf(error, "high") == degrees(90.0).radians());
}

TEST_CASE("Values at their limits are allowed", "[model][validate]") {
  Document document = model::firstPanel();
  document.siting.tilt = degrees(90.0);
  document.siting.azimuth = degrees(360.0);
  document.place.latitude = degrees(-90.0);
  document.frame.insideWidth = metres(0.001);  // absurd, but consistent: the layout answers
  CHECK(model::validate(document).has_value());
}

TEST_CASE("Numbers that are not finite are refused wherever they stand", "[model][validate]") {
  for (const double bad : {std::nan(""), HUGE_VAL, -HUGE_VAL}) {
    CHECK(faultOf([=](Document& d) { d.laying.pitch = metres(bad); }).where == "/laying/pitch_m");
    CHECK(faultOf([=](Document& d) { d.pool.water.value = Temperature::fromKelvin(bad); }).where ==
          "/pool/water/value_C");
    CHECK(faultOf([=](Document& d) { d.tube.conductivity.spread = wattsPerMetreKelvin(bad); }).where ==
          "/tube/conductivity/spread_W_mK");
    CHECK(faultOf([=](Document& d) { d.stock.rolls[0].price = bad; }).where == "/stock/rolls/0/price");
  }
}

TEST_CASE("A negative spread is refused", "[model][validate]") {
  const Error error = faultOf([](Document& d) { d.conditions.air.spread = kelvins(-1.0); });
  CHECK(error.code == ErrorCode::OutOfRange);
  CHECK(error.where == "/conditions/air/spread_K");
}

TEST_CASE("An inside diameter that is not below the outside one is asked about", "[model][validate]") {
  for (const double inside : {0.020, 0.025}) {
    const Error error = faultOf([=](Document& d) { d.tube.insideDiameter.value = metres(inside); });
    CHECK(error.code == ErrorCode::InsideNotBelowOutside);
    CHECK(error.where == "/tube/inside_diameter");
    CHECK(factOf(error, "inside") == inside);
    CHECK(factOf(error, "outside") == 0.020);
  }
}

TEST_CASE("Only one, two or four starts can be laid", "[model][validate]") {
  for (const int starts : {0, 3, 5, -1}) {
    const Error error = faultOf([=](Document& d) { d.laying.starts = starts; });
    CHECK(error.code == ErrorCode::OutOfRange);
    CHECK(error.where == "/laying/starts");
    CHECK(factOf(error, "value") == starts);
  }
}

TEST_CASE("Pump labels that no pump can have are refused", "[model][validate]") {
  const Error flow = faultOf([](Document& d) { d.plumbing.pump.labelFlow.value = litresPerMinute(0.0); });
  CHECK(flow.code == ErrorCode::PumpLabelImpossible);
  CHECK(flow.where == "/plumbing/pump/label_flow/value_m3_s");
  const Error head = faultOf([](Document& d) { d.plumbing.pump.labelHead.value = metres(-2.0); });
  CHECK(head.code == ErrorCode::PumpLabelImpossible);
  CHECK(head.where == "/plumbing/pump/label_head/value_m");
  // 25 L/min (the label in litres per hour read as per minute would be 1500) at 2.6 m: 245 W out of 45 W.
  const Error power = faultOf([](Document& d) { d.plumbing.pump.labelFlow.value = litresPerMinute(1500.0); });
  CHECK(power.code == ErrorCode::PumpLabelImpossible);
  // rho g H Q 2/(3 sqrt 3) = 1000 * 9.80665 * 2.6 * 0.025 * 0.3849 = 245.3 W, by hand.
  CHECK_THAT(factOf(power, "most_power"), Catch::Matchers::WithinAbs(245.3, 0.1));
  CHECK(factOf(power, "electrical_power") == 45.0);
}

TEST_CASE("Measured pump points must fall as the flow rises", "[model][validate]") {
  const auto withPoints = [](std::vector<model::PumpPoint> points) {
    return [points](Document& d) { d.plumbing.pump.points = points; };
  };
  const auto point = [](double flow_l_min, double head_m) {
    return model::PumpPoint{litresPerMinute(flow_l_min), metres(head_m)};
  };
  CHECK(faultOf(withPoints({point(0, 2)})).code == ErrorCode::PumpCurveRises);
  const Error rises = faultOf(withPoints({point(0, 2), point(5, 1), point(8, 1.5)}));
  CHECK(rises.code == ErrorCode::PumpCurveRises);
  CHECK(factOf(rises, "point") == 2.0);
  CHECK(faultOf(withPoints({point(5, 2), point(5, 1)})).code == ErrorCode::PumpCurveRises);
  Document document = model::firstPanel();
  withPoints({point(0, 2), point(5, 1), point(8, 0)})(document);
  document.plumbing.pump.labelFlow.value = litresPerMinute(0.0);  // the label is not used then
  CHECK(model::validate(document).has_value());
}

TEST_CASE("A day the calendar does not have is refused", "[model][validate]") {
  const Error error = faultOf([](Document& d) { d.moment = {2025, 2, 29, 12.0}; });
  CHECK(error.code == ErrorCode::DateImpossible);
  CHECK(error.where == "/moment/day");
  Document leap = model::firstPanel();
  leap.moment = {2024, 2, 29, 12.0};
  CHECK(model::validate(leap).has_value());
}

TEST_CASE("Keep-outs need three corners and an id of their own", "[model][validate]") {
  const geometry::Outline line{{{0.1, 0.1}, {0.2, 0.1}}};
  const geometry::Outline triangle{{{0.1, 0.1}, {0.2, 0.1}, {0.1, 0.2}}};
  const Error corners = faultOf([&](Document& d) { d.keepOuts = {{"a", "", line, metres(0.0)}}; });
  CHECK(corners.code == ErrorCode::OutlineTooFewCorners);
  CHECK(corners.where == "/keep_outs/0/corners");
  const geometry::Outline bowTie{{{0.0, 0.0}, {0.2, 0.2}, {0.2, 0.0}, {0.0, 0.2}}};
  const Error crossing = faultOf([&](Document& d) { d.keepOuts = {{"a", "", bowTie, metres(0.0)}}; });
  CHECK(crossing.code == ErrorCode::OutlineCrossesItself);
  CHECK(crossing.where == "/keep_outs/0/corners");
  CHECK_THAT(factOf(crossing, "x"), Catch::Matchers::WithinAbs(0.1, 1e-12));
  CHECK_THAT(factOf(crossing, "y"), Catch::Matchers::WithinAbs(0.1, 1e-12));
  const Error twice = faultOf([&](Document& d) {
    d.keepOuts = {{"a", "", triangle, metres(0.0)}, {"a", "", triangle, metres(0.0)}};
  });
  CHECK(twice.code == ErrorCode::DuplicateKey);
  CHECK(twice.where == "/keep_outs/1/id");
  CHECK(twice.detail == "a");
}

TEST_CASE("A tube alone is checked like the tube of a document", "[model][validate]") {
  model::Tube tube = model::lowDensityPolyethylene20x16();
  CHECK(model::validate(tube).has_value());
  tube.insideDiameter.value = metres(0.03);
  CHECK(model::validate(tube).error().where == "/inside_diameter");
  tube.insideDiameter.value = metres(3.0);
  CHECK(model::validate(tube).error().where == "/inside_diameter/value_m");
}
