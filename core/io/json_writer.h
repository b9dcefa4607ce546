// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// JSON text in the manner of the project file: two blanks a level, one item per line. For .cpp files of io.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunspool::io {

/// How an object or a list is laid out: its members on lines of their own, or all on the line it begins on.
enum class JsonShape { Lines, OneLine };

class JsonWriter {
 public:
  /// An object or list as a member of the open object, or (without key) as an item of the open list.
  void open(std::string_view key, char bracket, JsonShape shape);
  void openItem(char bracket, JsonShape shape);
  void close();

  /// A member whose JSON text is ready.
  void raw(std::string_view key, std::string_view json);
  void text(std::string_view key, std::string_view value);
  void number(std::string_view key, double value);  ///< null when not finite
  void number(std::string_view key, std::optional<double> value);
  void flag(std::string_view key, bool value);
  void null(std::string_view key);

  JsonShape shape() const { return m_levels.back().shape; }
  std::string take();  ///< everything, with a newline at the end

 private:
  struct Level {
    char closing = '\0';
    JsonShape shape = JsonShape::Lines;
    bool first = true;
  };
  void beginItem();
  void newLine(std::size_t depth);

  std::string m_out;
  std::vector<Level> m_levels;
};

}  // namespace sunspool::io
