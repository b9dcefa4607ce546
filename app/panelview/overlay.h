// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What is written round the panel and on it, in px at any zoom: dimensions, letters, tail ends, contours, tilt,
// tags. Arranged once per change, then drawn and asked for what lies under the pointer.

#include <QPointF>
#include <QRectF>
#include <QString>
#include <QTransform>
#include <memory>
#include <span>
#include <vector>

#include "app/format/format.h"
#include "app/gestures/frame_edge.h"
#include "app/panelview/contours.h"
#include "app/render/look.h"
#include "app/render/marks.h"
#include "core/model/document.h"
#include "core/results/results.h"

class QPainter;

namespace sunspool::panelview {

/// Everything the overlay is drawn from.
struct Picture {
  std::shared_ptr<const model::Document> document;
  std::shared_ptr<const results::Results> results;
  std::vector<Contour> contours;  ///< empty while settling
};

struct DimensionSpot {
  gestures::FrameEdge::Edge edge{};
  render::DimensionLine line;
  QPointF witness[4];  ///< two witness lines, from and to
  QRectF text;
  Length outside;
};
struct TagSpot {
  int snag = 0;  ///< index in results.snags
  QString number;
  QString title;
  QPointF tag, place;
  bool hangs = true;  ///< on a thread at its place; else it stands in the row below the panel
  render::EdgeState state{};
  double scale = 1.0;  ///< of the text
  QRectF box() const { return {tag.x() - 24.0 * scale, tag.y() - 16.0 * scale, 48.0 * scale, 36.0 * scale}; }
};

class Overlay {
 public:
  explicit Overlay(const render::Look& look) : m_look(look) {}
  void arrange(const Picture& picture, const QTransform& toPx, const QRectF& view);
  /// While a hand pulls, its slip says what cannot be laid.
  enum class Refusal { Shown, Hidden };
  void draw(QPainter& painter, Refusal refusal) const;
  /// Which dimension stands under the hand; drawn in violet.
  void setMarkedDimension(int index) { m_markedDimension = index; }

  const std::vector<DimensionSpot>& dimensions() const { return m_dimensions; }
  const std::vector<TagSpot>& tags() const { return m_tags; }
  int dimensionAt(QPointF p) const;  ///< index, -1 = none
  int tagAt(QPointF p) const;        ///< index, -1 = none

 private:
  struct Ring {
    QPointF centre;
    QString letter;
  };
  struct Chip {
    QPointF from, to;  ///< cross line
    QRectF box;        ///< empty when there is no room for the number
    QString text;
  };
  struct TailEnd {
    QPointF at, direction;
    bool leavesView = false;
    QString words;
    QPointF wordsAt;
    QRectF wordsBox;
    std::vector<QRectF> boxes;  ///< of the tube outside the frame
  };
  struct Letter {
    QPointF at;
    QString text;
  };
  void arrangeDimensions(const QTransform& toPx);
  void arrangeRings(const QTransform& toPx);
  void arrangeTails(const QTransform& toPx);
  void arrangeContours(const QTransform& toPx);
  void arrangeTilt(const QTransform& toPx);
  void arrangeLetters(const QTransform& toPx);
  void arrangeTags(const QTransform& toPx);
  void placeTag(TagSpot& tag, std::span<const TagSpot> placed) const;
  bool hitsWords(const QRectF& box) const;
  void arrangeUnknown(const QRectF& outer);
  void arrangeRefusal(const QTransform& toPx);
  QRectF outerRect(const QTransform& toPx) const;
  bool roomy() const { return m_view.width() >= 1200.0; }

  std::vector<QPointF> tailsBeyond(const QTransform& toPx) const;
  void drawThreads(QPainter& painter) const;
  void drawDimensions(QPainter& painter) const;
  void drawTails(QPainter& painter) const;
  void drawContours(QPainter& painter) const;
  void drawTilt(QPainter& painter) const;
  void drawLetters(QPainter& painter) const;
  void drawRefusal(QPainter& painter) const;

  const render::Look& m_look;
  Picture m_picture;
  QRectF m_view;
  double m_tubeWidth_px = 0.0;
  std::vector<DimensionSpot> m_dimensions;
  std::vector<Ring> m_rings;
  std::vector<TailEnd> m_tails;
  std::vector<Chip> m_chips;
  std::vector<Letter> m_letters;
  std::vector<TagSpot> m_tags;
  QRectF m_tilt;
  bool m_tiltShown = true;
  QRectF m_refusal;
  QString m_refusalText;
  int m_markedDimension = -1;
};

}  // namespace sunspool::panelview
