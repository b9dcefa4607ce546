// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/list_sheets.h"

#include <QRegularExpression>
#include <QString>
#include <catch2/catch.hpp>
#include <set>

#include "app/format/sheet_text.h"
#include "core/evaluate/evaluate.h"
#include "core/model/defaults.h"

namespace sunspool::render {
namespace {

TEST_CASE("The lists of the first panel are two PDFs and two tables, the same twice", "[render][lists][property]") {
  const model::Document document = model::firstPanel();
  const results::Results results = evaluate::evaluate(document, {});
  const auto files = listSheets(document, results, Paper::A4, {});
  REQUIRE(files);
  REQUIRE(files->size() == 4);
  std::set<std::string> names;
  for (const SheetFile& file : *files) {
    names.insert(file.name);
    INFO(file.name << ": " << file.bytes.substr(0, 200));
    CHECK(file.bytes.size() > 200);
    CHECK(file.bytes.starts_with("%PDF") == file.name.ends_with(".pdf"));
  }
  CHECK(names == std::set<std::string>{"cut-list.pdf", "cut-list.csv", "material-list.pdf", "material-list.csv"});
  const auto again = listSheets(document, results, Paper::A4, {});
  REQUIRE(again);
  for (std::size_t i = 0; i < 4; ++i) CHECK(((*again)[i].bytes == (*files)[i].bytes));
  const auto letter = listSheets(document, results, Paper::Letter, {});
  REQUIRE(letter);
  CHECK_FALSE(((*letter)[0].bytes == (*files)[0].bytes));
}

TEST_CASE("Every text of the sheets is said, with facts and without", "[render][lists][analytic]") {
  const QRegularExpression banned(QStringLiteral("\\b(safe|safely|optimal|error|invalid|please)\\b|!|%\\d|  "),
                                  QRegularExpression::CaseInsensitiveOption);
  const std::vector<Fact> facts{{"page", 1, Dimension::Count},
                                {"pages", 2, Dimension::Count},
                                {"kerf", 0.003, Dimension::Length},
                                {"squaring", 0.01, Dimension::Length},
                                {"lengths", 3, Dimension::Count},
                                {"at_least", 2, Dimension::Count},
                                {"left", 1.2, Dimension::Length},
                                {"number", 1, Dimension::Count},
                                {"spare", 0.001, Dimension::Length},
                                {"total", 84.5, Dimension::Money},
                                {"count", 2, Dimension::Count},
                                {"reached", 373.15, Dimension::Temperature},
                                {"limit", 333.15, Dimension::Temperature},
                                {"wet_mass", 61.0, Dimension::Mass},
                                {"by_length", 2, Dimension::Count},
                                {"at", 12.5, Dimension::Length},
                                {"short_by", 0.8, Dimension::Length},
                                {"low", 60.0, Dimension::Mass},
                                {"planned", 70.0, Dimension::Mass},
                                {"high", 80.0, Dimension::Mass},
                                {"alike", 2, Dimension::Count},
                                {"sheets", 2, Dimension::Count},
                                {"width", 0.003, Dimension::Length},
                                {"height", 0.004, Dimension::Length},
                                {"pieces", 2, Dimension::Count},
                                {"lap", 0.05, Dimension::Length},
                                {"gap", 0.003, Dimension::Length},
                                {"dry", 30.0, Dimension::Mass},
                                {"wet", 40.0, Dimension::Mass},
                                {"weight", 30.0, Dimension::Mass},
                                {"hold_low", 20.0, Dimension::Mass},
                                {"hold_high", 50.0, Dimension::Mass}};
  const int keys = static_cast<int>(sheet::TextKey::CautionLocalCodes) + 1;
  std::set<std::string> all;
  for (int key = 0; key < keys; ++key) {
    for (const bool bare : {false, true}) {
      const std::string said = format::sheetText(
          static_cast<sheet::TextKey>(key), bare ? std::span<const Fact>() : std::span<const Fact>(facts), "EUR", {});
      INFO("key " << key << ": " << said);
      CHECK_FALSE(said.empty());
      CHECK_FALSE(banned.match(QString::fromStdString(said)).hasMatch());
      if (!bare) all.insert(said);
    }
  }
  CHECK(all.size() == static_cast<std::size_t>(keys));
  const auto said = [&](sheet::TextKey key) { return format::sheetText(key, facts, "EUR", {}); };
  CHECK(said(sheet::TextKey::PageOf) == "Page 1 of 2");
  CHECK(said(sheet::TextKey::KnownTotal) == "Sum of the known prices: 84.50 €.");
  CHECK(said(sheet::TextKey::NoSquaringAllowance).starts_with("Length 1 fits by only 1\u00A0mm"));
  CHECK(format::dateText({2025, 6, 21, 12.0}) == QStringLiteral("21 June 2025, 12:00"));
}

TEST_CASE("Timber is told to the millimetre and tube to the centimetre", "[render][lists][analytic]") {
  const auto texts = format::sheetTexts(model::firstPanel(), {});
  CHECK(texts.number({"timber", 2.3404, Dimension::Length}) == "2\u2009340 mm");
  CHECK(texts.number({"tube", 80.995, Dimension::Length}) == "81.00 m");
  CHECK(texts.item("barb_connector") == "barb connector");
}

}  // namespace
}  // namespace sunspool::render
