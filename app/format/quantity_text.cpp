// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/quantity_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace sunspool::format {
namespace {

/// value_si = number * times / over (+ offset). Two factors, so that 9 mm becomes exactly the double 0.009.
struct NamedUnit {
  Dimension dimension;
  std::string_view names;  ///< separated by '|'; a space in a name stands for any number of spaces
  double times = 1.0;
  double over = 1.0;
  double offset = 0.0;
  bool exactCase = false;
};

constexpr double kUsGallonTimes = 473176473.0, kUsGallonOver = 1.25e11;  // 3.785411784 L
constexpr double kImperialGallonTimes = 454609.0, kImperialGallonOver = 1e8;
constexpr double kCubicFoot = 0.028316846592;
constexpr double kPound = 0.45359237;
constexpr double kBtu = 1055.05585262;

constexpr auto kUnits = std::to_array<NamedUnit>({
    {Dimension::Length, "mm|millimetre|millimetres|millimeter|millimeters", 1.0, 1e3},
    {Dimension::Length, "cm|centimetre|centimetres|centimeter|centimeters", 1.0, 1e2},
    {Dimension::Length, "m|metre|metres|meter|meters"},
    {Dimension::Length, "km", 1e3},
    {Dimension::Length, "um|micron|microns", 1.0, 1e6},
    {Dimension::Length, "in|inch|inches|\"", 127.0, 5e3},
    {Dimension::Length, "ft|foot|feet|'", 381.0, 1250.0},
    {Dimension::Length, "yd|yard|yards", 1143.0, 1250.0},
    {Dimension::Head, "mm", 1.0, 1e3},
    {Dimension::Head, "cm", 1.0, 1e2},
    {Dimension::Head, "m|metre|metres|meter|meters|m of head|m of water|m head|m water"},
    {Dimension::Head, "in|inch|inches|\"", 127.0, 5e3},
    {Dimension::Head, "ft|foot|feet|'|ft of head|ft of water|ft head|ft water", 381.0, 1250.0},
    {Dimension::Area, "m2|sq m|square metre|square metres|square meter|square meters"},
    {Dimension::Area, "cm2|sq cm", 1.0, 1e4},
    {Dimension::Area, "mm2|sq mm", 1.0, 1e6},
    {Dimension::Area, "ft2|sq ft|square foot|square feet", 0.09290304},
    {Dimension::Area, "in2|sq in", 0.00064516},
    {Dimension::Volume, "L|litre|litres|liter|liters", 1.0, 1e3},
    {Dimension::Volume, "ml|cm3", 1.0, 1e6},
    {Dimension::Volume, "m3|cubic metre|cubic metres|cubic meter|cubic meters"},
    {Dimension::Volume, "ft3|cu ft|cubic foot|cubic feet", kCubicFoot},
    {Dimension::Volume, "US gal|US gallon|US gallons", kUsGallonTimes, kUsGallonOver},
    {Dimension::Volume, "imp gal|imperial gal|imperial gallon|imperial gallons|UK gal|UK gallon|UK gallons",
     kImperialGallonTimes, kImperialGallonOver},
    {Dimension::Mass, "kg|kilogram|kilograms"},
    {Dimension::Mass, "g|gram|grams", 1.0, 1e3},
    {Dimension::Mass, "t|tonne|tonnes", 1e3},
    {Dimension::Mass, "lb|lbs|pound|pounds", kPound},
    {Dimension::Mass, "oz|ounce|ounces", kPound, 16.0},
    {Dimension::Duration, "s|sec|second|seconds"},
    {Dimension::Duration, "min|minute|minutes", 60.0},
    {Dimension::Duration, "h|hr|hour|hours", 3600.0},
    {Dimension::Duration, "d|day|days", 86400.0},
    {Dimension::Velocity, "m/s"},
    {Dimension::Velocity, "cm/s", 1.0, 1e2},
    {Dimension::Velocity, "km/h|km/hr|kmh|kph", 1.0, 3.6},
    {Dimension::Velocity, "mph|mi/h", 0.44704},
    {Dimension::Velocity, "ft/s|fps", 381.0, 1250.0},
    {Dimension::Velocity, "kn|knot|knots", 1852.0, 3600.0},
    {Dimension::VolumeFlow, "L/min|lpm|litre/min|litres/min|litres per minute|liters per minute", 1.0, 6e4},
    {Dimension::VolumeFlow, "L/h|L/hr|lph|litres/h|litres per hour|liters per hour", 1.0, 3.6e6},
    {Dimension::VolumeFlow, "L/s", 1.0, 1e3},
    {Dimension::VolumeFlow, "m3/h|m3/hr", 1.0, 3600.0},
    {Dimension::VolumeFlow, "m3/s"},
    {Dimension::VolumeFlow, "US gal/min|US gpm|US gallons/min|US gallons per minute", kUsGallonTimes,
     kUsGallonOver * 60.0},
    {Dimension::VolumeFlow, "US gal/h|US gal/hr|US gph|US gallons/h|US gallons per hour", kUsGallonTimes,
     kUsGallonOver * 3600.0},
    {Dimension::VolumeFlow, "imp gal/min|UK gal/min|imp gpm|imperial gallons per minute", kImperialGallonTimes,
     kImperialGallonOver * 60.0},
    {Dimension::VolumeFlow, "imp gal/h|UK gal/h|imp gal/hr|UK gal/hr|imp gph|imperial gallons per hour",
     kImperialGallonTimes, kImperialGallonOver * 3600.0},
    {Dimension::MassFlow, "kg/s"},
    {Dimension::MassFlow, "g/s", 1.0, 1e3},
    {Dimension::MassFlow, "kg/min", 1.0, 60.0},
    {Dimension::MassFlow, "kg/h|kg/hr", 1.0, 3600.0},
    {Dimension::MassFlow, "lb/min", kPound, 60.0},
    {Dimension::MassFlow, "lb/h|lb/hr", kPound, 3600.0},
    {Dimension::Pressure, "Pa"},
    {Dimension::Pressure, "hPa|mbar|millibar", 100.0},
    {Dimension::Pressure, "kPa", 1e3},
    {Dimension::Pressure, "MPa", 1e6, 1.0, 0.0, true},
    {Dimension::Pressure, "bar", 1e5},
    {Dimension::Pressure, "psi", 6894.757293168361},
    {Dimension::Pressure, "atm", 101325.0},
    {Dimension::Power, "W|watt|watts"},
    {Dimension::Power, "kW|kilowatt|kilowatts", 1e3},
    {Dimension::Power, "BTU/h|BTU/hr|BTUH", kBtu, 3600.0},
    {Dimension::Energy, "J|joule|joules"},
    {Dimension::Energy, "kJ", 1e3},
    {Dimension::Energy, "MJ", 1e6, 1.0, 0.0, true},
    {Dimension::Energy, "Wh", 3600.0},
    {Dimension::Energy, "kWh", 3.6e6},
    {Dimension::Energy, "BTU|BTUs", kBtu},
    {Dimension::Irradiance, "W/m2"},
    {Dimension::Irradiance, "kW/m2", 1e3},
    {Dimension::Irradiance, "BTU/(h ft2)|BTU/h/ft2|BTU/(hr ft2)|BTU/h ft2", kBtu, 3600.0 * 0.09290304},
    {Dimension::Temperature, "°C|C|degC|deg C|celsius|degrees C|degrees celsius", 1.0, 1.0, 273.15},
    {Dimension::Temperature, "°F|F|degF|deg F|fahrenheit|degrees F|degrees fahrenheit", 5.0, 9.0, 273.15 - 160.0 / 9.0},
    {Dimension::Temperature, "K|kelvin"},
    {Dimension::TemperatureDifference, "K|kelvin|kelvins|°C|C|degC|deg C|degrees C"},
    {Dimension::TemperatureDifference, "°F|F|degF|deg F|degrees F", 5.0, 9.0},
    {Dimension::Angle, "°|deg|degree|degrees", std::numbers::pi / 180.0},
    {Dimension::Angle, "rad|radian|radians"},
    {Dimension::Percent, "%|percent|per cent", 1.0, 1e2},
    {Dimension::HeatTransferCoefficient, "W/(m2 K)|W/m2K|W/m2 K|W/m2/K"},
    {Dimension::HeatTransferCoefficient, "BTU/(h ft2 °F)|BTU/(hr ft2 °F)|BTU/h/ft2/°F|BTU/(h ft2 F)|BTU/(hr ft2 F)",
     kBtu * 9.0, 3600.0 * 0.09290304 * 5.0},
    {Dimension::ThermalConductivity, "W/(m K)|W/mK|W/m K|W/m/K"},
    {Dimension::ThermalConductivity, "BTU/(h ft °F)|BTU/(hr ft °F)|BTU/h/ft/°F|BTU/(h ft F)|BTU/(hr ft F)", kBtu * 9.0,
     3600.0 * 0.3048 * 5.0},
});

/// A gallon without its country is two different volumes.
constexpr auto kAmbiguous = std::to_array<NamedUnit>({
    {Dimension::Volume, "gal|gals|gallon|gallons"},
    {Dimension::VolumeFlow,
     "gal/min|gal/h|gal/hr|gpm|gph|gallons/min|gallons/h|gallons per minute|gallons per hour|gal"},
});

/// What stands for something else in typed text. Left: UTF-8.
struct Spelling {
  std::string_view typed;
  std::string_view meant;
};
constexpr auto kSpellings = std::to_array<Spelling>({
    {"\u00A0", " "},
    {"\t", " "},
    {"\u2212", "-"},
    {"\u00D7", "*"},
    {"\u2103", "°C"},
    {"\u2109", "°F"},
    {"\u2033", "\""},
    {"\u201D", "\""},
    {"\u2032", "'"},
    {"\u2019", "'"},
    {"\u00B5", "u"},
    {"\u03BC", "u"},
});
struct Vulgar {
  std::string_view typed;
  double value;
};
constexpr auto kVulgarFractions = std::to_array<Vulgar>({
    {"½", 1.0 / 2.0},
    {"¼", 1.0 / 4.0},
    {"¾", 3.0 / 4.0},
    {"⅛", 1.0 / 8.0},
    {"⅜", 3.0 / 8.0},
    {"⅝", 5.0 / 8.0},
    {"⅞", 7.0 / 8.0},
    {"⅓", 1.0 / 3.0},
    {"⅔", 2.0 / 3.0},
});
constexpr std::string_view kThinSpace = "\u2009", kNarrowSpace = "\u202F";

bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isLetter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

struct Unit {
  const NamedUnit* unit = nullptr;
  std::size_t length = 0;  ///< characters it takes
};

/// Length of `name` at the start of `text`, or nothing. Spaces are optional wherever the name has one.
std::optional<std::size_t> matchedLength(std::string_view text, std::string_view name, bool exactCase) {
  std::size_t at = 0;
  for (const char c : name) {
    if (c == ' ') {
      while (at < text.size() && text[at] == ' ') ++at;
      continue;
    }
    if (c == '/') {
      while (at < text.size() && text[at] == ' ') ++at;
    }
    if (at >= text.size()) return std::nullopt;
    const bool same = exactCase ? text[at] == c : lower(text[at]) == lower(c);
    if (!same) return std::nullopt;
    ++at;
    if (c == '/') {
      while (at < text.size() && text[at] == ' ') ++at;
    }
  }
  // The name must end where the word ends, else "m" would be read out of "m2" or "mx". Feet may run on: 7ft10.
  if (at < text.size() && isLetter(name.back()) && (isLetter(text[at]) || text[at] == '_')) return std::nullopt;
  const bool feet = name == "ft" || name == "'" || name == "\"";
  if (at < text.size() && !feet && isDigit(text[at])) return std::nullopt;
  if (at + 1 < text.size() && text[at] == '/' && isLetter(text[at + 1])) return std::nullopt;
  return at;
}

template <std::size_t N>
Unit longestUnit(std::string_view text, Dimension dimension, const std::array<NamedUnit, N>& units) {
  Unit best;
  for (const NamedUnit& unit : units) {
    if (unit.dimension != dimension) continue;
    std::string_view rest = unit.names;
    while (!rest.empty()) {
      const std::size_t bar = rest.find('|');
      const std::string_view name = rest.substr(0, bar);
      rest = bar == std::string_view::npos ? std::string_view{} : rest.substr(bar + 1);
      const auto length = matchedLength(text, name, unit.exactCase);
      if (length && *length > best.length) best = {&unit, *length};
    }
  }
  return best;
}

/// Text with one spelling for each thing, and where each of its bytes stood in the typed text.
struct Normal {
  std::string text;
  std::vector<std::size_t> from;  ///< one longer than text

