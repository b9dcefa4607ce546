// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/tube_shape.h"

#include <algorithm>
#include <cmath>

#include "app/panelview/scene_units.h"

namespace sunspool::panelview {

namespace {

constexpr double kChordError_px = 0.15;

int stepOf(double water_K, double low_K, double high_K) {
  if (!(high_K > low_K)) return 0;
  const double share = std::clamp((water_K - low_K) / (high_K - low_K), 0.0, 1.0);
  return static_cast<int>(std::lround(share * (kColourSteps - 1)));
}

/// Number of chords that keep an arc of this radius within the error.
int chordsOf(const geometry::Arc& arc, double radius_px) {
  const double cosine = 1.0 - kChordError_px / std::max(radius_px, kChordError_px);
  const double angle = 2.0 * std::acos(std::clamp(cosine, -1.0, 1.0));
  return std::max(2, static_cast<int>(std::ceil(std::abs(arc.sweep) / angle)));
}

}  // namespace

std::vector<ColourStep> colourSteps(std::span<const results::RunProfile::Point> profile, double low_K, double high_K) {
  std::vector<ColourStep> steps;
  if (profile.empty()) return {{0.0, 0}};
  steps.push_back({0.0, stepOf(profile.front().water_K, low_K, high_K)});
  for (std::size_t i = 1; i < profile.size(); ++i) {
    const auto& a = profile[i - 1];
    const auto& b = profile[i];
    const int from = stepOf(a.water_K, low_K, high_K), to = stepOf(b.water_K, low_K, high_K);
    const int sign = to > from ? 1 : -1;
    for (int step = from; step != to; step += sign) {
      // Rounding changes half way between two steps of the ramp.
      const double edge_K = low_K + (high_K - low_K) * (step + 0.5 * sign) / (kColourSteps - 1);
      const double share = std::clamp((edge_K - a.water_K) / (b.water_K - a.water_K), 0.0, 1.0);
      steps.push_back({a.station_m + share * (b.station_m - a.station_m), step + sign});
    }
  }
  return steps;
}

TubeShape::TubeShape(const layout::LaidRun& run, double outsideDiameter_m, std::span<const ColourStep> colours)
    : m_run(run), m_halfWidth(outsideDiameter_m * kSceneUnitsPerMetre / 2.0) {
  const double crossingFrom = run.crossing ? run.crossing->from_m : run.path.length().si();
  const auto pieces = run.path.pieces();
  const auto boxOf = [this](const geometry::Piece& piece) {
    return toScene(geometry::bounds(piece)).adjusted(-m_halfWidth, -m_halfWidth, m_halfWidth, m_halfWidth);
  };
  const auto add = [&](std::size_t i, double from, double to, Level level) {
    if (to - from <= 0.0) return;
    const double start = run.path.stationOf(i);
    auto& whole = m_pieces[static_cast<int>(level)];
    auto& cut = m_stretches[static_cast<int>(level)];
    const geometry::Piece part = geometry::slice(pieces[i], from - start, to - start);
    whole.push_back({part, boxOf(part), from, to, 0});
    auto colour = std::upper_bound(colours.begin(), colours.end(), from,
                                   [](double s, const ColourStep& c) { return s < c.station_m; });
    int step = colour == colours.begin() ? colours.front().step : std::prev(colour)->step;
    double at = from;
    for (; colour != colours.end() && colour->station_m < to; ++colour) {
      if (colour->station_m > at) {
        const geometry::Piece piece = geometry::slice(pieces[i], at - start, colour->station_m - start);
        cut.push_back({piece, boxOf(piece), at, colour->station_m, step});
        at = colour->station_m;
      }
      step = colour->step;
    }
    const geometry::Piece rest = geometry::slice(pieces[i], at - start, to - start);
    cut.push_back({rest, boxOf(rest), at, to, step});
  };
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const double from = run.path.stationOf(i), to = run.path.stationOf(i + 1);
    add(i, from, std::min(to, crossingFrom), Level::Turns);
    add(i, std::max(from, crossingFrom), to, Level::Crossing);
  }
}

const std::vector<Stretch>& TubeShape::pieces(Level level) const { return m_pieces[static_cast<int>(level)]; }
const std::vector<Stretch>& TubeShape::stretches(Level level) const { return m_stretches[static_cast<int>(level)]; }

QPolygonF centreLine(const geometry::Piece& piece, double pxPerUnit) {
  if (const auto* line = std::get_if<geometry::Line>(&piece))
    return QPolygonF({toScene(line->start), toScene(line->end)});
  const auto& arc = std::get<geometry::Arc>(piece);
  const int chords = chordsOf(arc, arc.radius * kSceneUnitsPerMetre * pxPerUnit);
  QPolygonF points;
  points.reserve(chords + 1);
  for (int i = 0; i <= chords; ++i) {
    const double angle = arc.startAngle + arc.sweep * i / chords;
    points << toScene(arc.centre + geometry::Point{std::cos(angle), std::sin(angle)} * arc.radius);
  }
  return points;
}

}  // namespace sunspool::panelview
