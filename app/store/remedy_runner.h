// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/store/document_store.h"
#include "core/remedies/remedies.h"

namespace sunspool::store {

/// The remedies of one finding with the design they were found for.
struct Remedies {
  std::shared_ptr<const model::Document> document;
  std::string key;  ///< of the finding
  std::vector<remedies::Remedy> all;
  /// The design after each, for looking at; nullptr for one that asks for a number.
  std::vector<std::shared_ptr<const model::Document>> after;
};

/// Finds the remedies of one finding on a worker; the newest question wins, and answers about a design that is no
/// longer shown are dropped.
class RemedyRunner : public QObject {
  Q_OBJECT
 public:
  RemedyRunner(QObject* parent, DocumentStore& store);
  ~RemedyRunner() override;

  /// Asks for a finding of the settled results; nothing while the store is settling. The same question twice is asked
  /// once.
  void ask(const Snag& snag);
  void forget();
  /// nullptr while nothing is known yet.
  const Remedies* remedies() const;
  bool isBusy() const;
  /// Takes one: one undo step. RemedyGone, and nothing changed, when the design is no longer the one it was found for.
  /// Errors of the edit for a number that cannot be.
  Result<Done> take(std::size_t index, double typed_si, const QString& stepText);
  void waitUntilSettled();

 Q_SIGNALS:
  void remediesChanged();

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
