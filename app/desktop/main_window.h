// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QMainWindow>
#include <functional>

#include "app/desktop/bench.h"
#include "app/desktop/finder.h"
#include "app/render/look.h"
#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "app/store/settings.h"

class QActionGroup;
class QMenu;

namespace sunspool::desktop {

render::Theme themeFor(store::ThemeChoice choice);

/// Menus, files and the bench.
class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  MainWindow(store::DocumentStore& store, store::Hub& hub, render::Look& look);

  Bench& bench() { return *m_bench; }
  /// A finished small panel at noon, and the line to say what one has.
  void begin();
  bool openFile(const QString& path);
  /// A sample is opened untitled, so that the original stays as it is.
  bool openSample(const QString& path);
  bool saveTo(const QString& path);
  bool writeLists(const QString& folder);
  /// Folder of the samples, beside the program or installed; empty when there is none.
  static QString sampleFolder();

 protected:
  void closeEvent(QCloseEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void makeFileMenu();
  void makeEditMenu();
  void makeViewMenu();
  void makePanelMenu();
  void makeDayMenu();
  void makeSheetsMenu();
  void makeHelpMenu();
  QMenu& addMenu(const QString& name, const QString& text, QMenu* parent = nullptr);
  QAction* add(QMenu& menu, const QString& name, const QString& text, const QKeySequence& key,
               const std::function<void()>& does);
  /// A choice of which one is in force; `current` tells the index.
  void addChoice(QMenu& menu, const QString& name, const QString& text, const QStringList& choices,
                 const std::function<int()>& current, const std::function<void(int)>& choose);
  void fillRecent();
  void openFinder();
  std::vector<Findable> findables();
  void refresh();
  bool save();
  bool saveAs();
  bool mayClose();
  void refuse(const Error& error);
  void moveClock(double hours);

  store::DocumentStore& m_store;
  store::Hub& m_hub;
  render::Look& m_look;
  Bench* m_bench = nullptr;
  Finder* m_finder = nullptr;
  QMenu* m_recent = nullptr;
  std::vector<std::function<void()>> m_refreshers;
};

}  // namespace sunspool::desktop
