// SPDX-License-Identifier: GPL-3.0-or-later
// Pumps, lift, suction and siphons.
#include "core/calc/topic.h"
#include "core/hydraulics/network.h"
#include "core/hydraulics/profile.h"
#include "core/hydraulics/pump_point.h"

namespace sunspool::calc::detail {
namespace {

using namespace hydraulics;

Result<Answer> pumpPoint(const Values& v) {
  return dutyPoint(as<Length>(v, "shut_off_head_m"), number(v, "pump_curvature_s2_m5"), as<Length>(v, "static_head_m"),
                   number(v, "system_curvature_s2_m5"), as<Density>(v, "density_kg_m3"))
      .transform([](const DutyPoint& point) {
        return outputs({{"flow_m3_s", point.flow.si()},
                        {"head_m", point.head.si()},
                        {"hydraulic_power_W", point.hydraulicPower.si()}});
      });
}

Result<Answer> affinity(const Values& v) {
  const PumpAtSpeed there = atSpeed({as<VolumeFlow>(v, "flow_m3_s"), as<Length>(v, "head_m"), as<Power>(v, "power_W")},
                                    number(v, "relative_speed"));
  return outputs({{"flow_m3_s", there.flow.si()}, {"head_m", there.head.si()}, {"power_W", there.power.si()}});
}

Result<Answer> pumpCurve(const Values& v) {
  return PumpCurve::fromLabels(as<VolumeFlow>(v, "label_flow_m3_s"), as<Length>(v, "label_head_m"))
      .transform([&](const PumpCurve& curve) {
        return outputs({{"head_m", curve.head_m(number(v, "flow_m3_s"))}});
      });
}

Result<Answer> siphon(const Values& v) {
  const auto air = as<Pressure>(v, "air_pressure_Pa");
  const auto water = as<Temperature>(v, "water_C");
  const auto resting = restingPressure(air, water, as<Length>(v, "height_m"));
  if (!resting) return resting.error();
  const auto margin = vapourMargin(*resting - air, air, water);
  if (!margin) return margin.error();
  return columnBreakHeight(air, water).transform([&](Length breaks) {
    return outputs({{"column_break_height_m", breaks.si()},
                    {"practical_height_m", kPracticalSiphonHeight_m},
                    {"resting_pressure_Pa", resting->si()},
                    {"vapour_margin_Pa", margin->si()}});
  });
}

Result<Answer> suctionHead(const Values& v) {
  return suctionHeadAvailable(as<Pressure>(v, "air_pressure_Pa"), as<Temperature>(v, "water_C"),
                              as<Length>(v, "suction_lift_m"), as<Length>(v, "suction_loss_m"))
      .transform([](Length head) {
        return outputs({{"suction_head_m", head.si()}});
      });
}

}  // namespace

std::vector<Topic> pumpTopics() {
  return {
      {"pump-point",
       "where a pump and a pipe meet, both as parabolas",
       {input("shut_off_head_m", "head of the pump at no flow", 0.0, 1000.0),
        input("pump_curvature_s2_m5", "fall of the pump's head per square of flow", 0.0, 1e15),
        input("static_head_m", "lift that stays while running, 0 for a closed or submerged return", 0.0, 1000.0, 0.0),
        input("system_curvature_s2_m5", "loss of head per square of flow", 0.0, 1e15),
        input("density_kg_m3", "density of the water", 1.0, 2000.0, 1000.0)},
       {"flow_m3_s", "head_m", "hydraulic_power_W"},
       pumpPoint,
       "H0 - k Q^2 = Hs + C Q^2; power = rho g Q H",
       "two parabolas, no source needed",
       "one of the two curvatures above 0; turbulent losses"},
      {"affinity",
       "a pump's point at another speed",
       {input("flow_m3_s", "flow at the old speed", 0.0, 10.0), input("head_m", "head at the old speed", 0.0, 1000.0),
        input("power_W", "power at the old speed", 0.0, 1e6), input("relative_speed", "new over old speed", 0.0, 10.0)},
       {"flow_m3_s", "head_m", "power_W"},
       affinity,
       "Q as n, H as n^2, P as n^3",
       "affinity laws, all handbooks",
       "speeds of about 0.7 to 1.2 times the old one"},
      {"pump-curve",
       "head of a pump known by its label",
       {input("label_flow_m3_s", "flow on the label, at no lift", 1e-7, 10.0),
        input("label_head_m", "lift on the label, at no flow", 1e-3, 1000.0),
        input("flow_m3_s", "flow asked for", 0.0, 10.0)},
       {"head_m"},
       pumpCurve,
       "H = H0 (1 - (Q/Qmax)^2)",
       "assumption: a parabola between the two label numbers",
       "small pumps stay within about 10 %; 0 beyond the label flow; measure two points where it matters"},
      {"siphon",
       "how high a sealed way may lie over the pool",
       {waterTemperature(), input("height_m", "height of the top over the water of the pool", 0.0, 100.0),
        airPressure()},
       {"column_break_height_m", "practical_height_m", "resting_pressure_Pa", "vapour_margin_Pa"},
       siphon,
       "breaks at (p_air - p_saturation)/(rho g); at rest p = p_air - rho g h",
       "[IF97]; hydrostatics; practical height: common practice, no source",
       "pump off, sealed and full; dissolved air breaks a siphon long before; a negative resting pressure says that no "
       "such column can stand"},
      {"suction-head",
       "head over boiling at the inlet of a pump (NPSH available)",
       {waterTemperature(),
        input("suction_lift_m", "height of the pump over the water, negative when flooded", -100.0, 100.0),
        input("suction_loss_m", "head lost on the suction side", 0.0, 100.0), airPressure()},
       {"suction_head_m"},
       suctionHead,
       "(p_air - p_saturation)/(rho g) - lift - loss",
       "[IF97]; hydrostatics",
       ""},
  };
}

}  // namespace sunspool::calc::detail
