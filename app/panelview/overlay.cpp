// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/panelview/overlay.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/panelview/scene_units.h"
#include "app/panelview/tube_shape.h"

namespace sunspool::panelview {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("sunspool::panelview", text); }

QPointF outwards(layout::Side side) {
  switch (side) {
    case layout::Side::Bottom:
      return {0.0, 1.0};
    case layout::Side::Right:
      return {1.0, 0.0};
    case layout::Side::Top:
      return {0.0, -1.0};
    case layout::Side::Left:
      return {-1.0, 0.0};
  }
  return {};
}

/// A part's place on the drawing, in panel metres; nothing for the design as a whole.
std::optional<geometry::Point> placeOf(const SnagPlace& place, const Picture& picture) {
  const model::Frame& frame = picture.document->frame;
  const double width = frame.insideWidth.si(), height = frame.insideHeight.si();
  const auto& layout = picture.results->layout;
  if (place.run >= 0) {
    if (!layout || place.run >= static_cast<int>(layout->runs.size())) return std::nullopt;
    return layout->runs[static_cast<std::size_t>(place.run)].path.pointAt(place.station_m);
  }
  if (place.part == "feed" && layout && !layout->runs.empty()) return layout->runs.front().feed.at;
  if (place.part == "return" && layout && !layout->runs.empty()) return layout->runs.front().returning.at;
  if (place.part == "glazing" || place.part == "plate") return geometry::Point{0.62 * width, 0.5 * height};
  if (place.part == "tube") return geometry::Point{0.96 * width, 0.72 * height};
  if (place.part == "insulation" || place.part == "backing") return geometry::Point{width, 0.16 * height};
  if (place.part == "pump" && layout && !layout->runs.empty()) return layout->runs.front().feed.at;
  if (place.part == "rail" || place.part == "frame" || place.part == "timber")
    return geometry::Point{0.8 * width, height};
  if (place.part == "stile") return geometry::Point{width, 0.3 * height};
  return std::nullopt;
}

QString numberOnDrawing(Length length, const format::Preferences& preferences) {
  const format::NumberAndUnit text = format::number(length, format::LengthScale::Drawing, preferences);
  // A drawing in millimetres says so once, by custom: its numbers stand bare and ungrouped.
  if (preferences.units != format::UnitSystem::Metric) return text.joined();
  QString bare = text.number;
  return bare.remove(QChar(0x2009));
}

}  // namespace

QRectF Overlay::outerRect(const QTransform& toPx) const {
  const model::Frame& frame = m_picture.document->frame;
  const double t = frame.timberWidth.si();
  return toPx.mapRect(toScene(geometry::Box{{-t, -t}, {frame.insideWidth.si() + t, frame.insideHeight.si() + t}}));
}

void Overlay::arrange(const Picture& picture, const QTransform& toPx, const QRectF& view) {
  m_picture = picture;
  m_view = view;
  m_dimensions.clear();
  m_rings.clear();
  m_tails.clear();
  m_chips.clear();
  m_letters.clear();
  m_tags.clear();
  m_refusal = {};
  if (!picture.document || !picture.results) return;
  m_tubeWidth_px = picture.document->tube.outsideDiameter.value.si() * kSceneUnitsPerMetre * toPx.m11();
  arrangeDimensions(toPx);
  arrangeTilt(toPx);
  if (picture.results->layout) {
    arrangeRings(toPx);
    arrangeTails(toPx);
    arrangeContours(toPx);
    arrangeLetters(toPx);
  } else {
    arrangeRefusal(toPx);
  }
  arrangeTags(toPx);
}

