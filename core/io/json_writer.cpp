// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/json_writer.h"

#include <utility>

#include "core/base/assert.h"
#include "core/io/json_tree.h"

namespace sunspool::io {

void JsonWriter::newLine(std::size_t depth) {
  m_out += '\n';
  m_out.append(2 * depth, ' ');
}

void JsonWriter::beginItem() {
  if (m_levels.empty()) return;
  Level& level = m_levels.back();
  if (!level.first) m_out += level.shape == JsonShape::Lines ? "," : ", ";
  level.first = false;
  if (level.shape == JsonShape::Lines) newLine(m_levels.size());
}

void JsonWriter::openItem(char bracket, JsonShape shape) {
  beginItem();
  m_out += bracket;
  m_levels.push_back({bracket == '{' ? '}' : ']', shape, true});
}

void JsonWriter::open(std::string_view key, char bracket, JsonShape shape) {
  beginItem();
  m_out += jsonString(key) + ": ";
  m_out += bracket;
  m_levels.push_back({bracket == '{' ? '}' : ']', shape, true});
}

void JsonWriter::close() {
  SUNSPOOL_ASSERT(!m_levels.empty(), "close() without open()");
  const Level level = m_levels.back();
  m_levels.pop_back();
  if (level.shape == JsonShape::Lines && !level.first) newLine(m_levels.size());
  m_out += level.closing;
}

void JsonWriter::raw(std::string_view key, std::string_view json) {
  beginItem();
  m_out += jsonString(key) + ": ";
  m_out += json;
}
void JsonWriter::text(std::string_view key, std::string_view value) { raw(key, jsonString(value)); }
void JsonWriter::number(std::string_view key, double value) { raw(key, jsonNumber(value)); }
void JsonWriter::number(std::string_view key, std::optional<double> value) {
  raw(key, value ? jsonNumber(*value) : "null");
}
void JsonWriter::flag(std::string_view key, bool value) { raw(key, value ? "true" : "false"); }
void JsonWriter::null(std::string_view key) { raw(key, "null"); }

std::string JsonWriter::take() {
  SUNSPOOL_ASSERT(m_levels.empty(), "take() with something open");
  m_out += '\n';
  return std::exchange(m_out, {});
}

}  // namespace sunspool::io
