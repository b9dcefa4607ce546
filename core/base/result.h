// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/base/assert.h"

namespace sunspool {

// g++ 12 takes the enumerators of a scoped enum for shadows of the quantity types of the same name.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wshadow"
/// What a stored number measures, so that the edge can print it in the reader's unit.
enum class Dimension {
  None,
  Count,
  Length,
  Area,
  Volume,
  Mass,
  Duration,
  Velocity,
  VolumeFlow,
  MassFlow,
  Pressure,
  Head,
  Power,
  Energy,
  Irradiance,
  Temperature,
  TemperatureDifference,
  Angle,
  Percent,
  HeatTransferCoefficient,
  ThermalConductivity,
  Money
};
#pragma GCC diagnostic pop

/// One number that belongs to a finding: name of the role it plays, SI value, what it measures.
struct Fact {
  std::string name;  ///< lower_snake_case role, e.g. "needed_pitch"
  double value_si = 0.0;
  Dimension dimension = Dimension::None;
  bool operator==(const Fact&) const = default;
};

/// Why something at an edge could not be done. One sentence per code stands in app/format.
enum class ErrorCode {
  // files
  FileNotFound,
  FileUnreadable,
  NotARegularFile,
  FolderMissing,
  FolderReadOnly,
  DiskFull,
  WriteFailed,
  // project text
  NotAProject,
  DamagedText,
  NewerVersion,
  MissingKey,
  WrongType,
  OutOfRange,
  UnknownWord,
  DuplicateKey,
  // model
  InsideNotBelowOutside,
  LowerNotBelowUpper,
  PumpLabelImpossible,
  PumpCurveRises,
  // outline and layout
  OutlineTooFewCorners,
  OutlineCrossesItself,
  OutlineNoArea,
  PitchBelowDiameter,
  RegionTooNarrow,
  CannotBendPlain,
  CannotBendBulbs,
  NoRunFits,
  KeepOutInTheWay,
  KeepOutOverExit,
  TurnsDoNotFit,
  TooMuchTube,
  CrossingHasNoPlace,
  // numerics
  NotConverged,
  NotFinite,
  // hydraulics
  PumpNeverStarts,
  NoFlow,
  // climate
  DateImpossible,
  SunNeverRises,
  // cutting
  PieceLongerThanStock,
  NoStock,
  SheetSmallerThanLap,
  RollTooShort,  ///< detail: the roll; facts needed, length
  // text at the edge
  BadNumber,
  BadUnit,
  AmbiguousUnit,
  UnknownTopic,
  NotUnderstood,  ///< a line of what somebody has, `where` the line, detail the part
  RemedyGone,     ///< a remedy that no longer applies
  FileHeld,       ///< another window has the file; detail: who
  BadUsage,
  RenderFailed
};

/// A failure: what kind, where, and the numbers that go into its sentence. No prose in core.
struct Error {
  ErrorCode code{};
  std::string where;   ///< file, JSON pointer, object or topic
  std::string detail;  ///< found text, key or library message, quoted as is
  std::vector<Fact> facts;
  bool operator==(const Error&) const = default;
};

/// Value or Error, with the interface of std::expected as far as it is used here.
/// (Debian 12's compilers do not offer <expected> in C++20; see DEVELOPERS.md, Decisions.)
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : m_state(std::in_place_index<0>, std::move(value)) {}      // NOLINT(google-explicit-constructor)
  Result(Error error) : m_state(std::in_place_index<1>, std::move(error)) {}  // NOLINT(google-explicit-constructor)

  bool has_value() const { return m_state.index() == 0; }
  explicit operator bool() const { return has_value(); }
  const T& value() const& {
    SUNSPOOL_ASSERT(has_value(), "value() of a failed Result");
    return std::get<0>(m_state);
  }
  T& value() & {
    SUNSPOOL_ASSERT(has_value(), "value() of a failed Result");
    return std::get<0>(m_state);
  }
  T&& value() && {
    SUNSPOOL_ASSERT(has_value(), "value() of a failed Result");
    return std::get<0>(std::move(m_state));
  }
  const Error& error() const {
    SUNSPOOL_ASSERT(!has_value(), "error() of a good Result");
    return std::get<1>(m_state);
  }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

  template <class F>
  auto and_then(F&& f) const -> decltype(f(std::declval<const T&>())) {
    if (has_value()) return f(value());
    return error();
  }
  template <class F>
  auto transform(F&& f) const -> Result<decltype(f(std::declval<const T&>()))> {
    if (has_value()) return f(value());
    return error();
  }
  bool operator==(const Result&) const = default;

 private:
  std::variant<T, Error> m_state;
};

/// Success without a value.
struct Done {
  bool operator==(const Done&) const = default;
};

}  // namespace sunspool
