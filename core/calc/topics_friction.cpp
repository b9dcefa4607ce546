// SPDX-License-Identifier: GPL-3.0-or-later
// Friction in straight and coiled tube. f is the Darcy factor everywhere.
#include "core/calc/topic.h"
#include "core/hydraulics/friction.h"
#include "core/hydraulics/network.h"
#include "core/hydraulics/tube_law.h"

namespace sunspool::calc::detail {
namespace {

using namespace hydraulics;

/// Loss of one stretch by the engine's law; bendRadius 0 = straight.
Result<Answer> lossInTube(const Values& v, Length bendRadius) {
  const Length bore = as<Length>(v, "inside_diameter_m"), roughness = as<Length>(v, "roughness_m");
  const FlowPath path{{{number(v, "length_m"), bendRadius.si(), as<Temperature>(v, "water_C").inKelvin()}},
                      bore.si(),
                      roughness.si(),
                      0.0};
  const Result<PathLoss> loss = pathLoss(path, as<VolumeFlow>(v, "flow_m3_s"));
  if (!loss) return loss.error();
  const TubeLaw law(roughness / bore, bendRadius.si() > 0.0 ? bore / (2.0 * bendRadius) : 0.0);
  return outputs({{"velocity_m_s", loss->velocity_m_s},
                  {"reynolds", loss->reynolds},
                  {"friction", law.at(loss->reynolds, Branch::Best).friction},
                  {"friction_low", law.at(loss->reynolds, Branch::Low).friction},
                  {"friction_high", law.at(loss->reynolds, Branch::High).friction},
                  {"pressure_drop_Pa", loss->loss_Pa},
                  {"pressure_drop_low_Pa", loss->low_Pa},
                  {"pressure_drop_high_Pa", loss->high_Pa}});
}

Result<Answer> straight(const Values& v) { return lossInTube(v, metres(0.0)); }
Result<Answer> coil(const Values& v) { return lossInTube(v, 0.5 * as<Length>(v, "coil_diameter_m")); }

Result<Answer> straightFactors(const Values& v) {
  const double re = number(v, "reynolds"), roughness = number(v, "relative_roughness");
  const TubeLaw law(roughness, 0.0);
  return outputs({{"laminar", laminarFriction(re)},
                  {"colebrook", colebrookFriction(re, roughness)},
                  {"haaland", haalandFriction(re, roughness)},
                  {"churchill", churchillFriction(re, roughness)},
                  {"blasius", blasiusFriction(re)},
                  {"small_polyethylene", smallPolyethyleneFriction(re)},
                  {"engine", law.at(re, Branch::Best).friction},
                  {"engine_low", law.at(re, Branch::Low).friction},
                  {"engine_high", law.at(re, Branch::High).friction}});
}

double curvatureOf(const Values& v) { return as<Length>(v, "inside_diameter_m") / as<Length>(v, "coil_diameter_m"); }

Result<Answer> coilFactorsLaminar(const Values& v) {
  const double re = number(v, "reynolds"), curvature = curvatureOf(v);
  const double dean = deanNumber(re, curvature);
  return outputs({{"dean", dean},
                  {"white_ratio", whiteCoilRatio(dean)},
                  {"white", whiteCoilFriction(re, curvature)},
                  {"mori_nakayama_ratio", moriNakayamaLaminarCoilRatio(dean)},
                  {"mori_nakayama", moriNakayamaLaminarCoilFriction(re, curvature)}});
}

Result<Answer> coilFactorsTurbulent(const Values& v) {
  const double re = number(v, "reynolds"), curvature = curvatureOf(v);
  return outputs({{"ito", itoTurbulentCoilFriction(re, curvature)},
                  {"mori_nakayama", moriNakayamaTurbulentCoilFriction(re, curvature)}});
}

Result<Answer> critical(const Values& v) {
  const double curvature = curvatureOf(v);
  return outputs({{"ito", itoCriticalReynolds(curvature)},
                  {"schmidt", schmidtCriticalReynolds(curvature)},
                  {"srinivasan", srinivasanCriticalReynolds(curvature)}});
}

Result<Answer> flatSpiral(const Values& v) {
  return outputs(
      {{"loss_coefficient", rennelsSpiralLossCoefficient(
                                as<Length>(v, "inside_diameter_m"), as<Length>(v, "inner_radius_m"),
                                as<Length>(v, "outer_radius_m"), as<Length>(v, "pitch_m"), number(v, "friction"))}});
}

Result<Answer> helix(const Values& v) {
  return outputs({{"loss_coefficient",
                   rennelsHelixLossCoefficient(as<Length>(v, "inside_diameter_m"), as<Length>(v, "radius_m"),
                                               as<Length>(v, "pitch_m"), number(v, "turns"), number(v, "friction"))}});
}

Result<Answer> darcy(const Values& v) {
  return outputs({{"pressure_drop_Pa",
                   darcyWeisbach(number(v, "friction"), as<Length>(v, "length_m"), as<Length>(v, "inside_diameter_m"),
                                 as<Density>(v, "density_kg_m3"), as<Velocity>(v, "velocity_m_s"))
                       .si()}});
}

Result<Answer> hazenWilliams(const Values& v) {
  return outputs({{"head_m", hazenWilliamsHead(as<VolumeFlow>(v, "flow_m3_s"), as<Length>(v, "length_m"),
                                               as<Length>(v, "inside_diameter_m"), number(v, "coefficient"))
                                 .si()}});
}

Input flow() { return input("flow_m3_s", "water through this tube", 1e-12, 10.0); }
Input length() { return input("length_m", "length of the tube", 0.0, 1e6); }
Input coilDiameter() { return input("coil_diameter_m", "diameter of the coil's centre line", 1e-3, 1e4); }
Input roughness() { return input("roughness_m", "roughness of the wall", 0.0, 0.1, 7e-6); }
Input friction() { return input("friction", "Darcy friction factor", 0.0, 1e4); }

constexpr std::string_view kEngineSource =
    "[Colebrook1939]; [White1929]; [Ito1959] from memory; passage between the laws: assumption";

}  // namespace

std::vector<Topic> frictionTopics() {
  const std::vector<std::string_view> lossOutputs{"velocity_m_s",
                                                  "reynolds",
                                                  "friction",
                                                  "friction_low",
                                                  "friction_high",
                                                  "pressure_drop_Pa",
                                                  "pressure_drop_low_Pa",
                                                  "pressure_drop_high_Pa"};
  const std::vector<Input> coiled{reynolds(), insideDiameter(), coilDiameter()};
  return {
      {"friction",
       "pressure lost in a straight tube, by the engine's law",
       {flow(), insideDiameter(), length(), waterTemperature(20.0), roughness()},
       lossOutputs,
       straight,
       "dp = f (L/d) rho V^2/2; f = 64/Re up to Re 2000, Colebrook from 4000, between them a band",
       kEngineSource,
       "Re up to 1e8, roughness up to 5 % of the bore; about 5 % outside the band"},
      {"coil-friction",
       "pressure lost in a coiled tube, by the engine's law",
       {flow(), insideDiameter(), coilDiameter(), length(), waterTemperature(20.0), roughness()},
       lossOutputs,
       coil,
       "dp = f (L/d) rho V^2/2; f of White up to Ito's critical Re, of Ito from 1.25 times that, between them a band",
       kEngineSource,
       "coil diameter above the bore; Re up to 1e8"},
      {"friction-factor",
       "friction factors of straight tube side by side",
       {reynolds(), input("relative_roughness", "roughness over inside diameter", 0.0, 0.05, 0.0)},
       {"laminar", "colebrook", "haaland", "churchill", "blasius", "small_polyethylene", "engine", "engine_low",
        "engine_high"},
       straightFactors,
       "64/Re; 1/sqrt f = -2 log10(e/3.7d + 2.51/(Re sqrt f)); 1/sqrt f = -1.8 log10((e/3.7d)^1.11 + 6.9/Re); "
       "Churchill; 0.3164 Re^-0.25; 0.300 Re^-0.25",
       "[Colebrook1939]; [Haaland1983]; [Churchill1977]; [Blasius1913]; [BioEngPE]",
       "64/Re below about 2000; Colebrook and Haaland 4000 to 1e8; Blasius 4000 to 1e5; small polyethylene 6000 to "
       "72000, 10 to 20 mm bore; Churchill everywhere"},
      {"coil-friction-laminar",
       "friction factor of a coil, laminar",
       coiled,
       {"dean", "white_ratio", "white", "mori_nakayama_ratio", "mori_nakayama"},
       coilFactorsLaminar,
       "De = Re sqrt(d/D); White: f/fs = 1/(1 - (1 - (11.6/De)^0.45)^(1/0.45)); "
       "Mori and Nakayama: f/fs = 0.108 sqrt De/(1 - 3.253/sqrt De)",
       "[White1929]; [MoriNakayama1965]",
       "White 11.6 < De < 2000, ratio 1 below; Mori and Nakayama 100 < De < 2000"},
      {"coil-friction-turbulent",
       "friction factor of a smooth coil, turbulent",
       coiled,
       {"ito", "mori_nakayama"},
       coilFactorsTurbulent,
       "X = Re (d/D)^2; Ito: f = sqrt(d/D) (0.029 + 0.304 X^-0.25); "
       "Mori and Nakayama: f = 0.3 sqrt(d/D) X^-0.2 (1 + 0.112 X^-0.2)",
       "[Ito1959] from memory; [MoriNakayama1967]",
       "0.034 < X < 300, above the critical Re; below 0.034 as straight"},
      {"critical-reynolds",
       "Reynolds number at which flow in a coil turns turbulent",
       {insideDiameter(), coilDiameter()},
       {"ito", "schmidt", "srinivasan"},
       critical,
       "20000 (d/D)^0.32; 2300 (1 + 8.6 (d/D)^0.45); 2100 (1 + 12 sqrt(d/D))",
       "[Ito1959]; [Schmidt1967]; [Srinivasan1968]",
       "d/D: Ito 0.00116 to 0.067, Schmidt below 0.14, Srinivasan 0.004 to 0.1"},
      {"flat-spiral",
       "a flat spiral as one loss coefficient on V^2/2",
       {insideDiameter(), input("inner_radius_m", "radius of the innermost turn", 1e-4, 1e3),
        input("outer_radius_m", "radius of the outermost turn", 1e-4, 1e3),
        input("pitch_m", "distance between neighbouring centre lines", 1e-4, 100.0), friction()},
       {"loss_coefficient"},
       flatSpiral,
       "K = (r1 - r0)/p (pi f (r1 + r0)/d + 0.20 + 4.8 f) + 13.2 f/(r0/d)^2",
       "[RennelsHudson2012]",
       "outer radius above inner; f of straight tube"},
      {"helix",
       "a helix as one loss coefficient on V^2/2",
       {insideDiameter(), input("radius_m", "radius of the centre line", 1e-4, 1e3),
        input("pitch_m", "rise of one turn", 0.0, 100.0), input("turns", "number of turns", 0.0, 1e5), friction()},
       {"loss_coefficient"},
       helix,
       "K = N (f sqrt((2 pi r)^2 + p^2)/d + 0.20 + 4.8 f)",
       "[RennelsHudson2012]",
       "f of straight tube"},
      {"darcy-weisbach",
       "pressure lost to a given friction factor",
       {friction(), length(), insideDiameter(), input("density_kg_m3", "density of the water", 1e-3, 1e5),
        input("velocity_m_s", "mean speed of the water", 0.0, 100.0)},
       {"pressure_drop_Pa"},
       darcy,
       "dp = f (L/d) rho V^2/2",
       "Darcy and Weisbach, definition of f",
       ""},
      {"hazen-williams",
       "head lost by the empirical formula of waterworks",
       {input("flow_m3_s", "water through this tube", 0.0, 10.0), insideDiameter(), length(),
        input("coefficient", "C, 150 for plastic", 1.0, 1000.0, kHazenWilliamsPlastic)},
       {"head_m"},
       hazenWilliams,
       "h = 10.67 L Q^1.852/(C^1.852 d^4.8704)",
       "common practice, no source; constant from memory",
       "water near 15 C, turbulent, pipes above about 50 mm"},
  };
}

}  // namespace sunspool::calc::detail
