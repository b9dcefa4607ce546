// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop/proposal_picture.h"

#include <QEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/format/format.h"
#include "app/render/marks.h"
#include "core/results/run_profile.h"

namespace sunspool::desktop {
namespace {

constexpr double kHeight = 100.0, kWordsHeight = 62.0, kPicture = 126.0, kGap = 12.0;

QPainterPath pathOf(std::span<const geometry::Piece> pieces) {
  QPainterPath path;
  for (const geometry::Piece& piece : pieces) {
    const geometry::Point start = geometry::startPoint(piece);
    if (path.elementCount() == 0) path.moveTo(start.x, start.y);
    if (const auto* arc = std::get_if<geometry::Arc>(&piece)) {
      constexpr double kDegrees = 180.0 / std::numbers::pi;
      const QRectF round(arc->centre.x - arc->radius, arc->centre.y - arc->radius, 2 * arc->radius, 2 * arc->radius);
      // The painter's y points down and its angles run the other way round.
      path.arcTo(round, -arc->startAngle * kDegrees, -arc->sweep * kDegrees);
    } else {
      const geometry::Point end = geometry::endPoint(piece);
      path.lineTo(end.x, end.y);
    }
  }
  return path;
}

QString severalPanels(const model::Document& design, const QString& tube) {
  const QString panels = QString::number(design.panelsAlike);
  return design.laying.starts == 1
             ? ProposalPicture::tr("%1 × %2, 1 run").arg(panels, tube)
             : ProposalPicture::tr("%1 × %2, %3 runs").arg(panels, tube, QString::number(design.laying.starts));
}

}  // namespace

ProposalPicture::ProposalPicture(int number, render::Look& look, QWidget* parent)
    : QAbstractButton(parent), m_number(number), m_look(look) {
  setObjectName(QStringLiteral("proposal.%1").arg(number));
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
}

int ProposalPicture::heightFor() const {
  return static_cast<int>(m_look.tokens().px(m_withPicture ? kHeight : kWordsHeight));
}

void ProposalPicture::setWithPicture(bool withPicture) {
  if (withPicture == m_withPicture) return;
  m_withPicture = withPicture;
  update();
}

void ProposalPicture::show(std::shared_ptr<const propose::Proposal> proposal, const QString& heat) {
  m_proposal = std::move(proposal);
  m_heat = heat.isEmpty() ? tr("no heat now") : heat;
  const QString all = lines().join(QStringLiteral(", "));
  setText(all);
  setAccessibleName(tr("Proposal %1: %2").arg(m_number).arg(all));
  setToolTip(tr("%1. Key %2 takes it.").arg(all).arg(m_number));
  update();
}

/// Heat; runs and tube; what is left; money.
QStringList ProposalPicture::lines() const {
  const model::Document& design = m_proposal->design;
  const results::Results& results = m_proposal->results;
  const format::Preferences& preferences = m_look.preferences();
  const auto run = [&](Length length) {
    return format::number(length, format::LengthScale::Run, preferences).joined();
  };
  const QString tube = run(results.layout->totalCut);
  const int starts = design.laying.starts;
  const QString laid = design.panelsAlike > 1 ? severalPanels(design, tube)
                       : starts == 1          ? tr("one run of %1").arg(tube)
                       : starts == 2          ? tr("two runs, %1").arg(tube)
                                              : tr("four runs, %1").arg(tube);
  const QString left =
      m_proposal->tubeLeft.si() > 0.05 ? tr("%1 left on the roll").arg(run(m_proposal->tubeLeft)) : tr("no tube left");
  const int ask = results.buying.unknownPrices;
  const QString money = format::money(results.buying.knownTotal, design.stock.currency).joined() +
                        (ask > 0 ? tr(", %1 to ask").arg(ask) : QString());
  return {m_heat, laid, left, money};
}

void ProposalPicture::paintEvent(QPaintEvent*) {
  if (!m_proposal) return;
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  if (underMouse() || hasFocus()) painter.fillRect(rect(), tokens.wash);
  const double pad = tokens.px(8);
  if (m_withPicture) drawPanel(painter, QRectF(pad, pad, tokens.px(kPicture), height() - 2 * pad));
  const double x = pad + (m_withPicture ? tokens.px(kPicture + kGap) : 0.0);
  const double room = width() - x - pad;
  const QStringList said = lines();
  const auto write = [&](double y, const QString& text, const QFont& font, const QColor& colour) {
    painter.setFont(font);
    painter.setPen(colour);
    painter.drawText(QPointF(x, y), QFontMetricsF(font).elidedText(text, Qt::ElideRight, room));
  };
  write(pad + tokens.px(22), said[0],
        render::font(tokens, render::Voice::Measured, m_withPicture ? 20 : 17, QFont::Bold), tokens.ink);
  write(pad + tokens.px(43), said[1], render::font(tokens, render::Voice::Measured, 13.5), tokens.ink);
  if (m_withPicture) {
    write(pad + tokens.px(61), said[2], render::font(tokens, render::Voice::Measured, 13.5), tokens.ink);
    write(pad + tokens.px(79), said[3], render::font(tokens, render::Voice::Measured, 13.5), tokens.ink2);
  }
  const double ring = tokens.px(10);
  render::drawRingLetter(painter, tokens, QPointF(width() - pad - ring, pad + ring + 1), QString::number(m_number), 10);
  if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(5, 5, -5, -5));
}

