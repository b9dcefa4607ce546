// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsItem>
#include <QPainterPath>

#include "app/render/look.h"
#include "core/layout/layout.h"

namespace sunspool::panelview {

/// A design that is only looked at: its centre lines in straw, broken, plate on both sides.
class GhostItem : public QGraphicsItem {
 public:
  explicit GhostItem(const render::Look& look) : m_look(look) {}
  void show(const layout::LaidPanel* panel);  ///< nullptr = no ghost
  bool isShown() const { return !m_path.isEmpty(); }
  QRectF boundingRect() const override;
  void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

 private:
  const render::Look& m_look;
  QPainterPath m_path;
};

}  // namespace sunspool::panelview