  void add(std::string_view meant, std::size_t typedAt) {
    for (const char c : meant) {
      text.push_back(c);
      from.push_back(typedAt);
    }
  }
};

/// Bytes of the grouping space at the start of `text`, 0 when there is none.
std::size_t groupSpaceLength(std::string_view text) {
  for (const std::string_view space : {kThinSpace, kNarrowSpace}) {
    if (text.starts_with(space)) return space.size();
  }
  return 0;
}

Normal normalised(std::string_view typed) {
  Normal normal;
  std::size_t at = 0;
  while (at < typed.size()) {
    const std::string_view rest = typed.substr(at);
    const std::size_t groupSpace = groupSpaceLength(rest);
    std::size_t length = groupSpace > 0 ? groupSpace : 1;
    if (groupSpace > 0) {
      normal.add("\x01", at);  // kept apart: between digits it groups, elsewhere it is a space
    } else if (rest.starts_with("²") || rest.starts_with("³")) {
      length = 2;
      // A raised digit belongs to a unit; after a number it would change the number.
      const bool afterUnit = !normal.text.empty() && isLetter(normal.text.back());
      normal.add(!afterUnit ? rest.substr(0, 2) : rest.starts_with("²") ? "2" : "3", at);
    } else if (rest.starts_with("·")) {
      length = 2;
      const bool inUnit = !normal.text.empty() && !isDigit(normal.text.back()) && normal.text.back() != ' ';
      normal.add(inUnit ? " " : "*", at);
    } else {
      std::string_view meant = rest.substr(0, 1);
      for (const Spelling& spelling : kSpellings) {
        if (rest.starts_with(spelling.typed)) {
          meant = spelling.meant;
          length = spelling.typed.size();
        }
      }
      normal.add(meant, at);
    }
    at += length;
  }
  normal.from.push_back(typed.size());
  return normal;
}

bool isCurrency(std::string_view typed, std::string_view currency) {
  static constexpr auto kSymbols = std::to_array<Spelling>({{"€", "EUR"}, {"£", "GBP"}, {"$", "USD"}});
  for (const Spelling& symbol : kSymbols) {
    if (typed == symbol.typed && currency == symbol.meant) return true;
  }
  return std::equal(typed.begin(), typed.end(), currency.begin(), currency.end(),
                    [](char a, char b) { return lower(a) == lower(b); });
}

class Reader {
 public:
  Reader(std::string_view typed, Dimension dimension, std::string_view bareUnit)
      : m_typed(typed), m_normal(normalised(typed)), m_dimension(dimension), m_bareUnit(bareUnit) {}

