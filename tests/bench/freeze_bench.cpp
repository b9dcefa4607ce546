// SPDX-License-Identifier: GPL-3.0-or-later

// Does the window ever freeze? A whole editing script runs in the event loop of the real window while a timer watches
// it; the longest time in which the loop did not turn is kept, with the deed that caused it.

#include <QAction>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QStandardPaths>
#include <QTimer>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "app/desktop/main_window.h"
#include "app/panelview/handle_mark.h"
#include "app/render/style.h"
#include "core/model/edits.h"
#include "tests/bench/bench.h"
#include "tests/bench/window_bench.h"

namespace {

using namespace sunspool;
using Clock = std::chrono::steady_clock;

struct Deed {
  std::string name;
  std::function<void()> does;
  int pause_ms = 4;
};

/// The window, a script, and the timer that watches.
class Watched {
 public:
  Watched() : m_store(desktop::panelAtNoon()), m_window(m_store, m_hub, m_look) {
    render::Style::install(m_look);
    m_window.begin();
    m_window.resize(1280, 800);
    m_window.show();
    m_store.waitUntilSettled();
    for (int n = 0; n < 10; ++n) QCoreApplication::processEvents();
    m_watch.setTimerType(Qt::PreciseTimer);
    m_watch.setInterval(1);
    QObject::connect(&m_watch, &QTimer::timeout, &m_watch, [this] { tick(); });
  }

  void run(int rounds) {
    write(rounds);
    m_last = Clock::now();
    m_lastProcessor = bench::threadTime_ms();
    m_watch.start();
    next();
    m_loop.exec();
    m_watch.stop();
  }
  double mostProcessor_ms() const { return m_mostProcessor_ms; }
  const std::string& dearestDeed() const { return m_dearestDeed; }
  double worst_ms() const { return m_worst_ms; }
  const std::string& worstDeed() const { return m_worstDeed; }
  const std::vector<double>& gaps() const { return m_gaps; }
  std::size_t deeds() const { return m_script.size(); }

 private:
  void tick() {
    const double gap = bench::millisecondsSince(m_last);
    const double processor = bench::threadTime_ms();
    const double spent = processor - m_lastProcessor;
    m_last = Clock::now();
    m_lastProcessor = processor;
    m_gaps.push_back(gap);
    if (spent > m_mostProcessor_ms) {
      m_mostProcessor_ms = spent;
      m_dearestDeed = m_doing;
    }
    if (gap <= m_worst_ms) return;
    m_worst_ms = gap;
    m_worstDeed = m_doing;
  }
  void next() {
    if (m_at >= m_script.size()) return m_loop.quit();
    const Deed& deed = m_script[m_at++];
    m_doing = deed.name;
    deed.does();
    QTimer::singleShot(deed.pause_ms, &m_watch, [this] { next(); });
  }
  void add(std::string name, std::function<void()> does, int pause_ms = 4) {
    m_script.push_back({std::move(name), std::move(does), pause_ms});
  }
  void rest(int milliseconds) {
    for (int n = 0; n < milliseconds / 10; ++n)
      add(
          m_script.back().name + ", resting", [] {}, 10);
  }
  template <class W = QWidget>
  W* child(const QString& name) {
    return m_window.findChild<W*>(name);
  }
  void trigger(const char* action) {
    const QString name = QLatin1String(action);
    add(action, [this, name] {
      if (auto* found = m_window.findChild<QAction*>(name)) found->trigger();
    });
    rest(80);
  }
  void key(QWidget* to, int key, const QString& text = {}) {
    if (to == nullptr) return;
    QKeyEvent press(QEvent::KeyPress, key, Qt::NoModifier, text),
        release(QEvent::KeyRelease, key, Qt::NoModifier, text);
    QCoreApplication::sendEvent(to, &press);
    QCoreApplication::sendEvent(to, &release);
  }
  void type(const char* field, const char* text) {
    const QString name = QLatin1String(field);
    for (const QChar letter : QString::fromLatin1(text)) {
      add(
          std::string("typing into ") + field, [this, name, letter] { key(child(name), 0, QString(letter)); }, 8);
    }
  }
  void press(const char* widget, int pressed) {
    const QString name = QLatin1String(widget);
    add(std::string("a key on ") + widget, [this, name, pressed] { key(child(name), pressed); });
  }
  void point(QEvent::Type type, QPointF at, Qt::MouseButtons buttons) {
    QWidget* viewport = m_window.bench().panel().viewport();
    QMouseEvent event(type, at, viewport->mapToGlobal(at), type == QEvent::MouseMove ? Qt::NoButton : Qt::LeftButton,
                      buttons, Qt::NoModifier);
    QCoreApplication::sendEvent(viewport, &event);
  }
  void drag(const char* handle, int moves) {
    const QString name = QLatin1String(handle);
    const auto mark = [this, name]() -> panelview::HandleMark* {
      panelview::HandleMark* found = m_window.bench().panel().handle(name);
      return found != nullptr && found->isThere() ? found : nullptr;
    };
    add(std::string("taking ") + handle, [this, mark] {
      if (!mark()) return;
      m_start = mark()->centre();
      m_along = mark()->along();
      point(QEvent::MouseMove, m_start, Qt::NoButton);
      point(QEvent::MouseButtonPress, m_start, Qt::LeftButton);
    });
    for (int n = 0; n < moves; ++n) {
      add(std::string("pulling ") + handle,
          [this, n] { point(QEvent::MouseMove, m_start + m_along * (1.5 * std::abs(n % 24 - 12)), Qt::LeftButton); });
    }
    add(std::string("letting go ") + handle,
        [this, moves] { point(QEvent::MouseButtonRelease, m_start + m_along * (1.5 * (moves % 12)), Qt::NoButton); });
    rest(150);
  }

