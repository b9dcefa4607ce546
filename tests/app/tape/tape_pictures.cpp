// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of the Tape in its themes and sizes, to be looked at: tape_pictures FOLDER [ms]

#include <QApplication>
#include <QDir>
#include <QImage>
#include <QKeyEvent>
#include <cstdio>
#include <ctime>

#include "app/tape/tape.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace {

using namespace sunspool;

struct Picture {
  const char* name;
  render::Theme theme;
  QSize size;
  int side;
  double station_m;
  double textScale;
  format::UnitSystem units;
};

void take(store::DocumentStore& store, const Picture& picture, const QString& folder, const char* prefix) {
  store::Hub hub;
  render::Look look;
  look.setTheme(picture.theme);
  look.setTextScale(picture.textScale);
  look.setPreferences({picture.units});
  tape::Tape tape(store, hub, look);
  tape.setSideWidth(picture.side);
  tape.resize(picture.size);
  hub.setHere(0, picture.station_m);
  const QString name = QStringLiteral("%1/%2-%3.png").arg(folder, QLatin1String(prefix), QLatin1String(picture.name));
  tape.grab().save(name);
}

/// Focused, with a metre half typed, or refused.
void takeTyped(store::DocumentStore& store, const QString& keys, const QString& file) {
  store::Hub hub;
  render::Look look;
  tape::Tape tape(store, hub, look);
  tape.resize(1920, 318);
  tape.show();
  tape.activateWindow();
  tape.setFocus();
  QApplication::processEvents();
  hub.setHere(0, 23.4);
  for (const QChar c : keys) {
    QKeyEvent press(QEvent::KeyPress, c == QLatin1Char('\n') ? Qt::Key_Return : Qt::Key_unknown, Qt::NoModifier,
                    c == QLatin1Char('\n') ? QString() : QString(c));
    QApplication::sendEvent(&tape, &press);
  }
  tape.grab().save(file);
}

void measure(store::DocumentStore& store) {
  store::Hub hub;
  render::Look look;
  tape::Tape tape(store, hub, look);
  tape.resize(1920, 318);
  QImage image(1920, 318, QImage::Format_RGB32);
  tape.render(&image);
  // Time of the processor, not of the clock on the wall: other work may run beside.
  constexpr int kRounds = 50;
  const auto taken = [](auto&& round) {
    const std::clock_t from = std::clock();
    for (int i = 0; i < kRounds; ++i) round(i);
    return 1e3 * static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC / kRounds;
  };
  const double whole = taken([&](int i) {
    tape.setSideWidth(372 + i % 2);
    tape.render(&image);
  });
  const double bead = taken([&](int i) {
    hub.setHere(0, 0.1 * i);
    tape.render(&image);
  });
  std::printf("tube %.1f m: whole Tape %.2f ms, bead alone %.2f ms\n", tape.end_m(), whole, bead);
}

}  // namespace

int main(int count, char** words) {
  qputenv("QT_SCALE_FACTOR", "1");
  qputenv("QT_FONT_DPI", "96");
  QApplication application(count, words);
  const QString folder = QString::fromLocal8Bit(count > 1 ? words[1] : ".");
  QDir().mkpath(folder);
  using format::UnitSystem;
  using render::Theme;
  const Picture pictures[] = {
      {"light-1920", Theme::Light, {1920, 318}, 372, 23.4, 1.0, UnitSystem::Metric},
      {"dark-1920", Theme::Dark, {1920, 318}, 372, 68.0, 1.0, UnitSystem::Metric},
      {"light-1280", Theme::Light, {1280, 262}, 286, 23.4, 1.0, UnitSystem::Metric},
      {"dark-1280", Theme::Dark, {1280, 262}, 286, 1.0, 1.0, UnitSystem::Metric},
      {"white-1920", Theme::ContrastOnWhite, {1920, 318}, 372, 40.0, 1.0, UnitSystem::Metric},
      {"black-1280", Theme::ContrastOnBlack, {1280, 262}, 286, 40.0, 1.0, UnitSystem::Metric},
      {"us-1920", Theme::Light, {1920, 318}, 372, 23.4, 1.0, UnitSystem::UsCustomary},
      {"text150-1920", Theme::Light, {1920, 420}, 500, 23.4, 1.5, UnitSystem::Metric},
      {"text200-1920", Theme::Light, {1920, 318}, 372, 23.4, 2.0, UnitSystem::Metric},
      {"text300-1280", Theme::Light, {1280, 96}, 286, 23.4, 3.0, UnitSystem::Metric},
  };
  store::DocumentStore store(model::firstPanel());
  store.waitUntilSettled();
  for (const Picture& picture : pictures) take(store, picture, folder, "first");
  takeTyped(store, QStringLiteral("41.5"), folder + QStringLiteral("/typed.png"));
  takeTyped(store, QStringLiteral("415\n"), folder + QStringLiteral("/typed-refused.png"));
  measure(store);
  // An older design's profile while the new one is being reckoned.
  store.apply([](model::Document d) { return model::withPitch(std::move(d), millimetres(34.0)); },
              QStringLiteral("Move pitch"));
  take(store, pictures[0], folder, "settling");
  take(store, pictures[3], folder, "settling");
  store.waitUntilSettled();
  store.apply(
      [](model::Document d) {
        d.laying.starts = 4;
        return Result<model::Document>(std::move(d));
      },
      QStringLiteral("Four starts"));
  store.waitUntilSettled();
  take(store, pictures[0], folder, "four");
  take(store, pictures[3], folder, "four");
  store.reset([] {
    model::Document d = model::firstPanel();
    d.laying.innerEnd = model::InnerEnd::ThroughTheBack;
    return d;
  }());
  store.waitUntilSettled();
  take(store, pictures[0], folder, "back");
  take(store, pictures[2], folder, "back");
  store.reset([] {
    model::Document d = model::firstPanel();
    d.laying.pitch = millimetres(12.0);
    return d;
  }());
  store.waitUntilSettled();
  take(store, pictures[0], folder, "refused");
  take(store, pictures[3], folder, "refused");
  store.reset([] {
    model::Document d = model::firstPanel();
    d.frame.insideWidth = metres(3.6);
    d.frame.insideHeight = metres(2.2);
    return d;
  }());
  store.waitUntilSettled();
  take(store, pictures[0], folder, "long");
  measure(store);
  return 0;
}
