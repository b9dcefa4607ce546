// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/edits.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/model/fields.h"
#include "core/model/file_number.h"
#include "core/model/uncertain_visitor.h"
#include "core/model/validate.h"

namespace sunspool::model {
namespace {

/// Brings angles and temperatures onto values that the file can express.
class Settler {
 public:
  void text(std::string_view, std::string&, Need) {}
  void flag(std::string_view, bool&, Need) {}
  template <class E>
  void word(std::string_view, E&, Need) {}
  template <class Q>
  void number(std::string_view, Q& value, Limits, Need) {
    if constexpr (std::is_same_v<Q, Angle> || std::is_same_v<Q, Temperature>) value = settled(value);
  }
  template <class Q>
  void maybeNumber(std::string_view key, std::optional<Q>& value, Limits limits) {
    if (value) number(key, *value, limits, Need::Optional);
  }
  template <class Q>
  void uncertain(std::string_view, std::string_view unit, Uncertain<Q>& value, Limits limits, Need need) {
    number(unit, value.value, limits, need);
  }
  template <class Q>
  void maybeUncertain(std::string_view, std::string_view unit, std::optional<Uncertain<Q>>& value, Limits limits) {
    if (value) number(unit, value->value, limits, Need::Optional);
  }
  template <class T>
  void object(std::string_view, T& value, Need) {
    fields(*this, value);
  }
  template <class T>
  void maybeObject(std::string_view, std::optional<T>& value) {
    if (value) fields(*this, *value);
  }
  template <class T>
  void list(std::string_view, std::vector<T>& values, Need) {
    for (T& value : values) fields(*this, value);
  }
};

Result<Document> accepted(Document document) {
  Settler settler;
  fields(settler, document);
  const Result<Done> valid = validate(document);
  if (!valid) return valid.error();
  return document;
}

/// Sets one part, reached through a chain of members, and checks the whole.
template <class Part, class Value>
Result<Document> with(Document document, Part part, Value value) {
  part(document) = std::move(value);
  return accepted(std::move(document));
}

/// After an item has been taken out of a list: unknown keys of the items behind it move up with them.
void closeGap(std::vector<UnknownKey>& unknownKeys, std::string_view list, std::size_t removed) {
  const std::string prefix = std::string(list) + '/';
  const auto indexOf = [&prefix](const UnknownKey& key) -> std::optional<std::size_t> {
    if (!key.parent.starts_with(prefix)) return std::nullopt;
    std::size_t index = 0;
    const char* const first = key.parent.data() + prefix.size();
    const auto end = std::from_chars(first, key.parent.data() + key.parent.size(), index);
    return end.ec == std::errc{} ? std::optional(index) : std::nullopt;
  };
  std::erase_if(unknownKeys, [&](const UnknownKey& key) { return indexOf(key) == removed; });
  for (UnknownKey& key : unknownKeys) {
    const auto index = indexOf(key);
    if (!index || *index < removed) continue;
    const std::size_t rest = std::min(key.parent.find('/', prefix.size()), key.parent.size());
    key.parent = prefix + std::to_string(*index - 1) + key.parent.substr(rest);
  }
}

Error missing(std::string where, std::string_view what) {
  return {ErrorCode::MissingKey, std::move(where), std::string(what), {}};
}

bool isBlank(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; });
}

/// Changes the uncertain value at the pointer by `change(Uncertain<Q>&)`.
template <class F>
Result<Document> changeUncertain(Document document, std::string_view pointer, F change) {
  bool found = false;
  UncertainVisitor visitor([&](const std::string& at, auto& uncertain, Limits) {
    if (at != pointer) return;
    change(uncertain);
    found = true;
  });
  const Tube before = document.tube;
  fields(visitor, document);
  if (!found) return missing(std::string(pointer), {});
  const auto withoutTest = [](Tube tube) {
    tube.bendTestCollapseRadius.reset();
    return tube;
  };
  if (withoutTest(document.tube) != withoutTest(before)) document.tube.catalogueId.clear();
  return accepted(std::move(document));
}

