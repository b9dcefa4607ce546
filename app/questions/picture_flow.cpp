// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainterPath>
#include <QPolygonF>
#include <algorithm>
#include <vector>

#include "app/questions/brush.h"
#include "app/questions/parts.h"

namespace sunspool::questions {
namespace {

constexpr double kDash = 11.0, kGap = 5.0;

class FlowPicture : public Picture {
 public:
  explicit FlowPicture(FlowPictureModel model) : m_model(std::move(model)) {
    const double top = std::max(m_model.curves.shutOffHead_m, m_model.curves.startingLift_m);
    m_mostHead = 1.15 * m_model.headUnit.of(top);
    m_mostFlow = 1.08 * m_model.flowUnit.of(m_model.curves.largestFlow_m3_s);
  }
  Place place() const override { return Place::Beside; }
  double heightFor(double width, const render::Tokens& tokens) const override {
    return std::clamp(1.05 * width, tokens.px(330), tokens.px(440));
  }
  QString spoken() const override {
    const QString pump = m_model.labels ? tr("pump curve through the two label numbers, which never occur together")
                                        : tr("measured pump curve");
    const QString meets =
        m_model.never.isEmpty() ? tr("meets the tube's curve at %1").arg(m_model.working) : m_model.never;
    return QStringLiteral("%1; %2; %3.").arg(pump, meets, m_model.lift);
  }

  void paint(QPainter& painter, const render::Tokens& tokens, const QRectF& rect) const override {
    const Axes axes = axesIn(rect, tokens);
    paintAxes(painter, tokens, axes, rect);
    paintSystem(painter, tokens, axes);
    paintPump(painter, tokens, axes);
    paintLift(painter, axes, tokens);
    paintWords(painter, tokens, axes);
    if (m_model.never.isEmpty()) {
      paintWorkingPoint(painter, tokens, axes);
    } else {
      const QFont bold = measured(tokens, 15, QFont::Bold);
      const QString shown = elided(bold, m_model.never, axes.plot.width());
      render::drawHaloText(painter, {axes.plot.left() + tokens.px(8), axes.plot.bottom() - tokens.px(12)}, shown, bold,
                           tokens.ink, tokens.slip);
    }
  }

 private:
  struct Axes {
    QRectF plot;
    double perFlow = 1.0, perHead = 1.0;
    QPointF at(double flow, double head) const {
      return {plot.left() + flow * perFlow, plot.bottom() - head * perHead};
    }
  };
  Axes axesIn(const QRectF& rect, const render::Tokens& tokens) const {
    Axes axes;
    axes.plot = rect.adjusted(tokens.px(34), tokens.px(26), -tokens.px(10), -tokens.px(46));
    axes.perFlow = axes.plot.width() / m_mostFlow;
    axes.perHead = axes.plot.height() / m_mostHead;
    return axes;
  }
  QPointF pumpAt(const Axes& axes, std::size_t i) const {
    const auto& p = m_model.curves.pump[i];
    return axes.at(m_model.flowUnit.of(p.flow_m3_s), m_model.headUnit.of(p.head_m));
  }
  QPointF systemAt(const Axes& axes, const evaluate::SystemPoint& p, double head_m) const {
    return axes.at(m_model.flowUnit.of(p.flow_m3_s), m_model.headUnit.of(head_m));
  }

  void paintAxes(QPainter& painter, const render::Tokens& tokens, const Axes& axes, const QRectF& rect) const {
    const QFont small = measured(tokens, 13.5), bold = measured(tokens, 13.5, QFont::Bold);
    const double headStep = niceStep(m_mostHead, 3.5), flowStep = niceStep(m_mostFlow, 6.0);
    for (double head = 0.0; head <= m_mostHead; head += headStep) {
      const double y = axes.at(0, head).y();
      if (head > 0.0) line(painter, {axes.plot.left(), y}, {axes.plot.right(), y}, tokens.hair, 1.0);
      write(painter, {axes.plot.left() - tokens.px(8), y + tokens.px(5)}, tick(head, headStep), small, tokens.ink,
            Side::Right);
    }
    for (double flow = 0.0; flow <= m_mostFlow; flow += flowStep) {
      write(painter, {axes.at(flow, 0).x(), axes.plot.bottom() + tokens.px(19)}, tick(flow, flowStep), small,
            tokens.ink, Side::Middle);
    }
    line(painter, axes.plot.bottomLeft(), axes.plot.bottomRight(), tokens.ink, 1.4);
    line(painter, axes.plot.bottomLeft(), axes.plot.topLeft(), tokens.ink, 1.4);
    write(painter, {rect.left(), rect.top() + tokens.px(14)}, tr("lift, %1").arg(m_model.headUnit.unit), bold,
          tokens.ink);
    write(painter, {axes.plot.right(), axes.plot.bottom() + tokens.px(39)}, tr("flow, %1").arg(m_model.flowUnit.unit),
          bold, tokens.ink, Side::Right);
  }

