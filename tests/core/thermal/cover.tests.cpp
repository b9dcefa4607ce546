// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/cover.h"

#include <limits>

#include "support.h"

using namespace sunspool;
using namespace sunspool::thermal;
using namespace sunspool::thermal::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("Reflection at glass and acrylic", "[thermal][cover][reference]") {
  // Duffie & Beckman, 4th ed., Ex. 5.1.1 (0.0434 and 0.093, from memory); the further digits evaluated from Fresnel.
  CHECK_THAT(fresnel(degrees(0), 1.526)->mean, WithinAbs(0.04336, 5e-6));
  const auto slant = fresnel(degrees(60), 1.526);
  REQUIRE(slant);
  CHECK_THAT(slant->refracted.degrees(), WithinAbs(34.58, 5e-3));
  CHECK_THAT(slant->perpendicular, WithinAbs(0.18548, 5e-6));
  CHECK_THAT(slant->parallel, WithinAbs(0.00145, 5e-6));
  CHECK_THAT(slant->mean, WithinAbs(0.09346, 5e-6));
  CHECK_THAT(fresnel(degrees(0), 1.49)->mean, WithinAbs(0.03873, 5e-6));
  CHECK_THAT(fresnel(degrees(60), 1.49)->mean, WithinAbs(0.08752, 5e-6));
}

TEST_CASE("The cosine form of Fresnel equals the form with sines and tangents", "[thermal][cover][analytic]") {
  for (double degree = 1.0; degree < 90.0; degree += 1.0) {
    const double t1 = degrees(degree).radians(), t2 = std::asin(std::sin(t1) / 1.526);
    const auto r = fresnel(degrees(degree), 1.526);
    CAPTURE(degree);
    CHECK_THAT(r->perpendicular, WithinAbs(std::pow(std::sin(t2 - t1) / std::sin(t2 + t1), 2), 1e-12));
    CHECK_THAT(r->parallel, WithinAbs(std::pow(std::tan(t2 - t1) / std::tan(t2 + t1), 2), 1e-12));
  }
  // Brewster's angle: nothing parallel is reflected. Grazing: everything is.
  CHECK_THAT(fresnel(radians(std::atan(1.526)), 1.526)->parallel, WithinAbs(0.0, 1e-15));
  CHECK_THAT(fresnel(degrees(90), 1.526)->mean, WithinAbs(1.0, 1e-12));
}

TEST_CASE("Transmittance of an absorbing sheet", "[thermal][cover][reference]") {
  // Duffie & Beckman, 4th ed., Ex. 5.3.1 (0.624, 0.912, 0.768 from memory; evaluated 0.625, 0.912, 0.768).
  const auto pane = coverTransmission(degrees(60), 1.526, 32.0 * 0.0023);
  REQUIRE(pane);
  CHECK_THAT(pane->absorbedOnly, WithinAbs(0.9145, 5e-5));
  CHECK_THAT(pane->perpendicular, WithinAbs(0.625, 6e-4));
  CHECK_THAT(pane->parallel, WithinAbs(0.912, 6e-4));
  CHECK_THAT(pane->transmittance, WithinAbs(0.768, 6e-4));
}

TEST_CASE("Transmittance of two sheets that absorb nothing", "[thermal][cover][reference]") {
  // Duffie & Beckman, 4th ed., Ex. 5.2.1 (0.85, 0.76 from memory), evaluated to three digits.
  CHECK_THAT(*stackTransmittance(degrees(0), 1.526, 2), WithinAbs(0.847, 6e-4));
  CHECK_THAT(*stackTransmittance(degrees(60), 1.526, 2), WithinAbs(0.759, 6e-4));
}

TEST_CASE("One clear sheet is the stack of one", "[thermal][cover][analytic]") {
  const double degree = GENERATE(0.0, 30.0, 60.0, 85.0);
  CHECK_THAT(coverTransmission(degrees(degree), 1.526, 0.0)->transmittance,
             WithinRel(*stackTransmittance(degrees(degree), 1.526, 1), 1e-12));
}

TEST_CASE("Transmittance-absorptance product", "[thermal][cover][reference]") {
  // Evaluated from Duffie & Beckman, 4th ed., eq. 5.5.1; five digits.
  CHECK_THAT(*transmittanceAbsorptance(0.88, 0.95, 0.16), WithinAbs(0.84274, 5e-6));
}

TEST_CASE("Effective angles of sky and ground", "[thermal][cover][reference]") {
  // Duffie & Beckman, 4th ed., eq. 5.4.1 and 5.4.2 (Brandemuehl & Beckman 1980, from memory), evaluated to 0.01 degree.
  const auto angles = effectiveAngles(degrees(45));
  REQUIRE(angles);
  CHECK_THAT(angles->sky.degrees(), WithinAbs(56.49, 6e-3));
  CHECK_THAT(angles->ground.degrees(), WithinAbs(69.41, 6e-3));
}

