// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Friction factors of straight and coiled tube and loss coefficients of fittings, one function per published formula.
// f is the Darcy factor everywhere: loss = f (L/d) rho V^2/2. Re = rho V d/viscosity, e/d = relative roughness,
// d/D = inside diameter over coil diameter (of the centre line), De = Re sqrt(d/D). All plain numbers.
// The functions answer for every positive Re, also outside the range a formula was fitted for; the ranges stand beside
// them as constants, so that a caller can say when one is left. Inputs are checked where they enter.
// Left out: entry lengths, pulsation, non-round bores.

#include "core/base/quantity.h"

namespace sunspool::hydraulics {

/// The inputs for which a correlation is stated.
struct Range {
  double lowest = 0.0;
  double highest = 0.0;
  constexpr bool contains(double value) const { return value >= lowest && value <= highest; }
};

// ---- straight tube

/// Below this Re the flow in a straight tube is laminar; the customary design limit is 2300, the onset of sustained
/// turbulence 2040 (Avila et al., Science 333, 2011). The engine opens its band at 2000, a little early on purpose.
inline constexpr double kTransitionBegins = 2000.0;
/// Above this Re the turbulent formulas hold. Between the two the answer is a band.
inline constexpr double kTransitionEnds = 4000.0;

/// 64/Re. Source: Hagen and Poiseuille. Exact for developed laminar flow.
double laminarFriction(double reynolds);
/// 1/sqrt(f) = -2 log10(e/(3.7 d) + 2.51/(Re sqrt(f))), solved to 1e-13. Source: [Colebrook1939]. About +-5 %.
double colebrookFriction(double reynolds, double relativeRoughness);
/// Its root x = 1/sqrt(f), looked for from a root nearby, which saves about half the time. Any start > 0 ends within
/// 1e-13.
double colebrookRoot(double start, double reynolds, double relativeRoughness);
inline constexpr Range kColebrookReynolds{4000.0, 1e8};
/// 1/sqrt(f) = -1.8 log10((e/(3.7 d))^1.11 + 6.9/Re). Source: [Haaland1983]. Within 2 % of Colebrook.
double haalandFriction(double reynolds, double relativeRoughness);
inline constexpr Range kHaalandReynolds{4000.0, 1e8};
/// One formula for all regimes; its transition is not monotone between 2100 and 3500. Source: [Churchill1977].
double churchillFriction(double reynolds, double relativeRoughness);
/// 0.3164 Re^-0.25, smooth tube. Source: [Blasius1913].
double blasiusFriction(double reynolds);
inline constexpr Range kBlasiusReynolds{4000.0, 1e5};
/// 0.300 Re^-0.25, measured on polyethylene tube of 10.0 to 19.7 mm bore at 20 C; smooth-pipe formulas read up to 5 %
/// higher. Source: [BioEngPE].
double smallPolyethyleneFriction(double reynolds);
inline constexpr Range kSmallPolyethyleneReynolds{6000.0, 72000.0};

/// Loss of head by Hazen and Williams, 10.67 L Q^1.852/(C^1.852 d^4.8704). [m] Empirical, water near 15 C, turbulent.
/// C = 150 for plastic tube. Source: common practice; constant of the SI form from memory.
Length hazenWilliamsHead(VolumeFlow flow, Length length, Length insideDiameter, double coefficient);
inline constexpr double kHazenWilliamsPlastic = 150.0;

// ---- coiled tube

/// De = Re sqrt(d/D).
double deanNumber(double reynolds, double curvatureRatio);
/// Laminar coil: f/f_straight = 1/(1 - (1 - (11.6/De)^0.45)^(1/0.45)), 1 for De <= 11.6. Source: [White1929].
double whiteCoilRatio(double dean);
inline constexpr Range kWhiteDean{11.6, 2000.0};
double whiteCoilFriction(double reynolds, double curvatureRatio);
/// Laminar coil: f/f_straight = 0.108 sqrt(De)/(1 - 3.253/sqrt(De)), De > 10.6. Source: [MoriNakayama1965].
double moriNakayamaLaminarCoilRatio(double dean);
inline constexpr Range kMoriNakayamaDean{100.0, 2000.0};
double moriNakayamaLaminarCoilFriction(double reynolds, double curvatureRatio);

/// Re at which flow in a long coil turns turbulent: 20000 (d/D)^0.32. Source: [Ito1959].
double itoCriticalReynolds(double curvatureRatio);
inline constexpr Range kItoCriticalCurvature{0.00116, 0.067};
/// 2300 (1 + 8.6 (d/D)^0.45). Source: [Schmidt1967].
double schmidtCriticalReynolds(double curvatureRatio);
inline constexpr Range kSchmidtCriticalCurvature{0.0, 0.14};
/// 2100 (1 + 12 sqrt(d/D)). Source: [Srinivasan1968]; range from memory.
double srinivasanCriticalReynolds(double curvatureRatio);
inline constexpr Range kSrinivasanCriticalCurvature{0.004, 0.1};

/// Turbulent coil, smooth: f = sqrt(d/D) (0.029 + 0.304 X^-0.25), X = Re (d/D)^2. Source: [Ito1959], from memory;
/// within 1.2 % of the form of Mori and Nakayama.
double itoTurbulentCoilFriction(double reynolds, double curvatureRatio);
/// Of X; below it the tube counts as straight.
inline constexpr Range kItoTurbulentX{0.034, 300.0};
/// Turbulent coil, smooth: f = 0.3 sqrt(d/D) X^-0.2 (1 + 0.112 X^-0.2). Source: [MoriNakayama1967].
double moriNakayamaTurbulentCoilFriction(double reynolds, double curvatureRatio);

/// A flat spiral as one loss coefficient on V^2/2:
/// K = (rmax - rmin)/p (pi f (rmax + rmin)/d + 0.20 + 4.8 f) + 13.2 f/(rmin/d)^2. Source: [RennelsHudson2012].
double rennelsSpiralLossCoefficient(Length insideDiameter, Length innerRadius, Length outerRadius, Length pitch,
                                    double friction);
/// A helix of n turns: K = n (f sqrt((2 pi r)^2 + p^2)/d + 0.20 + 4.8 f). Source: [RennelsHudson2012].
double rennelsHelixLossCoefficient(Length insideDiameter, Length radius, Length pitch, double turns, double friction);

// ---- fittings, K on V^2/2

/// Fittings of the two-K method. Source: [Hooper1981]: screwed ends; the valve is a full-bore gate, ball or plug valve
/// (from memory).
enum class TwoKFitting { Elbow90, Elbow45, TeeThrough, TeeBranch, FullBoreValve };
/// K = K1/Re + Kinf (1 + 1/D), D the inside diameter in inches.
double hooperLossCoefficient(TwoKFitting fitting, double reynolds, Length insideDiameter);

/// A barb of bore b pushed into tube of inside diameter d, on the velocity in the tube:
/// (0.5 (1 - s) + (1 - s)^2)/s^2, s = (b/d)^2: contraction into the barb and Borda-Carnot widening behind it.
/// A bore wider than the tube widens first and contracts after, K on the tube as the narrower of the two.
/// Real connectors measure from 2.7 to 24 (Rev. Bras. Eng. Agric. Ambiental 23(7), 2019), so a measured K replaces it.
double barbLossCoefficient(Length bore, Length tubeInsideDiameter);
/// The same on the velocity in the bore.
double barbLossCoefficientOnBore(Length bore, Length tubeInsideDiameter);
/// A barb that sticks through the wall of a lateral: K = 1.23 IO^0.51, IO = ((1 - r)/r)^2, r = open share of the
/// section. 6000 < Re < 72000. Source: [BioEngPE]; the definition of IO from memory.
double protrudingBarbLossCoefficient(double openAreaRatio);
/// Pipe into still water. Source: momentum balance; all handbooks.
inline constexpr double kPipeExitLossCoefficient = 1.0;
/// Still water into a sharp flush pipe end; handbooks give 0.50 to 0.57. Source: [Idelchik].
inline constexpr double kPipeEntranceLossCoefficient = 0.5;

/// Water speed in pipes below 100 mm: fast enough to carry air along (0.6 m/s in a riser), slow enough for
/// thermoplastic (1.5 m/s, 5 ft/s in ASAE S376, from memory). [m/s] Source: irrigation guides, common practice.
inline constexpr Range kUsualVelocity_m_s{0.6, 1.5};

/// Loss of pressure, f (L/d) rho V^2/2. Source: Darcy and Weisbach.
Pressure darcyWeisbach(double friction, Length length, Length insideDiameter, Density density, Velocity velocity);

}  // namespace sunspool::hydraulics
