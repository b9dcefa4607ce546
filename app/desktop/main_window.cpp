// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/main_window.h"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QCloseEvent>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QKeyEvent>
#include <QMenuBar>
#include <QMessageBox>
#include <cmath>

#include "app/render/list_sheets.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::desktop {
namespace {

QString projectFilter() { return MainWindow::tr("Sunspool projects (*.sunspool)"); }

}  // namespace

MainWindow::MainWindow(store::DocumentStore& store, store::Hub& hub, render::Look& look)
    : m_store(store), m_hub(hub), m_look(look) {
  setObjectName(QStringLiteral("mainWindow"));
  m_bench = new Bench(store, hub, look, this);
  setCentralWidget(m_bench);
  makeFileMenu();
  makeEditMenu();
  makeViewMenu();
  makePanelMenu();
  makeDayMenu();
  makeSheetsMenu();
  makeHelpMenu();
  m_finder = new Finder(look, m_bench);
  qApp->installEventFilter(this);
  auto* word = new WordButton(tr("What I have ..."), look, menuBar());
  word->setObjectName(QStringLiteral("whatIHave"));
  word->setToolTip(tr("Say what you have, and see panels made of it"));
  menuBar()->setCornerWidget(word, Qt::TopRightCorner);
  connect(word, &QAbstractButton::clicked, this, [this] { m_bench->firstMinute().begin(); });
  connect(&m_bench->firstMinute(), &FirstMinute::openChanged, word,
          [this, word] { word->setVisible(!m_bench->firstMinute().isOpen()); });
  connect(&store, &store::DocumentStore::fileChanged, this, &MainWindow::refresh);
  connect(&store, &store::DocumentStore::changed, this, &MainWindow::refresh);
  connect(&look, &render::Look::changed, this, &MainWindow::refresh);
  connect(m_bench, &Bench::sideViewChanged, this, &MainWindow::refresh);
  connect(m_bench, &Bench::shedOpenedOrClosed, this, &MainWindow::refresh);
  connect(m_bench, &Bench::listsAsked, this,
          [this] { findChild<QAction*>(QStringLiteral("sheets.lists"))->trigger(); });
  refresh();
  m_bench->panel().setFocus();
}

QString MainWindow::sampleFolder() {
  for (const QString& folder : {QStringLiteral(SUNSPOOL_INSTALLED_RESOURCES "/sample-projects"),
                                QStringLiteral(SUNSPOOL_SOURCE_RESOURCES "/../sample-projects")}) {
    if (QFileInfo(folder).isDir()) return QDir::cleanPath(folder);
  }
  return {};
}

void MainWindow::begin() {
  m_store.reset(panelAtNoon());
  m_bench->firstMinute().begin();
}

QMenu& MainWindow::addMenu(const QString& name, const QString& text, QMenu* parent) {
  QMenu* menu = parent != nullptr ? parent->addMenu(text) : menuBar()->addMenu(text);
  menu->setObjectName(QStringLiteral("menu.") + name);
  menu->menuAction()->setObjectName(name);
  return *menu;
}

QAction* MainWindow::add(QMenu& menu, const QString& name, const QString& text, const QKeySequence& key,
                         const std::function<void()>& does) {
  QAction* action = menu.addAction(text);
  action->setObjectName(name);
  action->setShortcut(key);
  QString plain = text;
  plain.remove(QLatin1Char('&'));
  action->setToolTip(plain);
  action->setStatusTip(plain);
  connect(action, &QAction::triggered, this, [does] { does(); });
  return action;
}

void MainWindow::addChoice(QMenu& menu, const QString& name, const QString& text, const QStringList& choices,
                           const std::function<int()>& current, const std::function<void(int)>& choose) {
  QMenu& sub = addMenu(name, text, &menu);
  auto* group = new QActionGroup(this);
  QList<QAction*> actions;
  for (int i = 0; i < choices.size(); ++i) {
    QAction* action = add(sub, QStringLiteral("%1.%2").arg(name).arg(i), choices[i], {}, [choose, i] { choose(i); });
    action->setCheckable(true);
    group->addAction(action);
    actions << action;
  }
  m_refreshers.push_back([actions, current] {
    const int index = current();
    for (int i = 0; i < actions.size(); ++i) actions[i]->setChecked(i == index);
  });
}