  void paintSystem(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    QPolygonF best, low, high;
    for (const auto& p : m_model.curves.system) {
      best << systemAt(axes, p, p.head_m);
      low << systemAt(axes, p, p.low_m);
      high << systemAt(axes, p, p.high_m);
    }
    painter.save();
    painter.setClipRect(axes.plot.adjusted(0, -1, 2, 1));
    QPolygonF band = high;
    for (auto point = low.crbegin(); point != low.crend(); ++point) band << *point;
    QColor fill = tokens.mark;
    fill.setAlphaF(0.28F);
    painter.setPen(Qt::NoPen);
    painter.setBrush(fill);
    painter.drawPolygon(band);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(tokens.mark, 1.0));
    painter.drawPolyline(low);
    painter.drawPolyline(high);
    painter.setPen(QPen(tokens.ink, 2.2));
    painter.drawPolyline(best);
    painter.restore();
  }

  void paintPump(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    QPolygonF pump;
    for (std::size_t i = 0; i < m_model.curves.pump.size(); ++i) pump << pumpAt(axes, i);
    QPen pen(tokens.ink, 2.0);
    if (m_model.labels) pen.setDashPattern({kDash / 2.0, kGap / 2.0});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(pump);
    const QFont bold = measured(tokens, 14, QFont::Bold), small = measured(tokens, 13.5);
    if (!m_model.labels) return;
    const QPointF head = pump.front(), flow = pump.back(), corner(flow.x(), head.y());
    line(painter, head, corner, tokens.mark, 1.2, Qt::DotLine);
    line(painter, flow, corner, tokens.mark, 1.2, Qt::DotLine);
    const double r = tokens.px(5);
    painter.setPen(QPen(tokens.ink, 1.6));
    painter.setBrush(tokens.slip);
    for (const QPointF end : {head, flow}) painter.drawRect(QRectF(end - QPointF(r, r), QSizeF(2 * r, 2 * r)));
    painter.setPen(QPen(tokens.ink, 1.6, Qt::DotLine));
    const QRectF crossed(corner - QPointF(r, r), QSizeF(2 * r, 2 * r));
    painter.drawRect(crossed);
    line(painter, crossed.topLeft(), crossed.bottomRight(), tokens.ink, 1.2);
    line(painter, crossed.bottomLeft(), crossed.topRight(), tokens.ink, 1.2);
    write(painter, {corner.x() + r, corner.y() - tokens.px(11)}, tr("what the label seems to say"), bold, tokens.ink,
          Side::Right);
    render::drawHaloText(
        painter,
        {corner.x() - tokens.px(12) - render::textWidth(small, tr("never happens")), corner.y() + tokens.px(17)},
        tr("never happens"), small, tokens.ink2, tokens.slip);
  }

  void paintLift(QPainter& painter, const Axes& axes, const render::Tokens& tokens) const {
    const double lift = m_model.headUnit.of(m_model.curves.startingLift_m);
    if (lift <= 0.0) return;
    const QPointF from = axes.at(0, lift);
    line(painter, from, {from.x() + tokens.px(116), from.y()}, tokens.ink, 1.6, Qt::DotLine);
  }

