// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/gestures/inner_end.h"

#include <QCoreApplication>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/model/edits.h"

namespace sunspool::gestures {

namespace {

/// A hand reaches this many quarter turns either way in one pull; more is typed.
constexpr int kReach = 16;
/// Beyond this a typed number is a slip of the finger.
constexpr double kMostQuarterTurns = 1e6;

geometry::Point endOfTurns(const layout::LaidPanel& panel) {
  const layout::LaidRun& run = panel.runs.front();
  return run.path.pointAt(run.turnsTo_m);
}

}  // namespace

QString turnsInWords(double quarterTurns) {
  static const std::array<QString, 4> kQuarters = {QString(), QStringLiteral("¼"), QStringLiteral("½"),
                                                   QStringLiteral("¾")};
  const long quarters = std::lround(std::abs(quarterTurns));
  const QString whole = quarters >= 4 || quarters == 0 ? QString::number(quarters / 4) : QString();
  const QString sign = quarterTurns < 0.0 && quarters != 0 ? QString(QChar(0x2212)) : QString();
  return sign + whole + kQuarters[static_cast<std::size_t>(quarters % 4)];
}

QString InnerEnd::name() const { return QCoreApplication::translate("sunspool::gestures", "Inner end"); }

QString InnerEnd::hint() const {
  return QCoreApplication::translate("sunspool::gestures",
                                     "Left and right arrow pull it too. Type a number of turns. Escape puts it back.");
}

format::NumberAndUnit InnerEnd::text(double value, const format::Preferences&) const {
  return {turnsInWords(value), QCoreApplication::translate("sunspool::gestures", "turns")};
}

QString InnerEnd::stepText(double value, const format::Preferences&) const {
  return QCoreApplication::translate("sunspool::gestures", "Lay %1 turns").arg(turnsInWords(value));
}

format::NumberAndUnit InnerEnd::typedText(double turns, const format::Preferences&) const {
  return {QString::number(turns), {}};
}

double InnerEnd::fromTyped(double turns) const { return std::round(turns * 4.0); }

std::optional<Handle> InnerEnd::handle(const Design& design) const {
  if (!design.panel || design.panel->runs.empty()) return std::nullopt;
  if (design.document->laying.recipe != model::Recipe::RectangularSpiral) return std::nullopt;
  const layout::LaidRun& run = design.panel->runs.front();
  return Handle{endOfTurns(*design.panel), run.path.tangentAt(run.turnsTo_m)};
}

double InnerEnd::value(const Design& design) const {
  if (!design.panel || design.panel->runs.empty()) return 0.0;
  return design.panel->runs.front().quarterTurns;
}

Edit InnerEnd::edit(double value) const {
  return [value](model::Document document) -> Result<model::Document> {
    if (!(std::abs(value) <= kMostQuarterTurns))
      return Error{ErrorCode::OutOfRange, "/laying/quarter_turns", "", {{"asked", value, Dimension::Count}}};
    return model::withQuarterTurns(std::move(document), static_cast<int>(std::lround(value)));
  };
}

void InnerEnd::prepare() {
  m_ends.clear();
  const int held = static_cast<int>(heldValue());
  for (int turns = std::max(1, held - kReach); turns <= held + kReach; ++turns) {
    model::Document document = *heldDesign().document;
    document.laying.quarterTurns = turns;
    const Result<layout::LaidPanel> panel = layout::lay(document);
    if (panel && !panel->runs.empty()) m_ends.push_back({static_cast<double>(turns), endOfTurns(*panel)});
  }
}

double InnerEnd::valueAt(geometry::Point hand) const {
  // The hand may have taken the handle off its centre.
  const geometry::Point wish = hand - heldAt() + handle(heldDesign())->at;
  double best = heldValue();
  double nearest = std::numeric_limits<double>::infinity();
  for (const End& end : m_ends) {
    const double away = geometry::distance(end.at, wish);
    if (away < nearest) {
      nearest = away;
      best = end.quarterTurns;
    }
  }
  return best;
}

double InnerEnd::stepped(double value, int steps) const {
  double at = value;
  for (int i = 0; i < std::abs(steps); ++i) {
    const double sign = steps > 0 ? 1.0 : -1.0;
    double next = at + sign;
    bool found = false;
    for (const End& end : m_ends) {
      if ((end.quarterTurns - at) * sign <= 0.0) continue;
      if (!found || (end.quarterTurns - next) * sign < 0.0) next = end.quarterTurns;
      found = true;
    }
    if (!found && i > 0) return at;  // ten steps end at the last length there is
    at = next;
    if (!found) return at;
  }
  return at;
}

}  // namespace sunspool::gestures
