// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The small marks every view draws alike: state edges, sureness lines, numbers, tags, beads, flags, dimensions,
// hatches. All sizes are in px at 100 % text and grow with the tokens; all painters leave the QPainter as it was.

#include <QBrush>
#include <QPainterPath>
#include <QPointF>
#include <QRectF>
#include <QString>
#include <optional>

#include "app/format/format.h"
#include "app/render/tokens.h"
#include "core/base/snag.h"
#include "core/base/uncertain.h"

class QPainter;

namespace sunspool::render {

// --- state edge ---------------------------------------------------------------------------------

/// smooth: nothing found; one tooth: close; two teeth: snag; dashed: not known.
enum class EdgeState { Smooth, OneTooth, TwoTeeth, Dashed };
EdgeState edgeOf(SnagState state);
/// The worse of two: a snag beats close, close beats not known, anything beats nothing found.
EdgeState worse(EdgeState a, EdgeState b);
int teethOf(EdgeState state);

struct EdgeSize {
  double lineWidth = 2.5;
  double toothBase = 11.0;
  double toothHeight = 9.0;
  double offset = 0.0;  ///< of the first tooth from the left end
};
inline constexpr EdgeSize kSmallEdge{2.0, 9.0, 7.0, 0.0};
inline constexpr EdgeSize kSlipEdge{1.6, 16.0, 13.0, 24.0};

/// A line from `left` to the right, teeth hanging from it.
void drawStateEdge(QPainter& painter, const Tokens& tokens, QPointF left, double length, EdgeState state,
                   const QColor& colour, const EdgeSize& size = {});
/// A piece of paper whose lower edge carries the teeth as part of its outline; draws shadow, fill and ink.
void drawSlip(QPainter& painter, const Tokens& tokens, const QRectF& rect, EdgeState state = EdgeState::Smooth,
              const EdgeSize& size = kSlipEdge);
QPainterPath slipOutline(const Tokens& tokens, const QRectF& rect, EdgeState state, const EdgeSize& size = kSlipEdge);
/// Soft shadow of a piece of paper; nothing in the high-contrast themes.
void drawShadow(QPainter& painter, const Tokens& tokens, const QRectF& rect);
inline constexpr double kShadowReach = 34.0;  ///< px a shadow may spread beyond its rectangle

// --- numbers ------------------------------------------------------------------------------------

/// Line under a number from `left`: wavy for a guess, plain from a label, capped like a dimension when measured.
void drawSureness(QPainter& painter, const Tokens& tokens, QPointF left, double length, Sureness sureness,
                  const QColor& colour);

struct NumberStyle {
  double size = 21.0;
  QFont::Weight weight = QFont::Bold;
  std::optional<QColor> colour;      ///< of the number; ink when not given
  std::optional<QColor> unitColour;  ///< ink2 when not given
  std::optional<Sureness> sureness;  ///< line under the number
  bool italic = false;               ///< settling
};
/// Unit at 0.72 of the number's size. Returns the x at which the unit ends.
double drawNumber(QPainter& painter, const Tokens& tokens, QPointF baseline, const format::NumberAndUnit& value,
                  const NumberStyle& style = {});
double numberWidth(const Tokens& tokens, const format::NumberAndUnit& value, const NumberStyle& style = {});

// --- text ---------------------------------------------------------------------------------------

/// Text with a halo of the ground around it, so that it can lie over lines.
void drawHaloText(QPainter& painter, QPointF baseline, const QString& text, const QFont& font, const QColor& colour,
                  const QColor& halo, double haloWidth = 4.0);
double textWidth(const QFont& font, const QString& text);

// --- here and now -------------------------------------------------------------------------------

/// Violet ring between paper lines; on the plate or on paper.
void drawBeadRing(QPainter& painter, const Tokens& tokens, QPointF centre, double radius);
/// Half sun on the hour rule: flat side at `centre`, five rays to the left.
void drawSunMark(QPainter& painter, const Tokens& tokens, QPointF centre, double radius = 12.0);
/// Filled flag = the ruler's own value. Framed chip = a value read there.
QSizeF flagSize(const Tokens& tokens, const QString& text, double textSize = 15.0);
void drawFlag(QPainter& painter, const Tokens& tokens, const QRectF& rect, const QString& text, double textSize = 15.0);
QSizeF chipSize(const Tokens& tokens, const QString& text, double textSize = 13.5);
void drawChip(QPainter& painter, const Tokens& tokens, const QRectF& rect, const QString& text, double textSize = 13.5);

// --- drawing-office marks -------------------------------------------------------------------------

/// Tie-on tag of 42 x 26 with clipped left corners, eyelet, number and teeth; `centre` is the middle of the tag.
QPainterPath snagTagShape(const Tokens& tokens, QPointF centre);
void drawSnagTag(QPainter& painter, const Tokens& tokens, QPointF centre, const QString& number, EdgeState state);
/// The thread of a tag: one curve from the eyelet to the place.
QPainterPath snagThread(const Tokens& tokens, QPointF tagCentre, QPointF place);
/// A letter in a ring (F, R, straps).
void drawRingLetter(QPainter& painter, const Tokens& tokens, QPointF centre, const QString& letter,
                    double radius = 13.0);

/// Dimension between two points of a line: hairline, 45-degree strokes, number on a gap of the ground's colour.
/// Vertical dimensions are read from the right. Returns the rectangle of the number, for clicks.
struct DimensionLine {
  QPointF from, to;
  QString text;
  QColor ground;
  bool marked = false;  ///< under the hand or focused: number in violet
  double share = 0.5;   ///< where along the line the number stands
};
QRectF drawDimension(QPainter& painter, const Tokens& tokens, const DimensionLine& dimension);
QRectF dimensionTextRect(const Tokens& tokens, const DimensionLine& dimension);

// --- hatches --------------------------------------------------------------------------------------

enum class Hatch {
  Waiting,    ///< 45 degrees, 3 on 5: waiting for the pump
  Shade,      ///< dots 2.5 on 5
  OverLimit,  ///< 45 degrees, 1.4 on 6: over a limit, below air pressure
  ToThePool   ///< solid straw
};
/// Brush at device scale; make it anew when theme or scale changes. An invalid ground leaves the gaps open.
QBrush hatchBrush(const Tokens& tokens, Hatch hatch, const QColor& ground, double devicePixelRatio);

/// Focus ring: 3 px violet, square, 2 px off the rectangle; with a paper line on both sides when on the plate.
enum class Ground { Paper, Plate };
void drawFocusRing(QPainter& painter, const Tokens& tokens, const QRectF& rect, Ground ground = Ground::Paper);

}  // namespace sunspool::render
