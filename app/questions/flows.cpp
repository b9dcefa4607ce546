// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/questions/parts.h"

namespace sunspool::questions {

using format::LengthScale;
using render::EdgeState;

namespace {

QString height(double metres_, const Known& known) { return len(metres(metres_), LengthScale::Height, known); }
bool isLabelled(const Known& known) { return known.document.plumbing.pump.points.empty(); }

}  // namespace

Answer flowsAnswer(const Known& known) {
  if (!known.results.flow.has_value())
    return refused(Question::Flows, tr("Not yet"), known.results.flow.error(), known);
  const results::Flow& flow = *known.results.flow;
  Answer a{title(Question::Flows), {}, {}, {}, EdgeState::Smooth};
  if (!flow.network.starts) {
    a.answer = tr("Never starts");
    a.second = tr("must lift %1, lifts %2")
                   .arg(height(flow.network.startingLift_m, known), height(flow.shutOffHead.si(), known));
    a.shortSecond = tr("lifts %1 of %2")
                        .arg(withoutUnit(height(flow.shutOffHead.si(), known),
                                         format::axisOf(LengthScale::Height, known.preferences).unit),
                             height(flow.network.startingLift_m, known));
    a.state = EdgeState::TwoTeeth;
    return a;
  }
  a.answer = num(flow.flow.value, known);
  a.shortSecond = bareRange(flow.flow, known);
  a.second = isLabelled(known)
                 ? tr("%1; the label says %2")
                       .arg(a.shortSecond,
                            format::number(known.document.plumbing.pump.labelFlow.value, known.preferences).number)
                 : a.shortSecond;
  a.state = stateOf(known, {SnagCode::PumpBarelyStarts, SnagCode::NearVapourPressure, SnagCode::HoseCollapsesWhenHot,
                            SnagCode::PressureBelowAir, SnagCode::FlowInTransition, SnagCode::VelocityHigh,
                            SnagCode::VelocityLowForAir, SnagCode::RunsUnequal});
  if (known.before != nullptr && known.before->results->flow.has_value()) {
    sayDifference(
        a, signedFact((flow.flow.value - known.before->results->flow->flow.value).si(), Dimension::VolumeFlow, known));
  }
  return a;
}

namespace {

FlowPictureModel pictureModel(const Known& known) {
  const evaluate::FlowCurves& curves = *known.numbers->flow;
  FlowPictureModel model;
  model.curves = curves;
  model.flowUnit = format::axisOf(Dimension::VolumeFlow, curves.largestFlow_m3_s, known.preferences);
  model.headUnit = format::axisOf(LengthScale::Height, known.preferences);
  model.labels = !curves.measured;
  model.lift = tr("must lift %1 to start").arg(height(curves.startingLift_m, known));
  if (curves.starts) {
    model.working =
        tr("%1 at %2").arg(num(VolumeFlow::fromSi(curves.workFlow_m3_s), known), height(curves.workHead_m, known));
    if (known.results.flow.has_value()) {
      model.low_m3_s = known.results.flow->flow.low.si();
      model.high_m3_s = known.results.flow->flow.high.si();
    }
  } else {
    model.never = tr("never starts: lifts %1 of %2")
                      .arg(height(curves.shutOffHead_m, known), height(curves.startingLift_m, known));
  }
  return model;
}

QString regimeWords(hydraulics::Regime regime) {
  switch (regime) {
    case hydraulics::Regime::Laminar:
      return tr("laminar");
    case hydraulics::Regime::Turbulent:
      return tr("turbulent");
    case hydraulics::Regime::Transition:
      return tr("between laminar and turbulent");
  }
  return {};
}

void addPumpRows(const Known& known, QuestionSheet& sheet) {
  const std::string_view asked[] = {"/plumbing/pump/label_flow", "/plumbing/pump/label_head", "/tube/inside_diameter"};
  addInfluences(sheet, Moves::Flow, asked, known);
  append(sheet.inputs, plumbingRows(known));
  sheet.moves = tr("moves the flow");
}

}  // namespace

void flowsSheet(const Known& known, QuestionSheet& sheet) {
  if (!known.results.flow.has_value()) {
    sheet.headline = format::sentence(known.results.flow.error(), known.preferences);
    addPumpRows(known, sheet);
    return;
  }
  const results::Flow& flow = *known.results.flow;
  if (known.numbers != nullptr && known.numbers->flow.has_value()) sheet.picture = flowPicture(pictureModel(known));
  addPumpRows(known, sheet);
  addCaution(sheet, format::Caution::MainsNearWater);
  if (!flow.network.starts) {
    sheet.headline = tr("The pump never starts: it never lifts the water over the panel.");
    sheet.body =
        tr("To fill the way the first time it must lift %1; at no flow it reaches %2. Once water stands in the whole "
           "way a sealed return would help, but it never gets there.")
            .arg(height(flow.network.startingLift_m, known), height(flow.shutOffHead.si(), known));
    return;
  }
  sheet.headline = tr("%1 reach the panel, %2.").arg(num(flow.flow.value, known), bareRange(flow.flow, known));
  sheet.body = isLabelled(known)
                   ? tr("The label says %1. Label flow and label lift never occur together; the curve between them "
                        "meets this tube here.")
                         .arg(num(known.document.plumbing.pump.labelFlow.value, known))
                   : tr("The measured pump curve meets this tube here.");
  const auto& run = flow.network.runs.front();
  sheet.formula = {tr("Δp = f · L/d · ρv²/2, piece by piece along the run, straights and bends apart"),
                   tr("L = %1, d = %2, v = %3")
                       .arg(len(metres(known.results.layout->runs.front().cutLength_m), LengthScale::Run, known),
                            drawn(known.document.tube.insideDiameter.value.si(), known),
                            num(metresPerSecond(run.loss.velocity_m_s), known)),
                   tr("Δp = %1 in the run; the pump gives %2 of head")
                       .arg(num(pascals(run.loss.loss_Pa), known), height(flow.head.value.si(), known))};
  sheet.remark =
      tr("Reynolds number %1, %2. It must lift %3 to start; the lowest pressure on the way is %4 against the air.")
          .arg(plain(run.loss.reynolds, 0), regimeWords(flow.regime), height(flow.network.startingLift_m, known),
               num(flow.lowest, known));
  sheet.sources = {
      tr("Darcy and Weisbach; Colebrook 1939; White 1929, Ito 1959 in bends; Borda and Carnot at the "
         "barbs. The pump's curve through two label numbers is a parabola (assumption).")};
}

}  // namespace sunspool::questions
