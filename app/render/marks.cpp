// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/marks.h"

#include <QFontMetricsF>
#include <QImage>
#include <QPainter>
#include <QPixmap>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

namespace sunspool::render {

namespace {

/// Restores the painter when a mark is done.
class Saved {
 public:
  explicit Saved(QPainter& painter) : m_painter(painter) {
    m_painter.save();
    m_painter.setRenderHint(QPainter::Antialiasing);
  }
  ~Saved() { m_painter.restore(); }
  Saved(const Saved&) = delete;
  Saved& operator=(const Saved&) = delete;

 private:
  QPainter& m_painter;
};

QPen flatPen(const QColor& colour, double width) { return {colour, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin}; }
QPen roundPen(const QColor& colour, double width) {
  return {colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin};
}

QPen dashedPen(const QColor& colour, double width, double dash, double gap) {
  QPen pen = flatPen(colour, width);
  pen.setDashPattern({dash / width, gap / width});
  return pen;
}

int severity(EdgeState state) {
  switch (state) {
    case EdgeState::Smooth:
      return 0;
    case EdgeState::Dashed:
      return 1;
    case EdgeState::OneTooth:
      return 2;
    case EdgeState::TwoTeeth:
      return 3;
  }
  return 0;
}

// Share of a Gaussian-blurred half plane at distance x inside its edge.
double blurredStep(double x, double sigma) { return 0.5 * (1.0 + std::erf(x / (sigma * std::numbers::sqrt2))); }

constexpr double kShadowSigma = 9.0;
constexpr int kShadowMargin = 27;
constexpr double kShadowDrop = 6.0;

/// Corner and edges of a blurred square; its middle pixel is stretched over any rectangle.
QImage shadowPatch(const QColor& colour, double strength) {
  constexpr int kSide = 4 * kShadowMargin + 1;
  QImage patch(kSide, kSide, QImage::Format_ARGB32_Premultiplied);
  std::array<double, kSide> along{};
  for (int i = 0; i < kSide; ++i) {
    const double inside = std::min(i, kSide - 1 - i) - kShadowMargin + 0.5;
    along[static_cast<std::size_t>(i)] = blurredStep(inside, kShadowSigma);
  }
  for (int y = 0; y < kSide; ++y) {
    for (int x = 0; x < kSide; ++x) {
      const double share = along[static_cast<std::size_t>(x)] * along[static_cast<std::size_t>(y)];
      patch.setPixel(x, y,
                     qPremultiply(qRgba(colour.red(), colour.green(), colour.blue(),
                                        static_cast<int>(std::lround(255.0 * strength * share)))));
    }
  }
  return patch;
}

void drawNinePatch(QPainter& painter, const QImage& patch, const QRectF& target, double corner) {
  const double side = patch.width();
  const std::array<double, 4> from = {0.0, corner, side - corner, side};
  const std::array<double, 4> x = {target.left(), target.left() + corner, target.right() - corner, target.right()};
  const std::array<double, 4> y = {target.top(), target.top() + corner, target.bottom() - corner, target.bottom()};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      if (i == 1 && j == 1) continue;
      painter.drawImage(QRectF(x[i], y[j], x[i + 1] - x[i], y[j + 1] - y[j]), patch,
                        QRectF(from[i], from[j], from[i + 1] - from[i], from[j + 1] - from[j]));
    }
  }
  painter.fillRect(QRectF(x[1], y[1], x[2] - x[1], y[2] - y[1]),
                   patch.pixelColor(patch.width() / 2, patch.width() / 2));
}

QPainterPath waveUnder(QPointF left, double length, double waveLength, double height) {
  QPainterPath path(left);
  const int halves = std::max(2, static_cast<int>(std::lround(length / (waveLength / 2.0))));
  const double step = length / halves;
  for (int i = 0; i < halves; ++i) {
    const double x = left.x() + i * step;
    path.quadTo(x + step / 2.0, left.y() + (i % 2 == 0 ? -height : height), x + step, left.y());
  }
  return path;
}

QFont numberFont(const Tokens& tokens, const NumberStyle& style) {
  return font(tokens, Voice::Measured, style.size, style.weight, style.italic);
}
QFont unitFont(const Tokens& tokens, const NumberStyle& style) {
  return font(tokens, Voice::Measured, style.size * 0.72, QFont::Normal, style.italic);
}
double unitGap(const Tokens& tokens, const NumberStyle& style) { return tokens.px(style.size * 0.2); }

