// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "app/gestures/gesture.h"

namespace sunspool::gestures {

/// Pulls tube into the bare core or back out of it, a quarter turn at a time. Its number is quarter turns of a run.
class InnerEnd : public Gesture {
 public:
  QString key() const override { return QStringLiteral("inner_end"); }
  QString name() const override;
  std::optional<Handle> handle(const Design& design) const override;
  double value(const Design& design) const override;
  double step() const override { return 1.0; }
  Edit edit(double value) const override;
  /// As turns: "16 1/4".
  format::NumberAndUnit text(double value, const format::Preferences& preferences) const override;
  Dimension dimension() const override { return Dimension::None; }
  bool countsTurns() const override { return true; }
  std::string bareUnit(const format::Preferences&) const override { return ""; }
  double fromTyped(double turns) const override;  ///< to whole quarter turns
  double toTyped(double quarterTurns) const override { return quarterTurns / 4.0; }
  format::NumberAndUnit typedText(double turns, const format::Preferences& preferences) const override;
  QString stepText(double value, const format::Preferences& preferences) const override;
  QString hint() const override;

 protected:
  void prepare() override;
  double valueAt(geometry::Point hand) const override;
  /// Lengths that have no way out are stepped over; past the last one the next is proposed, to be refused with its
  /// reason.
  double stepped(double value, int steps) const override;

 private:
  struct End {
    double quarterTurns = 0.0;
    geometry::Point at;
  };
  std::vector<End> m_ends;  ///< of every run length near the held one that can be laid
};

/// Turns as a person counts them: "16", "16¼".
QString turnsInWords(double quarterTurns);

}  // namespace sunspool::gestures
