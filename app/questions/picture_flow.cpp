// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainterPath>
#include <QPolygonF>
#include <algorithm>

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
    paintLift(painter, tokens, axes);
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
    const auto top = std::find_if(best.begin(), best.end(), [&](QPointF p) { return p.y() <= axes.plot.top(); });
    QPointF name = top == best.end() ? best.back() : *top;
    name.setY(std::max(name.y(), axes.plot.top()) - tokens.px(8));
    const QFont bold = measured(tokens, 14, QFont::Bold);
    const double half = render::textWidth(bold, tr("your tube")) / 2;
    name.setX(std::clamp(name.x(), axes.plot.left() + half + tokens.px(30), axes.plot.right() - half));
    write(painter, name, tr("your tube"), bold, tokens.ink, Side::Middle);
  }

  void paintPump(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    QPolygonF pump;
    for (std::size_t i = 0; i < m_model.curves.pump.size(); ++i) pump << pumpAt(axes, i);
    QPen pen(tokens.ink, 2.0);
    if (m_model.labels) pen.setDashPattern({kDash / 2.0, kGap / 2.0});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(pump);
    paintPumpName(painter, tokens, axes);
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

  /// Under the curve, at the first place where neither flag nor lift nor dropline stands.
  void paintPumpName(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    const QFont bold = measured(tokens, 14, QFont::Bold), small = measured(tokens, 13.5);
    const QString first = tr("pump, through"),
                  second = m_model.labels ? tr("its two label numbers") : tr("its measured points");
    const double wide = std::max(render::textWidth(bold, first), render::textWidth(small, second));
    const QRectF taken[] = {flagRect(tokens, axes), liftTextRect(tokens, axes)};
    const double dropline = m_model.never.isEmpty() ? workingPoint(axes).x() : axes.plot.left();
    // Where nothing is free below, above the beginning of the curve.
    const QPointF start = pumpAt(axes, 0) + QPointF(tokens.px(28) + wide, -tokens.px(32));
    QPointF best = start;
    for (const std::size_t percent : {70U, 77U, 84U, 88U, 60U, 50U}) {
      const QPointF curve = pumpAt(axes, m_model.curves.pump.size() * percent / 100);
      const QRectF text(curve.x() - tokens.px(14) - wide, curve.y() - tokens.px(14), wide, tokens.px(42));
      const bool free =
          std::none_of(std::begin(taken), std::end(taken), [&](const QRectF& other) { return other.intersects(text); });
      if (!free || text.left() < dropline + tokens.px(8) || text.bottom() > axes.plot.bottom()) continue;
      best = curve;
      break;
    }
    const QPointF at(best.x() - tokens.px(14) - wide, best.y() + tokens.px(4));
    render::drawHaloText(painter, at, first, bold, tokens.ink, tokens.slip);
    render::drawHaloText(painter, at + QPointF(0, tokens.px(18)), second, small, tokens.ink, tokens.slip);
  }

  void paintLift(QPainter& painter, const render::Tokens& tokens, const Axes& axes) const {
    const double lift = m_model.headUnit.of(m_model.curves.startingLift_m);
    if (lift <= 0.0) return;
    const QPointF from = axes.at(0, lift);
    line(painter, from, {from.x() + tokens.px(116), from.y()}, tokens.ink, 1.6, Qt::DotLine);
    const QRectF text = liftTextRect(tokens, axes);
    render::drawHaloText(painter, {text.left(), text.bottom() - tokens.px(4)}, m_model.lift, measured(tokens, 13.5),
                         tokens.ink, tokens.slip);
  }
  QRectF liftTextRect(const render::Tokens& tokens, const Axes& axes) const {
    const QPointF from = axes.at(0, m_model.headUnit.of(m_model.curves.startingLift_m));
    const QPointF work = workingPoint(axes);
    const bool runs = m_model.never.isEmpty();
    const bool collides = runs && work.y() > from.y() - tokens.px(24);
    const double left = std::max(from.x() + tokens.px(14), runs ? work.x() + tokens.px(14) : 0.0);
    const double bottom = from.y() + (collides ? -tokens.px(2) : tokens.px(21));
    return {left, bottom - tokens.px(18), render::textWidth(measured(tokens, 13.5), m_model.lift), tokens.px(18)};
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
