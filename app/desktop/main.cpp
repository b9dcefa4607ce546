// SPDX-License-Identifier: GPL-3.0-or-later

// One binary: subcommands go to the terminal program before any QApplication exists, everything else opens the window.

#include <QApplication>
#include <QGuiApplication>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "app/cli/cli.h"
#include "app/desktop/workbench.h"

namespace {

int runInTerminal(int argc, char** argv, const std::vector<std::string>& arguments) {
  qputenv("QT_QPA_PLATFORM", "offscreen");  // the lists need fonts, never a display
  const QGuiApplication application(argc, argv);
  return sunspool::cli::run(arguments, std::cout, std::cerr);
}

bool hasDisplay() {
  return qEnvironmentVariableIsSet("DISPLAY") || qEnvironmentVariableIsSet("WAYLAND_DISPLAY") ||
         qEnvironmentVariableIsSet("QT_QPA_PLATFORM");
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  try {
    if (sunspool::cli::isForTerminal(arguments)) return runInTerminal(argc, argv, arguments);
    if (!hasDisplay()) {
      std::cerr << "sunspool: there is no display here, so the window cannot open. `sunspool reckon FILE` gives the "
                   "answers in the terminal.\n";
      return sunspool::cli::kFailure;
    }
    QApplication application(argc, argv);
    return sunspool::desktop::openWorkbench(arguments);
  } catch (const std::exception& problem) {
    std::cerr << "sunspool: stopped by " << problem.what() << '\n';
    return sunspool::cli::kFailure;
  }
}
