// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Good paper in place of Fusion's boxes: square buttons with an ink outline, fields as a line under the value,
// a 10 px scroll mark, plain menus, one violet focus ring.

#include <QProxyStyle>
#include <QStyleOption>

#include "app/render/look.h"

namespace sunspool::render {

class Style : public QProxyStyle {
  Q_OBJECT
 public:
  /// @param look may go before the style does, which then keeps the last tokens.
  explicit Style(Look& look);

  /// Gives the application this style, its palette and its font.
  static void install(Look& look);

  void polish(QPalette& palette) override;
  void polish(QWidget* widget) override;
  using QProxyStyle::polish;

  int pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const override;
  int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                QStyleHintReturn* returnData) const override;
  QSize sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                         const QWidget* widget) const override;
  QRect subElementRect(SubElement element, const QStyleOption* option, const QWidget* widget) const override;
  QRect subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl subControl,
                       const QWidget* widget) const override;
  void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
  void drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                   const QWidget* widget) const override;
  void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                          const QWidget* widget) const override;

 private:
  const Tokens& tokens() const { return m_tokens; }
  int ringRoom() const;  ///< px kept free around a control for its focus ring
  void drawButton(const QStyleOptionButton& option, QPainter& painter) const;
  void drawButtonLabel(const QStyleOptionButton& option, QPainter& painter) const;
  void drawIndicator(const QStyleOption& option, QPainter& painter, PrimitiveElement element) const;
  void drawMenuItem(const QStyleOptionMenuItem& option, QPainter& painter) const;
  void drawMenuBarItem(const QStyleOptionMenuItem& option, QPainter& painter) const;
  void drawScrollBar(const QStyleOptionSlider& option, QPainter& painter, const QWidget* widget) const;
  void drawComboBox(const QStyleOptionComboBox& option, QPainter& painter) const;
  void drawSlider(const QStyleOptionSlider& option, QPainter& painter, const QWidget* widget) const;

  Tokens m_tokens;  ///< a copy: the application may keep the style longer than anybody keeps the look
};

}  // namespace sunspool::render
