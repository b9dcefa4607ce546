// SPDX-License-Identifier: GPL-3.0-or-later

// The one door on the panel a new project starts from, and the parts behind it: sun, heat, cutting.

#include <string>
#include <vector>

#include "core/climate/sun.h"
#include "core/evaluate/evaluate.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/model/defaults.h"
#include "core/stock/cutting.h"
#include "tests/bench/bench.h"

namespace {

using namespace sunspool;
using bench::Bench;
using bench::Sense;
using bench::Target;
using evaluate::Depth;

void oneDoor(Bench& bench) {
  const model::Document document = model::firstPanel();
  const auto tubeAt = [&](Depth depth, bool ranges) {
    return evaluate::evaluate(document, {.depth = depth, .ranges = ranges}).tubeLength.value.si();
  };
  const auto laid = evaluate::evaluate(document, {.depth = Depth::Layout, .ranges = false});
  const std::string size = std::to_string(static_cast<int>(laid.tubeLength.value.si())) + " m of tube";
  bench.time({"first panel, layout", "ms", 0, 0, {}, size + ", without ranges"},
             [&] { return tubeAt(Depth::Layout, false); });
  bench.time({"first panel, everything without ranges", "ms", 0, 0, {}, ""},
             [&] { return tubeAt(Depth::Everything, false); });
  bench.time({"first panel, everything with ranges", "ms", 0, 0, {}, "every spread propagated"},
             [&] { return tubeAt(Depth::Everything, true); });
  std::vector<double> pitches;
  for (int n = 0; n < 40; ++n) pitches.push_back(0.020 + 0.0015 * n);
  bench.time({"sweep of the pitch, 40 points", "ms", 0, 0, {}, "20 to 78.5 mm"},
             [&] { return evaluate::sweep(document, evaluate::Sweep::Pitch, pitches).back().tubeLength_m; });
  bench.time({"a day in quarter hours", "ms", 0, 0, {}, "steady model"},
             [&] { return evaluate::day(document)->toPool.si(); });
  bench.time({"the twelve months", "ms", 0, 0, {}, "a day each, on a worker"},
             [&] { return evaluate::months(document)->front().toPool.si(); });
  bench.time({"a day with the pump stopped", "ms", 0, 0, {}, "minutes to the tube's limit"},
             [&] { return evaluate::stoppedDay(document)->tubeLimit_K; });
}

void sun(Bench& bench) {
  const model::Document document = model::firstPanel();
  constexpr int kMonthLength[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  bench.time({"sun position, 8760 h", "ms", 0, 0, Target{Sense::AtMost, 3.0}, "one year, hour by hour"}, [&] {
    double sum = 0.0;
    model::Moment moment = document.moment;
    for (moment.month = 1; moment.month <= 12; ++moment.month) {
      for (moment.day = 1; moment.day <= kMonthLength[moment.month - 1]; ++moment.day) {
        for (int hour = 0; hour < 24; ++hour) {
          moment.clock_h = hour;
          sum += climate::sunPosition(document.place, moment)->zenith.radians();
        }
      }
    }
    return sum;
  });
}

std::vector<thermal::HeatRun> runsOf(const results::Results& results) {
  std::vector<thermal::HeatRun> runs;
  for (std::size_t i = 0; i < results.layout->runs.size(); ++i) {
    thermal::HeatRun run;
    run.flow_m3_s = results.flow->network.runs[i].flow_m3_s;
    for (const geometry::Piece& piece : results.layout->runs[i].path.pieces()) {
      const auto* arc = std::get_if<geometry::Arc>(&piece);
      run.stretches.push_back({geometry::length(piece), arc != nullptr ? arc->radius : 0.0, true});
    }
    runs.push_back(std::move(run));
  }
  return runs;
}

void steadyHeat(Bench& bench) {
  const model::Document document = model::firstPanel();
  const auto results = evaluate::evaluate(document, {.depth = Depth::Everything, .ranges = false});
  const auto sun = evaluate::sunNow(document);
  if (!results.layout.has_value() || !results.flow.has_value() || !sun.has_value()) return;
  const auto runs = runsOf(results);
  const auto panel = evaluate::panelHeat(document, *results.layout);
  const auto sky = evaluate::skyOver(document, *sun);
  const double inlet_K = document.pool.water.value.inKelvin();
  std::size_t cells = 0;
  const auto heat = thermal::steady(panel, sky, runs, inlet_K);
  if (!heat.has_value()) return;
  for (const auto& run : heat->runs) cells += run.profile.size() - 1;
  bench.time({"steady heat of the first panel", "ms", 0, 0, {}, std::to_string(cells) + " cells, marched"},
             [&] { return thermal::steady(panel, sky, runs, inlet_K)->toWater_W; });
}

void cutting(Bench& bench) {
  const stock::CutRule none{metres(0.0), metres(0.0)};
  const std::vector<stock::WantedPiece> eight{{"run", metres(34.2), 8}};
  const std::vector<stock::StockLength> roll{{"roll", metres(100.0), 0, true, {}}};
  bench.time({"cutting, 8 runs from rolls of 100 m", "ms", 0, 0, {}, ""},
             [&] { return 1.0 * stock::planCuts(eight, roll, none)->lengthsUsed; });
  const stock::CutRule saw{millimetres(3.0), millimetres(10.0)};
  std::vector<stock::WantedPiece> pieces;
  for (int n = 0; n < 64; ++n) pieces.push_back({"piece", millimetres(310.0 + 37.0 * ((n * 29) % 64)), 1});
  const std::vector<stock::StockLength> boards{{"short", metres(3.0), 2, true, 9.5},
                                               {"long", metres(4.2), 0, true, 12.9}};
  const auto plan = stock::planCuts(pieces, boards, saw);
  bench.time({"cutting, 64 different pieces, two boards",
              "ms",
              0,
              0,
              {},
              std::to_string(plan->lengthsUsed) + (plan->proven ? " boards, proven" : " boards, with a gap")},
             [&] { return 1.0 * stock::planCuts(pieces, boards, saw)->lengthsUsed; });
}

const bench::Registered kEvaluate("evaluate", [](Bench& bench) {
  oneDoor(bench);
  sun(bench);
  steadyHeat(bench);
  cutting(bench);
});

}  // namespace