  Result<double> read() {
    skipSpaces();
    double sum = 0.0;
    bool first = true;
    while (first || m_at < size()) {
      const bool minus = peek() == '-';
      if (minus || peek() == '+') {
        ++m_at;
      } else if (!first) {
        return bad(ErrorCode::BadNumber, m_at, wordEnd(m_at));
      }
      const auto term = product();
      if (!term) return term.error();
      sum += minus ? -*term : *term;
      if (first) sum += m_offset;  // only the first temperature stands for a place on its scale
      first = false;
      skipSpaces();
    }
    if (!std::isfinite(sum)) return bad(ErrorCode::BadNumber, 0, size());
    if (m_dimension == Dimension::Count && sum != std::round(sum)) return bad(ErrorCode::BadNumber, 0, size());
    return sum;
  }

 private:
  struct Value {
    double number = 0.0;
    bool hasUnit = false;
    double times = 1.0, over = 1.0, offset = 0.0;
    double added_si = 0.0;  ///< "10 1/2 in" of "7 ft 10 1/2 in"
  };

  std::size_t size() const { return m_normal.text.size(); }
  char peek(std::size_t ahead = 0) const { return m_at + ahead < size() ? m_normal.text[m_at + ahead] : '\0'; }
  std::string_view rest() const { return std::string_view(m_normal.text).substr(m_at); }
  void skipSpaces() {
    while (peek() == ' ' || peek() == '\x01') ++m_at;
  }
  std::size_t wordEnd(std::size_t at) const {
    std::size_t end = at;
    while (end < size() && m_normal.text[end] != ' ' && m_normal.text[end] != '\x01') ++end;
    return std::max(end, std::min(at + 1, size()));
  }
  Error bad(ErrorCode code, std::size_t from, std::size_t to) const {
    std::size_t begin = m_normal.from[std::min(from, size())];
    std::size_t end = m_normal.from[std::min(to, size())];
    while (begin < end && m_typed[begin] == ' ') ++begin;
    while (end > begin && m_typed[end - 1] == ' ') --end;
    return Error{code, std::string(m_typed), std::string(m_typed.substr(begin, end - begin)), {}};
  }

