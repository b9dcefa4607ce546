// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsItem>
#include <memory>

#include "app/render/look.h"
#include "core/layout/layout.h"
#include "core/model/document.h"

namespace sunspool::panelview {

/// Everything under the tube: the shadow on the desk, timber with its grain, plate, keep-outs.
class BoardItem : public QGraphicsItem {
 public:
  explicit BoardItem(const render::Look& look) : m_look(look) {}
  void show(std::shared_ptr<const model::Document> document);
  /// Dashed line at the margin, while it is being pulled.
  void setMarginShown(bool shown);
  QRectF outerRect() const;   ///< scene units
  QRectF insideRect() const;  ///< scene units
  QRectF boundingRect() const override;
  void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

 private:
  void paintTimber(QPainter& painter, const QTransform& toPx) const;
  void paintPlate(QPainter& painter, const QRectF& px) const;
  void paintKeepOuts(QPainter& painter, const QTransform& toPx) const;

  const render::Look& m_look;
  std::shared_ptr<const model::Document> m_document;
  bool m_marginShown = false;
};

/// Marks that lie over the tube but belong to the board: screws, glazing hairs.
class GlazingItem : public QGraphicsItem {
 public:
  explicit GlazingItem(const render::Look& look) : m_look(look) {}
  void show(std::shared_ptr<const model::Document> document, const layout::LaidPanel* panel);
  QRectF boundingRect() const override { return m_box; }
  void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

 private:
  const render::Look& m_look;
  QRectF m_box;
  bool m_glazed = false;
};

}  // namespace sunspool::panelview
