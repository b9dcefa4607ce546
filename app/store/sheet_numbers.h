// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What only an opened sheet needs: the curves of pump and way, and what moves the numbers without an influence of their
// own. Reckoned on a worker while a sheet is open; the newest question wins.

#include <QObject>
#include <memory>
#include <vector>

#include "app/store/document_store.h"
#include "core/evaluate/flow_curves.h"
#include "core/evaluate/moved_by.h"

namespace sunspool::store {

struct SheetNumbers {
  std::shared_ptr<const model::Document> document;  ///< that they belong to
  Result<evaluate::FlowCurves> flow = Error{};
  std::vector<evaluate::MovedBy> collapseRadius, tubeLength, water, stoppedTube, uplift;
};

class SheetNumbersRunner : public QObject {
  Q_OBJECT
 public:
  SheetNumbersRunner(QObject* parent, DocumentStore& store);
  ~SheetNumbersRunner() override;

  /// Nothing is reckoned while no sheet is open.
  void setWanted(bool wanted);
  /// nullptr while nothing is known yet; may belong to an earlier design until settled().
  std::shared_ptr<const SheetNumbers> numbers() const;
  bool settled() const;
  void waitUntilSettled();

 Q_SIGNALS:
  void numbersChanged();

 private:
  class Private;
  std::unique_ptr<Private> d;
};

}  // namespace sunspool::store
