// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/error_names.h"

namespace sunspool {

std::string_view codeName(ErrorCode code) {
  switch (code) {
    case ErrorCode::FileNotFound:
      return "file_not_found";
    case ErrorCode::FileUnreadable:
      return "file_unreadable";
    case ErrorCode::NotARegularFile:
      return "not_a_regular_file";
    case ErrorCode::FolderMissing:
      return "folder_missing";
    case ErrorCode::FolderReadOnly:
      return "folder_read_only";
    case ErrorCode::DiskFull:
      return "disk_full";
    case ErrorCode::WriteFailed:
      return "write_failed";
    case ErrorCode::NotAProject:
      return "not_a_project";
    case ErrorCode::DamagedText:
      return "damaged_text";
    case ErrorCode::NewerVersion:
      return "newer_version";
    case ErrorCode::MissingKey:
      return "missing_key";
    case ErrorCode::WrongType:
      return "wrong_type";
    case ErrorCode::OutOfRange:
      return "out_of_range";
    case ErrorCode::UnknownWord:
      return "unknown_word";
    case ErrorCode::DuplicateKey:
      return "duplicate_key";
    case ErrorCode::InsideNotBelowOutside:
      return "inside_not_below_outside";
    case ErrorCode::LowerNotBelowUpper:
      return "lower_not_below_upper";
    case ErrorCode::PumpLabelImpossible:
      return "pump_label_impossible";
    case ErrorCode::PumpCurveRises:
      return "pump_curve_rises";
    case ErrorCode::OutlineTooFewCorners:
      return "outline_too_few_corners";
    case ErrorCode::OutlineCrossesItself:
      return "outline_crosses_itself";
    case ErrorCode::OutlineNoArea:
      return "outline_no_area";
    case ErrorCode::PitchBelowDiameter:
      return "pitch_below_diameter";
    case ErrorCode::RegionTooNarrow:
      return "region_too_narrow";
    case ErrorCode::CannotBendPlain:
      return "cannot_bend_plain";
    case ErrorCode::NoRunFits:
      return "no_run_fits";
    case ErrorCode::KeepOutInTheWay:
      return "keep_out_in_the_way";
    case ErrorCode::KeepOutOverExit:
      return "keep_out_over_exit";
    case ErrorCode::TurnsDoNotFit:
      return "turns_do_not_fit";
    case ErrorCode::TooMuchTube:
      return "too_much_tube";
    case ErrorCode::CrossingHasNoPlace:
      return "crossing_has_no_place";
    case ErrorCode::NotConverged:
      return "not_converged";
    case ErrorCode::NotFinite:
      return "not_finite";
    case ErrorCode::PumpNeverStarts:
      return "pump_never_starts";
    case ErrorCode::NoFlow:
      return "no_flow";
    case ErrorCode::DateImpossible:
      return "date_impossible";
    case ErrorCode::SunNeverRises:
      return "sun_never_rises";
    case ErrorCode::PieceLongerThanStock:
      return "piece_longer_than_stock";
    case ErrorCode::NoStock:
      return "no_stock";
    case ErrorCode::BadNumber:
      return "bad_number";
    case ErrorCode::BadUnit:
      return "bad_unit";
    case ErrorCode::AmbiguousUnit:
      return "ambiguous_unit";
    case ErrorCode::UnknownTopic:
      return "unknown_topic";
    case ErrorCode::BadUsage:
      return "bad_usage";
    case ErrorCode::RenderFailed:
      return "render_failed";
  }
  return {};
}

std::string_view unitSuffix(Dimension dimension) {
  switch (dimension) {
    case Dimension::None:
    case Dimension::Count:
      return {};
    case Dimension::Length:
      return "m";
    case Dimension::Area:
      return "m2";
    case Dimension::Volume:
      return "m3";
    case Dimension::Mass:
      return "kg";
    case Dimension::Duration:
      return "s";
    case Dimension::Velocity:
      return "m_s";
    case Dimension::VolumeFlow:
      return "m3_s";
    case Dimension::MassFlow:
      return "kg_s";
    case Dimension::Pressure:
      return "Pa";
    case Dimension::Head:
      return "m";
    case Dimension::Power:
      return "W";
    case Dimension::Energy:
      return "J";
    case Dimension::Irradiance:
      return "W_m2";
    case Dimension::Temperature:
      return "C";
    case Dimension::TemperatureDifference:
      return "K";
    case Dimension::Angle:
      return "deg";
    case Dimension::Percent:
      return "share";
    case Dimension::HeatTransferCoefficient:
      return "W_m2K";
    case Dimension::ThermalConductivity:
      return "W_mK";
    case Dimension::Money:
      return "money";
  }
  return {};
}

}  // namespace sunspool
