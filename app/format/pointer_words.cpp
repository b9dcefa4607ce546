// SPDX-License-Identifier: GPL-3.0-or-later
#include <QStringList>
#include <algorithm>
#include <array>

#include "app/format/format.h"
#include "app/format/text.h"

namespace sunspool::format {
namespace {

struct KeyWords {
  const char* key;
  const char* words;
};

// Keys that do not read well with their underscores taken out.
constexpr auto kKeys = std::to_array<KeyWords>({
    {"air", QT_TRANSLATE_NOOP("sunspool::format", "air temperature")},
    {"azimuth_deg", QT_TRANSLATE_NOOP("sunspool::format", "facing")},
    {"bend_test_collapse_radius", QT_TRANSLATE_NOOP("sunspool::format", "collapse radius of the bend test")},
    {"bore_m", QT_TRANSLATE_NOOP("sunspool::format", "bore")},
    {"conductivity", QT_TRANSLATE_NOOP("sunspool::format", "heat conductivity")},
    {"expansion_1_K", QT_TRANSLATE_NOOP("sunspool::format", "thermal growth")},
    {"feed", QT_TRANSLATE_NOOP("sunspool::format", "feed pipe")},
    {"glazing_price_per_m2", QT_TRANSLATE_NOOP("sunspool::format", "price of glazing per square metre")},
    {"keep_out", QT_TRANSLATE_NOOP("sunspool::format", "keep-out")},
    {"keep_outs", QT_TRANSLATE_NOOP("sunspool::format", "keep-out")},
    {"left_snags", QT_TRANSLATE_NOOP("sunspool::format", "snag left on purpose")},
    {"limit_C", QT_TRANSLATE_NOOP("sunspool::format", "highest service temperature")},
    {"linke_turbidity", QT_TRANSLATE_NOOP("sunspool::format", "haze of the sky (Linke turbidity)")},
    {"on_panel", QT_TRANSLATE_NOOP("sunspool::format", "sun on the panel")},
    {"plumbing", QT_TRANSLATE_NOOP("sunspool::format", "plumbing")},
    {"points", QT_TRANSLATE_NOOP("sunspool::format", "measured point")},
    {"pressure_rating_at_20C_Pa", QT_TRANSLATE_NOOP("sunspool::format", "pressure rating at 20 °C")},
    {"price_per_m2", QT_TRANSLATE_NOOP("sunspool::format", "price per square metre")},
    {"return", QT_TRANSLATE_NOOP("sunspool::format", "return pipe")},
    {"returning", QT_TRANSLATE_NOOP("sunspool::format", "return pipe")},
    {"rolls", QT_TRANSLATE_NOOP("sunspool::format", "roll")},
    {"run_fittings", QT_TRANSLATE_NOOP("sunspool::format", "fitting of the runs")},
    {"fittings", QT_TRANSLATE_NOOP("sunspool::format", "fitting")},
    {"corners", QT_TRANSLATE_NOOP("sunspool::format", "corner")},
    {"stand_off_m", QT_TRANSLATE_NOOP("sunspool::format", "stand-off")},
    {"starts", QT_TRANSLATE_NOOP("sunspool::format", "number of parallel runs")},
    {"timbers", QT_TRANSLATE_NOOP("sunspool::format", "timber length")},
    {"utc_offset_h", QT_TRANSLATE_NOOP("sunspool::format", "offset of the clock from UTC")},
    {"top_loss", QT_TRANSLATE_NOOP("sunspool::format", "heat lost through the top")},
});

constexpr auto kParts = std::to_array<KeyWords>({
    {"air_gap", QT_TRANSLATE_NOOP("sunspool::format", "air gap")},
    {"barb_connector", QT_TRANSLATE_NOOP("sunspool::format", "barb connector")},
    {"elbow_45", QT_TRANSLATE_NOOP("sunspool::format", "elbow, 45°")},
    {"elbow_90", QT_TRANSLATE_NOOP("sunspool::format", "elbow, 90°")},
    {"tee_through", QT_TRANSLATE_NOOP("sunspool::format", "tee, straight through")},
    {"tee_branch", QT_TRANSLATE_NOOP("sunspool::format", "tee, to the branch")},
    {"feed_pipe", QT_TRANSLATE_NOOP("sunspool::format", "feed pipe")},
    {"return_pipe", QT_TRANSLATE_NOOP("sunspool::format", "return pipe")},
    {"glazing", QT_TRANSLATE_NOOP("sunspool::format", "glazing")},
    {"plate", QT_TRANSLATE_NOOP("sunspool::format", "plate")},
    {"insulation", QT_TRANSLATE_NOOP("sunspool::format", "insulation")},
    {"backing", QT_TRANSLATE_NOOP("sunspool::format", "backing")},
    {"reynolds", QT_TRANSLATE_NOOP("sunspool::format", "Reynolds number")},
    {"rail", QT_TRANSLATE_NOOP("sunspool::format", "rail")},
    {"rail_bottom", QT_TRANSLATE_NOOP("sunspool::format", "lower rail")},
    {"rail_top", QT_TRANSLATE_NOOP("sunspool::format", "upper rail")},
    {"stile_left", QT_TRANSLATE_NOOP("sunspool::format", "left stile")},
    {"stile_right", QT_TRANSLATE_NOOP("sunspool::format", "right stile")},
    {"thermometer", QT_TRANSLATE_NOOP("sunspool::format", "thermometer")},
    {"tee", QT_TRANSLATE_NOOP("sunspool::format", "tee")},
    {"stile", QT_TRANSLATE_NOOP("sunspool::format", "stile")},
    {"timber", QT_TRANSLATE_NOOP("sunspool::format", "timber")},
    {"pump", QT_TRANSLATE_NOOP("sunspool::format", "pump")},
    {"valve", QT_TRANSLATE_NOOP("sunspool::format", "valve")},
    {"crossing", QT_TRANSLATE_NOOP("sunspool::format", "crossing")},
    {"feed", QT_TRANSLATE_NOOP("sunspool::format", "feed")},
    {"return", QT_TRANSLATE_NOOP("sunspool::format", "return")},
    {"stand_off", QT_TRANSLATE_NOOP("sunspool::format", "stand-off")},
    {"tube", QT_TRANSLATE_NOOP("sunspool::format", "tube")},
});

// Units at the end of a key, longest first.
constexpr auto kSuffixes =
    std::to_array<std::string_view>({"_W_m2K", "_J_kgK", "_kg_m3", "_W_mK", "_W_m2", "_m3_s", "_1_K", "_deg", "_m_s",
                                     "_m3", "_m2", "_Pa", "_kg", "_m", "_C", "_K", "_W", "_h", "_s"});

QString spaced(std::string_view key) {
  QString words = QString::fromUtf8(key.data(), static_cast<qsizetype>(key.size()));
  return words.replace(QLatin1Char('_'), QLatin1Char(' '));
}

template <std::size_t N>
QString known(std::string_view key, const std::array<KeyWords, N>& table) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const KeyWords& entry) { return key == entry.key; });
  return found == table.end() ? QString() : Text::tr(found->words);
}

