// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Moisture of the air and how cold a clear sky looks.

#include "core/base/quantity.h"

namespace sunspool::climate {

/// Saturation pressure over water by the Magnus form 610.94 exp(17.625 t/(t + 243.04)) Pa, t in degrees Celsius.
/// Valid from -40 to 50 degrees, within 0.4 %. Source: [AlduchovEskridge1996] (constants from memory).
Pressure magnusSaturationPressure(Temperature air);

/// Dew point, the inverse of the above. @param relativeHumidity above 0 and up to 1; completely dry air (0 and below)
/// gives the form's own limit, -243.04 degrees Celsius.
/// Accuracy: 0.02 K from -20 to 50 degrees. Source: [AlduchovEskridge1996].
Temperature dewPoint(Temperature air, double relativeHumidity);

/// Emissivity of a clear sky near sea level, 0.711 + 0.0056 t + 0.000073 t^2 + 0.013 cos(15 h), t the dew point in
/// degrees Celsius, h the solar hour from midnight. Fitted for dew points from about -20 to 30 degrees; below the
/// polynomial's lowest point, -38.4 degrees, that lowest value is kept instead of letting dry skies grow warmer again.
/// Source: [BerdahlMartin1984].
double skyEmissivity(Temperature dewPoint, double hour);
/// Berdahl & Martin (1984) clear-sky temperature: air temperature times the fourth root of the emissivity.
/// hour: solar, from midnight.
Temperature skyTemperature(Temperature air, Temperature dewPoint, double hour);
/// Swinbank (1963): 0.0552 T^1.5, T in kelvin; no moisture asked. Source: [DB] eq. 3.9.2.
Temperature swinbankSkyTemperature(Temperature air);

}  // namespace sunspool::climate
