// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/json_tree.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

#include "core/base/number_text.h"
#include "core/model/fields.h"

namespace sunspool::io {
namespace {

using Json = nlohmann::ordered_json;

/// Builds the tree while the library reads; refuses what the project file refuses.
class TreeBuilder final : public nlohmann::json_sax<Json> {
 public:
  explicit TreeBuilder(std::string_view text) : m_text(text) {}
  JsonNode takeRoot() { return std::move(m_root); }
  const std::optional<Error>& error() const { return m_error; }

  bool null() override { return place({JsonKind::Null, {}, {}, {}}); }
  bool boolean(bool value) override { return place({value ? JsonKind::True : JsonKind::False, {}, {}, {}}); }
  bool number_integer(number_integer_t value) override {
    return place({JsonKind::Number, std::to_string(value), {}, {}});
  }
  bool number_unsigned(number_unsigned_t value) override {
    return place({JsonKind::Number, std::to_string(value), {}, {}});
  }
  bool number_float(number_float_t, const string_t& token) override { return place({JsonKind::Number, token, {}, {}}); }
  bool string(string_t& value) override { return place({JsonKind::Text, std::move(value), {}, {}}); }
  bool binary(binary_t&) override { return false; }

  bool start_object(std::size_t) override { return open(JsonKind::Object); }
  bool key(string_t& value) override {
    Level& level = m_levels.back();
    if (!level.keys.insert(value).second) {
      m_error = Error{ErrorCode::DuplicateKey, model::pointerTo(pointer(m_levels.size() - 1), value), value, {}};
      return false;
    }
    level.node.members.push_back({std::move(value), {}});
    return true;
  }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(JsonKind::List); }
  bool end_array() override { return close(); }

  bool parse_error(std::size_t position, const std::string& lastToken, const nlohmann::detail::exception& e) override {
    constexpr int kNumberOverflow = 406;
    if (e.id == kNumberOverflow) {
      m_error = Error{ErrorCode::OutOfRange, pointer(m_levels.size()), lastToken, {}};
    } else {
      m_error = damagedAt(position, lastToken);
    }
    return false;
  }

 private:
  struct Level {
    JsonNode node;
    std::set<std::string> keys;
  };

  bool open(JsonKind kind) {
    if (m_levels.size() >= static_cast<std::size_t>(kDeepestNesting)) {
      m_error = Error{ErrorCode::DamagedText,
                      pointer(m_levels.size()),
                      {},
                      {{"deepest", static_cast<double>(kDeepestNesting), Dimension::Count}}};
      return false;
    }
    m_levels.push_back({{kind, {}, {}, {}}, {}});
    return true;
  }
  bool close() {
    JsonNode done = std::move(m_levels.back().node);
    m_levels.pop_back();
    return place(std::move(done));
  }
  bool place(JsonNode node) {
    if (m_levels.empty()) {
      m_root = std::move(node);
    } else if (m_levels.back().node.kind == JsonKind::List) {
      m_levels.back().node.items.push_back(std::move(node));
    } else {
      m_levels.back().node.members.back().value = std::move(node);
    }
    return true;
  }

  /// Pointer of what stands inside the first `depth` open levels.
  std::string pointer(std::size_t depth) const {
    std::string result;
    for (std::size_t i = 0; i < depth; ++i) {
      const JsonNode& node = m_levels[i].node;
      if (node.kind == JsonKind::List) {
        result = model::pointerTo(result, std::to_string(node.items.size()));
      } else if (!node.members.empty()) {
        result = model::pointerTo(result, node.members.back().key);
      }
    }
    return result;
  }

  Error damagedAt(std::size_t position, const std::string& lastToken) const {
    const std::size_t at = std::min(position == 0 ? 0 : position - 1, m_text.size());
    const std::string_view before = m_text.substr(0, at);
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t lineStart = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    return Error{ErrorCode::DamagedText,
                 pointer(m_levels.size()),
                 lastToken.substr(0, 60),
                 {{"line", static_cast<double>(line), Dimension::Count},
                  {"column", static_cast<double>(at - lineStart + 1), Dimension::Count}}};
  }

  std::string_view m_text;
  JsonNode m_root;
  std::vector<Level> m_levels;
  std::optional<Error> m_error;
};

void appendOneLine(std::string& out, const JsonNode& node) {
  switch (node.kind) {
    case JsonKind::Null:
      out += "null";
      return;
    case JsonKind::False:
      out += "false";
      return;
    case JsonKind::True:
      out += "true";
      return;
    case JsonKind::Number:
      out += node.text;
      return;
    case JsonKind::Text:
      out += jsonString(node.text);
      return;
    case JsonKind::List:
      out += '[';
      for (std::size_t i = 0; i < node.items.size(); ++i) {
        if (i > 0) out += ", ";
        appendOneLine(out, node.items[i]);
      }
      out += ']';
      return;
    case JsonKind::Object:
      out += '{';
      for (std::size_t i = 0; i < node.members.size(); ++i) {
        if (i > 0) out += ", ";
        out += jsonString(node.members[i].key) + ": ";
        appendOneLine(out, node.members[i].value);
      }
      out += '}';
      return;
  }
}

}  // namespace

const JsonNode* JsonNode::find(std::string_view key) const {
  for (const JsonMember& member : members) {
    if (member.key == key) return &member.value;
  }
  return nullptr;
}

Result<JsonNode> parseJson(std::string_view text) {
  TreeBuilder builder(text);
  try {
    if (Json::sax_parse(text.begin(), text.end(), &builder)) return builder.takeRoot();
  } catch (const std::exception& e) {
    return Error{ErrorCode::DamagedText, {}, e.what(), {}};
  }
  if (builder.error()) return *builder.error();
  return Error{ErrorCode::DamagedText, {}, {}, {}};
}

std::string jsonString(std::string_view text) {
  return Json(std::string(text)).dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string oneLine(const JsonNode& node) {
  std::string out;
  appendOneLine(out, node);
  return out;
}

std::string jsonNumber(double value) { return std::isfinite(value) ? numberText(value) : "null"; }

}  // namespace sunspool::io
