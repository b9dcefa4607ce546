// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Inside app/format only: facts by the role they play, and what is left of them.

#include <QString>
#include <QStringList>
#include <initializer_list>
#include <set>
#include <span>
#include <string_view>

#include "app/format/format.h"

namespace sunspool::format {

class FactReader {
 public:
  FactReader(std::span<const Fact> facts, const Preferences& preferences)
      : m_facts(facts), m_preferences(preferences) {}

  const Fact* find(std::initializer_list<std::string_view> roles) const;
  /// The first of these roles that is there, with its unit; empty when none is.
  QString text(std::initializer_list<std::string_view> roles);
  /// The pattern with %1, %2, ... filled; empty as soon as one role is missing, so that no sentence shows a hole.
  QString clause(const QString& pattern, std::initializer_list<std::initializer_list<std::string_view>> roles);
  /// Facts that no clause has used: "handbook radius 160 mm, index 0.72". Nothing is kept from the reader.
  QString rest() const;
  void use(std::string_view role) { m_used.insert(std::string(role)); }

 private:
  std::span<const Fact> m_facts;
  Preferences m_preferences;
  std::set<std::string> m_used;
};

}  // namespace sunspool::format
