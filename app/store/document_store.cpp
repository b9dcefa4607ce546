// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/document_store.h"

#include <QFile>
#include <QFileInfo>
#include <QLockFile>
#include <QTimer>
#include <QUndoCommand>
#include <chrono>
#include <filesystem>
#include <optional>
#include <utility>

#include "app/store/newest_wins.h"
#include "core/evaluate/evaluate.h"
#include "core/io/files.h"
#include "core/io/project_file.h"

namespace sunspool::store {
namespace {

using SharedDocument = std::shared_ptr<const model::Document>;
using SharedResults = std::shared_ptr<const results::Results>;

/// A hand that rests this long on a drag gets its ranges too.
constexpr std::chrono::milliseconds kRest{150};

struct Evaluated {
  quint64 revision = 0;
  SharedDocument document;
  bool ranges = false;
  SharedResults results;
};

Evaluated evaluated(quint64 revision, SharedDocument document, evaluate::Options options) {
  auto results = std::make_shared<const results::Results>(evaluate::evaluate(*document, options));
  return {revision, std::move(document), options.ranges, std::move(results)};
}

/// What is quick to know of the shown document, with the slow answers of an earlier one.
SharedResults merged(results::Results now, const results::Results& earlier) {
  if (now.layout.has_value()) {
    now.flow = earlier.flow;
    now.heat = earlier.heat;
    now.profiles = earlier.profiles;
    now.tubeCuts = earlier.tubeCuts;
  } else {
    now.tubeCuts = now.layout.error();
  }
  now.stopped = earlier.stopped;
  now.stoppedSky = earlier.stoppedSky;
  now.timberCuts = earlier.timberCuts;
  now.sheetCuts = earlier.sheetCuts;
  now.holes = earlier.holes;
  now.buying = earlier.buying;
  now.influences = earlier.influences;
  now.snags = earlier.snags;
  return std::make_shared<const results::Results>(std::move(now));
}

/// What came of asking for a file: its lock, or who has it. Neither where no lock can be written.
struct Claim {
  std::unique_ptr<QLockFile> lock;
  std::optional<Error> held;
};
Claim claim(const QString& path) {
  Claim claim;
  claim.lock = std::make_unique<QLockFile>(lockFileOf(path));
  claim.lock->setStaleLockTime(0);  // a holder that runs keeps it for as long as it likes
  if (claim.lock->tryLock(0)) return claim;
  if (claim.lock->error() == QLockFile::LockFailedError) {
    qint64 process = 0;
    QString host, program;
    claim.lock->getLockInfo(&process, &host, &program);
    const QString who = DocumentStore::tr("%1, process %2 on %3").arg(program).arg(process).arg(host);
    claim.held = Error{ErrorCode::FileHeld, path.toStdString(), who.toStdString(), {}};
  }
  claim.lock.reset();
  return claim;
}

std::filesystem::path toPath(const QString& path) { return QFile::encodeName(path).toStdString(); }

}  // namespace

QString lockFileOf(const QString& path) {
  const QFileInfo file(path);
  const QFileInfo real(file.exists() ? file.canonicalFilePath() : file.absoluteFilePath());
  const QString folder = QFileInfo(real.absolutePath()).canonicalFilePath();
  return QStringLiteral("%1/.%2.lock").arg(folder, real.fileName());
}

class DocumentStore::Private {
 public:
  Private(DocumentStore* store, model::Document document)
      : q(store), worker([this](Evaluated answer) { deliver(std::move(answer)); }) {
    rest.setSingleShot(true);
    rest.setInterval(kRest);
    QObject::connect(&rest, &QTimer::timeout, q, [this] { submit(true); });
    startWith(std::make_shared<const model::Document>(std::move(document)));
  }

  DocumentStore* q;
  QUndoStack undo;
  SharedDocument committed, shownPreview, saved;
  bool previewing = false;
  quint64 revision = 0;
  QString path;
  std::unique_ptr<QLockFile> lock;  ///< of the file at `path`
  std::optional<Error> readOnly;
  bool wasModified = false;
  std::optional<Kept> kept;

  SharedResults results;
  Evaluated latest;                          ///< last answer taken
  results::Results layoutNow;                ///< quick answers of the shown document
  std::optional<Evaluated> committedAnswer;  ///< full answer of the committed document
  QTimer rest;

