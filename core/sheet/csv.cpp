// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/csv.h"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

namespace sunspool::sheet {
namespace {

constexpr std::string_view kLineEnd = "\r\n";

void appendField(std::string& out, std::string_view field) {
  const bool blanksAtAnEnd =
      !field.empty() && (field.front() == ' ' || field.back() == ' ' || field.front() == '\t' || field.back() == '\t');
  if (field.find_first_of(",\"\r\n") == std::string_view::npos && !blanksAtAnEnd) {
    out += field;
    return;
  }
  out += '"';
  for (const char c : field) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
}

void appendNumber(std::string& out, double value) {
  if (!std::isfinite(value)) return;
  std::array<char, 64> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value);
  out.append(text.data(), end.ptr);
}

void appendCell(std::string& out, const Cell& cell) {
  if (const auto* number = std::get_if<double>(&cell)) appendNumber(out, *number);
  if (const auto* text = std::get_if<std::string>(&cell)) appendField(out, *text);
}

}  // namespace

std::string csvText(const Table& table) {
  std::string out;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (i > 0) out += ',';
    appendField(out, table.columns[i]);
  }
  out += kLineEnd;
  for (const std::vector<Cell>& row : table.rows) {
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (i > 0) out += ',';
      if (i < row.size()) appendCell(out, row[i]);
    }
    out += kLineEnd;
  }
  return out;
}

}  // namespace sunspool::sheet
