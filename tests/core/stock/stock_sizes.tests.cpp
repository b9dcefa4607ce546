// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/stock/stock_sizes.h"

#include <catch2/catch.hpp>

#include "core/model/defaults.h"

using namespace sunspool;
using stock::FrameSide;
using stock::StockSize;
using stock::stockSizes;

namespace {

model::Document bare() {
  model::Document document = model::firstPanel();  // rails through, timber 35 mm wide, kerf 3 mm, squaring 5 mm
  document.stock.timbers.clear();
  document.stock.sheets.clear();
  return document;
}

std::vector<double> insides(const std::vector<StockSize>& sizes) {
  std::vector<double> all;
  for (const StockSize& size : sizes) all.push_back(size.inside.si());
  return all;
}

void checkInsides(const std::vector<StockSize>& sizes, const std::vector<double>& expected) {
  REQUIRE(sizes.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i)
    CHECK_THAT(sizes[i].inside.si(), Catch::WithinAbs(expected[i], 1e-12));
}

}  // namespace

TEST_CASE("A plate's sheet is used up at its sides, their halves and thirds less the saw cuts", "[stock][analytic]") {
  model::Document document = bare();
  document.stock.sheets = {{"steel", model::SheetUse::Plate, metres(1.25), metres(2.5), 1, {}, Sureness::Label, false}};
  // (1.25 - 2 * 0.003) / 3, (1.25 - 0.003) / 2, 1.25
  checkInsides(stockSizes(document, FrameSide::Width), {1.244 / 3.0, 0.6235, 1.25});
  checkInsides(stockSizes(document, FrameSide::Height), {2.494 / 3.0, 1.2485, 2.5});
  const StockSize half = stockSizes(document, FrameSide::Width)[1];
  CHECK(half == StockSize{half.inside, StockSize::Part::Sheet, "steel", model::SheetUse::Plate, 2});
}

TEST_CASE("A sheet that may be turned counts with both sides, once where they agree", "[stock][analytic]") {
  model::Document document = bare();
  document.stock.sheets = {{"ply", model::SheetUse::Backing, metres(1.2), metres(2.403), 1, {}}};
  const auto sizes = stockSizes(document, FrameSide::Width);
  // half of 2.403 is the same 1.2 as the whole short side, which is kept
  checkInsides(sizes, {1.194 / 3.0, 0.5985, 2.397 / 3.0, 1.2, 2.403});
  CHECK(sizes[3].shares == 1);
}

TEST_CASE("Glazing lies over the frame, so that the inside is smaller than the sheet", "[stock][analytic]") {
  model::Document document = bare();
  document.stock.sheets = {
      {"twin wall", model::SheetUse::Glazing, metres(1.05), metres(3.0), 1, {}, Sureness::Label, false}};
  const auto sizes = stockSizes(document, FrameSide::Width);
  CHECK_THAT(insides(sizes).back(), Catch::WithinAbs(1.05 - 2.0 * 0.025, 1e-12));
  document.box.glazing.reset();
  CHECK(stockSizes(document, FrameSide::Width).empty());
}

TEST_CASE("Rails run through to the outside, stiles stand between them", "[stock][analytic]") {
  model::Document document = bare();
  document.stock.timbers = {{"board", metres(4.2), 0, {}}};
  // rails: (4.2 - 0.005 - (n - 1) 0.003) / n - 2 * 0.035; stiles the same without the timber
  checkInsides(stockSizes(document, FrameSide::Width), {4.189 / 3.0 - 0.07, 2.096 - 0.07, 4.195 - 0.07});
  checkInsides(stockSizes(document, FrameSide::Height), {4.189 / 3.0, 2.096, 4.195});
  CHECK(stockSizes(document, FrameSide::Width)[0].part == StockSize::Part::Rail);
  document.frame.railsThrough = false;
  checkInsides(stockSizes(document, FrameSide::Width), {4.189 / 3.0, 2.096, 4.195});
  CHECK(stockSizes(document, FrameSide::Height)[0].part == StockSize::Part::Stile);
  CHECK_THAT(stockSizes(document, FrameSide::Height)[0].inside.si(), Catch::WithinAbs(4.189 / 3.0 - 0.07, 1e-12));
}

TEST_CASE("Offcuts too small for a panel click to nothing", "[stock][analytic]") {
  model::Document document = bare();
  document.stock.sheets = {{"offcut", model::SheetUse::Plate, metres(0.15), metres(0.12), 1, {}}};
  checkInsides(stockSizes(document, FrameSide::Height), {0.12, 0.15});
}