  const SharedDocument& shown() const { return previewing ? shownPreview : committed; }
  bool isSettled() const { return latest.document == shown() && (latest.ranges || previewing); }
  bool isModified() const { return !(committed == saved || *committed == *saved); }

  /// A whole new document: its first answer is complete but for the ranges.
  void startWith(SharedDocument document) {
    previewing = false;
    shownPreview.reset();
    rest.stop();
    committed = std::move(document);
    saved = committed;
    ++revision;
    latest = evaluated(revision, committed, {.depth = evaluate::Depth::Everything, .ranges = false});
    layoutNow = *latest.results;
    results = latest.results;
    committedAnswer.reset();
    submit(true);
  }

  /// Shows what is now shown() instead of `before`.
  void show(const SharedDocument& before) {
    ++revision;
    if (!previewing && committedAnswer && committedAnswer->document == committed) {
      latest = *committedAnswer;
      latest.revision = revision;
      layoutNow = *latest.results;
      results = latest.results;
    } else {
      layoutNow = evaluate::evaluate(*shown(), {.depth = evaluate::Depth::Layout, .ranges = !previewing});
      results = merged(layoutNow, *latest.results);
    }
    rest.stop();
    if (!isSettled()) submit(!previewing);
    Q_EMIT q->changed({revision, previewing, before, shown()});
    Q_EMIT q->resultsChanged();
    tellModified();
  }

  void setCommitted(SharedDocument document) {
    const SharedDocument before = shown();
    previewing = false;
    shownPreview.reset();
    committed = std::move(document);
    show(before);
  }
  void setPreview(SharedDocument document) {
    const SharedDocument before = shown();
    shownPreview = std::move(document);
    previewing = true;
    show(before);
  }
  void endPreview() {
    if (!previewing) return;
    const SharedDocument before = shown();
    previewing = false;
    shownPreview.reset();
    show(before);
  }

  void submit(bool ranges) {
    worker.submit([revision = revision, document = shown(), ranges] {
      return evaluated(revision, document, {.depth = evaluate::Depth::Everything, .ranges = ranges});
    });
  }
  void deliver(Evaluated answer) {
    if (answer.revision < latest.revision) return;  // of a drag given up meanwhile
    latest = std::move(answer);
    const bool isOfShown = latest.document == shown();
    results = isOfShown ? latest.results : merged(layoutNow, *latest.results);
    if (latest.document == committed && latest.ranges) committedAnswer = latest;
    if (isOfShown && previewing && !latest.ranges) rest.start();
    Q_EMIT q->resultsChanged();
  }

  void tellModified() {
    if (std::exchange(wasModified, isModified()) != wasModified) Q_EMIT q->fileChanged();
  }
  void replaceAll(model::Document document, QString newPath, std::optional<Error> becauseReadOnly) {
    const SharedDocument earlier = shown();
    undo.clear();
    path = std::move(newPath);
    readOnly = std::move(becauseReadOnly);
    startWith(std::make_shared<const model::Document>(std::move(document)));
    wasModified = false;
    q->forgetBefore();
    Q_EMIT q->changed({revision, false, earlier, committed});
    Q_EMIT q->resultsChanged();
    Q_EMIT q->fileChanged();
  }

  NewestWins<Evaluated> worker;  ///< last, so that it stops before anything it delivers to is gone

  class Step;
};

/// The one undo command: the document before and after.
class DocumentStore::Private::Step : public QUndoCommand {
 public:
  Step(Private& store, SharedDocument after, const QString& text, QString mergeKey)
      : QUndoCommand(text),
        m_store(store),
        m_before(store.committed),
        m_after(std::move(after)),
        m_mergeKey(std::move(mergeKey)) {}

  void undo() override { m_store.setCommitted(m_before); }
  void redo() override { m_store.setCommitted(m_after); }
  int id() const override { return m_mergeKey.isEmpty() ? -1 : 1; }
  bool mergeWith(const QUndoCommand* other) override {
    const auto* later = static_cast<const Step*>(other);  // all commands of this stack are steps
    if (later->m_mergeKey != m_mergeKey) return false;
    m_after = later->m_after;
    setObsolete(*m_before == *m_after);
    return true;
  }