void MainWindow::makeFileMenu() {
  QMenu& menu = addMenu(QStringLiteral("file"), tr("&File"));
  add(menu, QStringLiteral("file.new"), tr("&New panel"), QKeySequence::New, [this] {
    if (mayClose()) begin();
  });
  add(menu, QStringLiteral("file.open"), tr("&Open ..."), QKeySequence::Open, [this] {
    if (!mayClose()) return;
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a project"), QString(), projectFilter());
    if (!path.isEmpty()) openFile(path);
  });
  m_recent = &addMenu(QStringLiteral("file.recent"), tr("Open &recent"), &menu);
  connect(m_recent, &QMenu::aboutToShow, this, &MainWindow::fillRecent);
  fillRecent();
  QMenu& samples = addMenu(QStringLiteral("file.samples"), tr("Open a sa&mple"), &menu);
  const QDir folder(sampleFolder());
  for (const QFileInfo& file : folder.entryInfoList({QStringLiteral("*.sunspool")}, QDir::Files, QDir::Name)) {
    QString name = file.completeBaseName().replace(QLatin1Char('-'), QLatin1Char(' '));
    name[0] = name[0].toUpper();
    add(samples, QStringLiteral("file.sample.%1").arg(file.completeBaseName()), name, {}, [this, file] {
      if (mayClose()) openSample(file.absoluteFilePath());
    });
  }
  menu.addSeparator();
  add(menu, QStringLiteral("file.save"), tr("&Save"), QKeySequence::Save, [this] { save(); });
  add(menu, QStringLiteral("file.saveAs"), tr("Save &as ..."), QKeySequence::SaveAs, [this] { saveAs(); });
  menu.addSeparator();
  add(menu, QStringLiteral("file.quit"), tr("&Quit"), QKeySequence::Quit, [this] { close(); });
}

/// A project that is gone says so, and goes from the list when it is chosen.
void MainWindow::fillRecent() {
  m_recent->clear();
  const QStringList files = store::Settings().recentFiles();
  for (qsizetype i = 0; i < files.size(); ++i) {
    const QString path = files[i];
    const bool there = QFileInfo::exists(path);
    const QString name = QDir::toNativeSeparators(path);
    QAction* action =
        add(*m_recent, QStringLiteral("file.recent.%1").arg(i),
            there ? QFileInfo(path).completeBaseName() : tr("%1 (is gone)").arg(QFileInfo(path).fileName()), {},
            [this, path, there] {
              if (there) {
                if (mayClose()) openFile(path);
                return;
              }
              store::Settings().removeRecentFile(path);
              fillRecent();
              m_bench->say(tr("%1 is no longer there; it is taken off the list.").arg(QDir::toNativeSeparators(path)));
            });
    action->setToolTip(name);
    action->setStatusTip(name);
  }
  m_recent->setEnabled(!files.isEmpty());
}

void MainWindow::makeEditMenu() {
  QMenu& menu = addMenu(QStringLiteral("edit"), tr("&Edit"));
  QAction* undo = m_store.undoStack()->createUndoAction(this, tr("&Undo"));
  undo->setObjectName(QStringLiteral("edit.undo"));
  undo->setShortcut(QKeySequence::Undo);
  QAction* redo = m_store.undoStack()->createRedoAction(this, tr("&Redo"));
  redo->setObjectName(QStringLiteral("edit.redo"));
  QList<QKeySequence> redoKeys = QKeySequence::keyBindings(QKeySequence::Redo);
  if (const QKeySequence also(tr("Ctrl+Y")); !redoKeys.contains(also)) redoKeys << also;
  redo->setShortcuts(redoKeys);
  menu.addActions({undo, redo});
  menu.addSeparator();
  add(menu, QStringLiteral("edit.keepAsBefore"), tr("&Keep as before"), QKeySequence(tr("Ctrl+B")), [this] {
    m_store.keepAsBefore();
    m_bench->say(tr("Kept: the curves show it dotted, the shelf says what differs."));
  });
  QAction* forget = add(menu, QStringLiteral("edit.forgetBefore"), tr("&Forget the kept one"), {},
                        [this] { m_store.forgetBefore(); });
  const auto enable = [this, forget] { forget->setEnabled(m_store.before().has_value()); };
  connect(&m_store, &store::DocumentStore::beforeChanged, this, enable);
  enable();
  menu.addSeparator();
  add(menu, QStringLiteral("edit.find"), tr("Find a &command ..."), QKeySequence(tr("Ctrl+K")),
      [this] { m_finder->isVisible() ? m_finder->closeFinder() : openFinder(); });
}

