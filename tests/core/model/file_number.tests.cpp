// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/file_number.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>
#include <string>

#include "core/base/number_text.h"

using namespace sunspool;

namespace {

unsigned seed() {
  const char* const set = std::getenv("SUNSPOOL_TEST_SEED");
  return set != nullptr ? static_cast<unsigned>(std::strtoul(set, nullptr, 10)) : 20250614U;
}

template <class Q>
std::string written(Q held) {
  const Q kept = model::settled(held);
  return numberText(model::exactFileNumber(kept).value());
}
template <class Q>
Q read(const std::string& text) {
  return model::fromFileUnit<Q>(parseNumber(text).value());
}

/// 100 000 numbers with up to 13 digits, of both signs and with up to 12 of them behind the point.
template <class Q>
void checkSameText(double largest) {
  const unsigned used = seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  std::uniform_real_distribution<double> any(-largest, largest);
  int largestMiss = 0;
  for (int i = 0; i < 100000; ++i) {
    const double scale = std::pow(10.0, static_cast<double>(random() % 11));
    const std::string text = numberText(std::round(any(random) * scale) / scale);
    if (written(read<Q>(text)) != text && ++largestMiss < 5) UNSCOPED_INFO(text << " -> " << written(read<Q>(text)));
  }
  CHECK(largestMiss == 0);
}

/// Any double at all: whatever its first text, the second is the same, and the value no longer moves.
template <class Q>
void checkSettles(double low, double high) {
  const unsigned used = seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937_64 random(used);
  std::uniform_real_distribution<double> any(low, high);
  int unsettled = 0;
  for (int i = 0; i < 100000; ++i) {
    const Q held = model::fromSi<Q>(any(random));
    const std::string once = written(held);
    const Q back = read<Q>(once);
    if (!(back == model::settled(held)) || written(back) != once) ++unsettled;
  }
  CHECK(unsettled == 0);
}

}  // namespace

TEST_CASE("Celsius in the file: 100 000 texts come back as they were", "[model][file_number][property]") {
  checkSameText<Temperature>(100.0);
}
TEST_CASE("Degrees in the file: 100 000 texts come back as they were", "[model][file_number][property]") {
  checkSameText<Angle>(360.0);
}
TEST_CASE("Any kelvin settles on a text at once and loses nothing", "[model][file_number][property]") {
  checkSettles<Temperature>(180.0, 700.0);
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> any(180.0, 700.0);
  for (int i = 0; i < 10000; ++i) {
    const Temperature held = Temperature::fromKelvin(any(random));
    if (!(model::settled(held) == held)) FAIL(held.inKelvin());
  }
}
TEST_CASE("Any radian settles on a text at once, at most a last digit away", "[model][file_number][property]") {
  checkSettles<Angle>(-6.3, 6.3);
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> any(-6.3, 6.3);
  for (int i = 0; i < 10000; ++i) {
    const Angle held = radians(any(random));
    if (!(std::fabs(model::settled(held).radians() - held.radians()) <= 9e-16)) FAIL(held.radians());
  }
}

TEST_CASE("Even full-length texts of degrees and Celsius stay once they were saved", "[model][file_number][property]") {
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> any(-90.0, 90.0);
  for (int i = 0; i < 100000; ++i) {
    const std::string text = numberText(any(random));  // 15 to 17 digits
    const std::string celsiusOnce = written(read<Temperature>(text));
    const std::string degreesOnce = written(read<Angle>(text));
    if (written(read<Temperature>(celsiusOnce)) != celsiusOnce) FAIL(text);
    if (written(read<Angle>(degreesOnce)) != degreesOnce) FAIL(text);
  }
}