  /// Without the zero of its scale, which is left in m_offset.
  Result<double> product() {
    const std::size_t start = m_at;
    auto value = quantity();
    if (!value) return value.error();
    Value total = *value;
    int factors = 1;
    for (skipSpaces(); isProductSign(); skipSpaces()) {
      const bool divide = peek() == '/';
      ++m_at;
      const std::size_t factorAt = m_at;
      const auto next = quantity();
      if (!next) return next.error();
      ++factors;
      if (next->hasUnit && total.hasUnit) return bad(ErrorCode::BadNumber, factorAt, m_at);
      if (divide && next->number == 0.0) return bad(ErrorCode::BadNumber, factorAt, m_at);
      if (divide && next->added_si != 0.0) return bad(ErrorCode::BadNumber, factorAt, m_at);
      total = combined(total, *next, divide);
    }
    if (!total.hasUnit) {
      const Unit bare = bareUnit();
      if (bare.unit != nullptr) total = withUnit(total, *bare.unit);
    }
    if (m_dimension == Dimension::Temperature && factors > 1) return bad(ErrorCode::BadNumber, start, m_at);
    m_offset = total.offset;
    return total.number * total.times / total.over + total.added_si;
  }

  static Value combined(const Value& a, const Value& b, bool divide) {
    Value both = a.hasUnit ? a : b;
    both.number = divide ? a.number / b.number : a.number * b.number;
    both.hasUnit = a.hasUnit || b.hasUnit;
    both.added_si = divide ? a.added_si / b.number : a.added_si * b.number + b.added_si * a.number;
    return both;
  }
  bool isProductSign() const {
    const bool times = (peek() == 'x' || peek() == 'X') && (isDigit(peek(1)) || peek(1) == ' ');
    return peek() == '*' || peek() == '/' || times;
  }

