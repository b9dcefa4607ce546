// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From display lists in paper millimetres to paper: PDF, printer, picture. Paints what stands in the list, no more.

#include <QByteArray>
#include <QString>
#include <span>

#include "core/base/result.h"
#include "core/model/document.h"
#include "core/sheet/display_list.h"

class QPainter;

namespace sunspool::render {

/// Paints one sheet at full size: one millimetre of it is one millimetre of the device, by its resolution.
/// The painter's own transformation comes on top.
void paintSheet(QPainter& painter, const sheet::Sheet& sheet);

/// What a PDF says about itself.
struct PdfInfo {
  QString title;
  /// Stands in the file as the moment it was made, so that the same design gives the same bytes on every day and in
  /// every time zone.
  model::Moment moment;
};

/// All sheets as one PDF with its fonts in it, 1200 dots to the inch, each page of its sheet's size. Pages and bytes
/// are the same for the same sheets and fonts. Needs a QGuiApplication, offscreen will do.
/// RenderFailed (`where` = the title) when there is nothing to paint or the PDF could not be made.
Result<QByteArray> toPdf(std::span<const sheet::Sheet> sheets, const PdfInfo& info);

}  // namespace sunspool::render
