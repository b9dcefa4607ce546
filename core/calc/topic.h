// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How the tables of this module are written. Internal to calc.

#include <initializer_list>
#include <utility>

#include "core/base/quantity.h"
#include "core/calc/calc.h"

namespace sunspool::calc::detail {

/// An input whose dimension and unit stand at the end of its key; without a known ending it is a plain number.
Input input(std::string_view key, std::string_view meaning, double lowest, double highest,
            std::optional<double> standard = std::nullopt);
/// A whole number.
Input whole(std::string_view key, std::string_view meaning, double lowest, double highest,
            std::optional<double> standard = std::nullopt);

// Inputs that several topics share.
Input insideDiameter();
Input outsideDiameter();
Input wall();  ///< of a tube
Input waterTemperature(std::optional<double> standard = std::nullopt);
Input airPressure();
Input reynolds();
Input prandtl();
Input latitude();
Input dayOfYear();
Input zenith();
Input tilt();
Input share(std::string_view key, std::string_view meaning, std::optional<double> standard = std::nullopt);
Input temperature(std::string_view key, std::string_view meaning, std::optional<double> standard = std::nullopt);

/// The value of a key that the topic's inputs name.
double number(const Values& values, std::string_view key);
int wholeNumber(const Values& values, std::string_view key);
/// The same as a quantity; its key is in SI, degrees Celsius or degrees of angle.
template <class Q>
Q as(const Values& values, std::string_view key) {
  return Q::fromSi(number(values, key));
}
template <>
inline Temperature as<Temperature>(const Values& values, std::string_view key) {
  return celsius(number(values, key));
}
template <>
inline Angle as<Angle>(const Values& values, std::string_view key) {
  return degrees(number(values, key));
}

Answer outputs(std::initializer_list<std::pair<const char*, double>> values);

std::vector<Topic> waterTopics();
std::vector<Topic> frictionTopics();
std::vector<Topic> fittingTopics();
std::vector<Topic> pumpTopics();
std::vector<Topic> tubeTopics();
std::vector<Topic> sunTopics();
std::vector<Topic> irradianceTopics();
std::vector<Topic> coverTopics();
std::vector<Topic> lossTopics();
std::vector<Topic> collectorTopics();
std::vector<Topic> filmTopics();
std::vector<Topic> workshopTopics();

}  // namespace sunspool::calc::detail
