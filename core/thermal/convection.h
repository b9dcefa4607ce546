// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Heat transfer between a tube's inner wall and the water in it, straight and bent.
// Left out: natural convection in slow flow, the entry of each straight after a bend (both would raise the film).
// Symbols: Re Reynolds, Pr Prandtl, Nu Nusselt number; d inside diameter, L length, D diameter of the bend's
// centre line (twice its radius), f Darcy friction factor, De = Re sqrt(d/D) Dean number.
// Every function: OutOfRange (detail: the input's name) outside the range given at each input.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::thermal {

/// What the wall keeps constant around and along the tube.
enum class WallCondition { UniformTemperature, UniformFlux };

/// Fully developed laminar flow in a straight tube: 3.66 (uniform wall temperature), 4.364 (uniform flux).
/// Source: [DB] chapter 3; exact results of the laminar problem.
double nusseltLaminar(WallCondition wall);

/// Laminar flow with thermal entry, uniform wall temperature; mean over the length.
///   Nu = 3.66 + 0.0668 Gz / (1 + 0.04 Gz^(2/3)),  Gz = Re Pr d / L
/// @param reynolds > 0 (meant below 2300; not refused above)  @param prandtl > 0  @param diameterOverLength > 0
/// Source: [Hausen1943], as given in [DB] chapter 3.
Result<double> nusseltHausen(double reynolds, double prandtl, double diameterOverLength);

/// Laminar flow with thermal entry: Nu = 1.86 Gz^(1/3) (mu/mu_wall)^0.14. Falls below 3.66 in long tube: take the
/// larger.
/// @param viscosityRatio bulk over wall, > 0.  Source: [SiederTate1936].
Result<double> nusseltSiederTate(double reynolds, double prandtl, double diameterOverLength, double viscosityRatio);

/// Darcy friction factor of a smooth straight tube, f = (0.79 ln Re - 1.64)^-2. 3000 <= Re <= 5e6.
/// Source: [Petukhov1970], as used with Gnielinski's equation.
Result<double> frictionFactorSmooth(double reynolds);

/// Turbulent flow in a straight tube.
///   Nu = (f/8) (Re - 1000) Pr / [1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1)]
/// @param reynolds 3000 to 5e6  @param prandtl 0.5 to 2000  @param frictionFactor Darcy, > 0.
/// Accuracy: quoted at +-10 %.  Source: [Gnielinski1976].
Result<double> nusseltGnielinski(double reynolds, double prandtl, double frictionFactor);

/// Turbulent flow in a straight tube, water being heated: Nu = 0.023 Re^0.8 Pr^0.4.
/// @param reynolds >= 1e4  @param prandtl 0.7 to 160.  Accuracy: +-25 %.  Source: [DittusBoelter1930].
Result<double> nusseltDittusBoelter(double reynolds, double prandtl);

/// Laminar flow in a coil.
///   uniform flux: Nu^3 = (4.364 + 4.636/x3)^3 + 1.816 (De/x4)^1.5,  x3 = [1 + 1342/(De^2 Pr)]^2, x4 = 1 + 1.15/Pr
///   uniform wall temperature: 3.657, 4.343, 957, 1.158 and x4 = 1 + 0.477/Pr (these constants from memory)
/// @param diameterRatio d/D, 0 (straight) to 0.5.  Source: [ManlapazChurchill1981].
Result<double> nusseltCoilLaminar(double reynolds, double prandtl, double diameterRatio, WallCondition wall);

/// Turbulent flow in a coil.
///   Re < 2.2e4: Nu = 0.023 [1 + 14.8 (1 + d/D) (d/D)^(1/3)] Re^(0.8 - 0.22 (d/D)^0.1) Pr^(1/3)
///   else:       Nu = 0.023 [1 + 3.6 (1 - d/D) (d/D)^0.8] Re^0.8 Pr^(1/3)      (quoted up to Re 1.5e5)
/// @param diameterRatio d/D, above 0 to 0.5.  The two branches differ by about 1 % where they meet.
/// Source: [Schmidt1967].
Result<double> nusseltCoilTurbulent(double reynolds, double prandtl, double diameterRatio);

/// Reynolds number up to which the flow in a coil stays laminar: 2300 [1 + 8.6 (d/D)^0.45]; 2300 when straight.
/// @param diameterRatio d/D, 0 to 0.5 (quoted below 0.14).  Source: [Schmidt1967].
Result<double> criticalReynoldsCoil(double diameterRatio);

enum class FilmRegime { Laminar, Blended, Turbulent };
struct Film {
  double nusselt = 0.0;
  double coefficient_W_m2K = 0.0;  ///< h = Nu k / d, on the inner wall
  double laminarBelow = 0.0;       ///< Reynolds number where the blend begins
  double turbulentAbove = 0.0;     ///< ... and where it ends
  FilmRegime regime = FilmRegime::Turbulent;
};
/// The film the engine uses. Continuous in every argument.
///   laminar: nusseltCoilLaminar at uniform flux (4.364 in a straight tube)
///   turbulent: nusseltGnielinski on frictionFactorSmooth; in a bend the larger of that and nusseltCoilTurbulent,
///     whose two branches are blended linearly between Re 2.0e4 and 2.4e4
///   between the critical number Re_c and 4000/2300 Re_c: linear in Re between the two ends (straight: 2300 to 4000,
///     [Gnielinski2013], from memory).
/// Assumption: the same ratio of Reynolds numbers closes the blend in a bend, where no source read gives one. It moves
/// the heat of a polyethylene panel by well under 1 %, for the wall outweighs the film about tenfold.
/// @param reynolds > 0 to 5e6  @param prandtl 0.5 to 2000  @param insideDiameter > 0
/// @param bendRadius of the centre line; 0 = straight, else at least one inside diameter
/// @param conductivity of the water, > 0
Result<Film> filmCoefficient(double reynolds, double prandtl, Length insideDiameter, Length bendRadius,
                             ThermalConductivity conductivity);

}  // namespace sunspool::thermal
