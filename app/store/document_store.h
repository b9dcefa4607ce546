// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The only writer. Views read document() and results(), and send edits here; nothing else changes the design.

#include <QObject>
#include <QString>
#include <QUndoStack>
#include <functional>
#include <memory>
#include <optional>

#include "core/base/result.h"
#include "core/model/document.h"
#include "core/results/results.h"

namespace sunspool::store {

struct DocumentChange {
  quint64 revision = 0;
  bool preview = false;  ///< a drag in progress: shown, not yet a step
  std::shared_ptr<const model::Document> before;
  std::shared_ptr<const model::Document> after;
};

/// A design held for comparison, with all its answers.
struct Kept {
  std::shared_ptr<const model::Document> document;
  std::shared_ptr<const results::Results> results;
};

/// The lock beside a project file that is open: hidden, with process and host of the holder in it.
QString lockFileOf(const QString& path);

using Edit = std::function<Result<model::Document>(model::Document)>;

/// Lives on the window's thread; all calls and signals are there.
class DocumentStore : public QObject {
  Q_OBJECT
 public:
  explicit DocumentStore(model::Document document, QObject* parent = nullptr);
  ~DocumentStore() override;

  /// What is shown: the preview while a drag runs, else the committed document.
  const model::Document& document() const;
  std::shared_ptr<const model::Document> shared() const;
  /// Rises with every change of what is shown.
  quint64 revision() const;
  bool isPreviewing() const;

  /// Applies a pure edit as one undo step; an edit that changes nothing makes none. A refused edit changes nothing,
  /// returns false and is reported by editRefused. Ends a preview first.
  /// Edits with the same non-empty mergeKey that follow each other become one step, unless a save stands between.
  bool apply(const Edit& edit, const QString& stepText, const QString& mergeKey = {});
  /// Shows the edit of the committed document without a step; each call starts from the committed one again.
  /// Refused: false and editRefused, and what was shown before stays.
  bool preview(const Edit& edit);
  void commitPreview(const QString& stepText);  ///< one step, none when nothing changed
  void cancelPreview();

  QUndoStack* undoStack();

  // files
  QString filePath() const;  ///< empty: never saved
  bool isModified() const;   ///< the committed document differs from the one last saved, opened or reset
  /// The file is shown, and save() refuses its own path: it was written by a newer version, or another window has it.
  bool isReadOnly() const;
  /// Why: NewerVersion, or FileHeld with who holds it as detail. nullopt when it may be written.
  const std::optional<Error>& readOnlyBecause() const;
  /// A file that another window has opens read-only. While it is open here, a lock stands beside it (lockFileOf); one
  /// left behind by a program that has ended is taken over. In a folder that allows no writing there is no lock.
  /// Errors of io::readFile and io::readDocument; then nothing has changed.
  Result<Done> open(const QString& path);
  /// Errors of io::replaceFile, and FileHeld when another window has that file; then the document stays open and
  /// modified, and the old file is as it was.
  Result<Done> save(const QString& path);
  /// Replaces everything, e.g. by a sample: untitled, undo cleared.
  void reset(model::Document document);

  /// Latest results. Layout, bends, lengths, depth, masses and sun always belong to revision(); flow, heat, stopped
  /// pump, profiles, cuts, influences and snags are those of the last delivered answer until isSettled(), so that
  /// profiles may speak of another number of runs. When the layout failed, flow, heat and tube cuts hold its error.
  std::shared_ptr<const results::Results> results() const;
  /// The results belong to the shown document in full; during a preview its ranges may still be missing (zero width).
  bool isSettled() const;
  /// Waits until settled; for tests and for writing sheets.
  void waitUntilSettled();

  // keep as before
  /// Holds the shown design and its settled answers; views draw it as a ghost and say signed differences. Kept until
  /// forgotten or another project is opened; never saved.
  void keepAsBefore();
  void forgetBefore();
  const std::optional<Kept>& before() const;

 Q_SIGNALS:
  void changed(const sunspool::store::DocumentChange& change);
  void resultsChanged();
  void editRefused(const sunspool::Error& error);
  void fileChanged();  ///< path or modified state
  void beforeChanged();

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
