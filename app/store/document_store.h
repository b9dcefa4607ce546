// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The only writer. Views read document() and results(), and send edits here; nothing else changes the design.

#include <QObject>
#include <QString>
#include <QUndoStack>
#include <functional>
#include <memory>

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

using Edit = std::function<Result<model::Document>(model::Document)>;

class DocumentStore : public QObject {
  Q_OBJECT
 public:
  explicit DocumentStore(model::Document document, QObject* parent = nullptr);
  ~DocumentStore() override;

  /// What is shown: the preview while a drag runs, else the committed document.
  const model::Document& document() const;
  std::shared_ptr<const model::Document> shared() const;
  quint64 revision() const;
  bool isPreviewing() const;

  /// Applies a pure edit as one undo step. A refused edit changes nothing and is reported by editRefused.
  /// Edits with the same non-empty mergeKey that follow each other become one step.
  bool apply(const Edit& edit, const QString& stepText, const QString& mergeKey = {});
  /// Shows the edit of the committed document without a step; each call starts from the committed one again.
  bool preview(const Edit& edit);
  void commitPreview(const QString& stepText);  ///< one step, none when nothing changed
  void cancelPreview();

  QUndoStack* undoStack();

  // files
  QString filePath() const;      ///< empty: never saved
  bool isModified() const;       ///< document differs from the one last saved
  Result<Done> open(const QString& path);
  Result<Done> save(const QString& path);
  /// Replaces everything, e.g. by a sample: untitled, undo cleared.
  void reset(model::Document document);

  /// Latest results; layout and lengths always belong to revision(), the others may still be settling.
  std::shared_ptr<const results::Results> results() const;
  bool isSettled() const;        ///< results belong to the shown document in full
  /// Waits until settled; for tests and for writing sheets.
  void waitUntilSettled();

 Q_SIGNALS:
  void changed(const sunspool::store::DocumentChange& change);
  void resultsChanged();
  void editRefused(const sunspool::Error& error);
  void fileChanged();            ///< path or modified state

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
