// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/format/sheet_text.h"

#include <QCoreApplication>
#include <array>

#include "app/format/fact_reader.h"
#include "app/format/text.h"

namespace sunspool::format {
namespace {

using sheet::TextKey;

QString headingOf(TextKey key) {
  if (key == TextKey::CutListTitle) return Text::tr("Cut list");
  if (key == TextKey::MaterialListTitle) return Text::tr("Material list");
  if (key == TextKey::TubeHeading) return Text::tr("Tube");
  if (key == TextKey::TimberHeading) return Text::tr("Timber");
  if (key == TextKey::SheetsHeading) return Text::tr("Sheets: ");
  if (key == TextKey::HolesHeading) return Text::tr("Holes for the tube");
  if (key == TextKey::WeightHeading) return Text::tr("Weight and wind");
  if (key == TextKey::ColumnPiece) return Text::tr("Piece");
  if (key == TextKey::ColumnSize) return Text::tr("Across × up");
  if (key == TextKey::ColumnFromLeft) return Text::tr("From left");
  if (key == TextKey::ColumnFromBelow) return Text::tr("From below");
  if (key == TextKey::ColumnPart) return Text::tr("Bored in");
  if (key == TextKey::ColumnRun) return Text::tr("Run");
  if (key == TextKey::ColumnWay) return Text::tr("For");
  if (key == TextKey::ColumnAlong) return Text::tr("Along");
  if (key == TextKey::ColumnAcross) return Text::tr("Across");
  if (key == TextKey::ColumnHeight) return Text::tr("Height");
  if (key == TextKey::ColumnDiameter) return Text::tr("Drill");
  if (key == TextKey::MaterialHeading) return Text::tr("What it takes");
  if (key == TextKey::LeftOnPurposeHeading) return Text::tr("Snags left on purpose");
  if (key == TextKey::CautionsHeading) return Text::tr("Before you start");
  if (key == TextKey::ColumnNumber) return Text::tr("No.");
  if (key == TextKey::ColumnRoll) return Text::tr("Roll");
  if (key == TextKey::ColumnTimber) return Text::tr("Length");
  if (key == TextKey::ColumnRuns) return Text::tr("Runs");
  if (key == TextKey::ColumnPieces) return Text::tr("Pieces");
  if (key == TextKey::ColumnUsed) return Text::tr("Used");
  if (key == TextKey::ColumnLeft) return Text::tr("Left");
  if (key == TextKey::ColumnItem) return Text::tr("Item");
  if (key == TextKey::ColumnName) return Text::tr("Name");
  if (key == TextKey::ColumnAmount) return Text::tr("Amount");
  if (key == TextKey::ColumnStockUnits) return Text::tr("Units");
  if (key == TextKey::ColumnOwned) return Text::tr("In the Shed");
  if (key == TextKey::ColumnUnitPrice) return Text::tr("Each");
  return Text::tr("Price");
}

QString cellOf(TextKey key) {
  if (key == TextKey::FromTheShed) return Text::tr("(from the Shed)");
  if (key == TextKey::Ask) return Text::tr("ask");
  if (key == TextKey::NotPriced) return Text::tr("not priced");
  if (key == TextKey::Turned) return Text::tr("turned");
  if (key == TextKey::LargestLeft) return Text::tr("Largest piece left");
  return Text::tr("not planned");
}

class LineTeller {
 public:
  LineTeller(std::span<const Fact> facts, const std::string& currency, const Preferences& preferences)
      : m_facts(facts, preferences), m_preferences(preferences), m_currency(currency) {}

