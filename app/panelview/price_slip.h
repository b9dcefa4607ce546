// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The price at the hand: what a pull changes in turns, tube, heat and money, and what it runs into.

#include <QPointF>
#include <QRectF>
#include <QString>
#include <optional>
#include <vector>

#include "app/format/format.h"
#include "app/render/marks.h"
#include "core/results/results.h"

class QPainter;

namespace sunspool::panelview {

struct SlipColumn {
  format::NumberAndUnit head;  ///< signed when it is a change
  QString below;
  bool settling = false;  ///< not reckoned yet: said so, no number
};

struct PriceSlip {
  std::vector<SlipColumn> columns;
  QString title;  ///< what it runs into, one sentence
  QString text;   ///< more of the same, may be empty
  render::EdgeState state = render::EdgeState::Smooth;
  std::optional<results::Bend> bend;  ///< shown end-on

  QSizeF size(const render::Tokens& tokens) const;
  void draw(QPainter& painter, const render::Tokens& tokens, const format::Preferences& preferences,
            QPointF topLeft) const;
};

/// How far results have come: layout at once, heat and money later.
enum class Freshness { Settled, Settling };
/// Changes of tube, heat and money from `before` to `now`.
std::vector<SlipColumn> changesOf(const results::Results& before, const results::Results& now, Freshness freshness,
                                  const std::string& currency, const format::Preferences& preferences);
/// "+4.6", "−18", "±0".
format::NumberAndUnit withSign(const format::NumberAndUnit& number, double value);
/// The first open finding of `now` that `before` did not have.
const Snag* newSnag(const results::Results& before, const results::Results& now);

}  // namespace sunspool::panelview
