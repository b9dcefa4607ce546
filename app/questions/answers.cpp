// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/answers.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>
#include <span>
#include <string_view>

#include "core/model/edits.h"
#include "core/model/uncertain_inputs.h"

namespace sunspool::questions {
namespace {

using format::LengthScale;
using render::EdgeState;

QString tr(const char* text) { return QCoreApplication::translate("questions", text); }

template <class Q>
QString num(Q value, const Known& known) {
  return format::number(value, known.preferences).joined();
}
QString len(Length value, LengthScale scale, const Known& known) {
  return format::number(value, scale, known.preferences).joined();
}
QString drawn(double value_m, const Known& known) { return len(metres(value_m), LengthScale::Drawing, known); }

bool hasPart(const Snag& snag, std::initializer_list<SnagCode> codes) {
  return std::find(codes.begin(), codes.end(), snag.code) != codes.end();
}
/// The worst state among the findings of these codes that still stand.
EdgeState stateOf(const Known& known, std::initializer_list<SnagCode> codes) {
  EdgeState state = EdgeState::Smooth;
  for (const Snag& snag : known.results.snags) {
    if (hasPart(snag, codes) && snag.leftBecause.empty()) state = render::worse(state, render::edgeOf(snag.state));
  }
  return state;
}

Answer unanswered(Question question, const QString& lacks) {
  return {title(question), tr("Not yet"), lacks, lacks, EdgeState::Dashed};
}
Answer refused(Question question, const QString& what, const Error& error, const Known& known) {
  const QString sentence = format::sentence(error, known.preferences);
  return {title(question), what, sentence, sentence, EdgeState::TwoTeeth};
}

// --- the shelf ------------------------------------------------------------------------------------

Answer worthIt(const Known& known) {
  if (known.day == nullptr) return unanswered(Question::WorthIt, tr("needs the heat of a day"));
  Answer a{title(Question::WorthIt), {}, {}, {}, EdgeState::Dashed};
  a.answer = tr("+%1 a day").arg(num(known.day->poolRise, known));
  a.second = tr("clear day, before losses; a season lacks");
  a.shortSecond = tr("before losses");
  return a;
}

Answer fits(const Known& known) {
  if (!known.results.layout.has_value()) {
    return refused(Question::Fits, tr("Cannot be laid"), known.results.layout.error(), known);
  }
  const Length spare = known.results.depth.crossingSpare;
  Answer a{title(Question::Fits), {}, {}, {}, EdgeState::Smooth};
  a.answer = spare.si() >= 0.0 ? tr("Fits by %1").arg(drawn(spare.si(), known))
                               : tr("%1 too high").arg(drawn(-spare.si(), known));
  const bool crosses = known.results.depth.crossingSpare < known.results.depth.spare;
  a.second = crosses ? tr("the crossing under the glazing") : tr("in the depth of the frame");
  a.shortSecond = crosses ? tr("under the glazing") : tr("in the depth");
  a.state = stateOf(known, {SnagCode::CrossingTouchesGlazing, SnagCode::TubeUnsupportedDepth, SnagCode::TubesTouch,
                            SnagCode::TubesTooClose, SnagCode::TailTooShort});
  return a;
}

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
Answer bends(const Known& known) {
  if (!known.results.bends || !known.results.bends->worst)
    return unanswered(Question::Bends, tr("needs a run that is laid"));
  const results::Bends& bends = *known.results.bends;
  Answer a{title(Question::Bends), {}, {}, {}, EdgeState::Smooth};
  a.answer = tr("%1 × the limit").arg(1.0 / bends.worst->index, 0, 'f', 1);
  a.second =
      tr("radius %1, kinks by %2").arg(drawn(bends.worst->radius_m, known), drawn(bends.collapseRadius.si(), known));
  a.shortSecond = tr("kinks by %1").arg(drawn(bends.collapseRadius.si(), known));
  a.state = stateOf(
      known, {SnagCode::BendClose, SnagCode::BendLikelyToFlatten, SnagCode::BendCollapses, SnagCode::BendStrainHigh});
  return a;
}

Answer flows(const Known& known) {
  if (!known.results.flow.has_value())
    return refused(Question::Flows, tr("Not yet"), known.results.flow.error(), known);
  const results::Flow& flow = *known.results.flow;
  Answer a{title(Question::Flows), {}, {}, {}, EdgeState::Smooth};
  if (!flow.network.starts) {
    a.answer = tr("Never starts");
    a.second = tr("must lift %1, lifts %2")
                   .arg(len(metres(flow.network.startingLift_m), LengthScale::Height, known),
                        len(flow.shutOffHead, LengthScale::Height, known));
    a.shortSecond = a.second;
    a.state = EdgeState::TwoTeeth;
    return a;
  }
  a.answer = num(flow.flow.value, known);
  a.shortSecond = format::range(flow.flow, known.preferences);
  const bool labelled = known.document.plumbing.pump.points.empty();
  a.second =
      labelled
          ? tr("%1; the label says %2").arg(a.shortSecond, num(known.document.plumbing.pump.labelFlow.value, known))
          : a.shortSecond;
  a.state = stateOf(known, {SnagCode::PumpBarelyStarts, SnagCode::NearVapourPressure, SnagCode::HoseCollapsesWhenHot,
                            SnagCode::PressureBelowAir, SnagCode::FlowInTransition, SnagCode::VelocityHigh,
                            SnagCode::VelocityLowForAir, SnagCode::RunsUnequal});
  return a;
}

Answer warms(const Known& known) {
  if (!known.results.heat.has_value())
    return refused(Question::Warms, tr("No heat"), known.results.heat.error(), known);
  const results::Heat& heat = *known.results.heat;
  Answer a{title(Question::Warms), num(heat.toPool.value, known), {}, {}, EdgeState::Smooth};
  a.shortSecond = format::range(heat.toPool, known.preferences);
  a.second = tr("%1; leaves %2 warmer").arg(a.shortSecond, num(heat.rise.value, known));
  if (heat.toPool.value.si() <= 0.0) {
    a.second = tr("it cools the pool at this hour");
    a.shortSecond = tr("it cools the pool");
    a.state = EdgeState::OneTooth;
  }
  return a;
}

Answer survives(const Known& known) {
  if (!known.results.stopped.has_value())
    return refused(Question::Survives, tr("Not yet"), known.results.stopped.error(), known);
  const thermal::StoppedLayer* worst = nullptr;
  double most = -1e9;
  for (const auto& layer : known.results.stopped->layers) {
    if (!layer.limit_K) continue;
    const double over = std::max(layer.dry_K, layer.wet_K) - *layer.limit_K;
    if (over > most) {
      most = over;
      worst = &layer;
    }
  }
  Answer a{title(Question::Survives), tr("No limit known"), tr("of any material here"), {}, EdgeState::Dashed};
  if (worst != nullptr) {
    a.answer = most > 0.0 ? tr("Limit reached") : tr("No limit reached");
    a.second = tr("%1 %2 with the pump off; limit %3")
                   .arg(format::partInWords(worst->part), num(Temperature::fromKelvin(worst->dry_K), known),
                        num(Temperature::fromKelvin(*worst->limit_K), known));
    a.shortSecond =
        tr("%1 %2").arg(format::partInWords(worst->part), num(Temperature::fromKelvin(worst->dry_K), known));
    a.state = EdgeState::Smooth;
  }
  if (a.shortSecond.isEmpty()) a.shortSecond = a.second;
  a.state = render::worse(
      a.state,
      stateOf(known, {SnagCode::WaterBoilsWhenStopped, SnagCode::FirstSlugScalds, SnagCode::TubeOverLimitWhenStopped,
                      SnagCode::GlazingOverLimitWhenStopped, SnagCode::PlateOverLimitWhenStopped,
                      SnagCode::InsulationOverLimitWhenStopped, SnagCode::BackingOverLimitWhenStopped}));
  return a;
}

Answer enoughStock(const Known& known) {
  if (!known.results.tubeCuts.has_value()) {
    return refused(Question::EnoughStock, tr("Not from these rolls"), known.results.tubeCuts.error(), known);
  }
  const stock::CutPlan& plan = *known.results.tubeCuts;
  Answer a{title(Question::EnoughStock), {}, {}, {}, EdgeState::Smooth};
  a.answer = tr("%1 left over").arg(len(plan.totalLeft, LengthScale::Run, known));
  const QString roll = plan.patterns.empty() ? QString()
                                             : len(known.document.stock.rolls[plan.patterns.front().stock].length,
                                                   LengthScale::Run, known);
  a.second = plan.lengthsUsed == 1 ? tr("of one roll of %1").arg(roll) : tr("of %1 rolls").arg(plan.lengthsUsed);
  a.shortSecond = a.second;
  a.state = stateOf(
      known, {SnagCode::RunNeedsJoin, SnagCode::TubeShort, SnagCode::TimberShort, SnagCode::NoSquaringAllowance});
  return a;
}

Answer readyToCut(const Known& known) {
  int tags = 0, unsure = 0;
  for (const Snag& snag : known.results.snags) {
    if (snag.leftBecause.empty() && snag.state == SnagState::Snag) ++tags;
  }
  for (const auto& influence : known.results.influences) unsure += influence.sureness == Sureness::Guess ? 1 : 0;
  Answer a{title(Question::ReadyToCut), {}, {}, {}, EdgeState::Smooth};
  if (!known.results.layout.has_value()) return unanswered(Question::ReadyToCut, tr("needs a run that is laid"));
  if (tags > 0) {
    a.answer = tags == 1 ? tr("After one tag") : tr("After %1 tags").arg(tags);
    a.state = EdgeState::OneTooth;
  } else {
    a.answer = tr("Ready");
  }
  a.second = unsure == 0   ? tr("nothing is guessed")
             : unsure == 1 ? tr("and one guess")
                           : tr("and %1 guesses").arg(unsure);
  a.shortSecond = a.second;
  return a;
}

// --- the sheets -----------------------------------------------------------------------------------

enum class Moves { Flow, Heat, Loss };

QString influenceText(const results::Influence& influence, Moves moves, const Known& known) {
  switch (moves) {
    case Moves::Flow:
      return tr("±%1").arg(num(VolumeFlow::fromSi(influence.flow_m3_s), known));
    case Moves::Heat:
      return tr("±%1").arg(num(watts(influence.heat_W), known));
    case Moves::Loss:
      return tr("±%1").arg(num(pascals(influence.loss_Pa), known));
  }
  return {};
}
double influenceValue(const results::Influence& influence, Moves moves) {
  switch (moves) {
    case Moves::Flow:
      return influence.flow_m3_s;
    case Moves::Heat:
      return influence.heat_W;
    case Moves::Loss:
      return influence.loss_Pa;
  }
  return 0.0;
}
/// Its place in words, less what every row of a sheet would repeat.
QString inputName(const std::string& pointer) {
  QString name = format::placeInWords(pointer);
  for (const QString& common : {tr(" of the conditions"), tr(" of the box")}) name.remove(common);
  return name;
}

/// The uncertain inputs of these pointers, with how much each moves the answer, largest first; then the rest.
std::vector<InputRow> uncertainRows(Moves moves, std::span<const std::string_view> pointers, const Known& known) {
  double largest = 0.0;
  for (const auto& influence : known.results.influences) largest = std::max(largest, influenceValue(influence, moves));
  std::vector<InputRow> rows;
  for (const model::UncertainInput& input : model::uncertainInputs(known.document)) {
    const auto influence = std::find_if(known.results.influences.begin(), known.results.influences.end(),
                                        [&](const auto& i) { return i.input == input.pointer; });
    const double value = influence != known.results.influences.end() ? influenceValue(*influence, moves) : 0.0;
    const bool asked = std::find(pointers.begin(), pointers.end(), input.pointer) != pointers.end();
    if (!asked && value < 0.1 * largest) continue;
    InputRow row;
    row.name = inputName(input.pointer);
    row.value_si = input.value_si;
    row.dimension = input.dimension;
    row.sureness = input.sureness;
    row.pointer = input.pointer;
    row.edit = [pointer = input.pointer](model::Document d, double si) {
      return model::withUncertainValue(std::move(d), pointer, si);
    };
    if (value > 0.0) {
      row.moves = influenceText(*influence, moves, known);
      row.share = value / largest;
    }
    rows.push_back(row);
  }
  std::stable_sort(rows.begin(), rows.end(), [](const InputRow& a, const InputRow& b) { return a.share > b.share; });
  return rows;
}
template <std::size_t N>
std::vector<InputRow> inputsThatMove(Moves moves, const Known& known, const std::string_view (&pointers)[N]) {
  return uncertainRows(moves, pointers, known);
}
/// The named rows alone where the answer is not one of flow, heat or loss: nothing is said of how much they move it.
template <std::size_t N>
std::vector<InputRow> plainInputs(const Known& known, const std::string_view (&pointers)[N]) {
  std::vector<InputRow> rows = uncertainRows(Moves::Heat, pointers, known);
  std::erase_if(rows, [&](const InputRow& row) {
    return std::find(std::begin(pointers), std::end(pointers), row.pointer) == std::end(pointers);
  });
  for (InputRow& row : rows) {
    row.moves.clear();
    row.share = 0.0;
  }
  return rows;
}
std::vector<InputRow> inputsThatMove(Moves moves, const Known& known) { return uncertainRows(moves, {}, known); }

/// A plain number of the document.
template <class Edit>
InputRow sizeRow(const QString& name, Length value, Edit edit) {
  InputRow row;
  row.name = name;
  row.value_si = value.si();
  row.dimension = Dimension::Length;
  row.edit = [edit](model::Document d, double si) { return edit(std::move(d), metres(si)); };
  return row;
}
template <class Edit>
InputRow angleRow(const QString& name, Angle value, Edit edit) {
  InputRow row;
  row.name = name;
  row.value_si = value.radians();
  row.dimension = Dimension::Angle;
  row.edit = [edit](model::Document d, double si) { return edit(std::move(d), radians(si)); };
  return row;
}
std::vector<InputRow> plumbingRows(const Known& known) {
  const model::Document& d = known.document;
  const auto pipe = [](auto change) {
    return [change](model::Document document, Length value) {
      model::Plumbing plumbing = document.plumbing;
      change(plumbing, value);
      return model::withPlumbing(std::move(document), std::move(plumbing));
    };
  };
  return {sizeRow(tr("lower edge over the pool"), d.siting.lowerEdgeAbovePool, model::withLowerEdgeAbovePool),
          sizeRow(tr("length of the feed pipe"), d.plumbing.feed.length,
                  pipe([](auto& p, Length v) { p.feed.length = v; })),
          sizeRow(tr("bore of the feed pipe"), d.plumbing.feed.insideDiameter,
                  pipe([](auto& p, Length v) { p.feed.insideDiameter = v; })),
          sizeRow(tr("length of the return pipe"), d.plumbing.returning.length,
                  pipe([](auto& p, Length v) { p.returning.length = v; })),
          sizeRow(tr("bore of the return pipe"), d.plumbing.returning.insideDiameter,
                  pipe([](auto& p, Length v) { p.returning.insideDiameter = v; }))};
}
std::vector<InputRow> layingRows(const Known& known) {
  const model::Document& d = known.document;
  const auto depth = [](model::Document document, Length value) {
    model::Frame frame = document.frame;
    frame.timberDepth = value;
    return model::withFrame(std::move(document), frame);
  };
  return {sizeRow(tr("pitch"), d.laying.pitch, model::withPitch),
          sizeRow(tr("bend radius"), d.laying.bendRadius, model::withBendRadius),
          sizeRow(tr("margin to the tube"), d.laying.margin, model::withMargin),
          sizeRow(tr("depth of the frame"), d.frame.timberDepth, depth),
          sizeRow(tr("feed tail"), d.laying.feedTail, model::withFeedTail),
          sizeRow(tr("return tail, crossing included"), d.laying.returnTail, model::withReturnTail)};
}
void append(std::vector<InputRow>& rows, std::vector<InputRow> more) {
  rows.insert(rows.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

QString plain(double value, int digits) { return QString::number(value, 'f', digits); }

void flowSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.flow.has_value()) {
    sheet.headline = format::sentence(known.results.flow.error(), known.preferences);
    return;
  }
  const results::Flow& flow = *known.results.flow;
  if (!flow.network.starts) {
    sheet.headline = tr("The pump never lifts the water over the panel.");
    sheet.body =
        tr("To fill the way the first time it must lift %1; at no flow it reaches %2. Once water stands in the whole "
           "way a sealed return would help, but it never gets there.")
            .arg(len(metres(flow.network.startingLift_m), LengthScale::Height, known),
                 len(flow.shutOffHead, LengthScale::Height, known));
    return;
  }
  sheet.headline = tr("%1 reach the panel.").arg(num(flow.flow.value, known));
  sheet.body = known.document.plumbing.pump.points.empty()
                   ? tr("The label says %1. Label flow and label lift never occur together; the curve between them "
                        "meets this tube here.")
                         .arg(num(known.document.plumbing.pump.labelFlow.value, known))
                   : tr("The measured pump curve meets this tube here.");
  sheet.inputs = inputsThatMove(Moves::Flow, known,
                                {"/plumbing/pump/label_flow", "/plumbing/pump/label_head", "/tube/inside_diameter"});
  append(sheet.inputs, plumbingRows(known));
  sheet.moves = tr("moves the flow");
  const auto& run = flow.network.runs.front();
  const model::Tube& tube = known.document.tube;
  sheet.formula = {
      tr("Δp = f · L/d · ρv²/2, piece by piece along the run, straights and bends apart"),
      tr("L = %1, d = %2, v = %3")
          .arg(len(metres(known.results.layout->runs.front().cutLength_m), LengthScale::Run, known),
               drawn(tube.insideDiameter.value.si(), known), num(metresPerSecond(run.loss.velocity_m_s), known)),
      tr("Δp = %1 at %2 of head")
          .arg(num(pascals(run.loss.loss_Pa), known), len(flow.head.value, LengthScale::Height, known))};
  const QString regime = flow.regime == hydraulics::Regime::Laminar     ? tr("laminar")
                         : flow.regime == hydraulics::Regime::Turbulent ? tr("turbulent")
                                                                        : tr("between laminar and turbulent");
  sheet.remark =
      tr("Reynolds number %1, %2. It must lift %3 to start; the lowest pressure on the way is %4 against the air.")
          .arg(plain(run.loss.reynolds, 0), regime,
               len(metres(flow.network.startingLift_m), LengthScale::Height, known), num(flow.lowest, known));
  sheet.sources = {
      tr("Darcy and Weisbach; Colebrook 1939; White 1929, Ito 1959 in bends; Borda and Carnot at the barbs.")};
  sheet.cautions = {format::cautionText(format::Caution::MainsNearWater).text};
}

void heatSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.heat.has_value()) {
    sheet.headline = format::sentence(known.results.heat.error(), known.preferences);
    return;
  }
  const results::Heat& heat = *known.results.heat;
  sheet.headline = tr("%1 go to the pool at this hour.").arg(num(heat.toPool.value, known));
  const bool cools = heat.rise.value.si() < 0.0;
  sheet.body =
      (cools ? tr("The water leaves at %1, %2 cooler than it came: leave the pump off at this hour.")
             : tr("The water leaves at %1, %2 warmer than it came. A small rise is right: a cooler panel loses less."))
          .arg(num(heat.outlet.value, known), num(cools ? -heat.rise.value : heat.rise.value, known));
  sheet.moves = tr("moves the heat");
  sheet.inputs = inputsThatMove(Moves::Heat, known,
                                {"/pool/water", "/conditions/air", "/conditions/wind", "/box/plate_contact_share"});
  append(sheet.inputs,
         {angleRow(tr("tilt"), known.document.siting.tilt, model::withTilt),
          angleRow(tr("facing, from north over east"), known.document.siting.azimuth, model::withAzimuth)});
  const double loss = heat.steady.topLoss_W_m2K + heat.steady.backLoss_W_m2K + heat.steady.edgeLoss_W_m2K;
  sheet.formula = {
      tr("Q = A · F' · [ταG·share − U·(water − air)], marched along the run"),
      tr("ταG = %1 · %2, share = %3, U = %4 W/m²K, F' = %5")
          .arg(plain(heat.steady.tauAlpha, 2),
               known.results.sun.has_value() ? num(wattsPerSquareMetre(known.results.sun->plane.total_W_m2), known)
                                             : QString(),
               plain(heat.steady.opticalShare, 2), plain(loss, 1), plain(heat.steady.efficiencyFactor, 2)),
      tr("Q = %1, %2 % of the sun inside the frame")
          .arg(num(heat.toPool.value, known), plain(100.0 * heat.steady.efficiencyInside, 0))};
  const auto& shares = heat.steady.shares;
  sheet.remark = tr("Of %1 that fall inside the frame %2 reach the water, %3 are reflected or stay on bare plate, %4 "
                    "leave through "
                    "the top, %5 through the back, %6 through the edges.")
                     .arg(num(watts(shares.falling_W), known), num(watts(shares.toWater_W), known),
                          num(watts(shares.reflected_W), known), num(watts(shares.top_W), known),
                          num(watts(shares.back_W), known), num(watts(shares.edge_W), known));
  sheet.sources = {
      tr("Hottel and Whillier, after Duffie and Beckman, chapter 6; Hollands 1976 in the air gap; Perez 1990 on the "
         "slope; "
         "Ineichen and Perez 2002 for the clear sky.")};
  sheet.cautions = {format::cautionText(format::Caution::FirstWaterScalds).text};
}

void survivesSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.stopped.has_value()) {
    sheet.headline = format::sentence(known.results.stopped.error(), known.preferences);
    return;
  }
  sheet.inputs = plainInputs(known, {"/conditions/air", "/conditions/wind", "/box/glazing/transmittance"});
  sheet.headline = tr("What each part comes to when the pump stops in strong sun.");
  const thermal::Sky& sky = known.results.stoppedSky;
  sheet.body = tr("Judged for %1 on the panel, %2 and a wind of %3, whatever the hour: the standard condition, or this "
                  "day and place where they are harder. Dry means an empty tube; wet means water standing in it, which "
                  "boils at %4 here and gets no hotter.")
                   .arg(num(wattsPerSquareMetre(sky.beam_W_m2 + sky.sky_W_m2), known),
                        num(Temperature::fromKelvin(sky.air_K), known), num(metresPerSecond(sky.wind_m_s), known),
                        num(Temperature::fromKelvin(known.results.stopped->boiling_K), known));
  for (const auto& layer : known.results.stopped->layers) {
    const QString limit =
        layer.limit_K ? tr("limit %1").arg(num(Temperature::fromKelvin(*layer.limit_K), known)) : tr("no limit known");
    sheet.formula.push_back(tr("%1: %2 dry, %3 wet; %4")
                                .arg(format::partInWords(layer.part), num(Temperature::fromKelvin(layer.dry_K), known),
                                     num(Temperature::fromKelvin(layer.wet_K), known), limit));
    if (!layer.limitSource.empty()) sheet.sources.push_back(QString::fromStdString(layer.limitSource));
  }
  sheet.formula.push_back(tr("It comes to rest where the sun taken up equals the losses, U = %1 W/m²K dry.")
                              .arg(plain(known.results.stopped->lossCoefficient_W_m2K, 1)));
  std::sort(sheet.sources.begin(), sheet.sources.end());
  sheet.sources.erase(std::unique(sheet.sources.begin(), sheet.sources.end()), sheet.sources.end());
  sheet.cautions = {format::cautionText(format::Caution::PlasticOverLimit).text,
                    format::cautionText(format::Caution::SteamAndClosedValves).text,
                    format::cautionText(format::Caution::FirstWaterScalds).text};
}

void bendSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.bends || !known.results.bends->worst) {
    sheet.headline = tr("Not yet: this needs a run that is laid.");
    return;
  }
  const results::Bends& bends = *known.results.bends;
  const model::Tube& tube = known.document.tube;
  sheet.inputs = plainInputs(known, {"/tube/outside_diameter", "/tube/inside_diameter", "/tube/minimum_wall_share"});
  sheet.headline = tr("The tightest bend has %1 times the radius at which this tube kinks at the latest.")
                       .arg(1.0 / bends.worst->index, 0, 'f', 1);
  sheet.body =
      tr("It stands at metre %1 of run %2 and is %3. A kink forms where the section flattens faster than the bend "
         "tightens; "
         "warm tube creeps, so the figure is a lower bound and never an allowance. Bend an offcut to learn the real "
         "one.")
          .arg(plain(bends.worst->station_m, 1), format::runLetter(bends.worst->run), bendWords(bends.verdict));
  sheet.formula = {bends.fromBendTest ? tr("collapse radius from your own bend test")
                                      : tr("R = 3√(1−ν²)/√2 · r²/t on the thinnest wall (Brazier)"),
                   tr("outside %1, bore %2, thinnest wall %3 of the nominal one")
                       .arg(drawn(tube.outsideDiameter.value.si(), known), drawn(tube.insideDiameter.value.si(), known),
                            plain(tube.minimumWallShare.value, 2)),
                   tr("kinks at %1; bent to %2; %3 % oval; %4 % strain")
                       .arg(drawn(bends.collapseRadius.si(), known), drawn(bends.worst->radius_m, known),
                            plain(100.0 * bends.worst->ovality, 0), plain(100.0 * bends.worst->strain, 1))};
  sheet.remark = tr("The handbook of long-lived pressure pipe asks for %1. Garden tube is laid between the two.")
                     .arg(drawn(bends.handbookRadius.si(), known));
  sheet.sources = {
      tr("Brazier 1927, Proc. R. Soc. A 116; Plastics Pipe Institute, Handbook of Polyethylene Pipe, 2nd edition.")};
}

void fitsSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.layout.has_value()) {
    sheet.headline = format::sentence(known.results.layout.error(), known.preferences);
    return;
  }
  const layout::LaidPanel& laid = *known.results.layout;
  const results::DepthBudget& depth = known.results.depth;
  sheet.headline = depth.crossingSpare.si() >= 0.0
                       ? tr("Everything fits, by %1 in depth.").arg(drawn(depth.crossingSpare.si(), known))
                       : tr("The box is %1 too shallow.").arg(drawn(-depth.crossingSpare.si(), known));
  sheet.inputs = layingRows(known);
  sheet.body =
      tr("%1 of tube lie inside the frame and cover %2 % of it")
          .arg(len(laid.tubeInside, LengthScale::Run, known), plain(100.0 * laid.coverage, 0)) +
      (std::isfinite(laid.smallestSpacing_m)
           ? tr("; neighbouring centre lines come no closer than %1.").arg(drawn(laid.smallestSpacing_m, known))
           : tr("; nothing lies beside anything else."));
  for (const auto& layer : depth.layers) {
    sheet.formula.push_back(tr("%1  %2").arg(format::partInWords(layer.part), drawn(layer.thickness.si(), known)));
  }
  sheet.formula.push_back(tr("of %1 in the frame %2 stay free")
                              .arg(drawn(depth.available.si(), known), drawn(depth.crossingSpare.si(), known)));
  sheet.remark = tr("Filled with water the panel weighs %1, %2 kg/m².")
                     .arg(num(known.results.masses.wet, known), plain(known.results.masses.wet_kg_m2, 1));
  sheet.cautions = {format::cautionText(format::Caution::WindLifts).text,
                    format::cautionText(format::Caution::WorkOnRoof).text};
}

