// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/accessible.h"

#include <QAccessible>
#include <QAccessibleObject>
#include <QAccessibleWidget>

#include "app/panelview/handle_mark.h"
#include "app/panelview/panel_view.h"

namespace sunspool::panelview {

namespace {

PanelView* viewOf(const HandleMark* mark) { return qobject_cast<PanelView*>(mark->parent()); }

/// A handle speaks as a slider: its name and the number under it.
class HandleSpeaker : public QAccessibleObject {
 public:
  explicit HandleSpeaker(HandleMark* mark) : QAccessibleObject(mark) {}
  HandleMark* mark() const { return static_cast<HandleMark*>(object()); }

  QAccessibleInterface* parent() const override { return QAccessible::queryAccessibleInterface(viewOf(mark())); }
  QAccessibleInterface* child(int) const override { return nullptr; }
  int childCount() const override { return 0; }
  int indexOfChild(const QAccessibleInterface*) const override { return -1; }
  QAccessible::Role role() const override { return QAccessible::Slider; }
  QString text(QAccessible::Text kind) const override {
    switch (kind) {
      case QAccessible::Name:
        return mark()->gesture().name();
      case QAccessible::Value:
        return mark()->spokenValue();
      case QAccessible::Help:
      case QAccessible::Description:
        return mark()->gesture().hint();
      default:
        return {};
    }
  }
  QRect rect() const override {
    const PanelView* view = viewOf(mark());
    if (view == nullptr || !mark()->isThere()) return {};
    const QRect box = mark()->box().toAlignedRect();
    return {view->viewport()->mapToGlobal(box.topLeft()), box.size()};
  }
  QAccessible::State state() const override {
    QAccessible::State state;
    state.focusable = true;
    state.invisible = !mark()->isThere();
    const PanelView* view = viewOf(mark());
    state.focused = view != nullptr && view->focusedHandle() == mark();
    return state;
  }
};

class PanelSpeaker : public QAccessibleWidget {
 public:
  explicit PanelSpeaker(PanelView* view) : QAccessibleWidget(view, QAccessible::Graphic) {}
  PanelView* view() const { return static_cast<PanelView*>(object()); }

  int childCount() const override { return static_cast<int>(view()->handles().size()); }
  QAccessibleInterface* child(int index) const override {
    const auto& handles = view()->handles();
    if (index < 0 || index >= static_cast<int>(handles.size())) return nullptr;
    return QAccessible::queryAccessibleInterface(handles[static_cast<std::size_t>(index)]);
  }
  int indexOfChild(const QAccessibleInterface* child) const override {
    const auto& handles = view()->handles();
    for (std::size_t i = 0; i < handles.size(); ++i)
      if (child != nullptr && handles[i] == child->object()) return static_cast<int>(i);
    return -1;
  }
  QString text(QAccessible::Text kind) const override {
    if (kind == QAccessible::Value || kind == QAccessible::Description) return view()->hereAndNow();
    return QAccessibleWidget::text(kind);
  }
};

QAccessibleInterface* speakerFor(const QString&, QObject* object) {
  if (auto* view = qobject_cast<PanelView*>(object)) return new PanelSpeaker(view);
  if (auto* mark = qobject_cast<HandleMark*>(object)) return new HandleSpeaker(mark);
  return nullptr;
}

}  // namespace

void installAccessibility() {
  static const bool done = [] {
    QAccessible::installFactory(speakerFor);
    return true;
  }();
  static_cast<void>(done);
}

}  // namespace sunspool::panelview