/// Where tails pass the frame, the coordinate along the outward direction made positive on its own side.
std::vector<QPointF> Overlay::tailsBeyond(const QTransform& toPx) const {
  std::vector<QPointF> tails;
  if (!m_picture.results->layout) return tails;
  const auto add = [&](const layout::Port& port) {
    if (port.throughBack) return;
    const QPointF at = toPx.map(toScene(port.at)), outward = outwards(port.side);
    tails.push_back(outward.x() != 0.0 ? QPointF(outward.x(), at.y()) : QPointF(at.x(), outward.y()));
  };
  for (const layout::LaidRun& run : m_picture.results->layout->runs) {
    add(run.feed);
    add(run.returning);
  }
  return tails;
}

void Overlay::arrangeDimensions(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  const model::Frame& frame = m_picture.document->frame;
  const QRectF o = outerRect(toPx);
  const double away = tokens.px(roomy() ? 27.0 : 21.0), near = 6.0, over = 6.0;
  const Length width = frame.insideWidth + 2.0 * frame.timberWidth,
               height = frame.insideHeight + 2.0 * frame.timberWidth;
  const std::vector<QPointF> tails = tailsBeyond(toPx);
  const auto add = [&](gestures::FrameEdge::Edge edge, Length outside, QPointF from, QPointF to, QPointF outward) {
    DimensionSpot spot;
    spot.edge = edge;
    spot.outside = outside;
    spot.line = {from + outward * away, to + outward * away, numberOnDrawing(outside, m_look.preferences()),
                 tokens.desk, false};
    spot.witness[0] = from + outward * near;
    spot.witness[1] = from + outward * (away + over);
    spot.witness[2] = to + outward * near;
    spot.witness[3] = to + outward * (away + over);
    spot.text = render::dimensionTextRect(tokens, spot.line);
    // A tail that leaves on this side goes through the line, not through the number.
    for (const double share : {0.5, 0.7, 0.3, 0.85, 0.15}) {
      spot.line.share = share;
      spot.text = render::dimensionTextRect(tokens, spot.line);
      const QRectF room = spot.text.adjusted(-14.0, -14.0, 14.0, 14.0);
      if (std::none_of(tails.begin(), tails.end(), [&](QPointF tail) {
            return outward.x() != 0.0
                       ? tail.y() > room.top() && tail.y() < room.bottom() && tail.x() * outward.x() > 0.0
                       : tail.x() > room.left() && tail.x() < room.right() && tail.y() * outward.y() > 0.0;
          }))
        break;
    }
    m_dimensions.push_back(spot);
  };
  add(gestures::FrameEdge::Edge::Right, width, o.topLeft(), o.topRight(), {0.0, -1.0});
  add(gestures::FrameEdge::Edge::Top, height, o.topRight(), o.bottomRight(), {1.0, 0.0});
}

void Overlay::arrangeRings(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  const double timber = m_picture.document->frame.timberWidth.si() * kSceneUnitsPerMetre * toPx.m11();
  const double out = tokens.px(roomy() ? 30.0 : 24.0), overDimension = tokens.px(roomy() ? 27.0 : 21.0),
               aside = tokens.px(roomy() ? 24.0 : 20.0);
  // Letters of ports side by side step outwards, so that each is read.
  const double apart = 2.0 * (roomy() ? 13.0 : 11.0) + 3.0;
  const auto place = [&](QPointF at, QPointF outward, const QString& letter) {
    const auto covers = [&](const Ring& ring) {
      return std::hypot(ring.centre.x() - at.x(), ring.centre.y() - at.y()) < apart;
    };
    while (std::any_of(m_rings.begin(), m_rings.end(), covers)) at += outward * (apart / 2.0);
    m_rings.push_back({at, letter});
  };
  const auto add = [&](const layout::Port& port, const QString& letter) {
    const QPointF outward = outwards(port.side);
    const QPointF sideways = outward.x() != 0.0 ? QPointF(0.0, -1.0) : QPointF(1.0, 0.0);
    const QPointF at = toPx.map(toScene(port.at));
    if (port.throughBack)
      place(at + QPointF(aside, -aside), {1.0, 0.0}, letter);
    else
      // On the right and above, the letter stands beyond the dimension line.
      place(at + outward * (timber + out + (outward.x() > 0.0 || outward.y() < 0.0 ? overDimension : 0.0)) +
                sideways * aside,
            outward, letter);
  };
  for (const layout::LaidRun& run : m_picture.results->layout->runs) {
    add(run.feed, QStringLiteral("F"));
    add(run.returning, QStringLiteral("R"));
  }
}

