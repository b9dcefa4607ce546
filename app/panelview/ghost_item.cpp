// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/ghost_item.h"

#include <QPainter>

#include "app/panelview/tube_shape.h"

namespace sunspool::panelview {

namespace {
constexpr double kChordScale = 1.0;  ///< px per scene unit the chords are made for; ghosts are thin
}

void GhostItem::show(const layout::LaidPanel* panel) {
  if (panel == nullptr && m_path.isEmpty()) return;
  prepareGeometryChange();
  m_path = {};
  if (panel != nullptr) {
    for (const layout::LaidRun& run : panel->runs) {
      const geometry::Path inside = run.path.slice(run.insideFrom_m, run.insideTo_m);
      for (const geometry::Piece& piece : inside.pieces()) {
        const QPolygonF line = centreLine(piece, kChordScale);
        if (m_path.isEmpty() || (m_path.currentPosition() - line.front()).manhattanLength() > 0.01)
          m_path.moveTo(line.front());
        for (qsizetype i = 1; i < line.size(); ++i) m_path.lineTo(line[i]);
      }
    }
  }
  update();
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
