// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/accessible.h"

#include <QAccessible>
#include <QAccessibleWidget>

#include "app/tape/tape.h"

namespace sunspool::tape {

namespace {

/// A slider whose value is the metre of the bead.
class TapeSpeaker : public QAccessibleWidget, public QAccessibleValueInterface {
 public:
  explicit TapeSpeaker(Tape* tape) : QAccessibleWidget(tape, QAccessible::Slider) {}

  void* interface_cast(QAccessible::InterfaceType type) override {
    if (type == QAccessible::ValueInterface) return static_cast<QAccessibleValueInterface*>(this);
    return QAccessibleWidget::interface_cast(type);
  }
  QVariant currentValue() const override { return tape()->station_m(); }
  void setCurrentValue(const QVariant& value) override { tape()->moveTo(value.toDouble()); }
  QVariant maximumValue() const override { return tape()->end_m(); }
  QVariant minimumValue() const override { return 0.0; }
  QVariant minimumStepSize() const override { return Tape::kStep_m; }

 private:
  Tape* tape() const { return static_cast<Tape*>(object()); }
};

QAccessibleInterface* speakerFor(const QString&, QObject* object) {
  if (auto* tape = qobject_cast<Tape*>(object)) return new TapeSpeaker(tape);
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

}  // namespace sunspool::tape