void ProposalPicture::drawPanel(QPainter& painter, const QRectF& within) const {
  const render::Tokens& tokens = m_look.tokens();
  const model::Frame& frame = m_proposal->design.frame;
  const double timber = frame.timberWidth.si();
  const double width_m = frame.insideWidth.si() + 2 * timber, height_m = frame.insideHeight.si() + 2 * timber;
  const double scale = std::min(within.width() / width_m, within.height() / height_m);
  const QRectF outer(within.left() + 0.5 * (within.width() - scale * width_m),
                     within.top() + 0.5 * (within.height() - scale * height_m), scale * width_m, scale * height_m);
  painter.setPen(QPen(tokens.ink, 1.0));
  painter.setBrush(tokens.timber);
  painter.drawRect(outer);
  const double edge = std::max(1.5, scale * timber);
  const QRectF inner = outer.adjusted(edge, edge, -edge, -edge);
  painter.fillRect(inner, tokens.plate);
  painter.save();
  painter.setClipRect(inner);
  painter.translate(inner.left(), inner.bottom());
  const double pixelsPerMetre = inner.width() / frame.insideWidth.si();
  painter.scale(pixelsPerMetre, -inner.height() / frame.insideHeight.si());
  drawTube(painter, pixelsPerMetre);
  painter.restore();
}

/// Ten stretches a run, each as warm as its water.
void ProposalPicture::drawTube(QPainter& painter, double pixelsPerMetre) const {
  const results::Results& results = m_proposal->results;
  const render::Tokens& tokens = m_look.tokens();
  double coolest = 1e9, warmest = 0.0;
  for (const auto& profile : results.profiles) {
    for (const auto& point : profile.points) {
      coolest = std::min(coolest, point.water_K);
      warmest = std::max(warmest, point.water_K);
    }
  }
  const double outside_m = m_proposal->design.tube.outsideDiameter.value.si();
  const double pen_m = std::clamp(outside_m, 0.9 / pixelsPerMetre, 0.72 * m_proposal->design.laying.pitch.si());
  painter.setBrush(Qt::NoBrush);
  for (std::size_t i = 0; i < results.layout->runs.size(); ++i) {
    const layout::LaidRun& run = results.layout->runs[i];
    constexpr int kStretches = 10;
    for (int part = 0; part < kStretches; ++part) {
      const double inside_m = run.insideTo_m - run.insideFrom_m;
      const double from_m = run.insideFrom_m + inside_m * part / kStretches;
      const double to_m = run.insideFrom_m + inside_m * (part + 1) / kStretches;
      double share = 0.0;
      if (i < results.profiles.size() && warmest > coolest) {
        const auto& points = results.profiles[i].points;
        const auto at = std::find_if(points.begin(), points.end(),
                                     [&](const auto& p) { return p.station_m >= 0.5 * (from_m + to_m); });
        if (at != points.end()) share = (at->water_K - coolest) / (warmest - coolest);
      }
      painter.setPen(QPen(tokens.rampAt(share), pen_m, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
      const geometry::Path stretch = run.path.slice(from_m, to_m);
      painter.drawPath(pathOf(stretch.pieces()));
    }
  }
}

bool ProposalPicture::event(QEvent* event) {
  const bool done = QAbstractButton::event(event);
  switch (event->type()) {
    case QEvent::Enter:
    case QEvent::FocusIn:
      Q_EMIT lookedAt(true);
      break;
    case QEvent::Leave:
    case QEvent::FocusOut:
      Q_EMIT lookedAt(false);
      break;
    default:
      break;
  }
  return done;
}

}  // namespace sunspool::desktop
