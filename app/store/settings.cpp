// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/settings.h"

#include <QFileInfo>
#include <array>
#include <utility>

namespace sunspool::store {
namespace {

constexpr auto kThemes = std::to_array<std::pair<ThemeChoice, const char*>>({
    {ThemeChoice::FollowDesktop, "follow_desktop"},
    {ThemeChoice::Light, "light"},
    {ThemeChoice::Dark, "dark"},
    {ThemeChoice::ContrastOnWhite, "contrast_on_white"},
    {ThemeChoice::ContrastOnBlack, "contrast_on_black"},
});
constexpr auto kUnits = std::to_array<std::pair<format::UnitSystem, const char*>>({
    {format::UnitSystem::Metric, "metric"},
    {format::UnitSystem::UsCustomary, "us_customary"},
});

QString themeKey() { return QStringLiteral("look/theme"); }
QString scaleKey() { return QStringLiteral("look/text_scale"); }
QString motionKey() { return QStringLiteral("look/motion"); }
QString unitsKey() { return QStringLiteral("units"); }
QString recentKey() { return QStringLiteral("recent_files"); }
QString geometryKey() { return QStringLiteral("window/geometry"); }

template <class E, std::size_t N>
E fromWord(const QString& word, const std::array<std::pair<E, const char*>, N>& words) {
  for (const auto& [value, name] : words) {
    if (word == QLatin1String(name)) return value;
  }
  return words.front().first;
}
template <class E, std::size_t N>
QString toWord(E value, const std::array<std::pair<E, const char*>, N>& words) {
  for (const auto& [known, name] : words) {
    if (value == known) return QLatin1String(name);
  }
  return {};
}

}  // namespace

Settings::Settings()
    : m_settings(QSettings::IniFormat, QSettings::UserScope, QStringLiteral("sunspool"), QStringLiteral("sunspool")) {}
Settings::Settings(const QString& iniFile) : m_settings(iniFile, QSettings::IniFormat) {}

ThemeChoice Settings::theme() const { return fromWord(m_settings.value(themeKey()).toString(), kThemes); }
void Settings::setTheme(ThemeChoice theme) { m_settings.setValue(themeKey(), toWord(theme, kThemes)); }

double Settings::textScale() const {
  bool isNumber = false;
  const double scale = m_settings.value(scaleKey()).toDouble(&isNumber);
  return isNumber && scale >= 1.0 && scale <= 3.0 ? scale : 1.0;
}
void Settings::setTextScale(double scale) { m_settings.setValue(scaleKey(), scale); }

format::UnitSystem Settings::units() const { return fromWord(m_settings.value(unitsKey()).toString(), kUnits); }
void Settings::setUnits(format::UnitSystem units) { m_settings.setValue(unitsKey(), toWord(units, kUnits)); }

bool Settings::motion() const { return m_settings.value(motionKey(), true).toBool(); }
void Settings::setMotion(bool motion) { m_settings.setValue(motionKey(), motion); }

QStringList Settings::recentFiles() const {
  return m_settings.value(recentKey()).toStringList().mid(0, kMostRecentFiles);
}
void Settings::addRecentFile(const QString& path) {
  const QString absolute = QFileInfo(path).absoluteFilePath();
  QStringList files = recentFiles();
  files.removeAll(absolute);
  files.prepend(absolute);
  m_settings.setValue(recentKey(), files.mid(0, kMostRecentFiles));
}
void Settings::removeRecentFile(const QString& path) {
  QStringList files = recentFiles();
  files.removeAll(QFileInfo(path).absoluteFilePath());
  m_settings.setValue(recentKey(), files);
}

QByteArray Settings::windowGeometry() const { return m_settings.value(geometryKey()).toByteArray(); }
void Settings::setWindowGeometry(const QByteArray& geometry) { m_settings.setValue(geometryKey(), geometry); }

}  // namespace sunspool::store
