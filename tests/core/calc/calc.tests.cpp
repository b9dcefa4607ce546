// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/calc/calc.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <limits>
#include <set>
#include <sstream>

#include "core/base/number_text.h"

using namespace sunspool;
using namespace sunspool::calc;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// One line of the reference file.
struct Check {
  std::string topic;
  Values given;
  std::string output;
  double expected = 0.0;
  double tolerance = 0.0;
  std::string source;
};

std::vector<std::string> split(const std::string& text, char mark) {
  std::vector<std::string> parts;
  std::istringstream stream(text);
  for (std::string part; std::getline(stream, part, mark);) parts.push_back(part);
  return parts;
}

double read(const std::string& text) {
  const Result<double> value = parseNumber(text);
  INFO(text);
  REQUIRE(value.has_value());
  return *value;
}

const std::vector<Check>& publishedChecks() {
  static const std::vector<Check> kChecks = [] {
    std::vector<Check> checks;
    std::ifstream file(SUNSPOOL_TEST_DATA "/reference/calc_topics.csv");
    for (std::string line; std::getline(file, line);) {
      if (line.starts_with('#') || line.starts_with("topic;")) continue;
      const auto cells = split(line, ';');
      INFO(line);
      REQUIRE(cells.size() >= 6);
      Check check{cells[0], {}, cells[2], read(cells[3]), read(cells[4]), cells[5]};
      for (const std::string& pair : split(cells[1], ' ')) {
        const auto sides = split(pair, '=');
        REQUIRE(sides.size() == 2);
        check.given.emplace(sides[0], read(sides[1]));
      }
      checks.push_back(std::move(check));
    }
    return checks;
  }();
  return kChecks;
}

/// Inputs of the first published check of a topic.
Values exampleOf(std::string_view topic) {
  const auto& checks = publishedChecks();
  const auto found =
      std::find_if(checks.begin(), checks.end(), [topic](const Check& check) { return check.topic == topic; });
  INFO("no published check calls " << topic);
  REQUIRE(found != checks.end());
  return found->given;
}

double outputOf(const Answer& answer, std::string_view key) {
  const auto found = std::find_if(answer.outputs.begin(), answer.outputs.end(),
                                  [key](const Output& output) { return output.key == key; });
  INFO("no output " << key);
  REQUIRE(found != answer.outputs.end());
  return found->value;
}

/// The ending that a key of this unit must have.
std::string endingFor(std::string_view bareUnit) {
  static const std::map<std::string_view, std::string> kEndings{
      {"m", "_m"},  {"m2", "_m2"}, {"m3/s", "_m3_s"}, {"m/s", "_m_s"},     {"s", "_s"},
      {"h", "_h"},  {"Pa", "_Pa"}, {"W", "_W"},       {"W/m2", "_W_m2"},   {"W/(m2 K)", "_W_m2K"},
      {"°C", "_C"}, {"K", "_K"},   {"deg", "_deg"},   {"W/(m K)", "_W_mK"}};
  INFO("unit " << bareUnit);
  REQUIRE(kEndings.contains(bareUnit));
  return kEndings.at(bareUnit);
}

}  // namespace

TEST_CASE("Every published value comes back from its topic", "[calc][reference]") {
  REQUIRE(publishedChecks().size() > 150);
  for (const Check& check : publishedChecks()) {
    INFO(check.topic << ' ' << check.output << ": " << check.source);
    const Result<Answer> answer = calculate(check.topic, check.given);
    if (!answer)
      FAIL(static_cast<int>(answer.error().code) << ' ' << answer.error().where << ' ' << answer.error().detail);
    CHECK_THAT(outputOf(*answer, check.output), WithinAbs(check.expected, check.tolerance));
  }
}

TEST_CASE("Two runs of 40 and 60 m share the water as their lengths ask", "[calc][reference]") {
  // Blasius 1913, (60/40)^(1/1.75) = 1.2607, evaluated. Colebrook's local exponent is up to 1.8: 2 % apart.
  const auto answer = calculate("parallel-split", exampleOf("parallel-split"));
  REQUIRE(answer.has_value());
  CHECK_THAT(outputOf(*answer, "flow_a_m3_s") / outputOf(*answer, "flow_b_m3_s"), WithinRel(1.2607, 0.02));
  CHECK_THAT(outputOf(*answer, "flow_a_m3_s") + outputOf(*answer, "flow_b_m3_s"),
             WithinRel(outputOf(*answer, "flow_m3_s"), 1e-12));
}