// Optical middle of figures: caps and figures stand 0.72 em high in the measured voice.
double baselineFor(const QRectF& rect, const QFont& font) {
  return rect.center().y() + QFontMetricsF(font).capHeight() / 2.0;
}

}  // namespace

EdgeState edgeOf(SnagState state) {
  switch (state) {
    case SnagState::Close:
      return EdgeState::OneTooth;
    case SnagState::Snag:
      return EdgeState::TwoTeeth;
    case SnagState::NotKnown:
      return EdgeState::Dashed;
  }
  return EdgeState::Smooth;
}

EdgeState worse(EdgeState a, EdgeState b) { return severity(a) >= severity(b) ? a : b; }

int teethOf(EdgeState state) {
  switch (state) {
    case EdgeState::OneTooth:
      return 1;
    case EdgeState::TwoTeeth:
      return 2;
    case EdgeState::Smooth:
    case EdgeState::Dashed:
      return 0;
  }
  return 0;
}

void drawStateEdge(QPainter& painter, const Tokens& tokens, QPointF left, double length, EdgeState state,
                   const QColor& colour, const EdgeSize& size) {
  const Saved saved(painter);
  const double width = tokens.line(size.lineWidth);
  const QPointF right = left + QPointF(length, 0.0);
  if (state == EdgeState::Dashed) {
    painter.setPen(dashedPen(colour, width, tokens.px(7.0), tokens.px(5.0)));
    painter.drawLine(left, right);
    return;
  }
  painter.setPen(flatPen(colour, width));
  painter.drawLine(left, right);
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  const double base = tokens.px(size.toothBase);
  for (int i = 0; i < teethOf(state); ++i) {
    const double x = left.x() + tokens.px(size.offset) + i * base;
    painter.drawPolygon(
        QPolygonF({{x, left.y()}, {x + base / 2.0, left.y() + tokens.px(size.toothHeight)}, {x + base, left.y()}}));
  }
}

QPainterPath slipOutline(const Tokens& tokens, const QRectF& rect, EdgeState state, const EdgeSize& size) {
  const double base = tokens.px(size.toothBase);
  const double height = tokens.px(size.toothHeight);
  const double first = rect.left() + tokens.px(size.offset);
  QPainterPath path(rect.topLeft());
  path.lineTo(rect.topRight());
  path.lineTo(rect.bottomRight());
  for (int i = teethOf(state); i > 0; --i) {
    path.lineTo(first + i * base, rect.bottom());
    path.lineTo(first + (i - 0.5) * base, rect.bottom() + height);
    path.lineTo(first + (i - 1) * base, rect.bottom());
  }
  path.lineTo(rect.bottomLeft());
  path.closeSubpath();
  return path;
}

void drawSlip(QPainter& painter, const Tokens& tokens, const QRectF& rect, EdgeState state, const EdgeSize& size) {
  drawShadow(painter, tokens, rect);
  const Saved saved(painter);
  QPen pen = roundPen(tokens.ink, tokens.isHighContrast() ? 2.0 : tokens.line(size.lineWidth));
  if (state == EdgeState::Dashed) pen = dashedPen(tokens.ink, tokens.line(size.lineWidth), tokens.px(7), tokens.px(5));
  const QPainterPath outline = slipOutline(tokens, rect, state, size);
  painter.setPen(pen);
  painter.setBrush(tokens.slip);
  painter.drawPath(outline);
  painter.setBrush(tokens.ink);
  const double base = tokens.px(size.toothBase);
  for (int i = 0; i < teethOf(state); ++i) {
    const double x = rect.left() + tokens.px(size.offset) + i * base;
    const QPolygonF tooth(
        {{x, rect.bottom()}, {x + base / 2.0, rect.bottom() + tokens.px(size.toothHeight)}, {x + base, rect.bottom()}});
    // A pale edge, so that the tooth is seen on the plate too.
    painter.setPen(roundPen(tokens.slip, pen.widthF() + 2.0));
    painter.drawPolyline(tooth);
    painter.setPen(Qt::NoPen);
    painter.drawPolygon(tooth);
  }
}

void drawShadow(QPainter& painter, const Tokens& tokens, const QRectF& rect) {
  if (tokens.isHighContrast()) return;
  static std::map<bool, QImage> patches;
  QImage& patch = patches[tokens.isDark()];
  if (patch.isNull()) patch = tokens.isDark() ? shadowPatch(Qt::black, 0.60) : shadowPatch(QColor(60, 45, 15), 0.22);
  constexpr double kCorner = 2.0 * kShadowMargin;
  const QRectF target =
      rect.translated(0.0, kShadowDrop).adjusted(-kShadowMargin, -kShadowMargin, kShadowMargin, kShadowMargin);
  const Saved saved(painter);
  painter.setRenderHint(QPainter::Antialiasing, false);
  painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
  drawNinePatch(painter, patch, QRectF(target.toAlignedRect()),
                std::min({kCorner, target.width() / 2, target.height() / 2}));
}

