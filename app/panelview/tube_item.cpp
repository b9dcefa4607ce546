// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/tube_item.h"

#include <QPainter>
#include <QStyleOptionGraphicsItem>
#include <QWidget>
#include <algorithm>
#include <array>
#include <cmath>

#include "app/panelview/scene_units.h"
#include "app/panelview/tube_raster.h"
#include "core/geometry/clearance.h"

namespace sunspool::panelview {

namespace {

constexpr double kGap_px = 2.5;       ///< of plate at both sides of a crossing over the turns
constexpr double kGapUnder_px = 1.0;  ///< of plate at both sides of turns that lie over one
constexpr double kBehind_m = 0.12;    ///< of tail behind the back that is drawn at most
constexpr double kChevronEvery_m = 5.0;
constexpr double kChevronStraight_m = 0.3;  ///< shortest straight that carries one

/// Colours on the plate stay the plate's own in every theme.
const QColor kShine(255, 253, 244, 77);
const QColor kDark(27, 24, 21), kPale(255, 246, 228);

bool isPale(const QColor& colour) { return qGray(colour.rgb()) > 138; }

int stepAt(const TubeShape& shape, double station) {
  for (const Level level : {Level::Turns, Level::Crossing}) {
    const auto& stretches = shape.stretches(level);
    const auto found = std::lower_bound(stretches.begin(), stretches.end(), station,
                                        [](const Stretch& s, double at) { return s.to_m < at; });
    if (found != stretches.end()) return found->step;
  }
  return 0;
}

}  // namespace

/// Tools for one making of the image; lengths in image pixels unless said otherwise.
struct TubeItem::Brushwork {
  QImage& image;
  QPainter& painter;  ///< on the image, in scene units
  const render::Tokens& tokens;
  QTransform toImage;
  QRectF seen;          ///< scene units
  double pxPerUnit;     ///< image pixels
  double pxPerLogical;  ///< of a high-density screen
  mutable std::array<std::optional<BandProfile>, kColourSteps> profiles;

  double units(double logical_px) const { return logical_px * pxPerLogical / pxPerUnit; }
  bool sees(const Stretch& s) const { return seen.intersects(s.box.adjusted(-6.0, -6.0, 6.0, 6.0)); }
  void band(const geometry::Piece& piece, const BandProfile& profile) const {
    paintBand(image, piece, toImage, profile);
  }

  /// Edge, colour of the ramp, shine: how a tube of this half width looks.
  const BandProfile& tube(double halfWidth, int step) const {
    auto& profile = profiles[static_cast<std::size_t>(step)];
    if (profile) return *profile;
    const double half = halfWidth * pxPerUnit, width = 2.0 * half / pxPerLogical;
    const QColor edge = tokens.theme == render::Theme::Light ? QColor(12, 10, 8) : QColor(Qt::black);
    const double inner = std::max(0.75 * pxPerLogical, half - (width < 7.0 ? 0.65 : 0.85) * pxPerLogical);
    std::vector<BandLayer> layers = {{half, edge},
                                     {inner, tokens.rampAt(static_cast<double>(step) / (kColourSteps - 1))}};
    if (width > 8.0 && !tokens.isHighContrast()) layers.push_back({half * 0.14, kShine});
    return profile.emplace(layers);
  }
};

TubeItem::TubeItem(const render::Look& look) : m_look(look) { setFlag(ItemUsesExtendedStyleOption); }

void TubeItem::show(std::vector<TubeShape> shapes) {
  prepareGeometryChange();
  m_shapes = std::move(shapes);
  m_made.reset();
  m_box = {};
  for (const TubeShape& shape : m_shapes)
    for (const Level level : {Level::Turns, Level::Crossing})
      for (const Stretch& piece : shape.pieces(level)) m_box |= piece.box;
  constexpr double kRoom = 30.0;
  m_box.adjust(-kRoom, -kRoom, kRoom, kRoom);
  update();
}

void TubeItem::setHeld(std::optional<Held> held) {
  if (held == m_held) return;
  m_held = held;
  m_made.reset();
  update();
}

void TubeItem::setFaded(bool faded) {
  if (faded == m_faded) return;
  m_faded = faded;
  update();
}

void TubeItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) {
  const QTransform toPx = painter->worldTransform();
  const double density = painter->device()->devicePixelRatioF();
  const QSize view =
      widget != nullptr ? widget->size() : QSize(painter->device()->width(), painter->device()->height());
  const Made made{toPx * QTransform::fromScale(density, density), view * density, density, m_look.tokens().theme,
                  m_look.tokens().textScale};
  if (m_made != made) makeImage(made);
  const QRectF whole(QPointF(0.0, 0.0), QSizeF(view));
  const QRect exposed = toPx.mapRect(option->exposedRect).intersected(whole).toAlignedRect() & QRect({0, 0}, view);
  if (exposed.isEmpty()) return;
  painter->save();
  painter->resetTransform();
  if (m_faded) painter->setOpacity(0.42);
  painter->drawImage(QRectF(exposed), m_image,
                     QRectF(QPointF(exposed.topLeft()) * density, QSizeF(exposed.size()) * density));
  painter->restore();
}

