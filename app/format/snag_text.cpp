// SPDX-License-Identifier: GPL-3.0-or-later
#include <QStringList>

#include "app/format/fact_reader.h"
#include "app/format/format.h"
#include "app/format/text.h"

namespace sunspool::format {
namespace {

/// The texts of one code. `found` takes the place as %1; `both` measured and limit, `one` what was measured alone.
struct Words {
  QString found, both, one, why, costs;
};

Words bendWords(SnagCode code) {
  const QString both = Text::tr("radius %1, on paper such a tube collapses at %2");
  const QString one = Text::tr("radius %1");
  const QString why = Text::tr(
      "Bent tube goes oval: by two ninths of the square of the index, which is the radius of collapse divided by the "
      "radius laid. The radius of collapse is taken on the thinnest wall, or from a bend test on an offcut");
  if (code == SnagCode::BendCollapses) {
    return {Text::tr("The bend %1 folds flat"), both, one, why,
            Text::tr("A folded tube lets next to no water through and cannot be bent back; the run is lost")};
  }
  if (code == SnagCode::BendLikelyToFlatten) {
    return {Text::tr("The bend %1 is likely to flatten"), both, one, why,
            Text::tr("A flattened bend slows its run and folds on the first hot day")};
  }
  return {Text::tr("The bend %1 comes close to flattening"), both, one, why,
          Text::tr("Warm tube and a hurried hand may take it over; bend an offcut first and measure")};
}

Words roomWords(SnagCode code) {
  if (code == SnagCode::BendStrainHigh) {
    return {Text::tr("The wall of the bend %1 is stretched far"), Text::tr("strain %1, at most %2"),
            Text::tr("strain %1"),
            Text::tr("The outer side of a bend is stretched by the outside diameter over twice the radius"),
            Text::tr("Plastic held under such a strain creeps and cracks with the years")};
  }
  if (code == SnagCode::TubesTouch) {
    return {Text::tr("Tubes touch %1"), Text::tr("gap %1, wanted %2"), Text::tr("gap %1"),
            Text::tr("The gap is the distance between neighbouring centre lines less the outside diameter"),
            Text::tr("Tube grows in the sun and has nowhere to go, ties find no room, and a hand cannot lay it so")};
  }
  if (code == SnagCode::TubesTooClose) {
    return {Text::tr("Tubes lie close %1"), Text::tr("gap %1, wanted %2"), Text::tr("gap %1"),
            Text::tr("The gap is the distance between neighbouring centre lines less the outside diameter"),
            Text::tr("Growth on a hot day or an uneven hand may close the gap")};
  }
  if (code == SnagCode::CrossingTouchesGlazing) {
    return {Text::tr("The crossing %1 has too little depth under the glazing"), Text::tr("%1 needed, %2 there"),
            Text::tr("%1 needed"), Text::tr("The layers from the back, one upon the other, with the crossing on top"),
            Text::tr("The tube presses the glazing up, rubs it and lets rain and wind in")};
  }
  if (code == SnagCode::TubeUnsupportedDepth) {
    return {Text::tr("The frame has too little depth for its layers"), Text::tr("%1 needed, %2 there"),
            Text::tr("%1 needed"), Text::tr("The layers from the back, one upon the other"),
            Text::tr("The glazing will not lie on its frame")};
  }
  if (code == SnagCode::TailTooShort) {
    return {Text::tr("The return tail is too short to leave the frame, %1"), Text::tr("%1 given, %2 needed"),
            Text::tr("%1 given"), Text::tr("The way from the inner end of the turns to the outside of the frame"),
            Text::tr("The run ends inside the box and needs a join there")};
  }
  return {};
}

Words pumpWords(SnagCode code) {
  if (code == SnagCode::PumpNeverStarts) {
    return {Text::tr("The pump cannot lift the water over the top"), Text::tr("lift to start %1, the pump reaches %2"),
            Text::tr("lift to start %1"),
            Text::tr("Until the way is full of water, the pump must lift it from the pool to the highest point alone"),
            Text::tr("Nothing flows and nothing is warmed")};
  }
  if (code == SnagCode::PumpBarelyStarts) {
    return {Text::tr("The pump only just lifts the water over the top"),
            Text::tr("lift to start %1, the pump reaches %2"), Text::tr("lift to start %1"),
            Text::tr("Labels of pumps are commonly off by a tenth and more"),
            Text::tr("With a worn pump or a low pool the panel stays dry")};
  }
  if (code == SnagCode::NearVapourPressure) {
    return {Text::tr("Water comes close to boiling under suction %1"),
            Text::tr("%1 over vacuum, vapour of this water has %2"), Text::tr("%1 over vacuum"),
            Text::tr("High up in a way that ends under water the pressure falls below that of the air"),
            Text::tr("Bubbles gather at the top, the water column breaks and the flow stops")};
  }
  if (code == SnagCode::HoseCollapsesWhenHot) {
    return {Text::tr("Hot tube may be sucked flat %1"), Text::tr("suction %1, a long round tube holds %2"),
            Text::tr("suction %1"),
            Text::tr("Warm plastic is soft; the pressure that flattens a thin ring is set against the suction with a "
                     "factor for ovality and creep"),
            Text::tr("A flat tube passes no water and often stays flat")};
  }
  if (code == SnagCode::PressureBelowAir) {
    return {Text::tr("The pressure in the tube is below that of the air %1"), Text::tr("lowest %1 against the air"),
            Text::tr("lowest %1 against the air"),
            Text::tr("The tube lies higher than its water line, so it hangs on the siphon"),
            Text::tr("Every leaky joint draws air, and air gathers at the top")};
  }
  if (code == SnagCode::FlowInTransition) {
    return {Text::tr("The flow %1 is neither smooth nor turbulent"), Text::tr("%1 of %2 lie between"),
            Text::tr("%1 lie between"),
            Text::tr("Between the two the friction may be that of either; the answer is a band and not a line"),
            Text::tr("Flow and warmth may differ from day to day within the ranges shown")};
  }
  if (code == SnagCode::VelocityHigh) {
    return {Text::tr("The water %1 runs fast"), Text::tr("%1, commonly at most %2"), Text::tr("%1"),
            Text::tr("Fast water costs lift and strikes when a valve shuts"),
            Text::tr("Pump power goes into friction, and joints are shaken")};
  }
  if (code == SnagCode::VelocityLowForAir) {
    return {Text::tr("The water %1 is too slow to carry air out"), Text::tr("%1, bubbles leave from %2 on"),
            Text::tr("%1"), Text::tr("Water takes bubbles down with it only above a speed that grows with the bore"),
            Text::tr("Air stays at the top of the turns; bleed the run by hand, or fill it at a higher flow")};
  }
  if (code == SnagCode::RunsUnequal) {
    return {Text::tr("The runs share the water unequally"), Text::tr("they differ by %1, wanted below %2"),
            Text::tr("they differ by %1"), Text::tr("Largest less smallest flow over the mean of all runs"),
            Text::tr("The slow run grows warmer and gives less to the pool")};
  }
  return {};
}

Words overLimitWords(const QString& part) {
  return {Text::tr("With the pump stopped, the %1 gets hotter than it may").arg(part),
          Text::tr("%1 dry, its limit is %2"), Text::tr("%1 dry"),
          Text::tr("Sun that no water carries away heats the box until it loses as much as it takes up"),
          Text::tr("The material sags, grows brittle or lets go of its shape on one hot day without the pump")};
}

Words stoppedWords(SnagCode code, const QString& part) {
  if (code == SnagCode::WaterBoilsWhenStopped) {
    return {Text::tr("Water standing in the panel boils when the pump stops"), Text::tr("it boils at %1"),
            Text::tr("it boils at %1"),
            Text::tr("Boiling is reckoned at the pressure of the air here and the water above"),
            Text::tr("Steam empties the tube and spits from the return; two closed valves make a pressure vessel, so a "
                     "vented way must stay open")};
  }
  if (code == SnagCode::FirstSlugScalds) {
    return {Text::tr("After a stop the first water scalds"), Text::tr("%1, skin is burnt within minutes from %2 on"),
            Text::tr("%1"), Text::tr("Water that stood in the sun leaves first when the pump starts again"),
            Text::tr("Keep people, children first, away from the return until it runs cool")};
  }
  if (code == SnagCode::TubeOverLimitWhenStopped || code == SnagCode::GlazingOverLimitWhenStopped ||
      code == SnagCode::PlateOverLimitWhenStopped || code == SnagCode::InsulationOverLimitWhenStopped ||
      code == SnagCode::BackingOverLimitWhenStopped) {
    return overLimitWords(part);
  }
  if (code == SnagCode::MaterialLimitNotKnown) {
    return {Text::tr("No limit is known for the %1").arg(part), Text::tr("with the pump stopped it reaches %1"),
            Text::tr("with the pump stopped it reaches %1"),
            Text::tr("Without the highest service temperature of the material nothing can be told about it"),
            Text::tr("Not known; ask the seller for the figure and enter it")};
  }
  return {};
}

Words stockWords(SnagCode code) {
  if (code == SnagCode::TubeShort) {
    return {Text::tr("There is not enough tube in the stock"), Text::tr("%1 needed, %2 there"), Text::tr("%1 needed"),
            Text::tr("Every run with its tails is cut in one piece from a roll"),
            Text::tr("The list of what to buy stays open until a roll is entered")};
  }
  if (code == SnagCode::RunNeedsJoin) {
    return {Text::tr("A run is longer than the longest roll"), Text::tr("%1 needed, the longest is %2"),
            Text::tr("%1 needed"), Text::tr("Every run with its tails is cut in one piece from a roll"),
            Text::tr("A join costs lift and is one more place to leak; a longer roll or a larger pitch avoids it")};
  }
  if (code == SnagCode::RollEndsInTurn) {
    return {Text::tr("A roll ends among the turns %1"), Text::tr("after %1; the longest roll is %2"),
            Text::tr("after %1"), Text::tr("The run is longer than a roll and is made of two pieces with a connector"),
            Text::tr("A connector among the turns is stiff, costs lift, and drips on the plate when it leaks")};
  }
  if (code == SnagCode::TimberShort) {
    return {Text::tr("The timber in the stock is too short"), Text::tr("%1 needed, the longest is %2"),
            Text::tr("%1 needed"), Text::tr("Rails and stiles are cut in one piece each"),
            Text::tr("The frame cannot be cut from this stock")};
  }
  if (code == SnagCode::NoSquaringAllowance) {
    return {Text::tr("A timber length leaves nothing for squaring its end"), Text::tr("%1 left, %2 wanted"),
            Text::tr("%1 left"), Text::tr("Pieces and saw cuts together take the whole length"),
            Text::tr("A crooked or split end makes the last piece too short")};
  }
  if (code == SnagCode::PriceNotKnown) {
    return {Text::tr("Some prices are not known"), Text::tr("%1 of them"), Text::tr("%1 of them"),
            Text::tr("An unknown price is listed as “ask” and is not counted as nothing"),
            Text::tr("Not known; the sum of the list is only that of the known prices")};
  }
  return {};
}

Words sheetWords(const QString& part) {
  return {Text::tr("The sheets in the Shed do not do for the %1, not even in strips").arg(part),
          Text::tr("%1 needed, %2 there"), Text::tr("%1 needed"),
          Text::tr("A layer larger than a sheet is made of strips side by side, with the lap where there is one"),
          Text::tr("The layer cannot be cut from what is there or on sale")};
}

Words windWords(SnagCode code) {
  if (code == SnagCode::WindLiftsPanel) {
    return {
        Text::tr("The gust lifts the panel off its place"), Text::tr("%1 must hold it down, %2 does"),
        Text::tr("%1 must hold it down"),
        Text::tr("The pressure of the gust on the whole panel, edges and underside counted in one coefficient, less "
                 "the weight of the dry panel; a screening figure, the local wind standard decides"),
        Text::tr("A panel that flies hurts people and breaks what it meets")};
  }
  return {Text::tr("No gust has been entered for this place"), Text::tr("%1"), Text::tr("%1"),
          Text::tr("Without the strongest gust nothing can be told about what holds the panel down"),
          Text::tr("Not known; the local weather service or the wind standard has the figure")};
}

Words wordsOf(SnagCode code, const QString& part) {
  switch (code) {
    case SnagCode::BendCollapses:
    case SnagCode::BendLikelyToFlatten:
    case SnagCode::BendClose:
      return bendWords(code);
    case SnagCode::BendStrainHigh:
    case SnagCode::TubesTouch:
    case SnagCode::TubesTooClose:
    case SnagCode::CrossingTouchesGlazing:
    case SnagCode::TubeUnsupportedDepth:
    case SnagCode::TailTooShort:
      return roomWords(code);
    case SnagCode::PumpNeverStarts:
    case SnagCode::PumpBarelyStarts:
    case SnagCode::NearVapourPressure:
    case SnagCode::HoseCollapsesWhenHot:
    case SnagCode::PressureBelowAir:
    case SnagCode::FlowInTransition:
    case SnagCode::VelocityHigh:
    case SnagCode::VelocityLowForAir:
    case SnagCode::RunsUnequal:
      return pumpWords(code);
    case SnagCode::WaterBoilsWhenStopped:
    case SnagCode::FirstSlugScalds:
    case SnagCode::TubeOverLimitWhenStopped:
    case SnagCode::GlazingOverLimitWhenStopped:
    case SnagCode::PlateOverLimitWhenStopped:
    case SnagCode::InsulationOverLimitWhenStopped:
    case SnagCode::BackingOverLimitWhenStopped:
    case SnagCode::MaterialLimitNotKnown:
      return stoppedWords(code, part);
    case SnagCode::TubeShort:
    case SnagCode::RunNeedsJoin:
    case SnagCode::TimberShort:
    case SnagCode::NoSquaringAllowance:
    case SnagCode::RollEndsInTurn:
    case SnagCode::PriceNotKnown:
      return stockWords(code);
    case SnagCode::SheetShort:
      return sheetWords(part);
    case SnagCode::WindLiftsPanel:
    case SnagCode::GustNotEntered:
      return windWords(code);
  }
  return {};
}

/// The part a stopped-pump finding speaks of, when its place does not name it.
QString partOf(const Snag& snag) {
  if (!snag.places.empty() && !snag.places.front().part.empty()) return partInWords(snag.places.front().part);
  if (snag.code == SnagCode::GlazingOverLimitWhenStopped) return Text::tr("glazing");
  if (snag.code == SnagCode::PlateOverLimitWhenStopped) return Text::tr("plate");
  if (snag.code == SnagCode::InsulationOverLimitWhenStopped) return Text::tr("insulation");
  if (snag.code == SnagCode::BackingOverLimitWhenStopped) return Text::tr("backing");
  if (snag.code == SnagCode::TubeOverLimitWhenStopped) return Text::tr("tube");
  return Text::tr("material");
}

QString placeText(const SnagPlace& place, const model::Document& document, const Preferences& preferences) {
  if (place.run < 0) {
    return place.part.empty() ? Text::tr("in this design") : Text::tr("in the %1").arg(partInWords(place.part));
  }
  const bool alone = document.laying.starts <= 1;
  const QString run = alone ? Text::tr("in the run") : Text::tr("in run %1").arg(runLetter(place.run));
  if (place.station_m <= 0.0) return run;
  const QString station = number(metres(place.station_m), LengthScale::Run, preferences).joined();
  return alone ? Text::tr("at %1").arg(station) : Text::tr("%1 at %2").arg(run, station);
}

bool isThere(const Fact& fact) { return !fact.name.empty(); }

QString sentenceOf(const QString& text) {
  QString whole = text;
  if (!whole.isEmpty() && !whole.endsWith(QLatin1Char('.'))) whole += QLatin1Char('.');
  if (!whole.isEmpty()) whole[0] = whole[0].toUpper();
  return whole;
}

QString amountOf(const Snag& snag, const Words& words, const Preferences& preferences) {
  if (!isThere(snag.measured)) return {};
  if (!isThere(snag.limit)) return words.one.arg(number(snag.measured, preferences).joined());
  const TwoNumbers numbers = apart(snag.measured, snag.limit, preferences);
  if (!words.both.contains(QStringLiteral("%2"))) return words.both.arg(numbers.first.joined());
  return words.both.arg(numbers.first.joined(), numbers.second.joined());
}

QString costText(const Snag& snag, const model::Document& document, const Preferences& preferences) {
  if (snag.cost.dimension == Dimension::Money) {
    return Text::tr("To buy again: %1.").arg(money(snag.cost.value_si, document.stock.currency).joined());
  }
  if (snag.cost.dimension == Dimension::None) {
    return {};
  }
  const QString amount = number(snag.cost, preferences).joined();
  if (snag.cost.name == "sun_lost") return Text::tr("At this hour %1 of sun come to nothing.").arg(amount);
  if (snag.cost.name == "heat_band") return Text::tr("The heat may differ by %1.").arg(amount);
  return Text::tr("At stake are %1 of heat at this hour.").arg(amount);
}

QString whyText(const Snag& snag, const Words& words, const Preferences& preferences) {
  QStringList parts{sentenceOf(words.why)};
  const QString numbers = FactReader(snag.why, preferences).rest();
  if (!numbers.isEmpty()) parts << sentenceOf(numbers);
  return parts.join(QLatin1Char(' '));
}

}  // namespace

SnagText snagText(const Snag& snag, const model::Document& document, const Preferences& preferences) {
  const Words words = wordsOf(snag.code, partOf(snag));
  const QString place =
      snag.places.empty() ? Text::tr("in this design") : placeText(snag.places.front(), document, preferences);
  // Some texts name their place themselves.
  const QString found = words.found.contains(QStringLiteral("%1")) ? words.found.arg(place) : words.found;
  const QString amount = amountOf(snag, words, preferences);
  SnagText text;
  text.title = sentenceOf(amount.isEmpty() ? found : Text::tr("%1: %2").arg(found, amount));
  text.headline = sentenceOf(found);
  text.headline.chop(text.headline.endsWith(QLatin1Char('.')) ? 1 : 0);
  text.what = text.title;
  const auto more = static_cast<int>(snag.places.size()) - 1;
  if (more == 1) text.what += Text::tr(" One more place is like it.");
  if (more > 1) text.what += Text::tr(" %1 more places are like it.").arg(more);
  text.why = whyText(snag, words, preferences);
  const QString cost = costText(snag, document, preferences);
  text.costs = cost.isEmpty() ? sentenceOf(words.costs) : sentenceOf(words.costs) + QLatin1Char(' ') + cost;
  return text;
}

}  // namespace sunspool::format
