// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/tube_item.h"

#include <QImage>
#include <QPainter>
#include <QStyleOptionGraphicsItem>
#include <catch2/catch.hpp>

#include "app/panelview/scene_units.h"
#include "core/model/defaults.h"

using namespace sunspool;
using namespace sunspool::panelview;

namespace {

struct Drawn {
  layout::LaidRun run;
  QImage image;
  QTransform toImage;
  QColor at(geometry::Point p) const { return image.pixelColor(toImage.map(toScene(p)).toPoint()); }
};

/// One pixel a millimetre; the turns in the ramp's first colour, what comes after them in its last one.
Drawn drawn(const render::Look& look, const model::Document& document) {
  const Result<layout::LaidPanel> panel = layout::lay(document);
  REQUIRE(panel);
  Drawn result{panel->runs.front(), QImage(3400, 2900, QImage::Format_ARGB32_Premultiplied), {}};
  const double from = result.run.crossing ? result.run.crossing->from_m : result.run.path.length().si();
  const std::vector<ColourStep> colours = {{0.0, 0}, {from, kColourSteps - 1}};
  TubeItem item(look);
  item.show({TubeShape(result.run, document.tube.outsideDiameter.value.si(), colours)});
  result.image.fill(Qt::transparent);
  result.toImage = QTransform::fromTranslate(500.0, 1400.0);
  QPainter painter(&result.image);
  painter.setTransform(result.toImage);
  QStyleOptionGraphicsItem option;
  option.exposedRect = item.boundingRect();
  item.paint(&painter, &option, nullptr);
  return result;
}

bool alike(const QColor& a, const QColor& b) {
  return std::abs(a.red() - b.red()) + std::abs(a.green() - b.green()) + std::abs(a.blue() - b.blue()) < 12;
}

}  // namespace

TEST_CASE("Where a crossing meets the outermost turn, what lies on top is seen", "[panelview][analytic]") {
  const render::Look look;
  model::Document document = model::firstPanel();
  document.box.standOff = document.tube.outsideDiameter.value;
  const QColor turns = look.tokens().rampAt(0.0), tail = look.tokens().rampAt(1.0);
  for (const auto end : {model::InnerEnd::OverTheTurns, model::InnerEnd::UnderTheTurns}) {
    document.laying.innerEnd = end;
    const Drawn picture = drawn(look, document);
    // The tail leaves through the left stile; the outermost turn lies 40 mm from it. Beside both centre lines, where
    // nothing shines.
    const geometry::Point meeting{0.040 + 0.004, picture.run.returning.at.y + 0.004};
    CHECK(alike(picture.at(meeting), end == model::InnerEnd::OverTheTurns ? tail : turns));
    // Beyond the frame the tail is seen either way, and so are the turns elsewhere.
    CHECK(alike(picture.at(picture.run.returning.at + geometry::Point{-0.1, 0.004}), tail));
    CHECK(alike(picture.at({0.040 + 0.004, picture.run.returning.at.y - 0.2}), turns));
  }
}

TEST_CASE("A tail behind the back begins dashed beyond its hole", "[panelview]") {
  const render::Look look;
  model::Document document = model::firstPanel();
  document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
  const auto inked = [&](double tail_m) {
    document.laying.returnTail = metres(tail_m);
    const Drawn picture = drawn(look, document);
    const geometry::Point along = picture.run.path.tangentAt(picture.run.insideTo_m);
    const geometry::Point edge = picture.run.returning.at + geometry::Point{-along.y, along.x} * 0.010;
    int dashes = 0;
    for (int i = 17; i < 130; ++i)
      dashes += alike(picture.at(edge + along * (0.001 * i)), look.tokens().onPlate) ? 1 : 0;
    return dashes;
  };
  const int dashed = inked(1.4);
  CHECK(dashed > 20);
  CHECK(dashed < 110);
  CHECK(inked(0.0) < 5);
}
