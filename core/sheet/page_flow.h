// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Headings, paragraphs and tables poured down one page after another.

#include <string>
#include <vector>

#include "core/sheet/display_list.h"
#include "core/sheet/texts.h"

namespace sunspool::sheet {

struct PrintColumn {
  std::string heading;
  double share = 1.0;  ///< of the width, relative to the other columns
  Align align = Align::Left;
  Voice voice = Voice::Said;
};
struct PrintTable {
  std::vector<PrintColumn> columns;
  std::vector<std::vector<std::string>> rows;  ///< one text a column
};

/// A small drawing, its items from its own upper left corner.
struct Drawing {
  double width_mm = 0.0, height_mm = 0.0;
  std::vector<Item> items;
};

/// What stands on every page.
struct PageFrame {
  std::string project;
  std::string date;
  std::string title;
};

/// Breaks a text at blanks so that each line is at most this wide; a word that is wider is broken between characters.
/// Line breaks in the text are kept. Never loses a character but the blank or line break at a break.
std::vector<std::string> wrapped(const std::string& text, double width_mm, const Text& style, const Texts& texts);

class PageFlow {
 public:
  PageFlow(Paper paper, PageFrame frame, const Texts& texts);

  void title(const std::string& text);
  /// Kept together with the first lines of what follows, or with as much of it as is given.
  void heading(const std::string& text, double below_mm = 0.0);
  /// Kept together where it fits on one page.
  void paragraph(const std::string& text);
  /// The head of the table is repeated on each page. A row is never split, unless it is taller than a page.
  void table(const PrintTable& table);
  /// One line, kept together with at least `below_mm` of what follows.
  void caption(const std::string& text, double below_mm);
  /// A drawing at the left and a table beside it. The drawing stays whole on one page, with the table's first rows.
  void beside(const Drawing& drawing, const PrintTable& table);
  /// The head of the page shows only a part of the project's name.
  bool projectIsCut() const { return m_projectIsCut; }
  /// Adds the page numbers.
  std::vector<Sheet> finish() &&;

 private:
  double bottom() const;
  double contentWidth() const;
  double lineHeight(double size_pt) const;
  bool hasRoomFor(double height_mm) const;
  void newPage();
  void put(Text text);
  void rule(double width_mm);
  void place(const Drawing& drawing);
  void tableHead(const PrintTable& table);
  void tableRow(const PrintTable& table, const std::vector<std::string>& row);
  std::vector<std::vector<std::string>> cellLines(const PrintTable& table, const std::vector<std::string>& row,
                                                  const Text& style) const;
  double columnLeft(const PrintTable& table, std::size_t column) const;
  double columnWidth(const PrintTable& table, std::size_t column) const;
  void putCellLine(const PrintTable& table, std::size_t column, const std::string& line, Text style, double baseline);

  Paper m_paper;
  PageFrame m_frame;
  const Texts& m_texts;
  std::vector<Sheet> m_pages;
  double m_y_mm = 0.0;
  double m_indent_mm = 0.0;  ///< of tables: room taken at the left by a drawing
  bool m_projectIsCut = false;
};

}  // namespace sunspool::sheet