void Overlay::arrangeTails(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  const QRectF view = m_view.adjusted(4.0, 4.0, -4.0, -4.0);
  const QFont words = render::font(tokens, render::Voice::Said, 14.0, QFont::Normal, true);
  const auto add = [&](const geometry::Path& tail, const QString& text, double side) {
    if (tail.empty()) return;
    QPolygonF line;
    for (const geometry::Piece& piece : tail.pieces())
      for (const QPointF& p : centreLine(piece, toPx.m11())) line << toPx.map(p);
    TailEnd end;
    end.at = line.back();
    end.direction = line.back() - line[line.size() - 2];
    for (qsizetype i = 1; i < line.size(); ++i) {
      if (view.contains(line[i - 1]) && !view.contains(line[i])) {
        end.leavesView = true;
        end.direction = line[i] - line[i - 1];
        // Halve the way to the border of the view.
        QPointF in = line[i - 1], out = line[i];
        for (int k = 0; k < 20; ++k) (view.contains((in + out) / 2.0) ? in : out) = (in + out) / 2.0;
        end.at = in;
        break;
      }
    }
    if (!view.contains(end.at)) return;
    end.direction /= std::max(1e-9, std::hypot(end.direction.x(), end.direction.y()));
    end.words = text;
    const double width = render::textWidth(words, text), gap = m_tubeWidth_px / 2.0 + tokens.px(9.0);
    const bool standing = std::abs(end.direction.y()) > std::abs(end.direction.x());
    const double low = standing ? std::min(end.at.y(), m_view.bottom() - tokens.px(14.0)) : end.at.y() - gap;
    double x = standing ? end.at.x() + (side > 0.0 ? gap : -gap - width) : end.at.x() - (side > 0.0 ? width : 0.0);
    x = std::clamp(x, m_view.left() + 4.0, std::max(m_view.left() + 4.0, m_view.right() - 4.0 - width));
    end.wordsAt = {x, low};
    if (!text.isEmpty()) end.wordsBox = QRectF(x - 4.0, low - tokens.px(14.0), width + 8.0, tokens.px(20.0));
    for (const geometry::Piece& piece : tail.pieces())
      end.boxes.push_back(toPx.mapRect(toScene(geometry::bounds(piece))));
    m_tails.push_back(end);
  };
  bool wordsSaid = false;
  for (const layout::LaidRun& run : m_picture.results->layout->runs) {
    const double length = run.path.length().si();
    if (run.insideFrom_m > 0.0)
      add(run.path.slice(0.0, run.insideFrom_m).reversed(), wordsSaid ? QString() : tr("from the pump"), 1.0);
    if (run.insideTo_m < length && !run.returning.throughBack)
      add(run.path.slice(run.insideTo_m, length), wordsSaid ? QString() : tr("to the pool"), -1.0);
    wordsSaid = true;
  }
}