template <class Q>
void setValue(Uncertain<Q>& uncertain, double value_si) {
  uncertain.value = fromSi<Q>(value_si);
}
template <class Q>
void setSpread(Uncertain<Q>& uncertain, double spread_si) {
  uncertain.spread = fromSi<Difference<Q>>(spread_si);
}

}  // namespace

Result<Document> withName(Document document, std::string name) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.name; }, std::move(name));
}
Result<Document> withNote(Document document, std::string note) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.note; }, std::move(note));
}

Result<Document> withInsideWidth(Document document, Length width) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.frame.insideWidth; }, width);
}
Result<Document> withInsideHeight(Document document, Length height) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.frame.insideHeight; }, height);
}
Result<Document> withInsideSize(Document document, Length width, Length height) {
  document.frame.insideWidth = width;
  document.frame.insideHeight = height;
  return accepted(std::move(document));
}
Result<Document> withFrame(Document document, Frame frame) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.frame; }, frame);
}
Result<Document> withBacking(Document document, std::optional<Sheet> backing) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.box.backing; }, std::move(backing));
}
Result<Document> withInsulation(Document document, std::optional<Sheet> insulation) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.box.insulation; }, std::move(insulation));
}
Result<Document> withPlate(Document document, std::optional<Plate> plate) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.box.plate; }, std::move(plate));
}
Result<Document> withGlazing(Document document, std::optional<Glazing> glazing) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.box.glazing; }, std::move(glazing));
}
Result<Document> withStandOff(Document document, Length standOff) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.box.standOff; }, standOff);
}
Result<Document> withKeepOut(Document document, KeepOut keepOut) {
  auto& all = document.keepOuts;
  const auto same = std::find_if(all.begin(), all.end(), [&](const KeepOut& k) { return k.id == keepOut.id; });
  if (same == all.end()) {
    all.push_back(std::move(keepOut));
  } else {
    *same = std::move(keepOut);
  }
  return accepted(std::move(document));
}
Result<Document> withoutKeepOut(Document document, std::string_view id) {
  auto& all = document.keepOuts;
  const auto same = std::find_if(all.begin(), all.end(), [&](const KeepOut& k) { return k.id == id; });
  if (same == all.end()) return missing("/keep_outs", id);
  closeGap(document.unknownKeys, "/keep_outs", static_cast<std::size_t>(same - all.begin()));
  all.erase(same);
  return accepted(std::move(document));
}

Result<Document> withLaying(Document document, Laying laying) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying; }, laying);
}
Result<Document> withMargin(Document document, Length margin) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.margin; }, margin);
}
Result<Document> withPitch(Document document, Length pitch) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.pitch; }, pitch);
}
Result<Document> withBendRadius(Document document, Length radius) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.bendRadius; }, radius);
}
Result<Document> withQuarterTurns(Document document, std::optional<int> quarterTurns) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.quarterTurns; }, quarterTurns);
}
Result<Document> withStarts(Document document, int starts) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.starts; }, starts);
}
Result<Document> withRecipe(Document document, Recipe recipe) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.recipe; }, recipe);
}
Result<Document> withCornerRule(Document document, CornerRule rule) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.cornerRule; }, rule);
}
Result<Document> withInnerEnd(Document document, InnerEnd innerEnd) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.innerEnd; }, innerEnd);
}
Result<Document> withEntries(Document document, Entries entries) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.entries; }, entries);
}
Result<Document> withStartCorner(Document document, StartCorner corner) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.startCorner; }, corner);
}
Result<Document> withFeedShift(Document document, Length shift) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.feedShift; }, shift);
}
Result<Document> withReturnShift(Document document, Length shift) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.returnShift; }, shift);
}
Result<Document> withFeedTail(Document document, Length tail) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.feedTail; }, tail);
}
Result<Document> withReturnTail(Document document, Length tail) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.laying.returnTail; }, tail);
}

