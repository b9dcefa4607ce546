// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "core/materials/tube.h"

using namespace sunspool;

namespace {
nlohmann::json catalogueTubes() {
  std::ifstream file(std::string(SUNSPOOL_RESOURCES) + "/catalogue/tubes.json");
  REQUIRE(file);
  return nlohmann::json::parse(file).at("tubes");
}
}  // namespace

TEST_CASE("Every value of every catalogue tube stands with its source", "[materials][catalogue]") {
  const auto tubes = catalogueTubes();
  REQUIRE(tubes.size() >= 8);
  std::set<std::string> ids;
  for (const auto& tube : tubes) {
    INFO(tube.at("id"));
    CHECK(ids.insert(tube.at("id").get<std::string>()).second);
    int numbers = 0;
    for (const auto& [key, value] : tube.items()) {
      if (!value.is_number() || key.find("_spread") != std::string::npos) continue;
      ++numbers;
      // The source's key is the value's key without its unit.
      std::string name = key;
      for (const char* unit : {"_W_mK", "_kg_m3", "_J_kgK", "_1_K", "_Pa", "_C", "_m"}) {
        const std::string ending = unit;
        if (name.ends_with(ending)) {
          name.resize(name.size() - ending.size());
          break;
        }
      }
      INFO(key);
      REQUIRE(tube.contains(name + "_source"));
      CHECK_FALSE(tube.at(name + "_source").get<std::string>().empty());
    }
    CHECK(numbers == 13);
  }
}

TEST_CASE("Every catalogue tube is a tube", "[materials][catalogue]") {
  for (const auto& tube : catalogueTubes()) {
    INFO(tube.at("id"));
    const auto wall = materials::wallOf(metres(tube.at("outside_diameter_m").get<double>()),
                                        metres(tube.at("inside_diameter_m").get<double>()));
    REQUIRE(wall);
    CHECK(wall->in(millimetre) > 1.0);
    CHECK(wall->in(millimetre) < 3.0);
    CHECK(materials::handbookBendMultiple(
        materials::dimensionRatio(metres(tube.at("outside_diameter_m").get<double>()), *wall)));
    CHECK(tube.at("minimum_wall_share").get<double>() <= 1.0);
    CHECK(tube.at("limit_C").get<double>() <= 60.0);
  }
}