void Overlay::arrangeContours(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  const QFont bold = render::font(tokens, render::Voice::Measured, roomy() ? 13.0 : 12.5, QFont::Bold);
  const auto& runs = m_picture.results->layout->runs;
  const double half_px = std::max(22.0 * toPx.m11(), m_tubeWidth_px * 0.9);
  for (const Contour& contour : m_picture.contours) {
    if (contour.run >= static_cast<int>(runs.size())) continue;
    const layout::LaidRun& run = runs[static_cast<std::size_t>(contour.run)];
    if (contour.station_m < run.insideFrom_m || contour.station_m > run.insideTo_m) continue;
    const QPointF at = toPx.map(toScene(run.path.pointAt(contour.station_m)));
    const QPointF u = directionToScene(run.path.tangentAt(contour.station_m));
    const QPointF n(-u.y(), u.x());
    Chip chip;
    chip.from = at - n * half_px;
    chip.to = at + n * half_px;
    chip.text = format::number(Temperature::fromKelvin(contour.water_K), m_look.preferences()).number + QChar(u'°');
    const double width = render::textWidth(bold, chip.text) + tokens.px(8.0), height = tokens.px(17.5);
    const QRectF box(at.x() - width / 2.0, at.y() - height / 2.0, width, height);
    const bool free = std::none_of(m_chips.begin(), m_chips.end(), [&](const Chip& other) {
      return other.box.adjusted(-4.0, -3.0, 4.0, 3.0).intersects(box);
    });
    if (free && m_view.intersects(box)) chip.box = box;
    m_chips.push_back(chip);
  }
}

void Overlay::arrangeTilt(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  const double side = tokens.px(roomy() ? 74.0 : 60.0);
  const double right = m_view.right() - tokens.px(roomy() ? 46.0 : 28.0);
  const double foot = m_view.top() + tokens.px(roomy() ? 66.0 : 56.0);
  m_tilt = QRectF(right - side, foot - side, side, side);
  // Zoomed in, the panel takes the corner.
  m_tiltShown = !outerRect(toPx).intersects(m_tilt.adjusted(-8.0, -8.0, 8.0, 26.0));
}

void Overlay::arrangeTags(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  const QRectF o = outerRect(toPx);
  const double room = tokens.px(28.0);
  const double rightX = std::clamp(o.right() + tokens.px(roomy() ? 104.0 : 70.0), room, m_view.right() - room);
  const double leftX = std::clamp(o.left() - tokens.px(roomy() ? 84.0 : 60.0), room, m_view.right() - room);
  const auto& snags = m_picture.results->snags;
  for (std::size_t i = 0; i < snags.size(); ++i) {
    const Snag& snag = snags[i];
    if (snag.state == SnagState::NotKnown) continue;  // see arrangeUnknown
    const auto place = snag.places.empty() ? std::nullopt : placeOf(snag.places.front(), m_picture);
    if (!place) continue;
    TagSpot spot;
    spot.snag = static_cast<int>(i);
    spot.scale = tokens.px(1.0);
    spot.number = QString::number(i + 1);
    spot.title = format::snagText(snag, *m_picture.document, m_look.preferences()).title;
    spot.place = toPx.map(toScene(*place));
    spot.state = snag.leftBecause.empty() ? render::edgeOf(snag.state) : render::EdgeState::Smooth;
    const bool left = spot.place.x() < o.center().x();
    spot.tag = {left ? leftX : rightX, spot.place.y() - tokens.px(left ? 60.0 : 48.0)};
    m_tags.push_back(spot);
  }
  // From the top down, each where it is nearest to its wish and hides nothing.
  std::stable_sort(m_tags.begin(), m_tags.end(),
                   [](const TagSpot& a, const TagSpot& b) { return a.tag.y() < b.tag.y(); });
  for (std::size_t i = 0; i < m_tags.size(); ++i) placeTag(m_tags[i], std::span(m_tags.data(), i));
  arrangeUnknown(o);
  std::stable_sort(m_tags.begin(), m_tags.end(), [](const TagSpot& a, const TagSpot& b) { return a.snag < b.snag; });
}

