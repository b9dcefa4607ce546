// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What a polyethylene tube stands: bending, flattening, pressure, suction, heat through the wall, growth.
// Formulae of one tube each, without a verdict; the verdicts stand in checks. Everywhere
// OD = outside diameter, ID = inside diameter, t = wall, DR = OD/t, R = bend radius of the centre line.
// Left out: residual curvature of the roll, notches, chemical attack, fatigue.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::materials {

/// Nominal wall (OD - ID)/2. InsideNotBelowOutside (facts: inside, outside) unless 0 < inside < outside.
Result<Length> wallOf(Length outsideDiameter, Length insideDiameter);
/// Mean radius (OD - t)/2 of a wall that lies at the outside. [m]
Length meanRadius(Length outsideDiameter, Length wall);
/// OD/t.
double dimensionRatio(Length outsideDiameter, Length wall);

/// Smallest handbook bend radius as a multiple of OD, for cold bending of pressure pipe that stays bent:
/// DR up to 9: 20; up to 13.5: 25; up to 21: 27; up to 26: 34; up to 32.5: 42; up to 41: 52.
/// A DR between two rows takes the next worse row. OutOfRange (fact: dimension_ratio) above 41 or not above 2.
/// Source: [PPI], installation chapter, table of minimum cold bend radii.
Result<double> handbookBendMultiple(double dimensionRatio);
/// Multiple of OD when a fitting or flange lies in the bend. Source: [PPI], same table.
inline constexpr double kHandbookBendMultipleAtFitting = 100.0;

/// Radius at which a long, thin, elastic tube collapses in pure bending: R = r^2 sqrt(1 - nu^2) / (sqrt(2)/3 t), with
/// r the mean radius. A lower bound for collapse, not an allowable: polyethylene of DR 10 to 15 is thicker and creeps.
/// Give the minimum wall, not the nominal one. Source: [Brazier1927]; the constants are from memory and were
/// re-derived from one another. Valid for thin walls (r/t from about 10), elastic.
Length brazierCollapseRadius(Length outsideDiameter, Length wall, double poissonRatio);
/// Moment at collapse, 2 sqrt(2)/9 pi E r t^2 / sqrt(1 - nu^2). [N m] Source: [Brazier1927], as above.
double brazierCollapseMoment_N_m(Length outsideDiameter, Length wall, double poissonRatio, Pressure modulus);
/// Index I = collapse radius / bend radius; 0 for straight tube, 1 at collapse.
double bendIndex(Length collapseRadius, Length bendRadius);
/// Flattening of the round section, zeta = (2/9) I^2: the diameter across the bend plane shrinks by this share and the
/// one at right angles to it grows by it. Meaningful up to I = 1. Source: [Brazier1927].
double ovality(double bendIndex);
/// Largest strain in the wall, OD/(2R); R of the centre line. Source: plane bending of a beam.
double bendingStrain(Length outsideDiameter, Length bendRadius);

/// Pressure that a hoop stress carries, p = 2 stress / (DR - 1). Source: [PPI]; thin-wall ring.
Pressure hoopPressure(Pressure hoopStress, double dimensionRatio);
/// Its inverse.
Pressure hoopStress(Pressure pressure, double dimensionRatio);
/// Share of the 20 C pressure rating that soft polyethylene keeps: 1 up to 23 C, falling in a straight line to 0.5 at
/// 43 C and on to 50 C. OutOfRange (facts: temperature, highest) above 50 C: no pressure may be claimed there.
/// Assumption: judgement after irrigation teaching notes (Utah State University, Sprinkle and Trickle Irrigation,
/// lecture 21: polyethylene loses almost half by 43 C); harsher than tables for pressure pipe.
Result<double> softTubePressureShare(Temperature temperature);
/// The same for PE100 pressure pipe: 1 to 20 C, 0.94 at 30, 0.845 at 40, 0.68 at 60 C, straight between; OutOfRange
/// above 60 C. Source: [ASNZS4130] as reproduced by a maker.
Result<double> pe100PressureShare(Temperature temperature);
/// Rating at this temperature of a soft tube. Errors of softTubePressureShare.
Result<Pressure> softTubePressureRating(Pressure ratingAt20C, Temperature temperature);
/// Outside overpressure at which a long round tube is pressed flat, 2 E/(1 - nu^2)/(DR - 1)^3. Halve it for an oval
/// tube; take the modulus for the duration and temperature of the suction. From memory, standard thin-ring result.
Pressure collapsePressure(Pressure modulus, double poissonRatio, double dimensionRatio);

/// First digit of the density class in a PE material designation.
enum class PolyethyleneClass { Pe2xxx, Pe3xxx };
/// Apparent modulus at 23 C under a load that lasts. 0.5 h to 50 years, straight in the logarithm of time between the
/// rows; OutOfRange (fact: duration) elsewhere. Source: [PPI], chapter 3, table B.1.1.
/// Low-density tube is softer than either class: about 0.14 to 0.3 GPa for short loads.
Result<Pressure> apparentModulus(PolyethyleneClass polyethyleneClass, Duration duration);
/// Multiplier on the modulus against temperature, 1 at 23 C, 4 to 60 C, straight between the rows; OutOfRange (fact:
/// temperature) elsewhere. Source: [PPI], chapter 3, table B.1.2, from memory.
Result<double> modulusTemperatureMultiplier(Temperature temperature);

/// Resistance of the wall to heat for one metre of tube, ln(OD/ID)/(2 pi k). [m K/W] Source: conduction through a
/// cylinder. ID below OD and k > 0 are checked where they enter.
double wallResistance_mK_W(Length outsideDiameter, Length insideDiameter, ThermalConductivity conductivity);
/// Growth of a length when it warms by this difference; negative when it cools.
Length thermalGrowth(Length length, ThermalExpansion expansion, TemperatureDifference warming);

}  // namespace sunspool::materials
