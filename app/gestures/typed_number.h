// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>
#include <string>

#include "core/base/result.h"

namespace sunspool::gestures {

/// A number typed without a field: the keys go to the thing under the hand. Starts with a digit, a sign or a
/// decimal mark; then units may follow.
class TypedNumber {
 public:
  bool empty() const { return m_text.isEmpty(); }
  const QString& text() const { return m_text; }
  void clear() { m_text.clear(); }
  /// True when the key belongs to a number (and was taken).
  bool take(const QString& key);
  /// True when there was something to take back.
  bool backspace();
  Result<double> read(Dimension dimension, const std::string& bareUnit) const;

 private:
  QString m_text;
};

}  // namespace sunspool::gestures
