// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <memory>
#include <optional>

#include "app/store/document_store.h"
#include "core/evaluate/evaluate.h"

namespace sunspool::store {

/// Keeps the bars of the design's day up to date on a worker; the newest question wins. Another hour of the same day
/// asks nothing anew.
class DayRunner : public QObject {
  Q_OBJECT
 public:
  DayRunner(QObject* parent, DocumentStore& store);
  ~DayRunner() override;

  /// nullptr while nothing is known yet or the day cannot be reckoned; then refusal() may say why.
  std::shared_ptr<const evaluate::Day> day() const;
  const std::optional<Error>& refusal() const;
  void waitUntilSettled();

 Q_SIGNALS:
  void dayChanged();

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
