// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/style.h"

#include <QAbstractItemView>
#include <QAbstractScrollArea>
#include <QApplication>
#include <QComboBox>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QWidget>
#include <algorithm>

#include "app/render/marks.h"

namespace sunspool::render {

namespace {

constexpr double kTarget = 36.0;  ///< smallest side of something to click

QPen squarePen(const QColor& colour, double width) {
  return {colour, width, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin};
}

bool isHot(const QStyleOption& option) {
  return (option.state & QStyle::State_Enabled) && (option.state & (QStyle::State_HasFocus | QStyle::State_MouseOver));
}

/// Draws the ring inside `outer`, so that nothing is clipped by the widget's own edge.
void drawRingInside(QPainter& painter, const Tokens& tokens, const QRectF& outer) {
  const double half = tokens.line(3.0) / 2.0;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(squarePen(tokens.violet, tokens.line(3.0)));
  painter.drawRect(outer.adjusted(half, half, -half, -half));
  painter.restore();
}

void drawChosen(QPainter& painter, const Tokens& tokens, const QRectF& rect) {
  painter.save();
  painter.setPen(squarePen(tokens.violet, tokens.line(2.5)));
  painter.setBrush(tokens.wash);
  painter.drawRect(rect.adjusted(1.5, 1.5, -1.5, -1.5));
  painter.setPen(Qt::NoPen);
  painter.setBrush(tokens.violet);
  const double w = std::min(tokens.px(5.0), rect.height() / 4.0);
  const QPointF tip(rect.left() + 1.5 + 1.6 * w, rect.center().y());
  painter.drawPolygon(QPolygonF({{rect.left() + 1.5, tip.y() - w}, tip, {rect.left() + 1.5, tip.y() + w}}));
  painter.restore();
}

void drawDownTriangle(QPainter& painter, const QColor& colour, QPointF centre, double half) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  painter.drawPolygon(QPolygonF(
      {centre + QPointF(-half, -half * 0.6), centre + QPointF(half, -half * 0.6), centre + QPointF(0.0, half * 0.8)}));
  painter.restore();
}

}  // namespace

Style::Style(Look& look) : QProxyStyle(QStringLiteral("Fusion")), m_tokens(look.tokens()) {
  setObjectName(QStringLiteral("sunspool"));
  connect(&look, &Look::changed, this, [this, &look] { m_tokens = look.tokens(); });
}

void Style::install(Look& look) {
  QApplication::setStyle(new Style(look));  // the application owns it
  const auto apply = [&look] {
    QApplication::setPalette(look.tokens().palette());
    QApplication::setFont(font(look.tokens(), Voice::Measured, 15.0));
    const auto widgets = QApplication::allWidgets();
    for (QWidget* widget : widgets) {
      widget->updateGeometry();
      widget->update();
    }
  };
  apply();
  QObject::connect(&look, &Look::changed, QApplication::style(), apply);
}

void Style::polish(QPalette& palette) { palette = tokens().palette(); }

void Style::polish(QWidget* widget) {
  QProxyStyle::polish(widget);
  if (qobject_cast<QAbstractButton*>(widget) != nullptr || qobject_cast<QComboBox*>(widget) != nullptr)
    widget->setAttribute(Qt::WA_Hover);
}

int Style::ringRoom() const { return qRound(tokens().line(3.0) + 2.0); }

int Style::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
  switch (metric) {
    case PM_ScrollBarExtent:
      return qRound(tokens().px(10.0));
    case PM_ScrollBarSliderMin:
      return qRound(tokens().px(kTarget));
    case PM_DefaultFrameWidth:
      return qobject_cast<const QMenu*>(widget) != nullptr ? 2 : 1;
    case PM_ButtonShiftHorizontal:
    case PM_ButtonShiftVertical:
    case PM_MenuBarPanelWidth:
    case PM_MenuPanelWidth:
    case PM_ScrollView_ScrollBarSpacing:
      return 0;
    case PM_IndicatorWidth:
    case PM_IndicatorHeight:
    case PM_ExclusiveIndicatorWidth:
    case PM_ExclusiveIndicatorHeight:
      return qRound(tokens().px(18.0));
    case PM_CheckBoxLabelSpacing:
    case PM_RadioButtonLabelSpacing:
      return qRound(tokens().px(8.0));
    case PM_SplitterWidth:
      return qRound(tokens().px(6.0));
    case PM_LayoutHorizontalSpacing:
    case PM_LayoutVerticalSpacing:
      return qRound(tokens().px(8.0));
    case PM_LayoutLeftMargin:
    case PM_LayoutTopMargin:
    case PM_LayoutRightMargin:
    case PM_LayoutBottomMargin:
      return qRound(tokens().px(12.0));
    case PM_SliderThickness:
    case PM_SliderLength:
      return qRound(tokens().px(metric == PM_SliderLength ? 14.0 : 28.0));
    default:  // NOLINT: the base class answers the other hundred
      return QProxyStyle::pixelMetric(metric, option, widget);
  }
}