void TubeItem::makeImage(const Made& made) {
  if (m_image.size() != made.size) m_image = QImage(made.size, QImage::Format_ARGB32_Premultiplied);
  m_image.fill(Qt::transparent);
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(&m_image);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setTransform(made.toImage);
  painter.setPen(Qt::NoPen);
  const QRectF seen = made.toImage.inverted().mapRect(QRectF(m_image.rect()));
  const Brushwork brushwork{m_image, painter, tokens, made.toImage, seen, made.toImage.m11(), made.density, {}};
  for (std::size_t run = 0; run < m_shapes.size(); ++run)
    if (m_shapes[run].crossesUnder()) paintLevel(brushwork, m_shapes[run], run, Level::Crossing);
  for (const TubeShape& shape : m_shapes)
    if (shape.crossesUnder()) paintGapsOver(brushwork, shape);
  for (std::size_t run = 0; run < m_shapes.size(); ++run) paintLevel(brushwork, m_shapes[run], run, Level::Turns);
  for (const TubeShape& shape : m_shapes)
    if (shape.crossesUnder()) paintHiddenEdges(brushwork, shape);
  for (std::size_t run = 0; run < m_shapes.size(); ++run) {
    paintHole(brushwork, m_shapes[run]);
    if (!m_shapes[run].crossesUnder()) paintLevel(brushwork, m_shapes[run], run, Level::Crossing);
  }
  for (const TubeShape& shape : m_shapes) paintChevrons(brushwork, shape);
  m_made = made;
}

void TubeItem::paintLevel(const Brushwork& b, const TubeShape& shape, std::size_t run, Level level) const {
  const double half_px = shape.halfWidth() * b.pxPerUnit;
  if (level == Level::Crossing && shape.run().crossing && !shape.crossesUnder()) {
    const std::array gap = {BandLayer{half_px + kGap_px * b.pxPerLogical, b.tokens.plate}};
    const BandProfile profile(gap);
    for (const Stretch& s : shape.pieces(level)) {
      const double to = std::min(s.to_m, shape.run().insideTo_m);
      if (b.sees(s) && s.from_m < to) b.band(geometry::slice(s.piece, 0.0, to - s.from_m), profile);
    }
  }
  if (m_held && m_held->run == static_cast<int>(run)) {
    const std::array rings = {BandLayer{half_px + 3.0 * b.pxPerLogical, b.tokens.violet},
                              BandLayer{half_px + 0.75 * b.pxPerLogical, b.tokens.onPlate}};
    const BandProfile profile(rings);
    for (const Stretch& s : shape.pieces(level)) {
      const double from = std::max(s.from_m, m_held->from_m), to = std::min(s.to_m, m_held->to_m);
      if (from < to) b.band(geometry::slice(s.piece, from - s.from_m, to - s.from_m), profile);
    }
  }
  for (const Stretch& s : shape.stretches(level))
    if (b.sees(s)) b.band(s.piece, b.tube(shape.halfWidth(), s.step));
  if (m_shapes.size() > 1) paintTexture(b, shape, run, level);
}