void stockSheet(const Known& known, QuestionSheet& sheet) {
  const auto lines = [&](const Result<stock::CutPlan>& plan, const QString& name) {
    if (!plan.has_value()) {
      sheet.formula.push_back(format::sentence(plan.error(), known.preferences));
      return;
    }
    sheet.formula.push_back(plan->proven
                                ? tr("%1: %2, fewer cannot do").arg(name).arg(plan->lengthsUsed)
                                : tr("%1: %2, at least %3").arg(name).arg(plan->lengthsUsed).arg(plan->lowerBound));
  };
  lines(known.results.tubeCuts, tr("rolls of tube"));
  lines(known.results.timberCuts, tr("boards"));
  sheet.headline =
      known.results.tubeCuts.has_value()
          ? tr("%1 of tube stay on the roll.").arg(len(known.results.tubeCuts->totalLeft, LengthScale::Run, known))
          : tr("The rolls do not hold this run.");
  sheet.body = tr("Pieces are cut so that the fewest lengths are bought; what is in the Shed is used first.");
  sheet.formula.push_back(
      tr("known prices %1")
          .arg(format::money(known.results.buying.knownTotal, known.document.stock.currency).joined()));
  sheet.remark = known.results.buying.unknownPrices > 0
                     ? tr("%1 prices are not known: ask.").arg(known.results.buying.unknownPrices)
                     : QString();
}

}  // namespace

