// SPDX-License-Identifier: GPL-3.0-or-later

#include "core/remedies/remedies.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <map>
#include <set>

#include "core/checks/snag_keys.h"
#include "core/evaluate/evaluate.h"
#include "core/io/catalogue.h"
#include "core/io/files.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"
#include "tests/core/remedies/shown_snags.h"

using namespace sunspool;
using tests::ShownSnag;
using tests::shownSnags;

namespace {

results::Results reckoned(const model::Document& document) { return evaluate::evaluate(document, {.ranges = false}); }

const Snag* find(const results::Results& results, SnagCode code) {
  const auto found =
      std::find_if(results.snags.begin(), results.snags.end(), [&](const Snag& snag) { return snag.code == code; });
  return found != results.snags.end() ? &*found : nullptr;
}

std::vector<model::Tube> catalogue() {
  const auto text = io::readFile(std::string(SUNSPOOL_RESOURCES) + "/catalogue/tubes.json");
  REQUIRE(text.has_value());
  const auto read = io::readTubeCatalogue(*text);
  REQUIRE(read.has_value());
  std::vector<model::Tube> tubes;
  for (const auto& entry : read->tubes) tubes.push_back(entry.tube);
  return tubes;
}

bool isOfTheStoppedPump(const std::string& key) {
  return key.find("when_stopped") != std::string::npos || key.starts_with("first_slug_scalds") ||
         key.starts_with("tube_collapses_when_hot");
}

/// Snags of the second that are worse than in the first: new, or grown from Close.
std::set<std::string> worseBorn(const results::Results& before, const results::Results& after) {
  std::map<std::string, SnagState> was;
  for (const Snag& snag : before.snags) was[checks::snagKey(snag)] = snag.state;
  std::set<std::string> worse;
  for (const Snag& snag : after.snags) {
    const std::string key = checks::snagKey(snag);
    // Where the layers did not fit, the stopped pump could not be reckoned: its findings are no fault of the remedy.
    if (!before.stopped.has_value() && isOfTheStoppedPump(key)) continue;
    if (snag.state == SnagState::Snag && (!was.contains(key) || was[key] != SnagState::Snag)) worse.insert(key);
  }
  return worse;
}

/// What a builder would type.
double typedFor(Dimension asks) {
  if (asks == Dimension::Money) return 12.5;
  if (asks == Dimension::Velocity) return 5.0;
  return celsius(180.0).inKelvin();
}

}  // namespace

TEST_CASE("Every finding has a design that shows it", "[remedies][property]") {
  std::set<SnagCode> shown;
  for (const ShownSnag& one : shownSnags()) {
    INFO(checks::codeKey(one.code));
    CHECK(find(reckoned(one.document), one.code) != nullptr);
    shown.insert(one.code);
  }
  for (int code = 0; code <= static_cast<int>(SnagCode::PriceNotKnown); ++code) {
    INFO(checks::codeKey(static_cast<SnagCode>(code)));
    CHECK(shown.contains(static_cast<SnagCode>(code)));
  }
}

TEST_CASE("Every remedy offered takes its finding away and brings nothing worse", "[remedies][property]") {
  const std::vector<model::Tube> tubes = catalogue();
  for (const ShownSnag& one : shownSnags()) {
    INFO(checks::codeKey(one.code));
    const results::Results before = reckoned(one.document);
    const Snag* snag = find(before, one.code);
    REQUIRE(snag != nullptr);
    const auto offered = remedies::remediesFor(one.document, before, *snag, tubes);
    CHECK(!offered.empty());
    CHECK(offered.size() <= 3);
    for (std::size_t i = 0; i < offered.size(); ++i) {
      INFO("remedy " << i + 1 << " of kind " << static_cast<int>(offered[i].kind) << " " << offered[i].detail);
      const auto after = offered[i].edit(one.document, offered[i].asks ? typedFor(*offered[i].asks) : 0.0);
      REQUIRE(after.has_value());
      CHECK(*after != one.document);
      const results::Results then = reckoned(*after);
      CHECK(std::none_of(then.snags.begin(), then.snags.end(),
                         [&](const Snag& other) { return checks::snagKey(other) == checks::snagKey(*snag); }));
      const std::set<std::string> worse = worseBorn(before, then);
      CHECK(worse == std::set<std::string>{});
      CHECK(offered[i].asks.has_value() == !offered[i].price.has_value());
      if (offered[i].price) {
        const remedies::Price price = remedies::priceOf(one.document, before, *after, then);
        CHECK(price.tube == offered[i].price->tube);
        CHECK(price.heat == offered[i].price->heat);
      }
      const auto read = io::readDocument(io::writeDocument(*after));
      REQUIRE(read.has_value());
      CHECK(read->document == *after);
    }
  }
}