TEST_CASE("Incidence angle modifiers", "[thermal][cover][reference]") {
  // Unit tests of the open-source library pvlib-python: ASHRAE form with b0 0.05; physical form with n 1.526, K 4 /m,
  // L 2 mm. Seven and eight digits.
  CHECK_THAT(*incidenceModifier(degrees(45), 0.05), WithinAbs(0.97928932, 5e-9));
  CHECK_THAT(*incidenceModifier(degrees(67.5), 0.05), WithinAbs(0.9193437, 5e-8));
  CHECK_THAT(*incidenceModifierPhysical(degrees(45), 1.526, 4.0 * 0.002), WithinAbs(0.98797788, 5e-9));
  CHECK_THAT(*incidenceModifierPhysical(degrees(22.5), 1.526, 4.0 * 0.002), WithinAbs(0.99926198, 5e-9));
  // The sheet with inter-reflections is another model: evaluated 0.98171 at 45 degrees.
  CHECK_THAT(coverTransmission(degrees(45), 1.526, 0.008)->transmittance /
                 coverTransmission(degrees(0), 1.526, 0.008)->transmittance,
             WithinAbs(0.98171, 6e-6));
}

TEST_CASE("Light through a sheet is passed, thrown back or held, and nothing else", "[thermal][cover][property]") {
  INFO("seed " << seed());
  std::mt19937 random(seed());
  for (int n = 0; n < 2000; ++n) {
    const double degree = uniform(random, 0.0, 90.0), index = uniform(random, 1.0, 2.0);
    const double thickness = logUniform(random, 1e-4, 5.0);
    const auto pane = coverTransmission(degrees(degree), index, thickness);
    CAPTURE(degree, index, thickness);
    REQUIRE(pane);
    CHECK(pane->transmittance >= 0.0);
    CHECK(pane->reflectance >= 0.0);
    CHECK(pane->absorptance >= -1e-12);
    CHECK_THAT(pane->transmittance + pane->reflectance + pane->absorptance, WithinAbs(1.0, 1e-12));
    CHECK(pane->transmittance <= pane->absorbedOnly + 1e-12);
  }
}

TEST_CASE("The builder's glazing passes what he says at the normal and less at every slant",
          "[thermal][cover][property]") {
  const double normal = GENERATE(0.3, 0.7, 0.88, 0.97);
  const double index = GENERATE(1.49, 1.526, 1.59);
  const auto glazing = glazingOptics(normal, index);
  REQUIRE(glazing);
  CHECK_THAT(*glazingTransmittance(*glazing, degrees(0)), WithinAbs(normal, 1e-12));
  double last = normal + 1e-12;
  for (double degree = 1.0; degree <= 90.0; degree += 1.0) {
    const double now = *glazingTransmittance(*glazing, degrees(degree));
    CAPTURE(normal, index, degree);
    CHECK(now <= last);
    last = now;
  }
  CHECK_THAT(last, WithinAbs(0.0, 1e-9));
  CHECK(glazing->diffuseReflectance > 0.0);
  CHECK(glazing->diffuseReflectance < 0.3);
}

TEST_CASE("A fitted sheet is the sheet it was fitted to", "[thermal][cover][analytic]") {
  const double thickness = 32.0 * 0.0023;
  const double normal = coverTransmission(degrees(0), 1.526, thickness)->transmittance;
  const auto glazing = glazingOptics(normal, 1.526);
  REQUIRE(glazing);
  CHECK_THAT(glazing->opticalThickness, WithinRel(thickness, 1e-10));
  CHECK_THAT(*glazingTransmittance(*glazing, degrees(60)),
             WithinRel(coverTransmission(degrees(60), 1.526, thickness)->transmittance, 1e-10));
}

TEST_CASE("Angles and shares outside their range are refused by name", "[thermal][cover][analytic]") {
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  checkRefused(fresnel(degrees(91), 1.5), "incidence");
  checkRefused(fresnel(degrees(10), 0.9), "refractive_index");
  checkRefused(coverTransmission(degrees(nothing), 1.5, 0.1), "incidence");
  checkRefused(coverTransmission(degrees(10), 1.5, -0.1), "optical_thickness");
  checkRefused(stackTransmittance(degrees(10), 1.5, 0), "covers");
  checkRefused(transmittanceAbsorptance(1.1, 0.9, 0.1), "transmittance");
  checkRefused(effectiveAngles(degrees(-1)), "tilt");
  checkRefused(incidenceModifier(degrees(85), 0.1), "incidence");
  checkRefused(incidenceModifier(degrees(80), 0.9), "modifier");
  checkRefused(glazingOptics(0.0, 1.5), "transmittance");
}