/// Where turns lie over a crossing, a strip of plate on both sides of them parts the tube below.
void TubeItem::paintGapsOver(const Brushwork& b, const TubeShape& under) const {
  const double half_px = under.halfWidth() * b.pxPerUnit;
  const std::array gap = {BandLayer{half_px + kGapUnder_px * b.pxPerLogical, b.tokens.plate}};
  const BandProfile profile(gap);
  // As wide as the tube below and its edge.
  const double reach_m = (under.halfWidth() + b.units(kGapUnder_px)) / kSceneUnitsPerMetre;
  for (const Stretch& tail : under.pieces(Level::Crossing)) {
    for (const TubeShape& shape : m_shapes) {
      for (const Stretch& turn : shape.pieces(Level::Turns)) {
        if (!b.sees(turn) || !turn.box.intersects(tail.box)) continue;
        const geometry::PieceDistance meeting = geometry::distanceBetween(turn.piece, tail.piece);
        if (meeting.distance_m > 0.0) continue;
        const double from = std::max(0.0, meeting.onFirst_m - reach_m);
        const double to = std::min(geometry::length(turn.piece), meeting.onFirst_m + reach_m);
        // The last straight itself goes on into its crossing.
        if (turn.to_m == under.run().crossing->from_m && &shape == &under) continue;
        b.band(geometry::slice(turn.piece, from, to), profile);
      }
    }
  }
}

/// Edges of the tube under the turns, in the plate's colour: seen on the turns alone, they are dashed by the gaps
/// between.
void TubeItem::paintHiddenEdges(const Brushwork& b, const TubeShape& under) const {
  const layout::LaidRun& run = under.run();
  const double from = run.crossing->from_m + run.crossing->rampLength_m;
  b.painter.setPen(QPen(b.tokens.plate, b.units(1.2), Qt::SolidLine, Qt::FlatCap));
  for (const Stretch& tail : under.pieces(Level::Crossing)) {
    const double start = std::max(tail.from_m, from), end = std::min(tail.to_m, run.insideTo_m);
    if (start >= end) continue;
    const QPointF a = toScene(run.path.pointAt(start)), z = toScene(run.path.pointAt(end));
    const QPointF u = directionToScene(run.path.tangentAt(start));
    const QPointF aside = QPointF(-u.y(), u.x()) * under.halfWidth();
    b.painter.drawLine(a + aside, z + aside);
    b.painter.drawLine(a - aside, z - aside);
  }
  b.painter.setPen(Qt::NoPen);
}

void TubeItem::paintTexture(const Brushwork& b, const TubeShape& shape, std::size_t run, Level level) const {
  const double half = shape.halfWidth();
  if (2.0 * half * b.pxPerUnit < 4.0 * b.pxPerLogical || run % 4 == 0) return;  // A is plain
  QPen pen(kDark, half * 0.36, Qt::SolidLine, Qt::FlatCap);
  switch (run % 4) {
    case 1:  // long dash 40/12 mm
      pen.setDashPattern({40.0 / pen.widthF(), 12.0 / pen.widthF()});
      break;
    case 2:  // beads every 20 mm
      pen.setWidthF(half * 0.7);
      pen.setCapStyle(Qt::RoundCap);
      pen.setDashPattern({0.01, 20.0 / pen.widthF()});
      break;
    default:  // double line: the tube's own colour between two dark ones
      pen.setWidthF(half * 0.9);
      break;
  }
  b.painter.setBrush(Qt::NoBrush);
  for (const Stretch& s : shape.pieces(level)) {
    if (!b.sees(s)) continue;
    // Textures go on from piece to piece.
    if (run % 4 != 3) pen.setDashOffset(s.from_m * kSceneUnitsPerMetre / pen.widthF());
    const QPolygonF line = centreLine(s.piece, b.pxPerUnit);
    b.painter.setPen(pen);
    b.painter.drawPolyline(line);
    if (run % 4 != 3) continue;
    const QColor own = b.tokens.rampAt(static_cast<double>(stepAt(shape, s.from_m)) / (kColourSteps - 1));
    b.painter.setPen(QPen(own, half * 0.45, Qt::SolidLine, Qt::FlatCap));
    b.painter.drawPolyline(line);
  }
  b.painter.setPen(Qt::NoPen);
}