bool Overlay::hitsWords(const QRectF& box) const {
  const double ring = m_look.tokens().px(15.0);
  const auto hits = [&](const QRectF& other) { return box.intersects(other); };
  return std::any_of(m_rings.begin(), m_rings.end(),
                     [&](const Ring& r) {
                       return hits({r.centre.x() - ring, r.centre.y() - ring, 2.0 * ring, 2.0 * ring});
                     }) ||
         std::any_of(m_dimensions.begin(), m_dimensions.end(),
                     [&](const DimensionSpot& spot) { return hits(spot.text); }) ||
         std::any_of(m_tails.begin(), m_tails.end(), [&](const TailEnd& tail) {
           const double half = m_tubeWidth_px / 2.0 + 3.0;
           return hits(tail.wordsBox) || std::any_of(tail.boxes.begin(), tail.boxes.end(), [&](const QRectF& tube) {
                    return hits(tube.adjusted(-half, -half, half, half));
                  });
         });
}

/// What is not known hurts no place of the drawing: its tags lie side by side below the panel's lower edge, without
/// threads, from the right.
void Overlay::arrangeUnknown(const QRectF& outer) {
  const double u = m_look.tokens().px(1.0);
  const QRectF view = m_view.adjusted(2.0, 2.0, -2.0, -2.0);
  const auto& snags = m_picture.results->snags;
  double x = std::min(outer.right(), view.right()) - 26.0 * u;
  const double y = std::min(outer.bottom() + 24.0 * u, view.bottom() - 22.0 * u);
  for (std::size_t k = snags.size(); k-- > 0;) {
    if (snags[k].state != SnagState::NotKnown) continue;
    TagSpot spot;
    spot.snag = static_cast<int>(k);
    spot.scale = u;
    spot.number = QString::number(k + 1);
    spot.title = format::snagText(snags[k], *m_picture.document, m_look.preferences()).title;
    spot.state = snags[k].leftBecause.empty() ? render::EdgeState::Dashed : render::EdgeState::Smooth;
    spot.hangs = false;
    const auto isTaken = [&](const QRectF& box) {
      return hitsWords(box) || std::any_of(m_tags.begin(), m_tags.end(),
                                           [&](const TagSpot& other) { return box.intersects(other.box()); });
    };
    for (spot.tag = {x, y}; spot.tag.x() > view.left() + 26.0 * u && isTaken(spot.box());) spot.tag.rx() -= 4.0 * u;
    if (spot.tag.x() <= view.left() + 26.0 * u) return;  // no room: the walk through all findings has them
    spot.place = spot.tag;
    x = spot.tag.x() - 54.0 * u;
    m_tags.push_back(spot);
  }
}

void Overlay::placeTag(TagSpot& tag, std::span<const TagSpot> placed) const {
  const render::Tokens& tokens = m_look.tokens();
  const QRectF view = m_view.adjusted(2.0, 2.0, -2.0, -2.0);
  enum class Care { Everything, WordsAndTags, Tags };
  const auto isFree = [&](QPointF at, Care care) {
    TagSpot there;
    there.scale = tag.scale;
    there.tag = at;
    const QRectF box = there.box();
    if (!view.contains(box)) return false;
    const auto hits = [&](const QRectF& other) { return box.intersects(other); };
    if (std::any_of(placed.begin(), placed.end(), [&](const TagSpot& t) { return hits(t.box()); })) return false;
    if (care == Care::Tags) return true;
    const double ring = tokens.px(15.0);
    for (const Ring& r : m_rings)
      if (hits({r.centre.x() - ring, r.centre.y() - ring, 2.0 * ring, 2.0 * ring})) return false;
    for (const DimensionSpot& spot : m_dimensions)
      if (hits(spot.text)) return false;
    for (const TailEnd& tail : m_tails)
      if (hits(tail.wordsBox)) return false;
    if (m_tiltShown && hits(m_tilt.adjusted(-6.0, 0.0, 6.0, tokens.px(24.0)))) return false;
    if (care == Care::WordsAndTags) return true;
    const double half = m_tubeWidth_px / 2.0 + 3.0;
    for (const TailEnd& tail : m_tails)
      for (const QRectF& box_ : tail.boxes)
        if (hits(box_.adjusted(-half, -half, half, half))) return false;
    return true;
  };
  const double u = tag.scale;
  const QPointF wish(
      std::clamp(tag.tag.x(), view.left() + 26.0 * u, std::max(view.left() + 26.0 * u, view.right() - 26.0 * u)),
      std::clamp(tag.tag.y(), view.top() + 18.0 * u, std::max(view.top() + 18.0 * u, view.bottom() - 22.0 * u)));
  for (const Care care : {Care::Everything, Care::WordsAndTags, Care::Tags}) {
    for (const double aside : {0.0, -56.0 * u, 56.0 * u}) {
      for (int k = 0; k < 120; ++k) {
        const double shift = (k % 2 == 0 ? -1.0 : 1.0) * 6.0 * ((k + 1) / 2);
        const QPointF at = wish + QPointF(aside, shift);
        if (!isFree(at, care)) continue;
        tag.tag = at;
        return;
      }
    }
  }
  tag.tag = wish;
}