void MainWindow::makeViewMenu() {
  QMenu& menu = addMenu(QStringLiteral("view"), tr("&View"));
  addChoice(
      menu, QStringLiteral("view.side"), tr("At the &left"), {tr("&Day page"), tr("Design &curves")},
      [this] { return m_bench->sideView() == SideView::DayPage ? 0 : 1; },
      [this](int i) { m_bench->setSideView(i == 0 ? SideView::DayPage : SideView::DesignCurves); });
  add(menu, QStringLiteral("view.toggleSide"), tr("&Turn to the other page"), QKeySequence(Qt::Key_F6), [this] {
    m_bench->setSideView(m_bench->sideView() == SideView::DayPage ? SideView::DesignCurves : SideView::DayPage);
  });
  add(menu, QStringLiteral("view.fit"), tr("&Fit the panel"), QKeySequence(tr("Ctrl+0")),
      [this] { m_bench->panel().fit(); });
  add(menu, QStringLiteral("view.say"), tr("&Say here and now"), QKeySequence(tr("Ctrl+?")),
      [this] { m_bench->say(m_bench->panel().hereAndNow()); });
  add(menu, QStringLiteral("view.nextFinding"), tr("&Next finding"), QKeySequence(Qt::Key_F8),
      [this] { m_bench->walkSnags(1); });
  add(menu, QStringLiteral("view.previousFinding"), tr("Pre&vious finding"), QKeySequence(Qt::SHIFT | Qt::Key_F8),
      [this] { m_bench->walkSnags(-1); });
  menu.addSeparator();
  addChoice(
      menu, QStringLiteral("view.theme"), tr("&Paper"),
      {tr("As the des&ktop"), tr("&Light"), tr("&Dark"), tr("High contrast on &white"), tr("High contrast on &black")},
      [] { return static_cast<int>(store::Settings().theme()); },
      [this](int i) {
        const auto choice = static_cast<store::ThemeChoice>(i);
        store::Settings().setTheme(choice);
        m_look.setTheme(themeFor(choice));
      });
  addChoice(
      menu, QStringLiteral("view.units"), tr("&Units"), {tr("&Metric"), tr("&US customary")},
      [this] { return m_look.preferences().units == format::UnitSystem::Metric ? 0 : 1; },
      [this](int i) {
        const auto units = i == 0 ? format::UnitSystem::Metric : format::UnitSystem::UsCustomary;
        store::Settings().setUnits(units);
        m_look.setPreferences({units});
      });
  const auto scaleTo = [this](double scale) {
    const double kept = std::min(3.0, std::max(1.0, std::round(scale * 10.0) / 10.0));
    m_look.setTextScale(kept);
    store::Settings().setTextScale(kept);
  };
  add(menu, QStringLiteral("view.larger"), tr("Text l&arger"), QKeySequence::ZoomIn,
      [this, scaleTo] { scaleTo(m_look.tokens().textScale + 0.1); });
  add(menu, QStringLiteral("view.smaller"), tr("Text s&maller"), QKeySequence::ZoomOut,
      [this, scaleTo] { scaleTo(m_look.tokens().textScale - 0.1); });
}

