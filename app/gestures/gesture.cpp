// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/gesture.h"

#include <QCoreApplication>
#include <cmath>

namespace sunspool::gestures {

format::NumberAndUnit Gesture::text(double value, const format::Preferences& preferences) const {
  return format::number(metres(value), format::LengthScale::Drawing, preferences);
}

format::NumberAndUnit Gesture::typedText(double typed, const format::Preferences& preferences) const {
  return text(fromTyped(typed), preferences);
}

std::string Gesture::bareUnit(const format::Preferences& preferences) const {
  switch (preferences.units) {
    case format::UnitSystem::Metric:
      return "mm";
    case format::UnitSystem::UsCustomary:
      return "in";
  }
  return "mm";
}

QString Gesture::stepText(double value, const format::Preferences& preferences) const {
  return QCoreApplication::translate("sunspool::gestures", "Change %1 to %2")
      .arg(name().toLower(), text(value, preferences).joined());
}

bool Gesture::hold(const Design& design, geometry::Point at) {
  if (!design.document || !handle(design)) return false;
  m_state = State::Held;
  m_design = design;
  m_at = at;
  m_start = value(design);
  m_proposed = m_start;
  m_typed = false;
  prepare();
  return true;
}

std::optional<double> Gesture::drag(geometry::Point to) {
  if (m_state != State::Held || m_typed) return std::nullopt;
  const double next = clicked(valueAt(to));
  if (next == m_proposed) return std::nullopt;
  m_proposed = next;
  return next;
}

double Gesture::stepBy(int steps) {
  SUNSPOOL_ASSERT(m_state == State::Held, "a handle is stepped while it is held");
  m_proposed = stepped(m_proposed, steps);
  return m_proposed;
}

double Gesture::type(double value) {
  SUNSPOOL_ASSERT(m_state == State::Held, "a number is typed while the handle is held");
  m_typed = true;
  m_proposed = value;
  return value;
}

void Gesture::letGo() {
  m_state = State::Idle;
  m_design = {};
  m_typed = false;
}

double Gesture::clicked(double value) const {
  // A hand that has not moved by half a step leaves the number as it was, even off the grid.
  if (std::abs(value - m_start) < 0.5 * step()) return m_start;
  return std::round(value / step()) * step();
}

}  // namespace sunspool::gestures
