// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/marks.h"

#include <QApplication>
#include <QComboBox>
#include <QImage>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <catch2/catch.hpp>

#include "app/render/style.h"

using namespace sunspool;
using namespace sunspool::render;

namespace {

int pixelsOf(const QImage& image, const QColor& colour) {
  int count = 0;
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x) count += image.pixel(x, y) == colour.rgb() ? 1 : 0;
  return count;
}

QImage drawn(const Tokens& tokens, void (*draw)(QPainter&, const Tokens&)) {
  QImage image(200, 60, QImage::Format_RGB32);
  image.fill(tokens.paper);
  QPainter painter(&image);
  draw(painter, tokens);
  return image;
}

int edgePixels(EdgeState state) {
  const Tokens tokens = tokensFor(Theme::Light, 1.0);
  QImage image(200, 60, QImage::Format_RGB32);
  image.fill(tokens.paper);
  QPainter painter(&image);
  drawStateEdge(painter, tokens, {10.0, 20.0}, 150.0, state, tokens.ink);
  painter.end();
  return pixelsOf(image, tokens.ink);
}

}  // namespace

TEST_CASE("The state edge grows by a tooth per degree and is broken when not known", "[render][ui]") {
  const int smooth = edgePixels(EdgeState::Smooth);
  const int one = edgePixels(EdgeState::OneTooth);
  const int two = edgePixels(EdgeState::TwoTeeth);
  const int dashed = edgePixels(EdgeState::Dashed);
  CHECK(smooth > 0);
  CHECK(one > smooth + 10);
  CHECK(two - one > 10);
  CHECK(dashed < smooth);
  CHECK(dashed > 0);
}

TEST_CASE("A snag outweighs close, close outweighs not known, and order does not matter", "[render][property]") {
  const EdgeState order[] = {EdgeState::Smooth, EdgeState::Dashed, EdgeState::OneTooth, EdgeState::TwoTeeth};
  for (int i = 0; i < 4; ++i)
    for (int j = 0; j < 4; ++j) CHECK(worse(order[i], order[j]) == order[std::max(i, j)]);
}

TEST_CASE("A number's drawn width is the width that was promised", "[render][ui]") {
  const Tokens tokens = tokensFor(Theme::Light, 1.0);
  const format::NumberAndUnit value{QStringLiteral("16.3"), QStringLiteral("L")};
  QImage image(200, 60, QImage::Format_RGB32);
  QPainter painter(&image);
  const double end = drawNumber(painter, tokens, {12.0, 40.0}, value);
  CHECK_THAT(end - 12.0, Catch::WithinAbs(numberWidth(tokens, value), 1e-9));
}

TEST_CASE("A painter comes back from every mark as it was", "[render][property]") {
  const Tokens tokens = tokensFor(Theme::Dark, 1.0);
  QImage image(400, 200, QImage::Format_RGB32);
  QPainter painter(&image);
  painter.setPen(QPen(Qt::red, 3.0));
  painter.setBrush(Qt::green);
  const QPen pen = painter.pen();
  drawSlip(painter, tokens, {50, 50, 100, 40}, EdgeState::TwoTeeth);
  drawBeadRing(painter, tokens, {20, 20}, 11);
  drawSunMark(painter, tokens, {60, 60});
  drawSnagTag(painter, tokens, {60, 60}, QStringLiteral("2"), EdgeState::OneTooth);
  drawDimension(painter, tokens, {{0, 100}, {300, 100}, QStringLiteral("2410"), tokens.desk, false});
  drawRingLetter(painter, tokens, {60, 60}, QStringLiteral("F"));
  drawFocusRing(painter, tokens, {60, 60, 20, 20}, Ground::Plate);
  CHECK(painter.pen() == pen);
  CHECK(painter.brush() == QBrush(Qt::green));
  CHECK(painter.transform().isIdentity());
}

TEST_CASE("High contrast drops the shadow", "[render][ui]") {
  const auto shadow = [](QPainter& p, const Tokens& t) { drawShadow(p, t, {60, 10, 60, 20}); };
  const Tokens light = tokensFor(Theme::Light, 1.0), white = tokensFor(Theme::ContrastOnWhite, 1.0);
  CHECK(pixelsOf(drawn(light, shadow), light.paper) < 200 * 60);
  CHECK(pixelsOf(drawn(white, shadow), white.paper) == 200 * 60);
}

TEST_CASE("A dimension's number lies on the middle of its line and turns with it", "[render][analytic]") {
  const Tokens tokens = tokensFor(Theme::Light, 1.0);
  const QRectF lying = dimensionTextRect(tokens, {{0, 100}, {300, 100}, QStringLiteral("2410"), tokens.desk, false});
  CHECK(lying.center() == QPointF(150, 100));
  CHECK(lying.width() > lying.height());
  const QRectF standing = dimensionTextRect(tokens, {{100, 0}, {100, 300}, QStringLiteral("1250"), tokens.desk, false});
  CHECK(standing.center() == QPointF(100, 150));
  CHECK(standing.height() > standing.width());
}

TEST_CASE("The style gives buttons a target of 36 px and rings the focused one in violet", "[render][ui]") {
  Look look;
  Style::install(look);
  QWidget window;
  QPushButton button(QStringLiteral("Take remedy 1"), &window);
  button.resize(button.sizeHint());
  CHECK(button.sizeHint().height() >= 36);
  window.resize(300, 100);
  window.show();
  button.clearFocus();
  CHECK(pixelsOf(button.grab().toImage(), look.tokens().violet) == 0);
  window.activateWindow();
  button.setFocus();
  QApplication::processEvents();
  CHECK(pixelsOf(button.grab().toImage(), look.tokens().violet) > 300);
  look.setTheme(Theme::Dark);
  CHECK(QApplication::palette().color(QPalette::Window) == look.tokens().desk);
  QApplication::setStyle(QStringLiteral("Fusion"));
}

TEST_CASE("A field is a line under its text, not a box", "[render][ui]") {
  Look look;
  Style::install(look);
  QLineEdit edit;
  edit.resize(160, 40);
  const QImage image = edit.grab().toImage();
  const auto inked = [&](int y) {
    int dark = 0;
    for (int x = 0; x < image.width(); ++x) dark += qGray(image.pixel(x, y)) < 128 ? 1 : 0;
    return dark;
  };
  CHECK(inked(0) == 0);
  int longest = 0;
  for (int y = image.height() / 2; y < image.height(); ++y) longest = std::max(longest, inked(y));
  CHECK(longest > 140);
  QApplication::setStyle(QStringLiteral("Fusion"));
}
