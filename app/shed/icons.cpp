// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/shed/icons.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace sunspool::shed {

namespace {

constexpr double kSide = 52.0;
constexpr double kOffcutBelow_m = 25.0;  ///< a shorter roll is drawn as an offcut

void drawRings(QPainter& p, QPointF c, double outer, double inner, int rings) {
  for (int i = 0; i < rings; ++i) {
    const double r = outer - (outer - inner) * i / std::max(1, rings - 1);
    p.drawEllipse(c, r, r);
  }
}

void drawRoll(QPainter& p, double fill) {
  const QPointF c(26, 26);
  const int rings = 2 + static_cast<int>(std::lround(3.0 * std::clamp(fill, 0.0, 1.0)));
  drawRings(p, c, 8.0 + 10.5 * std::clamp(0.35 + 0.65 * fill, 0.0, 1.0), 6.5, rings);
  p.drawLine(QPointF(44.5, 26), QPointF(44.5, 45));
}

void drawOffcut(QPainter& p) {
  drawRings(p, {25, 25}, 16.5, 11.5, 2);
  QPainterPath tail(QPointF(41.5, 25));
  tail.cubicTo(QPointF(42, 36), QPointF(44, 42), QPointF(48, 45));
  p.drawPath(tail);
}

void drawSheet(QPainter& p, const QColor& ink) {
  p.save();
  p.setBrush(ink);
  p.drawRect(QRectF(7, 14, 38, 22));
  p.restore();
  p.drawLine(QPointF(7, 40), QPointF(45, 40));
}

void drawTwinWall(QPainter& p) {
  p.drawRect(QRectF(6, 19, 40, 14));
  for (int i = 1; i < 6; ++i) p.drawLine(QPointF(6 + i * 40.0 / 6.0, 19), QPointF(6 + i * 40.0 / 6.0, 33));
}

void drawFoam(QPainter& p) {
  p.drawRect(QRectF(6, 17, 40, 18));
  for (const QPointF& at :
       {QPointF(13, 22), QPointF(21, 29), QPointF(28, 22), QPointF(36, 28), QPointF(41, 22), QPointF(13, 31)})
    p.drawPoint(at);
}

void drawBoard(QPainter& p, const render::Tokens& tokens) {
  p.save();
  p.setBrush(tokens.timber);
  p.drawPolygon(QPolygonF({{6, 36}, {16, 18}, {46, 18}, {36, 36}}));
  p.restore();
  p.drawPolyline(QPolygonF({{6, 36}, {6, 40}, {36, 40}, {46, 22}, {46, 18}}));
  p.drawLine(QPointF(36, 36), QPointF(36, 40));
}

void drawPump(QPainter& p) {
  const QPointF c(22, 29);
  p.drawEllipse(c, 14, 14);
  p.drawPolyline(QPolygonF({{22, 15}, {46, 15}, {46, 23}, {34.5, 23}}));
  for (int vane = 0; vane < 3; ++vane) {
    p.save();
    p.translate(c);
    p.rotate(120.0 * vane);
    QPainterPath path(QPointF(0, -2.5));
    path.quadTo(QPointF(5, -6), QPointF(3, -10));
    p.drawPath(path);
    p.restore();
  }
  p.drawEllipse(c, 2.2, 2.2);
}

void drawHoseTail(QPainter& p) {
  p.drawRect(QRectF(5, 17, 7, 18));
  p.drawRect(QRectF(12, 20, 8, 12));
  for (int barb = 0; barb < 3; ++barb) {
    const double x = 20 + barb * 8.5;
    p.drawPolygon(QPolygonF({{x, 18}, {x, 34}, {x + 8.5, 31}, {x + 8.5, 21}}));
  }
}

void drawElbow(QPainter& p) {
  QPainterPath outer(QPointF(8, 15));
  outer.lineTo(28, 15);
  outer.quadTo(QPointF(39, 15), QPointF(39, 26));
  outer.lineTo(39, 44);
  QPainterPath inner(QPointF(8, 27));
  inner.lineTo(24, 27);
  inner.quadTo(QPointF(27, 27), QPointF(27, 30));
  inner.lineTo(27, 44);
  p.drawPath(outer);
  p.drawPath(inner);
  p.drawLine(QPointF(8, 12), QPointF(8, 30));
  p.drawLine(QPointF(24, 44), QPointF(42, 44));
}

void drawTee(QPainter& p) {
  p.drawPolyline(QPolygonF({{6, 16}, {46, 16}}));
  p.drawPolyline(QPolygonF({{6, 27}, {20, 27}, {20, 43}}));
  p.drawPolyline(QPolygonF({{46, 27}, {32, 27}, {32, 43}}));
  p.drawLine(QPointF(6, 13), QPointF(6, 30));
  p.drawLine(QPointF(46, 13), QPointF(46, 30));
  p.drawLine(QPointF(17, 43), QPointF(35, 43));
}

void drawValve(QPainter& p) {
  p.drawPolygon(QPolygonF({{8, 22}, {8, 40}, {26, 31}}));
  p.drawPolygon(QPolygonF({{44, 22}, {44, 40}, {26, 31}}));
  p.drawLine(QPointF(26, 31), QPointF(26, 15));
  p.drawLine(QPointF(17, 15), QPointF(35, 15));
}

void drawThermometers(QPainter& p, const QColor& ink) {
  const auto one = [&](double x, double level) {
    QPainterPath stem(QPointF(x - 4, 34));
    stem.lineTo(x - 4, 12);
    stem.arcTo(QRectF(x - 4, 8, 8, 8), 180, -180);
    stem.lineTo(x + 4, 34);
    p.drawPath(stem);
    p.drawEllipse(QPointF(x, 39), 6.5, 6.5);
    p.save();
    p.setBrush(ink);
    p.drawEllipse(QPointF(x, 39), 2.6, 2.6);
    p.restore();
    p.drawLine(QPointF(x, 36), QPointF(x, level));
  };
  one(17, 22);
  one(36, 17);
}

}  // namespace

