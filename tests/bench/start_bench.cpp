// SPDX-License-Identifier: GPL-3.0-or-later

// From the start of a fresh process to the first painted window, and what memory it then holds.
//
// The process is this program with the word --measure-window: it runs the same function that `sunspool` runs for its
// window and leaves when the window has been drawn once in full. Its clock starts in the parent before the process is
// made, so that loading the program and its libraries is counted. Settings are those of somebody who never chose any.

#include <QFile>
#include <QProcess>
#include <QProcessEnvironment>
#include <QTemporaryDir>
#include <QTimer>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "app/desktop/workbench.h"
#include "tests/bench/bench.h"
#include "tests/bench/window_bench.h"

namespace {

using namespace sunspool;
using bench::Bench;
using bench::Sense;
using bench::Target;
using Clock = std::chrono::steady_clock;

constexpr char kWord[] = "--measure-window";

long long now_ns() {
  return std::chrono::duration_cast<std::chrono::nanoseconds>(Clock::now().time_since_epoch()).count();
}

double resident_MB() {
  QFile status(QStringLiteral("/proc/self/status"));
  if (!status.open(QIODevice::ReadOnly)) return 0.0;
  for (const QByteArray& line : status.readAll().split('\n')) {
    if (line.startsWith("VmRSS:")) return line.mid(6).trimmed().split(' ').first().toDouble() * 1024.0 / 1e6;
  }
  return 0.0;
}

/// --measure-window START_NS: prints ms from START_NS to main, to the first picture, MB then and MB a second later.
int measureWindow(int count, char** arguments) {
  const long long start_ns = count > 2 ? std::atoll(arguments[2]) : now_ns();
  const long long main_ns = now_ns();
  bench::WatchedApplication application(count, arguments);
  bool panelPainted = false, done = false;
  application.painted = [&](QObject* widget, double) {
    for (const QObject* part = widget; part != nullptr; part = part->parent())
      panelPainted = panelPainted || part->objectName() == QLatin1String("panel_view");
  };
  application.refreshed = [&](QObject*) {
    if (!panelPainted || done) return;
    done = true;
    std::printf("%.3f %.3f %.3f", 1e-6 * static_cast<double>(main_ns - start_ns),
                1e-6 * static_cast<double>(now_ns() - start_ns), resident_MB());
    QTimer::singleShot(1000, [] {
      std::printf(" %.3f\n", resident_MB());
      QCoreApplication::exit(0);
    });
  };
  return desktop::openWorkbench({});
}

/// Runs a program to its end and returns what it printed.
QByteArray outputOf(const QString& program, const QStringList& arguments, const QProcessEnvironment& environment) {
  QProcess process;
  process.setProcessEnvironment(environment);
  process.start(program, arguments);
  const bool ended = process.waitForFinished(60000);
  return ended && process.exitCode() == 0 ? process.readAllStandardOutput() : QByteArray();
}

QProcessEnvironment freshEnvironment(const QTemporaryDir& folder) {
  QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
  environment.insert(QStringLiteral("XDG_CONFIG_HOME"), folder.path());
  if (environment.value(QStringLiteral("QT_QPA_PLATFORM")) == QLatin1String("offscreen")) {
    QFile screen(folder.filePath(QStringLiteral("screen.json")));
    if (screen.open(QIODevice::WriteOnly)) {
      screen.write(R"({"screens":[{"name":"screen","x":0,"y":0,"width":1920,"height":1080,"dpi":96,"dpr":1}]})");
      environment.insert(QStringLiteral("QT_QPA_PLATFORM"),
                         QStringLiteral("offscreen:configfile=") + screen.fileName());
    }
  }
  return environment;
}

struct Start {
  double toMain_ms = 0.0, toPicture_ms = 0.0, resident_MB = 0.0, later_MB = 0.0;
};

std::optional<Start> started(const QProcessEnvironment& environment) {
  const QByteArray printed =
      outputOf(QCoreApplication::applicationFilePath(), {QLatin1String(kWord), QString::number(now_ns())}, environment);
  Start start;
  if (std::sscanf(printed.constData(), "%lf %lf %lf %lf", &start.toMain_ms, &start.toPicture_ms, &start.resident_MB,
                  &start.later_MB) != 4)
    return {};
  return start;
}

void measureStarts(Bench& bench) {
  const QTemporaryDir folder;
  const QProcessEnvironment environment = freshEnvironment(folder);
  const int runs = bench.thoroughness() == bench::Thoroughness::Full ? 10 : 2;
  std::vector<double> toMain, toPicture, inMain, resident, later, version;
  for (int n = 0; n < runs; ++n) {
    const auto begun = Clock::now();
    if (outputOf(QStringLiteral(SUNSPOOL_PROGRAM), {QStringLiteral("--version")}, environment).isEmpty()) return;
    version.push_back(bench::millisecondsSince(begun));
    const auto start = started(environment);
    if (!start) return;
    toMain.push_back(start->toMain_ms);
    toPicture.push_back(start->toPicture_ms);
    inMain.push_back(start->toPicture_ms - start->toMain_ms);
    resident.push_back(start->resident_MB);
    later.push_back(start->later_MB);
  }
  bench.times({"start to first painted window", "ms", 0, 0, Target{Sense::AtMost, 500.0}, "from before the process"},
              toPicture);
  bench.times({"  process and libraries, up to main", "ms", 0, 0, {}, ""}, toMain);
  bench.times({"  from main to the first picture", "ms", 0, 0, {}, ""}, inMain);
  bench.times({"sunspool --version, start to end", "ms", 0, 0, {}, "no window"}, version);
  bench.times({"resident after the first picture", "MB", 0, 0, Target{Sense::AtMost, 150.0}, "1e6 bytes"}, resident);
  bench.times({"resident a second later", "MB", 0, 0, Target{Sense::AtMost, 150.0}, "all answers in"}, later);
}

const bench::RegisteredChild kChild(kWord, measureWindow);
const bench::Registered kStart("start", [](Bench& bench) {
  bench::drawIntoMemoryWithoutDisplay();
  int count = 1;
  char name[] = "sunspool_bench";
  char* arguments[] = {name, nullptr};
  const QCoreApplication application(count, arguments);
  measureStarts(bench);
});

}  // namespace
