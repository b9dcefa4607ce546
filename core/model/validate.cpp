// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/model/validate.h"

#include <chrono>
#include <cmath>
#include <set>

#include "core/model/fields.h"

namespace sunspool::model {
namespace {

/// Walks all fields and keeps the first value outside its limits.
class LimitCheck {
 public:
  const std::optional<Error>& error() const { return m_error; }

  void text(std::string_view, const std::string&, Need) {}
  void flag(std::string_view, bool, Need) {}
  template <class E>
  void word(std::string_view key, E value, Need) {
    if (!m_error && wordOf(value).empty()) {
      m_error = Error{ErrorCode::UnknownWord, pointerTo(m_pointer, key), {}, {}};
    }
  }
  template <class Q>
  void number(std::string_view key, Q value, Limits limits, Need) {
    check<Q>(key, siOf(value), siOf(fromFileUnit<Q>(limits.low)), siOf(fromFileUnit<Q>(limits.high)));
  }
  template <class Q>
  void maybeNumber(std::string_view key, const std::optional<Q>& value, Limits limits) {
    if (value) number(key, *value, limits, Need::Optional);
  }
  template <class Q>
  void uncertain(std::string_view stem, std::string_view unit, const Uncertain<Q>& value, Limits limits, Need need) {
    const std::string outer = m_pointer;
    m_pointer = pointerTo(outer, stem);
    number(valueKey(unit), value.value, limits, need);
    const double widest = siOf(fromFileUnit<Q>(limits.high)) - siOf(fromFileUnit<Q>(limits.low));
    check<Difference<Q>>(spreadKey(unit), siOf(value.spread), 0.0, widest);
    word("sureness", value.sureness, need);
    m_pointer = outer;
  }
  template <class Q>
  void maybeUncertain(std::string_view stem, std::string_view unit, const std::optional<Uncertain<Q>>& value,
                      Limits limits) {
    if (value) uncertain(stem, unit, *value, limits, Need::Optional);
  }
  template <class T>
  void object(std::string_view key, T& value, Need) {
    const std::string outer = m_pointer;
    m_pointer = pointerTo(outer, key);
    fields(*this, value);
    m_pointer = outer;
  }
  template <class T>
  void maybeObject(std::string_view key, std::optional<T>& value) {
    if (value) object(key, *value, Need::Optional);
  }
  template <class T>
  void list(std::string_view key, std::vector<T>& values, Need) {
    const std::string outer = pointerTo(m_pointer, key);
    for (std::size_t i = 0; i < values.size() && !m_error; ++i) {
      std::string kept = m_pointer;
      m_pointer = outer;
      object(std::to_string(i), values[i], Need::Required);
      m_pointer = std::move(kept);
    }
  }

 private:
  template <class Q>
  void check(std::string_view key, double value, double low, double high) {
    if (m_error || (value >= low && value <= high)) return;  // a NaN fails both
    const Dimension dimension = dimensionOf<Q>();
    m_error = Error{ErrorCode::OutOfRange,
                    pointerTo(m_pointer, key),
                    {},
                    {{"value", value, dimension}, {"low", low, dimension}, {"high", high, dimension}}};
  }