void MainWindow::makePanelMenu() {
  QMenu& menu = addMenu(QStringLiteral("panel"), tr("&Panel"));
  const auto edit = [this](const QString& step, auto change) { m_store.apply(change, step); };
  addChoice(
      menu, QStringLiteral("panel.recipe"), tr("&Laid as"),
      {tr("Rectangular &spiral"), tr("Plain ser&pentine"), tr("&Double spiral"), tr("Serpentine with &bulb turns")},
      [this] { return static_cast<int>(m_store.document().laying.recipe); },
      [edit](int i) {
        edit(tr("Change how the tube is laid"),
             [i](model::Document d) { return model::withRecipe(std::move(d), static_cast<model::Recipe>(i)); });
      });
  addChoice(
      menu, QStringLiteral("panel.starts"), tr("Parallel &runs"), {tr("&One"), tr("&Two"), tr("&Four")},
      [this] { return m_store.document().laying.starts == 4 ? 2 : m_store.document().laying.starts - 1; },
      [edit](int i) {
        const int starts = i == 2 ? 4 : i + 1;
        edit(tr("Change the parallel runs"),
             [starts](model::Document d) { return model::withStarts(std::move(d), starts); });
      });
  addChoice(
      menu, QStringLiteral("panel.entries"), tr("Runs &enter"), {tr("&Spread round the panel"), tr("Side &by side")},
      [this] { return static_cast<int>(m_store.document().laying.entries); },
      [edit](int i) {
        edit(tr("Change where the runs enter"),
             [i](model::Document d) { return model::withEntries(std::move(d), static_cast<model::Entries>(i)); });
      });
  addChoice(
      menu, QStringLiteral("panel.innerEnd"), tr("&Inner ends leave"),
      {tr("&Over the turns"), tr("Through the &back"), tr("&Under the turns")},
      [this] { return static_cast<int>(m_store.document().laying.innerEnd); },
      [edit](int i) {
        edit(tr("Change how the inner end leaves"),
             [i](model::Document d) { return model::withInnerEnd(std::move(d), static_cast<model::InnerEnd>(i)); });
      });
  addChoice(
      menu, QStringLiteral("panel.corners"), tr("&Corners"), {tr("All of one &radius"), tr("Round one &centre")},
      [this] { return static_cast<int>(m_store.document().laying.cornerRule); },
      [edit](int i) {
        edit(tr("Change the corners"),
             [i](model::Document d) { return model::withCornerRule(std::move(d), static_cast<model::CornerRule>(i)); });
      });
  addChoice(
      menu, QStringLiteral("panel.startCorner"), tr("&Feed enters at the"),
      {tr("Lower left"), tr("Lower right"), tr("Upper right"), tr("Upper left")},
      [this] { return static_cast<int>(m_store.document().laying.startCorner); },
      [edit](int i) {
        edit(tr("Change the feed's corner"), [i](model::Document d) {
          return model::withStartCorner(std::move(d), static_cast<model::StartCorner>(i));
        });
      });
  add(menu, QStringLiteral("panel.whatIHave"), tr("&What I have ..."), QKeySequence(tr("Ctrl+L")),
      [this] { m_bench->firstMinute().begin(); });
  add(menu, QStringLiteral("panel.fill"), tr("As many &turns as fit"), QKeySequence(tr("Ctrl+T")), [edit] {
    edit(tr("Lay as many turns as fit"),
         [](model::Document d) { return model::withQuarterTurns(std::move(d), std::nullopt); });
  });
  menu.addSeparator();
  QAction* glazed = add(menu, QStringLiteral("panel.glazed"), tr("&Glazed"), {}, [this, edit] {
    const bool has = m_store.document().box.glazing.has_value();
    edit(has ? tr("Take the glazing off") : tr("Put glazing on"), [has](model::Document d) {
      return model::withGlazing(std::move(d), has ? std::nullopt : std::optional(model::twinWallPolycarbonate()));
    });
  });
  glazed->setCheckable(true);
  menu.addSeparator();
  QAction* shed = add(menu, QStringLiteral("panel.shed"), tr("S&hed"), QKeySequence(Qt::Key_F9),
                      [this] { m_bench->isShedOpen() ? m_bench->closeShed() : m_bench->openShed(); });
  shed->setCheckable(true);
  m_refreshers.push_back([this, shed] { shed->setChecked(m_bench->isShedOpen()); });
  add(menu, QStringLiteral("panel.design"), tr("This &design: place, pool, tube, pump"),
      QKeySequence(Qt::SHIFT | Qt::Key_F9), [this] { m_bench->openShed(shed::Shed::Page::Design); });
  m_refreshers.push_back([this, glazed] { glazed->setChecked(m_store.document().box.glazing.has_value()); });
}

