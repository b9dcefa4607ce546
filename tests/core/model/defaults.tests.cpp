// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/defaults.h"

#include <catch2/catch.hpp>

#include "core/model/validate.h"

using namespace sunspool;

TEST_CASE("The first panel is valid as it stands", "[model][defaults]") {
  CHECK(model::validate(model::firstPanel()).has_value());
}

TEST_CASE("The first panel has room for a crossing under its glazing", "[model][defaults]") {
  const model::Document document = model::firstPanel();
  const Length tube = document.tube.outsideDiameter.value;
  const Length layers = document.box.backing->thickness + document.box.insulation->thickness +
                        document.box.plate->sheet.thickness + document.box.standOff + tube + tube;
  CHECK(layers < document.frame.timberDepth);
}

TEST_CASE("What the builder of the first panel has not measured does not say measured", "[model][defaults]") {
  const model::Document document = model::firstPanel();
  CHECK(document.pool.water.sureness == Sureness::Measured);
  CHECK(document.box.plateContactShare.sureness == Sureness::Guess);
  CHECK(document.conditions.wind.sureness == Sureness::Guess);
  CHECK(document.plumbing.pump.labelFlow.sureness == Sureness::Label);
  CHECK_FALSE(document.tube.bendTestCollapseRadius.has_value());
}
