// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "app/format/format.h"
#include "core/base/result.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::render {

enum class Paper { A4, Letter };
/// One finished file, to be written by io::replaceFile.
struct SheetFile {
  std::string name;  ///< "cut-list.pdf", "cut-list.csv", "material-list.pdf", "material-list.csv"
  std::string bytes;
};
/// Cut list and material list of a reckoned project, the same bytes from the window and from the terminal.
/// Needs a QGuiApplication (offscreen will do) for the fonts of the PDF.
Result<std::vector<SheetFile>> listSheets(const model::Document& document, const results::Results& results, Paper paper,
                                          const format::Preferences& preferences);

}  // namespace sunspool::render
