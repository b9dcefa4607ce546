// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "app/questions/parts.h"

namespace sunspool::questions {

using format::LengthScale;
using render::EdgeState;

Answer fitsAnswer(const Known& known) {
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
  if (known.before != nullptr) {
    const Length before = known.before->results->depth.crossingSpare;
    sayDifference(a, signedLength((spare - before).si(), LengthScale::Drawing, known));
  }
  return a;
}

namespace {

DepthModel depthModel(const Known& known) {
  const results::DepthBudget& depth = known.results.depth;
  DepthModel model;
  for (const auto& layer : depth.layers) {
    model.layers.push_back(
        {layer.part, format::partInWords(layer.part), drawn(layer.thickness.si(), known), layer.thickness.si()});
  }
  model.available_m = depth.available.si();
  model.spare_m = depth.crossingSpare.si();
  model.availableWords = tr("frame, %1 deep").arg(drawn(depth.available.si(), known));
  model.spareWords = depth.crossingSpare.si() >= 0.0 ? tr("%1 free").arg(drawn(depth.crossingSpare.si(), known))
                                                     : tr("%1 too high").arg(drawn(-depth.crossingSpare.si(), known));
  return model;
}

/// Unequal runs share the flow by their loss, not by their length.
QString imbalanceWords(const Known& known) {
  const auto& runs = known.results.layout->runs;
  if (runs.size() < 2 || !known.results.flow.has_value()) return {};
  const auto [shortest, longest] = std::minmax_element(
      runs.begin(), runs.end(), [](const auto& a, const auto& b) { return a.cutLength_m < b.cutLength_m; });
  const results::Flow& flow = *known.results.flow;
  if (!flow.imbalanceCost) return tr("The runs are equally long and share the flow evenly.");
  const QString share = format::number(Fact{{}, flow.imbalance, Dimension::Percent}, known.preferences).joined();
  const QString lengths = tr("The runs are %1 to %2 long and their flows differ by %3 of the mean")
                              .arg(len(metres(shortest->cutLength_m), LengthScale::Run, known),
                                   len(metres(longest->cutLength_m), LengthScale::Run, known), share);
  return lengths +
         tr(", which costs %1 of heat against flows shared by their lengths.").arg(num(*flow.imbalanceCost, known));
}

}  // namespace

void fitsSheet(const Known& known, QuestionSheet& sheet) {
  sheet.inputs = layingRows(known);
  if (!known.results.layout.has_value()) {
    sheet.headline = format::sentence(known.results.layout.error(), known.preferences);
    sheet.body = tr("Nothing else can be said before a run can be laid.");
    return;
  }
  const layout::LaidPanel& laid = *known.results.layout;
  const results::DepthBudget& depth = known.results.depth;
  sheet.headline = depth.crossingSpare.si() >= 0.0
                       ? tr("Everything fits, by %1 in depth.").arg(drawn(depth.crossingSpare.si(), known))
                       : tr("The box is %1 too shallow.").arg(drawn(-depth.crossingSpare.si(), known));
  sheet.body =
      tr("%1 of tube lie inside the frame and cover %2 % of it")
          .arg(len(laid.tubeInside, LengthScale::Run, known), plain(100.0 * laid.coverage, 0)) +
      (std::isfinite(laid.smallestSpacing_m)
           ? tr("; neighbouring centre lines come no closer than %1.").arg(drawn(laid.smallestSpacing_m, known))
           : tr("; nothing lies beside anything else."));
  if (const QString imbalance = imbalanceWords(known); !imbalance.isEmpty()) {
    sheet.body += QLatin1Char(' ') + imbalance;
  }
  sheet.picture = depthPicture(depthModel(known));
  QStringList sum;
  for (const auto& layer : depth.layers) sum << drawn(layer.thickness.si(), known);
  sheet.formula = {tr("free = depth of the frame − all layers"),
                   tr("%1 − (%2)").arg(drawn(depth.available.si(), known), sum.join(QStringLiteral(" + "))),
                   tr("free = %1").arg(drawn(depth.crossingSpare.si(), known))};
  sheet.remark = tr("The frame's faces keep %1 from the tube. Filled with water the panel weighs %2, %3 kg/m².")
                     .arg(drawn(known.document.laying.margin.si(), known), num(known.results.masses.wet, known),
                          plain(known.results.masses.wet_kg_m2, 1));
  sheet.sources = {tr("Plain sums of the drawing; layers as they were entered.")};
  addCaution(sheet, format::Caution::WindLifts);
  addCaution(sheet, format::Caution::WorkOnRoof);
}

}  // namespace sunspool::questions