int Style::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                     QStyleHintReturn* returnData) const {
  switch (hint) {
    case SH_EtchDisabledText:
    case SH_DitherDisabledText:
    case SH_UnderlineShortcut:
    case SH_Menu_Scrollable:
      return 0;
    case SH_ItemView_ShowDecorationSelected:
      return 1;
    default:  // NOLINT
      return QProxyStyle::styleHint(hint, option, widget, returnData);
  }
}

QSize Style::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                              const QWidget* widget) const {
  const int room = ringRoom();
  const int target = qRound(tokens().px(kTarget));
  switch (type) {
    case CT_PushButton: {
      const int wide = size.width() + qRound(tokens().px(34.0));
      return {wide + 2 * room, std::max(size.height() + qRound(tokens().px(14.0)), target) + 2 * room};
    }
    case CT_LineEdit:
      return {size.width() + 2 * room + 4, std::max(size.height() + qRound(tokens().px(8.0)), target)};
    case CT_ComboBox: {
      const QSize base = QProxyStyle::sizeFromContents(type, option, size, widget);
      return {base.width() + 2 * room + qRound(tokens().px(10.0)), std::max(base.height(), target + 2)};
    }
    case CT_MenuBarItem:
      return {size.width() + qRound(tokens().px(20.0)), std::max(size.height() + 8, qRound(tokens().px(30.0)))};
    case CT_MenuItem: {
      const QSize base = QProxyStyle::sizeFromContents(type, option, size, widget);
      const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option);
      if (item != nullptr && item->menuItemType == QStyleOptionMenuItem::Separator) return {base.width(), 9};
      return {base.width() + qRound(tokens().px(36.0)), std::max(base.height(), qRound(tokens().px(32.0)))};
    }
    default:  // NOLINT
      return QProxyStyle::sizeFromContents(type, option, size, widget);
  }
}

QRect Style::subElementRect(SubElement element, const QStyleOption* option, const QWidget* widget) const {
  const int room = ringRoom();
  switch (element) {
    case SE_LineEditContents:
      return option->rect.adjusted(room, room - 2, -room, -room);
    case SE_PushButtonContents:
    case SE_PushButtonFocusRect:
      return option->rect.adjusted(room, room, -room, -room);
    default:  // NOLINT
      return QProxyStyle::subElementRect(element, option, widget);
  }
}

QRect Style::subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl subControl,
                            const QWidget* widget) const {
  if (control == CC_ScrollBar) {
    const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option);
    if (bar == nullptr) return QProxyStyle::subControlRect(control, option, subControl, widget);
    const bool lying = bar->orientation == Qt::Horizontal;
    const QRect all = bar->rect;
    const int length = lying ? all.width() : all.height();
    const int range = bar->maximum - bar->minimum;
    const int least = std::min(pixelMetric(PM_ScrollBarSliderMin, option, widget), length);
    const int slider = range <= 0 ? length
                                  : std::max(least, static_cast<int>(static_cast<qint64>(length) * bar->pageStep /
                                                                     (static_cast<qint64>(range) + bar->pageStep)));
    const int start =
        sliderPositionFromValue(bar->minimum, bar->maximum, bar->sliderPosition, length - slider, bar->upsideDown);
    const auto part = [&](int from, int size) {
      return lying ? QRect(all.x() + from, all.y(), size, all.height())
                   : QRect(all.x(), all.y() + from, all.width(), size);
    };
    switch (subControl) {
      case SC_ScrollBarSlider:
        return part(start, slider);
      case SC_ScrollBarGroove:
        return all;
      case SC_ScrollBarSubPage:
        return part(0, start);
      case SC_ScrollBarAddPage:
        return part(start + slider, length - start - slider);
      default:  // NOLINT: no step buttons
        return {};
    }
  }
  if (control == CC_ComboBox) {
    const int room = ringRoom();
    const int arrow = qRound(tokens().px(22.0));
    const QRect inner = option->rect.adjusted(room, room - 2, -room, -room);
    if (subControl == SC_ComboBoxEditField) return inner.adjusted(0, 0, -arrow, 0);
    if (subControl == SC_ComboBoxArrow) return {inner.right() - arrow + 1, inner.top(), arrow, inner.height()};
  }
  return QProxyStyle::subControlRect(control, option, subControl, widget);
}

