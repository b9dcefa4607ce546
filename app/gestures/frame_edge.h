// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "app/gestures/gesture.h"
#include "core/stock/stock_sizes.h"

namespace sunspool::gestures {

/// Pulls the right stile or the top rail; the datum corner stays. Clicks to 5 mm, and to sizes at which a thing of the
/// Shed is used up.
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

  /// How near the hand has to come to a stock size, for the next pull.
  void setReach(Length reach) { m_reach = reach; }
  enum class Clicks { ToStock, Free };
  void setClicks(Clicks clicks) { m_clicks = clicks; }
  /// The stock size that is proposed; nullptr when it is none, or nothing is held.
  const stock::StockSize* clickedTo() const;

 protected:
  double valueAt(geometry::Point hand) const override;
  void prepare() override;
  double clicked(double value) const override;

 private:
  Edge m_edge;
  Length m_reach{};
  Clicks m_clicks = Clicks::ToStock;
  std::vector<stock::StockSize> m_sizes;
};

/// What a stock size is, in a few words: "half of Plywood".
QString stockSizeInWords(const stock::StockSize& size);

}  // namespace sunspool::gestures
