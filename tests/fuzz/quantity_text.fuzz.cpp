// SPDX-License-Identifier: GPL-3.0-or-later
// The first byte chooses what is asked for, the rest is the typed text.

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>
#include <utility>

#include "app/format/quantity_text.h"

namespace {

using sunspool::Dimension;

constexpr auto kFields = std::to_array<std::pair<Dimension, std::string_view>>({
    {Dimension::Length, "mm"},
    {Dimension::Head, "m"},
    {Dimension::Area, "m2"},
    {Dimension::Volume, "L"},
    {Dimension::Mass, "kg"},
    {Dimension::Duration, "min"},
    {Dimension::Velocity, "m/s"},
    {Dimension::VolumeFlow, "L/min"},
    {Dimension::MassFlow, "kg/s"},
    {Dimension::Pressure, "kPa"},
    {Dimension::Power, "W"},
    {Dimension::Energy, "kWh"},
    {Dimension::Irradiance, "W/m2"},
    {Dimension::Temperature, "°C"},
    {Dimension::TemperatureDifference, "K"},
    {Dimension::Angle, "°"},
    {Dimension::Percent, ""},
    {Dimension::Count, ""},
    {Dimension::None, ""},
    {Dimension::HeatTransferCoefficient, "W/(m2 K)"},
    {Dimension::ThermalConductivity, "W/(m K)"},
    {Dimension::Money, "EUR"},
});

void require(bool condition) {
  if (!condition) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto& [dimension, bareUnit] = kFields[data[0] % kFields.size()];
  const std::string_view text(reinterpret_cast<const char*>(data + 1), size - 1);
  const auto value = sunspool::format::parseQuantity(text, dimension, bareUnit);
  if (value) {
    require(std::isfinite(*value));
  } else {
    require(value.error().where == text);
    require(text.find(value.error().detail) != std::string_view::npos);
  }
  return 0;
}
