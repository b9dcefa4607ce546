// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the person chose once and wants to find again. Never part of a design.

#include <QByteArray>
#include <QSettings>
#include <QString>
#include <QStringList>

#include "app/format/format.h"

namespace sunspool::store {

enum class ThemeChoice { FollowDesktop, Light, Dark, ContrastOnWhite, ContrastOnBlack };

/// A stored value that makes no sense (edited by hand, written by another version) reads as the default.
class Settings {
 public:
  Settings();                                 ///< of this person, in the place the system has for it
  explicit Settings(const QString& iniFile);  ///< e.g. for tests

  ThemeChoice theme() const;
  void setTheme(ThemeChoice theme);
  double textScale() const;  ///< 1 to 3
  void setTextScale(double scale);
  format::UnitSystem units() const;
  void setUnits(format::UnitSystem units);
  bool motion() const;  ///< things may move, unless the desktop asks for stillness
  void setMotion(bool motion);

  static constexpr int kMostRecentFiles = 10;
  QStringList recentFiles() const;  ///< absolute paths, newest first
  void addRecentFile(const QString& path);
  void removeRecentFile(const QString& path);

  QByteArray windowGeometry() const;
  void setWindowGeometry(const QByteArray& geometry);

 private:
  mutable QSettings m_settings;
};

}  // namespace sunspool::store