QString title(Question question) {
  switch (question) {
    case Question::WorthIt:
      return tr("Worth it?");
    case Question::Fits:
      return tr("Fits?");
    case Question::Bends:
      return tr("Bends?");
    case Question::Flows:
      return tr("Flows?");
    case Question::Warms:
      return tr("Warms?");
    case Question::Survives:
      return tr("Survives?");
    case Question::EnoughStock:
      return tr("Enough stock?");
    case Question::ReadyToCut:
      return tr("Ready to cut?");
    case Question::AsPredicted:
      return tr("As predicted?");
  }
  return {};
}

Answer answer(Question question, const Known& known) {
  switch (question) {
    case Question::WorthIt:
      return worthIt(known);
    case Question::Fits:
      return fits(known);
    case Question::Bends:
      return bends(known);
    case Question::Flows:
      return flows(known);
    case Question::Warms:
      return warms(known);
    case Question::Survives:
      return survives(known);
    case Question::EnoughStock:
      return enoughStock(known);
    case Question::ReadyToCut:
      return readyToCut(known);
    case Question::AsPredicted:
      return unanswered(question, tr("needs one bucket"));
  }
  return {};
}

QuestionSheet sheet(Question question, const Known& known) {
  QuestionSheet sheet;
  switch (question) {
    case Question::Fits:
      fitsSheet(known, sheet);
      break;
    case Question::Bends:
      bendSheet(known, sheet);
      break;
    case Question::Flows:
      flowSheet(known, sheet);
      break;
    case Question::Warms:
      heatSheet(known, sheet);
      break;
    case Question::Survives:
      survivesSheet(known, sheet);
      break;
    case Question::EnoughStock:
      stockSheet(known, sheet);
      break;
    case Question::WorthIt:
      sheet.headline = known.day != nullptr ? tr("A clear day like this one warms the pool by %1, before losses.")
                                                  .arg(num(known.day->poolRise, known))
                                            : tr("Not yet: this needs the heat of a day.");
      sheet.body = tr("Whether it is worth it needs a season with the pool's own losses, which are not reckoned yet.");
      sheet.inputs = inputsThatMove(Moves::Heat, known);
      sheet.moves = tr("moves the heat");
      break;
    case Question::ReadyToCut:
      sheet.headline = answer(question, known).answer + QLatin1Char('.');
      sheet.findings = true;
      for (std::size_t i = 0; i < known.results.snags.size(); ++i) {
        const Snag& snag = known.results.snags[i];
        QString line = tr("%1  %2").arg(i + 1).arg(format::snagText(snag, known.document, known.preferences).title);
        if (!snag.leftBecause.empty()) line += tr(" Left because: %1").arg(QString::fromStdString(snag.leftBecause));
        sheet.formula.push_back(line);
      }
      sheet.body =
          tr("Each tag on the drawing is a finding that costs something when it is ignored. Guesses are the inputs "
             "nobody has measured. F8 walks from one finding to the next.");
      break;
    case Question::AsPredicted:
      sheet.headline = tr("Not yet: this needs one bucket reading.");
      sheet.body =
          tr("Fill a bucket of known size from the return and time it; read the water's temperature before and after "
             "the panel.");
      break;
  }
  return sheet;
}

}  // namespace sunspool::questions
