// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/typed_number.h"

#include "app/format/quantity_text.h"

namespace sunspool::gestures {

namespace {
constexpr qsizetype kLongest = 40;

bool startsNumber(QChar c) {
  return (c.unicode() >= u'0' && c.unicode() <= u'9') || QStringLiteral(".,-+").contains(c);
}
bool continuesNumber(QChar c) { return c.isPrint(); }
}  // namespace

bool TypedNumber::take(const QString& key) {
  if (key.size() != 1 || m_text.size() >= kLongest) return false;
  const QChar c = key.front();
  if (m_text.isEmpty() ? !startsNumber(c) : !continuesNumber(c)) return false;
  m_text += c;
  return true;
}

bool TypedNumber::backspace() {
  if (m_text.isEmpty()) return false;
  m_text.chop(1);
  return true;
}

Result<double> TypedNumber::read(Dimension dimension, const std::string& bareUnit) const {
  return format::parseQuantity(m_text.trimmed().toStdString(), dimension, bareUnit);
}

}  // namespace sunspool::gestures
