// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/document_store.h"

#include <QCoreApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <catch2/catch.hpp>
#include <random>

#include "core/evaluate/evaluate.h"
#include "core/io/project_file.h"
#include "core/io/results_json.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::store {
namespace {

Edit pitch(double millimetre) {
  return [=](model::Document document) { return model::withPitch(std::move(document), millimetres(millimetre)); };
}
Edit exactPitch(Length length) {
  return [=](model::Document document) { return model::withPitch(std::move(document), length); };
}
Edit refusing() {
  return [](model::Document document) { return model::withPitch(std::move(document), metres(-1.0)); };
}
QString text(const char* words) { return QString::fromUtf8(words); }
std::string bytes(const DocumentStore& store) { return io::writeDocument(store.document()); }

TEST_CASE("Undo and redo bring back the bytes of the file", "[store][property]") {
  DocumentStore store(model::firstPanel());
  std::vector<std::string> states{bytes(store)};
  std::mt19937 random(5);
  std::uniform_real_distribution<double> size(0.8, 2.5);
  for (int step = 0; step < 40; ++step) {
    const double value = size(random);
    const bool wide = random() % 2 == 0;
    REQUIRE(store.apply(
        [&](model::Document document) {
          return wide ? model::withInsideWidth(std::move(document), metres(value))
                      : model::withPitch(std::move(document), millimetres(20.0 + 10.0 * value));
        },
        text("Change")));
    states.push_back(bytes(store));
  }
  for (int at = 39; at >= 0; --at) {
    store.undoStack()->undo();
    REQUIRE(bytes(store) == states[static_cast<std::size_t>(at)]);
  }
  for (int at = 1; at <= 40; ++at) {
    store.undoStack()->redo();
    REQUIRE(bytes(store) == states[static_cast<std::size_t>(at)]);
  }
}

TEST_CASE("A drag shows every step of the hand and commits once", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  const std::string before = bytes(store);
  QSignalSpy changed(&store, &DocumentStore::changed);
  for (int mm = 27; mm <= 36; ++mm) {
    REQUIRE(store.preview(pitch(mm)));
    CHECK(store.isPreviewing());
    CHECK(store.document().laying.pitch == millimetres(mm));
  }
  CHECK(changed.count() == 10);
  CHECK(store.undoStack()->count() == 0);
  CHECK_FALSE(store.isModified());
  store.commitPreview(text("Move pitch"));
  CHECK_FALSE(store.isPreviewing());
  CHECK(store.undoStack()->count() == 1);
  CHECK(store.undoStack()->undoText() == text("Move pitch"));
  CHECK(store.document().laying.pitch == millimetres(36));
  CHECK(store.isModified());
  store.undoStack()->undo();
  CHECK(bytes(store) == before);
}

TEST_CASE("A drag that is given up leaves no trace", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  store.waitUntilSettled();
  const std::string before = bytes(store);
  const auto results = store.results();
  REQUIRE(store.preview(pitch(40)));
  CHECK(store.results() != results);
  store.cancelPreview();
  CHECK(bytes(store) == before);
  CHECK(store.undoStack()->count() == 0);
  CHECK_FALSE(store.isModified());
  CHECK(store.results() == results);  // the answers of the committed design come back at once
  CHECK(store.isSettled());
  store.waitUntilSettled();
  QTest::qWait(50);  // a late answer of the drag
  CHECK(store.results() == results);
}

TEST_CASE("A drag that ends where it began makes no step", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  const Length started = store.document().laying.pitch;
  REQUIRE(store.preview(exactPitch(started + millimetres(5.0))));
  REQUIRE(store.preview(exactPitch(started)));
  store.commitPreview(text("Move pitch"));
  CHECK_FALSE(store.isPreviewing());
  CHECK(store.undoStack()->count() == 0);
  CHECK(store.apply(exactPitch(started), text("Type pitch")));
  CHECK(store.undoStack()->count() == 0);
}

TEST_CASE("Each preview starts from the committed design again", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  const Edit wider = [](model::Document document) {
    const Length width = document.frame.insideWidth + millimetres(10);
    return model::withInsideWidth(std::move(document), width);
  };
  const Length before = store.document().frame.insideWidth;
  for (int i = 0; i < 5; ++i) REQUIRE(store.preview(wider));
  CHECK(store.document().frame.insideWidth.si() == (before + millimetres(10)).si());
}

TEST_CASE("Edits of one key that follow each other are one step", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  const Length started = store.document().laying.pitch;
  REQUIRE(store.apply(pitch(30), text("Type pitch"), text("pitch")));
  REQUIRE(store.apply(pitch(31), text("Type pitch"), text("pitch")));
  CHECK(store.undoStack()->count() == 1);
  REQUIRE(store.apply(pitch(32), text("Type pitch"), text("other")));
  CHECK(store.undoStack()->count() == 2);
  store.undoStack()->undo();
  CHECK(store.document().laying.pitch == millimetres(31));
  store.undoStack()->undo();
  CHECK(store.document().laying.pitch == started);
  REQUIRE(store.apply(pitch(33), text("Type pitch"), text("pitch")));
  REQUIRE(store.apply(exactPitch(started), text("Type pitch"), text("pitch")));
  CHECK(store.undoStack()->count() == 0);  // there and back again
}

TEST_CASE("A refused edit changes nothing and says why", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  store.waitUntilSettled();
  const std::string before = bytes(store);
  const quint64 revision = store.revision();
  QSignalSpy changed(&store, &DocumentStore::changed);
  std::vector<Error> refused;
  QObject::connect(&store, &DocumentStore::editRefused, &store, [&](const Error& error) { refused.push_back(error); });
  CHECK_FALSE(store.apply(refusing(), text("Type pitch")));
  CHECK_FALSE(store.preview(refusing()));
  CHECK_FALSE(store.isPreviewing());
  CHECK(bytes(store) == before);
  CHECK(store.revision() == revision);
  CHECK(changed.count() == 0);
  CHECK(store.isSettled());
  REQUIRE(refused.size() == 2);
  CHECK(refused.front().code == ErrorCode::OutOfRange);
  CHECK(refused.front().where == "/laying/pitch_m");
}

TEST_CASE("The modified star goes out when undo reaches the saved design", "[store][analytic]") {
  const QTemporaryDir folder;
  DocumentStore store(model::firstPanel());
  CHECK_FALSE(store.isModified());
  REQUIRE(store.apply(pitch(30), text("Type pitch")));
  CHECK(store.isModified());
  const QString path = folder.filePath(QString::fromUtf8("泳池 panel.sunspool"));
  REQUIRE(store.save(path));
  CHECK(store.filePath() == path);
  CHECK_FALSE(store.isModified());
  REQUIRE(store.apply(pitch(31), text("Type pitch")));
  QSignalSpy fileChanged(&store, &DocumentStore::fileChanged);
  CHECK(store.isModified());
  store.undoStack()->undo();
  CHECK_FALSE(store.isModified());
  CHECK(fileChanged.count() == 1);
  store.undoStack()->undo();
  CHECK(store.isModified());
}

TEST_CASE("What was saved opens again as the same bytes", "[store][analytic]") {
  const QTemporaryDir folder;
  const QString path = folder.filePath(text("a.sunspool"));
  DocumentStore store(model::firstPanel());
  REQUIRE(store.apply(pitch(30), text("Type pitch")));
  REQUIRE(store.save(path));
  const std::string saved = bytes(store);
  store.reset(model::firstPanel());
  CHECK(store.filePath().isEmpty());
  CHECK(store.undoStack()->count() == 0);
  REQUIRE(store.open(path));
  CHECK(bytes(store) == saved);
  CHECK(store.filePath() == path);
  CHECK_FALSE(store.isModified());
  CHECK_FALSE(store.isReadOnly());
}

TEST_CASE("A save that fails leaves the design open and modified", "[store][fault]") {
  const QTemporaryDir folder;
  DocumentStore store(model::firstPanel());
  REQUIRE(store.save(folder.filePath(text("good.sunspool"))));
  REQUIRE(store.apply(pitch(30), text("Type pitch")));
  const auto failed = store.save(folder.filePath(text("none/such.sunspool")));
  REQUIRE_FALSE(failed);
  CHECK(failed.error().code == ErrorCode::FolderMissing);
  CHECK(store.isModified());
  CHECK(store.filePath() == folder.filePath(text("good.sunspool")));
  CHECK(store.document().laying.pitch == millimetres(30));
  CHECK(store.undoStack()->canUndo());
}

TEST_CASE("A file that cannot be read leaves the open design as it is", "[store][fault]") {
  const QTemporaryDir folder;
  DocumentStore store(model::firstPanel());
  REQUIRE(store.apply(pitch(30), text("Type pitch")));
  const std::string before = bytes(store);
  CHECK(store.open(folder.filePath(text("none.sunspool"))).error().code == ErrorCode::FileNotFound);
  QFile damaged(folder.filePath(text("damaged.sunspool")));
  REQUIRE(damaged.open(QIODevice::WriteOnly));
  damaged.write("{\"format\": \"sunsp");
  damaged.close();
  CHECK_FALSE(store.open(damaged.fileName()));
  CHECK(bytes(store) == before);
  CHECK(store.isModified());
  CHECK(store.undoStack()->canUndo());
}

TEST_CASE("A project of a newer version is not written over", "[store][fault]") {
  const QTemporaryDir folder;
  const QString path = folder.filePath(text("newer.sunspool"));
  QByteArray newer = QByteArray::fromStdString(io::writeDocument(model::firstPanel()));
  newer.replace("\"version\": 1", "\"version\": 2");
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(newer);
  file.close();
  DocumentStore store(model::firstPanel());
  REQUIRE(store.open(path));
  CHECK(store.isReadOnly());
  const auto refused = store.save(path);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::NewerVersion);
  REQUIRE(file.open(QIODevice::ReadOnly));
  CHECK(file.readAll() == newer);
  REQUIRE(store.save(folder.filePath(text("mine.sunspool"))));
  CHECK_FALSE(store.isReadOnly());
}

