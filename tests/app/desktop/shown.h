// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the tests of the window share: the bench, shown, settled and laid out; and what it says.

#include <QApplication>
#include <QTest>
#include <catch2/catch.hpp>
#include <string>

#include "app/desktop/bench.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::desktop {

/// Shown, active, and its places stand still: only then they are worth asking for.
inline void showAndSettle(QWidget& window, QSize size) {
  window.resize(size);
  window.show();
  window.activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(&window));
  QTest::qWait(30);
}

/// The sentence at the lower edge of the panel; empty when there is none.
inline QString saidBy(QWidget& window) {
  const QWidget* said = window.findChild<QWidget*>(QStringLiteral("said"));
  REQUIRE(said != nullptr);
  return said->isHidden() ? QString() : said->accessibleName();
}

struct ShownBench {
  store::DocumentStore store;
  store::Hub hub;
  render::Look look;
  Bench bench{store, hub, look};

  explicit ShownBench(model::Document document = model::firstPanel(), QSize size = {1280, 720})
      : store(std::move(document)) {
    showAndSettle(bench, size);
    settle();
  }
  void settle() {
    store.waitUntilSettled();
    QApplication::processEvents();
  }
  std::string bytes() const { return io::writeDocument(store.document()); }
  QString said() { return saidBy(bench); }
  template <class W = QWidget>
  W& child(const char* name) {
    W* found = bench.findChild<W*>(QLatin1String(name));
    REQUIRE(found != nullptr);
    return *found;
  }
};

}  // namespace sunspool::desktop
