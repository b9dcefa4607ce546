// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/tube_raster.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/panelview/scene_units.h"

namespace sunspool::panelview {

namespace {

/// A piece reaches this far back under the one before it, so that rounding leaves no gap between them.
constexpr double kBack_px = 0.02;

double coverage(double halfWidth_px, double distance_px) {
  return std::clamp(halfWidth_px - distance_px + 0.5, 0.0, std::min(1.0, 2.0 * halfWidth_px));
}

/// All four channels times a / 255, rounded.
QRgb scaled(QRgb colour, unsigned a) {
  unsigned outer = (colour & 0xff00ffU) * a;
  outer = ((outer + ((outer >> 8) & 0xff00ffU) + 0x800080U) >> 8) & 0xff00ffU;
  unsigned inner = ((colour >> 8) & 0xff00ffU) * a;
  inner = (inner + ((inner >> 8) & 0xff00ffU) + 0x800080U) & 0xff00ff00U;
  return outer | inner;
}

void lay(QRgb& under, QRgb over) {
  const unsigned alpha = over >> 24;
  if (alpha == 255U)
    under = over;
  else if (alpha != 0U)
    under = over + scaled(under, 255U - alpha);
}

struct Interval {
  double from, to;
  bool empty() const { return from > to; }
};
Interval both(Interval a, Interval b) { return {std::max(a.from, b.from), std::min(a.to, b.to)}; }

/// Where low <= slope * x + offset <= high.
Interval solve(double slope, double offset, double low, double high) {
  if (std::abs(slope) < 1e-12) {
    if (offset < low || offset > high) return {1.0, 0.0};
    return {-1e9, 1e9};
  }
  const double a = (low - offset) / slope, b = (high - offset) / slope;
  return {std::min(a, b), std::max(a, b)};
}

struct Rows {
  int from, to;
};
Rows rowsOf(const QImage& image, double top, double bottom) {
  return {static_cast<int>(std::clamp(std::floor(top), 0.0, static_cast<double>(image.height()))),
          static_cast<int>(std::clamp(std::ceil(bottom), -1.0, static_cast<double>(image.height() - 1)))};
}
/// Pixels whose centres lie in the interval.
Rows pixelsOf(const QImage& image, Interval x) {
  return {static_cast<int>(std::clamp(std::ceil(x.from - 0.5), 0.0, static_cast<double>(image.width()))),
          static_cast<int>(std::clamp(std::floor(x.to - 0.5), -1.0, static_cast<double>(image.width() - 1)))};
}

void paintLine(QImage& image, QPointF a, QPointF b, const BandProfile& profile) {
  const double length = std::hypot(b.x() - a.x(), b.y() - a.y());
  if (!(length > 0.0)) return;
  const QPointF u = (b - a) / length, n(-u.y(), u.x());
  const double reach = profile.reach_px();
  const double side = std::abs(n.y()) * reach;
  const Rows rows = rowsOf(image, std::min(a.y(), b.y()) - side - 1.0, std::max(a.y(), b.y()) + side + 1.0);
  for (int y = rows.from; y <= rows.to; ++y) {
    const double dy = y + 0.5 - a.y();
    const Interval across = solve(n.x(), n.y() * dy - n.x() * a.x(), -reach, reach);
    const Interval along = solve(u.x(), u.y() * dy - u.x() * a.x(), -kBack_px, length);
    const Interval x = both(across, along);
    if (x.empty()) continue;
    const Rows pixels = pixelsOf(image, x);
    auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
    double d = n.x() * (pixels.from + 0.5 - a.x()) + n.y() * dy;
    if (std::abs(n.x()) < 1e-9) {
      const QRgb colour = profile.at(std::min(std::abs(d), reach));
      for (int i = pixels.from; i <= pixels.to; ++i) lay(row[i], colour);
      continue;
    }
    for (int i = pixels.from; i <= pixels.to; ++i, d += n.x()) lay(row[i], profile.at(std::min(std::abs(d), reach)));
  }
}

/// An arc of at most half a turn, in image pixels.
struct PixelArc {
  QPointF centre;
  double radius = 0.0;
  QPointF start, end;                ///< from the centre
  QPointF startTangent, endTangent;  ///< unit vectors the way the arc is walked
  QRectF box;
};

void paintArcRow(QRgb* row, Rows pixels, double dy, const PixelArc& arc, const BandProfile& profile) {
  const double reach = profile.reach_px();
  const double fromStart = (dy - arc.start.y()) * arc.startTangent.y() + kBack_px;
  const double fromEnd = (dy - arc.end.y()) * arc.endTangent.y();
  for (int i = pixels.from; i <= pixels.to; ++i) {
    const double dx = i + 0.5 - arc.centre.x();
    const bool begun = (dx - arc.start.x()) * arc.startTangent.x() + fromStart >= 0.0;
    const bool ended = (dx - arc.end.x()) * arc.endTangent.x() + fromEnd >= 0.0;
    const double d = std::abs(std::sqrt(dx * dx + dy * dy) - arc.radius);
    if (begun && !ended && d <= reach) lay(row[i], profile.at(d));
  }
}

void paintArc(QImage& image, const PixelArc& arc, const BandProfile& profile) {
  const double reach = profile.reach_px();
  const double outer = arc.radius + reach, inner = std::max(0.0, arc.radius - reach);
  const Rows rows = rowsOf(image, arc.box.top() - reach - 1.0, arc.box.bottom() + reach + 1.0);
  const Interval box{arc.box.left() - reach - 1.0, arc.box.right() + reach + 1.0};
  for (int y = rows.from; y <= rows.to; ++y) {
    const double dy = y + 0.5 - arc.centre.y();
    if (std::abs(dy) > outer) continue;
    const double far = std::sqrt(outer * outer - dy * dy);
    const double near = std::abs(dy) < inner ? std::sqrt(inner * inner - dy * dy) : -1.0;
    auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
    const double cx = arc.centre.x();
    if (near < 0.0) {
      paintArcRow(row, pixelsOf(image, both(box, {cx - far, cx + far})), dy, arc, profile);
    } else {
      paintArcRow(row, pixelsOf(image, both(box, {cx - far, cx - near})), dy, arc, profile);
      paintArcRow(row, pixelsOf(image, both(box, {cx + near, cx + far})), dy, arc, profile);
    }
  }
}

PixelArc inPixels(const geometry::Arc& arc, const QTransform& toImage) {
  PixelArc pixels;
  pixels.centre = toImage.map(toScene(arc.centre));
  pixels.radius = arc.radius * kSceneUnitsPerMetre * toImage.m11();
  const double turn = arc.sweep < 0.0 ? -1.0 : 1.0;
  const auto radial = [](double angle) { return QPointF(std::cos(angle), -std::sin(angle)); };
  const auto tangent = [turn](double angle) { return QPointF(-std::sin(angle), -std::cos(angle)) * turn; };
  pixels.start = radial(arc.startAngle) * pixels.radius;
  pixels.end = radial(arc.startAngle + arc.sweep) * pixels.radius;
  pixels.startTangent = tangent(arc.startAngle);
  pixels.endTangent = tangent(arc.startAngle + arc.sweep);
  pixels.box = toImage.mapRect(toScene(geometry::bounds(arc)));
  return pixels;
}

}  // namespace

BandProfile::BandProfile(std::span<const BandLayer> layers) {
  for (const BandLayer& layer : layers) m_reach_px = std::max(m_reach_px, layer.halfWidth_px + 0.5);
  const auto count = static_cast<std::size_t>(std::ceil(m_reach_px * kPerPixel)) + 2;
  m_colours.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double distance = (static_cast<double>(i) + 0.5) / kPerPixel;
    QRgb colour = 0;
    for (const BandLayer& layer : layers) {
      const double share = coverage(layer.halfWidth_px, distance) * layer.colour.alphaF();
      const auto alpha = static_cast<unsigned>(std::lround(share * 255.0));
      lay(colour, scaled(layer.colour.rgb() | 0xff000000U, alpha));
    }
    m_colours.push_back(colour);
  }
}

void paintBand(QImage& image, const geometry::Piece& piece, const QTransform& toImage, const BandProfile& profile) {
  if (const auto* line = std::get_if<geometry::Line>(&piece)) {
    paintLine(image, toImage.map(toScene(line->start)), toImage.map(toScene(line->end)), profile);
    return;
  }
  const auto& arc = std::get<geometry::Arc>(piece);
  // Two half planes tell what lies between the ends of half a turn at most.
  const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(arc.sweep) / (0.75 * std::numbers::pi))));
  for (int i = 0; i < parts; ++i) {
    geometry::Arc part = arc;
    part.sweep = arc.sweep / parts;
    part.startAngle = arc.startAngle + i * part.sweep;
    paintArc(image, inPixels(part, toImage), profile);
  }
}

}  // namespace sunspool::panelview
