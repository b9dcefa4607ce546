// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/calc_command.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <ostream>

#include "app/cli/cli.h"
#include "app/format/format.h"
#include "app/format/quantity_text.h"
#include "core/calc/calc.h"

namespace sunspool::cli {
namespace {

using Json = nlohmann::ordered_json;
using calc::Input, calc::Topic;

/// Six significant digits, '.' in every locale.
std::string shortNumber(double value) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, 6);
  return {text.data(), end.ptr};
}

/// Padded to a column; counts code points, for a degree mark is two bytes.
std::string padded(std::string text, std::size_t width) {
  const auto shown =
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
  if (static_cast<std::size_t>(shown) < width) text.append(width - static_cast<std::size_t>(shown), ' ');
  return text;
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : ", ") + word;
  return all;
}

int fail(const std::string& message, ExitCode code, std::ostream& err) {
  err << "sunspool: " << message << '\n';
  return code;
}

std::string sentenceOf(const Error& error) { return format::sentence(error, {}).toStdString(); }

// ---- reading name=value

const Input* inputOf(const Topic& topic, std::string_view key) {
  const auto found =
      std::find_if(topic.inputs.begin(), topic.inputs.end(), [key](const Input& input) { return input.key == key; });
  return found == topic.inputs.end() ? nullptr : &*found;
}

/// A number in the key's unit: bare, or with a unit of its dimension.
Result<double> valueInKeyUnit(const Input& input, std::string_view text) {
  Result<double> bare = format::parseQuantity(text, Dimension::None, "");
  if (bare || input.dimension == Dimension::None || input.dimension == Dimension::Count) return bare;
  const Result<double> value = format::parseQuantity(text, input.dimension, input.bareUnit);
  if (!value) return value;
  const Result<double> zero = format::parseQuantity("0", input.dimension, input.bareUnit);
  const Result<double> one = format::parseQuantity("1", input.dimension, input.bareUnit);
  if (!zero) return zero;
  if (!one) return one;
  const double inKeyUnit = (*value - *zero) / (*one - *zero);
  // 86 °F is 30 °C and not 29.999999999999943: what the way over kelvin and radians costs is rounded off.
  const bool isSi = *zero == 0.0 && *one == 1.0;
  return isSi ? inKeyUnit : std::round(inKeyUnit * 1e9) / 1e9;
}

std::string knownKeys(const Topic& topic) {
  std::vector<std::string> keys;
  for (const Input& input : topic.inputs) keys.emplace_back(input.key);
  return joined(keys);
}

struct Reading {
  calc::Values values;
  std::string problem;  ///< one sentence; empty when all was read
};

Reading read(const Topic& topic, const std::vector<std::string>& arguments) {
  Reading reading;
  const std::string name(topic.name);
  for (const std::string& argument : arguments) {
    const std::size_t equals = argument.find('=');
    if (equals == std::string::npos) return {{}, "“" + argument + "” is no name=value; write it like radius_m=160mm."};
    const std::string key = argument.substr(0, equals);
    const Input* input = inputOf(topic, key);
    if (input == nullptr) return {{}, name + " has no input “" + key + "”; it takes " + knownKeys(topic) + "."};
    if (reading.values.contains(key)) return {{}, key + " is given twice; keep one of them."};
    const Result<double> value = valueInKeyUnit(*input, std::string_view(argument).substr(equals + 1));
    if (!value) return {{}, key + ": " + sentenceOf(value.error())};
    reading.values.emplace(key, *value);
  }
  std::vector<std::string> missing;
  for (const Input& input : topic.inputs) {
    if (!input.standard && !reading.values.contains(input.key)) {
      missing.push_back(std::string(input.key) + " (" + std::string(input.meaning) + ")");
    }
  }
  if (!missing.empty()) reading.problem = name + " still needs " + joined(missing) + "; give each as name=value.";
  return reading;
}

// ---- answers

double valueOf(const Input& input, const calc::Values& given) {
  const auto found = given.find(input.key);
  return found == given.end() ? input.standard.value_or(0.0) : found->second;
}

