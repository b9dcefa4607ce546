// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// From absorbed sun to the water's outlet temperature, and what happens without flow (Hottel-Whillier-Bliss).
// Left out: heat stored (but for warmedUp), losses that change along the flow.
// Symbols: U_L loss coefficient [W/(m^2 K)], W pitch, D tube diameter, F fin efficiency, F' collector efficiency
// factor, F_R heat removal factor, S absorbed sun [W/m^2], m c flow of heat capacity [W/K], A area.
// Every function: OutOfRange (detail: the input's name) outside the range given at each input.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::thermal {

/// Plate of conductivity k and thickness delta, tubes of diameter D bonded to it at pitch W.
struct FinnedTube {
  HeatTransferCoefficient loss;           ///< U_L > 0
  ThermalConductivity plateConductivity;  ///< k > 0
  Length plateThickness;                  ///< delta > 0
  Length pitch;                           ///< W >= D
  Length outsideDiameter;                 ///< D > 0
  Length insideDiameter;                  ///< > 0, at most D
  HeatTransferCoefficient film;           ///< h on the inner wall > 0
  double bondConductance_W_mK = 0.0;      ///< C_b per length of tube; 0 = perfect bond
};
struct FinResult {
  double parameter_1_m = 0.0;     ///< m = sqrt(U_L / (k delta))
  double finEfficiency = 1.0;     ///< F = tanh(x)/x, x = m (W - D)/2
  double efficiencyFactor = 1.0;  ///< F'
};
/// F' = (1/U_L) / {W [1/(U_L (D + (W - D) F)) + 1/C_b + 1/(pi D_i h)]}.
/// Source: [DB] section 6.5, eq. 6.5.12 and 6.5.18.
Result<FinResult> finnedTube(const FinnedTube& tube);

/// Tubes side by side without fin, uniform flux on the wall; per pitch W:
///   F' = 1 / (1 + U_L W [ln(Do/Di)/(2 pi k) + 1/(pi D_i h)])
/// The engine marches with this form, W being area per length of tube.
/// @param loss >= 0, pitch, conductivity and film > 0, 0 < insideDiameter < outsideDiameter.
/// Source: [DB] section 6.5 with the fin left out and the wall put in.
Result<double> matEfficiencyFactor(HeatTransferCoefficient loss, Length pitch, Length outsideDiameter,
                                   Length insideDiameter, ThermalConductivity wallConductivity,
                                   HeatTransferCoefficient film);
/// Resistance of the wall per length of tube, ln(Do/Di)/(2 pi k). [m K/W]
Result<double> wallResistance_mK_W(Length outsideDiameter, Length insideDiameter, ThermalConductivity conductivity);

struct HeatRemoval {
  double capacityRatio = 0.0;  ///< m c / (A U_L F')
  double flowFactor = 0.0;     ///< F'' = F_R / F'
  double removalFactor = 0.0;  ///< F_R
};
/// F_R = (m c / (A U_L)) [1 - exp(-A U_L F' / (m c))].
/// @param heatCapacityFlow_W_K m c > 0  @param area > 0  @param loss > 0  @param efficiencyFactor above 0 to 1
/// Source: [DB] eq. 6.7.4 and 6.7.5.
Result<HeatRemoval> heatRemoval(double heatCapacityFlow_W_K, Area area, HeatTransferCoefficient loss,
                                double efficiencyFactor);
/// T_o = T_a + S/U_L - (T_a + S/U_L - T_i) exp(-U_L F' A / (m c)). Source: [DB] eq. 6.6.4.
Result<Temperature> outletTemperature(Temperature inlet, Temperature air, Irradiance absorbed,
                                      HeatTransferCoefficient loss, double efficiencyFactor, Area area,
                                      double heatCapacityFlow_W_K);

/// An absorber without flow.
struct OpenAbsorber {
  double absorptance = 0.95, emittance = 0.95;
  Irradiance irradiance;
  Temperature air;
  Temperature sky;
  HeatTransferCoefficient wind;   ///< > 0
  HeatTransferCoefficient other;  ///< back and edges, on absorber - air, >= 0
};
/// Temperature at which alpha G = h_w (T - T_a) + e sigma (T^4 - T_sky^4) + U_o (T - T_a).
/// Accuracy: 1e-9 K. Source: the heat balance of the surface.
Result<Temperature> stagnationOpen(const OpenAbsorber& absorber);

struct GlazedAbsorber {
  double transmittanceAbsorptance = 0.8;
  double emittance = 0.95, coverEmittance = 0.88;
  Irradiance irradiance;
  Temperature air;
  HeatTransferCoefficient wind;
  HeatTransferCoefficient other;
  Angle tilt;
};
struct Stagnation {
  Temperature absorber;
  double lossCoefficient_W_m2K = 0.0;  ///< U_L there
};
/// T = T_a + S/U_L(T) with Klein's top loss of one cover. Source: [DB] section 6.4 and its definition of U_L.
Result<Stagnation> stagnationGlazed(const GlazedAbsorber& absorber);

/// Warm-up of a lump: T(t) = T_inf - (T_inf - T_0) exp(-t/tau), T_inf = T_a + S/U, tau = C/U.
struct WarmUp {
  Temperature final;
  Duration timeConstant;
};
/// @param capacity_J_m2K C > 0  @param loss U > 0
Result<WarmUp> warmUp(double capacity_J_m2K, HeatTransferCoefficient loss, Irradiance absorbed, Temperature air);
/// Time until `wanted`; OutOfRange when the lump never gets there.
Result<Duration> timeToReach(const WarmUp& warmUp, Temperature start, Temperature wanted);

}  // namespace sunspool::thermal
