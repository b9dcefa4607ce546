// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

#include "app/format/format.h"
#include "app/render/tokens.h"

namespace sunspool::render {

/// Theme, text scale and units in force: one object, handed to every view.
class Look : public QObject {
  Q_OBJECT
 public:
  explicit Look(QObject* parent = nullptr);
  const Tokens& tokens() const { return m_tokens; }
  const format::Preferences& preferences() const { return m_preferences; }
  void setTheme(Theme theme);
  void setTextScale(double scale);
  void setPreferences(const format::Preferences& preferences);

 Q_SIGNALS:
  void changed();

 private:
  Tokens m_tokens;
  format::Preferences m_preferences;
};

}  // namespace sunspool::render
