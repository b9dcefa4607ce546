// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/remedy_text.h"

#include <QRegularExpression>
#include <cmath>

#include "app/format/text.h"

namespace sunspool::format {
namespace {

using remedies::RemedyKind;

class Phrase {
 public:
  Phrase(const remedies::Remedy& remedy, const model::Document& document, const Preferences& preferences)
      : m_remedy(remedy), m_document(document), m_preferences(preferences) {}

  RemedyText text() const {
    switch (m_remedy.kind) {
      case RemedyKind::LargerBendRadius:
      case RemedyKind::LargerPitch:
      case RemedyKind::FewerTurns:
      case RemedyKind::InnerEndThroughBack:
      case RemedyKind::InnerEndUnder:
      case RemedyKind::LongerTail:
      case RemedyKind::MoreRuns:
      case RemedyKind::FewerRuns:
      case RemedyKind::SpreadEntries:
      case RemedyKind::OtherRecipe:
      case RemedyKind::AllowJoins:
        return laying();
      case RemedyKind::StrongerPump:
      case RemedyKind::LowerPanel:
      case RemedyKind::LowerPipes:
      case RemedyKind::ThrottleReturn:
      case RemedyKind::OpenReturn:
      case RemedyKind::SlowerPump:
      case RemedyKind::FasterPump:
        return water();
      case RemedyKind::DeeperTimber:
      case RemedyKind::ThinnerInsulation:
      case RemedyKind::ShadeCloth:
      case RemedyKind::NoGlazing:
      case RemedyKind::OtherMaterial:
      case RemedyKind::HandbookLimit:
      case RemedyKind::EnterLimit:
      case RemedyKind::HoldDown:
      case RemedyKind::EnterGust:
        return box();
      case RemedyKind::OtherTube:
      case RemedyKind::LongerRoll:
      case RemedyKind::LongerTimber:
      case RemedyKind::SmallerFrame:
      case RemedyKind::LargerSheet:
      case RemedyKind::EnterPrice:
      case RemedyKind::StilesThrough:
        return stock();
    }
    return {};
  }

 private:
  const Fact* fact(std::string_view name) const {
    for (const Fact& one : m_remedy.facts) {
      if (one.name == name) return &one;
    }
    return nullptr;
  }
  double si(std::string_view name) const {
    const Fact* found = fact(name);
    return found != nullptr ? found->value_si : 0.0;
  }
  QString drawn(std::string_view name) const {
    return number(metres(si(name)), LengthScale::Drawing, m_preferences).joined();
  }
  QString run(std::string_view name) const {
    return number(metres(si(name)), LengthScale::Run, m_preferences).joined();
  }
  QString height(std::string_view name) const {
    return number(metres(si(name)), LengthScale::Height, m_preferences).joined();
  }
  /// "90" of "90 mm", for "90 instead of 85 mm".
  QString drawnBare(std::string_view name) const {
    return number(metres(si(name)), LengthScale::Drawing, m_preferences).number;
  }
  QString share(std::string_view name) const {
    return number(Fact{{}, si(name), Dimension::Percent}, m_preferences).joined();
  }
  QString detail() const { return QString::fromStdString(m_remedy.detail); }
  int count(std::string_view name) const { return static_cast<int>(std::lround(si(name))); }

  RemedyText laying() const {
    if (is(RemedyKind::LargerBendRadius)) {
      return {Text::tr("Bend radius %1").arg(drawn("radius")), Text::tr("rounder corners, a larger bare middle")};
    }
    if (is(RemedyKind::LargerPitch)) {
      return {Text::tr("Pitch %1").arg(drawn("pitch")), Text::tr("the turns lie further apart")};
    }
    if (is(RemedyKind::FewerTurns)) {
      return {Text::tr("%1 turns").arg(si("turns")), Text::tr("the innermost are left out")};
    }
    if (is(RemedyKind::InnerEndThroughBack)) {
      return {Text::tr("Through the back"), Text::tr("a %1 hole behind the inner end").arg(drawn("hole"))};
    }
    if (is(RemedyKind::InnerEndUnder)) {
      return {Text::tr("Under the turns"), Text::tr("the turns stand %1 off the plate").arg(drawn("stand_off"))};
    }
    if (is(RemedyKind::LongerTail)) {
      return {Text::tr("Return tail %1").arg(run("tail")), Text::tr("cut with the run, from the same roll")};
    }
    if (is(RemedyKind::MoreRuns)) {
      return {Text::tr("%1 parallel runs").arg(count("runs")), Text::tr("each with connectors of its own")};
    }
    if (is(RemedyKind::FewerRuns)) {
      return count("runs") == 1
                 ? RemedyText{Text::tr("One run"), Text::tr("in place of %1").arg(m_document.laying.starts)}
                 : RemedyText{Text::tr("%1 parallel runs").arg(count("runs")),
                              Text::tr("in place of %1").arg(m_document.laying.starts)};
    }
    if (is(RemedyKind::SpreadEntries)) {
      return {Text::tr("Entries spread round"), Text::tr("each run begins at a corner of its own")};
    }
    if (is(RemedyKind::OtherRecipe)) {
      return {Text::tr("Double spiral"), Text::tr("both ends at the rim, nothing crosses")};
    }
    return {Text::tr("A join in the run"), Text::tr("one connector more, to be looked at for leaks")};
  }

