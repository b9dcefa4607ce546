// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Everything above the panel: where the sun stands, what falls on a plane, how cold the sky looks.

#include "core/climate/horizon.h"
#include "core/climate/irradiance.h"
#include "core/climate/position.h"
#include "core/climate/sky.h"
