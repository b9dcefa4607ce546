// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/charts/linked_charts.h"

#include <QAbstractButton>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/format/axis.h"
#include "app/render/marks.h"
#include "core/checks/measures.h"
#include "core/model/edits.h"

namespace sunspool::charts {
namespace {

constexpr double kTitle_px = 40.0;
constexpr double kPitchSteps_per_m = 2000.0, kRadiusSteps_per_m = 1000.0;  // half a millimetre, a millimetre

enum Curve { kTube, kWater, kLoss, kHeat };

constexpr std::array kKeys{store::NumberKey::TubeLength, store::NumberKey::Water, store::NumberKey::PressureDrop,
                           store::NumberKey::Heat};

double valueOf(const evaluate::SweepPoint& point, int index) {
  switch (index) {
    case kTube:
      return point.tubeLength_m;
    case kWater:
      return point.water_m3;
    case kLoss:
      return point.loss_Pa;
    default:
      return point.heat_W;
  }
}
/// The present number of one curve in SI; nullopt while it is not known.
std::optional<double> presentOf(const results::Results& results, int index) {
  switch (index) {
    case kTube:
      return results.layout.has_value() ? std::optional(results.tubeLength.value.si()) : std::nullopt;
    case kWater:
      return results.layout.has_value() ? std::optional(results.water.value.si()) : std::nullopt;
    case kLoss:
      return results.flow.has_value() ? std::optional(results.flow->panelLoss.value.si()) : std::nullopt;
    default:
      return results.heat.has_value() ? std::optional(results.heat->toPool.value.si()) : std::nullopt;
  }
}
constexpr std::array kDimensions{Dimension::Length, Dimension::Volume, Dimension::Pressure, Dimension::Power};

QString amount(double si, int index, const format::Preferences& preferences) {
  if (index == kTube) return format::number(metres(si), format::LengthScale::Run, preferences).joined();
  return format::number(Fact{{}, si, kDimensions[static_cast<std::size_t>(index)]}, preferences).joined();
}
QString withoutUnit(QString range, const QString& unit) {
  if (!unit.isEmpty() && range.endsWith(unit)) range.chop(unit.size());
  return range.trimmed();
}

/// A word that can be chosen: underlined, the chosen one bold with a violet line.
class WordButton : public QAbstractButton {
 public:
  WordButton(const QString& word, render::Look& look, QWidget* parent) : QAbstractButton(parent), m_look(look) {
    setText(word);
    setCheckable(true);
    setAutoExclusive(true);
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
  }
  QSize sizeHint() const override {
    const double width = render::textWidth(wordFont(QFont::Bold), text()) + m_look.tokens().px(14);
    return {static_cast<int>(std::ceil(width)), static_cast<int>(m_look.tokens().px(34))};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const render::Tokens& tokens = m_look.tokens();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QFont font = wordFont(isChecked() ? QFont::Bold : QFont::Normal);
    const double width_ = render::textWidth(font, text()), left = (width() - width_) / 2, base = tokens.px(21);
    painter.setFont(font);
    painter.setPen(isChecked() || underMouse() ? tokens.ink : tokens.ink2);
    painter.drawText(QPointF(left, base), text());
    painter.setPen(QPen(isChecked() ? tokens.violet : tokens.mark, isChecked() ? 2.5 : 1.0));
    painter.drawLine(QPointF(left, base + tokens.px(5)), QPointF(left + width_, base + tokens.px(5)));
    if (hasFocus()) render::drawFocusRing(painter, tokens, QRectF(rect()).adjusted(5, 5, -5, -5));
  }