  static Value withUnit(Value value, const NamedUnit& unit) {
    value.times = unit.times;
    value.over = unit.over;
    value.offset = unit.offset;
    return value;
  }
  Unit bareUnit() const { return longestUnit(m_bareUnit, m_dimension, kUnits); }

  Result<Value> quantity() {
    skipSpaces();
    const auto number = this->number();
    if (!number) return number.error();
    Value value;
    value.number = *number;
    const std::size_t afterNumber = m_at;
    skipSpaces();
    if (m_at >= size() || isProductSign() || peek() == '+' || peek() == '-') return value;
    if (m_dimension == Dimension::Money) return priced(value);
    const Unit unit = longestUnit(rest(), m_dimension, kUnits);
    if (unit.unit == nullptr) return unitNotRead(afterNumber);
    m_at += unit.length;
    value = withUnit(value, *unit.unit);
    value.hasUnit = true;
    return compound(value, *unit.unit);
  }

  Result<Value> priced(Value value) {
    const std::size_t end = wordEnd(m_at);
    if (!isCurrency(std::string_view(m_normal.text).substr(m_at, end - m_at), m_bareUnit)) {
      return bad(ErrorCode::BadUnit, m_at, end);
    }
    m_at = end;
    value.hasUnit = true;
    return value;
  }

