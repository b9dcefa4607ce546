// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The typefaces of the three voices, with what stands in for them where a package is missing.

#include <QFont>
#include <QStringList>

#include "core/sheet/display_list.h"

namespace sunspool::render {

/// Families of a voice of the sheets, the wanted one first; glyphs it lacks are taken from the next.
QStringList sheetFamilies(sheet::Voice voice);

/// The font of a text on a sheet, in points, without hinting: the same shapes on paper, screen and PDF.
QFont sheetFont(const sheet::Text& text);

/// Width of a text as paintSheet() paints it, in paper millimetres. Needs a QGuiApplication.
double textWidth_mm(const sheet::Text& text);

}  // namespace sunspool::render