TEST_CASE("Every topic is called by a published check", "[calc][reference]") {
  std::set<std::string_view> called;
  for (const Check& check : publishedChecks()) called.insert(check.topic);
  for (const Topic& topic : topics()) {
    INFO(topic.name);
    CHECK(called.contains(topic.name));
  }
  CHECK(called.size() == topics().size());
}

TEST_CASE("Topic names are unique, in lower case with dashes, and found by name", "[calc]") {
  std::set<std::string_view> names;
  for (const Topic& topic : topics()) {
    INFO(topic.name);
    CHECK(names.insert(topic.name).second);
    CHECK(topic.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string_view::npos);
    CHECK(findTopic(topic.name) == &topic);
  }
  CHECK(findTopic("nonsense") == nullptr);
}

TEST_CASE("Every topic says what, with which formula and from where", "[calc]") {
  for (const Topic& topic : topics()) {
    INFO(topic.name << ": " << topic.source);
    CHECK_FALSE(topic.what.empty());
    CHECK_FALSE(topic.formula.empty());
    CHECK(topic.formula.find_first_of("\n\t") == std::string_view::npos);
    CHECK(std::all_of(topic.formula.begin(), topic.formula.end(), [](char c) { return c >= ' ' && c <= '~'; }));
    const bool cited = topic.source.find('[') != std::string_view::npos;
    const bool owned = topic.source.find("assumption") != std::string_view::npos ||
                       topic.source.find("from memory") != std::string_view::npos ||
                       topic.source.find("no source") != std::string_view::npos ||
                       topic.source.find("handbooks") != std::string_view::npos ||
                       topic.source.find("definition") != std::string_view::npos ||
                       topic.source.find("EN 1991-1-4") != std::string_view::npos;
    CHECK((cited || owned));
  }
}

TEST_CASE("Every input key ends with its unit and has a meaning and a range", "[calc]") {
  for (const Topic& topic : topics()) {
    std::set<std::string_view> keys;
    for (const Input& input : topic.inputs) {
      INFO(topic.name << ' ' << input.key);
      CHECK(keys.insert(input.key).second);
      CHECK_FALSE(input.meaning.empty());
      const bool plain = input.dimension == Dimension::None || input.dimension == Dimension::Count;
      CHECK(plain == input.bareUnit.empty());
      if (!plain) CHECK(input.key.ends_with(endingFor(input.bareUnit)));
      CHECK(std::isfinite(input.lowest));
      CHECK(std::isfinite(input.highest));
      CHECK(input.lowest < input.highest);
      if (input.standard) {
        CHECK(*input.standard >= input.lowest);
        CHECK(*input.standard <= input.highest);
      }
    }
  }
}

TEST_CASE("The outputs announced are the outputs given, with the words of the topic", "[calc]") {
  for (const Topic& topic : topics()) {
    INFO(topic.name);
    const auto answer = calculate(topic.name, exampleOf(topic.name));
    REQUIRE(answer.has_value());
    std::vector<std::string> given;
    for (const Output& output : answer->outputs) {
      given.push_back(output.key);
      CHECK(std::isfinite(output.value));
    }
    CHECK(given == std::vector<std::string>(topic.outputs.begin(), topic.outputs.end()));
    CHECK(answer->formula == topic.formula);
    CHECK(answer->source == topic.source);
    CHECK(answer->validity == topic.validity);
  }
}

TEST_CASE("A standard value given by hand changes nothing", "[calc][property]") {
  for (const Topic& topic : topics()) {
    const Values example = exampleOf(topic.name);
    const auto expected = calculate(topic.name, example);
    REQUIRE(expected.has_value());
    for (const Input& input : topic.inputs) {
      if (!input.standard || example.contains(input.key)) continue;
      INFO(topic.name << ' ' << input.key);
      Values given = example;
      given.emplace(input.key, *input.standard);
      const auto answer = calculate(topic.name, given);
      REQUIRE(answer.has_value());
      for (std::size_t i = 0; i < answer->outputs.size(); ++i) {
        CHECK(answer->outputs[i].value == expected->outputs[i].value);
      }
    }
  }
}

TEST_CASE("An unknown topic is refused by its name", "[calc][fault]") {
  const auto answer = calculate("nonsense", {});
  REQUIRE_FALSE(answer.has_value());
  CHECK(answer.error() == Error{ErrorCode::UnknownTopic, "nonsense", {}, {}});
}

