// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/climate/sky.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sunspool;
using namespace sunspool::climate;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("Saturation pressure and dew point by the Magnus form", "[climate][reference]") {
  // Evaluated from Alduchov & Eskridge (1996), constants from memory: 25 degrees -> 3.16174 kPa, 0.25 % under IAPWS
  // R7-97(2012) (3.16975 kPa); 25 degrees at 50 % -> dew point 13.86.
  CHECK_THAT(magnusSaturationPressure(celsius(25.0)).in(kilopascal), WithinAbs(3.16174, 5.1e-6));
  CHECK_THAT(magnusSaturationPressure(celsius(25.0)).in(kilopascal), WithinRel(3.16975, 0.004));
  CHECK_THAT(dewPoint(celsius(25.0), 0.50).inCelsius(), WithinAbs(13.86, 0.02));
}

TEST_CASE("Dew point inverts the saturation pressure and saturated air is at its dew point", "[climate][property]") {
  for (double air = -20.0; air <= 50.0; air += 5.0) {
    CHECK_THAT(dewPoint(celsius(air), 1.0).inCelsius(), WithinAbs(air, 1e-9));
    double last = -300.0;
    for (double humidity = 0.05; humidity < 1.0; humidity += 0.05) {
      const Temperature dew = dewPoint(celsius(air), humidity);
      CHECK_THAT(magnusSaturationPressure(dew).si(),
                 WithinRel(humidity * magnusSaturationPressure(celsius(air)).si(), 1e-9));
      CHECK(dew.inCelsius() > last);
      last = dew.inCelsius();
    }
  }
  CHECK(dewPoint(celsius(20.0), 0.0).isFinite());
}

TEST_CASE("Clear skies are as cold as Swinbank and Berdahl and Martin say", "[climate][reference]") {
  // Swinbank (1963), evaluated: 20 -> 3.91 degrees. Berdahl & Martin (1984), evaluated: air 20, dew point 10:
  // emissivity 0.7613 and 0.68 degrees at noon, 2.99 degrees at midnight.
  CHECK_THAT(swinbankSkyTemperature(celsius(20.0)).inCelsius(), WithinAbs(3.91, 0.005));
  CHECK_THAT(skyEmissivity(celsius(10.0), 12.0), WithinAbs(0.7613, 5.1e-5));
  CHECK_THAT(skyTemperature(celsius(20.0), celsius(10.0), 12.0).inCelsius(), WithinAbs(0.68, 0.006));
  CHECK_THAT(skyTemperature(celsius(20.0), celsius(10.0), 0.0).inCelsius(), WithinAbs(2.99, 0.006));
}

TEST_CASE("The sky is never warmer than the air and grows colder as the air dries", "[climate][property]") {
  double last = 1.0;
  for (double dew = 30.0; dew >= -200.0; dew -= 1.0) {
    const double emissivity = skyEmissivity(celsius(dew), 12.0);
    CHECK(emissivity <= last);
    CHECK(emissivity > 0.5);
    CHECK(skyTemperature(celsius(30.0), celsius(dew), 0.0) < celsius(30.0));
    last = emissivity;
  }
}