  /// The second, smaller unit: inches after feet, minutes after hours.
  Result<Value> compound(Value value, const NamedUnit& unit) {
    const bool feet = unit.names.starts_with("ft");
    const bool footMark = m_normal.text[m_at - 1] == '\'';
    if (footMark && peek() == '-' && isDigit(peek(1))) ++m_at;  // 7'-10", as drawings write it
    const std::size_t before = m_at;
    skipSpaces();
    if (!isDigit(peek())) {
      m_at = before;
      return value;
    }
    const std::size_t numberAt = m_at;
    const auto number = this->number();
    if (!number) return number.error();
    skipSpaces();
    const Unit second = longestUnit(rest(), m_dimension, kUnits);
    if (second.unit != nullptr && second.unit->times / second.unit->over < unit.times / unit.over &&
        second.unit->offset == 0.0 && unit.offset == 0.0) {
      m_at += second.length;
      value.added_si = *number * second.unit->times / second.unit->over;
    } else if (second.unit == nullptr && feet && (m_at >= size() || peek() == '+' || peek() == '-')) {
      value.added_si = *number * 127.0 / 5e3;
    } else if (second.unit == nullptr && m_at < size() && !isProductSign()) {
      return unitNotRead(m_at);
    } else {
      return bad(ErrorCode::BadNumber, numberAt, m_at);
    }
    return value;
  }

  Error unitNotRead(std::size_t afterNumber) {
    skipSpaces();
    const Unit ambiguous = longestUnit(rest(), m_dimension, kAmbiguous);
    if (ambiguous.unit != nullptr) return bad(ErrorCode::AmbiguousUnit, m_at, m_at + ambiguous.length);
    const char c = peek();
    const bool word = isLetter(c) || c == '%' || c == '"' || c == '\'' || rest().starts_with("°");
    if (!word) return bad(ErrorCode::BadNumber, m_at > afterNumber ? m_at : afterNumber, wordEnd(m_at));
    std::size_t end = m_at;
    while (end < size() && m_normal.text[end] != '+' && m_normal.text[end] != '*') ++end;
    return bad(ErrorCode::BadUnit, m_at, end);
  }