void writeJson(const Topic& topic, const calc::Values& given, const calc::Answer& answer, std::ostream& out) {
  Json json{{"topic", topic.name}, {"inputs", Json::object()}, {"outputs", Json::object()}};
  for (const Input& input : topic.inputs) json["inputs"][std::string(input.key)] = valueOf(input, given);
  for (const calc::Output& output : answer.outputs) json["outputs"][output.key] = output.value;
  json["formula"] = answer.formula;
  json["source"] = answer.source;
  json["validity"] = answer.validity;
  out << json.dump(2) << '\n';
}

void writeText(const Topic& topic, const calc::Values& given, const calc::Answer& answer, std::ostream& out) {
  std::size_t width = 0;
  for (const Input& input : topic.inputs) width = std::max(width, input.key.size());
  for (const calc::Output& output : answer.outputs) width = std::max(width, output.key.size());
  out << topic.name << ": " << topic.what << '\n';
  for (const Input& input : topic.inputs) {
    out << "  " << padded(std::string(input.key), width) << "  " << shortNumber(valueOf(input, given))
        << (given.contains(input.key) ? "" : "  (standard)") << '\n';
  }
  out << "gives\n";
  for (const calc::Output& output : answer.outputs) {
    out << "  " << padded(output.key, width) << "  " << shortNumber(output.value) << '\n';
  }
  out << "formula   " << answer.formula << '\n' << "source    " << answer.source << '\n';
  if (!answer.validity.empty()) out << "validity  " << answer.validity << '\n';
}

// ---- the list

Json asJson(const Topic& topic) {
  Json inputs = Json::array();
  for (const Input& input : topic.inputs) {
    inputs.push_back({{"key", input.key},
                      {"unit", input.bareUnit},
                      {"meaning", input.meaning},
                      {"standard", input.standard ? Json(*input.standard) : Json(nullptr)},
                      {"lowest", input.lowest},
                      {"highest", input.highest}});
  }
  return {{"topic", topic.name},      {"what", topic.what},     {"inputs", inputs},          {"outputs", topic.outputs},
          {"formula", topic.formula}, {"source", topic.source}, {"validity", topic.validity}};
}

void describe(const Topic& topic, std::ostream& out) {
  std::size_t width = 0, unitWidth = 0;
  for (const Input& input : topic.inputs) {
    width = std::max(width, input.key.size());
    unitWidth = std::max(unitWidth, input.bareUnit.size());
  }
  out << topic.name << ": " << topic.what << '\n';
  for (const Input& input : topic.inputs) {
    out << "  " << padded(std::string(input.key), width) << "  " << padded(std::string(input.bareUnit), unitWidth)
        << "  " << input.meaning << ", " << shortNumber(input.lowest) << " to " << shortNumber(input.highest);
    if (input.standard) out << ", standard " << shortNumber(*input.standard);
    out << '\n';
  }
  std::vector<std::string> given(topic.outputs.begin(), topic.outputs.end());
  out << "  gives " << joined(given) << '\n' << "  source " << topic.source << "\n\n";
}

}  // namespace

int listTopics(bool json, std::ostream& out) {
  if (!json) {
    for (const Topic& topic : calc::topics()) describe(topic, out);
    return kFine;
  }
  Json all = Json::array();
  for (const Topic& topic : calc::topics()) all.push_back(asJson(topic));
  out << Json{{"topics", all}}.dump(2) << '\n';
  return kFine;
}

int calculate(const std::string& name, const std::vector<std::string>& arguments, bool json, std::ostream& out,
              std::ostream& err) {
  if (name.empty()) return fail("calc needs a topic; “sunspool calc --list” names all there are.", kUsage, err);
  const Topic* topic = calc::findTopic(name);
  if (topic == nullptr) return fail(sentenceOf({ErrorCode::UnknownTopic, name, {}, {}}), kUsage, err);
  const Reading reading = read(*topic, arguments);
  if (!reading.problem.empty()) return fail(reading.problem, kUsage, err);
  const Result<calc::Answer> answer = calc::calculate(name, reading.values);
  if (!answer) return fail(sentenceOf(answer.error()), kFailure, err);
  if (json) {
    writeJson(*topic, reading.values, *answer, out);
  } else {
    writeText(*topic, reading.values, *answer, out);
  }
  return kFine;
}

}  // namespace sunspool::cli
