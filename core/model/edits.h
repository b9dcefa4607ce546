// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Everything a hand can change, as pure functions: a document in, the changed document or an Error out. A refused
// edit changes nothing. Errors are those of validate() unless said otherwise; `where` is the JSON pointer of the
// value that was refused. Angles and temperatures are settled on the nearest value that the file can express, so
// that a saved document reads back equal.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/base/uncertain.h"
#include "core/model/document.h"

namespace sunspool::model {

Result<Document> withName(Document document, std::string name);
Result<Document> withNote(Document document, std::string note);

// frame and box
Result<Document> withInsideWidth(Document document, Length width);
Result<Document> withInsideHeight(Document document, Length height);
Result<Document> withInsideSize(Document document, Length width, Length height);
Result<Document> withFrame(Document document, Frame frame);
Result<Document> withBacking(Document document, std::optional<Sheet> backing);
Result<Document> withInsulation(Document document, std::optional<Sheet> insulation);
Result<Document> withPlate(Document document, std::optional<Plate> plate);
/// nullopt takes the glazing off.
Result<Document> withGlazing(Document document, std::optional<Glazing> glazing);
Result<Document> withStandOff(Document document, Length standOff);
/// Adds the keep-out, or replaces the one of the same id.
Result<Document> withKeepOut(Document document, KeepOut keepOut);
/// MissingKey when there is none of this id.
Result<Document> withoutKeepOut(Document document, std::string_view id);

// laying
Result<Document> withLaying(Document document, Laying laying);
Result<Document> withMargin(Document document, Length margin);
Result<Document> withPitch(Document document, Length pitch);
Result<Document> withBendRadius(Document document, Length radius);
/// nullopt lays as many as fit.
Result<Document> withQuarterTurns(Document document, std::optional<int> quarterTurns);
Result<Document> withStarts(Document document, int starts);  ///< 1, 2 or 4
Result<Document> withRecipe(Document document, Recipe recipe);
Result<Document> withCornerRule(Document document, CornerRule rule);
Result<Document> withInnerEnd(Document document, InnerEnd innerEnd);
Result<Document> withEntries(Document document, Entries entries);
Result<Document> withStartCorner(Document document, StartCorner corner);
Result<Document> withFeedShift(Document document, Length shift);
Result<Document> withReturnShift(Document document, Length shift);
Result<Document> withFeedTail(Document document, Length tail);
Result<Document> withReturnTail(Document document, Length tail);

// where and when
Result<Document> withPlace(Document document, Place place);
Result<Document> withSiting(Document document, Siting siting);
Result<Document> withTilt(Document document, Angle tilt);
/// Any angle; brought into 0 to 360 degrees, north and clockwise.
Result<Document> withAzimuth(Document document, Angle azimuth);
Result<Document> withLowerEdgeAbovePool(Document document, Length height);
Result<Document> withMoment(Document document, Moment moment);
Result<Document> withClock(Document document, double clock_h);
Result<Document> withDate(Document document, int year, int month, int day);
Result<Document> withConditions(Document document, Conditions conditions);
/// nullopt goes back to the clear sky.
Result<Document> withIrradianceOnPanel(Document document, std::optional<Uncertain<Irradiance>> onPanel);
Result<Document> withPool(Document document, Pool pool);

// tube and water
Result<Document> withTube(Document document, Tube tube);
/// nullopt goes back to the collapse radius computed from the wall.
Result<Document> withBendTest(Document document, std::optional<Uncertain<Length>> collapseRadius);
/// The two numbers of the label; spread and sureness stay. Measured points, if any, are dropped.
Result<Document> withPumpLabel(Document document, VolumeFlow flow, Length head);
Result<Document> withPump(Document document, Pump pump);
Result<Document> withPlumbing(Document document, Plumbing plumbing);
Result<Document> withStock(Document document, Stock stock);

// any uncertain value, by its JSON pointer ("/tube/inside_diameter"); MissingKey when it names none that is present
/// A tube of the catalogue whose values are changed becomes one of the builder's own.
Result<Document> withUncertainValue(Document document, std::string_view pointer, double value_si);
Result<Document> withSpread(Document document, std::string_view pointer, double spread_si);
Result<Document> withSureness(Document document, std::string_view pointer, Sureness sureness);
Result<Document> withUncertain(Document document, std::string_view pointer, double value_si, double spread_si,
                               Sureness sureness);

// snags
/// Leaves a snag with a reason, or changes the reason. MissingKey (detail "reason") for a blank one.
Result<Document> withSnagLeft(Document document, std::string key, std::string reason);
/// MissingKey when it is not left.
Result<Document> withSnagTakenUp(Document document, std::string_view key);

// the Shed: one row of one kind. MissingKey (`where` the list) for an index that is not there
Result<Document> withStockRow(Document document, std::size_t index, Roll roll);
Result<Document> withStockRow(Document document, std::size_t index, TimberStock timber);
Result<Document> withStockRow(Document document, std::size_t index, StockSheet sheet);
/// PumpLabelImpossible and PumpCurveRises as for the design's own pump.
Result<Document> withStockRow(Document document, std::size_t index, StockPump pump);
Result<Document> withStockRow(Document document, std::size_t index, StockFitting fitting);
Result<Document> withStockRow(Document document, std::size_t index, Thermometer thermometer);
/// At the end of its list.
Result<Document> withStockRowAdded(Document document, Roll roll);
Result<Document> withStockRowAdded(Document document, TimberStock timber);
Result<Document> withStockRowAdded(Document document, StockSheet sheet);
Result<Document> withStockRowAdded(Document document, StockPump pump);
Result<Document> withStockRowAdded(Document document, StockFitting fitting);
Result<Document> withStockRowAdded(Document document, Thermometer thermometer);
enum class StockList { Rolls, Timbers, Sheets, Pumps, Fittings, Thermometers };
Result<Document> withoutStockRow(Document document, StockList list, std::size_t index);
/// Three-letter or any other word; MissingKey (detail "currency") for a blank one.
Result<Document> withCurrency(Document document, std::string currency);
Result<Document> withKerf(Document document, Length kerf);
Result<Document> withSquaringAllowance(Document document, Length allowance);
Result<Document> withFittingPrice(Document document, Price price);
Result<Document> withGlazingPrice(Document document, Price perSquareMetre);

// the design's place in the garden
Result<Document> withPanelsAlike(Document document, int panels);
enum class PumpSharing { OneForAll, OneEach };
Result<Document> withPumpSharing(Document document, PumpSharing sharing);
Result<Document> withHoldDown(Document document, Mass each);
/// nullopt: not entered.
Result<Document> withGust(Document document, std::optional<Uncertain<Velocity>> gust);
/// The speed alone; spread and sureness stay. Assumption: a gust entered for the first time is a guess, sure to a
/// fifth.
Result<Document> withGustSpeed(Document document, Velocity speed);
Result<Document> withPoolVolume(Document document, Volume volume);
/// Diameters of the builder's own tube, spreads kept; an offcut's bend test of another tube is dropped.
Result<Document> withTubeDiameters(Document document, Uncertain<Length> inside, Uncertain<Length> outside);
Result<Document> withFeedPipe(Document document, Pipe pipe);
Result<Document> withReturnPipe(Document document, Pipe pipe);

}  // namespace sunspool::model
