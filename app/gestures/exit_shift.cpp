// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/exit_shift.h"

#include <QCoreApplication>

#include "core/model/edits.h"

namespace sunspool::gestures {

namespace {

using geometry::Point;
using layout::Side;
using model::StartCorner;

/// Along the port's side, away from the start corner.
Point awayFromCorner(Side side, StartCorner corner) {
  const bool left = corner == StartCorner::LowerLeft || corner == StartCorner::UpperLeft;
  const bool lower = corner == StartCorner::LowerLeft || corner == StartCorner::LowerRight;
  if (side == Side::Left || side == Side::Right) return {0.0, lower ? 1.0 : -1.0};
  return {left ? 1.0 : -1.0, 0.0};
}

Point outwards(Side side) {
  switch (side) {
    case Side::Bottom:
      return {0.0, -1.0};
    case Side::Right:
      return {1.0, 0.0};
    case Side::Top:
      return {0.0, 1.0};
    case Side::Left:
      return {-1.0, 0.0};
  }
  return {};
}

}  // namespace

QString ExitShift::name() const { return QCoreApplication::translate("sunspool::gestures", "Feed shift"); }

QString ExitShift::hint() const {
  return QCoreApplication::translate("sunspool::gestures",
                                     "The arrow keys slide it too. Type a distance. Escape puts it back.");
}

std::optional<Handle> ExitShift::handle(const Design& design) const {
  if (!design.panel || design.panel->runs.empty()) return std::nullopt;
  if (design.document->laying.recipe != model::Recipe::RectangularSpiral) return std::nullopt;
  const layout::Port& feed = design.panel->runs.front().feed;
  if (feed.throughBack) return std::nullopt;
  const double half = design.document->frame.timberWidth.si() / 2.0;
  return Handle{feed.at + outwards(feed.side) * half, awayFromCorner(feed.side, design.document->laying.startCorner)};
}

double ExitShift::value(const Design& design) const { return design.document->laying.feedShift.si(); }

Edit ExitShift::edit(double value) const {
  return [value](model::Document document) { return model::withFeedShift(std::move(document), metres(value)); };
}

double ExitShift::valueAt(geometry::Point hand) const {
  return heldValue() + geometry::dot(hand - heldAt(), handle(heldDesign())->along);
}

}  // namespace sunspool::gestures
