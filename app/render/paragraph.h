// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QFont>
#include <QPointF>
#include <QString>

class QPainter;

namespace sunspool::render {

/// Breaks a paragraph into lines of this width at 1.4 line height and paints them when a painter is given.
/// Returns the y under the last line, `at.y()` for an empty text.
double paragraph(QPainter* painter, const QString& text, const QFont& font, const QColor& colour, QPointF at,
                 double width);

}  // namespace sunspool::render
