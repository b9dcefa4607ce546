// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/remedy_runner.h"

#include <QCoreApplication>
#include <QSignalSpy>
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/checks/snag_keys.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::store {
namespace {

struct Asked {
  DocumentStore store{tight()};
  RemedyRunner runner{nullptr, store};

  static model::Document tight() {
    model::Document document = model::firstPanel();
    document.laying.bendRadius = millimetres(100.0);
    return document;
  }
  Snag bend() {
    store.waitUntilSettled();
    const auto& snags = store.results()->snags;
    const auto found = std::find_if(snags.begin(), snags.end(),
                                    [](const Snag& snag) { return snag.code == SnagCode::BendLikelyToFlatten; });
    REQUIRE(found != snags.end());
    return *found;
  }
};

TEST_CASE("The remedies of a finding come with the design they were found for and the designs after them", "[store]") {
  Asked asked;
  QSignalSpy came(&asked.runner, &RemedyRunner::remediesChanged);
  asked.runner.ask(asked.bend());
  asked.runner.waitUntilSettled();
  REQUIRE(asked.runner.remedies() != nullptr);
  CHECK(came.count() == 1);
  const Remedies& known = *asked.runner.remedies();
  CHECK(known.key == "bend_likely_to_flatten/A");
  CHECK(*known.document == asked.store.document());
  REQUIRE_FALSE(known.all.empty());
  REQUIRE(known.after.size() == known.all.size());
  CHECK(known.after.front()->laying.bendRadius > asked.store.document().laying.bendRadius);
  asked.runner.ask(asked.bend());  // the same question is not asked twice
  CHECK_FALSE(asked.runner.isBusy());
}

TEST_CASE("An answer about a design that has changed is dropped", "[store]") {
  Asked asked;
  asked.runner.ask(asked.bend());
  REQUIRE(asked.store.apply([](model::Document d) { return model::withMargin(std::move(d), millimetres(31.0)); },
                            QStringLiteral("Change the margin")));
  asked.runner.waitUntilSettled();
  CHECK(asked.runner.remedies() == nullptr);
  asked.runner.ask(asked.bend());
  asked.runner.waitUntilSettled();
  REQUIRE(asked.runner.remedies() != nullptr);
  CHECK(*asked.runner.remedies()->document == asked.store.document());
}

TEST_CASE("Taking a remedy is one step; one of another design is refused and changes nothing", "[store][fault]") {
  Asked asked;
  const std::string before = io::writeDocument(asked.store.document());
  asked.runner.ask(asked.bend());
  asked.runner.waitUntilSettled();
  REQUIRE(asked.runner.take(0, 0.0, QStringLiteral("Take a remedy")).has_value());
  CHECK(asked.store.undoStack()->count() == 1);
  const Result<Done> again = asked.runner.take(0, 0.0, QStringLiteral("Take a remedy"));
  REQUIRE_FALSE(again.has_value());
  CHECK(again.error().code == ErrorCode::RemedyGone);
  CHECK(asked.store.undoStack()->count() == 1);
  asked.store.undoStack()->undo();
  CHECK(io::writeDocument(asked.store.document()) == before);
  CHECK_FALSE(asked.runner.take(99, 0.0, QStringLiteral("Take a remedy")).has_value());
}

}  // namespace
}  // namespace sunspool::store
