// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Reads and writes whatever core/model/fields.h describes, as one JSON text. For .cpp files of io.

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/number_text.h"
#include "core/io/json_tree.h"
#include "core/io/json_writer.h"
#include "core/model/fields.h"
#include "core/model/file_number.h"

namespace sunspool::io {

// ---- numbers in the unit of the file

template <class Q>
std::string fileNumberText(Q held) {
  if constexpr (std::is_same_v<Q, Temperature> || std::is_same_v<Q, Angle>) {
    const Q kept = model::settled(held);
    return jsonNumber(model::exactFileNumber(kept).value_or(model::toFileUnit(kept)));
  } else {
    return jsonNumber(model::toFileUnit(held));
  }
}

// ---- writing

/// Writes one whole file: format, version, then the fields of the value.
class FieldWriter {
 public:
  explicit FieldWriter(const std::vector<model::UnknownKey>& unknownKeys) : m_unknownKeys(unknownKeys) {}
  std::string take() { return m_json.take(); }

  void text(std::string_view key, const std::string& value, model::Need) { m_json.text(key, value); }
  void flag(std::string_view key, bool value, model::Need) { m_json.flag(key, value); }
  template <class E>
  void word(std::string_view key, E value, model::Need) {
    m_json.text(key, model::wordOf(value));
  }
  template <class Q>
  void number(std::string_view key, Q value, model::Limits, model::Need) {
    m_json.raw(key, fileNumberText(value));
  }
  template <class Q>
  void maybeNumber(std::string_view key, const std::optional<Q>& value, model::Limits) {
    m_json.raw(key, value ? fileNumberText(*value) : "null");
  }
  template <class Q>
  void uncertain(std::string_view stem, std::string_view unit, const Uncertain<Q>& value, model::Limits, model::Need) {
    m_json.open(stem, '{', JsonShape::OneLine);
    const std::string outer = std::exchange(m_pointer, model::pointerTo(m_pointer, stem));
    m_json.raw(model::valueKey(unit), fileNumberText(value.value));
    m_json.raw(model::spreadKey(unit), fileNumberText(value.spread));
    m_json.text("sureness", model::wordOf(value.sureness));
    closeObject(outer);
  }
  template <class Q>
  void maybeUncertain(std::string_view stem, std::string_view unit, const std::optional<Uncertain<Q>>& value,
                      model::Limits limits) {
    if (value) {
      uncertain(stem, unit, *value, limits, model::Need::Optional);
    } else {
      m_json.null(stem);
    }
  }
  template <class T>
  void object(std::string_view key, T& value, model::Need) {
    m_json.open(key, '{', m_json.shape());
    const std::string outer = std::exchange(m_pointer, model::pointerTo(m_pointer, key));
    model::fields(*this, value);
    closeObject(outer);
  }
  template <class T>
  void maybeObject(std::string_view key, std::optional<T>& value) {
    if (value) {
      object(key, *value, model::Need::Optional);
    } else {
      m_json.null(key);
    }
  }
  /// One item per line, each item on its line.
  template <class T>
  void list(std::string_view key, std::vector<T>& values, model::Need) {
    m_json.open(key, '[', m_json.shape());
    const std::string listPointer = model::pointerTo(m_pointer, key);
    for (std::size_t i = 0; i < values.size(); ++i) {
      m_json.openItem('{', JsonShape::OneLine);
      const std::string outer = std::exchange(m_pointer, model::pointerTo(listPointer, std::to_string(i)));
      model::fields(*this, values[i]);
      closeObject(outer);
    }
    m_json.close();
  }

  template <class T>
  void file(std::string_view format, int version, T& value) {
    m_json.openItem('{', JsonShape::Lines);
    m_json.text("format", format);
    m_json.raw("version", std::to_string(version));
    model::fields(*this, value);
    closeObject({});
  }

 private:
  void closeObject(const std::string& outerPointer) {
    for (const model::UnknownKey& unknown : m_unknownKeys) {
      if (unknown.parent == m_pointer) m_json.raw(unknown.key, unknown.json);
    }
    m_json.close();
    m_pointer = outerPointer;
  }

  const std::vector<model::UnknownKey>& m_unknownKeys;
  JsonWriter m_json;
  std::string m_pointer;
};

// ---- reading

inline std::string excerpt(const JsonNode& node) {
  constexpr std::size_t kLongest = 60;
  std::string text = oneLine(node);
  if (text.size() <= kLongest) return text;
  std::size_t end = kLongest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;  // not inside a character
  return text.substr(0, end) + "...";
}

/// Reads the fields of a value; after the first error nothing more is read.
class FieldReader {
 public:
  explicit FieldReader(const JsonNode& root) : m_node(&root), m_known(root.members.size(), false) {}
  const std::optional<Error>& error() const { return m_error; }

