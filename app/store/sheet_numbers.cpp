// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/sheet_numbers.h"

#include "app/store/newest_wins.h"

namespace sunspool::store {
namespace {

using Numbers = std::shared_ptr<const SheetNumbers>;

Numbers numbersOf(std::shared_ptr<const model::Document> document) {
  auto numbers = std::make_shared<SheetNumbers>();
  numbers->flow = evaluate::flowCurves(*document);
  numbers->collapseRadius = evaluate::movedBy(*document, evaluate::MovedNumber::CollapseRadius);
  numbers->tubeLength = evaluate::movedBy(*document, evaluate::MovedNumber::TubeLength);
  numbers->water = evaluate::movedBy(*document, evaluate::MovedNumber::Water);
  numbers->stoppedTube = evaluate::movedBy(*document, evaluate::MovedNumber::StoppedTube);
  numbers->uplift = evaluate::movedBy(*document, evaluate::MovedNumber::Uplift);
  numbers->document = std::move(document);
  return numbers;
}

}  // namespace

class SheetNumbersRunner::Private {
 public:
  Private(SheetNumbersRunner& runner, DocumentStore& theStore)
      : store(theStore), worker([this, &runner](Numbers answer) {
          numbers = std::move(answer);
          Q_EMIT runner.numbersChanged();
        }) {}

  void ask() {
    if (!wanted || asked == store.shared()) return;
    asked = store.shared();
    worker.submit([document = asked] { return numbersOf(document); });
  }

  DocumentStore& store;
  bool wanted = false;
  std::shared_ptr<const model::Document> asked;
  Numbers numbers;
  NewestWins<Numbers> worker;  ///< last, so that it stops before what it delivers to is gone
};

SheetNumbersRunner::SheetNumbersRunner(QObject* parent, DocumentStore& store)
    : QObject(parent), d(std::make_unique<Private>(*this, store)) {
  connect(&store, &DocumentStore::changed, this, [this] { d->ask(); });
}
SheetNumbersRunner::~SheetNumbersRunner() = default;

void SheetNumbersRunner::setWanted(bool wanted) {
  d->wanted = wanted;
  d->ask();
}
std::shared_ptr<const SheetNumbers> SheetNumbersRunner::numbers() const { return d->numbers; }
bool SheetNumbersRunner::settled() const { return d->numbers != nullptr && d->numbers->document == d->store.shared(); }
void SheetNumbersRunner::waitUntilSettled() { d->worker.finish(); }

}  // namespace sunspool::store
