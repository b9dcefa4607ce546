// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/sweeps.h"

#include <QSignalSpy>
#include <catch2/catch.hpp>

#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::store {
namespace {

Edit pitch(double millimetre) {
  return [=](model::Document document) { return model::withPitch(std::move(document), millimetres(millimetre)); };
}

TEST_CASE("The curves span the present design in rising steps", "[store][sweep][analytic]") {
  DocumentStore store(model::firstPanel());
  Hub hub;
  SweepRunner sweeps(nullptr, store, hub);
  for (const evaluate::Sweep variable :
       {evaluate::Sweep::Pitch, evaluate::Sweep::QuarterTurns, evaluate::Sweep::BendRadius}) {
    hub.setSweepVariable(variable);
    sweeps.waitUntilSettled();
    REQUIRE(sweeps.settled());
    CHECK(sweeps.variable() == variable);
    const auto& points = sweeps.points();
    REQUIRE(points.size() >= 2);
    CHECK(points.size() <= 40);
    for (std::size_t i = 1; i < points.size(); ++i) CHECK(points[i].x > points[i - 1].x);
    const double present = sweepValue(store.document(), *store.results(), variable);
    CHECK(points.front().x <= present);
    CHECK(points.back().x >= present);
    CHECK(std::any_of(points.begin(), points.end(), [](const auto& point) { return point.legal; }));
  }
}

TEST_CASE("Moving along the variable itself asks for no new curve", "[store][sweep][analytic]") {
  DocumentStore store(model::firstPanel());
  Hub hub;
  SweepRunner sweeps(nullptr, store, hub);
  sweeps.waitUntilSettled();
  QSignalSpy changed(&sweeps, &SweepRunner::sweepChanged);
  REQUIRE(store.apply(pitch(30), QStringLiteral("Type pitch")));
  CHECK(sweeps.settled());
  CHECK(changed.count() == 0);
  REQUIRE(store.apply([](model::Document document) { return model::withInsideWidth(std::move(document), metres(1.0)); },
                      QStringLiteral("Narrow")));
  CHECK_FALSE(sweeps.settled());
  sweeps.waitUntilSettled();
  CHECK(sweeps.settled());
  CHECK(changed.count() == 2);  // no longer settled, settled
}

TEST_CASE("The newest design wins and the curves are its own", "[store][sweep][property]") {
  DocumentStore store(model::firstPanel());
  Hub hub;
  SweepRunner sweeps(nullptr, store, hub);
  for (int i = 0; i < 30; ++i) {
    REQUIRE(store.apply(
        [&](model::Document document) { return model::withInsideWidth(std::move(document), metres(1.0 + 0.01 * i)); },
        QStringLiteral("Widen")));
  }
  sweeps.waitUntilSettled();
  std::vector<double> at;
  for (const auto& point : sweeps.points()) at.push_back(point.x);
  const auto expected = evaluate::sweep(store.document(), evaluate::Sweep::Pitch, at);
  REQUIRE(expected.size() == sweeps.points().size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CHECK(sweeps.points()[i].tubeLength_m == expected[i].tubeLength_m);
    CHECK(sweeps.points()[i].heat_W == expected[i].heat_W);
  }
}

TEST_CASE("The kept design has its curves over the range that is shown, until it is forgotten", "[store][sweep]") {
  DocumentStore store(model::firstPanel());
  Hub hub;
  SweepRunner sweeps(nullptr, store, hub);
  sweeps.waitUntilSettled();
  CHECK(sweeps.beforePoints().empty());
  store.keepAsBefore();
  sweeps.waitUntilSettled();
  REQUIRE(sweeps.beforePoints().size() == sweeps.points().size());
  CHECK(sweeps.beforePoints()[7].heat_W == sweeps.points()[7].heat_W);
  const double kept = sweeps.beforePoints()[7].heat_W;
  REQUIRE(store.apply([](model::Document document) { return model::withInsideWidth(std::move(document), metres(1.0)); },
                      QStringLiteral("Narrow")));
  sweeps.waitUntilSettled();
  REQUIRE(sweeps.beforePoints().size() == sweeps.points().size());
  CHECK(sweeps.beforePoints()[7].x == sweeps.points()[7].x);
  CHECK(sweeps.beforePoints()[7].heat_W == kept);
  CHECK(sweeps.points()[7].heat_W < kept);
  hub.setSweepVariable(evaluate::Sweep::BendRadius);
  sweeps.waitUntilSettled();
  CHECK(sweeps.beforePoints().front().x == sweeps.points().front().x);
  store.forgetBefore();
  CHECK(sweeps.beforePoints().empty());
}

TEST_CASE("The hub tells only what has changed", "[store][hub][analytic]") {
  Hub hub;
  QSignalSpy here(&hub, &Hub::hereChanged);
  QSignalSpy ghost(&hub, &Hub::ghostChanged);
  hub.setHere(0, 20.0);
  hub.setHere(0, 20.0);
  CHECK(here.count() == 1);
  CHECK(hub.station_m() == 20.0);
  hub.setGhost(0.03);
  hub.setGhost(std::nullopt);
  hub.setGhost(std::nullopt);
  CHECK(ghost.count() == 2);
}

}  // namespace
}  // namespace sunspool::store