void MainWindow::makeDayMenu() {
  QMenu& menu = addMenu(QStringLiteral("day"), tr("&Day"));
  add(menu, QStringLiteral("day.earlier"), tr("A quarter hour &earlier"), QKeySequence(tr("Alt+Left")),
      [this] { moveClock(-0.25); });
  add(menu, QStringLiteral("day.later"), tr("A quarter hour &later"), QKeySequence(tr("Alt+Right")),
      [this] { moveClock(0.25); });
  add(menu, QStringLiteral("day.noon"), tr("&Solar noon"), QKeySequence(tr("Alt+N")), [this] {
    const auto results = m_store.results();
    if (!results->sun.has_value()) return;
    const double noon = std::round(results->sun->day.noon_h * 60.0) / 60.0;
    m_store.apply([noon](model::Document d) { return model::withClock(std::move(d), noon); }, tr("Look at solar noon"),
                  QStringLiteral("clock"));
  });
  addChoice(
      menu, QStringLiteral("day.month"), tr("&Month"),
      {tr("January"), tr("February"), tr("March"), tr("April"), tr("May"), tr("June"), tr("July"), tr("August"),
       tr("September"), tr("October"), tr("November"), tr("December")},
      [this] { return m_store.document().moment.month - 1; },
      [this](int i) {
        const auto& moment = m_store.document().moment;
        const int day = std::min(moment.day, 28);
        const int year = moment.year;
        m_store.apply([=](model::Document d) { return model::withDate(std::move(d), year, i + 1, day); },
                      tr("Look at another month"));
      });
  addChoice(
      menu, QStringLiteral("day.sky"), tr("S&ky"), {tr("Clear"), tr("Dull")},
      [this] { return m_store.document().conditions.sky == model::SkyKind::Dull ? 1 : 0; },
      [this](int i) {
        model::Conditions conditions = m_store.document().conditions;
        conditions.sky = i == 1 ? model::SkyKind::Dull : model::SkyKind::Clear;
        m_store.apply([conditions](model::Document d) { return model::withConditions(std::move(d), conditions); },
                      i == 1 ? tr("Look at a dull day") : tr("Look at a clear day"));
      });
  add(menu, QStringLiteral("day.months"), tr("&Fold to months and back"), QKeySequence(tr("Shift+M")), [this] {
    m_hub.setPlugPulled(false);
    const bool shown = m_bench->sideView() == SideView::DayPage;
    m_bench->setSideView(SideView::DayPage);
    m_bench->dayPage().foldToMonths(!shown || m_bench->dayPage().view() != daypage::DayPage::View::Months);
  });
  QAction* plug = add(menu, QStringLiteral("day.plug"), tr("&Pull the plug"), QKeySequence(tr("Shift+P")),
                      [this] { m_hub.setPlugPulled(!m_hub.isPlugPulled()); });
  plug->setCheckable(true);
  connect(&m_hub, &store::Hub::plugChanged, plug, &QAction::setChecked);
}

void MainWindow::moveClock(double hours) {
  const double clock = std::fmod(m_store.document().moment.clock_h + hours + 24.0, 24.0);
  m_store.apply([clock](model::Document d) { return model::withClock(std::move(d), clock); },
                tr("Look at another hour"), QStringLiteral("clock"));
}

void MainWindow::makeSheetsMenu() {
  QMenu& menu = addMenu(QStringLiteral("sheets"), tr("&Sheets"));
  add(menu, QStringLiteral("sheets.lists"), tr("&Write cut list and material list ..."), QKeySequence(tr("Ctrl+E")),
      [this] {
        const QString folder = QFileDialog::getExistingDirectory(this, tr("Write the lists into this folder"));
        if (!folder.isEmpty()) writeLists(folder);
      });
}

