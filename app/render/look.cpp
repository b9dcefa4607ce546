// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/look.h"

#include <algorithm>

namespace sunspool::render {

namespace {
constexpr double kSmallestTextScale = 0.5;
constexpr double kLargestTextScale = 4.0;
}  // namespace

Look::Look(QObject* parent) : QObject(parent), m_tokens(tokensFor(Theme::Light, 1.0)) {}

void Look::setTheme(Theme theme) {
  if (theme == m_tokens.theme) return;
  m_tokens = tokensFor(theme, m_tokens.textScale);
  Q_EMIT changed();
}

void Look::setTextScale(double scale) {
  const double legible = std::clamp(scale, kSmallestTextScale, kLargestTextScale);
  if (legible == m_tokens.textScale) return;
  m_tokens = tokensFor(m_tokens.theme, legible);
  Q_EMIT changed();
}

void Look::setPreferences(const format::Preferences& preferences) {
  if (preferences == m_preferences) return;
  m_preferences = preferences;
  Q_EMIT changed();
}

}  // namespace sunspool::render