 private:
  Private& m_store;
  SharedDocument m_before, m_after;
  QString m_mergeKey;
};

DocumentStore::DocumentStore(model::Document document, QObject* parent)
    : QObject(parent), d(std::make_unique<Private>(this, std::move(document))) {}
DocumentStore::~DocumentStore() = default;

const model::Document& DocumentStore::document() const { return *d->shown(); }
std::shared_ptr<const model::Document> DocumentStore::shared() const { return d->shown(); }
quint64 DocumentStore::revision() const { return d->revision; }
bool DocumentStore::isPreviewing() const { return d->previewing; }

bool DocumentStore::apply(const Edit& edit, const QString& stepText, const QString& mergeKey) {
  Result<model::Document> edited = edit(*d->committed);
  if (!edited) {
    Q_EMIT editRefused(edited.error());
    return false;
  }
  if (*edited == *d->committed) {
    d->endPreview();
    return true;
  }
  auto after = std::make_shared<const model::Document>(*std::move(edited));
  d->undo.push(new Private::Step(*d, std::move(after), stepText, mergeKey));
  return true;
}

bool DocumentStore::preview(const Edit& edit) {
  Result<model::Document> edited = edit(*d->committed);
  if (!edited) {
    Q_EMIT editRefused(edited.error());
    return false;
  }
  if (d->previewing && *edited == *d->shownPreview) return true;
  d->setPreview(std::make_shared<const model::Document>(*std::move(edited)));
  return true;
}

void DocumentStore::commitPreview(const QString& stepText) {
  if (!d->previewing) return;
  if (*d->shownPreview == *d->committed) {
    d->endPreview();
    return;
  }
  d->undo.push(new Private::Step(*d, d->shownPreview, stepText, {}));
}

void DocumentStore::cancelPreview() { d->endPreview(); }

QUndoStack* DocumentStore::undoStack() { return &d->undo; }

QString DocumentStore::filePath() const { return d->path; }
bool DocumentStore::isModified() const { return d->isModified(); }
bool DocumentStore::isReadOnly() const { return d->readOnly.has_value(); }
const std::optional<Error>& DocumentStore::readOnlyBecause() const { return d->readOnly; }

Result<Done> DocumentStore::open(const QString& path) {
  const Result<std::string> text = io::readFile(toPath(path));
  if (!text) return text.error();
  Result<io::ReadDocument> read = io::readDocument(*text);
  if (!read) return read.error();
  std::optional<Error> readOnly;
  if (!d->lock || d->lock->fileName() != lockFileOf(path)) {
    Claim claimed = claim(path);
    d->lock = std::move(claimed.lock);
    readOnly = std::move(claimed.held);
  }
  if (read->newerVersion) readOnly = Error{ErrorCode::NewerVersion, path.toStdString(), {}, {}};
  d->replaceAll(std::move(read->document), path, std::move(readOnly));
  return Done{};
}

Result<Done> DocumentStore::save(const QString& path) {
  if (d->readOnly && path == d->path) return *d->readOnly;
  Claim claimed;
  const bool isMine = d->lock && d->lock->fileName() == lockFileOf(path);
  if (!isMine) claimed = claim(path);
  if (claimed.held) return *claimed.held;
  const Result<Done> written = io::replaceFile(toPath(path), io::writeDocument(*d->committed));
  if (!written) return written;
  if (!isMine) d->lock = std::move(claimed.lock);
  d->saved = d->committed;
  d->path = path;
  d->readOnly.reset();
  d->wasModified = false;
  d->undo.setClean();
  Q_EMIT fileChanged();
  return Done{};
}

void DocumentStore::reset(model::Document document) {
  d->lock.reset();
  d->replaceAll(std::move(document), {}, std::nullopt);
}

std::shared_ptr<const results::Results> DocumentStore::results() const { return d->results; }
bool DocumentStore::isSettled() const { return d->isSettled(); }

void DocumentStore::waitUntilSettled() {
  while (!d->isSettled()) {
    if (!d->worker.isBusy()) d->submit(!d->previewing);
    d->worker.finish();
  }
}

void DocumentStore::keepAsBefore() {
  waitUntilSettled();
  d->kept = Kept{d->shown(), d->results};
  Q_EMIT beforeChanged();
}

void DocumentStore::forgetBefore() {
  if (!d->kept) return;
  d->kept.reset();
  Q_EMIT beforeChanged();
}

const std::optional<Kept>& DocumentStore::before() const { return d->kept; }

}  // namespace sunspool::store
