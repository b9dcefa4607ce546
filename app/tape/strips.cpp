// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/tape/strips.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainterPath>
#include <QPolygonF>
#include <algorithm>
#include <cmath>
#include <limits>

#include "app/tape/axis.h"
#include "core/results/run_profile.h"

namespace sunspool::tape {

namespace {

struct Text {
  Q_DECLARE_TR_FUNCTIONS(sunspool::tape)
};
using Point = results::RunProfile::Point;

constexpr float kVeil = 0.62F;  ///< opacity of the paper laid over what belongs to an older design
constexpr int kMostMarks = 4;

double pixelRatio(const Canvas& canvas) { return canvas.painter.device()->devicePixelRatioF(); }
bool us(const Canvas& canvas) { return canvas.preferences.units == format::UnitSystem::UsCustomary; }
double degrees(const Canvas& canvas, Temperature t) { return us(canvas) ? t.inFahrenheit() : t.inCelsius(); }
double degrees(const Canvas& canvas, double water_K) { return degrees(canvas, Temperature::fromKelvin(water_K)); }
double height(const Canvas& canvas, double value_m) { return metres(value_m).in(us(canvas) ? foot : metre); }

struct Names {
  QString name, unit;
};
void drawNames(const Canvas& canvas, const QRectF& strip, const Names& names) {
  const TextStyle bold{14.0, QFont::Bold}, plain{12.5};
  const double right = canvas.place.side - canvas.px(16.0);
  const double middle = strip.center().y();
  const bool both = !names.unit.isEmpty();
  if (canvas.place.side < canvas.px(230.0)) {  // no room beside the strip
    drawHaloText(canvas, {strip.left() + canvas.px(4.0), strip.top() + canvas.px(12.0)}, names.name, canvas.tokens.ink,
                 bold);
    return;
  }
  drawText(canvas, {right, middle + canvas.px(both ? -3.0 : 5.0)}, names.name, canvas.tokens.ink, bold, Align::Right);
  if (both) drawText(canvas, {right, middle + canvas.px(14.0)}, names.unit, canvas.tokens.ink2, plain, Align::Right);
}

void drawAxis(const Canvas& canvas, const QRectF& strip, const Axis& axis) {
  const TextStyle small{12.5};
  double last = std::numeric_limits<double>::infinity();
  for (const double mark : axis.marks) {
    const double y = axis.y(strip, mark);
    canvas.line(strip.left(), y, strip.right(), y, canvas.tokens.hair, 1.0);
    if (last - y < canvas.px(12.0)) continue;
    last = y;
    drawText(canvas, {strip.right() + canvas.px(8.0), y + canvas.px(4.5)}, axis.text(mark), canvas.tokens.ink2, small);
  }
}

/// What belongs to an older design goes pale and says so.
void drawSettling(const Canvas& canvas, const QRectF& strip) {
  QColor veil = canvas.tokens.paper;
  veil.setAlphaF(kVeil);
  const double above = canvas.px(4.0);
  canvas.painter.fillRect(
      QRectF(QPointF(strip.left() - above, strip.top() - above), QPointF(canvas.place.right, strip.bottom() + above)),
      veil);
  drawHaloText(canvas, {strip.left() + canvas.px(10.0), strip.center().y() + canvas.px(5.0)}, Text::tr("settling"),
               canvas.tokens.ink2, {14.0, QFont::Normal, render::Voice::Said, true});
}

/// The points that are needed to draw a line that runs to the right within `tolerance` of all of them: each kept
/// point opens a sector that the next ones narrow.
QPolygonF thinned(const QPolygonF& line, double tolerance = 0.12) {
  if (line.size() < 3) return line;
  QPolygonF kept{line.front()};
  double steepest = std::numeric_limits<double>::infinity(), flattest = -steepest;
  for (qsizetype i = 1; i < line.size(); ++i) {
    const QPointF step = line[i] - kept.back();
    const double slope = step.x() > 0.0 ? step.y() / step.x() : 0.0;
    if (step.x() <= 0.0 || slope > steepest || slope < flattest) {
      kept << line[i - 1];
      steepest = std::numeric_limits<double>::infinity();
      flattest = -steepest;
    }
    const QPointF from = line[i] - kept.back();
    if (from.x() <= 0.0) continue;
    steepest = std::min(steepest, (from.y() + tolerance) / from.x());
    flattest = std::max(flattest, (from.y() - tolerance) / from.x());
  }
  kept << line.back();
  return kept;
}

/// Outline of a line of some width; a filled polygon costs a fraction of a stroked one.
QPolygonF ribbonOf(const QPolygonF& line, double width, double longer) {
  QPolygonF upper, lower;
  const auto direction = [](QPointF step) {
    const double length = std::hypot(step.x(), step.y());
    return length > 0.0 ? step / length : QPointF(1.0, 0.0);
  };
  for (qsizetype i = 0; i < line.size(); ++i) {
    const QPointF before = line[std::max<qsizetype>(i - 1, 0)], after = line[std::min(i + 1, line.size() - 1)];
    const QPointF along = direction(after - before);
    const QPointF across(-along.y() * width / 2.0, along.x() * width / 2.0);
    const double shift = i == 0 ? -longer : i + 1 == line.size() ? longer : 0.0;
    upper << line[i] + along * shift - across;
    lower << line[i] + along * shift + across;
  }
  for (auto it = lower.crbegin(); it != lower.crend(); ++it) upper << *it;
  return upper;
}

/// Long shapes are painted in pieces: the rasteriser takes several times longer for one that crosses the window.
struct Stretch {
  qsizetype from, to;
};
std::vector<Stretch> stretchesOf(qsizetype points) {
  constexpr qsizetype kPoints = 24;
  std::vector<Stretch> stretches;
  for (qsizetype from = 0; from + 1 < points; from += kPoints)
    stretches.push_back({from, std::min(from + kPoints, points - 1)});
  return stretches;
}

void strokeInPieces(const Canvas& canvas, const QPolygonF& line, double width) {
  canvas.painter.setPen(canvas.pen(canvas.tokens.ink, width));
  canvas.painter.setBrush(Qt::NoBrush);
  for (const Stretch& part : stretchesOf(line.size()))
    canvas.painter.drawPolyline(thinned(line.mid(part.from, part.to - part.from + 1)));
}

// --- bend -----------------------------------------------------------------------------------------

std::vector<const results::Bend*> bendsOfRun(const Content& content) {
  std::vector<const results::Bend*> bends;
  if (!content.results->bends) return bends;
  for (const results::Bend& bend : content.results->bends->all)
    if (bend.run == content.run) bends.push_back(&bend);
  return bends;
}

/// About eight bends, evenly chosen, and the tightest one in place of its neighbour.
std::vector<const results::Bend*> shownBends(const std::vector<const results::Bend*>& bends) {
  constexpr std::size_t kShown = 8;
  if (bends.empty()) return {};
  const std::size_t count = std::min(kShown, bends.size());
  const results::Bend* tightest = bends.front();
  for (const results::Bend* bend : bends)
    if (bend->index > tightest->index) tightest = bend;
  std::vector<const results::Bend*> shown;
  std::size_t nearest = 0;
  const auto away = [&](std::size_t i) { return std::abs(shown[i]->station_m - tightest->station_m); };
  for (std::size_t i = 0; i < count; ++i) {
    shown.push_back(bends[(2 * i + 1) * bends.size() / (2 * count)]);
    if (away(i) < away(nearest)) nearest = i;
  }
  if (shown[nearest]->index < tightest->index) shown[nearest] = tightest;
  return shown;
}

void drawEndOnShapes(const Canvas& canvas, const std::vector<const results::Bend*>& bends, double top) {
  const double r = canvas.px(7.0, 5.5);
  canvas.painter.setPen(QPen(canvas.tokens.ink, canvas.tokens.line(2.0)));
  canvas.painter.setBrush(Qt::NoBrush);
  for (const results::Bend* bend : shownBends(bends)) {
    const double flat = std::min(bend->ovality, 0.85);  // a flatter one would have no opening left to draw
    const QPointF centre(canvas.place.x(bend->station_m), top + r);
    canvas.painter.drawEllipse(centre, r * (1.0 + flat), r * (1.0 - flat));
  }
}

void drawBlocks(const Canvas& canvas, const QRectF& blocks, const std::vector<const results::Bend*>& bends,
                const Axis& axis) {
  const double kink = axis.y(blocks, 1.0);
  const QColor ink = canvas.tokens.isHighContrast() ? canvas.tokens.ink : onPaper(canvas, canvas.tokens.ink, 0.82);
  const QBrush kinked =
      render::hatchBrush(canvas.tokens, render::Hatch::OverLimit, canvas.tokens.paper, pixelRatio(canvas));
  for (const results::Bend* bend : bends) {
    const double from = canvas.place.x(bend->from_m) + 0.5, to = canvas.place.x(bend->to_m) - 0.5;
    const double width = std::max(canvas.px(2.0), to - from);
    const double y = axis.y(blocks, results::timesKinkRadius(*bend));
    const QRectF block(QPointF((from + to - width) / 2.0, std::min(y, kink)), QSizeF(width, std::abs(kink - y)));
    canvas.painter.fillRect(block, y > kink ? kinked : QBrush(ink));
  }
}

// --- water ----------------------------------------------------------------------------------------

struct Span {
  double low = std::numeric_limits<double>::infinity(), high = -std::numeric_limits<double>::infinity();
  void take(double value) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
  bool known() const { return high >= low; }
};

/// The ramp is fitted to all runs, so that the chosen run has the colours it has on the panel.
struct Ramp {
  double low = 0.0, high = 0.0;
  double share(double degree) const { return high > low ? (degree - low) / (high - low) : 0.0; }
};
Ramp rampOf(const Canvas& canvas) {
  constexpr int kMostContours = 7;
  Span span;
  for (const results::RunProfile& profile : canvas.content.results->profiles)
    for (const Point& point : profile.points) span.take(degrees(canvas, point.water_K));
  if (!span.known() || span.high == span.low) return {};
  for (const double step : {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
    const double first = std::floor(span.low / step), last = std::ceil(span.high / step);
    if (last - first - 1.0 <= kMostContours) return {first * step, last * step};
  }
  return {};
}

Ranged<Temperature> rangeAt(const Canvas& canvas, double station_m) {
  const auto& heat = canvas.content.results->heat;
  if (heat) return results::waterRange(*canvas.content.profile, heat->outlet, station_m);
  return exactly(Temperature::fromKelvin(results::at(*canvas.content.profile, station_m).water_K));
}

Axis waterAxis(const Canvas& canvas) {
  Span span;
  for (const Point& point : canvas.content.profile->points) {
    const Ranged<Temperature> range = rangeAt(canvas, point.station_m);
    span.take(degrees(canvas, range.low));
    span.take(degrees(canvas, range.high));
  }
  return axisFor(span.low, span.high, kMostMarks);
}

/// One point each two pixels at most: more are not seen and cost a stroke each.
std::vector<double> stationsToDraw(const Canvas& canvas) {
  constexpr double kApart_px = 2.0;
  std::vector<double> stations;
  double lastX = -std::numeric_limits<double>::infinity();
  const auto& points = canvas.content.profile->points;
  for (const Point& point : points) {
    if (point.station_m > canvas.content.end_m) break;
    const double x = canvas.place.x(point.station_m);
    if (x - lastX < kApart_px && &point != &points.back()) continue;
    stations.push_back(point.station_m);
    lastX = x;
  }
  return stations;
}

void drawRangeBand(const Canvas& canvas, const Axis& axis, const std::vector<double>& stations) {
  QPolygonF upper, lower;
  for (const double station : stations) {
    const Ranged<Temperature> range = rangeAt(canvas, station);
    const double x = canvas.place.x(station);
    upper << QPointF(x, axis.y(canvas.place.water, degrees(canvas, range.high)));
    lower << QPointF(x, axis.y(canvas.place.water, degrees(canvas, range.low)));
  }
  const QColor fill = onPaper(canvas, canvas.tokens.mark, canvas.tokens.isHighContrast() ? 0.1 : 0.28);
  canvas.painter.setPen(Qt::NoPen);
  canvas.painter.setBrush(fill);
  for (const Stretch& part : stretchesOf(upper.size())) {
    // One point more than the piece has, so that no seam shows between two of them.
    QPolygonF band = thinned(upper.mid(part.from, part.to - part.from + 2));
    const QPolygonF under = thinned(lower.mid(part.from, part.to - part.from + 2));
    for (auto it = under.crbegin(); it != under.crend(); ++it) band << *it;
    canvas.painter.drawPolygon(band);
  }
  canvas.painter.setPen(canvas.pen(canvas.tokens.mark, 1.0));
  canvas.painter.drawPolyline(thinned(upper));
  canvas.painter.drawPolyline(thinned(lower));
}

/// A ribbon with round ends.
void fillRibbon(const Canvas& canvas, const QPolygonF& line, const QColor& colour, double width) {
  canvas.painter.setPen(Qt::NoPen);
  canvas.painter.setBrush(colour);
  for (const Stretch& part : stretchesOf(line.size()))
    canvas.painter.drawPolygon(ribbonOf(thinned(line.mid(part.from, part.to - part.from + 1)), width, 0.75));
  for (const QPointF& end : {line.front(), line.back()}) canvas.painter.drawEllipse(end, width / 2.0, width / 2.0);
}

void drawRibbon(const Canvas& canvas, const Axis& axis, const std::vector<double>& stations) {
  QPolygonF all;
  std::vector<QColor> colours;
  const Ramp ramp = rampOf(canvas);
  for (const double station : stations) {
    const double value = degrees(canvas, results::at(*canvas.content.profile, station).water_K);
    all << QPointF(canvas.place.x(station), axis.y(canvas.place.water, value));
    colours.push_back(canvas.tokens.rampAt(ramp.share(value)));
  }
  if (all.size() < 2) return;
  // In the dark the plate would not stand out from the paper.
  if (canvas.tokens.isDark()) fillRibbon(canvas, all, canvas.tokens.mark, canvas.tokens.line(8.4));
  fillRibbon(canvas, all, canvas.tokens.plate, canvas.tokens.line(7.0));
  const double width = canvas.tokens.line(4.4);
  canvas.painter.setPen(Qt::NoPen);
  for (qsizetype from = 0; from + 1 < all.size();) {
    const QColor& colour = colours[static_cast<std::size_t>(from)];
    qsizetype to = from + 1;
    while (to + 1 < all.size() && colours[static_cast<std::size_t>(to)] == colour) ++to;
    canvas.painter.setBrush(colour);
    canvas.painter.drawPolygon(ribbonOf(thinned(all.mid(from, to - from + 1)), width, 0.75));
    from = to;
  }
  for (const bool first : {true, false}) {
    canvas.painter.setBrush(first ? colours.front() : colours.back());
    canvas.painter.drawEllipse(first ? all.front() : all.back(), width / 2.0, width / 2.0);
  }
}

// --- water line -----------------------------------------------------------------------------------

Axis waterLineAxis(const Canvas& canvas) {
  Span span;
  span.take(0.0);
  for (const Point& point : canvas.content.profile->points) {
    span.take(height(canvas, point.height_m));
    span.take(height(canvas, point.waterLine_m));
  }
  return axisFor(span.low, span.high, kMostMarks);
}

QPolygonF lineOf(const Canvas& canvas, const Axis& axis, double Point::*value) {
  QPolygonF line;
  for (const Point& point : canvas.content.profile->points) {
    if (point.station_m > canvas.content.end_m) break;
    line << QPointF(canvas.place.x(point.station_m), axis.y(canvas.place.waterLine, height(canvas, point.*value)));
  }
  return line;
}

void drawSiphonHatch(const Canvas& canvas, const Axis& axis) {
  const results::RunProfile& profile = *canvas.content.profile;
  canvas.painter.setPen(Qt::NoPen);
  canvas.painter.setBrush(render::hatchBrush(canvas.tokens, render::Hatch::OverLimit, QColor(), pixelRatio(canvas)));
  for (results::Extent extent : results::belowAir(profile)) {
    extent.to_m = std::min(extent.to_m, canvas.content.end_m);
    if (extent.to_m <= extent.from_m) continue;
    QPolygonF tube, water;
    const auto take = [&](const Point& point) {
      const double x = canvas.place.x(point.station_m);
      tube << QPointF(x, axis.y(canvas.place.waterLine, height(canvas, point.height_m)));
      water << QPointF(x, axis.y(canvas.place.waterLine, height(canvas, point.waterLine_m)));
    };
    take(results::at(profile, extent.from_m));
    for (const Point& point : profile.points)
      if (point.station_m > extent.from_m && point.station_m < extent.to_m) take(point);
    take(results::at(profile, extent.to_m));
    for (auto it = water.crbegin(); it != water.crend(); ++it) tube << *it;
    canvas.painter.drawPolygon(tube);
  }
}

constexpr TextStyle kLineName{13.5};
QString siphonText(const Canvas& canvas) {
  return siphonWords(canvas.content, canvas.place.isLarge() ? Wording::Full : Wording::Short, canvas.preferences);
}

void drawSiphonSentence(const Canvas& canvas, const Axis& axis) {
  const QRectF rect = siphonTextRect(canvas);
  if (rect.isNull()) return;
  const results::RunProfile& profile = *canvas.content.profile;
  const double x =
      std::clamp(canvas.place.x(profile.lowestStation_m), rect.left() + canvas.px(6.0), rect.right() - canvas.px(6.0));
  const Point under = results::at(profile, canvas.place.station(x));
  const double tube = axis.y(canvas.place.waterLine, height(canvas, under.height_m));
  if (tube > rect.bottom() + canvas.px(2.0)) canvas.line(x, rect.bottom(), x, tube, canvas.tokens.mark, 1.0);
  drawHaloText(canvas, {rect.left(), rect.bottom() - canvas.px(3.5)}, siphonText(canvas), canvas.tokens.ink, kLineName);
}

/// Height of a line that runs to the right, between its points.
double yAt(const QPolygonF& line, double x) {
  const auto after =
      std::lower_bound(line.begin(), line.end(), x, [](const QPointF& p, double at) { return p.x() < at; });
  if (after == line.begin()) return line.front().y();
  if (after == line.end()) return line.back().y();
  const QPointF a = *(after - 1), b = *after;
  return a.y() + (b.y() - a.y()) * (x - a.x()) / (b.x() - a.x());
}
/// Smallest y, which is the highest place, and largest y of a line between two x.
Span heightsBetween(const QPolygonF& line, double from, double to) {
  Span span;
  if (line.isEmpty()) return span;
  span.take(yAt(line, from));
  span.take(yAt(line, to));
  for (const QPointF& point : line)
    if (point.x() >= from && point.x() <= to) span.take(point.y());
  return span;
}

void drawLineNames(const Canvas& canvas, const QPolygonF& water, const QPolygonF& tube) {
  const QRectF& strip = canvas.place.waterLine;
  const QFont font = fontOf(canvas, kLineName);
  const QString waterName = Text::tr("water line"), tubeName = Text::tr("height of the tube");
  const auto put = [&](double x, double baseline, const QString& text) {
    drawHaloText(canvas, {x, baseline}, text, canvas.tokens.ink, kLineName);
  };
  // Over the water line, as near to its beginning as the strip is high enough.
  for (const double share : {0.1, 0.2, 0.3, 0.4}) {
    const double x = strip.left() + share * strip.width();
    const double baseline = heightsBetween(water, x, x + render::textWidth(font, waterName)).low - canvas.px(6.0);
    if (baseline < strip.top() + canvas.px(5.0)) continue;
    put(x, baseline, waterName);
    break;
  }
  const double x = strip.left() + 0.1 * strip.width();
  const double baseline = heightsBetween(tube, x, x + render::textWidth(font, tubeName)).high + canvas.px(14.0);
  if (baseline < strip.bottom() + canvas.px(4.0)) put(x, baseline, tubeName);
}

}  // namespace

void drawBendStrip(const Canvas& canvas) {
  const QRectF& strip = canvas.place.bend;
  if (strip.height() <= 0.0) return;
  drawNames(canvas, strip, {Text::tr("bend"), Text::tr("times the kink limit")});
  const std::vector<const results::Bend*> bends = bendsOfRun(canvas.content);
  const double shapes = canvas.px(18.0, 14.0);
  const QRectF blocks = strip.adjusted(0.0, shapes, 0.0, 0.0);
  Span span;
  span.take(1.0);
  for (const results::Bend* bend : bends) span.take(results::timesKinkRadius(*bend));
  const Axis axis{span.low, std::max(span.high, 1.2), 1.0, {}};
  for (double times = 2.0; times <= span.high && span.high < 8.0; times += 1.0) {
    const double y = axis.y(blocks, times);
    canvas.line(strip.left(), y, strip.right(), y, canvas.tokens.hair, 1.0);
  }
  drawBlocks(canvas, blocks, bends, axis);
  const double kink = axis.y(blocks, 1.0);
  canvas.line(strip.left(), kink, strip.right(), kink, canvas.tokens.ink, 1.4);
  const TextStyle small{12.5};
  const double labels = strip.right() + canvas.px(8.0);
  drawText(canvas, {labels, kink + canvas.px(1.0)}, Text::tr("kinks"), canvas.tokens.ink2, small);
  if (!bends.empty() && kink - axis.y(blocks, span.high) > canvas.px(12.0)) {
    drawText(canvas, {labels, axis.y(blocks, span.high) + canvas.px(5.0)}, QString::number(span.high, 'f', 1),
             canvas.tokens.ink2, small);
  }
  drawEndOnShapes(canvas, bends, strip.top());
}

void drawWaterStrip(const Canvas& canvas) {
  const QRectF& strip = canvas.place.water;
  if (strip.height() <= 0.0) return;
  const QString degree = us(canvas) ? Text::tr("°F, along the run") : Text::tr("°C, along the run");
  drawNames(canvas, strip, {Text::tr("water"), degree});
  if (canvas.content.profile == nullptr) return;
  const Axis axis = waterAxis(canvas);
  const std::vector<double> stations = stationsToDraw(canvas);
  drawRangeBand(canvas, axis, stations);
  drawAxis(canvas, strip, axis);
  drawRibbon(canvas, axis, stations);
  if (!canvas.content.settled) drawSettling(canvas, strip);
}

void drawWaterLineStrip(const Canvas& canvas) {
  const QRectF& strip = canvas.place.waterLine;
  if (strip.height() <= 0.0) return;
  const QString unit = us(canvas) ? Text::tr("ft above the pool") : Text::tr("m above the pool");
  drawNames(canvas, strip, {Text::tr("water line"), unit});
  if (canvas.content.profile == nullptr) return;
  const Axis axis = waterLineAxis(canvas);
  drawAxis(canvas, strip, axis);
  const double pool = axis.y(strip, 0.0);
  canvas.line(strip.left(), pool, strip.right(), pool, canvas.tokens.mark, 1.0);
  drawSiphonHatch(canvas, axis);
  const QPolygonF tube = lineOf(canvas, axis, &Point::height_m), water = lineOf(canvas, axis, &Point::waterLine_m);
  strokeInPieces(canvas, tube, 1.1);
  strokeInPieces(canvas, water, 2.2);
  drawSiphonSentence(canvas, axis);
  if (canvas.place.isLarge()) drawLineNames(canvas, water, tube);
  if (!canvas.content.settled) drawSettling(canvas, strip);
}

void drawNoProfile(const Canvas& canvas) {
  const QRectF strip = canvas.place.water.height() > 0.0 ? canvas.place.water : canvas.place.waterLine;
  if (canvas.content.profile != nullptr || strip.height() <= 0.0) return;
  const QFont italic = fontOf(canvas, {15.0, QFont::Normal, render::Voice::Said, true});
  const QString text = canvas.content.settled ? canvas.content.noProfile : Text::tr("settling");
  canvas.painter.setFont(italic);
  canvas.painter.setPen(canvas.tokens.ink2);
  const QRectF room(strip.left(), strip.top(), canvas.place.right - strip.left(),
                    std::max(canvas.place.waterLine.bottom(), strip.bottom()) - strip.top());
  canvas.painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, text);
}

QRectF siphonTextRect(const Canvas& canvas) {
  const QRectF& strip = canvas.place.waterLine;
  if (strip.height() <= 0.0 || canvas.content.profile == nullptr) return {};
  const QString text = siphonText(canvas);
  if (text.isEmpty()) return {};
  const double width = render::textWidth(fontOf(canvas, kLineName), text);
  const double right = strip.right() - canvas.px(6.0), tall = canvas.px(17.0);
  const QRectF upper(std::max(strip.left(), right - width), strip.top() - canvas.px(1.0), width, tall);
  const Axis axis = waterLineAxis(canvas);
  const QPolygonF tube = lineOf(canvas, axis, &Point::height_m), water = lineOf(canvas, axis, &Point::waterLine_m);
  const double highest = std::min(heightsBetween(tube, upper.left(), upper.right()).low,
                                  heightsBetween(water, upper.left(), upper.right()).low);
  const double lowest = std::max(heightsBetween(tube, upper.left(), upper.right()).high,
                                 heightsBetween(water, upper.left(), upper.right()).high);
  const QRectF lower(upper.left(), strip.bottom() - tall + canvas.px(3.0), width, tall);
  return highest - upper.bottom() >= 0.0 || highest - upper.bottom() >= lower.top() - lowest ? upper : lower;
}

double waterRibbonY(const Canvas& canvas, double station_m) {
  const QRectF& strip = canvas.place.water;
  if (canvas.content.profile == nullptr) return strip.center().y();
  return waterAxis(canvas).y(strip, degrees(canvas, results::at(*canvas.content.profile, station_m).water_K));
}

}  // namespace sunspool::tape
