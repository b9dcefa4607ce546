// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The shape of the project file as the program itself describes it, flattened for comparison with the schema.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/model/fields.h"

namespace sunspool::tests {

struct Field {
  std::string parent;  ///< pointer of the object; "*" stands for any item of a list
  std::string key;
  std::string type;  ///< "string", "boolean", "number", "integer", "object", "array"
  bool required = false;
  bool nullable = false;
  std::optional<model::Limits> limits;
  std::vector<std::string> words;
};

class Shape {
 public:
  std::vector<Field> take() { return std::move(m_fields); }

  void text(std::string_view key, const std::string&, model::Need need) { add(key, "string", need); }
  void flag(std::string_view key, bool, model::Need need) { add(key, "boolean", need); }
  template <class E>
  void word(std::string_view key, E, model::Need need) {
    Field& field = add(key, "string", need);
    for (const auto& entry : model::Words<E>::all) field.words.emplace_back(entry.word);
  }
  template <class Q>
  void number(std::string_view key, Q, model::Limits limits, model::Need need) {
    add(key, std::is_same_v<Q, int> ? "integer" : "number", need).limits = limits;
  }
  template <class Q>
  void maybeNumber(std::string_view key, std::optional<Q>&, model::Limits limits) {
    number(key, Q{}, limits, model::Need::Optional);
    m_fields.back().nullable = true;
  }
  template <class Q>
  void uncertain(std::string_view stem, std::string_view unit, Uncertain<Q>& value, model::Limits limits,
                 model::Need need) {
    add(stem, "object", need);
    const std::string outer = std::exchange(m_pointer, model::pointerTo(m_pointer, stem));
    number(model::valueKey(unit), Q{}, limits, model::Need::Required);
    number(model::spreadKey(unit), Difference<Q>{}, model::Limits{0.0, limits.high - limits.low},
           model::Need::Required);
    word("sureness", value.sureness, model::Need::Required);
    m_pointer = outer;
  }
  template <class Q>
  void maybeUncertain(std::string_view stem, std::string_view unit, std::optional<Uncertain<Q>>&,
                      model::Limits limits) {
    const std::size_t at = m_fields.size();
    Uncertain<Q> present;
    uncertain(stem, unit, present, limits, model::Need::Optional);
    m_fields[at].nullable = true;
  }
  template <class T>
  void object(std::string_view key, T& value, model::Need need) {
    add(key, "object", need);
    const std::string outer = std::exchange(m_pointer, model::pointerTo(m_pointer, key));
    model::fields(*this, value);
    m_pointer = outer;
  }
  template <class T>
  void maybeObject(std::string_view key, std::optional<T>&) {
    const std::size_t at = m_fields.size();
    T present;
    object(key, present, model::Need::Optional);
    m_fields[at].nullable = true;
  }
  template <class T>
  void list(std::string_view key, std::vector<T>&, model::Need need) {
    add(key, "array", need);
    const std::string outer = std::exchange(m_pointer, model::pointerTo(m_pointer, key) + "/*");
    T item;
    model::fields(*this, item);
    m_pointer = outer;
  }

 private:
  Field& add(std::string_view key, std::string type, model::Need need) {
    m_fields.push_back(
        {m_pointer, std::string(key), std::move(type), need == model::Need::Required, false, std::nullopt, {}});
    return m_fields.back();
  }

  std::string m_pointer;
  std::vector<Field> m_fields;
};

inline std::vector<Field> projectShape() {
  Shape shape;
  model::Document document;
  model::fields(shape, document);
  return shape.take();
}

}  // namespace sunspool::tests