void TubeItem::paintChevrons(const Brushwork& b, const TubeShape& shape) const {
  const double width = 2.0 * shape.halfWidth();
  if (width * b.pxPerUnit < 6.0 * b.pxPerLogical) return;
  const geometry::Path& path = shape.run().path;
  const std::span<const geometry::Piece> pieces = path.pieces();
  const auto carries = [&](std::size_t i) {
    return std::holds_alternative<geometry::Line>(pieces[i]) && geometry::length(pieces[i]) >= kChevronStraight_m;
  };
  b.painter.setBrush(Qt::NoBrush);
  for (double station = kChevronEvery_m; station < path.length().si(); station += kChevronEvery_m) {
    // The straight that holds the metre, or the next one along.
    std::size_t piece = path.pieceAt(station);
    double at = station;
    while (piece < pieces.size() && !carries(piece)) {
      ++piece;
      if (piece < pieces.size()) at = path.stationOf(piece) + kChevronStraight_m / 2.0;
    }
    if (piece >= pieces.size() || at - station > kChevronEvery_m / 2.0) continue;
    const QPointF centre = toScene(path.pointAt(at));
    if (!b.seen.adjusted(-width, -width, width, width).contains(centre)) continue;
    const QPointF u = directionToScene(path.tangentAt(at));
    const QPointF n(-u.y(), u.x());
    const double reach = width * 0.25, spread = width * 0.26;
    const QColor ground = b.tokens.rampAt(static_cast<double>(stepAt(shape, at)) / (kColourSteps - 1));
    const QColor ink = isPale(ground) ? kDark : kPale;
    b.painter.setPen(QPen(ink, b.units(1.5), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    b.painter.drawPolyline(
        QPolygonF({centre - u * reach + n * spread, centre + u * reach, centre - u * reach - n * spread}));
  }
  b.painter.setPen(Qt::NoPen);
}

void TubeItem::paintHole(const Brushwork& b, const TubeShape& shape) const {
  const layout::Port& port = shape.run().returning;
  if (!port.throughBack) return;
  const double radius = shape.halfWidth() * 1.5;
  b.painter.setPen(QPen(b.tokens.onPlate, b.units(1.6)));
  b.painter.setBrush(b.tokens.plate);
  b.painter.drawEllipse(toScene(port.at), radius, radius);
  paintBehind(b, shape);
  b.painter.setPen(Qt::NoPen);
}

/// The tail behind the back, dashed as what cannot be seen: only the way it points is known, so only its beginning.
void TubeItem::paintBehind(const Brushwork& b, const TubeShape& shape) const {
  const layout::LaidRun& run = shape.run();
  const QPointF u = directionToScene(run.path.tangentAt(run.path.length().si()));
  const QPointF aside = QPointF(-u.y(), u.x()) * shape.halfWidth();
  const QPointF from = toScene(run.returning.at) + u * shape.halfWidth() * 1.5;
  const QPointF to = from + u * std::min(run.tailBehind_m, kBehind_m) * kSceneUnitsPerMetre;
  QPen pen(b.tokens.onPlate, b.units(1.4), Qt::CustomDashLine, Qt::FlatCap);
  pen.setDashPattern({4.0, 3.0});
  b.painter.setPen(pen);
  b.painter.drawLine(from + aside, to + aside);
  b.painter.drawLine(from - aside, to - aside);
}

}  // namespace sunspool::panelview
