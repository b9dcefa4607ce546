// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/main_window.h"

#include <QAbstractScrollArea>
#include <QAccessible>
#include <QAction>
#include <QDir>
#include <QMenu>
#include <QMenuBar>
#include <QSettings>
#include <QTemporaryDir>
#include <catch2/catch.hpp>
#include <cmath>
#include <memory>
#include <sstream>

#include "app/cli/cli.h"
#include "app/panelview/handle_mark.h"
#include "app/render/style.h"
#include "core/evaluate/evaluate.h"
#include "core/io/files.h"
#include "core/results/run_profile.h"
#include "tests/app/desktop/shown.h"

namespace sunspool::desktop {
namespace {

const QString kSample = QStringLiteral(SUNSPOOL_SAMPLES "/first-panel.sunspool");

/// The window, shown and settled; what it remembers goes to a folder that is gone afterwards.
struct Shown {
  QTemporaryDir folder;
  store::DocumentStore store{model::firstPanel()};
  store::Hub hub;
  render::Look look;
  std::unique_ptr<MainWindow> window;

  Shown() {
    REQUIRE(folder.isValid());
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.filePath(QStringLiteral("settings")));
    window = std::make_unique<MainWindow>(store, hub, look);
    showAndSettle(*window, {1280, 800});
    settle();
  }
  void settle() {
    store.waitUntilSettled();
    QApplication::processEvents();
  }
  std::string bytes() const { return io::writeDocument(store.document()); }
  QString said() { return saidBy(*window); }
  QString path(const char* name) const { return folder.filePath(QLatin1String(name)); }
  QString fileOf(const char* name, const std::string& text) const {
    REQUIRE(io::replaceFile(path(name).toStdString(), text).has_value());
    return path(name);
  }
  static std::string contentOf(const QString& path) {
    const Result<std::string> bytes = io::readFile(path.toStdString());
    REQUIRE(bytes.has_value());
    return *bytes;
  }
  QAction& action(const char* name) {
    auto* found = window->findChild<QAction*>(QLatin1String(name));
    INFO(name);
    REQUIRE(found != nullptr);
    return *found;
  }
  void choose(const char* name) {
    action(name).trigger();
    QApplication::processEvents();
  }
  QWidget& panel() { return window->bench().panel(); }
};

TEST_CASE("Every action has a name, a text and a tooltip, and no shortcut twice", "[desktop][ui]") {
  Shown shown;
  QStringList names, keys;
  int count = 0;
  for (const QAction* action : shown.window->findChildren<QAction*>()) {
    // Qt's own: separators, and the menu bar's button for menus without room.
    if (action->isSeparator() || action->parent()->objectName() == QLatin1String("qt_menubar_ext_button")) continue;
    if (action->menu() != nullptr && action->menu()->objectName().isEmpty() && action->text().isEmpty()) continue;
    INFO(action->objectName().toStdString() << " / " << action->text().toStdString());
    CHECK_FALSE(action->objectName().isEmpty());
    CHECK_FALSE(action->text().isEmpty());
    CHECK_FALSE(action->toolTip().isEmpty());
    CHECK_FALSE(names.contains(action->objectName()));
    names << action->objectName();
    for (const QKeySequence& key : action->shortcuts()) {
      CHECK_FALSE(keys.contains(key.toString()));
      keys << key.toString();
    }
    ++count;
  }
  CHECK(count > 40);
}

TEST_CASE("No two entries of one menu share their access key", "[desktop][ui][accessibility]") {
  Shown shown;
  for (const QMenu* menu : shown.window->findChildren<QMenu*>()) {
    QStringList taken;
    for (const QAction* action : menu->actions()) {
      const qsizetype at = action->text().indexOf(QLatin1Char('&'));
      if (at < 0 || at + 1 >= action->text().size()) continue;
      const QString key = action->text().mid(at + 1, 1).toLower();
      INFO(menu->objectName().toStdString() << ": " << action->text().toStdString());
      CHECK_FALSE(taken.contains(key));
      taken << key;
    }
  }
}

/// The paper of a scroll area: its frame takes the focus and speaks for it.
bool isViewport(const QObject* object) {
  const auto* area = object != nullptr ? qobject_cast<const QAbstractScrollArea*>(object->parent()) : nullptr;
  return area != nullptr && area->viewport() == object;
}

/// Everything that can take the focus and has no name; viewports and what is hidden left out.
void collectNameless(QAccessibleInterface* item, QStringList& nameless, int& focusable) {
  if (item == nullptr || !item->isValid() || item->state().invisible) return;
  if (item->state().focusable) {
    const bool skipped = isViewport(item->object());
    if (!skipped) {
      ++focusable;
      if (item->text(QAccessible::Name).isEmpty()) {
        nameless << (item->object() != nullptr ? QLatin1String(item->object()->metaObject()->className()) +
                                                     QLatin1Char(' ') + item->object()->objectName()
                                               : QStringLiteral("part of a view"));
      }
    }
  }
  for (int i = 0; i < item->childCount(); ++i) collectNameless(item->child(i), nameless, focusable);
}

TEST_CASE("Everything that takes the focus has a name for screen readers", "[desktop][ui][accessibility]") {
  Shown shown;
  const auto walk = [&](int atLeast) {
    QStringList nameless;
    int focusable = 0;
    collectNameless(QAccessible::queryAccessibleInterface(shown.window.get()), nameless, focusable);
    INFO(nameless.join(QStringLiteral(", ")).toStdString());
    CHECK(nameless.isEmpty());
    CHECK(focusable >= atLeast);
    for (const QWidget* widget : shown.window->findChildren<QWidget*>()) {
      if (!widget->isVisible() || widget->focusPolicy() == Qt::NoFocus || widget->focusProxy() != nullptr) continue;
      if (isViewport(widget)) continue;
      if (qobject_cast<const QMenuBar*>(widget) != nullptr) continue;
      INFO(widget->metaObject()->className() << ' ' << widget->objectName().toStdString());
      QAccessibleInterface* speaker = QAccessible::queryAccessibleInterface(const_cast<QWidget*>(widget));
      REQUIRE(speaker != nullptr);
      CHECK_FALSE(speaker->text(QAccessible::Name).isEmpty());
    }
  };
  walk(15);
  shown.choose("view.side.0");
  walk(12);
  for (const questions::Question question : questions::kQuestions) {
    shown.window->bench().openQuestion(question);
    QApplication::processEvents();
    walk(12);
  }
  shown.window->bench().openQuestion(std::nullopt);
  REQUIRE(shown.store.apply([](model::Document d) { return model::withBendRadius(std::move(d), millimetres(60.0)); },
                            QStringLiteral("Change the bend radius")));
  shown.settle();
  shown.window->bench().openSnag(0);
  walk(14);
}

TEST_CASE("A sample opens untitled, saves to a file and opens again byte for byte", "[desktop][ui]") {
  Shown shown;
  const std::string original = Shown::contentOf(kSample);
  shown.choose("file.sample.first-panel");
  CHECK(shown.store.filePath().isEmpty());
  CHECK_FALSE(shown.window->isWindowModified());
  CHECK(shown.bytes() == original);
  const QString path = shown.path("mine.sunspool");
  REQUIRE(shown.window->saveTo(path));
  CHECK(Shown::contentOf(path) == original);
  CHECK(shown.store.filePath() == path);
  REQUIRE(shown.window->openFile(path));
  CHECK(shown.bytes() == original);
  CHECK(Shown::contentOf(kSample) == original);
}

TEST_CASE("The title carries the star while something is not saved", "[desktop][ui]") {
  Shown shown;
  CHECK(shown.window->windowTitle().contains(QStringLiteral("[*]")));
  CHECK_FALSE(shown.window->isWindowModified());
  shown.choose("panel.starts.1");
  CHECK(shown.window->isWindowModified());
  shown.choose("edit.undo");
  CHECK_FALSE(shown.window->isWindowModified());
  shown.choose("edit.redo");
  REQUIRE(shown.window->saveTo(shown.path("two.sunspool")));
  CHECK_FALSE(shown.window->isWindowModified());
  shown.choose("edit.undo");
  CHECK(shown.window->isWindowModified());
}

TEST_CASE("Saving into a folder that is not there keeps the project open and says what to do", "[desktop][ui]") {
  Shown shown;
  shown.choose("panel.starts.1");
  const std::string before = shown.bytes();
  CHECK_FALSE(shown.window->saveTo(shown.path("nowhere/mine.sunspool")));
  CHECK(shown.bytes() == before);
  CHECK(shown.window->isWindowModified());
  CHECK(shown.store.filePath().isEmpty());
  CHECK(shown.said().contains(QStringLiteral("make the folder first")));
}

TEST_CASE("A damaged, a foreign and a missing file are answered in words, and the old project stays", "[desktop][ui]") {
  Shown shown;
  shown.choose("panel.starts.1");
  const std::string before = shown.bytes();
  const std::string good = Shown::contentOf(kSample);
  const auto refuses = [&](const QString& path, const char* words) {
    CAPTURE(words);
    CHECK_FALSE(shown.window->openFile(path));
    CHECK(shown.said().contains(QLatin1String(words)));
    CHECK(shown.said().endsWith(QLatin1Char('.')));
    CHECK_FALSE(shown.window->openSample(path));
    CHECK(shown.bytes() == before);
    CHECK(shown.window->isWindowModified());
    CHECK(shown.store.undoStack()->count() == 1);
    CHECK(shown.store.filePath().isEmpty());
  };
  refuses(shown.fileOf("cut.sunspool", good.substr(0, good.size() / 2)), "damaged at line");
  refuses(shown.fileOf("other.sunspool", "{\"format\": \"recipe\"}\n"), "not a Sunspool project");
  refuses(shown.fileOf("empty.sunspool", ""), "not a Sunspool project");
  refuses(shown.path("not-there.sunspool"), "is not there");
  refuses(shown.folder.path(), "folder");
}

TEST_CASE("A file of a newer version opens read only and is not overwritten", "[desktop][ui]") {
  Shown shown;
  std::string text = Shown::contentOf(kSample);
  const std::string version = "\"version\": 1";
  REQUIRE(text.find(version) != std::string::npos);
  text.replace(text.find(version), version.size(), "\"version\": 2");
  const QString path = shown.fileOf("newer.sunspool", text);
  REQUIRE(shown.window->openFile(path));
  CHECK(shown.store.isReadOnly());
  CHECK(shown.said().contains(QStringLiteral("newer version")));
  CHECK(shown.window->windowTitle().contains(QStringLiteral("read only")));
  shown.choose("panel.starts.1");
  shown.choose("file.save");
  CHECK(shown.said().contains(QStringLiteral("newer version")));
  CHECK(Shown::contentOf(path) == text);
  CHECK(shown.window->isWindowModified());
  REQUIRE(shown.window->saveTo(shown.path("copy.sunspool")));
  CHECK_FALSE(shown.window->windowTitle().contains(QStringLiteral("read only")));
  CHECK(Shown::contentOf(path) == text);
}

TEST_CASE("A sentence said before the window is shown can be read when it is", "[desktop][ui]") {
  store::DocumentStore store{model::firstPanel()};
  store::Hub hub;
  render::Look look;
  MainWindow window(store, hub, look);
  CHECK_FALSE(window.openFile(QStringLiteral("/not/there.sunspool")));
  showAndSettle(window, {1280, 800});
  const auto* said = window.findChild<QWidget*>(QStringLiteral("said"));
  REQUIRE(said != nullptr);
  CHECK(said->isVisible());
  CHECK(window.bench().panel().geometry().contains(said->geometry()));
}

TEST_CASE("The lists of the window are the terminal's, byte for byte", "[desktop][ui]") {
  Shown shown;
  REQUIRE(shown.window->openFile(kSample));
  REQUIRE(QDir(shown.folder.path()).mkpath(QStringLiteral("window")));
  REQUIRE(QDir(shown.folder.path()).mkpath(QStringLiteral("terminal")));
  REQUIRE(shown.window->writeLists(shown.path("window")));
  CHECK(shown.said().startsWith(QStringLiteral("Four files written")));
  std::ostringstream out, err;
  REQUIRE(cli::run({"sheets", kSample.toStdString(), "--out", shown.path("terminal").toStdString()}, out, err) ==
          cli::kFine);
  for (const char* name : {"cut-list.pdf", "cut-list.csv", "material-list.pdf", "material-list.csv"}) {
    CAPTURE(name);
    const std::string ours = Shown::contentOf(shown.path("window/") + QLatin1String(name));
    CHECK(ours.size() > 100);
    CHECK(ours == Shown::contentOf(shown.path("terminal/") + QLatin1String(name)));
  }
  CHECK(QDir(shown.path("window")).entryList(QDir::Files | QDir::Hidden).size() == 4);
}

TEST_CASE("Lists that cannot be written are answered in a sentence", "[desktop][ui]") {
  Shown shown;
  CHECK_FALSE(shown.window->writeLists(shown.path("nowhere")));
  CHECK(shown.said().contains(QStringLiteral("folder")));
}

TEST_CASE("Undo and redo of a long mixed script return the same bytes at every step", "[desktop][ui][property]") {
  Shown shown;
  std::vector<std::string> states{shown.bytes()};
  const auto step = [&](const char* what) {
    INFO(what);
    QApplication::processEvents();
    CHECK(shown.bytes() != states.back());
    states.push_back(shown.bytes());
    CHECK(static_cast<std::size_t>(shown.store.undoStack()->count()) + 1 == states.size());
    CHECK_FALSE(shown.store.undoStack()->undoText().isEmpty());
  };
  for (const char* name : {"panel.starts.1", "panel.innerEnd.1", "panel.corners.1", "panel.startCorner.2",
                           "panel.glazed", "day.month.2", "day.later", "panel.recipe.1", "panel.recipe.0"}) {
    shown.choose(name);
    step(name);
  }
  charts::DesignCurve& curve = shown.window->bench().curves().curve(0);
  QTest::keyClick(&curve, Qt::Key_Right);
  QTest::keyClick(&curve, Qt::Key_Right);
  step("pitch, by arrow keys");
  shown.settle();
  shown.window->bench().openQuestion(questions::Question::Flows);
  auto* sheet = shown.window->findChild<questions::QuestionView*>(QStringLiteral("questionSheet"));
  widgets::QuantityEdit* field = sheet->field(QStringLiteral("inside diameter of the tube"));
  REQUIRE(field != nullptr);
  field->editNow();
  QTest::keyClicks(field->focusProxy(), QStringLiteral("15"));
  QTest::keyClick(field->focusProxy(), Qt::Key_Return);
  step("bore, typed");
  shown.window->bench().openQuestion(std::nullopt);
  for (int round = 0; round < 2; ++round) {
    for (std::size_t i = states.size() - 1; i-- > 0;) {
      shown.choose("edit.undo");
      REQUIRE(shown.bytes() == states[i]);
    }
    CHECK_FALSE(shown.action("edit.undo").isEnabled());
    CHECK_FALSE(shown.window->isWindowModified());
    for (std::size_t i = 1; i < states.size(); ++i) {
      shown.choose("edit.redo");
      REQUIRE(shown.bytes() == states[i]);
    }
    CHECK_FALSE(shown.action("edit.redo").isEnabled());
  }
}

TEST_CASE("A refused edit changes nothing and is answered in a sentence", "[desktop][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  const auto negative = [](model::Document d) { return model::withMargin(std::move(d), millimetres(-5.0)); };
  const Result<model::Document> refused = negative(model::firstPanel());
  REQUIRE_FALSE(refused.has_value());
  CHECK_FALSE(shown.store.apply(negative, QStringLiteral("Change margin")));
  CHECK(shown.said() == format::sentence(refused.error(), {}));
  CHECK(shown.bytes() == before);
  CHECK(shown.store.undoStack()->count() == 0);
}

/// The keyboard's way to the pitch of the panel.
void typePitch(Shown& shown, const char* text) {
  auto& panel = shown.window->bench().panel();
  panel.setFocus();
  for (int i = 0; i < 30; ++i) {
    const auto* focused = panel.focusedHandle();
    if (focused != nullptr && focused->gesture().key() == QLatin1String("pitch")) break;
    QTest::keyClick(&panel, Qt::Key_Tab);
  }
  REQUIRE(panel.focusedHandle() != nullptr);
  REQUIRE(panel.focusedHandle()->gesture().key() == QLatin1String("pitch"));
  QTest::keyClicks(&panel, QLatin1String(text));
  QTest::keyClick(&panel, Qt::Key_Return);
  QApplication::processEvents();
}

TEST_CASE("A pitch below nothing, typed on the panel, is refused in a sentence", "[desktop][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  typePitch(shown, "-5");
  CHECK(shown.said().endsWith(QLatin1Char('.')));
  CHECK(shown.bytes() == before);
  CHECK(shown.store.undoStack()->count() == 0);
}

TEST_CASE("A pitch below the diameter, typed on the panel, is answered in words and one undo takes it back",
          "[desktop][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  typePitch(shown, "12");
  if (shown.bytes() != before) {  // taken as typed: then everything says why it cannot be laid
    CHECK(shown.store.undoStack()->count() == 1);
    REQUIRE_FALSE(shown.store.results()->layout.has_value());
    const QString why = format::sentence(shown.store.results()->layout.error(), {});
    CHECK(why.contains(QStringLiteral("pitch")));
    const questions::Answer& fits = shown.window->bench().shelf().piece(questions::Question::Fits)->answer();
    CHECK(fits.answer == QStringLiteral("Cannot be laid"));
    CHECK(fits.second == why);
    CHECK(shown.window->bench().tape().refusal() == why);
    shown.choose("edit.undo");
  } else {
    CHECK_FALSE(shown.said().isEmpty());
  }
  CHECK(shown.bytes() == before);
}

TEST_CASE("The bead typed to 20 m stands on the centre line and the Tape reads what core knows", "[desktop][ui]") {
  Shown shown;
  shown.panel().setFocus();
  QTest::keyClicks(&shown.panel(), QStringLiteral("20.00"));
  QTest::keyClick(&shown.panel(), Qt::Key_Return);
  QApplication::processEvents();
  auto& bench = shown.window->bench();
  CHECK(shown.hub.station_m() == 20.0);
  bench.panel().grab();
  const QPointF off = bench.panel().beadCentre() - bench.panel().widgetPointAt(0, 20.0);
  CHECK(std::hypot(off.x(), off.y()) <= 1.0);
  CHECK(bench.tape().station_m() == 20.0);
  const results::Results known = evaluate::evaluate(model::firstPanel(), {});
  const results::RunProfile::Point point = results::at(known.profiles.at(0), 20.0);
  CHECK(bench.tape().reading(tape::Strip::Water) ==
        format::number(Temperature::fromKelvin(point.water_K), {}).joined());
  const QString gauge = format::number(pascals(point.gauge_Pa), {}).joined();
  CHECK(bench.tape().reading(tape::Strip::WaterLine) == (point.gauge_Pa > 0.0 ? QLatin1Char('+') + gauge : gauge));
}

TEST_CASE("Paper, units and size of text change at run time, in every combination", "[desktop][ui]") {
  Shown shown;
  render::Style::install(shown.look);
  const std::string before = shown.bytes();
  const auto picture = [&] { return shown.window->grab().toImage(); };
  shown.choose("view.theme.1");
  QImage last = picture();
  for (const char* theme : {"view.theme.2", "view.theme.3", "view.theme.4", "view.theme.1"}) {
    CAPTURE(theme);
    shown.choose(theme);
    CHECK(shown.action(theme).isChecked());
    const QImage now = picture();
    CHECK(now != last);
    last = now;
  }
  for (const char* units : {"view.units.1", "view.units.0"}) {
    CAPTURE(units);
    shown.choose(units);
    CHECK(shown.action(units).isChecked());
    const QImage now = picture();
    CHECK(now != last);
    last = now;
  }
  for (int i = 0; i < 22; ++i) shown.choose("view.larger");
  CHECK(shown.look.tokens().textScale == 3.0);
  CHECK(picture() != last);
  for (const questions::Question question : questions::kQuestions) {
    shown.window->bench().openQuestion(question);
    CHECK_FALSE(picture().isNull());
  }
  shown.window->bench().openQuestion(std::nullopt);
  shown.choose("view.toggleSide");
  CHECK_FALSE(picture().isNull());
  for (int i = 0; i < 22; ++i) shown.choose("view.smaller");
  CHECK(shown.look.tokens().textScale == 1.0);
  CHECK(shown.bytes() == before);  // how it looks is no part of the design
  CHECK_FALSE(shown.window->isWindowModified());
}

TEST_CASE("The window remembers paper, units and size of text", "[desktop][ui]") {
  Shown shown;
  shown.choose("view.theme.2");
  shown.choose("view.units.1");
  shown.choose("view.larger");
  const store::Settings settings;
  CHECK(settings.theme() == store::ThemeChoice::Dark);
  CHECK(settings.units() == format::UnitSystem::UsCustomary);
  CHECK_THAT(settings.textScale(), Catch::WithinAbs(1.1, 1e-9));
}

TEST_CASE("The page at the left turns between the day and the curves", "[desktop][ui]") {
  Shown shown;
  CHECK(shown.window->bench().sideView() == SideView::DesignCurves);
  CHECK(shown.action("view.side.1").isChecked());
  shown.choose("view.toggleSide");
  CHECK(shown.window->bench().sideView() == SideView::DayPage);
  CHECK(shown.action("view.side.0").isChecked());
  CHECK_FALSE(shown.window->bench().curves().isVisible());
}

TEST_CASE("Plug, sky and months are in the menu of the day and turn to its page", "[desktop][ui]") {
  Shown shown;
  Bench& bench = shown.window->bench();
  bench.setSideView(SideView::DesignCurves);
  shown.action("day.plug").trigger();
  CHECK(shown.hub.isPlugPulled());
  CHECK(shown.action("day.plug").isChecked());
  CHECK(bench.sideView() == SideView::DayPage);
  CHECK(bench.dayPage().view() == daypage::DayPage::View::PlugOut);
  QTest::keyClick(shown.window.get(), Qt::Key_P, Qt::ShiftModifier);
  CHECK_FALSE(shown.hub.isPlugPulled());
  CHECK_FALSE(shown.action("day.plug").isChecked());
  bench.setSideView(SideView::DesignCurves);
  shown.action("day.months").trigger();
  CHECK(bench.sideView() == SideView::DayPage);
  CHECK(bench.dayPage().view() == daypage::DayPage::View::Months);
  shown.action("day.months").trigger();
  CHECK(bench.dayPage().view() == daypage::DayPage::View::Hours);
  const std::string before = shown.bytes();
  shown.action("day.sky.1").trigger();
  CHECK(shown.store.document().conditions.sky == model::SkyKind::Dull);
  CHECK(shown.store.undoStack()->count() == 1);
  shown.store.undoStack()->undo();
  CHECK(shown.bytes() == before);
}

TEST_CASE("Here and now are said in a sentence", "[desktop][ui]") {
  Shown shown;
  shown.hub.setHere(0, 23.4);
  shown.choose("view.say");
  CHECK(shown.said() == shown.window->bench().panel().hereAndNow());
  CHECK(shown.said().contains(QStringLiteral("23.4")));
}

TEST_CASE("The check marks of the menus follow the document", "[desktop][ui]") {
  Shown shown;
  CHECK(shown.action("panel.starts.0").isChecked());
  CHECK(shown.action("panel.glazed").isChecked());
  REQUIRE(shown.store.apply([](model::Document d) { return model::withStarts(std::move(d), 4); },
                            QStringLiteral("Change the runs")));
  CHECK(shown.action("panel.starts.2").isChecked());
  shown.choose("panel.glazed");
  CHECK_FALSE(shown.store.document().box.glazing.has_value());
  CHECK_FALSE(shown.action("panel.glazed").isChecked());
  shown.choose("panel.glazed");
  CHECK(shown.store.document().box.glazing.has_value());
  shown.choose("day.month.11");
  CHECK(shown.store.document().moment.month == 12);
  shown.choose("day.noon");
  CHECK_THAT(shown.store.document().moment.clock_h,
             Catch::WithinAbs(shown.store.results()->sun->day.noon_h, 1.0 / 60.0));
}

TEST_CASE("The hour goes round midnight by the menu and stays within the day", "[desktop][ui]") {
  Shown shown;
  model::Document late = model::firstPanel();
  late.moment.clock_h = 23.0;
  shown.store.reset(late);
  for (int i = 0; i < 8; ++i) {
    shown.choose("day.later");
    const double clock = shown.store.document().moment.clock_h;
    REQUIRE(clock >= 0.0);
    REQUIRE(clock < 24.0);
  }
  CHECK_THAT(shown.store.document().moment.clock_h, Catch::WithinAbs(1.0, 1e-9));
  CHECK(shown.store.undoStack()->count() == 1);
}

TEST_CASE("The Shed opens by key, menu and pull, the panel moves over, and Escape closes it", "[desktop][ui][shed]") {
  Shown shown;
  Bench& bench = shown.window->bench();
  const int wide = shown.panel().width();
  QTest::keyClick(&shown.panel(), Qt::Key_F9);
  QTest::qWait(250);
  REQUIRE(bench.isShedOpen());
  CHECK(bench.shed().isVisible());
  CHECK(shown.panel().width() == wide - bench.shed().width());
  CHECK(bench.shed().geometry().right() == bench.width() - 1);
  CHECK(bench.shed().geometry().bottom() == bench.tape().geometry().top() - 1);
  CHECK(shown.action("panel.shed").isChecked());
  QTest::keyClick(&bench.shed(), Qt::Key_Escape);
  CHECK_FALSE(bench.isShedOpen());
  CHECK(shown.panel().width() == wide);
  CHECK(shown.panel().hasFocus());
  shown.choose("panel.design");
  CHECK(bench.isShedOpen());
  CHECK(bench.shed().page() == shed::Shed::Page::Design);
  auto* pull = shown.window->findChild<QWidget*>(QStringLiteral("shed.pull"));
  REQUIRE(pull != nullptr);
  QTest::mouseClick(pull, Qt::LeftButton);
  CHECK_FALSE(bench.isShedOpen());
}

TEST_CASE("Keep as before says signed differences on the shelf until it is forgotten", "[desktop][ui]") {
  Shown shown;
  const std::string before = shown.bytes();
  CHECK_FALSE(shown.action("edit.forgetBefore").isEnabled());
  QTest::keyClick(shown.window.get(), Qt::Key_B, Qt::ControlModifier);
  QApplication::processEvents();
  REQUIRE(shown.store.before().has_value());
  CHECK(shown.action("edit.forgetBefore").isEnabled());
  CHECK_FALSE(shown.said().isEmpty());
  const auto second = [&] {
    return shown.window->bench().shelf().piece(questions::Question::EnoughStock)->answer().second;
  };
  CHECK(second() == QStringLiteral("as before"));
  shown.store.apply([](model::Document d) { return model::withPitch(std::move(d), millimetres(31)); },
                    QStringLiteral("Widen the pitch"));
  shown.settle();
  CHECK(second().startsWith(QLatin1Char('+')));
  CHECK(second().endsWith(QStringLiteral("against before")));
  shown.store.undoStack()->undo();
  CHECK(shown.bytes() == before);  // what is kept is no part of the design
  shown.settle();
  CHECK(second() == QStringLiteral("as before"));
  shown.choose("edit.forgetBefore");
  CHECK_FALSE(shown.store.before().has_value());
  CHECK_FALSE(second().contains(QStringLiteral("before")));
}

}  // namespace
}  // namespace sunspool::desktop
