// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsItem>
#include <QPainterPath>
#include <vector>

#include "app/render/look.h"
#include "core/layout/layout.h"
#include "core/model/document.h"

namespace sunspool::panelview {

/// A design that is only looked at: its centre lines in straw, broken, plate on both sides; a hole through the back as
/// a crossed ring, a frame of another size as its inside edge. What lies where it lies today is left out.
class GhostItem : public QGraphicsItem {
 public:
  explicit GhostItem(const render::Look& look) : m_look(look) {}
  void show(const layout::LaidPanel* panel);  ///< nullptr = no ghost; all of it is drawn
  /// What differs from the design that is shown; both panels may be nullptr.
  void showBeside(const model::Frame& frame, const layout::LaidPanel* panel, const model::Frame& shownFrame,
                  const layout::LaidPanel* shown);
  bool isShown() const { return !m_path.isEmpty(); }
  /// So much is different that today's tube had better step back.
  bool isMostlyNew() const { return m_newShare > 0.25; }
  QRectF boundingRect() const override;
  void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

 private:
  const render::Look& m_look;
  QPainterPath m_path;
  std::vector<QPointF> m_holes;
  double m_newShare = 0.0;
};

}  // namespace sunspool::panelview
