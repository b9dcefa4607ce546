// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Where sun goes, drawn as rows of bars: to the pool solid, waiting hatched, the air's share and what never became heat
// as open outlines, shade as dots on top. Rows are quarter hours or months.

#include <QPainter>
#include <QRectF>
#include <QString>
#include <array>
#include <vector>

#include "app/format/axis.h"
#include "app/render/tokens.h"

namespace sunspool::daypage {

enum class Part { ToPool, Waiting, ToAir, NeverHeat, Shade };
inline constexpr std::size_t kParts = 5;
using Amounts = std::array<double, kParts>;  ///< in the order of Part, all in one SI unit; ToAir may be below 0

struct Row {
  double top = 0.0, bottom = 0.0;
  Amounts amounts{};
};

struct Canvas {
  QPainter& painter;
  const render::Tokens& tokens;
  const format::Preferences& preferences;
  double devicePixelRatio = 1.0;
};

/// The plot's frame and what a pixel across it is worth.
struct Scale {
  QRectF plot;
  double most = 1.0;  ///< at the right edge
  double x(double amount) const { return plot.left() + amount / most * plot.width(); }
};

double sumOf(const Amounts& amounts);
double mostOf(const std::vector<Row>& rows);

/// Grid lines with their numbers over the plot; the last one carries the unit.
void drawAxis(const Canvas& canvas, const Scale& scale, const format::AxisUnit& unit);
void drawBars(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows);
/// The kept design's share to the pool as a dotted outline; amounts row by row.
void drawBefore(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows);

/// Name of a part; of the air by the direction of its sum.
QString nameOf(Part part, double total);
/// "7.5 kWh", "0.24 kWh", "−1.2 kWh".
QString energyText(double energy_J);
/// The same with its sign, for differences.
QString signedEnergyText(double energy_J);

enum class LabelText { NameAndTotal, NameOnly };
/// Every part that there is, named where it is widest and clear of `taken` and of the other names.
struct PartLabel {
  Part part;
  QRectF rect;
  QString name, value;
};
std::vector<PartLabel> placeLabels(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows,
                                   const Amounts& totals_J, LabelText text, std::vector<QRectF> taken);
void drawLabels(const Canvas& canvas, const Scale& scale, const std::vector<Row>& rows,
                const std::vector<PartLabel>& labels);

}  // namespace sunspool::daypage