  void text(std::string_view key, std::string& value, model::Need need) {
    const JsonNode* const node = member(key, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::Text) return wrongType(key, *node, "expected_text");
    value = node->text;
  }
  void flag(std::string_view key, bool& value, model::Need need) {
    const JsonNode* const node = member(key, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::True && node->kind != JsonKind::False) {
      return wrongType(key, *node, "expected_true_or_false");
    }
    value = node->kind == JsonKind::True;
  }
  template <class E>
  void word(std::string_view key, E& value, model::Need need) {
    const JsonNode* const node = member(key, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::Text) return wrongType(key, *node, "expected_text");
    if (const auto found = model::fromWord<E>(node->text)) {
      value = *found;
      return;
    }
    std::vector<Fact> allowed;
    for (const auto& entry : model::Words<E>::all) allowed.push_back({std::string(entry.word), 0.0, Dimension::None});
    m_error = Error{ErrorCode::UnknownWord, model::pointerTo(m_pointer, key), node->text, std::move(allowed)};
  }
  template <class Q>
  void number(std::string_view key, Q& value, model::Limits limits, model::Need need) {
    const JsonNode* const node = member(key, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::Number) return wrongType(key, *node, "expected_number");
    const Result<double> inFile = parseNumber(node->text);
    if (!inFile) return outOfRange<Q>(key, *node, limits);
    if constexpr (std::is_same_v<Q, int>) {
      if (std::floor(*inFile) != *inFile) return wrongType(key, *node, "expected_whole_number");
      if (std::fabs(*inFile) > 1e9) return outOfRange<Q>(key, *node, limits);
    }
    value = model::fromFileUnit<Q>(*inFile);
  }
  template <class Q>
  void maybeNumber(std::string_view key, std::optional<Q>& value, model::Limits limits) {
    const JsonNode* const node = member(key, model::Need::Optional);
    if (node == nullptr || node->kind == JsonKind::Null) return;
    Q present{};
    number(key, present, limits, model::Need::Required);
    value = present;
  }
  template <class Q>
  void uncertain(std::string_view stem, std::string_view unit, Uncertain<Q>& value, model::Limits limits,
                 model::Need need) {
    const JsonNode* const node = member(stem, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::Object) return wrongType(stem, *node, "expected_object");
    const Level outer = enter(stem, *node);
    number(model::valueKey(unit), value.value, limits, model::Need::Required);
    number(model::spreadKey(unit), value.spread, limits, model::Need::Required);
    word("sureness", value.sureness, model::Need::Required);
    leave(outer);
  }
  template <class Q>
  void maybeUncertain(std::string_view stem, std::string_view unit, std::optional<Uncertain<Q>>& value,
                      model::Limits limits) {
    const JsonNode* const node = member(stem, model::Need::Optional);
    if (node == nullptr || node->kind == JsonKind::Null) return;
    uncertain(stem, unit, value.emplace(), limits, model::Need::Required);
  }
  template <class T>
  void object(std::string_view key, T& value, model::Need need) {
    const JsonNode* const node = member(key, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::Object) return wrongType(key, *node, "expected_object");
    const Level outer = enter(key, *node);
    model::fields(*this, value);
    leave(outer);
  }
  template <class T>
  void maybeObject(std::string_view key, std::optional<T>& value) {
    const JsonNode* const node = member(key, model::Need::Optional);
    if (node == nullptr || node->kind == JsonKind::Null) return;
    object(key, value.emplace(), model::Need::Required);
  }
  template <class T>
  void list(std::string_view key, std::vector<T>& values, model::Need need) {
    const JsonNode* const node = member(key, need);
    if (node == nullptr) return;
    if (node->kind != JsonKind::List) return wrongType(key, *node, "expected_list");
    const std::string outerPointer = std::exchange(m_pointer, model::pointerTo(m_pointer, key));
    values.clear();
    for (std::size_t i = 0; i < node->items.size() && !m_error; ++i) {
      const std::string index = std::to_string(i);
      if (node->items[i].kind != JsonKind::Object) {
        wrongType(index, node->items[i], "expected_object");
        break;
      }
      const Level outer = enter(index, node->items[i]);
      model::fields(*this, values.emplace_back());
      leave(outer);
    }
    m_pointer = outerPointer;
  }

  template <class T>
  void file(T& value) {
    member("format", model::Need::Required);
    member("version", model::Need::Required);
    model::fields(*this, value);
    keepUnknown();
  }
  std::vector<model::UnknownKey> takeUnknown() { return std::move(m_unknown); }