void Overlay::arrangeLetters(const QTransform& toPx) {
  const auto& runs = m_picture.results->layout->runs;
  if (runs.size() < 2) return;
  // On the tube when it is wide enough to carry them, else beside the contours, far apart.
  const double every_m = m_tubeWidth_px >= 12.0 ? 0.5 : 10.0;
  const QRectF seen = m_view.adjusted(-20.0, -20.0, 20.0, 20.0);
  for (const layout::LaidRun& run : runs) {
    for (double s = run.turnsFrom_m + 0.25 * every_m; s < run.turnsTo_m; s += every_m) {
      const QPointF at = toPx.map(toScene(run.path.pointAt(s)));
      const QRectF room(at - QPointF(10.0, 10.0), QSizeF(20.0, 20.0));
      const bool taken =
          std::any_of(m_chips.begin(), m_chips.end(), [&](const Chip& chip) { return chip.box.intersects(room); });
      if (seen.contains(at) && !taken) m_letters.push_back({at, QString(QLatin1Char(run.letter))});
    }
  }
}

void Overlay::drawLetters(QPainter& painter) const {
  if (m_letters.empty()) return;
  const render::Tokens& tokens = m_look.tokens();
  const bool onTube = m_tubeWidth_px >= 12.0;
  QFont letter = render::font(tokens, render::Voice::Engraved, 13.0);
  if (onTube) letter.setPixelSize(qRound(m_tubeWidth_px * 0.72));
  const double cap = QFontMetricsF(letter).capHeight();
  for (const Letter& l : m_letters) {
    const double width = render::textWidth(letter, l.text);
    const QPointF baseline(l.at.x() - width / 2.0, l.at.y() + cap / 2.0);
    render::drawHaloText(painter, baseline, l.text, letter, onTube ? QColor(27, 24, 21) : tokens.onPlate,
                         onTube ? QColor(250, 247, 227) : tokens.plate, onTube ? 2.5 : 6.0);
  }
}

void Overlay::arrangeRefusal(const QTransform& toPx) {
  const render::Tokens& tokens = m_look.tokens();
  m_refusalText = format::sentence(m_picture.results->layout.error(), m_look.preferences());
  const QFont body = render::font(tokens, render::Voice::Measured, 15.0);
  const double width = std::min(tokens.px(440.0), std::max(120.0, m_view.width() - 80.0));
  const QRectF text =
      QFontMetricsF(body).boundingRect(QRectF(0.0, 0.0, width, 1000.0), Qt::TextWordWrap, m_refusalText);
  m_refusal = QRectF(0.0, 0.0, width + tokens.px(40.0), text.height() + tokens.px(72.0));
  m_refusal.moveCenter(outerRect(toPx).center());
}

int Overlay::dimensionAt(QPointF p) const {
  for (std::size_t i = 0; i < m_dimensions.size(); ++i)
    if (m_dimensions[i].text.adjusted(-8.0, -10.0, 8.0, 10.0).contains(p)) return static_cast<int>(i);
  return -1;
}