  /// The names of curves and lines, each at the first of its places where nothing else stands.
  void paintWords(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    Taken taken = takenIn(tokens, axes);
    const QFont bold = measured(tokens, 14, QFont::Bold), small = measured(tokens, 13.5);
    const QSizeF liftSize(render::textWidth(small, m_model.lift), tokens.px(18));
    const QRectF lift = taken.place(liftPlaces(tokens, axes), liftSize);
    if (m_model.curves.startingLift_m > 0.0)
      render::drawHaloText(painter, {lift.left(), lift.bottom() - tokens.px(4)}, m_model.lift, small, tokens.ink,
                           tokens.slip);
    const QString tube = tr("your tube"), pump = tr("pump, through"),
                  through = m_model.labels ? tr("its two label numbers") : tr("its measured points");
    const QSizeF tubeSize(render::textWidth(bold, tube), tokens.px(18));
    const QRectF tubeName = taken.place(tubePlaces(tokens, axes, tubeSize), tubeSize);
    render::drawHaloText(painter, {tubeName.left(), tubeName.bottom() - tokens.px(4)}, tube, bold, tokens.ink,
                         tokens.slip);
    const QSizeF pumpSize(std::max(render::textWidth(bold, pump), render::textWidth(small, through)), tokens.px(38));
    const QRectF name = taken.place(pumpPlaces(tokens, axes, pumpSize), pumpSize);
    render::drawHaloText(painter, {name.left(), name.top() + tokens.px(15)}, pump, bold, tokens.ink, tokens.slip);
    render::drawHaloText(painter, {name.left(), name.top() + tokens.px(33)}, through, small, tokens.ink, tokens.slip);
  }

  /// What stands in the plot already.
  struct Taken {
    QRectF room;
    std::vector<QRectF> boxes;
    QPolygonF lines;  ///< points along the curves
    bool isFree(const QRectF& box) const {
      return room.contains(box) &&
             std::none_of(boxes.begin(), boxes.end(), [&](const QRectF& other) { return other.intersects(box); }) &&
             std::none_of(lines.begin(), lines.end(), [&](const QPointF& point) { return box.contains(point); });
    }
    /// The first free place, else the first one; from now on it is taken.
    QRectF place(const std::vector<QPointF>& corners, QSizeF size) {
      QRectF found(corners.front(), size);
      for (const QPointF& corner : corners) {
        if (!isFree(QRectF(corner, size))) continue;
        found = QRectF(corner, size);
        break;
      }
      boxes.push_back(found.adjusted(0, -8, 0, 8));
      return found;
    }
  };
  Taken takenIn(const render::Tokens& tokens, const Axes& axes) const {
    Taken taken{axes.plot.adjusted(tokens.px(3), -tokens.px(26), tokens.px(10), 0), {}, {}};
    const auto along = [&](QPointF from, QPointF to) {
      for (int i = 0; i <= 4; ++i) {
        const QPointF point = from + (to - from) * i / 4.0;
        if (point.y() >= axes.plot.top()) taken.lines << point;
      }
    };
    for (std::size_t i = 1; i < m_model.curves.pump.size(); ++i) along(pumpAt(axes, i - 1), pumpAt(axes, i));
    for (std::size_t i = 1; i < m_model.curves.system.size(); ++i) {
      const auto &a = m_model.curves.system[i - 1], &b = m_model.curves.system[i];
      along(systemAt(axes, a, a.head_m), systemAt(axes, b, b.head_m));
    }
    if (m_model.never.isEmpty()) {
      const QPointF work = workingPoint(axes);
      taken.boxes = {flagRect(tokens, axes), QRectF(work.x() - 1, work.y(), 2, axes.plot.bottom() - work.y()),
                     QRectF(axes.plot.left(), work.y() - 1, work.x() - axes.plot.left(), 2)};
    }
    const double lift = axes.at(0, m_model.headUnit.of(m_model.curves.startingLift_m)).y();
    taken.boxes.emplace_back(axes.plot.left(), lift - 1, tokens.px(116), 2);
    if (m_model.labels) {
      const QPointF corner(pumpAt(axes, m_model.curves.pump.size() - 1).x(), pumpAt(axes, 0).y());
      taken.boxes.emplace_back(corner.x() - tokens.px(180), corner.y() - tokens.px(26), tokens.px(190), tokens.px(24));
      taken.boxes.emplace_back(corner.x() - tokens.px(110), corner.y() + tokens.px(2), tokens.px(104), tokens.px(20));
    }
    return taken;
  }
  std::vector<QPointF> liftPlaces(const render::Tokens& tokens, const Axes& axes) const {
    const QPointF from = axes.at(0, m_model.headUnit.of(m_model.curves.startingLift_m));
    const double x = from.x() + tokens.px(14), right = workingPoint(axes).x() + tokens.px(14);
    std::vector<QPointF> places;
    for (const double down : {4.0, -21.0, 46.0, 60.0, 24.0}) {
      for (const double at : {right, x}) places.emplace_back(at, from.y() + tokens.px(down));
    }
    return places;
  }
  /// Over the end of the curve where it leaves the plot, else below it on its right.
  std::vector<QPointF> tubePlaces(const render::Tokens& tokens, const Axes& axes, QSizeF size) const {
    const auto& system = m_model.curves.system;
    std::vector<QPointF> places;
    for (const auto& p : system) {
      const QPointF at = systemAt(axes, p, p.head_m);
      if (at.y() > axes.plot.top()) continue;
      const double x =
          std::clamp(at.x() - size.width() / 2, axes.plot.left() + tokens.px(30), axes.plot.right() - size.width());
      places.emplace_back(x, axes.plot.top() - tokens.px(22));
      break;
    }
    for (const std::size_t percent : {60U, 50U, 40U, 70U, 80U, 90U}) {
      const auto& p = system[(system.size() - 1) * percent / 100];
      places.push_back(systemAt(axes, p, p.head_m) + QPointF(tokens.px(12), tokens.px(4)));
    }
    return places;
  }
  std::vector<QPointF> pumpPlaces(const render::Tokens& tokens, const Axes& axes, QSizeF size) const {
    std::vector<QPointF> places;
    for (const std::size_t percent : {70U, 77U, 84U, 88U, 92U, 94U, 60U, 50U, 45U, 40U, 35U}) {
      const QPointF curve = pumpAt(axes, (m_model.curves.pump.size() - 1) * percent / 100);
      places.push_back(curve - QPointF(tokens.px(12) + size.width(), tokens.px(12)));
    }
    for (const std::size_t percent : {20U, 30U, 40U, 50U, 60U}) {
      const QPointF curve = pumpAt(axes, (m_model.curves.pump.size() - 1) * percent / 100);
      places.push_back(curve + QPointF(tokens.px(12), -tokens.px(24)));
    }
    return places;
  }

