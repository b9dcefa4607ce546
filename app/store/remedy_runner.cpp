// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/remedy_runner.h"

#include "app/store/newest_wins.h"
#include "app/store/tube_catalogue.h"
#include "core/checks/snag_keys.h"

namespace sunspool::store {

class RemedyRunner::Private {
 public:
  Private(RemedyRunner& runner, DocumentStore& documentStore)
      : store(documentStore), m_runner(runner), m_worker([this](Remedies answer) { deliver(std::move(answer)); }) {}

  void ask(const Snag& snag) {
    if (!store.isSettled() || store.isPreviewing()) return;
    const std::string key = checks::snagKey(snag);
    const auto document = store.shared();
    if (m_asked && m_asked->key == key && *m_asked->document == *document) return;
    m_asked = Remedies{document, key, {}, {}};
    known.reset();
    m_worker.submit([document, key, snag, results = store.results()] {
      Remedies found{document, key, remedies::remediesFor(*document, *results, snag, catalogueTubes()), {}};
      for (const remedies::Remedy& remedy : found.all) {
        std::shared_ptr<const model::Document> after;
        if (!remedy.asks) {
          const Result<model::Document> edited = remedy.edit(*document, 0.0);
          if (edited.has_value()) after = std::make_shared<const model::Document>(*edited);
        }
        found.after.push_back(std::move(after));
      }
      return found;
    });
  }
  void forget() {
    m_asked.reset();
    known.reset();
  }
  void deliver(Remedies answer) {
    const bool wanted = m_asked && m_asked->key == answer.key && m_asked->document == answer.document &&
                        *answer.document == store.document();
    if (!wanted) return;
    known = std::move(answer);
    Q_EMIT m_runner.remediesChanged();
  }
  bool isBusy() const { return m_worker.isBusy(); }
  void finish() { m_worker.finish(); }

  DocumentStore& store;
  std::optional<Remedies> known;

 private:
  RemedyRunner& m_runner;
  std::optional<Remedies> m_asked;
  NewestWins<Remedies> m_worker;
};

RemedyRunner::RemedyRunner(QObject* parent, DocumentStore& store)
    : QObject(parent), d(std::make_unique<Private>(*this, store)) {}
RemedyRunner::~RemedyRunner() = default;

void RemedyRunner::ask(const Snag& snag) { d->ask(snag); }
void RemedyRunner::forget() { d->forget(); }
const Remedies* RemedyRunner::remedies() const { return d->known ? &*d->known : nullptr; }
bool RemedyRunner::isBusy() const { return d->isBusy(); }
void RemedyRunner::waitUntilSettled() { d->finish(); }

Result<Done> RemedyRunner::take(std::size_t index, double typed_si, const QString& stepText) {
  if (!d->known || index >= d->known->all.size() || *d->known->document != d->store.document()) {
    return Error{ErrorCode::RemedyGone, "remedy", {}, {}};
  }
  const auto edit = d->known->all[index].edit;
  const Result<model::Document> after = edit(d->store.document(), typed_si);
  if (!after.has_value()) return after.error();
  d->store.apply([after](const model::Document&) { return after; }, stepText);
  return Done{};
}

}  // namespace sunspool::store