int Overlay::tagAt(QPointF p) const {
  for (std::size_t i = 0; i < m_tags.size(); ++i)
    if (m_tags[i].box().adjusted(-4.0, -6.0, 4.0, 6.0).contains(p)) return static_cast<int>(i);
  return -1;
}

void Overlay::draw(QPainter& painter, Refusal refusal) const {
  if (!m_picture.document) return;
  painter.setRenderHint(QPainter::Antialiasing);
  const render::Tokens& tokens = m_look.tokens();
  drawThreads(painter);
  drawContours(painter);
  drawLetters(painter);
  drawTails(painter);
  drawDimensions(painter);
  if (m_tiltShown) drawTilt(painter);
  for (const Ring& ring : m_rings)
    render::drawRingLetter(painter, tokens, ring.centre, ring.letter, roomy() ? 13.0 : 11.0);
  if (!m_refusal.isNull() && refusal == Refusal::Shown) drawRefusal(painter);
  for (const TagSpot& tag : m_tags) render::drawSnagTag(painter, tokens, tag.tag, tag.number, tag.state);
}

void Overlay::drawThreads(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  for (const TagSpot& tag : m_tags) {
    if (!tag.hangs) continue;
    const QPainterPath thread = render::snagThread(tokens, tag.tag, tag.place);
    painter.setBrush(Qt::NoBrush);
    // Ink on paper vanishes on the plate and paper on the desk: the thread is ink with a pale edge.
    painter.setPen(QPen(tokens.isDark() ? tokens.plate : tokens.slip, tokens.line(2.8), Qt::SolidLine, Qt::RoundCap));
    painter.drawPath(thread);
    painter.setPen(QPen(tokens.ink, tokens.line(1.4), Qt::SolidLine, Qt::RoundCap));
    painter.drawPath(thread);
    painter.setBrush(tokens.ink);
    painter.drawEllipse(tag.place, 2.2, 2.2);
  }
}

void Overlay::drawDimensions(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  for (std::size_t i = 0; i < m_dimensions.size(); ++i) {
    const DimensionSpot& spot = m_dimensions[i];
    painter.setPen(QPen(tokens.mark, tokens.line(1.0)));
    painter.drawLine(spot.witness[0], spot.witness[1]);
    painter.drawLine(spot.witness[2], spot.witness[3]);
    render::DimensionLine line = spot.line;
    line.marked = static_cast<int>(i) == m_markedDimension;
    render::drawDimension(painter, tokens, line);
    if (line.marked) {
      painter.setPen(QPen(tokens.violet, tokens.line(1.3)));
      const QRectF t = spot.text;
      if (t.width() > t.height())
        painter.drawLine(t.bottomLeft() + QPointF(6.0, 0.0), t.bottomRight() - QPointF(6.0, 0.0));
      else
        painter.drawLine(t.topRight() + QPointF(0.0, 6.0), t.bottomRight() - QPointF(0.0, 6.0));
    }
  }
}

void Overlay::drawTails(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const QFont words = render::font(tokens, render::Voice::Said, 14.0, QFont::Normal, true);
  for (const TailEnd& end : m_tails) {
    if (!end.leavesView) {
      // A collar where the tail is cut, and the hose that goes on from there.
      const QPointF n(-end.direction.y(), end.direction.x());
      const double w = std::max(4.0, m_tubeWidth_px);
      QPen dashed(tokens.ink, tokens.line(1.4));
      dashed.setDashPattern({5.0, 3.6});
      painter.setPen(dashed);
      for (const double side : {-0.75, 0.75}) {
        const QPointF from = end.at + n * (side * w) + end.direction * 6.0;
        painter.drawLine(from, from + end.direction * tokens.px(34.0));
      }
      painter.setPen(QPen(tokens.ink, 10.0, Qt::SolidLine, Qt::FlatCap));
      painter.drawLine(end.at - n * (0.9 * w), end.at + n * (0.9 * w));
    }
    painter.setFont(words);
    painter.setPen(tokens.ink2);
    painter.drawText(end.wordsAt, end.words);
  }
}

