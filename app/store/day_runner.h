// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <memory>
#include <optional>
#include <vector>

#include "app/store/document_store.h"
#include "core/evaluate/evaluate.h"

namespace sunspool::store {

using Months = std::vector<evaluate::DayEnergies>;

/// Keeps the bars of the design's day up to date on a worker; the newest question wins. Another hour of the same day
/// asks nothing anew, nor does another month for the months. Beside it, each on a worker of its own and only while it
/// is wanted: the day of the design kept as before, the twelve months, the day with the pump stopped.
class DayRunner : public QObject {
  Q_OBJECT
 public:
  DayRunner(QObject* parent, DocumentStore& store);
  ~DayRunner() override;

  /// nullptr while nothing is known yet or the day cannot be reckoned; then refusal() may say why.
  std::shared_ptr<const evaluate::Day> day() const;
  const std::optional<Error>& refusal() const;

  /// The kept design on the date and under the sky that are looked at now; nullptr while none is kept, while it is the
  /// shown design, or not known.
  std::shared_ptr<const evaluate::Day> dayBefore() const;

  void wantMonths(bool wanted);
  std::shared_ptr<const Months> months() const;
  const std::optional<Error>& monthsRefusal() const;

  void wantStopped(bool wanted);
  std::shared_ptr<const evaluate::StoppedDay> stopped() const;
  const std::optional<Error>& stoppedRefusal() const;

  void waitUntilSettled();

 Q_SIGNALS:
  void dayChanged();
  void besideChanged();  ///< kept day, months or stopped day

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
