// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What stands on a sheet of paper, in paper millimetres: origin at the upper left corner, x to the right, y down.
// Whoever paints it (PDF, SVG, printer, screen) adds nothing and leaves nothing out.

#include <string>
#include <variant>
#include <vector>

namespace sunspool::sheet {

struct PaperPoint {
  double x_mm = 0.0;
  double y_mm = 0.0;
  bool operator==(const PaperPoint&) const = default;
};

enum class Stroke { Solid, Dashed };
enum class Align { Left, Middle, Right };
enum class Weight { Normal, Bold };
enum class Slant { Upright, Italic };
/// What the program says, numbers and their labels, what is written on a thing.
enum class Voice { Said, Measured, Engraved };

struct Line {
  PaperPoint from;
  PaperPoint to;
  double width_mm = 0.25;
  Stroke stroke = Stroke::Solid;
  bool operator==(const Line&) const = default;
};
/// From centre + radius (cos start, -sin start), turning by sweep; positive is counter-clockwise on the paper. Radians.
struct Arc {
  PaperPoint centre;
  double radius_mm = 0.0;
  double start = 0.0;
  double sweep = 0.0;
  double width_mm = 0.25;
  Stroke stroke = Stroke::Solid;
  bool operator==(const Arc&) const = default;
};
struct Rect {
  PaperPoint upperLeft;
  double width_mm = 0.0;
  double height_mm = 0.0;
  double line_mm = 0.25;  ///< 0: no outline
  double shade = 0.0;     ///< 0 paper to 1 ink, filled
  bool operator==(const Rect&) const = default;
};
struct Text {
  PaperPoint at;  ///< on the base line: its left end, middle or right end
  std::string text;
  double size_pt = 10.0;
  Weight weight = Weight::Normal;
  Align align = Align::Left;
  Voice voice = Voice::Said;
  Slant slant = Slant::Upright;
  bool operator==(const Text&) const = default;
};

using Item = std::variant<Line, Arc, Rect, Text>;

/// One side of paper.
struct Sheet {
  double width_mm = 210.0;
  double height_mm = 297.0;
  std::vector<Item> items;  ///< painted in this order
  bool operator==(const Sheet&) const = default;
};

enum class Paper { A4, Letter };
/// An empty upright sheet: 210 x 297 mm, or 8.5 x 11 inches.
Sheet emptySheet(Paper paper);

inline constexpr double kMillimetresPerPoint = 25.4 / 72.0;

}  // namespace sunspool::sheet
