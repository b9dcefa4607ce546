// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The curves of the linked charts: the design over one of its variables, all else as it stands.

#include <QObject>
#include <memory>
#include <vector>

#include "app/store/document_store.h"
#include "app/store/hub.h"
#include "core/evaluate/evaluate.h"

namespace sunspool::store {

/// Where a variable is looked at. Quarter turns: whole numbers.
struct SweepRange {
  double low = 0.0;
  double high = 0.0;
  bool operator==(const SweepRange&) const = default;
};
/// From tubes that touch, or one quarter turn, or a radius of one outside diameter, to beyond the present design.
SweepRange sweepRange(const model::Document& document, const results::Results& results, evaluate::Sweep variable);
/// The present value of the variable; for quarter turns left open, what was laid.
double sweepValue(const model::Document& document, const results::Results& results, evaluate::Sweep variable);

/// Keeps the curves of the hub's variable up to date on a worker; the newest question wins. Moving along the
/// variable itself asks nothing anew.
class SweepRunner : public QObject {
  Q_OBJECT
 public:
  SweepRunner(QObject* parent, DocumentStore& store, Hub& hub);
  ~SweepRunner() override;

  /// Rising x; those that cannot be laid have legal = false.
  const std::vector<evaluate::SweepPoint>& points() const;
  evaluate::Sweep variable() const;  ///< that points() belong to
  SweepRange range() const;          ///< that points() span
  bool settled() const;              ///< points() belong to the shown design
  /// The same curves of the design that is kept for comparison, over the same range; empty when none is kept, or while
  /// they are reckoned anew for another variable.
  const std::vector<evaluate::SweepPoint>& beforePoints() const;
  void waitUntilSettled();

 Q_SIGNALS:
  void sweepChanged();

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
