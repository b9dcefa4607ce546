// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A roll of the Shed dropped on the panel, by hand or by key.

#include <QByteArray>
#include <QString>
#include <cstddef>
#include <optional>

#include "app/format/format.h"
#include "core/layout/from_roll.h"

namespace sunspool::gestures {

/// What a dragged roll says of itself: its place in the Shed of the project.
QString rollMime();
QByteArray rollBytes(std::size_t roll);
std::optional<std::size_t> rollOf(const QByteArray& bytes);

struct RollDrop {
  layout::LaidFromRoll laid;
  QString step;     ///< for undo
  QString remains;  ///< one sentence: what stays on the roll
};
/// Errors of layout::layFromRoll.
Result<RollDrop> rollDrop(const model::Document& document, std::size_t roll, const format::Preferences& preferences);

}  // namespace sunspool::gestures
