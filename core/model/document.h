// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The design as plain values. No pointers, no results: what the file holds and nothing else.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/quantity.h"
#include "core/base/uncertain.h"
#include "core/geometry/outline.h"

namespace sunspool::model {

/// Money in the project's own currency. An unknown price is nullopt and is printed as "ask", never 0.
using Price = std::optional<double>;

struct Place {
  std::string name;
  Angle latitude;   ///< north positive
  Angle longitude;  ///< east positive
  Length altitude;
  double utcOffset_h = 0.0;  ///< of the clock the builder reads, daylight saving included
  bool operator==(const Place&) const = default;
};

/// One moment of the local clock.
struct Moment {
  int year = 2025;
  int month = 6;
  int day = 21;
  double clock_h = 12.0;  ///< 0 <= h < 24
  bool operator==(const Moment&) const = default;
};

/// Weather of the moment that is looked at.
/// How much of the clear sky's sun arrives all day long.
enum class SkyKind { Clear, Dull };

struct Conditions {
  Uncertain<Temperature> air;
  Uncertain<Velocity> wind;
  Uncertain<double> relativeHumidity;  ///< 0 to 1
  Uncertain<double> linkeTurbidity;    ///< of the clear sky, about 2 to 6
  double groundReflectance = 0.2;
  /// Irradiance on the panel's plane, when the builder has measured it or wants to fix it; else the clear sky.
  std::optional<Uncertain<Irradiance>> onPanel;
  SkyKind sky = SkyKind::Clear;
  /// What a dull day leaves of the clear sky's sun on the level, 0 to 1.
  Uncertain<double> dullShare{0.3, 0.1, Sureness::Guess};
  bool operator==(const Conditions&) const = default;
};

struct Pool {
  Volume volume;
  Uncertain<Temperature> water;
  bool operator==(const Pool&) const = default;
};

/// Something on the horizon that takes the beam away, as seen from the middle of the panel: a block of sky from one
/// azimuth clockwise to the other, from the horizon up to a height.
struct Obstacle {
  std::string name;
  Angle azimuthFrom;  ///< from north, clockwise
  Angle azimuthTo;
  Angle height;  ///< over the horizon
  bool operator==(const Obstacle&) const = default;
};

/// A keep-out in panel coordinates with the distance the tube's outside must keep from it.
struct KeepOut {
  std::string id;
  std::string name;
  geometry::Outline outline;
  Length clearance;
  bool operator==(const KeepOut&) const = default;
};

/// Rectangle of timber. Rails run along x (full outer width), stiles along y between them unless railsThrough is false.
struct Frame {
  Length insideWidth;   ///< along x
  Length insideHeight;  ///< along y
  Length timberWidth;   ///< of the section, seen from the glazed side
  Length timberDepth;   ///< of the section, at right angles to the plate
  bool railsThrough = true;
  bool operator==(const Frame&) const = default;
};

struct Sheet {  ///< a flat layer of the box
  std::string material;
  Length thickness;
  Uncertain<ThermalConductivity> conductivity;
  Density density;
  std::optional<Temperature> limit;  ///< highest service temperature; nullopt = no limit known
  std::string limitSource;
  Price pricePerSquareMetre;
  bool operator==(const Sheet&) const = default;
};

struct Plate {
  Sheet sheet;
  Uncertain<double> absorptance;  ///< solar, 0 to 1
  Uncertain<double> emittance;    ///< long-wave, 0 to 1
  bool operator==(const Plate&) const = default;
};

struct Glazing {
  Sheet sheet;
  Uncertain<double> transmittance;  ///< solar, normal incidence, whole glazing, 0 to 1
  double refractiveIndex = 1.526;   ///< for the dependence on the angle
  Uncertain<double> emittance;      ///< long-wave, both faces
  Length overlap;                   ///< laid on the frame all round
  Length lap{};                     ///< where two pieces meet, one over the other
  /// Twin-wall and solid polycarbonate: 6.5e-5 1/K (common practice, no source).
  ThermalExpansion expansion = ThermalExpansion::fromSi(6.5e-5);
  bool operator==(const Glazing&) const = default;
};

/// Layers from the back: backing, insulation, plate, stand-off, tube, crossing, air gap, glazing, all within
/// timberDepth.
struct Box {
  std::optional<Sheet> backing;
  std::optional<Sheet> insulation;
  std::optional<Plate> plate;
  Length standOff;                      ///< from plate to tube
  Uncertain<double> plateContactShare;  ///< k: share of the heat on bare plate that reaches the tube, 0 to 1
  std::optional<Glazing> glazing;
  /// A cloth drawn over the panel whenever the pump stands still: the share of the sun it lets through. Counts for the
  /// stopped pump only.
  std::optional<Uncertain<double>> shadeCloth{};
  bool operator==(const Box&) const = default;
};

struct Siting {
  Angle tilt;
  Angle azimuth;              ///< facing, from north clockwise
  Length lowerEdgeAbovePool;  ///< height of the lower edge over the pool's water level
  /// Strongest gust the panel is screened for; nullopt: not entered, and then nothing is said about wind but so.
  std::optional<Uncertain<Velocity>> gust{};
  /// Net uplift on the whole panel over the gust's pressure, edges and the open underside included.
  Uncertain<double> upliftCoefficient{1.4, 0.4, Sureness::Guess};
  Mass holdDown{};  ///< ballast or anchors of each panel, as the mass they hold down
  bool operator==(const Siting&) const = default;
};

enum class TubeMaterial { LowDensityPolyethylene, HighDensityPolyethylene };

struct Tube {
  std::string catalogueId;  ///< empty for one of the builder's own
  std::string name;
  TubeMaterial material = TubeMaterial::LowDensityPolyethylene;
  Uncertain<Length> insideDiameter;
  Uncertain<Length> outsideDiameter;
  Uncertain<double> minimumWallShare;  ///< thinnest wall / nominal wall, 0 to 1
  Uncertain<Length> roughness;
  Uncertain<ThermalConductivity> conductivity;
  Density density;
  SpecificHeat specificHeat;
  ThermalExpansion expansion;
  double poissonRatio = 0.45;
  Uncertain<double> absorptance;
  Uncertain<double> emittance;
  Temperature limit;
  std::string limitSource;
  Pressure pressureRatingAt20C;
  std::optional<Uncertain<Length>> bendTestCollapseRadius;  ///< from an offcut; replaces the computed one
  bool operator==(const Tube&) const = default;
};

/// DoubleSpiral: in from one corner and out again beside it, joined by an S in the middle; both ends outside.
/// BulbSerpentine: passes closer than twice the bend radius, joined by turns that swing wider than they stand apart.
enum class Recipe { RectangularSpiral, PlainSerpentine, DoubleSpiral, BulbSerpentine };
enum class CornerRule { ConstantRadius, ConcentricRadii };
/// How the inner end of a spiral gets out. Under: between plate and turns, which then stand off the plate.
enum class InnerEnd { OverTheTurns, ThroughTheBack, UnderTheTurns };
/// Where parallel runs begin: at corners spread round the panel (equal or nearly equal lengths), or side by side at the
/// start corner (unequal lengths, short manifolds).
enum class Entries { Spread, SideBySide };
enum class StartCorner { LowerLeft, LowerRight, UpperRight, UpperLeft };

/// How the panel is laid. One layout makes `starts` parallel runs.
struct Laying {
  Recipe recipe = Recipe::RectangularSpiral;
  int starts = 1;  ///< 1, 2 or 4
  Length pitch;
  Length bendRadius;  ///< of the centre line, smallest allowed
  CornerRule cornerRule = CornerRule::ConstantRadius;
  std::optional<int> quarterTurns;  ///< sides laid by each run; nullopt = as many as fit
  InnerEnd innerEnd = InnerEnd::OverTheTurns;
  StartCorner startCorner = StartCorner::LowerLeft;
  Length margin;      ///< inside face of the frame to the outside of the tube
  Length feedTail;    ///< tube cut for the way from the rail to the feed, from the outer rail face
  Length returnTail;  ///< from the inner end of the turns (over: crossing included; back: from the hole)
  /// Moves the feed entry along its rail from the start corner's first line, 0 = straight onto the outer turn.
  Length feedShift;
  Length returnShift;                 ///< moves the crossing sideways along the inner leg
  Entries entries = Entries::Spread;  ///< of two and four runs
  Uncertain<double> wobble;           ///< relative spread of length by hand laying, e.g. 0 +- 0.004
  bool operator==(const Laying&) const = default;
};

struct PumpPoint {
  VolumeFlow flow;
  Length head;
  bool operator==(const PumpPoint&) const = default;
};
/// A pump by its two label numbers, or by measured points (then the label numbers are ignored).
struct Pump {
  std::string name;
  Uncertain<VolumeFlow> labelFlow;  ///< at no lift
  Uncertain<Length> labelHead;      ///< at no flow
  std::vector<PumpPoint> points;    ///< flow rising, head falling; at least 2 when used
  double speed = 1.0;               ///< relative, affinity laws
  Power electricalPower;
  bool operator==(const Pump&) const = default;
};

enum class FittingKind { BarbConnector, Elbow90, Elbow45, TeeThrough, TeeBranch, Valve, PipeEntrance, PipeExit };
struct FittingCount {
  FittingKind kind{};
  int count = 0;
  std::optional<Length> bore;                        ///< of a barb; nullopt = 0.74 of the tube's inside diameter
  std::optional<Uncertain<double>> lossCoefficient;  ///< replaces the handbook's K on the velocity in the tube
  bool operator==(const FittingCount&) const = default;
};
struct Pipe {
  Length length;
  Length insideDiameter;
  Length roughness;
  std::vector<FittingCount> fittings;
  bool operator==(const Pipe&) const = default;
};
struct Plumbing {
  Pump pump;
  Pipe feed;
  Pipe returning;
  std::vector<FittingCount> runFittings;  ///< on each run, on the tube's own bore
  bool returnEndsUnderWater = true;
  Length returnOutletAbovePool;  ///< when it does not end under water, >= 0
  Length highestPointAbovePool;  ///< of the pipes; the panel's upper edge counts anyway
  Length pumpAbovePool;          ///< negative when flooded
  bool operator==(const Plumbing&) const = default;
};

struct Roll {
  std::string name;
  Length length;                        ///< what is left on it
  int owned = 0;                        ///< already in the Shed; used first, costs nothing
  Price price;                          ///< of a new one of this length; nullopt also: not on sale at a known price
  Sureness sureness = Sureness::Label;  ///< of the length
  Length spread{};                      ///< half-width of the length
  /// Of its tube; nullopt: the tube of the design. A roll of another tube is not cut for this design.
  std::optional<Length> outsideDiameter{}, insideDiameter{};
  bool operator==(const Roll&) const = default;
};
struct TimberStock {
  std::string name;
  Length length;
  int owned = 0;
  Price price;
  Sureness sureness = Sureness::Label;  ///< of the length
  bool operator==(const TimberStock&) const = default;
};
enum class SheetUse { Plate, Insulation, Backing, Glazing };
/// A sheet as it is sold or stands in the Shed, for one layer of the box.
struct StockSheet {
  std::string name;
  SheetUse use = SheetUse::Plate;
  Length width, height;
  int owned = 0;
  Price price;                          ///< of one sheet
  Sureness sureness = Sureness::Label;  ///< of its size
  bool canTurn = true;                  ///< false where flutes or grain must run along the height
  bool operator==(const StockSheet&) const = default;
};
struct StockFitting {
  FittingKind kind = FittingKind::BarbConnector;
  int owned = 0;
  Price price;
  bool operator==(const StockFitting&) const = default;
};
struct StockPump {
  Pump pump;
  int owned = 0;
  Price price;
  bool operator==(const StockPump&) const = default;
};
struct Thermometer {
  std::string name;
  TemperatureDifference spread;  ///< half-width of a reading
  int owned = 0;
  Price price;
  Sureness sureness = Sureness::Label;  ///< of that spread
  bool operator==(const Thermometer&) const = default;
};
/// The Shed of this project: what is owned or can be bought.
struct Stock {
  std::string currency = "EUR";
  std::vector<Roll> rolls;
  std::vector<TimberStock> timbers;
  Length kerf;
  Length squaringAllowance;  ///< cut off each stock length's end before the first piece
  Price fittingPrice;
  Price glazingPricePerSquareMetre;
  bool joinsAllowed = false;
  std::vector<StockSheet> sheets;
  std::vector<StockFitting> fittings;
  std::vector<StockPump> pumps;
  std::vector<Thermometer> thermometers;
  bool operator==(const Stock&) const = default;
};

/// A snag the builder leaves on purpose.
struct LeftSnag {
  std::string key;  ///< snag key as in checks/snag_keys.h
  std::string reason;
  bool operator==(const LeftSnag&) const = default;
};

/// A key of the file that this version does not know, kept as its JSON text and written back.
struct UnknownKey {
  std::string parent;  ///< JSON pointer of the object that holds it
  std::string key;
  std::string json;  ///< compact text of the value
  bool operator==(const UnknownKey&) const = default;
};

struct Document {
  std::string name;
  std::string note;
  Place place;
  Moment moment;
  Conditions conditions;
  Pool pool;
  Frame frame;
  std::vector<KeepOut> keepOuts;
  Box box;
  Siting siting;
  Tube tube;
  Laying laying;
  Plumbing plumbing;
  Stock stock;
  /// Panels of this drawing, all alike. They share pump, feed and return side by side, or each has its own pump and
  /// pool (for neighbours): then flow, heat and day are those of one panel, stock and money still those of all.
  int panelsAlike = 1;
  bool panelsSharePump = true;
  std::vector<Obstacle> obstacles;
  std::vector<LeftSnag> leftSnags;
  std::vector<UnknownKey> unknownKeys;
  bool operator==(const Document&) const = default;
};

/// Panels that flow and heat are reckoned for together.
inline int panelsOnThePump(const Document& document) { return document.panelsSharePump ? document.panelsAlike : 1; }

}  // namespace sunspool::model
