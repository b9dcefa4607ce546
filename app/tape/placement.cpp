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

SizeSet setFor(int width) { return width >= kLargeFrom_px ? SizeSet::Large : SizeSet::Small; }
const Heights& heightsOf(SizeSet set) { return set == SizeSet::Large ? kLarge : kSmall; }

/// What still fits of the strips: the Tape itself and the water stay longest.
Heights folded(Heights heights, double available) {
  const auto fits = [&] { return heights.all() <= available; };
  if (!fits()) heights.under = 6.0;
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
  const double most = std::max(words, 0.25 * whole);
  const double share = whole * wanted.rest_m / (wanted.tube_m + wanted.rest_m);
  // Room for the words, inside the rest of the roll or after it; never less than the strips' axis labels need.
  const double beside = share >= words ? share : std::min(share, 0.1 * whole) + words;
  const double zone = std::clamp(std::max(beside, tokens.px(64.0)), 0.0, std::min(most + 0.1 * whole, 0.6 * whole));
  place.end = place.right - zone;
  place.perMetre = (place.end - place.left) / wanted.tube_m;
  const double drawn = wanted.rest_m * place.perMetre;
  place.rollIsCut = drawn > zone + 0.5;
  place.rollEnd = place.end + std::min(drawn, zone);
}

}  // namespace

int preferredHeight(int width, const render::Tokens& tokens) {
  return qRound(tokens.px(heightsOf(setFor(width)).all()));
}

Placement placementFor(const Wanted& wanted, const render::Tokens& tokens) {
  Placement place;
  place.size = wanted.size;
  place.set = setFor(wanted.size.width());
  place.side = wanted.side;
  placeAlong(place, wanted, tokens);
  const double available = wanted.size.height() / tokens.px(1.0);
  const Heights heights = stretched(folded(heightsOf(place.set), available), available);
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