  std::string m_pointer;
  std::optional<Error> m_error;
};

Result<Done> checkMoment(const Moment& moment) {
  const std::chrono::year_month_day date{std::chrono::year{moment.year},
                                         std::chrono::month{static_cast<unsigned>(moment.month)},
                                         std::chrono::day{static_cast<unsigned>(moment.day)}};
  if (date.ok()) return Done{};
  return Error{ErrorCode::DateImpossible,
               "/moment/day",
               {},
               {{"year", static_cast<double>(moment.year), Dimension::Count},
                {"month", static_cast<double>(moment.month), Dimension::Count},
                {"day", static_cast<double>(moment.day), Dimension::Count}}};
}

Result<Done> checkTube(const Tube& tube) {
  const Length inside = tube.insideDiameter.value;
  const Length outside = tube.outsideDiameter.value;
  if (inside < outside) return Done{};
  return Error{ErrorCode::InsideNotBelowOutside,
               "/inside_diameter",
               {},
               {{"inside", inside.si(), Dimension::Length}, {"outside", outside.si(), Dimension::Length}}};
}

Result<Done> checkTubeOf(const Document& document) {
  const Result<Done> tube = checkTube(document.tube);
  if (tube) return tube;
  Error error = tube.error();
  error.where = "/tube" + error.where;
  return error;
}

Result<Done> checkStarts(const Laying& laying) {
  if (laying.starts == 1 || laying.starts == 2 || laying.starts == 4) return Done{};
  return Error{ErrorCode::OutOfRange,
               "/laying/starts",
               "1, 2, 4",
               {{"value", static_cast<double>(laying.starts), Dimension::Count},
                {"low", 1.0, Dimension::Count},
                {"high", 4.0, Dimension::Count}}};
}

Result<Done> checkPumpPoints(const std::vector<PumpPoint>& points) {
  if (points.empty()) return Done{};
  std::optional<std::size_t> broken;
  if (points.size() == 1) broken = 0;
  for (std::size_t i = 1; i < points.size() && !broken; ++i) {
    if (!(points[i].flow > points[i - 1].flow && points[i].head < points[i - 1].head)) broken = i;
  }
  if (!broken) return Done{};
  return Error{ErrorCode::PumpCurveRises,
               pointerTo("/plumbing/pump/points", std::to_string(*broken)),
               {},
               {{"point", static_cast<double>(*broken), Dimension::Count}}};
}

/// A label curve H0 (1 - (Q/Qmax)^2) gives at most 2/(3 sqrt 3) of rho g H0 Qmax to the water.
/// Assumption: 1000 kg/m^3 and 9.80665 m/s^2; a label beyond the electrical power is a misprint, not a finding.
Result<Done> checkPumpLabel(const Pump& pump) {
  const double flow_m3_s = pump.labelFlow.value.si();
  const double head_m = pump.labelHead.value.si();
  std::vector<Fact> facts{{"flow", flow_m3_s, Dimension::VolumeFlow}, {"head", head_m, Dimension::Head}};
  if (flow_m3_s <= 0.0) {
    return Error{ErrorCode::PumpLabelImpossible, "/plumbing/pump/label_flow/value_m3_s", {}, std::move(facts)};
  }
  if (head_m <= 0.0) {
    return Error{ErrorCode::PumpLabelImpossible, "/plumbing/pump/label_head/value_m", {}, std::move(facts)};
  }
  const double mostHydraulic_W = 1000.0 * 9.80665 * head_m * flow_m3_s * 2.0 / (3.0 * std::sqrt(3.0));
  const double electrical_W = pump.electricalPower.si();
  if (electrical_W > 0.0 && mostHydraulic_W > electrical_W) {
    facts.push_back({"most_power", mostHydraulic_W, Dimension::Power});
    facts.push_back({"electrical_power", electrical_W, Dimension::Power});
    return Error{ErrorCode::PumpLabelImpossible, "/plumbing/pump/electrical_power_W", {}, std::move(facts)};
  }
  return Done{};
}

/// The pumps of a Shed, each by points or label like the design's own.
Result<Done> checkStockPumps(const Stock& stock, std::string_view stockPointer) {
  for (std::size_t i = 0; i < stock.pumps.size(); ++i) {
    const Pump& pump = stock.pumps[i].pump;
    const Result<Done> checked = pump.points.empty() ? checkPumpLabel(pump) : checkPumpPoints(pump.points);
    if (checked) continue;
    Error error = checked.error();
    constexpr std::string_view kDesignsPump = "/plumbing/pump";
    error.where =
        std::string(stockPointer) + "/pumps/" + std::to_string(i) + "/pump" + error.where.substr(kDesignsPump.size());
    return error;
  }
  return Done{};
}

Result<Done> checkKeepOuts(const std::vector<KeepOut>& keepOuts) {
  std::set<std::string> ids;
  for (std::size_t i = 0; i < keepOuts.size(); ++i) {
    const std::string pointer = "/keep_outs/" + std::to_string(i);
    if (!ids.insert(keepOuts[i].id).second) {
      return Error{ErrorCode::DuplicateKey, pointer + "/id", keepOuts[i].id, {}};
    }
    const Result<Done> outline = geometry::checked(keepOuts[i].outline);
    if (!outline) {
      Error error = outline.error();
      error.where = pointer + "/corners";
      return error;
    }
  }
  return Done{};
}

Result<Done> checkLeftSnags(const std::vector<LeftSnag>& left) {
  std::set<std::string> keys;
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (!keys.insert(left[i].key).second) {
      return Error{ErrorCode::DuplicateKey, "/left_snags/" + std::to_string(i) + "/key", left[i].key, {}};
    }
  }
  return Done{};
}

}  // namespace

Result<Done> validate(const Document& document) {
  LimitCheck limits;
  Document copy = document;  // the shared description of fields speaks of changeable documents
  fields(limits, copy);
  if (limits.error()) return *limits.error();
  for (const Result<Done>& step :
       {checkMoment(document.moment), checkKeepOuts(document.keepOuts), checkTubeOf(document),
        checkStarts(document.laying), checkPumpPoints(document.plumbing.pump.points),
        document.plumbing.pump.points.empty() ? checkPumpLabel(document.plumbing.pump) : Result<Done>(Done{}),
        checkStockPumps(document.stock, "/stock"), checkLeftSnags(document.leftSnags)}) {
    if (!step) return step.error();
  }
  return Done{};
}

Result<Done> validate(const Tube& tube) {
  LimitCheck limits;
  Tube copy = tube;
  fields(limits, copy);
  if (limits.error()) return *limits.error();
  return checkTube(tube);
}

Result<Done> validate(const Stock& stock) {
  LimitCheck limits;
  Stock copy = stock;
  fields(limits, copy);
  if (limits.error()) return *limits.error();
  return checkStockPumps(stock, {});
}

}  // namespace sunspool::model