TEST_CASE("A frame whose layers did not fit gains depth and then tells what the stopped pump does to it",
          "[remedies][property]") {
  model::Document document = model::firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  document.frame.timberDepth = millimetres(50.0);
  const results::Results before = reckoned(document);
  REQUIRE_FALSE(before.stopped.has_value());
  const Snag* snag = find(before, SnagCode::TubeUnsupportedDepth);
  REQUIRE(snag != nullptr);
  const auto offered = remedies::remediesFor(document, before, *snag);
  REQUIRE_FALSE(offered.empty());
  const auto after = offered.front().edit(document, 0.0);
  REQUIRE(after.has_value());
  CHECK(reckoned(*after).stopped.has_value());
}

TEST_CASE("The same finding gives the same remedies twice", "[remedies][property]") {
  const ShownSnag one = shownSnags().front();
  const results::Results results = reckoned(one.document);
  const Snag* snag = find(results, one.code);
  REQUIRE(snag != nullptr);
  const auto first = remedies::remediesFor(one.document, results, *snag);
  const auto second = remedies::remediesFor(one.document, results, *snag);
  REQUIRE(first.size() == second.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    CHECK(first[i].kind == second[i].kind);
    CHECK(first[i].price == second[i].price);
  }
}

TEST_CASE("A shade cloth that cools the tube enough takes the scald away, in 50 degrees of air nothing does",
          "[remedies][property]") {
  const model::Document warm = model::firstPanel();
  const results::Results before = reckoned(warm);
  const Snag* scald = find(before, SnagCode::FirstSlugScalds);
  REQUIRE(scald != nullptr);
  const auto offered = remedies::remediesFor(warm, before, *scald);
  CHECK(std::any_of(offered.begin(), offered.end(),
                    [](const auto& remedy) { return remedy.kind == remedies::RemedyKind::ShadeCloth; }));
  model::Document hot = warm;
  hot.conditions.air.value = celsius(50.0);
  const results::Results inHeat = reckoned(hot);
  const Snag* still = find(inHeat, SnagCode::FirstSlugScalds);
  REQUIRE(still != nullptr);
  CHECK(remedies::remediesFor(hot, inHeat, *still).empty());
}

TEST_CASE("A price of nothing is a price, one below nothing is refused", "[remedies][fault]") {
  model::Document document = model::firstPanel();
  document.stock.rolls.front().price.reset();
  const results::Results results = reckoned(document);
  const Snag* snag = find(results, SnagCode::PriceNotKnown);
  REQUIRE(snag != nullptr);
  const auto offered = remedies::remediesFor(document, results, *snag);
  REQUIRE_FALSE(offered.empty());
  CHECK(offered.front().asks == Dimension::Money);
  CHECK(offered.front().detail.starts_with("tube:"));
  const auto free = offered.front().edit(document, 0.0);
  REQUIRE(free.has_value());
  CHECK(free->stock.rolls.front().price == model::Price(0.0));
  CHECK_FALSE(offered.front().edit(document, -1.0).has_value());
  CHECK_FALSE(offered.front().edit(document, std::nan("")).has_value());
}

TEST_CASE("An unknown price makes a remedy's money unknown only where it changes what is bought",
          "[remedies][property]") {
  model::Document before = model::firstPanel();
  const auto wider = model::withBendRadius(before, millimetres(200.0));
  REQUIRE(wider.has_value());
  const auto price = remedies::priceOf(before, reckoned(before), *wider, reckoned(*wider));
  REQUIRE(price.money.has_value());
  CHECK(*price.money == 0.0);
  CHECK(price.tube.si() < 0.0);
  before.stock.rolls.front().price.reset();
  model::Document twice = before;
  twice.panelsAlike = 2;
  CHECK_FALSE(remedies::priceOf(before, reckoned(before), twice, reckoned(twice)).money.has_value());
}
