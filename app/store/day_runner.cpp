// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/day_runner.h"

#include <functional>

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

/// The months go through the year by themselves.
model::Document monthsKey(model::Document document) {
  document = dayKey(std::move(document));
  document.moment.month = 1;
  document.moment.day = 1;
  return document;
}

/// Kept and present design differ by the design alone, not by the day that is looked at.
model::Document onTheDayOf(model::Document kept, const model::Document& present) {
  kept.moment = present.moment;
  kept.conditions.sky = present.conditions.sky;
  return kept;
}

/// One question about a document with its newest answer.
template <class Answer>
class Asked {
 public:
  using Question = Result<Answer> (*)(const model::Document&);
  Asked(Question question, std::function<void()> changed)
      : m_question(question), m_changed(std::move(changed)), m_worker([this](Delivered d) { deliver(std::move(d)); }) {}

  void ask(model::Document key) {
    if (m_key && *m_key == key) return;
    m_key = key;
    ++m_number;
    m_worker.submit([question = m_question, number = m_number, document = std::move(key)] {
      return Delivered{number, question(document)};
    });
  }
  void forget() {
    if (!m_key) return;
    m_key.reset();
    ++m_number;  // an answer on its way is dropped
    answer.reset();
    refusal.reset();
    m_changed();
  }
  void finish() { m_worker.finish(); }

  std::shared_ptr<const Answer> answer;
  std::optional<Error> refusal;

 private:
  struct Delivered {
    int number = 0;
    Result<Answer> answer;
  };
  void deliver(Delivered delivered) {
    if (!m_key || (delivered.number < m_number && !answer)) return;
    if (delivered.answer.has_value()) {
      answer = std::make_shared<const Answer>(std::move(*delivered.answer));
      refusal.reset();
    } else {
      answer.reset();
      refusal = delivered.answer.error();
    }
    m_changed();
  }

  Question m_question;
  std::function<void()> m_changed;
  std::optional<model::Document> m_key;
  int m_number = 0;
  NewestWins<Delivered> m_worker;  ///< last, so that it stops first
};

}  // namespace

class DayRunner::Private {
 public:
  Private(DayRunner& runner, DocumentStore& documentStore)
      : store(documentStore),
        day(evaluate::day, [&runner] { Q_EMIT runner.dayChanged(); }),
        before(evaluate::day, [&runner] { Q_EMIT runner.besideChanged(); }),
        months(evaluate::months, [&runner] { Q_EMIT runner.besideChanged(); }),
        stopped(evaluate::stoppedDay, [&runner] { Q_EMIT runner.besideChanged(); }) {}

  void ask() {
    const model::Document& shown = store.document();
    const model::Document key = dayKey(shown);
    day.ask(key);
    askBefore(key);
    if (monthsWanted) months.ask(monthsKey(shown));
    if (stoppedWanted) stopped.ask(key);
  }
  void askBefore(const model::Document& key) {
    if (!store.before()) return before.forget();
    model::Document kept = dayKey(onTheDayOf(*store.before()->document, key));
    if (kept == key) return before.forget();
    before.ask(std::move(kept));
  }

  DocumentStore& store;
  bool monthsWanted = false, stoppedWanted = false;
  Asked<evaluate::Day> day, before;
  Asked<Months> months;
  Asked<evaluate::StoppedDay> stopped;
};

DayRunner::DayRunner(QObject* parent, DocumentStore& store)
    : QObject(parent), d(std::make_unique<Private>(*this, store)) {
  // A drag asks once, when it ends: a day costs a tenth of a second that the moving picture needs more.
  connect(&store, &DocumentStore::changed, this, [this](const DocumentChange& change) {
    if (!change.preview) d->ask();
  });
  connect(&store, &DocumentStore::beforeChanged, this, [this] { d->ask(); });
  d->ask();
}

DayRunner::~DayRunner() = default;

std::shared_ptr<const evaluate::Day> DayRunner::day() const { return d->day.answer; }
const std::optional<Error>& DayRunner::refusal() const { return d->day.refusal; }
std::shared_ptr<const evaluate::Day> DayRunner::dayBefore() const { return d->before.answer; }
std::shared_ptr<const Months> DayRunner::months() const { return d->months.answer; }
const std::optional<Error>& DayRunner::monthsRefusal() const { return d->months.refusal; }
std::shared_ptr<const evaluate::StoppedDay> DayRunner::stopped() const { return d->stopped.answer; }
const std::optional<Error>& DayRunner::stoppedRefusal() const { return d->stopped.refusal; }

void DayRunner::wantMonths(bool wanted) {
  d->monthsWanted = wanted;
  if (wanted) d->ask();
}

void DayRunner::wantStopped(bool wanted) {
  d->stoppedWanted = wanted;
  if (wanted) d->ask();
}

void DayRunner::waitUntilSettled() {
  d->day.finish();
  d->before.finish();
  d->months.finish();
  d->stopped.finish();
}

}  // namespace sunspool::store
