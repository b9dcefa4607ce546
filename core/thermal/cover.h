// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Sunlight through a clear sheet: reflection at its two faces, absorption inside, and how both grow with the angle.
// Left out: polarised sky light, ribs of twin-wall sheet (their transmittance falls faster across the ribs), dirt.
// Symbols: theta incidence from the normal, n refractive index (air 1), K L extinction times thickness, tau
// transmittance, alpha absorptance.
// Every function: OutOfRange (detail: the input's name) outside the range given at each input.

#include "core/base/quantity.h"
#include "core/base/result.h"

namespace sunspool::thermal {

/// Reflection of unpolarised light at one surface, air to sheet.
struct Reflection {
  double perpendicular = 0.0, parallel = 0.0;  ///< by polarisation
  double mean = 0.0;
  Angle refracted;
};
/// Fresnel: r_perp = sin^2(theta2 - theta1)/sin^2(theta2 + theta1), r_par with tan; at the normal [(n-1)/(n+1)]^2.
/// @param incidence 0 to 90 degrees  @param refractiveIndex 1 to 4.  Source: [DB] eq. 5.1.1 to 5.1.5.
Result<Reflection> fresnel(Angle incidence, double refractiveIndex);

/// One sheet with both faces and absorption. transmittance + reflectance + absorptance = 1.
struct Transmission {
  double perpendicular = 0.0, parallel = 0.0;  ///< transmittance by polarisation
  double transmittance = 0.0;                  ///< of unpolarised light
  double reflectance = 0.0, absorptance = 0.0;
  double absorbedOnly = 1.0;  ///< tau_a = exp(-K L / cos theta2), transmittance if nothing were reflected
};
/// Per polarisation tau = tau_a (1-r)^2 / (1 - (r tau_a)^2), then the mean.
/// @param opticalThickness K L, 0 to 50.  At 90 degrees nothing passes.  Source: [DB] section 5.3.
Result<Transmission> coverTransmission(Angle incidence, double refractiveIndex, double opticalThickness);
/// N equal sheets that absorb nothing: the mean of (1-r)/(1 + (2N-1) r) over both polarisations.
/// @param covers 1 to 5.  Source: [DB] eq. 5.1.8.
Result<double> stackTransmittance(Angle incidence, double refractiveIndex, int covers);

/// (tau alpha) = tau alpha / [1 - (1 - alpha) rho_d]: what an absorber under a cover keeps, light bounced back and
/// forth included.
/// @param transmittance, absorptance, diffuseReflectance (of the cover from below) each 0 to 1, rho_d below 1.
/// Source: [DB] eq. 5.5.1.
Result<double> transmittanceAbsorptance(double transmittance, double absorptance, double diffuseReflectance);

/// Angle at which beam radiation would pass a cover as sky and as ground radiation do.
struct EffectiveAngles {
  Angle sky;
  Angle ground;
};
/// sky: 59.7 - 0.1388 b + 0.001497 b^2, ground: 90 - 0.5788 b + 0.002693 b^2; b the tilt in degrees, 0 to 90.
/// Source: [BrandemuehlBeckman1980], [DB] eq. 5.4.1 and 5.4.2; from memory.
Result<EffectiveAngles> effectiveAngles(Angle tilt);

/// Incidence angle modifier K = 1 - b0 (1/cos theta - 1).
/// @param incidence 0 to 80 degrees (quoted to 60)  @param b0 0 to 1; OutOfRange when K would fall below 0.
/// Source: [DB] eq. 6.17.10 (Souka and Safwat 1966).
Result<double> incidenceModifier(Angle incidence, double b0);
/// One surface with absorption and no inter-reflection, relative to normal incidence:
/// tau = exp(-K L/cos theta2) [1 - (r_perp + r_par)/2].  Source: [DeSoto2006].
Result<double> incidenceModifierPhysical(Angle incidence, double refractiveIndex, double opticalThickness);

/// The builder's glazing: its transmittance at the normal is given (whole glazing, all walls), its fall with the angle
/// follows one sheet of that refractive index.
/// Assumption: what the given transmittance lacks against a clear sheet is absorbed or scattered on the way, so it
/// grows with the path (K L fitted at the normal). A twin-wall sheet loses part of it by reflection instead, which
/// grows more slowly: at 60 degrees this model then passes about 4 % less, on the side of less heat. A transmittance
/// above that of a clear sheet (coated faces) keeps the clear sheet's ratio.
struct GlazingOptics {
  double normalTransmittance = 1.0;
  double refractiveIndex = 1.526;
  double opticalThickness = 0.0;    ///< K L fitted
  double modelNormal = 1.0;         ///< transmittance of the fitted sheet at the normal
  double diffuseReflectance = 0.0;  ///< rho_d from below: tau_a - tau of the fitted sheet at 60 degrees
};
/// @param normalTransmittance above 0 to 1  @param refractiveIndex 1 to 4
Result<GlazingOptics> glazingOptics(double normalTransmittance, double refractiveIndex);
/// Transmittance of that glazing at this angle, 0 to 90 degrees.
Result<double> glazingTransmittance(const GlazingOptics& glazing, Angle incidence);

}  // namespace sunspool::thermal
