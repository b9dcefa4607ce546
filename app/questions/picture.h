// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Pictures of the sheets: what they show is picked and worded by the question, what they paint is decided here.

#include <QPointF>
#include <QRectF>
#include <QString>
#include <memory>
#include <optional>
#include <vector>

#include "app/format/axis.h"
#include "app/format/format.h"
#include "app/render/marks.h"
#include "app/render/tokens.h"
#include "core/evaluate/flow_curves.h"
#include "core/results/results.h"

class QPainter;

namespace sunspool::questions {

class Picture {
 public:
  enum class Place { Beside, Across };  ///< beside the words where there is room, or below them over the whole width
  virtual ~Picture() = default;
  virtual Place place() const { return Place::Across; }
  virtual double heightFor(double width, const render::Tokens& tokens) const = 0;
  virtual void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const = 0;
  /// What it shows, for those who do not see it.
  virtual QString spoken() const = 0;
};
using PicturePtr = std::shared_ptr<const Picture>;

/// Pump curve, system curve and where they meet.
struct FlowPictureModel {
  evaluate::FlowCurves curves;
  format::AxisUnit flowUnit, headUnit;
  std::optional<double> low_m3_s, high_m3_s;  ///< range of the answer
  bool labels = true;                         ///< the pump is known by two label numbers
  QString working;                            ///< "6.0 L/min at 2.3 m"; empty when it never starts
  QString lift;                               ///< "must lift 1.05 m to start"
  QString never;                              ///< "never starts" in words; empty when it does
};
PicturePtr flowPicture(FlowPictureModel model);

/// One row a layer, hottest against limit.
struct LedgerRow {
  std::string part;
  QString name, material;
  double dry = 0.0, wet = 0.0;  ///< in the unit shown
  std::optional<double> limit;
  Sureness limitSureness = Sureness::Label;
  QString verdict, second;  ///< at the right: "over by 12 K", "upper bound"
  render::EdgeState state = render::EdgeState::Smooth;
};
struct LedgerModel {
  std::vector<LedgerRow> rows;
  QString unit;
  double from = 20.0;  ///< where the bars begin
};
PicturePtr ledgerPicture(LedgerModel model);

/// Radii of bends on one scale, with the section of the tube at each.
struct BendMark {
  double radius = 0.0;   ///< in the unit shown
  double ovality = 0.0;  ///< (largest - smallest) / nominal, as the model has it
  QString name, value;
  bool ofTheDesign = false;
};
struct BendModel {
  std::vector<BendMark> marks;
  double kinks = 0.0;  ///< radius below which the tube collapses
  QString unit;
};
PicturePtr bendPicture(BendModel model);

/// The layers of the box from the back, to scale.
struct DepthLayer {
  std::string part;
  QString name, value;
  double thickness_m = 0.0;
};
struct DepthModel {
  std::vector<DepthLayer> layers;
  double available_m = 0.0;
  double spare_m = 0.0;
  QString availableWords, spareWords;
};
PicturePtr depthPicture(DepthModel model);

/// Lengths cut from stock, and sheets with their pieces.
struct StockPiece {
  QString name;
  double length_m = 0.0;
};
struct StockBar {
  QString name;   ///< "roll of 100 m"
  QString right;  ///< "22.8 m left"
  int times = 1;
  double length_m = 0.0, left_m = 0.0;
  std::vector<StockPiece> pieces;
  bool owned = false;
  bool isRoll = false;
};
struct StockSheetDrawn {
  QString name;
  double width_m = 0.0, height_m = 0.0;
  std::vector<QRectF> pieces;  ///< in metres from the lower left corner
};
struct StockModel {
  std::vector<StockBar> bars;
  std::vector<StockSheetDrawn> sheets;
};
PicturePtr stockPicture(StockModel model);

/// Where the sun went: shares of what falls inside the frame.
struct SunShareRow {
  QString name, value, percent;
  double share = 0.0;  ///< of the whole; negative where heat comes in
  enum class Kind { ToPool, Reflected, Lost } kind = Kind::Lost;
};
PicturePtr sunPicture(std::vector<SunShareRow> rows);

}  // namespace sunspool::questions