Result<Document> withPlace(Document document, Place place) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.place; }, std::move(place));
}
Result<Document> withSiting(Document document, Siting siting) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.siting; }, siting);
}
Result<Document> withTilt(Document document, Angle tilt) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.siting.tilt; }, tilt);
}
Result<Document> withAzimuth(Document document, Angle azimuth) {
  const double turned_deg = azimuth.degrees();
  if (turned_deg < 0.0 || turned_deg > 360.0) {
    double within_deg = std::fmod(turned_deg, 360.0);
    if (within_deg < 0.0) within_deg += 360.0;
    azimuth = degrees(within_deg);
  }
  return with(
      std::move(document), [](Document & d) -> auto& { return d.siting.azimuth; }, azimuth);
}
Result<Document> withLowerEdgeAbovePool(Document document, Length height) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.siting.lowerEdgeAbovePool; }, height);
}
Result<Document> withMoment(Document document, Moment moment) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.moment; }, moment);
}
Result<Document> withClock(Document document, double clock_h) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.moment.clock_h; }, clock_h);
}
Result<Document> withDate(Document document, int year, int month, int day) {
  const Moment moment{year, month, day, document.moment.clock_h};
  return withMoment(std::move(document), moment);
}
Result<Document> withConditions(Document document, Conditions conditions) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.conditions; }, conditions);
}
Result<Document> withIrradianceOnPanel(Document document, std::optional<Uncertain<Irradiance>> onPanel) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.conditions.onPanel; }, onPanel);
}
Result<Document> withPool(Document document, Pool pool) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.pool; }, pool);
}

Result<Document> withTube(Document document, Tube tube) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.tube; }, std::move(tube));
}
Result<Document> withBendTest(Document document, std::optional<Uncertain<Length>> collapseRadius) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.tube.bendTestCollapseRadius; }, collapseRadius);
}
Result<Document> withPumpLabel(Document document, VolumeFlow flow, Length head) {
  document.plumbing.pump.labelFlow.value = flow;
  document.plumbing.pump.labelHead.value = head;
  document.plumbing.pump.points.clear();
  return accepted(std::move(document));
}
Result<Document> withPump(Document document, Pump pump) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.plumbing.pump; }, std::move(pump));
}
Result<Document> withPlumbing(Document document, Plumbing plumbing) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.plumbing; }, std::move(plumbing));
}
Result<Document> withStock(Document document, Stock stock) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.stock; }, std::move(stock));
}

Result<Document> withUncertainValue(Document document, std::string_view pointer, double value_si) {
  return changeUncertain(std::move(document), pointer, [=](auto& uncertain) { setValue(uncertain, value_si); });
}
Result<Document> withSpread(Document document, std::string_view pointer, double spread_si) {
  return changeUncertain(std::move(document), pointer, [=](auto& uncertain) { setSpread(uncertain, spread_si); });
}
Result<Document> withSureness(Document document, std::string_view pointer, Sureness sureness) {
  return changeUncertain(std::move(document), pointer, [=](auto& uncertain) { uncertain.sureness = sureness; });
}
Result<Document> withUncertain(Document document, std::string_view pointer, double value_si, double spread_si,
                               Sureness sureness) {
  return changeUncertain(std::move(document), pointer, [=](auto& uncertain) {
    setValue(uncertain, value_si);
    setSpread(uncertain, spread_si);
    uncertain.sureness = sureness;
  });
}

