// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/have_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "app/format/quantity_text.h"

namespace sunspool::format {
namespace {

constexpr double kBareMillimetres = 50.0;    // a size from here on without unit is in mm
constexpr double kBareSection = 10.0;        // of a board's section
constexpr double kBareDiameterInches = 3.0;  // a bare diameter below is in inches
constexpr double kThickestTube_m = 0.2;      // a length below is no length of a roll
constexpr double kThickestSheet_m = 0.3;
constexpr int kMostOfOneThing = 1000;
constexpr double kLabelSpread = 0.06;  // of a pump's label: common practice, no source

enum class Kind { Sheet, Roll, Board, Pump, Pool };

struct Thing {
  std::string_view word;
  Kind kind;
  std::optional<model::SheetUse> use = {};
};
constexpr auto kThings = std::to_array<Thing>({
    {"sheet", Kind::Sheet},
    {"sheets", Kind::Sheet},
    {"plate", Kind::Sheet, model::SheetUse::Plate},
    {"plates", Kind::Sheet, model::SheetUse::Plate},
    {"steel", Kind::Sheet, model::SheetUse::Plate},
    {"metal", Kind::Sheet, model::SheetUse::Plate},
    {"aluminium", Kind::Sheet, model::SheetUse::Plate},
    {"aluminum", Kind::Sheet, model::SheetUse::Plate},
    {"tin", Kind::Sheet, model::SheetUse::Plate},
    {"glazing", Kind::Sheet, model::SheetUse::Glazing},
    {"glass", Kind::Sheet, model::SheetUse::Glazing},
    {"polycarbonate", Kind::Sheet, model::SheetUse::Glazing},
    {"twinwall", Kind::Sheet, model::SheetUse::Glazing},
    {"twin-wall", Kind::Sheet, model::SheetUse::Glazing},
    {"acrylic", Kind::Sheet, model::SheetUse::Glazing},
    {"plywood", Kind::Sheet, model::SheetUse::Backing},
    {"ply", Kind::Sheet, model::SheetUse::Backing},
    {"osb", Kind::Sheet, model::SheetUse::Backing},
    {"backing", Kind::Sheet, model::SheetUse::Backing},
    {"insulation", Kind::Sheet, model::SheetUse::Insulation},
    {"foam", Kind::Sheet, model::SheetUse::Insulation},
    {"polystyrene", Kind::Sheet, model::SheetUse::Insulation},
    {"xps", Kind::Sheet, model::SheetUse::Insulation},
    {"roll", Kind::Roll},
    {"rolls", Kind::Roll},
    {"coil", Kind::Roll},
    {"coils", Kind::Roll},
    {"reel", Kind::Roll},
    {"reels", Kind::Roll},
    {"tube", Kind::Roll},
    {"tubing", Kind::Roll},
    {"pipe", Kind::Roll},
    {"hose", Kind::Roll},
    {"board", Kind::Board},
    {"boards", Kind::Board},
    {"timber", Kind::Board},
    {"timbers", Kind::Board},
    {"lumber", Kind::Board},
    {"batten", Kind::Board},
    {"battens", Kind::Board},
    {"plank", Kind::Board},
    {"planks", Kind::Board},
    {"pump", Kind::Pump},
    {"pool", Kind::Pool},
});

/// Words that say nothing a panel is reckoned from.
constexpr auto kFillers = std::to_array<std::string_view>(
    {"of",       "a",          "an",    "the",     "in",    "at",          "with",  "by",           "on",
     "each",     "long",       "x",     "is",      "i",     "have",        "has",   "old",          "new",
     "used",     "black",      "dark",  "painted", "flat",  "clear",       "left",  "pe",           "poly",
     "ldpe",     "irrigation", "drip",  "garden",  "wall",  "twin",        "label", "lift",         "head",
     "small",    "submerged",  "round", "water",   "about", "submersible", "deep",  "polyethylene", "dia",
     "diameter", "ø",          "Ø"});

constexpr auto kCounts = std::to_array<std::pair<std::string_view, int>>(
    {{"one", 1}, {"two", 2}, {"three", 3}, {"four", 4}, {"five", 5}, {"six", 6}, {"eight", 8}, {"ten", 10}});

constexpr auto kOutside = std::to_array<std::string_view>({"od", "outside", "outer"});
constexpr auto kInside = std::to_array<std::string_view>({"id", "inside", "inner", "bore"});

bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isWordByte(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}
std::string lowered(std::string_view text) {
  std::string low(text);
  for (char& c : low) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return low;
}
template <class Words>
bool isOneOf(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// Tokens -------------------------------------------------------------------------------------------------------------

enum class Mark { Number, Word, Times, Slash, Break };
struct Token {
  Mark mark{};
  std::size_t from = 0, to = 0;  ///< bytes of the line
  std::string low;               ///< of a word
};

constexpr auto kSpaces = std::to_array<std::string_view>({" ", "\t", "\u00A0", "\u2009", "\u202F"});
constexpr auto kFractions = std::to_array<std::string_view>({"½", "¼", "¾", "⅛", "⅜", "⅝", "⅞", "⅓", "⅔"});
constexpr auto kUnitMarks = std::to_array<std::string_view>({"''", "\"", "'", "\u2033", "\u201D", "\u2032", "\u2019"});

template <class Words>
std::size_t startLength(std::string_view text, const Words& words) {
  for (const std::string_view word : words) {
    if (text.starts_with(word)) return word.size();
  }
  return 0;
}

class Lexer {
 public:
  explicit Lexer(std::string_view line) : m_line(line) {}

  std::vector<Token> tokens() {
    while (m_at < m_line.size()) {
      if (const std::size_t space = startLength(rest(), kSpaces)) {
        m_at += space;
      } else if (numberLength() > 0) {
        take(Mark::Number, numberLength());
      } else if (const std::size_t mark = startLength(rest(), kUnitMarks)) {
        take(Mark::Word, mark);
      } else if (isTimes()) {
        take(Mark::Times, rest().starts_with("×") ? 2 : 1);
      } else if (isWordByte(m_line[m_at])) {
        take(Mark::Word, wordLength());
      } else if (m_line[m_at] == '/') {
        take(Mark::Slash, 1);
      } else if (isBreak(m_line[m_at])) {
        take(Mark::Break, 1);
      } else {
        take(Mark::Word, 1);  // a sign nobody knows; named when it is not understood
      }
    }
    for (Token& token : m_tokens) {
      if (token.low == "and" || token.low == "plus") token.mark = Mark::Break;
    }
    return std::move(m_tokens);
  }

 private:
  std::string_view rest() const { return m_line.substr(m_at); }
  void take(Mark mark, std::size_t length) {
    m_tokens.push_back({mark, m_at, m_at + length, lowered(m_line.substr(m_at, length))});
    m_at += length;
  }
  static bool isBreak(char c) { return c == ',' || c == ';' || c == '\n' || c == '\r' || c == '&' || c == '+'; }

  /// Digits with one decimal mark that digits follow, a fraction at the end.
  std::size_t numberLength() const {
    const std::string_view text = rest();
    std::size_t at = 0;
    while (at < text.size() && isDigit(text[at])) ++at;
    if (at + 1 < text.size() && (text[at] == '.' || (text[at] == ',' && at > 0)) && isDigit(text[at + 1])) {
      ++at;
      while (at < text.size() && isDigit(text[at])) ++at;
    }
    return at + startLength(text.substr(at), kFractions);
  }
  /// An x between two numbers, or the sign itself.
  bool isTimes() const {
    if (rest().starts_with("×") || m_line[m_at] == '*') return true;
    if (m_line[m_at] != 'x' && m_line[m_at] != 'X') return false;
    std::size_t next = m_at + 1;
    while (next < m_line.size() && startLength(m_line.substr(next), kSpaces) > 0)
      next += startLength(m_line.substr(next), kSpaces);
    return next < m_line.size() &&
           (isDigit(m_line[next]) || m_line[next] == '.' || startLength(m_line.substr(next), kFractions) > 0);
  }
  /// Letters; a raised or plain 2 or 3 behind them (m3), one hyphen inside, one "/" and letters behind (L/min).
  std::size_t wordLength() const {
    const std::string_view text = rest();
    std::size_t at = 0;
    const auto letters = [&] {
      while (at < text.size() && isWordByte(text[at]) && startLength(text.substr(at), kSpaces) == 0 &&
             startLength(text.substr(at), kFractions) == 0 && startLength(text.substr(at), kUnitMarks) == 0 &&
             !text.substr(at).starts_with("×")) {
        // "mx8": the x of a size runs on from its unit.
        if (at > 0 && (text[at] == 'x' || text[at] == 'X') && at + 1 < text.size() && isDigit(text[at + 1])) break;
        ++at;
      }
    };
    letters();
    const auto power = [&] {
      if (at < text.size() && (text[at] == '2' || text[at] == '3') &&
          (at + 1 >= text.size() || (!isDigit(text[at + 1]) && text[at + 1] != '.')))
        ++at;
    };
    power();
    if (at + 1 < text.size() && text[at] == '-' && isWordByte(text[at + 1])) {
      ++at;
      letters();
    }
    if (at + 1 < text.size() && text[at] == '/' && isWordByte(text[at + 1])) {
      ++at;
      letters();
      power();
    }
    return std::max<std::size_t>(at, 1);
  }

  std::string_view m_line;
  std::size_t m_at = 0;
  std::vector<Token> m_tokens;
};

// Measures -----------------------------------------------------------------------------------------------------------

enum class Of { Length, Flow, Volume, Power, Size, Pair, Bare };
struct Measure {
  Of of{};
  std::array<double, 3> si{};  ///< one value, or the sides of a size, or a pair
  int sides = 1;
  bool hasUnit = true;
  std::size_t from = 0, to = 0;
  enum class Role { Open, Outside, Inside } role = Role::Open;
};

class Reader {
 public:
  explicit Reader(std::string_view line) : m_line(line), m_tokens(Lexer(line).tokens()) {}

  Result<propose::Have> read() {
    std::size_t from = 0;
    while (from < m_tokens.size()) {
      std::size_t to = from;
      while (to < m_tokens.size() && m_tokens[to].mark != Mark::Break) ++to;
      if (to > from) {
        m_end = to;
        if (const auto read = segment(from); !read.has_value()) return read.error();
      }
      from = to + 1;
    }
    if (const auto taken = finish(); !taken.has_value()) return taken.error();
    if (m_have == propose::Have{}) return notUnderstood("expected_anything", 0, m_line.size());
    return m_have;
  }

 private:
  struct Item {
    std::optional<Kind> kind;
    std::optional<model::SheetUse> use;
    int count = 1;
    std::size_t from = 0, to = 0;
    std::vector<Measure> measures;
  };

  Error notUnderstood(const char* expected, std::size_t from, std::size_t to) const {
    return {ErrorCode::NotUnderstood,
            std::string(m_line),
            std::string(m_line.substr(from, to - from)),
            {{expected, 0.0, Dimension::None}}};
  }
  Error notUnderstood(const char* expected, const Measure& measure) const {
    return notUnderstood(expected, measure.from, measure.to);
  }
  bool is(std::size_t at, Mark mark) const { return at < m_end && m_tokens[at].mark == mark; }
  std::string_view text(std::size_t from, std::size_t to) const {
    return m_line.substr(m_tokens[from].from, m_tokens[to].to - m_tokens[from].from);
  }

  // one value ----------------------------------------------------------------------------------------------------

  struct Read {
    Of of = Of::Bare;
    double si = 0.0;
    std::size_t next = 0;  ///< first token behind it
  };
  /// The number at `at` with the longest unit behind it.
  Result<Read> value(std::size_t at) const {
    const std::size_t number = mixedNumberEnd(at);
    static constexpr auto kDimensions = std::to_array<std::pair<Dimension, std::pair<Of, std::string_view>>>(
        {{Dimension::Length, {Of::Length, "mm"}},
         {Dimension::VolumeFlow, {Of::Flow, "L/min"}},
         {Dimension::Volume, {Of::Volume, "L"}},
         {Dimension::Power, {Of::Power, "W"}}});
    std::size_t last = number;
    while (is(last, Mark::Word) && last - number < 4) ++last;
    std::optional<Error> ambiguous;
    for (; last > number; --last) {
      for (const auto& [dimension, as] : kDimensions) {
        const auto si = parseQuantity(text(at, last - 1), dimension, as.second);
        if (si.has_value()) return withInches({as.first, *si, last}, at);
        if (si.error().code == ErrorCode::AmbiguousUnit && !ambiguous) ambiguous = si.error();
      }
    }
    if (ambiguous) return Error{ErrorCode::AmbiguousUnit, std::string(m_line), ambiguous->detail, {}};
    const auto bare = parseQuantity(text(at, number - 1), Dimension::None, "");
    if (!bare.has_value()) return notUnderstood("expected_number", m_tokens[at].from, m_tokens[number - 1].to);
    return Read{Of::Bare, *bare, number};
  }
  /// 4 ft 6 in, 3'6".
  Read withInches(Read read, std::size_t at) const {
    if (read.of != Of::Length || !is(read.next, Mark::Number)) return read;
    const std::string& unit = m_tokens[read.next - 1].low;
    if (unit != "ft" && unit != "foot" && unit != "feet" && unit != "'" && unit != "\u2032" && unit != "\u2019")
      return read;
    std::size_t last = mixedNumberEnd(read.next);
    if (!is(last, Mark::Word)) return read;
    const auto both = parseQuantity(text(at, last), Dimension::Length, "mm");
    return both.has_value() ? Read{Of::Length, *both, last + 1} : read;
  }
  /// Past "1 1/2" or "3/4": whole numbers with a binary part of an inch below the slash.
  std::size_t mixedNumberEnd(std::size_t at) const {
    const auto isFraction = [&](std::size_t first) {
      if (!is(first, Mark::Number) || !is(first + 1, Mark::Slash) || !is(first + 2, Mark::Number)) return false;
      static constexpr auto kBelow = std::to_array<std::string_view>({"2", "4", "8", "16", "32", "64"});
      const std::string_view above = text(first, first), below = text(first + 2, first + 2);
      const auto shorter = [](std::string_view a, std::string_view b) {
        return a.size() != b.size() ? a.size() < b.size() : a < b;
      };
      return isOneOf(kBelow, below) && std::all_of(above.begin(), above.end(), isDigit) && shorter(above, below) &&
             is(first + 3, Mark::Word) && isInchOrFoot(m_tokens[first + 3].low);
    };
    if (isFraction(at)) return at + 3;
    if (is(at + 1, Mark::Number) && isFraction(at + 1)) return at + 4;
    return at + 1;
  }
  static bool isInchOrFoot(std::string_view low) {
    static constexpr auto kUnits = std::to_array<std::string_view>(
        {"in", "inch", "inches", "\"", "''", "\u2033", "\u201D", "ft", "foot", "feet", "'", "\u2032", "\u2019"});
    return isOneOf(kUnits, low);
  }

  /// One value, or several joined by x or one slash, of which the last unit speaks for those without one.
  Result<Measure> measure(std::size_t& at) const {
    Measure read;
    read.from = m_tokens[at].from;
    std::array<Read, 3> sides;
    int count = 0;
    bool slash = false;
    std::array<std::pair<std::size_t, std::size_t>, 3> numbers;
    for (;;) {
      const auto side = value(at);
      if (!side.has_value()) return side.error();
      numbers[count] = {at, mixedNumberEnd(at)};
      sides[count++] = *side;
      at = side->next;
      const bool times = is(at, Mark::Times), over = is(at, Mark::Slash);
      if (count == 3 || !(times || over) || !is(at + 1, Mark::Number) || (count == 2 && slash) || (count == 2 && over))
        break;
      slash = over;
      ++at;
    }
    read.to = m_tokens[at - 1].to;
    read.sides = count;
    read.of = count == 1 ? sides[0].of : slash ? Of::Pair : Of::Size;
    return joined(read, sides, numbers);
  }
  Result<Measure> joined(Measure read, const std::array<Read, 3>& sides,
                         const std::array<std::pair<std::size_t, std::size_t>, 3>& numbers) const {
    const Read& last = sides[static_cast<std::size_t>(read.sides - 1)];
    if (read.sides > 1 && last.of != Of::Length && last.of != Of::Bare) return notUnderstood("expected_size", read);
    read.hasUnit = last.of != Of::Bare;
    for (int i = 0; i < read.sides; ++i) {
      const Read& side = sides[i];
      if (read.sides > 1 && side.of != Of::Length && side.of != Of::Bare) return notUnderstood("expected_size", read);
      if (side.of != Of::Bare || !read.hasUnit) {
        if (read.sides > 1 && side.of != Of::Bare && !read.hasUnit) return notUnderstood("expected_unit", read);
        read.si[i] = side.si;
        continue;
      }
      const std::string withUnit =
          std::string(text(numbers[i].first, numbers[i].second - 1)) + ' ' + std::string(unitOf(last.next - 1));
      const auto si = parseQuantity(withUnit, Dimension::Length, "mm");
      if (!si.has_value()) return notUnderstood("expected_size", read);
      read.si[i] = *si;
    }
    for (int i = 0; i < read.sides; ++i) {
      if (!std::isfinite(read.si[i]) || !(read.si[i] > 0.0)) return notUnderstood("expected_positive", read);
    }
    return read;
  }
  std::string_view unitOf(std::size_t token) const { return text(token, token); }

  using Bare = std::vector<Measure>;  ///< a number without unit, none or one: a count of what follows

  // segments -----------------------------------------------------------------------------------------------------

  /// Between two breaks. Without a thing of its own it goes on with the item before, where that lacks what it brings.
  Result<Done> segment(std::size_t at) {
    Item item;
    item.from = m_tokens[at].from;
    item.to = m_tokens[m_end - 1].to;
    Bare bare;
    while (at < m_end) {
      const Token& token = m_tokens[at];
      if (token.mark == Mark::Number) {
        Result<Measure> read = measure(at);
        if (!read.has_value()) return read.error();
        if (!bare.empty()) return notUnderstood("expected_unit", bare.front());
        if (read->of == Of::Bare) {
          bare.push_back(*read);
        } else {
          item.measures.push_back(*read);
        }
        continue;
      }
      if (token.mark != Mark::Word) return notUnderstood("expected_number", token.from, token.to);
      if (const auto taken = word(item, at, bare); !taken.has_value()) return taken.error();
      ++at;
    }
    if (!bare.empty()) return notUnderstood("expected_unit", bare.front());
    return settle(std::move(item));
  }

  Result<Done> word(Item& item, std::size_t& at, Bare& bare) {
    const Token& token = m_tokens[at];
    for (const Thing& thing : kThings) {
      if (thing.word != token.low) continue;
      // "pool pump" is a pump.
      const bool poolPump = item.kind == Kind::Pool && thing.kind == Kind::Pump && item.measures.empty();
      // Boards of foam and sheets of ply: the stuff speaks.
      const bool foamBoard = item.kind == Kind::Sheet && thing.kind == Kind::Board;
      if (item.kind && *item.kind != thing.kind && !poolPump && !foamBoard)
        return notUnderstood("expected_comma", token.from, token.to);
      if (!foamBoard) item.kind = thing.kind;
      if (thing.use && item.use && *thing.use != *item.use)
        return notUnderstood("expected_comma", token.from, token.to);
      if (thing.use) item.use = thing.use;
      return count(item, bare);
    }
    for (const auto& [name, number] : kCounts) {
      if (name != token.low) continue;
      item.count = number;
      return Done{};
    }
    if (isOneOf(kOutside, token.low) || isOneOf(kInside, token.low)) return role(item, at);
    if (isOneOf(kFillers, token.low)) return Done{};
    return notUnderstood("expected_thing", token.from, token.to);
  }
  Result<Done> count(Item& item, Bare& bare) const {
    if (bare.empty()) return Done{};
    const double number = bare.front().si[0];
    if (number != std::floor(number) || number > kMostOfOneThing) return notUnderstood("expected_count", bare.front());
    item.count = static_cast<int>(number);
    bare.clear();
    return Done{};
  }
  /// "20 mm outside", "OD 20 mm": the measure before, else the next one.
  Result<Done> role(Item& item, std::size_t& at) {
    const auto role = isOneOf(kOutside, m_tokens[at].low) ? Measure::Role::Outside : Measure::Role::Inside;
    const std::size_t named = at;
    if (is(at + 1, Mark::Word) && (m_tokens[at + 1].low == "diameter" || m_tokens[at + 1].low == "dia")) ++at;
    if (is(at + 1, Mark::Number)) {
      const bool open = !item.measures.empty() && item.measures.back().of == Of::Length &&
                        item.measures.back().role == Measure::Role::Open &&
                        item.measures.back().si[0] < kThickestTube_m;
      if (!open) {
        std::size_t next = at + 1;
        Result<Measure> read = measure(next);
        if (!read.has_value()) return read.error();
        if (read->of != Of::Length) return notUnderstood("expected_diameters", *read);
        read->role = role;
        item.measures.push_back(*read);
        at = next - 1;
        return Done{};
      }
    }
    if (item.measures.empty() || item.measures.back().of != Of::Length)
      return notUnderstood("expected_diameters", m_tokens[named].from, m_tokens[named].to);
    item.measures.back().role = role;
    return Done{};
  }

  Result<Done> settle(Item item) {
    if (!item.kind && m_item && !m_item->kind) item.kind = std::nullopt;
    if (!item.kind) item.kind = kindOf(item.measures);
    const bool goesOn = !item.kind && m_item.has_value();
    if (goesOn) {
      m_item->measures.insert(m_item->measures.end(), item.measures.begin(), item.measures.end());
      m_item->to = item.to;
      return Done{};
    }
    if (!item.kind) return notUnderstood("expected_thing", item.from, item.to);
    if (const auto taken = finish(); !taken.has_value()) return taken;
    m_item = std::move(item);
    return Done{};
  }
  static std::optional<Kind> kindOf(const std::vector<Measure>& measures) {
    const auto has = [&](Of of) {
      return std::any_of(measures.begin(), measures.end(), [&](const Measure& m) { return m.of == of; });
    };
    if (has(Of::Flow)) return Kind::Pump;
    if (has(Of::Length) && has(Of::Pair)) return Kind::Roll;
    if (measures.size() == 1 && has(Of::Size)) return Kind::Sheet;
    return std::nullopt;
  }

  // items --------------------------------------------------------------------------------------------------------

  Result<Done> finish() {
    if (!m_item) return Done{};
    const Item item = *std::exchange(m_item, std::nullopt);
    switch (*item.kind) {
      case Kind::Sheet:
        return sheet(item);
      case Kind::Roll:
        return roll(item);
      case Kind::Board:
        return board(item);
      case Kind::Pump:
        return pump(item);
      case Kind::Pool:
        return pool(item);
    }
    return Done{};
  }

  Result<Done> sheet(const Item& item) {
    propose::Have::Sheet sheet;
    sheet.use = item.use;
    sheet.count = item.count;
    bool sized = false;
    for (const Measure& m : item.measures) {
      if (m.of == Of::Size && !sized) {
        const auto sides = inMetres(m, kBareMillimetres);
        if (!sides.has_value()) return sides.error();
        sheet.width = metres((*sides)[0]);
        sheet.height = metres((*sides)[1]);
        if (m.sides == 3) sheet.thickness = metres((*sides)[2]);
        sized = true;
      } else if (m.of == Of::Length && m.si[0] < kThickestSheet_m && !sheet.thickness) {
        sheet.thickness = metres(m.si[0]);
      } else {
        return notUnderstood("expected_size", m);
      }
    }
    if (!sized) return notUnderstood("expected_size", item.from, item.to);
    m_have.sheets.push_back(sheet);
    return Done{};
  }
  /// The sides of a size without unit: millimetres when the smaller one of the first two is large enough for it.
  Result<std::array<double, 3>> inMetres(const Measure& m, double leastBare) const {
    std::array<double, 3> sides = m.si;
    if (m.hasUnit) return sides;
    if (std::min(sides[0], sides[1]) < leastBare) return notUnderstood("expected_unit", m);
    for (double& side : sides) side *= 1e-3;
    return sides;
  }

  Result<Done> roll(const Item& item) {
    propose::Have::Roll roll;
    roll.count = item.count;
    bool sized = false;
    const Measure* diameter = nullptr;
    for (const Measure& m : item.measures) {
      const bool two = m.of == Of::Pair || (m.of == Of::Size && m.sides == 2);
      if (two && !roll.outsideDiameter && !roll.insideDiameter) {
        if (const auto taken = diameters(roll, m); !taken.has_value()) return taken;
      } else if (m.of == Of::Length && m.role != Measure::Role::Open) {
        (m.role == Measure::Role::Outside ? roll.outsideDiameter : roll.insideDiameter) = metres(m.si[0]);
        diameter = &m;
      } else if (m.of == Of::Length && !sized && m.si[0] >= kThickestTube_m) {
        roll.length = metres(m.si[0]);
        sized = true;
      } else {
        return notUnderstood(m.of == Of::Length && m.si[0] < kThickestTube_m ? "expected_diameters" : "expected_length",
                             m);
      }
    }
    if (!sized) return notUnderstood("expected_length", item.from, item.to);
    if (roll.outsideDiameter.has_value() != roll.insideDiameter.has_value())
      return notUnderstood("expected_diameters", *diameter);
    if (roll.outsideDiameter && !(*roll.insideDiameter < *roll.outsideDiameter))
      return boreUnclear(*roll.insideDiameter, *roll.outsideDiameter);
    m_have.rolls.push_back(roll);
    return Done{};
  }
  Result<Done> diameters(propose::Have::Roll& roll, const Measure& m) const {
    double outside_m = m.si[0], inside_m = m.si[1];
    if (!m.hasUnit) {
      const bool inches = outside_m < kBareDiameterInches && inside_m < kBareDiameterInches;
      const bool millimetres_ = outside_m >= kBareDiameterInches && inside_m >= kBareDiameterInches;
      // "20 x 2" is a wall somewhere in the trade: both diameters have to be said.
      if (!inches && !millimetres_) return notUnderstood("expected_diameters", m);
      outside_m *= inches ? 0.0254 : 1e-3;
      inside_m *= inches ? 0.0254 : 1e-3;
    }
    if (inside_m < 0.25 * outside_m) return notUnderstood("expected_diameters", m);
    if (!(inside_m < outside_m)) return boreUnclear(metres(inside_m), metres(outside_m));
    roll.outsideDiameter = settledLength(outside_m);
    roll.insideDiameter = settledLength(inside_m);
    return Done{};
  }
  /// 16 mm is exactly the double 0.016, whichever way it was typed.
  static Length settledLength(double metres_) { return metres(std::round(metres_ * 1e9) / 1e9); }
  Error boreUnclear(Length inside, Length outside) const {
    return {ErrorCode::InsideNotBelowOutside,
            std::string(m_line),
            {},
            {{"inside", inside.si(), Dimension::Length}, {"outside", outside.si(), Dimension::Length}}};
  }

  Result<Done> board(const Item& item) {
    propose::Have::Board board;
    board.count = item.count;
    bool sized = false;
    for (const Measure& m : item.measures) {
      if (m.of == Of::Size && !board.width) {
        const auto sides = inMetres(m, kBareSection);
        if (!sides.has_value()) return sides.error();
        std::array<double, 3> sorted = *sides;
        if (m.sides == 3) {
          if (sized) return notUnderstood("expected_length", m);
          std::sort(sorted.begin(), sorted.end());
          board.length = metres(sorted[2]);
          sized = true;
        }
        board.width = metres(sorted[0]);
        board.depth = metres(sorted[1]);
      } else if (m.of == Of::Length && !sized) {
        board.length = metres(m.si[0]);
        sized = true;
      } else {
        return notUnderstood("expected_length", m);
      }
    }
    if (!sized) return notUnderstood("expected_length", item.from, item.to);
    m_have.boards.push_back(board);
    return Done{};
  }

  Result<Done> pump(const Item& item) {
    std::optional<double> flow_m3_s, head_m, power_W;
    for (const Measure& m : item.measures) {
      std::optional<double>* value = m.of == Of::Flow     ? &flow_m3_s
                                     : m.of == Of::Length ? &head_m
                                     : m.of == Of::Power  ? &power_W
                                                          : nullptr;
      if (value == nullptr || value->has_value()) return notUnderstood("expected_pump_label", m);
      *value = m.si[0];
    }
    if (!flow_m3_s || !head_m || m_have.pump) return notUnderstood("expected_pump_label", item.from, item.to);
    model::Pump pump;
    pump.name = "Pump";
    pump.labelFlow = {VolumeFlow::fromSi(*flow_m3_s), VolumeFlow::fromSi(kLabelSpread * *flow_m3_s), Sureness::Label};
    pump.labelHead = {metres(*head_m), metres(kLabelSpread * *head_m), Sureness::Label};
    pump.electricalPower = watts(power_W.value_or(0.0));
    m_have.pump = pump;
    return Done{};
  }
  Result<Done> pool(const Item& item) {
    if (item.measures.size() != 1 || item.measures.front().of != Of::Volume || m_have.pool)
      return notUnderstood("expected_volume", item.from, item.to);
    m_have.pool = Volume::fromSi(item.measures.front().si[0]);
    return Done{};
  }

  std::string_view m_line;
  std::vector<Token> m_tokens;
  std::size_t m_end = 0;  ///< of the segment that is read
  std::optional<Item> m_item;
  propose::Have m_have;
};

}  // namespace

Result<propose::Have> parseHave(std::string_view line) { return Reader(line).read(); }

}  // namespace sunspool::format