  QString pageOf() { return filled(Text::tr("Page %1 of %2"), Text::tr("Page"), "page", "pages"); }
  QString kerfAndSquaring() {
    const Fact* squaring = m_facts.find({"squaring"});
    if (squaring != nullptr && squaring->value_si == 0.0) {
      return one(Text::tr("Each cut takes %1; nothing is cut off to square the ends."),
                 Text::tr("Nothing is cut off to square the ends."), "kerf");
    }
    return filled(Text::tr("Each cut takes %1; %2 is cut off first to square the end."),
                  Text::tr("Each cut takes its kerf, and the end is squared first."), "kerf", "squaring");
  }
  QString provenFewest() {
    const QString lengths = m_facts.text({"lengths"});
    return lengths.isEmpty()
               ? Text::tr("Nothing cheaper can be bought.")
               : Text::tr("Lengths used: %1. It is proven that nothing cheaper can be bought.").arg(lengths);
  }
  QString notProven() {
    return filled(Text::tr("Lengths used: %1. It is proven only that at least %2 are needed; a better plan may exist."),
                  Text::tr("A better plan may exist."), "lengths", "at_least");
  }
  QString totalLeft() {
    const Fact* left = m_facts.find({"left", "tube", "timber"});
    return left == nullptr ? Text::tr("Nothing is known of what is left over.")
                           : Text::tr("Left over in all: %1.").arg(cutNumber(*left, m_preferences));
  }
  QString noSquaring() {
    return filled(Text::tr("Length %1 fits by only %2: measure it first, and buy it straight and with sound ends."),
                  Text::tr("One length only just fits: measure it first."), "number", "spare");
  }
  QString knownTotal() {
    const Fact* total = m_facts.find({"total"});
    return total == nullptr ? Text::tr("No total is known.")
                            : Text::tr("Sum of the known prices: %1.").arg(money(total->value_si, m_currency).joined());
  }
  QString pricesToAsk() {
    const QString count = m_facts.text({"count"});
    return count.isEmpty() ? Text::tr("Some prices are to be asked for and not in this sum.")
                           : Text::tr("Prices still to be asked for and not in this sum: %1.").arg(count);
  }
  QString forPanelsAlike() {
    const QString count = m_facts.text({"count"});
    return count.isEmpty() ? Text::tr("For all panels alike together.")
                           : Text::tr("For %1 panels alike together; holes and weight are those of one.").arg(count);
  }
  QString moreThanByLength() {
    return filled(Text::tr("By the sum of the lengths alone %2 would do, but no way to lay the pieces on fewer than %1 "
                           "exists: every one was ruled out."),
                  Text::tr("The sum of the lengths alone would allow fewer, but the pieces do not lie on them."),
                  "lengths", "by_length");
  }
  QString wouldJustFit() {
    return one(
        Text::tr("on one length they would fit by only %1, with nothing to square the end. This plan does without; "
                 "do not lay them so."),
        Text::tr("on one length they would only just fit. This plan does without; do not lay them so."), "spare");
  }
  QString joinedAt() {
    const Fact* at = m_facts.find({"at", "tube"});
    return at == nullptr ? Text::tr("joined by a connector.")
                         : Text::tr("joined by a connector %1 from its feed end.").arg(cutNumber(*at, m_preferences));
  }
  QString rollMayBeShort() {
    return filled(Text::tr("Roll %1 may turn out too short by up to %2, for its length is not sure and hand laying "
                           "wanders: measure it before you cut, and lay the longest run first."),
                  Text::tr("One roll may turn out too short: measure it before you cut."), "number", "short_by");
  }
  QString knownRange() {
    const Fact* low = m_facts.find({"low"});
    const Fact* high = m_facts.find({"high"});
    if (low == nullptr || high == nullptr) return Text::tr("How long the rolls turn out moves this sum.");
    return Text::tr("With rolls and runs at the ends of what is believed the sum lies between %1 and %2.")
        .arg(money(low->value_si, m_currency).joined(), money(high->value_si, m_currency).joined());
  }
  QString rollsRange() {
    const QString told = m_facts.clause(
        Text::tr("Rolls to buy: %2 as planned, %1 if they hold more than their label and the hand lays short, %3 if "
                 "less and long."),
        {{"low"}, {"planned"}, {"high"}});
    return told.isEmpty() ? Text::tr("One roll more or fewer may be needed.") : told;
  }
  QString manifoldTees() {
    const QString count = m_facts.text({"count"});
    return count.isEmpty()
               ? Text::tr("Some of the tees join the parallel runs, half on the feed and half on the return.")
               : Text::tr("Of the tees %1 join the parallel runs, half on the feed and half on the return.").arg(count);
  }
  QString sheetUsed() {
    const Fact* alike = m_facts.find({"alike"});
    const Fact* first = m_facts.find({"number"});
    if (alike == nullptr || first == nullptr) return Text::tr(", one sheet");
    const int number = static_cast<int>(first->value_si);
    const int count = static_cast<int>(alike->value_si);
    return count <= 1 ? Text::tr(", sheet %1").arg(number)
                      : Text::tr(", sheets %1 to %2, cut alike").arg(number).arg(number + count - 1);
  }
  QString sheetsProven() {
    const QString sheets = m_facts.text({"sheets"});
    return sheets.isEmpty() ? Text::tr("Nothing cheaper can be bought for these pieces.")
                            : Text::tr(
                                  "Sheets used: %1. It is proven that nothing cheaper can be bought for these "
                                  "pieces, cut edge to edge.")
                                  .arg(sheets);
  }
  QString sheetsNotProven() {
    return filled(Text::tr("Sheets used: %1. It is proven only that at least %2 are needed; a better plan may exist."),
                  Text::tr("A better plan for the sheets may exist."), "sheets", "at_least");
  }
  QString sheetKerf() { return one(Text::tr("Each cut takes %1."), Text::tr("Each cut takes its kerf."), "kerf"); }
  QString roomToGrow() {
    return filled(Text::tr("Smaller than its place by %1 across and %2 up, so that it can grow in the heat."),
                  Text::tr("A little smaller than its place, so that it can grow in the heat."), "width", "height");
  }
  QString madeOfLapped() {
    return filled(Text::tr("Each is made of %1 pieces that lie over one another by %2."),
                  Text::tr("Each is made of pieces that lie over one another."), "pieces", "lap");
  }
  QString madeOfButted() {
    return filled(Text::tr("Each is made of %1 pieces laid edge to edge, %2 apart."),
                  Text::tr("Each is made of pieces laid edge to edge."), "pieces", "gap");
  }
  QString holeNearEdge() {
    return filled(Text::tr("Hole %1 leaves only %2 beside it: bore it slowly from both faces, before the piece carries "
                           "load, or move the tube."),
                  Text::tr("One hole leaves little beside it: bore it slowly from both faces."), "number", "left");
  }
  QString weights() {
    return filled(Text::tr("One panel weighs about %1 empty and %2 filled."),
                  Text::tr("The weight of one panel is not known."), "dry", "wet");
  }
  QString windScreened() {
    const QString lift = m_facts.clause(
        Text::tr("At the gust that was entered the wind may pull one panel up with the weight of %1 to %2; empty it "
                 "weighs %3 itself."),
        {{"low"}, {"high"}, {"weight"}});
    const QString hold =
        m_facts.clause(Text::tr(" %1 to %2 more would have to hold it down."), {{"hold_low"}, {"hold_high"}});
    return (lift.isEmpty() ? Text::tr("The wind may pull the panel up.") : lift) + hold +
           Text::tr(" This only shows whether to worry: a qualified person has to design the fixings.");
  }
  QString overLimit(const QString& part) {
    return filled(
        Text::tr("The %1 gets too hot without the pump").arg(part) +
            Text::tr(". In the sun with the pump off it reaches %1, its limit is %2. Shade or cover the panel "
                     "whenever the pump is off."),
        Text::tr("The %1 gets too hot without the pump. Shade or cover the panel whenever the pump is off.").arg(part),
        "reached", "limit");
  }
  QString roof() {
    const QString weight = m_facts.text({"wet_mass"});
    const CautionText work = cautionText(Caution::WorkOnRoof);
    const CautionText load = cautionText(Caution::WeightOnRoof);
    QString told = Text::tr("%1. %2 %3").arg(work.title, work.text, load.text);
    if (!weight.isEmpty()) told += Text::tr(" Wet weight of this panel: %1.").arg(weight);
    return told;
  }