void Style::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                          const QWidget* widget) const {
  const Tokens& t = tokens();
  switch (element) {
    case PE_FrameFocusRect:
      drawRingInside(*painter, t, option->rect);
      return;
    case PE_PanelLineEdit:
    case PE_FrameLineEdit: {
      const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
      if (frame != nullptr && frame->lineWidth <= 0 && element == PE_PanelLineEdit) return;
      const double y = option->rect.bottom() + 1.0 - ringRoom();
      painter->save();
      painter->setRenderHint(QPainter::Antialiasing);
      painter->setPen(QPen(t.ink, t.line(1.3), Qt::SolidLine, Qt::FlatCap));
      painter->drawLine(QPointF(option->rect.left() + ringRoom(), y),
                        QPointF(option->rect.right() + 1.0 - ringRoom(), y));
      painter->restore();
      if (option->state & State_HasFocus) drawRingInside(*painter, t, option->rect);
      return;
    }
    case PE_Frame:
    case PE_FrameStatusBarItem:
    case PE_FrameGroupBox:
    case PE_FrameWindow:
      return;
    case PE_PanelMenu:
    case PE_FrameMenu:
    case PE_PanelTipLabel:
      painter->save();
      painter->setPen(squarePen(t.ink, t.line(1.4)));
      painter->setBrush(t.slip);
      painter->drawRect(QRectF(option->rect).adjusted(0.7, 0.7, -0.7, -0.7));
      painter->restore();
      return;
    case PE_PanelMenuBar:
      painter->fillRect(option->rect, t.paper);
      return;
    case PE_IndicatorCheckBox:
    case PE_IndicatorRadioButton:
      drawIndicator(*option, *painter, element);
      return;
    case PE_PanelItemViewItem:
      if (option->state & State_Selected) drawChosen(*painter, t, option->rect);
      return;
    case PE_PanelItemViewRow:
      return;
    case PE_PanelButtonTool:
      if (isHot(*option)) drawRingInside(*painter, t, option->rect);
      return;
    case PE_PanelScrollAreaCorner:
      painter->fillRect(option->rect, option->palette.brush(QPalette::Window));
      return;
    default:  // NOLINT
      QProxyStyle::drawPrimitive(element, option, painter, widget);
  }
}

void Style::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                        const QWidget* widget) const {
  const Tokens& t = tokens();
  switch (element) {
    case CE_PushButtonBevel:
      if (const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option)) drawButton(*button, *painter);
      return;
    case CE_PushButtonLabel:
      if (const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option)) drawButtonLabel(*button, *painter);
      return;
    case CE_PushButton:
      drawControl(CE_PushButtonBevel, option, painter, widget);
      drawControl(CE_PushButtonLabel, option, painter, widget);
      return;
    case CE_MenuItem:
      if (const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option)) drawMenuItem(*item, *painter);
      return;
    case CE_MenuBarItem:
      if (const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option)) drawMenuBarItem(*item, *painter);
      return;
    case CE_MenuBarEmptyArea:
    case CE_MenuEmptyArea:
      painter->fillRect(option->rect, element == CE_MenuBarEmptyArea ? t.paper : t.slip);
      return;
    case CE_Splitter: {
      const QRectF r = option->rect;
      painter->save();
      painter->setPen(QPen(isHot(*option) ? t.violet : t.hair, t.line(1.5)));
      if (r.width() < r.height())
        painter->drawLine(QPointF(r.center().x(), r.top()), QPointF(r.center().x(), r.bottom()));
      else
        painter->drawLine(QPointF(r.left(), r.center().y()), QPointF(r.right(), r.center().y()));
      painter->restore();
      return;
    }
    case CE_HeaderSection:
      painter->fillRect(option->rect, option->palette.brush(QPalette::Base));
      painter->save();
      painter->setPen(QPen(t.ink, t.line(1.4)));
      painter->drawLine(QPointF(option->rect.left(), option->rect.bottom()),
                        QPointF(option->rect.right() + 1.0, option->rect.bottom()));
      painter->restore();
      return;
    case CE_ShapedFrame:
      return;
    default:  // NOLINT
      QProxyStyle::drawControl(element, option, painter, widget);
  }
}