void MainWindow::makeHelpMenu() {
  QMenu& menu = addMenu(QStringLiteral("help"), tr("&Help"));
  add(menu, QStringLiteral("help.cautions"), tr("&Cautions"), {}, [this] {
    QStringList lines;
    for (const format::Caution caution : format::allCautions()) {
      const format::CautionText words = format::cautionText(caution);
      lines << QStringLiteral("<p><b>%1</b> %2</p>").arg(words.title.toHtmlEscaped(), words.text.toHtmlEscaped());
    }
    QMessageBox box(QMessageBox::NoIcon, tr("Cautions"), lines.join(QString()), QMessageBox::Close, this);
    box.exec();
  });
  add(menu, QStringLiteral("help.about"), tr("&About Sunspool"), {}, [this] {
    QMessageBox::about(this, tr("About Sunspool"),
                       tr("Sunspool %1\n\nA design workbench for home-made solar pool heaters.\nGPL-3.0-or-later. "
                          "Without any warranty; "
                          "local codes and licensed practice prevail.")
                           .arg(QStringLiteral(SUNSPOOL_VERSION)));
  });
}

void MainWindow::openFinder() { m_finder->open(findables()); }

namespace {

/// Everything of the menus that can be done now.
void collect(const QMenu& menu, const QString& where, std::vector<Findable>& found) {
  for (QAction* action : menu.actions()) {
    if (action->isSeparator()) continue;
    QString text = action->text();
    text.remove(QLatin1Char('&'));
    if (action->menu() != nullptr) {
      collect(*action->menu(), where + QStringLiteral(", ") + text, found);
    } else if (action->isEnabled() && action->objectName() != QLatin1String("edit.find")) {
      found.push_back(
          {text, where, action->shortcut().toString(QKeySequence::NativeText), [action] { action->trigger(); }});
    }
  }
}

}  // namespace

std::vector<Findable> MainWindow::findables() {
  std::vector<Findable> found;
  for (const QAction* top : menuBar()->actions()) {
    QString text = top->text();
    text.remove(QLatin1Char('&'));
    if (top->menu() != nullptr) collect(*top->menu(), text, found);
  }
  for (const auto* piece : m_bench->shelf().findChildren<questions::ShelfPiece*>()) {
    const questions::Question question = piece->question();
    found.push_back(
        {QStringLiteral("%1 %2").arg(piece->text(), piece->answer().answer), tr("Questions"), {}, [this, question] {
           m_bench->openQuestion(question);
         }});
  }
  const auto results = m_store.results();
  for (std::size_t i = 0; i < results->snags.size(); ++i) {
    const format::SnagText text = format::snagText(results->snags[i], m_store.document(), m_look.preferences());
    found.push_back({text.title, tr("Findings"), {}, [this, i] { m_bench->openSnag(static_cast<int>(i)); }});
  }
  const model::Stock& stock = m_store.document().stock;
  const auto inTheShed = [&](const std::string& name) {
    found.push_back({QString::fromStdString(name), tr("Shed"), {}, [this] { m_bench->openShed(); }});
  };
  for (const auto& roll : stock.rolls) inTheShed(roll.name);
  for (const auto& timber : stock.timbers) inTheShed(timber.name);
  for (const auto& sheet : stock.sheets) inTheShed(sheet.name);
  using store::NumberKey;
  const std::pair<NumberKey, QString> numbers[] = {{NumberKey::TubeLength, tr("Length of tube")},
                                                   {NumberKey::Water, tr("Water in the tube")},
                                                   {NumberKey::PressureDrop, tr("Pressure drop")},
                                                   {NumberKey::Heat, tr("Heat to the pool now")},
                                                   {NumberKey::Flow, tr("Flow")},
                                                   {NumberKey::Rise, tr("Rise of temperature")},
                                                   {NumberKey::Outlet, tr("Temperature at the return")},
                                                   {NumberKey::LowestPressure, tr("Lowest pressure")},
                                                   {NumberKey::TightestBend, tr("Tightest bend")},
                                                   {NumberKey::DayHeat, tr("Heat of the day")},
                                                   {NumberKey::PoolRise, tr("Rise of the pool")},
                                                   {NumberKey::WetMass, tr("Weight with water")},
                                                   {NumberKey::Stopped, tr("With the pump stopped")},
                                                   {NumberKey::Cost, tr("Cost")}};
  for (const auto& [number, name] : numbers) {
    const NumberKey key = number;
    found.push_back({name, tr("Numbers"), {}, [this, key] { m_hub.askAbout(key); }});
  }
  return found;
}