  void write(int rounds) {
    for (int round = 0; round < rounds; ++round) {
      type("firstMinute.line", "sheet 1.2 x 2.4 m, roll 100 m of 20/16");
      press("firstMinute.line", Qt::Key_Return);
      rest(800);
      press("proposal.1", Qt::Key_2);
      rest(300);
      drag("pitch", 60);
      drag("inner_end", 40);
      drag("inside_width", 40);
      for (const questions::Question question : questions::kQuestions) {
        add("opening a question", [this, question] { m_window.bench().openQuestion(question); });
        rest(60);
      }
      add("closing the question", [this] { m_window.bench().openQuestion(std::nullopt); });
      for (int n = 0; n < 4; ++n) trigger("view.nextFinding");
      add("closing the finding", [this] { m_window.bench().openSnag(std::nullopt); });
      trigger("edit.find");
      type("finder.line", "text larger");
      press("finder.line", Qt::Key_Escape);
      for (const char* action : {"view.toggleSide", "view.toggleSide", "day.later", "day.later", "day.earlier",
                                 "edit.undo", "edit.undo", "edit.redo", "panel.starts.1", "panel.starts.0",
                                 "panel.glazed", "panel.glazed", "view.units.1", "view.units.0", "panel.fill"})
        trigger(action);
      for (int n = 0; n < 6; ++n) {
        add(
            "sizing the window", [this, n] { m_window.resize(1280 + 60 * (n % 3), 800 + 40 * (n % 2)); }, 20);
      }
      add("the line again", [this] { m_window.begin(); });
      rest(200);
    }
  }

  render::Look m_look;
  store::Hub m_hub;
  store::DocumentStore m_store;
  desktop::MainWindow m_window;
  QTimer m_watch;
  QEventLoop m_loop;
  std::vector<Deed> m_script;
  std::size_t m_at = 0;
  std::string m_doing = "start", m_worstDeed, m_dearestDeed;
  Clock::time_point m_last;
  double m_worst_ms = 0.0, m_lastProcessor = 0.0, m_mostProcessor_ms = 0.0;
  std::vector<double> m_gaps;
  QPointF m_start, m_along;
};

const bench::Registered kFreeze("freeze", [](bench::Bench& bench) {
  bench::drawIntoMemoryWithoutDisplay();
  int count = 1;
  char name[] = "sunspool_bench";
  char* arguments[] = {name, nullptr};
  QStandardPaths::setTestModeEnabled(true);
  QApplication application(count, arguments);
  Watched watched;
  watched.run(bench.thoroughness() == bench::Thoroughness::Full ? 3 : 1);
  bench.report({"longest time the window stood still", "ms", watched.worst_ms(), watched.worst_ms(),
                bench::Target{bench::Sense::AtMost, 100.0}, watched.worstDeed()});
  bench.report({"  most processor time between two turns",
                "ms",
                watched.mostProcessor_ms(),
                watched.mostProcessor_ms(),
                {},
                watched.dearestDeed()});
  bench.times({"turns of the event loop meanwhile", "ms", 0, 0, {}, std::to_string(watched.deeds()) + " deeds"},
              watched.gaps());
});

}  // namespace