  QPointF workingPoint(const Axes& axes) const {
    return axes.at(m_model.flowUnit.of(m_model.curves.workFlow_m3_s), m_model.headUnit.of(m_model.curves.workHead_m));
  }
  void paintWorkingPoint(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    const QPointF at = workingPoint(axes);
    const QPointF down(at.x(), axes.plot.bottom()), across(axes.plot.left(), at.y());
    line(painter, at, down, tokens.violet, 1.8);
    line(painter, at, across, tokens.violet, 1.8);
    if (m_model.low_m3_s && m_model.high_m3_s) {
      const double low = axes.at(m_model.flowUnit.of(*m_model.low_m3_s), 0).x();
      const double high = axes.at(m_model.flowUnit.of(*m_model.high_m3_s), 0).x();
      painter.fillRect(QRectF(low, axes.plot.bottom() - 3.0, std::max(2.0, high - low), 6.0), tokens.violet);
    }
    painter.setPen(QPen(tokens.slip, tokens.px(7)));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(at, tokens.px(9), tokens.px(9));
    painter.setPen(QPen(tokens.violet, tokens.px(3.4)));
    painter.setBrush(tokens.slip);
    painter.drawEllipse(at, tokens.px(9), tokens.px(9));
    render::drawFlag(painter, tokens, flagRect(tokens, axes), m_model.working);
  }
  QRectF flagRect(const render::Tokens& tokens, const Axes& axes) const {
    if (!m_model.never.isEmpty()) return {};
    const QPointF at = workingPoint(axes);
    const QSizeF size = render::flagSize(tokens, m_model.working);
    QPointF corner = at + QPointF(tokens.px(20), tokens.px(12));
    if (corner.x() + size.width() > axes.plot.right()) corner.setX(at.x() - tokens.px(20) - size.width());
    if (corner.y() + size.height() > axes.plot.bottom() - tokens.px(6)) {
      corner.setY(at.y() - tokens.px(14) - size.height());
    }
    return {corner, size};
  }

  FlowPictureModel m_model;
  double m_mostHead = 1.0, m_mostFlow = 1.0;
};

}  // namespace

PicturePtr flowPicture(FlowPictureModel model) { return std::make_shared<FlowPicture>(std::move(model)); }

}  // namespace sunspool::questions