TEST_CASE("Every topic refuses an unknown key and names the known ones", "[calc][fault]") {
  for (const Topic& topic : topics()) {
    INFO(topic.name);
    Values given = exampleOf(topic.name);
    given.emplace("no_such_key_m", 1.0);
    const auto answer = calculate(topic.name, given);
    REQUIRE_FALSE(answer.has_value());
    CHECK(answer.error().code == ErrorCode::UnknownWord);
    CHECK(answer.error().where == topic.name);
    CHECK(answer.error().detail == "no_such_key_m");
    CHECK(answer.error().facts.size() == topic.inputs.size());
  }
}

TEST_CASE("Every topic refuses to answer without one of its needed keys", "[calc][fault]") {
  for (const Topic& topic : topics()) {
    for (const Input& input : topic.inputs) {
      if (input.standard) continue;
      INFO(topic.name << ' ' << input.key);
      Values given = exampleOf(topic.name);
      REQUIRE(given.erase(std::string(input.key)) == 1);
      const auto answer = calculate(topic.name, given);
      REQUIRE_FALSE(answer.has_value());
      CHECK(answer.error() == Error{ErrorCode::MissingKey, std::string(topic.name), std::string(input.key), {}});
    }
  }
}

TEST_CASE("Every input is refused outside its range, as no number, and as half a thing", "[calc][fault]") {
  const double above = std::numeric_limits<double>::infinity();
  for (const Topic& topic : topics()) {
    for (const Input& input : topic.inputs) {
      INFO(topic.name << ' ' << input.key);
      const auto refusal = [&](double value) {
        Values given = exampleOf(topic.name);
        given[std::string(input.key)] = value;
        const auto answer = calculate(topic.name, given);
        REQUIRE_FALSE(answer.has_value());
        CHECK(answer.error().where == std::string("/").append(input.key));
        return answer.error().code;
      };
      CHECK(refusal(std::nextafter(input.lowest, -above)) == ErrorCode::OutOfRange);
      CHECK(refusal(std::nextafter(input.highest, above)) == ErrorCode::OutOfRange);
      CHECK(refusal(above) == ErrorCode::NotFinite);
      CHECK(refusal(std::numeric_limits<double>::quiet_NaN()) == ErrorCode::NotFinite);
      if (input.dimension == Dimension::Count) CHECK(refusal(input.lowest + 0.5) == ErrorCode::WrongType);
    }
  }
}

TEST_CASE("The ends of every range give finite numbers or an Error, never a crash", "[calc][property]") {
  for (const Topic& topic : topics()) {
    for (const Input& input : topic.inputs) {
      for (const double end : {input.lowest, input.highest}) {
        INFO(topic.name << ' ' << input.key << '=' << end);
        Values given = exampleOf(topic.name);
        given[std::string(input.key)] = end;
        const auto answer = calculate(topic.name, given);
        if (!answer) {
          CHECK(answer.error().code != ErrorCode::UnknownTopic);
          continue;
        }
        for (const Output& output : answer->outputs) CHECK(std::isfinite(output.value));
      }
    }
  }
}

TEST_CASE("A tube whose walls meet is refused", "[calc][fault]") {
  const auto answer = calculate("bend", {{"outside_diameter_m", 0.016}, {"wall_m", 0.008}, {"bend_radius_m", 0.2}});
  REQUIRE_FALSE(answer.has_value());
  CHECK(answer.error().code == ErrorCode::OutOfRange);
  CHECK(answer.error().where == "/wall_m");
}

TEST_CASE("Errors of the engine come through as they are", "[calc][fault]") {
  const auto answer = calculate("pump-point", {{"shut_off_head_m", 1.0},
                                               {"static_head_m", 2.0},
                                               {"pump_curvature_s2_m5", 1e7},
                                               {"system_curvature_s2_m5", 1e7}});
  REQUIRE_FALSE(answer.has_value());
  CHECK(answer.error().code == ErrorCode::PumpNeverStarts);
  const auto date = calculate("sun-position", {{"latitude_deg", 40},
                                               {"longitude_deg", 0},
                                               {"utc_offset_h", 0},
                                               {"year", 2025},
                                               {"month", 2},
                                               {"day", 30},
                                               {"clock_h", 12}});
  REQUIRE_FALSE(date.has_value());
  CHECK(date.error().code == ErrorCode::DateImpossible);
}
