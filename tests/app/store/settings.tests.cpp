// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/settings.h"

#include <QTemporaryDir>
#include <catch2/catch.hpp>

namespace sunspool::store {
namespace {

TEST_CASE("What was chosen is found again", "[store][settings][analytic]") {
  const QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("settings.ini"));
  {
    Settings settings(file);
    CHECK(settings.theme() == ThemeChoice::FollowDesktop);
    CHECK(settings.textScale() == 1.0);
    CHECK(settings.units() == format::UnitSystem::Metric);
    CHECK(settings.motion());
    settings.setTheme(ThemeChoice::ContrastOnBlack);
    settings.setTextScale(2.5);
    settings.setUnits(format::UnitSystem::UsCustomary);
    settings.setMotion(false);
    settings.setWindowGeometry(QByteArray("abc"));
  }
  const Settings settings(file);
  CHECK(settings.theme() == ThemeChoice::ContrastOnBlack);
  CHECK(settings.textScale() == 2.5);
  CHECK(settings.units() == format::UnitSystem::UsCustomary);
  CHECK_FALSE(settings.motion());
  CHECK(settings.windowGeometry() == QByteArray("abc"));
}

TEST_CASE("Recent files are few, absolute and without repetition", "[store][settings][analytic]") {
  const QTemporaryDir folder;
  Settings settings(folder.filePath(QStringLiteral("settings.ini")));
  for (int i = 0; i < 15; ++i) settings.addRecentFile(QStringLiteral("/a/%1.sunspool").arg(i));
  settings.addRecentFile(QStringLiteral("/a/12.sunspool"));
  CHECK(settings.recentFiles().size() == Settings::kMostRecentFiles);
  CHECK(settings.recentFiles().front() == QStringLiteral("/a/12.sunspool"));
  CHECK(settings.recentFiles().count(QStringLiteral("/a/12.sunspool")) == 1);
  settings.removeRecentFile(QStringLiteral("/a/12.sunspool"));
  CHECK(settings.recentFiles().front() == QStringLiteral("/a/14.sunspool"));
}

TEST_CASE("A settings file that makes no sense gives the defaults", "[store][settings][fault]") {
  const QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("settings.ini"));
  {
    QSettings raw(file, QSettings::IniFormat);
    raw.setValue(QStringLiteral("look/theme"), QStringLiteral("mauve"));
    raw.setValue(QStringLiteral("look/text_scale"), QStringLiteral("40"));
    raw.setValue(QStringLiteral("units"), 7);
  }
  const Settings settings(file);
  CHECK(settings.theme() == ThemeChoice::FollowDesktop);
  CHECK(settings.textScale() == 1.0);
  CHECK(settings.units() == format::UnitSystem::Metric);
}

}  // namespace
}  // namespace sunspool::store
