// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Visits every uncertain value of a document together with its JSON pointer. For .cpp files of the model.

#include <utility>

#include "core/model/fields.h"

namespace sunspool::model {

/// Calls visit(pointer, Uncertain<Q>&, Limits) for each uncertain value that is present.
template <class F>
class UncertainVisitor {
 public:
  explicit UncertainVisitor(F visit) : m_visit(std::move(visit)) {}

  void text(std::string_view, std::string&, Need) {}
  void flag(std::string_view, bool&, Need) {}
  template <class E>
  void word(std::string_view, E&, Need) {}
  template <class Q>
  void number(std::string_view, Q&, Limits, Need) {}
  template <class Q>
  void maybeNumber(std::string_view, std::optional<Q>&, Limits) {}
  template <class Q>
  void uncertain(std::string_view stem, std::string_view, Uncertain<Q>& value, Limits limits, Need) {
    m_visit(pointerTo(m_pointer, stem), value, limits);
  }
  template <class Q>
  void maybeUncertain(std::string_view stem, std::string_view unit, std::optional<Uncertain<Q>>& value, Limits limits) {
    if (value) uncertain(stem, unit, *value, limits, Need::Optional);
  }
  template <class T>
  void object(std::string_view key, T& value, Need) {
    const std::string outer = std::exchange(m_pointer, pointerTo(m_pointer, key));
    fields(*this, value);
    m_pointer = outer;
  }
  template <class T>
  void maybeObject(std::string_view key, std::optional<T>& value) {
    if (value) object(key, *value, Need::Optional);
  }
  template <class T>
  void list(std::string_view key, std::vector<T>& values, Need) {
    const std::string outer = std::exchange(m_pointer, pointerTo(m_pointer, key));
    for (std::size_t i = 0; i < values.size(); ++i) object(std::to_string(i), values[i], Need::Required);
    m_pointer = outer;
  }

 private:
  std::string m_pointer;
  F m_visit;
};

}  // namespace sunspool::model
