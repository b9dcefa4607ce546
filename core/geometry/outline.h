// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Straight-sided outlines: validity, union and difference, net area, point in region, offsets, erosion.
// Boost.Geometry does the work inside outline.cpp and appears in no header.

#include <optional>
#include <span>
#include <vector>

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/geometry/path.h"

namespace sunspool::geometry {

/// One closed ring of corners without repeated end point, either orientation.
struct Outline {
  std::vector<Point> corners;
  bool operator==(const Outline&) const = default;
};
Outline rectangle(Point lower, Point upper);

/// One piece of a region: an outer ring with holes.
struct RegionPart {
  Outline outer;
  std::vector<Outline> holes;
};
/// A plane region of any number of parts.
struct Region {
  std::vector<RegionPart> parts;
};

/// Done, or OutlineTooFewCorners (fact "corners") / OutlineCrossesItself (facts "x", "y" of the crossing point) /
/// OutlineNoArea / NotFinite. A corner that touches another side, or a side that runs back over the last one, counts
/// as crossing. Corners nearer than 1e-12 m are one.
Result<Done> checked(const Outline& outline);
/// The outline less the union of the keep-outs. Errors as checked(), `where` names "outline" or "keep_out/<index>";
/// NotConverged with the library's words should the overlay itself fail. Accuracy: areas to 1e-9 m2. No parts are left
/// when the keep-outs cover all.
Result<Region> regionOf(const Outline& outline, std::span<const Outline> keepOuts);
Area area(const Region& region);
Area area(const Outline& outline);
bool contains(const Region& region, Point p);  ///< the border counts as inside
/// All points of the region farther than `distance` (>= 0, asserted) from its border. May be empty or in several
/// parts. Straight sides and outward corners are exact; where the border bends inwards, and about holes, the rounded
/// border is made of chords within 0.02 mm.
Region eroded(const Region& region, Length distance);
/// Part of the region that no disc of this radius inside the region can reach is removed (opening). Rounded corners
/// are chords within 0.04 mm.
Region openedBy(const Region& region, Length radius);
/// Area of the union of a tube band of this width along the path, clipped to the region. What is covered twice counts
/// once; ends are cut square, sharp joints rounded. Arcs are chords within 0.02 mm placed so that the area of each
/// stays exact: 1e-9 relative where bands keep apart, about 1e-4 of the shared part where they overlap.
/// Assumption: no arc is tighter than half the width (its band then ends at the centre).
Area bandArea(const Path& path, Length width, const Region& region);

}  // namespace sunspool::geometry