void Overlay::drawContours(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const QFont bold = render::font(tokens, render::Voice::Measured, roomy() ? 13.0 : 12.5, QFont::Bold);
  const double cap = QFontMetricsF(bold).capHeight();
  for (const Chip& chip : m_chips) {
    painter.setPen(QPen(tokens.onPlate, tokens.line(1.4)));
    painter.drawLine(chip.from, chip.to);
  }
  for (const Chip& chip : m_chips) {
    if (chip.box.isNull()) continue;
    painter.setPen(QPen(tokens.onPlate, tokens.line(0.9), Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(tokens.plate);
    painter.drawRect(chip.box);
    painter.setFont(bold);
    painter.setPen(tokens.onPlate);
    const double x = chip.box.center().x() - render::textWidth(bold, chip.text) / 2.0;
    painter.drawText(QPointF(x, chip.box.center().y() + cap / 2.0), chip.text);
  }
}

void Overlay::drawTilt(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  const model::Siting& siting = m_picture.document->siting;
  const double angle = siting.tilt.radians();
  const double side = m_tilt.width();
  const QPointF foot = m_tilt.bottomLeft();
  const QPointF top = foot + QPointF(side * std::cos(angle), -side * std::sin(angle)) * 0.87;
  painter.setPen(QPen(tokens.mark, tokens.line(1.0)));
  painter.drawLine(foot, m_tilt.bottomRight());
  painter.drawLine(top, QPointF(top.x(), foot.y()));
  painter.setBrush(Qt::NoBrush);
  const double r = tokens.px(24.0);
  painter.drawArc(QRectF(foot.x() - r, foot.y() - r, 2.0 * r, 2.0 * r), 0, qRound(siting.tilt.degrees() * 16.0));
  painter.setPen(QPen(tokens.ink, tokens.line(4.0), Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(foot, top);
  const QFont engraved = render::font(tokens, render::Voice::Engraved, 14.0);
  const QString degrees = format::number(siting.tilt, m_look.preferences()).joined();
  painter.setFont(engraved);
  painter.setPen(tokens.ink);
  // A flat wedge leaves no room inside; then the angle stands above it.
  const bool flat = siting.tilt.degrees() < 22.0;
  painter.drawText(flat ? top + QPointF(-render::textWidth(engraved, degrees) - 2.0, -tokens.px(7.0))
                        : foot + QPointF(tokens.px(30.0), -tokens.px(4.0)),
                   degrees);
  const QFont plain = render::font(tokens, render::Voice::Measured, 13.0);
  const QString facing = tr("faces %1").arg(format::compass(siting.azimuth));
  painter.setFont(plain);
  painter.setPen(tokens.ink2);
  painter.drawText(QPointF(m_tilt.right() - render::textWidth(plain, facing), foot.y() + tokens.px(18.0)), facing);
}

void Overlay::drawRefusal(QPainter& painter) const {
  const render::Tokens& tokens = m_look.tokens();
  render::drawSlip(painter, tokens, m_refusal, render::EdgeState::TwoTeeth);
  const double pad = tokens.px(20.0);
  painter.setFont(render::font(tokens, render::Voice::Said, 17.0, QFont::Bold));
  painter.setPen(tokens.ink);
  painter.drawText(m_refusal.topLeft() + QPointF(pad, tokens.px(32.0)), tr("This panel cannot be laid."));
  painter.setFont(render::font(tokens, render::Voice::Measured, 15.0));
  painter.drawText(m_refusal.adjusted(pad, tokens.px(46.0), -pad, 0.0), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                   m_refusalText);
}

}  // namespace sunspool::panelview