  /// Timber and sheets are cut to the millimetre, tube to the centimetre.
  static QString cutNumber(const Fact& fact, const Preferences& preferences) {
    const bool precise = fact.name == "timber" || fact.name == "sheet";
    if (fact.dimension == Dimension::Length && precise) {
      return number(metres(fact.value_si), LengthScale::Drawing, preferences).joined();
    }
    if (fact.dimension == Dimension::Length && fact.name == "tube") {
      // Two decimals of a metre, as heights have.
      return number(metres(fact.value_si), LengthScale::Height, preferences).joined();
    }
    return number(fact, preferences).joined();
  }

 private:
  QString filled(const QString& pattern, const QString& without, const char* first, const char* second) {
    const QString told = m_facts.clause(pattern, {{first}, {second}});
    return told.isEmpty() ? without : told;
  }

  QString one(const QString& pattern, const QString& without, const char* role) {
    const QString told = m_facts.clause(pattern, {{role}});
    return told.isEmpty() ? without : told;
  }

  FactReader m_facts;
  Preferences m_preferences;
  std::string m_currency;
};

QString standing(Caution caution) {
  const CautionText text = cautionText(caution);
  return Text::tr("%1. %2").arg(text.title, text.text);
}

}  // namespace

std::string sheetText(sheet::TextKey key, std::span<const Fact> facts, const std::string& currency,
                      const Preferences& preferences) {
  LineTeller line(facts, currency, preferences);
  const auto told = [&]() -> QString {
    switch (key) {
      case TextKey::CutListTitle:
      case TextKey::MaterialListTitle:
      case TextKey::TubeHeading:
      case TextKey::TimberHeading:
      case TextKey::MaterialHeading:
      case TextKey::LeftOnPurposeHeading:
      case TextKey::CautionsHeading:
      case TextKey::ColumnNumber:
      case TextKey::ColumnRoll:
      case TextKey::ColumnTimber:
      case TextKey::ColumnRuns:
      case TextKey::ColumnPieces:
      case TextKey::ColumnUsed:
      case TextKey::ColumnLeft:
      case TextKey::ColumnItem:
      case TextKey::ColumnName:
      case TextKey::ColumnAmount:
      case TextKey::ColumnStockUnits:
      case TextKey::ColumnOwned:
      case TextKey::ColumnUnitPrice:
      case TextKey::ColumnPrice:
      case TextKey::SheetsHeading:
      case TextKey::HolesHeading:
      case TextKey::WeightHeading:
      case TextKey::ColumnPiece:
      case TextKey::ColumnSize:
      case TextKey::ColumnFromLeft:
      case TextKey::ColumnFromBelow:
      case TextKey::ColumnPart:
      case TextKey::ColumnRun:
      case TextKey::ColumnWay:
      case TextKey::ColumnAlong:
      case TextKey::ColumnAcross:
      case TextKey::ColumnHeight:
      case TextKey::ColumnDiameter:
        return headingOf(key);
      case TextKey::FromTheShed:
      case TextKey::Ask:
      case TextKey::NotPriced:
      case TextKey::NotPlanned:
      case TextKey::Turned:
      case TextKey::LargestLeft:
        return cellOf(key);
      case TextKey::ForPanelsAlike:
        return line.forPanelsAlike();
      case TextKey::MoreThanByLength:
        return line.moreThanByLength();
      case TextKey::WouldJustFit:
        return line.wouldJustFit();
      case TextKey::JoinedAt:
        return line.joinedAt();
      case TextKey::RollMayBeShort:
        return line.rollMayBeShort();
      case TextKey::KnownRange:
        return line.knownRange();
      case TextKey::RollsRange:
        return line.rollsRange();
      case TextKey::RunMayFitNoRoll:
        return Text::tr(
            "Should the rolls hold less than believed, or the hand lay long, a run no longer lies on one roll: "
            "measure the rolls before you buy, or shorten the run.");
      case TextKey::ManifoldTees:
        return line.manifoldTees();
      case TextKey::CautionsElsewhere:
        return Text::tr("All other cautions stand on the cut list. Read them before you build and before you start.");
      case TextKey::SheetUsed:
        return line.sheetUsed();
      case TextKey::SheetsProven:
        return line.sheetsProven();
      case TextKey::SheetsNotProven:
        return line.sheetsNotProven();
      case TextKey::SheetKerf:
        return line.sheetKerf();
      case TextKey::RoomToGrow:
        return line.roomToGrow();
      case TextKey::MadeOfLapped:
        return line.madeOfLapped();
      case TextKey::MadeOfButted:
        return line.madeOfButted();
      case TextKey::BySquareMetre:
        return Text::tr("The Shed has no sheets for this, so it is counted in square metres on the material list.");
      case TextKey::HolesMeasured:
        return Text::tr(
            "Seen from the sunny side. In the frame: along from the left or lower end of the piece, height over the "
            "back of the timber, both to the middle of the hole. In a layer: along and across from the outer lower "
            "left corner of the frame.");
      case TextKey::HoleNearEdge:
        return line.holeNearEdge();
      case TextKey::Weights:
        return line.weights();
      case TextKey::WindScreened:
        return line.windScreened();
      case TextKey::WindNotScreened:
        return Text::tr(
            "Wind was not screened, for no gust was entered. A qualified person has to design the fixings all the "
            "same.");
      case TextKey::PageOf:
        return line.pageOf();
      case TextKey::KerfAndSquaring:
        return line.kerfAndSquaring();
      case TextKey::ProvenFewest:
        return line.provenFewest();
      case TextKey::NotProven:
        return line.notProven();
      case TextKey::TotalLeft:
        return line.totalLeft();
      case TextKey::NoSquaringAllowance:
        return line.noSquaring();
      case TextKey::KnownTotal:
        return line.knownTotal();
      case TextKey::PricesToAsk:
        return line.pricesToAsk();
      case TextKey::CautionMains:
        return standing(Caution::MainsNearWater);
      case TextKey::CautionScaldingFirstWater:
        return standing(Caution::FirstWaterScalds);
      case TextKey::CautionTubeOverLimit:
        return line.overLimit(Text::tr("tube"));
      case TextKey::CautionGlazingOverLimit:
        return line.overLimit(Text::tr("glazing"));
      case TextKey::CautionInsulationOverLimit:
        return line.overLimit(Text::tr("insulation"));
      case TextKey::CautionStoppedNotKnown:
        return Text::tr(
            "Heat without the pump is not known. It could not be reckoned for this panel; treat water and parts as hot "
            "enough to burn and to soften plastic.");
      case TextKey::CautionSteam:
        return standing(Caution::SteamAndClosedValves);
      case TextKey::CautionFire:
        return standing(Caution::Fire);
      case TextKey::CautionWind:
        return standing(Caution::WindLifts);
      case TextKey::CautionRoof:
        return line.roof();
      case TextKey::CautionSuction:
        return standing(Caution::SuctionCover);
      case TextKey::CautionPoolWater:
        return standing(Caution::WaterChemistry);
      case TextKey::CautionNotForDrinking:
        return standing(Caution::NotForDrinking);
      case TextKey::CautionPressureAndFreezing:
        return standing(Caution::PressureAndFreezing);
      case TextKey::CautionStandingWater:
        return standing(Caution::StandingWater);
      case TextKey::CautionElectricalParts:
        return Text::tr(
            "Electrical parts. Buy pump and thermostat only of a kind sold for use beside a pool, and keep their "
            "papers.");
      case TextKey::CautionLocalCodes:
        return standing(Caution::LocalCodes);
    }
    return {};
  };
  QString said = told();
  // A number keeps its unit when the line is broken.
  for (const Fact& fact : facts) {
    const QString number = LineTeller::cutNumber(fact, preferences);
    said.replace(number, QString(number).replace(QLatin1Char(' '), QChar(QChar::Nbsp)));
  }
  return said.toStdString();
}

QString dateText(const model::Moment& moment) {
  const std::array<QString, 12> months{Text::tr("January"), Text::tr("February"), Text::tr("March"),
                                       Text::tr("April"),   Text::tr("May"),      Text::tr("June"),
                                       Text::tr("July"),    Text::tr("August"),   Text::tr("September"),
                                       Text::tr("October"), Text::tr("November"), Text::tr("December")};
  const bool isMonth = moment.month >= 1 && moment.month <= 12;
  const QString month = isMonth ? months[static_cast<std::size_t>(moment.month - 1)] : QString::number(moment.month);
  return Text::tr("%1 %2 %3, %4")
      .arg(QString::number(moment.day), month, QString::number(moment.year), clock(moment.clock_h));
}

sheet::Texts sheetTexts(const model::Document& document, const Preferences& preferences) {
  sheet::Texts texts;
  const std::string currency = document.stock.currency;
  texts.say = [=](TextKey key, std::span<const Fact> facts) { return sheetText(key, facts, currency, preferences); };
  texts.number = [=](const Fact& fact) { return LineTeller::cutNumber(fact, preferences).toStdString(); };
  texts.money = [](double amount, const std::string& in) { return money(amount, in).joined().toStdString(); };
  texts.item = [](std::string_view item) { return partInWords(item).toStdString(); };
  // The sun the numbers hold for, not the day of printing: the same project prints the same bytes.
  texts.date = [](const model::Moment& moment) {
    return QCoreApplication::translate("sheets", "reckoned for %1").arg(dateText(moment)).toStdString();
  };
  texts.error = [=](const Error& error) { return sentence(error, preferences).toStdString(); };
  texts.snag = [document, preferences](const Snag& snag) {
    return snagText(snag, document, preferences).title.toStdString();
  };
  return texts;
}

}  // namespace sunspool::format