void drawIcon(QPainter& painter, const render::Tokens& tokens, Icon icon, const QRectF& box, double fill) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(box.topLeft());
  const double scale = std::min(box.width(), box.height()) / kSide;
  painter.scale(scale, scale);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tokens.ink, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  switch (icon) {
    case Icon::Roll:
      drawRoll(painter, fill);
      break;
    case Icon::Offcut:
      drawOffcut(painter);
      break;
    case Icon::Sheet:
      drawSheet(painter, tokens.ink);
      break;
    case Icon::TwinWall:
      drawTwinWall(painter);
      break;
    case Icon::Foam:
      drawFoam(painter);
      break;
    case Icon::Board:
      drawBoard(painter, tokens);
      break;
    case Icon::Pump:
      drawPump(painter);
      break;
    case Icon::HoseTail:
      drawHoseTail(painter);
      break;
    case Icon::Elbow:
      drawElbow(painter);
      break;
    case Icon::Tee:
      drawTee(painter);
      break;
    case Icon::Valve:
      drawValve(painter);
      break;
    case Icon::Thermometers:
      drawThermometers(painter, tokens.ink);
      break;
  }
  painter.restore();
}

QPixmap rollPixmap(const render::Tokens& tokens, double fill, double devicePixelRatio) {
  const double side = tokens.px(kSide);
  QPixmap pixmap(QSizeF(side * devicePixelRatio, side * devicePixelRatio).toSize());
  pixmap.setDevicePixelRatio(devicePixelRatio);
  pixmap.fill(tokens.slip);
  QPainter painter(&pixmap);
  drawIcon(painter, tokens, Icon::Roll, QRectF(0.0, 0.0, side, side), fill);
  return pixmap;
}

Icon iconOf(const model::Roll& roll) { return roll.length.si() < kOffcutBelow_m ? Icon::Offcut : Icon::Roll; }
Icon iconOf(const model::TimberStock&) { return Icon::Board; }
Icon iconOf(const model::StockSheet& sheet) {
  switch (sheet.use) {
    case model::SheetUse::Plate:
    case model::SheetUse::Backing:
      return Icon::Sheet;
    case model::SheetUse::Insulation:
      return Icon::Foam;
    case model::SheetUse::Glazing:
      return Icon::TwinWall;
  }
  return Icon::Sheet;
}
Icon iconOf(const model::StockPump&) { return Icon::Pump; }
Icon iconOf(const model::StockFitting& fitting) {
  switch (fitting.kind) {
    case model::FittingKind::BarbConnector:
    case model::FittingKind::PipeEntrance:
    case model::FittingKind::PipeExit:
      return Icon::HoseTail;
    case model::FittingKind::Elbow90:
    case model::FittingKind::Elbow45:
      return Icon::Elbow;
    case model::FittingKind::TeeThrough:
    case model::FittingKind::TeeBranch:
      return Icon::Tee;
    case model::FittingKind::Valve:
      return Icon::Valve;
  }
  return Icon::HoseTail;
}
Icon iconOf(const model::Thermometer&) { return Icon::Thermometers; }

}  // namespace sunspool::shed