  RemedyText water() const {
    if (is(RemedyKind::StrongerPump)) {
      const QString label = Text::tr("label %1, %2")
                                .arg(number(metres(si("head")), LengthScale::Height, m_preferences).joined(),
                                     number(cubicMetresPerSecond(si("flow")), m_preferences).joined());
      if (!m_remedy.detail.empty()) return {detail(), Text::tr("from the Shed; %1").arg(label)};
      return {Text::tr("A stronger pump"), Text::tr("%1 or more").arg(label)};
    }
    if (is(RemedyKind::LowerPanel)) {
      const bool below = si("height") < 0.0;
      const QString edge = number(metres(std::abs(si("height"))), LengthScale::Height, m_preferences).joined();
      return {Text::tr("Panel %1 lower").arg(height("by")),
              below ? Text::tr("its lower edge %1 below the pool's water").arg(edge)
                    : Text::tr("its lower edge %1 above the pool's water").arg(edge)};
    }
    if (is(RemedyKind::LowerPipes)) {
      return {Text::tr("Pipes at most %1 high").arg(height("height")), Text::tr("over the pool's water")};
    }
    if (is(RemedyKind::ThrottleReturn)) {
      return {Text::tr("A valve in the return"),
              Text::tr("turned down until it takes K = %1")
                  .arg(number(Fact{{}, si("loss_coefficient"), Dimension::None}, m_preferences).joined())};
    }
    if (is(RemedyKind::OpenReturn)) {
      return {Text::tr("Return into the air"), Text::tr("%1 above the water, falling in").arg(height("height"))};
    }
    return {Text::tr("Pump at %1 of its speed").arg(share("speed")), Text::tr("wants a pump whose speed can be set")};
  }

  RemedyText box() const {
    if (is(RemedyKind::DeeperTimber)) {
      return {Text::tr("Rails %1 instead of %2").arg(drawnBare("depth"), drawn("was")),
              Text::tr("other boards, a deeper box")};
    }
    if (is(RemedyKind::ThinnerInsulation)) {
      return {Text::tr("Insulation %1 instead of %2").arg(drawnBare("thickness"), drawn("was")),
              Text::tr("more heat is lost at the back")};
    }
    if (is(RemedyKind::ShadeCloth)) {
      return {Text::tr("A shade cloth"),
              Text::tr("lets %1 of the sun through, over a stopped panel").arg(share("share"))};
    }
    if (is(RemedyKind::NoGlazing)) {
      return {Text::tr("No glazing"), Text::tr("open: cooler when stopped, weaker in wind")};
    }
    if (is(RemedyKind::OtherMaterial)) {
      return {detail(), Text::tr("in place of what is there now")};
    }
    if (is(RemedyKind::HandbookLimit)) {
      const QString limit = number(Temperature::fromKelvin(si("limit")), m_preferences).joined();
      return {fact("share") != nullptr ? Text::tr("Limit %1, and a shade cloth").arg(limit)
                                       : Text::tr("Limit %1").arg(limit),
              detail()};
    }
    if (is(RemedyKind::EnterLimit)) {
      return {Text::tr("Its highest temperature"), Text::tr("as the maker of “%1” gives it").arg(detail())};
    }
    if (is(RemedyKind::HoldDown)) {
      return {Text::tr("%1 to hold it down").arg(number(kilograms(si("mass")), m_preferences).joined()),
              Text::tr("ballast or anchors, for each panel")};
    }
    return {Text::tr("The strongest gust here"), Text::tr("from the weather service or the wind standard")};
  }

