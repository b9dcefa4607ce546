// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/workbench.h"

#include <QApplication>
#include <QGuiApplication>
#include <QScreen>
#include <cmath>
#include <iostream>

#include "app/cli/cli.h"
#include "app/desktop/main_window.h"
#include "app/render/style.h"
#include "app/store/settings.h"

namespace sunspool::desktop {

/// Qt 6.4 does not tell a dark desktop; its window colour does.
render::Theme themeFor(store::ThemeChoice choice) {
  switch (choice) {
    case store::ThemeChoice::FollowDesktop: {
      static const bool dark = QGuiApplication::palette().color(QPalette::Window).lightness() < 128;
      return dark ? render::Theme::Dark : render::Theme::Light;
    }
    case store::ThemeChoice::Light:
      return render::Theme::Light;
    case store::ThemeChoice::Dark:
      return render::Theme::Dark;
    case store::ThemeChoice::ContrastOnWhite:
      return render::Theme::ContrastOnWhite;
    case store::ThemeChoice::ContrastOnBlack:
      return render::Theme::ContrastOnBlack;
  }
  return render::Theme::Light;
}

namespace {

void applySettings(render::Look& look) {
  const store::Settings settings;
  look.setTheme(themeFor(settings.theme()));
  look.setTextScale(settings.textScale());
  look.setPreferences({settings.units()});
}

}  // namespace

int openWorkbench(const std::vector<std::string>& arguments) {
  if (arguments.size() > 1) {
    std::cerr << "sunspool: one project file at a time, found " << arguments.size()
              << ". Open each in a window of its own.\n";
    return cli::kUsage;
  }
  QApplication::setApplicationName(QStringLiteral("sunspool"));
  QApplication::setApplicationDisplayName(QStringLiteral("Sunspool"));
  QApplication::setOrganizationName(QStringLiteral("sunspool"));
  QApplication::setApplicationVersion(QStringLiteral(SUNSPOOL_VERSION));
  QGuiApplication::setDesktopFileName(QStringLiteral(SUNSPOOL_APPLICATION_ID));

  render::Look look;
  applySettings(look);
  render::Style::install(look);
  store::DocumentStore store(panelAtNoon());
  store::Hub hub;
  MainWindow window(store, hub, look);
  const QSize screen = QGuiApplication::primaryScreen()->availableSize();
  window.resize(std::min(screen.width(), 1920), std::min(screen.height(), 1080));
  if (arguments.empty()) {
    window.begin();
  } else {
    window.openFile(QString::fromStdString(arguments.front()));
  }
  const auto results = store.results();
  if (results->layout.has_value())
    hub.setHere(0, std::round(0.3 * results->layout->runs.front().path.length().si() * 10.0) / 10.0);
  window.show();
  return QApplication::exec();
}

}  // namespace sunspool::desktop