 private:
  struct Level {
    const JsonNode* node = nullptr;
    std::string pointer;
    std::vector<bool> known;
  };

  /// The member of this key, marked as known; nullptr when absent, or after an error.
  const JsonNode* member(std::string_view key, model::Need need) {
    if (m_error) return nullptr;
    for (std::size_t i = 0; i < m_node->members.size(); ++i) {
      if (m_node->members[i].key == key) {
        m_known[i] = true;
        return &m_node->members[i].value;
      }
    }
    if (need == model::Need::Required) m_error = Error{ErrorCode::MissingKey, m_pointer, std::string(key), {}};
    return nullptr;
  }
  Level enter(std::string_view key, const JsonNode& node) {
    Level outer{m_node, m_pointer, std::move(m_known)};
    m_node = &node;
    m_pointer = model::pointerTo(outer.pointer, key);
    m_known.assign(node.members.size(), false);
    return outer;
  }
  void leave(Level outer) {
    keepUnknown();
    m_node = outer.node;
    m_pointer = std::move(outer.pointer);
    m_known = std::move(outer.known);
  }
  void keepUnknown() {
    if (m_error) return;
    for (std::size_t i = 0; i < m_node->members.size(); ++i) {
      if (m_known[i]) continue;
      m_unknown.push_back({m_pointer, m_node->members[i].key, oneLine(m_node->members[i].value)});
    }
  }
  void wrongType(std::string_view key, const JsonNode& node, const char* expected) {
    m_error = Error{
        ErrorCode::WrongType, model::pointerTo(m_pointer, key), excerpt(node), {{expected, 0.0, Dimension::None}}};
  }
  /// For a number too large for its type; the usual limits are checked by model::validate().
  template <class Q>
  void outOfRange(std::string_view key, const JsonNode& node, model::Limits limits) {
    const Dimension dimension = model::dimensionOf<Q>();
    m_error = Error{ErrorCode::OutOfRange,
                    model::pointerTo(m_pointer, key),
                    excerpt(node),
                    {{"low", model::siOf(model::fromFileUnit<Q>(limits.low)), dimension},
                     {"high", model::siOf(model::fromFileUnit<Q>(limits.high)), dimension}}};
  }

  const JsonNode* m_node;
  std::string m_pointer;
  std::vector<bool> m_known;
  std::vector<model::UnknownKey> m_unknown;
  std::optional<Error> m_error;
};

/// The text that stands at a pointer made by pointerTo; empty when nothing stands there.
inline std::string foundAt(const JsonNode& root, std::string_view pointer) {
  const JsonNode* node = &root;
  while (!pointer.empty()) {
    pointer.remove_prefix(1);
    const std::size_t length = std::min(pointer.find('/'), pointer.size());
    const std::string_view step = pointer.substr(0, length);
    pointer.remove_prefix(length);
    if (node->kind == JsonKind::List) {
      std::size_t index = 0;
      std::from_chars(step.data(), step.data() + step.size(), index);
      if (index >= node->items.size()) return {};
      node = &node->items[index];
    } else {
      node = node->find(step);  // keys of ours hold neither '~' nor '/'
    }
    if (node == nullptr) return {};
  }
  return excerpt(*node);
}

/// The version of a file of this format. NotAProject, MissingKey, WrongType, OutOfRange.
inline Result<int> versionOf(const JsonNode& root, std::string_view wanted) {
  const JsonNode* const format = root.kind == JsonKind::Object ? root.find("format") : nullptr;
  if (format == nullptr || format->text != wanted) {
    return Error{ErrorCode::NotAProject, {}, format == nullptr ? std::string{} : excerpt(*format), {}};
  }
  const JsonNode* const version = root.find("version");
  if (version == nullptr) return Error{ErrorCode::MissingKey, {}, "version", {}};
  const Error wrong{
      ErrorCode::WrongType, "/version", excerpt(*version), {{"expected_whole_number", 0.0, Dimension::None}}};
  if (version->kind != JsonKind::Number) return wrong;
  const Result<double> value = parseNumber(version->text);
  if (!value || std::floor(*value) != *value) return wrong;
  if (*value < 1.0 || *value > 1e6) {
    return Error{
        ErrorCode::OutOfRange,
        "/version",
        excerpt(*version),
        {{"value", *value, Dimension::Count}, {"low", 1.0, Dimension::Count}, {"high", 1e6, Dimension::Count}}};
  }
  return static_cast<int>(*value);
}

}  // namespace sunspool::io