QString keyInWords(std::string_view key) {
  const QString words = known(key, kKeys);
  if (!words.isEmpty()) return words;
  for (const std::string_view suffix : kSuffixes) {
    if (key.size() > suffix.size() && key.ends_with(suffix)) return spaced(key.substr(0, key.size() - suffix.size()));
  }
  return spaced(key);
}

bool isIndex(std::string_view step) {
  return !step.empty() && std::all_of(step.begin(), step.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::vector<std::string> stepsOf(std::string_view pointer) {
  std::vector<std::string> steps;
  while (!pointer.empty()) {
    const std::size_t slash = std::min(pointer.find('/'), pointer.size());
    std::string step(pointer.substr(0, slash));
    for (const auto& [escaped, meant] : {std::pair{"~1", "/"}, std::pair{"~0", "~"}}) {
      for (std::size_t at = step.find(escaped); at != std::string::npos; at = step.find(escaped, at + 1)) {
        step.replace(at, 2, meant);
      }
    }
    if (!step.empty()) steps.push_back(std::move(step));
    pointer.remove_prefix(std::min(slash + 1, pointer.size()));
  }
  return steps;
}

/// An uncertain input is named by itself; only its spread is worth a word.
bool isValueStep(std::string_view step) { return step == "value" || step.starts_with("value_"); }

}  // namespace

QString placeInWords(std::string_view pointer) {
  QStringList words;  // outermost first
  for (const std::string& step : stepsOf(pointer)) {
    if (isIndex(step) && !words.isEmpty()) {
      // Counted from 1, as people do.
      words.back() = Text::tr("%1 %2").arg(words.back(), QString::number(std::stoull(step.substr(0, 9)) + 1));
    } else if (step.starts_with("spread_")) {
      words.push_back(Text::tr("spread"));
    } else if (!isValueStep(step)) {
      words.push_back(keyInWords(step));
    }
  }
  QString place;
  for (const QString& word : words) place = place.isEmpty() ? word : Text::tr("%1 of the %2").arg(word, place);
  return place;
}

QString roleInWords(std::string_view role) { return partInWords(role); }

QString partInWords(std::string_view part) {
  const QString words = known(part, kParts);
  return words.isEmpty() ? spaced(part) : words;
}

}  // namespace sunspool::format
