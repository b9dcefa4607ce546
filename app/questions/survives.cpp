// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "app/questions/parts.h"

namespace sunspool::questions {

using render::EdgeState;

namespace {

QString degrees(double kelvin, const Known& known) { return num(Temperature::fromKelvin(kelvin), known); }
double hottest_K(const thermal::StoppedLayer& layer) { return std::max(layer.dry_K, layer.wet_K); }

/// The layer that stands most over its limit, or nearest below it.
const thermal::StoppedLayer* worstLayer(const thermal::StoppedHeat& stopped) {
  const thermal::StoppedLayer* worst = nullptr;
  for (const auto& layer : stopped.layers) {
    if (!layer.limit_K) continue;
    if (worst == nullptr || hottest_K(layer) - *layer.limit_K > hottest_K(*worst) - *worst->limit_K) worst = &layer;
  }
  return worst;
}

QString materialOf(const std::string& part, const Known& known) {
  const model::Box& box = known.document.box;
  if (part == "glazing" && box.glazing) return QString::fromStdString(box.glazing->sheet.material);
  if (part == "plate" && box.plate) return QString::fromStdString(box.plate->sheet.material);
  if (part == "insulation" && box.insulation) return QString::fromStdString(box.insulation->material);
  if (part == "backing" && box.backing) return QString::fromStdString(box.backing->material);
  if (part == "tube") return QString::fromStdString(known.document.tube.name);
  return {};
}

/// A limit somebody names beats one of the trade; nothing here was measured.
Sureness surenessOf(const std::string& limitSource) {
  const QString source = QString::fromStdString(limitSource);
  const bool vague = source.isEmpty() || source.contains(QStringLiteral("no source")) ||
                     source.contains(QStringLiteral("from memory"));
  return vague ? Sureness::Guess : Sureness::Label;
}

QString minutesWords(double minutes) {
  return minutes < 1.0 ? tr("under a minute") : tr("%1 min").arg(plain(minutes, 0));
}
/// The layer that is over its limit first; nullptr when no time is known.
const thermal::StoppedLayer* firstOver(const thermal::StoppedHeat& stopped) {
  const thermal::StoppedLayer* first = nullptr;
  for (const auto& layer : stopped.layers) {
    if (layer.minutesToLimit && (first == nullptr || *layer.minutesToLimit < *first->minutesToLimit)) first = &layer;
  }
  return first;
}

LedgerModel ledger(const Known& known) {
  LedgerModel model;
  model.unit = format::temperatureUnit(known.preferences);
  const auto shown = [&](double kelvin) {
    return format::temperatureOnAxis(Temperature::fromKelvin(kelvin), known.preferences);
  };
  model.from = shown(std::min(known.results.stoppedSky.air_K, celsius(20.0).inKelvin()));
  for (const auto& layer : known.results.stopped->layers) {
    LedgerRow row;
    row.part = layer.part;
    row.name = format::partInWords(layer.part);
    row.material = materialOf(layer.part, known);
    row.dry = shown(layer.dry_K);
    row.wet = shown(layer.wet_K);
    if (!layer.limit_K) {
      row.verdict = tr("no limit known");
      row.state = EdgeState::Dashed;
    } else {
      row.limit = shown(*layer.limit_K);
      row.limitSureness = surenessOf(layer.limitSource);
      const double over = hottest_K(layer) - *layer.limit_K;
      row.verdict = tr("not reached");
      if (over > 0.0) {
        row.state = EdgeState::TwoTeeth;
        row.verdict =
            layer.minutesToLimit ? minutesWords(*layer.minutesToLimit) : tr("%1 over").arg(num(kelvins(over), known));
        row.second = layer.minutesToLimit ? tr("estimate, steady sun") : tr("dry; upper bound");
      }
    }
    model.rows.push_back(std::move(row));
  }
  return model;
}

}  // namespace

Answer survivesAnswer(const Known& known) {
  if (!known.results.stopped.has_value())
    return refused(Question::Survives, tr("Not yet"), known.results.stopped.error(), known);
  const thermal::StoppedLayer* worst = worstLayer(*known.results.stopped);
  Answer a{title(Question::Survives), tr("No limit known"), tr("of any material here"), {}, EdgeState::Dashed};
  if (worst != nullptr) {
    a.answer = hottest_K(*worst) > *worst->limit_K ? tr("Limit reached") : tr("No limit reached");
    a.second =
        tr("%1 %2 with the pump off; limit %3")
            .arg(format::partInWords(worst->part), degrees(hottest_K(*worst), known), degrees(*worst->limit_K, known));
    a.shortSecond = tr("%1 %2").arg(format::partInWords(worst->part), degrees(hottest_K(*worst), known));
    if (const thermal::StoppedLayer* first = firstOver(*known.results.stopped)) {
      a.answer = tr("About %1").arg(minutesWords(*first->minutesToLimit));
      a.second = tr("then the %1 is over %2").arg(format::partInWords(first->part), degrees(*first->limit_K, known));
      a.shortSecond = tr("%1 over %2").arg(format::partInWords(first->part), degrees(*first->limit_K, known));
    }
    a.state = EdgeState::Smooth;
    const thermal::StoppedLayer* then = known.before != nullptr && known.before->results->stopped.has_value()
                                            ? worstLayer(*known.before->results->stopped)
                                            : nullptr;
    if (then != nullptr) {
      const QString difference =
          signedFact(hottest_K(*worst) - hottest_K(*then), Dimension::TemperatureDifference, known);
      sayDifference(a, difference);
    }
  }
  if (a.shortSecond.isEmpty()) a.shortSecond = a.second;
  a.state = render::worse(
      a.state,
      stateOf(known, {SnagCode::WaterBoilsWhenStopped, SnagCode::FirstSlugScalds, SnagCode::TubeOverLimitWhenStopped,
                      SnagCode::GlazingOverLimitWhenStopped, SnagCode::PlateOverLimitWhenStopped,
                      SnagCode::InsulationOverLimitWhenStopped, SnagCode::BackingOverLimitWhenStopped}));
  return a;
}

void survivesSheet(const Known& known, QuestionSheet& sheet) {
  const std::string_view asked[] = {"/conditions/air", "/conditions/wind", "/box/glazing/transmittance",
                                    "/box/shade_cloth"};
  addMovedBy(sheet, known.numbers != nullptr ? &known.numbers->stoppedTube : nullptr, Dimension::TemperatureDifference,
             asked, known);
  sheet.moves = tr("moves the dry tube");
  if (!known.results.stopped.has_value()) {
    sheet.headline = format::sentence(known.results.stopped.error(), known.preferences);
    return;
  }
  const thermal::StoppedHeat& stopped = *known.results.stopped;
  const thermal::StoppedLayer* worst = worstLayer(stopped);
  sheet.headline = tr("No limit of any material here is known.");
  if (worst != nullptr && hottest_K(*worst) > *worst->limit_K) {
    sheet.headline =
        tr("With the pump off in strong sun the %1 comes to %2, over its limit of %3.")
            .arg(format::partInWords(worst->part), degrees(hottest_K(*worst), known), degrees(*worst->limit_K, known));
  } else if (worst != nullptr) {
    sheet.headline =
        tr("With the pump off in strong sun no limit is reached in this model; the %1 comes nearest, "
           "%2 of %3.")
            .arg(format::partInWords(worst->part), degrees(hottest_K(*worst), known), degrees(*worst->limit_K, known));
  }
  if (const thermal::StoppedLayer* first = firstOver(stopped)) {
    sheet.headline = tr("The %1 passes its limit of %2 about %3 after the pump stops in strong sun.")
                         .arg(format::partInWords(first->part), degrees(*first->limit_K, known),
                              minutesWords(*first->minutesToLimit));
  }
  const thermal::Sky& sky = known.results.stoppedSky;
  sheet.body = tr("Judged for %1 on the panel, %2 and a wind of %3, whatever the hour: the standard condition, or this "
                  "day and place where they are harder. Dry means an empty tube; wet means water standing in it, which "
                  "boils at %4 here and gets no hotter.")
                   .arg(num(wattsPerSquareMetre(sky.beam_W_m2 + sky.sky_W_m2), known), degrees(sky.air_K, known),
                        num(metresPerSecond(sky.wind_m_s), known), degrees(stopped.boiling_K, known));
  sheet.picture = ledgerPicture(ledger(known));
  const auto tube = std::find_if(stopped.layers.begin(), stopped.layers.end(),
                                 [](const thermal::StoppedLayer& layer) { return layer.part == "tube"; });
  sheet.formula = {tr("it comes to rest where the sun taken up equals the losses: S = U · (absorber − surroundings)"),
                   tr("U = %1 W/m²K at the dry standstill").arg(plain(stopped.lossCoefficient_W_m2K, 1))};
  if (tube != stopped.layers.end()) {
    sheet.formula.push_back(tr("First slug: %1 at up to %2 leave first when the pump starts again.")
                                .arg(num(known.results.water.value, known), degrees(tube->wet_K, known)));
  }
  sheet.remark =
      tr("“Not reached” is said of this model only: temperatures are an upper bound for a sun that stands still, "
         "minutes an estimate good to a third of itself, and the model knows no hot corner, no aged plastic and no "
         "lens of water on the glazing.");
  for (const auto& layer : stopped.layers) {
    if (!layer.limitSource.empty())
      sheet.sources.push_back(
          tr("Limit of the %1: %2").arg(format::partInWords(layer.part), QString::fromStdString(layer.limitSource)));
  }
  addCaution(sheet, format::Caution::PlasticOverLimit);
  addCaution(sheet, format::Caution::SteamAndClosedValves);
  addCaution(sheet, format::Caution::FirstWaterScalds);
}

}  // namespace sunspool::questions
