// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The look in numbers: colours, type, space. One set per theme; see DEVELOPERS.md, "The look".

#include <QColor>
#include <QFont>
#include <QPalette>
#include <array>

namespace sunspool::render {

enum class Theme { Light, Dark, ContrastOnWhite, ContrastOnBlack };

struct Tokens {
  Theme theme = Theme::Light;
  QColor desk, paper, slip, ink, ink2, mark, hair, violet, wash, straw, strawInk, plate, onPlate, timber, grain, tape,
      tapePrint;
  std::array<QColor, 11> ramp;  ///< cool to warm
  double textScale = 1.0;

  /// Ramp colour at 0 to 1, interpolated in sRGB and quantised to 64 steps.
  QColor rampAt(double share) const;
  QPalette palette() const;
  /// Lengths of the look grow with the text.
  double px(double at100Percent) const { return at100Percent * textScale; }
  /// Line widths grow with the square root of the text.
  double line(double at100Percent) const;
  bool isDark() const;
  bool isHighContrast() const;
};
Tokens tokensFor(Theme theme, double textScale);

/// The three voices. Sizes in px at 100 %, scaled by textScale.
enum class Voice { Said, Measured, Engraved };
QFont font(const Tokens& tokens, Voice voice, double pixelSize, QFont::Weight weight = QFont::Normal,
           bool italic = false);

/// The current look, and who wants to know when it changes.
class Look;

}  // namespace sunspool::render
