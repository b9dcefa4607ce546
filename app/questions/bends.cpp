// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/parts.h"
#include "core/checks/measures.h"
#include "core/materials/tube.h"
#include "core/model/edits.h"

namespace sunspool::questions {

using format::LengthScale;
using render::EdgeState;

namespace {

QString bendWords(results::BendVerdict verdict) {
  switch (verdict) {
    case results::BendVerdict::WithinHandbook:
      return tr("within the handbook");
    case results::BendVerdict::TighterThanHandbook:
      return tr("beyond the handbook");
    case results::BendVerdict::Close:
      return tr("close to its limit");
    case results::BendVerdict::LikelyToFlatten:
      return tr("likely to flatten");
    case results::BendVerdict::Collapses:
      return tr("collapses");
  }
  return {};
}

double timesLimit(const results::Bends& bends) { return 1.0 / bends.worst->index; }

}  // namespace

Answer bendsAnswer(const Known& known) {
  if (!known.results.bends || !known.results.bends->worst)
    return unanswered(Question::Bends, tr("needs a run that is laid"));
  const results::Bends& bends = *known.results.bends;
  Answer a{title(Question::Bends), {}, {}, {}, EdgeState::Smooth};
  a.answer = tr("%1 × the limit").arg(plain(timesLimit(bends), 1));
  a.second =
      tr("radius %1, kinks by %2").arg(drawn(bends.worst->radius_m, known), drawn(bends.collapseRadius.si(), known));
  a.shortSecond = tr("kinks by %1").arg(drawn(bends.collapseRadius.si(), known));
  a.state = stateOf(
      known, {SnagCode::BendClose, SnagCode::BendLikelyToFlatten, SnagCode::BendCollapses, SnagCode::BendStrainHigh});
  if (known.before != nullptr && known.before->results->bends && known.before->results->bends->worst) {
    const QString now = plain(timesLimit(bends), 1), then = plain(timesLimit(*known.before->results->bends), 1);
    sayDifference(a, now == then ? tr("as before") : tr("%1 × the limit").arg(then));
    if (now != then) {
      a.second = tr("%1 × the limit before").arg(then);
      a.shortSecond = tr("%1 × before").arg(then);
    }
  }
  return a;
}

namespace {

BendModel bendModel(const Known& known) {
  const results::Bends& bends = *known.results.bends;
  const format::AxisUnit unit = format::axisOf(LengthScale::Drawing, known.preferences);
  BendModel model;
  model.unit = unit.unit;
  model.kinks = unit.of(bends.collapseRadius.si());
  const auto at = [&](double radius_m, const QString& name, bool ofTheDesign) {
    model.marks.push_back({unit.of(radius_m), materials::ovality(bends.collapseRadius.si() / radius_m), name,
                           drawn(radius_m, known), ofTheDesign});
  };
  at(bends.collapseRadius.si(), bends.fromBendTest ? tr("flattened, your test") : tr("kinks by"), false);
  at(bends.worst->radius_m, tr("your tightest bend"), true);
  if (bends.handbookRadius.si() < 20.0 * bends.worst->radius_m) {
    at(bends.handbookRadius.si(), tr("handbook"), false);
  }
  return model;
}

/// The number an offcut gave, or a place to enter it.
InputRow testRow(const Known& known) {
  const auto& test = known.document.tube.bendTestCollapseRadius;
  InputRow row;
  row.name = tr("radius at which an offcut flattened");
  row.dimension = Dimension::Length;
  if (test) {
    row.value_si = test->value.si();
    row.spread_si = test->spread.si();
    row.sureness = test->sureness;
    row.pointer = "/tube/bend_test_collapse_radius";
  } else {
    row.whenNone = tr("not tried");
  }
  row.edit = [](model::Document d, double si) {
    // A tenth is about what a hand on a bucket's rim can tell.
    constexpr double kReadingOfAHand = 0.1;
    Uncertain<Length> entered{metres(si), metres(kReadingOfAHand * si), Sureness::Measured};
    if (d.tube.bendTestCollapseRadius) {
      entered = *d.tube.bendTestCollapseRadius;
      entered.value = metres(si);
    }
    return model::withBendTest(std::move(d), entered);
  };
  return row;
}

}  // namespace

void bendsSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.bends || !known.results.bends->worst) {
    sheet.headline = tr("Not yet: this needs a run that is laid.");
    return;
  }
  const results::Bends& bends = *known.results.bends;
  const model::Tube& tube = known.document.tube;
  sheet.headline = bends.fromBendTest
                       ? tr("The tightest bend has %1 times the radius at which your offcut flattened.")
                             .arg(plain(timesLimit(bends), 1))
                       : tr("The tightest bend has %1 times the radius at which this tube kinks at the latest.")
                             .arg(plain(timesLimit(bends), 1));
  sheet.body =
      tr("It stands at %1 of run %2 and is %3. A kink forms where the section flattens faster than the bend "
         "tightens; warm tube creeps, so the figure is a lower bound and never an allowance. Bend an offcut round a "
         "bucket to learn the real one: the radius of its centre line when it flattened.")
          .arg(len(metres(bends.worst->station_m), LengthScale::Run, known), format::runLetter(bends.worst->run),
               bendWords(bends.verdict));
  sheet.picture = bendPicture(bendModel(known));
  const std::string_view asked[] = {"/tube/outside_diameter", "/tube/inside_diameter", "/tube/minimum_wall_share"};
  addMovedBy(sheet, known.numbers != nullptr ? &known.numbers->collapseRadius : nullptr, Dimension::Length, asked,
             known);
  std::erase_if(sheet.inputs, [](const InputRow& row) { return row.pointer == "/tube/bend_test_collapse_radius"; });
  sheet.moves = tr("moves the kink radius");
  sheet.inputs.insert(sheet.inputs.begin(), testRow(known));
  sheet.inputs.insert(sheet.inputs.begin(),
                      sizeRow(tr("bend radius"), known.document.laying.bendRadius, model::withBendRadius));
  if (bends.fromBendTest) {
    sheet.deeds.push_back({tr("Forget the test"),
                           [](model::Document d) { return model::withBendTest(std::move(d), std::nullopt); },
                           {},
                           false});
  }
  sheet.formula = {bends.fromBendTest ? tr("collapse radius R as your own bend test gave it; the wall is not asked")
                                      : tr("R = 3√(1−ν²)/√2 · r²/t on the thinnest wall (Brazier)"),
                   tr("outside %1, bore %2, thinnest wall %3 of the nominal one, ν = %4")
                       .arg(drawn(tube.outsideDiameter.value.si(), known), drawn(tube.insideDiameter.value.si(), known),
                            plain(tube.minimumWallShare.value, 2), plain(tube.poissonRatio, 2)),
                   tr("R = %1; bent to %2; %3 % oval; %4 % strain")
                       .arg(drawn(bends.collapseRadius.si(), known), drawn(bends.worst->radius_m, known),
                            plain(100.0 * bends.worst->ovality, 0), plain(100.0 * bends.worst->strain, 1))};
  sheet.remark = tr("The handbook of long-lived pressure pipe asks for %1. Garden tube is laid between the two.")
                     .arg(drawn(bends.handbookRadius.si(), known));
  sheet.sources = {
      tr("Brazier 1927, Proc. R. Soc. A 116; Plastics Pipe Institute, Handbook of Polyethylene Pipe, 2nd edition.")};
}

}  // namespace sunspool::questions
