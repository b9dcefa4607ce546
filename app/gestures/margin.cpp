// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/margin.h"

#include <QCoreApplication>

#include "core/model/edits.h"

namespace sunspool::gestures {

QString Margin::name() const { return QCoreApplication::translate("sunspool::gestures", "Margin"); }

QString Margin::hint() const {
  return QCoreApplication::translate("sunspool::gestures",
                                     "The arrow keys pull it too. Type a margin. Escape puts it back.");
}

std::optional<Handle> Margin::handle(const Design& design) const {
  const model::Document& document = *design.document;
  // A quarter along the rail: the middle belongs to the frame's own handle.
  const double x = document.frame.insideWidth.si() / 4.0;
  const double y = document.frame.insideHeight.si() - document.laying.margin.si();
  return Handle{{x, y}, {0.0, -1.0}};
}

double Margin::value(const Design& design) const { return design.document->laying.margin.si(); }

Edit Margin::edit(double value) const {
  return [value](model::Document document) { return model::withMargin(std::move(document), metres(value)); };
}

double Margin::valueAt(geometry::Point hand) const { return heldValue() + heldAt().y - hand.y; }

}  // namespace sunspool::gestures
