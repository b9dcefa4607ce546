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
  return Text::tr("not planned");
}

class LineTeller {
 public:
  LineTeller(std::span<const Fact> facts, const std::string& currency, const Preferences& preferences)
      : m_facts(facts, preferences), m_preferences(preferences), m_currency(currency) {}

  QString pageOf() { return filled(Text::tr("Page %1 of %2"), Text::tr("Page"), "page", "pages"); }
  QString kerfAndSquaring() {
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

  /// Timber is cut to the millimetre, tube to the centimetre.
  static QString cutNumber(const Fact& fact, const Preferences& preferences) {
    if (fact.dimension == Dimension::Length && fact.name == "timber") {
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
        return headingOf(key);
      case TextKey::FromTheShed:
      case TextKey::Ask:
      case TextKey::NotPriced:
      case TextKey::NotPlanned:
        return cellOf(key);
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
