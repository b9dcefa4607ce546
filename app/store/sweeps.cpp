// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/sweeps.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/store/newest_wins.h"

namespace sunspool::store {
namespace {

constexpr int kPoints = 40;

/// A design with the swept variable and all that no curve depends on taken out: equal ones have the same curves.
model::Document without(model::Document document, evaluate::Sweep variable) {
  document.name.clear();
  document.note.clear();
  document.leftSnags.clear();
  document.unknownKeys.clear();
  document.stock = {};
  switch (variable) {
    case evaluate::Sweep::Pitch:
      document.laying.pitch = {};
      break;
    case evaluate::Sweep::QuarterTurns:
      document.laying.quarterTurns.reset();
      break;
    case evaluate::Sweep::BendRadius:
      document.laying.bendRadius = {};
      break;
  }
  return document;
}

std::vector<double> spread(const SweepRange& range, evaluate::Sweep variable) {
  std::vector<double> at;
  for (int i = 0; i < kPoints; ++i) {
    double x = range.low + (range.high - range.low) * i / (kPoints - 1);
    if (variable == evaluate::Sweep::QuarterTurns) x = std::round(x);
    if (at.empty() || x > at.back()) at.push_back(x);
  }
  return at;
}

struct Question {
  model::Document reduced;  ///< what the curves depend on
  evaluate::Sweep variable = evaluate::Sweep::Pitch;
  SweepRange range;
  bool operator==(const Question&) const = default;
};
struct Answer {
  std::shared_ptr<const Question> question;
  std::vector<evaluate::SweepPoint> points;
};

}  // namespace

double sweepValue(const model::Document& document, const results::Results& results, evaluate::Sweep variable) {
  switch (variable) {
    case evaluate::Sweep::Pitch:
      return document.laying.pitch.si();
    case evaluate::Sweep::QuarterTurns:
      if (document.laying.quarterTurns) return *document.laying.quarterTurns;
      return results.layout.has_value() ? results.layout->mostQuarterTurns : 1;
    case evaluate::Sweep::BendRadius:
      return document.laying.bendRadius.si();
  }
  return 0.0;
}

SweepRange sweepRange(const model::Document& document, const results::Results& results, evaluate::Sweep variable) {
  const double outside = document.tube.outsideDiameter.value.si();
  const double value = sweepValue(document, results, variable);
  switch (variable) {
    case evaluate::Sweep::Pitch:
      return {outside, std::max(4.0 * outside, 1.25 * value)};
    case evaluate::Sweep::QuarterTurns: {
      const double most = results.layout.has_value() ? results.layout->mostQuarterTurns : 1.0;
      return {1.0, std::max({most, value, 2.0})};
    }
    case evaluate::Sweep::BendRadius: {
      const double narrow = std::min(document.frame.insideWidth, document.frame.insideHeight).si();
      return {outside, std::max(0.5 * narrow, 1.25 * value)};
    }
  }
  return {};
}

class SweepRunner::Private {
 public:
  Private(SweepRunner* runner, DocumentStore& theStore, Hub& theHub)
      : q(runner),
        store(theStore),
        hub(theHub),
        worker([this](Answer newest) {
          answer = std::move(newest);
          Q_EMIT q->sweepChanged();
        }),
        beforeWorker([this](Answer newest) {
          if (newest.question != beforeAsked) return;  // of one that was forgotten meanwhile
          before = std::move(newest);
          Q_EMIT q->sweepChanged();
        }) {}

  SweepRunner* q;
  DocumentStore& store;
  Hub& hub;
  std::shared_ptr<const Question> asked = std::make_shared<const Question>();
  Answer answer{asked, {}};

  void ask() {
    const model::Document& document = store.document();
    const evaluate::Sweep variable = hub.sweepVariable();
    Question question{without(document, variable), variable, sweepRange(document, *store.results(), variable)};
    if (variable != evaluate::Sweep::QuarterTurns && question.reduced == asked->reduced &&
        variable == asked->variable && contains(asked->range, sweepValue(document, *store.results(), variable))) {
      return;  // the mark moves along the same curves
    }
    if (question == *asked) return;
    asked = std::make_shared<const Question>(std::move(question));
    worker.submit([question = asked, document = store.shared()] {
      return Answer{question,
                    evaluate::sweep(*document, question->variable, spread(question->range, question->variable))};
    });
    askBefore();
    Q_EMIT q->sweepChanged();  // no longer settled
  }
  /// The kept design over the range that is shown.
  void askBefore() {
    if (!store.before()) {
      beforeAsked.reset();
      before = {};
      return;
    }
    const auto kept = store.before()->document;
    Question question{*kept, asked->variable, asked->range};
    if (beforeAsked && question == *beforeAsked) return;
    if (beforeAsked && question.variable != beforeAsked->variable) before = {};
    beforeAsked = std::make_shared<const Question>(std::move(question));
    beforeWorker.submit([question = beforeAsked] {
      return Answer{question, evaluate::sweep(question->reduced, question->variable,
                                              spread(question->range, question->variable))};
    });
  }
  static bool contains(const SweepRange& range, double value) { return value >= range.low && value <= range.high; }

  std::shared_ptr<const Question> beforeAsked;  ///< here the whole kept design stands for what curves depend on
  Answer before;
  NewestWins<Answer> worker, beforeWorker;
};

SweepRunner::SweepRunner(QObject* parent, DocumentStore& store, Hub& hub)
    : QObject(parent), d(std::make_unique<Private>(this, store, hub)) {
  connect(&store, &DocumentStore::changed, this, [this] { d->ask(); });
  connect(&hub, &Hub::sweepVariableChanged, this, [this] { d->ask(); });
  connect(&store, &DocumentStore::beforeChanged, this, [this] {
    d->askBefore();
    Q_EMIT sweepChanged();
  });
  d->ask();
}
SweepRunner::~SweepRunner() = default;

const std::vector<evaluate::SweepPoint>& SweepRunner::points() const { return d->answer.points; }
evaluate::Sweep SweepRunner::variable() const { return d->answer.question->variable; }
SweepRange SweepRunner::range() const { return d->answer.question->range; }
bool SweepRunner::settled() const { return d->answer.question == d->asked && !d->worker.isBusy(); }
const std::vector<evaluate::SweepPoint>& SweepRunner::beforePoints() const { return d->before.points; }
void SweepRunner::waitUntilSettled() {
  d->worker.finish();
  d->beforeWorker.finish();
}

}  // namespace sunspool::store
