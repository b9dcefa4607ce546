// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/list_sheets.h"

#include <utility>

#include "app/format/sheet_text.h"
#include "app/render/fonts.h"
#include "app/render/sheet_painter.h"
#include "core/sheet/csv.h"
#include "core/sheet/lists.h"

namespace sunspool::render {
namespace {

sheet::Paper sheetPaper(Paper paper) {
  switch (paper) {
    case Paper::A4:
      return sheet::Paper::A4;
    case Paper::Letter:
      return sheet::Paper::Letter;
  }
  return sheet::Paper::A4;
}

Result<SheetFile> pdfFile(std::string name, const std::vector<sheet::Sheet>& sheets, const model::Document& document) {
  const QString title = QString::fromStdString(document.name);
  const Result<QByteArray> pdf = toPdf(sheets, {title, document.moment});
  if (!pdf) return Error{ErrorCode::RenderFailed, std::move(name), {}, {}};
  return SheetFile{std::move(name), pdf->toStdString()};
}

}  // namespace

Result<std::vector<SheetFile>> listSheets(const model::Document& document, const results::Results& results, Paper paper,
                                          const format::Preferences& preferences) {
  sheet::Texts texts = format::sheetTexts(document, preferences);
  texts.textWidth_mm = textWidth_mm;
  const sheet::Paper on = sheetPaper(paper);
  Result<SheetFile> cut = pdfFile("cut-list.pdf", sheet::cutListSheets(document, results, on, texts), document);
  if (!cut) return cut.error();
  Result<SheetFile> material =
      pdfFile("material-list.pdf", sheet::materialListSheets(document, results, on, texts), document);
  if (!material) return material.error();
  return std::vector<SheetFile>{*std::move(cut),
                                {"cut-list.csv", sheet::csvText(sheet::cutListTable(results))},
                                *std::move(material),
                                {"material-list.csv", sheet::csvText(sheet::materialListTable(document, results))}};
}

}  // namespace sunspool::render
