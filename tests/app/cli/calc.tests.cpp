// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "app/cli/calc_command.h"
#include "app/cli/cli.h"
#include "app/format/quantity_text.h"
#include "core/calc/calc.h"

using namespace sunspool;
using Catch::Matchers::WithinAbs;
using Json = nlohmann::ordered_json;

namespace {

enum class Form { Text, JsonText };

struct Answered {
  int code = 0;
  std::string out, err;
};

Answered ask(const std::string& topic, const std::vector<std::string>& values, Form form = Form::Text) {
  std::ostringstream out, err;
  const int code = cli::calculate(topic, values, form == Form::JsonText, out, err);
  return {code, out.str(), err.str()};
}

double jsonOutput(const Answered& answered, const char* key) {
  REQUIRE(answered.code == cli::kFine);
  return Json::parse(answered.out).at("outputs").at(key).get<double>();
}

}  // namespace

TEST_CASE("A topic answers in aligned lines with formula, source and validity", "[cli][calc]") {
  const Answered growth = ask("growth", {"length_m=50", "warming_K=40"});
  CHECK(growth.code == cli::kFine);
  CHECK(growth.err.empty());
  CHECK(growth.out ==
        "growth: growth of a tube when it warms\n"
        "  length_m       50\n"
        "  expansion_1_K  0.00018  (standard)\n"
        "  warming_K      40\n"
        "gives\n"
        "  growth_m       0.36\n"
        "formula   dL = a L dT\n"
        "source    definition; tables give 1e-4 to 2.2e-4 1/K for low density, from memory\n"
        "validity  free to move\n");
}

TEST_CASE("JSON names topic, inputs, outputs, formula, source and validity in this order", "[cli][calc]") {
  const Answered growth = ask("growth", {"length_m=64", "warming_K=1"}, Form::JsonText);
  CHECK(growth.code == cli::kFine);
  CHECK(growth.err.empty());
  CHECK(growth.out ==
        "{\n"
        "  \"topic\": \"growth\",\n"
        "  \"inputs\": {\n"
        "    \"length_m\": 64.0,\n"
        "    \"expansion_1_K\": 0.00018,\n"
        "    \"warming_K\": 1.0\n"
        "  },\n"
        "  \"outputs\": {\n"
        "    \"growth_m\": 0.01152\n"
        "  },\n"
        "  \"formula\": \"dL = a L dT\",\n"
        "  \"source\": \"definition; tables give 1e-4 to 2.2e-4 1/K for low density, from memory\",\n"
        "  \"validity\": \"free to move\"\n"
        "}\n");
}

TEST_CASE("A value with a unit and a bare one in the unit of the key are the same", "[cli][calc]") {
  const Answered typed =
      ask("friction", {"flow_m3_s=6L/min", "inside_diameter_m=13mm", "length_m=50 m", "water_C=86°F"}, Form::JsonText);
  const Answered bare =
      ask("friction", {"flow_m3_s=0.0001", "inside_diameter_m=0.013", "length_m=50", "water_C=30"}, Form::JsonText);
  REQUIRE(typed.code == cli::kFine);
  CHECK(typed.out == bare.out);
  const auto inputs = Json::parse(typed.out).at("inputs");
  CHECK(inputs.at("water_C") == 30.0);
  CHECK(inputs.at("inside_diameter_m") == 0.013);
}

TEST_CASE("Degrees, hours and a comma decimal come through without rounding noise", "[cli][calc]") {
  const Answered solar = ask(
      "solar-time", {"clock_h=630 min", "utc_offset_h=-6", "longitude_deg=-89,4", "day_of_year=34"}, Form::JsonText);
  REQUIRE(solar.code == cli::kFine);
  const auto inputs = Json::parse(solar.out).at("inputs");
  CHECK(inputs.at("clock_h") == 10.5);
  CHECK(inputs.at("longitude_deg") == -89.4);
  // Duffie & Beckman, 4th ed., Ex. 1.5.1: 10:18:54.
  CHECK_THAT(jsonOutput(solar, "solar_time_h"), WithinAbs(10.315, 3e-4));
  const Answered tilt = ask("effective-angles", {"tilt_deg=0.5235987755982988 rad"}, Form::JsonText);
  CHECK(Json::parse(tilt.out).at("inputs").at("tilt_deg") == 30.0);
}

TEST_CASE("A question that is not understood costs exit code 2 and one sentence", "[cli][calc][fault]") {
  const auto usage = [](const Answered& answered, const std::string& sentence) {
    CHECK(answered.code == cli::kUsage);
    CHECK(answered.out.empty());
    CHECK(answered.err == "sunspool: " + sentence + "\n");
  };
  usage(ask("", {}), "calc needs a topic; “sunspool calc --list” names all there are.");
  usage(ask("frict", {}), "There is no topic “frict”; “sunspool calc --list” names all there are.");
  usage(ask("growth", {"lenght_m=50"}), "growth has no input “lenght_m”; it takes length_m, expansion_1_K, warming_K.");
  usage(ask("growth", {"length_m=50"}),
        "growth still needs warming_K (warming, negative for cooling); give each as name=value.");
  usage(ask("growth", {"length_m"}), "“length_m” is no name=value; write it like radius_m=160mm.");
  usage(ask("growth", {"length_m=1", "length_m=2"}), "length_m is given twice; keep one of them.");
  usage(ask("friction", {"flow_m3_s=5 gal/min"}),
        "flow_m3_s: “gal/min” may mean a US gallon of 3.785 L or an imperial one of 4.546 L; write “US gal” or “imp "
        "gal”.");
  usage(ask("growth", {"length_m=50 kg"}),
        "length_m: “kg” in “50 kg” is no unit of what is asked for here; use one of the kind that stands beside the "
        "number.");
}

