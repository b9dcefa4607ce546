// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/render/fonts.h"

#include <QFontMetricsF>

namespace sunspool::render {

QStringList sheetFamilies(sheet::Voice voice) {
  switch (voice) {
    case sheet::Voice::Said:
      return {QStringLiteral("Charis SIL"), QStringLiteral("Noto Serif"), QStringLiteral("DejaVu Serif"),
              QStringLiteral("serif")};
    case sheet::Voice::Measured:
      return {QStringLiteral("Lato"), QStringLiteral("DejaVu Sans"), QStringLiteral("sans-serif")};
    case sheet::Voice::Engraved:
      return {QStringLiteral("Routed Gothic"), QStringLiteral("Lato"), QStringLiteral("DejaVu Sans"),
              QStringLiteral("sans-serif")};
  }
  return {};
}

QFont sheetFont(const sheet::Text& text) {
  QFont font(sheetFamilies(text.voice));
  font.setPointSizeF(text.size_pt);
  font.setWeight(text.weight == sheet::Weight::Bold ? QFont::Bold : QFont::Normal);
  font.setItalic(text.slant == sheet::Slant::Italic);
  font.setHintingPreference(QFont::PreferNoHinting);
  // Any spacing of at least 1/64 px turns ligatures off: text copied or read out of the PDF keeps its letters.
  font.setLetterSpacing(QFont::AbsoluteSpacing, 0.05);
  return font;
}

double textWidth_mm(const sheet::Text& text) {
  // Large enough that rounding to pixels does not show; the widths of unhinted text grow with its size.
  constexpr int kPixels = 1000;
  QFont font = sheetFont(text);
  font.setPixelSize(kPixels);
  const double width = QFontMetricsF(font).horizontalAdvance(QString::fromStdString(text.text));
  return width / kPixels * text.size_pt * sheet::kMillimetresPerPoint;
}

}  // namespace sunspool::render
