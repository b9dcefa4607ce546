// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/calc/topic.h"

#include <array>

namespace sunspool::calc::detail {
namespace {

/// What the end of a key tells about its value.
struct Ending {
  std::string_view text;
  Dimension dimension;
  std::string_view bareUnit;
};
// Units without a dimension of their own are listed so that a shorter ending does not claim them.
constexpr auto kEndings = std::to_array<Ending>({
    {"_m", Dimension::Length, "m"},
    {"_m2", Dimension::Area, "m2"},
    {"_m3_s", Dimension::VolumeFlow, "m3/s"},
    {"_m_s", Dimension::Velocity, "m/s"},
    {"_s", Dimension::Duration, "s"},
    {"_h", Dimension::Duration, "h"},
    {"_Pa", Dimension::Pressure, "Pa"},
    {"_W", Dimension::Power, "W"},
    {"_W_m2", Dimension::Irradiance, "W/m2"},
    {"_W_m2K", Dimension::HeatTransferCoefficient, "W/(m2 K)"},
    {"_W_mK", Dimension::ThermalConductivity, "W/(m K)"},
    {"_C", Dimension::Temperature, "°C"},
    {"_K", Dimension::TemperatureDifference, "K"},
    {"_deg", Dimension::Angle, "deg"},
    {"_1_K", Dimension::None, ""},
    {"_1_m", Dimension::None, ""},
    {"_J_m2", Dimension::None, ""},
    {"_J_m2K", Dimension::None, ""},
    {"_W_K", Dimension::None, ""},
    {"_kg_m3", Dimension::None, ""},
    {"_m2K_W", Dimension::None, ""},
    {"_min", Dimension::None, ""},
    {"_s2_m5", Dimension::None, ""},
});

Ending endingOf(std::string_view key) {
  Ending longest{"", Dimension::None, ""};
  for (const Ending& ending : kEndings) {
    if (key.ends_with(ending.text) && ending.text.size() > longest.text.size()) longest = ending;
  }
  return longest;
}

}  // namespace

Input input(std::string_view key, std::string_view meaning, double lowest, double highest,
            std::optional<double> standard) {
  const Ending ending = endingOf(key);
  return {key, ending.dimension, ending.bareUnit, standard, meaning, lowest, highest};
}

Input whole(std::string_view key, std::string_view meaning, double lowest, double highest,
            std::optional<double> standard) {
  return {key, Dimension::Count, "", standard, meaning, lowest, highest};
}

Input insideDiameter() { return input("inside_diameter_m", "inside diameter of the tube", 1e-4, 10.0); }
Input outsideDiameter() { return input("outside_diameter_m", "outside diameter of the tube", 1e-4, 10.0); }
Input wall() { return input("wall_m", "thickness of the tube's wall", 1e-5, 1.0); }
Input waterTemperature(std::optional<double> standard) {
  return input("water_C", "water temperature", 0.0, 150.0, standard);
}
Input airPressure() { return input("air_pressure_Pa", "pressure of the air at the place", 1e3, 2e5, 101325.0); }
Input reynolds() { return input("reynolds", "Reynolds number", 1e-2, 1e8); }
Input prandtl() { return input("prandtl", "Prandtl number", 1e-3, 1e5); }
Input latitude() { return input("latitude_deg", "latitude, north positive", -90.0, 90.0); }
Input dayOfYear() { return whole("day_of_year", "day of the year, 1 for 1 January", 1.0, 366.0); }
Input zenith() { return input("zenith_deg", "angle of the sun from straight overhead", 0.0, 180.0); }
Input tilt() { return input("tilt_deg", "tilt of the plane, 0 lying flat", 0.0, 90.0); }
Input share(std::string_view key, std::string_view meaning, std::optional<double> standard) {
  return input(key, meaning, 0.0, 1.0, standard);
}
Input temperature(std::string_view key, std::string_view meaning, std::optional<double> standard) {
  return input(key, meaning, -60.0, 250.0, standard);
}

double number(const Values& values, std::string_view key) {
  const auto found = values.find(key);
  SUNSPOOL_ASSERT(found != values.end(), "a topic asks for a key that its inputs do not name");
  return found->second;
}

int wholeNumber(const Values& values, std::string_view key) { return static_cast<int>(number(values, key)); }

Answer outputs(std::initializer_list<std::pair<const char*, double>> values) {
  Answer answer;
  for (const auto& [key, value] : values) answer.outputs.push_back({key, value});
  return answer;
}

}  // namespace sunspool::calc::detail
