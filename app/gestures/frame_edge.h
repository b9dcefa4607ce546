// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/gestures/gesture.h"

namespace sunspool::gestures {

/// Pulls the right stile or the top rail; the datum corner stays. Clicks to 5 mm.
class FrameEdge : public Gesture {
 public:
  enum class Edge { Right, Top };
  explicit FrameEdge(Edge edge) : m_edge(edge) {}

  QString key() const override;
  QString name() const override;
  std::optional<Handle> handle(const Design& design) const override;
  double value(const Design& design) const override;
  double step() const override { return 0.005; }
  Edit edit(double value) const override;
  QString hint() const override;
  Edge edge() const { return m_edge; }

 protected:
  double valueAt(geometry::Point hand) const override;

 private:
  Edge m_edge;
};

}  // namespace sunspool::gestures
