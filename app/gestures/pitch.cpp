// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/pitch.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "core/model/edits.h"

namespace sunspool::gestures {

namespace {

/// Offsets of the straights that cross the middle line at right angles, up to the middle of the panel.
std::vector<double> crossedOffsets(const Design& design, bool across) {
  const model::Frame& frame = design.document->frame;
  const double middle = (across ? frame.insideHeight : frame.insideWidth).si() / 2.0;
  const double reach = (across ? frame.insideWidth : frame.insideHeight).si() / 2.0;
  std::vector<double> offsets;
  for (const layout::LaidRun& run : design.panel->runs) {
    const std::span<const geometry::Piece> pieces = run.path.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const double station = run.path.stationOf(i);
      const auto* line = std::get_if<geometry::Line>(&pieces[i]);
      if (line == nullptr || station >= run.turnsTo_m || run.path.stationOf(i + 1) <= run.turnsFrom_m) continue;
      const geometry::Point a = line->start, b = line->end;
      const double fromAlong = across ? a.y : a.x, toAlong = across ? b.y : b.x;
      const double offset = across ? a.x : a.y, otherOffset = across ? b.x : b.y;
      if (std::abs(offset - otherOffset) > 1e-9) continue;
      if (std::min(fromAlong, toAlong) <= middle && middle <= std::max(fromAlong, toAlong) && offset <= reach)
        offsets.push_back(offset);
    }
  }
  std::sort(offsets.begin(), offsets.end());
  return offsets;
}

/// Index of the gap the handle lies in: half way in, where the eye looks for it.
std::size_t handleGap(const TurnRow& row) { return (row.offsets_m.size() - 1) / 2; }

}  // namespace

TurnRow turnRow(const Design& design) {
  if (!design.panel) return {};
  TurnRow up{crossedOffsets(design, false), false};
  TurnRow across{crossedOffsets(design, true), true};
  TurnRow& better = across.offsets_m.size() > up.offsets_m.size() ? across : up;
  if (better.offsets_m.size() < 2) better.offsets_m.clear();
  return better;
}

QString Pitch::name() const { return QCoreApplication::translate("sunspool::gestures", "Pitch"); }

QString Pitch::hint() const {
  return QCoreApplication::translate("sunspool::gestures",
                                     "The arrow keys pull it too. Type a pitch. Escape puts it back.");
}

std::optional<Handle> Pitch::handle(const Design& design) const {
  const TurnRow row = turnRow(design);
  if (row.offsets_m.empty()) return std::nullopt;
  const std::size_t gap = handleGap(row);
  const double offset = (row.offsets_m[gap] + row.offsets_m[gap + 1]) / 2.0;
  const model::Frame& frame = design.document->frame;
  if (row.across) return Handle{{offset, frame.insideHeight.si() / 2.0}, {1.0, 0.0}};
  return Handle{{frame.insideWidth.si() / 2.0, offset}, {0.0, 1.0}};
}

double Pitch::value(const Design& design) const { return design.document->laying.pitch.si(); }

Edit Pitch::edit(double value) const {
  return [value](model::Document document) { return model::withPitch(std::move(document), metres(value)); };
}

void Pitch::prepare() {
  const TurnRow row = turnRow(heldDesign());
  m_gapsBelow = static_cast<double>(handleGap(row)) + 0.5;
  m_along = row.across ? geometry::Point{1.0, 0.0} : geometry::Point{0.0, 1.0};
}

double Pitch::valueAt(geometry::Point hand) const {
  return heldValue() + geometry::dot(hand - heldAt(), m_along) / m_gapsBelow;
}

}  // namespace sunspool::gestures
