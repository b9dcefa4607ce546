// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/day_runner.h"

#include "app/store/newest_wins.h"

namespace sunspool::store {
namespace {

/// What the day hangs on: everything but the hour, the name, the reasons and the prices.
model::Document dayKey(model::Document document) {
  document.moment.clock_h = 12.0;
  document.name.clear();
  document.note.clear();
  document.stock = {};
  document.leftSnags.clear();
  document.conditions.onPanel.reset();
  return document;
}

}  // namespace

class DayRunner::Private {
 public:
  Private(DayRunner& runner, DocumentStore& store)
      : m_runner(runner),
        m_store(store),
        m_worker([this](Result<evaluate::Day> answer) { deliver(std::move(answer)); }) {}

  void ask() {
    model::Document key = dayKey(m_store.document());
    if (m_asked && *m_asked == key) return;
    m_asked = key;
    m_worker.submit([document = std::move(key)] { return evaluate::day(document); });
  }
  void deliver(Result<evaluate::Day> answer) {
    if (answer.has_value()) {
      day = std::make_shared<const evaluate::Day>(std::move(*answer));
      refusal.reset();
    } else {
      day.reset();
      refusal = answer.error();
    }
    Q_EMIT m_runner.dayChanged();
  }
  void finish() { m_worker.finish(); }

  std::shared_ptr<const evaluate::Day> day;
  std::optional<Error> refusal;

 private:
  DayRunner& m_runner;
  DocumentStore& m_store;
  std::optional<model::Document> m_asked;
  NewestWins<Result<evaluate::Day>> m_worker;
};

DayRunner::DayRunner(QObject* parent, DocumentStore& store)
    : QObject(parent), d(std::make_unique<Private>(*this, store)) {
  // A drag asks once, when it ends: a day costs a tenth of a second that the moving picture needs more.
  connect(&store, &DocumentStore::changed, this, [this](const DocumentChange& change) {
    if (!change.preview) d->ask();
  });
  d->ask();
}

DayRunner::~DayRunner() = default;

std::shared_ptr<const evaluate::Day> DayRunner::day() const { return d->day; }
const std::optional<Error>& DayRunner::refusal() const { return d->refusal; }
void DayRunner::waitUntilSettled() { d->finish(); }

}  // namespace sunspool::store
