// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "app/questions/parts.h"

namespace sunspool::questions {

using render::EdgeState;

Answer warmsAnswer(const Known& known) {
  if (!known.results.heat.has_value())
    return refused(Question::Warms, tr("No heat"), known.results.heat.error(), known);
  const results::Heat& heat = *known.results.heat;
  Answer a{title(Question::Warms), num(heat.toPool.value, known), {}, {}, EdgeState::Smooth};
  a.shortSecond = bareRange(heat.toPool, known);
  a.second = tr("%1; leaves %2 warmer").arg(a.shortSecond, num(heat.rise.value, known));
  if (heat.toPool.value.si() <= 0.0) {
    a.second = tr("it cools the pool at this hour");
    a.shortSecond = tr("it cools the pool");
    a.state = EdgeState::OneTooth;
  }
  if (known.before != nullptr && known.before->results->heat.has_value()) {
    sayDifference(
        a, signedFact((heat.toPool.value - known.before->results->heat->toPool.value).si(), Dimension::Power, known));
  }
  return a;
}

namespace {

/// Whole percents that add up to 100: what rounding leaves goes to those it cut most.
std::vector<int> wholePercents(const std::vector<double>& shares) {
  std::vector<int> percents;
  std::vector<std::pair<double, std::size_t>> cut;
  int sum = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const double exact = 100.0 * shares[i];
    percents.push_back(static_cast<int>(std::floor(exact)));
    cut.emplace_back(exact - std::floor(exact), i);
    sum += percents.back();
  }
  std::sort(cut.rbegin(), cut.rend());
  for (std::size_t i = 0; i < cut.size() && sum < 100; ++i, ++sum) ++percents[cut[i].second];
  return percents;
}

PicturePtr sunSharesPicture(const Known& known) {
  const thermal::SunShares& shares = known.results.heat->steady.shares;
  if (!(shares.falling_W > 0.0)) return nullptr;
  using Kind = SunShareRow::Kind;
  const struct {
    QString name;
    double watts;
    Kind kind;
  } parts[] = {{tr("to the pool"), shares.toWater_W, Kind::ToPool},
               {tr("reflected, or left on bare plate"), shares.reflected_W, Kind::Reflected},
               {tr("through the top"), shares.top_W, Kind::Lost},
               {tr("through the back"), shares.back_W, Kind::Lost},
               {tr("through the edges"), shares.edge_W, Kind::Lost}};
  std::vector<double> all;
  for (const auto& part : parts) all.push_back(part.watts / shares.falling_W);
  const std::vector<int> percents = wholePercents(all);
  std::vector<SunShareRow> rows;
  for (std::size_t i = 0; i < std::size(parts); ++i) {
    rows.push_back(
        {parts[i].name, num(watts(parts[i].watts), known), tr("%1 %").arg(percents[i]), all[i], parts[i].kind});
  }
  return sunPicture(std::move(rows));
}

}  // namespace

void warmsSheet(const Known& known, QuestionSheet& sheet) {
  const std::string_view asked[] = {"/pool/water", "/conditions/air", "/conditions/wind", "/box/plate_contact_share"};
  addInfluences(sheet, Moves::Heat, asked, known);
  append(sheet.inputs, sitingRows(known));
  sheet.moves = tr("moves the heat");
  if (!known.results.heat.has_value()) {
    sheet.headline = format::sentence(known.results.heat.error(), known.preferences);
    return;
  }
  const results::Heat& heat = *known.results.heat;
  const bool cools = heat.toPool.value.si() < 0.0;
  sheet.headline =
      cools
          ? tr("The panel takes %1 out of the pool at this hour.").arg(num(-heat.toPool.value, known))
          : tr("%1 go to the pool at this hour, %2.").arg(num(heat.toPool.value, known), bareRange(heat.toPool, known));
  sheet.body =
      (cools ? tr("The water leaves at %1, %2 cooler than it came: leave the pump off at this hour.")
             : tr("The water leaves at %1, %2 warmer than it came. A small rise is right: a cooler panel loses less."))
          .arg(num(heat.outlet.value, known), num(cools ? -heat.rise.value : heat.rise.value, known));
  sheet.picture = sunSharesPicture(known);
  const double loss = heat.steady.topLoss_W_m2K + heat.steady.backLoss_W_m2K + heat.steady.edgeLoss_W_m2K;
  sheet.formula = {
      tr("Q = A · F' · [ταG·share − U·(water − air)], marched along the run"),
      tr("A = %1 inside the frame, ταG = %2 · %3, share = %4, U = %5 W/m²K, F' = %6")
          .arg(num(known.document.frame.insideWidth * known.document.frame.insideHeight, known),
               plain(heat.steady.tauAlpha, 2),
               known.results.sun.has_value() ? num(wattsPerSquareMetre(known.results.sun->plane.total_W_m2), known)
                                             : QString(),
               plain(heat.steady.opticalShare, 2), plain(loss, 1), plain(heat.steady.efficiencyFactor, 2)),
      tr("Q = %1, %2 % of the sun on the area inside the frame, %3 % on the outer area")
          .arg(num(heat.toPool.value, known), plain(100.0 * heat.steady.efficiencyInside, 0),
               plain(100.0 * heat.steady.efficiencyGross, 0))};
  sheet.remark =
      tr("The bars are of the %1 that fall inside the frame of one panel; tube outside the box adds %2. Efficiency "
         "always names its area: of the inside here.")
          .arg(num(watts(heat.steady.shares.falling_W), known), num(watts(heat.steady.tails_W), known));
  sheet.sources = {
      tr("Hottel and Whillier, after Duffie and Beckman, chapter 6; Hollands 1976 in the air gap; Perez 1990 on the "
         "slope; Ineichen and Perez 2002 for the clear sky.")};
  addCaution(sheet, format::Caution::FirstWaterScalds);
}

}  // namespace sunspool::questions
