// SPDX-License-Identifier: GPL-3.0-or-later

// From a move of the hand to the new picture: the real window with the design curves open, the pitch of a large panel
// pulled to and fro. One move is the edit, the layout, every view's answer to it, late answers that arrive meanwhile,
// and the painting of all that became stale; moves follow each other without rest.

#include <QMouseEvent>
#include <QStandardPaths>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "app/desktop/main_window.h"
#include "app/panelview/handle_mark.h"
#include "app/render/style.h"
#include "core/evaluate/evaluate.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"
#include "tests/bench/bench.h"
#include "tests/bench/window_bench.h"

namespace {

using namespace sunspool;
using bench::Bench;
using bench::Measurement;
using bench::Sense;
using bench::Target;
using Clock = std::chrono::steady_clock;

constexpr double kPitch_m = 0.026;

double tubeLength_m(const model::Document& document) {
  return evaluate::evaluate(document, {.depth = evaluate::Depth::Layout, .ranges = false}).tubeLength.value.si();
}

/// The first panel made larger until one run of about this length lies in it.
model::Document panelOf(double length_m) {
  const model::Document first = *model::withPitch(model::firstPanel(), metres(kPitch_m));
  model::Document best = first;
  double nearest = INFINITY;
  for (double scale = 0.6; scale < 4.0; scale += 0.005) {
    const auto sized = model::withInsideSize(first, scale * first.frame.insideWidth, scale * first.frame.insideHeight);
    if (!sized) continue;
    const auto filled = model::withQuarterTurns(*sized, std::nullopt);
    if (!filled) continue;
    const double excess = tubeLength_m(*filled) - length_m;
    if (std::abs(excess) < nearest) {
      nearest = std::abs(excess);
      best = *filled;
    }
    if (excess > 0.2 * length_m) break;
  }
  return best;
}

/// Where the time of one move went.
struct Move {
  double whole_ms = 0.0, processor_ms = 0.0;                             ///< the second: of the window's thread alone
  double edit_ms = 0.0;                                                  ///< edit, layout and what the views do at once
  double panel_ms = 0.0, tape_ms = 0.0, curves_ms = 0.0, rest_ms = 0.0;  ///< painting
};

/// The window with a design, settled and painted.
class Workplace {
 public:
  Workplace(bench::WatchedApplication& application, const model::Document& document, QSize size)
      : m_application(application), m_store(document), m_window(m_store, m_hub, m_look) {
    render::Style::install(m_look);
    m_window.bench().setSideView(desktop::SideView::DesignCurves);
    m_window.resize(size);
    m_window.show();
    m_store.waitUntilSettled();
    for (int n = 0; n < 10; ++n) QCoreApplication::processEvents();
    application.painted = [this](QObject* widget, double ms) { count(widget, ms); };
  }
  ~Workplace() { m_application.painted = {}; }
  Workplace(const Workplace&) = delete;
  Workplace& operator=(const Workplace&) = delete;

  /// Pulls the pitch to and fro; no two moves in a row show the same design.
  std::vector<Move> drag(int moves) {
    std::vector<Move> all;
    for (int n = -3; n < moves; ++n) {
      const double pitch_m = kPitch_m + 1e-4 * std::abs((n + 3) % 30 - 15);
      const Move move = moved(
          [&] { m_store.preview([&](model::Document d) { return model::withPitch(std::move(d), metres(pitch_m)); }); });
      if (n >= 0) all.push_back(move);  // the first ones fill caches
    }
    m_store.cancelPreview();
    QCoreApplication::processEvents();
    return all;
  }

  /// The same with the pointer on the pitch handle: hit tests, the gesture, slip and hint come on top.
  std::vector<Move> dragByHandle(int moves) {
    panelview::HandleMark* handle = m_window.bench().panel().handle(QStringLiteral("pitch"));
    if (handle == nullptr || !handle->isThere()) return {};
    const QPointF start = handle->centre();
    const QPointF along = handle->along();
    point(QEvent::MouseMove, start, Qt::NoButton);
    point(QEvent::MouseButtonPress, start, Qt::LeftButton);
    std::vector<Move> all;
    for (int n = -3; n < moves; ++n) {
      const double pulled_px = 2.0 * std::abs((n + 3) % 30 - 15);
      const Move move = moved([&] { point(QEvent::MouseMove, start + along * pulled_px, Qt::LeftButton); });
      if (n >= 0) all.push_back(move);
    }
    QKeyEvent escape(QEvent::KeyPress, Qt::Key_Escape, Qt::NoModifier);
    QCoreApplication::sendEvent(&m_window.bench().panel(), &escape);
    point(QEvent::MouseButtonRelease, start, Qt::LeftButton);
    m_store.cancelPreview();
    QCoreApplication::processEvents();
    return all;
  }

