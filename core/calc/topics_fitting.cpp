// SPDX-License-Identifier: GPL-3.0-or-later
// Fittings, and how parallel runs share the water.
#include "core/calc/topic.h"
#include "core/hydraulics/friction.h"
#include "core/hydraulics/network.h"

namespace sunspool::calc::detail {
namespace {

using namespace hydraulics;

Result<Answer> elbow(const Values& v) {
  const auto k = [&](TwoKFitting fitting) {
    return hooperLossCoefficient(fitting, number(v, "reynolds"), as<Length>(v, "inside_diameter_m"));
  };
  return outputs({{"elbow_90", k(TwoKFitting::Elbow90)},
                  {"elbow_45", k(TwoKFitting::Elbow45)},
                  {"tee_through", k(TwoKFitting::TeeThrough)},
                  {"tee_branch", k(TwoKFitting::TeeBranch)},
                  {"full_bore_valve", k(TwoKFitting::FullBoreValve)},
                  {"pipe_entrance", kPipeEntranceLossCoefficient},
                  {"pipe_exit", kPipeExitLossCoefficient}});
}

Result<Answer> barb(const Values& v) {
  const Length bore = as<Length>(v, "bore_m"), tube = as<Length>(v, "inside_diameter_m");
  return outputs({{"on_tube", barbLossCoefficient(bore, tube)}, {"on_bore", barbLossCoefficientOnBore(bore, tube)}});
}

Result<Answer> protrudingBarb(const Values& v) {
  return outputs({{"loss_coefficient", protrudingBarbLossCoefficient(number(v, "open_area_ratio"))}});
}

Result<Answer> parallelSplit(const Values& v) {
  const auto pump = PumpCurve::fromLabels(as<VolumeFlow>(v, "label_flow_m3_s"), as<Length>(v, "label_head_m"));
  if (!pump) return pump.error();
  Network network;
  for (const char* length : {"length_a_m", "length_b_m"}) {
    network.runs.push_back({{{number(v, length), 0.0, as<Temperature>(v, "water_C").inKelvin()}},
                            number(v, "inside_diameter_m"),
                            number(v, "roughness_m"),
                            0.0});
  }
  return solve(network, *pump).transform([](const NetworkFlow& flow) {
    return outputs({{"flow_a_m3_s", flow.runs[0].flow_m3_s},
                    {"flow_b_m3_s", flow.runs[1].flow_m3_s},
                    {"flow_m3_s", flow.flow_m3_s},
                    {"head_m", flow.head_m}});
  });
}

Input runLength(std::string_view key, std::string_view meaning) { return input(key, meaning, 0.01, 1e5); }

}  // namespace

std::vector<Topic> fittingTopics() {
  return {
      {"elbow",
       "loss coefficients of elbows, tees, valves and pipe ends on V^2/2",
       {reynolds(), insideDiameter()},
       {"elbow_90", "elbow_45", "tee_through", "tee_branch", "full_bore_valve", "pipe_entrance", "pipe_exit"},
       elbow,
       "K = K1/Re + Kinf (1 + 1/D), D in inches; entrance 0.5, exit 1",
       "[Hooper1981] screwed ends; [Idelchik]",
       "screwed ends; the valve is a full-bore gate, ball or plug valve, from memory"},
      {"barb",
       "loss coefficient of an insert fitting",
       {input("bore_m", "bore of the barb", 1e-4, 10.0), insideDiameter()},
       {"on_tube", "on_bore"},
       barb,
       "s = (b/d)^2; on the tube's V^2/2: (0.5 (1 - s) + (1 - s)^2)/s^2",
       "contraction and Borda-Carnot widening, all handbooks",
       "a lower bound: measured small connectors lie between 2.7 and 24 (Rev. Bras. Eng. Agric. Ambiental 23(7), "
       "2019)"},
      {"protruding-barb",
       "loss coefficient of a barb that sticks through the wall of a lateral",
       {input("open_area_ratio", "open share of the section", 0.01, 1.0)},
       {"loss_coefficient"},
       protrudingBarb,
       "K = 1.23 IO^0.51, IO = ((1 - r)/r)^2",
       "[BioEngPE]; definition of IO from memory",
       "6000 < Re < 72000"},
      {"parallel-split",
       "two parallel runs on one pump, by the engine's network",
       {runLength("length_a_m", "length of run a"), runLength("length_b_m", "length of run b"), insideDiameter(),
        input("label_flow_m3_s", "flow on the pump's label, at no lift", 1e-7, 10.0),
        input("label_head_m", "lift on the pump's label, at no flow", 1e-3, 1000.0), waterTemperature(20.0),
        input("roughness_m", "roughness of the wall", 0.0, 0.1, 7e-6)},
       {"flow_a_m3_s", "flow_b_m3_s", "flow_m3_s", "head_m"},
       parallelSplit,
       "one loss common to both runs; pump H = H0 (1 - (Q/Qmax)^2); turbulent flows split nearly as (Lb/La)^(1/1.75)",
       "[Colebrook1939]; pump parabola: assumption",
       "no feed, return, fittings or bends"},
  };
}

}  // namespace sunspool::calc::detail