Result<Document> withSnagLeft(Document document, std::string key, std::string reason) {
  if (isBlank(reason)) return missing("/left_snags", "reason");
  auto& all = document.leftSnags;
  const auto same = std::find_if(all.begin(), all.end(), [&](const LeftSnag& left) { return left.key == key; });
  if (same == all.end()) {
    all.push_back({std::move(key), std::move(reason)});
  } else {
    same->reason = std::move(reason);
  }
  return accepted(std::move(document));
}
Result<Document> withSnagTakenUp(Document document, std::string_view key) {
  auto& all = document.leftSnags;
  const auto same = std::find_if(all.begin(), all.end(), [&](const LeftSnag& left) { return left.key == key; });
  if (same == all.end()) return missing("/left_snags", key);
  closeGap(document.unknownKeys, "/left_snags", static_cast<std::size_t>(same - all.begin()));
  all.erase(same);
  return accepted(std::move(document));
}

namespace {

std::vector<Roll>& rowsOf(Stock& stock, const Roll*) { return stock.rolls; }
std::vector<TimberStock>& rowsOf(Stock& stock, const TimberStock*) { return stock.timbers; }
std::vector<StockSheet>& rowsOf(Stock& stock, const StockSheet*) { return stock.sheets; }
std::vector<StockPump>& rowsOf(Stock& stock, const StockPump*) { return stock.pumps; }
std::vector<StockFitting>& rowsOf(Stock& stock, const StockFitting*) { return stock.fittings; }
std::vector<Thermometer>& rowsOf(Stock& stock, const Thermometer*) { return stock.thermometers; }
constexpr std::string_view pointerOf(const Roll*) { return "/stock/rolls"; }
constexpr std::string_view pointerOf(const TimberStock*) { return "/stock/timbers"; }
constexpr std::string_view pointerOf(const StockSheet*) { return "/stock/sheets"; }
constexpr std::string_view pointerOf(const StockPump*) { return "/stock/pumps"; }
constexpr std::string_view pointerOf(const StockFitting*) { return "/stock/fittings"; }
constexpr std::string_view pointerOf(const Thermometer*) { return "/stock/thermometers"; }

Error noSuchRow(std::string_view list, std::size_t index) { return missing(std::string(list), std::to_string(index)); }

template <class Row>
Result<Document> rowChanged(Document document, std::size_t index, Row row) {
  constexpr const Row* kind = nullptr;
  std::vector<Row>& rows = rowsOf(document.stock, kind);
  if (index >= rows.size()) return noSuchRow(pointerOf(kind), index);
  rows[index] = std::move(row);
  return accepted(std::move(document));
}
template <class Row>
Result<Document> rowAdded(Document document, Row row) {
  constexpr const Row* kind = nullptr;
  rowsOf(document.stock, kind).push_back(std::move(row));
  return accepted(std::move(document));
}
template <class Row>
Result<Document> rowRemoved(Document document, std::size_t index) {
  constexpr const Row* kind = nullptr;
  std::vector<Row>& rows = rowsOf(document.stock, kind);
  if (index >= rows.size()) return noSuchRow(pointerOf(kind), index);
  closeGap(document.unknownKeys, pointerOf(kind), index);
  rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(index));
  return accepted(std::move(document));
}

}  // namespace