void drawSureness(QPainter& painter, const Tokens& tokens, QPointF left, double length, Sureness sureness,
                  const QColor& colour) {
  const Saved saved(painter);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(flatPen(colour, tokens.line(1.3)));
  const QPointF right = left + QPointF(length, 0.0);
  switch (sureness) {
    case Sureness::Guess:
      painter.drawPath(waveUnder(left, length, tokens.px(10.0), tokens.px(3.2)));
      return;
    case Sureness::Label:
      painter.drawLine(left, right);
      return;
    case Sureness::Measured: {
      painter.drawLine(left, right);
      const QPointF tick(0.0, tokens.px(4.0));
      painter.setPen(flatPen(colour, tokens.line(1.6)));
      painter.drawLine(left - tick, left + tick);
      painter.drawLine(right - tick, right + tick);
      return;
    }
  }
}

double textWidth(const QFont& font, const QString& text) { return QFontMetricsF(font).horizontalAdvance(text); }

double numberWidth(const Tokens& tokens, const format::NumberAndUnit& value, const NumberStyle& style) {
  const double number = textWidth(numberFont(tokens, style), value.number);
  if (value.unit.isEmpty()) return number;
  return number + unitGap(tokens, style) + textWidth(unitFont(tokens, style), value.unit);
}

double drawNumber(QPainter& painter, const Tokens& tokens, QPointF baseline, const format::NumberAndUnit& value,
                  const NumberStyle& style) {
  const Saved saved(painter);
  const QFont large = numberFont(tokens, style);
  const QColor ink = style.colour.value_or(tokens.ink);
  painter.setFont(large);
  painter.setPen(ink);
  painter.drawText(baseline, value.number);
  const double width = textWidth(large, value.number);
  if (style.sureness)
    drawSureness(painter, tokens, baseline + QPointF(0.0, tokens.px(style.size * 0.26)), width, *style.sureness, ink);
  if (value.unit.isEmpty()) return baseline.x() + width;
  const QFont small = unitFont(tokens, style);
  const QPointF unitAt = baseline + QPointF(width + unitGap(tokens, style), 0.0);
  painter.setFont(small);
  painter.setPen(style.unitColour.value_or(tokens.ink2));
  painter.drawText(unitAt, value.unit);
  return unitAt.x() + textWidth(small, value.unit);
}

void drawHaloText(QPainter& painter, QPointF baseline, const QString& text, const QFont& font, const QColor& colour,
                  const QColor& halo, double haloWidth) {
  const Saved saved(painter);
  QPainterPath letters;
  letters.addText(baseline, font, text);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(roundPen(halo, haloWidth));
  painter.drawPath(letters);
  painter.setFont(font);
  painter.setPen(colour);
  painter.drawText(baseline, text);
}

void drawBeadRing(QPainter& painter, const Tokens& tokens, QPointF centre, double radius) {
  const Saved saved(painter);
  painter.setBrush(Qt::NoBrush);
  const auto ring = [&](const QColor& colour, double width) {
    painter.setPen(QPen(colour, tokens.line(width)));
    painter.drawEllipse(centre, radius, radius);
  };
  ring(tokens.plate, 8.0);
  if (tokens.isDark()) {
    ring(tokens.violet, 6.0);
    ring(tokens.isHighContrast() ? tokens.plate : tokens.wash, 1.6);
  } else {
    ring(tokens.slip, 6.0);
    ring(tokens.violet, 3.0);
  }
}

void drawSunMark(QPainter& painter, const Tokens& tokens, QPointF centre, double radius) {
  const Saved saved(painter);
  const double r = tokens.px(radius);
  painter.setPen(Qt::NoPen);
  painter.setBrush(tokens.violet);
  QPainterPath half;
  half.moveTo(centre.x(), centre.y() - r);
  half.arcTo(QRectF(centre.x() - r, centre.y() - r, 2.0 * r, 2.0 * r), 90.0, 180.0);
  half.closeSubpath();
  painter.drawPath(half);
  painter.setPen(roundPen(tokens.violet, tokens.line(2.2 * radius / 12.0)));
  for (int i = 0; i < 5; ++i) {
    const double angle = std::numbers::pi / 2.0 + (i + 0.5) * std::numbers::pi / 5.0;
    const QPointF direction(std::cos(angle), -std::sin(angle));
    painter.drawLine(centre + direction * (r * 1.25), centre + direction * (r * 1.67));
  }
}

