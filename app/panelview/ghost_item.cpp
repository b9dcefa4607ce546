// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/ghost_item.h"

#include <QPainter>
#include <algorithm>
#include <array>
#include <cmath>

#include "app/panelview/scene_units.h"
#include "app/panelview/tube_shape.h"

namespace sunspool::panelview {

namespace {
constexpr double kChordScale = 1.0;  ///< px per scene unit the chords are made for; ghosts are thin
constexpr double kSame_m = 1e-4;     ///< closer than this a piece lies where it lay

using Marks = std::array<double, 6>;
/// Start, middle and end of a piece, to the grid within which two pieces are the same; either way round.
Marks marksOf(const geometry::Piece& piece) {
  const QPolygonF line = centreLine(piece, kChordScale);
  const QPointF middle = line[line.size() / 2];
  QPointF from = line.front(), to = line.back();
  if (std::pair(to.x(), to.y()) < std::pair(from.x(), from.y())) std::swap(from, to);
  return {from.x(), from.y(), middle.x(), middle.y(), to.x(), to.y()};
}
bool isSame(const Marks& a, const Marks& b) {
  for (std::size_t i = 0; i < a.size(); ++i)
    if (std::abs(a[i] - b[i]) > kSame_m * kSceneUnitsPerMetre) return false;
  return true;
}

std::vector<Marks> marksOf(const layout::LaidPanel* panel) {
  std::vector<Marks> all;
  if (panel == nullptr) return all;
  for (const layout::LaidRun& run : panel->runs) {
    const geometry::Path inside = run.path.slice(run.insideFrom_m, run.insideTo_m);
    for (const geometry::Piece& piece : inside.pieces()) all.push_back(marksOf(piece));
  }
  std::sort(all.begin(), all.end());
  return all;
}

bool liesAmong(const std::vector<Marks>& sorted, const Marks& marks) {
  Marks low = marks;
  low[0] -= kSame_m * kSceneUnitsPerMetre;
  for (auto it = std::lower_bound(sorted.begin(), sorted.end(), low);
       it != sorted.end() && (*it)[0] <= marks[0] + kSame_m * kSceneUnitsPerMetre; ++it)
    if (isSame(*it, marks)) return true;
  return false;
}
}  // namespace

void GhostItem::show(const layout::LaidPanel* panel) { showBeside({}, panel, {}, nullptr); }

void GhostItem::showBeside(const model::Frame& frame, const layout::LaidPanel* panel, const model::Frame& shownFrame,
                           const layout::LaidPanel* shown) {
  if (panel == nullptr && m_path.isEmpty()) return;
  prepareGeometryChange();
  m_path = {};
  m_holes.clear();
  m_newShare = 0.0;
  update();
  if (panel == nullptr) return;
  const std::vector<Marks> lying = marksOf(shown);
  double whole = 0.0, drawn = 0.0;
  for (const layout::LaidRun& run : panel->runs) {
    const geometry::Path inside = run.path.slice(run.insideFrom_m, run.insideTo_m);
    for (std::size_t i = 0; i < inside.pieces().size(); ++i) {
      const geometry::Piece& piece = inside.pieces()[i];
      const double length = inside.stationOf(i + 1) - inside.stationOf(i);
      whole += length;
      if (liesAmong(lying, marksOf(piece))) continue;
      drawn += length;
      const QPolygonF line = centreLine(piece, kChordScale);
      if (m_path.isEmpty() || (m_path.currentPosition() - line.front()).manhattanLength() > 0.01)
        m_path.moveTo(line.front());
      for (qsizetype k = 1; k < line.size(); ++k) m_path.lineTo(line[k]);
    }
    if (!run.returning.throughBack) continue;
    const bool isThere =
        shown != nullptr && std::any_of(shown->runs.begin(), shown->runs.end(), [&](const auto& other) {
          return other.returning.throughBack && other.returning.at == run.returning.at;
        });
    if (!isThere) m_holes.push_back(toScene(run.returning.at));
  }
  m_newShare = whole > 0.0 ? drawn / whole : 0.0;
  for (const QPointF& hole : m_holes) {
    constexpr double kRadius_m = 0.02;
    const double radius = kRadius_m * kSceneUnitsPerMetre, arm = 0.6 * radius;
    m_path.addEllipse(hole, radius, radius);
    m_path.moveTo(hole + QPointF(-arm, -arm));
    m_path.lineTo(hole + QPointF(arm, arm));
    m_path.moveTo(hole + QPointF(-arm, arm));
    m_path.lineTo(hole + QPointF(arm, -arm));
  }
  if (shown != nullptr &&
      (frame.insideWidth != shownFrame.insideWidth || frame.insideHeight != shownFrame.insideHeight))
    m_path.addRect(toScene(geometry::Box{{0.0, 0.0}, {frame.insideWidth.si(), frame.insideHeight.si()}}));
}

QRectF GhostItem::boundingRect() const { return m_path.boundingRect().adjusted(-12.0, -12.0, 12.0, 12.0); }

void GhostItem::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*) {
  if (m_path.isEmpty()) return;
  const render::Tokens& tokens = m_look.tokens();
  painter->setRenderHint(QPainter::Antialiasing);
  painter->setBrush(Qt::NoBrush);
  QPen under(tokens.plate, tokens.line(5.2));
  under.setCosmetic(true);
  painter->strokePath(m_path, under);
  const double width = tokens.line(2.2);
  QPen dashed(tokens.isHighContrast() ? tokens.onPlate : tokens.straw, width, Qt::CustomDashLine, Qt::FlatCap);
  dashed.setDashPattern({10.0 / width, 6.0 / width});
  dashed.setCosmetic(true);
  painter->strokePath(m_path, dashed);
}

}  // namespace sunspool::panelview
