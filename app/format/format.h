// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Quantities, failures and findings as a person reads them. Thin space as thousands mark, true minus, unit after a
// space. A value that is not zero never prints as zero, and two numbers that disagree never print alike.

#include <QString>
#include <span>
#include <string_view>

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/base/snag.h"
#include "core/base/uncertain.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::format {

enum class UnitSystem { Metric, UsCustomary };
struct Preferences {
  UnitSystem units = UnitSystem::Metric;
  bool operator==(const Preferences&) const = default;
};

/// A number and its unit apart, so that the unit can be set smaller.
struct NumberAndUnit {
  QString number;
  QString unit;
  QString joined() const;  ///< "16.3 L"; a degree mark stands close: "30°"
  bool operator==(const NumberAndUnit&) const = default;
};

/// Which scale of a length: workshop drawing (mm / in), run of tube (m / ft), height (m / ft).
enum class LengthScale { Drawing, Run, Height };
NumberAndUnit number(Length value, LengthScale scale, const Preferences& preferences);
NumberAndUnit number(Area value, const Preferences& preferences);
NumberAndUnit number(Volume value, const Preferences& preferences);
NumberAndUnit number(Mass value, const Preferences& preferences);
NumberAndUnit number(VolumeFlow value, const Preferences& preferences);
NumberAndUnit number(Pressure value, const Preferences& preferences);
NumberAndUnit number(Power value, const Preferences& preferences);
NumberAndUnit number(Irradiance value, const Preferences& preferences);
NumberAndUnit number(Velocity value, const Preferences& preferences);
NumberAndUnit number(Temperature value, const Preferences& preferences);
NumberAndUnit number(TemperatureDifference value, const Preferences& preferences);
NumberAndUnit number(Angle value, const Preferences& preferences);
/// A Percent fact holds a share (0.05 is "5 %"). Lengths of a metre and more print as runs, shorter ones as on a
/// drawing.
NumberAndUnit number(const Fact& fact, const Preferences& preferences);
NumberAndUnit money(double amount, const std::string& currency);

/// "15.8 to 16.8 L"; one number when both ends print alike.
template <class Q>
QString range(const Ranged<Q>& value, const Preferences& preferences);  // Length: see rangeOf()
QString rangeOf(const Ranged<Length>& value, LengthScale scale, const Preferences& preferences);

QString sureness(Sureness sureness);  ///< "guess", "from the label", "measured"
QString clock(double hour);           ///< "13:30"
QString compass(Angle azimuth);       ///< "south", "south-west", ...

/// Two facts of one dimension with as many digits as it takes to tell them apart.
struct TwoNumbers {
  NumberAndUnit first, second;
};
TwoNumbers apart(const Fact& first, const Fact& second, const Preferences& preferences);

/// A JSON pointer in words: "/tube/inside_diameter_m" -> "inside diameter of the tube". Other text comes back as it is.
QString placeInWords(std::string_view pointer);
/// The role of a fact in words: "handbook_radius" -> "handbook radius".
QString roleInWords(std::string_view role);
/// A part of the panel in words: "stand_off" -> "stand-off".
QString partInWords(std::string_view part);
QString runLetter(int run);  ///< "A" for run 0

/// One sentence: what, where, what was found, what is expected, what to do.
QString sentence(const Error& error, const Preferences& preferences);

struct SnagText {
  QString title;  ///< one sentence with the place and amount
  QString what, why, costs;
  QString headline;  ///< the finding with its place, without the amount
};
SnagText snagText(const Snag& snag, const model::Document& document, const Preferences& preferences);

/// The cautions that stand on lists and in the window, each with its reason.
enum class Caution {
  MainsNearWater,
  FirstWaterScalds,
  PlasticOverLimit,
  WindLifts,
  WorkOnRoof,
  WeightOnRoof,
  SuctionCover,
  WaterChemistry,
  NotForDrinking,
  PressureAndFreezing,
  SteamAndClosedValves,
  Fire,
  StandingWater,
  LocalCodes
};
std::span<const Caution> allCautions();
/// Stable lower_snake_case name, e.g. for `--json`.
std::string_view cautionKey(Caution caution);
struct CautionText {
  QString title;  ///< a few words
  QString text;   ///< what, why and what to do, in sentences
};
CautionText cautionText(Caution caution);

}  // namespace sunspool::format