QSizeF flagSize(const Tokens& tokens, const QString& text, double textSize) {
  const QFont bold = font(tokens, Voice::Measured, textSize, QFont::Bold);
  return {textWidth(bold, text) + tokens.px(22.0), tokens.px(textSize + 10.0)};
}

void drawFlag(QPainter& painter, const Tokens& tokens, const QRectF& rect, const QString& text, double textSize) {
  const Saved saved(painter);
  painter.setPen(Qt::NoPen);
  painter.setBrush(tokens.violet);
  painter.drawRect(rect);
  const QFont bold = font(tokens, Voice::Measured, textSize, QFont::Bold);
  painter.setFont(bold);
  painter.setPen(tokens.isDark() ? tokens.paper : tokens.slip);
  painter.drawText(QPointF(rect.center().x() - textWidth(bold, text) / 2.0, baselineFor(rect, bold)), text);
}

QSizeF chipSize(const Tokens& tokens, const QString& text, double textSize) {
  const QFont bold = font(tokens, Voice::Measured, textSize, QFont::Bold);
  return {textWidth(bold, text) + tokens.px(12.0), tokens.px(textSize + 7.5)};
}

void drawChip(QPainter& painter, const Tokens& tokens, const QRectF& rect, const QString& text, double textSize) {
  const Saved saved(painter);
  painter.setPen(QPen(tokens.violet, tokens.line(1.4), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  painter.setBrush(tokens.paper);
  painter.drawRect(rect);
  const QFont bold = font(tokens, Voice::Measured, textSize, QFont::Bold);
  painter.setFont(bold);
  painter.setPen(tokens.violet);
  painter.drawText(QPointF(rect.center().x() - textWidth(bold, text) / 2.0, baselineFor(rect, bold)), text);
}

QPainterPath snagTagShape(const Tokens& tokens, QPointF centre) {
  const double u = tokens.px(1.0);
  QPainterPath path(centre + QPointF(-22.0 * u, 0.0));
  path.lineTo(centre + QPointF(-13.0 * u, -13.0 * u));
  path.lineTo(centre + QPointF(20.0 * u, -13.0 * u));
  path.lineTo(centre + QPointF(20.0 * u, 13.0 * u));
  path.lineTo(centre + QPointF(-13.0 * u, 13.0 * u));
  path.closeSubpath();
  return path;
}

QPainterPath snagThread(const Tokens& tokens, QPointF tagCentre, QPointF place) {
  const double u = tokens.px(1.0);
  QPainterPath path(tagCentre + QPointF(-14.0 * u, 0.0));
  path.quadTo((tagCentre + place) / 2.0 + QPointF(-10.0 * u, 14.0 * u), place);
  return path;
}

void drawSnagTag(QPainter& painter, const Tokens& tokens, QPointF centre, const QString& number, EdgeState state) {
  const Saved saved(painter);
  const double u = tokens.px(1.0);
  QPen outline = roundPen(tokens.ink, tokens.line(1.6));
  if (state == EdgeState::Dashed) outline = dashedPen(tokens.ink, tokens.line(1.6), tokens.px(5.0), tokens.px(3.5));
  painter.setPen(outline);
  painter.setBrush(tokens.slip);
  painter.drawPath(snagTagShape(tokens, centre));
  painter.setPen(QPen(tokens.ink, tokens.line(1.2)));
  painter.setBrush(tokens.desk);
  painter.drawEllipse(centre + QPointF(-14.0 * u, 0.0), 2.6 * u, 2.6 * u);
  const QFont bold = font(tokens, Voice::Measured, 17.0, QFont::Bold);
  painter.setFont(bold);
  painter.setPen(tokens.ink);
  painter.drawText(centre + QPointF(3.0 * u - textWidth(bold, number) / 2.0, QFontMetricsF(bold).capHeight() / 2.0),
                   number);
  if (teethOf(state) == 0) return;
  EdgeSize small = kSmallEdge;
  small.offset = 8.0;
  drawStateEdge(painter, tokens, centre + QPointF(-13.0 * u, 13.0 * u), 33.0 * u, state, tokens.ink, small);
}

void drawRingLetter(QPainter& painter, const Tokens& tokens, QPointF centre, const QString& letter, double radius) {
  const Saved saved(painter);
  const double r = tokens.px(radius);
  painter.setPen(QPen(tokens.ink, tokens.line(1.6)));
  painter.setBrush(tokens.slip);
  painter.drawEllipse(centre, r, r);
  const QFont bold = font(tokens, Voice::Said, radius * 1.25, QFont::Bold);
  painter.setFont(bold);
  painter.setPen(tokens.ink);
  const QRectF box = QFontMetricsF(bold).tightBoundingRect(letter);
  painter.drawText(QPointF(centre.x() - textWidth(bold, letter) / 2.0, centre.y() - box.center().y()), letter);
}

QRectF dimensionTextRect(const Tokens& tokens, const DimensionLine& dimension) {
  const QFont engraved = font(tokens, Voice::Engraved, 17.0);
  const double width = textWidth(engraved, dimension.text) + tokens.px(16.0);
  const double height = tokens.px(20.0);
  const QPointF middle = dimension.from + (dimension.to - dimension.from) * dimension.share;
  const bool vertical =
      std::abs(dimension.to.y() - dimension.from.y()) > std::abs(dimension.to.x() - dimension.from.x());
  const QSizeF size = vertical ? QSizeF(height, width) : QSizeF(width, height);
  return {middle.x() - size.width() / 2.0, middle.y() - size.height() / 2.0, size.width(), size.height()};
}

QRectF drawDimension(QPainter& painter, const Tokens& tokens, const DimensionLine& dimension) {
  const Saved saved(painter);
  painter.setPen(flatPen(tokens.mark, tokens.line(1.0)));
  painter.drawLine(dimension.from, dimension.to);
  painter.setPen(flatPen(tokens.ink, tokens.line(1.6)));
  const QPointF stroke(tokens.px(5.0), -tokens.px(5.0));
  for (const QPointF& end : {dimension.from, dimension.to}) painter.drawLine(end - stroke, end + stroke);
  const QRectF box = dimensionTextRect(tokens, dimension);
  painter.fillRect(box, dimension.ground);
  const QFont engraved = font(tokens, Voice::Engraved, 17.0);
  painter.setFont(engraved);
  painter.setPen(dimension.marked ? tokens.violet : tokens.ink);
  painter.translate(box.center());
  if (box.height() > box.width()) painter.rotate(-90.0);
  painter.drawText(QPointF(-textWidth(engraved, dimension.text) / 2.0, QFontMetricsF(engraved).capHeight() / 2.0),
                   dimension.text);
  return box;
}

QBrush hatchBrush(const Tokens& tokens, Hatch hatch, const QColor& ground, double devicePixelRatio) {
  if (hatch == Hatch::ToThePool) return QBrush(tokens.straw);
  const double period = hatch == Hatch::OverLimit ? 6.0 : 5.0;
  // A 45-degree hatch repeats along the axes after period * sqrt(2); the tile is rounded to whole pixels.
  const double scale = std::sqrt(tokens.textScale) * devicePixelRatio;
  const double across = hatch == Hatch::Shade ? period : period * std::numbers::sqrt2;
  const int side = std::max(3, qRound(across * scale));
  QPixmap tile(side, side);
  tile.fill(ground.isValid() ? ground : QColor(Qt::transparent));
  QPainter painter(&tile);
  painter.setRenderHint(QPainter::Antialiasing);
  if (hatch == Hatch::Shade) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(tokens.ink);
    painter.drawEllipse(QPointF(side / 2.0, side / 2.0), side / 4.0, side / 4.0);
  } else {
    const double width = (hatch == Hatch::OverLimit ? 1.4 : 3.0) * scale;
    painter.setPen(flatPen(tokens.ink, width));
    for (const double shift : {-1.0, 0.0, 1.0})
      painter.drawLine(QPointF((shift - 0.5) * side, 1.5 * side), QPointF((shift + 1.5) * side, -0.5 * side));
  }
  painter.end();
  tile.setDevicePixelRatio(devicePixelRatio);
  return QBrush(tile);
}

void drawFocusRing(QPainter& painter, const Tokens& tokens, const QRectF& rect, Ground ground) {
  const Saved saved(painter);
  painter.setBrush(Qt::NoBrush);
  const double width = tokens.line(3.0);
  const double off = 2.0 + width / 2.0;
  const QRectF ring = rect.adjusted(-off, -off, off, off);
  if (ground == Ground::Plate) {
    painter.setPen(QPen(tokens.onPlate, width + 3.0, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.drawRect(ring);
  }
  painter.setPen(QPen(tokens.violet, width, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
  painter.drawRect(ring);
}

}  // namespace sunspool::render
