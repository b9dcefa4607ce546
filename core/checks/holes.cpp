// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/checks/holes.h"

#include <algorithm>

#include "core/checks/measures.h"

namespace sunspool::checks {
namespace {

class Borer {
 public:
  Borer(const model::Document& document, const layout::LaidPanel& laid)
      : m_document(document),
        m_frame(document.frame),
        m_diameter_m((document.tube.outsideDiameter.value + kHoleClearance).si()) {
    // Centres over the back: of the turns, and of what crosses over or under them.
    const double radius_m = 0.5 * document.tube.outsideDiameter.value.si();
    double below_m = 0.0;
    for (const results::DepthBudget::Layer& layer : depthBudget(document, &laid).layers) {
      if (layer.part == "tube") m_turns_m = below_m + radius_m;
      if (layer.part == "crossing") m_crossing_m = below_m + layer.thickness.si() - radius_m;
      below_m += layer.thickness.si();
    }
  }

  void bore(const layout::LaidRun& run, const layout::Port& port, bool feed) {
    if (port.throughBack) return boreBack(run, port, feed);
    boreFrame(run, port, feed);
  }
  std::vector<results::Hole> take() { return std::move(m_holes); }

 private:
  results::Hole holeAt(const layout::LaidRun& run, const layout::Port& port, bool feed) const {
    results::Hole hole;
    hole.side = port.side;
    hole.run = run.letter;
    hole.feed = feed;
    hole.diameter_m = m_diameter_m;
    hole.x_m = port.at.x + m_frame.timberWidth.si();
    hole.y_m = port.at.y + m_frame.timberWidth.si();
    return hole;
  }

  void boreFrame(const layout::LaidRun& run, const layout::Port& port, bool feed) {
    results::Hole hole = holeAt(run, port, feed);
    const bool inRail = port.side == layout::Side::Bottom || port.side == layout::Side::Top;
    const double timber_m = m_frame.timberWidth.si();
    double& across_m = inRail ? hole.y_m : hole.x_m;
    const bool farSide = port.side == layout::Side::Top || port.side == layout::Side::Right;
    const double inside_m = (inRail ? m_frame.insideHeight : m_frame.insideWidth).si();
    across_m = farSide ? timber_m + inside_m + 0.5 * timber_m : 0.5 * timber_m;
    hole.part = inRail ? "rail" : "stile";
    hole.fromBack_m = !feed && run.crossing ? m_crossing_m : m_turns_m;
    const double fromInside_m = inRail ? port.at.x : port.at.y;
    const double length_m = (inRail ? m_frame.insideWidth : m_frame.insideHeight).si();
    hole.along_m = fromInside_m + (inRail == m_frame.railsThrough ? timber_m : 0.0);
    hole.left_m =
        std::min({fromInside_m, length_m - fromInside_m, hole.fromBack_m, m_frame.timberDepth.si() - hole.fromBack_m}) -
        0.5 * m_diameter_m;
    hole.nearEdge = isNearAnEdge(hole);
    m_holes.push_back(hole);
  }

  void boreBack(const layout::LaidRun& run, const layout::Port& port, bool feed) {
    results::Hole hole = holeAt(run, port, feed);
    hole.left_m =
        std::min({port.at.x, m_frame.insideWidth.si() - port.at.x, port.at.y, m_frame.insideHeight.si() - port.at.y}) -
        0.5 * m_diameter_m;
    hole.nearEdge = isNearAnEdge(hole);
    const auto through = [&](const char* part, bool isThere) {
      if (!isThere) return;
      hole.part = part;
      m_holes.push_back(hole);
    };
    through("plate", m_document.box.plate.has_value());
    through("insulation", m_document.box.insulation.has_value());
    through("backing", m_document.box.backing.has_value());
  }

  const model::Document& m_document;
  const model::Frame& m_frame;
  double m_diameter_m;
  double m_turns_m = 0.0;
  double m_crossing_m = 0.0;
  std::vector<results::Hole> m_holes;
};

}  // namespace

std::vector<results::Hole> holes(const model::Document& document, const layout::LaidPanel& laid) {
  Borer borer(document, laid);
  for (const layout::LaidRun& run : laid.runs) {
    borer.bore(run, run.feed, true);
    borer.bore(run, run.returning, false);
  }
  return borer.take();
}

bool isNearAnEdge(const results::Hole& hole) { return hole.left_m < hole.diameter_m; }

}  // namespace sunspool::checks
