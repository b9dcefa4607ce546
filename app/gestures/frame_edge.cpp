// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/frame_edge.h"

#include <QCoreApplication>

#include "core/model/edits.h"

namespace sunspool::gestures {

QString FrameEdge::key() const {
  return m_edge == Edge::Right ? QStringLiteral("inside_width") : QStringLiteral("inside_height");
}

QString FrameEdge::name() const {
  return m_edge == Edge::Right ? QCoreApplication::translate("sunspool::gestures", "Inside width")
                               : QCoreApplication::translate("sunspool::gestures", "Inside height");
}

QString FrameEdge::hint() const {
  return QCoreApplication::translate("sunspool::gestures",
                                     "The arrow keys pull it too. Type an inside size. Escape puts it back.");
}

std::optional<Handle> FrameEdge::handle(const Design& design) const {
  const model::Frame& frame = design.document->frame;
  const double width = frame.insideWidth.si(), height = frame.insideHeight.si(), half = frame.timberWidth.si() / 2.0;
  if (m_edge == Edge::Right) return Handle{{width + half, height / 2.0}, {1.0, 0.0}};
  return Handle{{width / 2.0, height + half}, {0.0, 1.0}};
}

double FrameEdge::value(const Design& design) const {
  const model::Frame& frame = design.document->frame;
  return (m_edge == Edge::Right ? frame.insideWidth : frame.insideHeight).si();
}

Edit FrameEdge::edit(double value) const {
  return [edge = m_edge, value](model::Document document) {
    return edge == Edge::Right ? model::withInsideWidth(std::move(document), metres(value))
                               : model::withInsideHeight(std::move(document), metres(value));
  };
}

double FrameEdge::valueAt(geometry::Point hand) const {
  const geometry::Point moved = hand - heldAt();
  return heldValue() + (m_edge == Edge::Right ? moved.x : moved.y);
}

}  // namespace sunspool::gestures
