// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The scene is the panel in millimetres with y downwards, as Qt draws; the panel's own y runs up the slope.

#include <QPointF>
#include <QRectF>

#include "core/geometry/path.h"

namespace sunspool::panelview {

inline constexpr double kSceneUnitsPerMetre = 1000.0;

inline QPointF toScene(geometry::Point p) { return {p.x * kSceneUnitsPerMetre, -p.y * kSceneUnitsPerMetre}; }
inline geometry::Point toPanel(QPointF p) { return {p.x() / kSceneUnitsPerMetre, -p.y() / kSceneUnitsPerMetre}; }
/// Directions turn over with y.
inline QPointF directionToScene(geometry::Point v) { return {v.x, -v.y}; }
inline QRectF toScene(const geometry::Box& box) {
  return QRectF(toScene(geometry::Point{box.lower.x, box.upper.y}), toScene(geometry::Point{box.upper.x, box.lower.y}));
}

}  // namespace sunspool::panelview
