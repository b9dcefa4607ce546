// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Tables for spreadsheets: RFC 4180, comma, CRLF, UTF-8 without a mark, C locale whatever the reader's is.

#include <string>
#include <variant>
#include <vector>

namespace sunspool::sheet {

/// Nothing, a number (the shortest text that reads back exactly; nothing when not finite) or text.
using Cell = std::variant<std::monostate, double, std::string>;

struct Table {
  std::vector<std::string> columns;  ///< lower_snake_case with the unit: length_m, price
  std::vector<std::vector<Cell>> rows;
};

/// First line the columns, then the rows, each ended by CRLF. A row shorter than the columns is filled with empty
/// cells. A field is quoted when it holds a comma, a quote, a line break or blanks at an end; quotes are doubled.
std::string csvText(const Table& table);

}  // namespace sunspool::sheet
