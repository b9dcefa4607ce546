// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/placement.h"

#include <algorithm>
#include <array>

namespace sunspool::tape {

namespace {

constexpr int kLargeFrom_px = 1600;

struct Heights {
  double above, bend, water, waterLine, marks, body, gap, belowWaterLine, belowMarks, under;
  double all() const {
    return above + bend + water + waterLine + marks + body + 2.0 * gap + belowWaterLine + belowMarks + under;
  }
};
constexpr Heights kLarge{12.0, 64.0, 60.0, 78.0, 24.0, 42.0, 9.0, 7.0, 3.0, 10.0};
constexpr Heights kSmall{9.0, 48.0, 46.0, 60.0, 20.0, 36.0, 7.0, 5.0, 3.0, 21.0};

constexpr double kLittleUnder = 6.0;
constexpr double kPumpOverBody = 1.75;  ///< the wheel stands higher than the tube

constexpr double kMostRest = 0.3;        ///< of the ruler, for the rest of a roll much longer than the run
constexpr double kMostBesideTube = 0.6;  ///< of the ruler, for anything that is not the run

SizeSet setFor(int width) { return width >= kLargeFrom_px ? SizeSet::Large : SizeSet::Small; }
const Heights& heightsOf(SizeSet set) { return set == SizeSet::Large ? kLarge : kSmall; }

/// What still fits of the strips: the Tape itself and the water stay longest.
Heights folded(Heights heights, double available) {
  const auto fits = [&] { return heights.all() <= available; };
  if (!fits()) heights.under = kLittleUnder;
  if (!fits()) heights.marks = heights.belowMarks = 0.0;
  if (!fits()) heights.bend = 0.0;
  if (!fits()) heights.waterLine = heights.belowWaterLine = 0.0;
  if (!fits()) heights.water = 0.0;
  return heights;
}

/// A higher Tape gives its strips the height.
Heights stretched(Heights heights, double available) {
  const double strips = heights.bend + heights.water + heights.waterLine;
  const double spare = available - heights.all();
  if (spare <= 0.0 || strips <= 0.0) return heights;
  const double factor = 1.0 + spare / strips;
  for (double* height : {&heights.bend, &heights.water, &heights.waterLine}) *height *= factor;
  return heights;
}

void placeAlong(Placement& place, const Wanted& wanted, const render::Tokens& tokens) {
  place.left = place.side + tokens.px(18.0);
  place.right = std::max(place.left + 40.0, wanted.size.width() - tokens.px(30.0));
  const double whole = place.right - place.left;
  const double words = wanted.restWords + tokens.px(24.0);
  const double ratio = wanted.rest_m / wanted.tube_m;
  // The rest of the roll at the scale of the tube, with its words in it, or after it where it is too short for them.
  const double inside = whole * ratio / (1.0 + ratio);
  const double zone =
      inside >= words ? std::min(inside, std::max(kMostRest * whole, words)) : (whole * ratio + words) / (1.0 + ratio);
  const double axisLabels = tokens.px(64.0);
  const double taken = std::min(std::max(zone, axisLabels), kMostBesideTube * whole);
  place.end = place.right - taken;
  place.perMetre = (place.end - place.left) / wanted.tube_m;
  const double drawn = wanted.rest_m * place.perMetre;
  place.rollIsCut = drawn > taken + 0.5;
  place.rollEnd = place.end + std::min(drawn, taken);
}

}  // namespace

int preferredHeight(int width, const render::Tokens& tokens) {
  return qRound(tokens.px(heightsOf(setFor(width)).all()));
}

Placement placementFor(const Wanted& wanted, const render::Tokens& tokens) {
  Placement place;
  place.size = wanted.size;
  const double available = wanted.size.height() / tokens.px(1.0);
  place.set = setFor(wanted.size.width());
  if (heightsOf(place.set).all() > available + 1.0) place.set = SizeSet::Small;
  place.side = wanted.side;
  placeAlong(place, wanted, tokens);
  Heights heights = stretched(folded(heightsOf(place.set), available), available);
  const double room = available - kLittleUnder - 4.0;
  place.bodyScale = std::clamp(room / (heights.body * kPumpOverBody), 0.2, 1.0);
  heights.body *= place.bodyScale;
  const double width = place.end - place.left;
  // From below: the Tape keeps its place at the foot of the window however much is folded away.
  double y = wanted.size.height();
  const auto strip = [&](double height, double below) {
    y -= tokens.px(height + below);
    return QRectF(place.left, y, width, tokens.px(height));
  };
  place.body = strip(heights.body, heights.under);
  place.marks = strip(heights.marks, heights.belowMarks);
  place.waterLine = strip(heights.waterLine, heights.belowWaterLine);
  place.water = strip(heights.water, heights.gap);
  place.bend = strip(heights.bend, heights.gap);
  return place;
}

}  // namespace sunspool::tape