Result<Document> withStockRow(Document document, std::size_t index, Roll roll) {
  return rowChanged(std::move(document), index, std::move(roll));
}
Result<Document> withStockRowAdded(Document document, Roll roll) {
  return rowAdded(std::move(document), std::move(roll));
}
Result<Document> withStockRow(Document document, std::size_t index, TimberStock timber) {
  return rowChanged(std::move(document), index, std::move(timber));
}
Result<Document> withStockRowAdded(Document document, TimberStock timber) {
  return rowAdded(std::move(document), std::move(timber));
}
Result<Document> withStockRow(Document document, std::size_t index, StockSheet sheet) {
  return rowChanged(std::move(document), index, std::move(sheet));
}
Result<Document> withStockRowAdded(Document document, StockSheet sheet) {
  return rowAdded(std::move(document), std::move(sheet));
}
Result<Document> withStockRow(Document document, std::size_t index, StockPump pump) {
  return rowChanged(std::move(document), index, std::move(pump));
}
Result<Document> withStockRowAdded(Document document, StockPump pump) {
  return rowAdded(std::move(document), std::move(pump));
}
Result<Document> withStockRow(Document document, std::size_t index, StockFitting fitting) {
  return rowChanged(std::move(document), index, std::move(fitting));
}
Result<Document> withStockRowAdded(Document document, StockFitting fitting) {
  return rowAdded(std::move(document), std::move(fitting));
}
Result<Document> withStockRow(Document document, std::size_t index, Thermometer thermometer) {
  return rowChanged(std::move(document), index, std::move(thermometer));
}
Result<Document> withStockRowAdded(Document document, Thermometer thermometer) {
  return rowAdded(std::move(document), std::move(thermometer));
}
Result<Document> withoutStockRow(Document document, StockList list, std::size_t index) {
  switch (list) {
    case StockList::Rolls:
      return rowRemoved<Roll>(std::move(document), index);
    case StockList::Timbers:
      return rowRemoved<TimberStock>(std::move(document), index);
    case StockList::Sheets:
      return rowRemoved<StockSheet>(std::move(document), index);
    case StockList::Pumps:
      return rowRemoved<StockPump>(std::move(document), index);
    case StockList::Fittings:
      return rowRemoved<StockFitting>(std::move(document), index);
    case StockList::Thermometers:
      return rowRemoved<Thermometer>(std::move(document), index);
  }
  return noSuchRow("/stock", index);
}
Result<Document> withCurrency(Document document, std::string currency) {
  if (isBlank(currency)) return missing("/stock", "currency");
  return with(
      std::move(document), [](Document & d) -> auto& { return d.stock.currency; }, std::move(currency));
}
Result<Document> withKerf(Document document, Length kerf) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.stock.kerf; }, kerf);
}
Result<Document> withSquaringAllowance(Document document, Length allowance) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.stock.squaringAllowance; }, allowance);
}
Result<Document> withFittingPrice(Document document, Price price) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.stock.fittingPrice; }, price);
}
Result<Document> withGlazingPrice(Document document, Price perSquareMetre) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.stock.glazingPricePerSquareMetre; }, perSquareMetre);
}
Result<Document> withPanelsAlike(Document document, int panels) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.panelsAlike; }, panels);
}
Result<Document> withPumpSharing(Document document, PumpSharing sharing) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.panelsSharePump; }, sharing == PumpSharing::OneForAll);
}
Result<Document> withHoldDown(Document document, Mass each) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.siting.holdDown; }, each);
}
Result<Document> withGust(Document document, std::optional<Uncertain<Velocity>> gust) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.siting.gust; }, gust);
}
Result<Document> withGustSpeed(Document document, Velocity speed) {
  constexpr double kSpreadOfGuess = 0.2;
  Uncertain<Velocity> gust =
      document.siting.gust.value_or(Uncertain<Velocity>{speed, speed * kSpreadOfGuess, Sureness::Guess});
  gust.value = speed;
  return withGust(std::move(document), gust);
}
Result<Document> withPoolVolume(Document document, Volume volume) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.pool.volume; }, volume);
}
Result<Document> withTubeDiameters(Document document, Uncertain<Length> inside, Uncertain<Length> outside) {
  Tube& tube = document.tube;
  const bool another = tube.insideDiameter.value != inside.value || tube.outsideDiameter.value != outside.value;
  if (tube.insideDiameter != inside || tube.outsideDiameter != outside) tube.catalogueId.clear();
  if (another) tube.bendTestCollapseRadius.reset();
  tube.insideDiameter = inside;
  tube.outsideDiameter = outside;
  return accepted(std::move(document));
}
Result<Document> withFeedPipe(Document document, Pipe pipe) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.plumbing.feed; }, std::move(pipe));
}
Result<Document> withReturnPipe(Document document, Pipe pipe) {
  return with(
      std::move(document), [](Document & d) -> auto& { return d.plumbing.returning; }, std::move(pipe));
}

}  // namespace sunspool::model