  /// Digits with single thin spaces before groups of three.
  std::string digits() {
    std::string read;
    while (isDigit(peek())) read.push_back(m_normal.text[m_at++]);
    while (!read.empty() && peek() == '\x01' && isDigit(peek(1)) && isDigit(peek(2)) && isDigit(peek(3)) &&
           !isDigit(peek(4))) {
      ++m_at;
      for (int i = 0; i < 3; ++i) read.push_back(m_normal.text[m_at++]);
    }
    return read;
  }
  std::optional<double> vulgar() {
    for (const Vulgar& fraction : kVulgarFractions) {
      if (rest().starts_with(fraction.typed)) {
        m_at += fraction.typed.size();
        return fraction.value;
      }
    }
    return std::nullopt;
  }
  /// "3/16", both whole, with nothing between: part of the number. Moves only when it is one.
  Result<std::optional<double>> fraction() {
    const std::size_t start = m_at;
    const std::string above = digits();
    if (!above.empty() && peek() == '/' && isDigit(peek(1))) {
      ++m_at;
      const std::string below = digits();
      const bool wholeBelow = peek() != '.' && peek() != ',';
      const double denominator = toDouble(below);
      if (wholeBelow && denominator == 0.0) return bad(ErrorCode::BadNumber, start, m_at);
      if (wholeBelow) return std::optional<double>(toDouble(above) / denominator);
    }
    m_at = start;
    return std::optional<double>();
  }
  static double toDouble(const std::string& text) {
    double value = 0.0;
    const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
    return status == std::errc{} && end == text.data() + text.size() ? value : std::nan("");
  }

  Result<double> number() {
    skipSpaces();
    const std::size_t start = m_at;
    const auto alone = fraction();
    if (!alone) return alone.error();
    if (*alone) return **alone;
    if (const auto part = vulgar()) return *part;
    std::string read = digits();
    const bool whole = peek() != '.' && peek() != ',';
    if (!whole) {
      read.push_back('.');
      ++m_at;
      while (isDigit(peek())) read.push_back(m_normal.text[m_at++]);
      if (peek() == '.' || peek() == ',') return bad(ErrorCode::BadNumber, start, wordEnd(start));
    }
    if (read.empty() || read == ".") {
      m_at = start;
      return bad(ErrorCode::BadNumber, start, wordEnd(start));
    }
    const double plain = toDouble(withExponent(read));
    if (!std::isfinite(plain)) return bad(ErrorCode::BadNumber, start, m_at);
    return whole ? mixed(start, plain) : plain;
  }
  std::string withExponent(std::string read) {
    const std::size_t signs = peek(1) == '+' || peek(1) == '-' ? 1 : 0;
    if ((peek() != 'e' && peek() != 'E') || !isDigit(peek(1 + signs))) return read;
    read += 'e';
    ++m_at;
    if (peek() == '-') read += '-';
    m_at += signs;
    while (isDigit(peek())) read.push_back(m_normal.text[m_at++]);
    return read;
  }
  /// "1 3/16" and "1½". "1-3/16" could be a difference or a mixed number: refused.
  Result<double> mixed(std::size_t start, double whole) {
    if (const auto part = vulgar()) return whole + *part;
    const std::size_t after = m_at;
    const bool hyphen = peek() == '-';
    if (hyphen) {
      ++m_at;
    } else {
      skipSpaces();
    }
    if (m_at > after) {
      const auto part = fraction();
      if (!part) return part.error();
      if (*part && hyphen && **part < 1.0) return bad(ErrorCode::BadNumber, start, m_at);
      if (*part && !hyphen) return whole + **part;
    }
    m_at = after;
    return whole;
  }

  std::string_view m_typed;
  Normal m_normal;
  Dimension m_dimension;
  std::string_view m_bareUnit;
  std::size_t m_at = 0;
  double m_offset = 0.0;  ///< of the product read last
};

}  // namespace

bool isUnitOf(std::string_view unit, Dimension dimension) {
  if (dimension == Dimension::Money) return true;
  const bool bare = dimension == Dimension::Count || dimension == Dimension::None || dimension == Dimension::Percent;
  if (unit.empty()) return bare;
  const std::string normal = normalised(unit).text;
  return longestUnit(normal, dimension, kUnits).length == normal.size();
}

Result<double> parseQuantity(std::string_view text, Dimension dimension, std::string_view bareUnit) {
  SUNSPOOL_ASSERT(isUnitOf(bareUnit, dimension), "the unit of a bare number belongs to its dimension");
  const std::string unit = dimension == Dimension::Percent ? std::string("%") : normalised(bareUnit).text;
  return Reader(text, dimension, unit).read();
}

}  // namespace sunspool::format
