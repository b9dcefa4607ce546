// SPDX-License-Identifier: GPL-3.0-or-later
#include <QStringList>

#include "app/format/fact_reader.h"
#include "app/format/format.h"
#include "app/format/text.h"

namespace sunspool::format {
namespace {

QString fromText(const std::string& text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

/// As found, on one line, short enough for a sentence.
QString quoted(const std::string& text) {
  constexpr qsizetype kLongest = 80;
  QString shown = fromText(text).simplified();
  if (shown.size() > kLongest) shown = shown.left(kLongest - 1) + QChar(0x2026);
  return Text::tr("“%1”").arg(shown);
}

class Teller {
 public:
  Teller(const Error& error, const Preferences& preferences) : m_error(error), m_facts(error.facts, preferences) {}

  QString tell() {
    QString told = body();
    const QString rest = m_facts.rest();
    if (!rest.isEmpty()) told += Text::tr(" (%1)").arg(rest);
    told += QLatin1Char('.');
    told[0] = told[0].toUpper();
    return told;
  }

 private:
  /// A found clause may be missing; then its colon is too.
  static QString with(const QString& what, const QString& found, const QString& advice) {
    const QString told = found.isEmpty() ? what : Text::tr("%1: %2").arg(what, found);
    return Text::tr("%1; %2").arg(told, advice);
  }
  bool is(ErrorCode code) const { return m_error.code == code; }
  QString file() const { return m_error.where.empty() ? Text::tr("The file") : quoted(m_error.where); }
  QString place() const {
    const QString words = placeInWords(m_error.where);
    return words.isEmpty() ? Text::tr("the project") : Text::tr("the %1").arg(words);
  }
  QString because() const { return m_error.detail.empty() ? QString() : fromText(m_error.detail).simplified(); }
  bool hasDetail() const { return !m_error.detail.empty(); }

  QString body() {
    switch (m_error.code) {
      case ErrorCode::FileNotFound:
        return Text::tr("%1 is not there; look at the name, or choose another file").arg(file());
      case ErrorCode::FileUnreadable:
        return with(Text::tr("%1 could not be read").arg(file()), because(),
                    Text::tr("see whether you are allowed to read it, or choose another file"));
      case ErrorCode::NotARegularFile:
        return Text::tr("%1 is a folder or a device and not an ordinary file; choose a file name of its own")
            .arg(file());
      case ErrorCode::FolderMissing:
        return Text::tr("the folder of %1 is not there; make the folder first, or choose another place").arg(file());
      case ErrorCode::FolderReadOnly:
        return Text::tr(
                   "%1 was not written, for its folder allows no writing; choose another folder, the design stays "
                   "open and unsaved")
            .arg(file());
      case ErrorCode::DiskFull:
        return Text::tr(
                   "%1 was not written, for the disk is full; free some room and save again, the file on the disk is "
                   "as it was and the design stays open and unsaved")
            .arg(file());
      case ErrorCode::WriteFailed:
        return with(Text::tr("%1 was not written").arg(file()), because(),
                    Text::tr("choose another place and save again, the design stays open and unsaved"));
      case ErrorCode::NotAProject:
      case ErrorCode::DamagedText:
      case ErrorCode::NewerVersion:
      case ErrorCode::MissingKey:
      case ErrorCode::WrongType:
      case ErrorCode::OutOfRange:
      case ErrorCode::UnknownWord:
      case ErrorCode::DuplicateKey:
        return projectText();
      case ErrorCode::InsideNotBelowOutside:
      case ErrorCode::LowerNotBelowUpper:
      case ErrorCode::PumpLabelImpossible:
      case ErrorCode::PumpCurveRises:
        return model();
      case ErrorCode::OutlineTooFewCorners:
      case ErrorCode::OutlineCrossesItself:
      case ErrorCode::OutlineNoArea:
        return outline();
      case ErrorCode::PitchBelowDiameter:
      case ErrorCode::RegionTooNarrow:
      case ErrorCode::CannotBendPlain:
      case ErrorCode::CannotBendBulbs:
      case ErrorCode::NoRunFits:
      case ErrorCode::KeepOutInTheWay:
      case ErrorCode::KeepOutOverExit:
      case ErrorCode::TurnsDoNotFit:
      case ErrorCode::TooMuchTube:
      case ErrorCode::CrossingHasNoPlace:
        return laying();
      case ErrorCode::NotConverged:
      case ErrorCode::NotFinite:
      case ErrorCode::PumpNeverStarts:
      case ErrorCode::NoFlow:
      case ErrorCode::DateImpossible:
      case ErrorCode::SunNeverRises:
      case ErrorCode::PieceLongerThanStock:
      case ErrorCode::NoStock:
      case ErrorCode::SheetSmallerThanLap:
      case ErrorCode::RollTooShort:
        return reckoning();
      case ErrorCode::BadNumber:
      case ErrorCode::BadUnit:
      case ErrorCode::AmbiguousUnit:
      case ErrorCode::UnknownTopic:
      case ErrorCode::NotUnderstood:
      case ErrorCode::RemedyGone:
      case ErrorCode::FileHeld:
      case ErrorCode::BadUsage:
      case ErrorCode::RenderFailed:
        return edge();
    }
    return {};
  }

  QString projectText() {
    if (is(ErrorCode::NotAProject))
      return with(Text::tr("this file is not a Sunspool project"),
                  hasDetail() ? Text::tr("its format says %1").arg(quoted(m_error.detail)) : QString(),
                  Text::tr("choose a file whose name ends in .sunspool"));
    if (is(ErrorCode::DamagedText)) {
      const QString at = m_facts.clause(Text::tr("line %1, column %2"), {{"line"}, {"column"}});
      const QString found = hasDetail() ? Text::tr("%1 stands there").arg(quoted(m_error.detail)) : QString();
      const QString where = at.isEmpty() ? place() : at;
      return with(Text::tr("the text of the project is damaged at %1").arg(where), found,
                  Text::tr("mend that place in a text editor, or open an older copy"));
    }
    if (is(ErrorCode::NewerVersion))
      return with(Text::tr("this project was written by a newer version of the program"),
                  m_facts.clause(Text::tr("its format is number %1, this program knows up to %2"),
                                 {{"version"}, {"newest_known"}}),
                  Text::tr("the file was left as it is, open it with the newer program"));
    if (is(ErrorCode::MissingKey))
      return Text::tr("%1 lacks the entry %2; add it to the file").arg(place(), quoted(m_error.detail));
    if (is(ErrorCode::WrongType))
      return Text::tr("%1 holds %2 where %3 is expected; put that in its place")
          .arg(place(), hasDetail() ? quoted(m_error.detail) : Text::tr("something else"), expected());
    if (is(ErrorCode::OutOfRange)) return outOfRange();
    if (is(ErrorCode::UnknownWord))
      return with(Text::tr("%1 says %2, a word that means nothing there").arg(place(), quoted(m_error.detail)),
                  allowed(), Text::tr("use a known word"));
    return Text::tr("%1 stands twice in %2; keep one of them").arg(quoted(m_error.detail), place());
  }
  QString expected() {
    for (const Fact& fact : m_error.facts) {
      if (!fact.name.starts_with("expected_")) continue;
      m_facts.use(fact.name);
      if (fact.name == "expected_number") return Text::tr("a number");
      if (fact.name == "expected_whole_number") return Text::tr("a whole number");
      if (fact.name == "expected_text") return Text::tr("a text in quotes");
      if (fact.name == "expected_object") return Text::tr("a group of entries in braces");
      if (fact.name == "expected_list") return Text::tr("a list in brackets");
      if (fact.name == "expected_true_or_false") return Text::tr("true or false");
    }
    return Text::tr("another kind of value");
  }
  QString allowed() {
    QStringList words;
    for (const Fact& fact : m_error.facts) {
      if (fact.dimension != Dimension::None) continue;
      m_facts.use(fact.name);
      words << fromText(fact.name);
    }
    return words.isEmpty() ? QString() : Text::tr("known are %1").arg(words.join(Text::tr(", ")));
  }
  QString outOfRange() {
    const QString subject = place();
    QString found =
        m_facts.text({"value", "found", "temperature", "radius", "pressure", "duration", "dimension_ratio"});
    if (found.isEmpty() && hasDetail()) found = quoted(m_error.detail);
    QString told =
        found.isEmpty() ? Text::tr("%1 is out of its range").arg(subject) : Text::tr("%1 is %2").arg(subject, found);
    const QString between =
        m_facts.clause(Text::tr("it must lie between %1 and %2"), {{"low", "lowest"}, {"high", "highest"}});
    const QString most = m_facts.clause(Text::tr("it may be %1 at most"), {{"high", "highest"}});
    const QString least = m_facts.clause(Text::tr("it must be %1 at least"), {{"low", "lowest"}});
    const QString expected = !between.isEmpty() ? between : !most.isEmpty() ? most : least;
    return Text::tr("%1; %2").arg(told, expected.isEmpty() ? Text::tr("enter a value that a thing of timber, tube and "
                                                                      "water can have")
                                                           : expected);
  }

  QString model() {
    if (is(ErrorCode::InsideNotBelowOutside))
      return with(Text::tr("the inside diameter of the tube is not below its outside diameter"),
                  m_facts.clause(Text::tr("%1 inside, %2 outside"),
                                 {{"inside", "inside_diameter"}, {"outside", "outside_diameter"}}),
                  Text::tr("tell which of the two numbers is the bore"));
    if (is(ErrorCode::LowerNotBelowUpper))
      return with(Text::tr("of %1 the lower end is not below the upper one").arg(place()),
                  m_facts.clause(Text::tr("%1 and %2"), {{"lower", "low"}, {"upper", "high"}}),
                  Text::tr("swap them or correct one"));
    if (is(ErrorCode::PumpLabelImpossible)) return pumpLabel();
    {
      const Fact* point = m_facts.find({"point"});
      m_facts.use("point");
      return with(Text::tr("the measured points of the pump do not fall from each to the next"),
                  point == nullptr ? QString() : Text::tr("see point %1").arg(static_cast<int>(point->value_si) + 1),
                  Text::tr("give at least two, the flow rising and the head falling"));
    }
  }
  QString pumpLabel() {
    const QString most =
        m_facts.clause(Text::tr("such a label puts up to %1 into the water but the pump draws only %2"),
                       {{"most_power"}, {"electrical_power"}});
    const QString label =
        m_facts.clause(Text::tr("%1 at no lift and %2 at no flow"), {{"flow", "label_flow"}, {"head", "label_head"}});
    QStringList found;
    if (!label.isEmpty()) found << label;
    if (!most.isEmpty()) found << most;
    return with(Text::tr("the label of the pump cannot be right"), found.join(Text::tr(", ")),
                Text::tr("read the flow, the lift and the watts from the label again, all above nothing"));
  }

  QString outline() {
    if (is(ErrorCode::OutlineTooFewCorners)) {
      const QString found = m_facts.clause(Text::tr("it has %1"), {{"corners"}});
      return with(Text::tr("%1 has too few corners").arg(place()), found, Text::tr("give it three or more"));
    }
    if (is(ErrorCode::OutlineCrossesItself))
      return with(Text::tr("%1 crosses itself").arg(place()), m_facts.clause(Text::tr("at x %1, y %2"), {{"x"}, {"y"}}),
                  Text::tr("move a corner so that no two sides cross"));
    return Text::tr("%1 encloses no area, its corners lie on one line; move one of them").arg(place());
  }

  QString laying() {
    if (is(ErrorCode::PitchBelowDiameter))
      return with(Text::tr("the pitch is smaller than the tube is thick"),
                  m_facts.clause(Text::tr("pitch %1, outside diameter %2"),
                                 {{"pitch"}, {"outside_diameter", "diameter", "needed"}}),
                  Text::tr("make the pitch at least the outside diameter"));
    if (is(ErrorCode::RegionTooNarrow))
      return with(Text::tr("the frame is too narrow for a bend of this radius"),
                  m_facts.clause(Text::tr("there is %1, a turn needs %2"), {{"width", "found"}, {"needed"}}),
                  Text::tr("widen the frame, or allow a smaller bend radius or margin"));
    if (is(ErrorCode::CannotBendPlain)) return cannotBendPlain();
    if (is(ErrorCode::CannotBendBulbs)) return cannotBendBulbs();
    if (is(ErrorCode::NoRunFits))
      return with(
          Text::tr("no run fits into this frame"),
          m_facts.clause(Text::tr("there is %1, the run needs %2"), {{"width", "available", "found"}, {"needed"}}),
          Text::tr("widen the frame, or reduce the pitch, the margin or the number of runs"));
    if (is(ErrorCode::KeepOutInTheWay))
      return with(
          keepOutName(Text::tr("a keep-out lies where tube must go"), Text::tr("the keep-out %1 lies where tube "
                                                                               "must go")),
          m_facts.clause(Text::tr("at x %1, y %2"), {{"x"}, {"y"}}),
          Text::tr("move it, make it smaller, or lay fewer turns"));
    if (is(ErrorCode::KeepOutOverExit))
      return with(keepOutName(Text::tr("a keep-out lies over the place where tube passes the frame"),
                              Text::tr("the keep-out %1 lies over the place where tube passes the frame")),
                  m_facts.clause(Text::tr("at x %1, y %2"), {{"x"}, {"y"}}), Text::tr("move the keep-out or the exit"));
    if (is(ErrorCode::TurnsDoNotFit)) return turns();
    if (is(ErrorCode::TooMuchTube))
      return with(
          Text::tr("this would be more tube than the program lays in one panel"),
          m_facts.clause(Text::tr("%1, at most %2"), {{"length", "found", "asked"}, {"most", "highest", "limit"}}),
          Text::tr("make the frame smaller or the pitch larger"));
    return noPlace();
  }
  QString noPlace() {
    const QString standOff =
        m_facts.clause(Text::tr("they stand off by %1, the tube below them takes %2"), {{"stand_off"}, {"needed"}});
    if (!standOff.isEmpty())
      return with(
          Text::tr("the inner end cannot leave under turns that lie so near the plate"), standOff,
          Text::tr("stand the turns off by the outside diameter, or take the end over them or through the back"));
    const QString shift = m_facts.clause(Text::tr("it is moved along by %1"), {{"shift"}});
    if (!shift.isEmpty())
      return with(m_error.where == "feed" ? Text::tr("the feed finds no place where it was moved to")
                                          : Text::tr("the return finds no place where it was moved to"),
                  shift, Text::tr("move it back to where its tube lies straight"));
    return with(
        Text::tr("the crossing finds no place"),
        m_facts.clause(Text::tr("there is %1, its ramps need %2"), {{"room", "available", "found"}, {"needed"}}),
        Text::tr("move the return along, take it through the back, or lay fewer turns"));
  }
  QString keepOutName(const QString& unnamed, const QString& named) const {
    return hasDetail() ? named.arg(quoted(m_error.detail)) : unnamed;
  }
  QString cannotBendPlain() {
    const QString can =
        m_facts.clause(Text::tr("it needs a pitch of %1, or %2 with bulb turns"), {{"plain_pitch"}, {"bulb_pitch"}});
    const QString pitch = m_facts.clause(Text::tr("a plain serpentine of %1 pitch cannot be bent"), {{"pitch"}});
    const QString holds = m_facts.clause(
        Text::tr("a spiral of the same box and pitch holds %1 of tube, the serpentine at the plain pitch %2"),
        {{"spiral_length"}, {"serpentine_length"}});
    return with(pitch.isEmpty() ? Text::tr("a plain serpentine of this pitch cannot be bent") : pitch, can,
                holds.isEmpty() ? Text::tr("choose that pitch, or lay a spiral") : holds);
  }
  QString cannotBendBulbs() {
    const QString can = m_facts.clause(Text::tr("they touch at %1 and lie as far apart as asked at %2"),
                                       {{"least_pitch"}, {"bulb_pitch"}});
    const QString pitch = m_facts.clause(Text::tr("bulb turns find no room between passes of %1 pitch"), {{"pitch"}});
    const QString holds = m_facts.clause(
        Text::tr("a spiral of the same box and pitch holds %1 of tube, the serpentine with bulb turns %2"),
        {{"spiral_length"}, {"serpentine_length"}});
    return with(pitch.isEmpty() ? Text::tr("bulb turns find no room between passes so close") : pitch, can,
                holds.isEmpty() ? Text::tr("choose that pitch, or lay a spiral") : holds);
  }
  QString turns() {
    const QString legs =
        m_facts.clause(Text::tr("the bends take %1 of a side of %2"), {{"tangent_length"}, {"leg_length"}});
    const QString count = m_facts.clause(Text::tr("%1 asked, %2 at most"), {{"asked"}, {"most"}});
    m_facts.use("corner");
    m_facts.use("least");
    return with(Text::tr("so many turns do not fit"), count.isEmpty() ? legs : count,
                Text::tr("lay fewer turns, or reduce the pitch or the bend radius"));
  }

  QString reckoning() {
    if (is(ErrorCode::NotConverged))
      return with(Text::tr("the reckoning of %1 did not settle, so its result is not shown").arg(place()), because(),
                  Text::tr("change the value you changed last a little"));
    if (is(ErrorCode::NotFinite))
      return Text::tr(
                 "the reckoning of %1 gave no number, so its result is not shown; look for a value there that is "
                 "far from what a thing of timber, tube and water can have")
          .arg(place());
    if (is(ErrorCode::PumpNeverStarts))
      return with(Text::tr("the pump cannot lift the water over the top, so nothing flows"),
                  m_facts.clause(Text::tr("the lift to start is %1, the pump reaches %2"),
                                 {{"starting_lift", "lift"}, {"shut_off_head", "head"}}),
                  Text::tr("lower the panel or take a pump with more head"));
    if (is(ErrorCode::NoFlow))
      return Text::tr("no water flows through %1, so there is nothing to warm; give the pump a flow and a head")
          .arg(m_error.where == "pump" || m_error.where.empty() ? Text::tr("the panel") : place());
    if (is(ErrorCode::DateImpossible)) return dateImpossible();
    if (is(ErrorCode::SunNeverRises))
      return Text::tr("the sun does not rise at this place on this day; choose another day or place");
    if (is(ErrorCode::PieceLongerThanStock))
      return with(Text::tr("%1 is longer than any length in stock").arg(piece()),
                  m_facts.clause(Text::tr("it needs %1, the longest is %2"), {{"piece", "needed"}, {"longest"}}),
                  Text::tr("add a longer one to the stock, or shorten the piece"));
    if (is(ErrorCode::SheetSmallerThanLap))
      return with(Text::tr("no sheet is wide enough for %1 with its laps").arg(piece()),
                  m_facts.clause(Text::tr("the sheet has %1, the lap takes %2"), {{"sheet"}, {"lap"}}),
                  Text::tr("take a larger sheet or a smaller lap"));
    if (is(ErrorCode::RollTooShort))
      return with(hasDetail() ? Text::tr("the roll %1 is too short for one turn").arg(quoted(m_error.detail))
                              : Text::tr("the roll is too short for one turn"),
                  m_facts.clause(Text::tr("turn and tails take %1, the roll holds %2"), {{"needed"}, {"length"}}),
                  Text::tr("take a longer roll, or shorten the tails"));
    return with(Text::tr("there is not enough stock to cut from"),
                m_facts.clause(Text::tr("%1 needed, %2 there"), {{"needed", "wanted"}, {"owned", "available"}}),
                Text::tr("add rolls or timber lengths to the stock"));
  }
  /// Of a line of what somebody has: the part, and what was looked for there.
  QString notUnderstood() {
    const auto expected = [this](const char* what) {
      const bool there = m_facts.find({what}) != nullptr;
      if (there) m_facts.use(what);
      return there;
    };
    const QString part = quoted(m_error.detail);
    if (expected("expected_sheet_or_roll"))
      return Text::tr(
          "a sheet or a roll of tube is needed to start from; write it like “sheet 1.2 x 2.4 m, roll 100 m of "
          "20/16”");
    if (expected("expected_anything") || m_error.detail.empty())
      return Text::tr("nothing was said yet; write it like “sheet 1.2 x 2.4 m, roll 100 m of 20/16”");
    if (expected("expected_unit")) return Text::tr("%1 lacks its unit; write m, mm, ft or in behind it").arg(part);
    if (expected("expected_size"))
      return Text::tr("%1 does not tell the size of a sheet; write it like 1.2 x 2.4 m or 4 x 8 ft").arg(part);
    if (expected("expected_diameters"))
      return Text::tr(
                 "%1 does not tell both diameters of the tube; write outside and inside, like 20/16 mm or 0.700/0.600 "
                 "in")
          .arg(part);
    if (expected("expected_length"))
      return Text::tr("%1 does not tell how long it is; write it like 100 m or 250 ft").arg(part);
    if (expected("expected_pump_label"))
      return Text::tr(
                 "%1 does not tell both numbers of a pump’s label, flow and lift; write it like “pump 20 L/min 2.5 m”")
          .arg(part);
    if (expected("expected_volume"))
      return Text::tr("%1 does not tell how much water the pool holds; write it like “pool 9 m3” or “pool 2400 US gal”")
          .arg(part);
    if (expected("expected_count"))
      return Text::tr("%1 is no number of pieces; write a whole number up to 1000").arg(part);
    if (expected("expected_comma"))
      return Text::tr("%1 begins another thing; put a comma before it and its numbers").arg(part);
    if (expected("expected_positive"))
      return Text::tr("%1 has a side of no length; write a number above zero").arg(part);
    if (expected("expected_number")) return Text::tr("%1 cannot be read here; write a number with its unit").arg(part);
    if (expected("expected_thing"))
      return Text::tr(
                 "%1 was not understood; name a sheet, a roll, boards, a pump or a pool, like “sheet 1.2 x 2.4 m, "
                 "roll 100 m of 20/16”")
          .arg(part);
    return Text::tr("%1 was not understood in %2; write it like “sheet 1.2 x 2.4 m, roll 100 m of 20/16”")
        .arg(part, quoted(m_error.where));
  }
  QString piece() const {
    if (hasDetail()) return Text::tr("the piece %1").arg(quoted(m_error.detail));
    return m_error.where.empty() ? Text::tr("one piece") : Text::tr("a piece of %1").arg(partInWords(m_error.where));
  }
  QString dateImpossible() {
    QString date = hasDetail() ? quoted(m_error.detail) : QString();
    const Fact* year = m_facts.find({"year"});
    const Fact* month = m_facts.find({"month"});
    const Fact* day = m_facts.find({"day"});
    for (const std::string_view role : {"year", "month", "day", "clock"}) m_facts.use(role);
    if (year != nullptr && month != nullptr && day != nullptr) {
      const auto part = [](const Fact* fact, int width) {
        return QStringLiteral("%1").arg(static_cast<int>(fact->value_si), width, 10, QLatin1Char('0'));
      };
      date = Text::tr("“%1”").arg(part(year, 4) + QLatin1Char('-') + part(month, 2) + QLatin1Char('-') + part(day, 2));
    }
    QString years = Text::tr("enter a day of the calendar");
    const Fact* first = m_facts.find({"first_year"});
    const Fact* last = m_facts.find({"last_year"});
    if (first != nullptr && last != nullptr) {
      m_facts.use("first_year");
      m_facts.use("last_year");
      years = Text::tr("enter a day of the calendar between %1 and %2")
                  .arg(static_cast<int>(first->value_si))
                  .arg(static_cast<int>(last->value_si));
    }
    return with(Text::tr("there is no such day or hour"), date, years);
  }

  QString edge() {
    if (is(ErrorCode::BadNumber)) {
      if (m_error.where.empty() && !hasDetail())
        return Text::tr("nothing was entered; enter a number, such as 26 or 12,5 mm");
      const QString part = hasDetail() && m_error.detail != m_error.where
                               ? Text::tr("%1 was not understood").arg(quoted(m_error.detail))
                               : QString();
      return with(Text::tr("%1 cannot be read as one number")
                      .arg(quoted(m_error.where.empty() ? m_error.detail : m_error.where)),
                  part, Text::tr("write it like 26, 12,5 mm, 1 3/16 in or 3*40 mm, without marks between thousands"));
    }
    if (is(ErrorCode::BadUnit))
      return Text::tr(
                 "%1 in %2 is no unit of what is asked for here; use one of the kind that stands beside the number")
          .arg(quoted(m_error.detail), quoted(m_error.where));
    if (is(ErrorCode::AmbiguousUnit))
      return Text::tr("%1 may mean a US gallon of 3.785 L or an imperial one of 4.546 L; write “US gal” or “imp gal”")
          .arg(quoted(m_error.detail));
    if (is(ErrorCode::NotUnderstood)) return notUnderstood();
    if (is(ErrorCode::RemedyGone))
      return Text::tr(
          "this remedy no longer applies, for the design has changed since it was shown; look at the finding again");
    if (is(ErrorCode::FileHeld))
      return Text::tr(
                 "%1 is open in another window, held by %2; it is shown here for reading only, save it under another "
                 "name to work on it")
          .arg(file(), hasDetail() ? quoted(m_error.detail) : Text::tr("somebody"));
    if (is(ErrorCode::UnknownTopic))
      return Text::tr("there is no topic %1; “sunspool calc --list” names all there are")
          .arg(quoted(m_error.where.empty() ? m_error.detail : m_error.where));
    if (is(ErrorCode::BadUsage))
      return with(Text::tr("the command was not understood"),
                  hasDetail()             ? quoted(m_error.detail)
                  : m_error.where.empty() ? QString()
                                          : quoted(m_error.where),
                  Text::tr("“sunspool --help” shows how to write it"));
    return with(Text::tr("the sheet %1 could not be drawn")
                    .arg(m_error.where.empty() ? QString() : quoted(m_error.where))
                    .simplified(),
                because(), Text::tr("nothing was written, try again with less on the page or another paper"));
  }

  const Error& m_error;
  FactReader m_facts;
};

}  // namespace

QString sentence(const Error& error, const Preferences& preferences) { return Teller(error, preferences).tell(); }

}  // namespace sunspool::format
