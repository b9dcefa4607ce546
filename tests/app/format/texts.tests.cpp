// SPDX-License-Identifier: GPL-3.0-or-later
#include <QRegularExpression>
#include <QString>
#include <catch2/catch.hpp>
#include <ostream>
#include <set>

#include "app/format/format.h"
#include "app/format/remedy_text.h"

inline std::ostream& operator<<(std::ostream& out, const QString& text) { return out << text.toStdString(); }

namespace sunspool::format {
namespace {

constexpr Preferences kMetric{UnitSystem::Metric};
constexpr int kErrorCodes = static_cast<int>(ErrorCode::RenderFailed) + 1;
constexpr int kSnagCodes = static_cast<int>(SnagCode::PriceNotKnown) + 1;

void checkWording(const QString& text) {
  INFO(text);
  CHECK_FALSE(text.isEmpty());
  CHECK(text.endsWith(QLatin1Char('.')));
  CHECK_FALSE(text.endsWith(QStringLiteral("..")));
  CHECK(text.front() == text.front().toUpper());
  static const QRegularExpression banned(QStringLiteral("\\b(safe|safely|optimal|error|invalid|please)\\b|!"),
                                         QRegularExpression::CaseInsensitiveOption);
  CHECK_FALSE(banned.match(text).hasMatch());
  CHECK_FALSE(text.contains(QRegularExpression(QStringLiteral("%\\d"))));  // a hole in a sentence
  CHECK_FALSE(text.contains(QStringLiteral("  ")));
  CHECK_FALSE(text.contains(QStringLiteral("; .")));
}

TEST_CASE("Every failure has its sentence, with facts and without", "[format][analytic]") {
  const std::vector<Fact> facts{{"found", 0.02, Dimension::Length}, {"needed", 0.03, Dimension::Length}};
  std::set<QString> all;
  for (int code = 0; code < kErrorCodes; ++code) {
    INFO("code " << code);
    const Error bare{static_cast<ErrorCode>(code), {}, {}, {}};
    const Error full{static_cast<ErrorCode>(code), "/tube/inside_diameter_m", "sixteen", facts};
    checkWording(sentence(bare, kMetric));
    checkWording(sentence(full, kMetric));
    CHECK(sentence(full, kMetric).contains(QStringLiteral("20 mm")));  // no fact is kept from the reader
    all.insert(sentence(bare, kMetric));
  }
  CHECK(all.size() == static_cast<std::size_t>(kErrorCodes));  // and each its own
}

TEST_CASE("A failure tells place, found, expected and what to do", "[format][analytic]") {
  const auto told = [](Error error) { return sentence(error, kMetric); };
  CHECK(
      told(
          {ErrorCode::OutOfRange,
           "/laying/pitch_m",
           {},
           {{"value", 9.0, Dimension::Length}, {"low", 0.001, Dimension::Length}, {"high", 2.0, Dimension::Length}}}) ==
      QStringLiteral("The pitch of the laying is 9.0 m; it must lie between 1 mm and 2.0 m."));
  CHECK(told({ErrorCode::WrongType, "/tube/inside_diameter/value_m", "\"wide\"", {{"expected_number", 0.0, {}}}}) ==
        QStringLiteral(
            "The inside diameter of the tube holds “\"wide\"” where a number is expected; put that in its place."));
  CHECK(
      told({ErrorCode::DamagedText, {}, "}", {{"line", 12, Dimension::Count}, {"column", 3, Dimension::Count}}}) ==
      QStringLiteral("The text of the project is damaged at line 12, column 3: “}” stands there; mend that place in a "
                     "text editor, or open an older copy."));
  CHECK(told({ErrorCode::CannotBendPlain,
              {},
              {},
              {{"pitch", 0.026, Dimension::Length},
               {"plain_pitch", 0.32, Dimension::Length},
               {"bulb_pitch", 0.173, Dimension::Length},
               {"spiral_length", 81.0, Dimension::Length},
               {"serpentine_length", 15.2, Dimension::Length}}}) ==
        QStringLiteral(
            "A plain serpentine of 26 mm pitch cannot be bent: it needs a pitch of 320 mm, or 173 mm with bulb "
            "turns; a spiral of the same box and pitch holds 81.0 m of tube, the serpentine at the plain pitch "
            "15.2 m."));
  CHECK(told({ErrorCode::OutlineCrossesItself,
              "keep_out/1",
              {},
              {{"x", 0.12, Dimension::Length}, {"y", 0.3, Dimension::Length}}}) ==
        QStringLiteral(
            "The keep-out 2 crosses itself: at x 120 mm, y 300 mm; move a corner so that no two sides cross."));
  CHECK(
      told({ErrorCode::InsideNotBelowOutside,
            "/tube/inside_diameter",
            {},
            {{"inside", 0.016, Dimension::Length}, {"outside", 0.016, Dimension::Length}}}) ==
      QStringLiteral("The inside diameter of the tube is not below its outside diameter: 16 mm inside, 16 mm outside; "
                     "tell which of the two numbers is the bore."));
  CHECK(told({ErrorCode::AmbiguousUnit, "3 gal", "gal", {}}) ==
        QStringLiteral(
            "“gal” may mean a US gallon of 3.785 L or an imperial one of 4.546 L; write “US gal” or “imp gal”."));
  CHECK(
      told({ErrorCode::BadNumber, "1,200.5", "1,200.5", {}}) ==
      QStringLiteral("“1,200.5” cannot be read as one number; write it like 26, 12,5 mm, 1 3/16 in or 3*40 mm, without "
                     "marks between thousands."));
  CHECK(told({ErrorCode::DateImpossible,
              "/moment/day",
              {},
              {{"year", 2025, Dimension::Count}, {"month", 2, Dimension::Count}, {"day", 30, Dimension::Count}}}) ==
        QStringLiteral("There is no such day or hour: “2025-02-30”; enter a day of the calendar."));
}

TEST_CASE("Text of others is quoted as it is, on one line and not too long", "[format][analytic]") {
  const QString told = sentence({ErrorCode::BadNumber, std::string(500, 'x') + "\n%1", "%2", {}}, kMetric);
  CHECK(told.size() < 300);
  CHECK_FALSE(told.contains(QLatin1Char('\n')));
  CHECK(sentence({ErrorCode::FileNotFound, "/home/я/泳池.sunspool", {}, {}}, kMetric).contains(QStringLiteral("泳池")));
  CHECK(sentence({ErrorCode::UnknownTopic, "%1 %2", {}, {}}, kMetric).contains(QStringLiteral("“%1 %2”")));
}

TEST_CASE("A JSON pointer becomes words", "[format][analytic]") {
  CHECK(placeInWords("/tube/inside_diameter_m") == QStringLiteral("inside diameter of the tube"));
  CHECK(placeInWords("/tube/inside_diameter/value_m") == QStringLiteral("inside diameter of the tube"));
  CHECK(placeInWords("/tube/wall/spread_m") == QStringLiteral("spread of the wall of the tube"));
  CHECK(placeInWords("/keep_outs/1/clearance_m") == QStringLiteral("clearance of the keep-out 2"));
  CHECK(placeInWords("/plumbing/pump/label_flow/value_m3_s") ==
        QStringLiteral("label flow of the pump of the plumbing"));
  CHECK(placeInWords("/siting/tilt_deg") == QStringLiteral("tilt of the siting"));
  CHECK(placeInWords("/a~1b") == QStringLiteral("a/b"));
  CHECK(placeInWords("").isEmpty());
  CHECK(placeInWords("///").isEmpty());
  CHECK(placeInWords("/99999999999999999999/x").size() > 0);
}

Snag bend() {
  Snag snag;
  snag.code = SnagCode::BendCollapses;
  snag.places = {{0, 23.4, {}}, {0, 24.1, {}}, {0, 25.0, {}}};
  snag.measured = {"radius", 0.030, Dimension::Length};
  snag.limit = {"collapse_radius", 0.041, Dimension::Length};
  snag.why = {{"index", 1.37, Dimension::None}, {"ovality", 0.417, Dimension::Percent}};
  snag.cost = {"price", 38.0, Dimension::Money};
  return snag;
}

TEST_CASE("A snag tells place and amount, why, and what it costs", "[format][analytic]") {
  model::Document document;
  const SnagText text = snagText(bend(), document, kMetric);
  CHECK(text.title ==
        QStringLiteral("The bend at 23.4 m folds flat: radius 30 mm, on paper such a tube collapses at 41 mm."));
  CHECK(text.what.endsWith(QStringLiteral("2 more places are like it.")));
  CHECK(text.why.contains(QStringLiteral("Index 1.37, ovality 41.7 %.")));
  CHECK(text.costs.endsWith(QStringLiteral("To buy again: 38.00 €.")));
  document.laying.starts = 2;
  CHECK(snagText(bend(), document, kMetric).title.startsWith(QStringLiteral("The bend in run A at 23.4 m folds flat")));
}

TEST_CASE("Every snag has its texts, with facts and without", "[format][analytic]") {
  const model::Document document;
  for (int code = 0; code < kSnagCodes; ++code) {
    INFO("code " << code);
    Snag bare;
    bare.code = static_cast<SnagCode>(code);
    Snag full = bend();
    full.code = bare.code;
    Snag ofPart = full;
    ofPart.places = {{-1, 0.0, "glazing"}};
    ofPart.limit = {};
    for (const Snag& snag : {bare, full, ofPart}) {
      const SnagText text = snagText(snag, document, kMetric);
      checkWording(text.title);
      checkWording(text.what);
      checkWording(text.why);
      checkWording(text.costs);
    }
    CHECK(snagText(full, document, kMetric).title.contains(QStringLiteral("30 mm")));
  }
}

TEST_CASE("Every remedy has a short phrase and its key is its own", "[format][analytic]") {
  const model::Document document;
  std::set<std::string_view> keys;
  const int last = static_cast<int>(remedies::RemedyKind::StilesThrough);
  for (int kind = 0; kind <= last; ++kind) {
    INFO("kind " << kind);
    remedies::Remedy remedy;
    remedy.kind = static_cast<remedies::RemedyKind>(kind);
    remedy.detail = "tube:LDPE 20/16";
    for (const char* name : {"radius", "pitch", "hole", "stand_off", "depth", "was", "thickness", "tail", "head",
                             "height", "by", "length", "width"}) {
      remedy.facts.push_back({name, 0.146, Dimension::Length});
    }
    remedy.facts.push_back({"runs", 2.0, Dimension::Count});
    remedy.facts.push_back({"share", 0.1, Dimension::Percent});
    remedy.facts.push_back({"limit", celsius(65.0).inKelvin(), Dimension::Temperature});
    const RemedyText text = remedyText(remedy, document, kMetric);
    for (QString phrase : {text.title, text.second}) {
      CHECK_FALSE(phrase.isEmpty());
      CHECK_FALSE(phrase.endsWith(QLatin1Char('.')));
      if (phrase.front().isLetter()) phrase.front() = phrase.front().toUpper();
      if (phrase.front().isLower() || phrase.front().isUpper()) checkWording(phrase + QLatin1Char('.'));
    }
    CHECK(text.title.size() <= 34);
    keys.insert(remedies::kindKey(remedy.kind));
  }
  CHECK(keys.size() == static_cast<std::size_t>(last + 1));
}

TEST_CASE("A remedy's price carries its signs, and what is nothing has both", "[format][analytic]") {
  const remedies::Price price{metres(4.6), watts(-18.2), 3.0, -2};
  const RemedyPriceText text = remedyPriceText(price, "EUR", kMetric);
  CHECK(text.joined() == QStringLiteral("+4.6 m, \u221218 W, +3 €"));
  CHECK(text.findings == QStringLiteral("2 findings fewer"));
  CHECK(remedyPriceText({metres(-0.3), watts(0.2), 0.0, 0}, "EUR", kMetric).joined() ==
        QStringLiteral("\u22120.3 m, ±0 W, ±0 €"));
  CHECK(remedyPriceText({metres(0.0), watts(0.0), std::nullopt, 1}, "EUR", kMetric).joined() ==
        QStringLiteral("±0 m, ±0 W, price not known"));
  CHECK(remedyPriceText({metres(0.3048 * 10.0), watts(0.0), 1.4, 0}, "USD", {UnitSystem::UsCustomary})
            .tube.contains(QStringLiteral("ft")));
}

TEST_CASE("Every caution has a key and a reason", "[format][analytic]") {
  std::set<std::string_view> keys;
  for (const Caution caution : allCautions()) {
    keys.insert(cautionKey(caution));
    checkWording(cautionText(caution).text);
    CHECK_FALSE(cautionText(caution).title.isEmpty());
  }
  CHECK(keys.size() == allCautions().size());
  CHECK(keys.size() == 14);
}

}  // namespace
}  // namespace sunspool::format
