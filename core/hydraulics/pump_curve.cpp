// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "core/hydraulics/network.h"

namespace sunspool::hydraulics {
namespace {

bool isPositive(double value) { return value > 0.0 && std::isfinite(value); }
bool isNotNegative(double value) { return value >= 0.0 && std::isfinite(value); }

Error labelImpossible(double flow_m3_s, double head_m, double speed) {
  return {ErrorCode::PumpLabelImpossible,
          "pump",
          {},
          {{"flow", flow_m3_s, Dimension::VolumeFlow},
           {"head", head_m, Dimension::Head},
           {"speed", speed, Dimension::None}}};
}

Result<Done> checkPoints(const model::Pump& pump) {
  if (pump.points.size() == 1) {
    return Error{ErrorCode::OutOfRange, "pump/points", {}, {{"points", 1.0, Dimension::Count}}};
  }
  for (std::size_t n = 0; n < pump.points.size(); ++n) {
    const auto& [flow, head] = pump.points[n];
    if (!isNotNegative(flow.si()) || !isNotNegative(head.si())) {
      return labelImpossible(flow.si(), head.si(), pump.speed);
    }
    if (n == 0) continue;
    const auto& [flowBefore, headBefore] = pump.points[n - 1];
    if (!(flow > flowBefore && head < headBefore)) {
      return Error{ErrorCode::PumpCurveRises,
                   "pump/points",
                   {},
                   {{"flow_a", flowBefore.si(), Dimension::VolumeFlow},
                    {"head_a", headBefore.si(), Dimension::Head},
                    {"flow_b", flow.si(), Dimension::VolumeFlow},
                    {"head_b", head.si(), Dimension::Head}}};
    }
  }
  return Done{};
}

/// Slope at an end by the three-point formula, kept between zero and three times the end secant.
double endSlope(double width0, double width1, double secant0, double secant1) {
  const double slope = ((2.0 * width0 + width1) * secant0 - width0 * secant1) / (width0 + width1);
  return std::clamp(slope, 3.0 * secant0, 0.0);
}

/// Slopes of the monotone cubic through knots that fall.
std::vector<double> monotoneSlopes(const std::vector<double>& x, const std::vector<double>& y) {
  const std::size_t last = x.size() - 1;
  std::vector<double> width(last), secant(last), slope(last + 1);
  for (std::size_t n = 0; n < last; ++n) {
    width[n] = x[n + 1] - x[n];
    secant[n] = (y[n + 1] - y[n]) / width[n];
  }
  if (last == 1) return {secant[0], secant[0]};
  for (std::size_t n = 1; n < last; ++n) {
    const double w1 = 2.0 * width[n] + width[n - 1];
    const double w2 = width[n] + 2.0 * width[n - 1];
    slope[n] = (w1 + w2) / (w1 / secant[n - 1] + w2 / secant[n]);
  }
  slope[0] = endSlope(width[0], width[1], secant[0], secant[1]);
  slope[last] = endSlope(width[last - 1], width[last - 2], secant[last - 1], secant[last - 2]);
  return slope;
}

}  // namespace

Result<PumpCurve> PumpCurve::fromLabels(VolumeFlow labelFlow, Length labelHead) {
  if (!isPositive(labelFlow.si()) || !isPositive(labelHead.si())) {
    return labelImpossible(labelFlow.si(), labelHead.si(), 1.0);
  }
  PumpCurve curve;
  curve.m_shutOff_m = labelHead.si();
  curve.m_largest_m3_s = labelFlow.si();
  return curve;
}

Result<PumpCurve> PumpCurve::from(const model::Pump& pump) {
  if (!isPositive(pump.speed)) {
    return labelImpossible(pump.labelFlow.value.si(), pump.labelHead.value.si(), pump.speed);
  }
  const double speed = pump.speed;
  if (pump.points.empty()) {
    auto curve = fromLabels(pump.labelFlow.value, pump.labelHead.value);
    if (curve) {
      curve->m_shutOff_m *= speed * speed;
      curve->m_largest_m3_s *= speed;
    }
    return curve;
  }
  if (const auto checked = checkPoints(pump); !checked) return checked.error();

  PumpCurve curve;
  curve.m_measured = true;
  for (const auto& [flow, head] : pump.points) {
    curve.m_flow_m3_s.push_back(flow.si() * speed);
    curve.m_head_m.push_back(head.si() * speed * speed);
  }
  auto& flows = curve.m_flow_m3_s;
  auto& heads = curve.m_head_m;
  auto& slopes = curve.m_slope;
  slopes = monotoneSlopes(flows, heads);
  if (flows.front() > 0.0) {
    const double head = heads.front() - slopes.front() * flows.front();
    flows.insert(flows.begin(), 0.0);
    heads.insert(heads.begin(), head);
    slopes.insert(slopes.begin(), slopes.front());
  }
  if (heads.back() > 0.0) {
    const std::size_t last = flows.size() - 1;
    const double secant = (heads[last] - heads[last - 1]) / (flows[last] - flows[last - 1]);
    // A level end would never come down: there the last secant leads on.
    const double slope = slopes.back() < 0.0 ? slopes.back() : secant;
    flows.push_back(flows.back() - heads.back() / slope);
    heads.push_back(0.0);
    slopes.push_back(slope);
  }
  curve.m_shutOff_m = heads.front();
  curve.m_largest_m3_s = flows.back();
  return curve;
}

double PumpCurve::head_m(double flow_m3_s) const {
  if (flow_m3_s <= 0.0) return m_shutOff_m;
  if (flow_m3_s >= m_largest_m3_s) return 0.0;
  if (!m_measured) {
    const double share = flow_m3_s / m_largest_m3_s;
    return m_shutOff_m * (1.0 - share * share);
  }
  const auto after = std::upper_bound(m_flow_m3_s.begin(), m_flow_m3_s.end(), flow_m3_s);
  const auto n = static_cast<std::size_t>(after - m_flow_m3_s.begin()) - 1;
  const double width = m_flow_m3_s[n + 1] - m_flow_m3_s[n];
  const double t = (flow_m3_s - m_flow_m3_s[n]) / width;
  const double rise = m_head_m[n + 1] - m_head_m[n];
  const double a = m_slope[n] * width;
  const double b = m_slope[n + 1] * width;
  return m_head_m[n] + t * (a + t * (3.0 * rise - 2.0 * a - b + t * (a + b - 2.0 * rise)));
}

double PumpCurve::slope_s_m2(double flow_m3_s) const {
  if (flow_m3_s < 0.0 || flow_m3_s > m_largest_m3_s) return 0.0;
  if (!m_measured) return -2.0 * m_shutOff_m * flow_m3_s / (m_largest_m3_s * m_largest_m3_s);
  const auto after = std::upper_bound(m_flow_m3_s.begin(), m_flow_m3_s.end() - 1, flow_m3_s);
  const auto n = static_cast<std::size_t>(after - m_flow_m3_s.begin()) - 1;
  const double width = m_flow_m3_s[n + 1] - m_flow_m3_s[n];
  const double t = (flow_m3_s - m_flow_m3_s[n]) / width;
  const double rise = m_head_m[n + 1] - m_head_m[n];
  const double a = m_slope[n] * width;
  const double b = m_slope[n + 1] * width;
  return (a + t * (2.0 * (3.0 * rise - 2.0 * a - b) + 3.0 * t * (a + b - 2.0 * rise))) / width;
}

}  // namespace sunspool::hydraulics
