// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/tokens.h"

#include <QSignalSpy>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "app/render/look.h"

using namespace sunspool::render;

namespace {

const std::vector<Theme> kThemes = {Theme::Light, Theme::Dark, Theme::ContrastOnWhite, Theme::ContrastOnBlack};

// Relative luminance and contrast: Web Content Accessibility Guidelines 2.1, definitions of those terms.
double channel(double share) { return share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4); }
double luminance(const QColor& c) {
  return 0.2126 * channel(c.redF()) + 0.7152 * channel(c.greenF()) + 0.0722 * channel(c.blueF());
}
double contrast(const QColor& a, const QColor& b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

struct Pair {
  std::string what;
  QColor on, ground;
};

}  // namespace

TEST_CASE("Black on white has a contrast of 21", "[render][analytic]") {
  CHECK_THAT(contrast(Qt::black, Qt::white), Catch::WithinAbs(21.0, 1e-9));
}

TEST_CASE("Every text has a contrast of at least 4.5 on every ground it lies on", "[render][property]") {
  for (const Theme theme : kThemes) {
    const Tokens t = tokensFor(theme, 1.0);
    std::vector<Pair> pairs;
    for (const auto& [name, ground] :
         {std::pair{"desk", t.desk}, {"paper", t.paper}, {"slip", t.slip}, {"wash", t.wash}}) {
      pairs.push_back({std::string("ink on ") + name, t.ink, ground});
      pairs.push_back({std::string("ink2 on ") + name, t.ink2, ground});
      pairs.push_back({std::string("violet on ") + name, t.violet, ground});
      pairs.push_back({std::string("straw ink on ") + name, t.strawInk, ground});
    }
    pairs.push_back({"flag", t.isDark() ? t.paper : t.slip, t.violet});
    pairs.push_back({"chip on plate", t.onPlate, t.plate});
    pairs.push_back({"print on tape", t.tapePrint, t.tape});
    pairs.push_back({"filled button", t.slip, t.ink});
    for (const Pair& pair : pairs) {
      CAPTURE(static_cast<int>(theme), pair.what);
      CHECK(contrast(pair.on, pair.ground) >= 4.5);
    }
  }
}

TEST_CASE("Every mark that carries meaning has a contrast of at least 3 on every ground", "[render][property]") {
  for (const Theme theme : kThemes) {
    const Tokens t = tokensFor(theme, 1.0);
    for (const QColor& ground : {t.desk, t.paper, t.slip, t.wash}) {
      CAPTURE(static_cast<int>(theme), ground.name().toStdString());
      CHECK(contrast(t.mark, ground) >= 3.0);
      CHECK(contrast(t.violet, ground) >= 3.0);
    }
    CAPTURE(static_cast<int>(theme));
    for (const QColor& colour : t.ramp) CHECK(contrast(colour, t.plate) >= 3.0);
  }
}

TEST_CASE("The temperature ramp grows lighter all the way and is quantised to 64 colours", "[render][property]") {
  for (const Theme theme : kThemes) {
    const Tokens t = tokensFor(theme, 1.0);
    CAPTURE(static_cast<int>(theme));
    std::set<QRgb> seen;
    double last = -1.0;
    for (int i = 0; i <= 1000; ++i) {
      const QColor colour = t.rampAt(i / 1000.0);
      seen.insert(colour.rgb());
      CHECK(luminance(colour) >= last);
      last = luminance(colour);
    }
    CHECK(seen.size() <= 64);
    CHECK(seen.size() >= 60);
    CHECK(t.rampAt(0.0) == t.ramp.front());
    CHECK(t.rampAt(1.0) == t.ramp.back());
    CHECK(t.rampAt(-3.0) == t.ramp.front());
    CHECK(t.rampAt(std::nan("")) == t.ramp.front());
  }
}

TEST_CASE("Text scale multiplies type and space, and lines by its root", "[render][analytic]") {
  const Tokens t = tokensFor(Theme::Light, 2.25);
  CHECK(font(t, Voice::Measured, 16.0).pixelSize() == 36);
  CHECK_THAT(t.px(8.0), Catch::WithinAbs(18.0, 1e-12));
  CHECK_THAT(t.line(2.0), Catch::WithinAbs(3.0, 1e-12));
}

TEST_CASE("A change of look is announced once and only when something changed", "[render]") {
  Look look;
  QSignalSpy spy(&look, &Look::changed);
  look.setTheme(Theme::Dark);
  look.setTheme(Theme::Dark);
  CHECK(spy.count() == 1);
  look.setTextScale(2.0);
  CHECK(spy.count() == 2);
  CHECK(look.tokens().theme == Theme::Dark);
  CHECK(look.tokens().textScale == 2.0);
}
