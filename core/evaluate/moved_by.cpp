// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/evaluate/moved_by.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

#include "core/checks/measures.h"
#include "core/checks/wind.h"
#include "core/evaluate/evaluate.h"
#include "core/evaluate/flow_and_heat.h"
#include "core/layout/layout.h"
#include "core/model/uncertain_inputs.h"
#include "core/model/validate.h"

namespace sunspool::evaluate {
namespace {

/// Inputs outside these branches of the document cannot move the number: asking them would only cost time.
bool mayMove(MovedNumber number, std::string_view pointer) {
  const auto under = [&](std::string_view branch) { return pointer.starts_with(branch); };
  switch (number) {
    case MovedNumber::CollapseRadius:
      return under("/tube/");
    case MovedNumber::TubeLength:
      return under("/laying/");
    case MovedNumber::Water:
      return under("/laying/") || pointer == "/tube/inside_diameter";
    case MovedNumber::StoppedTube:
      return under("/tube/") || under("/box/") || under("/conditions/");
    case MovedNumber::Uplift:
      return under("/siting/");
  }
  return false;
}

std::optional<double> stoppedTube_K(const model::Document& document, const layout::LaidPanel& laid) {
  const Result<thermal::Sky> sky = stoppedSky(document);
  if (!sky.has_value()) return std::nullopt;
  const Result<thermal::StoppedHeat> stopped = thermal::stopped(panelHeat(document, laid), *sky, 0.0);
  if (!stopped.has_value()) return std::nullopt;
  for (const thermal::StoppedLayer& layer : stopped->layers) {
    if (layer.part == "tube") return layer.dry_K;
  }
  return std::nullopt;
}

std::optional<double> valueOf(const model::Document& document, const layout::LaidPanel* laid, MovedNumber number) {
  constexpr Options kLayout{.depth = Depth::Layout, .ranges = false};
  switch (number) {
    case MovedNumber::CollapseRadius:
      return checks::collapseRadius(document.tube).si();
    case MovedNumber::TubeLength:
      if (laid == nullptr) return std::nullopt;
      return evaluate(document, kLayout).tubeLength.value.si();
    case MovedNumber::Water:
      if (laid == nullptr) return std::nullopt;
      return evaluate(document, kLayout).water.value.si();
    case MovedNumber::StoppedTube:
      return laid == nullptr ? std::nullopt : stoppedTube_K(document, *laid);
    case MovedNumber::Uplift: {
      const auto wind = checks::wind(document, checks::masses(document, laid));
      return wind ? std::optional(wind->uplift.value.si()) : std::nullopt;
    }
  }
  return std::nullopt;
}

std::optional<double> valueAt(const model::Document& document, const layout::LaidPanel* laid, MovedNumber number,
                              const model::UncertainInput& input, double spreads) {
  const Result<model::Document> shifted =
      model::shifted(document, input.pointer, input.value_si + spreads * input.spread_si);
  if (!shifted.has_value() || !model::validate(*shifted).has_value()) return std::nullopt;
  return valueOf(*shifted, laid, number);
}

}  // namespace

std::vector<MovedBy> movedBy(const model::Document& document, MovedNumber number) {
  const Result<layout::LaidPanel> result = layout::lay(document);
  const layout::LaidPanel* laid = result.has_value() ? &*result : nullptr;
  const std::optional<double> now = valueOf(document, laid, number);
  std::vector<MovedBy> moved;
  if (!now) return moved;
  for (const model::UncertainInput& input : model::uncertainInputs(document)) {
    if (!(input.spread_si > 0.0) || !mayMove(number, input.pointer)) continue;
    const std::optional<double> up = valueAt(document, laid, number, input, 1.0);
    const std::optional<double> down = valueAt(document, laid, number, input, -1.0);
    if (!up && !down) continue;
    const double half = up && down ? 0.5 * std::abs(*up - *down) : std::abs((up ? *up : *down) - *now);
    if (half > 0.0 && std::isfinite(half)) moved.push_back({input.pointer, input.sureness, half});
  }
  std::stable_sort(moved.begin(), moved.end(),
                   [](const MovedBy& a, const MovedBy& b) { return a.half_si > b.half_si; });
  return moved;
}

}  // namespace sunspool::evaluate