void MainWindow::refresh() {
  const QString name = QString::fromStdString(m_store.document().name);
  const QString file = QFileInfo(m_store.filePath()).fileName();
  const QString design = name.isEmpty() ? tr("Untitled") : name;
  const QString shown = file.isEmpty() ? design : tr("%1, %2").arg(design, file);
  setWindowTitle(
      QStringLiteral("%1[*] – Sunspool").arg(m_store.isReadOnly() ? tr("%1 (read only)").arg(shown) : shown));
  setWindowModified(m_store.isModified());
  for (const auto& refresher : m_refreshers) refresher();
}

void MainWindow::refuse(const Error& error) { m_bench->say(format::sentence(error, m_look.preferences())); }

bool MainWindow::openFile(const QString& path) {
  const Result<Done> opened = m_store.open(path);
  if (!opened.has_value()) return refuse(opened.error()), false;
  store::Settings().addRecentFile(path);
  fillRecent();
  if (const auto& because = m_store.readOnlyBecause()) {
    m_bench->say(
        because->code == ErrorCode::FileHeld
            ? format::sentence(*because, m_look.preferences())
            : tr("This project was written by a newer version of the program. Its file stays as it is; look and "
                 "try, and save under another name."));
  }
  return true;
}

bool MainWindow::openSample(const QString& path) {
  const Result<std::string> bytes = io::readFile(path.toStdString());
  if (!bytes.has_value()) return refuse(bytes.error()), false;
  Result<io::ReadDocument> read = io::readDocument(*bytes);
  if (!read.has_value()) return refuse(read.error()), false;
  m_store.reset(read->document);
  return true;
}

bool MainWindow::saveTo(const QString& path) {
  const Result<Done> saved = m_store.save(path);
  if (!saved.has_value()) return refuse(saved.error()), false;
  store::Settings().addRecentFile(path);
  fillRecent();
  return true;
}

bool MainWindow::save() { return m_store.filePath().isEmpty() ? saveAs() : saveTo(m_store.filePath()); }

bool MainWindow::saveAs() {
  QString path = QFileDialog::getSaveFileName(this, tr("Save the project"), m_store.filePath(), projectFilter());
  if (path.isEmpty()) return false;
  if (QFileInfo(path).suffix().isEmpty()) path += QStringLiteral(".sunspool");
  return saveTo(path);
}

bool MainWindow::writeLists(const QString& folder) {
  m_store.waitUntilSettled();
  const auto results = m_store.results();
  if (!results->layout.has_value()) return refuse(results->layout.error()), false;
  const auto files =
      render::listSheets(m_store.document(), *m_store.results(), render::Paper::A4, m_look.preferences());
  if (!files.has_value()) return refuse(files.error()), false;
  for (const render::SheetFile& file : *files) {
    const Result<Done> written =
        io::replaceFile(QDir(folder).filePath(QString::fromStdString(file.name)).toStdString(), file.bytes);
    if (!written.has_value()) return refuse(written.error()), false;
  }
  m_bench->say(tr("Four files written: cut list and material list, as PDF and as CSV."));
  return true;
}

bool MainWindow::mayClose() {
  if (!m_store.isModified()) return true;
  QMessageBox box(QMessageBox::NoIcon, tr("Keep the changes?"), tr("This project has changes that are not saved."),
                  QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, this);
  box.setObjectName(QStringLiteral("keepChanges"));
  switch (box.exec()) {
    case QMessageBox::Save:
      return save();
    case QMessageBox::Discard:
      return true;
    default:
      return false;
  }
}

/// Fields would take Ctrl+K and Ctrl+L for keys of their own.
bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride) {
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->modifiers() == Qt::ControlModifier && (key->key() == Qt::Key_K || key->key() == Qt::Key_L)) {
      event->ignore();
      return true;
    }
  }
  return QMainWindow::eventFilter(watched, event);
}

void MainWindow::closeEvent(QCloseEvent* event) {
  if (mayClose()) {
    event->accept();
  } else {
    event->ignore();
  }
}

}  // namespace sunspool::desktop
