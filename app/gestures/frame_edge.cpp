// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/frame_edge.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

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
                                     "Alt frees it from stock sizes. Type an inside size. Escape puts it back.");
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

void FrameEdge::prepare() {
  const auto side = m_edge == Edge::Right ? stock::FrameSide::Width : stock::FrameSide::Height;
  m_sizes = stock::stockSizes(*heldDesign().document, side);
}

double FrameEdge::clicked(double value) const {
  const double onGrid = Gesture::clicked(value);
  if (onGrid == heldValue() || m_clicks == Clicks::Free || m_sizes.empty()) return onGrid;
  const auto away = [value](const stock::StockSize& size) { return std::abs(size.inside.si() - value); };
  const auto nearest =
      std::min_element(m_sizes.begin(), m_sizes.end(),
                       [&](const stock::StockSize& a, const stock::StockSize& b) { return away(a) < away(b); });
  return away(*nearest) <= m_reach.si() ? nearest->inside.si() : onGrid;
}

const stock::StockSize* FrameEdge::clickedTo() const {
  if (state() != State::Held) return nullptr;
  const auto found = std::find_if(m_sizes.begin(), m_sizes.end(), [this](const stock::StockSize& size) {
    return std::abs(size.inside.si() - proposed()) < 1e-9;
  });
  return found == m_sizes.end() ? nullptr : &*found;
}

QString stockSizeInWords(const stock::StockSize& size) {
  const auto tr = [](const char* text) { return QCoreApplication::translate("sunspool::gestures", text); };
  const QString name = QString::fromStdString(size.name);
  const bool sheet = size.part == stock::StockSize::Part::Sheet;
  switch (size.shares) {
    case 1:
      return (sheet ? tr("a whole side of %1") : tr("a whole length of %1")).arg(name);
    case 2:
      return tr("half of %1").arg(name);
    default:
      return tr("a third of %1").arg(name);
  }
}

}  // namespace sunspool::gestures