void Style::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                               const QWidget* widget) const {
  switch (control) {
    case CC_ScrollBar:
      if (const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option)) drawScrollBar(*bar, *painter, widget);
      return;
    case CC_ComboBox:
      if (const auto* box = qstyleoption_cast<const QStyleOptionComboBox*>(option)) drawComboBox(*box, *painter);
      return;
    case CC_Slider:
      if (const auto* slider = qstyleoption_cast<const QStyleOptionSlider*>(option))
        drawSlider(*slider, *painter, widget);
      return;
    default:  // NOLINT
      QProxyStyle::drawComplexControl(control, option, painter, widget);
  }
}

void Style::drawButton(const QStyleOptionButton& option, QPainter& painter) const {
  const Tokens& t = tokens();
  const int room = ringRoom();
  const QRectF body = QRectF(option.rect).adjusted(room + 0.75, room + 0.75, -room - 0.75, -room - 0.75);
  const bool filled = (option.features & QStyleOptionButton::DefaultButton) != 0;
  const bool down = (option.state & (State_Sunken | State_On)) != 0;
  painter.save();
  QPen pen = squarePen(option.state & State_Enabled ? t.ink : t.mark, t.line(1.5));
  painter.setPen(pen);
  if (filled)
    painter.setBrush(option.state & State_Enabled ? t.ink : t.mark);
  else if (down)
    painter.setBrush(t.wash);
  painter.drawRect(body);
  painter.restore();
  if (isHot(option)) drawRingInside(painter, t, option.rect);
}

void Style::drawButtonLabel(const QStyleOptionButton& option, QPainter& painter) const {
  const Tokens& t = tokens();
  const bool filled = (option.features & QStyleOptionButton::DefaultButton) != 0;
  QFont bold = painter.font();
  bold.setBold(true);
  painter.save();
  painter.setFont(bold);
  painter.setPen(filled ? t.slip : option.state & State_Enabled ? t.ink : t.ink2);
  painter.drawText(option.rect, Qt::AlignCenter | Qt::TextHideMnemonic, option.text);
  painter.restore();
}