std::string resultsText(const model::Document& document, const results::Results& results) {
  return io::writeResults(document, results);
}

TEST_CASE("After 300 quick edits the results are those of the last", "[store][property]") {
  DocumentStore store(model::firstPanel());
  int delivered = 0;
  QObject::connect(&store, &DocumentStore::resultsChanged, &store, [&] {
    ++delivered;
    // What is quick to know is never of another design.
    const auto results = store.results();
    if (results->layout.has_value()) {
      const auto laid = layout::lay(store.document());
      REQUIRE(laid);
      REQUIRE(laid->totalCut == results->layout->totalCut);
    }
  });
  for (int i = 0; i < 300; ++i) {
    REQUIRE(store.apply(pitch(24.0 + 0.05 * i), text("Type pitch"), text("pitch")));
    if (i % 10 == 0) QCoreApplication::processEvents();
  }
  CHECK_FALSE(store.isSettled());
  store.waitUntilSettled();
  CHECK(store.isSettled());
  const auto expected = evaluate::evaluate(store.document(), {});
  CHECK(resultsText(store.document(), *store.results()) == resultsText(store.document(), expected));
  CHECK(delivered >= 300);
  const auto last = store.results();
  QTest::qWait(50);
  CHECK(store.results() == last);
}

TEST_CASE("A hand that rests on a drag gets its ranges", "[store][analytic]") {
  DocumentStore store(model::firstPanel());
  store.waitUntilSettled();
  REQUIRE(store.preview(pitch(30)));
  store.waitUntilSettled();
  REQUIRE(store.results()->flow.has_value());
  CHECK(store.results()->influences.empty());
  QElapsedTimer clock;
  clock.start();
  while (store.results()->influences.empty() && clock.elapsed() < 10'000) QTest::qWait(10);
  CHECK_FALSE(store.results()->influences.empty());
}

TEST_CASE("The store can be taken down in the middle of the work", "[store][fault]") {
  for (int i = 0; i < 20; ++i) {
    DocumentStore store(model::firstPanel());
    REQUIRE(store.preview(pitch(30 + i)));
    if (i % 2 == 0) QCoreApplication::processEvents();
  }
}

}  // namespace
}  // namespace sunspool::store
