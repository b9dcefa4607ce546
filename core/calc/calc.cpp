// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/calc/calc.h"

#include <algorithm>
#include <cmath>

#include "core/base/number_text.h"
#include "core/calc/topic.h"

namespace sunspool::calc {
namespace {

std::vector<Topic> allTopics() {
  using namespace detail;
  std::vector<Topic> all;
  for (auto* const field : {waterTopics, frictionTopics, fittingTopics, pumpTopics, tubeTopics, sunTopics,
                            irradianceTopics, coverTopics, lossTopics, collectorTopics, filmTopics, workshopTopics}) {
    std::vector<Topic> part = field();
    all.insert(all.end(), part.begin(), part.end());
  }
  return all;
}

double siOf(const Input& input, double value) {
  if (input.dimension == Dimension::Temperature) return celsius(value).inKelvin();
  if (input.dimension == Dimension::Angle) return degrees(value).radians();
  if (input.bareUnit == "h") return value * hour.si_per_unit;
  return value;
}

std::optional<Error> refusal(const Input& input, double value) {
  const std::string where = std::string("/").append(input.key);
  if (!std::isfinite(value)) return Error{ErrorCode::NotFinite, where, {}, {}};
  if (value < input.lowest || value > input.highest) {
    return Error{ErrorCode::OutOfRange,
                 where,
                 {},
                 {{"value", siOf(input, value), input.dimension},
                  {"lowest", siOf(input, input.lowest), input.dimension},
                  {"highest", siOf(input, input.highest), input.dimension}}};
  }
  if (input.dimension == Dimension::Count && value != std::round(value)) {
    return Error{ErrorCode::WrongType, where, numberText(value), {{"expected_whole_number", 0.0, Dimension::None}}};
  }
  return std::nullopt;
}

Error unknownKey(const Topic& topic, const std::string& key) {
  Error error{ErrorCode::UnknownWord, std::string(topic.name), key, {}};
  for (const Input& input : topic.inputs) error.facts.push_back({std::string(input.key), 0.0, Dimension::None});
  return error;
}

Result<Values> completed(const Topic& topic, const Values& given) {
  for (const auto& [key, value] : given) {
    const bool known = std::any_of(topic.inputs.begin(), topic.inputs.end(),
                                   [&key = key](const Input& input) { return input.key == key; });
    if (!known) return unknownKey(topic, key);
  }
  Values values;
  for (const Input& input : topic.inputs) {
    const auto found = given.find(input.key);
    if (found == given.end() && !input.standard) {
      return Error{ErrorCode::MissingKey, std::string(topic.name), std::string(input.key), {}};
    }
    const double value = found == given.end() ? *input.standard : found->second;
    if (auto error = refusal(input, value)) return *error;
    values.emplace(input.key, value);
  }
  return values;
}

}  // namespace

std::span<const Topic> topics() {
  static const std::vector<Topic> kTopics = allTopics();
  return kTopics;
}

const Topic* findTopic(std::string_view name) {
  const auto all = topics();
  const auto found = std::find_if(all.begin(), all.end(), [name](const Topic& topic) { return topic.name == name; });
  return found == all.end() ? nullptr : &*found;
}

Result<Answer> calculate(std::string_view name, const Values& given) {
  const Topic* topic = findTopic(name);
  if (topic == nullptr) return Error{ErrorCode::UnknownTopic, std::string(name), {}, {}};
  const Result<Values> values = completed(*topic, given);
  if (!values) return values.error();
  Result<Answer> answer = topic->answer(*values);
  if (!answer) return answer;
  for (const Output& output : answer->outputs) {
    if (!std::isfinite(output.value)) return Error{ErrorCode::NotFinite, std::string(name), output.key, {}};
  }
  answer->formula = topic->formula;
  answer->source = topic->source;
  answer->validity = topic->validity;
  return answer;
}

}  // namespace sunspool::calc