 private:
  template <class Act>
  Move moved(const Act& act) {
    m_now = {};
    const double processor = bench::threadTime_ms();
    const auto start = Clock::now();
    act();
    m_now.edit_ms = bench::threadTime_ms() - processor;
    QCoreApplication::processEvents();
    m_now.whole_ms = bench::millisecondsSince(start);
    m_now.processor_ms = bench::threadTime_ms() - processor;
    return m_now;
  }
  void point(QEvent::Type type, QPointF at, Qt::MouseButton button) {
    QWidget* viewport = m_window.bench().panel().viewport();
    QMouseEvent event(type, at, viewport->mapToGlobal(at), type == QEvent::MouseMove ? Qt::NoButton : button,
                      type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::MouseButtons(button), Qt::NoModifier);
    QCoreApplication::sendEvent(viewport, &event);
  }
  void count(QObject* widget, double ms) {
    desktop::Bench& all = m_window.bench();
    for (const QObject* part = widget; part != nullptr; part = part->parent()) {
      if (part == &all.panel()) return void(m_now.panel_ms += ms);
      if (part == &all.tape()) return void(m_now.tape_ms += ms);
      if (part == &all.curves()) return void(m_now.curves_ms += ms);
    }
    m_now.rest_ms += ms;
  }

  bench::WatchedApplication& m_application;
  render::Look m_look;
  store::Hub m_hub;
  store::DocumentStore m_store;
  desktop::MainWindow m_window;
  Move m_now;
};

std::vector<double> part(const std::vector<Move>& moves, double Move::*which) {
  std::vector<double> times;
  for (const Move& move : moves) times.push_back(move.*which);
  return times;
}

void reportParts(Bench& bench, const std::vector<Move>& moves) {
  bench.times({"  processor time of the window's thread", "ms", 0, 0, {}, "so are the parts"},
              part(moves, &Move::processor_ms));
  bench.times({"  edit, layout, models", "ms", 0, 0, {}, "before painting"}, part(moves, &Move::edit_ms));
  bench.times({"  painting the panel", "ms", 0, 0, {}, ""}, part(moves, &Move::panel_ms));
  bench.times({"  painting the Tape", "ms", 0, 0, {}, ""}, part(moves, &Move::tape_ms));
  bench.times({"  painting the design curves", "ms", 0, 0, {}, ""}, part(moves, &Move::curves_ms));
  bench.times({"  painting the rest", "ms", 0, 0, {}, ""}, part(moves, &Move::rest_ms));
}

void dragFrames(Bench& bench, bench::WatchedApplication& application) {
  const bool full = bench.thoroughness() == bench::Thoroughness::Full;
  const int moves = full ? 300 : 10;
  const model::Document document = panelOf(200.0);
  char note[128];
  std::snprintf(note, sizeof note, "%.1f m in %.2f x %.2f m", tubeLength_m(document), document.frame.insideWidth.si(),
                document.frame.insideHeight.si());
  const Target target{Sense::AtMost, 16.0};
  struct Size {
    QSize size;
    const char* name;
    std::optional<Target> target;
  };
  for (const Size& size : {Size{{1280, 800}, "1280x800", target}, Size{{1920, 1080}, "1920x1080", target},
                           Size{{3840, 2160}, "3840x2160", {}}}) {
    if (!full && !size.target) continue;
    Workplace place(application, document, size.size);
    const auto dragged = place.drag(moves);
    bench.times({std::string("move to picture, ") + size.name, "ms", 0, 0, size.target, note},
                part(dragged, &Move::whole_ms));
    reportParts(bench, dragged);
    const auto byHandle = place.dragByHandle(moves);
    if (byHandle.empty()) continue;
    bench.times({std::string("pointer on the pitch handle, ") + size.name, "ms", 0, 0, size.target,
                 "pointer events; some moves keep the design"},
                part(byHandle, &Move::whole_ms));
  }
}

void dragAgainstSize(Bench& bench, bench::WatchedApplication& application) {
  const int moves = bench.thoroughness() == bench::Thoroughness::Full ? 120 : 4;
  std::vector<double> lengths, costs;
  for (const double length_m : {50.0, 100.0, 200.0, 400.0}) {
    const model::Document document = panelOf(length_m);
    Workplace place(application, document, {1280, 800});
    char name[64];
    std::snprintf(name, sizeof name, "move to picture, %.0f m", tubeLength_m(document));
    lengths.push_back(tubeLength_m(document));
    const auto dragged = place.drag(moves);
    costs.push_back(
        bench.times({name, "ms", 0, 0, {}, "1280x800, processor time"}, part(dragged, &Move::processor_ms)).median);
  }
  const double exponent = bench::fittedExponent(lengths, costs);
  bench.report({"growth of a move with length", "power", exponent, exponent, {}, "50 to 400 m"});
}

const bench::Registered kWindow("window", [](Bench& bench) {
  bench::drawIntoMemoryWithoutDisplay();
  int count = 1;
  char name[] = "sunspool_bench";
  char* arguments[] = {name, nullptr};
  QStandardPaths::setTestModeEnabled(true);
  bench::WatchedApplication application(count, arguments);
  dragFrames(bench, application);
  dragAgainstSize(bench, application);
});

}  // namespace