TEST_CASE("A bad number and an empty value are usage, told in one sentence", "[cli][calc][fault]") {
  for (const char* argument : {"length_m=much", "length_m=", "length_m=1..2"}) {
    INFO(argument);
    const Answered answered = ask("growth", {argument, "warming_K=1"});
    CHECK(answered.code == cli::kUsage);
    CHECK(answered.out.empty());
    CHECK(answered.err.starts_with("sunspool: length_m: "));
    CHECK(answered.err.ends_with(".\n"));
    CHECK(std::count(answered.err.begin(), answered.err.end(), '\n') == 1);
  }
}

TEST_CASE("A question without an answer costs exit code 3 and one sentence", "[cli][calc][fault]") {
  const auto failure = [](const Answered& answered, const std::string& sentence) {
    CHECK(answered.code == cli::kFailure);
    CHECK(answered.out.empty());
    CHECK(answered.err == "sunspool: " + sentence + "\n");
  };
  failure(ask("water", {"water_C=200"}), "The water is 200.0 °C; it must lie between 0.0 °C and 150.0 °C.");
  failure(ask("declination", {"day_of_year=12.5"}),
          "The day of year holds “12.5” where a whole number is expected; put that in its place.");
  const Answered weak = ask(
      "pump-point", {"shut_off_head_m=1", "static_head_m=2", "pump_curvature_s2_m5=1e7", "system_curvature_s2_m5=1e7"},
      Form::JsonText);
  CHECK(weak.code == cli::kFailure);
  CHECK(weak.out.empty());
  CHECK(weak.err.starts_with("sunspool: The pump cannot lift the water over the top"));
}

TEST_CASE("The list names every topic with inputs, units and outputs", "[cli][calc]") {
  std::ostringstream out;
  CHECK(cli::listTopics(true, out) == cli::kFine);
  const Json list = Json::parse(out.str());
  REQUIRE(list.at("topics").size() == calc::topics().size());
  for (std::size_t i = 0; i < calc::topics().size(); ++i) {
    const calc::Topic& topic = calc::topics()[i];
    const Json& entry = list.at("topics").at(i);
    INFO(topic.name);
    std::vector<std::string> keys;
    for (const auto& item : entry.items()) keys.push_back(item.key());
    CHECK(keys == std::vector<std::string>{"topic", "what", "inputs", "outputs", "formula", "source", "validity"});
    CHECK(entry.at("topic") == topic.name);
    CHECK(entry.at("outputs").size() == topic.outputs.size());
    REQUIRE(entry.at("inputs").size() == topic.inputs.size());
    for (std::size_t k = 0; k < topic.inputs.size(); ++k) {
      CHECK(entry.at("inputs").at(k).at("key") == topic.inputs[k].key);
      CHECK(entry.at("inputs").at(k).at("unit") == topic.inputs[k].bareUnit);
      CHECK(entry.at("inputs").at(k).at("standard").is_null() == !topic.inputs[k].standard.has_value());
    }
  }
}

TEST_CASE("The list for people has the lines of each topic", "[cli][calc]") {
  std::ostringstream out;
  CHECK(cli::listTopics(false, out) == cli::kFine);
  const std::string expected =
      "growth: growth of a tube when it warms\n"
      "  length_m       m  length of the tube, 0 to 1e+06\n"
      "  expansion_1_K     thermal growth per kelvin, 0 to 0.01, standard 0.00018\n"
      "  warming_K      K  warming, negative for cooling, -500 to 500\n"
      "  gives growth_m\n"
      "  source definition; tables give 1e-4 to 2.2e-4 1/K for low density, from memory\n"
      "\n";
  CHECK(out.str().find("\n" + expected) != std::string::npos);
}

TEST_CASE("Every unit that a topic names can be typed", "[cli][calc]") {
  for (const calc::Topic& topic : calc::topics()) {
    for (const calc::Input& input : topic.inputs) {
      if (input.bareUnit.empty()) continue;
      INFO(topic.name << ' ' << input.key << ' ' << input.bareUnit);
      CHECK(format::isUnitOf(input.bareUnit, input.dimension));
    }
  }
}

TEST_CASE("The command reaches the calculators through the subcommand", "[cli][calc]") {
  std::ostringstream out, err;
  const int code = cli::run({"calc", "sun-position", "latitude_deg=39.742476", "longitude_deg=-105.1786",
                             "utc_offset_h=-7", "year=2003", "month=10", "day=17", "clock_h=12.508333333", "--json"},
                            out, err);
  CHECK(code == cli::kFine);
  CHECK(err.str().empty());
  // Reda and Andreas, NREL/TP-560-34302, worked example: azimuth 194.340241 degrees.
  CHECK_THAT(Json::parse(out.str()).at("outputs").at("azimuth_deg").get<double>(), WithinAbs(194.340241, 0.008));
}
