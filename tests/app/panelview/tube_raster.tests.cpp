// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/tube_raster.h"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

using namespace sunspool;
using namespace sunspool::panelview;

namespace {

const std::array kPlain = {BandLayer{6.3, QColor(200, 100, 50)}};

QImage blank(int width, int height) {
  QImage image(width, height, QImage::Format_ARGB32_Premultiplied);
  image.fill(Qt::transparent);
  return image;
}

/// Painted area in px^2: what covers a pixel by half counts half.
double areaOf(const QImage& image) {
  double area = 0.0;
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x) area += qAlpha(image.pixel(x, y)) / 255.0;
  return area;
}

/// 1 px per millimetre, the panel's origin at the lower left of a 400 px image.
const QTransform kToImage = QTransform::fromTranslate(0.0, 400.0);

}  // namespace

TEST_CASE("A painted band covers its length times its width, at any angle", "[panelview][property]") {
  const unsigned seed = 20250614;
  std::mt19937 random(seed);
  INFO("seed " << seed);
  std::uniform_real_distribution<double> place(0.05, 0.35);
  const BandProfile profile(kPlain);
  for (int i = 0; i < 40; ++i) {
    const geometry::Line line{{place(random), place(random)}, {place(random), place(random)}};
    const double length_px = geometry::length(line) * 1000.0;
    QImage image = blank(400, 400);
    paintBand(image, line, kToImage, profile);
    // Ends are cut by whole pixels: half a pixel of length each way.
    CHECK_THAT(areaOf(image), Catch::WithinAbs(length_px * 12.6, 12.6 + 0.004 * length_px * 12.6));
  }
}

TEST_CASE("A painted bend covers its arc length times its width", "[panelview][analytic]") {
  const BandProfile profile(kPlain);
  for (const double sweep :
       {0.3, std::numbers::pi / 2.0, -2.0, 3.0 * std::numbers::pi / 2.0, -2.0 * std::numbers::pi}) {
    const geometry::Arc arc{{0.2, 0.2}, 0.1, 0.7, sweep};
    QImage image = blank(400, 400);
    paintBand(image, arc, kToImage, profile);
    const double exact = 100.0 * std::abs(sweep) * 12.6;
    CAPTURE(sweep);
    CHECK_THAT(areaOf(image), Catch::WithinAbs(exact, 12.6 + 0.004 * exact));
  }
}

TEST_CASE("Pieces that follow one another leave no seam and no overlap", "[panelview][property]") {
  const BandProfile profile(kPlain);
  const geometry::Line whole{{0.05, 0.0831}, {0.35, 0.2713}};
  QImage once = blank(400, 400);
  paintBand(once, whole, kToImage, profile);
  QImage parts = blank(400, 400);
  for (int i = 0; i < 30; ++i)
    paintBand(parts,
              geometry::slice(whole, geometry::length(whole) * i / 30.0, geometry::length(whole) * (i + 1) / 30.0),
              kToImage, profile);
  CHECK_THAT(areaOf(parts), Catch::WithinRel(areaOf(once), 0.001));
  // Along the centre line every pixel is full.
  for (int i = 1; i < 300; ++i) {
    const geometry::Point p = geometry::pointOn(whole, geometry::length(whole) * i / 300.0);
    CHECK(qAlpha(parts.pixel(int(p.x * 1000.0), int(400.0 - p.y * 1000.0))) == 255);
  }
}

TEST_CASE("A line and the arc that follows it meet without a hole", "[panelview][property]") {
  const BandProfile profile(kPlain);
  const geometry::Line line{{0.1, 0.1}, {0.2005, 0.1}};
  const geometry::Arc arc{{0.2005, 0.18}, 0.08, -std::numbers::pi / 2.0, std::numbers::pi / 2.0};
  QImage image = blank(400, 400);
  paintBand(image, line, kToImage, profile);
  paintBand(image, arc, kToImage, profile);
  for (int x = 195; x < 206; ++x) CHECK(qAlpha(image.pixel(x, 300)) == 255);
}

TEST_CASE("Layers lie one over the other from the centre out", "[panelview][analytic]") {
  const std::array layers = {BandLayer{6.0, QColor(Qt::black)}, BandLayer{4.0, QColor(200, 100, 50)}};
  const BandProfile profile(layers);
  CHECK(profile.at(0.0) == qRgb(200, 100, 50));
  CHECK(profile.at(5.0) == qRgb(0, 0, 0));
  CHECK(qAlpha(profile.at(6.0)) > 100);
  CHECK(qAlpha(profile.at(6.0)) < 155);
  CHECK_THAT(profile.reach_px(), Catch::WithinAbs(6.5, 1e-12));
}

TEST_CASE("Pieces beyond the image, without length or very large do no harm", "[panelview][fault]") {
  const BandProfile profile(kPlain);
  QImage image = blank(100, 100);
  paintBand(image, geometry::Line{{-5.0, -5.0}, {-4.0, -5.0}}, kToImage, profile);
  paintBand(image, geometry::Line{{0.1, 0.1}, {0.1, 0.1}}, kToImage, profile);
  paintBand(image, geometry::Line{{-5000.0, 0.35}, {5000.0, 0.351}}, kToImage, profile);
  paintBand(image, geometry::Arc{{0.0, 0.0}, 1e-6, 0.0, 1.0}, kToImage, profile);
  paintBand(image, geometry::Arc{{0.05, -900.0}, 900.35, 1.0, 1.0}, kToImage, profile);
  CHECK(areaOf(image) <= 100.0 * 100.0);
}