 private:
  QFont wordFont(QFont::Weight weight) const {
    return render::font(m_look.tokens(), render::Voice::Measured, 14.5, weight);
  }
  render::Look& m_look;
};

}  // namespace

LinkedCharts::LinkedCharts(store::DocumentStore& store, store::Hub& hub, render::Look& look, store::SweepRunner& sweeps,
                           QWidget* parent)
    : QWidget(parent), m_store(store), m_hub(hub), m_look(look), m_sweeps(sweeps) {
  setObjectName(QStringLiteral("designCurves"));
  setAccessibleName(tr("Design curves"));
  const std::array names{tr("pitch"), tr("turns"), tr("radius")};
  for (std::size_t i = 0; i < m_variables.size(); ++i) {
    auto* button = new WordButton(names[i], look, this);
    button->setObjectName(QStringLiteral("curves.over.%1").arg(i));
    button->setAccessibleName(tr("Curves over %1").arg(names[i]));
    button->setToolTip(button->accessibleName());
    connect(button, &QAbstractButton::clicked, this, [this, i] { setVariable(static_cast<evaluate::Sweep>(i)); });
    m_variables[i] = button;
  }
  for (std::size_t i = 0; i < m_curves.size(); ++i) {
    auto* curve = new DesignCurve(look, this);
    curve->setObjectName(QStringLiteral("curve.%1").arg(i));
    curve->setShowsDesignAxis(i + 1 == m_curves.size());
    m_curves[i] = curve;
    connect(curve, &DesignCurve::hovered, this, [this](std::optional<double> x) {
      m_hub.setGhost(x ? std::optional(snapped(designFrom(*x))) : std::nullopt);
    });
    connect(curve, &DesignCurve::dragged, this, [this](double x) { dragTo(x); });
    connect(curve, &DesignCurve::dropped, this, [this] { m_store.commitPreview(stepText()); });
    connect(curve, &DesignCurve::cancelled, this, [this] { m_store.cancelPreview(); });
    connect(curve, &DesignCurve::stepped, this, [this](int steps) { step(steps); });
    connect(curve, &DesignCurve::numberAsked, this, [this, i] { m_hub.askAbout(kKeys[i]); });
  }
  connect(&store, &store::DocumentStore::resultsChanged, this, &LinkedCharts::refresh);
  connect(&sweeps, &store::SweepRunner::sweepChanged, this, &LinkedCharts::refresh);
  connect(&store, &store::DocumentStore::beforeChanged, this, &LinkedCharts::refresh);
  connect(&hub, &store::Hub::sweepVariableChanged, this, &LinkedCharts::refresh);
  connect(&hub, &store::Hub::ghostChanged, this, [this] {
    const auto ghost = m_hub.ghost();
    for (DesignCurve* curve : m_curves) curve->setGhost(ghost ? std::optional(shownDesign(*ghost)) : std::nullopt);
  });
  connect(&look, &render::Look::changed, this, [this] {
    resizeEvent(nullptr);
    refresh();
    update();
  });
  refresh();
}

void LinkedCharts::setVariable(evaluate::Sweep variable) { m_hub.setSweepVariable(variable); }

double LinkedCharts::presentValue() const {
  return store::sweepValue(m_store.document(), *m_store.results(), m_hub.sweepVariable());
}

double LinkedCharts::shownDesign(double value) const {
  if (m_hub.sweepVariable() == evaluate::Sweep::QuarterTurns) return value / 4.0;  // whole turns on the axis
  return format::axisOf(format::LengthScale::Drawing, m_look.preferences()).of(value);
}

double LinkedCharts::designFrom(double shown) const {
  if (m_hub.sweepVariable() == evaluate::Sweep::QuarterTurns) return shown * 4.0;
  return format::axisOf(format::LengthScale::Drawing, m_look.preferences()).toSi(shown);
}

double LinkedCharts::snapped(double value) const {
  switch (m_hub.sweepVariable()) {
    case evaluate::Sweep::Pitch:
      return std::round(value * kPitchSteps_per_m) / kPitchSteps_per_m;
    case evaluate::Sweep::BendRadius:
      return std::round(value * kRadiusSteps_per_m) / kRadiusSteps_per_m;
    case evaluate::Sweep::QuarterTurns:
      return std::max(1.0, std::round(value));
  }
  return value;
}

store::Edit LinkedCharts::editTo(double value) const {
  switch (m_hub.sweepVariable()) {
    case evaluate::Sweep::Pitch:
      return [value](model::Document d) { return model::withPitch(std::move(d), metres(value)); };
    case evaluate::Sweep::BendRadius:
      return [value](model::Document d) { return model::withBendRadius(std::move(d), metres(value)); };
    case evaluate::Sweep::QuarterTurns: {
      const int turns = static_cast<int>(std::lround(value));
      return [turns](model::Document d) { return model::withQuarterTurns(std::move(d), turns); };
    }
  }
  return {};
}

QString LinkedCharts::stepText() const {
  const QString to = [&] {
    if (m_hub.sweepVariable() == evaluate::Sweep::QuarterTurns) return QString::number(presentValue() / 4.0);
    return format::number(metres(presentValue()), format::LengthScale::Drawing, m_look.preferences()).joined();
  }();
  switch (m_hub.sweepVariable()) {
    case evaluate::Sweep::Pitch:
      return tr("Change the pitch to %1").arg(to);
    case evaluate::Sweep::BendRadius:
      return tr("Change the bend radius to %1").arg(to);
    case evaluate::Sweep::QuarterTurns:
      return tr("Lay %1 turns").arg(to);
  }
  return {};
}

void LinkedCharts::dragTo(double shown) {
  const double low = m_curves[0]->model().from, high = m_curves[0]->model().to;
  m_hub.setGhost(std::nullopt);
  m_store.preview(editTo(snapped(designFrom(std::clamp(shown, low, high)))));
}

void LinkedCharts::step(int steps) {
  double size = 1.0;
  if (m_hub.sweepVariable() == evaluate::Sweep::Pitch) size = 1.0 / kPitchSteps_per_m;
  if (m_hub.sweepVariable() == evaluate::Sweep::BendRadius) size = 1.0 / kRadiusSteps_per_m;
  const double value = snapped(presentValue() + steps * size);
  // Steps of another variable are another step of undo.
  const QString mergeKey = QStringLiteral("curves.%1").arg(static_cast<int>(m_hub.sweepVariable()));
  if (m_store.apply(editTo(value), tr("Step along the design curves"), mergeKey)) refresh();
}

CurveModel LinkedCharts::modelOf(int index) const {
  const auto results = m_store.results();
  const format::Preferences& preferences = m_look.preferences();
  CurveModel model;
  // Curves of another variable would lie on the wrong axis until the new ones arrive.
  static const std::vector<evaluate::SweepPoint> kNone;
  const auto& points = m_sweeps.variable() == m_hub.sweepVariable() ? m_sweeps.points() : kNone;
  double largest = 0.0;
  const auto si = [index](const evaluate::SweepPoint& p) { return valueOf(p, index); };
  for (const auto& p : points) largest = std::max(largest, p.legal ? si(p) : 0.0);
  const format::AxisUnit unit = format::axisOf(kDimensions[static_cast<std::size_t>(index)], largest, preferences);
  model.unit = unit.unit;
  const QString names[] = {tr("tube length"), tr("water volume"), tr("pressure drop"), tr("heat output")};
  const QString shortNames[] = {tr("tube"), tr("water"), tr("drop"), tr("heat")};
  model.name = names[index];
  model.shortName = shortNames[index];

  QPolygonF line;
  for (const auto& p : points) {
    if (p.legal) {
      line << QPointF(shownDesign(p.x), unit.of(si(p)));
    } else if (!line.isEmpty()) {
      model.lines.push_back(std::exchange(line, {}));
    }
  }
  if (!line.isEmpty()) model.lines.push_back(line);
  if (!points.empty()) {
    model.from = shownDesign(points.front().x);
    model.to = shownDesign(points.back().x);
  }

  const std::optional<double> present = presentOf(*results, index);
  model.value = tr("not laid");
  switch (index) {
    case kTube:
      if (!results->layout.has_value()) break;
      model.value = format::number(results->tubeLength.value, format::LengthScale::Run, preferences).joined();
      model.range = format::rangeOf(results->tubeLength, format::LengthScale::Run, preferences);
      model.bareRange = withoutUnit(model.range, format::axisOf(format::LengthScale::Run, preferences).unit);
      for (const model::Roll& roll : m_store.document().stock.rolls) {
        model.valueLimits.push_back(
            {unit.of(roll.length.si()),
             tr("roll ends, %1").arg(format::number(roll.length, format::LengthScale::Run, preferences).joined())});
      }
      break;
    case kWater:
      if (!results->layout.has_value()) break;
      model.value = format::number(results->water.value, preferences).joined();
      model.range = format::range(results->water, preferences);
      model.bareRange = withoutUnit(model.range, format::number(results->water.high, preferences).unit);
      break;
    case kLoss:
      model.settled = m_store.isSettled();
      if (!results->flow.has_value()) break;
      model.value = format::number(results->flow->panelLoss.value, preferences).joined();
      model.range = format::range(results->flow->panelLoss, preferences);
      model.bareRange = withoutUnit(model.range, format::number(results->flow->panelLoss.high, preferences).unit);
      break;
    default:
      model.settled = m_store.isSettled();
      if (!results->heat.has_value()) {
        model.value = results->layout.has_value() ? tr("no heat") : model.value;
        break;
      }
      model.value = format::number(results->heat->toPool.value, preferences).joined();
      model.range = format::range(results->heat->toPool, preferences);
      model.bareRange = withoutUnit(model.range, format::number(results->heat->toPool.high, preferences).unit);
  }
  if (present) model.present = QPointF(shownDesign(presentValue()), unit.of(*present));
  addBefore(index, unit, present, model);

  if (m_hub.sweepVariable() == evaluate::Sweep::Pitch) {
    model.designLimits.push_back({shownDesign(m_store.document().tube.outsideDiameter.value.si()), tr("tubes touch")});
  } else if (m_hub.sweepVariable() == evaluate::Sweep::BendRadius) {
    model.designLimits.push_back({shownDesign(checks::collapseRadius(m_store.document().tube).si()), tr("kinks")});
  }
  return model;
}

void LinkedCharts::addBefore(int index, const format::AxisUnit& unit, std::optional<double> present,
                             CurveModel& model) const {
  if (!m_store.before()) return;
  const std::optional<double> then = presentOf(*m_store.before()->results, index);
  if (present && then) {
    const format::Preferences& preferences = m_look.preferences();
    const QString size = amount(std::abs(*present - *then), index, preferences);
    const bool same = size == amount(0.0, index, preferences);
    model.difference = same               ? tr("as before")
                       : *present < *then ? QString(QChar(0x2212)) + size
                                          : QStringLiteral("+") + size;
  }
  if (m_sweeps.variable() != m_hub.sweepVariable()) return;
  QPolygonF line;
  for (const auto& p : m_sweeps.beforePoints()) {
    if (p.legal) {
      line << QPointF(shownDesign(p.x), unit.of(valueOf(p, index)));
    } else if (!line.isEmpty()) {
      model.beforeLines.push_back(std::exchange(line, {}));
    }
  }
  if (!line.isEmpty()) model.beforeLines.push_back(line);
}

void LinkedCharts::refresh() {
  for (int i = 0; i < 4; ++i) m_curves[static_cast<std::size_t>(i)]->setModel(modelOf(i));
  for (std::size_t i = 0; i < m_variables.size(); ++i) {
    m_variables[i]->setChecked(static_cast<std::size_t>(m_hub.sweepVariable()) == i);
  }
}

void LinkedCharts::resizeEvent(QResizeEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  const int pad = static_cast<int>(tokens.px(14)), top = static_cast<int>(tokens.px(kTitle_px));
  int x = width() - pad;
  for (std::size_t i = m_variables.size(); i-- > 0;) {
    const int w = m_variables[i]->sizeHint().width();
    x -= w;
    m_variables[i]->setGeometry(x, static_cast<int>(tokens.px(4)), w, static_cast<int>(tokens.px(32)));
  }
  const int axisHeight = static_cast<int>(tokens.px(22));
  const int each = (height() - top - axisHeight - pad / 2) / 4;
  for (std::size_t i = 0; i < m_curves.size(); ++i) {
    const bool last = i + 1 == m_curves.size();
    m_curves[i]->setGeometry(pad, top + static_cast<int>(i) * each, width() - pad - pad / 2,
                             each + (last ? axisHeight : 0));
  }
}

void LinkedCharts::paintEvent(QPaintEvent*) {
  const render::Tokens& tokens = m_look.tokens();
  QPainter painter(this);
  painter.fillRect(rect(), tokens.paper);
  painter.setPen(QPen(tokens.hair, 1.5));
  painter.drawLine(QPointF(width() - 0.75, 0), QPointF(width() - 0.75, height()));
  painter.setPen(tokens.ink);
  painter.setFont(render::font(tokens, render::Voice::Said, 17.5, QFont::Bold));
  painter.drawText(QPointF(tokens.px(16), tokens.px(26)), width() < tokens.px(330) ? tr("Over") : tr("Curves over"));
}

}  // namespace sunspool::charts
