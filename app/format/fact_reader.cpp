// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/fact_reader.h"

#include <algorithm>

#include "app/format/text.h"

namespace sunspool::format {

const Fact* FactReader::find(std::initializer_list<std::string_view> roles) const {
  for (const std::string_view role : roles) {
    const auto found =
        std::find_if(m_facts.begin(), m_facts.end(), [&](const Fact& fact) { return fact.name == role; });
    if (found != m_facts.end()) return &*found;
  }
  return nullptr;
}

QString FactReader::text(std::initializer_list<std::string_view> roles) {
  const Fact* fact = find(roles);
  if (fact == nullptr) return {};
  use(fact->name);
  return number(*fact, m_preferences).joined();
}

QString FactReader::clause(const QString& pattern,
                           std::initializer_list<std::initializer_list<std::string_view>> roles) {
  for (const auto& alternatives : roles) {
    if (find(alternatives) == nullptr) return {};
  }
  QString filled = pattern;
  // Two numbers that are set against each other must not print alike.
  if (roles.size() == 2) {
    const Fact* first = find(*roles.begin());
    const Fact* second = find(*(roles.begin() + 1));
    const TwoNumbers numbers = apart(*first, *second, m_preferences);
    use(first->name);
    use(second->name);
    return filled.arg(numbers.first.joined(), numbers.second.joined());
  }
  for (const auto& alternatives : roles) filled = filled.arg(text(alternatives));
  return filled;
}

QString FactReader::rest() const {
  QStringList left;
  for (const Fact& fact : m_facts) {
    if (fact.name.empty() || m_used.contains(fact.name)) continue;
    left << Text::tr("%1 %2").arg(roleInWords(fact.name), number(fact, m_preferences).joined());
  }
  return left.join(Text::tr(", "));
}

}  // namespace sunspool::format
