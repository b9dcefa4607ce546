// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/geometry/closed_forms.h"

#include <limits>
#include <numbers>
#include <optional>

namespace sunspool::geometry {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kAboveZero = std::numeric_limits<double>::min();

std::optional<Error> below(const char* where, const char* input, Length value, double lowest_m) {
  if (!value.isFinite()) return Error{ErrorCode::NotFinite, where, input, {}};
  if (value.si() >= lowest_m) return std::nullopt;
  return Error{ErrorCode::OutOfRange,
               where,
               input,
               {{"value", value.si(), Dimension::Length}, {"lowest", lowest_m, Dimension::Length}}};
}

/// Length of r = a theta from the centre to theta, in units of a.
double spiralFromCentre(double theta) { return 0.5 * (theta * std::sqrt(1.0 + theta * theta) + std::asinh(theta)); }

}  // namespace

Result<SpiralMeasures> archimedeanSpiral(Length innerRadius, Length outerRadius, Length pitch) {
  constexpr const char* kWhere = "spiral";
  if (auto error = below(kWhere, "inner_radius", innerRadius, 0.0)) return *error;
  if (auto error = below(kWhere, "outer_radius", outerRadius, innerRadius.si())) return *error;
  if (auto error = below(kWhere, "pitch", pitch, kAboveZero)) return *error;
  const double a = pitch.si() / (2.0 * kPi);
  const double length = a * (spiralFromCentre(outerRadius.si() / a) - spiralFromCentre(innerRadius.si() / a));
  const double turns = (outerRadius - innerRadius) / pitch;
  if (!std::isfinite(length) || !std::isfinite(turns)) return Error{ErrorCode::NotFinite, kWhere, {}, {}};
  return SpiralMeasures{metres(length), turns};
}

Result<Length> serpentineLength(int passes, Length straight, Length pitch) {
  constexpr const char* kWhere = "serpentine";
  if (passes < 1) {
    return Error{ErrorCode::OutOfRange,
                 kWhere,
                 "passes",
                 {{"value", static_cast<double>(passes), Dimension::Count}, {"lowest", 1.0, Dimension::Count}}};
  }
  if (auto error = below(kWhere, "straight", straight, 0.0)) return *error;
  if (auto error = below(kWhere, "pitch", pitch, kAboveZero)) return *error;
  const double length = passes * straight.si() + (passes - 1) * kPi * pitch.si() / 2.0;
  if (!std::isfinite(length)) return Error{ErrorCode::NotFinite, kWhere, {}, {}};
  return metres(length);
}

Result<Volume> containedWater(Length insideDiameter, Length length) {
  constexpr const char* kWhere = "water";
  if (auto error = below(kWhere, "inside_diameter", insideDiameter, kAboveZero)) return *error;
  if (auto error = below(kWhere, "length", length, 0.0)) return *error;
  const double volume = kPi / 4.0 * insideDiameter.si() * insideDiameter.si() * length.si();
  if (!std::isfinite(volume)) return Error{ErrorCode::NotFinite, kWhere, {}, {}};
  return cubicMetres(volume);
}

}  // namespace sunspool::geometry