  RemedyText stock() const {
    if (is(RemedyKind::OtherTube)) {
      return {detail(), Text::tr("another tube, in place of %1").arg(QString::fromStdString(m_document.tube.name))};
    }
    if (is(RemedyKind::LongerRoll)) {
      return {Text::tr("A roll of %1").arg(run("length")), Text::tr("to be bought")};
    }
    if (is(RemedyKind::LongerTimber)) {
      return {Text::tr("A board of %1").arg(run("length")), Text::tr("to be bought")};
    }
    if (is(RemedyKind::SmallerFrame)) {
      return {Text::tr("Frame %1 smaller").arg(drawn("by")),
              Text::tr("%1 × %2 outside").arg(drawnBare("width"), drawn("height"))};
    }
    if (is(RemedyKind::LargerSheet)) {
      return {Text::tr("A sheet %1 × %2").arg(drawnBare("width"), drawn("height")), Text::tr("to be bought")};
    }
    if (is(RemedyKind::StilesThrough)) {
      return m_document.frame.railsThrough
                 ? RemedyText{Text::tr("Stiles through"), Text::tr("the rails stand between them and are shorter")}
                 : RemedyText{Text::tr("Rails through"), Text::tr("the stiles stand between them and are shorter")};
    }
    {
      const qsizetype colon = detail().indexOf(QLatin1Char(':'));
      const QString name = detail().mid(colon + 1);
      const QString item = partInWords(detail().left(colon).toStdString());
      return {Text::tr("Price of the %1").arg(item), name.isEmpty()
                                                         ? Text::tr("one piece; 0 where it costs nothing")
                                                         : Text::tr("“%1”; 0 where it costs nothing").arg(name)};
    }
  }

  bool is(RemedyKind kind) const { return m_remedy.kind == kind; }

  const remedies::Remedy& m_remedy;
  const model::Document& m_document;
  const Preferences& m_preferences;
};

/// A sign before the size of it; what is nothing has both, and no decimals.
QString withSign(double value, NumberAndUnit size) {
  static const QRegularExpression anything(QStringLiteral("[1-9]")), noughts(QStringLiteral("\\.0+$"));
  if (!size.number.contains(anything)) return QChar(0x00B1) + NumberAndUnit{QStringLiteral("0"), size.unit}.joined();
  size.number.remove(noughts);
  return (value < 0.0 ? QChar(0x2212) : QChar(u'+')) + size.joined();
}

}  // namespace

RemedyText remedyText(const remedies::Remedy& remedy, const model::Document& document, const Preferences& preferences) {
  return Phrase(remedy, document, preferences).text();
}

RemedyPriceText remedyPriceText(const remedies::Price& price, const std::string& currency,
                                const Preferences& preferences) {
  RemedyPriceText text;
  // What rounds to nothing is nothing: a remedy's price is not read to the millimetre or the milliwatt.
  const double tube_m = std::abs(price.tube.si()) < 0.05 ? 0.0 : price.tube.si();
  const double heat_W = std::abs(price.heat.si()) < 0.5 ? 0.0 : std::round(price.heat.si());
  text.tube = withSign(tube_m, number(metres(std::abs(tube_m)), LengthScale::Run, preferences));
  text.heat = withSign(heat_W, number(watts(std::abs(heat_W)), preferences));
  if (price.money) {
    const double amount = std::abs(*price.money) < 0.005 ? 0.0 : *price.money;
    text.money = withSign(amount, money(std::abs(amount), currency));
  } else {
    text.money = Text::tr("not known");
  }
  const int count = std::abs(price.findings);
  if (price.findings < 0) {
    text.findings = count == 1 ? Text::tr("one finding fewer") : Text::tr("%1 findings fewer").arg(count);
  } else if (price.findings > 0) {
    text.findings = count == 1 ? Text::tr("one finding more") : Text::tr("%1 findings more").arg(count);
  }
  return text;
}

QString RemedyPriceText::joined() const {
  const QString amount = money == Text::tr("not known") ? Text::tr("price not known") : money;
  return QStringLiteral("%1, %2, %3").arg(tube, heat, amount);
}

}  // namespace sunspool::format
