// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Everything computed from one Document. Views read this and nothing else.

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/snag.h"
#include "core/base/uncertain.h"
#include "core/climate/sun.h"
#include "core/hydraulics/network.h"
#include "core/layout/layout.h"
#include "core/stock/buying.h"
#include "core/stock/cutting.h"
#include "core/stock/sheets.h"
#include "core/thermal/collector.h"

namespace sunspool::results {

struct Bend {
  int run = 0;
  double station_m = 0.0;  ///< middle of the bend
  double from_m = 0.0, to_m = 0.0;
  double radius_m = 0.0;
  double index = 0.0;    ///< collapse radius on minimum wall / radius
  double ovality = 0.0;  ///< (2/9) index^2
  double strain = 0.0;   ///< OD / 2R
};
enum class BendVerdict { WithinHandbook, TighterThanHandbook, Close, LikelyToFlatten, Collapses };
struct Bends {
  std::vector<Bend> all;
  std::optional<Bend> worst;
  Length collapseRadius;  ///< on minimum wall, or of the bend test
  bool fromBendTest = false;
  Length handbookRadius;  ///< multiple of OD by DR
  BendVerdict verdict = BendVerdict::WithinHandbook;
};

struct Masses {
  Mass tube, water, timber, plate, insulation, backing, glazing;
  Mass dry, wet;
  double wet_kg_m2 = 0.0;  ///< on the outer area
};

/// Depth of the box, layer by layer from the back. Positive spare = fits.
struct DepthBudget {
  struct Layer {
    std::string part;  ///< "backing", "insulation", "plate", "stand_off", "tube", "crossing"
    Length thickness;
  };
  std::vector<Layer> layers;
  Length needed;
  Length available;
  Length spare;
  Length crossingSpare;  ///< with the crossing on top; equals spare without one
};

/// One run along its metres: what the strips of the Tape show.
struct RunProfile {
  struct Point {
    double station_m = 0.0;
    double water_K = 0.0;
    double gauge_Pa = 0.0;
    double height_m = 0.0;     ///< of the tube over the pool
    double waterLine_m = 0.0;  ///< to which the water would rise in a standpipe
  };
  std::vector<Point> points;
  double lowestGauge_Pa = 0.0;
  double lowestStation_m = 0.0;
};

struct Flow {
  hydraulics::NetworkFlow network;
  Ranged<VolumeFlow> flow;
  Ranged<Pressure> panelLoss;  ///< across the runs at the working point
  Ranged<Length> head;
  Length shutOffHead;      ///< of the pump at no flow
  double imbalance = 0.0;  ///< (largest - smallest run flow) / mean
  /// Heat lost because the runs do not share the flow by their lengths; all panels. nullopt: not reckoned (flow alone).
  std::optional<Power> imbalanceCost;
  Pressure lowest;  ///< gauge
  hydraulics::Regime regime = hydraulics::Regime::Turbulent;
};

/// `steady` speaks of one panel; the ranged figures of all panels alike together.
struct Heat {
  thermal::SteadyHeat steady;
  Ranged<Power> toPool;
  Ranged<TemperatureDifference> rise;
  Ranged<Temperature> outlet;
  int couplingIterations = 0;
};

struct SunNow {
  climate::SunPosition position;
  climate::ClearSky sky;           ///< over open ground; of a dull day what the cloud leaves
  climate::PlaneIrradiance plane;  ///< what is left behind the obstacles
  bool fixedByBuilder = false;     ///< irradiance was typed in
  climate::SunDay day;
  double shadedBeam_W_m2 = 0.0;  ///< beam on the plane that the obstacles take; 0 when the irradiance was typed in
  bool inShade = false;          ///< the sun stands behind an obstacle
  double shadedSky_W_m2 = 0.0;   ///< light of the sky on the plane that they hide
};

using Buying = stock::BuyingList;

/// How much one uncertain input moves one answer, at the end of its spread.
struct Influence {
  std::string input;  ///< JSON pointer of the input
  Sureness sureness = Sureness::Guess;
  double flow_m3_s = 0.0, heat_W = 0.0, loss_Pa = 0.0;  ///< half-width each contributes
};

/// Where a sheet of one layer, or the frame, is bored for the tube.
struct Hole {
  std::string part;                        ///< "rail", "stile", "backing", "insulation", "plate"
  layout::Side side = layout::Side::Left;  ///< of the frame; for a layer the side the run points at
  char run = 'A';
  bool feed = false;  ///< else return
  /// Centre over the datum corner (outer lower left of the frame), in the panel's plane; for rail and stile in the
  /// middle of the timber's width.
  double x_m = 0.0, y_m = 0.0;
  double fromBack_m = 0.0;  ///< height of the centre over the back of the frame timber; 0 for a layer
  double diameter_m = 0.0;  ///< with clearance for the tube's growth
  /// Centre from the left or lower end of the rail or stile itself; 0 for a layer.
  double along_m = 0.0;
  /// Material left between the hole's rim and the nearest corner joint, face of the timber or edge of the layer.
  double left_m = 0.0;
  bool nearEdge = false;  ///< less of it than the hole is wide
};

/// One layer of the box cut from sheets.
struct SheetCut {
  std::string part;  ///< "plate", "insulation", "backing", "glazing"
  Result<stock::SheetPlan> plan =
      Error{};  ///< NoStock: no sheet of this use in the Shed; then square metres are bought
};

/// Wind on the panel at the gust that was entered: a screening figure, nothing more.
struct Wind {
  Pressure gustPressure;
  Ranged<Force> uplift;       ///< on one panel, at right angles to it
  Force ownWeight;            ///< dry, one panel: a drained one flies first
  Ranged<Mass> holdDownMass;  ///< mass that would balance the uplift; 0 when the panel's own does
  /// Uplift's moment about the lower edge over that of the weight; nullopt for a panel on edge, which weight does not
  /// hold at all.
  std::optional<double> overturning;
};

/// All panels alike together where stock and money are concerned (cuts, buying), one panel in layout, lengths, masses.
struct Results {
  Result<layout::LaidPanel> layout = Error{};
  Ranged<Length> tubeLength;
  Ranged<Volume> water;
  std::optional<Bends> bends;
  DepthBudget depth;
  Masses masses;
  Result<SunNow> sun = Error{};
  Result<Flow> flow = Error{};
  Result<Heat> heat = Error{};
  Result<thermal::StoppedHeat> stopped = Error{};
  thermal::Sky stoppedSky;  ///< the sun, air and wind that stopped was reckoned for
  std::vector<RunProfile> profiles;
  Result<stock::CutPlan> tubeCuts = Error{};
  Result<stock::CutPlan> timberCuts = Error{};
  std::vector<SheetCut> sheetCuts;
  std::vector<Hole> holes;   ///< of one panel
  std::optional<Wind> wind;  ///< nullopt: no gust entered
  Buying buying;
  std::vector<Influence> influences;
  std::vector<Snag> snags;  ///< sorted by the cost of ignoring
};

}  // namespace sunspool::results
