// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/checks/measures.h"
#include "core/remedies/trial.h"

namespace sunspool::remedies {
namespace {

constexpr double kCloseIndex = 0.6, kFlattenIndex = 0.8;  // the steps of checks::measureBends
constexpr double kStrainLimit = 0.08;                     // of checks::check
constexpr double kMillimetre = 1e-3;

Edit largerRadius(double radius_m) {
  return [radius_m](model::Document document) {
    document.laying.bendRadius = metres(radius_m);
    // Plain turns join neighbouring passes: the pitch goes with the radius.
    if (document.laying.recipe == model::Recipe::PlainSerpentine) {
      document.laying.pitch = std::max(document.laying.pitch, metres(2.0 * radius_m));
    }
    return accepted(fitted(std::move(document)));
  };
}

Edit otherTube(const model::Tube& tube) {
  return [tube](model::Document document) { return withOtherTube(std::move(document), tube); };
}

/// The first two that do.
void offerTubes(Trial& trial, const std::function<bool(const model::Tube&)>& does) {
  int kept = 0;
  for (const model::Tube& tube : trial.tubes()) {
    if (!does(tube)) continue;
    if (trial.offer(RemedyKind::OtherTube, otherTube(tube), {}, tube.name) && ++kept == 2) return;
  }
}

Edit largerPitch(double pitch_m) {
  return [pitch_m](model::Document document) {
    document.laying.pitch = metres(pitch_m);
    return accepted(fitted(std::move(document)));
  };
}

Edit throughTheBack() {
  return [](model::Document document) {
    document.laying.innerEnd = model::InnerEnd::ThroughTheBack;
    document.laying.returnShift = {};
    return accepted(fitted(std::move(document)));
  };
}

/// A hole the tube goes through with room to grow. Assumption: 2 mm over its outside.
Fact holeFact(const model::Document& document) {
  return lengthFact("hole", document.tube.outsideDiameter.value.si() + 2.0 * kMillimetre);
}

/// The boards of the Shed are of the old depth: as long, to be bought, their price not known.
void withDeeperBoards(model::Document& document, double depth_m) {
  const auto depthText = [](double metres_) { return std::to_string(std::lround(metres_ / kMillimetre)); };
  const std::string was = depthText(document.frame.timberDepth.si()), now = depthText(depth_m);
  for (model::TimberStock& timber : document.stock.timbers) {
    const std::size_t at = timber.name.rfind(was);
    if (at != std::string::npos) timber.name.replace(at, was.size(), now);
    timber.owned = 0;
    timber.price.reset();
  }
  document.frame.timberDepth = metres(depth_m);
}

}  // namespace

void bendRemedies(Trial& trial) {
  if (!trial.results().bends) return;
  const model::Tube& tube = trial.document().tube;
  const double collapse = trial.results().bends->collapseRadius.si();
  const double strained = 0.5 * tube.outsideDiameter.value.si() / kStrainLimit;
  // A tenth of a millimetre over the step, then the whole millimetre a builder can set.
  std::set<double> radii;
  for (const double radius : {collapse / kFlattenIndex, collapse / kCloseIndex, strained}) {
    radii.insert(roundedUp(radius + 1e-4, kMillimetre));
  }
  radii.insert(roundedUp(std::max(collapse / kCloseIndex, strained) + 1e-4, kMillimetre));
  const double now = trial.document().laying.bendRadius.si();
  for (const double radius : radii) {
    if (radius <= now) continue;
    trial.offer(RemedyKind::LargerBendRadius, largerRadius(radius), {lengthFact("radius", radius)});
  }
  const double smallest =
      trial.results().bends->worst ? trial.results().bends->worst->radius_m : trial.document().laying.bendRadius.si();
  offerTubes(trial, [&](const model::Tube& other) {
    return checks::collapseRadius(other).si() / smallest < kFlattenIndex &&
           0.5 * other.outsideDiameter.value.si() / smallest <= kStrainLimit;
  });
}

void spacingRemedies(Trial& trial) {
  const double now = trial.document().laying.pitch.si();
  const double missing = trial.snag().limit.value_si - trial.snag().measured.value_si;
  for (const double extra : {0.0, 1.0, 2.0}) {
    const double pitch = roundedUp(now + missing + extra * kMillimetre, 0.5 * kMillimetre);
    if (trial.offer(RemedyKind::LargerPitch, largerPitch(pitch), {lengthFact("pitch", pitch)})) break;
  }
  const double wanted = now - trial.snag().limit.value_si;
  for (const model::Tube& tube : trial.tubes()) {
    if (tube.outsideDiameter.value.si() > wanted) continue;
    const Edit edit = [tube](model::Document document) {
      const Length pitch = document.laying.pitch;
      Result<model::Document> other = withOtherTube(std::move(document), tube);
      if (!other.has_value()) return other;
      other->laying.pitch = pitch;
      return accepted(fitted(*other));
    };
    if (trial.offer(RemedyKind::OtherTube, edit, {}, tube.name)) break;
  }
}

void depthRemedies(Trial& trial) {
  const model::Document& document = trial.document();
  const double spare = 3.0 * kMillimetre;  // of checks::check: the flatness of a sheet
  const double missing = trial.snag().measured.value_si - trial.snag().limit.value_si + spare;
  trial.offer(RemedyKind::InnerEndThroughBack, throughTheBack(), {holeFact(document)});
  const double depth = document.frame.timberDepth.si();
  const double deeper = depth + roundedUp(missing, 5.0 * kMillimetre);
  trial.offer(RemedyKind::DeeperTimber,
              [deeper](model::Document d) {
                withDeeperBoards(d, deeper);
                return accepted(std::move(d));
              },
              {lengthFact("depth", deeper), lengthFact("was", depth)});
  if (document.box.insulation) {
    const double thick = document.box.insulation->thickness.si();
    const double thinner = roundedDown(thick - missing, 5.0 * kMillimetre);
    // Less than half of it is another box, not a remedy.
    if (thinner >= 0.5 * thick) {
      trial.offer(RemedyKind::ThinnerInsulation,
                  [thinner](model::Document d) {
                    d.box.insulation->thickness = metres(thinner);
                    d.box.insulation->pricePerSquareMetre.reset();  // the price was that of the thicker board
                    return accepted(std::move(d));
                  },
                  {lengthFact("thickness", thinner), lengthFact("was", thick)});
    }
  }
  const double standOff = document.tube.outsideDiameter.value.si() + 2.0 * kMillimetre;
  trial.offer(RemedyKind::InnerEndUnder,
              [standOff](model::Document d) {
                d.laying.innerEnd = model::InnerEnd::UnderTheTurns;
                d.box.standOff = std::max(d.box.standOff, metres(standOff));
                return accepted(fitted(std::move(d)));
              },
              {lengthFact("stand_off", standOff)});
  trial.offer(
      RemedyKind::OtherRecipe,
      [](model::Document d) {
        d.laying.recipe = model::Recipe::DoubleSpiral;
        d.laying.quarterTurns.reset();
        return accepted(std::move(d));
      },
      {}, "double_spiral");
}

void tailRemedies(Trial& trial) {
  double shortBy = 0.0;
  for (const layout::LaidRun& run : trial.results().layout->runs) shortBy = std::max(shortBy, run.tailShortBy_m);
  const double tail = roundedUp(trial.document().laying.returnTail.si() + shortBy, 10.0 * kMillimetre);
  trial.offer(RemedyKind::LongerTail,
              [tail](model::Document d) {
                d.laying.returnTail = metres(tail);
                return accepted(std::move(d));
              },
              {lengthFact("tail", tail)});
  trial.offer(RemedyKind::InnerEndThroughBack, throughTheBack(), {holeFact(trial.document())});
}

}  // namespace sunspool::remedies
