// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>
#include <optional>

#include "app/format/remedy_text.h"
#include "app/render/look.h"
#include "app/widgets/quantity_edit.h"

namespace sunspool::snags {

/// Where the three columns of prices end, counted from the right edge of a row.
struct PriceColumns {
  double tube, heat, money;  ///< right edges, px from the right edge
};
PriceColumns priceColumns(const render::Tokens& tokens);

/// One remedy of the slip: number, phrase, what it means, price. The pointer over it or the focus chooses it.
class RemedyRow : public QWidget {
  Q_OBJECT
 public:
  RemedyRow(render::Look& look, QWidget* parent);
  void show(int number, const format::RemedyText& words, const std::optional<format::RemedyPriceText>& price);
  /// The field of a remedy that asks for a number; nullptr for others. The row takes it over.
  void setField(widgets::QuantityEdit* field);
  widgets::QuantityEdit* field() const { return m_field; }
  void setChosen(bool chosen);
  bool isChosen() const { return m_chosen; }
  int heightFor(int width) const;

 Q_SIGNALS:
  void chosen();  ///< hovered, focused or clicked
  void taken();   ///< Return, or a double click

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void enterEvent(QEnterEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  double layOut(QPainter* painter, double width) const;
  double textWidth(double width) const;
  void placeField();

  render::Look& m_look;
  int m_number = 1;
  format::RemedyText m_words;
  std::optional<format::RemedyPriceText> m_price;
  QPointer<widgets::QuantityEdit> m_field;
  bool m_chosen = false;
};

}  // namespace sunspool::snags
