// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the measurements of the window share.

#include <time.h>

#include <QApplication>
#include <QWidget>
#include <chrono>
#include <functional>

namespace sunspool::bench {

inline double millisecondsSince(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

/// Processor time of the calling thread.
inline double threadTime_ms() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

/// Without a display, Qt draws into memory.
inline void drawIntoMemoryWithoutDisplay() {
  if (!qEnvironmentVariableIsSet("DISPLAY") && !qEnvironmentVariableIsSet("WAYLAND_DISPLAY") &&
      !qEnvironmentVariableIsSet("QT_QPA_PLATFORM"))
    qputenv("QT_QPA_PLATFORM", "offscreen");
}

/// An application that tells how long each widget took to paint itself, in processor time.
class WatchedApplication : public QApplication {
 public:
  using QApplication::QApplication;
  std::function<void(QObject* widget, double milliseconds)> painted;
  /// A window has drawn all that was stale.
  std::function<void(QObject* window)> refreshed;

  bool notify(QObject* receiver, QEvent* event) override {
    const QEvent::Type type = event->type();
    if (type == QEvent::Paint && painted) {
      const double start = threadTime_ms();
      const bool done = QApplication::notify(receiver, event);
      painted(receiver, threadTime_ms() - start);
      return done;
    }
    const bool done = QApplication::notify(receiver, event);
    if ((type == QEvent::UpdateRequest || type == QEvent::Expose) && refreshed) refreshed(receiver);
    return done;
  }
};

}  // namespace sunspool::bench