void Style::drawIndicator(const QStyleOption& option, QPainter& painter, PrimitiveElement element) const {
  const Tokens& t = tokens();
  const QColor ink = option.state & State_Enabled ? t.ink : t.mark;
  const QRectF box = QRectF(option.rect).adjusted(1.5, 1.5, -1.5, -1.5);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(squarePen(isHot(option) ? t.violet : ink, t.line(isHot(option) ? 2.5 : 1.5)));
  if (element == PE_IndicatorRadioButton) {
    painter.drawEllipse(box);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    const double inset = box.width() * 0.27;
    if (option.state & State_On) painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset));
  } else {
    painter.drawRect(box);
    painter.setPen(QPen(ink, t.line(2.4), Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    const auto at = [&](double x, double y) {
      return QPointF(box.left() + x * box.width(), box.top() + y * box.height());
    };
    if (option.state & State_On) painter.drawPolyline(QPolygonF({at(0.18, 0.52), at(0.42, 0.76), at(0.84, 0.22)}));
    if (option.state & State_NoChange) painter.drawLine(at(0.2, 0.5), at(0.8, 0.5));
  }
  painter.restore();
}

void Style::drawMenuItem(const QStyleOptionMenuItem& option, QPainter& painter) const {
  const Tokens& t = tokens();
  const QRectF r = option.rect;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  if (option.menuItemType == QStyleOptionMenuItem::Separator) {
    painter.setPen(QPen(t.hair, 1.0));
    painter.drawLine(QPointF(r.left() + t.px(12), r.center().y()), QPointF(r.right() - t.px(12), r.center().y()));
    painter.restore();
    return;
  }
  const bool enabled = (option.state & State_Enabled) != 0;
  if (enabled && (option.state & State_Selected)) drawChosen(painter, t, r.adjusted(1, 0, -1, 0));
  const double left = r.left() + t.px(34.0);
  if (option.checkType != QStyleOptionMenuItem::NotCheckable) {
    const double side = t.px(14.0);
    QStyleOption mark;
    mark.rect = QRectF(r.left() + t.px(13.0), r.center().y() - side / 2.0, side, side).toRect();
    mark.state = option.state & State_Enabled;
    if (option.checked) mark.state |= State_On;
    drawIndicator(mark, painter,
                  option.checkType == QStyleOptionMenuItem::Exclusive ? PE_IndicatorRadioButton : PE_IndicatorCheckBox);
  }
  const QStringList parts = option.text.split(QLatin1Char('\t'));
  painter.setFont(option.font);
  painter.setPen(enabled ? t.ink : t.ink2);
  const QRectF text(left, r.top(), r.right() - t.px(24.0) - left, r.height());
  painter.drawText(text, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextShowMnemonic, parts.value(0));
  painter.setPen(t.ink2);
  if (parts.size() > 1) painter.drawText(text, Qt::AlignVCenter | Qt::AlignRight, parts.value(1));
  if (option.menuItemType == QStyleOptionMenuItem::SubMenu) {
    painter.translate(r.right() - t.px(14.0), r.center().y());
    painter.rotate(-90.0);
    drawDownTriangle(painter, t.ink, {}, t.px(5.0));
  }
  painter.restore();
}

void Style::drawMenuBarItem(const QStyleOptionMenuItem& option, QPainter& painter) const {
  const Tokens& t = tokens();
  painter.fillRect(option.rect, t.paper);
  const bool open = (option.state & State_Selected) != 0 && (option.state & State_Enabled) != 0;
  painter.save();
  painter.setFont(font(t, Voice::Measured, 14.5));
  painter.setPen(option.state & State_Enabled ? t.ink : t.ink2);
  painter.drawText(option.rect, Qt::AlignCenter | Qt::TextShowMnemonic, option.text);
  painter.restore();
  if (open) drawRingInside(painter, t, option.rect);
}

void Style::drawScrollBar(const QStyleOptionSlider& option, QPainter& painter, const QWidget* widget) const {
  painter.fillRect(option.rect, option.palette.brush(QPalette::Window));
  if (option.maximum <= option.minimum) return;
  const QRect slider = subControlRect(CC_ScrollBar, &option, SC_ScrollBarSlider, widget);
  const bool held = isHot(option) || (option.state & State_Sunken) != 0;
  painter.fillRect(slider.adjusted(2, 2, -2, -2), held ? tokens().violet : tokens().mark);
}

void Style::drawComboBox(const QStyleOptionComboBox& option, QPainter& painter) const {
  const Tokens& t = tokens();
  const int room = ringRoom();
  const double y = option.rect.bottom() + 1.0 - room;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(t.ink, t.line(1.3), Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(QPointF(option.rect.left() + room, y), QPointF(option.rect.right() + 1.0 - room, y));
  painter.restore();
  drawDownTriangle(painter, option.state & State_Enabled ? t.ink : t.mark,
                   QPointF(option.rect.right() - room - t.px(9.0), option.rect.center().y()), t.px(5.0));
  if (isHot(option)) drawRingInside(painter, t, option.rect);
}

void Style::drawSlider(const QStyleOptionSlider& option, QPainter& painter, const QWidget* widget) const {
  const Tokens& t = tokens();
  const QRectF r = option.rect;
  const QRectF handle = subControlRect(CC_Slider, &option, SC_SliderHandle, widget);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(t.ink, t.line(1.5)));
  if (option.orientation == Qt::Horizontal)
    painter.drawLine(QPointF(r.left(), r.center().y()), QPointF(r.right(), r.center().y()));
  else
    painter.drawLine(QPointF(r.center().x(), r.top()), QPointF(r.center().x(), r.bottom()));
  painter.setPen(squarePen(isHot(option) ? t.violet : t.ink, t.line(isHot(option) ? 3.0 : 1.5)));
  painter.setBrush(t.slip);
  painter.drawRect(handle.adjusted(2, 2, -2, -2));
  painter.restore();
}

}  // namespace sunspool::render
